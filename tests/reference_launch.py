"""A second writing of the launch, from ``docs/launch-model.md`` alone: slow, exact about friction.

The march under test steps semi-implicitly and clamps friction; this one hands the same equations
to an eighth-order Runge-Kutta method with error control, uses exact sines, and switches every dry
friction between sticking and slipping at the very moment.  One launch at a time, plain floats.
"""

from __future__ import annotations

import itertools
import math
from bisect import bisect_right
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import DOP853
from scipy.optimize import brentq

from axlewright.dynamics.launch_car import LaunchCar, LaunchEvents, Ramp

GRAVITY = 9.80665

STATES = [
    *("engine_speed", "upstream_speed", "input_speed", "driveshaft_twist", "pinion_speed"),
    *("left_twist", "right_twist", "side_angle", "side_speed", "left_speed", "right_speed"),
    *("left_deflection", "right_deflection", "road_speed", "axle_speed", "gap"),
    *("heave", "heave_rate", "pitch", "pitch_rate", "axle_height", "axle_rate"),
    *("roll", "roll_rate", "windup", "windup_rate", "distance"),
]
INDEX = {name: place for place, name in enumerate(STATES)}
OMEGA_E, OMEGA_A, OMEGA_G = 0, 1, 2
OMEGA_X, OMEGA_L, OMEGA_R, PSI_RATE = 8, 9, 10, 25

CONVERTER_POINTS = (0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.95, 1.0)


class Modes(NamedTuple):
    """Of each dry friction: 0 stuck, 1 or -1 slipping that way (torque follows the sign)."""

    clutch: int
    hold: int
    left_brake: int
    right_brake: int
    differential: int


class Torques(NamedTuple):
    """What acts at one moment; capacities and friction torques in the order of ``Modes``."""

    clutch: float
    driveshaft: float
    left_shaft: float
    right_shaft: float
    axle: float
    left_tire: float
    right_tire: float
    left_load: float
    right_load: float
    thrust: float
    lift: float
    reaction: float
    engine: float
    turbine: float
    front_force: float
    friction: tuple[float, float, float, float, float]
    capacity: tuple[float, float, float, float, float]


def level(ramp: Ramp, time: float) -> float:
    """Height of a ramp; one of no duration still has its old height at the corner itself."""
    start, duration = float(ramp.start), float(ramp.duration)
    before, after = float(ramp.before), float(ramp.after)
    if time <= start:
        return before
    if time >= start + duration:
        return after
    return before + (after - before) * (time - start) / duration


def throttle(events: LaunchEvents, time: float) -> float:
    """Opening of the throttle: the first ramp, and from its start on the second one."""
    first = level(events.throttle, time)
    second = events.second_throttle
    if time <= float(second.start):
        return first
    return level(Ramp(first, second.after, second.start, second.duration), time)


def corners(events: LaunchEvents) -> list[float]:
    """Moments at which a ramp bends, the end of the march last."""
    ramps = (
        events.throttle,
        events.second_throttle,
        events.clamp,
        events.hold,
        events.brakes,
        events.grip,
    )
    bends = {float(r.start) for r in ramps} | {float(r.start + r.duration) for r in ramps}
    return [*sorted(t for t in bends if 0.0 < t < events.duration), float(events.duration)]


def clip(value: float, low: float, high: float) -> float:
    return min(max(value, low), high)


def straight(x: float, xs: list[float], ys: list[float]) -> float:
    """Straight lines between points, flat beyond the ends."""
    if x <= xs[0]:
        return ys[0]
    if x >= xs[-1]:
        return ys[-1]
    i = bisect_right(xs, x)
    return ys[i - 1] + (ys[i] - ys[i - 1]) * (x - xs[i - 1]) / (xs[i] - xs[i - 1])


def converter_tables(stall_torque_ratio: float) -> tuple[list[float], list[float]]:
    """Relative pump torque and torque ratio at ``CONVERTER_POINTS``, polynomial of SAE 820393."""
    pump, ratio = [], []
    for s in CONVERTER_POINTS:
        slipping = 3.4325 + 2.2210 * s - 4.6041 * s * s
        turbine = 5.7656 + 0.3107 * s - 5.4323 * s * s
        coupled = max(-6.7644 + 32.0024 * s - 25.2441 * s * s, 0.0)
        typical = max(turbine / slipping, 1.0)
        if s == 0.9:
            drawn, typical = 0.5 * (slipping + coupled), 0.5 * (typical + 1.0)
        elif s > 0.9:
            drawn, typical = coupled, 1.0
        else:
            drawn = slipping
        share = (typical - 1.0) / (5.7656 / 3.4325 - 1.0)
        pump.append(drawn / 3.4325)
        ratio.append(min(1.0 + (stall_torque_ratio - 1.0) * share, 1.0 / max(s, 0.1)))
    return pump, ratio


