"""How warm the axle's oil gets: heat made against heat carried off.

The case gives heat to the air that the car pushes under itself.  How fast that air is, and how
much of the tubes helps, nobody knows of a car before it is measured; so the result is a band and
never a promise.  Marks of the trade, all from memory: below 220 to 250 °F is where one wants it,
275 °F is a reason to stop and cool down, 300 °F ruins oil and seals.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

WANTED, ALARM, STOP = 394.26, 408.15, 422.04
"""250, 275 and 300 °F in kelvin (the trade's marks, from memory)."""
_STEPS, _CLOSE = 80, 1e-7
"""Most steps of the search for the balance; it ends sooner where all are so close, K."""
_AIR = "air at 330 K: 18.9e-6 m²/s and 0.0285 W/(m·K) (from memory)"


@formula("Re_a", "ratio", source=f"definition (closed form); {_AIR}")
def air_reynolds(road_speed: Num, air_share: Num, housing_diameter: Num) -> Num:
    """How turbulent the air round the case is."""
    return road_speed * air_share * housing_diameter / 18.9e-6


@formula(
    "Nu",
    "ratio",
    source="Churchill & Bernstein (1977), cylinder in cross flow (read in a worked page)",
    valid={"air_reynolds": (0.3, 1e7)},
    outside="slower or faster air than the correlation was drawn through",
)
def crossflow_nusselt(air_reynolds: Num, prandtl: Num) -> Num:
    """Heat that crossing air takes from a cylinder over what still air would by conduction."""
    slow = 0.62 * np.sqrt(air_reynolds) * prandtl ** (1.0 / 3.0)
    thin = (1.0 + (0.4 / prandtl) ** (2.0 / 3.0)) ** 0.25
    rough = (1.0 + (air_reynolds / 282000.0) ** 0.625) ** 0.8
    result: Num = 0.3 + slow / thin * rough
    return result


@formula("h_a", "film coefficient", source=f"definition (closed form); {_AIR}")
def air_film(nusselt: Num, housing_diameter: Num, still_film: Num) -> Num:
    """Heat that a surface gives off per area and degree, radiation and still air included."""
    return nusselt * 0.0285 / housing_diameter + still_film


@formula("A_h", "area", source="cases of one shape (closed form)")
def cooled_area(ring_diameter: Num, cooled_area_factor: Num) -> Num:
    """Outside of the case, and of as much of the tubes as gets warm."""
    return cooled_area_factor * ring_diameter * ring_diameter


@formula("G_h", "thermal conductance", source="definition (closed form)")
def oil_conductance(film_coefficient: Num, cooled_area: Num) -> Num:
    """Heat that the axle gives off per degree that its oil is over the air."""
    return film_coefficient * cooled_area


@formula("θ_u", "temperature", source="sum (closed form)")
def air_under_car(air_temperature: Num, underbody_rise: Num) -> Num:
    """Air that reaches the axle: the day's, warmed by exhaust and gearbox."""
    return air_temperature + underbody_rise


@formula(
    "θ_o",
    "temperature",
    kind="solve",
    source="heat made equal to heat given off; bearings take ν^⅔, stirring as its two laws"
    " (derived)",
)
def steady_oil_temperature(
    air_temperature: Num,
    oil_conductance: Num,
    steady_heat: Num,
    bearing_drag_heat: Num,
    thick_churning_heat: Num,
    thin_churning_heat: Num,
    churning_reynolds: Num,
    viscosity_40: Num,
    viscosity_100: Num,
) -> Num:
    """Temperature at which the oil stays, if speed, load and weather do.

    ``steady_heat`` does not change with temperature; the other heats and the Reynolds number are
    given at 100 °C and follow the oil's viscosity from there.
    """
    heats = (steady_heat, bearing_drag_heat, thick_churning_heat, thin_churning_heat)
    thick = np.log10(np.log10(1e6 * viscosity_40 + 0.7))
    slope = (np.log10(np.log10(1e6 * viscosity_100 + 0.7)) - thick) / np.log10(373.15 / 313.15)

    def over(temperature: Num) -> Num:
        level = thick + slope * np.log10(temperature / 313.15)
        thicker = (1e-6 * (10.0**10.0**level - 0.7)) / viscosity_100
        return oil_conductance * (temperature - air_temperature) - _heat(
            thicker, churning_reynolds, *heats
        )

    low, at_low = air_temperature, over(air_temperature)
    high = air_temperature + (thin_churning_heat - at_low) / oil_conductance  # more is never made
    last, at_last = low, at_low
    now = np.minimum(high, air_temperature + sum(heats) / oil_conductance)
    for _ in range(_STEPS):
        at_now = over(now)
        hot = at_now > 0.0
        low, high = np.where(hot, low, now), np.where(hot, now, high)
        rise = at_now - at_last
        wanted = now - at_now * (now - last) / np.where(rise != 0.0, rise, np.inf)
        last, at_last = now, at_now
        now = np.where((wanted >= low) & (wanted <= high), wanted, 0.5 * (low + high))
        if np.all(np.abs(now - last) < _CLOSE):
            break
    result: Num = np.where(np.abs(now - last) < _CLOSE, now, np.nan)[()]
    return result


def _heat(thicker: Num, reynolds: Num, steady: Num, bearings: Num, thick: Num, thin: Num) -> Num:
    """All heat where the oil is so much thicker than at 100 °C."""
    along = np.clip((reynolds / thicker - 6000.0) / 3000.0, 0.0, 1.0)
    stirred = thick * thicker**0.21
    heat: Num = steady + bearings * thicker ** (2.0 / 3.0) + stirred + along * (thin - stirred)
    return heat


@formula("P_h", "power", source="what is given off in balance (closed form)")
def heat_given_off(oil_temperature: Num, air_temperature: Num, oil_conductance: Num) -> Num:
    """Heat that the axle gives off."""
    return oil_conductance * (oil_temperature - air_temperature)


@formula(
    "C_h",
    "heat capacity",
    source="iron 480 J/(kg·K), oil 2000 J/(kg·K) (handbook values, from memory)",
)
def heated_capacity(heated_mass: Num, oil_volume: Num, oil_density: Num) -> Num:
    """Heat that iron and oil take up for a degree."""
    return 480.0 * heated_mass + 2000.0 * oil_volume * oil_density


@formula("τ_h", "time", source="one lump that cools by its difference to the air (closed form)")
def warming_time(heated_capacity: Num, oil_conductance: Num) -> Num:
    """Time in which the oil covers 63 % of the way to its steady temperature.

    Longer than it really takes from cold, for cold oil makes more heat.
    """
    return heated_capacity / oil_conductance


@formula("G_h", "thermal conductance", source="the same lump, turned round (closed form)")
def measured_conductance(heated_capacity: Num, cooling_time: Num) -> Num:
    """Heat given off per degree, from a timed cooling: to 37 % of the start's difference to air."""
    return heated_capacity / cooling_time
