"""Sine and arctangent as polynomials without branches, so that launches run side by side.

The coefficients are minimax fits (iteratively reweighted least squares on Chebyshev points,
derived); the largest errors, checked by the tests, stand in the docstrings.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

import numpy as np
from numba import njit

F = TypeVar("F", bound=Callable[..., object])

FAST = frozenset({"contract", "reassoc", "arcp", "nsz"})
"""What the compiler may rearrange; it must still believe in NaN and inf."""


_A0 = 0.9999993355775886
_A1 = -0.333298607810372
_A2 = 0.1994656561048663
_A3 = -0.1390862933093601
_A4 = 0.09642196732528771
_A5 = -0.05591231818919022
_A6 = 0.02186295163278659
_A7 = -0.004054565409752992
_S0 = 0.9999999765898463
_S1 = -0.1666664763461546
_S2 = 0.008332899822933771
_S3 = -0.0001980089773686716
_S4 = 2.590488447945516e-06


def inline(function: F, fastmath: bool = True) -> F:
    """Compile a helper into its caller."""
    # Helpers are never called from outside, so nothing is built for that; the stubs know no such
    # options.
    bare: dict[str, Any] = {"no_cpython_wrapper": True, "no_cfunc_wrapper": True}
    flags = set(FAST) if fastmath else False
    compiled: F = njit(forceinline=True, fastmath=flags, error_model="numpy", **bare)(function)
    return compiled


def _kept(x: float) -> float:
    """The number itself, by an addition that the compiler may not leave out.

    A choice between an old and a new value that goes straight back to where the old one came from
    is made a masked store, which costs far more than this.
    """
    return x + 0.0


kept = inline(_kept, fastmath=False)


@inline
def arctangent(x: float) -> float:
    """Angle of a slope, any size; wrong by less than 4e-8 rad."""
    a = abs(x)
    steep = a > 1.0
    y = min(a, 1.0) / max(a, 1.0)
    s = y * y
    p = y * (_A0 + s * (_A1 + s * (_A2 + s * (_A3 + s * (_A4 + s * (_A5 + s * (_A6 + s * _A7)))))))
    p = 0.5 * np.pi - p if steep else p
    return p if x >= 0.0 else -p


@inline
def sine(x: float) -> float:
    """Sine of an angle between -3π/2 and 3π/2; wrong by less than 4e-9."""
    a = abs(x)
    y = np.pi - a if a > 0.5 * np.pi else a
    s = y * y
    p = y * (_S0 + s * (_S1 + s * (_S2 + s * (_S3 + s * _S4))))
    return p if x >= 0.0 else -p
