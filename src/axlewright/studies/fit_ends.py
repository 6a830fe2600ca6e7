"""Housing ends: bearing, retainer, brake, hat, wheel and studs as gaps, each from its own readings.

What is not measured leaves its own gap open and no other one.  A brake space that shaft and pocket
contradict is found among the readings before.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from axlewright.build.fitting import EndStack
from axlewright.fit import end_stack, register, studs
from axlewright.fit.end_words import AIMS, CALIPER_ROOM, Aim
from axlewright.quantities.formula import Num
from axlewright.quantities.units import show, show_both
from axlewright.studies.fit_fill import Filled
from axlewright.studies.fit_known import Known, Lack, read, work

Judge = Callable[[float], str]
"""What is wrong with a value at its nominal, in words; nothing if it is right."""


@dataclass(frozen=True)
class Gap:
    """One gap of an end, and how it is judged."""

    key: str
    what: str
    value: Known
    judge: Judge
    dimension: str = "length"


def gaps_of_end(x: Filled, side: str) -> Iterator[Gap]:
    """Every gap of one end, from the tube outward."""
    e, brakes = x.end(side), x.fitting.brakes
    yield from _bearing(x, e)
    if brakes.rear_kind == "drum":
        yield _drum(e)
    elif brakes.rear_kind == "disc":
        yield from _disc(x, e)
    yield from _seat(x, e)
    yield from _studs(x, e)
    yield from _access(e)


def _bearing(x: Filled, e: EndStack[Num]) -> Iterator[Gap]:
    pocket = read(e.bearing_pocket, "ends.bearing_pocket")
    wide = read(e.bearing_width, "ends.bearing_width")
    gap = work(
        end_stack.bearing_gap,
        bearing_pocket=pocket,
        backing_plate=read(e.backing_plate, "ends.backing_plate"),
        end_gasket=e.gasket,
        retainer_lip=e.retainer_lip,
        wheel_bearing_width=wide,
        bearing_shim=e.bearing_shim,
    )
    yield Gap("bearing_gap", "Bearing under its retainer, play above zero", gap,
              _aimed(x.fitting.end_play_aim))  # fmt: skip


def _aimed(kind: str | None) -> Judge:
    aim: Aim | None = AIMS.get(kind) if kind else None

    def judge(gap: float) -> str:
        what = f"{'play' if gap >= 0.0 else 'crush'} of {show_both(abs(gap), 'length', 3)}"
        if aim is None:
            return (
                f"{what}: whether that is right stands in the manual of this axle, for families"
                " aim opposite ways (ends.end_play_aim)"
            )
        if aim.low <= gap <= aim.high:
            return ""
        cure = (
            "take shim from under the retainer or add it beside the bearing"
            if gap > aim.high
            else "add shim under the retainer or take it from beside the bearing"
        )
        return f"{what}, wanted is {kind}: {cure}"

    return judge


def _drum(e: EndStack[Num]) -> Gap:
    gap = work(
        end_stack.drum_edge_gap,
        brake_space=read(e.brake_space, "ends.brake_space"),
        drum_depth=read(e.drum_depth, "ends.drum_depth"),
        drum_plate_face=read(e.plate_face, "ends.plate_face"),
    )
    return Gap("drum_gap", "Drum's edge to its plate", gap, _above("the drum rubs on its plate"))


def _disc(x: Filled, e: EndStack[Num]) -> Iterator[Gap]:
    space = read(e.brake_space, "ends.brake_space")
    off = work(
        end_stack.rotor_off_center,
        brake_space=space,
        rotor_offset=read(e.rotor_depth, "ends.rotor_depth"),
        caliper_out=read(e.caliper_out, "ends.caliper_out"),
    )
    yield Gap("rotor_off", "Disc outside the middle of its caliper", off, _fine)
    room = work(
        end_stack.rotor_side_room,
        caliper_slot=read(e.caliper_slot, "ends.caliper_slot"),
        rotor_thickness=read(e.rotor_thickness, "ends.rotor_thickness"),
        rotor_off=off,
    )
    yield Gap("rotor_room", "Room beside the disc, tighter side", room,
              _above("the disc meets its caliper: shim the bracket, or another one"))  # fmt: skip
    w = x.fitting.wheel
    under = work(
        end_stack.caliper_under_rim,
        rim_inside_radius=read(w.inner_radius, "wheel.inner_radius"),
        caliper_outer_radius=read(e.caliper_radius, "ends.caliper_radius"),
    )
    yield Gap("under_rim", "Caliper under the rim", under, _caliper("the rim"))
    behind = work(
        end_stack.caliper_behind_spokes,
        brake_space=space,
        wheel_hat=read(e.hat, "ends.hat"),
        wheel_spacer=e.spacer,
        spoke_standoff=read(w.spoke_back, "wheel.spoke_back"),
        caliper_face=read(e.caliper_face, "ends.caliper_face"),
    )
    yield Gap("behind_spokes", "Caliper behind the spokes", behind, _caliper("the spokes"))


def _caliper(where: str) -> Judge:
    def judge(room: float) -> str:
        if room >= CALIPER_ROOM:
            return ""
        if room < 0.0:
            return f"too large for {where}: the wheel does not go on"
        return f"too near to {where}: {show(CALIPER_ROOM, 'length', digits=2)} is the least"

    return judge


def _seat(x: Filled, e: EndStack[Num]) -> Iterator[Gap]:
    inside = work(
        end_stack.flange_in_hat,
        hat_inside=read(e.hat_inside, "ends.hat_inside"),
        flange_outside=read(e.flange_diameter, "ends.flange_diameter"),
    )
    yield Gap("flange_in_hat", "Gap around the flange inside hat or drum", inside,
              _above("the flange is larger than the inside of hat or drum"))  # fmt: skip
    step = work(
        register.register_left,
        register_height=read(e.register_height, "ends.register_height"),
        wheel_hat=read(e.hat, "ends.hat"),
        wheel_spacer=e.spacer,
    )
    yield Gap("register_left", "Register left for the wheel", step, _step)
    for key, what, bore, name in (
        ("hat_clearance", "Hat on the register", e.rotor_bore, "ends.rotor_bore"),
        ("wheel_clearance", "Wheel on the register", x.fitting.wheel.hub_bore, "wheel.hub_bore"),
    ):
        clearance = work(
            register.register_clearance,
            center_bore=read(bore, name),
            register_diameter=read(e.register, "ends.register"),
        )
        yield Gap(key, f"{what}, clearance of the diameter", clearance, _centering)


def _step(left: float) -> str:
    if left >= register.LEAST_STEP:
        return ""
    return "too short to center the wheel: it is centered by its nuts"


def _centering(clearance: float) -> str:
    how = register.centering(clearance, register.LEAST_STEP)
    return "" if how == "by the hub" else f"not centered by the hub: {how}"


def _studs(x: Filled, e: EndStack[Num]) -> Iterator[Gap]:
    stack = {
        "wheel_hat": read(e.hat, "ends.hat"),
        "wheel_spacer": e.spacer,
        "wheel_pad_thickness": read(x.fitting.wheel.pad_thickness, "wheel.pad_thickness"),
        "nut_sink": e.nut_sink,
    }
    left = work(
        studs.stud_left_for_nut, stud_reach=read(e.stud_length, "ends.stud_length"), **stack
    )
    engaged = work(
        studs.nut_engagement,
        stud_left=left,
        nut_thread=read(e.nut_thread, "ends.nut_thread"),
        stud_blank_end=e.stud_lead,
    )
    yield Gap("nut_engagement", "Thread of the wheel nut engaged", engaged, _fine)
    diameters = work(
        studs.engagement_in_diameters,
        thread_engagement=engaged,
        bolt_diameter=x.beside.stud_diameter,
    )
    yield Gap("nut_diameters", "The same in stud diameters", diameters, _thread, "ratio")
    under = work(studs.thread_under_nut, **stack, stud_root_blank=e.stud_blank)
    yield Gap("thread_under_nut", "Thread left under the nut on its seat", under,
              _above("the nut runs out of thread before it clamps the wheel"))  # fmt: skip
    if e.nut_depth is not None:
        closed = work(studs.closed_nut_gap, nut_depth=e.nut_depth, stud_left=left)
        yield Gap("closed_nut", "End of the stud to the bottom of a closed nut", closed,
                  _above("the nut bottoms on its stud and clamps nothing"))  # fmt: skip


def _thread(diameters: float) -> str:
    if diameters >= studs.LEAST_DIAMETERS:
        return ""
    return "less than one diameter of thread: longer studs; do not drive it"


def _access(e: EndStack[Num]) -> Iterator[Gap]:
    bolts = work(
        end_stack.radius_of_retainer_bolts,
        bolts_across=read(e.bolts_across, "ends.bolts_across"),
        bolts_up=read(e.bolts_up, "ends.bolts_up"),
    )
    room = work(
        end_stack.access_room,
        access_hole=read(e.access_hole, "ends.access_hole"),
        access_hole_radius=read(e.access_radius, "ends.access_radius"),
        socket_outside=e.socket,
        retainer_bolt_radius=bolts,
    )
    yield Gap("access_room", "Room around the socket through the flange", room,
              _above("the socket does not pass the flange to the retainer's nuts"))  # fmt: skip
    spare = work(
        end_stack.retainer_bolt_spare,
        retainer_bolt_length=read(e.bolt_length, "ends.bolt_length"),
        end_flange_thickness=read(e.end_flange, "ends.end_flange"),
        backing_plate=read(e.backing_plate, "ends.backing_plate"),
        end_gasket=e.gasket,
        retainer_thickness=read(e.retainer, "ends.retainer"),
        retainer_nut=read(e.retainer_nut, "ends.retainer_nut"),
    )
    yield Gap("bolt_spare", "Retainer bolt beyond its nut", spare,
              _above("the retainer bolts are too short for the stack"))  # fmt: skip


def _above(words: str) -> Judge:
    return lambda value: words if value <= 0.0 else ""


def _fine(value: float) -> str:
    del value
    return ""


def fault_of(gap: Gap) -> str:
    """What is wrong with a gap at its nominal value."""
    return "" if isinstance(gap.value, Lack) else gap.judge(float(gap.value))
