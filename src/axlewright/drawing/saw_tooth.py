"""The saw-tooth chart: wheel torque of every gear against road load and grip, engine speed below.

Both parts share the road speed along the page, so a shift is read from one to the other.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from axlewright.drawing import palette
from axlewright.drawing.primitives import (
    Anchor,
    Drawing,
    Group,
    Line,
    Look,
    Point,
    Polyline,
    Shape,
    Text,
)
from axlewright.drawing.scales import LinearScale, amount_scale
from axlewright.quantities.units import DIMENSIONS, from_si, pretty, show, significant
from axlewright.studies.ratio_report import GearCurve, SawTooth

_WIDTH, _LEFT, _RIGHT = 186.0, 20.0, 174.0
_TORQUE = (8.0, 74.0)
_SPEED = (84.0, 128.0)
_GRID = Look(stroke=palette.RULE, width=0.18)
_GEAR = Look(stroke=palette.HOLDS, width=0.7)
_LOAD = Look(stroke=palette.INK, width=0.5, dash=(1.6, 1.0))
_GRIP = Look(stroke=palette.POSSIBLE, width=0.6, dash=(0.4, 1.2))
_SHIFT = Look(stroke=palette.MUTED, width=0.35)


def saw_tooth(curves: SawTooth) -> Drawing:
    """The whole chart."""
    ends = [g.speeds[-1] for g in curves.gears]
    fastest = max(curves.top_speed, min(max(ends), 1.12 * curves.top_speed))
    across = amount_scale(from_si(fastest, "speed")[0], _LEFT, _RIGHT)
    most = max([curves.grip, *(t for g in curves.gears for t in g.torques)])
    torque = amount_scale(from_si(most, "torque")[0], _TORQUE[1], _TORQUE[0])
    turns = amount_scale(from_si(curves.rev_limit, "rotation")[0], _SPEED[1], _SPEED[0])
    shapes: list[Shape] = [
        _frame(across, torque, _TORQUE, pretty("lbf*ft"), "torque at both drive wheels"),
        _frame(across, turns, _SPEED, "rpm", "engine speed"),
        _speeds(across),
        _limits(curves, across, torque),
        *(_gear(g, across, torque, turns) for g in curves.gears),
        _teeth(curves, across, turns),
    ]
    return Drawing(_WIDTH, _SPEED[1] + 11.0, curves.title, _words(curves), tuple(shapes))


def _frame(
    across: LinearScale, up: LinearScale, box: tuple[float, float], unit: str, what: str
) -> Group:
    shapes: list[Shape] = []
    for tick in across.ticks:
        x = across.at(tick)
        shapes.append(Line((x, box[0]), (x, box[1]), _GRID))
    for tick in up.ticks:
        y = up.at(tick)
        shapes.append(Line((_LEFT, y), (_RIGHT, y), _GRID))
        shapes.append(Text((_LEFT - 1.5, y + 0.9), _thousands(tick), 2.5, anchor="end"))
    head = Text((_LEFT, box[0] - 2.4), f"{unit}, {what}", 2.6, "SemiBold", color=palette.MUTED)
    return Group((*shapes, head), cls="axis")


def _thousands(value: float) -> str:
    return f"{value:,.0f}" if value >= 1000 else significant(value)


def _speeds(across: LinearScale) -> Group:
    y = _SPEED[1] + 4.0
    shapes: list[Shape] = []
    for tick in across.ticks:
        x = across.at(tick)
        metric, _ = from_si(tick * DIMENSIONS["speed"].units["mph"], "speed", "si")
        shapes.append(Text((x, y), significant(tick), 2.6, anchor="middle"))
        text = significant(metric, 3)
        shapes.append(Text((x, y + 4.2), text, 2.4, anchor="middle", color=palette.MUTED))
    right = _RIGHT + 10.5
    shapes.append(Text((right, y), pretty("mph"), 2.6, "SemiBold", "end"))
    shapes.append(Text((right, y + 4.2), pretty("km/h"), 2.4, anchor="end", color=palette.MUTED))
    return Group(tuple(shapes), cls="axis")


def _inside(
    across: LinearScale,
    up: LinearScale,
    speeds: Sequence[float],
    values: Sequence[float],
    kind: str,
) -> tuple[Point, ...]:
    """Points of a curve as far as the page shows it, the last one on its edge."""
    high = across.high * DIMENSIONS["speed"].units["mph"]
    found = [(v, y) for v, y in zip(speeds, values, strict=True) if v <= high]
    if 0 < len(found) < len(speeds):
        (v1, y1), (v2, y2) = found[-1], (speeds[len(found)], values[len(found)])
        found.append((high, y1 + (y2 - y1) * (high - v1) / (v2 - v1)))
    return tuple(_at(across, up, v, y, kind) for v, y in found)


def _at(across: LinearScale, up: LinearScale, speed: float, value: float, kind: str) -> Point:
    return (across.at(from_si(speed, "speed")[0]), up.at(from_si(value, kind)[0]))


def _limits(curves: SawTooth, across: LinearScale, torque: LinearScale) -> Group:
    seen = [t for t in curves.load_torques if from_si(t, "torque")[0] <= torque.high]
    load = _inside(across, torque, curves.load_speeds[: len(seen)], seen, "torque")
    y = torque.at(from_si(curves.grip, "torque")[0])
    grip = Text((_RIGHT - 1.0, y - 1.2), "the tires spin above this", 2.6, "SemiBold", "end",
                palette.POSSIBLE)  # fmt: skip
    shapes: list[Shape] = [Line((_LEFT, y), (_RIGHT, y), _GRIP), grip]
    if len(load) > 1:
        shapes.append(Polyline(load, _LOAD))
        x, end = load[-1]
        shapes.append(
            Text((min(x, _RIGHT) - 1.0, end - 1.6), "air and road hold back", 2.6, "SemiBold",
                 "end", palette.INK)
        )  # fmt: skip
    return Group(tuple(shapes), id="limits", cls="limits")


def _gear(g: GearCurve, across: LinearScale, torque: LinearScale, turns: LinearScale) -> Group:
    pulls = _inside(across, torque, g.speeds, g.torques, "torque")
    runs = _inside(across, turns, g.speeds, g.engine_speeds, "rotation")
    top = min(pulls, key=lambda p: p[1])
    thin = Look(stroke=palette.HOLDS, width=0.25)
    return Group(
        (
            Polyline(pulls, _GEAR),
            Text((top[0], top[1] - 1.2), str(g.gear), 3.0, "Bold", "middle", palette.HOLDS),
            Polyline(runs, thin),
        ),
        id=f"gear-{g.gear}",
        cls="gear",
    )


def _teeth(curves: SawTooth, across: LinearScale, turns: LinearScale) -> Group:
    """What the engine does through the gears: up to the shift, straight down, up again."""
    gears = {g.gear: g for g in curves.gears}
    path: list[Point] = []
    shapes: list[Shape] = []
    start = gears[1]
    path.append(_at(across, turns, start.speeds[0], start.engine_speeds[0], "rotation"))
    last = start
    for n, (speed, before, after) in enumerate(curves.shifts, start=1):
        if from_si(speed, "speed")[0] > across.high:
            break
        high = _at(across, turns, speed, before, "rotation")
        low = _at(across, turns, speed, after, "rotation")
        path += [high, low]
        last = gears[n + 1]
        fall = f"−{round(from_si(before - after, 'rotation')[0], -2):,.0f}"
        middle = (low[0] + 1.0, 0.5 * (low[1] + high[1]))
        shapes.append(Text(middle, fall, 2.4, color=palette.MUTED))
        shapes.append(Text((high[0], high[1] - 1.0), f"{n}→{n + 1}", 2.5, "SemiBold", "middle"))
    path.append(_inside(across, turns, last.speeds, last.engine_speeds, "rotation")[-1])
    for one, other in pairwise(path):
        shapes.append(Line(one, other, Look(stroke=palette.HOLDS, width=0.8)))
    x = across.at(from_si(curves.top_speed, "speed")[0])
    shapes.append(Line((x, _SPEED[0]), (x, _SPEED[1]), _SHIFT))
    side: Anchor = "end" if x > 0.8 * _RIGHT else "start"
    step = -1.0 if side == "end" else 1.0
    at = (x + step, _SPEED[1] - 1.5)
    shapes.append(Text(at, "top speed", 2.5, anchor=side, color=palette.MUTED))
    return Group(tuple(shapes), id="teeth", cls="teeth")


def _words(curves: SawTooth) -> str:
    shifts = " ".join(
        f"Shift {n} to {n + 1} at {show(v, 'speed', digits=3)}, from"
        f" {show(before, 'rotation', digits=3)} to {show(after, 'rotation', digits=3)}."
        for n, (v, before, after) in enumerate(curves.shifts, start=1)
    )
    first = max(curves.gears[0].torques)
    return (
        f"First gear brings up to {show(first, 'torque', digits=3)} to the wheels; the tires spin"
        f" above {show(curves.grip, 'torque', digits=3)}. {shifts}"
        f" Top speed {show(curves.top_speed, 'speed', digits=3)}."
    )
