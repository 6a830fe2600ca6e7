"""Resolving the body on its springs: masses, inertias, ride, roll, air."""

from __future__ import annotations

from axlewright.build.launching import Body
from axlewright.build.machine import Machine
from axlewright.build.resolve.launch_train import iron
from axlewright.build.resolve.ledger import MEMORY, PRACTICE, Ledger, derived
from axlewright.quantities.estimate import Leaf
from axlewright.vehicle import masses, springing
from axlewright.vehicle.air import moist_air_density, vapor_pressure
from axlewright.vehicle.modes import damping_time, torsion_speed


def axle_mass(book: Ledger, m: Machine[Leaf], radius: Leaf) -> Leaf:
    """Everything that moves with the rear axle."""
    bare = derived(
        "axle.mass",
        masses.mass_by_size,
        density=iron(book),
        ring_gear_diameter=m.gears.ring_diameter,
        mass_share=book.assumed(
            "axle.mass_share",
            "0.75 to 1.2",
            "ratio",
            f"60 to 90 kg about an 8.5 in ring gear; {MEMORY}",
            "Mass of the axle without wheels, by the size of its ring gear.",
            book.meta("axle.mass")[0].advice,
        ),
    )
    wheel = derived(
        "wheels.weight",
        masses.wheel_mass,
        wheel_inertia=m.tires.wheel_inertia,
        tire_radius=radius,
        gyration_share=book.assumed(
            "wheels.gyration_share",
            "0.68 to 0.80",
            "ratio",
            PRACTICE,
            "Radius of gyration of a wheel over its rolling radius.",
            book.meta("wheels.weight")[0].advice,
        ),
    )
    return derived(
        "axle.moving_mass",
        masses.axle_mass,
        bare_axle_mass=book.quantity("axle.mass", bare),
        wheel_mass=book.quantity("wheels.weight", wheel),
    )


def body(book: Ledger, m: Machine[Leaf], axle: Leaf) -> Body[Leaf]:
    """The body and its springs."""
    front = derived(
        "car.front_body",
        masses.front_body_mass,
        vehicle_mass=m.car.mass,
        rear_weight_share=m.car.rear_share,
    )
    rear = derived(
        "car.rear_body",
        masses.rear_body_mass,
        vehicle_mass=m.car.mass,
        rear_weight_share=m.car.rear_share,
        axle_mass=axle,
    )
    both: dict[str, Leaf] = {"front_body_mass": front, "rear_body_mass": rear}
    roll_inertia = _roll_inertia(book, m, both)
    roll = _roll_stiffness(book, m, both)
    area = book.quantity("car.drag_area")
    density = _air_density(book)
    return Body(
        axle_mass=axle,
        pitch_inertia=_pitch_inertia(book, m, both),
        roll_inertia=roll_inertia,
        front_stiffness=_ride(book, "front", front),
        front_damping_time=_ride_damping(book, "front"),
        rear_stiffness=_ride(book, "rear", rear),
        rear_damping_time=_ride_damping(book, "rear"),
        roll_stiffness=roll,
        roll_damping_time=_roll_damping(book, roll, roll_inertia),
        rear_roll_share=derived(
            "suspension.rear_roll_share",
            springing.rear_roll_share,
            front_roll_share=m.car.front_roll_share,
        ),
        drag_area=area,
        air_density=density,
        air_drag=derived("car.air_drag", masses.air_drag, air_density=density, drag_area=area),
    )


def _pitch_inertia(book: Ledger, m: Machine[Leaf], both: dict[str, Leaf]) -> Leaf:
    return derived(
        "car.pitch_inertia",
        masses.pitch_inertia,
        **both,
        wheelbase=m.car.wheelbase,
        dynamic_index=book.assumed(
            "car.dynamic_index",
            "0.8 to 1.0",
            "ratio",
            PRACTICE,
            "Pitch gyration squared over the distances to both axles.",
        ),
    )


def _roll_inertia(book: Ledger, m: Machine[Leaf], both: dict[str, Leaf]) -> Leaf:
    return derived(
        "car.roll_inertia",
        masses.roll_inertia,
        **both,
        track=m.car.track,
        roll_gyration_share=book.assumed(
            "car.roll_gyration_share",
            "0.36 to 0.46",
            "ratio",
            MEMORY,
            "Radius of gyration in roll over the track.",
        ),
    )


def _ride(book: Ledger, end: str, mass: Leaf) -> Leaf:
    return derived(
        f"suspension.{end}_stiffness",
        springing.ride_stiffness,
        sprung_mass=mass,
        ride_frequency=book.quantity(f"suspension.{end}_frequency"),
    )


def _ride_damping(book: Ledger, end: str) -> Leaf:
    return derived(
        f"suspension.{end}_damping_time",
        damping_time,
        damping_ratio=book.quantity(f"suspension.{end}_damping"),
        swing_speed=book.quantity(f"suspension.{end}_frequency"),
    )


def _roll_stiffness(book: Ledger, m: Machine[Leaf], both: dict[str, Leaf]) -> Leaf:
    return derived(
        "suspension.roll_stiffness",
        springing.roll_stiffness,
        **both,
        cg_height=m.car.cg_height,
        roll_arm_share=book.assumed(
            "suspension.roll_arm_share",
            "0.65 to 0.95",
            "ratio",
            PRACTICE,
            "Height of the mass above the roll axis over its height above ground.",
        ),
        lean_at_one_g=book.quantity("suspension.lean"),
    )


def _roll_damping(book: Ledger, stiffness: Leaf, inertia: Leaf) -> Leaf:
    return derived(
        "suspension.roll_damping_time",
        damping_time,
        damping_ratio=book.assumed(
            "suspension.roll_damping", "15 to 40 %", "ratio", MEMORY, "Damping ratio in roll."
        ),
        swing_speed=derived(
            "suspension.roll_swing",
            torsion_speed,
            torsional_stiffness=stiffness,
            swinging_inertia=inertia,
        ),
    )


def _air_density(book: Ledger) -> Leaf:
    """Density of the day's air where it is stated."""
    air = book.stated("engine.air")
    if air is None or air.pressure is None or air.temperature is None:
        return book.assumed(
            "car.air_density",
            "1.10 to 1.24 kg/m^3",
            "density",
            "ideal gas between a hot and a cool day up to 500 m above the sea",
            "Density of the air.",
            "State engine.air.",
        )
    temperature = book.quantity("engine.air.temperature")
    vapor = derived(
        "car.vapor_pressure",
        vapor_pressure,
        air_temperature=temperature,
        relative_humidity=book.assumed(
            "car.humidity", "20 to 80 %", "ratio", PRACTICE, "Relative humidity."
        ),
    )
    return derived(
        "car.air_density",
        moist_air_density,
        dry_air_pressure=book.quantity("engine.air.pressure"),
        vapor_pressure=vapor,
        air_temperature=temperature,
    )
