"""The launching car: what the launch and the run read beyond the machine, generic in its leaves.

It stands apart from the machine, so that the load path neither samples nor lists what it does not
read.  Both trees share leaves, and a leaf is filled once by whoever fills both.  Symbols in
brackets are those of ``docs/launch-model.md``.  A damper is told as its damping time: stiffness
times damping time is the damper.
"""

from __future__ import annotations

from typing import Generic, TypeVar

from axlewright.quantities.records import branch

T = TypeVar("T")


@branch
class Curve(Generic[T]):
    """Full-throttle torque as it will be run; speeds rise, and the top is the machine's torque."""

    speeds: tuple[T, ...]
    torques: tuple[T, ...]
    motored_torque: T


@branch
class Coupling(Generic[T]):
    """How clutch or band slides [q], and where a converter stalls behind this engine [ω_s]."""

    slide_ratio: T
    stall_speed: T | None


@branch
class Spin(Generic[T]):
    """What spins: at the gearbox input for each gear [J_g], pinion [J_p], side gear, wheel."""

    input_inertia: tuple[T, ...]
    pinion_inertia: T
    side_gear_inertia: T
    wheel_inertia: T
    driveshaft_inertia: T
    """All of the driveshaft, at its own speed; it is counted in the lumps above already."""


@branch
class Twist(Generic[T]):
    """What twists and rattles: driveshaft [k_d β_d δ_d] and axle shafts [k_L k_R β_s δ_s]."""

    driveshaft_stiffness: T
    driveshaft_damping_time: T
    driveshaft_half_gap: T
    left_shaft_stiffness: T
    right_shaft_stiffness: T
    shaft_damping_time: T
    shaft_half_gap: T


@branch
class Tread(Generic[T]):
    """The tires as springs and as a curve of push over slip [r μ N_ref C B E σ k_t]."""

    radius: T
    grip: T
    grip_reference_load: T
    shape: T
    rise: T
    bend: T
    peak_slip: T
    relaxation_length: T
    vertical_stiffness: T
    """Both rear tires together."""
    vertical_damping_time: T


@branch
class Body(Generic[T]):
    """The car on its springs [m_a I_y I_x k_f k_r k_ρ λ_r] and in the air [D]."""

    axle_mass: T
    pitch_inertia: T
    roll_inertia: T
    front_stiffness: T
    front_damping_time: T
    rear_stiffness: T
    rear_damping_time: T
    roll_stiffness: T
    roll_damping_time: T
    rear_roll_share: T
    drag_area: T
    air_density: T
    air_drag: T


@branch
class Mount(Generic[T]):
    """How the axle hangs [g_r s_1 1/x_ic e k_x k_ψ J_ψ]."""

    kind: str
    roll_torque_share: T
    instant_center_ahead: T
    instant_center_height: T
    thrust_slope: T
    reaction_arm: T
    height: T
    stiffness: T
    damping_time: T
    windup_stiffness: T
    windup_damping_time: T
    housing_inertia: T


@branch
class Driver(Generic[T]):
    """What driver, road and track add."""

    throttle_rise: T
    brake_release: T
    trans_brake_release: T
    shift_time: T
    shift_speed: T
    wet_grip_share: T
    rollout: T
    lift_share: T
    """Engine speed at which the driver lifts, over that of the shift."""
    creep_speed: T
    """Road speed out of the burnout water."""
    patch_speed: T
    """Road speed at which spinning wheels come off a slick patch."""
    contact_length: T
    """Tread on the road: over so much way grip changes at an edge."""


@branch
class Launching(Generic[T]):
    """All of it, with the cautions of resolving it."""

    curve: Curve[T]
    coupling: Coupling[T]
    spin: Spin[T]
    twist: Twist[T]
    tire: Tread[T]
    body: Body[T]
    mount: Mount[T]
    driver: Driver[T]
    cautions: tuple[str, ...] = ()
