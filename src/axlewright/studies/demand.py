"""Demand: what torque and load reach each place between flywheel and ground, case by case.

Every value here is a float, an array of samples or a traced float; this code only hands values
from formula to formula.  Closed-form bounds stand for the launch until it is worked out in time.
"""

from __future__ import annotations

from dataclasses import field, replace

from axlewright.build.machine import Machine
from axlewright.driveline import differential as split
from axlewright.driveline.shares import shaft_torque
from axlewright.mechanics.shafts import stiffness_in_parallel, torsional_stiffness
from axlewright.quantities.formula import Num, greatest, least
from axlewright.quantities.records import branch
from axlewright.studies.launch_words import WORDS
from axlewright.vehicle import launch_bounds as bounds
from axlewright.vehicle.converter import turbine_torque
from axlewright.vehicle.engine import axle_torque, reflected_inertia
from axlewright.vehicle.gearing import (
    driveline_efficiency,
    gearbox_input_torque,
    overall_ratio,
    speed_gap_at_axle,
)
from axlewright.vehicle.grip import (
    AxleGrip,
    biasing_axle_grip,
    driveshaft_torque,
    locked_axle_grip,
    ring_torque,
)
from axlewright.vehicle.load_transfer import static_rear_load, vehicle_weight, wheels_up_force
from axlewright.vehicle.tire import free_diameter, rolling_radius, tire_torque
from axlewright.vehicle.wheels import (
    both_wheels_inertia,
    one_wheel_load,
    sliding_torque,
    struck_torque,
    torque_on_landing,
    wheel_thrust,
)

PLACES = ("flywheel", "driveshaft", "ring", "shaft")


@branch
class Standing:
    """The car before anything turns: weights, radius, and what its tires can push."""

    weight: Num
    rear_load: Num
    wheel_load: Num
    radius: Num
    grip: AxleGrip
    lift: Num
    ring_at_grip: Num
    efficiency: Num


@branch
class Loads:
    """One load case: torque at each place, and what each wheel pushes and carries."""

    case: str
    title: str
    means: str
    gear: int
    torques: dict[str, Num]
    wheel_load: Num
    wheel_thrust: Num
    kind: str = "shock"
    branches: dict[str, Num] = field(default_factory=dict)


@branch
class Demand:
    """All cases, the steady torques by gear, and the standing car."""

    standing: Standing
    gears: tuple[Loads, ...]
    cases: tuple[Loads, ...]
    places: dict[str, dict[str, Num]]
    """Torque at each place in every case that has torque."""


def standing(m: Machine[Num]) -> Standing:
    """Weights, rolling radius and the grip limit of the rear axle."""
    weight = vehicle_weight(m.car.mass)
    rear = static_rear_load(weight, m.car.rear_share)
    wheel = one_wheel_load(rear)
    diameter = free_diameter(m.tires.section_width, m.tires.aspect_ratio, m.tires.rim_diameter)
    radius = rolling_radius(diameter)
    given = {
        "vehicle_weight": weight,
        "static_rear_load": rear,
        "cg_height": m.car.cg_height,
        "wheelbase": m.car.wheelbase,
        "tire_radius": radius,
        "axle_ratio": m.gears.ratio,
        "track": m.car.track,
        "front_roll_share": m.car.front_roll_share,
        "tire_grip": m.tires.grip,
        "grip_reference_load": wheel,
        "load_sensitivity": m.tires.load_sensitivity,
    }
    if m.differential.locks:
        grip = locked_axle_grip(**given)
    else:
        grip = biasing_axle_grip(
            **given,
            bias_ratio=m.differential.bias_ratio,
            differential_preload=m.differential.preload,
        )
    lift = wheels_up_force(weight, rear, m.car.cg_height, m.car.wheelbase)
    push = least("push at the ground", "F_x", "force", grip=grip.drive_force, wheels_up=lift)
    return Standing(
        weight=weight,
        rear_load=rear,
        wheel_load=wheel,
        radius=radius,
        grip=grip,
        lift=lift,
        ring_at_grip=ring_torque(push, radius),
        efficiency=driveline_efficiency(m.gearbox.efficiency, m.gears.efficiency),
    )


