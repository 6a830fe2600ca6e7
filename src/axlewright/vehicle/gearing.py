"""From engine to axle and back: overall ratio, speeds, losses in a row."""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula

_TRAIN = "speeds and torques through gear pairs in a row (closed form)"


@formula("i_t", "ratio", source=_TRAIN)
def overall_ratio(gear_ratio: Num, axle_ratio: Num) -> Num:
    """Engine turns for one turn of the wheels."""
    return gear_ratio * axle_ratio


@formula("η_t", "ratio", source=_TRAIN)
def driveline_efficiency(gearbox_efficiency: Num, axle_efficiency: Num) -> Num:
    """Share of torque that passes gearbox and axle."""
    return gearbox_efficiency * axle_efficiency


@formula("Δω", "rotation", source=_TRAIN)
def speed_gap_at_axle(engine_speed: Num, gear_ratio: Num, axle_ratio: Num) -> Num:
    """Speed that the wheels must make up when the engine spins and the car stands."""
    return engine_speed / (gear_ratio * axle_ratio)


@formula("T_in", "torque", source=_TRAIN)
def gearbox_input_torque(driveshaft_torque: Num, gear_ratio: Num, gearbox_efficiency: Num) -> Num:
    """Torque at the gearbox input behind a driveshaft torque."""
    return driveshaft_torque / (gear_ratio * gearbox_efficiency)


@formula("ω_ds", "rotation", source=_TRAIN)
def driveshaft_speed(engine_speed: Num, gear_ratio: Num) -> Num:
    """Speed of the driveshaft for an engine speed; above it in an overdrive gear."""
    return engine_speed / gear_ratio
