"""Press fits: a tube or shaft held in a bore by interference alone.

Lamé's thick cylinders with a material of its own for hub and core, after Budynas & Nisbett,
Shigley's Mechanical Engineering Design, 9th ed., chapter 7.  Interference is *diametral*: what
the tube measures more than the bore.  The fit is taken as long, evenly pressed and elastic; the
ends of a real hub press harder, and a fit that has slipped once holds less.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_SHIGLEY = "Budynas & Nisbett, Shigley's Mechanical Engineering Design, 9th ed."


@formula(
    "p",
    "pressure",
    source=f"{_SHIGLEY}, eq. 7-39 (read)",
    valid={"tube_bore": (0.0, None), "interference": (0.0, None)},
    outside="below zero interference is clearance: the fit holds nothing",
)
def contact_pressure(
    interference: Num,
    fit_diameter: Num,
    hub_diameter: Num,
    tube_bore: Num,
    hub_modulus: Num,
    tube_modulus: Num,
    hub_poisson: Num,
    tube_poisson: Num,
) -> Num:
    """Pressure between a tube and the hub that it is pressed into; none when there is clearance.

    A thin wall or a thin hub gives way and so halves the pressure that the same press would make
    in solid parts: wall, hub size and hub metal all count.  A solid core has bore zero.
    """
    fit = fit_diameter**2
    hub = (hub_diameter**2 + fit) / (hub_diameter**2 - fit) + hub_poisson
    core = (fit + tube_bore**2) / (fit - tube_bore**2) - tube_poisson
    give = fit_diameter * (hub / hub_modulus + core / tube_modulus)
    return np.maximum(interference, 0.0) / give


@formula(
    "δ_e",
    "length",
    source="DIN 7190, smoothing of rough faces by 0.8 of their summed depths (from memory)",
)
def effective_interference(interference: Num, hub_roughness: Num, tube_roughness: Num) -> Num:
    """Interference that is left once pressing has flattened the tool marks of both faces.

    The roughness is R_z, the height from peak to valley, some four to six times R_a.
    """
    return interference - 0.8 * (hub_roughness + tube_roughness)


@formula(
    "T_slip",
    "torque",
    source="friction over the face of the fit (closed form)",
    valid={"friction": (0.03, 0.4)},
    outside="outside what oiled to dry steel and iron show in a press fit",
)
def fit_slip_torque(fit_pressure: Num, fit_diameter: Num, fit_length: Num, friction: Num) -> Num:
    """Torque at which a pressed tube turns in its hub."""
    return 0.5 * np.pi * fit_pressure * friction * fit_length * fit_diameter**2


@formula(
    "F_slip",
    "force",
    source="friction over the face of the fit (closed form)",
    valid={"friction": (0.03, 0.4)},
    outside="outside what oiled to dry steel and iron show in a press fit",
)
def fit_slip_force(fit_pressure: Num, fit_diameter: Num, fit_length: Num, friction: Num) -> Num:
    """Push at which a pressed tube slides out of its hub; about the force to press it in."""
    return np.pi * fit_pressure * friction * fit_length * fit_diameter


@formula("σ_th", "stress", source=f"{_SHIGLEY}, eq. 7-45 (read)")
def hub_hoop_stress(fit_pressure: Num, fit_diameter: Num, hub_diameter: Num) -> Num:
    """Hoop tension at the bore of the hub: what splits an iron centre."""
    fit = fit_diameter**2
    return fit_pressure * (hub_diameter**2 + fit) / (hub_diameter**2 - fit)


@formula(
    "σ_vh",
    "stress",
    source=f"distortion energy on the stresses of {_SHIGLEY}, eqs. 7-45 and 7-47 (read)",
)
def hub_equivalent_stress(fit_pressure: Num, hub_hoop: Num) -> Num:
    """Hoop tension and pressure at the bore of a ductile hub put together, against its yield."""
    return np.sqrt(hub_hoop**2 + hub_hoop * fit_pressure + fit_pressure**2)


@formula("σ_tt", "stress", source=f"{_SHIGLEY}, eq. 7-44 (read)")
def tube_hoop_stress(fit_pressure: Num, fit_diameter: Num, tube_bore: Num) -> Num:
    """Hoop stress in the tube where it touches the hub; negative, it is squeezed."""
    fit = fit_diameter**2
    return -fit_pressure * (fit + tube_bore**2) / (fit - tube_bore**2)


@formula("σ_tb", "stress", source="Lamé's thick cylinder under outside pressure (closed form)")
def tube_bore_hoop_stress(fit_pressure: Num, fit_diameter: Num, tube_bore: Num) -> Num:
    """Hoop stress at the bore of the tube, the most squeezed place of the fit; negative.

    A solid core has no bore: use the stress at the contact there.
    """
    fit = fit_diameter**2
    return -2.0 * fit_pressure * fit / (fit - tube_bore**2)
