"""Both flanks of a ring-gear tooth as a gear setter sees them, with what touches drawn on them.

Drive and coast side stand beside each other, each seen square on, the toes in the middle.  What
touches is an outline with hatching, the denser the nearer or the harder; color only helps.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from axlewright.drawing import palette
from axlewright.drawing.pattern_marks import Rows, between, marked, outlines
from axlewright.drawing.primitives import (
    Drawing,
    Group,
    Line,
    Look,
    Point,
    Polygon,
    Polyline,
    Shape,
    Text,
)
from axlewright.quantities.units import from_si, pretty, show_both, significant
from axlewright.studies.mesh_report import LoadedPicture, Picture, ToothShape

WIDTH: Final = 186.0
_GAP, _MARGIN, _TOP = 18.0, 6.0, 18.0
_FACE = (WIDTH - _GAP - 2.0 * _MARGIN) / 2.0
_STRETCH: Final = 1.4
"""How many times as high as long a flank is drawn: depth is what a setter looks for."""
_LAND, _LEAN = 2.6, 3.4
"""Height and lean of the tooth's top as it is seen, mm."""
_FILM: Final = (1.0, 0.5)
"""Shares of the film at which an outline of the compound is drawn."""
STEPS: Final = (1.379e8, 6.895e8, 1.379e9, 2.0685e9)
"""Pressures (Pa) from which on the hatching is denser: 20, 100, 200, 300 ksi."""
_OFTEN: Final = 0.1
"""Share of a pitch from which on an edge that carries is marked."""
_TRIFLE: Final = 0.003
"""Share of the flank below which an outline is noise between the positions worked out."""
_BODY = Look(palette.STEEL, palette.MUTED, 0.25)
_FLANK = Look(palette.PAPER, palette.INK, 0.4)
_TOOTH_TOP = Look(palette.FAINT, palette.MUTED, 0.25)
_TICK = Look(stroke=palette.MUTED, width=0.25)
_MIDDLE = Look(stroke=palette.INK, width=0.6)
_EDGE, _END = Look(None, palette.INK, 0.8, (1.6, 1.2)), Look(None, palette.SHORT, 1.4, (2.4, 1.8))
_THIN, _PEN = Look(stroke=palette.HOLDS, width=0.22), Look(None, palette.HOLDS, 0.55)
_HATCH: Final = ((math.pi / 4, 1.9), (-math.pi / 4, 1.9), (math.pi / 2, 1.1), (0.0, 1.1))
"""Angle and spacing of the hatching that each step adds."""


@dataclass(frozen=True)
class Shown:
    """What is drawn on one flank: a field, the levels of its outlines, its middle and its edges."""

    side: str
    rows: Rows
    levels: tuple[float, ...]
    above: bool
    middle: Point
    edges: Mapping[str, float]
    said: tuple[str, str]


def compound_flanks(
    shapes: Mapping[str, ToothShape], pictures: Mapping[str, Picture], title: str
) -> Drawing:
    """What marking compound shows on both flanks, rolled by hand."""
    return _flanks(shapes, {side: _compound(p) for side, p in pictures.items()}, title, ())


def pressed_flanks(
    shapes: Mapping[str, ToothShape], pictures: Mapping[str, LoadedPicture | None], title: str
) -> Drawing:
    """Where both flanks press under torque, and how hard; a flank that is not known stays bare."""
    shown = {side: None if p is None else _pressed(p) for side, p in pictures.items()}
    return _flanks(shapes, shown, title, STEPS)


def _compound(p: Picture) -> Shown:
    if not p.length:
        said = ("no pattern on this flank:", "it would touch beyond the tooth")
    else:
        said = (
            f"from {_share(p.toe_end)} to {_share(p.heel_end)} % of the face",
            f"middle {_share(p.center)} % from the toe, {_share(p.height)} % up",
        )
    levels = tuple(share * p.film for share in _FILM)
    return Shown(p.side, p.gap, levels, False, (p.center, p.height), p.edges, said)


def _pressed(p: LoadedPicture) -> Shown:
    said = (
        f"load {_share(p.center)} % from the toe, {_share(p.height)} % up",
        f"pressing up to {show_both(p.peak, 'stress', 2)}",
    )
    return Shown(p.side, p.pressure, STEPS, True, (p.center, p.height), p.edges, said)