_TABLES: dict[float, tuple[list[float], list[float]]] = {}


def converter_torques(engine: float, turbine: float, car: LaunchCar) -> tuple[float, float]:
    """Torque that the pump takes and that the turbine gives."""
    made = car.converter
    assert made is not None
    key = float(made.stall_torque_ratio)
    if key not in _TABLES:
        _TABLES[key] = converter_tables(key)
    pump_curve, ratio_curve = _TABLES[key]
    s = turbine / max(engine, 1.0)
    points = list(CONVERTER_POINTS)
    if s <= 1.0:
        pace = engine / made.rated_stall_speed
        pump = made.rated_stall_torque * pace * pace * straight(s, points, pump_curve)
        return pump, pump * straight(s, points, ratio_curve)
    pace = turbine / made.rated_stall_speed
    drag = -made.rated_stall_torque * pace * pace * straight(1.0 / s, points, pump_curve)
    return drag, drag


def engine_torque(speed: float, opening: float, car: LaunchCar) -> float:
    full = straight(
        speed, [float(v) for v in car.curve_speeds], [float(v) for v in car.curve_torques]
    )
    fade = clip((car.rev_limit + 20.0 - speed) / 20.0, 0.0, 1.0)
    return opening * full * fade - (1.0 - opening) * car.motored_torque * clip(
        speed / 100.0, -1.0, 1.0
    )


def shaft_torque(
    twist: float, rate: float, stiffness: float, damping_time: float, half_gap: float
) -> float:
    """Spring and damper behind a gap; damping never pulls harder than the spring pushes."""
    wound = twist - clip(twist, -half_gap, half_gap)
    return stiffness * (wound + clip(damping_time * rate, -abs(wound), abs(wound)))


def tire_force(deflection: float, load: float, grip: float, car: LaunchCar) -> float:
    """Magic Formula on the deflection."""
    turn = car.tire_rise * deflection / car.relaxation_length
    peak = car.tire_grip * max(1.0 - car.load_sensitivity * (load - car.grip_reference_load), 0.5)
    bent = turn - car.tire_bend * (turn - math.atan(turn))
    return load * grip * peak * math.sin(car.tire_shape * math.atan(bent))


def hang(car: LaunchCar) -> tuple[float, float, float, float, float]:
    """Body mass, its center of gravity to front and rear axle, how far the mount sits below it,
    and the slope from mount to instant center.
    """
    body = car.vehicle_mass - car.axle_mass
    high = (car.vehicle_mass * car.cg_height - car.axle_mass * car.tire_radius) / body
    b = car.wheelbase * car.vehicle_mass * (1.0 - car.rear_share) / body
    below = high - car.tire_radius - car.mount_height
    return body, car.wheelbase - b, b, below, car.thrust_slope - car.mount_height * car.reaction_arm


def couple(
    free: tuple[float, float, float, float, float, float],
    inertias: tuple[float, float, float, float, float],
    capacity: tuple[float, float, float, float, float],
    slide_ratio: float,
    modes: Modes,
) -> tuple[float, float, float, float, float]:
    """Friction torques: given by the sign where slipping, what keeps the slip at nil where stuck.

    ``free`` are the accelerations without friction of upstream, input, left and right wheel, side
    gears and housing, ``inertias`` those of upstream, input, wheel, side gears and housing.
    """
    up, inp, left, right, side, housing = free
    j_a, j_g, j_w, j_x, j_h = inertias
    hold = modes.hold * capacity[1]
    if modes.clutch:
        clutch = modes.clutch * slide_ratio * capacity[0]
    elif modes.hold:
        clutch = ((up - hold / j_a) - inp) / (1.0 / j_a + 1.0 / j_g)
    else:
        clutch = -j_g * inp
    if not modes.hold:
        hold = j_a * up - clutch
    # A brake sits on the housing and stops wheel against housing, so each feels the other.
    q_l, q_r = modes.left_brake * capacity[2], modes.right_brake * capacity[3]
    own, other = 1.0 / j_w + 1.0 / j_h, 1.0 / j_h
    if not modes.left_brake and not modes.right_brake:
        want_l, want_r = left + housing, right + housing
        whole = own * own - other * other
        q_l = (own * want_l - other * want_r) / whole
        q_r = (own * want_r - other * want_l) / whole
    elif not modes.left_brake:
        q_l = (left + housing - other * q_r) / own
    elif not modes.right_brake:
        q_r = (right + housing - other * q_l) / own
    rub = modes.differential * capacity[4] if modes.differential else j_x * side
    return clutch, hold, q_l, q_r, rub


