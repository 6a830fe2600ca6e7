"""How wide each side may be for a wheel that is settled, and one width that suits both."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.fit import room, wheel
from axlewright.quantities.formula import Num, greatest, least


@dataclass(frozen=True)
class RoomThere:
    """Room of one side, from the car's center plane, and what is to be kept free of it.  In m."""

    lip: Num
    inner: Num
    outer_wanted: Num
    inner_wanted: Num


@dataclass(frozen=True)
class SidePlan:
    """From the car's center to the face that the wheel touches, in m."""

    widest: Num
    """With just the clearance wanted at the lip."""
    narrowest: Num
    """With just the clearance wanted inboard."""
    half: Num
    """That shares the surplus evenly."""
    surplus: Num
    """Over the clearances wanted, on either face of the tire; below zero nothing fits."""


def plan_side(there: RoomThere, section: Num, over_lips: Num, offset: Num) -> SidePlan:
    """Room of one side for a mounted wheel."""
    out = wheel.outboard_reach(section, over_lips, offset)
    inside = wheel.inboard_reach(section, over_lips, offset)
    widest = room.widest_half(there.lip, there.outer_wanted, out)
    narrowest = room.narrowest_half(there.inner, there.inner_wanted, inside)
    return _even(widest, narrowest)


def plan_both(left: SidePlan, right: SidePlan) -> SidePlan:
    """One half for both sides, as of an axle alike left and right and centered in the car."""
    widest = least(
        "widest half of both sides", "H_max", "length", left=left.widest, right=right.widest
    )
    narrowest = greatest(
        "narrowest half of both sides", "H_min", "length",
        left=left.narrowest, right=right.narrowest,
    )  # fmt: skip
    return _even(widest, narrowest)


@dataclass(frozen=True)
class OffsetPlan:
    """Offsets of one wheel for both sides of an axle that is there, in m."""

    least: Num
    """With less it comes too near a lip."""
    most: Num
    """With more it comes too near what lies inboard."""
    even: Num
    """That shares the surplus evenly between the tightest faces."""
    surplus: Num
    """Below zero no offset will do, and either tire, rim or axle must change."""


def plan_wheel(
    left: RoomThere, right: RoomThere, left_half: Num, right_half: Num, widest_part: Num
) -> OffsetPlan:
    """Offset for wheels alike on both sides, from the faces that the axle already has."""
    lows, highs = zip(
        *(
            (
                room.least_offset(half, there.lip, there.outer_wanted, widest_part),
                room.most_offset(half, there.inner, there.inner_wanted, widest_part),
            )
            for half, there in ((left_half, left), (right_half, right))
        ),
        strict=True,
    )
    low = greatest("least offset of both sides", "e_min", "length", left=lows[0], right=lows[1])
    high = least("most offset of both sides", "e_max", "length", left=highs[0], right=highs[1])
    return OffsetPlan(low, high, room.offset_between(high, low), room.offset_to_spare(high, low))


def _even(widest: Num, narrowest: Num) -> SidePlan:
    half = room.even_half(widest, narrowest)
    return SidePlan(widest, narrowest, half, room.even_surplus(widest, narrowest))