def demand(m: Machine[Num]) -> Demand:
    """Work out every case."""
    car = standing(m)
    gears = tuple(steady(m, car, n) for n in range(1, len(m.gearbox.ratios) + 1))
    first = gears[0]
    cases = [first]
    launch = _launch(m, car, first)
    if launch is not None:
        cases.append(launch)
    cases += [_regrip(m, car, first), _one_wheel(m, car), _landing(m, car, first)]
    cases += _further(m, car, cases)
    cases += _road(m, car)
    places = {p: {c.case: c.torques[p] for c in cases if c.torques} for p in PLACES}
    return Demand(car, gears, tuple(cases), places)


def input_torque(m: Machine[Num], gear: int) -> Num:
    """Torque that enters the gearbox at full throttle, stalled in first if there is a converter."""
    if m.clutch is not None:
        return least(
            "torque through the clutch",
            "T_in",
            "torque",
            engine=m.engine.torque,
            clutch=m.clutch.capacity,
        )
    if m.converter is not None and gear == 1:
        multiplied = turbine_torque(m.engine.torque, m.converter.torque_ratio)
        return least(
            "torque out of the converter",
            "T_in",
            "torque",
            converter=multiplied,
            inner_clutches=m.converter.band_capacity,
        )
    return m.engine.torque


def axle_torque_in(m: Machine[Num], car: Standing, torque: Num, gear: int) -> Num:
    """A gearbox input torque seen at the ring gear."""
    return axle_torque(torque, m.gearbox.ratios[gear - 1], m.gears.ratio, car.efficiency)


def _places(m: Machine[Num], ring: Num, shaft: Num, gear: int) -> dict[str, Num]:
    """Torque at every place for a torque at the ring gear."""
    driveshaft = driveshaft_torque(ring, m.gears.ratio, m.gears.efficiency)
    flywheel = gearbox_input_torque(driveshaft, m.gearbox.ratios[gear - 1], m.gearbox.efficiency)
    return {"flywheel": flywheel, "driveshaft": driveshaft, "ring": ring, "shaft": shaft}


def steady(m: Machine[Num], car: Standing, gear: int) -> Loads:
    """Full throttle in a gear: engine or clutch against grip."""
    pushed = axle_torque_in(m, car, input_torque(m, gear), gear)
    branches = {"engine": pushed, "grip": car.ring_at_grip}
    ring = least(f"steady torque in gear {gear}", "T_r", "torque", **branches)
    share = split.side_share(car.grip.left_force, car.grip.right_force)
    shaft = shaft_torque(ring, share)
    return Loads(
        "steady",
        "Full throttle, steady",
        "Engine against grip in the gear that loads the axle most; nothing sudden.",
        gear,
        _places(m, ring, shaft, gear),
        car.grip.left_load,
        wheel_thrust(shaft, car.radius),
        "steady",
        branches,
    )


def shaft_pair_stiffness(m: Machine[Num]) -> Num:
    """Torsional stiffness of both axle shafts together."""
    one = torsional_stiffness(
        m.shaft.shear_modulus, m.shaft.length, m.shaft.body_diameter, m.shaft.bore
    )
    return stiffness_in_parallel(one, one)


def _shock(
    m: Machine[Num],
    car: Standing,
    ring: Num,
    steady_ring: Num,
    case: str,
    title: str,
    means: str,
    branches: dict[str, Num],
) -> Loads:
    if case in m.marched:
        ring = greatest("closed-form figure", "T_s", "torque", blow=ring, steady=steady_ring)
    else:
        ring = bounds.shock_as_likely(ring, m.use.shock_spread, steady_ring)
    shaft = shaft_torque(ring, m.differential.shock_share)
    thrust = car.grip.left_force  # wheel inertia takes the rest of a blow, not the ground
    return Loads(
        case,
        title,
        means,
        1,
        _in_time(m, case, _places(m, ring, shaft, 1)),
        car.grip.left_load,
        thrust,
        "shock",
        {} if case in m.marched else branches,
    )


