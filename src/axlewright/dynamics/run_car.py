"""What the run down the strip reads: car, driver and strip as plain numbers, packed for the march.

Every number is an SI float or an array with one value for each run; all broadcast.  The equations
that use them are in ``docs/run-model.md``, whose symbols stand in brackets here.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from axlewright.dynamics.launch_car import LaunchConverter
from axlewright.quantities.formula import Array, Num
from axlewright.vehicle.converter import (
    relative_pump_torque,
    scaled_torque_ratio,
    typical_torque_ratio,
)
from axlewright.vehicle.grip import biasing_axle_grip, locked_axle_grip
from axlewright.vehicle.load_transfer import static_rear_load, vehicle_weight, wheels_up_force

FOOT = 0.3048


@dataclass(frozen=True)
class RunCar:
    """Everything that decides a run: engine, gears, tires, weight, air, and how it is driven."""

    curve_speeds: Sequence[Num] | Array
    """rad/s, rising; first axis runs along the curve."""
    curve_torques: Sequence[Num] | Array
    """N·m at full throttle and full boost."""
    boost_time: Num
    """[τ_b] s, time constant with which boost comes; 0 for an engine without."""
    boost_floor: Num
    """[φ_b] share of the torque that is there before any boost."""
    engine_inertia: Num
    """[J_e] kg·m², crank, flywheel and clutch cover, or crank, flexplate and pump."""
    rev_limit: Num
    """[ω_lim] rad/s."""
    shift_speed: Num
    """[ω_sh] rad/s, engine speed at which the next gear is taken."""
    shift_time: Num
    """[d_sh] s."""
    shift_share: Num
    """[σ] share of the torque that comes through during a shift: 0 with a foot clutch."""
    shift_flare: Num
    """[f_sh] share of the speed drop that the clutch still has to take out after a shift."""
    gear_ratios: Sequence[Num]
    """[i_g] first gear first."""
    gearbox_efficiency: Num
    """[η_g]."""
    axle_ratio: Num
    """[i_a]."""
    axle_efficiency: Num
    """[η_a]."""
    clutch_capacity: Num
    """[C] N·m at the gearbox input; with a converter, that of its lock-up clutch."""
    launch_share: Num
    """[c] share of the capacity that the driver's foot lets through at the launch."""
    launch_speed: Num
    """[ω_0] rad/s, engine speed at the start; the driver lets it rise no further while slipping."""
    least_slip_speed: Num
    """[ω_1] rad/s, below which the driver does not let the engine be pulled while slipping."""
    converter: LaunchConverter | None
    """None for a foot clutch."""
    lockup_gear: int
    """Gear from which the converter locks (2 or more); 0 for one that never does."""
    input_inertia: Num
    """[J_g] kg·m², disc and gearbox at gearbox input speed (with a converter beside J_t)."""
    driveshaft_inertia: Num
    """[J_d] kg·m², driveshaft and pinion at driveshaft speed."""
    driven_inertia: Num
    """[J_w] kg·m², both driven wheels, shafts and ring gear."""
    rolling_inertia: Num
    """[J_f] kg·m², both wheels that are not driven."""
    tire_radius: Num
    """[r] m."""
    tire_grip: Num
    """[μ] peak, at the reference load."""
    grip_reference_load: Num
    """[N_ref] N."""
    load_sensitivity: Num
    """[s_N] 1/N."""
    slide_share: Num
    """[q] share of the peak grip that this driver gets while the engine has more than that."""
    locked: bool
    """A locker or spool."""
    bias_ratio: Num
    """High over low side torque of the differential, 1 for an open one without friction."""
    differential_preload: Num
    """[T_pre] N·m."""
    track: Num
    """[t] m."""
    front_roll_share: Num
    """[κ_f] share of the driveshaft torque that unloads a tire; 0 for independent suspension."""
    vehicle_mass: Num
    """[m] kg."""
    rear_share: Num
    """Share of the weight on the rear tires, standing still."""
    wheelbase: Num
    """[L] m."""
    cg_height: Num
    """[h] m."""
    pitch_time: Num
    """[τ] s, time constant with which load reaches the rear tires; 0 for at once."""
    drag_area: Num
    """[C_dA] m²."""
    air_density: Num
    """[ρ] kg/m³."""
    rolling_resistance: Num
    """[c_rr]."""
    rollout: Num
    """[x_0] m that the car moves before the clock starts; less than 60 ft."""


