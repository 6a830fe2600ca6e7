"""One clearance as one number: the least over all travel, links not known."""

from __future__ import annotations

from axlewright.fit.axle_places import Stops, straight_places
from axlewright.fit.clearance import Obstacle, WheelEnd, clearances
from axlewright.fit.envelope import Tire
from axlewright.quantities.formula import Num, formula


@formula(
    "c_x",
    "length",
    source="distance of a point or edge from a solid of revolution, least over travel (derived)",
    kind="solve",
    valid={
        "bump_travel": (0.0, None),
        "droop_travel": (0.0, None),
        "side_shift": (0.0, None),
    },
    outside="each way is stated as a length above zero",
)
def least_clearance(
    fit_half: Num,
    mounted_section: Num,
    rim_over_lips: Num,
    wheel_offset: Num,
    free_radius: Num,
    tread_width: Num,
    rim_lip_radius: Num,
    obstacle_out: Num,
    obstacle_height: Num,
    obstacle_ahead: Num,
    obstacle_half_run: Num,
    bump_travel: Num,
    droop_travel: Num,
    side_shift: Num,
    loaded_radius: Num,
    travel_track: Num,
) -> Num:
    """Tire or rim to a point or edge of the body, the axle going straight up and down.

    The sideways way of a lateral rod and roll steer are not in it: where the links are known, take
    the places from them (``axle_places.solved_places``).
    """
    tire = Tire(
        mounted_section, rim_over_lips, wheel_offset, free_radius, tread_width, rim_lip_radius
    )
    thing = Obstacle(
        "obstacle", "left", "outer", obstacle_out, obstacle_height, obstacle_ahead,
        obstacle_half_run,
    )  # fmt: skip
    stops = Stops(bump_travel, droop_travel, side_shift)
    places = straight_places(stops, loaded_radius, travel_track)
    return clearances({"left": WheelEnd(fit_half, tire)}, [thing], places)[0].least