def _share(value: float) -> str:
    return significant(100.0 * value, 2)


def _flanks(
    shapes: Mapping[str, ToothShape],
    shown: Mapping[str, Shown | None],
    title: str,
    legend: tuple[float, ...],
) -> Drawing:
    scale = _FACE / max(s.along[-1] - s.along[0] for s in shapes.values())
    deep = max(max(s.tip) - min(s.root) for s in shapes.values())
    foot = _TOP + _LAND + deep * scale * _STRETCH
    sheets = [_Sheet(shape, side, scale, foot) for side, shape in shapes.items()]
    groups = [_flank(sheet, shown.get(sheet.side)) for sheet in sheets]
    words = [_words(side, shown.get(side)) for side in shapes]
    height = foot + 9.0
    middle = [
        Text((0.5 * WIDTH, y), word, 3.6, "SemiBold", "middle", palette.MUTED)
        for word, y in (("tip", sheets[0].at((0.0, 1.0))[1] + 1.0), ("root", foot - 1.0))
    ]
    shapes_drawn: list[Shape] = [*groups, Group(tuple(middle), cls="ends")]
    if legend:
        shapes_drawn.append(_legend(height))
        height += 6.5
    return Drawing(WIDTH, height, title, " ".join(words), tuple(shapes_drawn))


class _Sheet:
    """Where one flank lies on the page."""

    def __init__(self, shape: ToothShape, side: str, scale: float, foot: float) -> None:
        self.shape, self.side = shape, side
        self.scale, self.foot = scale, foot
        self.mirrored = side == "drive"
        self.lowest = min(shape.root)

    @property
    def left(self) -> float:
        return _MARGIN if self.mirrored else _MARGIN + _FACE + _GAP

    def across(self, share: float) -> float:
        """Place along the face; the toe is toward the middle of the page."""
        return self.left + _FACE * ((1.0 - share) if self.mirrored else share)

    def upright(self, height: float) -> float:
        return self.foot - (height - self.lowest) * self.scale * _STRETCH

    def line(self, heights: tuple[float, ...]) -> tuple[Point, ...]:
        first, last = self.shape.along[0], self.shape.along[-1]
        return tuple(
            (self.across((s - first) / (last - first)), self.upright(h))
            for s, h in zip(self.shape.along, heights, strict=True)
        )

    def at(self, place: Point) -> Point:
        """A place of the flank (along, up) on the page."""
        along, up = place
        s = self.shape.along
        x = s[0] + along * (s[-1] - s[0])
        low, high = (between(s, values, x) for values in (self.shape.foot, self.shape.tip))
        return (self.across(along), self.upright(low + up * (high - low)))


def _flank(sheet: _Sheet, shown: Shown | None) -> Group:
    shapes: list[Shape] = [*_tooth(sheet), *_scale(sheet)]
    name = f"{sheet.side.capitalize()} side"
    side = sheet.left
    shapes.append(Text((side, 4.0), name, 4.6, "Bold"))
    said = ("not worked out", "") if shown is None else shown.said
    shapes.extend(
        Text((side, 9.0 + 4.6 * n), line, 3.6, room=_FACE) for n, line in enumerate(said) if line
    )
    if shown is not None:
        shapes.extend((*_touching(sheet, shown), *_edges(sheet, shown.edges)))
    return Group(tuple(shapes), id=sheet.side, cls="flank")


def _tooth(sheet: _Sheet) -> tuple[Shape, ...]:
    """The tooth: its space below, its flank, and its top leaning away."""
    shape = sheet.shape
    tip, foot, root = (sheet.line(h) for h in (shape.tip, shape.foot, shape.root))
    lean = _LEAN if sheet.mirrored else -_LEAN
    back = tuple((x + lean, y - _LAND) for x, y in tip)
    return (
        Polygon((*tip, *reversed(back)), _TOOTH_TOP),
        Polygon((*tip, *reversed(root)), _BODY),
        Polygon((*tip, *reversed(foot)), _FLANK),
    )


