"""The run down the strip against closed forms, a general solver and the energy that went in."""

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from axlewright.dynamics.launch_car import LaunchConverter
from axlewright.dynamics.run import MARKS, QUARTER, STEP, run_history, run_times
from axlewright.dynamics.run_car import RunCar
from axlewright.vehicle import converter as fluid
from axlewright.vehicle import strip

pytestmark = pytest.mark.published

LB, HP, RPM, MPH, G = 0.45359237, 745.6998715822702, math.pi / 30, 0.44704, 9.80665


def manual(**changes):
    """A made-up car with a foot clutch in which everything is at work."""
    given = {
        "curve_speeds": np.array([1000, 2000, 3000, 4000, 5000, 5500, 6000, 6500]) * RPM,
        "curve_torques": np.array([300, 340, 370, 390, 380, 365, 330, 280]) * 1.3558,
        "boost_time": 0.6, "boost_floor": 0.7, "engine_inertia": 0.25, "rev_limit": 6500 * RPM,
        "shift_speed": 6000 * RPM, "shift_time": 0.25, "shift_share": 0.0, "shift_flare": 0.4,
        "gear_ratios": (2.97, 2.07, 1.43, 1.0), "gearbox_efficiency": 0.97, "axle_ratio": 3.73,
        "axle_efficiency": 0.96, "clutch_capacity": 900.0, "launch_share": 0.6,
        "launch_speed": 4000 * RPM, "least_slip_speed": 2500 * RPM, "converter": None,
        "lockup_gear": 0, "input_inertia": 0.02, "driveshaft_inertia": 0.03,
        "driven_inertia": 3.0, "rolling_inertia": 2.0, "tire_radius": 0.33, "tire_grip": 1.2,
        "grip_reference_load": 4000.0, "load_sensitivity": 2e-5, "slide_share": 0.9,
        "locked": False, "bias_ratio": 1.5, "differential_preload": 50.0, "track": 1.5,
        "front_roll_share": 0.7, "vehicle_mass": 1600.0, "rear_share": 0.46, "wheelbase": 2.7,
        "cg_height": 0.55, "pitch_time": 0.12, "drag_area": 0.75, "air_density": 1.2,
        "rolling_resistance": 0.015, "rollout": 0.3,
    }  # fmt: skip
    return RunCar(**(given | changes))


def automatic(**changes):
    given = {
        "converter": LaunchConverter(2800 * RPM, 500.0, 2.1, 0.06), "shift_share": 0.6,
        "gear_ratios": (2.48, 1.48, 1.0), "launch_speed": 1500 * RPM, "least_slip_speed": 0.0,
    }  # fmt: skip
    return manual(**(given | changes))


def bare(power, mass, **changes):
    """A car of nothing but power, mass and grip: one gear, no losses, no air, all on one axle.

    The engine curve is that of constant power, in straight lines between close points.
    """
    speeds = np.geomspace(2.0, 4000.0, 2500)
    given = {
        "curve_speeds": speeds, "curve_torques": power / speeds, "boost_time": 0.0,
        "engine_inertia": 1e-9, "rev_limit": 1e9, "shift_speed": 1e9, "gear_ratios": (1.0,),
        "gearbox_efficiency": 1.0, "axle_efficiency": 1.0, "axle_ratio": 10.0,
        "launch_speed": 0.0, "input_inertia": 0.0, "driveshaft_inertia": 0.0,
        "driven_inertia": 0.0, "rolling_inertia": 0.0, "load_sensitivity": 0.0,
        "slide_share": 1.0, "locked": True, "vehicle_mass": mass, "rear_share": 1.0,
        "cg_height": 1e-9, "front_roll_share": 0.0, "pitch_time": 0.0, "drag_area": 0.0,
        "rolling_resistance": 0.0, "rollout": 0.0,
    }  # fmt: skip
    # No weight is left in front, so the limit of a wheelie is moved out of the way.
    return manual(**(given | {"rear_share": 1.0 - 1e-6, "cg_height": 1e-12} | changes))


