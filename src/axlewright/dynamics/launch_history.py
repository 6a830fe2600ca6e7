"""The whole story of one launch: states, torques, forces and where the energy is, over time."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.dynamics import launch_rows as at
from axlewright.dynamics.launch_car import LaunchCar, LaunchEvents
from axlewright.dynamics.launch_march import march_of
from axlewright.dynamics.launch_pack import equal_steps, pack
from axlewright.quantities.formula import Array

_KEPT = {
    # States, in the order of docs/launch-model.md.
    "engine_speed": at.E, "upstream_speed": at.A, "input_speed": at.G, "driveshaft_twist": at.PHI,
    "pinion_speed": at.P, "left_twist": at.AL, "right_twist": at.AR, "side_angle": at.X,
    "side_speed": at.XV, "left_speed": at.WL, "right_speed": at.WR, "left_deflection": at.UL,
    "right_deflection": at.UR, "road_speed": at.V, "axle_speed": at.VA, "gap": at.XR,
    "heave": at.Z, "heave_rate": at.ZV, "pitch": at.TH, "pitch_rate": at.THV,
    "axle_height": at.ZA, "axle_rate": at.ZAV, "roll": at.RO, "roll_rate": at.ROV,
    "windup": at.PSI, "windup_rate": at.PSIV, "distance": at.DIST,
}  # fmt: skip

_SHOWN = {
    "engine_torque": at.T_E, "pump_torque": at.T_PUMP, "upstream_torque": at.T_IN,
    "clutch": at.T_C, "clutch_capacity": at.CAP, "hold": at.T_H, "driveshaft": at.T_D,
    "left_shaft": at.T_L, "right_shaft": at.T_R, "axle": at.T_AX, "side_friction": at.T_F,
    "left_brake": at.Q_L, "right_brake": at.Q_R, "left_load": at.N_L, "right_load": at.N_R,
    "left_force": at.F_L, "right_force": at.F_R, "thrust": at.THRUST, "windup_torque": at.WIND,
    "lift": at.LIFT, "rear_spring": at.F_REAR, "front_spring": at.F_FRONT,
}  # fmt: skip

_GONE = {
    "engine_work": at.W_ENGINE, "clutch_heat": at.W_CLUTCH, "converter_heat": at.W_CONVERTER,
    "hold_heat": at.W_HOLD, "brake_heat": at.W_BRAKES, "gear_loss": at.W_GEARS,
    "shaft_heat": at.W_SHAFTS, "differential_heat": at.W_FRICTION, "tire_heat": at.W_TIRES,
    "rolling_loss": at.W_ROLLING, "air_loss": at.W_AIR, "damper_heat": at.W_SUSPENSION,
}  # fmt: skip

HEAT = tuple(name for name in _GONE if name != "engine_work")
"""The accounts into which energy goes for good."""


@dataclass(frozen=True)
class LaunchHistory:
    """One launch over time.

    ``values`` holds every state of ``docs/launch-model.md`` by name (``engine_speed`` …
    ``distance``), the torques and forces of that moment (``clutch``, ``driveshaft``, ``axle``,
    ``left_shaft``, ``windup_torque``, ``thrust``, ``left_load``, ``left_force``, ``left_slip``,
    ``left_tire`` …), ``front_load``, ``clutch_capacity``, and the energies: ``engine_work``, the
    accounts named in ``HEAT``, ``kinetic_energy`` and ``spring_energy``, so that the work equals
    the heat and what the two have gained since the start.  All SI, all (k,).
    """

    time: Array
    values: dict[str, Array]

    def __getitem__(self, name: str) -> Array:
        """Shorthand for one of the values."""
        return self.values[name]


def launch_history(
    car: LaunchCar, events: LaunchEvents, step: float = 1e-4, every: float = 1e-3
) -> LaunchHistory:
    """March one launch and keep its story, one line for each ``every`` seconds (whole steps).

    Energies are exact for the inertias and right to the order of a step for the springs.
    """
    packed = pack(car, events)
    if packed.launches != 1:
        raise ValueError("a history is kept of one launch; pick one")
    march = march_of(packed.automatic, packed.locked, True)
    steps, step = equal_steps(events.duration, min(step, float(packed.longest_step[0])))
    stride = max(round(every / step), 1)
    w, places, slopes = packed.blocks[0], packed.places[0], packed.slopes[0]
    marks = np.append(np.arange(0, steps, stride), steps)
    story = np.empty((len(marks), w.size // at.LANES))
    for k, mark in enumerate(marks):
        story[k] = w[:: at.LANES]
        # What acts at this place is only known once the step from it has begun.
        march(w, places, slopes, int(mark), 1, step)
        for place in _SHOWN.values():
            story[k, place // at.LANES] = w[place]
        if mark < steps:
            following = min(stride, steps - int(mark))
            march(w, places, slopes, int(mark) + 1, following - 1, step)
    return LaunchHistory(marks * step, _values(story))


class _Story:
    """Columns of a story by the places of ``launch_rows``."""

    def __init__(self, story: Array) -> None:
        self._story = story

    def __getitem__(self, place: int) -> Array:
        result: Array = self._story[:, place // at.LANES]
        return result


def _values(story: Array) -> dict[str, Array]:
    s = _Story(story)
    values = {name: s[place] for name, place in (_KEPT | _SHOWN | _GONE).items()}
    for side, deflection, force in (("left", at.UL, at.F_L), ("right", at.UR, at.F_R)):
        values[f"{side}_slip"] = s[deflection] * s[at.I_SIGMA]
        values[f"{side}_tire"] = s[force] * s[at.RADIUS]
    values["front_load"] = s[at.N_F] + s[at.F_FRONT]
    values["kinetic_energy"] = _kinetic(s)
    values["spring_energy"] = _spring(s)
    return values


def _kinetic(s: _Story) -> Array:
    """Of all that turns and moves; with a foot clutch the engine is what stands upstream."""
    twice = s[at.J_A] * s[at.A] ** 2 + s[at.J_G] * s[at.G] ** 2 + s[at.J_X] * s[at.XV] ** 2
    if bool(np.any(s[at.PUMP] > 0.0)):
        twice = twice + s[at.E] ** 2 / s[at.IJ_E]
    twice = twice + s[at.P] ** 2 / s[at.IJ_P] + s[at.J_W] * (s[at.WL] ** 2 + s[at.WR] ** 2)
    twice = twice + (s[at.V] ** 2 + s[at.ZV] ** 2) / s[at.IM_B] + s[at.THV] ** 2 / s[at.II_Y]
    twice = twice + (s[at.VA] ** 2 + s[at.ZAV] ** 2) / s[at.IM_A] + s[at.ROV] ** 2 / s[at.II_X]
    return 0.5 * (twice + s[at.PSIV] ** 2 / s[at.IJ_PSI])


def _spring(s: _Story) -> Array:
    """Of shafts, mounts, springs and tire walls; a front spring in the air lifts weight instead."""
    q = s[at.Z] - s[at.ARM_B] * s[at.TH] - s[at.ZA]
    stretch = s[at.XR] - s[at.BELOW] * s[at.TH] - s[at.MOUNT] * s[at.PSI] - s[at.SLOPE] * q
    twist = s[at.PSI] - s[at.TH] - q * s[at.ARM]
    twice = s[at.K_X] * stretch**2 + s[at.K_PSI] * twist**2 + s[at.K_RR] * q**2
    twice = twice + s[at.K_T] * s[at.ZA] ** 2 + s[at.K_RO] * s[at.RO] ** 2
    for twisted, stiffness, gap in (
        (s[at.PHI], s[at.K_D], s[at.D_D]),
        (s[at.AL] + s[at.X], s[at.K_L], s[at.D_S]),
        (s[at.AR] - s[at.X], s[at.K_R], s[at.D_S]),
    ):
        twice = twice + stiffness * (twisted - np.clip(twisted, -gap, gap)) ** 2
    low = s[at.Z] + s[at.ARM_A] * s[at.TH]
    free = s[at.N_F] / s[at.K_F]
    result: Array = 0.5 * (twice + s[at.K_F] * np.minimum(low, free) ** 2)
    return result + s[at.N_F] * np.maximum(low - free, 0.0)
