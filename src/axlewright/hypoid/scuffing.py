"""Whether the flanks may weld for a moment and tear: flash and integral temperature.

Scuffing is no fatigue: it comes at once, where the film fails in heat.  Two measures of that heat
are worked out, both in forms of the cylindrical-gear standards (from memory): Blok's flash on top
of the body, and the integral temperature against what the oil stood in the gear-oil rig.  They
were fitted to cylindrical gears; a hypoid slides along its teeth all the time, and how well that
carries over was not checked here.  **So they rank** ratios, oils and loads; they do not foretell
that a pair will scuff, nor that it will not.  Half the width of the band is that of
``hypoid.loaded.hertz``.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.hypoid.loaded.hertz import contact_half_width
from axlewright.quantities.formula import Num, formula

_INTEGRAL = "integral temperature method, DIN 3990-4 and ISO/TR 13989-2 (from memory)"
_RANKS = "outside what the rig tests covered"


@formula(
    "μ_m",
    "ratio",
    source=_INTEGRAL + ": 0.045 (w/(v ρ))^0.2 η^-0.05 X_R in N/mm, m/s, mm and mPa·s",
    valid={"rolling_sum_speed": (1.0, 60.0), "oil_dynamic_viscosity": (3e-3, 0.5)},
    outside=_RANKS,
)
def mean_tooth_friction(
    line_load: Num,
    rolling_sum_speed: Num,
    relative_radius: Num,
    oil_dynamic_viscosity: Num,
    roughness_factor: Num,
) -> Num:
    """Coefficient of friction of oiled flanks, mean over the path of contact."""
    pressed = 1e-3 * line_load / (rolling_sum_speed * 1e3 * relative_radius)
    thin = (1e3 * oil_dynamic_viscosity) ** -0.05
    return 0.045 * pressed**0.2 * thin * roughness_factor


@formula(
    "X_R",
    "ratio",
    source=_INTEGRAL + ": 2.2 (Ra/ρ)^0.25 in µm and mm",
    valid={"flank_roughness": (0.05e-6, 3e-6)},
    outside=_RANKS,
)
def roughness_factor(flank_roughness: Num, relative_radius: Num) -> Num:
    """How roughness raises friction."""
    return 2.2 * (1e6 * flank_roughness / (1e3 * relative_radius)) ** 0.25


@formula(
    "v_×",
    "speed",
    source="part of a speed in the tangent plane square to the line of contact (closed form)",
)
def crossing_speed(profile_speed: Num, lengthwise_speed: Num, contact_line_slant: Num) -> Num:
    """Speed at which a flank crosses the band of contact.

    The slant is the angle of the line of contact from the length of the tooth.
    """
    across = profile_speed * np.cos(contact_line_slant)
    return np.abs(across + lengthwise_speed * np.sin(contact_line_slant))


@formula("v_f", "speed", source="travel per radian times speed (closed form)")
def flank_speed(flank_travel: Num, turning_speed: Num) -> Num:
    """Speed on a flank, from its travel per radian that the ring gear turns."""
    return flank_travel * turning_speed


@formula(
    "Δθ_f",
    "temperature rise",
    source="Blok (1937), 1.11 μ w v_s/(B (√v_×1 + √v_×2) √(2 b_H)) (from memory)",
    valid={"pinion_crossing_speed": (0.01, None), "ring_crossing_speed": (0.01, None)},
    outside="a flank that does not cross the band stays in the heat: the formula has no meaning",
)
def flash_temperature(
    tooth_friction: Num,
    line_load: Num,
    flank_sliding_speed: Num,
    pinion_crossing_speed: Num,
    ring_crossing_speed: Num,
    hertz_half_width: Num,
    thermal_contact: Num,
) -> Num:
    """Rise of the flanks over their bodies while they touch, at its greatest."""
    heat = 1.11 * tooth_friction * line_load * flank_sliding_speed
    carried = np.sqrt(pinion_crossing_speed) + np.sqrt(ring_crossing_speed)
    return heat / (thermal_contact * carried * np.sqrt(2.0 * hertz_half_width))


@formula(
    "B",
    "thermal contact",
    source="definition (closed form); about 13.8 kN/(m·s^½·K) for steel",
)
def thermal_contact(metal_conductivity: Num, density: Num, metal_heat: Num) -> Num:
    """How readily a metal takes in heat at its skin."""
    return np.sqrt(metal_conductivity * density * metal_heat)


@formula(
    "θ_M",
    "temperature",
    source=_INTEGRAL + ": 0.7 of the mean flash over the oil, dip lubrication",
)
def body_temperature(oil_temperature: Num, mean_flash: Num) -> Num:
    """Temperature of the teeth's bodies."""
    return oil_temperature + 0.7 * mean_flash


