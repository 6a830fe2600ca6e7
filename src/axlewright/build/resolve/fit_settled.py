"""Readings that must add up, brought together; what contradicts itself is named."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from axlewright.build.resolve.fit_readings import Notebook
from axlewright.build.resolve.fit_words import checked
from axlewright.build.resolve.ledger import PRACTICE, derived
from axlewright.measuring.mistakes import (
    all_bare,
    bare_flange,
    new_bare_flange,
    rim_lip,
    whole_inch,
)
from axlewright.measuring.network import Adjusted, Relation, adjust
from axlewright.measuring.relations import (
    NETWORKS,
    PAIRS,
    SOFT,
    renamed,
)
from axlewright.measuring.settled import open_with, settled_length, worked_out_length
from axlewright.measuring.suspects import Mistake, Verdict, judge, swapped
from axlewright.measuring.uncertainty import triangle_half_width
from axlewright.quantities.estimate import Estimate, Leaf, Limits
from axlewright.quantities.formula import Num
from axlewright.quantities.units import Reading

_LEAST = 1e-9
_BY_FORMULA = {"wheel.backspace", "wheel.offset"}
"""Worked out by a formula of their own where they are not stated."""
_ASSUMED = {"wheel.lip_width"}
"""What is taken with its default where nobody measured it."""
_ENDS = ("hat", "brake_space", "bearing_to_flange", "bearing_width", "bearing_pocket")


def settle(notes: Notebook, titles: Iterable[str] = NETWORKS) -> None:
    """Every network of lengths settled and checked, or only those with these titles."""
    same = _alike(notes)
    for title in titles:
        _network(notes, title, _once(renamed(r, same) for r in NETWORKS[title]))


def _alike(notes: Notebook) -> dict[str, str]:
    """Ends that were measured once for both sides."""
    return {
        f"ends.{side}.{name}": f"ends.{name}"
        for side in ("left", "right")
        for name in _ENDS
        if notes.book.stated(f"ends.{side}.{name}") is None
    }


def _once(relations: Iterable[Relation]) -> tuple[Relation, ...]:
    """The relations without those that became the same: both ends from one reading."""
    return tuple({tuple(sorted(r.shares.items())): r for r in relations}.values())


def _network(notes: Notebook, title: str, relations: tuple[Relation, ...]) -> None:
    names = dict.fromkeys(n for r in relations for n in r.shares)
    taken = _taken(notes, names)
    if not any(notes.book.stated(n) is not None for n in taken):
        return
    taken |= {n: _soft(n) for n in names if n in SOFT}
    known = {n: (e.value, uncertainty(e)) for n, e in taken.items()}
    adjusted = adjust(known, relations)
    verdict = judge(adjusted)
    mistakes = () if verdict.agree else _mistakes(notes, known)
    notes.note(checked(title, known, relations, verdict, adjusted.freedom, mistakes))
    _write(notes, adjusted, verdict, taken)


def _taken(notes: Notebook, names: Iterable[str]) -> dict[str, Estimate]:
    """The readings of a network that somebody took."""
    found: dict[str, Estimate] = {}
    for name in names:
        leaf = notes.single(name, assumed=name in _ASSUMED) if name not in SOFT else None
        if leaf is not None:
            found[name] = leaf
    return found


def _soft(name: str) -> Estimate:
    """What is taken as true of a body, as a reading of nothing."""
    value, deviation = SOFT[name]
    half = float(triangle_half_width(deviation))
    path = f"fit.{name.replace(' ', '_')}"
    return Estimate(
        path,
        value,
        "length",
        Limits(value - half, value + half),
        "assumed",
        PRACTICE,
        means=f"How far {name} may be off.",
    )


def uncertainty(estimate: Estimate) -> float:
    """One standard deviation of a leaf's triangle."""
    spread = estimate.spread
    return (spread.high - spread.low) / math.sqrt(24.0) if isinstance(spread, Limits) else 0.0


