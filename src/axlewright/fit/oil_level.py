"""Oil in the housing when the nose is set up or down, on a slope, or while the car pulls.

The side view of the axle: ahead of its axis and above it, in m, as measured with the nose level.
The surface stays level; the housing turns under it.  Pulling leans the surface back as if the nose
were set up by as much.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.quantities.formula import Array, Num, formula

_TURN = "a point turned about the axis of the axle (closed form)"


@formula("h_o", "length", source=_TURN)
def oil_over_point(
    level_ahead: Num, level_above: Num, point_ahead: Num, point_above: Num, nose_up: Num
) -> Num:
    """Depth of oil over a point when it stands at the level point, nose up by an angle.

    The level point is the lower lip of the fill hole, or a finger's depth under it.  Below zero
    the point stands out of the oil.
    """
    ahead = point_ahead - level_ahead
    above = point_above - level_above
    return -(above * np.cos(nose_up) + ahead * np.sin(nose_up))


@formula("h_o", "length", source=_TURN)
def oil_over_pinion(
    hole_up: Num, hole_behind: Num, bearing_ahead: Num, pinion_drop: Num, nose_up: Num
) -> Num:
    """Depth of oil over the pinion's middle at its front bearing, filled to the hole.

    The pinion runs ``pinion_drop`` under the axle line.  Below zero only what the ring gear throws
    reaches it.
    """
    result: Num = (hole_up + pinion_drop) * np.cos(nose_up) - (
        hole_behind + bearing_ahead
    ) * np.sin(nose_up)
    return result


@formula("ψ_o", "angle", source="apparent gravity of a car that pulls (closed form)")
def surface_lean(launch_acceleration: Num) -> Num:
    """Angle by which the oil's surface leans back while the car pulls steadily."""
    result: Num = np.arctan(launch_acceleration / 9.80665)
    return result


@dataclass(frozen=True)
class OilRoom:
    """The inside of a housing, simplified to round parts; lengths in m.

    Bowl and tubes are cylinders about the axle's axis, so a turn of the nose does not change what
    they hold at a level.  The nose is a cylinder or cone ahead of the bowl, about the pinion's
    axis.
    """

    bowl_radius: float
    bowl_width: float
    tube_radius: float
    """Inside of a tube."""
    tube_length: float
    """Both tubes together, as far as oil gets."""
    nose_above: float
    """Axis of the pinion above the axis of the axle (below: minus)."""
    nose_start: float
    """From the axis of the axle to where the nose leaves the bowl."""
    nose_end: float
    nose_radius_start: float
    nose_radius_end: float
    filled_by_parts: float = 0.25
    """Share of the room that gears, bearings and shafts take up; from memory, wide."""


def oil_volume(room: OilRoom, level: Num, nose_up: Num) -> Num:
    """Oil (m³) with its surface at a height above the axis of the axle, nose up by an angle.

    The nose is cut into slices that are square to it; each holds a segment of a circle.
    """
    height, angle = np.broadcast_arrays(
        np.asarray(level, dtype=np.float64), np.asarray(nose_up, dtype=np.float64)
    )
    whole = room.bowl_width * _segment(room.bowl_radius, height)
    whole = whole + room.tube_length * _segment(room.tube_radius, height)
    edges = np.linspace(room.nose_start, room.nose_end, 65)
    along = 0.5 * (edges[1:] + edges[:-1])
    step = edges[1] - edges[0]
    radius = np.interp(
        along, (room.nose_start, room.nose_end), (room.nose_radius_start, room.nose_radius_end)
    )
    turned = angle[..., None]
    # Within a slice the surface stands at the height over its axis divided by the cosine.
    over = (height[..., None] - along * np.sin(turned) - room.nose_above * np.cos(turned)) / np.cos(
        turned
    )
    nose = np.sum(_segment(radius, over) * step, axis=-1)
    result: Num = ((whole + nose) * (1.0 - room.filled_by_parts))[()]
    return result


def _segment(radius: Num, height: Num) -> Array:
    """Area of a circle below a level line at a height over its center."""
    share = np.clip(np.asarray(height) / radius, -1.0, 1.0)
    area: Array = radius**2 * (
        0.5 * np.pi + np.arcsin(share) + share * np.sqrt(1.0 - share * share)
    )
    return area


def level_of(room: OilRoom, volume: float, nose_up: float) -> float:
    """Height above the axis of the axle at which this much oil stands, by halving."""
    reach = max(room.bowl_radius, abs(room.nose_end) + room.nose_radius_start) + abs(
        room.nose_above
    )
    low, high = -reach, reach
    if not 0.0 < volume < float(oil_volume(room, high, nose_up)):
        raise ValueError("the housing does not hold so much oil, or there is none")
    for _ in range(60):
        middle = 0.5 * (low + high)
        if float(oil_volume(room, middle, nose_up)) < volume:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


@dataclass(frozen=True)
class OilLook:
    """What a new set of the nose does to the oil; lengths m, volumes m³."""

    over_bearing_before: float
    """Depth over the lowest point of the front pinion bearing, filled to the hole as made."""
    over_bearing_same_oil: float
    """The same oil after the nose has been turned."""
    over_bearing_to_hole: float
    """Filled to the hole where it stands now."""
    volume_before: float
    volume_to_hole: float

    @property
    def cautions(self) -> tuple[str, ...]:
        """What must be said."""
        said = []
        if self.over_bearing_to_hole <= 0.0:
            said.append(
                "Filled to the hole the front pinion bearing stands dry until the ring gear "
                "throws oil to it: fill by volume, turn the axle by hand, or move the hole."
            )
        if self.volume_to_hole > 1.15 * self.volume_before:
            said.append(
                "The hole takes clearly more oil than as made: more churning, heat, and oil at "
                "the vent and the seals."
            )
        return tuple(said)


def look_at_oil(
    room: OilRoom, hole: tuple[float, float], bearing: tuple[float, float],
    made_nose_up: float, nose_up: float,
) -> OilLook:  # fmt: skip
    """Oil over the front pinion bearing before and after the nose is turned, by hole and by volume.

    ``hole`` and ``bearing`` are (ahead, above) of the hole's lower lip and of the lowest point of
    the bearing's outer race.
    """
    level_made, level_now = (_height(hole, a) for a in (made_nose_up, nose_up))
    volume_made = float(oil_volume(room, level_made, made_nose_up))
    return OilLook(
        float(oil_over_point(*hole, *bearing, made_nose_up)),
        level_of(room, volume_made, nose_up) - _height(bearing, nose_up),
        float(oil_over_point(*hole, *bearing, nose_up)),
        volume_made,
        float(oil_volume(room, level_now, nose_up)),
    )


def _height(point: tuple[float, float], nose_up: float) -> float:
    ahead, above = point
    return float(above * np.cos(nose_up) + ahead * np.sin(nose_up))
