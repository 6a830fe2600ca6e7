"""Pictures for pages: the driveline on top of every page, small bars, charts to save."""

from __future__ import annotations

import base64
import csv
import io
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache
from importlib.resources import files
from xml.sax.saxutils import escape

from axlewright.drawing import palette, parts
from axlewright.drawing.charts import in_order, limits_of, margins_chart, torque_by_gear
from axlewright.drawing.fonts import FAMILY
from axlewright.drawing.load_path import REACTION, base, load_path, shown_margin
from axlewright.drawing.marks import MARKS, State, band_text, margin_bar, margin_text, state_of
from axlewright.drawing.primitives import Drawing, Group, Line, Look, Shape, Text
from axlewright.drawing.scales import LogScale, margin_scale
from axlewright.drawing.svg import slug, to_svg
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import from_si, pretty, show
from axlewright.studies.report import LinkReport, LoadPathReport, Margin
from axlewright.workshop.keeping import Kept

_BAR_WIDTH, _BAR_HEIGHT = 30.0, 4.4
_HEAD = re.compile(r' role="img" class="drawing" aria-labelledby="[^"]*"')
_WORDS = re.compile(r"<(title|desc)[^>]*>.*?</\1>\n?", re.DOTALL)
_SIZE = re.compile(r' width="[^"]*mm" height="[^"]*mm"')


def numbered(report: LoadPathReport) -> list[tuple[int, LinkReport]]:
    """Links with their numbers on the picture: what carries first, then what holds."""
    carries = [link for link in report.links if base(link.link) not in REACTION]
    holds = [link for link in report.links if base(link.link) in REACTION]
    return list(enumerate([*carries, *holds], start=1))


def driveline(report: LoadPathReport) -> str:
    """The driveline with its numbered balloons, without the lines of margins under it.

    Each balloon carries the name of its link in its id, so that a click on it finds the link.
    """
    rows = [_drawn(number, link, report) for number, link in numbered(report)]
    key = " ".join(f"{row.link}={row.state}{'!' * row.weakest}" for row in rows)
    head, middle, end = _DRIVELINES.get(key, lambda: _drawn_without_words(report))
    first = next((f"{row.title} goes first. " for row in rows if row.weakest), "")
    said = first + " ".join(f"{row.number}. {row.title}: {row.words}." for row in rows)
    return f"{head}Load path of {escape(report.name)}{middle}{escape(said)}{end}"


@dataclass(frozen=True)
class _Drawn:
    """One link as the picture shows it, and as it is told to who cannot see it."""

    number: int
    link: str
    title: str
    state: State
    weakest: bool
    words: str


def _drawn(number: int, link: LinkReport, report: LoadPathReport) -> _Drawn:
    margin = shown_margin(link)
    state = state_of(margin.margin, margin.likelihood) if margin else "unknown"
    words = WORDS[state]
    if margin is not None and state != "unknown":
        words = f"margin {margin_text(margin.margin.value)} ({band_text(margin.margin)}), {words}"
    weakest = link.link == report.verdict.weakest
    return _Drawn(number, link.link, link.title, state, weakest, words)


_FIRST_AT, _FIRST_ROOM = (64.0, 58.0), 100.0
_DRIVELINES: Kept[tuple[str, str, str]] = Kept(64)
"""Pictures by what they show: most edits move a margin and change no state."""


