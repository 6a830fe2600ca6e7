"""From the machine to a pair of gears in space: blank, flanks, ease-off of the stated pattern."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from axlewright.build.machine import Machine
from axlewright.build.meshing import Meshing
from axlewright.hypoid.backlash import Lash, lash
from axlewright.hypoid.conjugate_pinion import Flank, make_flank
from axlewright.hypoid.ease_off import EaseOff, PinionSurface, ground
from axlewright.hypoid.geometry import HypoidGeometry, pitch_cones
from axlewright.hypoid.placement import Pair, place
from axlewright.hypoid.setting import set_movement
from axlewright.hypoid.support.mesh import Mesh, Movement, mesh_of
from axlewright.hypoid.teeth import coast_pressure_angle, drive_pressure_angle
from axlewright.hypoid.unloaded import fit_ease_off

Side = Literal["drive", "coast"]
SIDES: Final[dict[Side, int]] = {"drive": 1, "coast": -1}


class EvenDepthError(ValueError):
    """Flanks of a face-hobbed pair are not known here."""


@dataclass(frozen=True)
class Blank:
    """Pitch cones with the mesh in space and the pressure angle of each flank: statics need it."""

    geometry: HypoidGeometry
    mesh: Mesh
    angles: dict[Side, float]


@dataclass(frozen=True)
class GearPair:
    """Flanks of both sides as they are, the backlash, and where shims have put the pair."""

    blank: Blank
    pair: Pair
    surfaces: dict[Side, PinionSurface]
    lash: Lash
    film: float
    set_at: Movement


def blank_of(m: Machine[float]) -> Blank:
    """Pitch cones of the machine's gear set; raises ``ValueError`` where there are none."""
    g = m.gears
    cones = pitch_cones(
        g.pinion_teeth, g.ring_teeth, g.ring_diameter, g.face_width, g.offset,
        g.spiral_angle, g.cutter_radius, g.shaft_angle,
    )  # fmt: skip
    limit = cones.limit_pressure_angle
    return Blank(
        cones,
        mesh_of(cones, g.offset),
        {
            "drive": float(drive_pressure_angle(g.pressure_angle, g.limit_share, limit)),
            "coast": float(coast_pressure_angle(g.pressure_angle, g.limit_share, limit)),
        },
    )


def gear_pair(m: Machine[float], x: Meshing[float]) -> GearPair:
    """Both flanks with the ease-off that gives the stated pattern.

    Raises :class:`EvenDepthError` for a face-hobbed pair, ``ArithmeticError`` or ``ValueError`` in
    words where no such flanks exist.
    """
    if not x.tapered:
        raise EvenDepthError(
            "teeth of even depth are face-hobbed: their flanks are another surface, and are not"
            " worked out"
        )
    blank, g = blank_of(m), m.gears
    pair = place(
        blank.geometry, round(g.pinion_teeth), round(g.ring_teeth), g.offset, g.face_width,
        g.ring_diameter, g.cutter_radius,
    )  # fmt: skip
    surfaces: dict[Side, PinionSurface] = {
        side: _surface(make_flank(pair, blank.angles[side], sign), x)
        for side, sign in SIDES.items()
    }
    s = x.setting
    return GearPair(
        blank=blank,
        pair=pair,
        surfaces=surfaces,
        lash=lash(surfaces["drive"], surfaces["coast"], s.backlash),
        film=x.pattern.film,
        set_at=set_movement(s.shim_at, s.pinion_shim, s.ring_shim, s.depth_error),
    )


def _surface(flank: Flank, x: Meshing[float]) -> PinionSurface:
    p = x.pattern
    start = EaseOff(profile_crown=p.profile_crown)
    ease = fit_ease_off(flank, start, p.length, p.place, p.height, p.film)
    return ground(flank, ease.on(flank))
