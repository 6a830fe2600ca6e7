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

from axlewright.drawing import palette, parts
from axlewright.drawing.charts import in_order, limits_of, margins_chart, torque_by_gear
from axlewright.drawing.fonts import FAMILY
from axlewright.drawing.load_path import REACTION, base, load_path, shown_margin
from axlewright.drawing.marks import MARKS, State, margin_bar
from axlewright.drawing.primitives import Drawing, Group, Line, Look, Shape, Text
from axlewright.drawing.scales import margin_scale
from axlewright.drawing.svg import slug, to_svg
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import from_si, pretty
from axlewright.studies.report import LinkReport, LoadPathReport, Margin

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
    whole = load_path(report)
    names = {str(number): link.link for number, link in numbered(report)}
    picture = whole.shapes[0]
    assert isinstance(picture, Group)
    shapes = tuple(_named(shape, names) for shape in picture.shapes)
    drawing = Drawing(parts.WIDTH, parts.HEIGHT, whole.title, whole.description, shapes)
    return _fluid(to_svg(drawing, "path"))


def _named(shape: Shape, names: dict[str, str]) -> Shape:
    if not isinstance(shape, Group) or not shape.cls.startswith("balloon"):
        return shape
    number = next((s.text for s in shape.shapes if isinstance(s, Text)), "")
    return replace(shape, id=f"balloon-{slug(names[number])}")


def _fluid(svg: str) -> str:
    """The picture without a size of its own: the page gives it one."""
    return _SIZE.sub("", svg, count=1)


def small_bar(margin: Finding, state: State, report: LoadPathReport) -> str:
    """The band of one margin as a small bar, on the axis that all links of the report share."""
    scale = margin_scale(_values(report), 2.0, _BAR_WIDTH - 2.0)
    y = 0.5 * _BAR_HEIGHT
    one = Line((scale.at(1.0), 0.2), (scale.at(1.0), _BAR_HEIGHT - 0.2), Look(width=0.35))
    bar = margin_bar(margin, state, scale, y, 2.4)
    drawing = Drawing(_BAR_WIDTH, _BAR_HEIGHT, "bar", "bar", (one, bar))
    mute = _HEAD.sub(' class="drawing bar" aria-hidden="true"', to_svg(drawing, "bar"))
    return _fluid(_WORDS.sub("", mute))


def _values(report: LoadPathReport) -> list[float]:
    found = [m.margin for link in report.links if (m := shown_margin(link)) is not None]
    return [v for m in found for v in (m.value, m.low, m.high)]


@dataclass(frozen=True)
class Chart:
    """A chart that can be saved: its title, its drawing, and its numbers as rows."""

    title: str
    drawing: Callable[[LoadPathReport], Drawing]
    rows: Callable[[LoadPathReport], list[list[str]]]


def inline(chart: str, report: LoadPathReport) -> str:
    """A chart as part of a page."""
    return _fluid(to_svg(CHARTS[chart].drawing(report), chart))


def saved(chart: str, report: LoadPathReport, with_font: bool = False) -> str:
    """A chart as a file; with the font inside where what shows it cannot fetch one."""
    svg = to_svg(CHARTS[chart].drawing(report), chart)
    return svg.replace("</svg>", f"<style>{_font_faces()}</style></svg>") if with_font else svg


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
def _font_faces() -> str:
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


CHARTS: dict[str, Chart] = {
    "torque": Chart("Torque at the ring gear, by gear and by limit", _torque_drawing, _torque_rows),
    "margins": Chart("Margins, weakest first", margins_chart, _margin_rows),
    "load-path": Chart("The load path, flywheel to ground", load_path, _margin_rows),
}
"""Charts by the name that their address carries."""

PALETTE = {
    name: value
    for name, value in vars(palette).items()
    if isinstance(value, str) and value.startswith("#")
}
"""Every color of the drawings: the style sheet gives each its dark twin."""
WORDS = {state: mark.word for state, mark in MARKS.items()}
