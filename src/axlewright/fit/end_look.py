"""One end of the axle looked at as a whole: its parts, and every gap of its stack."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from typing import cast

from axlewright.fit import end_stack, register, studs
from axlewright.quantities.formula import Num


@dataclass(frozen=True)
class Bearing:
    """What the bearing's chain needs; lengths in m, numbers or arrays of samples."""

    pocket: Num
    """Face of the housing end in to the shoulder that the bearing sits on."""
    plate: Num
    """Drum plate or disc bracket between housing end and retainer."""
    width: Num
    to_flange: Num | None = None
    """On the shaft: outer side of the bearing to the flange face."""
    space: Num | None = None
    """Brake space as measured with the shaft home; this or ``to_flange`` must be there."""
    lip: Num = 0.0
    """How far the retainer reaches into the pocket; below zero if it is recessed."""
    gasket: Num = 0.0
    """Gaskets and shims between housing end and retainer."""
    shim: Num = 0.0
    """Shim beside the bearing in its pocket."""

    def __post_init__(self) -> None:
        if self.to_flange is None and self.space is None:
            raise ValueError("measure the brake space, or the shaft from bearing to flange")


@dataclass(frozen=True)
class Disc:
    """A disc brake at this end; lengths in m."""

    offset: Num
    """Mounting face in to the middle of the disc."""
    caliper_out: Num
    """Face of the housing end to the middle of the caliper's slot, bracket bolted on."""
    slot: Num
    """Width of that slot."""
    thickness: Num
    outer_radius: Num | None = None
    """Farthest point of the caliper from the middle of the axle."""
    outer_face: Num | None = None
    """Face of the housing end to the outer face of the caliper."""


@dataclass(frozen=True)
class Drum:
    """A drum brake at this end; lengths in m."""

    depth: Num
    """Mounting face in to the open edge."""
    plate_face: Num
    """Face of the housing end to the plate beside that edge."""


@dataclass(frozen=True)
class WheelSeat:
    """Flange, hat, spacer, studs, nuts and wheel; lengths in m."""

    flange: Num
    """Outside diameter of the flange."""
    hat_inside: Num
    """Inside diameter of hat or drum."""
    hat: Num
    """Thickness of hat or drum under the wheel."""
    spacer: Num
    wheel_pad: Num
    """Wheel from its mounting face to the seat of the nut."""
    stud_reach: Num
    """Stud from the flange face to its end."""
    stud_diameter: Num
    nut_thread: Num
    nut_sink: Num = 0.0
    blank_end: Num = 0.0
    """Lead without thread at the stud's tip."""
    root_blank: Num = 0.0
    """Part without thread at the flange."""
    register_diameter: Num | None = None
    register_height: Num | None = None
    hat_bore: Num | None = None
    wheel_bore: Num | None = None
    closed_nut_depth: Num | None = None
    rim_inside_radius: Num | None = None
    """Least inside radius of the rim over the width of the caliper."""
    spoke_standoff: Num | None = None
    """Wheel's mounting face out to the back of the spokes where the caliper passes."""


@dataclass(frozen=True)
class Access:
    """How the retainer's nuts are reached through the flange, and their bolts; lengths in m."""

    hole: Num
    """Diameter of the hole in the flange."""
    hole_radius: Num
    """Its middle from the middle of the axle."""
    socket: Num
    """Outside diameter of the socket."""
    bolt_radius: Num
    """Retainer bolt from the middle of the axle."""
    bolt_length: Num
    """Bolt under its head."""
    end_flange: Num
    """Housing end where its bolts pass."""
    retainer: Num
    """Thickness of the retainer."""
    nut: Num
    """Nut with its washer."""


@dataclass(frozen=True)
class End:
    """One side's end; left and right are two of them."""

    side: str
    bearing: Bearing
    seat: WheelSeat
    brake: Disc | Drum | None = None
    access: Access | None = None


@dataclass(frozen=True)
class EndLook:
    """Gaps of one end, m; numbers or arrays.  None where the part is not there."""

    bearing_gap: Num
    brake_space: Num
    flange_in_hat: Num
    stud_left: Num
    engagement: Num
    diameters: Num
    """Engagement over the stud's diameter."""
    thread_under_nut: Num
    space_disagrees: Num | None = None
    """Brake space as measured less the one of shaft and pocket."""
    rotor_off: Num | None = None
    rotor_room: Num | None = None
    drum_gap: Num | None = None
    hat_clearance: Num | None = None
    wheel_clearance: Num | None = None
    register_left: Num | None = None
    closed_nut_gap: Num | None = None
    access_room: Num | None = None
    bolt_spare: Num | None = None
    under_rim: Num | None = None
    behind_spokes: Num | None = None

    @property
    def numbers(self) -> dict[str, Num]:
        """All that was worked out, by name."""
        found = {f.name: getattr(self, f.name) for f in dataclasses.fields(self)}
        return {name: value for name, value in found.items() if value is not None}