def moment(
    t: float, y: list[float], car: LaunchCar, events: LaunchEvents, modes: Modes
) -> tuple[list[float], Torques]:
    """Rates of all states and everything that acts, at one time."""
    (w_e, w_a, w_g, phi_d, w_p, a_l, a_r, x, w_x, w_l, w_r, u_l, u_r, v, v_a, x_r) = y[:16]
    (z, dz, theta, dtheta, z_a, dz_a, rho, drho, psi, dpsi, _) = y[16:]
    i_g, i_a, r, share = car.gear_ratio, car.axle_ratio, car.tire_radius, car.roll_torque_share
    locked = car.locked

    # Shafts.
    w_c = w_p / i_a - dpsi
    dphi_d = w_g / i_g - w_p - share * drho
    t_d = shaft_torque(
        phi_d,
        dphi_d,
        car.driveshaft_stiffness,
        car.driveshaft_damping_time,
        car.driveshaft_half_gap,
    )
    t_l = shaft_torque(
        a_l + x,
        w_c + w_x - w_l,
        car.left_shaft_stiffness,
        car.shaft_damping_time,
        car.shaft_half_gap,
    )
    t_r = shaft_torque(
        a_r - x,
        w_c - w_x - w_r,
        car.right_shaft_stiffness,
        car.shaft_damping_time,
        car.shaft_half_gap,
    )
    t_ax = t_l + t_r
    eta_g = car.gearbox_efficiency if t_d > 0.0 else 1.0 / car.gearbox_efficiency
    eta_a = car.axle_efficiency if t_ax > 0.0 else 1.0 / car.axle_efficiency

    # Tires and their load.
    weight = car.vehicle_mass * GRAVITY
    n_0, n_f = weight * car.rear_share, weight * (1.0 - car.rear_share)
    rolled = car.roll_stiffness * rho + car.roll_damping * drho
    side = (share * t_d - car.rear_roll_share * rolled) / car.track
    even = 0.5 * (n_0 - car.tire_vertical_stiffness * z_a - car.tire_vertical_damping * dz_a)
    n_l, n_r = max(even + side, 0.0), max(even - side, 0.0)
    grip = level(events.grip, t)
    f_l, f_r = tire_force(u_l, n_l, grip, car), tire_force(u_r, n_r, grip, car)
    du_l = w_l * r - v_a - max(abs(w_l) * r, abs(v_a), 0.3) * u_l / car.relaxation_length
    du_r = w_r * r - v_a - max(abs(w_r) * r, abs(v_a), 0.3) * u_r / car.relaxation_length

    # Suspension.
    body, a, b, below, slope = hang(car)
    e, arm = car.mount_height, car.reaction_arm
    q, dq = z - b * theta - z_a, dz - b * dtheta - dz_a
    dx_r = v_a - v
    stretch = x_r - below * theta - e * psi - slope * q
    dstretch = dx_r - below * dtheta - e * dpsi - slope * dq
    twist, dtwist = psi - theta - q * arm, dpsi - dtheta - dq * arm
    thrust = car.mount_stiffness * stretch + car.mount_damping * dstretch
    m_w = car.windup_stiffness * twist + car.windup_damping * dtwist
    lift = thrust * slope + m_w * arm
    f_rear = -car.rear_stiffness * q - car.rear_damping * dq
    low, dlow = z + a * theta, dz + a * dtheta
    f_front = max(n_f - car.front_stiffness * low - car.front_damping * dlow, 0.0) - n_f

    # Engine and what follows it, without friction.
    opening = throttle(events, t)
    t_e = engine_torque(w_e if car.converter else w_a, opening, car)
    if car.converter is None:
        t_up, dw_e, j_a = t_e, 0.0, car.engine_inertia
    else:
        pump, t_up = converter_torques(w_e, w_a, car)
        dw_e, j_a = (t_e - pump) / car.engine_inertia, car.converter.turbine_inertia

    j_g, j_w, j_x = car.input_inertia, car.wheel_inertia, 2.0 * car.side_gear_inertia
    drag = r * car.rolling_resistance
    free = (
        t_up / j_a,
        -t_d / (i_g * eta_g) / j_g,
        (t_l - r * f_l - drag * n_l * clip(w_l, -1.0, 1.0)) / j_w,
        (t_r - r * f_r - drag * n_r * clip(w_r, -1.0, 1.0)) / j_w,
        -(t_l - t_r) / j_x,
        (t_ax - m_w + e * thrust) / car.housing_inertia,
    )
    bias = (car.bias_ratio - 1.0) / (car.bias_ratio + 1.0)
    brake = 0.5 * level(events.brakes, t)
    capacity = (
        car.clutch_capacity * level(events.clamp, t),
        level(events.hold, t) if car.converter else 0.0,
        brake,
        brake,
        math.inf if locked else car.differential_preload + bias * abs(t_ax),
    )
    friction = couple(
        free, (j_a, j_g, j_w, j_x, car.housing_inertia), capacity, car.slide_ratio, modes
    )
    t_c, t_h, q_l, q_r, t_f = friction
    dw_a = free[0] - (t_c + t_h) / j_a
    if car.converter is None:
        dw_e = dw_a

    rates = [
        dw_e,
        dw_a,
        free[1] + t_c / j_g,
        dphi_d,
        (t_d - t_ax / (i_a * eta_a)) / car.pinion_inertia,
        w_c - w_l,
        w_c - w_r,
        w_x,
        0.0 if locked else free[4] - t_f / j_x,
        free[2] - q_l / j_w,
        free[3] - q_r / j_w,
        du_l,
        du_r,
        (thrust - car.air_drag * v * abs(v)) / body,
        (f_l + f_r - thrust) / car.axle_mass,
        dx_r,
        dz,
        (f_front + f_rear + lift) / body,
        dtheta,
        (thrust * below + m_w + a * f_front - b * (f_rear + lift)) / car.pitch_inertia,
        dz_a,
        (n_l + n_r - n_0 - f_rear - lift) / car.axle_mass,
        drho,
        (share * t_d - rolled) / car.roll_inertia,
        dpsi,
        free[5] - (q_l + q_r) / car.housing_inertia,
        v,
    ]
    acting = Torques(
        clutch=t_c,
        driveshaft=t_d,
        left_shaft=t_l,
        right_shaft=t_r,
        axle=t_ax,
        left_tire=f_l,
        right_tire=f_r,
        left_load=n_l,
        right_load=n_r,
        thrust=thrust,
        lift=lift,
        reaction=m_w,
        engine=t_e,
        turbine=t_up,
        front_force=f_front,
        friction=friction,
        capacity=capacity,
    )
    return rates, acting


