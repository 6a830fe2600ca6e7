"""One launch over time as a chart: torque in each part, and what goes with it below."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.drawing.primitives import Drawing
from axlewright.drawing.time_chart import Panel, Trace, time_chart
from axlewright.quantities.units import from_si, pretty, show, significant
from axlewright.studies.launch_report import History

UNIT = pretty("lbf*ft")


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


EVERY = ("torques", "engine", "wheels", "slip", "loads")
"""The panels that a chart may have."""


def chart(story: Story, cursor: bool = False, which: tuple[str, ...] = EVERY) -> Drawing:
    """Torque at each place, and below it speeds, slip and loads on the same time axis."""
    return time_chart(
        f"{story.title} over time, {story.build}",
        words(story),
        story.history.time,
        tuple(p for p in panels(story) if p.key in which),
        cursor,
    )


def panels(story: Story) -> tuple[Panel, ...]:
    """The panels of the chart, torque first."""

    def trace(name: str, series: str, dimension: str, factor: float = 1.0) -> Trace:
        return Trace(name, story.shown(series, dimension, factor), series == "axle")

    return (
        Panel(
            "torques",
            f"Torque in each part, {UNIT}",
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
    ring = show(story.history.series["axle"][at], "torque", digits=3)
    slip = max(max(story.history.series[s]) for s in ("left_slip", "right_slip"))
    return (
        f"The likeliest car. The ring gear sees its peak of {ring} after"
        f" {significant(time[at], 3)} s; the tires slip up to {significant(100.0 * slip, 2)} %."
    )
