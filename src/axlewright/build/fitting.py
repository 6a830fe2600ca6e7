"""What was measured for fit and angles, generic in its leaves; ``None`` where nobody measured.

It stands beside the machine, which takes from the same readings what nobody stated.  Lengths and
angles as in the keys of ``build/model_fit.py`` and its neighbours: field and key have the same
name.  What two readings together say better than each alone has been settled before: see
``docs/measuring.md``.
"""

from __future__ import annotations

from typing import Generic, TypeVar

from axlewright.quantities.records import branch, record

T = TypeVar("T")


@branch
class SideReadings(Generic[T]):
    """One side, from the wheel face of the old axle with its brake in place."""

    lip: T | None
    lip_at_bump: T | None
    lip_height: T | None
    inner: T | None
    inner_at_bump: T | None
    inner_up: T | None
    inner_ahead: T | None
    inner_thing: str | None
    roof: T | None
    pinion: T | None
    differential: T | None
    housing_end: T | None
    rail: T | None
    seat: T | None
    shock: T | None
    ground_to_center: T | None


@branch
class CarReadings(Generic[T]):
    """The whole car; clearances are what is wanted, not what there is."""

    old_hat: T | None
    face_to_face: T | None
    bare_to_bare: T | None
    end_to_end: T | None
    lip_to_lip: T | None
    inner_to_inner: T | None
    rail_to_rail: T | None
    bump: T | None
    droop: T | None
    lateral_shift: T
    outer_clearance: T
    inner_clearance: T
    moving_clearance: T
    floor_gap: T | None
    tank_gap: T | None
    exhaust_gap: T | None
    stop_gap: T | None
    hose_slack: T | None


@branch
class WheelSizes(Generic[T]):
    """The new wheel and tire; where backspace or offset is stated the other one follows."""

    rim_width: T | None
    rim_diameter: T
    backspace: T | None
    offset: T | None
    lip_width: T
    pad_thickness: T | None
    hub_bore: T | None
    section: T
    measuring_rim: T
    loaded_bulge: T
    diameter: T
    lip_height: T
    tread_width: T
    loaded_radius: T
    inner_radius: T | None
    spoke_back: T | None
    growth: T
    backspaces: tuple[T, ...]
    rim_widths: tuple[T, ...]
    tires: tuple[str, ...]


@branch
class EndStack(Generic[T]):
    """Housing end to wheel, one side; leaves that both sides share were taken alike."""

    brake_space: T | None
    hat: T | None
    spacer: T
    register: T | None
    register_height: T | None
    rotor_bore: T | None
    hat_inside: T | None
    flange_diameter: T | None
    flange_thickness: T | None
    stud_length: T | None
    stud_blank: T
    nut_thread: T | None
    bearing_pocket: T | None
    bearing_width: T | None
    bearing_to_flange: T | None
    backing_plate: T | None
    retainer: T | None
    retainer_lip: T
    gasket: T
    bolt_length: T | None
    bolts_across: T | None
    bolts_up: T | None
    bearing_bore: T | None
    rotor_depth: T | None
    rotor_thickness: T | None
    caliper_out: T | None
    caliper_slot: T | None
    bearing_shim: T
    drum_depth: T | None
    plate_face: T | None
    caliper_radius: T | None
    caliper_face: T | None
    access_hole: T | None
    access_radius: T | None
    socket: T
    end_flange: T | None
    retainer_nut: T | None
    stud_lead: T
    nut_sink: T
    nut_depth: T | None


@branch
class CentreSizes(Generic[T]):
    """The new axle's center, shafts and widths as far as they are known."""

    face_to_face: T | None
    bare_to_bare: T | None
    end_to_end: T | None
    left_half: T | None
    right_half: T | None
    pinion_left: T | None
    differential_left: T | None
    differential_gap: T | None
    spline_inner: T | None
    spline_outer: T | None
    shaft_float: T
    left_shaft: T | None
    right_shaft: T | None
    nose: T | None
    height_above: T | None
    depth_behind: T | None
    fill_hole_up: T | None
    shaft_spline: T | None
    fill_hole_behind: T | None
    bearing_ahead: T | None
    splines_engaged: T


