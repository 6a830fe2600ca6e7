"""Shafts and splines: axle shafts, pinion stem, slip spline, driveshaft tube."""

from __future__ import annotations

from axlewright.build.machine import AxleShaft, Machine, Spline, Steel
from axlewright.driveline.margins import torque_margin
from axlewright.driveline.shares import real_capacity, torque_at_usage
from axlewright.mechanics import hardness, shafts, spline_handbook, splines
from axlewright.mechanics.fatigue import amplitude_of_shear, basquin_cycles, life_if_it_holds
from axlewright.mechanics.sizes import bore_of_tube, depth_of_case, scaled_length
from axlewright.mechanics.whirl import critical_speed, whirl_margin
from axlewright.quantities.formula import Num, greatest
from axlewright.studies.demand import Demand
from axlewright.studies.links.limit import Endurance, Limit, Link, at, torque_limit
from axlewright.vehicle.gearing import driveshaft_speed


def spline_root(spline: Spline[Num]) -> Num:
    """Root diameter of the external spline."""
    if spline.root_form == "flat":
        return splines.external_root_diameter_flat(spline.teeth, spline.pitch)
    return splines.external_root_diameter_fillet(spline.teeth, spline.pitch)


def torsion(steel: Steel[Num], diameter: Num, bore: Num) -> tuple[Num, Num]:
    """Torque at which a round section takes a set, and at which it twists off."""
    tensile = steel.tensile_strength
    if steel.surface_hardness is not None and steel.case_depth_share is not None:
        depth = depth_of_case(diameter, steel.case_depth_share)
        core_yield = hardness.shear_yield_by_distortion_energy(steel.yield_strength)
        case_yield = hardness.torsional_yield_at(steel.surface_hardness)
        core_break = hardness.shear_strength_of_steel(tensile)
        case_break = hardness.shear_strength_of_steel(
            hardness.tensile_strength_at(steel.surface_hardness)
        )
        gives = shafts.step_hardened_yield_torque(case_yield, core_yield, diameter, depth)
        breaks = shafts.step_hardened_plastic_torque(case_break, core_break, diameter, depth)
    else:
        shear_yield = hardness.shear_yield_by_distortion_energy(steel.yield_strength)
        gives = shafts.elastic_torque(shear_yield, diameter, bore)
        breaks = shafts.fully_plastic_torque(
            hardness.shear_strength_of_steel(tensile), diameter, bore
        )
    return _real(steel, gives), _real(steel, breaks)


def _real(steel: Steel[Num], capacity: Num) -> Num:
    return real_capacity(capacity, steel.strength_factor, steel.keeps)


def spline_limits(
    spline: Spline[Num], steel: Steel[Num], bore: Num, demands: dict[str, Num], where: str
) -> list[Limit]:
    """Root torsion, tooth shear and tooth bearing of a spline."""
    gives, breaks = torsion(steel, spline_root(spline), bore)
    pitch_diameter = splines.pitch_diameter(spline.teeth, spline.pitch)
    thickness = splines.tooth_thickness(spline.pitch)
    height = (
        splines.tooth_height_flat(spline.pitch)
        if spline.root_form == "flat"
        else splines.tooth_height_fillet(spline.pitch)
    )
    uneven = spline_handbook.load_distribution(spline.misalignment, spline.engagement)
    if steel.surface_hardness is not None:
        tooth_shear = hardness.shear_strength_of_steel(
            hardness.tensile_strength_at(steel.surface_hardness)
        )
        tooth_yield = hardness.tensile_yield_at(steel.surface_hardness)
    else:
        tooth_shear = hardness.shear_strength_of_steel(steel.tensile_strength)
        tooth_yield = steel.yield_strength
    sheared = splines.torque_at_tooth_shear(
        tooth_shear,
        uneven,
        spline.teeth,
        pitch_diameter,
        spline.engagement,
        thickness,
        spline.share_of_teeth,
    )
    crushed = splines.torque_at_tooth_bearing(
        tooth_yield,
        uneven,
        spline.teeth,
        pitch_diameter,
        spline.engagement,
        height,
        spline.seated_teeth,
    )
    return [
        torque_limit("takes a set", f"{where} twists at the root", gives, demands),
        torque_limit("breaks", f"{where} twists off at the root", breaks, demands),
        torque_limit("breaks", f"teeth of the {where} shear", _real(steel, sheared), demands),
        torque_limit("takes a set", f"teeth of the {where} crush", _real(steel, crushed), demands),
    ]


def launches(steel: Steel[Num], diameter: Num, bore: Num, peak: Num, rest: Num) -> Endurance | None:
    """Launches to a fatigue crack at this peak torque, from rest to peak each time."""
    if steel.fatigue_coefficient is None or steel.fatigue_exponent is None:
        return None
    amplitude = shafts.torsion_amplitude(peak, rest, diameter, bore)
    cycles = basquin_cycles(
        amplitude_of_shear(amplitude), steel.fatigue_coefficient, steel.fatigue_exponent
    )
    _, breaks = torsion(steel, diameter, bore)
    lasts = life_if_it_holds(cycles, torque_margin(breaks, peak))
    return Endurance("Launches to a fatigue crack at this peak", "count", lasts)


