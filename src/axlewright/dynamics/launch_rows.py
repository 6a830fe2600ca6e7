"""Where each number of a launch stands in the block that the march works on.

A block holds ``LANES`` launches side by side: one row of as many numbers for every parameter,
state, torque and tally, all in one flat array.  A name here is the place of the first of its row.
That the rows are a known distance apart is what lets the compiler take all lanes at once.
"""

from __future__ import annotations

from itertools import count

LANES = 8
"""Launches that march side by side."""

HINGES = 13
"""Points of the converter curves."""

_place = count(0, LANES)


def _rows(number: int) -> list[int]:
    return [next(_place) for _ in range(number)]


# States, in the order of docs/launch-model.md; a trailing V marks the rate.
(
    E, A, G, PHI, P, AL, AR, X, XV, WL, WR, UL, UR, V, VA, XR,
    Z, ZV, TH, THV, ZA, ZAV, RO, ROV, PSI, PSIV, DIST,
) = _rows(27)  # fmt: skip
STATES = 27

# What is remembered besides: clutch stuck, side of the gap that the axle shafts lean on.
STUCK, LEAN = _rows(2)

# Torques and forces of the present step.
(
    T_E, T_PUMP, T_IN, T_C, T_H, T_D, T_L, T_R, T_AX, T_F, Q_L, Q_R, N_L, N_R, F_L, F_R,
    DRAG_L, DRAG_R, THRUST, WIND, LIFT, F_REAR, F_FRONT, CAP, FULL, SPEED_RATIO, DRAWN, GAIN,
) = _rows(28)  # fmt: skip

# Tallies: greatest and least, then the rest.
(
    C_MOST, C_LEAST, D_MOST, D_LEAST, AX_MOST, AX_LEAST, L_MOST, L_LEAST, R_MOST, R_LEAST,
    TL_MOST, TL_LEAST, TR_MOST, TR_LEAST, M_MOST, M_LEAST, X_MOST, X_LEAST,
    HOP_MOST, HOP_LEAST, PSI_MOST, PSI_LEAST,
    AX_TIME, HEAT, LOCK, E_LEAST, TURNS, FRONT_LEAST,
) = _rows(28)  # fmt: skip

# Speeds before the step and energies; only written where a history is kept.
OLD_E, OLD_A, OLD_G, OLD_P, OLD_XV, OLD_WL, OLD_WR = _rows(7)
OLD_V, OLD_VA, OLD_ZV, OLD_THV, OLD_ZAV, OLD_ROV, OLD_PSIV = _rows(7)
(
    W_ENGINE, W_CLUTCH, W_CONVERTER, W_HOLD, W_BRAKES, W_GEARS, W_SHAFTS, W_FRICTION,
    W_TIRES, W_ROLLING, W_AIR, W_SUSPENSION,
) = _rows(12)  # fmt: skip

# Parameters; a leading I is one over.  Engine, converter, clutch.
BASE, LIMIT, MOTORED, IJ_E, IJ_A, PUMP, CAPACITY, SLIDE, J_PASS = _rows(9)
RATIO = next(_place)
RATIO_SLOPE = _rows(HINGES)[0]
# Gearbox, driveshaft, pinion.
J_A, J_G, IJ_G, II_G, OUT_PULL, OUT_PUSH, K_D, B_D, D_D, IJ_P, II_A, AX_PULL, AX_PUSH = _rows(13)
# Shafts, differential, wheels.
K_L, K_R, B_S, D_S, J_X, IJ_X, BIAS, PRELOAD, J_W, IJ_W, J_ONE, J_BOTH, ROLLING = _rows(13)
# Tires.
RADIUS, MU, N_REF, SENSE, SHAPE, RISE, BEND, I_SIGMA, K_T, C_T, N_HALF = _rows(11)
# Body and links.
IM_B, IM_A, AIR, ARM_A, ARM_B, II_Y, II_X, N_F, K_F, C_F, K_RR, C_RR = _rows(12)
K_RO, C_RO, RO_SHARE, G_R, I_TRACK, BELOW, MOUNT, SLOPE, ARM = _rows(9)
K_X, C_X, K_PSI, C_PSI, IJ_PSI = _rows(5)
# Ramps: level before, rise, start, one over duration.  The second throttle has no level before.
THROTTLE, THROTTLE_RISE, THROTTLE_START, THROTTLE_PACE = _rows(4)
SECOND, SECOND_START, SECOND_PACE = _rows(3)
CLAMP, CLAMP_RISE, CLAMP_START, CLAMP_PACE, CLAMP_BEGIN = _rows(5)
HOLD, HOLD_RISE, HOLD_START, HOLD_PACE = _rows(4)
BRAKES, BRAKES_RISE, BRAKES_START, BRAKES_PACE = _rows(4)
GRIP, GRIP_RISE, GRIP_START, GRIP_PACE = _rows(4)

SIZE = next(_place)
