"""Air the engine breathes: moist density and the correction from rated to actual torque.

Follows SAE J1349 in its June 1990 form (99 kPa dry, 25 °C) and the older "STD" rating of
SAE J607 (29.92 inHg dry, 60 °F).
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula


@formula(
    "p_v",
    "pressure",
    source="Magnus equation for saturation over water, coefficients 6.112 hPa, 17.62, 243.12 °C "
    "(from memory)",
    valid={"air_temperature": (228.15, 333.15), "relative_humidity": (0.0, 1.0)},
    outside="the vapor equation was fitted between -45 and 60 °C",
)
def vapor_pressure(air_temperature: Num, relative_humidity: Num) -> Num:
    """Pressure of the water vapor in the air: it takes the place of air the engine could burn."""
    celsius = air_temperature - 273.15
    result: Num = relative_humidity * 611.2 * np.exp(17.62 * celsius / (243.12 + celsius))
    return result


@formula("p_d", "pressure", source="Dalton's law of partial pressures (closed form)")
def dry_air_pressure(barometer: Num, vapor_pressure: Num) -> Num:
    """Pressure of the dry air alone: station barometer (not sea-level corrected) less vapor."""
    return barometer - vapor_pressure


@formula(
    "ρ_a",
    "density",
    source="ideal gas mixture, gas constants 287.05 J/(kg·K) dry air, 461.5 J/(kg·K) vapor "
    "(closed form, constants from memory)",
    valid={"air_temperature": (228.15, 333.15)},
    outside="weather that no track has; the gas law still holds but check the thermometer",
)
def moist_air_density(dry_air_pressure: Num, vapor_pressure: Num, air_temperature: Num) -> Num:
    """Density of the air, humidity included; damp air is lighter than dry air."""
    dry = dry_air_pressure / (287.05 * air_temperature)
    return dry + vapor_pressure / (461.5 * air_temperature)


@formula(
    "c_f",
    "ratio",
    source="SAE J1349, June 1990 form (as reproduced in secondary texts)",
    valid={"dry_air_pressure": (80e3, 106e3), "air_temperature": (258.15, 318.15)},
    outside="air too far from the standard 99 kPa and 25 °C for a dyno correction to be trusted",
)
def power_correction(dry_air_pressure: Num, air_temperature: Num) -> Num:
    """Correction that takes torque measured in this air to the rated figure.

    The constant term is friction, which the weather does not change (85 % mechanical efficiency).
    Naturally aspirated engines only: a boosted engine makes its own air.
    """
    kelvin = air_temperature - 0.15
    result: Num = 1.180 * (99e3 / dry_air_pressure) * np.sqrt(kelvin / 298.0) - 0.18
    return result


@formula("T_e", "torque", source="SAE J1349, June 1990 form, inverted (derived)")
def torque_in_this_air(rated_engine_torque: Num, power_correction: Num) -> Num:
    """Torque the engine makes in today's air: the rated figure over its correction."""
    return rated_engine_torque / power_correction


@formula(
    "T_r",
    "torque",
    source="SAE J1349, June 1990 form, taken at the J607 air of 29.92 inHg dry and 60 °F "
    "(conditions from memory)",
)
def j1349_torque_from_std(std_torque: Num) -> Num:
    """Rated (J1349) torque of an engine whose sheet says "STD" corrected.

    The STD air is cooler and denser, so the same engine reads some 4 to 5 % higher on it.
    """
    kelvin = 273.0 + (60.0 - 32.0) / 1.8
    result: Num = std_torque * (
        1.180 * (99e3 / (29.92 * 3386.389)) * np.sqrt(kelvin / 298.0) - 0.18
    )
    return result