# 3500 lb, 400 hp, launch at 0.5 and 1.0 g: time and speed by numeric integration of
# dv/dt = min(a, P/(m v)) (scipy, tolerance 1e-11); the same as the closed form, worked out by hand.
@pytest.mark.parametrize(("grip", "seconds", "mph"), [(0.5, 12.967, 130.52), (1.0, 10.771, 135.70)])
def test_two_phases(grip, seconds, mph):
    power, mass = 400 * HP, 3500 * LB
    run = run_times(bare(power, mass, tire_grip=grip), QUARTER)
    assert run.times["1/4 mile"] == pytest.approx(seconds, abs=6e-4)
    assert run.speeds["1/4 mile"] / MPH == pytest.approx(mph, abs=6e-3)
    v1 = power / (mass * grip * G)
    s1 = v1 * v1 / (2 * grip * G)
    exact = strip.two_phase_trap_speed(power, mass, grip * G, QUARTER, v1, s1)
    time = strip.two_phase_elapsed_time(power, mass, grip * G, v1, exact)
    assert run.times["1/4 mile"] == pytest.approx(time, rel=1e-5)
    assert run.speeds["1/4 mile"] == pytest.approx(exact, rel=1e-5)
    assert run.time_on_grip == pytest.approx(v1 / (grip * G), rel=1e-4)
    slip = strip.powered_trap_speed(exact, power, mass, 66 * 0.3048)
    assert run.trap_speeds["1/4 mile"] == pytest.approx(slip, rel=1e-5)


def test_endless_grip_comes_to_the_constant_power_ideal():
    # 281.10 mph and 4.803 s for 1 hp/lb, by hand in foot-pound-second units.
    pace = (400 / 3500) ** (1 / 3)
    apart = []
    for grip in (2.0, 4.0, 8.0, 16.0):
        run = run_times(bare(400 * HP, 3500 * LB, tire_grip=grip), QUARTER)
        apart.append(run.times["1/4 mile"] / (4.8026 / pace) - 1.0)
    assert apart == sorted(apart, reverse=True)
    assert 0.0 < apart[-1] < 1e-3
    assert run.speeds["1/4 mile"] / MPH == pytest.approx(281.10 * pace, rel=5e-5)


def test_rollout_at_a_steady_pull():
    # Closed form: 1 ft at 0.5 g takes 0.353 s and ends at 3.87 mph.
    run = run_times(bare(4000 * HP, 3500 * LB, tire_grip=0.5, rollout=0.3048), 20.0)
    assert run.rollout_time == pytest.approx(0.35260, rel=1e-4)
    sixty = math.sqrt(2 * 60 * 0.3048 / (0.5 * G))
    assert run.times["60 ft"] == pytest.approx(sixty - 0.35260, rel=1e-4)


def test_wheelie_holds_the_pull():
    # Moments about the rear contact: the front lifts at g times the distance ahead over height.
    car = bare(4000 * HP, 3500 * LB, tire_grip=8.0, rear_share=0.6, cg_height=0.7)
    run = run_times(car, 100.0)
    assert run.greatest_pull == pytest.approx(G * 0.4 * 2.7 / 0.7, rel=1e-9)
    assert run.wheels_up == 1.0
    assert run.time_wheels_up == pytest.approx(run.time_on_grip)


# --------------------------------------------------------------- a general solver, written apart


def grip_of(car, lagged):
    """Most that both rear tires push, from the load that has arrived."""
    weight = car.vehicle_mass * G
    rear = min(weight * car.rear_share + lagged * car.cg_height / car.wheelbase, weight)
    torque = lagged * car.tire_radius / car.axle_ratio * car.front_roll_share
    moved = min(torque / car.track, rear / 2)

    def one(load):
        fall = 1.0 - car.load_sensitivity * (load - car.grip_reference_load)
        return car.tire_grip * max(fall, 0.5) * load

    low, high = sorted([one(rear / 2 + moved), one(rear / 2 - moved)])
    high = high if car.locked else min(
        high, car.bias_ratio * low + car.differential_preload / car.tire_radius
    )  # fmt: skip
    return low + high, weight * (1 - car.rear_share) * car.wheelbase / car.cg_height


BENDS = np.array([0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.95, 1.0])


def converter_curves(stall_ratio):
    """Both curves at the bends; at 0.9 the mean of what the formulas give on both sides."""
    pump, ratio = [], []
    for s in BENDS:
        sides = [s] if s != 0.9 else [0.9 - 1e-12, 0.9]
        pump.append(np.mean([fluid.relative_pump_torque(x) for x in sides]))
        ratio.append(np.mean([
            fluid.scaled_torque_ratio(fluid.typical_torque_ratio(x), stall_ratio, x) for x in sides
        ]))  # fmt: skip
    return pump, ratio