def _drawn_without_words(report: LoadPathReport) -> tuple[str, str, str]:
    """The picture in three pieces, between which title and description belong."""
    whole = load_path(report)
    names = {str(number): link.link for number, link in numbered(report)}
    picture = whole.shapes[0]
    assert isinstance(picture, Group)
    shapes: list[Shape] = [
        _named(s, names) for s in picture.shapes if not (isinstance(s, Text) and s.cls == "first")
    ]
    # Beside its balloon the word would stand on a neighbor's: it gets the room under the tube.
    first = next((r for r in numbered(report) if r[1].link == report.verdict.weakest), None)
    if first is not None:
        margin = shown_margin(first[1])
        state = state_of(margin.margin, margin.likelihood) if margin else "unknown"
        goes = "Goes" if state == "short" else "Would go"
        said = f"{goes} first: {first[0]} {first[1].title}"
        shapes.append(
            Text(_FIRST_AT, said, 4.2, "Bold", "middle", MARKS[state].ink, room=_FIRST_ROOM)
        )
    svg = fluid(to_svg(Drawing(parts.WIDTH, parts.HEIGHT, "", "", tuple(shapes)), "path"))
    head, title, rest = svg.partition("</title>")
    middle, desc, end = rest.partition("</desc>")
    return head, title + middle, desc + end


def _named(shape: Shape, names: dict[str, str]) -> Shape:
    if not isinstance(shape, Group) or not shape.cls.startswith("balloon"):
        return shape
    number = next((s.text for s in shape.shapes if isinstance(s, Text)), "")
    return replace(shape, id=f"balloon-{slug(names[number])}")


def fluid(svg: str) -> str:
    """The picture without a size of its own: the page gives it one."""
    return _SIZE.sub("", svg, count=1)


def bar_scale(report: LoadPathReport) -> LogScale:
    """The axis that the small bars of all links share."""
    found = [m.margin for link in report.links if (m := shown_margin(link)) is not None]
    values = [v for m in found for v in (m.value, m.low, m.high)]
    return margin_scale(values, 2.0, _BAR_WIDTH - 2.0)


def small_bar(margin: Finding, state: State, scale: LogScale) -> str:
    """The band of one margin as a small bar on the axis of its report."""
    y = 0.5 * _BAR_HEIGHT
    one = Line((scale.at(1.0), 0.2), (scale.at(1.0), _BAR_HEIGHT - 0.2), Look(width=0.35))
    bar = margin_bar(margin, state, scale, y, 2.4)
    drawing = Drawing(_BAR_WIDTH, _BAR_HEIGHT, "bar", "bar", (one, bar))
    mute = _HEAD.sub(' class="drawing bar" aria-hidden="true"', to_svg(drawing, "bar"))
    return fluid(_WORDS.sub("", mute))


@dataclass(frozen=True)
class Chart:
    """A chart that can be saved: its title, its drawing, its numbers as rows.

    ``words`` say what a row of the picture shows, by the id of the row: a pointer that rests there
    is told so.
    """

    title: str
    drawing: Callable[[LoadPathReport], Drawing]
    rows: Callable[[LoadPathReport], list[list[str]]]
    words: Callable[[LoadPathReport], dict[str, str]]


def inline(chart: str, report: LoadPathReport) -> str:
    """A chart as part of a page, each of its rows with what it says in words."""
    drawing = CHARTS[chart].drawing(report)
    words = CHARTS[chart].words(report)
    shapes = tuple(
        replace(s, title=words.get(s.id, "")) if isinstance(s, Group) and not s.title else s
        for s in drawing.shapes
    )
    return fluid(to_svg(replace(drawing, shapes=shapes), chart))


def saved(chart: str, report: LoadPathReport, with_font: bool = False) -> str:
    """A chart as a file; with the font inside where what shows it cannot fetch one."""
    svg = to_svg(CHARTS[chart].drawing(report), chart)
    return svg.replace("</svg>", f"<style>{font_faces()}</style></svg>") if with_font else svg


def table(chart: str, report: LoadPathReport) -> str:
    """The numbers of a chart as comma-separated values."""
    out = io.StringIO()
    csv.writer(out, lineterminator="\r\n").writerows(
        [[_harmless(cell) for cell in row] for row in CHARTS[chart].rows(report)]
    )
    return out.getvalue()