def look_at(end: End) -> EndLook:
    """Every gap of one end."""
    b, seat = end.bearing, end.seat
    worked = None
    if b.to_flange is not None:
        worked = end_stack.brake_space_of_shaft(b.to_flange, b.width, b.pocket)
    space = cast(Num, worked if b.space is None else b.space)
    left = studs.stud_left_for_nut(
        seat.stud_reach, seat.hat, seat.spacer, seat.wheel_pad, seat.nut_sink
    )
    engaged = studs.nut_engagement(left, seat.nut_thread, seat.blank_end)
    return EndLook(
        bearing_gap=end_stack.bearing_gap(b.pocket, b.plate, b.gasket, b.lip, b.width, b.shim),
        brake_space=space,
        flange_in_hat=end_stack.flange_in_hat(seat.hat_inside, seat.flange),
        stud_left=left,
        engagement=engaged,
        diameters=studs.engagement_in_diameters(engaged, seat.stud_diameter),
        thread_under_nut=studs.thread_under_nut(
            seat.hat, seat.spacer, seat.wheel_pad, seat.nut_sink, seat.root_blank
        ),
        **_disagreement(b.space, worked),
        **_brake(end.brake, space),
        **_register(seat),
        **_access(end.access, b),
        **_caliper(end.brake, seat, space),
        **_closed_nut(seat, left),
    )


def _disagreement(measured: Num | None, worked: Num | None) -> dict[str, Num]:
    if measured is None or worked is None:
        return {}
    return {"space_disagrees": end_stack.space_difference(measured, worked)}


def _closed_nut(seat: WheelSeat, left: Num) -> dict[str, Num]:
    if seat.closed_nut_depth is None:
        return {}
    return {"closed_nut_gap": studs.closed_nut_gap(seat.closed_nut_depth, left)}


def _brake(brake: Disc | Drum | None, space: Num) -> dict[str, Num]:
    if isinstance(brake, Drum):
        return {"drum_gap": end_stack.drum_edge_gap(space, brake.depth, brake.plate_face)}
    if brake is None:
        return {}
    off = end_stack.rotor_off_center(space, brake.offset, brake.caliper_out)
    room = end_stack.rotor_side_room(brake.slot, brake.thickness, off)
    return {"rotor_off": off, "rotor_room": room}


def _register(seat: WheelSeat) -> dict[str, Num]:
    found: dict[str, Num] = {}
    if seat.register_diameter is None:
        return found
    if seat.hat_bore is not None:
        found["hat_clearance"] = register.register_clearance(seat.hat_bore, seat.register_diameter)
    if seat.wheel_bore is not None:
        found["wheel_clearance"] = register.register_clearance(
            seat.wheel_bore, seat.register_diameter
        )
    if seat.register_height is not None:
        found["register_left"] = register.register_left(seat.register_height, seat.hat, seat.spacer)
    return found


def _access(access: Access | None, bearing: Bearing) -> dict[str, Num]:
    if access is None:
        return {}
    a = access
    return {
        "access_room": end_stack.access_room(a.hole, a.hole_radius, a.socket, a.bolt_radius),
        "bolt_spare": end_stack.retainer_bolt_spare(
            a.bolt_length, a.end_flange, bearing.plate, bearing.gasket, a.retainer, a.nut
        ),
    }


def _caliper(brake: Disc | Drum | None, seat: WheelSeat, space: Num) -> dict[str, Num]:
    found: dict[str, Num] = {}
    if not isinstance(brake, Disc):
        return found
    if brake.outer_radius is not None and seat.rim_inside_radius is not None:
        found["under_rim"] = end_stack.caliper_under_rim(seat.rim_inside_radius, brake.outer_radius)
    if brake.outer_face is not None and seat.spoke_standoff is not None:
        found["behind_spokes"] = end_stack.caliper_behind_spokes(
            space, seat.hat, seat.spacer, seat.spoke_standoff, brake.outer_face
        )
    return found
