"""The dials a driver can turn: launch speed, engine torque, tire grip, clutch bite."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from axlewright.build.machine import Machine
from axlewright.quantities.formula import Array, Num
from axlewright.vehicle.engine import boosted_torque

STEPS = 41


@dataclass(frozen=True)
class Dial:
    """One thing that may be raised (or, for bite, shortened): its range, and how to turn it.

    ``easy`` is the end of the range where the load is least.
    """

    name: str
    dimension: str
    now: Callable[[Machine[Num]], Num]
    turned: Callable[[Machine[Num], Num], Machine[Num]]
    easy: float
    hard: float

    def grid(self) -> Array:
        """Settings from easy to hard."""
        return np.linspace(self.easy, self.hard, STEPS)


_RPM = np.pi / 30.0


def _engine(**changes: Any) -> Callable[[Machine[Num]], Machine[Num]]:
    return lambda m: replace(m, engine=replace(m.engine, **changes))


def _boost(now: float) -> Dial:
    """Boost: the torque follows absolute manifold pressure."""

    def turned(m: Machine[Num], v: Num) -> Machine[Num]:
        engine = m.engine
        if engine.boost is None or engine.barometer is None:
            raise ValueError("a build without boost has no such dial")
        torque = boosted_torque(engine.torque, engine.barometer, v, engine.boost)
        return replace(m, engine=replace(engine, torque=torque))

    return Dial(
        "boost", "pressure", lambda m: _known(m.engine.boost), turned, 0.0, max(3.0 * now, 1e5)
    )


def _known(value: Num | None) -> Num:
    return 0.0 if value is None else value


def dials(plain: Machine[Num]) -> tuple[Dial, ...]:
    """The dials that this build has, with ranges about its present settings."""
    torque = float(plain.engine.torque)
    found = [
        Dial(
            "engine torque",
            "torque",
            lambda m: m.engine.torque,
            lambda m, v: _engine(torque=v)(m),
            0.2 * torque,
            3.0 * torque,
        ),
        Dial(
            "tire grip",
            "ratio",
            lambda m: m.tires.grip,
            lambda m, v: replace(m, tires=replace(m.tires, grip=v)),
            0.4,
            3.0,
        ),
    ]
    if plain.engine.boost is not None:
        found[0] = _boost(float(plain.engine.boost))  # what the driver turns; torque follows
    if plain.clutch is not None:
        found.insert(
            0,
            Dial(
                "launch speed",
                "rotation",
                lambda m: m.engine.launch_speed,
                lambda m, v: _engine(launch_speed=v)(m),
                600 * _RPM,
                float(plain.engine.rev_limit),
            ),
        )
        found.append(
            Dial(
                "clutch bite",
                "short time",
                lambda m: m.clutch.bite,  # type: ignore[union-attr]
                lambda m, v: replace(m, clutch=replace(m.clutch, bite=v)),  # type: ignore[type-var]
                0.6,
                0.0,
            )
        )
    elif plain.use.launch == "neutral drop":
        found.insert(
            0,
            Dial(
                "launch speed",
                "rotation",
                lambda m: m.engine.launch_speed,
                lambda m, v: _engine(launch_speed=v)(m),
                600 * _RPM,
                float(plain.engine.rev_limit),
            ),
        )
    return tuple(found)
