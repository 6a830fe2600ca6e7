"""The machine: one frozen tree of everything the studies read, generic in its leaves.

As resolved its leaves are estimates; filled, they are floats, samples or traced floats.  What is
no quantity (a kind, a name, a count of gears) stands in it as plain text or numbers.
"""

from __future__ import annotations

from dataclasses import field
from typing import Generic, TypeVar

from axlewright.quantities.records import branch

T = TypeVar("T")


@branch
class Car(Generic[T]):
    """Weights and dimensions."""

    mass: T
    rear_share: T
    wheelbase: T
    cg_height: T
    track: T
    front_roll_share: T


@branch
class Engine(Generic[T]):
    """Engine as it will be run: peak torque at the flywheel, inertia, launch speed."""

    torque: T
    inertia: T
    rev_limit: T
    launch_speed: T
    boosted: bool
    boost: T | None
    barometer: T | None


@branch
class Clutch(Generic[T]):
    """A dry clutch."""

    capacity: T
    bite: T


@branch
class Converter(Generic[T]):
    """A torque converter and the automatic's inner clutches."""

    torque_ratio: T
    inertia: T
    band_capacity: T
    damping: T


@branch
class Gearbox(Generic[T]):
    """Ratios, first gear first."""

    kind: str
    ratios: tuple[T, ...]
    efficiency: T
    inertia: T
    torque_rating: T | None


@branch
class Steel(Generic[T]):
    """A steel with its heat treatment; hardness only where the surface is hardened."""

    name: str
    treatment: str
    yield_strength: T
    tensile_strength: T
    surface_hardness: T | None
    case_depth_share: T | None
    fatigue_coefficient: T | None
    fatigue_exponent: T | None
    strength_factor: T
    keeps: T


@branch
class Spline(Generic[T]):
    """An involute spline; diameters follow from the standard."""

    name: str
    root_form: str
    teeth: T
    pitch: T
    engagement: T
    misalignment: T
    share_of_teeth: T
    seated_teeth: T


@branch
class Driveshaft(Generic[T]):
    """Tube, slip spline and joints."""

    tube_diameter: T
    tube_wall: T
    length: T
    youngs_modulus: T
    density: T
    critical_share: T
    steel: Steel[T]
    slip: Spline[T]
    slip_steel: Steel[T]
    joint: UniversalJoint[T]
    joint_angle: T


@branch
class UniversalJoint(Generic[T]):
    """Cross and caps."""

    name: str
    cap_span: T
    trunnion_diameter: T
    trunnion_bore: T
    needle_diameter: T
    needle_length: T
    needles: T
    needle_gap: T
    surface_hardness: T
    strength_factor: T
    keeps: T


@branch
class GearSet(Generic[T]):
    """Ring and pinion."""

    name: str
    ring_teeth: T
    pinion_teeth: T
    ratio: T
    ring_diameter: T
    face_width: T
    offset: T
    spiral_angle: T
    cutter_radius: T
    pressure_angle: T
    efficiency: T
    shaft_angle: T
    limit_share: T
    profile_contact_ratio: T
    contact_length_ratio: T
    contact_constant: T
    one: T
    drive: T
    load_factor: T
    peak_bending: T
    overload_reserve: T
    endurance_bending: T
    peak_contact: T
    endurance_contact: T
    keeps: T


@branch
class Pinion(Generic[T]):
    """Pinion stem, its spline and its bearings."""

    stem_diameter: T
    spline: Spline[T]
    steel: Steel[T]
    support: str


@branch
class BoltGroup(Generic[T]):
    """Bolts on a circle."""

    size: str
    metric: bool
    count: T
    diameter: T
    threads: T
    circle: T
    tightening_torque: T
    nut_factor: T
    friction: T
    tensile_strength: T
    keeps: T


@branch
class Dowels(Generic[T]):
    """Dowels that share the shear of a bolt circle."""

    count: T
    diameter: T
    circle: T
    tensile_strength: T


