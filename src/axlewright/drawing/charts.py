"""Charts of a load-path report: margins in order of weakness, torque by gear and limit."""

from __future__ import annotations

from collections.abc import Sequence

from axlewright.drawing import palette
from axlewright.drawing.axes import margin_axis, margin_legend, torque_axis
from axlewright.drawing.fonts import Weight, shorten
from axlewright.drawing.marks import (
    MARKS,
    dots,
    hatch,
    margin_bar,
    margin_text,
    state_of,
)
from axlewright.drawing.primitives import Drawing, Group, Line, Look, Rect, Shape, Text
from axlewright.drawing.scales import LinearScale, LogScale, amount_scale, margin_scale
from axlewright.drawing.svg import slug
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import from_si, show
from axlewright.studies.report import GearReport, LinkReport, LoadPathReport, Margin

LIMITS: dict[str, str] = {"engine": "engine", "clutch": "clutch slips", "grip": "tires spin"}
"""What bounds the torque at the ring gear, by its key in a gear's torques."""
RING: dict[str, str] = {"ring": "ring gear"}
"""Shown alone where a gear does not tell its limits apart."""

_WIDTH = 186.0


def margins_chart(report: LoadPathReport) -> Drawing:
    """Margins of all links, weakest first: *breaks* as a thick bar, *gives* as a thin one below."""
    links = in_order(report)
    found = [m.margin for link in links for m in (link.breaks, link.gives) if m is not None]
    scale = margin_scale([v for m in found for v in (m.value, m.low, m.high)], 66.0, 150.0)
    top, pitch = 9.0, 7.6
    bottom = top + pitch * len(links)
    shapes: list[Shape] = [margin_axis(scale, top, bottom)]
    shapes.append(Text((165.0, 7.8), "breaks", 2.6, "SemiBold", "end", palette.MUTED))
    shapes.append(Text((184.0, 7.8), "gives", 2.6, "SemiBold", "end", palette.MUTED))
    for i, link in enumerate(links):
        first = link.link == report.verdict.weakest
        shapes.append(_margin_row(link, top + (i + 0.5) * pitch, scale, first))
    shapes.append(margin_legend(1.0, bottom + 6.0))
    title = f"Margins of {report.name}, weakest first"
    words = " ".join(f"{_margin_words(link)}." for link in links)
    return Drawing(_WIDTH, bottom + 7.5, title, words, tuple(shapes))


def in_order(report: LoadPathReport) -> list[LinkReport]:
    """Links in the verdict's order of weakness; those it does not name follow in path order."""
    place = {link: i for i, link in enumerate(report.verdict.order)}
    return sorted(report.links, key=lambda link: place.get(link.link, len(place)))


def _margin_row(link: LinkReport, y: float, scale: LogScale, first: bool) -> Group:
    weight: Weight = "Bold" if first else "Regular"
    title = shorten(link.title, 3.1, 60.0, weight)
    full = link.title if title != link.title else ""
    shapes: list[Shape] = []
    if first or (link.breaks is None and link.gives is None):
        note = "goes first" if first else "not known"
        shapes.append(Text((1.0, y - 0.1), title, 3.1, weight, room=60.0, full=full))
        shapes.append(Text((1.0, y + 3.0), note, 2.5, "Bold", color=palette.MUTED))
    else:
        shapes.append(Text((1.0, y + 1.1), title, 3.1, weight, room=60.0, full=full))
    alone = link.breaks is None or link.gives is None
    for margin, dy, height, at in ((link.breaks, -1.2, 2.9, 165.0), (link.gives, 1.8, 1.3, 184.0)):
        if margin is None:
            shapes.append(Text((at, y + 1.1), "–", 3.0, anchor="end", color=palette.MUTED))
            continue
        state = state_of(margin.margin, margin.likelihood)
        if state != "unknown":
            shapes.append(margin_bar(margin.margin, state, scale, y + (0 if alone else dy), height))
        text = margin_text(margin.margin.value)
        shapes.append(Text((at, y + 1.1), text, 3.1, "Bold", "end", MARKS[state].ink, room=18.0))
    return Group(tuple(shapes), id=f"margin-{slug(link.link)}", cls="link")


def _margin_words(link: LinkReport) -> str:
    def one(name: str, margin: Margin | None) -> str:
        return (
            f"{name} margin {margin_text(margin.margin.value)}" if margin else f"no {name} margin"
        )

    return f"{link.title}: {one('breaks', link.breaks)}, {one('gives', link.gives)}"


