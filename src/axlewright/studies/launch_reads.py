"""What the march of a launch reads of a build: a change of anything else leaves it good."""

from __future__ import annotations

from typing import Any

from axlewright.build.resolve import Resolved


def what_is_read(resolved: Resolved) -> tuple[Any, ...]:
    """The parts of the machine that the march reads."""
    m = resolved.machine
    return (
        m.car, m.engine, m.clutch, m.converter, m.gearbox, m.gears.ratio, m.gears.efficiency,
        m.differential, m.tires, m.use, m.wheel_end.brake_share,
        m.wheel_end.brake_grip, resolved.launching,
    )  # fmt: skip