LANE = np.dtype(
    [(name, np.float64) for name in (
        "boost_time", "boost_floor", "engine_inertia", "rev_limit", "shift_speed", "shift_time",
        "shift_share", "shift_flare", "clutch", "launch_torque", "launch_speed", "least_speed",
        "pump_rate", "turbine_inertia", "lockup_gear", "input_inertia", "shaft_inertia",
        "driven_inertia", "road_mass", "radius", "efficiency", "grip", "fresh", "sensitivity",
        "slide", "bias", "bias_force", "roll", "weight", "rear", "pitch_rate", "transfer",
        "wheels_up", "steady", "steady_slide", "drag", "rolling", "rollout",
    )]
)  # fmt: skip
"""One run as the march reads it; masses, forces and torques at the place where they are used."""


class Packed(NamedTuple):
    """Runs side by side for the march: one row a run."""

    shape: tuple[int, ...]
    lanes: NDArray[np.void]  # (n,) of LANE
    ratios: Array  # (n, gears), gear times axle
    curve: Array  # (n, 3, points): speeds, torques, torque over speed to the next point
    fluid: Array  # (n, 2, 21): torque ratio and relative pump torque, speed ratio by 0.05


_BENDS = np.array([0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.95, 1.0])
_STEPS = np.linspace(0.0, 1.0, 21)


def _pump_curve() -> Array:
    at = np.asarray(relative_pump_torque(_BENDS), dtype=np.float64)
    at[10] = 0.5 * (at[10] + relative_pump_torque(0.9 - 1e-12))  # the branches do not meet
    curve: Array = np.interp(_STEPS, _BENDS, at)
    return curve


def _ratio_curve(stall_ratio: Array) -> Array:
    typical = typical_torque_ratio(_BENDS)
    at = np.asarray(scaled_torque_ratio(typical, stall_ratio[:, None], _BENDS), dtype=np.float64)
    at[:, 10] = 0.5 * (at[:, 10] + scaled_torque_ratio(
        typical_torque_ratio(0.9 - 1e-12), stall_ratio, 0.9))  # fmt: skip
    # Every bend stands on the grid of steps, so reading between steps is reading between bends.
    right = np.searchsorted(_BENDS, _STEPS - 1e-9).clip(1)
    share = (_STEPS - _BENDS[right - 1]) / (_BENDS[right] - _BENDS[right - 1])
    curve: Array = at[:, right - 1] * (1.0 - share) + at[:, right] * share
    return curve


def pack(car: RunCar) -> Packed:
    """Broadcast everything to one shape and lay it out run by run."""
    check(car)
    curve = [np.asarray(c, dtype=np.float64) for c in (car.curve_speeds, car.curve_torques)]
    columns = {k: np.asarray(v, dtype=np.float64) for k, v in _columns(car).items()}
    leaves = [*columns.values(), *(np.asarray(g, dtype=np.float64) for g in car.gear_ratios)]
    if car.converter is not None:
        leaves.append(np.asarray(car.converter.stall_torque_ratio, dtype=np.float64))
    shape = np.broadcast_shapes(*(x.shape for x in leaves), *(c.shape[1:] for c in curve))

    def rows(values: Sequence[Array]) -> Array:
        return np.stack([np.broadcast_to(v, shape).ravel() for v in values], axis=1)

    lanes = np.zeros(math.prod(shape), LANE)
    for name, values in columns.items():
        lanes[name] = np.broadcast_to(values, shape).ravel()
    ratios = rows([np.asarray(g * car.axle_ratio, dtype=np.float64) for g in car.gear_ratios])
    stall = np.ones(len(lanes))
    if car.converter is not None:
        stall = np.broadcast_to(car.converter.stall_torque_ratio, shape).ravel()
    speeds, torques = rows(list(curve[0])), rows(list(curve[1]))
    slopes = np.diff(torques) / np.diff(speeds)
    engine = np.stack([speeds, torques, np.pad(slopes, ((0, 0), (0, 1)))], axis=1)
    ratio = _ratio_curve(stall)
    fluid = np.stack([ratio, np.broadcast_to(_pump_curve(), ratio.shape)], axis=1)
    return Packed(shape, lanes, ratios, np.ascontiguousarray(engine), np.ascontiguousarray(fluid))


