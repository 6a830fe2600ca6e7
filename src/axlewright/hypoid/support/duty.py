"""What each bearing goes through: load zone, fullest roller, rib, pressure, life.

Lives follow both the distribution over rollers and slices (ISO/TS 16281 as far as recalled, see
:mod:`axlewright.mechanics.bearing_load_life`) and the rating rule of ISO 281; the outer ring
stands, the inner one turns.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

import numpy as np

from axlewright.hypoid.support.bearing import Bearings, arms
from axlewright.hypoid.support.roller import Roller
from axlewright.mechanics import bearing_load_life, bearings, roller_contact, tapered_bearings
from axlewright.quantities.formula import Array

_AROUND: Array = np.linspace(0.0, 2.0 * np.pi, 720, endpoint=False)
TIGHT_ZONE = 0.3
"""Share of the circumference below which few rollers carry and the idle ones skid (assumption)."""


class Duty(NamedTuple):
    """Duty of one bearing: forces N, pressure Pa, lives in turns, shares from 0 to 1.

    ``rib`` is the force of all rollers on the cone's rib, ``fullest_rib`` of the one that presses
    most.  ``life`` is by slices, ``rated_life`` by the rating rule; believe the shorter one.
    """

    radial: float
    axial: float
    load_zone: float
    rollers_loaded: int
    fullest_roller: float
    rib: float
    fullest_rib: float
    pressure: float
    life: float
    rated_life: float
    equivalent: float

    @property
    def believed_life(self) -> float:
        """The shorter of both lives, turns."""
        return min(self.life, self.rated_life)

    def running_time(self, speed: float) -> float:
        """Running time (s) of the believed life at a steady speed (rad/s) under this very load."""
        return float(bearing_load_life.running_time(self.believed_life, speed))

    @property
    def cautions(self) -> tuple[str, ...]:
        """What these numbers do not hold for, in words."""
        said: list[str] = []
        if self.pressure > bearing_load_life.DENT_PRESSURE:
            said.append("rollers dent the race: beyond 4 GPa neither give nor life can be believed")
        if 0.0 < self.load_zone < TIGHT_ZONE:
            said.append("few rollers carry; the idle ones may skid")
        if self.load_zone == 0.0:
            said.append("the bearing runs free")
        return tuple(said)


def shared_life(duties: Iterable[Duty]) -> float:
    """Turns of their shaft that nine of ten sets of these bearings reach without a failure."""
    lives = [d.believed_life for d in duties if np.isfinite(d.believed_life)]
    if not lives:
        return float("inf")
    together = lives[0]
    for life in lives[1:]:
        together = float(bearing_load_life.lives_together(together, life))
    return together


def duties(bearings_: Bearings, shift: Array, closing: Array) -> tuple[Duty, ...]:
    """Duty of every bearing in a state of equilibrium."""
    loads = bearings_.loads(shift, closing)
    force = bearings_.respond(shift, closing).force
    return tuple(
        _duty(bearings_, i, loads[i, : r.count], force[i], shift[i], closing[i])
        for i, r in enumerate(bearings_.rollers)
    )


def _duty(
    bearings_: Bearings, i: int, loads: Array, force: Array, shift: Array, closing: float
) -> Duty:
    roller = bearings_.rollers[i]
    each = loads.sum(axis=1)
    radial, axial = float(np.hypot(force[1], force[2])), float(abs(force[0]))
    life = distribution_life(roller, loads)
    ribs = roller_contact.rib_load(each, roller.half_taper) * np.ones_like(each)
    return Duty(
        radial=radial,
        axial=axial,
        load_zone=_zone(bearings_, i, shift, closing),
        rollers_loaded=int(np.count_nonzero(each > 0.0)),
        fullest_roller=float(each.max()),
        rib=float(ribs.sum()),
        fullest_rib=float(ribs.max()),
        pressure=_pressure(roller, loads),
        life=life,
        rated_life=rated_life(roller, radial, axial),
        equivalent=float(bearing_load_life.reference_load(roller.rating, life)),
    )


def _zone(bearings_: Bearings, i: int, shift: Array, closing: float) -> float:
    """Share of the circumference on which a roller would carry."""
    parts = arms(bearings_.rollers[i], _AROUND) @ shift
    along = parts[:, :1] + parts[:, 1:] * bearings_.places[i]
    return float(np.mean(np.any(along + closing - bearings_.profile[i] > 0.0, axis=1)))


def _pressure(roller: Roller, loads: Array) -> float:
    """Greatest pressure of any slice on the cone."""
    most = float(loads.max()) * loads.shape[1] / roller.length
    pitch = 2.0 * roller.pitch_radius
    return float(
        bearing_load_life.roller_pressure(most, roller.diameter, roller.contact_angle, pitch)
    )


def _rating(roller: Roller) -> float:
    if roller.rating <= 0.0:
        raise ValueError("the life of a bearing needs its rating")
    return roller.rating


def rated_life(roller: Roller, radial: float, axial: float) -> float:
    """Turns for nine of ten by the rating rule of ISO 281; endless without load."""
    rating = _rating(roller)
    if radial == axial == 0.0:
        return float("inf")
    P: float = radial
    if roller.facing:
        angle = roller.contact_angle
        Y = tapered_bearings.axial_factor(angle)
        limit = tapered_bearings.axial_limit(angle)
        P = float(bearings.equivalent_load(radial, axial, 0.4, Y, limit))
    return float(bearings.life_revolutions(rating, P, 10.0 / 3.0))


def distribution_life(roller: Roller, loads: Array) -> float:
    """Turns for nine of ten under loads (roller, slice); endless without load."""
    rating = _rating(roller)
    if not np.any(loads > 0.0):
        return float("inf")
    shape = (rating, roller.count, roller.contact_angle, roller.diameter, 2 * roller.pitch_radius)
    slices = loads.shape[1]
    inner, outer = bearing_load_life.race_equivalents(loads)
    damage = roller_contact.race_damage(
        inner,
        bearing_load_life.slice_capacity(roller_contact.inner_race_capacity(*shape), slices),
        outer,
        bearing_load_life.slice_capacity(roller_contact.outer_race_capacity(*shape), slices),
    )
    return float(roller_contact.reference_life(float(np.sum(damage))))
