"""One launch over time as the page shows it: charts, the picture at a moment, and its numbers."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from axlewright.drawing.launch_chart import UNIT, Story, panels
from axlewright.drawing.launch_picture import Reading, bar_of, figure, launch_picture
from axlewright.drawing.primitives import Drawing
from axlewright.drawing.time_chart import LEFT, RIGHT
from axlewright.quantities.units import significant

_TORQUES: dict[str, tuple[str, str]] = {
    "input": ("clutch", "Gearbox input"),
    "driveshaft": ("driveshaft", "Driveshaft"),
    "ring": ("axle", "Ring gear"),
    "right_shaft": ("right_shaft", "Right shaft"),
    "left_shaft": ("left_shaft", "Left shaft"),
    "right_tire": ("right_tire", "Right tire"),
    "left_tire": ("left_tire", "Left tire"),
}
"""Places of the picture: the series of the history, and what they are called."""


def readings(story: Story, at: int) -> tuple[Reading, ...]:
    """The places of the picture at one moment."""
    found = []
    for key, (series, title) in _TORQUES.items():
        values = story.shown(series, "torque")
        found.append(Reading(key, title, UNIT, values[at], min(values), max(values)))
    turns = story.shown("engine_speed", "rotation")
    found.append(Reading("engine", "Engine", "rpm", turns[at], 0.0, max(turns)))
    return tuple(found)


def picture(story: Story, at: int) -> Drawing:
    """The driveline at one moment."""
    now = readings(story, at)
    said = ", ".join(f"{r.title.lower()} {figure(r.value)} {r.unit}" for r in now)
    time = significant(story.history.time[at], 3)
    return launch_picture(f"Torque in the driveline at {time} s", f"After {time} s: {said}.", now)


def moments(story: Story) -> dict[str, Any]:
    """Everything that a page needs to show any moment of this launch."""
    now = readings(story, story.hardest)
    series = {key: (name, "torque") for key, (name, _) in _TORQUES.items()}
    series["engine"] = ("engine_speed", "rotation")
    return {
        "case": story.case,
        "time": list(story.history.time),
        "start": story.hardest,
        "cursor": {"left": LEFT, "right": RIGHT},
        "places": [_place(r, story, *series[r.key]) for r in now],
    }


def _place(reading: Reading, story: Story, series: str, dimension: str) -> dict[str, Any]:
    bar = bar_of(reading)
    return {
        "key": reading.key,
        "title": reading.title,
        "unit": reading.unit,
        "zero": round(bar.zero, 3),
        "scale": bar.scale,
        "values": [float(f"{v:.5g}") for v in story.shown(series, dimension)],
    }


def rows(story: Story) -> list[list[str]]:
    """The curves of the chart as rows, in the units of the shop."""
    curves = [
        (f"{panel.title.partition(':')[0]}: {t.name}", t.values)
        for panel in panels(story) for t in panel.traces
    ]  # fmt: skip
    head = ["time, s", *(name for name, _ in curves)]
    body: Sequence[list[str]] = [
        [f"{t:.5g}", *(f"{values[i]:.5g}" for _, values in curves)]
        for i, t in enumerate(story.history.time)
    ]
    return [head, *body]
