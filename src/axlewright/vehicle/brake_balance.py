"""Which axle locks first: braking of both axles against what their tires can hold.

Braking moves load to the front.  With the braking rate z (deceleration over gravity) an axle uses
of its tires' grip the share k = braking force over load.  The axle with the larger k locks first.
Rear first is the dangerous order: the car turns round.  All tires are taken as equally good, the
weight as spread over both wheels of an axle, and air and engine drag are left out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from axlewright.quantities.formula import Num, formula

_BALANCE = "moments about both contacts (closed form)"
_USED = "braking force over load of an axle, as in the annexes of the braking rules (closed form)"


@formula("N_f", "force", source=_BALANCE)
def front_load_in_braking(
    vehicle_weight: Num, rear_weight_share: Num, brake_grip: Num, cg_height: Num, wheelbase: Num
) -> Num:
    """Load on the front tires while braking."""
    return vehicle_weight * (1.0 - rear_weight_share + brake_grip * cg_height / wheelbase)


@formula("N_r", "force", source=_BALANCE)
def rear_load_in_braking(
    vehicle_weight: Num, rear_weight_share: Num, brake_grip: Num, cg_height: Num, wheelbase: Num
) -> Num:
    """Load on the rear tires while braking; never below zero."""
    return vehicle_weight * np.maximum(rear_weight_share - brake_grip * cg_height / wheelbase, 0.0)


@formula("b_i", "ratio", source="both axles use the same grip (closed form)")
def ideal_rear_share(
    rear_weight_share: Num, brake_grip: Num, cg_height: Num, wheelbase: Num
) -> Num:
    """Share of the braking that the rear could do at this rate, both axles equally near to locking.

    More than this and the rear locks first.
    """
    return rear_weight_share - brake_grip * cg_height / wheelbase


@formula("k_f", "ratio", source=_USED)
def front_grip_used(
    rear_brake_share: Num, rear_weight_share: Num, brake_grip: Num, cg_height: Num, wheelbase: Num
) -> Num:
    """Grip that the front tires must have at this rate of braking."""
    carried = 1.0 - rear_weight_share + brake_grip * cg_height / wheelbase
    return (1.0 - rear_brake_share) * brake_grip / carried


@formula(
    "k_r",
    "ratio",
    source=_USED,
    valid={"brake_grip": (0.0, 1.5)},
    outside="no car on tires stops so hard",
)
def rear_grip_used(
    rear_brake_share: Num, rear_weight_share: Num, brake_grip: Num, cg_height: Num, wheelbase: Num
) -> Num:
    """Grip that the rear tires must have at this rate; huge when they are off the ground."""
    carried = np.maximum(rear_weight_share - brake_grip * cg_height / wheelbase, 1e-9)
    result: Num = rear_brake_share * brake_grip / carried
    return result


@formula("z_c", "ratio", source="ideal share equal to the one that is fitted (closed form)")
def lock_changeover(
    rear_weight_share: Num, rear_brake_share: Num, cg_height: Num, wheelbase: Num
) -> Num:
    """Rate of braking at which both axles lock together: the front first below it, the rear above.

    Below zero the rear always locks first.
    """
    return (rear_weight_share - rear_brake_share) * wheelbase / cg_height


@formula("z_f", "ratio", source="front grip used equal to the grip there is (closed form)")
def rate_at_front_lock(
    tire_grip: Num, rear_brake_share: Num, rear_weight_share: Num, cg_height: Num, wheelbase: Num
) -> Num:
    """Rate of braking at which the front tires lock; huge if they never do."""
    free = np.maximum(1.0 - rear_brake_share - tire_grip * cg_height / wheelbase, 1e-9)
    result: Num = tire_grip * (1.0 - rear_weight_share) / free
    return result


@formula("z_r", "ratio", source="rear grip used equal to the grip there is (closed form)")
def rate_at_rear_lock(
    tire_grip: Num, rear_brake_share: Num, rear_weight_share: Num, cg_height: Num, wheelbase: Num
) -> Num:
    """Rate of braking at which the rear tires lock."""
    return tire_grip * rear_weight_share / (rear_brake_share + tire_grip * cg_height / wheelbase)


@formula("b_r", "ratio", source="forces at the ground of both axles (closed form)")
def rear_share_of_brakes(
    front_brake_torque: Num, rear_brake_torque: Num, front_tire_radius: Num, tire_radius: Num
) -> Num:
    """Share of the braking that the rear does, from the torque of one brake each, same pressure.

    A taller rear tire takes braking from the rear, a smaller one adds to it.
    """
    front = front_brake_torque / front_tire_radius
    rear = rear_brake_torque / tire_radius
    return rear / (front + rear)


@formula("z", "ratio", source="forces at the ground over weight (closed form)")
def braking_rate(
    front_brake_torque: Num,
    rear_brake_torque: Num,
    front_tire_radius: Num,
    tire_radius: Num,
    vehicle_weight: Num,
) -> Num:
    """Rate of braking from the torque of one front and one rear brake, nothing locked."""
    front = front_brake_torque / front_tire_radius
    rear = rear_brake_torque / tire_radius
    return 2.0 * (front + rear) / vehicle_weight


@dataclass(frozen=True)
class BrakeOrder:
    """What happens at one grip.  Numbers or arrays of samples."""

    grip: float
    front_rate: Num
    rear_rate: Num

    @property
    def rate(self) -> Num:
        """Hardest stop before either axle locks, over gravity."""
        return np.minimum(self.front_rate, self.rear_rate)[()]

    @property
    def rear_first(self) -> Num:
        """Share of the samples in which the rear locks first."""
        return float(np.mean(np.asarray(self.rear_rate) < np.asarray(self.front_rate)))


def lock_order(
    grips: Sequence[float], rear_brake_share: Num, rear_weight_share: Num, cg_height: Num,
    wheelbase: Num,
) -> tuple[BrakeOrder, ...]:  # fmt: skip
    """Which axle locks first on each grip: ice to dry road."""
    car = (rear_brake_share, rear_weight_share, cg_height, wheelbase)
    return tuple(
        BrakeOrder(grip, rate_at_front_lock(grip, *car), rate_at_rear_lock(grip, *car))
        for grip in grips
    )
