"""What a ratio costs in heat: the axle's oil at the cruise speed, and the clutch at the line.

Only hands values from formula to formula, on floats, on ratios by samples, and traced.
"""

from __future__ import annotations

from axlewright.build.axle_oil import AxleHeat, Cooling
from axlewright.build.machine import Machine
from axlewright.hypoid import efficiency, losses, oil_heat, teeth
from axlewright.hypoid.efficiency import AxleShape
from axlewright.hypoid.geometry import HypoidGeometry, pitch_cones
from axlewright.mechanics.oil import hot_oil_density
from axlewright.quantities.formula import Num
from axlewright.studies.ratio_road import Filled, Number, Numbers
from axlewright.studies.run_car import Driving
from axlewright.vehicle import gearing
from axlewright.vehicle.clutch import slip_heat
from axlewright.vehicle.grip import ring_torque
from axlewright.vehicle.road_load import road_load
from axlewright.vehicle.tire import road_speed

OIL = "oil_at_cruise"


def heat_numbers(x: Filled, heat: AxleHeat[Num], driven: Driving[Num], cruise: Num) -> Numbers:
    """Oil at the cruise speed, and the clutch's heat where a foot works it."""
    return oil_numbers(x, heat, cruise) | _clutch(x, driven)


def oil_numbers(x: Filled, heat: AxleHeat[Num], cruise: Num) -> Numbers:
    """Oil at the cruise speed, the heat behind it, and how soon it gets there."""
    m, bath = x.machine, heat.bath
    torque, ring = at_cruise(x, cruise)
    pinion = efficiency.pinion_speed_of(ring, m.gears.ratio)
    shape = axle_shape(m, heat)
    density = hot_oil_density(bath.density, bath.hottest)
    stirred = efficiency.stirring(shape, bath.viscosity_100, density, ring)
    steady = efficiency.steady_lost_power(
        losses.mesh_loss_power(torque, ring, shape.mesh_loss),
        efficiency.bearing_load_heat(shape, torque, ring, pinion),
        efficiency.seal_heat(shape, ring, pinion),
    )
    given_off = _conductance(m, heat.cooling, cruise)
    air = oil_heat.air_under_car(heat.cooling.air_temperature, heat.cooling.underbody_rise)
    oil = oil_heat.steady_oil_temperature(
        air, given_off, steady,
        efficiency.bearing_drag_heat(shape, bath.viscosity_100, ring, pinion),
        stirred.thick, stirred.thin, stirred.reynolds, bath.viscosity_40, bath.viscosity_100,
    )  # fmt: skip
    made = oil_heat.heat_given_off(oil, air, given_off)
    holds = oil_heat.heated_capacity(heat.cooling.heated_mass, bath.volume, bath.density)
    return {
        OIL: Number("Axle oil, steady at the cruise speed on a hot day", "temperature", oil),
        "axle_heat": Number("Heat that the axle makes at the cruise speed", "power", made),
        "axle_passes": Number(
            "Share of the power that the axle passes at the cruise speed", "ratio",
            efficiency.whole_axle_efficiency(torque, ring, made),
        ),
        "oil_warming": Number(
            "Time to two thirds of the oil's rise", "time",
            oil_heat.warming_time(holds, given_off),
        ),
    }  # fmt: skip


def at_cruise(x: Filled, cruise: Num) -> tuple[Num, Num]:
    """Torque and speed of the ring gear at a steady road speed."""
    m, radius = x.machine, x.launching.tire.radius
    resists = road_load(cruise, x.launching.body.air_drag, m.car.mass, m.use.rolling)
    return ring_torque(resists, radius), gearing.wheel_speed_on_road(cruise, radius)


def axle_shape(m: Machine[Num], heat: AxleHeat[Num]) -> AxleShape:
    """The axle as its losses see it, on the drive flank."""
    g, bath = m.gears, heat.bath
    cones = pitch_cones(
        g.pinion_teeth, g.ring_teeth, g.ring_diameter, g.face_width, g.offset, g.spiral_angle,
        g.cutter_radius, g.shaft_angle,
    )  # fmt: skip
    flank = teeth.drive_pressure_angle(g.pressure_angle, g.limit_share, cones.limit_pressure_angle)
    return AxleShape(
        ratio=g.ratio,
        ring_diameter=g.ring_diameter,
        face_width=g.face_width,
        mesh_loss=_mesh_loss(m, bath.tooth_friction, cones, flank),
        tooth_lever=losses.tooth_lever(cones.ring_mean_radius, cones.ring_mean_spiral, flank),
        bearing_drag_factor=bath.drag_factor,
        bearing_friction_factor=bath.friction_factor,
        pinion_bearing=bath.pinion_bearing,
        carrier_bearing=bath.carrier_bearing,
        pinion_load_share=bath.pinion_load_share,
        carrier_load_share=bath.carrier_load_share,
        pinion_preload=bath.pinion_preload,
        carrier_preload=bath.carrier_preload,
        pinion_seal=bath.pinion_seal,
        axle_seal=m.shaft.seat_diameter,
        seal_share=bath.seal_share,
        immersion=bath.immersion,
        oil_volume=bath.volume,
        churning_share=bath.churning_share,
    )


def _mesh_loss(m: Machine[Num], friction: Num, cones: HypoidGeometry, flank: Num) -> Num:
    g = m.gears
    up_and_down = losses.profile_sliding_ratio(
        losses.profile_loss_factor(
            teeth.virtual_teeth(g.pinion_teeth, cones.pinion_pitch_angle, cones.pinion_mean_spiral),
            teeth.virtual_teeth(g.ring_teeth, cones.ring_pitch_angle, cones.ring_mean_spiral),
            g.profile_contact_ratio,
        ),
        cones.pinion_mean_spiral,
        flank,
    )
    sliding = losses.mean_sliding_ratio(
        losses.sliding_ratio(cones.offset_angle, cones.ring_mean_spiral), up_and_down
    )
    return losses.drive_mesh_loss(friction, sliding, flank, cones.pinion_mean_spiral)


def _conductance(m: Machine[Num], c: Cooling[Num], cruise: Num) -> Num:
    """Heat given off per degree: as known, else by the air that crosses the case."""
    if c.conductance is not None:
        return c.conductance
    reynolds = oil_heat.air_reynolds(cruise, c.air_share, c.housing_diameter)
    film = oil_heat.air_film(
        oil_heat.crossflow_nusselt(reynolds, c.prandtl), c.housing_diameter, c.still_film
    )
    return oil_heat.oil_conductance(
        film, oil_heat.cooled_area(m.gears.ring_diameter, c.area_factor)
    )


def _clutch(x: Filled, driven: Driving[Num]) -> Numbers:
    m = x.machine
    if m.clutch is None:
        return {}
    through = gearing.driveline_efficiency(m.gearbox.efficiency, m.gears.efficiency)
    grabs = road_speed(
        driven.least_slip_speed, m.gearbox.ratios[0], m.gears.ratio, x.launching.tire.radius
    )
    return {
        "clutch_grabs": Number("Road speed to which the clutch slips, at least", "speed", grabs),
        "clutch_heat": Number(
            "Heat of the clutch in one launch, at least", "energy",
            slip_heat(m.car.mass, grabs, through),
        ),
    }  # fmt: skip