def _in_time(m: Machine[Num], case: str, torques: dict[str, Num]) -> dict[str, Num]:
    """The torques that the march in time found, where it was made; else the closed-form ones."""
    found = m.marched.get(case)
    if found is None:
        return torques
    return {p: bounds.marched_torque(t, found[p]) for p, t in torques.items()}


def _further(m: Machine[Num], car: Standing, cases: list[Loads]) -> list[Loads]:
    """Cases that only the march in time can tell, laid over the closed-form case next to them."""
    known = {c.case: c for c in cases}
    under = dict.fromkeys(("gentle", "water", "lift-off"), known["steady"])
    if "shift" in m.marched:
        under["shift"] = steady(m, car, 2)
    return [
        replace(
            near,
            case=case,
            title=WORDS[case][0],
            means=WORDS[case][1],
            torques=_in_time(m, case, near.torques),
            kind="shock",
            branches={},
        )
        for case, near in under.items()
        if case in m.marched
    ]


def _impact(m: Machine[Num], rotor: Num, gap: Num) -> tuple[Num, Num, Num]:
    """Blow of a rotor at the gearbox input on the wheels: torque, its and the wheels' inertia."""
    train = reflected_inertia(rotor, overall_ratio(m.gearbox.ratios[0], m.gears.ratio))
    wheels = both_wheels_inertia(m.tires.wheel_inertia)
    pair = bounds.paired_inertia(train, wheels)
    return bounds.impact_torque(gap, shaft_pair_stiffness(m), pair), train, wheels


def _launch(m: Machine[Num], car: Standing, first: Loads) -> Loads | None:
    gap = speed_gap_at_axle(m.engine.launch_speed, m.gearbox.ratios[0], m.gears.ratio)
    ring = first.torques["ring"]
    if m.clutch is not None and m.use.launch == "gentle":
        return None
    if m.clutch is not None:
        factor = bounds.dump_factor(m.tires.grip, m.clutch.bite)
        held = axle_torque_in(m, car, m.clutch.capacity, 1)
        blow, _, _ = _impact(m, m.engine.inertia, gap)
        peak = bounds.clutch_dump_torque(factor, held, car.ring_at_grip, blow, ring)
        title = {"slip": "Slipped launch", "dump": "Clutch dump", "two-step": "Two-step launch"}[
            m.use.launch
        ]
        return _shock(
            m,
            car,
            peak,
            ring,
            m.use.launch,
            title,
            "Clutch let in at launch speed; how fast it bites decides the blow.",
            {"steady": ring, "blow": peak},
        )
    assert m.converter is not None
    if m.use.launch == "foot-brake":
        return replace(
            first,
            case="foot-brake",
            title="Brake-stall launch",
            means=WORDS["foot-brake"][1]
            if "foot-brake" in m.marched
            else "Wound up against the brakes, then let go: taken to bring the steady torque.",
            torques=_in_time(m, "foot-brake", first.torques),
            kind="shock" if "foot-brake" in m.marched else first.kind,
            branches={} if "foot-brake" in m.marched else first.branches,
        )
    stalled = axle_torque_in(m, car, input_torque(m, 1), 1)
    if m.use.launch == "trans-brake":
        _, train, wheels = _impact(m, m.converter.inertia, gap)
        released = bounds.converter_release_torque(
            stalled, car.ring_at_grip, train, wheels, bounds.overshoot_factor(m.converter.damping)
        )
        peak = greatest("release against steady", "T_c", "torque", release=released, steady=ring)
        return _shock(
            m,
            car,
            peak,
            ring,
            "trans-brake",
            "Trans-brake release",
            "Full stall torque let go at once: the shafts wind up and overshoot.",
            {"steady": ring, "release": released},
        )
    if m.use.launch == "neutral drop":
        bands = axle_torque_in(m, car, m.converter.band_capacity, 1)
        blow, _, _ = _impact(m, m.converter.inertia, gap)
        peak = bounds.neutral_drop_torque(bands, stalled, blow)
        return _shock(
            m,
            car,
            peak,
            ring,
            "neutral drop",
            "Neutral drop",
            "Put into gear at speed: the turbine is stopped by clutches inside.",
            {"steady": ring, "drop": peak},
        )
    return None


