"""Patterns as plain data for a drawing, and the answer of a slider of shim and backlash."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.hypoid.backlash import lash_per_ring_move, shim_for
from axlewright.hypoid.loaded.contact import LoadedContact
from axlewright.hypoid.setting import settle
from axlewright.hypoid.support.mesh import Movement
from axlewright.hypoid.unloaded import Contact, analyze
from axlewright.quantities.formula import Array
from axlewright.studies.mesh_pair import GearPair, Side
from axlewright.studies.mesh_report import LoadedPicture, Picture, ToothShape

_GAP = 8
"""Digits of a gap in m: hundredths of a µm, far below any film."""
_LENGTH = 6
"""Digits of a length of the tooth in m."""
_PLACE = 4
"""Digits of a place."""
_PRESSURE = -4
"""Digits of a pressure in Pa: hundredths of a MPa."""


@dataclass(frozen=True)
class Shimmed:
    """Both patterns of a pair set anew: pinion and ring out of their set place (m), and lash.

    ``ring_shim`` (m) is what must go from the far side to behind the ring gear for it.
    """

    pinion_out: float
    ring_out: float
    ring_shim: float
    backlash: float
    pictures: dict[str, Picture]


def picture_of(contact: Contact, side: Side, film: float) -> Picture:
    """One flank's contact as plain data."""
    p = contact.pattern
    count = p.gap.shape
    x, y = (0.5 * (1.0 + contact.path[:, i]) for i in (0, 1))
    touching = np.isfinite(x)
    return Picture(
        side=side,
        center=p.center,
        height=p.height,
        length=p.length,
        width=p.width,
        toe_end=p.toe_end,
        heel_end=p.heel_end,
        film=film,
        along=_places(np.linspace(0.0, 1.0, count[0])),
        up=_places(np.linspace(0.0, 1.0, count[1])),
        gap=tuple(tuple(row) for row in np.round(p.gap, _GAP).tolist()),
        path=tuple(zip(_places(x[touching]), _places(y[touching]), strict=True)),
        edges=dict(contact.edges),
        error=contact.amplitude,
    )


def pressed_picture(found: LoadedContact, side: Side) -> LoadedPicture:
    """One flank's loaded contact as plain data."""
    p = found.pattern
    count = p.pressure.shape
    return LoadedPicture(
        side=side,
        center=p.center,
        height=p.height,
        toe_end=p.toe_end,
        heel_end=p.heel_end,
        peak=found.peak_pressure,
        along=_places(np.linspace(0.0, 1.0, count[0])),
        up=_places(np.linspace(0.0, 1.0, count[1])),
        pressure=tuple(tuple(row) for row in np.round(p.pressure, _PRESSURE).tolist()),
        edges=dict(found.edges),
        error=found.amplitude,
        shares=tuple(_places(row) for row in found.share),
        cautions=found.cautions,
    )


def shapes_of(pair: GearPair) -> dict[str, ToothShape]:
    """Outline of each flank of the ring's tooth."""
    found = {}
    for side, surface in pair.surfaces.items():
        field = surface.flank
        s, low, tip = field.s[:, 0], field.h[:, 0], field.h[:, -1]
        order = np.argsort(s)
        found[str(side)] = ToothShape(
            *(
                tuple(np.round(values[order], _LENGTH).tolist())
                for values in (s, tip, low, pair.pair.root_line(s))
            )
        )
    return found


def _places(values: Array) -> tuple[float, ...]:
    return tuple(np.round(values, _PLACE).tolist())


def pictures_at(pair: GearPair, movement: Movement) -> dict[str, Picture]:
    """Both flanks at a place of the pair, without torque."""
    return {
        side: picture_of(analyze(surface, movement, pair.film), side, pair.film)
        for side, surface in pair.surfaces.items()
    }


def shimmed(pair: GearPair, pinion_out: float, backlash: float) -> Shimmed:
    """Both patterns with the pinion moved out (m) and the ring set to a backlash at the heel (m).

    Raises ``ArithmeticError`` in words where no place of the ring gives that backlash.
    """
    g, angles = pair.blank.geometry, pair.blank.angles
    rate = lash_per_ring_move(
        angles["drive"], angles["coast"], g.ring_pitch_angle, g.ring_mean_spiral
    )
    start = pair.set_at._replace(P=pinion_out)
    at, drive, coast = settle(
        pair.lash, start, backlash / pair.pair.outer_radius, float(rate / g.ring_mean_radius),
        pair.film,
    )  # fmt: skip
    return Shimmed(
        pinion_out=at.P,
        ring_out=at.G,
        ring_shim=shim_for("ring side", at.G),
        backlash=pair.lash.at_dial(pair.lash.turn(drive, coast)),
        pictures={
            "drive": picture_of(drive, "drive", pair.film),
            "coast": picture_of(coast, "coast", pair.film),
        },
    )
