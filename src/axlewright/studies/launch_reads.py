"""What the march of a launch reads of a build: a change of anything else leaves it good."""

from __future__ import annotations

from typing import Any, Final

from axlewright.build.resolve import Resolved

STUDY: Final = "launch 3"
"""Version of the study; a march of another one is not taken."""


def what_is_read(resolved: Resolved) -> tuple[Any, ...]:
    """What the march reads of a build, and what the closed form reads that it is put over.

    Of the builder's own tires it reads the warmth at which they grip best.
    """
    m = resolved.machine
    shaft, use, ends = m.shaft, m.use, m.wheel_end
    return (
        (m.car, m.engine, m.clutch, m.converter, m.gearbox, m.gears.ratio, m.gears.efficiency),
        (m.differential.locks, m.differential.bias_ratio, m.differential.preload),
        m.differential.shock_share,
        (shaft.shear_modulus, shaft.length, shaft.body_diameter, shaft.bore),
        m.tires,
        (use.launch, use.burnouts, use.rolling),
        (ends.brake_share, ends.brake_grip),
        resolved.launching,
        (resolved.source.build.parts or {}).get("tires", {}),
    )