def _write(
    notes: Notebook, adjusted: Adjusted, verdict: Verdict, taken: dict[str, Estimate]
) -> None:
    """Adjusted values under the names of their keys; spreads grow where readings disagree."""
    grow = 1.0
    if not verdict.agree:
        grow = max(1.0, math.sqrt(adjusted.chi_square / adjusted.freedom))
    raw = {n: _wider(e, grow) for n, e in taken.items()}
    opened = _opened(adjusted, raw)
    for row, name in enumerate(adjusted.names):
        if name in SOFT:
            continue
        if adjusted.freedom == 0 or adjusted.redundancy[row] < _LEAST:
            notes.settled[name] = raw[name]
            continue
        notes.settled[name] = _less(name, raw[name], zip(opened, adjusted.gain[row], strict=True))
    for name, parts in adjusted.unmeasured.items():
        if name not in _BY_FORMULA and not any(n in SOFT for n, _ in parts):
            parts_known = [(notes.settled[n], share) for n, share in parts]
            notes.settled[name] = _added(f"{name}.worked_out", worked_out_length, parts_known)
            notes.worked_out.append(name)


def _wider(estimate: Estimate, by: float) -> Estimate:
    if by == 1.0 or not isinstance(estimate.spread, Limits):
        return estimate
    half = 0.5 * by * (estimate.spread.high - estimate.spread.low)
    spread = Limits(estimate.value - half, estimate.value + half)
    return replace(
        estimate,
        spread=spread,
        source=f"{estimate.source}; limits {by:.1f} times wider, since readings disagree",
    )


def _opened(adjusted: Adjusted, raw: dict[str, Estimate]) -> list[Leaf]:
    """What each sum leaves open, as a leaf of its own that all its readings share."""
    if adjusted.freedom == 0:
        return []
    return [
        _added(
            f"fit.open.{name.replace(' ', '_')}.{number}",
            open_with,
            [(raw[n], share) for n, share in zip(adjusted.names, row, strict=True)],
        )
        for number, (name, row) in enumerate(zip(adjusted.sums, adjusted.closing, strict=True))
    ]


def _less(name: str, reading: Leaf, opened: Iterable[tuple[Leaf, float]]) -> Leaf:
    """A reading less its shares of what is open."""
    so_far = reading
    for number, (leaf, share) in enumerate(opened, start=1):
        if abs(share) > _LEAST:
            so_far = derived(
                f"{name}.settled.{number}",
                settled_length,
                settled_so_far=so_far,
                taken_share=float(share),
                open_length=leaf,
            )
    return so_far


_FIRST = {open_with: "open_so_far", worked_out_length: "worked_so_far"}


def _added(path: str, formula: Callable[..., Num], terms: Sequence[tuple[Leaf, float]]) -> Leaf:
    """Readings added up one after the other, each as often as it counts."""
    real = [(leaf, float(share)) for leaf, share in terms if abs(share) > _LEAST]
    so_far: Leaf | float = 0.0
    for number, (leaf, share) in enumerate(real, start=1):
        so_far = derived(
            path if number == len(real) else f"{path}.{number}",
            formula,
            **{_FIRST[formula]: so_far, "reading_share": share, "single_reading": leaf},
        )
    assert not isinstance(so_far, float), path
    return so_far


def _mistakes(notes: Notebook, known: dict[str, tuple[float, float]]) -> Sequence[Mistake]:
    """What people do wrong, with the thicknesses that this build knows."""
    made: list[Mistake] = list(swapped(known, PAIRS))
    hat = known.get("fit.old_hat") or _of(notes, "fit.old_hat")
    if hat:
        made += bare_flange(hat[0])
        if not notes.bare:
            made += all_bare(hat[0], known)
    new_hat = known.get("ends.hat") or known.get("ends.left.hat")
    if new_hat:
        made += new_bare_flange(new_hat[0])
    lip = known.get("wheel.lip_width")
    if lip:
        made += rim_lip(lip[0])
    return [*made, *whole_inch(n for n in known if n not in SOFT)]


def _of(notes: Notebook, path: str) -> tuple[float, float] | None:
    said = notes.book.stated(path)
    return (said.value, 0.0) if isinstance(said, Reading) else None