def _regrip(m: Machine[Num], car: Standing, first: Loads) -> Loads:
    """Spinning wheels find grip: hop, or out of the water onto dry."""
    sliding = sliding_torque(car.ring_at_grip, m.tires.slide_share)
    steady_ring = first.torques["ring"]
    spinning = least("torque while spinning", "T_0", "torque", sliding=sliding, engine=steady_ring)
    if m.clutch is not None:
        blow, train, wheels = _impact(m, m.engine.inertia, m.tires.regrip_speed)
    else:
        assert m.converter is not None
        blow, train, wheels = _impact(m, m.converter.inertia, m.tires.regrip_speed)
    arrested = bounds.regrip_torque(spinning, car.ring_at_grip, blow, train, wheels)
    if m.clutch is not None:
        light, _, _ = _impact(m, m.gearbox.inertia, m.tires.regrip_speed)
        held = struck_torque(axle_torque_in(m, car, m.clutch.capacity, 1), light)
        arrested = least("re-grip", "T_g", "torque", train=arrested, clutch_slips=held)
    peak = greatest("re-grip against steady", "T_g", "torque", re_grip=arrested, steady=steady_ring)
    return _shock(
        m,
        car,
        peak,
        steady_ring,
        "re-grip",
        "Re-grip",
        "Spinning wheels find grip (hop, or water to dry) and stop the train behind them.",
        {"steady": steady_ring, "re-grip": arrested},
    )


def _one_wheel(m: Machine[Num], car: Standing) -> Loads:
    """One wheel grips, the other slips: most of the torque on one shaft."""
    pushed = axle_torque_in(m, car, input_torque(m, 1), 1)
    held = tire_torque(m.tires.grip, car.grip.left_load, car.radius)
    slick = sliding_torque(held, m.tires.low_grip_share)
    if m.differential.locks:
        shaft = split.one_wheel_locked(pushed, slick, held)
    else:
        shaft = split.one_wheel_biasing(
            pushed, slick, held, m.differential.bias_ratio, m.differential.preload
        )
    low = least("torque of the slipping wheel", "T_l", "torque", slipping=slick, shared=shaft)
    ring = struck_torque(shaft, low)
    return Loads(
        "one wheel",
        "One wheel grips",
        "One wheel on grip, the other slipping; a locked axle puts most on one shaft.",
        1,
        _places(m, ring, shaft, 1),
        car.grip.left_load,
        wheel_thrust(shaft, car.radius),
        "steady",
        {"engine": pushed, "grip of one wheel": held},
    )


def _landing(m: Machine[Num], car: Standing, first: Loads) -> Loads:
    steady_ring = first.torques["ring"]
    rotor = m.engine.inertia if m.clutch is not None else m.converter.inertia  # type: ignore[union-attr]
    blow, _, _ = _impact(m, rotor, m.tires.regrip_speed)
    pushed = axle_torque_in(m, car, input_torque(m, 1), 1)
    held = bounds.landing_torque(m.tires.grip, m.tires.landing_factor, car.weight, car.radius)
    ring = torque_on_landing(car.grip.front_load, held, struck_torque(pushed, blow), steady_ring)
    return _shock(
        m,
        car,
        ring,
        steady_ring,
        "landing",
        "Wheels-up landing",
        "Only if the front wheels lift: the car comes down under power.",
        {"steady": steady_ring, "landing": held},
    )


def _road(m: Machine[Num], car: Standing) -> list[Loads]:
    """Loads without torque: bump, corner, hard stop."""
    del m
    return [
        Loads(case, title, means, 0, {}, car.wheel_load, car.wheel_load, "road")
        for case, title, means in (
            ("bump", "Hard bump", "One wheel jolted on a bad road."),
            ("corner", "Sliding corner", "Rear tires sliding sideways, outer wheel loaded."),
            ("brake", "Hard stop", "Rear brakes at their limit."),
        )
    ]