def _scale(sheet: _Sheet) -> tuple[Shape, ...]:
    """Percent of the face from toe to heel, below the flank."""
    y = sheet.foot
    shapes: list[Shape] = []
    for percent in (0, 25, 50, 75, 100):
        x = sheet.across(percent / 100.0)
        word = {0: "toe", 100: "heel"}.get(percent, f"{percent} %")
        shapes.append(Line((x, y), (x, y + 1.4), _TICK))
        ends = percent in {0, 100}
        size, color = (3.8, palette.INK) if ends else (3.2, palette.MUTED)
        shapes.append(
            Text((x, y + 5.4), word, size, "SemiBold" if ends else "Regular", "middle", color)
        )
    return tuple(shapes)


def _touching(sheet: _Sheet, shown: Shown) -> tuple[Shape, ...]:
    """Outlines and hatching, one step denser inside the other, and a cross in the middle."""
    shapes: list[Shape] = []
    for n, level in enumerate(shown.levels):
        outline = outlines(shown.rows, level, shown.above, _TRIFLE)
        pen = Look(palette.HOLDS_TINT, palette.HOLDS, 0.55) if n == 0 else _PEN
        angle, spacing = _HATCH[n]
        shapes.extend(marked(outline, sheet.at, pen, (angle, spacing, _THIN)))
    if math.isfinite(shown.middle[0]) and math.isfinite(shown.middle[1]):
        x, y = sheet.at(shown.middle)
        halo = Look(stroke=palette.PAPER, width=1.6)
        for look in (halo, _MIDDLE):
            shapes.append(Line((x - 2.2, y), (x + 2.2, y), look))
            shapes.append(Line((x, y - 2.2), (x, y + 2.2), look))
    return tuple(shapes)


def _edges(sheet: _Sheet, edges: Mapping[str, float]) -> tuple[Shape, ...]:
    """A heavy stroke along each edge of the tooth that carries for a good part of a pitch."""
    shape = sheet.shape
    tip, foot = sheet.line(shape.tip), sheet.line(shape.foot)
    lines = {"tip": tip, "root": foot, "toe": (foot[0], tip[0]), "heel": (foot[-1], tip[-1])}
    return tuple(
        Polyline(lines[edge], _END if edge in {"toe", "heel"} else _EDGE)
        for edge, share in edges.items()
        if share >= _OFTEN
    )


def _legend(y: float) -> Group:
    """What the hatching says of the pressure."""
    unit, other = pretty(from_si(1.0, "stress")[1]), pretty(from_si(1.0, "stress", "si")[1])
    shapes: list[Shape] = []
    x = _MARGIN
    for n, level in enumerate(STEPS):
        box = ((x, y), (x + 8.0, y), (x + 8.0, y + 4.4), (x, y + 4.4))
        shapes.append(Polygon(box, Look(palette.HOLDS_TINT, palette.HOLDS, 0.4)))
        for angle, spacing in _HATCH[: n + 1]:
            shapes.extend(marked((box,), _same, Look(None, None), (angle, spacing, _THIN)))
        shop, si = (significant(from_si(level, "stress", s)[0], 2) for s in ("shop", "si"))
        said = f"{shop} {unit} ({si} {other})" if n == 0 else f"{shop} ({si})"
        text = Text((x + 9.3, y + 3.4), said, 3.2, color=palette.MUTED)
        shapes.append(text)
        x += 13.0 + text.width
    shapes.append(Polyline(((x, y + 2.2), (x + 8.0, y + 2.2)), _END))
    edge = "toe or heel carries"
    shapes.append(Text((x + 9.5, y + 3.4), edge, 3.2, color=palette.MUTED))
    return Group(tuple(shapes), cls="legend")


def _same(point: Point) -> Point:
    return point


def _words(side: str, shown: Shown | None) -> str:
    """One flank in words, for who cannot see it."""
    name = f"{side.capitalize()} side:"
    if shown is None:
        return f"{name} not worked out."
    carried = [edge for edge, share in shown.edges.items() if share >= _OFTEN]
    more = f"; carried by the edge at {', '.join(carried)}" if carried else ""
    return f"{name} {'; '.join(shown.said)}{more}."
