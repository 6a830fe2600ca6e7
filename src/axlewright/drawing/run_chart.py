"""A run down the strip against time: road speed above, engine speed below, marks across both."""

from __future__ import annotations

from axlewright.drawing import palette
from axlewright.drawing.primitives import Drawing, Group, Line, Look, Polyline, Shape, Text
from axlewright.drawing.scales import LinearScale, amount_scale
from axlewright.quantities.units import from_si, pretty, show, significant
from axlewright.studies.run_report import RunHistory

_WIDTH, _LEFT, _RIGHT = 186.0, 20.0, 178.0
_SPEED, _TURNS = (10.0, 62.0), (72.0, 112.0)
_GRID = Look(stroke=palette.RULE, width=0.18)
_MARK = Look(stroke=palette.MUTED, width=0.25, dash=(1.0, 1.0))
_CURVE = Look(stroke=palette.HOLDS, width=0.7)


def run_chart(run: RunHistory) -> Drawing:
    """The whole chart."""
    across = amount_scale(max(run.times), _LEFT, _RIGHT)
    speed = amount_scale(from_si(max(run.speeds), "speed")[0], _SPEED[1], _SPEED[0])
    turns = amount_scale(from_si(max(run.engine_speeds), "rotation")[0], _TURNS[1], _TURNS[0])
    shapes: list[Shape] = [
        _frame(across, speed, _SPEED, f"{pretty('mph')}, road speed"),
        _frame(across, turns, _TURNS, "rpm, engine speed"),
        _seconds(across),
        _marks(run, across),
        _curve(run.times, run.speeds, "speed", across, speed, "speed"),
        _curve(run.times, run.engine_speeds, "rotation", across, turns, "engine"),
        _gears(run, across),
    ]
    return Drawing(_WIDTH, _TURNS[1] + 7.0, run.title, _words(run), tuple(shapes))


def _frame(across: LinearScale, up: LinearScale, box: tuple[float, float], what: str) -> Group:
    shapes: list[Shape] = [
        Line((across.at(t), box[0]), (across.at(t), box[1]), _GRID) for t in across.ticks
    ]
    for tick in up.ticks:
        y = up.at(tick)
        shapes.append(Line((_LEFT, y), (_RIGHT, y), _GRID))
        shapes.append(Text((_LEFT - 1.5, y + 0.9), f"{tick:,.0f}", 2.5, anchor="end"))
    shapes.append(Text((1.0, box[0] - 2.4), what, 2.6, "SemiBold", color=palette.MUTED))
    return Group(tuple(shapes), cls="axis")


def _seconds(across: LinearScale) -> Group:
    y = _TURNS[1] + 4.2
    shapes: list[Shape] = [
        Text((across.at(t), y), significant(t), 2.6, anchor="middle") for t in across.ticks
    ]
    shapes.append(Text((_RIGHT + 6.0, y), "s", 2.6, "SemiBold", "end"))
    return Group(tuple(shapes), cls="axis")


def _marks(run: RunHistory, across: LinearScale) -> Group:
    shapes: list[Shape] = []
    for name, time in run.marks:
        x = across.at(time)
        shapes.append(Line((x, _SPEED[0] - 1.5), (x, _TURNS[1]), _MARK))
        shapes.append(Text((x, _SPEED[0] - 2.4), name, 2.5, "SemiBold", "middle"))
    return Group(tuple(shapes), id="marks", cls="marks")


def _curve(
    times: tuple[float, ...], values: tuple[float, ...], dimension: str, across: LinearScale,
    up: LinearScale, name: str,
) -> Group:  # fmt: skip
    points = tuple(
        (across.at(t), up.at(from_si(v, dimension)[0])) for t, v in zip(times, values, strict=True)
    )
    return Group((Polyline(points, _CURVE),), id=name, cls="curve")


def _gears(run: RunHistory, across: LinearScale) -> Group:
    """The number of each gear, where it begins."""
    shapes: list[Shape] = []
    last = 0
    for time, gear in zip(run.times, run.gears, strict=True):
        if gear != last:
            x = across.at(time) + 1.2
            shapes.append(Text((x, _TURNS[1] - 1.5), str(gear), 3.0, "Bold", color=palette.HOLDS))
            last = gear
    return Group(tuple(shapes), id="gears", cls="gears")


def _words(run: RunHistory) -> str:
    marks = " ".join(f"{name} after {time:.2f} s." for name, time in run.marks)
    return (
        f"Seconds count from the first movement. {marks} At the end"
        f" {show(run.speeds[-1], 'speed', digits=3)} in gear {run.gears[-1]}."
    )
