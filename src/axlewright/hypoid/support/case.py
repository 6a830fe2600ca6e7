"""The case as springs under the bearings: design class, iron, caps, bores, cover.

Nobody publishes how stiff a passenger-car axle case is at its bearing seats.  Here a seat's
stiffness is its bore times Young's modulus of the case times a factor of the design class; all
factors are *assumed* (± 50 %), chosen so that the case takes a fifth to a half of the movement at
the mesh.  What they are good for is comparison: iron against iron, cap against cap.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from axlewright.quantities.formula import Array, Num, formula


@formula("k_s", "stiffness", source="a seat scales as modulus times size (derived)")
def seat_stiffness(seat_factor: Num, present_case_modulus: Num, seat_diameter: Num) -> Num:
    """Stiffness of a bearing's seat in the case, along the shaft or across it."""
    return seat_factor * present_case_modulus * seat_diameter


@formula(
    "k_t",
    "torsional stiffness",
    source="a seat scales as modulus times size cubed in tilt (derived)",
)
def seat_tilt_stiffness(seat_factor: Num, present_case_modulus: Num, seat_diameter: Num) -> Num:
    """Stiffness of a bearing's seat against tilting of the cup."""
    result: Num = seat_factor * present_case_modulus * seat_diameter**3
    return result


@formula(
    "k_f",
    "torsional stiffness",
    source="a round plate scales as modulus times thickness cubed in tilt (derived)",
)
def flange_tilt_stiffness(flange_factor: Num, youngs_modulus: Num, flange_thickness: Num) -> Num:
    """Stiffness of the differential's flange against tilting of the ring gear on it."""
    result: Num = flange_factor * youngs_modulus * flange_thickness**3
    return result


@formula(
    "ΔP",
    "length",
    source="both grow by their own warming over the same length (closed form)",
)
def spacing_growth(case_thermal_strain: Num, shaft_thermal_strain: Num, seat_spacing: Num) -> Num:
    """How much further the case grows than the shaft over a length that both span."""
    return (case_thermal_strain - shaft_thermal_strain) * seat_spacing


@formula(
    "s_ΔE",
    "ratio",
    source="springs in series, the case's give goes as one over its modulus (closed form)",
    valid={"case_movement_share": (0.0, 1.0)},
    outside="a share lies between none and all",
)
def iron_effect(
    case_movement_share: Num, present_case_modulus: Num, other_case_modulus: Num
) -> Num:
    """By how much another case metal changes the whole movement, as a share; below zero is less."""
    return case_movement_share * (present_case_modulus / other_case_modulus - 1.0)


class SeatFactors(NamedTuple):
    """Stiffness of a seat over modulus times bore: along, across, and tilt over bore cubed."""

    axial: float
    radial: float
    tilt: float


@dataclass(frozen=True)
class DesignClass:
    """Factors of the four seats of a case; all *assumed*, ± ``spread`` as shop limits."""

    means: str
    head: SeatFactors
    tail: SeatFactors
    pilot: SeatFactors
    carrier: SeatFactors
    spread: float = 0.5
    origin: str = "assumed: judged from proportions, no source"


CLASSES = {
    "integral": DesignClass(
        "Carrier cast in one with the center, tubes pressed in, cover behind.",
        head=SeatFactors(0.09, 0.11, 0.020),
        tail=SeatFactors(0.06, 0.07, 0.012),
        pilot=SeatFactors(0.04, 0.05, 0.008),
        carrier=SeatFactors(0.045, 0.080, 0.012),
    ),
    "removable": DesignClass(
        "Carrier that lifts out of a one-piece housing with the gears in it.",
        head=SeatFactors(0.08, 0.12, 0.020),
        tail=SeatFactors(0.05, 0.08, 0.012),
        pilot=SeatFactors(0.04, 0.06, 0.008),
        carrier=SeatFactors(0.035, 0.065, 0.010),
    ),
}

BILLET_CAPS = 1.20
"""Billet steel caps: carrier seats across, times this (assumption, 1.05 to 1.35)."""
BILLET_CAPS_AXIAL = 1.05
"""The same along the axle: the legs of the case still do the work (assumption, 1.0 to 1.1)."""
LOADED_COVER = 1.15
"""Cover with bolts that press on the caps: carrier seats across (assumption, 1.0 to 1.3)."""
LOADED_COVER_AXIAL = 1.05
"""The same along the axle (assumption, 1.0 to 1.15)."""
LOOSE_BORES = 0.7
"""Bores in which the cups slip instead of being pressed: carrier seats across, times this
(assumption, 0.5 to 0.9; the slip itself comes on top and is none of this)."""
NEIGHBOR_SHARE = 0.1
"""Give at one seat of a pair under load at the other, over the mean of both (assumption)."""


@dataclass(frozen=True)
class CaseMetal:
    """What the case is cast of: Young's modulus (Pa) and growth per kelvin."""

    youngs_modulus: float
    expansion: float
    source: str


METALS = {
    "gray": CaseMetal(
        110e9, 10.8e-6, "middle of ASTM A48 classes 30 to 40, Shigley Table A-24(a); growth memory"
    ),
    "nodular": CaseMetal(
        169e9, 11.5e-6, "typical of EN and ASTM nodular grades, read; growth from memory"
    ),
    "aluminum": CaseMetal(72e9, 21.5e-6, "A356-T6, from memory"),
}
STEEL_EXPANSION = 11.7e-6
"""Growth of shaft and bearing steel per kelvin (from memory)."""


def with_caps(
    design: DesignClass, billet_caps: bool, loaded_cover: bool, loose_bores: bool = False
) -> DesignClass:
    """A design class with its carrier seats stiffened by caps and cover, or let go, as said."""
    across = (BILLET_CAPS if billet_caps else 1.0) * (LOADED_COVER if loaded_cover else 1.0)
    across *= LOOSE_BORES if loose_bores else 1.0
    along = (BILLET_CAPS_AXIAL if billet_caps else 1.0) * (
        LOADED_COVER_AXIAL if loaded_cover else 1.0
    )
    c = design.carrier
    return replace(design, carrier=SeatFactors(c.axial * along, c.radial * across, c.tilt))


def seat_springs(factors: SeatFactors, modulus: float, bore: float) -> Array:
    """Spring rates of one seat: along, across twice, tilt twice."""
    across = float(seat_stiffness(factors.radial, modulus, bore))
    tilt = float(seat_tilt_stiffness(factors.tilt, modulus, bore))
    along = float(seat_stiffness(factors.axial, modulus, bore))
    return np.array([along, across, across, tilt, tilt])


def pair_stiffness(springs: Array, neighbor_share: float = NEIGHBOR_SHARE) -> Array:
    """Stiffness of several seats (n, 5) together, with a little give at each other's load."""
    n = springs.shape[0]
    give = 1.0 / springs
    coupling = (1.0 - neighbor_share) * np.eye(n) + neighbor_share
    whole = np.zeros((5 * n, 5 * n))
    for i in range(5):
        mean = np.sqrt(np.outer(give[:, i], give[:, i]))
        own = np.linalg.inv(mean * (coupling if i < 3 else np.eye(n)))
        whole[i::5, i::5] = 0.5 * (own + own.T)
    return whole
