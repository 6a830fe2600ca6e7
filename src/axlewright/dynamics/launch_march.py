"""The march through a launch: forces at the present place, new speeds, then new places.

One source, compiled once for each kind of car (``march_of``): foot clutch or automatic, gears that
may turn in the case or a locker, with or without the energies that a history keeps.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable
from functools import cache
from zlib import crc32

from numba import njit

from axlewright.dynamics import (
    fast_math,
    launch_curves,
    launch_energy,
    launch_forces,
    launch_rows,
)
from axlewright.dynamics import launch_rows as at
from axlewright.dynamics.fast_math import FAST, inline, kept
from axlewright.dynamics.launch_energy import keep_speeds, note_energy
from axlewright.dynamics.launch_forces import (
    fire_engine,
    hold_clutch,
    hold_side_gears,
    hold_wheels,
    press_tires,
    read_converter,
    stretch_links,
    turn_converter,
    wind_shafts,
)
from axlewright.quantities.formula import Array

ROWS = at.SIZE // at.LANES

March = Callable[[Array, Array, Array, int, int, float], None]
"""Block, curve places and slopes, first step, number of steps, seconds a step."""


@inline
def note(w: Array, j: int, most: int, value: float) -> None:
    """Raise the greatest value, lower the least one in the row behind it."""
    w[most + j] = kept(max(w[most + j], value))
    w[most + at.LANES + j] = kept(min(w[most + at.LANES + j], value))


@inline
def note_peaks(w: Array, j: int, time: float, clutch: float) -> None:
    """Tally what the present place shows; ``clutch`` is what the clutch feels in this step."""
    axle, r, when = w[at.T_AX + j], w[at.RADIUS + j], w[at.AX_TIME + j]
    w[at.AX_TIME + j] = kept(time if axle > w[at.AX_MOST + j] else when)
    note(w, j, at.C_MOST, clutch)
    note(w, j, at.D_MOST, w[at.T_D + j])
    note(w, j, at.AX_MOST, axle)
    note(w, j, at.L_MOST, w[at.T_L + j])
    note(w, j, at.R_MOST, w[at.T_R + j])
    note(w, j, at.TL_MOST, r * w[at.F_L + j])
    note(w, j, at.TR_MOST, r * w[at.F_R + j])
    note(w, j, at.M_MOST, w[at.WIND + j])
    note(w, j, at.X_MOST, w[at.THRUST + j])
    note(w, j, at.HOP_MOST, w[at.N_L + j] + w[at.N_R + j])
    note(w, j, at.PSI_MOST, w[at.PSI + j])
    w[at.E_LEAST + j] = kept(min(w[at.E_LEAST + j], w[at.E + j]))
    w[at.FRONT_LEAST + j] = kept(min(w[at.FRONT_LEAST + j], w[at.F_FRONT + j]))
    note_lean(w, j)


@inline
def note_lean(w: Array, j: int) -> None:
    """On which side of their gap the axle shafts lean, and how often that has changed."""
    twist, gap = 0.5 * (w[at.AL + j] + w[at.AR + j]), w[at.D_S + j]
    leant, turns = w[at.LEAN + j], w[at.TURNS + j]
    lean = 1.0 if twist > gap else leant
    lean = -1.0 if twist < -gap else lean
    w[at.LEAN + j] = lean
    w[at.TURNS + j] = turns + (1.0 if lean * leant < 0.0 else 0.0)


@inline
def turn_parts(w: Array, j: int, time: float, step: float, automatic: bool, locked: bool) -> None:
    """New speeds of all that turns."""
    slip, lock = w[at.A + j] - w[at.G + j], w[at.LOCK + j]
    t_c, t_d, axle = w[at.T_C + j], w[at.T_D + j], w[at.T_AX + j]
    out = max(t_d, 0.0) * w[at.OUT_PULL + j] + min(t_d, 0.0) * w[at.OUT_PUSH + j]
    back = max(axle, 0.0) * w[at.AX_PULL + j] + min(axle, 0.0) * w[at.AX_PUSH + j]
    w[at.A + j] += step * w[at.IJ_A + j] * (w[at.T_IN + j] - t_c - w[at.T_H + j])
    if automatic:
        w[at.E + j] += step * w[at.IJ_E + j] * (w[at.T_E + j] - w[at.T_PUMP + j])
    else:
        w[at.E + j] = w[at.A + j]
    w[at.G + j] += step * w[at.IJ_G + j] * (t_c - out)
    w[at.P + j] += step * w[at.IJ_P + j] * (t_d - back)
    if not locked:
        w[at.XV + j] -= step * w[at.IJ_X + j] * (w[at.T_L + j] - w[at.T_R + j] + w[at.T_F + j])
    wheel, r = step * w[at.IJ_W + j], w[at.RADIUS + j]
    left = w[at.T_L + j] - r * w[at.F_L + j] - w[at.DRAG_L + j] - w[at.Q_L + j]
    right = w[at.T_R + j] - r * w[at.F_R + j] - w[at.DRAG_R + j] - w[at.Q_R + j]
    w[at.WL + j] += wheel * left
    w[at.WR + j] += wheel * right
    slip += w[at.A + j] - w[at.G + j]
    w[at.HEAT + j] += 0.5 * step * t_c * slip
    shut = (w[at.STUCK + j] > 0.5) & (time >= w[at.CLAMP_BEGIN + j])
    w[at.LOCK + j] = kept(min(lock, time if shut else 1e300))


@inline
def push_body(w: Array, j: int, step: float) -> None:
    """New speeds of body, axle and housing."""
    thrust, wind, lift = w[at.THRUST + j], w[at.WIND + j], w[at.LIFT + j]
    front, rear = w[at.F_FRONT + j], w[at.F_REAR + j] + lift
    v = w[at.V + j]
    turning = thrust * w[at.BELOW + j] + wind + w[at.ARM_A + j] * front - w[at.ARM_B + j] * rear
    rolling = (
        w[at.G_R + j] * w[at.T_D + j]
        - w[at.K_RO + j] * w[at.RO + j]
        - w[at.C_RO + j] * w[at.ROV + j]
    )
    planted = w[at.N_L + j] + w[at.N_R + j] - 2.0 * w[at.N_HALF + j]
    housing = w[at.T_AX + j] - wind + w[at.MOUNT + j] * thrust - w[at.Q_L + j] - w[at.Q_R + j]
    w[at.V + j] += step * w[at.IM_B + j] * (thrust - w[at.AIR + j] * v * abs(v))
    w[at.VA + j] += step * w[at.IM_A + j] * (w[at.F_L + j] + w[at.F_R + j] - thrust)
    w[at.ZV + j] += step * w[at.IM_B + j] * (front + rear)
    w[at.THV + j] += step * w[at.II_Y + j] * turning
    w[at.ZAV + j] += step * w[at.IM_A + j] * (planted - rear)
    w[at.ROV + j] += step * w[at.II_X + j] * rolling
    w[at.PSIV + j] += step * w[at.IJ_PSI + j] * housing


@inline
def deflect(w: Array, j: int, step: float, place: int, speed: float) -> None:
    """New deflection of one tire, its fading taken at the end of the step."""
    rim, v = speed * w[at.RADIUS + j], w[at.VA + j]
    fastest = max(abs(rim), abs(v))
    pace = max(fastest, 0.3)
    fading = 1.0 + step * pace * w[at.I_SIGMA + j]
    w[place + j] = (w[place + j] + step * (rim - v)) / fading


@inline
def move(w: Array, j: int, step: float, locked: bool) -> None:
    """New places with the new speeds."""
    pinion = w[at.P + j]
    carrier = pinion * w[at.II_A + j] - w[at.PSIV + j]
    w[at.PHI + j] += step * (w[at.G + j] * w[at.II_G + j] - pinion - w[at.G_R + j] * w[at.ROV + j])
    w[at.AL + j] += step * (carrier - w[at.WL + j])
    w[at.AR + j] += step * (carrier - w[at.WR + j])
    if not locked:
        w[at.X + j] += step * w[at.XV + j]
    deflect(w, j, step, at.UL, w[at.WL + j])
    deflect(w, j, step, at.UR, w[at.WR + j])
    w[at.XR + j] += step * (w[at.VA + j] - w[at.V + j])
    w[at.Z + j] += step * w[at.ZV + j]
    w[at.TH + j] += step * w[at.THV + j]
    w[at.ZA + j] += step * w[at.ZAV + j]
    w[at.RO + j] += step * w[at.ROV + j]
    w[at.PSI + j] += step * w[at.PSIV + j]
    w[at.DIST + j] += step * w[at.V + j]


@inline
def advance(
    w: Array, j: int, n: int, step: float, pace: float, automatic: bool, locked: bool, watched: bool
) -> None:
    """Take lane ``j`` through step ``n``."""
    middle = (n + 0.5) * step
    wind_shafts(w, j)
    press_tires(w, j, middle)
    stretch_links(w, j)
    fire_engine(w, j, middle)
    if automatic:
        turn_converter(w, j)
    else:
        w[at.T_PUMP + j] = 0.0
        w[at.T_IN + j] = w[at.T_E + j]
    clutch = hold_clutch(w, j, middle, step, pace, automatic)
    hold_wheels(w, j, middle, step, pace)
    if not locked:
        hold_side_gears(w, j, pace)
    note_peaks(w, j, n * step, clutch)
    if watched:
        keep_speeds(w, j)
    turn_parts(w, j, (n + 1) * step, step, automatic, locked)
    push_body(w, j, step)
    if watched:
        note_energy(w, j, step, automatic)
    move(w, j, step, locked)


def _stamp() -> int:
    """Sum over the sources of all helpers: code kept on disk is known by it, not by their dates."""
    helpers = (fast_math, launch_curves, launch_energy, launch_forces, launch_rows)
    return crc32("".join(inspect.getsource(h) for h in helpers).encode())


@cache
def march_of(automatic: bool, locked: bool, watched: bool) -> March:
    """Compile the march of one kind of car (from disk if that was done before)."""
    stamp = _stamp()

    @njit(cache=True, nogil=True, fastmath=set(FAST), error_model="numpy")
    def march(
        w: Array, places: Array, slopes: Array, first: int, steps: int, step: float
    ) -> None:  # pragma: no cover - runs compiled
        if stamp < 0:  # never; it makes the stamp a part of this code
            return
        # The compiler must not know how many lanes there are: it would write them all out.
        lanes, pace = w.size // ROWS, 1.0 / step
        for n in range(first, first + steps):
            for j in range(lanes):
                w[at.FULL + j] = w[at.BASE + j]
            for k in range(0, places.size, at.LANES):
                for j in range(lanes):
                    past = max(w[at.E + j] - places[k + j], 0.0)
                    w[at.FULL + j] += slopes[k + j] * past
            if automatic:
                read_converter(w, lanes)
            for j in range(lanes):
                advance(w, j, n, step, pace, automatic, locked, watched)

    compiled: March = march
    return compiled
