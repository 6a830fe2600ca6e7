"""Resolving what spins, twists and rattles between gearbox and wheels."""

from __future__ import annotations

from axlewright.build.launching import Spin, Twist
from axlewright.build.machine import Machine
from axlewright.build.resolve import measured_axle
from axlewright.build.resolve.ledger import MEMORY, PRACTICE, Ledger, derived
from axlewright.build.resolve.ties import read_or
from axlewright.mechanics.shafts import (
    stiffness_in_parallel,
    stiffness_in_series,
    torsional_stiffness,
)
from axlewright.mechanics.sizes import bore_of_tube
from axlewright.quantities.estimate import Estimate, Leaf
from axlewright.vehicle import lash, shaft_lumps
from axlewright.vehicle.engine import reflected_inertia
from axlewright.vehicle.launch_bounds import paired_inertia
from axlewright.vehicle.modes import damping_time, torsion_speed
from axlewright.vehicle.wheels import both_wheels_inertia

_GEARBOX_PLAY = {"new": "1 to 3 deg", "used": "1.5 to 5 deg", "tired": "3 to 9 deg"}
_WHEEL_PLAY = {"new": "0.5 to 2 deg", "used": "0.8 to 3.5 deg", "tired": "1.5 to 6 deg"}
_BACKLASH = {
    "new": "0.006 to 0.010 in",
    "used": "0.006 to 0.010 in",
    "tired": "0.007 to 0.018 in",
}
_ALIKE = f"parts of axles are alike in form, reckoned roughly; {MEMORY}"


def tube_bore(book: Ledger, m: Machine[Leaf]) -> Leaf:
    """Inner diameter of the driveshaft's tube."""
    del book
    return derived(
        "driveshaft.bore",
        bore_of_tube,
        outer_diameter=m.driveshaft.tube_diameter,
        wall=m.driveshaft.tube_wall,
    )


def iron(book: Ledger) -> Estimate:
    """Density of steel and iron parts taken together."""
    return book.assumed(
        "axle.density",
        "7300 to 7850 kg/m^3",
        "density",
        "handbook values of gray iron and steel",
        "Density of the axle's iron and steel.",
    )


def by_size(book: Ledger, m: Machine[Leaf], path: str, share: str, means: str) -> Leaf:
    """Inertia of a part of the axle from the ring gear's diameter."""
    return derived(
        f"{path}.inertia",
        shaft_lumps.inertia_by_size,
        density=iron(book),
        ring_gear_diameter=m.gears.ring_diameter,
        inertia_share=book.assumed(f"{path}.inertia_share", share, "ratio", _ALIKE, means),
    )


def _driveshaft_inertia(book: Ledger, m: Machine[Leaf]) -> Leaf:
    tube = derived(
        "driveshaft.tube_inertia",
        shaft_lumps.round_shaft_inertia,
        density=m.driveshaft.density,
        length=m.driveshaft.length,
        outer_diameter=m.driveshaft.tube_diameter,
        inner_diameter=tube_bore(book, m),
    )
    return derived(
        "driveshaft.inertia",
        shaft_lumps.inertia_with_ends,
        bare_inertia=tube,
        ends_factor=book.assumed(
            "driveshaft.ends_factor",
            "1.25 to 1.8",
            "ratio",
            PRACTICE,
            "Inertia of the driveshaft with joints and yokes over that of its tube.",
        ),
    )


def _axle_shaft_inertia(book: Ledger, m: Machine[Leaf]) -> Leaf:
    return derived(
        "axle.shaft.inertia",
        shaft_lumps.round_shaft_inertia,
        density=iron(book),
        length=m.shaft.length,
        outer_diameter=m.shaft.body_diameter,
        inner_diameter=m.shaft.bore,
    )


