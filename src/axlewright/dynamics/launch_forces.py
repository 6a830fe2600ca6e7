"""Torques and forces of one launch at one moment, as ``docs/launch-model.md`` gives them.

Each function reads the states and parameters of lane ``j`` from the block ``w`` and leaves what it
finds there; nothing moves here.  All choices are minima, maxima and selections, so that the
compiler can take several lanes at once.
"""

from __future__ import annotations

from axlewright.dynamics import launch_rows as at
from axlewright.dynamics.fast_math import arctangent, inline, sine
from axlewright.dynamics.launch_curves import PLACES, PUMP_BENDS
from axlewright.quantities.formula import Array


@inline
def between(value: float, low: float, high: float) -> float:
    """Value held between two others."""
    return min(max(value, low), high)


@inline
def climbed(t: float, start: float, pace: float) -> float:
    """How far a ramp has come, 0 to 1."""
    return min(max((t - start) * pace, 0.0), 1.0)


@inline
def shaft(
    twist: float, rate: float, stiffness: float, damping_time: float, half_gap: float
) -> float:
    """Torque of a spring with proportional damping behind a gap."""
    wound = twist - min(max(twist, -half_gap), half_gap)
    most = abs(wound)
    return stiffness * (wound + min(max(damping_time * rate, -most), most))


@inline
def wind_shafts(w: Array, j: int) -> None:
    """Driveshaft and both axle shafts."""
    w[at.T_D + j] = shaft(
        w[at.PHI + j],
        w[at.G + j] * w[at.II_G + j] - w[at.P + j] - w[at.G_R + j] * w[at.ROV + j],
        w[at.K_D + j],
        w[at.B_D + j],
        w[at.D_D + j],
    )
    carrier = w[at.P + j] * w[at.II_A + j] - w[at.PSIV + j]
    left = carrier + w[at.XV + j] - w[at.WL + j]
    right = carrier - w[at.XV + j] - w[at.WR + j]
    x, damping, gap = w[at.X + j], w[at.B_S + j], w[at.D_S + j]
    w[at.T_L + j] = shaft(w[at.AL + j] + x, left, w[at.K_L + j], damping, gap)
    w[at.T_R + j] = shaft(w[at.AR + j] - x, right, w[at.K_R + j], damping, gap)
    w[at.T_AX + j] = w[at.T_L + j] + w[at.T_R + j]


@inline
def tire(w: Array, j: int, deflection: float, load: float, grip: float) -> float:
    """Push of one tire whose tread is pushed back so far."""
    turn = w[at.RISE + j] * deflection * w[at.I_SIGMA + j]
    bent = turn - w[at.BEND + j] * (turn - arctangent(turn))
    faded = max(1.0 - w[at.SENSE + j] * (load - w[at.N_REF + j]), 0.5)
    result: float = load * grip * faded * sine(w[at.SHAPE + j] * arctangent(bent))
    return result


@inline
def press_tires(w: Array, j: int, t: float) -> None:
    """Loads of both tires, their push, and what rolling takes."""
    roll = w[at.K_RO + j] * w[at.RO + j] + w[at.C_RO + j] * w[at.ROV + j]
    aside = (w[at.G_R + j] * w[at.T_D + j] - w[at.RO_SHARE + j] * roll) * w[at.I_TRACK + j]
    even = w[at.N_HALF + j] - 0.5 * (w[at.K_T + j] * w[at.ZA + j] + w[at.C_T + j] * w[at.ZAV + j])
    left, right = max(even + aside, 0.0), max(even - aside, 0.0)
    grip = w[at.MU + j] * (
        w[at.GRIP + j] + w[at.GRIP_RISE + j] * climbed(t, w[at.GRIP_START + j], w[at.GRIP_PACE + j])
    )
    w[at.N_L + j] = left
    w[at.N_R + j] = right
    w[at.F_L + j] = tire(w, j, w[at.UL + j], left, grip)
    w[at.F_R + j] = tire(w, j, w[at.UR + j], right, grip)
    w[at.DRAG_L + j] = w[at.ROLLING + j] * left * between(w[at.WL + j], -1.0, 1.0)
    w[at.DRAG_R + j] = w[at.ROLLING + j] * right * between(w[at.WR + j], -1.0, 1.0)


