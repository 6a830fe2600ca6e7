"""Where two teeth press on each other along a line: width, pressure and how much both give.

A strip of the line is a cylinder on a plane.  Hertz gives its half width and peak pressure; how
far the flank sinks toward the middle of its own tooth depends on how deep that lies, since the
depth of a line's field has no end (Johnson, Contact Mechanics, ch. 5, from memory).
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_LINE = "Hertz line contact (closed form)"


@formula("E*", "modulus", source="Hertz, two bodies of one material (closed form)")
def contact_modulus(youngs_modulus: Num, poisson_ratio: Num) -> Num:
    """Stiffness of both bodies together where they press on each other."""
    return 0.5 * youngs_modulus / (1.0 - poisson_ratio * poisson_ratio)


@formula("b_H", "length", source=_LINE)
def contact_half_width(line_load: Num, relative_radius: Num, contact_modulus: Num) -> Num:
    """Half the width over which two cylinders touch."""
    return np.sqrt(4.0 * line_load * relative_radius / (np.pi * contact_modulus))


@formula("p_0", "stress", source=_LINE)
def line_pressure(line_load: Num, relative_radius: Num, contact_modulus: Num) -> Num:
    """Greatest pressure between two cylinders."""
    return np.sqrt(line_load * contact_modulus / (np.pi * relative_radius))


@formula(
    "δ_H",
    "length",
    source="Johnson, Contact Mechanics, ch. 5: compression of a cylinder to a depth (from memory; "
    "closed form)",
    valid={"line_load": (0.0, None)},
    outside="teeth do not pull",
)
def line_compression(
    line_load: Num, hertz_half_width: Num, tooth_half_thickness: Num, youngs_modulus: Num,
    poisson_ratio: Num,
) -> Num:  # fmt: skip
    """How far the middle of a tooth comes nearer to where its flank is pressed.

    Plane strain; the depth is many times the half width.
    """
    soft = (1.0 - poisson_ratio * poisson_ratio) / (np.pi * youngs_modulus)
    deep = 2.0 * np.log(2.0 * tooth_half_thickness / hertz_half_width)
    return line_load * soft * (deep - poisson_ratio / (1.0 - poisson_ratio))