def right_hand_side(
    t: float, y: NDArray[np.float64], car: LaunchCar, events: LaunchEvents, modes: Modes
) -> NDArray[np.float64]:
    """Rates of all states while no friction changes its mode."""
    return np.array(moment(t, y.tolist(), car, events, modes)[0])


def start(car: LaunchCar, events: LaunchEvents) -> NDArray[np.float64]:
    """States at the start: everything behind the clutch turns with the road, plus the slip."""
    y = np.zeros(len(STATES))
    wheel = events.road_speed / (car.tire_radius * (1.0 - events.wheel_slip))
    y[OMEGA_E] = events.engine_speed
    y[OMEGA_A] = events.engine_speed if car.converter is None else events.input_speed
    y[INDEX["pinion_speed"]] = wheel * car.axle_ratio
    y[OMEGA_G] = wheel * car.axle_ratio * car.gear_ratio
    y[OMEGA_L] = y[OMEGA_R] = wheel
    surface, road = wheel * car.tire_radius, float(events.road_speed)
    slip = (surface - road) / max(abs(surface), abs(road), 0.3)
    y[INDEX["left_deflection"]] = y[INDEX["right_deflection"]] = car.relaxation_length * slip
    y[INDEX["road_speed"]] = y[INDEX["axle_speed"]] = road
    _, _, b, below, slope = hang(car)
    z, theta = float(events.heave), float(events.pitch)
    droop = z - b * theta
    windup = theta + droop * car.reaction_arm
    y[INDEX["heave"]], y[INDEX["pitch"]], y[INDEX["windup"]] = z, theta, windup
    y[INDEX["gap"]] = below * theta + car.mount_height * windup + slope * droop
    return y


