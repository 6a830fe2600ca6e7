"""Resolving ring and pinion and the bolts that hold the ring."""

from __future__ import annotations

import math

from axlewright.build.machine import (
    BoltGroup,
    Dowels,
    GearSet,
    Pinion,
)
from axlewright.build.resolve.ledger import MEMORY, PRACTICE, Ledger, derived, limits_of
from axlewright.build.resolve.parts import bolts, keeps, ring_gear_row, spline, steel
from axlewright.build.sizes import read_teeth
from axlewright.hypoid.rating import CONTACT_CONSTANT
from axlewright.hypoid.teeth import tooth_ratio
from axlewright.quantities.estimate import Estimate, Leaf

_DEFAULT_RATIO = "3.42 ± 0.35"
_PINION_STEEL = "pinion carburized 8620"


def gears(book: Ledger) -> GearSet[Leaf]:
    """Ring and pinion."""
    row = ring_gear_row(book)

    def size(field: str) -> Leaf:
        return book.row(row, field, f"axle.gears.{field}", advice="Measure the gear set.")

    straddle = (book.stated("axle.support") or row.support) == "straddle"
    ratio, ring, pinion = _teeth(book)
    return GearSet(
        name=book.build.axle.ring_gear,
        ring_teeth=ring,
        pinion_teeth=pinion,
        ratio=ratio,
        ring_diameter=size("ring_diameter"),
        face_width=book.quantity("gears.face_width", size("face_width")),
        offset=book.quantity("axle.pinion_offset", size("offset")),
        spiral_angle=book.quantity("gears.spiral_angle", size("spiral_angle")),
        cutter_radius=book.quantity("gears.cutter_radius", size("cutter_radius")),
        pressure_angle=book.quantity("gears.pressure_angle", size("pressure_angle")),
        efficiency=book.assumed(
            "axle.efficiency",
            "95 to 97.5 %",
            "ratio",
            "review literature: 95 to 97 % (secondary)",
            "Share of torque that passes the axle.",
        ),
        shaft_angle=book.exact(
            "axle.gears.shaft_angle",
            math.pi / 2,
            "angle",
            "car axles are square",
            "Angle between pinion and ring axis.",
        ),
        limit_share=book.exact(
            "axle.gears.limit_share",
            1.0,
            "ratio",
            "ISO 23509 default (from memory)",
            "Share of the limit pressure angle that the design takes up.",
        ),
        profile_contact_ratio=book.assumed(
            "axle.gears.profile_contact_ratio",
            "1.15 to 1.45",
            "ratio",
            MEMORY,
            "Teeth in contact by the profile.",
        ),
        contact_length_ratio=book.assumed(
            "axle.gears.contact_length_ratio",
            "0.6 to 0.9",
            "ratio",
            MEMORY,
            "Length of contact line over tooth length.",
        ),
        contact_constant=book.exact(
            "axle.gears.contact_constant",
            CONTACT_CONSTANT,
            "contact constant",
            "axle-gear torque method after Stokes (from memory)",
            "Contact constant of crowned steel gears.",
        ),
        one=book.exact(
            "axle.gears.plain_factor",
            1.0,
            "ratio",
            "peaks come from the load cases, not from a factor",
            "Overload, surface and speed factor of the method.",
        ),
        drive=book.exact(
            "axle.gears.drive_flank", 1.0, "ratio", "drive, not coast", "Drive flank."
        ),
        load_factor=book.assumed(
            "axle.gears.load_factor",
            "1.0 to 1.1" if straddle else "1.1 to 1.25",
            "ratio",
            "axle-gear torque method after Stokes (from memory)",
            "Uneven load along the tooth, by pinion support.",
        ),
        peak_bending=_allowable(
            book, "peak_bending", "600 to 800 MPa", "Root stress allowed at the greatest torque."
        ),
        overload_reserve=book.assumed(
            "axle.gears.overload_reserve",
            "2.2 to 3.4",
            "ratio",
            "ISO 6336-3 and -5: one overload breaks case-hardened teeth at"
            " about 2.5 times the nominal 920 MPa (from memory)",
            "Stress at which a tooth snaps over the stress allowed.",
        ),
        endurance_bending=_allowable(
            book, "endurance_bending", "190 to 240 MPa", "Root stress allowed for a long life."
        ),
        peak_contact=_allowable(
            book,
            "peak_contact",
            "2500 to 3100 MPa",
            "Flank pressure allowed at the greatest torque.",
        ),
        endurance_contact=_allowable(
            book, "endurance_contact", "1600 to 1900 MPa", "Flank pressure allowed for a long life."
        ),
        keeps=keeps(book, "gear_set"),
    )


