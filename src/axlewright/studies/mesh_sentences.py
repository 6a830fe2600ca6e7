"""Sentences of the gear study that pages, command and paper share: heat, reversal, shims."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from axlewright.quantities.finding import Finding
from axlewright.quantities.units import System, from_si, show, show_both, significant
from axlewright.studies.mesh_pictures import Shimmed
from axlewright.studies.mesh_report import MeshReport, Picture

METAL_WORDS: Final = {"gray": "gray iron", "nodular": "nodular iron", "aluminum": "aluminum"}
"""Metals of a case, by their key."""
_DIGITS: Final = 2
_RATED: Final = 3
"""Digits of a rating."""
_SYSTEMS: Final[tuple[System, System]] = ("shop", "si")
_SEEN: Final = 0.005
"""Share of the tooth below which nobody sees a pattern move."""
_THOU: Final = 1e3
"""Thousandths in an inch."""
_SHOWS: Final = 2.54e-6
"""Movement (m) below which a dial shows nothing."""
_TOUCH: Final = 2.5e-6
"""Shim (m) below which nobody has one so thin."""


def thou(length: float) -> str:
    """A length in thousandths of an inch."""
    return _true_minus(significant(_THOU * from_si(length, "length")[0], _DIGITS))


def mm(length: float) -> str:
    """A length in mm."""
    return _true_minus(significant(from_si(length, "length", "si")[0], _DIGITS))


def moved_cell(f: Finding) -> list[str]:
    """A movement in a table: thousandths of an inch, mm, band."""
    if abs(f.value) < _SHOWS and f.low == f.high:
        return ["0", "", ""]
    band = "" if f.low == f.high else f"{thou(f.low)} to {thou(f.high)}"
    return [thou(f.value), f"({mm(f.value)})", band]


def rated_cell(f: Finding | None) -> list[str]:
    """A cell of a table of ratings: value with unit, the other unit, band; a stroke for none."""
    if f is None:
        return ["–", "", ""]
    value, other = (show(f.value, f.dimension, system, _RATED) for system in _SYSTEMS)
    low, high = (significant(from_si(v, f.dimension)[0], _RATED) for v in (f.low, f.high))
    band = "" if low == high else f"{low} to {high}"
    return [_true_minus(value), "" if value == other else f"({_true_minus(other)})", band]


def _true_minus(text: str) -> str:
    return text.replace("-", "−")


def warm_words(report: MeshReport) -> tuple[str, ...]:
    """What heat does to the pair, in sentences."""
    w = report.warm
    if w is None:
        return ()
    lash, lift = w.lash_change, w.lift_rated
    metal, rise = METAL_WORDS[w.metal], show_both(w.case_rise, "temperature rise", 2)
    said = [
        f"With its case of {metal} {rise} and its shafts, gears and oil"
        f" {show_both(w.shaft_rise, 'temperature rise', 2)} above the"
        f" cold shop (assumed), backlash {'opens' if lash > 0.0 else 'closes'} by"
        f" {show_both(abs(lash), 'length', _DIGITS)}; at rated torque the pinion then moves"
        f" {show_both(abs(lift), 'length', _DIGITS)} along the offset."
    ]
    changes = "; ".join(
        f"{name} {show(cold, 'force', digits=2)} cold, {show(warm, 'force', digits=2)} warm"
        for name, (cold, warm) in w.preloads.items()
    )
    said.append(f"Thrust without torque: {changes}.")
    if w.loose:
        said.append(f"Loose when warm: {', '.join(w.loose)}.")
    return tuple(said)


def reversal_words(report: MeshReport) -> str:
    """The jump from coast to drive in a sentence."""
    r = report.reversal
    if r is None:
        return ""
    torque, out, ring = (
        show_both(r.ring_torque, "torque", 2),
        show_both(abs(r.pinion), "length", _DIGITS),
        show_both(abs(r.ring), "length", _DIGITS),
    )
    return (
        f"When the drive reverses at hardly any torque ({torque} at the ring gear), the pinion"
        f" jumps {out} along its axis and the ring gear {ring}: so much do the bearings let them"
        " float, beside the backlash."
    )


def set_words(shim: float, found: Shimmed) -> str:
    """What was done to the shims, and what that takes."""
    if abs(shim) < _TOUCH:
        depth = "Depth shim as when the pattern was set"
    else:
        way = "thicker" if shim > 0.0 else "thinner"
        depth = f"Depth shim {show_both(abs(shim), 'length', 2)} {way}"
    ring = found.ring_shim
    if abs(ring) < _TOUCH:
        moved = "the ring gear stays where it was"
    elif ring > 0.0:
        moved = f"move {show_both(ring, 'length', 2)} of shim from the far side to behind the ring"
    else:
        moved = f"move {show_both(-ring, 'length', 2)} of shim from behind the ring to the far side"
    return f"{depth}; for backlash of {show_both(found.backlash, 'length', 3)}, {moved}."


def moved_words(before: Mapping[str, Picture], after: Mapping[str, Picture]) -> str:
    """Which way each pattern went, as a setter reads it: toe or heel, root or tip."""
    return " ".join(_went(side, before[side], picture) for side, picture in after.items())


def _went(side: str, before: Picture, after: Picture) -> str:
    name = f"{side.capitalize()} side:"
    if not after.length:
        return f"{name} off the tooth."
    said = [
        f"{significant(abs(100.0 * by), 2)} % toward the {less if by < 0.0 else more}"
        for by, less, more in (
            (after.center - before.center, "toe", "heel"),
            (after.height - before.height, "root", "tip"),
        )
        if abs(by) >= _SEEN
    ]
    return f"{name} {', '.join(said) or 'as it was'}."