def slips(y: NDArray[np.float64]) -> tuple[float, float, float, float, float]:
    """Slip speed of each friction in the order of ``Modes`` (also of the rates, its growth)."""
    return (
        float(y[OMEGA_A] - y[OMEGA_G]),
        float(y[OMEGA_A]),
        float(y[OMEGA_L] + y[PSI_RATE]),
        float(y[OMEGA_R] + y[PSI_RATE]),
        float(y[OMEGA_X]),
    )


def pin(y: NDArray[np.float64], modes: Modes) -> None:
    """Take the rounding out of what is stuck."""
    if not modes.hold:
        y[OMEGA_A] = 0.0
    if not modes.clutch:
        y[OMEGA_G] = y[OMEGA_A]
    if not modes.left_brake:
        y[OMEGA_L] = -y[PSI_RATE]
    if not modes.right_brake:
        y[OMEGA_R] = -y[PSI_RATE]
    if not modes.differential:
        y[OMEGA_X] = 0.0


def settle(
    t: float,
    y: NDArray[np.float64],
    car: LaunchCar,
    events: LaunchEvents,
    active: tuple[bool, ...],
    at_rest: tuple[bool, ...],
    forced: dict[int, int],
) -> Modes:
    """Modes that agree with the torques: stuck within capacity, or slipping away from rest."""
    slip = slips(y)
    choices: list[tuple[int, ...]] = []
    for i in range(5):
        if i in forced:
            choices.append((forced[i],))
        elif not active[i]:
            choices.append((1,))
        elif at_rest[i]:
            choices.append((0, 1, -1))
        else:
            choices.append((1 if slip[i] > 0.0 else -1,))
    best, least = None, math.inf
    for candidate in sorted(itertools.product(*choices), key=lambda c: sum(map(abs, c))):
        modes = Modes(*candidate)
        rates, acting = moment(t, y.tolist(), car, events, modes)
        growth = slips(np.array(rates))
        wrong = 0.0
        for i in range(5):
            if not active[i] or not at_rest[i] or i in forced:
                continue
            if modes[i] == 0:
                excess = abs(acting.friction[i]) - acting.capacity[i]
                wrong = max(wrong, excess / (1.0 + abs(acting.friction[i])))
            else:
                wrong = max(wrong, -modes[i] * growth[i] / (1.0 + abs(growth[i])))
        if wrong < least - 1e-9:
            best, least = modes, wrong
        if wrong <= 1e-9:
            break
    assert best is not None
    return best


def validity(
    y: NDArray[np.float64], acting: Torques, modes: Modes, active: tuple[bool, ...]
) -> list[float]:
    """Of each friction, a number that turns negative when its mode ceases to hold."""
    slip = slips(y)
    out = []
    for i in range(5):
        if not active[i]:
            out.append(math.inf)
        elif modes[i] == 0:
            out.append(acting.capacity[i] - abs(acting.friction[i]))
        else:
            out.append(modes[i] * slip[i])
    return out


@dataclass(frozen=True)
class Solution:
    """A launch as the reference sees it: samples dense enough to read peaks from."""

    time: NDArray[np.float64]
    states: NDArray[np.float64]
    """(samples, states) in the order of ``STATES``."""
    torques: dict[str, NDArray[np.float64]]
    """Whatever ``Torques`` names, each (samples,)."""
    switches: list[tuple[float, Modes]]
    """When a friction changed its mode, and to what."""

    def state(self, name: str) -> NDArray[np.float64]:
        return self.states[:, INDEX[name]]

    def greatest(self, name: str) -> float:
        return float(np.max(self.torques[name]))

    def least(self, name: str) -> float:
        return float(np.min(self.torques[name]))


def _active(
    car: LaunchCar, events: LaunchEvents, begin: float, end: float
) -> tuple[bool, bool, bool, bool, bool]:
    """Which frictions have any capacity between two corners."""
    middle = 0.5 * (begin + end)
    brake = level(events.brakes, middle) > 0.0
    grabs = car.locked or car.differential_preload > 0.0 or car.bias_ratio > 1.0
    return (
        car.clutch_capacity * level(events.clamp, middle) > 0.0,
        car.converter is not None and level(events.hold, middle) > 0.0,
        brake,
        brake,
        grabs,
    )