@inline
def stretch_links(w: Array, j: int) -> None:
    """Thrust, wind-up torque, lift, and the changes of the spring forces."""
    z, zv, th, thv = w[at.Z + j], w[at.ZV + j], w[at.TH + j], w[at.THV + j]
    b, below, e = w[at.ARM_B + j], w[at.BELOW + j], w[at.MOUNT + j]
    slope, arm = w[at.SLOPE + j], w[at.ARM + j]
    q = z - b * th - w[at.ZA + j]
    qv = zv - b * thv - w[at.ZAV + j]
    psi, psiv = w[at.PSI + j], w[at.PSIV + j]
    s = w[at.XR + j] - below * th - e * psi - slope * q
    sv = w[at.VA + j] - w[at.V + j] - below * thv - e * psiv - slope * qv
    thrust = w[at.K_X + j] * s + w[at.C_X + j] * sv
    wind = w[at.K_PSI + j] * (psi - th - q * arm) + w[at.C_PSI + j] * (psiv - thv - qv * arm)
    w[at.THRUST + j] = thrust
    w[at.WIND + j] = wind
    w[at.LIFT + j] = thrust * slope + wind * arm
    w[at.F_REAR + j] = -w[at.K_RR + j] * q - w[at.C_RR + j] * qv
    a, rest = w[at.ARM_A + j], w[at.N_F + j]
    front = rest - w[at.K_F + j] * (z + a * th) - w[at.C_F + j] * (zv + a * thv)
    w[at.F_FRONT + j] = max(front, 0.0) - rest


@inline
def fire_engine(w: Array, j: int, t: float) -> None:
    """Engine torque; the row FULL already holds what the curve gives at full throttle."""
    low = w[at.THROTTLE + j]
    first = min(t, w[at.SECOND_START + j])
    low += w[at.THROTTLE_RISE + j] * climbed(
        first, w[at.THROTTLE_START + j], w[at.THROTTLE_PACE + j]
    )
    share = climbed(t, w[at.SECOND_START + j], w[at.SECOND_PACE + j])
    throttle = low + (w[at.SECOND + j] - low) * share
    speed = w[at.E + j]
    fade = between(0.05 * (w[at.LIMIT + j] - speed), 0.0, 1.0)
    dragging = (1.0 - throttle) * w[at.MOTORED + j] * between(0.01 * speed, -1.0, 1.0)
    w[at.T_E + j] = throttle * w[at.FULL + j] * fade - dragging


@inline
def read_converter(w: Array, lanes: int) -> None:
    """Speed ratio, slower over faster side, and what both curves give there."""
    for j in range(lanes):
        turbine, pump = w[at.A + j], max(w[at.E + j], 1.0)
        w[at.SPEED_RATIO + j] = max(min(turbine, pump) / max(turbine, pump), 0.0)
        w[at.DRAWN + j] = 1.0
        w[at.GAIN + j] = w[at.RATIO + j]
    for k in range(at.HINGES):
        row = at.RATIO_SLOPE + k * at.LANES
        for j in range(lanes):
            past = max(w[at.SPEED_RATIO + j] - PLACES[k], 0.0)
            w[at.DRAWN + j] += PUMP_BENDS[k] * past
            w[at.GAIN + j] += w[row + j] * past


@inline
def turn_converter(w: Array, j: int) -> None:
    """Pump and turbine torque; beyond equal speeds the turbine drives."""
    engine, turbine = w[at.E + j], w[at.A + j]
    over = turbine > max(engine, 1.0)
    pace = turbine if over else engine
    torque = w[at.PUMP + j] * pace * pace * w[at.DRAWN + j]
    multiplied = torque * w[at.GAIN + j]
    w[at.T_PUMP + j] = -torque if over else torque
    w[at.T_IN + j] = -torque if over else multiplied


@inline
def capacity(w: Array, j: int, t: float) -> float:
    """What the clutch holds at a moment."""
    rise = w[at.CLAMP_RISE + j] * climbed(t, w[at.CLAMP_START + j], w[at.CLAMP_PACE + j])
    result: float = w[at.CAPACITY + j] * (w[at.CLAMP + j] + rise)
    return result


