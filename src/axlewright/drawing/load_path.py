"""The load path, flywheel to ground, and what holds it: which link is short, which goes first.

A picture of the driveline with numbered balloons stands on top; under it every link has a line
with its title, its margin and the band of that margin on one common axis.
"""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.drawing import palette, parts
from axlewright.drawing.axes import margin_axis, margin_legend
from axlewright.drawing.fonts import Weight, shorten
from axlewright.drawing.marks import (
    MARKS,
    State,
    band_text,
    margin_bar,
    margin_text,
    state_of,
)
from axlewright.drawing.primitives import (
    Anchor,
    Circle,
    Drawing,
    Group,
    Line,
    Look,
    Point,
    Rect,
    Shape,
    Text,
)
from axlewright.drawing.scales import LogScale, margin_scale
from axlewright.drawing.svg import slug
from axlewright.studies.report import LinkReport, LoadPathReport, Margin

REACTION = frozenset({"case", "caps", "tube_joint", "tube", "brackets"})
"""Links that hold the driveline rather than carry its torque."""

_CROWDED = 160.0
"""Right of this, balloons stand in a column."""

_PITCH = 5.7
_AXIS_LEFT, _AXIS_RIGHT = 99.0, 152.0


@dataclass(frozen=True)
class _Row:
    """One link as drawn."""

    number: int
    link: LinkReport
    margin: Margin | None
    state: State
    weakest: bool


def load_path(report: LoadPathReport) -> Drawing:
    """Draw the load path of a report."""
    rows = _rows(report)
    scale = _scale(rows)
    carries = [r for r in rows if base(r.link.link) not in REACTION]
    holds = [r for r in rows if base(r.link.link) in REACTION]
    top = parts.HEIGHT + 13.0
    shapes: list[Shape] = [_picture(rows), _heading("Carries the torque, flywheel to ground", top)]
    middle = top + 1.5 + _PITCH * len(carries)
    bottom = middle + (_PITCH * len(holds) + 7.5 if holds else 0.0)
    shapes.append(margin_axis(scale, top + 1.5, bottom))
    shapes.extend(_chain(carries, top + 1.5, scale))
    if holds:
        shapes.append(_heading("Holds it: the reaction path, gears to body", middle + 6.0))
        shapes.extend(_chain(holds, middle + 7.5, scale))
    shapes.append(margin_legend(1.0, bottom + 6.0))
    return Drawing(
        parts.WIDTH,
        bottom + 7.5,
        f"Load path of {report.name}",
        _in_words(rows),
        tuple(shapes),
    )


def base(link: str) -> str:
    """The part without its side: ``axle_shaft.left`` is an ``axle_shaft``."""
    return link.split(".", 1)[0]


def shown_margin(link: LinkReport) -> Margin | None:
    """The margin that stands for a link: of breaking, or of giving where it does not break."""
    return link.breaks if link.breaks is not None else link.gives


def _rows(report: LoadPathReport) -> list[_Row]:
    rows = []
    carries = [link for link in report.links if base(link.link) not in REACTION]
    holds = [link for link in report.links if base(link.link) in REACTION]
    for number, link in enumerate([*carries, *holds], start=1):
        margin = shown_margin(link)
        state = state_of(margin.margin, margin.likelihood) if margin else "unknown"
        rows.append(_Row(number, link, margin, state, link.link == report.verdict.weakest))
    return rows


def _scale(rows: list[_Row]) -> LogScale:
    found = [r.margin.margin for r in rows if r.margin is not None]
    values = [v for m in found for v in (m.value, m.low, m.high)]
    return margin_scale(values, _AXIS_LEFT, _AXIS_RIGHT)


def _picture(rows: list[_Row]) -> Group:
    paint = {r.link.link: MARKS[r.state].tint for r in rows}
    shapes: list[Shape] = [
        Group(parts.picture(paint), cls="driveline"),
        Text((1.0, 70.5), "← front of the car, seen from above", 2.6, color=palette.MUTED),
        Text((148.0, 4.4), "right", 2.5, anchor="middle"),
        Text((148.0, 69.6), "left", 2.5, anchor="middle"),
    ]
    for row in rows:
        place = parts.PLACES.get(row.link.link) or parts.PLACES.get(base(row.link.link))
        if place is not None:
            shapes.extend(_balloon_on(row, place))
    return Group(tuple(shapes), id="picture", cls="picture")


def _balloon_on(row: _Row, place: parts.Place) -> tuple[Shape, ...]:
    ink = Look(stroke=palette.INK, width=0.2)
    dot = Circle(place.target, 0.45, Look(fill=palette.INK, stroke=None))
    shapes: list[Shape] = [Line(place.balloon, place.target, ink), dot]
    x, y = place.balloon
    shapes.append(_balloon(row, x, y))
    if row.weakest:
        shapes.extend(_first(row, x, y))
    return tuple(shapes)


