"""How movement of the pair opens its flanks, and what that does to backlash.

First order at the mean point: a flank opens by the part of the movement that goes along the force
which it would put on the pinion.  The full contact does the same with the real flanks
(:class:`axlewright.hypoid.backlash.Lash`); this is for changes of a few hundredths, as by warming.
"""

from __future__ import annotations

import numpy as np

from axlewright.hypoid.support.mesh import Mesh, Movement, tooth_load
from axlewright.quantities.formula import Array, Num, formula


@formula(
    "Δj_e",
    "length",
    source="both flanks open along their normals, one turn of the ring takes both up (closed form)",
)
def lash_change(
    drive_opening: Num,
    drive_flank_angle: Num,
    coast_opening: Num,
    coast_flank_angle: Num,
    ring_mean_spiral: Num,
    ring_mean_radius: Num,
    ring_diameter: Num,
) -> Num:
    """Change of backlash as a dial at the heel reads it, from how far both flanks open."""
    turn = drive_opening / np.cos(drive_flank_angle) + coast_opening / np.cos(coast_flank_angle)
    lever = ring_mean_radius * np.cos(ring_mean_spiral)
    return turn / lever * 0.5 * ring_diameter


def opening_rates(mesh: Mesh, flank_pressure_angle: float, flank_side: float) -> Array:
    """Opening of a flank square to itself for each of E, P, G (m/m) and Σ (m/rad)."""
    force = tooth_load(mesh, 1.0, flank_pressure_angle, flank_side).force
    x, y, z = force / np.linalg.norm(force)
    at = mesh.mean_point
    return np.array([y, x, -z, x * at[2] - z * at[0]])


def warm_lash_change(
    mesh: Mesh, moved: Movement, drive_angle: float, coast_angle: float, ring_diameter: float
) -> float:
    """Change of backlash at the heel (m) by a small movement of the pair."""
    g = mesh.geometry
    drive = float(opening_rates(mesh, drive_angle, 1.0) @ np.array(moved))
    coast = float(opening_rates(mesh, coast_angle, -1.0) @ np.array(moved))
    return float(
        lash_change(
            drive, drive_angle, coast, coast_angle,
            g.ring_mean_spiral, g.ring_mean_radius, ring_diameter,
        )
    )  # fmt: skip
