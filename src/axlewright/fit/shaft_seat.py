"""How a shaft sits in its side gear: spline engaged, and what is left before it bottoms."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.fit import shaft_length
from axlewright.quantities.formula import Num


@dataclass(frozen=True)
class SideGear:
    """One side of the differential as measured, in m from its center."""

    spline_inner: Num
    spline_outer: Num
    center_reach: Num
    """Half the cross pin, a spacer or the other shaft: what the shaft must not touch."""


@dataclass(frozen=True)
class ShaftSeat:
    """How one shaft sits, in m."""

    end_gap: Num
    engaged: Num
    """With the shaft drawn out by its float: the least there is."""
    wanted: Num
    pin_clearance: Num
    """With the shaft pushed in by its float; below zero it bottoms."""


def seat_shaft(
    bare_half: Num, length: Num, spline_length: Num, spline_diameter: Num, gear: SideGear,
    float_each_way: Num, engagement_share: Num = 1.25,
) -> ShaftSeat:  # fmt: skip
    """Put a shaft of some length into its side gear."""
    gap = shaft_length.end_gap(bare_half, length)
    return ShaftSeat(
        gap,
        shaft_length.engaged_length(
            gap, spline_length, gear.spline_inner, gear.spline_outer, float_each_way
        ),
        shaft_length.wanted_engagement(spline_diameter, engagement_share),
        shaft_length.pin_clearance(gap, gear.center_reach, float_each_way),
    )
