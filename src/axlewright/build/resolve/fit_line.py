"""Resolving gauge readings, slip joint and tunnel."""

from __future__ import annotations

from axlewright.build.fitting import AngleReadings, SlipReadings, TunnelReadings
from axlewright.build.resolve.fit_readings import Notebook
from axlewright.build.resolve.ledger import PRACTICE, derived
from axlewright.driveline.pinion_setting import measured_rise, slope_from_gauge, slope_in_car
from axlewright.quantities.estimate import Leaf

_RISES = {
    "solid links": "1 to 2 deg",
    "rubber links": "3 to 4 deg",
    "torque arm": "1 to 2 deg",
    "ladder bars": "1 to 2 deg",
    "leaf on the street": "2 to 4 deg",
    "leaf on the strip": "5 to 7 deg",
}
"""What the trade allows for the rise of the nose; starting points, disputed."""


def angles(notes: Notebook) -> AngleReadings[Leaf]:
    """Gauge readings; the rise of the nose measured, or what the trade allows."""

    def read(name: str) -> Leaf | None:
        return notes.leaf(f"angles.{name}")

    def sure(name: str) -> Leaf:
        return notes.sure(f"angles.{name}")

    return AngleReadings(
        gearbox=read("gearbox"),
        driveshaft=read("driveshaft"),
        pinion=read("pinion"),
        floor=sure("floor"),
        gauge_zero=sure("gauge_zero"),
        gauge_error=sure("gauge_error"),
        pinion_loaded=read("pinion_loaded"),
        pinion_rise=notes.sure("angles.pinion_rise", _rise(notes)),
        gearbox_left=read("gearbox_left"),
        pinion_left=read("pinion_left"),
        gearbox_plan=sure("gearbox_plan"),
        pinion_plan=sure("pinion_plan"),
        joint_to_joint=read("joint_to_joint"),
        seal_to_joint=read("seal_to_joint"),
        gearbox_height=read("gearbox_height"),
        pinion_height=read("pinion_height"),
        phase=sure("phase"),
    )


def _rise(notes: Notebook) -> Leaf:
    """From a loaded and a resting slope where both were read; else by kind of suspension."""
    loaded, rest = notes.leaf("angles.pinion_loaded"), notes.leaf("angles.pinion")
    if loaded is not None and rest is not None:
        return derived(
            "angles.pinion_rise",
            measured_rise,
            loaded_slope=loaded,
            static_slope=in_car(notes, "pinion", rest),
        )
    kind = _kind(notes)
    meta, dimension = notes.book.meta("angles.pinion_rise")
    return notes.book.assumed(
        "angles.pinion_rise",
        _RISES[kind],
        dimension,
        f"{kind}: what the trade allows; {PRACTICE}",
        meta.means,
        meta.advice,
    )


def in_car(notes: Notebook, which: str, gauge: Leaf) -> Leaf:
    """Slope against the car's floor line of what the gauge showed."""
    true = derived(
        f"angles.{which}_true",
        slope_from_gauge,
        gauge_reading=gauge,
        zero_slope=notes.sure("angles.gauge_zero"),
    )
    return derived(
        f"angles.{which}in_car",
        slope_in_car,
        true_slope=true,
        floor_slope=notes.sure("angles.floor"),
    )


def _kind(notes: Notebook) -> str:
    book = notes.book
    suspension = book.choice("suspension.kind")
    if suspension == "leaf":
        return f"leaf on the {book.choice('use.surface')}"
    if suspension in _RISES:
        return suspension
    hard = {book.choice(f"bushes.{w}") for w in ("lower", "upper")} <= {"solid", "rod end"}
    return "solid links" if hard else "rubber links"


def slip(notes: Notebook) -> SlipReadings[Leaf]:
    """The slip joint; the gap that the trade leaves where none was measured."""
    return SlipReadings(
        bottomed_reach=notes.leaf("slip.bottomed_reach"),
        reach=notes.leaf("slip.reach"),
        gap=notes.sure("slip.gap"),
        spline_length=notes.leaf("slip.spline_length"),
        spline_diameter=notes.leaf("slip.spline_diameter"),
        least_engagement=notes.sure("slip.least_engagement"),
        least_free=notes.sure("slip.least_free"),
    )


def tunnel(notes: Notebook) -> TunnelReadings[Leaf]:
    """Room round the shaft."""
    return TunnelReadings(
        ahead=notes.leaf("tunnel.ahead"),
        above=notes.leaf("tunnel.above"),
        below=notes.leaf("tunnel.below"),
        left=notes.leaf("tunnel.left"),
        right=notes.leaf("tunnel.right"),
    )