def _first(row: _Row, x: float, y: float) -> tuple[Text, ...]:
    """Say that a link goes first beside its balloon, on the side where no other balloon stands."""
    color = MARKS[row.state].ink

    def text(at: Point, words: str, anchor: Anchor) -> Text:
        return Text(at, words, 3.0, "Bold", anchor, color, cls="first")

    if x > _CROWDED:
        return text((x + 3.8, y - 0.6), "goes", "start"), text((x + 3.8, y + 2.6), "first", "start")
    if y > parts.HEIGHT / 2:
        return (text((x - 4.2, y + 1.0), "goes first", "end"),)
    return (text((x, y - 4.6), "goes first", "middle"),)


def _balloon(row: _Row, x: float, y: float) -> Group:
    """The number of a link in a circle that tells its state: filled when short."""
    mark = MARKS[row.state]
    short = row.state == "short"
    fill = mark.ink if short else (mark.tint if row.state == "possible" else palette.PAPER)
    dash = {"possible": (0.7, 0.5), "unknown": (0.3, 0.6)}.get(row.state, ())
    shapes: list[Shape] = [
        Circle((x, y), 2.45, Look(fill=fill, stroke=mark.ink, width=0.4, dash=dash)),
        Text((x, y + 0.95), str(row.number), 2.7, "SemiBold", "middle",
             palette.PAPER if short else palette.INK),
    ]  # fmt: skip
    if row.weakest:
        shapes.insert(0, Circle((x, y), 3.2, Look(fill=palette.PAPER, stroke=mark.ink, width=0.4)))
    return Group(tuple(shapes), cls=f"balloon {row.state}")


def _heading(text: str, y: float) -> Text:
    return Text((1.0, y), text, 3.2, "Bold", room=_AXIS_LEFT - 2.0)


def _chain(rows: list[_Row], top: float, scale: LogScale) -> list[Shape]:
    first, last = top + 0.5 * _PITCH, top + (len(rows) - 0.5) * _PITCH
    shapes: list[Shape] = [Line((4.2, first), (4.2, last), Look(stroke=palette.INK, width=0.6))]
    shapes.extend(_line(row, top + (i + 0.5) * _PITCH, scale) for i, row in enumerate(rows))
    return shapes


def _line(row: _Row, y: float, scale: LogScale) -> Group:
    """One link: balloon, title, margin, band, bar, and its state in words."""
    mark = MARKS[row.state]
    weight: Weight = "Bold" if row.weakest else "Regular"
    room = 52.0 if row.state != "unknown" else _AXIS_LEFT - 11.0
    title = shorten(row.link.title, 3.1, room, weight)
    foot = y + 1.1
    shapes: list[Shape] = []
    if row.weakest:
        band = Look(fill=mark.tint, stroke=None)
        shapes.append(Rect((8.0, y - 2.6), parts.WIDTH - 8.5, 5.2, band, 0.8))
        shapes.append(Line((scale.at(1.0), y - 2.6), (scale.at(1.0), y + 2.6), Look(width=0.5)))
    shapes.append(_balloon(row, 4.2, y))
    full = row.link.title if title != row.link.title else ""
    shapes.append(Text((9.5, foot), title, 3.1, weight, room=room, full=full))
    if row.margin is not None and row.state != "unknown":
        number = margin_text(row.margin.margin.value)
        shapes.append(Text((71.5, foot), number, 3.3, "Bold", "end", mark.ink, room=10.0))
        band_words = band_text(row.margin.margin)
        shapes.append(Text((73.5, foot), band_words, 2.6, color=palette.MUTED, room=23.0))
        shapes.append(margin_bar(row.margin.margin, row.state, scale, y, 2.9))
    shapes.append(
        Text((157.0, foot), _words(row), 2.9, "Bold" if row.weakest else "Regular",
             color=mark.ink, room=28.5)
    )  # fmt: skip
    return Group(
        tuple(shapes), id=f"link-{slug(row.link.link)}", cls=f"link {row.state}",
        title=_sentence(row),
    )  # fmt: skip


def _words(row: _Row) -> str:
    if row.weakest:
        return f"{MARKS[row.state].word}, goes first" if row.state == "short" else "goes first"
    if row.margin is not None and row.margin.kind == "slips" and row.state != "holds":
        return {"short": "slips", "possible": "may slip"}.get(row.state, MARKS[row.state].word)
    return MARKS[row.state].word


def _sentence(row: _Row) -> str:
    if row.margin is None or row.state == "unknown":
        return f"{row.link.title}: margin not known"
    number, band = margin_text(row.margin.margin.value), band_text(row.margin.margin)
    return f"{row.link.title}: margin {number} ({band}), {_words(row)}, {row.margin.case}"


def _in_words(rows: list[_Row]) -> str:
    """What the picture says, for who cannot see it."""
    first = next((r for r in rows if r.weakest), None)
    lead = f"{first.link.title} goes first. " if first else ""
    return lead + " ".join(f"{r.number}. {_sentence(r)}." for r in rows)