def torque_by_gear(gears: Sequence[GearReport], name: str) -> Drawing:
    """What engine, clutch and tires could bring to the ring gear, by gear; the least governs."""
    keys = limits_of(gears)
    if not keys:
        raise ValueError(f"no gear tells its torque by {', '.join([*LIMITS, *RING])}")
    most = max(max(t.value, t.high) for g in gears for k, t in g.torques.items() if k in keys)
    scale = amount_scale(from_si(most, "torque")[0], 38.0, 148.0)
    bar, top = 3.4, 6.0
    gap = max(3.6, 10.0 - bar * len(keys))
    step = bar * len(keys) + gap
    bottom = top + step * len(gears)
    shapes: list[Shape] = [torque_axis(scale, top, bottom)]
    for i, gear in enumerate(gears):
        shapes.append(_gear_rows(gear, keys, scale, top + i * step + gap / 2, bar))
    words = " ".join(
        f"Gear {g.gear}: "
        + ", ".join(
            f"{label} {show(g.torques[k].value, 'torque', digits=3)}"
            for k, label in keys.items() if k in g.torques
        )
        + f"; {g.governed_by} governs."
        for g in gears
    )  # fmt: skip
    title = f"Torque at the ring gear by gear, {name}"
    return Drawing(_WIDTH, bottom + 5.0, title, words, tuple(shapes))


def limits_of(gears: Sequence[GearReport]) -> dict[str, str]:
    """The limits that the gears tell of, with labels; the ring gear alone if they tell none."""

    def told(labels: dict[str, str]) -> dict[str, str]:
        return {k: label for k, label in labels.items() if any(k in g.torques for g in gears)}

    return told(LIMITS) or told(RING)


def _gear_rows(
    gear: GearReport, keys: dict[str, str], scale: LinearScale, top: float, bar: float
) -> Group:
    middle = top + 0.5 * bar * len(keys)
    name = Text((1.0, middle - 0.2), f"Gear {gear.gear}", 3.1, "Bold")
    ratio = Text((1.0, middle + 3.3), f"{gear.ratio.value:.2f} : 1", 2.6, color=palette.MUTED)
    shapes: list[Shape] = [name, ratio]
    if gear.governed_by not in keys:
        by = shorten(f"{gear.governed_by} governs", 2.5, 36.0)
        shapes.append(Text((1.0, middle + 6.6), by, 2.5, "Bold", room=36.0))
    for i, (key, label) in enumerate(keys.items()):
        if key not in gear.torques:
            continue
        governs = gear.governed_by == key
        box = (scale.left, top + i * bar + 0.4, 0.0, top + (i + 1) * bar - 0.4)
        shapes.extend(_torque_bar(gear.torques[key], key, label, governs, scale, box))
    return Group(tuple(shapes), id=f"gear-{gear.gear}", cls="gear")


def _torque_bar(
    torque: Finding,
    key: str,
    label: str,
    governs: bool,
    scale: LinearScale,
    box: tuple[float, float, float, float],
) -> list[Shape]:
    left, top, _, bottom = box
    value, least, most = (from_si(v, "torque")[0] for v in (torque.value, torque.low, torque.high))
    right = max(scale.at(value), left + 0.2)
    y = 0.5 * (top + bottom)
    ink = {"engine": palette.HOLDS, "clutch": palette.POSSIBLE}.get(key, palette.MUTED)
    frame = Look(fill=ink if key == "engine" else palette.PAPER, stroke=ink, width=0.25)
    shapes: list[Shape] = [Rect((left, top), right - left, bottom - top, frame)]
    if key == "clutch":
        shapes.extend(hatch((left, top, right, bottom), ink))
    elif key != "engine":
        shapes.extend(dots((left, top, right, bottom), ink))
    low, high = scale.at(least), scale.at(most)
    for width, color in ((1.0, palette.PAPER), (0.35, palette.INK)):
        shapes.append(Line((low, y), (high, y), Look(stroke=color, width=width)))
    shapes.append(Text((left - 1.5, y + 0.9), label, 2.5, anchor="end", room=20.0))
    text = show(torque.value, "torque", digits=3) + (" · governs" if governs else "")
    weight: Weight = "Bold" if governs else "Regular"
    shapes.append(Text((max(right, high) + 1.5, y + 0.9), text, 2.5, weight))
    return shapes
