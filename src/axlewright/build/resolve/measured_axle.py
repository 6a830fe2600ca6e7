"""Track, wheel lever, seat and shaft lengths, from the readings for fit; None if not taken."""

from __future__ import annotations

from typing import TYPE_CHECKING

from axlewright.build.resolve.ledger import derived
from axlewright.fit import from_readings
from axlewright.quantities.estimate import Leaf, Plain

if TYPE_CHECKING:
    from axlewright.build.resolve.measured import Readings

_OLD = (
    "car.track: worked out from the wheel faces of the old axle and the offset of the new wheel;"
    " an axle of another width has another track"
)
_SEATS = {"leaf": "leaf_seat"}
"""Where a spring stands on the axle, by kind; coils have their own point."""


def track(x: Readings) -> Leaf | None:
    """From wheel faces and offset, else from the places of both tires."""
    found = _track_of_faces(x)
    return found if found is not None else _track_of_centers(x)


def _track_of_faces(x: Readings) -> Leaf | None:
    if x.offset is None:
        return None
    faces = x.leaf("centre.face_to_face") or _old_faces(x)
    if faces is None:
        return None
    return derived(
        "car.track",
        from_readings.track_of_faces,
        fit_width=faces,
        wheel_offset=x.offset,
        left_spacer=x.spacer("left"),
        right_spacer=x.spacer("right"),
    )


def _old_faces(x: Readings) -> Leaf | None:
    """The old axle's, where nothing says that another one goes in."""
    said = x.book.stated
    if said("centre") or said("car.track") or not said("fit.face_to_face"):
        return None
    x.settle("old axle")
    x.book.cautions.append(_OLD)
    return x.leaf("fit.face_to_face")


def _track_of_centers(x: Readings) -> Leaf | None:
    if "wheel_center" not in x.points or "right_wheel_center" not in x.points:
        return None
    return derived(
        "car.track",
        from_readings.track_of_centers,
        left_center=x.points["wheel_center"].left,
        right_center=x.points["right_wheel_center"].left,
    )


def wheel_lever(x: Readings) -> Leaf | None:
    """From the stack at the end whose tire stands farther out."""
    known = [lever for side in ("left", "right") if (lever := _lever(x, side)) is not None]
    return max(known, key=lambda lever: float(Plain().fill(lever)), default=None)


def _lever(x: Readings, side: str) -> Leaf | None:
    width, out, hat = (x.end(side, n) for n in ("bearing_width", "bearing_to_flange", "hat"))
    if width is None or out is None or hat is None or x.offset is None:
        return None
    return derived(
        "axle.wheel_lever",
        from_readings.lever_of_wheel,
        wheel_bearing_width=width,
        bearing_to_flange=out,
        wheel_hat=hat,
        wheel_spacer=x.spacer(side),
        wheel_offset=x.offset,
    )


def seat_inset(x: Readings) -> Leaf | None:
    """From the places of tire and spring on the axle."""
    seat = _SEATS.get(str(x.book.stated("suspension.kind")), "spring_axle")
    if "wheel_center" not in x.points or seat not in x.points:
        return None
    return derived(
        "suspension.seat_inset",
        from_readings.inset_of_seat,
        left_center=x.points["wheel_center"].left,
        seat_center=x.points[seat].left,
    )


def shaft_span(x: Readings, side: str, engagement: Leaf) -> Leaf | None:
    """What twists of a shaft that was measured, or that others leave no choice."""
    shaft = x.leaf(f"centre.{side}_shaft")
    if shaft is None:
        return None
    return derived(
        f"axle.{side}_shaft_length",
        from_readings.twisting_length,
        shaft_length=shaft,
        gear_engagement=engagement,
    )