@branch
class Spot(Generic[T]):
    """A point: forward of the axle line, left of the center plane, up from the ground."""

    forward: T
    left: T
    up: T


@branch
class BushStiffness(Generic[T]):
    """Stiffness of one bush along its link, and rates of the springs."""

    lower: T
    upper: T
    lateral: T
    arm: T
    leaf_rate: T
    leaf_sideways: T
    single_leaf: bool
    coil_rate: T


@branch
class AngleReadings(Generic[T]):
    """Slopes as the gauge showed them, and where the joints are."""

    gearbox: T | None
    driveshaft: T | None
    pinion: T | None
    floor: T
    gauge_zero: T
    gauge_error: T
    pinion_loaded: T | None
    pinion_rise: T
    gearbox_left: T | None
    pinion_left: T | None
    gearbox_plan: T
    pinion_plan: T
    joint_to_joint: T | None
    seal_to_joint: T | None
    gearbox_height: T | None
    pinion_height: T | None
    phase: T


@branch
class SlipReadings(Generic[T]):
    """The slip joint."""

    bottomed_reach: T | None
    reach: T | None
    gap: T
    spline_length: T | None
    spline_diameter: T | None
    least_engagement: T
    least_free: T


@branch
class TunnelReadings(Generic[T]):
    """Room round the center line of the driveshaft at its narrowest place."""

    ahead: T | None
    above: T | None
    below: T | None
    left: T | None
    right: T | None


@branch
class BrakeSizes(Generic[T]):
    """Both brakes and the parking brake; kinds are None where nobody said."""

    rear_kind: str | None
    front_kind: str
    rear_share: T
    rear_radius: T | None
    front_radius: T | None
    rear_piston_area: T | None
    front_piston_area: T | None
    rear_friction: T
    front_friction: T
    rear_drum_factor: T
    line_pressure: T
    knee_pressure: T | None
    knee_share: T
    parking: str
    parking_radius: T | None
    parking_factor: T | None
    lever_force: T
    lever_ratio: T
    wheel_lever_ratio: T
    cable_efficiency: T
    grade: T
    hose_free: T | None


@record
class Check:
    """Readings that must add up, held against each other; ``said`` is empty where they agree."""

    title: str
    freedom: int
    """How many readings there are beyond what is needed."""
    chance: float
    """Probability that honest readings close no better."""
    agree: bool
    unchecked: tuple[str, ...]
    """Readings in which no other one would show a mistake."""
    suspects: tuple[str, ...]
    errors: tuple[float, ...]
    """How far each suspect would be off if it is the one, in its SI unit."""
    explained_by: tuple[str, ...]
    would_tell: tuple[tuple[str, ...], ...]
    """Readings not taken yet that, taken together, would tell suspects apart; fewest first."""
    said: str


@branch
class Fitting(Generic[T]):
    """All of it, with what is not measured yet and the cautions of settling the rest."""

    state: str
    old_face: str
    end_play_aim: str | None
    car: CarReadings[T]
    left: SideReadings[T]
    right: SideReadings[T]
    wheel: WheelSizes[T]
    left_end: EndStack[T]
    right_end: EndStack[T]
    centre: CentreSizes[T]
    points: dict[str, Spot[T]]
    """By the name of the key; ``right_`` ones mirrored from the left where sides are alike."""
    bushes: BushStiffness[T]
    angles: AngleReadings[T]
    slip: SlipReadings[T]
    tunnel: TunnelReadings[T]
    brakes: BrakeSizes[T]
    missing: tuple[str, ...]
    """Keys of readings that nobody took, in the order of the worksheet."""
    worked_out: tuple[str, ...] = ()
    """Keys of readings that nobody took but that others leave no choice."""
    checks: tuple[Check, ...] = ()
    cautions: tuple[str, ...] = ()
