"""Outline of the area where a field on a grid is on one side of a level, and hatching inside it.

The field is given at even places along and up; between them it is read by straight lines along
the sides of the grid's cells.  Outlines are closed: where the area reaches the rim of the grid
they run along it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

from axlewright.drawing.hatch import hatch_lines
from axlewright.drawing.primitives import Line, Look, Point, Polygon, Shape

Rows = Sequence[Sequence[float]]
Corner = tuple[int, int]
_SIDES: dict[int, tuple[tuple[int, int], ...]] = {
    1: ((3, 0),), 2: ((0, 1),), 3: ((3, 1),), 4: ((1, 2),), 6: ((0, 2),), 7: ((3, 2),),
    8: ((2, 3),), 9: ((2, 0),), 11: ((2, 1),), 12: ((1, 3),), 13: ((1, 0),), 14: ((0, 3),),
}  # fmt: skip
"""Which sides of a cell an outline crosses, by which corners are inside (1, 2, 4, 8 around)."""
_ALL = 15
_APART: dict[tuple[int, bool], tuple[tuple[int, int], ...]] = {
    (5, True): ((3, 2), (1, 0)), (5, False): ((3, 0), (1, 2)),
    (10, True): ((0, 3), (2, 1)), (10, False): ((0, 1), (2, 3)),
}  # fmt: skip
"""The same where opposite corners are inside; True where the middle of the cell is inside too."""


def outlines(
    field: Rows, level: float, above: bool = False, trifle: float = 0.0
) -> tuple[tuple[Point, ...], ...]:
    """Closed outlines of where the field is at most (or at least) a level; places 0…1.

    Outlines around less than the share ``trifle`` of the grid are left out; the largest is first.
    """
    sense = -1.0 if above else 1.0
    inside = [[sense * (level - v) for v in row] for row in field]
    around = _rimmed(inside)
    steps = {
        one: other for i, j, code in _cells(around) for one, other in _crossed(around, i, j, code)
    }
    found = []
    while steps:
        start, at = steps.popitem()
        loop = [start]
        while at != start:
            loop.append(at)
            at = steps.pop(at)
        found.append(tuple(_place(around, side) for side in loop))
    large = [loop for loop in found if _area(loop) > trifle]
    return tuple(sorted(large, key=_area, reverse=True))


def marked(
    outline: Sequence[tuple[Point, ...]],
    to_page: Callable[[Point], Point],
    pen: Look,
    hatching: tuple[float, float, Look] | None = None,
) -> tuple[Shape, ...]:
    """Outlines on the page, hatched at an angle (rad) and a spacing (mm) if so wished."""
    loops = [tuple(to_page(p) for p in loop) for loop in outline]
    shapes: list[Shape] = [Polygon(loop, pen) for loop in loops]
    if hatching is not None and loops:
        angle, spacing, look = hatching
        # One polygon of all loops: the even-odd rule leaves holes out.
        whole = tuple(p for loop in loops for p in (*loop, loop[0], loops[0][0]))
        shapes.extend(Line(a, b, look) for a, b in hatch_lines(whole, angle, spacing))
    return tuple(shapes)


def between(at: Sequence[float], values: Sequence[float], x: float) -> float:
    """A value between points that rise, by straight lines, as the curve itself is drawn."""
    n = next((i for i in range(1, len(at) - 1) if at[i] >= x), len(at) - 1)
    share = (x - at[n - 1]) / (at[n] - at[n - 1])
    return values[n - 1] + share * (values[n] - values[n - 1])


def _rimmed(inside: list[list[float]]) -> list[list[float]]:
    """The same with a rim that is outside, so that every outline closes."""
    across = len(inside[0]) + 2
    return [
        [-math.inf] * across,
        *([-math.inf, *row, -math.inf] for row in inside),
        [-math.inf] * across,
    ]


def _cells(around: list[list[float]]) -> Iterator[tuple[int, int, int]]:
    """Cells that an outline crosses, with which of their corners are inside (1, 2, 4, 8 around)."""
    signs = [[v >= 0.0 for v in row] for row in around]
    for i, (near, far) in enumerate(pairwise(signs)):
        for j in range(len(near) - 1):
            code = near[j] + 2 * far[j] + 4 * far[j + 1] + 8 * near[j + 1]
            if 0 < code < _ALL:
                yield i, j, code


def _crossed(
    around: list[list[float]], i: int, j: int, code: int
) -> list[tuple[tuple[Corner, Corner], tuple[Corner, Corner]]]:
    """Pieces of outline in a cell, from side to side, each side named by its two corners."""
    corners = ((i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1))
    if code in _SIDES:
        pieces = _SIDES[code]
    else:
        pieces = _APART[code, sum(around[a][b] for a, b in corners) >= 0.0]
    return [(_side(corners, a), _side(corners, b)) for a, b in pieces]


def _side(corners: tuple[Corner, ...], n: int) -> tuple[Corner, Corner]:
    one, other = sorted((corners[n], corners[(n + 1) % 4]))
    return one, other


def _place(around: list[list[float]], side: tuple[Corner, Corner]) -> Point:
    """Where an outline crosses a side of a cell, as shares of the grid."""
    (i, j), (k, n) = side
    a, b = around[i][j], around[k][n]
    share = 0.0 if math.isinf(b) else 1.0 if math.isinf(a) else a / (a - b)
    along, up = len(around) - 3, len(around[0]) - 3
    return ((i + share * (k - i) - 1) / along, (j + share * (n - j) - 1) / up)


def _area(loop: tuple[Point, ...]) -> float:
    pairs = zip(loop, (*loop[1:], loop[0]), strict=True)
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)) / 2.0