@branch
class Differential(Generic[T]):
    """Differential class."""

    name: str
    locks: bool
    bias_ratio: T
    preload: T
    strength_share: T
    shock_share: T
    keeps: T


@branch
class AxleShaft(Generic[T]):
    """One axle shaft (both are alike until measured apart)."""

    name: str
    spline: Spline[T]
    steel: Steel[T]
    body_diameter: T
    seat_diameter: T
    hub_share: T
    hub_strength: T
    pressure_angle: T
    hub_form_factor: T
    bore: T
    length: T
    shear_modulus: T


@branch
class WheelEnd(Generic[T]):
    """How the wheel hangs on the axle."""

    floating: str
    retention: str
    lever: T
    flange_fillet: T
    jolt_factor: T
    bearing: str
    bearing_rating: T | None
    bearing_keeps: T
    side_grip: T
    brake_share: T
    brake_grip: T
    endurance_share: T
    endurance_jolt: T
    keeps: T


@branch
class Case(Generic[T]):
    """Case iron and the caps that hold the differential."""

    carrier: str
    iron: str
    brittle: T
    tensile_strength: T
    compressive_strength: T
    yield_strength: T
    strength_factor: T
    casting_notch: T
    no_stress: T
    bearing_span: T
    ring_side_share: T
    web_thickness: T
    web_height: T
    web_support: T
    cap_bore: T
    cap_bridge_share: T
    cap_width: T
    cap_thickness: T
    cap_bolt_spacing: T
    cap_bolts: BoltGroup[T]
    joint_share: T
    keeps: T
    caps_keep: T


@branch
class Held(Generic[T]):
    """What holds the axle, as it was measured: places as read, without their spread."""

    kind: str
    single_leaf: bool
    places: dict[str, T]
    """Points by name and axis, and bushes."""


@branch
class Housing(Generic[T]):
    """Axle tubes, how they sit in the centre, and what is welded to them."""

    tube_diameter: T
    tube_wall: T
    steel: Steel[T]
    joint: str
    press: T
    press_friction: T
    depth: T
    hub_diameter: T
    centre_modulus: T
    tube_modulus: T
    hub_poisson: T
    tube_poisson: T
    plug_count: T
    plug_diameter: T
    weld_strength: T
    round_weld_leg: T
    seat_inset: T
    reaction_share: T
    bracket_weld: T
    weld_leg: T
    joint_keeps: T
    tube_keeps: T
    bracket_keeps: T
    held: Held[T] | None = None
    """The links, where points were measured; else the tubes take their share by kind."""


@branch
class Tires(Generic[T]):
    """Rear tires."""

    size: str
    grip_class: str
    section_width: T
    aspect_ratio: T
    rim_diameter: T
    grip: T
    low_grip_share: T
    slide_share: T
    load_sensitivity: T
    wheel_inertia: T
    regrip_speed: T
    landing_factor: T


@branch
class Use(Generic[T]):
    """What the car does."""

    launch: str
    surface: str
    burnouts: bool
    launches: T
    rest: T
    shock_spread: T
    trailer: T
    grade: T
    rolling: T


@branch
class Machine(Generic[T]):
    """Everything between flywheel and ground."""

    name: str
    car: Car[T]
    engine: Engine[T]
    clutch: Clutch[T] | None
    converter: Converter[T] | None
    gearbox: Gearbox[T]
    driveshaft: Driveshaft[T]
    gears: GearSet[T]
    pinion: Pinion[T]
    ring_bolts: BoltGroup[T]
    ring_dowels: Dowels[T] | None
    differential: Differential[T]
    shaft: AxleShaft[T]
    wheel_end: WheelEnd[T]
    studs: BoltGroup[T]
    case: Case[T]
    housing: Housing[T]
    tires: Tires[T]
    use: Use[T]
    marched: dict[str, dict[str, T]] = field(default_factory=dict)
    """Where launches were marched in time: peak over the closed-form figure, by case and place."""
