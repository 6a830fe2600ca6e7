"""Two builds side by side: what differs in what is stated, and what that does to each link.

Both sides are drawn with the same noise, so the change of a margin is judged draw by draw: its band
is far narrower than the bands of the two margins, which mostly share what is not known.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import cast

import numpy as np

from axlewright.build.edit import raw_values
from axlewright.build.resolve import Resolved
from axlewright.quantities.estimate import Plain
from axlewright.quantities.finding import Finding, band
from axlewright.quantities.formula import Array, Num
from axlewright.quantities.sampling import Samples
from axlewright.studies.limits import breaking_margin
from axlewright.studies.path import evaluate
from axlewright.studies.report import InputLine, LinkReport, LoadPathReport

_SAME = 1e-9
_NOTHING = "not given"


@dataclass(frozen=True)
class InputChange:
    """One key that differs; ``stated`` says that the builder wrote it, else it follows from one."""

    key: str
    means: str
    old: str
    new: str
    stated: bool


@dataclass(frozen=True)
class LinkChange:
    """A link whose margin against breaking differs.

    ``change`` is the new margin over the old one with the band of that ratio over shared draws; a
    margin that is missing on one side is None, and so is the change then.
    """

    link: str
    title: str
    old: Finding | None
    new: Finding | None
    change: Finding | None


@dataclass(frozen=True)
class Comparison:
    """What differs between two builds, going in and coming out."""

    old_name: str
    new_name: str
    old_sentence: str
    new_sentence: str
    old_holds: bool
    new_holds: bool
    inputs: tuple[InputChange, ...]
    links: tuple[LinkChange, ...]
    samples: int
    seed: int


def comparison(
    old: tuple[Resolved, LoadPathReport], new: tuple[Resolved, LoadPathReport]
) -> Comparison:
    """Compare two builds that have been worked out with the same seed and samples."""
    (old_build, before), (new_build, after) = old, new
    made = after.made
    return Comparison(
        old_name=before.name,
        new_name=after.name,
        old_sentence=before.verdict.sentence,
        new_sentence=after.verdict.sentence,
        old_holds=before.verdict.holds,
        new_holds=after.verdict.holds,
        inputs=changed_inputs(old_build.source.text, new_build.source.text, before, after),
        links=_links(old, new, made.seed, made.samples),
        samples=made.samples,
        seed=made.seed,
    )


def changed_inputs(
    old: str, new: str, before: LoadPathReport, after: LoadPathReport
) -> tuple[InputChange, ...]:
    """Keys written differently, then inputs that are taken differently because of them."""
    was, now = raw_values(old), raw_values(new)
    used_was, used_now = ({i.path: i for i in r.inputs} for r in (before, after))
    written = [
        InputChange(
            k, _means(k, used_was, used_now), _side(k, was, used_was), _side(k, now, used_now), True
        )
        for k in dict.fromkeys((*was, *now))
        if was.get(k) != now.get(k)
    ]
    told = {w.key for w in written}
    followed = [
        InputChange(
            k, _means(k, used_was, used_now), _used(used_was.get(k)), _used(used_now.get(k)), False
        )
        for k in dict.fromkeys((*used_was, *used_now))
        if k not in told and _used(used_was.get(k)) != _used(used_now.get(k))
    ]
    return (*written, *followed)


def _means(key: str, *sides: Mapping[str, InputLine]) -> str:
    return next((side[key].means for side in sides if key in side), "")


def _side(key: str, typed: Mapping[str, str], used: Mapping[str, InputLine]) -> str:
    """What stands in the file; else what is taken for it."""
    if key in typed:
        return typed[key]
    return f"{_used(used[key])} ({used[key].origin})" if key in used else _NOTHING


def _used(line: InputLine | None) -> str:
    if line is None:
        return _NOTHING
    return f"{line.value}, {line.spread}" if line.spread else line.value


def _links(
    old: tuple[Resolved, LoadPathReport],
    new: tuple[Resolved, LoadPathReport],
    seed: int,
    count: int,
) -> tuple[LinkChange, ...]:
    was, now = ({x.link: x for x in side[1].links} for side in (old, new))
    drawn_was, drawn_now = (_margins(side[0], seed, count) for side in (old, new))
    rows = []
    for name in dict.fromkeys((*was, *now)):
        a, b = _breaks(was.get(name)), _breaks(now.get(name))
        if (a is None and b is None) or _same(a, b, drawn_was.get(name), drawn_now.get(name)):
            continue
        title = (now.get(name) or was[name]).title
        change = _change(name, title, drawn_was.get(name), drawn_now.get(name))
        rows.append(LinkChange(name, title, a, b, change))
    return tuple(rows)


def _breaks(link: LinkReport | None) -> Finding | None:
    return link.breaks.margin if link is not None and link.breaks is not None else None


_Drawn = tuple[float, Array]


def _margins(build: Resolved, seed: int, count: int) -> dict[str, _Drawn]:
    """Nominal and drawn margin against breaking of each link."""
    plain = evaluate(Plain().tree(build.machine), by_case=False)
    drawn = evaluate(Samples(seed, count).tree(build.machine), by_case=False)
    found: dict[str, _Drawn] = {}
    for link, nominal, samples in zip(plain.links, plain.least, drawn.least, strict=True):
        least, least_drawn = breaking_margin(link, nominal), breaking_margin(link, samples)
        if least is not None and least_drawn is not None:
            found[link.name] = (float(least), _spread(least_drawn, count))
    return found


def _spread(values: Num, count: int) -> Array:
    return cast(Array, np.broadcast_to(np.asarray(values, dtype=np.float64), (count,)))


def _same(a: Finding | None, b: Finding | None, was: _Drawn | None, now: _Drawn | None) -> bool:
    """Whether nothing at all happened to a link: neither its nominal margin nor one draw."""
    if a is None or b is None or was is None or now is None:
        return False
    return abs(a.value - b.value) <= _SAME * abs(a.value) and bool(
        np.allclose(was[1], now[1], rtol=_SAME, atol=0.0, equal_nan=True)
    )


def _change(name: str, title: str, was: _Drawn | None, now: _Drawn | None) -> Finding | None:
    if was is None or now is None:
        return None
    value = now[0] / was[0]
    low, high = band(now[1] / was[1], value)
    means = f"{title}: margin of the new build over that of the old one"
    return Finding(f"compare.{name}.margin", means, value, low, high, "ratio")
