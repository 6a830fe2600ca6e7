"""Turns a drawing into SVG text: presentation attributes and classes, nothing a printer misses.

No ``style`` attributes, no custom properties, no filters or patterns: what is written here looks
the same in a browser, in a paper and in a picture viewer.
"""

from __future__ import annotations

import math
import re
from xml.sax.saxutils import escape, quoteattr

from axlewright.drawing.fonts import FAMILY, WEIGHTS
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

_NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def to_svg(drawing: Drawing, prefix: str) -> str:
    """The drawing as one SVG element; every id starts with ``prefix``: a page may hold many."""
    if not re.fullmatch(r"[A-Za-z][A-Za-z0-9_-]*", prefix):
        raise ValueError(f"{prefix!r} cannot start an id; use letters, digits and hyphens")
    width, height = number(drawing.width), number(drawing.height)
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm"'
        f' viewBox="0 0 {width} {height}" role="img" class="drawing"'
        f' aria-labelledby="{prefix}-title {prefix}-desc" font-family="{FAMILY}, sans-serif"'
        ' stroke-linejoin="round" stroke-linecap="round">',
        f'<title id="{prefix}-title">{_safe(drawing.title)}</title>',
        f'<desc id="{prefix}-desc">{_safe(drawing.description)}</desc>',
        *(_shape(s, prefix) for s in drawing.shapes),
        "</svg>",
    ]
    return "\n".join(lines) + "\n"


def slug(text: str) -> str:
    """A text as part of an id or class: ``axle_shaft.left`` becomes ``axle_shaft-left``."""
    return re.sub(r"[^A-Za-z0-9_]+", "-", text).strip("-")


def number(value: float) -> str:
    """A length with at most three decimals."""
    if not math.isfinite(value):
        raise ValueError(f"{value} cannot be drawn")
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _safe(text: str) -> str:
    return escape(_NOT_XML.sub("�", text))


def _class(cls: str) -> str:
    return f" class={quoteattr(cls)}" if cls else ""


def _paint(look: Look) -> str:
    parts = [f' fill="{look.fill or "none"}"']
    if look.stroke is not None:
        parts.append(f' stroke="{look.stroke}" stroke-width="{number(look.width)}"')
    if look.dash:
        parts.append(f' stroke-dasharray="{" ".join(number(d) for d in look.dash)}"')
    return "".join(parts)


def _points(points: tuple[Point, ...]) -> str:
    return " ".join(f"{number(x)},{number(y)}" for x, y in points)


def _shape(shape: Shape, prefix: str) -> str:
    match shape:
        case Text():
            return _text(shape)
        case Group():
            inner = "\n".join(_shape(s, prefix) for s in shape.shapes)
            name = f' id="{prefix}-{slug(shape.id)}"' if shape.id else ""
            title = f"<title>{_safe(shape.title)}</title>\n" if shape.title else ""
            return f"<g{name}{_class(shape.cls)}>\n{title}{inner}\n</g>"
        case _:
            return f"<{_geometry(shape)}{_class(shape.cls)}{_paint(shape.look)}/>"


def _geometry(shape: Line | Polyline | Polygon | Rect | Circle | Arc) -> str:
    match shape:
        case Line():
            (x1, y1), (x2, y2) = shape.start, shape.end
            return f'line x1="{number(x1)}" y1="{number(y1)}" x2="{number(x2)}" y2="{number(y2)}"'
        case Polyline():
            return f'polyline points="{_points(shape.points)}"'
        case Polygon():
            return f'polygon points="{_points(shape.points)}"'
        case Rect():
            x, y = shape.corner
            rounded = f' rx="{number(shape.round)}"' if shape.round else ""
            size = f'width="{number(shape.width)}" height="{number(shape.height)}"'
            return f'rect x="{number(x)}" y="{number(y)}" {size}{rounded}'
        case Circle():
            x, y = shape.center
            return f'circle cx="{number(x)}" cy="{number(y)}" r="{number(shape.radius)}"'
        case Arc():
            return _arc(shape)


def _arc(arc: Arc) -> str:
    (x1, y1), (x2, y2) = arc.at(arc.start), arc.at(arc.end)
    large = int(abs(arc.end - arc.start) > math.pi)
    sweep = int(arc.end > arc.start)
    r = number(arc.radius)
    return (
        f'path d="M {number(x1)} {number(y1)} A {r} {r} 0 {large} {sweep}'
        f' {number(x2)} {number(y2)}"'
    )


def _text(text: Text) -> str:
    x, y = text.at
    weight = f' font-weight="{WEIGHTS[text.weight]}"' if text.weight != "Regular" else ""
    anchor = f' text-anchor="{text.anchor}"' if text.anchor != "start" else ""
    title = f"<title>{_safe(text.full)}</title>" if text.full else ""
    return (
        f'<text x="{number(x)}" y="{number(y)}"{_class(text.cls)} fill="{text.color}"'
        f' font-size="{number(text.size)}"{weight}{anchor}>{title}{_safe(text.text)}</text>'
    )
