"""What a long hill asks of the axle, with or without a trailer."""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula


@formula("T_h", "torque", source="weight on a grade plus rolling resistance (closed form)")
def hill_torque(
    vehicle_mass: Num, trailer_mass: Num, grade: Num, rolling_share: Num, tire_radius: Num
) -> Num:
    """Ring-gear torque that holds speed up a long grade; air drag is left out."""
    return 9.80665 * (vehicle_mass + trailer_mass) * (grade + rolling_share) * tire_radius
