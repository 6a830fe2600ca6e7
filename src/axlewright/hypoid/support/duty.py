"""What each bearing goes through: load zone, fullest roller, rib, life.

Lives follow the distribution over rollers and slices (ISO/TS 16281 as far as recalled, see
:mod:`axlewright.mechanics.roller_contact`); the outer ring stands, the inner one turns.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from axlewright.hypoid.support.bearing import Bearings, arms
from axlewright.mechanics import roller_contact
from axlewright.quantities.formula import Array

_AROUND: Array = np.linspace(0.0, 2.0 * np.pi, 720, endpoint=False)


class Duty(NamedTuple):
    """Duty of one bearing: forces in N, life in turns, shares from 0 to 1."""

    radial: float
    axial: float
    load_zone: float
    rollers_loaded: int
    fullest_roller: float
    rib: float
    fullest_rib: float
    life: float
    equivalent: float


def duties(bearings: Bearings, shift: Array, closing: Array) -> tuple[Duty, ...]:
    """Duty of every bearing in a state of equilibrium."""
    loads = bearings.loads(shift, closing)
    force = bearings.respond(shift, closing).force
    return tuple(
        _duty(bearings, i, loads[i], force[i], shift[i], closing[i])
        for i in range(len(bearings.rollers))
    )


def _duty(
    bearings: Bearings, i: int, loads: Array, force: Array, shift: Array, closing: float
) -> Duty:
    roller = bearings.rollers[i]
    own = loads[: roller.count]
    each = own.sum(axis=1)
    life = distribution_life(bearings, i, own)
    ribs = roller_contact.rib_load(each, roller.half_taper) * np.ones_like(each)
    return Duty(
        radial=float(np.hypot(force[1], force[2])),
        axial=float(abs(force[0])),
        load_zone=_zone(bearings, i, shift, closing),
        rollers_loaded=int(np.count_nonzero(each > 0.0)),
        fullest_roller=float(each.max()),
        rib=float(ribs.sum()),
        fullest_rib=float(ribs.max()),
        life=life,
        equivalent=roller.rating * (life / 1e6) ** -0.3,
    )


def _zone(bearings: Bearings, i: int, shift: Array, closing: float) -> float:
    """Share of the circumference on which a roller would carry."""
    parts = arms(bearings.rollers[i], _AROUND) @ shift
    along = parts[:, :1] + parts[:, 1:] * bearings.places[i]
    return float(np.mean(np.any(along + closing - bearings.profile[i] > 0.0, axis=1)))


def distribution_life(bearings: Bearings, i: int, loads: Array) -> float:
    """Turns for nine of ten under loads (roller, slice); endless without load or rating unknown."""
    r = bearings.rollers[i]
    if r.rating <= 0.0:
        raise ValueError("the life of a bearing needs its rating")
    if not np.any(loads > 0.0):
        return float("inf")
    shape = (r.rating, r.count, r.contact_angle, r.diameter, 2.0 * r.pitch_radius)
    slices = loads.shape[1]
    share = slices ** (-7.0 / 9.0)
    inner = np.mean(loads**4.0, axis=0) ** (1.0 / 4.0)
    outer = np.mean(loads**4.5, axis=0) ** (1.0 / 4.5)
    damage = roller_contact.race_damage(
        inner,
        roller_contact.inner_race_capacity(*shape) * share,
        outer,
        roller_contact.outer_race_capacity(*shape) * share,
    )
    return float(roller_contact.reference_life(float(np.sum(damage))))
