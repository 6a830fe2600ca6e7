"""Life of a roller bearing from the load on each slice of its rollers, and of several together.

After ISO/TS 16281 and the theory behind ISO 281 (from memory).  By slices life falls with the
fourth power of load, by the rating rule of ISO 281 with the power 10/3 that allows for rollers
which touch unevenly: at an eighth of the rating slices promise up to four times as much.  Edge
stress, oil film and dirt are no part of either.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Array, Num, formula

_TS = "ISO/TS 16281 (from memory)"
DENT_PRESSURE = 4.0e9
"""Pressure (Pa) at which a standing roller leaves a mark of a ten-thousandth of its diameter
(ISO 76, from memory).  Beyond it rollers are no longer elastic and no life can be worked out."""


@formula("q_c", "force", source=f"{_TS}, capacity of one slice, Qc·(1/ns)^(7/9)")
def slice_capacity(race_capacity: Num, slice_count: Num) -> Num:
    """Load on one slice of a roller that a race stands for a million turns."""
    result: Num = race_capacity * slice_count ** (-7.0 / 9.0)
    return result


@formula("P_ref", "force", source=f"{_TS}, Pref = C·(L10r/1e6)^(-3/10)")
def reference_load(dynamic_rating: Num, bearing_life: Num) -> Num:
    """Plain radial load under which the rating rule gives the life found roller by roller."""
    result: Num = dynamic_rating * (bearing_life / 1.0e6) ** -0.3
    return result


@formula("t_10", "time", source="turns over speed (closed form)")
def running_time(bearing_life: Num, speed: Num) -> Num:
    """Running time of so many turns at a steady speed."""
    return 2.0 * np.pi * bearing_life / speed


@formula(
    "L_12",
    "count",
    source="product of the chances of both, Weibull slope 9/8 of roller bearings (ISO/TR 1281-1, "
    "from memory)",
)
def lives_together(first_life: Num, second_life: Num) -> Num:
    """Turns of the same shaft that two parts together reach nine times out of ten."""
    both = first_life ** (-9.0 / 8.0) + second_life ** (-9.0 / 8.0)
    result: Num = both ** (-8.0 / 9.0)
    return result


@formula(
    "p_r",
    "stress",
    source="Hertz, line contact of two steel cylinders, E 206 GPa, ν 0.3 (closed form)",
    valid={"slice_line_load": (0.0, None)},
    outside="a load below zero is a gap",
)
def roller_pressure(
    slice_line_load: Num,
    roller_diameter: Num,
    bearing_contact_angle: Num,
    roller_pitch_diameter: Num,
) -> Num:
    """Pressure of a roller on the cone's race, which it presses harder than the cup's."""
    race = 0.5 * (roller_pitch_diameter / np.cos(bearing_contact_angle) - roller_diameter)
    curved = 2.0 / roller_diameter + 1.0 / race
    result: Num = np.sqrt(slice_line_load * curved * 206.0e9 / (2.0 * np.pi * 0.91))
    return result


def race_equivalents(loads: Array) -> tuple[Array, Array]:
    """Loads that wear inner and outer race like those of all rollers, by slice.

    ``loads`` (roller, slice) in N.  The inner race turns under the load (power 4), the outer one
    stands (power 4.5); ISO/TS 16281, from memory.
    """
    inner = np.mean(loads**4.0, axis=0) ** (1.0 / 4.0)
    outer = np.mean(loads**4.5, axis=0) ** (1.0 / 4.5)
    return np.asarray(inner), np.asarray(outer)
