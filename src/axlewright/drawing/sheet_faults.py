"""What is wrong with a sheet: words over words or over lines, things outside the frame."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations, pairwise

from axlewright.drawing.primitives import Box, Point
from axlewright.drawing.sheet import Sheet
from axlewright.drawing.sheet_marks import Blot, Bow, Mark, Ring, Stroke, Words, bow_points, box_of

_SHRUNK = 0.12
"""What a line may reach into the box around words (mm)."""
CROWDED = "Some words overlap at this size; take larger paper."

Segment = tuple[Point, Point]


def checked(sheet: Sheet) -> Sheet:
    """The sheet, with a caution if words overlap on it."""
    return replace(sheet, cautions=(*sheet.cautions, CROWDED)) if faults(sheet) else sheet


def all_marks(sheet: Sheet) -> list[Mark]:
    """Everything on the sheet, on paper."""
    marks = list(sheet.around())
    for view in sheet.views:
        marks += [*view.geometry, *view.pointers]
        for dimension in view.dimensions:
            marks += sheet.dimension_marks(view, dimension)
    return marks


def faults(sheet: Sheet) -> list[str]:
    """Every place where words overlap, or something leaves the frame."""
    marks = all_marks(sheet)
    words = [(m, box_of([m])) for m in marks if isinstance(m, Words)]
    return [*_words_over_words(words), *_outside(marks, sheet), *_words_on_lines(words, marks)]


def _words_over_words(words: list[tuple[Words, Box]]) -> list[str]:
    return [
        f"{one.text!r} over {other.text!r}"
        for (one, a), (other, b) in combinations(words, 2)
        if min(a[2], b[2]) - max(a[0], b[0]) > 0.05 and min(a[3], b[3]) - max(a[1], b[1]) > 0.05
    ]


def _outside(marks: list[Mark], sheet: Sheet) -> list[str]:
    left, bottom, right, top = sheet.paper.inner
    slack = 1e-6
    found = []
    for mark in marks:
        a, b, c, d = box_of([mark])
        if a < left - slack or b < bottom - slack or c > right + slack or d > top + slack:
            found.append(f"outside the frame: {mark}")
    return found


def _words_on_lines(words: list[tuple[Words, Box]], marks: list[Mark]) -> list[str]:
    segments = [pair for m in marks for pair in _pieces(m)]
    found = []
    for word, (a, b, c, d) in words:
        small = (a + _SHRUNK, b + _SHRUNK, c - _SHRUNK, d - _SHRUNK)
        if any(_meets(small, p, q) for p, q in segments):
            found.append(f"{word.text!r} on a line")
    return found


def _pieces(mark: Mark) -> list[Segment]:
    match mark:
        case Stroke():
            return list(pairwise((*mark.points, mark.points[0]) if mark.closed else mark.points))
        case Ring():
            return list(pairwise(bow_points(Bow(mark.center, mark.radius, 0.0, 6.2832), 48)))
        case Bow():
            return list(pairwise(bow_points(mark)))
        case Blot(points=(a, b, c)):
            return [(a, b), (b, c), (c, a)]
        case _:
            return []


def _meets(box: Box, p: Point, q: Point) -> bool:
    """Whether a line from p to q touches a box (cut at each of its four sides)."""
    first, last = 0.0, 1.0
    for i in (0, 1):
        step = q[i] - p[i]
        for side, sign in ((box[i], 1.0), (box[i + 2], -1.0)):
            gap, rate = sign * (side - p[i]), sign * step
            if rate == 0.0:
                if gap > 0.0:
                    return False
            elif rate > 0.0:
                first = max(first, gap / rate)
            else:
                last = min(last, gap / rate)
    return first < last
