"""Keys of the suspension's points, as measured in the car at ride height.

A point is three lengths: forward of the axle line, left of the car's center plane, up from the
ground.  Points of the left side stand for the right too unless a ``right_`` one is stated; where
the build says that sides differ, both are needed.
"""

from __future__ import annotations

from typing import Literal

from axlewright.build.model_fit import MEMORY, PRACTICE
from axlewright.quantities.fields import Place, Stiffness, key
from axlewright.quantities.sections import Section

_DATUM = " From axle line, center plane, ground, at ride height."
_HOW = "Plumb bob from the bolt's middle to a grid on the floor; tape for the height."
_FAR = ("-120 in", "120 in")


def _point(means: str, example: str) -> Place:
    made: Place = key(means + _DATUM, example=example, possible=_FAR, advice=_HOW)
    return made


def _right(means: str, example: str = '["0 in", "-18 in", "12 in"]') -> Place:
    made: Place = key(
        f"{means} on the right, where it does not mirror the left." + _DATUM,
        example=example, default="the left one mirrored",
        because="taken as symmetric unless stated", possible=_FAR, advice=_HOW,
    )  # fmt: skip
    return made


class Points(Section):
    """Where links, springs and all that moves with the axle are, left side unless said."""

    symmetric: bool | None = key(
        "Whether the right side mirrors the left; `false` asks for the right points too.",
        default={"yes": 1.0}, because=PRACTICE,
    )  # fmt: skip
    wheel_center: Place = _point(
        "Wheel center, middle of the tire.", '["0 in", "29 in", "12.9 in"]'
    )
    lower_body: Place = _point("Lower link, its bolt on the body.", '["22 in", "18.1 in", "9 in"]')
    lower_axle: Place = _point(
        "Lower link, its bolt on the axle.", '["0.4 in", "19.7 in", "8.1 in"]'
    )
    upper_body: Place = _point(
        "Upper link, its bolt on the body.", '["16.5 in", "11.8 in", "14.6 in"]'
    )
    upper_axle: Place = _point(
        "Upper link, its bolt on the axle.", '["0.5 in", "12.6 in", "16.9 in"]'
    )
    lateral_body: Place = _point(
        "Lateral rod, its bolt on the body; on the right with a minus.",
        '["-4.7 in", "-20.5 in", "14.6 in"]',
    )
    lateral_axle: Place = _point(
        "Lateral rod, its bolt on the axle.", '["-4.3 in", "18.9 in", "13 in"]'
    )
    watt_pivot: Place = _point(
        "Watt linkage: pivot of its crank on the axle.", '["-9 in", "0 in", "13 in"]'
    )
    watt_left_body: Place = _point(
        "Watt linkage: left rod on the body.", '["-9 in", "20 in", "16 in"]'
    )
    watt_left_crank: Place = _point(
        "Watt linkage: left rod on the crank.", '["-9 in", "0 in", "16 in"]'
    )
    watt_right_body: Place = _point(
        "Watt linkage: right rod on the body.", '["-9 in", "-20 in", "10 in"]'
    )
    watt_right_crank: Place = _point(
        "Watt linkage: right rod on the crank.", '["-9 in", "0 in", "10 in"]'
    )
    arm_front: Place = _point(
        "Torque arm: where its front slides in the bush.", '["45 in", "0 in", "12 in"]'
    )
    bar_pivot: Place = _point("Ladder bar: its pivot on the body.", '["34 in", "14 in", "11 in"]')
    leaf_front_eye: Place = _point("Leaf spring: front eye.", '["22 in", "21 in", "12 in"]')
    leaf_seat: Place = _point(
        "Leaf spring: main leaf over or under the middle of its clamp.",
        '["0 in", "21 in", "11 in"]',
    )
    leaf_rear_eye: Place = _point("Leaf spring: rear eye.", '["-31 in", "21 in", "13 in"]')
    shackle_top: Place = _point(
        "Leaf spring: the shackle's bolt on the body.", '["-32 in", "21 in", "16 in"]'
    )
    spring_body: Place = _point(
        "Coil spring: middle of its upper seat.", '["1 in", "16 in", "23 in"]'
    )
    spring_axle: Place = _point(
        "Coil spring: middle of its lower seat.", '["1 in", "17 in", "14 in"]'
    )
    shock_body: Place = _point("Shock: upper eye.", '["-3 in", "17 in", "27 in"]')
    shock_axle: Place = _point("Shock: lower eye.", '["-3 in", "20 in", "10 in"]')
    stop_body: Place = _point("Bump stop: middle of its tip.", '["0 in", "17 in", "19 in"]')
    stop_axle: Place = _point(
        "Bump stop: where it meets the axle.", '["0 in", "17 in", "16.25 in"]'
    )
    hose_body: Place = _point("Brake hose: fitting on the body.", '["6 in", "4 in", "20 in"]')
    hose_axle: Place = _point("Brake hose: fitting on the axle.", '["2 in", "3 in", "17 in"]')
    bar_body: Place = _point("Anti-roll bar: its bush on the body.", '["-14 in", "15 in", "14 in"]')
    bar_axle: Place = _point(
        "Anti-roll bar: end of its link on the axle.", '["-3 in", "19 in", "10 in"]'
    )
    exhaust: Place = _point(
        "Exhaust: its lowest place over the tube.", '["0 in", "12 in", "19 in"]'
    )
    tank: Place = _point("Tank: its nearest place behind the axle.", '["-13 in", "0 in", "14 in"]')
    pinion_joint: Place = _point(
        "Center of the joint at the pinion yoke.", '["12.5 in", "-1 in", "12 in"]'
    )
    gearbox_joint: Place = _point(
        "Center of the joint at the gearbox.", '["66 in", "-1 in", "14 in"]'
    )
    right_wheel_center: Place = _right("Wheel center", '["0 in", "-29 in", "12.9 in"]')
    right_lower_body: Place = _right("Lower link, body")
    right_lower_axle: Place = _right("Lower link, axle")
    right_upper_body: Place = _right("Upper link, body")
    right_upper_axle: Place = _right("Upper link, axle")
    right_bar_pivot: Place = _right("Ladder bar's pivot")
    right_leaf_front_eye: Place = _right("Leaf spring's front eye")
    right_leaf_seat: Place = _right("Leaf spring's seat")
    right_leaf_rear_eye: Place = _right("Leaf spring's rear eye")
    right_shackle_top: Place = _right("Shackle's bolt on the body")
    right_spring_body: Place = _right("Coil spring's upper seat")
    right_spring_axle: Place = _right("Coil spring's lower seat")
    right_shock_body: Place = _right("Shock's upper eye")
    right_shock_axle: Place = _right("Shock's lower eye")


