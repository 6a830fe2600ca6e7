"""The run down the strip in closed forms: ideals, rules of thumb, and what the clocks do.

A car that turned all its power into speed would run a quarter mile faster than any real one; the
published rules for real cars have the same form with smaller numbers.  They check the march in time
(``dynamics/run_march.py``) at its limits, and they answer where nothing but power and weight is
known.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_IDEAL = "all power into speed, P t = m v²/2 from standstill (derived)"
_TWO_PHASE = (
    "constant pull up to the speed at which power takes over, then constant power (derived)"
)
_HUNTINGTON = (
    "R. Huntington, Rod & Custom, December 1958, pp. 50-53 (as quoted in later texts), pounds, "
    "horsepower, mph"
)
_FOX = (
    "G. T. Fox, On the physics of drag racing, Am. J. Phys. 41 (1973) 311-313, and McCaul, Hot "
    "Rod, 1973 (as quoted in later texts), pounds, horsepower, mph"
)
_RULE = {"vehicle_mass": (300.0, 3500.0), "power": (20e3, 1.5e6)}
_OUTSIDE = "the rule was drawn through road cars and cannot be trusted so far from them"
_POUND_OVER_HP = 745.6998715822702 / 0.45359237  # W/kg in one hp/lb


@formula("v_i", "speed", source=_IDEAL)
def ideal_trap_speed(power: Num, vehicle_mass: Num, strip_length: Num) -> Num:
    """Speed at the end of a strip if all power went into speed from the first inch."""
    result: Num = (3.0 * power * strip_length / vehicle_mass) ** (1.0 / 3.0)
    return result


@formula("t_i", "time", source=_IDEAL)
def ideal_elapsed_time(power: Num, vehicle_mass: Num, strip_length: Num) -> Num:
    """Time for a strip if all power went into speed from the first inch: 1.5 lengths over speed."""
    end = (3.0 * power * strip_length / vehicle_mass) ** (1.0 / 3.0)
    result: Num = 1.5 * strip_length / end
    return result


@formula("v_H", "speed", source=_HUNTINGTON, valid=_RULE, outside=_OUTSIDE)
def huntington_trap_speed(power: Num, vehicle_mass: Num) -> Num:
    """Quarter-mile speed of a road car by Huntington's rule, 224 times the cube root of hp/lb.

    Weight with driver, power net at the clutch; drawn through 40 to 50 cars.
    """
    result: Num = 224.0 * 0.44704 * (power / vehicle_mass / _POUND_OVER_HP) ** (1.0 / 3.0)
    return result


@formula("t_H", "time", source=_HUNTINGTON, valid=_RULE, outside=_OUTSIDE)
def huntington_elapsed_time(power: Num, vehicle_mass: Num) -> Num:
    """Quarter-mile time of a road car by Huntington's rule, 6.290 times the cube root of lb/hp."""
    result: Num = 6.290 * (_POUND_OVER_HP * vehicle_mass / power) ** (1.0 / 3.0)
    return result


@formula("v_F", "speed", source=_FOX, valid=_RULE, outside=_OUTSIDE)
def fox_trap_speed(power: Num, vehicle_mass: Num) -> Num:
    """Quarter-mile speed by the rule of Fox and McCaul, 230 times the cube root of hp/lb."""
    result: Num = 230.0 * 0.44704 * (power / vehicle_mass / _POUND_OVER_HP) ** (1.0 / 3.0)
    return result


@formula("t_F", "time", source=_FOX, valid=_RULE, outside=_OUTSIDE)
def fox_elapsed_time(power: Num, vehicle_mass: Num) -> Num:
    """Quarter-mile time by the rule of Fox and McCaul, 6.269 times the cube root of lb/hp."""
    result: Num = 6.269 * (_POUND_OVER_HP * vehicle_mass / power) ** (1.0 / 3.0)
    return result


