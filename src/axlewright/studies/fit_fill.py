"""What the question of fit reads: the readings, and the few things of the machine beside them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic, TypeVar

from axlewright.build.fitting import EndStack, Fitting, SideReadings
from axlewright.build.resolve import Resolved
from axlewright.quantities.estimate import EXACT, Estimate, Filler, Leaf, Limits
from axlewright.quantities.formula import Num

T = TypeVar("T")
SIDES = ("left", "right")
_INCH = 0.0254


@dataclass(frozen=True, eq=False, repr=False)
class Beside(Generic[T]):
    """What fit reads of the car itself, and what it takes for granted."""

    mass: T
    rear_share: T
    wheelbase: T
    cg_height: T
    track: T
    grip: T
    axle_ratio: T
    stud_diameter: T
    spline_teeth: T
    spline_pitch: T
    section_width: T
    old_axle_off: T
    """Center of the car left of the middle between the old wheel faces."""
    order_step: T


@dataclass(frozen=True)
class Filled:
    """Readings and car, filled alike."""

    fitting: Fitting[Num]
    beside: Beside[Num]

    def side(self, which: str) -> SideReadings[Num]:
        """Readings of one side."""
        return self.fitting.left if which == "left" else self.fitting.right

    def end(self, which: str) -> EndStack[Num]:
        """The end of one side."""
        return self.fitting.left_end if which == "left" else self.fitting.right_end


def fill(build: Resolved, filler: Filler) -> Filled:
    """Fill all that fit reads."""
    return Filled(filler.tree(build.fitting), filler.tree(beside(build)))


def beside(build: Resolved) -> Beside[Leaf]:
    """The leaves beside the readings."""
    m = build.machine
    return Beside(
        mass=m.car.mass,
        rear_share=m.car.rear_share,
        wheelbase=m.car.wheelbase,
        cg_height=m.car.cg_height,
        track=m.car.track,
        grip=m.tires.grip,
        axle_ratio=m.gears.ratio,
        stud_diameter=m.studs.diameter,
        spline_teeth=m.shaft.spline.teeth,
        spline_pitch=m.shaft.spline.pitch,
        section_width=m.tires.section_width,
        old_axle_off=OLD_AXLE_OFF,
        order_step=ORDER_STEP,
    )


OLD_AXLE_OFF = Estimate(
    "fit.old_axle_off", 0.0, "length", Limits(-0.25 * _INCH, 0.25 * _INCH), "assumed",
    "old axles sit off the middle by up to a quarter inch; common practice, no source",
    advice="Measure fit.rail_to_rail and fit.left.rail, fit.right.rail: the same hole or rail edge"
    " on both sides, to the wheel face.",
    means="Center of the car left of the middle between the old wheel faces.", text="0 ± 1/4 in",
)  # fmt: skip
ORDER_STEP = Estimate(
    "fit.order_step", 0.125 * _INCH, "length", EXACT, "assumed",
    "axles are ordered to the eighth of an inch; common practice, no source",
    means="Step in which axle widths are ordered.", text="1/8 in",
)  # fmt: skip
