"""Tire: how big it rolls and how hard it can push.

Sizes follow the metric size code and the rolling circumference rule of the European tire and rim
standards; the slip curve is the early Magic Formula of Bakker, Nyborg and Pacejka, SAE 870421.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_MAGIC = (
    "Bakker, Nyborg & Pacejka, SAE 870421 (form from memory; coefficients as reproduced in "
    "public code)"
)


@formula("D_t", "length", source="metric tire size code (closed form)")
def free_diameter(section_width: Num, aspect_ratio: Num, rim_diameter: Num) -> Num:
    """Nominal outer diameter from the size on the sidewall, off the ground."""
    return rim_diameter + 2.0 * section_width * aspect_ratio


@formula(
    "r",
    "length",
    source="rolling circumference 3.05 D for radial tires, European tire and rim standards "
    "(from memory; open data on 70 cars of 1990 agree within 0.3 %)",
)
def rolling_radius(free_diameter: Num) -> Num:
    """Radius at which the tire rolls and pushes: about 3 % less than half the free diameter.

    A soft slick at low pressure sits lower and grows with speed; measure it if it matters.
    """
    return 3.05 * free_diameter / (2.0 * np.pi)


@formula("n_d", "per distance", source="one turn per circumference (closed form)")
def turns_per_distance(tire_radius: Num) -> Num:
    """Turns of the wheel per mile or kilometer."""
    return 1.0 / (2.0 * np.pi * tire_radius)


@formula("v", "speed", source="rolling without slip (closed form)")
def road_speed(engine_speed: Num, gear_ratio: Num, axle_ratio: Num, tire_radius: Num) -> Num:
    """Road speed at an engine speed, nothing slipping."""
    return engine_speed * tire_radius / (gear_ratio * axle_ratio)


@formula("ω_e", "rotation", source="rolling without slip (closed form)")
def engine_speed_on_road(
    road_speed: Num, gear_ratio: Num, axle_ratio: Num, tire_radius: Num
) -> Num:
    """Engine speed at a road speed, nothing slipping."""
    return road_speed * gear_ratio * axle_ratio / tire_radius


@formula(
    "μ_N",
    "ratio",
    source="grip falling in a straight line with load, held above half (derived; slope of a "
    "passenger tire about 2 % per kN from SAE 870421)",
    valid={"load_sensitivity": (0.0, 1e-4), "tire_grip": (0.05, 4.0)},
    outside="no tire is known to behave so",
)
def grip_under_load(
    tire_grip: Num, tire_load: Num, grip_reference_load: Num, load_sensitivity: Num
) -> Num:
    """Peak grip of a tire at its load: a heavily loaded tire pushes less per pound."""
    result: Num = tire_grip * np.maximum(
        1.0 - load_sensitivity * (tire_load - grip_reference_load), 0.5
    )
    return result


@formula("T_μ", "torque", source="friction times load times radius (closed form)")
def tire_torque(tire_grip: Num, tire_load: Num, tire_radius: Num) -> Num:
    """Torque at which a tire (or the pair that carries the load) breaks loose."""
    return tire_grip * tire_load * tire_radius


@formula(
    "F_max",
    "force",
    source=_MAGIC,
    valid={"tire_load": (0.0, 8e3)},
    outside="beyond the loads that the tire was measured at",
)
def magic_peak_force(tire_load: Num) -> Num:
    """Most that the measured passenger tire of 1987 can push at a load."""
    kilo = tire_load / 1000.0
    return (-21.3 * kilo + 1144.0) * kilo


@formula(
    "F_s",
    "force",
    source=_MAGIC,
    valid={"tire_load": (100.0, 8e3), "longitudinal_slip": (-1.0, 1.0)},
    outside="beyond the loads and slips that the tire was measured at",
)
def magic_force(tire_load: Num, longitudinal_slip: Num) -> Num:
    """Push of the measured passenger tire of 1987 against slip: peak near 10 %, then fading."""
    kilo = tire_load / 1000.0
    peak = (-21.3 * kilo + 1144.0) * kilo
    rise = (49.6 * kilo + 226.0) * kilo * np.exp(-0.069 * kilo)
    bend = (-0.006 * kilo + 0.056) * kilo + 0.486
    turn = rise / (1.65 * peak) * (100.0 * longitudinal_slip)
    curve = turn - bend * (turn - np.arctan(turn))
    result: Num = peak * np.sin(1.65 * np.arctan(curve))
    return result
