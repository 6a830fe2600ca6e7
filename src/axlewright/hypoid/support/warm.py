"""The case warm: seats move, cups let go or close, and with them preload and the gears' place.

Everything is told against a world of steel that grows evenly about the crossing point: such
growth would change no fit and no contact.  What a case of another metal or another warmth grows
beyond that moves its seats, and what a cup grows beyond that opens its bearing.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from axlewright.hypoid.support.case import STEEL_EXPANSION, CaseMetal, spacing_growth
from axlewright.hypoid.support.layout import STEEL
from axlewright.hypoid.support.system import Seat, System
from axlewright.quantities.formula import Array, Num, formula

BOSS_SHARE = 0.75
"""Bore of a seat over the outside of the boss around it (assumption, 0.6 to 0.85)."""
CUP_BACK = 0.6
"""From the middle of the rollers to the back of the cup, over roller length (assumption)."""


@formula(
    "φ_c",
    "ratio",
    source="Lamé, thick ring pressed into a thick ring, what it lets go by (closed form)",
    valid={"cup_race_share": (0.5, 0.97), "boss_share": (0.3, 0.95)},
    outside="no bearing cup, or no boss, has such a wall",
)
def cup_follow_share(
    cup_race_share: Num,
    boss_share: Num,
    youngs_modulus: Num,
    present_case_modulus: Num,
    poisson_ratio: Num,
) -> Num:
    """Share of its bore's further growth by which a pressed cup's race grows, still pressed."""
    thin = cup_race_share * cup_race_share
    wide = boss_share * boss_share
    cup = ((1.0 + thin) / (1.0 - thin) - poisson_ratio) / youngs_modulus
    boss = ((1.0 + wide) / (1.0 - wide) + poisson_ratio) / present_case_modulus
    race = 2.0 / (1.0 - thin) / youngs_modulus
    return race / (cup + boss)


@formula(
    "ε_cup",
    "ratio",
    source="the cup grows by its own warming and by what its bore lets go (closed form)",
    valid={"cup_follow_share": (0.0, 1.0)},
    outside="a cup cannot grow more than the bore that lets it go",
)
def cup_strain(case_thermal_strain: Num, cup_own_strain: Num, cup_follow_share: Num) -> Num:
    """Growth of a pressed cup: its own, and part of what its bore grows beyond that."""
    result: Num = cup_own_strain + cup_follow_share * np.maximum(
        case_thermal_strain - cup_own_strain, 0.0
    )
    return result


@formula("Δδ_n", "length", source="a cone of rollers and its cup grow apart (closed form)")
def cup_closing(
    shaft_thermal_strain: Num, cup_strain: Num, cup_radius: Num, bearing_contact_angle: Num
) -> Num:
    """How much a bearing closes square to its cup as cone and rollers outgrow the cup."""
    result: Num = (shaft_thermal_strain - cup_strain) * cup_radius * np.cos(bearing_contact_angle)
    return result


@formula(
    "F_pw",
    "force",
    source="two equal bearings with F ∝ δ^n, rigid parts, pressed together further (closed form)",
    valid={"pair_squeeze": (0.0, None)},
    outside="without preload there is nothing that growth could raise",
)
def grown_preload(
    bearing_preload: Num, pair_growth: Num, pair_squeeze: Num, bearing_contact_exponent: Num
) -> Num:
    """Preload of a pair whose cups have come closer to its cones by so much, all in all.

    With shaft and case as rigid as here preload changes most; the whole system gives less.
    """
    left = np.maximum(1.0 + pair_growth / pair_squeeze, 0.0)
    result: Num = bearing_preload * left**bearing_contact_exponent
    return result


class Warming(NamedTuple):
    """What warming does to the bearings: shifts of their seats (n, xyz) and closings (n), m."""

    shifts: Array
    closing: Array


def warming(
    system: System,
    metal: CaseMetal,
    case_rise: float,
    shaft_rise: float,
    cup_follows: float | None = None,
) -> Warming:
    """How seats move and bearings close as case and shafts warm by so many kelvin.

    Cones, rollers, shafts and gears have the shafts' warmth, cups that of the case.  Unless
    ``cup_follows`` is given, cups count as pressed in tightly enough to stay so: none at all (0)
    is a cup that slips.
    """
    case, shaft = metal.expansion * case_rise, STEEL_EXPANSION * shaft_rise
    places = [np.array([_back(s), system.mesh.offset, 0.0]) for s in system.pinion.seats]
    places += [np.array([0.0, 0.0, _back(s)]) for s in system.ring.seats]
    shifts = np.asarray(spacing_growth(case, shaft, np.stack(places)))
    closing = []
    for s in (*system.pinion.seats, *system.ring.seats):
        follows = _follows(s, metal) if cup_follows is None else cup_follows
        cup = cup_strain(case, STEEL_EXPANSION * case_rise, follows)
        closing.append(float(cup_closing(shaft, cup, _cup_radius(s), s.roller.contact_angle)))
    return Warming(shifts, np.array(closing))


def _follows(seat: Seat, metal: CaseMetal) -> float:
    """By Lamé; the outside of the cup by the proportion that gave the rollers, see roller.py."""
    outside = seat.roller.pitch_radius + seat.roller.diameter
    race = _cup_radius(seat) / outside
    return float(cup_follow_share(race, BOSS_SHARE, STEEL, metal.youngs_modulus, 0.3))


def _back(seat: Seat) -> float:
    """Where the cup leans on the case: on the side to which the shaft loads it."""
    return seat.at + seat.roller.facing * CUP_BACK * seat.roller.length


def _cup_radius(seat: Seat) -> float:
    r = seat.roller
    return r.pitch_radius + 0.5 * r.diameter * float(np.cos(r.contact_angle))
