"""Grip used by both axles as the pedal is pressed, with a valve that holds the rear back.

A proportioning valve passes all pressure up to its knee and a share of the rest beyond it, so the
rear share is no longer one number: it falls as the car stops harder, as the ideal share does.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.quantities.formula import Array, Num, formula
from axlewright.vehicle import brake_balance as balance
from axlewright.vehicle.brake_rules import HIGH_RATE, LOW_RATE


@formula(
    "p_r",
    "pressure",
    source="valve with one knee (closed form)",
    valid={"valve_slope": (0.0, 1.0)},
    outside="a valve passes between none and all of what exceeds its knee",
)
def rear_line_pressure(line_pressure: Num, knee_pressure: Num, valve_slope: Num) -> Num:
    """Pressure behind a proportioning valve; a slope of one is no valve."""
    beyond = np.maximum(line_pressure - knee_pressure, 0.0)
    result: Num = np.minimum(line_pressure, knee_pressure) + valve_slope * beyond
    return result


@dataclass(frozen=True)
class BrakeCurves:
    """Rate of braking and grip used by both axles, pressure by pressure."""

    rate: Array
    front_used: Array
    rear_used: Array

    def lock_rates(self, grip: float) -> tuple[float, float]:
        """Rates at which front and rear lock on this grip; unlimited if pressure does not suffice.

        Found between the pressures by straight lines.
        """
        front, rear = (self._rate_at(used, grip) for used in (self.front_used, self.rear_used))
        return front, rear

    def _rate_at(self, used: Array, grip: float) -> float:
        if grip > used[-1]:
            return float(np.inf)
        return float(np.interp(grip, used, self.rate))

    @property
    def front_first(self) -> bool:
        """Whether the front is the nearer one at every rate of the rules' range that is reached."""
        low, high = LOW_RATE, HIGH_RATE
        asked = (self.rate >= low) & (self.rate <= high)
        return bool(np.all(self.front_used[asked] >= self.rear_used[asked]))


def brake_curves(
    front_brake_torque: Array, rear_brake_torque: Array, front_tire_radius: float,
    tire_radius: float, vehicle_weight: float, rear_weight_share: float, cg_height: float,
    wheelbase: float,
) -> BrakeCurves:  # fmt: skip
    """Curves over rising pressures, from the torque of one front and one rear brake at each."""
    brakes = (front_brake_torque, rear_brake_torque, front_tire_radius, tire_radius)
    rate = balance.braking_rate(*brakes, vehicle_weight)
    car = (balance.rear_share_of_brakes(*brakes), rear_weight_share, rate, cg_height, wheelbase)
    return BrakeCurves(
        np.asarray(rate),
        np.asarray(balance.front_grip_used(*car)),
        np.asarray(balance.rear_grip_used(*car)),
    )
