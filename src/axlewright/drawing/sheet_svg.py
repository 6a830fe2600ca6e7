"""A sheet as a picture: the marks of its layers in lines of ISO widths, for page and paper."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from axlewright.drawing.hatch import hatch_lines
from axlewright.drawing.palette import INK
from axlewright.drawing.primitives import (
    Arc,
    Circle,
    Drawing,
    Group,
    Line,
    Look,
    Point,
    Polygon,
    Polyline,
    Rect,
    Shape,
    Text,
)
from axlewright.drawing.sheet import Sheet, View
from axlewright.drawing.sheet_marks import (
    LINES,
    Area,
    Blot,
    Bow,
    Layer,
    Mark,
    Ring,
    Stroke,
    Words,
    font_size,
)
from axlewright.drawing.svg import slug

_WHITE = Look(fill="#ffffff", stroke=None)


def sheet_drawing(sheet: Sheet) -> Drawing:
    """The sheet as shapes in millimeters of paper."""
    high = sheet.paper.height
    groups: list[Shape] = [
        Rect((0.0, 0.0), sheet.paper.width, high, _WHITE),
        _layered(sheet.around(), high, "around", "frame and notes"),
    ]
    groups.extend(_view(sheet, view, high) for view in sheet.views)
    return Drawing(sheet.paper.width, high, sheet.title.part, sheet.description, tuple(groups))


def _view(sheet: Sheet, view: View, high: float) -> Group:
    marks: list[Mark] = [*view.geometry, *view.pointers]
    for dimension in view.dimensions:
        marks.extend(sheet.dimension_marks(view, dimension))
    return _layered(marks, high, f"view-{slug(view.key)}", view.name)


def _layered(marks: Iterable[Mark], high: float, name: str, title: str) -> Group:
    """Marks sorted into groups, one a layer."""
    found: dict[Layer, list[Shape]] = {layer: [] for layer in LINES}
    for mark in marks:
        found[mark.layer].extend(_shapes(mark, high))
    order: list[Layer] = ["hatch", *(x for x in LINES if x != "hatch")]
    groups = tuple(Group(tuple(found[x]), cls=f"layer {x}") for x in order if found[x])
    return Group(groups, id=name, cls="view", title=title)


def look_of(layer: Layer) -> Look:
    """The line of a layer."""
    kind = LINES[layer]
    return Look(stroke=INK, width=kind.width, dash=kind.dash)


def _shapes(mark: Mark, high: float) -> tuple[Shape, ...]:
    def at(point: Point) -> Point:
        return (point[0], high - point[1])

    look = look_of(mark.layer)
    match mark:
        case Words():
            return (
                Text(at(mark.at), mark.text, font_size(mark.height),
                     "Bold" if mark.bold else "Regular", mark.anchor, full=mark.full),
            )  # fmt: skip
        case Area():
            cut = hatch_lines(mark.points, mark.angle, mark.spacing)
            return tuple(Line(at(a), at(b), look) for a, b in cut)
        case _:
            return (_outline(mark, look, at),)


def _outline(mark: Stroke | Ring | Bow | Blot, look: Look, at: Callable[[Point], Point]) -> Shape:
    match mark:
        case Stroke():
            points = tuple(at(p) for p in mark.points)
            if mark.closed:
                return Polygon(points, look)
            return Line(*points, look) if len(points) == 2 else Polyline(points, look)
        case Ring():
            return Circle(at(mark.center), mark.radius, look)
        case Bow():
            return Arc(at(mark.center), mark.radius, -mark.start, -mark.end, look)
        case Blot():
            return Polygon(tuple(at(p) for p in mark.points), Look(fill=INK, stroke=None))
