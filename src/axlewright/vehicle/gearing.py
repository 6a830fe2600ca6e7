"""From engine to axle and back: overall ratio, speeds, losses in a row."""

from __future__ import annotations

import numpy as np

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


@formula("ω_ds", "rotation", source=_TRAIN)
def driveshaft_speed_on_road(road_speed: Num, axle_ratio: Num, tire_radius: Num) -> Num:
    """Speed of the driveshaft at a road speed, nothing slipping; the gear does not matter."""
    return road_speed * axle_ratio / tire_radius


@formula("ω_w", "rotation", source="rolling without slip (closed form)")
def wheel_speed_on_road(road_speed: Num, tire_radius: Num) -> Num:
    """Speed of the wheels at a road speed, nothing slipping."""
    return road_speed / tire_radius


@formula("n_s", "rotation", source=_TRAIN)
def speed_after_shift(engine_speed: Num, gear_ratio: Num, next_gear_ratio: Num) -> Num:
    """Engine speed in the next gear at the same road speed."""
    return engine_speed * next_gear_ratio / gear_ratio


@formula("Δn_s", "rotation", source=_TRAIN)
def shift_drop(engine_speed: Num, gear_ratio: Num, next_gear_ratio: Num) -> Num:
    """How far the engine falls from one gear to the next; the axle ratio does not change it."""
    return engine_speed * (1.0 - next_gear_ratio / gear_ratio)


@formula("s_10", "distance", source="turns times the tire's way for each (closed form)")
def road_of_turns(bearing_life: Num, axle_ratio: Num, tire_radius: Num) -> Num:
    """Road that goes by while a shaft makes so many turns; the ratio is one behind the axle."""
    return 2.0 * np.pi * tire_radius * bearing_life / axle_ratio