def spin(book: Ledger, m: Machine[Leaf]) -> Spin[Leaf]:
    """Inertias as lumps."""
    shaft, whole = _axle_shaft_inertia(book, m), _driveshaft_inertia(book, m)
    side = by_size(book, m, "axle.side_gear", "0.0002 to 0.0005", "Side gear's inertia by size.")
    return Spin(
        input_inertia=tuple(
            derived(
                f"gearbox.input_inertia.{n}",
                shaft_lumps.input_inertia,
                transmission_inertia=m.gearbox.inertia,
                whole_shaft_inertia=whole,
                gear_ratio=ratio,
            )
            for n, ratio in enumerate(m.gearbox.ratios, start=1)
        ),
        pinion_inertia=derived(
            "axle.pinion_side_inertia",
            shaft_lumps.pinion_side_inertia,
            whole_shaft_inertia=whole,
            bare_pinion_inertia=by_size(
                book, m, "axle.pinion", "0.0006 to 0.0014", "Inertia of pinion and yoke by size."
            ),
            ring_case_inertia=by_size(
                book, m, "axle.ring_case", "0.010 to 0.020", "Inertia of ring and case by size."
            ),
            axle_ratio=m.gears.ratio,
        ),
        side_gear_inertia=derived(
            "axle.side_gear.with_shaft",
            shaft_lumps.inertia_with_half_shaft,
            part_inertia=side,
            axle_shaft_inertia=shaft,
        ),
        wheel_inertia=derived(
            "wheels.inertia_with_shaft",
            shaft_lumps.inertia_with_half_shaft,
            part_inertia=m.tires.wheel_inertia,
            axle_shaft_inertia=shaft,
        ),
        driveshaft_inertia=whole,
    )


def twist(book: Ledger, m: Machine[Leaf], lumps: Spin[Leaf]) -> Twist[Leaf]:
    """Stiffness, damping and free play of driveshaft and axle shafts."""
    driveshaft = book.quantity("driveshaft.stiffness", _driveshaft_stiffness(book, m))
    left, right = (_shaft_stiffness(book, m, side) for side in ("left", "right"))
    mesh = _mesh_play(book, m)
    return Twist(
        driveshaft_stiffness=driveshaft,
        driveshaft_damping_time=_driveshaft_damping(book, m, lumps, driveshaft),
        driveshaft_half_gap=derived(
            "driveshaft.half_gap",
            lash.driveshaft_half_gap,
            gearbox_play=_by_condition(book, "gearbox.play", _GEARBOX_PLAY, MEMORY),
            mesh_play=mesh,
        ),
        left_shaft_stiffness=left,
        right_shaft_stiffness=right,
        shaft_damping_time=_shaft_damping(book, m, lumps, left, right),
        shaft_half_gap=derived(
            "axle.shaft.half_gap", lash.shaft_half_gap, shaft_play=_shaft_play(book, m, mesh)
        ),
    )


def _by_condition(book: Ledger, path: str, by: dict[str, str], because: str) -> Leaf:
    """The stated value of a key, else what is usual for the condition of the axle."""
    meta, dimension = book.meta(path)
    condition = book.choice("axle.condition")
    usual = book.assumed(
        path, by[condition], dimension, f"{condition} condition; {because}", meta.means, meta.advice
    )
    return book.quantity(path, usual)


def _driveshaft_stiffness(book: Ledger, m: Machine[Leaf]) -> Leaf:
    light = m.driveshaft.steel.name.startswith("aluminum")
    modulus = m.shaft.shear_modulus
    if light:
        modulus = book.assumed(
            "driveshaft.shear_modulus",
            "26 ± 0.5 GPa",
            "modulus",
            "handbook value of the tube's metal",
            "Shear modulus of the tube.",
        )
    tube = derived(
        "driveshaft.tube_stiffness",
        torsional_stiffness,
        shear_modulus=modulus,
        length=m.driveshaft.length,
        outer_diameter=m.driveshaft.tube_diameter,
        inner_diameter=tube_bore(book, m),
    )
    before = book.assumed(
        "gearbox.stiffness",
        "15 to 50 kN*m/rad",
        "torsional stiffness",
        MEMORY,
        "Torsional stiffness of gearbox shafts, joints and yokes, at the driveshaft.",
        book.meta("driveshaft.stiffness")[0].advice,
    )
    return derived(
        "driveshaft.stiffness", stiffness_in_series, first_stiffness=tube, second_stiffness=before
    )


