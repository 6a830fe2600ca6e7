"""Whirl of a driveshaft whose ends give way: springs and lumps at gearbox tail and pinion nose.

The tube is Euler and Bernoulli's beam; a joint passes no bending moment on, so each end is free to
tilt, stands on a spring and carries the mass that moves with it (yoke, joint, part of tail or
nose).  The shape is a straight line plus sines of the tube between its pins (Rayleigh and Ritz).
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from axlewright.quantities.formula import Num, formula

_SINES = 6


class EndedWhirl(NamedTuple):
    """The three slowest whirls of a tube on springs."""

    first_whirl: Num
    second_whirl: Num
    third_whirl: Num


@formula(
    "ω_i",
    "rotation",
    source=f"Euler-Bernoulli beam on end springs with end masses, Ritz with a straight line and "
    f"{_SINES} sines (derived)",
    kind="solve",
    valid={"front_support": (1e3, None), "rear_support": (1e3, None)},
    outside="an end as soft as that holds no driveshaft",
)
def whirl_on_springs(
    youngs_modulus: Num,
    second_moment: Num,
    tube_mass: Num,
    length: Num,
    front_support: Num,
    rear_support: Num,
    front_end_mass: Num,
    rear_end_mass: Num,
) -> EndedWhirl:
    """Whirl speeds of a tube whose ends stand on springs and carry lumps.

    Take the slowest in which the tube bows.  With one end soft and heavy the first can be that
    lump bouncing; with both ends stiff it is the bare tube on pins.
    """
    given = (youngs_modulus * second_moment, tube_mass, length, front_support, rear_support)
    ei, mass, span, front, rear, lump_1, lump_2 = np.broadcast_arrays(
        *given, front_end_mass, rear_end_mass
    )
    order = np.arange(1, _SINES + 1)
    coupling = mass[..., np.newaxis] / (order * np.pi)
    size = _SINES + 2
    inertia = np.zeros((*mass.shape, size, size))
    inertia[..., 0, 0] = mass / 3.0 + lump_1
    inertia[..., 1, 1] = mass / 3.0 + lump_2
    inertia[..., 0, 1] = inertia[..., 1, 0] = mass / 6.0
    # A sine of n half waves against the line that is one at the front and none at the rear.
    inertia[..., 0, 2:] = inertia[..., 2:, 0] = coupling
    inertia[..., 1, 2:] = inertia[..., 2:, 1] = coupling * np.where(order % 2 == 1, 1.0, -1.0)
    inertia[..., order + 1, order + 1] = 0.5 * mass[..., np.newaxis]
    flexible = np.zeros_like(inertia)
    flexible[..., 0, 0] = 1.0 / front
    flexible[..., 1, 1] = 1.0 / rear
    bend = 0.5 * (ei / span**3)[..., np.newaxis] * (order * np.pi) ** 4
    flexible[..., order + 1, order + 1] = 1.0 / bend
    # Stiffness is diagonal: scaling by its root keeps the problem symmetric and well balanced.
    root = np.sqrt(np.diagonal(flexible, axis1=-2, axis2=-1))
    scaled = root[..., :, np.newaxis] * inertia * root[..., np.newaxis, :]
    largest = np.linalg.eigvalsh(scaled)
    speeds = 1.0 / np.sqrt(largest)
    return EndedWhirl(speeds[..., -1][()], speeds[..., -2][()], speeds[..., -3][()])


@formula(
    "ω_c",
    "rotation",
    source="Dunkerley, 1/ω² of the parts added (from memory)",
)
def dunkerley_speed(pinned_speed: Num, bounce_speed: Num) -> Num:
    """Whirl speed at least, from the tube on pins and the stiff tube bouncing on its ends.

    Never above the true one of a tube without lumps at its ends: a safe figure for pencil and
    paper.
    """
    result: Num = pinned_speed / np.sqrt(1.0 + (pinned_speed / bounce_speed) ** 2)
    return result


@formula(
    "ω_b", "rotation", source="stiff beam on two springs as soft as the softer one, closed form"
)
def bounce_speed(tube_mass: Num, front_support: Num, rear_support: Num) -> Num:
    """Speed at which a shaft that does not bend bounces on its ends, at least."""
    softest = np.minimum(front_support, rear_support)
    result: Num = np.sqrt(2.0 * softest / tube_mass)
    return result


@formula("ω_h", "rotation", source="twice a turn meets the whirl speed at half of it (closed form)")
def half_critical_speed(critical_speed: Num) -> Num:
    """Shaft speed at which the joints' shake, twice a turn, meets the tube's whirl."""
    return 0.5 * critical_speed


@formula("d_h", "ratio", source="distance from half the whirl speed as a share, definition")
def distance_from_half_critical(speed: Num, critical_speed: Num) -> Num:
    """How far off half the whirl speed a shaft runs, as a share: under 0.1 a buzz is likely."""
    result: Num = np.abs(2.0 * speed / critical_speed - 1.0)
    return result


@formula(
    "m_e",
    "mass",
    source="ISO 21940-11, grade over speed, shared between two planes by the distances of the "
    "mass center (as reproduced in a grade table; sharing from memory)",
)
def plane_weight_allowed(
    balance_grade: Num,
    driveshaft_mass: Num,
    speed: Num,
    correction_radius: Num,
    other_plane_distance: Num,
    plane_spacing: Num,
) -> Num:
    """Weight at the tube's skin that a balance grade leaves at one end of the shaft.

    G16 is named for driveshafts, G40 for car drive shafts in general; one shaft maker balances to
    G16 and lets G32 pass when it is checked on another machine.
    """
    whole = balance_grade * driveshaft_mass / (speed * correction_radius)
    return whole * other_plane_distance / plane_spacing


@formula("F_u", "force", source="mass times offset times speed squared, closed form")
def runout_force(driveshaft_mass: Num, indicator_runout: Num, speed: Num) -> Num:
    """Force that goes round with a bent or off-center shaft; the offset is half the dial's swing.

    Taken as if the whole shaft were off center: the most that the runout can do well below whirl.
    """
    return 0.5 * driveshaft_mass * indicator_runout * speed * speed
