"""Resolving differential, axle shafts, wheel ends and studs."""

from __future__ import annotations

import math

from axlewright.build.machine import (
    AxleShaft,
    BoltGroup,
    Differential,
    WheelEnd,
)
from axlewright.build.resolve import measured_axle
from axlewright.build.resolve.ledger import MEMORY, PRACTICE, Ledger, mixture
from axlewright.build.resolve.parts import bolts, keeps, ring_gear_row, spline, steel
from axlewright.build.resolve.ties import read_or
from axlewright.build.sizes import read_studs
from axlewright.catalogue import rows
from axlewright.quantities.estimate import Estimate, Leaf


def differential(book: Ledger) -> Differential[Leaf]:
    """The differential class; an unknown one is a mixture."""
    kinds = book.kinds("axle.differential")
    found = [book.shelf.find(rows.Differential, k, ("axle", "differential")) for k in kinds.kinds]
    likeliest = found[kinds.likeliest]

    def mixed(field: str) -> Leaf:
        return mixture(
            kinds,
            f"axle.differential.{field}",
            [
                book.row(r, field, f"axle.differential.{field}.{k}")
                for k, r in zip(kinds.kinds, found, strict=True)
            ],
        )

    shock = "0.50 to 0.64" if likeliest.locks else "0.50 to 0.60"
    return Differential(
        name=" or ".join(kinds.kinds),
        locks=likeliest.locks,
        bias_ratio=mixed("bias_ratio"),
        preload=mixed("preload"),
        strength_share=mixed("strength_share"),
        shock_share=book.assumed(
            "axle.differential.shock_share",
            shock,
            "ratio",
            MEMORY,
            "Share of a shock that the harder-gripping side takes.",
        ),
        keeps=keeps(book, "differential"),
    )


def shaft(book: Ledger) -> AxleShaft[Leaf]:
    """The axle shafts."""
    name = book.stated("axle.shaft") or ring_gear_row(book).shaft
    row = book.shelf.find(rows.AxleShaft, name, ("axle", "shaft"))
    advice = book.meta("axle.shaft")[0].advice
    engagement = book.row(row, "engagement", "axle.shaft.engagement", advice=advice)
    return AxleShaft(
        name=name,
        spline=spline(book, "axle.shaft.spline", row.spline, ("axle", "shaft"), engagement),
        steel=steel(
            book, "axle.shaft.steel", row.steel, ("axle", "shaft"), keeps(book, "axle_shaft")
        ),
        body_diameter=book.row(row, "body_diameter", "axle.shaft.body_diameter", advice=advice),
        seat_diameter=book.row(row, "seat_diameter", "axle.shaft.seat_diameter", advice=advice),
        hub_share=book.assumed(
            "axle.side_gear.hub_share",
            "1.35 to 1.65",
            "ratio",
            PRACTICE,
            "Outside of the side-gear hub over the spline's major diameter.",
        ),
        hub_strength=book.assumed(
            "axle.side_gear.strength",
            "110 to 160 ksi",
            "stress",
            "core of carburized 8620-type steel (from memory)",
            "Tensile strength of the side-gear hub.",
        ),
        pressure_angle=book.exact(
            "axle.shaft.spline.pressure_angle",
            math.radians(30.0),
            "angle",
            "ANSI B92.1, 30 degree splines",
            "Pressure angle of the spline.",
        ),
        hub_form_factor=book.exact(
            "axle.side_gear.form_factor",
            1.5,
            "ratio",
            "Machinery's Handbook, 30 degree flat root (from memory)",
            "Form factor of the hub's teeth.",
        ),
        bore=book.exact("axle.shaft.bore", 0.0, "length", "axle shafts are solid", "Bore."),
        length=book.assumed(
            "axle.shaft.length", "28 to 33 in", "length", PRACTICE, "Length of shaft that twists."
        ),
        shear_modulus=book.assumed(
            "steel.shear_modulus",
            "79.3 ± 0.8 GPa",
            "modulus",
            "handbook value of carbon steel",
            "Shear modulus of steel.",
        ),
    )


def _bearing_rating(book: Ledger) -> Leaf | None:
    """Static rating of the wheel bearing, if the build names it."""
    name = book.stated("axle.wheel_bearing")
    if name is None:
        return None
    row = book.shelf.find(rows.Bearing, name, ("axle", "wheel_bearing"))
    return book.row(row, "static_rating", "axle.wheel_bearing.static_rating")


def wheel_end(book: Ledger) -> WheelEnd[Leaf]:
    """How the wheel hangs on the axle."""
    return WheelEnd(
        floating=book.choice("axle.wheel_end"),
        retention=book.choice("axle.retention"),
        lever=read_or(book, "axle.wheel_lever", measured_axle.wheel_lever),
        flange_fillet=book.quantity("axle.flange_fillet"),
        bearing=book.stated("axle.wheel_bearing") or "",
        bearing_rating=_bearing_rating(book),
        bearing_keeps=keeps(book, "wheel_end"),
        jolt_factor=book.assumed(
            "axle.jolt_factor",
            "1.75 to 2.75",
            "ratio",
            "textbook load case for cars 1.75, trucks 2.5 (from memory)",
            "Wheel load on a hard bump over static load.",
        ),
        side_grip=book.assumed(
            "wheels.side_grip",
            "0.8 to 1.1",
            "ratio",
            "textbook skid load case (from memory)",
            "Sideways friction of the rear tires.",
        ),
        brake_share=book.quantity("brakes.rear_share"),
        brake_grip=book.assumed(
            "brakes.grip",
            "0.8 to 1.0",
            "ratio",
            PRACTICE,
            "Deceleration of a hard stop over gravity.",
        ),
        endurance_share=book.assumed(
            "axle.endurance_share",
            "0.35 to 0.5",
            "ratio",
            "Shigley, rotating bending: half the tensile strength at most,"
            " less surface and size (from memory)",
            "Endurance limit of shaft bending over tensile strength.",
        ),
        endurance_jolt=book.assumed(
            "axle.endurance_jolt",
            "1.2 to 1.6",
            "ratio",
            MEMORY,
            "Wheel load that comes all the time over static load.",
        ),
        keeps=keeps(book, "wheel_end"),
    )


def studs(book: Ledger) -> BoltGroup[Leaf]:
    """Wheel studs."""
    pattern = read_studs(book.stated("wheels.studs") or "5 x 1/2-20")
    said = book.stated("wheels.studs") is not None
    count = Estimate(
        "wheels.studs.count",
        pattern.count,
        "count",
        origin="stated" if said else "assumed",
        source="the build file" if said else PRACTICE,
        means="Number of wheel studs.",
    )
    return bolts(
        book,
        "wheels.studs",
        pattern.size,
        "wheel stud",
        ("wheels", "studs"),
        count,
        book.quantity("wheels.stud_circle"),
        book.quantity("wheels.stud_torque"),
        keeps(book, "studs"),
        book.assumed(
            "wheels.studs.friction",
            "0.20 to 0.40",
            "ratio",
            f"face friction, and the wedge of conical nuts on top; {PRACTICE}",
            "Friction between wheel and flange, with the grip of the nuts' seats.",
        ),
    )