def _shaft_stiffness(book: Ledger, m: Machine[Leaf], side: str) -> Leaf:
    return derived(
        f"axle.{side}_shaft_stiffness",
        torsional_stiffness,
        shear_modulus=m.shaft.shear_modulus,
        length=read_or(
            book,
            f"axle.{side}_shaft_length",
            lambda x: measured_axle.shaft_span(x, side, m.shaft.spline.engagement),
            m.shaft.length,
        ),
        outer_diameter=m.shaft.body_diameter,
        inner_diameter=m.shaft.bore,
    )


def _damping(book: Ledger, path: str, ratio: str, stiffness: Leaf, one: Leaf, other: Leaf) -> Leaf:
    """Damping time of two inertias that swing on one spring."""
    pair = derived(f"{path}.pair", paired_inertia, driving_inertia=one, driven_inertia=other)
    speed = derived(
        f"{path}.swing", torsion_speed, torsional_stiffness=stiffness, swinging_inertia=pair
    )
    return derived(
        f"{path}.damping_time",
        damping_time,
        damping_ratio=book.assumed(
            f"{path}.damping", ratio, "ratio", MEMORY, "Damping ratio of its own swing."
        ),
        swing_speed=speed,
    )


def _driveshaft_damping(book: Ledger, m: Machine[Leaf], lumps: Spin[Leaf], stiffness: Leaf) -> Leaf:
    """First gear's input lump against the pinion's."""
    before = derived(
        "gearbox.output_inertia",
        reflected_inertia,
        rotor_inertia=lumps.input_inertia[0],
        ratio=m.gearbox.ratios[0],
    )
    return _damping(book, "driveshaft", "2 to 10 %", stiffness, before, lumps.pinion_inertia)


def _shaft_damping(
    book: Ledger, m: Machine[Leaf], lumps: Spin[Leaf], left: Leaf, right: Leaf
) -> Leaf:
    """The pinion's lump at the axle against both wheels."""
    pair = derived(
        "axle.shafts_stiffness",
        stiffness_in_parallel,
        first_stiffness=left,
        second_stiffness=right,
    )
    before = derived(
        "axle.carrier_inertia",
        reflected_inertia,
        rotor_inertia=lumps.pinion_inertia,
        ratio=m.gears.ratio,
    )
    wheels = derived("wheels.both_inertia", both_wheels_inertia, wheel_inertia=lumps.wheel_inertia)
    return _damping(book, "axle.shafts", "2 to 8 %", pair, before, wheels)


def backlash(book: Ledger) -> Leaf:
    """Backlash at the heel: read, else what is usual for the condition of the axle."""
    return _by_condition(book, "axle.backlash", _BACKLASH, PRACTICE)


def _mesh_play(book: Ledger, m: Machine[Leaf]) -> Leaf:
    return derived(
        "axle.mesh_play",
        lash.mesh_play,
        mesh_backlash=backlash(book),
        ring_gear_diameter=m.gears.ring_diameter,
        axle_ratio=m.gears.ratio,
    )


def _shaft_play(book: Ledger, m: Machine[Leaf], mesh: Leaf) -> Leaf:
    """Play at a wheel: measured there, else what the yoke's leaves over, else by condition."""
    if book.stated("axle.wheel_play") is None and book.stated("axle.yoke_play") is not None:
        return derived(
            "axle.shaft_play",
            lash.shaft_play_from_yoke,
            yoke_play=book.quantity("axle.yoke_play"),
            mesh_play=mesh,
            axle_ratio=m.gears.ratio,
        )
    return _by_condition(book, "axle.wheel_play", _WHEEL_PLAY, MEMORY)
