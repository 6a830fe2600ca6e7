"""Backlash of a moved pair, and what a shim does to the place of pinion and ring.

Backlash is the turn by which the ring goes from one flank to the other with the pinion held.  A
dial reads it at the heel, on the outer pitch radius, square to nothing but the circle: more than
at the mean point in the proportion of the radii.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from axlewright.hypoid.ease_off import PinionSurface
from axlewright.hypoid.support.mesh import Movement
from axlewright.hypoid.unloaded import Contact, analyze
from axlewright.quantities.formula import Num, formula

_RIGID = "closed form: rigid shift along the flank normals at the mean point"

Shim = Literal["pinion head", "pinion cartridge", "pinion preload", "ring side", "far side"]
SHIMS: dict[Shim, tuple[float, float]] = {
    "pinion head": (-1.0, 0.0),
    "pinion cartridge": (1.0, 0.0),
    "pinion preload": (0.0, 0.0),
    "ring side": (0.0, -1.0),
    "far side": (0.0, 1.0),
}
"""Move of pinion and ring (P, G) per thickness added.  The head shim lies under the pinion's head
or behind the inner cup and pushes the pinion in; one between a bolt-on cartridge and the case
holds it out.  What is added at one side of the ring's carrier is taken off the other; the ring
side is the one behind the ring's back (common practice; true where that shim backs the bearing)."""


@formula("Δj/ΔG", "ratio", source=_RIGID)
def lash_per_ring_move(
    drive_flank_angle: Num, coast_flank_angle: Num, ring_pitch_angle: Num, ring_mean_spiral: Num
) -> Num:
    """Backlash gained at the mean point per distance that the ring is moved out."""
    wedge = np.tan(drive_flank_angle) + np.tan(coast_flank_angle)
    return wedge * np.sin(ring_pitch_angle) / np.cos(ring_mean_spiral)


@formula("Δj/ΔP", "ratio", source=_RIGID)
def lash_per_pinion_move(
    drive_flank_angle: Num, coast_flank_angle: Num, pinion_pitch_angle: Num, ring_mean_spiral: Num
) -> Num:
    """Backlash gained at the ring's mean point per distance that the pinion is moved out."""
    wedge = np.tan(drive_flank_angle) + np.tan(coast_flank_angle)
    return wedge * np.sin(pinion_pitch_angle) / np.cos(ring_mean_spiral)


@formula("j_e", "length", source="closed form: one turn of the ring at two radii")
def dial_lash(mean_lash: Num, ring_diameter: Num, ring_mean_radius: Num) -> Num:
    """Backlash as a dial at the heel reads it."""
    return mean_lash * 0.5 * ring_diameter / ring_mean_radius


def shim_move(shim: Shim, thicker: float) -> Movement:
    """How a thicker shim (m) moves pinion and ring, by where the shim lies."""
    pinion, ring = SHIMS[shim]
    return Movement(0.0, pinion * thicker, ring * thicker, 0.0)


def shim_for(shim: Shim, move: float) -> float:
    """How much thicker (m) a shim must be to move its gear out by ``move`` (m)."""
    per = sum(SHIMS[shim])
    if per == 0.0:
        raise ValueError(f"a shim at {shim} moves neither gear")
    return move / per


@dataclass(frozen=True)
class Lash:
    """Backlash of a pair whose two flanks stand ``at_rest`` (rad of ring) apart in design place."""

    drive: PinionSurface
    coast: PinionSurface
    at_rest: float
    drive_turn: float
    coast_turn: float

    def turn(self, drive: Contact, coast: Contact) -> float:
        """Backlash (rad of the ring) from the contacts of both flanks in one place.

        Below zero the flanks would bind.
        """
        sides = self.drive.flank.turn_side, self.coast.flank.turn_side
        opened = sides[0] * (drive.turn - self.drive_turn) + sides[1] * (
            coast.turn - self.coast_turn
        )
        return self.at_rest + opened

    def moved(self, movement: Movement) -> float:
        """Backlash (rad of the ring) at a movement."""
        return self.turn(analyze(self.drive, movement), analyze(self.coast, movement))

    def at_dial(self, turn: float) -> float:
        """The same as a dial at the heel reads it, m."""
        return turn * self.drive.flank.pair.outer_radius


def lash(drive: PinionSurface, coast: PinionSurface, dial: float) -> Lash:
    """Backlash of a pair that shows ``dial`` (m at the heel) in its design place."""
    return Lash(
        drive, coast, dial / drive.flank.pair.outer_radius,
        analyze(drive).turn, analyze(coast).turn,
    )  # fmt: skip


def ring_move_for(pair_lash: Lash, movement: Movement, wanted: float) -> Movement:
    """The same movement with the ring moved until the backlash (rad) is as wanted."""
    step = 1e-4
    G = movement.G
    for _ in range(20):
        here = pair_lash.moved(movement._replace(G=G))
        slope = (pair_lash.moved(movement._replace(G=G + step)) - here) / step
        change = (wanted - here) / slope
        G += change
        if abs(change) < 1e-9:
            return movement._replace(G=G)
    raise ArithmeticError("no place of the ring gives this backlash")
