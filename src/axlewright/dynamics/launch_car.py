"""What the launch march reads: the car as lumps and springs, and what the driver does.

Every number is an SI float or an array with one value for each launch; all broadcast.  The
equations that use them are in ``docs/launch-model.md``, whose symbols stand in brackets here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from axlewright.quantities.formula import Array, Num


@dataclass(frozen=True)
class LaunchConverter:
    """A torque converter: the pump law at a rated stall, and the turbine behind it."""

    rated_stall_speed: Num
    """[ω_s] rad/s, speed at which the engine would stall behind the rated torque."""
    rated_stall_torque: Num
    """[T_s] N·m, that torque."""
    stall_torque_ratio: Num
    """Multiplication at stall."""
    turbine_inertia: Num
    """[J_t] kg·m², turbine and gearbox parts ahead of the inner clutch."""


@dataclass(frozen=True)
class LaunchCar:
    """Everything between crank and ground, in the gear that is used."""

    curve_speeds: Sequence[Num] | Array
    """rad/s, rising; first axis runs along the curve."""
    curve_torques: Sequence[Num] | Array
    """N·m at full throttle."""
    engine_inertia: Num
    """[J_e] kg·m², crank, flywheel and clutch cover, or crank, flexplate and pump."""
    rev_limit: Num
    """[ω_lim] rad/s."""
    motored_torque: Num
    """[T_motored] N·m, drag of the engine with the throttle shut."""
    converter: LaunchConverter | None
    """None for a foot clutch."""
    clutch_capacity: Num
    """[C_c] N·m at the gearbox input, clamped fully, sticking."""
    slide_ratio: Num
    """[q] sliding over sticking friction of that clutch."""
    input_inertia: Num
    """[J_g] kg·m², disc, gearbox, half of the driveshaft, at gearbox input speed."""
    gear_ratio: Num
    """[i_g]."""
    gearbox_efficiency: Num
    """[η_g]."""
    driveshaft_stiffness: Num
    """[k_d] N·m/rad, gearbox output to pinion."""
    driveshaft_damping_time: Num
    """[β_d] s."""
    driveshaft_half_gap: Num
    """[δ_d] rad, half of the free play before the pinion turns the ring gear."""
    pinion_inertia: Num
    """[J_p] kg·m², half of the driveshaft, pinion, ring gear and case, at pinion speed."""
    axle_ratio: Num
    """[i_a]."""
    axle_efficiency: Num
    """[η_a]."""
    left_shaft_stiffness: Num
    """[k_L] N·m/rad, side gear to hub."""
    right_shaft_stiffness: Num
    """[k_R] N·m/rad."""
    shaft_damping_time: Num
    """[β_s] s."""
    shaft_half_gap: Num
    """[δ_s] rad, half of the free play of side gears and splines."""
    side_gear_inertia: Num
    """[J_sg] kg·m², one side gear and the inner half of its shaft."""
    bias_ratio: Num
    """High over low side torque of the differential, 1 for an open one without friction."""
    differential_preload: Num
    """[T_pre] N·m."""
    locked: bool
    """A locker or spool: the side gears never turn in the case."""
    wheel_inertia: Num
    """[J_w] kg·m², one wheel with tire, brake and outer half of the shaft."""
    tire_radius: Num
    """[r] m, loaded and rolling alike."""
    tire_grip: Num
    """[μ] peak, at the reference load."""
    grip_reference_load: Num
    """[N_ref] N, load of one tire at which the grip was stated."""
    load_sensitivity: Num
    """[s] 1/N."""
    tire_shape: Num
    """[C]."""
    tire_rise: Num
    """[B]."""
    tire_bend: Num
    """[E]."""
    relaxation_length: Num
    """[σ] m."""
    rolling_resistance: Num
    """[c_rr]."""
    tire_vertical_stiffness: Num
    """[k_t] N/m, both tires."""
    tire_vertical_damping: Num
    """[c_t] N·s/m, both tires."""
    vehicle_mass: Num
    """[m] kg, all of it."""
    axle_mass: Num
    """[m_a] kg, housing, gears, wheels and tires."""
    rear_share: Num
    """Share of the car's weight on the rear tires, standing still."""
    wheelbase: Num
    """[a + b] m."""
    cg_height: Num
    """[h] m above ground."""
    track: Num
    """[t] m."""
    air_drag: Num
    """[D] kg/m, half of air density times drag area."""
    pitch_inertia: Num
    """[I_y] kg·m² of the body."""
    roll_inertia: Num
    """[I_x] kg·m² of the body."""
    front_stiffness: Num
    """[k_f] N/m, both front springs with their tires."""
    front_damping: Num
    """[c_f] N·s/m."""
    rear_stiffness: Num
    """[k_r] N/m, both rear springs, at the wheel."""
    rear_damping: Num
    """[c_r] N·s/m."""
    roll_stiffness: Num
    """[k_ρ] N·m/rad, front and rear together."""
    roll_damping: Num
    """[c_ρ] N·m·s/rad."""
    rear_roll_share: Num
    """[λ_r]."""
    roll_torque_share: Num
    """[g_r] share of the driveshaft torque that the links do not cancel."""
    thrust_slope: Num
    """[s_1] (z_ic − r)/x_ic."""
    reaction_arm: Num
    """[1/x_ic] 1/m; zero for links that are parallel."""
    mount_height: Num
    """[e] m, fore-aft mount above the axle line."""
    mount_stiffness: Num
    """[k_x] N/m, axle fore and aft."""
    mount_damping: Num
    """[c_x] N·s/m."""
    windup_stiffness: Num
    """[k_ψ] N·m/rad, housing about the axle line."""
    windup_damping: Num
    """[c_ψ] N·m·s/rad."""
    housing_inertia: Num
    """[J_ψ] kg·m², housing without wheels, about the axle line."""


@dataclass(frozen=True)
class Ramp:
    """Straight from one level to another: ``before`` until ``start``, then over ``duration``."""

    before: Num
    after: Num
    start: Num
    duration: Num


@dataclass(frozen=True)
class LaunchEvents:
    """How the launch begins and what the driver, the road and the brakes do."""

    duration: float
    """s, end of the march."""
    engine_speed: Num
    """rad/s at the start."""
    input_speed: Num
    """rad/s, turbine at the start (automatic); ignored with a foot clutch."""
    road_speed: Num
    """m/s at the start; gearbox, pinion and wheels turn with it, plus the slip below."""
    wheel_slip: Num
    """How much faster than the road the wheels turn at the start, over wheel speed (0 to < 1)."""
    throttle: Ramp
    second_throttle: Ramp
    """Counts from its own start; its ``before`` is not read."""
    clamp: Ramp
    """[c] share of the clutch capacity."""
    hold: Ramp
    """[H] N·m of the trans-brake at the gearbox input; its ``after`` is 0."""
    brakes: Ramp
    """[B] N·m of both rear brakes; its ``after`` is 0."""
    grip: Ramp
    """[γ] share of the tire grip."""
    heave: Num
    """[z] m of the body at the start."""
    pitch: Num
    """[θ] rad at the start; like heave beyond the steady state below."""
    axle_torque: Num = 0.0
    """[T_0] N·m that shafts, mounts and springs are wound by at the start, in a steady state."""
