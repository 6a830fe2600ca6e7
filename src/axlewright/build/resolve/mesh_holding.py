"""Resolving what holds the gear pair: spans, bearings, preload.

Bearings that are not named follow from the ring diameter, by proportions of common axles.
"""

from __future__ import annotations

from axlewright.build.machine import Machine
from axlewright.build.meshing import BearingSize, Holding
from axlewright.build.resolve.ledger import MEMORY, Ledger, derived
from axlewright.build.resolve.parts import ring_gear_row
from axlewright.build.shelf import PartError
from axlewright.catalogue import rows
from axlewright.mechanics.sizes import scaled_length
from axlewright.mechanics.turning_torque import mean_bearing_radius, thrust_from_turning
from axlewright.quantities.estimate import Leaf

_SHARES = {
    "head": ("0.19 to 0.21", "0.36 to 0.39", "0.125 to 0.145", "17 to 21 deg"),
    "tail": ("0.145 to 0.165", "0.31 to 0.34", "0.10 to 0.12", "14 to 18 deg"),
    "carrier": ("0.20 to 0.22", "0.34 to 0.37", "0.09 to 0.105", "14 to 18 deg"),
    "pilot": ("0.10 to 0.12", "0.215 to 0.245", "0.07 to 0.08", "0 deg"),
}
"""Bore, outside and width over the ring diameter, and contact angle."""
_PLACES = {
    "head": "pinion bearing at the head",
    "tail": "pinion bearing at the yoke",
    "carrier": "bearing of the differential",
    "pilot": "bearing on the pinion's nose",
}
_TURNING = {"new": "15 to 30 lbf*in", "used": "8 to 15 lbf*in", "tired": "0.5 to 10 lbf*in"}


def holding(book: Ledger, m: Machine[Leaf]) -> Holding[Leaf]:
    """Spans from the class, bearings by name or by size, preload by turning torque."""
    row = ring_gear_row(book)
    head, tail = _bearing(book, m, "head"), _bearing(book, m, "tail")

    def size(field: str) -> Leaf:
        return book.row(row, field, f"gears.{field}", advice="Measure the bare case and pinion.")

    return Holding(
        overhang=size("pinion_overhang"),
        span=size("pinion_bearing_span"),
        head=head,
        tail=tail,
        carrier=_bearing(book, m, "carrier"),
        pilot=_bearing(book, m, "pilot"),
        pilot_clearance=book.assumed(
            "gears.pilot_clearance", "10 to 40 um", "length", MEMORY,
            "Play of the bearing on the pinion's nose, on its diameter.",
        ),
        pilot_ahead=_share(
            book, m, "gears.pilot_ahead", "0.13 to 0.16",
            "Mesh to the bearing on the pinion's nose, over the ring diameter.",
        ),
        flange_thickness=book.quantity(
            "gears.flange_thickness",
            _share(
                book, m, "gears.flange_thickness", "0.05 to 0.065",
                "Flange under the ring gear over the ring diameter.",
            ),
        ),
        pinion_preload=_preload(book, head, tail),
        carrier_preload=book.quantity("gears.carrier_preload"),
    )  # fmt: skip


def _share(book: Ledger, m: Machine[Leaf], path: str, share: str, means: str) -> Leaf:
    return derived(
        path,
        scaled_length,
        length=m.gears.ring_diameter,
        factor=book.assumed(f"{path}_share", share, "ratio", MEMORY, means),
    )


def _bearing(book: Ledger, m: Machine[Leaf], place: str) -> BearingSize[Leaf]:
    """A bearing by its name in the catalogue, else by the ring diameter."""
    key = f"gears.{place}_bearing"
    named = book.stated(key)
    if named is not None:
        return _named(book, place, str(named))
    *shares, angle = _SHARES[place]
    bore, outside, width = (
        _share(
            book, m, f"{key}.{field}", share,
            f"{field.capitalize()} of the {_PLACES[place]} over the ring diameter.",
        )
        for field, share in zip(("bore", "outside", "width"), shares, strict=True)
    )  # fmt: skip
    leaning = book.assumed(
        f"{key}.contact_angle", angle, "angle", MEMORY, f"Contact angle of the {_PLACES[place]}."
    )
    return BearingSize("by ring diameter", bore, outside, width, leaning)


def _named(book: Ledger, place: str, name: str) -> BearingSize[Leaf]:
    key = f"{place}_bearing"
    row = book.shelf.find(rows.Bearing, name, ("gears", key))
    if row.kind != "tapered" or row.contact_angle is None:
        raise PartError(
            ("gears", key), f"{name!r} will not do here: a tapered bearing with its contact angle"
            " is needed",
        )  # fmt: skip

    def size(field: str) -> Leaf:
        return book.row(row, field, f"gears.{key}.{field}")

    def known(field: str) -> Leaf | None:
        return None if getattr(row, field) is None else size(field)

    return BearingSize(
        name,
        size("bore"),
        size("outside"),
        size("width"),
        size("contact_angle"),
        size("dynamic_rating"),
        known("rollers"),
        known("roller_diameter"),
        known("roller_length"),
    )


def _preload(book: Ledger, head: BearingSize[Leaf], tail: BearingSize[Leaf]) -> Leaf:
    meta, dimension = book.meta("gears.pinion_preload")
    condition = book.choice("axle.condition")
    usual = book.assumed(
        "gears.pinion_preload", _TURNING[condition], dimension,
        f"{condition} condition; {meta.because}", meta.means, meta.advice,
    )  # fmt: skip
    by_turning = derived(
        "gears.pinion_thrust",
        thrust_from_turning,
        turning_torque=book.quantity("gears.pinion_preload", usual),
        turning_friction=book.assumed(
            "gears.turning_friction",
            "0.005 to 0.012",
            "ratio",
            f"judged so that usual turning torque means 3 to 10 kN; {MEMORY}",
            "Friction of the oiled pinion bearings turned by hand, at their mean radius.",
        ),
        first_bearing_radius=_mean_radius("head", head),
        second_bearing_radius=_mean_radius("tail", tail),
    )
    return book.quantity("gears.pinion_thrust", by_turning)


def _mean_radius(place: str, size: BearingSize[Leaf]) -> Leaf:
    return derived(
        f"gears.{place}_bearing.mean_radius",
        mean_bearing_radius,
        bearing_bore=size.bore,
        bearing_outside=size.outside,
    )
