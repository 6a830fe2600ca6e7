"""Marks and dimensions as entities of a drawing file.

A dimension becomes a true DIMENSION entity: its points are those of the part, so that what a
drawing program measures is what was meant.  Its text says both units outright, and its block holds
the same strokes and words as the sheet on paper.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from axlewright.drawing.dimensions import (
    Aligned,
    Angular,
    Diameter,
    Dimension,
    Linear,
    Ordinate,
    Radius,
    Tolerance,
)
from axlewright.drawing.dimensions_lines import drawn
from axlewright.drawing.dimensions_text import decimals_for, in_degrees, one_line
from axlewright.drawing.primitives import Point
from axlewright.drawing.sheet import View
from axlewright.drawing.sheet_marks import Area, Blot, Bow, Mark, Ring, Stroke, Words, placed

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document

STYLE = "PLAIN"
_CODES = {"Ø": "%%c", "±": "%%p", "°": "%%d", "×": "x", "−": "-", "–": "-", "·": "-", "’": "'"}
_CONTROL = re.compile(r"[\x00-\x1f\x7f\ud800-\udfff]")
_LINEAR, _ALIGNED, _DIAMETER, _RADIUS, _ANGULAR, _ORDINATE = 0, 1, 3, 4, 5, 6
_OWN_BLOCK, _ALONG_X = 32, 64


def plain(text: str) -> str:
    """Words with the signs that every drawing program has."""
    text = _CONTROL.sub(" ", text.replace("^", "^ "))
    return "".join(_CODES.get(c, c) for c in text)


def _no_codes(text: str) -> str:
    """Words for a dimension, where backslash and braces would be commands."""
    return plain(text.replace("\\", "/").replace("{", "(").replace("}", ")"))


@dataclass(frozen=True)
class Spread:
    """A view in the file: paper millimeters become real ones; ``shift`` sets it apart in x."""

    view: View
    shift: Point

    def real(self, mark: Mark) -> Mark:
        """A mark of the part, in place."""
        return placed(mark, self.shift, 1.0)

    def from_paper(self, mark: Mark) -> Mark:
        """A mark on paper, in real millimeters."""
        scale = self.view.scale
        x, y = self.view.origin
        return placed(mark, (self.shift[0] - scale * x, self.shift[1] - scale * y), scale)

    def at(self, point: Point) -> Point:
        """A point of the part, in place."""
        return (point[0] + self.shift[0], point[1] + self.shift[1])


def add_mark(space: Any, mark: Mark, scale: float) -> None:
    """A mark as an entity; letters and dashes are ``scale`` times those on paper."""
    how = {"layer": mark.layer.upper(), "ltscale": scale}
    match mark:
        case Stroke(points=points, closed=False) if len(points) == 2:
            space.add_line(*points, dxfattribs=how)
        case Stroke():
            space.add_lwpolyline(mark.points, close=mark.closed, dxfattribs=how)
        case Ring():
            space.add_circle(mark.center, mark.radius, dxfattribs=how)
        case Bow():
            first, last = math.degrees(mark.start), math.degrees(mark.end)
            space.add_arc(mark.center, mark.radius, first, last, dxfattribs=how)
        case Area():
            _add_hatch(space, mark, scale)
        case Blot(points=(a, b, c)):
            space.add_solid([a, b, c, c], dxfattribs=how)
        case Words():
            _add_words(space, mark, scale)


def _add_hatch(space: Any, area: Area, scale: float) -> None:
    """A cut face as a true hatch with its own lines."""
    step = area.spacing * scale
    across = area.angle + 0.5 * math.pi
    offset = (step * math.cos(across), step * math.sin(across))
    hatch = space.add_hatch(dxfattribs={"layer": area.layer.upper()})
    rule = [[math.degrees(area.angle), (0.0, 0.0), offset, []]]
    hatch.set_pattern_fill("CUT", color=256, definition=rule)
    hatch.paths.add_polyline_path(area.points, is_closed=True)


def _add_words(space: Any, words: Words, scale: float) -> None:
    from ezdxf.enums import TextEntityAlignment  # noqa: PLC0415  (loaded only when a file is made)

    how = {"layer": words.layer.upper(), "style": STYLE}
    align = {
        "start": TextEntityAlignment.LEFT,
        "middle": TextEntityAlignment.CENTER,
        "end": TextEntityAlignment.RIGHT,
    }[words.anchor]
    text = space.add_text(plain(words.text), height=words.height * scale, dxfattribs=how)
    text.set_placement(words.at, align=align)


def add_dimension(
    document: Document, spread: Spread, dimension: Dimension, general: float | None
) -> None:
    """A dimension with its own block of strokes and words."""
    block = document.blocks.new_anonymous_block(type_char="D")
    for mark in drawn(dimension, spread.view.place, general):
        add_mark(block, spread.from_paper(mark), spread.view.scale)
    kind, points = _points(dimension, spread)
    text = _no_codes(one_line(dimension, general))
    entity: Any = document.modelspace().new_entity(
        "DIMENSION",
        {
            "layer": "DIMENSION",
            "dimtype": kind | _OWN_BLOCK,
            "dimstyle": style_name(spread.view.scale),
            "geometry": block.name,
            "text": text,
            "text_midpoint": _words_middle(dimension, spread, general),
            "actual_measurement": abs(dimension.value),
            **points,
        },
    )
    entity.set_acad_dstyle(_tolerance(dimension))


def style_name(scale: int) -> str:
    """Name of the dimension style for a scale 1:n."""
    return f"SCALE_1_{scale}"


def _points(dimension: Dimension, spread: Spread) -> tuple[int, dict[str, Any]]:
    """Kind of a dimension and its points by the names of the DXF reference."""
    at = spread.at
    match dimension:
        case Linear() | Aligned():
            kind = _LINEAR if isinstance(dimension, Linear) else _ALIGNED
            points = {
                "defpoint": at(_foot(dimension)),
                "defpoint2": at(dimension.start),
                "defpoint3": at(dimension.end),
            }
            return kind, {**points, "angle": math.degrees(dimension.angle)}
        case Angular():
            return _ANGULAR, {
                "defpoint": at(dimension.through),
                "defpoint2": at(dimension.start),
                "defpoint3": at(dimension.end),
                "defpoint4": at(dimension.corner),
            }
        case Diameter() | Radius():
            (x, y), r = dimension.center, dimension.radius
            dx, dy = r * math.cos(dimension.angle), r * math.sin(dimension.angle)
            near, far = at((x + dx, y + dy)), at((x - dx, y - dy))
            if isinstance(dimension, Diameter):
                return _DIAMETER, {"defpoint": far, "defpoint4": near}
            return _RADIUS, {"defpoint": at((x, y)), "defpoint4": near}
        case Ordinate():
            flag = _ALONG_X if dimension.axis == "x" else 0
            return _ORDINATE | flag, {
                "defpoint": at(dimension.datum),
                "defpoint2": at(dimension.feature),
                "defpoint3": at(dimension.foot),
            }


def _foot(dimension: Linear | Aligned) -> Point:
    """Where the dimension line meets the extension line of the end."""
    way = (math.cos(dimension.angle), math.sin(dimension.angle))
    (x, y), (ex, ey) = dimension.through, dimension.end
    along = (ex - x) * way[0] + (ey - y) * way[1]
    return (x + along * way[0], y + along * way[1])


def _words_middle(dimension: Dimension, spread: Spread, general: float | None) -> Point:
    """The middle of the written figure."""
    marks = drawn(dimension, spread.view.place, general)
    words = [spread.from_paper(m) for m in marks if isinstance(m, Words)]
    spots = [w.at for w in words if isinstance(w, Words)]
    return (sum(p[0] for p in spots) / len(spots), sum(p[1] for p in spots) / len(spots))


def _tolerance(dimension: Dimension) -> dict[str, Any]:
    """The tolerance for programs that write the figure anew."""
    stated: Tolerance | None = dimension.tolerance
    if stated is None or stated.unknown:
        return {"dimtol": 0}
    shown = in_degrees(stated) if isinstance(dimension, Angular) else stated
    assert shown is not None
    least = min(t for t in (shown.plus, shown.minus) if t > 0.0)
    return {
        "dimtol": 0 if shown.limits else 1,
        "dimlim": 1 if shown.limits else 0,
        "dimtp": shown.plus,
        "dimtm": shown.minus,
        "dimtdec": decimals_for(least),
        "dimdec": decimals_for(least),
    }
