"""One launch over time as the page shows it: charts, the picture at a moment, and its numbers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from axlewright.drawing.launch_picture import Reading, bar_of, figure, launch_picture
from axlewright.drawing.primitives import Drawing
from axlewright.drawing.time_chart import LEFT, RIGHT, Panel, Trace, time_chart
from axlewright.quantities.units import from_si, pretty, significant
from axlewright.studies.launch_report import History

_UNIT = pretty("lbf*ft")
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


@dataclass(frozen=True)
class Story:
    """A history with the names of its build and case."""

    build: str
    title: str
    case: str
    history: History

    def shown(self, series: str, dimension: str, factor: float = 1.0) -> tuple[float, ...]:
        """A series in the unit of the shop."""
        return tuple(factor * from_si(v, dimension)[0] for v in self.history.series[series])

    @property
    def hardest(self) -> int:
        """The moment of the greatest torque at the ring gear."""
        torque = self.history.series["axle"]
        return max(range(len(torque)), key=lambda i: torque[i])


def chart(story: Story, cursor: bool = False) -> Drawing:
    """Torque at each place, and below it speeds, slip and loads on the same time axis."""
    return time_chart(
        f"{story.title} over time, {story.build}",
        words(story),
        story.history.time,
        panels(story),
        cursor,
    )


def panels(story: Story) -> tuple[Panel, ...]:
    """The panels of the chart, torque first."""

    def trace(name: str, series: str, dimension: str, factor: float = 1.0) -> Trace:
        return Trace(name, story.shown(series, dimension, factor), series == "axle")

    return (
        Panel(
            "torques",
            f"Torque in each part, {_UNIT}",
            (
                trace("ring gear", "axle", "torque"),
                trace("left shaft", "left_shaft", "torque"),
                trace("right shaft", "right_shaft", "torque"),
                trace("driveshaft", "driveshaft", "torque"),
                trace("gearbox input", "clutch", "torque"),
            ),
            54.0,
        ),
        Panel(
            "engine",
            "Engine and gearbox input, rpm: they meet when nothing slips between them",
            (
                trace("engine", "engine_speed", "rotation"),
                trace("input", "input_speed", "rotation"),
            ),
        ),
        Panel(
            "wheels",
            "Rear wheels, rpm",
            (trace("left", "left_speed", "rotation"), trace("right", "right_speed", "rotation")),
        ),
        Panel(
            "slip",
            "Slip of the rear tires, %",
            (trace("left", "left_slip", "ratio", 100.0),
             trace("right", "right_slip", "ratio", 100.0)),
        ),
        Panel(
            "loads",
            f"Load on the tires, {pretty('lb')}",
            (
                trace("left rear", "left_load", "force"),
                trace("right rear", "right_load", "force"),
                trace("front axle", "front_load", "force"),
            ),
        ),
    )  # fmt: skip


def words(story: Story) -> str:
    """What the chart shows, for who cannot see it."""
    time, at = story.history.time, story.hardest
    ring = figure(story.shown("axle", "torque")[at])
    slip = max(max(story.history.series[s]) for s in ("left_slip", "right_slip"))
    return (
        f"The likeliest car. The ring gear sees its peak of {ring} {_UNIT} after"
        f" {significant(time[at], 3)} s; the tires slip up to {significant(100.0 * slip, 2)} %."
    )


def readings(story: Story, at: int) -> tuple[Reading, ...]:
    """The places of the picture at one moment."""
    found = []
    for key, (series, title) in _TORQUES.items():
        values = story.shown(series, "torque")
        found.append(Reading(key, title, _UNIT, values[at], min(values), max(values)))
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
