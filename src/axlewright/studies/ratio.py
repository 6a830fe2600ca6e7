"""Which ratio?  Real pairs of teeth on several tires: what each does, and what beats it.

Every number is worked out twice: at the nominal values for all pairs side by side, and on samples
that all pairs share, so that a difference between two ratios is no accident of the draw.  The
working of a number is made when it is asked for, from the very same code.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from axlewright import __version__
from axlewright.build.resolve import Resolved
from axlewright.catalogue.load import data_hash
from axlewright.driveline.tooth_counts import HuntingClass, hunting_class
from axlewright.quantities.estimate import EXACT, Estimate, Plain, leaves
from axlewright.quantities.finding import HIGH, LOW, Finding, likelihood
from axlewright.quantities.formula import Array, Num
from axlewright.studies.path import Path
from axlewright.studies.ratio_ask import Ask, TeethAsked
from axlewright.studies.ratio_choice import (
    aims,
    choice_sentence,
    choose,
    cruise_key,
    judged,
    price_sentence,
)
from axlewright.studies.ratio_fill import side_by_side, with_tire
from axlewright.studies.ratio_heat import heat_numbers
from axlewright.studies.ratio_report import RatioOption, RatioReport, SpeedAsked
from axlewright.studies.ratio_road import Numbers, breaking_margins, numbers
from axlewright.studies.ratio_times import time_numbers
from axlewright.studies.report import Made
from axlewright.studies.run_car import driving
from axlewright.studies.safety import safety_lines

STUDY = "ratio 2"
SAMPLES, SEED = 200, 1


@dataclass(frozen=True)
class _Table:
    """Nominal numbers and bands of every pair on one tire: arrays along the pairs."""

    nominal: Numbers
    low: dict[str, Array]
    high: dict[str, Array]
    weakest: tuple[str, ...]
    short: Array
    clutch_slips: Array


def ratio_study(build: Resolved, ask: Ask, seed: int = SEED, count: int = SAMPLES) -> RatioReport:
    """Compare the pairs on the tires, say which are beaten, which to take and what it costs."""
    options: list[RatioOption] = []
    for tire in ask.tires:
        built = with_tire(build, tire)
        table = _table(built, ask, seed, count)
        options += _options(table, ask, tire.text)
    gears = len(build.machine.gearbox.ratios)
    cruise = ask.speeds[-1]
    wanted = aims(cruise, gears)
    options = judged(options, wanted)
    key = cruise_key(cruise, gears)
    chosen = choose(options, wanted, key)
    options = [replace(o, chosen=o.name == chosen.name) for o in options]
    plain = Plain()
    return RatioReport(
        name=build.machine.name,
        file=build.source.file,
        sentence=choice_sentence(chosen, options, cruise, key),
        price=price_sentence(chosen, options, cruise, key),
        gears=tuple(float(plain.fill(r)) for r in build.machine.gearbox.ratios),
        tires=tuple(t.text for t in ask.tires),
        speeds=ask.speeds,
        cruise=cruise,
        options=tuple(options),
        assumed=assumptions(build),
        cautions=_cautions(build, ask),
        safety=safety_lines(build.machine),
        made=Made(f"axlewright {__version__}", STUDY, data_hash(), build.source.hash, seed, count),
    )


def speed_leaf(asked: SpeedAsked) -> Estimate:
    """A road speed that was asked for, as an input."""
    return Estimate(
        f"ask.{asked.key}", asked.value, "speed", EXACT, "stated", "asked for",
        means=f"Road speed of {asked.text}.", text=asked.text,
    )  # fmt: skip


def _table(build: Resolved, ask: Ask, seed: int, count: int) -> _Table:
    speeds = [(s.key, s.text, s.value) for s in ask.speeds]
    at = side_by_side(build, ask.teeth)
    nominal, path = numbers(at.filled, speeds, by_case=True)
    nominal |= heat_numbers(at.filled, at.heat, at.driving, speeds[-1][2]) | time_numbers(at)
    drawn = side_by_side(build, ask.teeth, seed, count)
    sampled, _ = numbers(drawn.filled, speeds, by_case=False)
    sampled |= heat_numbers(drawn.filled, drawn.heat, drawn.driving, speeds[-1][2])
    sampled |= time_numbers(drawn)
    rows = len(ask.teeth)
    bands = {k: _bands(n.value, rows, count) for k, n in sampled.items()}
    short = np.broadcast_to(np.asarray(sampled["weakest_margin"].value) < 1.0, (rows, count))
    clutch = at.filled.machine.clutch
    capacity = np.inf if clutch is None else clutch.capacity
    slips = np.broadcast_to(capacity < at.filled.machine.engine.torque, (rows,))
    return _Table(
        nominal,
        {k: b[0] for k, b in bands.items()},
        {k: b[1] for k, b in bands.items()},
        _weakest(path, rows),
        short.mean(axis=1),
        slips,
    )


def _bands(value: Num, rows: int, count: int) -> tuple[Array, Array]:
    """The 5 and 95 % quantiles of each row; what was not reached is counted as beyond."""
    values = np.asarray(value, dtype=np.float64)
    if values.ndim < 2 or values.shape[1] == 1:
        flat = np.broadcast_to(values.reshape(-1), (rows,)) if values.size in {1, rows} else None
        if flat is not None and values.ndim != 1:
            return flat, flat
        values = np.broadcast_to(values, (rows, count))
    places = [share * (count - 1) for share in (LOW, HIGH)]
    ends = [(int(p), min(int(p) + 1, count - 1)) for p in places]
    filled = np.where(np.isfinite(values), values, np.inf)
    ordered = np.partition(filled, sorted({k for pair in ends for k in pair}), axis=1)
    low, high = (
        np.where(
            np.isfinite(ordered[:, b]),
            ordered[:, a] + (p - a) * np.nan_to_num(ordered[:, b] - ordered[:, a]),
            np.nan,
        )
        for p, (a, b) in zip(places, ends, strict=True)
    )
    return low, high


def _weakest(path: Path, rows: int) -> tuple[str, ...]:
    """Title of the weakest link of every pair, at the nominal values."""
    titles = {link.name: link.title for link in path.links}
    by_link = breaking_margins(path)
    stack = np.vstack([np.broadcast_to(np.asarray(v), (rows,)) for v in by_link.values()])
    names = list(by_link)
    return tuple(titles[names[int(i)]] for i in np.argmin(stack, axis=0))


def _options(table: _Table, ask: Ask, tire: str) -> Iterator[RatioOption]:
    fitted_tire = next(t.fitted for t in ask.tires if t.text == tire)
    for row, teeth in enumerate(ask.teeth):
        name = f"{teeth.text}@{tire}"
        findings = {k: _finding(table, k, row, name) for k in table.nominal}
        common = int(findings["common_teeth"].value)
        kind = hunting_class(common, round(teeth.pinion))
        top, limit = _top(findings)
        share = float(table.short[row])
        yield RatioOption(
            teeth=teeth.text,
            tire=tire,
            fitted=teeth.fitted and fitted_tire,
            ring_teeth=round(teeth.ring),
            pinion_teeth=round(teeth.pinion),
            counted=teeth.counted,
            hunting=kind,
            setting=_setting(teeth, kind, findings["turns_until_all_met"].value),
            launch_limit=_launch_limit(findings, bool(table.clutch_slips[row])),
            top_gear=top,
            top_limit=limit,
            weakest=table.weakest[row],
            likelihood=likelihood(share),
            findings=findings,
        )


def _finding(table: _Table, key: str, row: int, name: str) -> Finding:
    number = table.nominal[key]

    def at(values: Num) -> float:
        several = np.asarray(values)
        return float(several if several.ndim == 0 else several[row if several.size > 1 else 0])

    return Finding(
        f"{key}@{name}", number.means, at(number.value), at(table.low[key]), at(table.high[key]),
        number.dimension,
    )  # fmt: skip


def _top(findings: dict[str, Finding]) -> tuple[int, str]:
    """The gear of the top speed, and whether the rev limit or the air ends it."""
    held = {
        int(k.rpartition("_")[2]): f.value
        for k, f in findings.items()
        if k.startswith("held_gear_")
    }
    gear = max(held, key=lambda n: held[n])
    limited = held[gear] >= findings[f"limiter_gear_{gear}"].value * (1.0 - 1e-9)
    return gear, "rev limit" if limited else "air and road"


def _launch_limit(findings: dict[str, Finding], clutch_slips: bool) -> str:
    if findings["ring_torque"].value >= findings["grip_torque"].value * (1.0 - 1e-9):
        return "the tires spin"
    return "the clutch slips" if clutch_slips else "the engine gives no more"


def _setting(teeth: TeethAsked, kind: HuntingClass, turns: float) -> str:
    """What the class means to whoever sets the gears up."""
    if not teeth.counted:
        return "count the teeth, or read the tag: the class is that of usual counts"
    if kind == "hunting":
        return f"no timing marks; turn the ring {turns:.0f} times to see every pair of teeth"
    again = "every turn" if turns == 1.0 else f"every {turns:.0f} turns"
    return f"lapped as a pair: line up the timing marks; the pattern repeats {again} of the ring"


def assumptions(build: Resolved) -> tuple[str, ...]:
    """What the run takes for granted, in words."""
    found = leaves(driving(build.machine))
    return tuple(
        f"{e.means.rstrip('.')}: {e.text} ({e.source})"
        for e in found.values()
        if isinstance(e, Estimate) and e.origin == "assumed"
    )


def _cautions(build: Resolved, ask: Ask) -> tuple[str, ...]:
    said = [*build.cautions, *build.launching.cautions]
    said.append(
        "Every ratio is taken in the ring gear's size class as it is: whether it is made for this"
        " axle, and whether the differential case fits it (many axles change case at a ratio),"
        " only the maker's list tells."
    )
    said.append(
        "Margins stand against the closed-form bounds of the shocks, for every ratio alike, never"
        " against a launch marched in time: compare them with one another. Where the launch has"
        " been marched, the load path takes its peaks, and its margins of what is fitted differ."
    )
    if len(ask.tires) > 1:
        said.append("The wheels keep the inertia of those that are on the car.")
    said.append(
        "The axle's oil is worked out for the cruise speed on a level road, in still air and"
        " without a trailer, long enough to be steady. What the air under the car does is a guess:"
        " the band is wide, and only a strip or an infrared gun on the case tells."
    )
    if build.machine.converter is not None:
        said.append("Top speed and engine speeds are for a converter that is locked.")
    return tuple(dict.fromkeys(said))
