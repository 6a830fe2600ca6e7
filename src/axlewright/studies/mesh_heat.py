"""What the gear pair makes of power in heat: losses by part, the oil, and how hot the flanks get.

All loads are told at one speed, that of first gear at the shift, so that they rank alike; the oil
is as warm as a cruise on the hottest day leaves it.  Only hands values from formula to formula.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any, Generic, TypeVar

from axlewright.build.axle_oil import AxleHeat
from axlewright.build.launching import Launching
from axlewright.build.machine import Machine
from axlewright.build.resolve import Resolved
from axlewright.hypoid import efficiency, scuffing
from axlewright.hypoid.efficiency import AxleOil, AxleShape
from axlewright.hypoid.loaded.hertz import contact_half_width, contact_modulus
from axlewright.mechanics.oil import dynamic_viscosity, hot_oil_density, oil_viscosity
from axlewright.quantities.estimate import EXACT, Estimate, Filler, Leaf, Limits
from axlewright.quantities.formula import Num
from axlewright.quantities.records import branch
from axlewright.quantities.units import read
from axlewright.studies.ratio_ask import SPEEDS
from axlewright.studies.ratio_heat import OIL, at_cruise, axle_shape, oil_numbers
from axlewright.studies.ratio_road import Filled, filled
from axlewright.vehicle.gearing import wheel_speed_on_road
from axlewright.vehicle.tire import road_speed

T = TypeVar("T")
CRUISE = SPEEDS[-1]
"""Road speed at which the oil is worked out, as in the ratio study."""
_MEMORY = "usual figure, from memory"

LOST: dict[str, str] = {
    "mesh_heat": "heat of the teeth",
    "bearing_load_heat": "heat of the bearings by their load",
    "bearing_drag_heat": "heat of the bearings by their oil",
    "seal_heat": "heat of the seals",
    "churning_heat": "heat of stirring the oil",
    "lost_power": "all that the axle turns into heat",
}
PASSES = "share of the power that the axle passes"
OILS: dict[str, tuple[str, str]] = {
    "hot_day": ("temperature", f"axle oil, steady at {CRUISE} on the hottest day"),
    "mild_day": ("temperature", f"axle oil, steady at {CRUISE} on a mild day of 68 °F"),
    "warming": ("time", "time to two thirds of the oil's rise"),
    **{name: ("power", f"{means}, at {CRUISE} on the hottest day") for name, means in LOST.items()},
    "passes": ("ratio", f"{PASSES}, at {CRUISE} on the hottest day"),
}
HEATED: dict[str, tuple[str, str]] = {
    "flash": ("temperature rise", "flash of the flanks over their bodies, for ranking"),
    "body": ("temperature", "bodies of the teeth, for ranking"),
    "integral": ("temperature", "integral temperature of the flanks, for ranking"),
    "scuffing_rank": ("ratio", "scuffing temperature over that, in °C, for ranking"),
    "sliding": ("speed", "sliding of the flanks in the middle of the load"),
    "tooth_friction": ("ratio", "friction of the flanks by the formula for oiled teeth"),
}


@branch
class Judged(Generic[T]):
    """What is judged about oil, steel and flanks where no build says it."""

    cruise: T
    mild_air: T
    flank_roughness: T
    rig_stage: T
    structure: T
    conductivity: T
    density: T
    metal_heat: T
    youngs_modulus: T
    poisson_ratio: T


def judged() -> Judged[Leaf]:
    """The same, as inputs."""
    steel = "steel, handbook size (from memory)"
    return Judged(
        cruise=_input("cruise", CRUISE, "speed", "asked for", "Road speed for the oil."),
        mild_air=_input("mild_air", "68 °F", "temperature", "a mild day", "Air on a mild day."),
        flank_roughness=_input("flank_roughness", "0.4 to 1.2 um", "length", _MEMORY,
                               "Arithmetic mean roughness of lapped flanks, run in."),
        rig_stage=_input("rig_stage", "11 to 13", "count",
                         "axle oils for hypoids stand stage 12 or more (from memory)",
                         "Load stage of the gear-oil rig at which the oil failed."),
        structure=_input("structure", "1.0 to 1.25", "ratio",
                         "carburized 1, with phosphate 1.25 (from memory)",
                         "How the flanks' steel and skin stand scuffing."),
        conductivity=_input("conductivity", "45 W/m/K", "thermal conductivity", steel,
                            "Heat conductivity of the gears."),
        density=_input("density", "7850 kg/m^3", "density", steel, "Density of the gears."),
        metal_heat=_input("metal_heat", "480 J/kg/K", "specific heat", steel,
                          "Heat that the gears take up."),
        youngs_modulus=_input("youngs_modulus", "206 GPa", "modulus", steel, "Steel of the gears."),
        poisson_ratio=_input("poisson_ratio", "0.3", "ratio", steel, "Poisson's ratio of steel."),
    )  # fmt: skip


def _input(name: str, text: str, dimension: str, because: str, means: str) -> Estimate:
    reading = read(text, dimension)
    spread = Limits(reading.low, reading.high) if reading.has_limits else EXACT
    return Estimate(
        f"gear_pair.{name}", reading.value, dimension, spread, "assumed", because, means=means,
        text=text,
    )  # fmt: skip


@dataclass(frozen=True)
class Warmth:
    """The axle as a maker of heat: its shape and oil, the speed for ranking, tires, oil's warmth.

    ``oil`` holds the numbers of the cruise by the names of :data:`OILS`.
    """

    judged: Judged[Num]
    shape: AxleShape
    fill: AxleOil
    ring_speed: Num
    tire_radius: Num
    oil: dict[str, Num]


def warmth_of(resolved: Resolved, filler: Filler, m: Machine[Any]) -> Warmth:
    """Oil, speeds and shape of a machine filled by that filler."""
    launching: Launching[Num] = filler.tree(resolved.launching)
    heat: AxleHeat[Num] = filler.tree(resolved.axle_heat)
    known: Judged[Num] = filler.tree(judged())
    x = filled(m, launching)
    shape = axle_shape(m, heat)
    bath = heat.bath
    fill = AxleOil(bath.density, bath.viscosity_40, bath.viscosity_100)
    return Warmth(
        known, shape, fill, _ring_speed(x), launching.tire.radius,
        _oil(x, heat, known, shape, fill),
    )  # fmt: skip


def _ring_speed(x: Filled) -> Num:
    """Ring gear in first gear at the shift."""
    m, radius = x.machine, x.launching.tire.radius
    at = road_speed(x.launching.driver.shift_speed, m.gearbox.ratios[0], m.gears.ratio, radius)
    return wheel_speed_on_road(at, radius)


def _oil(
    x: Filled, heat: AxleHeat[Num], known: Judged[Num], shape: AxleShape, fill: AxleOil
) -> dict[str, Num]:
    hot = oil_numbers(x, heat, known.cruise)
    mild = replace(heat, cooling=replace(heat.cooling, air_temperature=known.mild_air))
    torque, speed = at_cruise(x, known.cruise)
    lost = efficiency.axle_losses(shape, fill, torque, speed, hot[OIL].value)
    return {
        "hot_day": hot[OIL].value,
        "mild_day": oil_numbers(x, mild, known.cruise)[OIL].value,
        "warming": hot["oil_warming"].value,
        **dict(_parts(lost)),
    }


def losses_of(w: Warmth, ring_torque: Num) -> Iterator[tuple[str, Num]]:
    """Losses by part under a load that drives, at the speed for ranking."""
    yield from _parts(
        efficiency.axle_losses(w.shape, w.fill, ring_torque, w.ring_speed, w.oil["hot_day"])
    )


def _parts(lost: efficiency.AxleLosses) -> Iterator[tuple[str, Num]]:
    yield "mesh_heat", lost.mesh
    yield "bearing_load_heat", lost.bearing_load
    yield "bearing_drag_heat", lost.bearing_drag
    yield "seal_heat", lost.seals
    yield "churning_heat", lost.churning
    yield "lost_power", lost.total
    yield "passes", lost.efficiency


@dataclass(frozen=True)
class Rubbing:
    """What a contact result says of the heat of its flanks.

    Line load and relative radius as means over the load; travels per radian of the ring gear:
    of the line of contact over either flank, and of one flank over the other.
    """

    line_load: Num
    radius: Num
    pinion_travel: Num
    ring_travel: Num
    sliding_travel: Num


def heated(w: Warmth, x: Rubbing) -> Iterator[tuple[str, Num]]:
    """Heat of the flanks under a load, at the speed for ranking: Blok's flash and the integral."""
    known, oil = w.judged, w.oil["hot_day"]
    thickness = dynamic_viscosity(
        oil_viscosity(oil, w.fill.viscosity_40, w.fill.viscosity_100),
        hot_oil_density(w.fill.density, oil),
    )
    pinion, ring, sliding = (
        scuffing.flank_speed(travel, w.ring_speed)
        for travel in (x.pinion_travel, x.ring_travel, x.sliding_travel)
    )
    friction = scuffing.mean_tooth_friction(
        x.line_load, scuffing.crossing_sum(pinion, ring), x.radius, thickness,
        scuffing.roughness_factor(known.flank_roughness, x.radius),
    )  # fmt: skip
    flash = scuffing.flash_temperature(
        friction, x.line_load, sliding, pinion, ring,
        contact_half_width(
            x.line_load, x.radius, contact_modulus(known.youngs_modulus, known.poisson_ratio)
        ),
        scuffing.thermal_contact(known.conductivity, known.density, known.metal_heat),
    )  # fmt: skip
    body = scuffing.body_temperature(oil, flash)
    integral = scuffing.integral_temperature(body, flash)
    stands = scuffing.scuffing_temperature(known.rig_stage, w.fill.viscosity_40, known.structure)
    yield "flash", flash
    yield "body", body
    yield "integral", integral
    yield "scuffing_rank", scuffing.scuffing_rank(stands, integral)
    yield "sliding", sliding
    yield "tooth_friction", friction