def worst_launch(d: Demand, place: str) -> Num:
    """Torque of the launch that will be made: the shock case if there is one, else steady."""
    launch = next(
        (c for c in d.cases[1:2] if c.kind == "shock" and c.case != "re-grip"), d.cases[0]
    )
    return launch.torques[place]


def axle_shaft(m: Machine[Num], d: Demand) -> Link:
    """The harder loaded axle shaft."""
    s: AxleShaft[Num] = m.shaft
    demands = at(d, "shaft")
    limits = spline_limits(s.spline, s.steel, s.bore, demands, "spline")
    gives, breaks = torsion(s.steel, s.body_diameter, s.bore)
    limits += [
        torque_limit("takes a set", "shank twists", gives, demands),
        torque_limit("breaks", "shank twists off", breaks, demands),
    ]
    limits.append(torque_limit("breaks", "hub of the side gear bursts", _hub(m), demands))
    loses_wheel = m.wheel_end.floating == "semi-floating" and m.wheel_end.retention == "clip"
    return Link(
        "axle_shaft",
        "Axle shafts",
        f"{s.name} ({s.steel.name})",
        tuple(limits),
        launches(s.steel, spline_root(s.spline), s.bore, worst_launch(d, "shaft"), m.use.rest),
        "a clip holds the shaft from inside: if it breaks, the wheel can leave the car"
        if loses_wheel
        else "drive is lost on that side; the wheel stays while its bearing holds it",
    )


def _hub(m: Machine[Num]) -> Num:
    """Shaft torque at which the splined hub of the side gear bursts."""
    s, t = m.shaft, m.shaft.spline
    pitch_diameter = splines.pitch_diameter(t.teeth, t.pitch)
    outside = scaled_length(splines.external_major_diameter(t.teeth, t.pitch), s.hub_share)
    wall = spline_handbook.hub_wall(outside, splines.internal_root_diameter_flat(t.teeth, t.pitch))
    at_break = torsion(s.steel, spline_root(t), s.bore)[1]
    stress = spline_handbook.hub_stress_at_rest(
        spline_handbook.hub_radial_burst(
            at_break, s.pressure_angle, pitch_diameter, wall, t.engagement
        ),
        spline_handbook.hub_tooth_tension(
            at_break, pitch_diameter, t.engagement, s.hub_form_factor
        ),
    )
    usage = spline_handbook.hub_usage(stress, s.hub_strength)
    return real_capacity(torque_at_usage(at_break, usage), m.gears.one, m.differential.keeps)


def pinion_stem(m: Machine[Num], d: Demand) -> Link:
    """Pinion stem and its yoke spline."""
    p = m.pinion
    demands = at(d, "driveshaft")
    limits = spline_limits(p.spline, p.steel, m.shaft.bore, demands, "pinion spline")
    gives, breaks = torsion(p.steel, p.stem_diameter, m.shaft.bore)
    limits += [
        torque_limit("takes a set", "stem twists", gives, demands),
        torque_limit("breaks", "stem twists off", breaks, demands),
    ]
    return Link(
        "pinion_stem",
        "Pinion stem",
        f"{p.spline.name} spline, {p.support} pinion",
        tuple(limits),
        launches(p.steel, p.stem_diameter, m.shaft.bore, worst_launch(d, "driveshaft"), m.use.rest),
        "drive is lost; broken pieces can lock the gears",
    )


def slip_spline(m: Machine[Num], d: Demand) -> Link:
    """Gearbox output spline and slip yoke."""
    s = m.driveshaft
    limits = spline_limits(s.slip, s.slip_steel, m.shaft.bore, at(d, "driveshaft"), "slip spline")
    return Link(
        "slip_spline",
        "Slip spline",
        f"{s.slip.name} spline",
        tuple(limits),
        None,
        "the front of the driveshaft drops: a loop must catch it",
    )


def driveshaft_tube(m: Machine[Num], d: Demand) -> Link:
    """Driveshaft tube in torsion, and its speed against whipping."""
    s = m.driveshaft
    bore = bore_of_tube(s.tube_diameter, s.tube_wall)
    gives, breaks = torsion(s.steel, s.tube_diameter, bore)
    demands = at(d, "driveshaft")
    whips_at = critical_speed(s.youngs_modulus, s.density, s.tube_diameter, bore, s.length)
    gear = greatest("gear in which the rev limit is reached", "i_g", "ratio",
                    top=m.gearbox.ratios[-1], direct=m.gears.one)  # fmt: skip
    fastest = driveshaft_speed(m.engine.rev_limit, gear)
    return Link(
        "driveshaft_tube",
        "Driveshaft tube",
        f"tube of {s.steel.name}",
        (
            torque_limit("takes a set", "tube twists", gives, demands),
            torque_limit("breaks", "tube twists off", breaks, demands),
        ),
        Endurance(
            "Safe speed before it whips over its speed at the rev limit in direct gear",
            "ratio",
            whirl_margin(whips_at, s.critical_share, fastest),
        ),
        "a loose shaft thrashes the floor: a loop must catch it",
        "Buckling of a thin tube and its end welds are not worked out.",
    )