def _allowable(book: Ledger, name: str, text: str, means: str) -> Estimate:
    return book.assumed(
        f"axle.gears.{name}",
        text,
        "stress",
        "axle-gear torque method after Stokes (from memory)",
        means,
    )


def _teeth(book: Ledger) -> tuple[Leaf, Leaf, Leaf]:
    """Ratio and tooth counts; counts that were not given are those of a usual set."""
    said = book.stated("axle.ratio")
    meta, _ = book.meta("axle.ratio")
    if said is None:
        ratio: Estimate = book.assumed(
            "axle.ratio", _DEFAULT_RATIO, "ratio", PRACTICE, meta.means, meta.advice
        )
        pinion_count, origin = 11, PRACTICE
    else:
        teeth = read_teeth(said)
        origin = "the build file"
        if teeth.ring_teeth and teeth.pinion_teeth:
            ring: Leaf = book.exact(
                "axle.ring_teeth", teeth.ring_teeth, "count", origin, "Ring-gear teeth."
            )
            pinion: Leaf = book.exact(
                "axle.pinion_teeth", teeth.pinion_teeth, "count", origin, "Pinion teeth."
            )
            return (
                derived("axle.ratio", tooth_ratio, pinion_teeth=pinion, ring_teeth=ring),
                ring,
                pinion,
            )
        ratio = Estimate(
            "axle.ratio",
            teeth.ratio.value,
            "ratio",
            limits_of(teeth.ratio),
            "measured" if teeth.ratio.has_limits else "stated",
            origin,
            advice=meta.advice,
            means=meta.means,
            text=teeth.ratio.text,
        )
        pinion_count = max(8, min(15, round(41.0 / teeth.ratio.value)))
    ring_count = round(ratio.value * pinion_count)
    because = f"the usual count near this ratio; {PRACTICE}"
    return (
        ratio,
        book.assumed(
            "axle.ring_teeth",
            str(ring_count),
            "count",
            because,
            "Ring-gear teeth.",
            "Count them, or read the tag.",
        ),
        book.assumed(
            "axle.pinion_teeth",
            str(pinion_count),
            "count",
            because,
            "Pinion teeth.",
            "Count them, or read the tag.",
        ),
    )


def pinion(book: Ledger) -> Pinion[Leaf]:
    """Pinion stem, spline and bearings."""
    row = ring_gear_row(book)
    engagement = book.row(row, "stem_engagement", "axle.pinion.engagement")
    return Pinion(
        stem_diameter=book.row(
            row, "stem_diameter", "axle.pinion.stem_diameter", advice="Caliper the pinion stem."
        ),
        spline=spline(
            book, "axle.pinion.spline", row.stem_spline, ("axle", "ring_gear"), engagement
        ),
        steel=steel(
            book, "axle.pinion.steel", _PINION_STEEL, ("axle",), keeps(book, "pinion_stem")
        ),
        support=book.stated("axle.support") or row.support,
    )


def ring_dowels(book: Ledger) -> Dowels[Leaf] | None:
    """Dowels beside the ring-gear bolts, if the build has any."""
    said = book.stated("axle.ring_dowels")
    if said is None or said.value == 0:
        return None
    row = ring_gear_row(book)
    return Dowels(
        count=book.quantity("axle.ring_dowels"),
        diameter=book.quantity("axle.ring_dowel_diameter"),
        circle=book.row(row, "ring_bolt_circle", "axle.ring_bolts.circle"),
        tensile_strength=book.assumed(
            "axle.ring_dowels.tensile_strength",
            "200 to 260 ksi",
            "stress",
            "hardened steel dowels (from memory)",
            "Tensile strength of the dowels.",
        ),
    )


def ring_bolts(book: Ledger) -> BoltGroup[Leaf]:
    """The bolts that hold the ring gear to the differential case."""
    row = ring_gear_row(book)
    return bolts(
        book,
        "axle.ring_bolts",
        row.ring_bolt,
        "ring-gear bolt",
        ("axle", "ring_gear"),
        book.row(row, "ring_bolts", "axle.ring_bolts.count"),
        book.row(row, "ring_bolt_circle", "axle.ring_bolts.circle"),
        book.quantity("axle.ring_bolt_torque"),
        keeps(book, "ring_bolts"),
    )