@inline
def hold_clutch(w: Array, j: int, t: float, step: float, pace: float, automatic: bool) -> float:
    """Torques of clutch and trans-brake, and whether the clutch sticks; gives what it felt.

    The hold is first taken to stick, with the clutch pulling on a shaft that stands; if its
    capacity does not allow that it slips with all of it.  Either way the clutch is then alone.

    In the step in which it comes to stick it has slipped up to that moment, with what it held then:
    more than in the step before where the clamp still rises.
    """
    cap = capacity(w, j, t)
    slide = w[at.SLIDE + j] * cap
    stuck = w[at.STUCK + j]
    t_d = w[at.T_D + j]
    out = max(t_d, 0.0) * w[at.OUT_PULL + j] + min(t_d, 0.0) * w[at.OUT_PUSH + j]
    upstream = w[at.T_IN + j]
    ij_a, ij_g = w[at.IJ_A + j], w[at.IJ_G + j]
    held = 0.0
    if automatic:
        need = out - w[at.G + j] * (pace * w[at.J_G + j])
        most = cap if (stuck > 0.5) & (abs(need) <= cap) else slide
        drawn = between(need, -most, most)
        hold = w[at.HOLD + j] + w[at.HOLD_RISE + j] * climbed(
            t, w[at.HOLD_START + j], w[at.HOLD_PACE + j]
        )
        held = between(upstream - drawn + w[at.A + j] * (pace * w[at.J_A + j]), -hold, hold)
    slip = w[at.A + j] - w[at.G + j]
    pull = ((upstream - held) * ij_a + out * ij_g) * w[at.J_PASS + j]
    stop = slip * (pace * w[at.J_PASS + j])
    need = stop + pull
    most = cap if (stuck > 0.5) & (abs(need) <= cap) else slide
    passed = between(need, -most, most)
    sticks = (abs(need) <= most) & (cap > 0.0)
    w[at.T_C + j] = passed
    w[at.T_H + j] = held
    w[at.CAP + j] = cap
    w[at.STUCK + j] = 1.0 if sticks else 0.0
    # Slipping at its most, the clutch had the slip stopped after this share of the step.
    turned = most if need > 0.0 else -most
    share = between(stop / (turned - pull), 0.0, 1.0) if turned != pull else 1.0
    last = w[at.SLIDE + j] * capacity(w, j, t + (share - 0.5) * step)
    turned = last if need > 0.0 else -last
    return turned if sticks & (stuck < 0.5) else passed


@inline
def hold_wheels(w: Array, j: int, t: float, step: float, pace: float) -> None:
    """Brake torques: each would stop its wheel against the housing by the end of the step."""
    most = 0.5 * (
        w[at.BRAKES + j]
        + w[at.BRAKES_RISE + j] * climbed(t, w[at.BRAKES_START + j], w[at.BRAKES_PACE + j])
    )
    wheel, housing = step * w[at.IJ_W + j], step * w[at.IJ_PSI + j]
    r = w[at.RADIUS + j]
    turned = w[at.PSIV + j] + housing * (
        w[at.T_AX + j] - w[at.WIND + j] + w[at.MOUNT + j] * w[at.THRUST + j]
    )
    left = w[at.T_L + j] - r * w[at.F_L + j] - w[at.DRAG_L + j]
    right = w[at.T_R + j] - r * w[at.F_R + j] - w[at.DRAG_R + j]
    left = w[at.WL + j] + turned + wheel * left
    right = w[at.WR + j] + turned + wheel * right
    both = (left + right) * (pace * w[at.J_BOTH + j])
    apart = (left - right) * (pace * w[at.J_W + j])
    one = pace * w[at.J_ONE + j]
    first = between(0.5 * (both + apart), -most, most)
    other = between((right - housing * first) * one, -most, most)
    w[at.Q_L + j] = between((left - housing * other) * one, -most, most)
    w[at.Q_R + j] = other


@inline
def hold_side_gears(w: Array, j: int, pace: float) -> None:
    """Friction inside the differential."""
    most = w[at.PRELOAD + j] + w[at.BIAS + j] * abs(w[at.T_AX + j])
    need = w[at.XV + j] * (pace * w[at.J_X + j]) - (w[at.T_L + j] - w[at.T_R + j])
    w[at.T_F + j] = between(need, -most, most)