class Reference:
    """The same equations for a general solver: one smooth piece after another."""

    def __init__(self, car):
        self.car = car
        if car.converter:
            self.pump, self.ratio = converter_curves(car.converter.stall_torque_ratio)

    def torque(self, w, t):
        car = self.car
        full = np.interp(w, car.curve_speeds, car.curve_torques)
        come = 1.0
        if car.boost_time:
            come = car.boost_floor + (1 - car.boost_floor) * (1 - math.exp(-t / car.boost_time))
        return full * come * np.clip(1 - (w - car.rev_limit) / 20.0, 0.0, 1.0)

    def forces(self, mode, gear, on_grip, t, y, share):
        car = self.car
        _, v, w, lagged = y
        i = car.gear_ratios[gear] * car.axle_ratio
        eta = car.gearbox_efficiency * car.axle_efficiency
        r = car.tire_radius
        turbine = i * v / r
        inner = car.input_inertia + (car.converter.turbine_inertia if car.converter else 0.0)
        taken = 0.0
        if mode == "closed":
            inner += car.engine_inertia
            given = self.torque(turbine, t)
        elif mode == "open":
            given = 0.0
        elif mode == "fluid":
            c = car.converter
            s = turbine / w
            taken = c.rated_stall_torque * (w / c.rated_stall_speed) ** 2 * np.interp(
                s, BENDS, self.pump)  # fmt: skip
            given = taken * np.interp(s, BENDS, self.ratio) * share
        else:
            given = car.clutch_capacity * (car.launch_share if mode == "launch" else 1.0)
            if mode == "launch" and w <= car.least_slip_speed:
                given = min(given, self.torque(w, t))
        at_wheel = car.driven_inertia + car.driveshaft_inertia * car.axle_ratio**2 + (
            inner * i**2 * eta)  # fmt: skip
        road = car.vehicle_mass + car.rolling_inertia / r**2
        resist = car.rolling_resistance * car.vehicle_mass * G + (
            0.5 * car.air_density * car.drag_area * v**2)  # fmt: skip
        pull = (given * i * eta / r - resist) / (road + at_wheel / r**2)
        push = road * pull + resist
        most, wheelie = grip_of(car, lagged)
        spare = push - min(most, wheelie)
        if on_grip:
            push = min(push, car.slide_share * most, wheelie)
            pull = (push - resist) / road
            given = (push * r + at_wheel * pull / r) / (i * eta)
            if mode == "slip":  # the foot is off the pedal
                given = car.clutch_capacity
        dw = 0.0
        if mode == "fluid":
            dw = (self.torque(w, t) - taken) / car.engine_inertia
        elif mode in {"launch", "slip"}:
            dw = (self.torque(w, t) - given) / car.engine_inertia
            if mode == "launch" and w >= car.launch_speed:
                dw = min(dw, 0.0)
            if mode == "launch" and w <= car.least_slip_speed:
                dw = max(dw, 0.0)
        return pull, dw, (push - lagged) / car.pitch_time, spare

    def run(self, marks):  # noqa: PLR0912
        car = self.car
        t, y, gear = 0.0, np.array([0.0, 0.0, car.launch_speed, 0.0]), 0
        mode = "fluid" if car.converter else "launch"
        until, before, share, found = math.inf, 0.0, 1.0, {}
        on_grip = self.forces(mode, gear, False, t, y, share)[3] > 0
        while len(found) < len(marks):

            def f(t, y, m=mode, g=gear, o=on_grip, s=share):
                pull, dw, dn, _ = self.forces(m, g, o, t, y, s)
                return [y[1], pull, dw, dn]

            def rate(y, g=gear):
                return car.gear_ratios[g] * car.axle_ratio * y[1] / car.tire_radius

            def tires(t, y, m=mode, g=gear, o=on_grip, s=share):
                return self.forces(m, g, o, t, y, s)[3]

            def met(t, y):
                return y[2] - rate(y)

            def change(t, y, m=mode):
                return (y[2] if m == "fluid" else rate(y)) - car.shift_speed

            events = [tires]
            tires.direction = -1 if on_grip else 1
            if mode in {"launch", "slip"}:
                met.direction = -1
                events.append(met)
            elif until == math.inf and gear + 1 < len(car.gear_ratios):
                change.direction = 1
                events.append(change)
            for e in events:
                e.terminal = True
            end = min(until, t + 60.0)
            piece = solve_ivp(f, (t, end), y, "DOP853", events=events, rtol=1e-9, atol=1e-9,
                              max_step=0.05, dense_output=True)  # fmt: skip
            for m in marks:
                if m not in found and piece.y[0, -1] >= m:
                    at = brentq(
                        lambda s, m=m, p=piece: p.sol(s)[0] - m, t, piece.t[-1], xtol=1e-12
                    )  # fmt: skip
                    found[m] = (at, piece.sol(at)[1])
            t, y = piece.t[-1], piece.y[:, -1].copy()
            if piece.status == 1:
                happened = next(e for e, at in zip(events, piece.t_events, strict=True) if len(at))
                if happened is tires:
                    on_grip = not on_grip
                    continue
                if happened is met:
                    mode = "closed"
                else:
                    before = y[2] if mode == "fluid" else rate(y)
                    gear, until = gear + 1, t + car.shift_time
                    mode, share = ("fluid" if car.converter else "open"), car.shift_share
            elif t >= until:
                until, share = math.inf, 1.0
                now = rate(y, gear)
                before = y[2] if car.converter else before
                if not car.converter:
                    y[2] = now + car.shift_flare * (before - now)
                    mode = "slip" if y[2] > now else "closed"
                elif car.lockup_gear and gear + 1 >= car.lockup_gear:
                    mode = "slip"
            on_grip = self.forces(mode, gear, False, t, y, share)[3] > 0
        return found


