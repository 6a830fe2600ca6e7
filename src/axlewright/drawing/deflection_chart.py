"""How far the gears move with torque: coast to the left, drive to the right of no torque.

The limits of a deflection test stand as gates at the service load that they belong to, nowhere
else.  Curves are told apart by dash and weight, so that a black-and-white page says the same.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from axlewright.drawing import palette
from axlewright.drawing.pattern_marks import between
from axlewright.drawing.primitives import (
    Circle,
    Drawing,
    Group,
    Line,
    Look,
    Point,
    Polyline,
    Shape,
    Text,
)
from axlewright.drawing.time_chart import Scale, round_scale
from axlewright.quantities.units import DIMENSIONS, from_si, pretty, show, significant
from axlewright.studies.mesh_report import LimitLine, MeshReport, TorqueCurve

_WIDTH, _LEFT, _RIGHT = 186.0, 21.0, 166.0
_TOP, _BOTTOM = 15.0, 95.0
_GRID = Look(stroke=palette.RULE, width=0.18)
_ZERO = Look(stroke=palette.MUTED, width=0.4)
_GATE = Look(stroke=palette.SHORT, width=0.7)
_PLUMB = Look(stroke=palette.MUTED, width=0.3, dash=(1.0, 1.0))
CURVES: Final = {
    "pinion_lift": ("pinion along the offset", Look(stroke=palette.HOLDS, width=0.9)),
    "pinion_axial": ("pinion along its axis", Look(stroke=palette.INK, width=0.5)),
    "ring_axial": (
        "ring gear along the axle", Look(stroke=palette.POSSIBLE, width=0.8, dash=(2.4, 1.0))
    ),
    "ring_lift": (
        "ring gear along the offset", Look(stroke=palette.INK, width=0.5, dash=(0.6, 1.0))
    ),
}  # fmt: skip
"""Movements that have a limit: their names and pens."""
_BEYOND: Final = 2.0
"""Times its service load as far as coast is drawn."""
_THOU: Final = 1e3
"""Thousandths in an inch."""
_GATES: Final = ((("pinion_lift", "pinion_axial", "ring_lift"), -1.1), (("ring_axial",), 1.1))
"""Movements that share a limit, and how far (mm) their gate stands beside the load."""


def deflection_chart(report: MeshReport) -> Drawing:
    """The whole chart."""
    curves = tuple(_as_far_as_it_goes(report, curve) for curve in report.curves)
    across = _across(curves)
    up = _up(report, curves)
    shapes: list[Shape] = [
        _axes(across, up),
        *(_gates(report, load, across, up) for load in _judged(report.limits)),
        *(_curve(c, what, across, up) for c in curves for what in CURVES),
        *(_crossings(report, load, across, up) for load in _judged(report.limits)),
        _legend(),
    ]
    title = "How far the gears move with torque"
    return Drawing(_WIDTH, _BOTTOM + 30.0, title, _words(report), tuple(shapes))


def _as_far_as_it_goes(report: MeshReport, curve: TorqueCurve) -> TorqueCurve:
    """A curve without torques far beyond what that side ever sees: coasting is gentle."""
    if curve.side == "drive":
        return curve
    service = max(
        (x.ring_torque.value for x in report.loads if x.side == curve.side and x.judged),
        default=curve.torques[-1],
    )
    end = min(_BEYOND * service, curve.torques[-1])
    torques = (*(t for t in curve.torques if t < end), end)
    moves = {
        what: tuple(between(curve.torques, values, t) for t in torques)
        for what, values in curve.moves.items()
    }
    return replace(curve, torques=torques, moves=moves)


def _judged(limits: Sequence[LimitLine]) -> tuple[str, ...]:
    """Loads that are held against limits."""
    return tuple(dict.fromkeys(line.load for line in limits))


def _thou(length: float) -> float:
    """A length in thousandths of an inch."""
    return _THOU * from_si(length, "length")[0]


def _signed(side: str, torque: float) -> float:
    return from_si(torque if side == "drive" else -torque, "torque")[0]


def _across(curves: Sequence[TorqueCurve]) -> Scale:
    ends = [_signed(c.side, c.torques[-1]) for c in curves]
    return round_scale(min(0.0, *ends), max(0.0, *ends), _LEFT, _RIGHT, 8)


def _up(report: MeshReport, curves: Sequence[TorqueCurve]) -> Scale:
    moved = [_thou(v) for c in curves for what in CURVES for v in c.moves[what]]
    limits = [_thou(v) for line in report.limits for v in (line.low, line.high)]
    every = (*moved, *limits, 0.0)
    return round_scale(min(every), max(every), _BOTTOM, _TOP, 8)


def _axes(across: Scale, up: Scale) -> Group:
    shapes: list[Shape] = []
    metric = DIMENSIONS["torque"].units["lbf*ft"]
    for tick in across.ticks:
        x = across.at(tick)
        shapes.append(Line((x, _TOP), (x, _BOTTOM), _ZERO if tick == 0.0 else _GRID))
        shapes.append(Text((x, _BOTTOM + 4.4), f"{abs(tick):,.0f}", 3.0, anchor="middle"))
        other = significant(abs(from_si(tick * metric, "torque", "si")[0]), 2)
        shapes.append(
            Text((x, _BOTTOM + 8.6), other, 2.6, anchor="middle", color=palette.MUTED)
        )  # fmt: skip
    for tick in up.ticks:
        y = up.at(tick)
        shapes.append(Line((_LEFT, y), (_RIGHT, y), _ZERO if tick == 0.0 else _GRID))
        shapes.append(Text((_LEFT - 1.5, y + 1.0), _figure(tick), 3.0, anchor="end"))
        si = tick / _THOU * DIMENSIONS["length"].units["in"] * 1e3
        words = f"{si:.2f}".replace("-", "−") if tick else "0"
        shapes.append(Text((_RIGHT + 1.5, y + 0.9), words, 2.6, color=palette.MUTED))
    unit, other = pretty("lbf*ft"), pretty("N*m")
    shapes.extend(
        (
            Text((1.0, 4.2), "thousandths of an inch", 3.0, "SemiBold"),
            Text((_WIDTH - 1.0, 4.2), "mm", 2.8, "SemiBold", "end", palette.MUTED),
            Text((_WIDTH - 1.0, _BOTTOM + 4.4), unit, 3.0, "SemiBold", "end"),
            Text((_WIDTH - 1.0, _BOTTOM + 8.6), other, 2.6, "SemiBold", "end", palette.MUTED),
            Text((across.at(0.0) - 3.0, _BOTTOM + 13.4), "← coast", 3.2, "SemiBold", "end"),
            Text((across.at(0.0) + 3.0, _BOTTOM + 13.4), "drive →", 3.2, "SemiBold"),
        )
    )
    return Group(tuple(shapes), cls="axis")


def _figure(value: float, digits: int = 3) -> str:
    return significant(round(value, 6), digits).replace("-", "−")


def _at(report: MeshReport, load: str) -> tuple[str, float]:
    found = next(x for x in report.loads if x.name == load)
    return found.title, _signed(found.side, found.ring_torque.value)


def _gates(report: MeshReport, load: str, across: Scale, up: Scale) -> Group:
    """At one service load: a line down the page, and the gates that the movements must pass."""
    title, torque = _at(report, load)
    x = across.at(torque)
    name = title.partition(", ")[2]
    shapes: list[Shape] = [
        Line((x, _TOP - 3.0), (x, _BOTTOM), _PLUMB),
        Text((x, _TOP - 4.2), name, 3.0, "SemiBold", "middle"),
    ]
    for which, aside in _GATES:
        line = next(a for a in report.limits if a.load == load and a.what in which)
        low, high = up.at(_thou(line.low)), up.at(_thou(line.high))
        at = x + aside
        shapes.append(Line((at, low), (at, high), _GATE))
        shapes.extend(Line((at - 1.6, y), (at + 1.6, y), _GATE) for y in (low, high))
    ring = next(a for a in report.limits if a.load == load and a.what == "ring_axial")
    said = f"{_figure(_thou(ring.high))}: ring gear"
    shapes.append(Text((x + 3.6, up.at(_thou(ring.high)) + 4.0), said, 2.8, color=palette.SHORT))
    return Group(tuple(shapes), id=f"gate-{load}", cls="gate", title=f"Limits at {name}")


def _curve(curve: TorqueCurve, what: str, across: Scale, up: Scale) -> Group:
    name, pen = CURVES[what]
    points: tuple[Point, ...] = tuple(
        (across.at(_signed(curve.side, t)), up.at(_thou(v)))
        for t, v in zip(curve.torques, curve.moves[what], strict=True)
    )
    return Group((Polyline(points, pen),), cls="curve", title=f"{curve.side.capitalize()}, {name}")


def _crossings(report: MeshReport, load: str, across: Scale, up: Scale) -> Group:
    """Where each movement stands at a service load: a ring where it passes, a cross if not."""
    _, torque = _at(report, load)
    x = across.at(torque)
    shapes: list[Shape] = []
    for line in (a for a in report.limits if a.load == load):
        y = up.at(_thou(line.found.value))
        if line.holds:
            ring = Look(fill=palette.PAPER, stroke=palette.INK, width=0.5)
            shapes.append(Circle((x, y), 1.1, ring))
        else:
            cross = Look(stroke=palette.SHORT, width=0.9)
            shapes.append(Line((x - 1.5, y - 1.5), (x + 1.5, y + 1.5), cross))
            shapes.append(Line((x - 1.5, y + 1.5), (x + 1.5, y - 1.5), cross))
    return Group(tuple(shapes), cls="crossings")


def _legend() -> Group:
    """Which curve is which, and what gates and marks mean."""
    shapes: list[Shape] = []
    for n, (name, pen) in enumerate(CURVES.values()):
        x, y = 1.0 + 64.0 * (n // 2), _BOTTOM + 20.0 + 4.8 * (n % 2)
        shapes.append(Line((x, y - 1.0), (x + 9.0, y - 1.0), pen))
        shapes.append(Text((x + 11.0, y), name, 3.0))
    x, y = 129.0, _BOTTOM + 20.0
    shapes.append(Line((x + 4.0, y - 3.2), (x + 4.0, y + 1.0), _GATE))
    shapes.extend(Line((x + 2.4, b), (x + 5.6, b), _GATE) for b in (y - 3.2, y + 1.0))
    shapes.append(Text((x + 11.0, y), "what a test allows there", 3.0))
    ring = Look(fill=palette.PAPER, stroke=palette.INK, width=0.5)
    cross = Look(stroke=palette.SHORT, width=0.9)
    shapes.append(Circle((x + 1.4, y + 3.8), 1.1, ring))
    shapes.append(Line((x + 5.2, y + 2.6), (x + 7.6, y + 5.0), cross))
    shapes.append(Line((x + 5.2, y + 5.0), (x + 7.6, y + 2.6), cross))
    shapes.append(Text((x + 11.0, y + 4.8), "within · beyond", 3.0))
    return Group(tuple(shapes), cls="legend")


def _words(report: MeshReport) -> str:
    """What the chart shows, for who cannot see it."""
    told = []
    for line in report.limits:
        title, _ = _at(report, line.load)
        told.append(
            f"{title}: {line.means} {show(line.found.value, 'length', digits=2)},"
            f" {'within' if line.holds else 'beyond'} {show(line.low, 'length', digits=2)} to"
            f" {show(line.high, 'length', digits=2)}."
        )
    return " ".join(told)
