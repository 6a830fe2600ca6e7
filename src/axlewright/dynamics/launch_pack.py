"""From a car and its events to the blocks that the march works on, and the state at the start."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Any

import numpy as np

from axlewright.dynamics import launch_rows as at
from axlewright.dynamics.launch_car import LaunchCar, LaunchConverter, LaunchEvents, Ramp
from axlewright.dynamics.launch_curves import PLACES, bends, engine_curve, ratio_curve
from axlewright.dynamics.launch_start import wound
from axlewright.quantities.formula import Array, Num

GRAVITY = 9.80665
NEVER = 1e300
"""Stands for a time that was not reached."""


@dataclass(frozen=True)
class Packed:
    """Launches in blocks of ``LANES``, the last block filled up with copies of the last launch."""

    launches: int
    blocks: Array
    """(blocks, SIZE)"""
    places: Array
    """(blocks, points * LANES), rad/s."""
    slopes: Array
    """The bends of the engine curves there."""
    automatic: bool
    locked: bool
    sound: np.ndarray[Any, np.dtype[np.bool_]]
    """(launches,) false where an input is not a number."""
    longest_step: Array
    """(blocks,) s, beyond which the stiffest part of a block would not be followed."""

    def row(self, place: int) -> Array:
        """One row of all launches."""
        return self.blocks[:, place : place + at.LANES].reshape(-1)[: self.launches]


def pack(car: LaunchCar, events: LaunchEvents) -> Packed:
    """Broadcast everything, fill the rows, set the start."""
    _refuse(car, events)
    place, torque = engine_curve(car.curve_speeds, car.curve_torques)
    n = np.broadcast_shapes(place.shape[1:], *(np.shape(v) for v in _numbers(car, events)))
    if len(n) != 1:
        raise ValueError(f"launches run along one axis, not along {len(n)}")
    table = np.zeros((at.SIZE // at.LANES, n[0]))
    rows = _Rows(table)
    _engine_rows(rows, car)
    _driveline_rows(rows, car)
    _tire_rows(rows, car)
    _body_rows(rows, car)
    _ramp_rows(rows, events)
    rows[at.BASE] = torque[0]
    slopes = bends(place, torque)
    _start(rows, car, events)
    sound = np.isfinite(table).all(axis=0) & np.isfinite(slopes).all(axis=0)
    sound &= np.isfinite(place).all(axis=0)
    _clear_tallies(rows)
    return Packed(
        launches=n[0],
        blocks=_blocks(table),
        places=_blocks(np.broadcast_to(place, (len(place), n[0]))),
        slopes=_blocks(np.broadcast_to(slopes, (len(place), n[0]))),
        automatic=car.converter is not None,
        locked=car.locked,
        sound=np.asarray(sound),
        longest_step=_blocks(_longest_step(rows, car.locked)[None, :]).min(axis=1),
    )


def equal_steps(duration: float, step: float) -> tuple[int, float]:
    """Whole number of equal steps, none longer than asked for."""
    if not 0.0 < step <= duration:
        raise ValueError("a step is longer than nothing and no longer than the launch")
    steps = int(np.ceil(duration / step * (1.0 - 1e-12)))
    return steps, duration / steps


class _Rows:
    """A table addressed by the places of ``launch_rows``."""

    def __init__(self, table: Array) -> None:
        self._table = table

    def __setitem__(self, place: int, value: Num) -> None:
        self._table[place // at.LANES] = value

    def __getitem__(self, place: int) -> Array:
        result: Array = self._table[place // at.LANES]
        return result


def _numbers(*things: Any) -> list[Any]:
    """Every number in nested dataclasses, curves left out."""
    found: list[Any] = []
    for thing in things:
        for f in fields(thing):
            value = getattr(thing, f.name)
            if isinstance(value, LaunchConverter | Ramp):
                found += _numbers(value)
            elif f.name not in {"curve_speeds", "curve_torques", "converter", "locked"}:
                found.append(value)
    return found


def _longest_step(rows: _Rows, locked: bool) -> Array:
    """Step at which the fastest mode of pinion and side gears keeps half of its stability.

    A mode of frequency ω with damping time β is stable up to step·β·ω² + (step·ω)²/2 = 2 (derived);
    1 is allowed here.
    """
    shafts = rows[at.K_L] + rows[at.K_R]
    ahead = rows[at.IJ_P] + rows[at.II_G] ** 2 * rows[at.IJ_G]
    square = rows[at.K_D] * ahead + shafts * rows[at.II_A] ** 2 * rows[at.IJ_P]
    damping = np.maximum(rows[at.B_D], rows[at.B_S])
    longest = np.sqrt(damping**2 + 2.0 / square) - damping
    if not locked:
        side = np.sqrt(rows[at.B_S] ** 2 + 2.0 / (shafts * rows[at.IJ_X])) - rows[at.B_S]
        longest = np.minimum(longest, side)
    # A launch that is lost anyway holds nobody up.
    return np.where(longest > 0.0, longest, np.inf)


def _refuse(car: LaunchCar, events: LaunchEvents) -> None:
    """What makes no sense for any launch is said at once."""
    if not events.duration > 0.0:
        raise ValueError("a launch needs a duration")
    if car.converter is None and bool(np.any(np.asarray(events.hold.before) != 0.0)):
        raise ValueError("a trans-brake needs an automatic")
    if bool(np.any(np.asarray(events.wheel_slip) >= 1.0)):
        raise ValueError("wheel slip is a share of wheel speed and stays below 1")


def _blocks(table: Array) -> Array:
    """(rows, launches) to (blocks, rows * LANES)."""
    rows, n = table.shape
    short = -n % at.LANES
    if short:
        table = np.concatenate([table, np.repeat(table[:, -1:], short, axis=1)], axis=1)
    lanes = table.reshape(rows, -1, at.LANES).transpose(1, 0, 2)
    return np.ascontiguousarray(lanes).reshape(lanes.shape[0], rows * at.LANES)


def _engine_rows(rows: _Rows, car: LaunchCar) -> None:
    rows[at.LIMIT] = car.rev_limit + 20.0
    rows[at.MOTORED] = car.motored_torque
    rows[at.IJ_E] = 1.0 / car.engine_inertia
    rows[at.CAPACITY] = car.clutch_capacity
    rows[at.SLIDE] = car.slide_ratio
    made = car.converter
    if made is None:
        rows[at.J_A] = car.engine_inertia
        rows[at.IJ_A] = 1.0 / car.engine_inertia
        return
    rows[at.J_A] = made.turbine_inertia
    rows[at.IJ_A] = 1.0 / made.turbine_inertia
    rows[at.PUMP] = made.rated_stall_torque / (made.rated_stall_speed * made.rated_stall_speed)
    curve = ratio_curve(made.stall_torque_ratio)
    rows[at.RATIO] = curve[0]
    places = np.asarray(PLACES)[:, None]
    for k, bend in enumerate(bends(places, curve)):
        rows[at.RATIO_SLOPE + k * at.LANES] = bend


def _driveline_rows(rows: _Rows, car: LaunchCar) -> None:
    rows[at.J_G] = car.input_inertia
    rows[at.IJ_G] = 1.0 / car.input_inertia
    rows[at.J_PASS] = 1.0 / (rows[at.IJ_A] + rows[at.IJ_G])
    rows[at.II_G] = 1.0 / car.gear_ratio
    rows[at.OUT_PULL] = 1.0 / (car.gear_ratio * car.gearbox_efficiency)
    rows[at.OUT_PUSH] = car.gearbox_efficiency / car.gear_ratio
    rows[at.K_D] = car.driveshaft_stiffness
    rows[at.B_D] = car.driveshaft_damping_time
    rows[at.D_D] = car.driveshaft_half_gap
    rows[at.IJ_P] = 1.0 / car.pinion_inertia
    rows[at.II_A] = 1.0 / car.axle_ratio
    rows[at.AX_PULL] = 1.0 / (car.axle_ratio * car.axle_efficiency)
    rows[at.AX_PUSH] = car.axle_efficiency / car.axle_ratio
    rows[at.K_L] = car.left_shaft_stiffness
    rows[at.K_R] = car.right_shaft_stiffness
    rows[at.B_S] = car.shaft_damping_time
    rows[at.D_S] = car.shaft_half_gap
    rows[at.J_X] = 2.0 * car.side_gear_inertia
    rows[at.IJ_X] = 0.5 / car.side_gear_inertia
    rows[at.BIAS] = (car.bias_ratio - 1.0) / (car.bias_ratio + 1.0)
    rows[at.PRELOAD] = car.differential_preload
    wheel, housing = 1.0 / car.wheel_inertia, 1.0 / car.housing_inertia
    rows[at.J_W] = car.wheel_inertia
    rows[at.IJ_W] = wheel
    rows[at.J_ONE] = 1.0 / (wheel + housing)
    rows[at.J_BOTH] = 1.0 / (wheel + 2.0 * housing)
    rows[at.ROLLING] = car.tire_radius * car.rolling_resistance


def _tire_rows(rows: _Rows, car: LaunchCar) -> None:
    rows[at.RADIUS] = car.tire_radius
    rows[at.MU] = car.tire_grip
    rows[at.N_REF] = car.grip_reference_load
    rows[at.SENSE] = car.load_sensitivity
    rows[at.SHAPE] = car.tire_shape
    rows[at.RISE] = car.tire_rise
    rows[at.BEND] = car.tire_bend
    rows[at.I_SIGMA] = 1.0 / car.relaxation_length
    rows[at.K_T] = car.tire_vertical_stiffness
    rows[at.C_T] = car.tire_vertical_damping
    rows[at.N_HALF] = 0.5 * car.vehicle_mass * GRAVITY * car.rear_share


def _body_rows(rows: _Rows, car: LaunchCar) -> None:
    body = car.vehicle_mass - car.axle_mass
    ahead = car.wheelbase * car.vehicle_mass * (1.0 - car.rear_share) / body
    height = (car.vehicle_mass * car.cg_height - car.axle_mass * car.tire_radius) / body
    rows[at.IM_B] = 1.0 / body
    rows[at.IM_A] = 1.0 / car.axle_mass
    rows[at.AIR] = car.air_drag
    rows[at.ARM_A] = car.wheelbase - ahead
    rows[at.ARM_B] = ahead
    rows[at.II_Y] = 1.0 / car.pitch_inertia
    rows[at.II_X] = 1.0 / car.roll_inertia
    rows[at.N_F] = car.vehicle_mass * GRAVITY * (1.0 - car.rear_share)
    rows[at.K_F] = car.front_stiffness
    rows[at.C_F] = car.front_damping
    rows[at.K_RR] = car.rear_stiffness
    rows[at.C_RR] = car.rear_damping
    rows[at.K_RO] = car.roll_stiffness
    rows[at.C_RO] = car.roll_damping
    rows[at.RO_SHARE] = car.rear_roll_share
    rows[at.G_R] = car.roll_torque_share
    rows[at.I_TRACK] = 1.0 / car.track
    rows[at.BELOW] = height - car.tire_radius - car.mount_height
    rows[at.MOUNT] = car.mount_height
    rows[at.SLOPE] = car.thrust_slope - car.mount_height * car.reaction_arm
    rows[at.ARM] = car.reaction_arm
    rows[at.K_X] = car.mount_stiffness
    rows[at.C_X] = car.mount_damping
    rows[at.K_PSI] = car.windup_stiffness
    rows[at.C_PSI] = car.windup_damping
    rows[at.IJ_PSI] = 1.0 / car.housing_inertia


def _ramp_rows(rows: _Rows, events: LaunchEvents) -> None:
    for level, ramp in (
        (at.THROTTLE, events.throttle),
        (at.CLAMP, events.clamp),
        (at.HOLD, events.hold),
        (at.BRAKES, events.brakes),
        (at.GRIP, events.grip),
    ):
        rows[level] = ramp.before
        rows[level + at.LANES] = ramp.after - ramp.before
        _times(rows, level + 2 * at.LANES, ramp)
    # A clutch that is clamped from the start began to clamp then.
    rows[at.CLAMP_BEGIN] = np.where(rows[at.CLAMP] > 0.0, 0.0, rows[at.CLAMP_START])
    rows[at.SECOND] = events.second_throttle.after
    _times(rows, at.SECOND_START, events.second_throttle)


def _times(rows: _Rows, start: int, ramp: Ramp) -> None:
    """Start, and one over duration; a ramp that never starts may start at infinity."""
    duration = np.asarray(ramp.duration, dtype=np.float64)
    if bool(np.any(duration < 0.0)):
        raise ValueError("a ramp cannot take less than no time")
    rows[start] = np.minimum(ramp.start, 1e9)
    rows[start + at.LANES] = 1.0 / np.maximum(duration, 1e-12)


def _start(rows: _Rows, car: LaunchCar, events: LaunchEvents) -> None:
    """Speeds and winding as given, treads pushed back as far as the slip pushes them."""
    v = np.asarray(events.road_speed, dtype=np.float64)
    wheel = v / (car.tire_radius * (1.0 - np.asarray(events.wheel_slip)))
    rows[at.E] = events.engine_speed
    rows[at.A] = events.engine_speed if car.converter is None else events.input_speed
    rows[at.P] = wheel * car.axle_ratio
    rows[at.G] = rows[at.P] * car.gear_ratio
    rows[at.WL] = rows[at.WR] = wheel
    rim = wheel * car.tire_radius
    pace = np.maximum(np.maximum(np.abs(rim), np.abs(v)), 0.3)
    rows[at.UL] = rows[at.UR] = car.relaxation_length * (rim - v) / pace
    rows[at.V] = rows[at.VA] = v
    for row, value in zip(_WOUND, wound(car, events), strict=True):
        rows[row] = value
    # A clutch that is clamped with both sides at one speed has never slid.
    rows[at.STUCK] = np.where(np.abs(rows[at.A] - rows[at.G]) < 1e-9, 1.0, 0.0)


_WOUND = (at.PHI, at.AL, at.AR, at.Z, at.TH, at.ZA, at.RO, at.PSI, at.XR)
"""Rows of :class:`Wound`, in its order."""


def _clear_tallies(rows: _Rows) -> None:
    for most in range(at.C_MOST, at.AX_TIME, 2 * at.LANES):
        rows[most] = -np.inf
        rows[most + at.LANES] = np.inf
    rows[at.LOCK] = NEVER
    rows[at.E_LEAST] = rows[at.FRONT_LEAST] = np.inf