class _Run:
    """One launch under way."""

    def __init__(self, car: LaunchCar, events: LaunchEvents, samples: int) -> None:
        self.car, self.events, self.samples = car, events, samples
        self.time: list[float] = []
        self.states: list[NDArray[np.float64]] = []
        self.acting: list[Torques] = []
        self.switches: list[tuple[float, Modes]] = []

    def look(self, t: float, y: NDArray[np.float64], modes: Modes) -> Torques:
        return moment(t, y.tolist(), self.car, self.events, modes)[1]

    def keep(self, t: float, y: NDArray[np.float64], acting: Torques) -> None:
        self.time.append(t)
        self.states.append(y)
        self.acting.append(acting)

    def until(
        self,
        t: float,
        y: NDArray[np.float64],
        end: float,
        modes: Modes,
        active: tuple[bool, ...],
        rtol: float,
        atol: float,
        max_step: float,
    ) -> tuple[float, NDArray[np.float64], int | None]:
        """Integrate to the end or to the first friction that changes its mode."""
        acting = self.look(t, y, modes)
        self.keep(t, y, acting)
        before, holds = t, validity(y, acting, modes, active)

        def rhs(s: float, v: NDArray[np.float64]) -> NDArray[np.float64]:
            return right_hand_side(s, v, self.car, self.events, modes)

        stepper = DOP853(rhs, t, y, end, rtol=rtol, atol=atol, max_step=max_step)
        while stepper.status == "running":
            message = stepper.step()
            if stepper.status == "failed":
                raise RuntimeError(f"the reference stopped at {stepper.t} s: {message}")
            inside = stepper.dense_output()
            for s in np.linspace(stepper.t_old, stepper.t, self.samples + 1)[1:]:
                v = inside(s) if s < stepper.t else stepper.y.copy()
                acting = self.look(float(s), v, modes)
                now = validity(v, acting, modes, active)
                broken = [i for i in range(5) if now[i] < 0.0]
                if broken:
                    return self._switch(inside, before, float(s), holds, modes, active, broken)
                self.keep(float(s), v, acting)
                before, holds = float(s), now
        done = stepper.y.copy()
        pin(done, modes)
        return end, done, None

    def _switch(
        self,
        inside,
        low: float,
        high: float,
        holds: list[float],
        modes: Modes,
        active: tuple[bool, ...],
        broken: list[int],
    ) -> tuple[float, NDArray[np.float64], int]:
        """Find the first of the modes that broke between two samples."""
        found = []
        for i in broken:

            def gap(s: float, i: int = i) -> float:
                v = inside(s)
                return validity(v, self.look(s, v, modes), modes, active)[i]

            crossed = holds[i] > 0.0 and gap(low) > 0.0 > gap(high)
            found.append((brentq(gap, low, high, xtol=1e-14) if crossed else high, i))
        moment_of, which = min(found)
        return float(moment_of), inside(moment_of), which


def solve(
    car: LaunchCar,
    events: LaunchEvents,
    rtol: float = 1e-9,
    atol: float = 1e-9,
    max_step: float = 1e-3,
    samples: int = 4,
) -> Solution:
    """The whole launch; between two corners of the ramps nothing but the equations bends it."""
    run = _Run(car, events, samples)
    t, y = 0.0, start(car, events)
    for corner in corners(events):
        # Just behind the corner, so that a ramp of no duration already has its new height.
        t = math.nextafter(t, math.inf)
        active = _active(car, events, t, corner)
        at_rest = tuple(s == 0.0 for s in slips(y))
        forced: dict[int, int] = {4: 0} if car.locked else {}
        while True:
            modes = settle(t, y, car, events, active, at_rest, forced)
            pin(y, modes)
            run.switches.append((t, modes))
            t, y, broken = run.until(t, y, corner, modes, active, rtol, atol, max_step)
            if broken is None:
                break
            held = modes[broken] == 0
            forced = {4: 0} if car.locked else {}
            if held:
                torque = run.look(t, y, modes).friction[broken]
                forced[broken] = 1 if torque > 0.0 else -1
            pin(y, Modes(*(0 if i == broken else m for i, m in enumerate(modes))))
            at_rest = tuple(i == broken or m == 0 for i, m in enumerate(modes))
    names = [n for n in Torques._fields if n not in {"friction", "capacity"}]
    return Solution(
        time=np.array(run.time),
        states=np.array(run.states),
        torques={n: np.array([getattr(a, n) for a in run.acting]) for n in names},
        switches=run.switches,
    )