@formula("θ_int", "temperature", source=_INTEGRAL + ": body and 1.5 of the mean flash")
def integral_temperature(body_temperature: Num, mean_flash: Num) -> Num:
    """Heat of the flanks as the integral method weighs it."""
    return body_temperature + 1.5 * mean_flash


@formula(
    "θ_S",
    "temperature",
    source=_INTEGRAL + ": 80 + 0.23 T + 1.5·0.2 T (100/ν_40)^0.02 X_W, T = 3.726 s² of the rig",
    valid={"rig_stage": (4.0, 14.0)},
    outside="load stages of the gear-oil rig run from 4 to 12, some oils are run to 14",
)
def scuffing_temperature(rig_stage: Num, viscosity_40: Num, structure_factor: Num) -> Num:
    """Integral temperature at which the oil failed in the rig, for the steel at hand.

    The structure factor is 1 for carburized steel, 1.25 with phosphate (from memory).
    """
    torque = 3.726 * rig_stage * rig_stage
    flash = 0.2 * torque * (1e-4 / viscosity_40) ** 0.02
    return 353.15 + 0.23 * torque + 1.5 * structure_factor * flash


@formula("S_S", "ratio", source=_INTEGRAL + "; temperatures in °C")
def scuffing_rank(scuffing_temperature: Num, integral_temperature: Num) -> Num:
    """Failed over present temperature: for ranking; below 1 the standards would call it likely."""
    return (scuffing_temperature - 273.15) / (integral_temperature - 273.15)


@formula("v_pr", "speed", source="rise of a rolling flank at the pitch point (closed form)")
def profile_rise(
    member_mean_radius: Num, turning_speed: Num, member_spiral: Num, flank_pressure_angle: Num
) -> Num:
    """Speed of either flank up its profile at the mean point; both members have the same."""
    normal = member_mean_radius * turning_speed * np.cos(member_spiral)
    return normal * np.sin(flank_pressure_angle)


@formula("v_le", "speed", source="part of the pitch-line speed along the tooth (closed form)")
def lengthwise_run(member_mean_radius: Num, turning_speed: Num, member_spiral: Num) -> Num:
    """Speed of a member's flank along its tooth at the mean point."""
    return member_mean_radius * turning_speed * np.sin(member_spiral)


@formula("v_s", "speed", source="difference of both lengthwise speeds (closed form)")
def lengthwise_sliding(pinion_lengthwise: Num, ring_lengthwise: Num) -> Num:
    """Sliding along the teeth at the mean point."""
    return np.abs(pinion_lengthwise - ring_lengthwise)


@formula("v_Σ", "speed", source="sum (closed form)")
def crossing_sum(pinion_crossing_speed: Num, ring_crossing_speed: Num) -> Num:
    """Sum of both flanks' speeds through the contact, which draws the oil in."""
    return pinion_crossing_speed + ring_crossing_speed


@dataclass(frozen=True)
class Flanks:
    """A pair at its mean point, in SI: load along the line, shape, speeds; steel and oil.

    ``slant`` is the angle of the line of contact from the length of the tooth; it and the line
    load come from a contact result, or are judged.
    """

    line_load: Num
    relative_radius: Num
    pinion_radius: Num
    ring_radius: Num
    pinion_spiral: Num
    ring_spiral: Num
    pressure_angle: Num
    slant: Num
    pinion_speed: Num
    ring_speed: Num
    contact_modulus: Num
    thermal_contact: Num
    roughness: Num
    oil_temperature: Num
    oil_viscosity: Num
    """Dynamic viscosity at that temperature."""


@dataclass(frozen=True)
class FlankHeat:
    """Friction, flash, K, body and integral temperature, K."""

    friction: Num
    flash: Num
    body: Num
    integral: Num


def flank_heat(x: Flanks) -> FlankHeat:
    """Heat at the mean point, which stands for the mean over the path: sliding hardly changes."""
    rise = profile_rise(x.pinion_radius, x.pinion_speed, x.pinion_spiral, x.pressure_angle)
    along = (
        lengthwise_run(x.pinion_radius, x.pinion_speed, x.pinion_spiral),
        lengthwise_run(x.ring_radius, x.ring_speed, x.ring_spiral),
    )
    pinion, ring = (crossing_speed(rise, v, x.slant) for v in along)
    friction = mean_tooth_friction(
        x.line_load,
        crossing_sum(pinion, ring),
        x.relative_radius,
        x.oil_viscosity,
        roughness_factor(x.roughness, x.relative_radius),
    )
    band = contact_half_width(x.line_load, x.relative_radius, x.contact_modulus)
    flash = flash_temperature(
        friction, x.line_load, lengthwise_sliding(*along), pinion, ring, band, x.thermal_contact
    )
    body = body_temperature(x.oil_temperature, flash)
    return FlankHeat(friction, flash, body, integral_temperature(body, flash))
