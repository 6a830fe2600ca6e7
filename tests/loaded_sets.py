"""Gear sets of the loaded contact's tests: blanks as in the tests of the unloaded contact."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from axlewright.hypoid import geometry, teeth
from axlewright.hypoid.conjugate_pinion import NODES, Flank, make_flank
from axlewright.hypoid.ease_off import EaseOff, PinionSurface, ground
from axlewright.hypoid.loaded.compliance import Compliance, compliance_of
from axlewright.hypoid.loaded.grid import Cells, Grid
from axlewright.hypoid.placement import place
from axlewright.hypoid.unloaded import fit_ease_off

COARSE = Cells(5, 3, 1, 1, 2)
# Teeth, ring diameter, face, offset (mm), pinion spiral (degrees), cutter radius (mm).
BLANKS: dict[str, tuple[int, int, float, float, float, float, float]] = {
    "13/42": (13, 42, 170.0, 30.0, 31.75, 50.0, 63.5),
    "9/41": (9, 41, 241.3, 35.0, 38.1, 48.0, 95.25),
    "bevel": (11, 41, 223.5, 33.0, 0.0, 35.0, 88.9),
}


@lru_cache
def flank(name: str, side: int, hand: int = 1) -> Flank:
    z1, z2, *mm, spiral, radius = BLANKS[name]
    de, b, a = (0.001 * v for v in mm)
    rc = 0.001 * radius
    g = geometry.pitch_cones(
        float(z1), float(z2), de, b, a, math.radians(spiral), rc, 0.5 * math.pi
    )
    pair = place(g, z1, z2, a, b, de, rc, hand=hand)
    rule = teeth.drive_pressure_angle if side > 0 else teeth.coast_pressure_angle
    limit = float(g.limit_pressure_angle)
    return make_flank(pair, float(rule(math.radians(20.0), 1.0, limit)), side)


def conjugate(f: Flank) -> PinionSurface:
    return ground(f, np.zeros(NODES))


@lru_cache
def usual(name: str = "9/41", side: int = 1, hand: int = 1) -> PinionSurface:
    """A set as it comes: half the face, slightly toward the toe."""
    f = flank(name, side, hand)
    return ground(f, fit_ease_off(f, EaseOff(profile_crown=10e-6)).on(f))


def give(
    name: str = "9/41", side: int = 1, cells: Cells | None = COARSE, hand: int = 1
) -> Compliance:
    return compliance_of(flank(name, 1, hand), flank(name, -1, hand), side, cells)


def block(width: float, height: float, thick: float, cells: tuple[int, int, int]) -> Grid:
    """A plain block held at its lower face, told as a tooth without a rim."""
    along, up, through = (np.linspace(0.0, 1.0, 2 * n + 1) for n in cells)
    points = np.stack(
        np.meshgrid(along * width, up * height, through * thick, indexing="ij"), axis=-1
    )
    index = np.arange(points.size // 3).reshape(points.shape[:3])
    held = np.zeros(index.size, dtype=bool)
    held[index[:, 0]] = True
    nothing = np.zeros((1, 1, 1), dtype=np.int64)
    return Grid(points.reshape(-1, 3), index, nothing, held, along, up)
