"""All widths of an axle and its shafts, from the faces that the wheels need.

Nothing is halved that was not measured: each side has its own half, hat, brake space and gap.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from axlewright.fit import shaft_length, width
from axlewright.quantities.formula import Num


@dataclass(frozen=True)
class SideParts:
    """What sits at one end of the axle, in m."""

    fit_half: Num
    """Car's center plane to the face that the wheel touches."""
    hat: Num
    """Rotor hat or drum between bare flange and wheel; none if the wheel sits on the flange."""
    brake_space: Num
    """Housing end face to bare flange."""
    end_gap: Num
    """Differential center to the inner end of the shaft."""


@dataclass(frozen=True)
class SideCut:
    """One side from the center of the differential, in m."""

    fit_half: Num
    bare_half: Num
    housing_half: Num
    shaft: Num
    pinion_half: Num
    """Pinion center to bare flange."""


@dataclass(frozen=True)
class AxleCut:
    """Widths of the whole axle, in m."""

    left: SideCut
    right: SideCut
    fit_width: Num
    order_width: Num
    housing_width: Num
    pinion_offset: Num
    """Pinion center left of the middle between the bare flanges."""
    differential_offset: Num
    """Differential center left of the same middle."""
    shafts_close: Num
    """Both shafts and gaps added up: must be the order width."""


def cut_axle(
    left: SideParts, right: SideParts, differential_left: Num, pinion_left: Num
) -> AxleCut:
    """Widths and shafts; both centers are stated as left of the car's center plane."""
    sides = (
        _side(left, differential_left, pinion_left, width.half_to_nearer_center),
        _side(right, differential_left, pinion_left, width.half_to_further_center),
    )
    fit = width.whole_width(sides[0].fit_half, sides[1].fit_half)
    order = width.order_width(fit, left.hat, right.hat)
    return AxleCut(
        *sides,
        fit_width=fit,
        order_width=order,
        housing_width=width.housing_width(order, left.brake_space, right.brake_space),
        pinion_offset=width.center_offset(sides[0].pinion_half, sides[1].pinion_half),
        differential_offset=width.center_offset(sides[0].bare_half, sides[1].bare_half),
        shafts_close=shaft_length.width_of_shafts(
            sides[0].shaft, sides[1].shaft, left.end_gap, right.end_gap
        ),
    )


def _side(
    parts: SideParts, differential: Num, pinion: Num, moved: Callable[[Num, Num], Num]
) -> SideCut:
    """One side; ``moved`` takes its half to a center that lies left of the car's."""
    fit_half = moved(parts.fit_half, differential)
    bare = width.bare_half(fit_half, parts.hat)
    return SideCut(
        fit_half=fit_half,
        bare_half=bare,
        housing_half=width.housing_half(bare, parts.brake_space),
        shaft=shaft_length.shaft_length(bare, parts.end_gap),
        pinion_half=moved(width.bare_half(parts.fit_half, parts.hat), pinion),
    )
