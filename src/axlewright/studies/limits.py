"""What may I do with what I have?  The load path turned round: the limit card."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import replace
from typing import cast

import numpy as np
from numpy.typing import NDArray

from axlewright import __version__
from axlewright.build.machine import Machine
from axlewright.build.resolve import Resolved
from axlewright.build.resolve.pushing import tire_of_class
from axlewright.catalogue.load import data_hash, rows_of
from axlewright.catalogue.rows import Tire
from axlewright.quantities.estimate import Plain
from axlewright.quantities.finding import Finding, band, likelihood
from axlewright.quantities.formula import Array, Num
from axlewright.quantities.sampling import Samples
from axlewright.quantities.units import from_si, pretty, show
from axlewright.studies.dial_march import DialMarch, turned_march
from axlewright.studies.dials import Dial, dials
from axlewright.studies.links.limit import Link
from axlewright.studies.path import Path, evaluate
from axlewright.studies.report import CardLine, GripStep, LimitCard, LinkLimits, Made

STUDY = "limit card 2"
SAMPLES = 400
_SURE = 0.05
_ROUNDING = {"rotation": 100.0, "pressure": 0.5, "torque": 10.0, "ratio": 0.05, "short time": 5.0}


def limit_card(
    resolved: Resolved,
    seed: int = 1,
    count: int = SAMPLES,
    marched: Mapping[str, DialMarch] | None = None,
) -> LimitCard:
    """Turn each dial until the first link breaks; try each class of tire.

    ``marched`` holds what marching the launch along each dial found, for a marched build.
    """
    known = marched or {}
    plain: Machine[Num] = Plain().tree(resolved.machine)
    samples = Samples(seed, count)
    sampled: Machine[Num] = samples.tree(resolved.machine)
    turned = [
        (dial, *_turn(dial, plain, sampled, count, known.get(dial.name))) for dial in dials(plain)
    ]
    return LimitCard(
        name=resolved.machine.name,
        lines=tuple(_line(dial, plain, margins, sure) for dial, margins, sure in turned),
        tires=_tires(resolved, seed, count),
        links=_by_link(turned),
        cautions=resolved.cautions,
        made=Made(
            f"axlewright {__version__}", STUDY, data_hash(), resolved.source.hash, seed, count
        ),
    )


def breaking_margin(link: Link, least: tuple[Num, ...]) -> Num | None:
    """The least margin against breaking of a link, or None if it has no such limit."""
    margins = [m for x, m in zip(link.limits, least, strict=True) if x.kind == "breaks"]
    return functools.reduce(np.minimum, margins) if margins else None


def _margins(path: Path) -> dict[str, Num]:
    found = {
        x.title: breaking_margin(x, least) for x, least in zip(path.links, path.least, strict=True)
    }
    return {title: m for title, m in found.items() if m is not None}


def _turn(
    dial: Dial, plain: Machine[Num], sampled: Machine[Num], count: int, found: DialMarch | None
) -> tuple[dict[str, Array], Array]:
    """Nominal margin of each link along the dial, and the share of samples that are short."""
    grid = dial.grid()
    along = turned_march(dial.turned(plain, grid), found, grid)
    many = turned_march(dial.turned(sampled, grid[:, None]), found, grid[:, None])
    nominal = {
        title: np.broadcast_to(np.asarray(m, dtype=np.float64), grid.shape)
        for title, m in _margins(evaluate(along, by_case=False)).items()
    }
    drawn = _margins(evaluate(many, by_case=False))
    least = np.minimum.reduce(
        [np.broadcast_to(np.asarray(m), (grid.size, count)) for m in drawn.values()]
    )
    return nominal, cast(Array, np.mean(least < 1.0, axis=1))


def last_good(grid: Array, good: NDArray[np.bool_]) -> float | None:
    """The setting up to which everything before it is good; None if not even the first is."""
    if not good[0]:
        return None
    bad = np.flatnonzero(~good)
    return float(grid[bad[0] - 1] if bad.size else grid[-1])


def crossing(grid: Array, margins: Array) -> float | None:
    """Where a margin first falls to one, between the steps; None if it starts below."""
    good = margins >= 1.0
    if not good[0]:
        return None
    bad = np.flatnonzero(~good)
    if not bad.size:
        return float(grid[-1])
    i = int(bad[0])
    share = (margins[i - 1] - 1.0) / (margins[i - 1] - margins[i])
    return float(grid[i - 1] + share * (grid[i] - grid[i - 1]))


def _round(dial: Dial, value: float) -> str:
    """Round to the careful side: down, or up for a time that must not be shorter."""
    step = _ROUNDING[dial.dimension]
    number, unit = from_si(value, dial.dimension)
    to = np.floor if dial.hard > dial.easy else np.ceil
    return f"{float(to(number / step + 1e-9) * step):,.4g} {pretty(unit)}".strip().replace(",", ",")


def _line(dial: Dial, plain: Machine[Num], margins: dict[str, Array], short: Array) -> CardLine:
    grid = dial.grid()
    table = np.vstack(list(margins.values()))
    least = np.min(table, axis=0)
    edge = crossing(grid, least)
    sure = last_good(grid, short < _SURE)
    now = show(float(dial.now(plain)), dial.dimension, digits=3)
    titles = list(margins)
    if edge is None:
        return CardLine(
            dial.name,
            now,
            "none",
            titles[int(np.argmin(table[:, 0]))],
            False,
            "no setting of this alone holds: change something else first",
        )
    at_edge = int(np.argmin(np.abs(grid - edge)))
    first = titles[int(np.argmin(table[:, min(at_edge + 1, grid.size - 1)]))]
    everything = bool(np.all(least >= 1.0))
    word = "down to" if dial.hard < dial.easy else "up to"
    allowed = f"{word} {_round(dial, edge)}" if not everything else "whatever it is"
    note = (
        f"surely {word} {_round(dial, sure)}" if sure is not None else "not surely at any setting"
    )
    if everything and sure is not None and sure == grid[-1]:
        note = "surely, whatever it is"
    return CardLine(dial.name, now, allowed, first, everything, note)


def _by_link(turned: list[tuple[Dial, dict[str, Array], Array]]) -> tuple[LinkLimits, ...]:
    """For each link, how far each dial may go before that link breaks."""
    rows: dict[str, dict[str, str]] = {}
    for dial, margins, _ in turned:
        for title, m in margins.items():
            rows.setdefault(title, {})[dial.name] = _allowed(dial, m)
    return tuple(LinkLimits(title, allowed) for title, allowed in rows.items())


def _allowed(dial: Dial, margins: Array) -> str:
    """How far a dial may go before one link breaks; at most, or for a time at least."""
    edge = crossing(dial.grid(), margins)
    if edge is None:
        return "short already"
    if bool(np.all(margins >= 1.0)):
        return "any"
    return f"{'≥' if dial.hard < dial.easy else '≤'} {_round(dial, edge)}"


def _tires(resolved: Resolved, seed: int, count: int) -> tuple[GripStep, ...]:
    """What each class of tire would bring on the same surface."""
    steps = []
    for name in rows_of(Tire):
        tires = tire_of_class(resolved.machine.tires, name, resolved.machine.use.surface)
        leaf_machine = replace(resolved.machine, tires=tires)
        plain = evaluate(Plain().tree(leaf_machine))
        drawn = evaluate(Samples(seed, count).tree(leaf_machine))
        nominal, sampled = _margins(plain), _margins(drawn)
        worst = min(nominal, key=lambda t: float(nominal[t]))
        least = np.minimum.reduce(
            [np.broadcast_to(np.asarray(m), (count,)) for m in sampled.values()]
        )
        grip, grips = Plain().fill(tires.grip), Samples(seed, count).fill(tires.grip)
        steps.append(
            GripStep(
                name,
                _finding(f"tires.{name}.grip", "Peak friction", grip, grips, "ratio"),
                _finding(
                    f"tires.{name}.ring",
                    "Steady ring-gear torque in first gear",
                    plain.demand.gears[0].torques["ring"],
                    drawn.demand.gears[0].torques["ring"],
                    "torque",
                ),
                worst,
                _finding(
                    f"tires.{name}.margin",
                    "Margin of the weakest link",
                    nominal[worst],
                    least,
                    "ratio",
                ),
                likelihood(float(np.mean(least < 1.0))),
            )
        )
    return tuple(steps)


def _finding(key: str, means: str, nominal: Num, sampled: Num, dimension: str) -> Finding:
    low, high = band(sampled, float(nominal))
    return Finding(key, means, float(nominal), low, high, dimension)
