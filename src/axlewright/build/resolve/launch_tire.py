"""Resolving the tires of the launch: radius, grip of the day, slip curve, springiness."""

from __future__ import annotations

from axlewright.build.launching import Tread
from axlewright.build.machine import Machine
from axlewright.build.resolve.ledger import MEMORY, PRACTICE, Ledger, derived, mixture
from axlewright.catalogue import rows
from axlewright.quantities.estimate import Leaf
from axlewright.vehicle import tire_curve
from axlewright.vehicle.load_transfer import static_rear_load, vehicle_weight
from axlewright.vehicle.modes import bounce_speed, damping_time
from axlewright.vehicle.tire import free_diameter, rolling_radius
from axlewright.vehicle.tread_warmth import grip_by_warmth
from axlewright.vehicle.wheels import one_wheel_load

_TREAD = {"cold": "0.70 to 0.95", "warm": "1", "hot": "0.98 to 1.12"}
_OWN = {
    "peak_slip": "8 to 20 %",
    "relaxation": "6 to 20 in",
    "pressure": "14 to 34 psi",
    "best_tread": "80 to 190 °F",
    "tread_window": "45 to 120 °F",
}
"""For a builder's own tire that leaves these out."""


def tire_radius(m: Machine[Leaf]) -> Leaf:
    """Rolling radius from the size on the sidewall."""
    size = derived(
        "wheels.tire.free_diameter",
        free_diameter,
        section_width=m.tires.section_width,
        aspect_ratio=m.tires.aspect_ratio,
        rim_diameter=m.tires.rim_diameter,
    )
    return derived("wheels.tire.rolling_radius", rolling_radius, free_diameter=size)


def tread(book: Ledger, m: Machine[Leaf], radius: Leaf, axle_mass: Leaf) -> Tread[Leaf]:
    """The tires as the launch reads them."""
    peak_slip = _of_class(book, "peak_slip", "ratio", "Slip at which the tire pushes most.")
    bend = book.assumed(
        "wheels.tire_bend",
        "0.2 to 0.7",
        "ratio",
        "0.49 to 0.62 for the tire of SAE 870421 (as reproduced in public code), widened",
        "Bend of the tire's curve near its peak.",
    )
    turn = derived(
        "wheels.tire_turn",
        tire_curve.tire_turn,
        slide_share=m.tires.slide_share,
        peak_slip=peak_slip,
        tire_bend=bend,
    )
    both = _both_stiffness(book, m)
    return Tread(
        radius=radius,
        grip=_grip(book, m),
        grip_reference_load=_wheel_load(m),
        shape=derived("wheels.tire_shape", tire_curve.tire_shape, tire_turn=turn, tire_bend=bend),
        rise=derived("wheels.tire_rise", tire_curve.tire_rise, tire_turn=turn, peak_slip=peak_slip),
        bend=bend,
        peak_slip=peak_slip,
        relaxation_length=_of_class(
            book, "relaxation", "length", "Distance that it rolls until its push has followed."
        ),
        vertical_stiffness=both,
        vertical_damping_time=derived(
            "wheels.vertical_damping_time",
            damping_time,
            damping_ratio=book.assumed(
                "wheels.vertical_damping",
                "2 to 8 %",
                "ratio",
                MEMORY,
                "Damping ratio of the axle bouncing on its tires.",
            ),
            swing_speed=derived(
                "wheels.bounce", bounce_speed, spring_stiffness=both, bouncing_mass=axle_mass
            ),
        ),
    )


def _of_class(book: Ledger, field: str, dimension: str, means: str) -> Leaf:
    """A figure of the tire's class, or of a mixture of classes if the class is not known."""
    kinds = book.kinds("wheels.grip_class")
    options: list[Leaf] = []
    for kind in kinds.kinds:
        row = book.shelf.find(rows.Tire, kind, ("wheels", "grip_class"))
        path = f"wheels.{field}.{kind}"
        known = getattr(row, field) is not None
        options.append(
            book.row(row, field, path)
            if known
            else book.assumed(path, _OWN[field], dimension, MEMORY, means)
        )
    return mixture(kinds, f"wheels.class_{field}", options)


def _grip(book: Ledger, m: Machine[Leaf]) -> Leaf:
    """Grip with the tread as warm as stated; what the pressure does is spread alone."""
    known = book.stated("wheels.grip") is not None
    return derived(
        "wheels.grip_of_the_day",
        tire_curve.grip_of_the_day,
        tire_grip=m.tires.grip,
        tread_factor=_tread_factor(book),
        inflation_factor=book.assumed(
            "wheels.inflation_factor",
            "1" if known else "0.95 to 1.05",
            "ratio",
            "the stated grip has its pressure in it" if known else PRACTICE,
            "Grip at this pressure over that at the best one.",
            "Chalk the tread and launch; try two pounds more and less.",
        ),
    )


def _tread_factor(book: Ledger) -> Leaf:
    """By the temperature if it was read, else by the word for it."""
    if book.stated("wheels.tread_temperature") is not None:
        if book.stated("wheels.tread") is not None:
            book.cautions.append("wheels.tread is not used: wheels.tread_temperature says more")
        return derived(
            "wheels.tread_factor",
            grip_by_warmth,
            tread_temperature=book.quantity("wheels.tread_temperature"),
            best_tread_temperature=_of_class(
                book, "best_tread", "temperature", "Tread temperature at which it grips best."
            ),
            tread_window=_of_class(
                book,
                "tread_window",
                "temperature rise",
                "How far from the best tread temperature nine tenths of the grip are left.",
            ),
        )
    warmth = book.choice("wheels.tread")
    return book.assumed(
        "wheels.tread_factor",
        _TREAD[warmth],
        "ratio",
        f"{warmth} tread; {PRACTICE}",
        "Grip at this tread temperature over that of a warm tread.",
        "Compare 60-foot times with and without a burnout.",
    )


def _wheel_load(m: Machine[Leaf]) -> Leaf:
    """Load of one rear tire standing still: the load at which grip is stated."""
    weight = derived("car.weight_force", vehicle_weight, vehicle_mass=m.car.mass)
    rear = derived(
        "car.rear_load",
        static_rear_load,
        vehicle_weight=weight,
        rear_weight_share=m.car.rear_share,
    )
    return derived("car.wheel_load", one_wheel_load, static_rear_load=rear)


def _both_stiffness(book: Ledger, m: Machine[Leaf]) -> Leaf:
    usual = _of_class(book, "pressure", "pressure", "Pressure that is customary in it.")
    one = derived(
        "wheels.spring_rate",
        tire_curve.tire_spring_rate,
        tire_pressure=book.quantity("wheels.pressure", usual),
        aspect_ratio=m.tires.aspect_ratio,
        section_width=m.tires.section_width,
        rim_diameter=m.tires.rim_diameter,
    )
    return derived(
        "wheels.vertical_stiffness",
        tire_curve.both_tires_stiffness,
        tire_spring_rate=one,
        tire_spring_factor=book.assumed(
            "wheels.spring_factor",
            "0.85 to 1.15",
            "ratio",
            MEMORY,
            "Vertical stiffness of this tire over that of its size.",
        ),
    )