Bush = Literal["rubber", "urethane", "solid", "rod end"]
_BUSHES = {
    "rubber": "rubber in a sleeve",
    "urethane": "hard plastic",
    "solid": "metal or very hard plastic sleeve",
    "rod end": "spherical bearing",
}


class Bushes(Section):
    """How stiff links and springs of the rear suspension are; one bush along its link."""

    lower: Bush | None = key(
        "Bushes of the lower links, or of ladder bars and leaf eyes.", choices=_BUSHES,
        default={"rubber": 1.0}, because=PRACTICE, advice="Look at the eye of the link.",
    )  # fmt: skip
    upper: Bush | None = key(
        "Bushes of the upper links or the torque arm.", choices=_BUSHES,
        default={"rubber": 1.0}, because=PRACTICE, advice="Look at the eye of the link.",
    )  # fmt: skip
    lateral: Bush | None = key(
        "Bushes of the lateral rod.", choices=_BUSHES, default={"rubber": 1.0},
        because=PRACTICE, advice="Look at the eye of the rod.",
    )  # fmt: skip
    lower_stiffness: Stiffness = key(
        "Stiffness of one bush of the lower link along the link.",
        example="4 kN/mm", default="by kind of bush", because=MEMORY,
        possible=("0.1 kN/mm", "1000 kN/mm"), advice="Press it with a known load, dial beside it.",
    )  # fmt: skip
    upper_stiffness: Stiffness = key(
        "Stiffness of one bush of the upper link along the link.",
        example="4 kN/mm", default="by kind of bush", because=MEMORY,
        possible=("0.1 kN/mm", "1000 kN/mm"), advice="Press it with a known load, dial beside it.",
    )  # fmt: skip
    lateral_stiffness: Stiffness = key(
        "Stiffness of one bush of the lateral rod along the rod.",
        example="4 kN/mm", default="by kind of bush", because=MEMORY,
        possible=("0.1 kN/mm", "1000 kN/mm"), advice="Press it with a known load, dial beside it.",
    )  # fmt: skip
    arm_stiffness: Stiffness = key(
        "Stiffness of a torque arm's front bush and the arm, up and down.",
        example="1.5 kN/mm", default="0.5 to 4 kN/mm", because=MEMORY,
        possible=("0.02 kN/mm", "500 kN/mm"),
        advice="Jack under the front of the arm, dial beside it.",
    )  # fmt: skip
    leaf_rate: Stiffness = key(
        "Rate of one leaf spring at its seat.", example="160 lbf/in",
        default="110 to 220 lbf/in", because=MEMORY, usual=("80 lbf/in", "400 lbf/in"),
        possible=("30 lbf/in", "2000 lbf/in"),
        advice="Load the seat in steps on a scale, tape the travel.",
    )  # fmt: skip
    leaf_sideways: Stiffness = key(
        "Stiffness of one leaf spring with its bushes against a sideways force at the seat.",
        example="0.4 kN/mm", default="0.15 to 0.8 kN/mm", because=MEMORY,
        possible=("0.01 kN/mm", "50 kN/mm"), advice="Pry axle against body, dial and load cell.",
    )  # fmt: skip
    leaves: Literal["pack", "single"] | None = key(
        "Whether the spring is a stepped pack or one leaf.",
        choices={"pack": "several leaves of rising length", "single": "one leaf of one thickness"},
        default={"pack": 1.0}, because=PRACTICE,
    )  # fmt: skip
    coil_rate: Stiffness = key(
        "Rate of one rear coil spring.", example="150 lbf/in", default="100 to 250 lbf/in",
        because=MEMORY, usual=("70 lbf/in", "500 lbf/in"), possible=("20 lbf/in", "3000 lbf/in"),
        advice="Tag on the coil; or on a scale in steps.",
    )  # fmt: skip
