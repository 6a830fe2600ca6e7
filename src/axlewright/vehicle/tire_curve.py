"""Push of a tire against its slip, drawn from three things one can name: peak, slide, bend.

The curve is the Magic Formula of Bakker, Nyborg and Pacejka, SAE 870421, with its top where the
tire grips best and its end at a wheel that spins on the spot.  Its load and temperature are dealt
with apart.  Vertical stiffness follows Rhyne's relation for belted radial tires.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_MAGIC = "Bakker, Nyborg & Pacejka, SAE 870421 (form from memory)"
_HALVINGS = 60


@formula(
    "y",
    "ratio",
    source=f"{_MAGIC}: peak at the peak slip, sliding share at slip 1 (derived; {_HALVINGS} "
    "halvings)",
    kind="solve",
    valid={"slide_share": (0.3, 0.99), "peak_slip": (0.02, 0.5), "tire_bend": (-3.0, 0.95)},
    outside="no curve of this form has such a peak and such an end",
)
def tire_turn(slide_share: Num, peak_slip: Num, tire_bend: Num) -> Num:
    """Rise times peak slip: the one number that puts peak and sliding end where they belong.

    With the peak at y the shape is (π/2)/arctan(y(1−E) + E·arctan y); the angle of the sine at
    slip 1 must then be π less the arcsine of the sliding share.
    """
    wanted = 2.0 - 2.0 / np.pi * np.arcsin(slide_share)
    low = np.zeros_like(wanted * peak_slip * tire_bend) + 1e-3
    high = low + 40.0
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        rise = middle / peak_slip
        top = np.arctan(middle - tire_bend * (middle - np.arctan(middle)))
        end = np.arctan(rise - tire_bend * (rise - np.arctan(rise)))
        beyond = end > wanted * top
        low, high = np.where(beyond, middle, low), np.where(beyond, high, middle)
    result: Num = (0.5 * (low + high))[()]
    return result


@formula("B", "ratio", source=f"{_MAGIC}; slip at the peak (derived)")
def tire_rise(tire_turn: Num, peak_slip: Num) -> Num:
    """Rise factor: how steeply the push begins."""
    return tire_turn / peak_slip


@formula("C", "ratio", source=f"{_MAGIC}; sine of a quarter turn at the peak (derived)")
def tire_shape(tire_turn: Num, tire_bend: Num) -> Num:
    """Shape factor: how far the push falls beyond the peak."""
    result: Num = (
        0.5 * np.pi / np.arctan(tire_turn - tire_bend * (tire_turn - np.arctan(tire_turn)))
    )
    return result


@formula(
    "μ",
    "ratio",
    source="factors on the peak grip (common practice, no source)",
    valid={"tread_factor": (0.3, 1.3)},
    outside="heat alone does not change grip so much",
)
def grip_of_the_day(tire_grip: Num, tread_factor: Num, inflation_factor: Num) -> Num:
    """Peak grip with the tread as warm as it is and the pressure as it happens to be."""
    return tire_grip * tread_factor * inflation_factor


@formula(
    "k_1t",
    "stiffness",
    source="Rhyne, Tire Science and Technology 33 (2005) 136-155, belted radial tires "
    "(relation and coefficients from memory)",
    valid={"tire_pressure": (80e3, 400e3), "aspect_ratio": (0.3, 0.85)},
    outside="the relation was fitted to radial tires at road pressures; a soft slick is softer",
)
def tire_spring_rate(
    tire_pressure: Num, aspect_ratio: Num, section_width: Num, rim_diameter: Num
) -> Num:
    """Vertical stiffness of one tire from its size and pressure."""
    across = (1.03 - 0.4 * aspect_ratio) * section_width
    round_about = 2.0 * section_width * aspect_ratio + rim_diameter
    result: Num = 9806.65 * (0.28e-3 * tire_pressure * np.sqrt(across * round_about) + 3.45)
    return result


@formula("k_t", "stiffness", source="two like springs side by side (closed form)")
def both_tires_stiffness(tire_spring_rate: Num, tire_spring_factor: Num) -> Num:
    """Vertical stiffness of both rear tires together."""
    return 2.0 * tire_spring_rate * tire_spring_factor