def _columns(car: RunCar) -> dict[str, Num]:
    """Parameters by their names in :data:`LANE`."""
    weight = vehicle_weight(car.vehicle_mass)
    rear = static_rear_load(weight, car.rear_share)
    radius = car.tire_radius
    steady, slid = _steady_grip(car, weight, rear)
    found: dict[str, Num] = {
        name: getattr(car, name)
        for name in (
            "boost_time", "boost_floor", "engine_inertia", "rev_limit", "shift_speed",
            "shift_time", "shift_share", "shift_flare", "launch_speed", "input_inertia",
            "driven_inertia", "rollout",
        )
    }  # fmt: skip
    found |= {
        "clutch": car.clutch_capacity,
        "launch_torque": car.launch_share * car.clutch_capacity,
        "least_speed": car.least_slip_speed,
        "lockup_gear": float(car.lockup_gear),
        "shaft_inertia": car.driveshaft_inertia * car.axle_ratio * car.axle_ratio,
        "road_mass": car.vehicle_mass + car.rolling_inertia / (radius * radius),
        "radius": radius,
        "efficiency": car.gearbox_efficiency * car.axle_efficiency,
        "grip": car.tire_grip,
        "fresh": 1.0 + car.load_sensitivity * car.grip_reference_load,
        "sensitivity": car.load_sensitivity,
        "slide": car.slide_share,
        "bias": 1e30 if car.locked else car.bias_ratio,
        "bias_force": car.differential_preload / radius,
        "roll": radius * car.front_roll_share / (car.axle_ratio * car.track),
        "weight": weight,
        "rear": rear,
        "pitch_rate": _rate(car.pitch_time),
        "transfer": car.cg_height / car.wheelbase,
        "wheels_up": wheels_up_force(weight, rear, car.cg_height, car.wheelbase),
        "steady": steady,
        "steady_slide": slid,
        "drag": 0.5 * car.air_density * car.drag_area,
        "rolling": car.rolling_resistance * weight,
    }
    if car.converter is not None:
        fluid, stall = car.converter, car.converter.rated_stall_speed
        found["pump_rate"] = fluid.rated_stall_torque / (stall * stall)
        found["turbine_inertia"] = fluid.turbine_inertia
    return found


def _rate(time: Num) -> Num:
    """Rate of a lag; 0 stands for a lag that is none."""
    slow = np.asarray(time, dtype=np.float64)
    result: Num = np.where(slow > 0.0, 1.0 / np.where(slow > 0.0, slow, 1.0), 0.0)[()]
    return result


def _steady_grip(car: RunCar, weight: Num, rear: Num) -> tuple[Num, Num]:
    """Push at the limit, and at this driver's share of it, where load follows at once."""
    if not np.any(np.asarray(car.pitch_time) <= 0.0):
        return 0.0, 0.0
    found: list[Num] = []
    for share in (1.0, car.slide_share):
        common = (
            weight, rear, car.cg_height, car.wheelbase, car.tire_radius, car.axle_ratio,
            car.track, car.front_roll_share, car.tire_grip * share, car.grip_reference_load,
            car.load_sensitivity,
        )  # fmt: skip
        if car.locked:
            found.append(locked_axle_grip(*common).drive_force)
        else:
            side = (car.bias_ratio, car.differential_preload * share)
            found.append(biasing_axle_grip(*common, *side).drive_force)
    return found[0], found[1]


def check(car: RunCar) -> None:
    """Refuse in words what no march could answer."""
    refused = (
        (car.shift_speed > np.asarray(car.rev_limit), "the shift lies above the rev limit"),
        (np.asarray(car.tire_radius) <= 0.0, "the tire radius must be above zero"),
        (np.asarray(car.vehicle_mass) <= 0.0, "the mass must be above zero"),
        (np.asarray(car.engine_inertia) <= 0.0, "the engine inertia must be above zero"),
        (np.asarray(car.cg_height) <= 0.0, "the center of mass must lie above the ground"),
        (np.asarray(car.slide_share) > 1.0, "no driver gets more than the peak grip"),
        (np.asarray(car.rollout) >= 60.0 * FOOT, "the rollout must be shorter than 60 ft"),
        (np.asarray(car.rollout) < 0.0, "the rollout cannot be negative"),
        (np.asarray(car.launch_speed) < 0.0, "the launch speed cannot be negative"),
    )
    for wrong, why in refused:
        if np.any(wrong):
            raise ValueError(why)
    if not car.gear_ratios:
        raise ValueError("a run needs at least one gear")
    if car.lockup_gear == 1 or car.lockup_gear < 0:
        raise ValueError("the converter locks from second gear on or, with 0, never")
    speeds = np.asarray(car.curve_speeds, dtype=np.float64)
    torques = np.asarray(car.curve_torques, dtype=np.float64)
    if speeds.shape[0] != torques.shape[0] or speeds.shape[0] < 2:
        raise ValueError("the engine curve needs as many torques as speeds, and two at least")
    if not np.all(np.diff(speeds, axis=0) > 0.0):
        raise ValueError("the speeds of the engine curve must rise")
