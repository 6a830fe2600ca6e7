"""Gear pairs in rigid and in real bearings, and plain writings of what the tests compare with."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache

import numpy as np

from axlewright.hypoid.geometry import pitch_cones
from axlewright.hypoid.support import case, layout, mesh
from axlewright.hypoid.support.case import CaseMetal, DesignClass
from axlewright.hypoid.support.equilibrium import Housed, house
from axlewright.hypoid.support.mesh import Mesh, Movement, ToothLoad
from axlewright.hypoid.support.roller import Roller
from axlewright.hypoid.support.shaft import Section, Shaft
from axlewright.hypoid.support.system import Line, Seat, System
from axlewright.hypoid.support.warm import Warming, warming

SIZE = layout.BearingSize
ALPHA = np.radians(20.0)
# The bearing of the worked figures: 17 rollers 16 mm long at 15 degrees.
ANGLE = np.radians(15.0)
COUNT, LENGTH = 17, 0.016
HARD = np.array([1e13, 1e13, 1e13, 1e10, 1e10])


@cache
def pair(name: str = "large") -> Mesh:
    """Case B of the worked figures (9/41, 241.3 mm ring) or a small pair (13/42, 170 mm)."""
    z1, z2, de, b, a, spiral, rc = {
        "large": (9.0, 41.0, 0.2413, 0.035, 0.0381, 48.0, 0.09525),
        "small": (13.0, 42.0, 0.170, 0.030, 0.03175, 50.0, 0.0635),
    }[name]
    cones = pitch_cones(z1, z2, de, b, a, np.radians(spiral), rc, 0.5 * np.pi)
    return mesh.mesh_of(cones, a)


def load(torque: float, side: float = 1.0, name: str = "large") -> ToothLoad:
    """Force at the mean point; side +1 drive, -1 coast."""
    return mesh.tooth_load(pair(name), torque, ALPHA, side)


PILOTS = {
    "large": layout.Pilot(0.025, 0.052, 0.018, 20e-6, 0.032),
    "small": layout.Pilot(0.020, 0.042, 0.014, 20e-6, 0.026),
}
SIZES = {
    "large": layout.Sizes(
        0.0362, 0.0965, 0.04, SIZE(0.045, 0.1, 0.0383, 0.35), SIZE(0.035, 0.08, 0.0328),
        SIZE(0.05, 0.09, 0.025, 0.27), 0.15, 0.3, 0.014, 5e3, 4e3,
    ),
    "small": layout.Sizes(
        0.032, 0.080, 0.032, SIZE(0.035, 0.08, 0.030, 0.35), SIZE(0.030, 0.072, 0.026),
        SIZE(0.040, 0.073, 0.020, 0.27), 0.12, 0.3, 0.011, 3e3, 2.5e3,
    ),
}  # fmt: skip
LAYOUTS = [(size, straddle) for size in ("large", "small") for straddle in (False, True)]


def system(
    name: str = "large",
    straddle: bool = False,
    metal: str | CaseMetal = "gray",
    design: DesignClass = case.CLASSES["integral"],
    **other: float,
) -> System:
    """A pair in bearings and case as a car has them."""
    sizes = replace(SIZES[name], pilot=PILOTS[name] if straddle else None, **other)
    iron = case.METALS[metal] if isinstance(metal, str) else metal
    return layout.support(pair(name), sizes, design, iron)


@cache
def housed(
    name: str = "large",
    straddle: bool = False,
    metal: str = "gray",
    rises: tuple[float, float] | None = None,
    **other: float,
) -> Housed:
    """The same with its preload set, warm where ``rises`` (case, shafts; K) are given."""
    built = system(name, straddle, metal, **other)
    warm: Warming | None = None if rises is None else warming(built, case.METALS[metal], *rises)
    return house(built, warm)


def worked_roller(facing: int, **other: float) -> Roller:
    """The bearing of the worked figures, with straight rollers as the handbook laws take them."""
    row = Roller(facing, ANGLE, 0.030, COUNT, 0.0095, LENGTH, 70e3, crowned=False)
    return replace(row, **other)


def point_support(facing: int) -> Roller:
    """Rollers so short and hard that the bearing holds the shaft in one point and no more.

    Its load center lies in its middle: elsewhere the stretch between would bend by the couple.
    """
    tiny = {"length": 1e-6, "pitch_radius": 1e-6, "diameter": 1e-8}
    return worked_roller(facing, count=48, stiffening=3e7, **tiny)


def rigid_line(
    seats: list[tuple[str, float, Roller]],
    gear_at: float,
    shaft: Shaft,
    preload: float,
    flange: bool = False,
    springs: np.ndarray = HARD,
) -> Line:
    """A shaft in seats that do not give."""
    placed = tuple(Seat(name, at, roller, springs) for name, at, roller in seats)
    held = np.diag(np.concatenate([springs for _ in placed]))
    plate = np.full(5, 1e13) if flange else None
    return Line(shaft, placed, held, preload, gear_at, plate)


def rod(start: float, length: float, d: float, modulus: float = 206e9, shear: bool = True) -> Shaft:
    """A plain round shaft."""
    return Shaft(start, (Section(length, d),), modulus, shear=shear)


def ring_line(m: Mesh) -> Line:
    """A ring gear held so that it does not move."""
    z = float(m.mean_point[2])
    seats = [("near", z + 0.05, point_support(1)), ("far", z - 0.10, point_support(-1))]
    return rigid_line(seats, z, rod(z - 0.2, 0.4, 0.3, 206e11), 1e4, flange=True)


def by_differences(
    f: Callable[[np.ndarray], np.ndarray], at: np.ndarray, step: np.ndarray
) -> np.ndarray:
    """Derivative by central differences of the fourth order, column by column."""
    columns = []
    for i in range(at.size):
        h = np.zeros(at.size)
        h[i] = step[i]
        one, two = f(at + h) - f(at - h), f(at + 2 * h) - f(at - 2 * h)
        columns.append((8.0 * one - two) / (12.0 * step[i]))
    return np.stack(columns, axis=-1)


def apart(one: Movement, other: Movement) -> float:
    """Largest difference of two movements, m (the shaft angle at 0.1 m)."""
    scale = np.array([1.0, 1.0, 1.0, 0.1])
    return float(np.abs((np.array(one) - np.array(other)) * scale).max())