@formula("P", "power", source=f"{_HUNTINGTON}, turned round (derived)")
def power_from_trap_speed(trap_speed: Num, vehicle_mass: Num) -> Num:
    """Net power that a quarter-mile speed proves, by Huntington's rule.

    Speed, unlike time, hardly cares how the car left the line.
    """
    pace = trap_speed / (224.0 * 0.44704)
    return _POUND_OVER_HP * vehicle_mass * pace * pace * pace


@formula("k_P", "ratio", source=_IDEAL)
def power_share_of_ideal(trap_speed: Num, power: Num, vehicle_mass: Num, strip_length: Num) -> Num:
    """Share of the power that a run turned into speed; drag, shifts and grip took the rest."""
    return vehicle_mass * trap_speed * trap_speed * trap_speed / (3.0 * power * strip_length)


@formula("v_1", "speed", source=_TWO_PHASE)
def changeover_speed(power: Num, vehicle_mass: Num, launch_acceleration: Num) -> Num:
    """Speed up to which the tires are the limit, and from which the power is."""
    return power / (vehicle_mass * launch_acceleration)


@formula("s_1", "distance", source=_TWO_PHASE)
def changeover_distance(changeover_speed: Num, launch_acceleration: Num) -> Num:
    """Distance on which the tires are the limit."""
    return changeover_speed * changeover_speed / (2.0 * launch_acceleration)


@formula("v_2", "speed", source=_TWO_PHASE)
def two_phase_trap_speed(
    power: Num,
    vehicle_mass: Num,
    launch_acceleration: Num,
    strip_length: Num,
    changeover_speed: Num,
    changeover_distance: Num,
) -> Num:
    """Speed at the end of a strip: grip first, then all power into speed; no air, no shifts."""
    left = np.maximum(strip_length - changeover_distance, 0.0)
    cubed = changeover_speed * changeover_speed * changeover_speed
    powered = (cubed + 3.0 * power * left / vehicle_mass) ** (1.0 / 3.0)
    gripping = np.sqrt(2.0 * launch_acceleration * strip_length)
    result: Num = np.where(strip_length > changeover_distance, powered, gripping)[()]
    return result


@formula("t_2", "time", source=_TWO_PHASE)
def two_phase_elapsed_time(
    power: Num,
    vehicle_mass: Num,
    launch_acceleration: Num,
    changeover_speed: Num,
    trap_speed: Num,
) -> Num:
    """Time for a strip that ends at the trap speed: grip first, then all power into speed."""
    slow = np.minimum(trap_speed, changeover_speed)
    gained = trap_speed * trap_speed - slow * slow
    return slow / launch_acceleration + vehicle_mass * gained / (2.0 * power)


@formula("t_r", "time", source="constant pull from standstill (closed form)")
def rollout_time(rollout: Num, launch_acceleration: Num) -> Num:
    """Time from first movement until the front tire leaves the stage beam and the clock starts."""
    result: Num = np.sqrt(2.0 * rollout / launch_acceleration)
    return result


@formula("v_r", "speed", source="constant pull from standstill (closed form)")
def rollout_speed(rollout: Num, launch_acceleration: Num) -> Num:
    """Speed that the car already has when the clock starts."""
    result: Num = np.sqrt(2.0 * rollout * launch_acceleration)
    return result


@formula("v_t", "speed", source="definition of a speed trap (closed form)")
def mean_trap_speed(trap_length: Num, trap_entry_time: Num, trap_exit_time: Num) -> Num:
    """Speed on the time slip: length of the trap over the time in it, not the speed at the line."""
    return trap_length / (trap_exit_time - trap_entry_time)


@formula("v_t", "speed", source="constant power through the trap (derived)")
def powered_trap_speed(line_speed: Num, power: Num, vehicle_mass: Num, trap_length: Num) -> Num:
    """Speed on the time slip of a car that crosses the line at a given speed, still pulling.

    ``power`` is what is left to gain speed with; the slip shows less than the line speed.
    """
    cubed = line_speed * line_speed * line_speed
    entry = (cubed - 3.0 * power * trap_length / vehicle_mass) ** (1.0 / 3.0)
    gained = line_speed * line_speed - entry * entry
    return trap_length * 2.0 * power / (vehicle_mass * gained)
