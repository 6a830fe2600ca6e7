"""Hardness of steel and the strength that goes with it.

The table is SAE J413 as Fett gives it: quenched and tempered steel, Rockwell C against Brinell,
tensile strength, tensile yield and torsional yield.  The copy prints 941 MPa tensile yield at
HRC 30; in the other six rows torsional yield is 0.60 of tensile yield, which gives 841 MPa there,
so 841 is used.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_J413 = (
    "SAE J413, as reproduced in Fett, Importance of Induction Hardened Case Depth in Torsional "
    "Applications, Heat Treating Progress, Oct. 2009"
)
_RANGE = {"rockwell_c": (0.0, 62.0)}
_OUTSIDE = "beyond the table; the end value is held, and very hard steel is brittle"

ROCKWELL_C = (0.0, 10.0, 20.0, 30.0, 40.0, 50.0, 52.0)
BRINELL = (150.0, 187.0, 226.0, 286.0, 371.0, 481.0, 514.0)
TENSILE_STRENGTH = (517e6, 655e6, 759e6, 966e6, 1276e6, 1690e6, 1793e6)
TENSILE_YIELD = (366e6, 503e6, 614e6, 841e6, 1152e6, 1524e6, 1614e6)
TORSIONAL_YIELD = (221e6, 303e6, 366e6, 503e6, 690e6, 917e6, 966e6)


@formula("HB", "count", source=_J413, kind="lookup", valid=_RANGE, outside=_OUTSIDE)
def brinell(rockwell_c: Num) -> Num:
    """Brinell hardness that goes with a Rockwell C hardness."""
    return np.interp(rockwell_c, ROCKWELL_C, BRINELL)


@formula("S_ut", "stress", source=_J413, kind="lookup", valid=_RANGE, outside=_OUTSIDE)
def tensile_strength_at(rockwell_c: Num) -> Num:
    """Ultimate tensile strength of quenched and tempered steel of a Rockwell C hardness."""
    return np.interp(rockwell_c, ROCKWELL_C, TENSILE_STRENGTH)


@formula("S_y", "stress", source=_J413, kind="lookup", valid=_RANGE, outside=_OUTSIDE)
def tensile_yield_at(rockwell_c: Num) -> Num:
    """Tensile yield strength of quenched and tempered steel of a Rockwell C hardness."""
    return np.interp(rockwell_c, ROCKWELL_C, TENSILE_YIELD)


@formula("S_sy", "stress", source=_J413, kind="lookup", valid=_RANGE, outside=_OUTSIDE)
def torsional_yield_at(rockwell_c: Num) -> Num:
    """Torsional yield strength of quenched and tempered steel of a Rockwell C hardness."""
    return np.interp(rockwell_c, ROCKWELL_C, TORSIONAL_YIELD)


@formula("S_su", "stress", source="MIL-HDBK-5J, low-alloy steels: F_su = 0.60 F_tu")
def shear_strength_of_steel(tensile_strength: Num) -> Num:
    """Shear stress at which low-alloy steel shears off."""
    return 0.60 * tensile_strength


@formula("S_sy", "stress", source="distortion energy (von Mises) in pure shear, closed form")
def shear_yield_by_distortion_energy(yield_strength: Num) -> Num:
    """Shear yield of ductile steel by distortion energy."""
    return yield_strength / np.sqrt(3.0)  # type: ignore[no-any-return]


@formula("S_sy", "stress", source=f"{_J413}: torsional yield 0.60 of tensile yield in every row")
def shear_yield_by_table(yield_strength: Num) -> Num:
    """Torsional yield of quenched and tempered steel as the hardness table has it."""
    return 0.60 * yield_strength
