"""What is ordered, welded and done on the way to an axle, and what each waits for.

The order of work of the trade: wheels and tires, then brakes and ends, then the housing, the
shafts, and the driveshaft last.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Act = Literal["order", "weld", "cut", "do"]


@dataclass(frozen=True)
class Need:
    """One thing that must be known or done, and why."""

    thing: str
    why: str


@dataclass(frozen=True)
class Item:
    """Something to order or to do."""

    name: str
    act: Act
    made_to_order: bool
    """Made for this car and, by common practice, not taken back."""
    needs: tuple[Need, ...]

    @property
    def things(self) -> tuple[str, ...]:
        """What it waits for."""
        return tuple(need.thing for need in self.needs)


def _item(name: str, act: Act, made_to_order: bool, **needs: str) -> Item:
    return Item(
        name, act, made_to_order,
        tuple(Need(thing.replace("_", " "), why) for thing, why in needs.items()),
    )  # fmt: skip


ITEMS: tuple[Item, ...] = (
    _item(
        "wheels and tires", "order", False,
        room_each_side="width, backspace and section follow from the smaller side",
        bump_and_droop_travel="the tire must clear at full bump and in roll, not only standing",
        brake_size="the rim must clear caliper or drum",
    ),
    _item(
        "wheels of special backspace", "order", True,
        room_each_side="a backspace made for you is not taken back",
        mounted_section="a tire's mounted width differs from its label",
        bump_and_droop_travel="the tire must clear at full bump and in roll",
        brake_size="the rim must clear caliper or drum",
    ),
    _item(
        "gear set and differential", "order", False,
        axle_ratio="ratio goes with gearbox, tire and carrier",
        shaft_spline="side gears and shafts must have one spline",
    ),
    _item(
        "brakes", "order", False,
        wheels_and_tires="the wheel decides how large the brake may be",
        rear_brake_share="a rear brake that is too strong locks first and turns the car round",
        parking_brake_kind="the inspection wants one that holds on a grade",
    ),
    _item(
        "housing ends", "order", False,
        brakes="the brake's pattern and depth decide the end",
        wheel_bearing="the pocket must fit its bearing",
    ),
    _item(
        "housing", "order", True,
        wheels_and_tires="the car is built around its rear wheels",
        mounted_section="a quarter inch of bulge is a quarter inch of housing",
        room_each_side="both sides are measured, for they are never equal",
        brake_space="end to end is the order width less both brake spaces",
        hat_thickness="the wheel sits on the hat, not on the flange",
        housing_ends="ends are welded on when it is made",
        pinion_offset="it decides how the two halves differ",
        mount_places="perches and brackets go on there, unless they are welded on the car",
    ),
    _item(
        "perches and brackets", "weld", True,
        housing="they are welded to it",
        pinion_angle_at_ride_height="they hold the angle for good",
        ride_height="the angle is right at one height only",
        full_travel_sweep="tacks are cycled through bump, droop and roll before the last weld",
        gearbox_slope="the pinion answers to the gearbox",
    ),
    _item(
        "axle shafts", "order", True,
        housing="lengths are taken from the finished, straightened housing",
        gear_set_and_differential="spline and the gap at the center are the differential's",
        differential_center="the length counts from its cross pin, not from the pinion",
        center_gap="the ends must neither touch nor come out of their gears",
        brake_space="it is part of the length",
        bolt_circle="it is drilled once",
        flange_size="it must go into hat or drum",
        stud_reach="hat, spacer and wheel take from it",
        wheel_bearing="its seat is ground into the shaft",
    ),
    _item(
        "brake bracket spacers", "cut", True,
        brakes="the bracket's thickness is the brake's",
        axle_shafts="the bearing's play is measured with shaft and bearing in the housing",
        bearing_aim="it is play or crush, and the manual of this axle says which",
    ),
    _item(
        "gear setup", "do", False,
        housing="it is straightened first, or backlash swings with the ring",
        gear_set_and_differential="it is what is set up",
        setup_figures="backlash and preload are those of this very set, from its bag or tag",
    ),
    _item(
        "fit in the car", "do", False,
        housing="it is what goes in",
        wheels_and_tires="they are turned by hand through the travel",
        brakes="hoses and cables move with it",
    ),
    _item(
        "parking brake cables", "order", True,
        brakes="the lever on the brake decides the end",
        fit_in_the_car="the way of the cable is measured with the axle in, at full droop",
    ),
    _item(
        "brake hoses and lines", "order", False,
        fit_in_the_car="length is taken at full droop and in roll",
        full_travel_sweep="nothing may touch them",
    ),
    _item(
        "driveshaft", "order", True,
        fit_in_the_car="center to center is measured with the axle in",
        ride_height="it is measured with weight on the tires, never hanging",
        joint_distance_at_ride_height="the shaft is cut to it",
        slip_travel="it must neither bottom nor come out over the whole travel",
        perches_and_brackets="they still move the pinion until they are welded",
        gear_setup="a yoke changed afterward changes the length",
        joint_size="it must suit both yokes",
        highest_shaft_speed="tube and length decide where it whirls",
    ),
    _item(
        "speedometer gear", "order", False,
        axle_ratio="teeth go with the ratio",
        measured_rolling_radius="the tire counts as it rolls, not as it is marked",
        speedo_drive_teeth="driven teeth follow from those in the gearbox",
    ),
)  # fmt: skip
"""By common practice of the trade, no source; what is made to order is so in most shops."""
