"""Resolving housing ends, the new center, and brakes."""

from __future__ import annotations

from axlewright.build.fitting import BrakeSizes, CentreSizes, EndStack
from axlewright.build.resolve.fit_readings import Notebook, text_of
from axlewright.build.resolve.ledger import MEMORY
from axlewright.quantities.estimate import Leaf

_PARKING_FACTORS = {
    "drum": "1.2 to 2.2",
    "shoes in the hat": "1.2 to 2.5",
    "caliper lever": "0.6 to 0.9",
}
"""Drag over push: shoes that wind themselves up; two pads of one caliper."""


def end(notes: Notebook, which: str) -> EndStack[Leaf]:
    """One end: what was measured on it, else what is stated for both."""

    def read(name: str) -> Leaf | None:
        return of_end(notes, which, name)

    def sure(name: str) -> Leaf:
        found = read(name)
        return found if found is not None else notes.sure(f"ends.{name}")

    return EndStack(
        brake_space=read("brake_space"),
        hat=read("hat"),
        spacer=sure("spacer"),
        register=read("register"),
        register_height=read("register_height"),
        rotor_bore=read("rotor_bore"),
        hat_inside=read("hat_inside"),
        flange_diameter=read("flange_diameter"),
        flange_thickness=read("flange_thickness"),
        stud_length=read("stud_length"),
        stud_blank=sure("stud_blank"),
        nut_thread=read("nut_thread"),
        bearing_pocket=read("bearing_pocket"),
        bearing_width=read("bearing_width"),
        bearing_to_flange=read("bearing_to_flange"),
        backing_plate=read("backing_plate"),
        retainer=read("retainer"),
        retainer_lip=sure("retainer_lip"),
        gasket=sure("gasket"),
        bolt_length=read("bolt_length"),
        bolts_across=read("bolts_across"),
        bolts_up=read("bolts_up"),
        bearing_bore=read("bearing_bore"),
        rotor_depth=read("rotor_depth"),
        rotor_thickness=read("rotor_thickness"),
        caliper_out=read("caliper_out"),
        caliper_slot=read("caliper_slot"),
        bearing_shim=sure("bearing_shim"),
        drum_depth=read("drum_depth"),
        plate_face=read("plate_face"),
        caliper_radius=read("caliper_radius"),
        caliper_face=read("caliper_face"),
        access_hole=read("access_hole"),
        access_radius=read("access_radius"),
        socket=sure("socket"),
        end_flange=read("end_flange"),
        retainer_nut=read("retainer_nut"),
        stud_lead=sure("stud_lead"),
        nut_sink=sure("nut_sink"),
        nut_depth=read("nut_depth"),
    )


def of_end(notes: Notebook, which: str, name: str) -> Leaf | None:
    """One reading of an end, its own or that of both."""
    own = notes.leaf(f"ends.{which}.{name}") if _is_said(notes, which, name) else None
    return own if own is not None else notes.leaf(f"ends.{name}")


def _is_said(notes: Notebook, which: str, name: str) -> bool:
    """Whether a key of one end is stated, or known from others."""
    path = f"ends.{which}.{name}"
    return path in notes.settled or notes.book.stated(path) is not None


def centre(notes: Notebook) -> CentreSizes[Leaf]:
    """The new axle's center."""

    def read(name: str) -> Leaf | None:
        return notes.leaf(f"centre.{name}")

    return CentreSizes(
        face_to_face=read("face_to_face"),
        bare_to_bare=read("bare_to_bare"),
        end_to_end=read("end_to_end"),
        left_half=read("left_half"),
        right_half=read("right_half"),
        pinion_left=read("pinion_left"),
        differential_left=read("differential_left"),
        differential_gap=read("differential_gap"),
        spline_inner=read("spline_inner"),
        spline_outer=read("spline_outer"),
        shaft_float=notes.sure("centre.shaft_float"),
        left_shaft=read("left_shaft"),
        right_shaft=read("right_shaft"),
        nose=read("nose"),
        height_above=read("height_above"),
        depth_behind=read("depth_behind"),
        fill_hole_up=read("fill_hole_up"),
        shaft_spline=read("shaft_spline"),
        fill_hole_behind=read("fill_hole_behind"),
        bearing_ahead=read("bearing_ahead"),
        splines_engaged=notes.sure("centre.splines_engaged"),
    )


def brakes(notes: Notebook) -> BrakeSizes[Leaf]:
    """Both brakes and the parking brake."""

    def read(name: str) -> Leaf | None:
        return notes.leaf(f"brakes.{name}")

    def sure(name: str) -> Leaf:
        return notes.sure(f"brakes.{name}")

    parking = notes.book.choice("brakes.parking")
    return BrakeSizes(
        rear_kind=text_of(notes.book, "brakes.rear_kind"),
        front_kind=notes.book.choice("brakes.front_kind"),
        rear_share=sure("rear_share"),
        rear_radius=read("rear_radius"),
        front_radius=read("front_radius"),
        rear_piston_area=_stated(notes, "rear_piston_area"),
        front_piston_area=_stated(notes, "front_piston_area"),
        rear_friction=sure("rear_friction"),
        front_friction=sure("front_friction"),
        rear_drum_factor=sure("rear_drum_factor"),
        line_pressure=sure("line_pressure"),
        knee_pressure=_stated(notes, "knee_pressure"),
        knee_share=sure("knee_share"),
        parking=parking,
        parking_radius=read("parking_radius"),
        parking_factor=_parking_factor(notes, parking),
        lever_force=sure("lever_force"),
        lever_ratio=sure("lever_ratio"),
        wheel_lever_ratio=sure("wheel_lever_ratio"),
        cable_efficiency=sure("cable_efficiency"),
        grade=sure("grade"),
        hose_free=_stated(notes, "hose_free"),
    )


def _stated(notes: Notebook, name: str) -> Leaf | None:
    """A key without default: stated, or nothing."""
    path = f"brakes.{name}"
    return notes.book.quantity(path) if notes.book.stated(path) is not None else None


def _parking_factor(notes: Notebook, kind: str) -> Leaf | None:
    text = _PARKING_FACTORS.get(kind)
    if text is None:
        return None
    meta, dimension = notes.book.meta("brakes.parking_factor")
    by_kind = notes.book.assumed(
        "brakes.parking_factor", text, dimension, f"{kind}; {MEMORY}", meta.means, meta.advice
    )
    return notes.book.quantity("brakes.parking_factor", by_kind)