@pytest.mark.parametrize(
    "car",
    [
        manual(),
        manual(locked=True, tire_grip=0.9, slide_share=1.0, shift_flare=0.0, boost_time=0.0),
        automatic(),
        automatic(lockup_gear=3, boost_time=0.0, tire_grip=0.8),
    ],
    ids=["clutch", "clutch, locker", "converter", "converter that locks"],
)
def test_times_of_a_general_solver(car):
    # scipy 1.17.1, solve_ivp, DOP853, tolerance 1e-9, piece by piece between events.
    run = run_times(car)
    marks = [car.rollout, *MARKS.values(), QUARTER - 66 * 0.3048]
    found = Reference(car).run(marks)
    start = found[car.rollout][0]
    assert run.rollout_time == pytest.approx(start, rel=2e-4)
    for name, mark in MARKS.items():
        time, speed = found[mark]
        assert run.times[name] == pytest.approx(time - start, rel=2e-4), name
        assert run.speeds[name] == pytest.approx(speed, rel=2e-4), name
    slip = 66 * 0.3048 / (found[QUARTER][0] - found[marks[-1]][0])
    assert run.trap_speeds["1/4 mile"] == pytest.approx(slip, rel=2e-4)


def test_order_of_convergence():
    # Without bends in curve or grip the method is of fourth order: half the step, a sixteenth of
    # the error.  Flat torque, closed clutch, air drag and load transfer at work.
    flat = {
        "curve_speeds": [0.0, 1e4], "curve_torques": [500.0, 500.0], "launch_speed": 0.0,
        "gear_ratios": (1.5,), "shift_speed": 1e4, "rev_limit": 1e4, "boost_time": 0.0,
        "tire_grip": 3.0, "drag_area": 3.0, "rollout": 0.0,
    }  # fmt: skip
    car = manual(**flat)
    true = run_times(car, QUARTER, 0.005).times["1/4 mile"]
    errors = [abs(run_times(car, QUARTER, h).times["1/4 mile"] - true) for h in (0.64, 0.32, 0.16)]
    orders = np.log2(np.array(errors[:-1]) / errors[1:])
    assert np.all(orders > 3.5)


def test_default_step_is_fine_enough():
    for car in (manual(), automatic()):
        fine, coarse = run_times(car, step=1e-3), run_times(car)
        for name in MARKS:
            assert coarse.times[name] == pytest.approx(fine.times[name], rel=2e-5)
    assert STEP > 1e-3


def test_energy_balance():
    # What the engine gave is in motion, in the air, in the tires' roll, in gears and clutch.
    car = manual(gear_ratios=(1.4,), shift_speed=1e3, rev_limit=1e3, boost_time=0.0)
    h = run_history(car, 0.002, 200.0, 0.001)
    eta = car.gearbox_efficiency * car.axle_efficiency
    i, r = 1.4 * car.axle_ratio, car.tire_radius

    def total(power):
        return float(np.sum(0.5 * (power[1:] + power[:-1]) * np.diff(h.time)))

    turning = i * h.speed / r
    closed = np.isclose(turning, h.engine_speed, rtol=1e-9)
    given = total(h.engine_torque * h.engine_speed)
    # With the clutch closed the history's input torque still has the engine's inertia to drive.
    dw = np.gradient(h.engine_speed, h.time)
    at_input = np.where(closed, h.engine_torque - car.engine_inertia * dw, h.input_torque)
    clutch = total(np.where(closed, 0.0, at_input * (h.engine_speed - turning)))
    gears = total((1 - eta) * (at_input - car.input_inertia * i * h.pull / r) * turning)
    air = total(0.5 * car.air_density * car.drag_area * h.speed**3)
    roll = total(car.rolling_resistance * car.vehicle_mass * G * h.speed)

    def motion(v, w):
        turn = car.driven_inertia + car.rolling_inertia + (
            car.driveshaft_inertia * car.axle_ratio**2)  # fmt: skip
        at_wheels = turn * (v / r) ** 2 + car.input_inertia * (i * v / r) ** 2
        return 0.5 * (car.vehicle_mass * v**2 + at_wheels + car.engine_inertia * w**2)

    gained = motion(h.speed[-1], h.engine_speed[-1]) - motion(0.0, h.engine_speed[0])
    assert gained + air + roll + gears + clutch == pytest.approx(given, rel=1e-3)
    assert clutch > 0.01 * given
