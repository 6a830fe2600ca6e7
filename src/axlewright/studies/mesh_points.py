"""Points and normals of the four flanks, for whoever wants to mill, measure or draw them.

Angles are those of the pair at rest; nothing here is a maker's drawing.
"""

from __future__ import annotations

import csv
import io
import json
from dataclasses import asdict, dataclass
from typing import Final

import numpy as np

from axlewright.hypoid.lines import picture, reader
from axlewright.quantities.formula import Array
from axlewright.studies.mesh_pair import GearPair

GRID: Final = (21, 11)
"""Points along the face and up the profile."""
FRAMES: Final = {
    "ring": "origin on the ring's axis at the foot of the common perpendicular; x along the"
    " pinion's axis away from its apex, y from the ring's to the pinion's axis, z along the ring's"
    " axis toward its back; as the ring stands when the middle of the pitch line touches",
    "pinion": "origin on the pinion's axis where it is nearest the ring's; x along the pinion's"
    " axis away from its apex, y and z as the ring's; the pinion unrolled to angle zero",
}
_COLUMNS = ("gear", "side", "along", "up", "x_mm", "y_mm", "z_mm", "nx", "ny", "nz")
_MM = 1e3


@dataclass(frozen=True)
class FlankPoints:
    """One flank: ``points`` in mm and unit ``normals``, (along, up, 3).

    ``along`` runs from toe (0) to heel (1), ``up`` from the lowest line of contact (0) to the
    ring's tip (1).  The normals of both gears point out of the ring's tooth and into the pinion's.
    """

    gear: str
    side: str
    unit: str
    frame: str
    along: tuple[float, ...]
    up: tuple[float, ...]
    points: tuple[tuple[tuple[float, ...], ...], ...]
    normals: tuple[tuple[tuple[float, ...], ...], ...]


def flank_points(pair: GearPair, grid: tuple[int, int] = GRID) -> tuple[FlankPoints, ...]:
    """Ring and pinion, drive and coast; the pinion as ground, with its ease-off."""
    found = []
    for side, surface in pair.surfaces.items():
        flank = surface.flank
        for gear, points, normals in (
            ("ring", flank.ring, flank.ring_normal),
            ("pinion", surface.points, surface.normals),
        ):
            at, square = _shown(points, grid), _shown(normals, grid)
            square /= np.linalg.norm(square, axis=2, keepdims=True)
            found.append(
                FlankPoints(
                    gear, side, "mm", FRAMES[gear],
                    _shares(grid[0]), _shares(grid[1]), _rows(at * _MM, 5), _rows(square, 7),
                )
            )  # fmt: skip
    return tuple(found)


def _shown(field: Array, grid: tuple[int, int]) -> Array:
    read = reader(grid)
    return np.stack([picture(part, read) for part in field], axis=2)


def _shares(count: int) -> tuple[float, ...]:
    return tuple(np.round(np.linspace(0.0, 1.0, count), 4).tolist())


def _rows(values: Array, digits: int) -> tuple[tuple[tuple[float, ...], ...], ...]:
    return tuple(tuple(tuple(p) for p in row) for row in np.round(values, digits).tolist())


def as_csv(flanks: tuple[FlankPoints, ...]) -> str:
    """All points as a table; unit and frames stand in lines that begin with #."""
    text = io.StringIO()
    text.write("# points in mm, normals without unit, out of the ring's tooth\n")
    for gear, frame in FRAMES.items():
        text.write(f"# {gear}: {frame}\n")
    table = csv.writer(text, lineterminator="\n")
    table.writerow(_COLUMNS)
    for flank in flanks:
        for i, along in enumerate(flank.along):
            for j, up in enumerate(flank.up):
                table.writerow(
                    (flank.gear, flank.side, along, up, *flank.points[i][j], *flank.normals[i][j])
                )
    return text.getvalue()


def as_json(flanks: tuple[FlankPoints, ...]) -> str:
    """The same as JSON."""
    return json.dumps([asdict(flank) for flank in flanks], ensure_ascii=False)
