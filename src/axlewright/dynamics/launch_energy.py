"""Where the engine's work goes during a launch: one balance that must close.

Work is torque times the mean of the speeds before and after a step, which is exactly what the
inertias gain; what springs hold is added afterwards (``launch_history.py``).
"""

from __future__ import annotations

from axlewright.dynamics import launch_rows as at
from axlewright.dynamics.fast_math import inline
from axlewright.quantities.formula import Array


@inline
def keep_speeds(w: Array, j: int) -> None:
    """Remember the speeds before the step."""
    w[at.OLD_E + j] = w[at.E + j]
    w[at.OLD_A + j] = w[at.A + j]
    w[at.OLD_G + j] = w[at.G + j]
    w[at.OLD_P + j] = w[at.P + j]
    w[at.OLD_XV + j] = w[at.XV + j]
    w[at.OLD_WL + j] = w[at.WL + j]
    w[at.OLD_WR + j] = w[at.WR + j]
    w[at.OLD_V + j] = w[at.V + j]
    w[at.OLD_VA + j] = w[at.VA + j]
    w[at.OLD_ZV + j] = w[at.ZV + j]
    w[at.OLD_THV + j] = w[at.THV + j]
    w[at.OLD_ZAV + j] = w[at.ZAV + j]
    w[at.OLD_ROV + j] = w[at.ROV + j]
    w[at.OLD_PSIV + j] = w[at.PSIV + j]


@inline
def mean(w: Array, j: int, old: int, new: int) -> float:
    """Mean speed over the step."""
    result: float = 0.5 * (w[old + j] + w[new + j])
    return result


@inline
def sprung(twist: float, stiffness: float, half_gap: float) -> float:
    """Torque of a shaft without its damping."""
    return stiffness * (twist - min(max(twist, -half_gap), half_gap))


@inline
def note_shafts(w: Array, j: int, step: float, automatic: bool) -> None:
    """Engine, clutch, gears and shafts."""
    engine, upstream = mean(w, j, at.OLD_E, at.E), mean(w, j, at.OLD_A, at.A)
    inner, pinion = mean(w, j, at.OLD_G, at.G), mean(w, j, at.OLD_P, at.P)
    side, housing = mean(w, j, at.OLD_XV, at.XV), mean(w, j, at.OLD_PSIV, at.PSIV)
    left, right = mean(w, j, at.OLD_WL, at.WL), mean(w, j, at.OLD_WR, at.WR)
    t_d, axle, t_l, t_r = w[at.T_D + j], w[at.T_AX + j], w[at.T_L + j], w[at.T_R + j]
    out = max(t_d, 0.0) * w[at.OUT_PULL + j] + min(t_d, 0.0) * w[at.OUT_PUSH + j]
    back = max(axle, 0.0) * w[at.AX_PULL + j] + min(axle, 0.0) * w[at.AX_PUSH + j]
    carrier = pinion * w[at.II_A + j]
    w[at.W_ENGINE + j] += step * w[at.T_E + j] * engine
    w[at.W_CLUTCH + j] += step * w[at.T_C + j] * (upstream - inner)
    if automatic:
        w[at.W_CONVERTER + j] += step * (w[at.T_PUMP + j] * engine - w[at.T_IN + j] * upstream)
    w[at.W_HOLD + j] += step * w[at.T_H + j] * upstream
    w[at.W_BRAKES + j] += step * (
        w[at.Q_L + j] * (left + housing) + w[at.Q_R + j] * (right + housing)
    )
    lost = (out - t_d * w[at.II_G + j]) * inner + back * pinion - axle * carrier
    w[at.W_GEARS + j] += step * lost
    carrier -= housing
    rolled = w[at.G_R + j] * mean(w, j, at.OLD_ROV, at.ROV)
    damped = t_d - sprung(w[at.PHI + j], w[at.K_D + j], w[at.D_D + j])
    lost = damped * (inner * w[at.II_G + j] - pinion - rolled)
    damped = t_l - sprung(w[at.AL + j] + w[at.X + j], w[at.K_L + j], w[at.D_S + j])
    lost += damped * (carrier + side - left)
    damped = t_r - sprung(w[at.AR + j] - w[at.X + j], w[at.K_R + j], w[at.D_S + j])
    lost += damped * (carrier - side - right)
    w[at.W_SHAFTS + j] += step * lost
    w[at.W_FRICTION + j] += step * w[at.T_F + j] * side


@inline
def note_ground(w: Array, j: int, step: float) -> None:
    """Tires, rolling and air."""
    left, right = mean(w, j, at.OLD_WL, at.WL), mean(w, j, at.OLD_WR, at.WR)
    axle, body = mean(w, j, at.OLD_VA, at.VA), mean(w, j, at.OLD_V, at.V)
    r, old = w[at.RADIUS + j], w[at.OLD_V + j]
    slid = w[at.F_L + j] * (left * r - axle) + w[at.F_R + j] * (right * r - axle)
    w[at.W_TIRES + j] += step * slid
    w[at.W_ROLLING + j] += step * (w[at.DRAG_L + j] * left + w[at.DRAG_R + j] * right)
    w[at.W_AIR + j] += step * w[at.AIR + j] * old * abs(old) * body


@inline
def note_dampers(w: Array, j: int, step: float) -> None:
    """What suspension, mounts and tire walls turn into heat: all force that is not spring."""
    zv, thv = mean(w, j, at.OLD_ZV, at.ZV), mean(w, j, at.OLD_THV, at.THV)
    zav, rov = mean(w, j, at.OLD_ZAV, at.ZAV), mean(w, j, at.OLD_ROV, at.ROV)
    psiv = mean(w, j, at.OLD_PSIV, at.PSIV)
    xrv = mean(w, j, at.OLD_VA, at.VA) - mean(w, j, at.OLD_V, at.V)
    z, th, psi = w[at.Z + j], w[at.TH + j], w[at.PSI + j]
    q = z - w[at.ARM_B + j] * th - w[at.ZA + j]
    qv = zv - w[at.ARM_B + j] * thv - zav
    e, below, slope, arm = w[at.MOUNT + j], w[at.BELOW + j], w[at.SLOPE + j], w[at.ARM + j]
    s = w[at.XR + j] - below * th - e * psi - slope * q
    sv = xrv - below * thv - e * psiv - slope * qv
    heat = (w[at.THRUST + j] - w[at.K_X + j] * s) * sv
    turning = psiv - thv - qv * arm
    heat += (w[at.WIND + j] - w[at.K_PSI + j] * (psi - th - q * arm)) * turning
    heat -= (w[at.F_REAR + j] + w[at.K_RR + j] * q) * qv
    low, lowv = z + w[at.ARM_A + j] * th, zv + w[at.ARM_A + j] * thv
    spring = max(-w[at.K_F + j] * low, -w[at.N_F + j])
    heat -= (w[at.F_FRONT + j] - spring) * lowv
    planted = w[at.N_L + j] + w[at.N_R + j] - 2.0 * w[at.N_HALF + j]
    heat -= (planted + w[at.K_T + j] * w[at.ZA + j]) * zav
    heat += w[at.C_RO + j] * w[at.ROV + j] * rov
    w[at.W_SUSPENSION + j] += step * heat


@inline
def note_energy(w: Array, j: int, step: float, automatic: bool) -> None:
    """Add one step to all accounts; places are still those before the step."""
    note_shafts(w, j, step, automatic)
    note_ground(w, j, step)
    note_dampers(w, j, step)