def _harmless(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula."""
    risky = cell[:1] in {"=", "+", "@", "\t", "\r"} or (cell[:1] == "-" and not _number(cell))
    return f"'{cell}" if risky else cell


def _number(cell: str) -> bool:
    return re.fullmatch(r"-?[\d.]+(e[+-]?\d+)?", cell) is not None


@cache
def font_faces() -> str:
    """The bundled font inside a style, for a picture that is shown where no font can be fetched."""
    faces = []
    for name, weight in (("Regular", 400), ("SemiBold", 600), ("Bold", 700)):
        data = (files("axlewright.drawing.fonts") / f"AxlewrightSans-{name}.woff2").read_bytes()
        text = base64.b64encode(data).decode()
        faces.append(
            f'@font-face{{font-family:"{FAMILY}";font-weight:{weight};'
            f"src:url(data:font/woff2;base64,{text})}}"
        )
    return "".join(faces)


_MARGIN_HEAD = ["link", "kind", "way", "case", "margin", "low (5 %)", "high (95 %)", "state"]


def _margin_rows(report: LoadPathReport) -> list[list[str]]:
    cases = {c.case: c.title for c in report.cases}
    rows = [_MARGIN_HEAD]
    for link in in_order(report):
        rows.extend(_margin_row(link, m, cases) for m in (link.breaks, link.gives) if m is not None)
    return rows


def _margin_row(link: LinkReport, margin: Margin, cases: dict[str, str]) -> list[str]:
    m = margin.margin
    numbers = [f"{v:.4g}" for v in (m.value, m.low, m.high)]
    case = cases.get(margin.case, margin.case)
    return [link.title, margin.kind, margin.mode, case, *numbers, margin.likelihood]


def _torque_rows(report: LoadPathReport) -> list[list[str]]:
    unit = pretty("lbf*ft")
    rows = [["gear", "ratio", "limit", "governs", *(f"{n}, {unit}" for n in _NUMBERS)]]
    for gear in report.gears:
        for key, label in limits_of(report.gears).items():
            if key in gear.torques:
                t = gear.torques[key]
                shop = [f"{from_si(v, 'torque')[0]:.4g}" for v in (t.value, t.low, t.high)]
                governs = "yes" if gear.governed_by == key else ""
                rows.append([str(gear.gear), f"{gear.ratio.value:.3f}", label, governs, *shop])
    return rows


_NUMBERS = ("ring-gear torque", "low (5 %)", "high (95 %)")


def _torque_drawing(report: LoadPathReport) -> Drawing:
    return torque_by_gear(report.gears, report.name)


def _margin_words(report: LoadPathReport) -> dict[str, str]:
    cases = {c.case: c.title for c in report.cases}

    def one(m: Margin) -> str:
        number, band = margin_text(m.margin.value), band_text(m.margin)
        return f"{m.kind} at {number} ({band}): {m.mode}, {cases.get(m.case, m.case)}"

    return {
        f"margin-{slug(link.link)}": f"{link.title}: "
        + ("; ".join(one(m) for m in (link.breaks, link.gives) if m is not None) or "not known")
        for link in report.links
    }


def _torque_words(report: LoadPathReport) -> dict[str, str]:
    labels = limits_of(report.gears)
    return {
        f"gear-{g.gear}": f"Gear {g.gear}: "
        + ", ".join(
            f"{label} {show(g.torques[k].value, 'torque', digits=3)}"
            for k, label in labels.items()
            if k in g.torques
        )
        for g in report.gears
    }


CHARTS: dict[str, Chart] = {
    "torque": Chart(
        "Torque at the ring gear, by gear and by limit",
        _torque_drawing,
        _torque_rows,
        _torque_words,
    ),
    "margins": Chart("Margins, weakest first", margins_chart, _margin_rows, _margin_words),
    "load-path": Chart("The load path, flywheel to ground", load_path, _margin_rows, lambda _: {}),
}
"""Charts by the name that their address carries."""

PALETTE = {
    name: value
    for name, value in vars(palette).items()
    if isinstance(value, str) and value.startswith("#")
}
"""Every color of the drawings: the style sheet gives each its dark twin."""
WORDS = {state: mark.word for state, mark in MARKS.items()}
