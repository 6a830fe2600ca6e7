"""Gear oil: how thin it gets with heat, and how dense it is.

A grade of SAE J306 fixes a span of viscosity at 100 °C and what the oil does in deep cold.  What
lies between comes from two points of the oil's own sheet, on the straight line that viscosity
makes on double logarithmic paper.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula


@formula(
    "ν",
    "kinematic viscosity",
    source="Walther's line as ASTM D341 has it, lg lg(ν + 0.7) straight over lg T (read in a"
    " worked sheet of it)",
    valid={"oil_temperature": (243.15, 453.15), "viscosity_100": (2e-6, 1e-4)},
    outside="the line is drawn through 40 and 100 °C; far outside them oils with thickeners bend",
)
def oil_viscosity(oil_temperature: Num, viscosity_40: Num, viscosity_100: Num) -> Num:
    """Viscosity of an oil at a temperature, from those at 40 and 100 °C."""
    thick = np.log10(np.log10(1e6 * viscosity_40 + 0.7))
    thin = np.log10(np.log10(1e6 * viscosity_100 + 0.7))
    along = np.log10(oil_temperature / 313.15) / np.log10(373.15 / 313.15)
    level = thick + along * (thin - thick)
    result: Num = 1e-6 * (10.0**10.0**level - 0.7)
    return result


@formula(
    "ρ_o",
    "density",
    source="mineral oils lose 0.65 ‰ of their density a kelvin (from memory)",
    valid={"oil_temperature": (233.15, 473.15)},
    outside="colder or hotter than an axle's oil gets",
)
def hot_oil_density(oil_density: Num, oil_temperature: Num) -> Num:
    """Density of an oil at a temperature, from that at 15 °C."""
    return oil_density * (1.0 - 0.65e-3 * (oil_temperature - 288.15))


@formula("η", "dynamic viscosity", source="definition (closed form)")
def dynamic_viscosity(kinematic_viscosity: Num, oil_density: Num) -> Num:
    """Dynamic viscosity from kinematic viscosity and density."""
    return kinematic_viscosity * oil_density
