"""How a figure is written: millimeters, with the same in inches in brackets below.

As many decimals as the tolerance needs and no more.  Limits are rounded inward, so that what is
read is never wider than what was meant.  Inches are written without the zero before the point (the
usage of ASME Y14.5, from memory).
"""

from __future__ import annotations

import math

from axlewright.drawing.dimensions import (
    Angular,
    Diameter,
    Dimension,
    Radius,
    Size,
    Tolerance,
    is_known,
)

INCH = 25.4
_SHARE = 5.0
"""A tolerance is at least so many last places of its figure."""
_LOST = 0.05
"""The share of a tolerance that rounding it may change."""
_MOST = 5
BLANK = "______"
"""What stands for a figure that nobody knows, to be filled in by hand."""
_HALF_UP = 1e-9
"""What makes a half go up, as a machinist rounds: 82.55 becomes 82.6."""


def decimals_for(tolerance: float) -> int:
    """Decimals with which a value and its tolerance are written."""
    for places in range(_MOST):
        fine = 10.0**-places <= tolerance / _SHARE * (1 + 1e-9)
        if fine and abs(round(tolerance, places) - tolerance) <= _LOST * tolerance:
            return places
    return _MOST


def _least(tolerance: Tolerance) -> float:
    return min(t for t in (tolerance.plus, tolerance.minus) if t > 0.0)


def figure(value: float, places: int, zero: bool = True) -> str:
    """A number with fixed decimals; ``zero`` keeps the one before the point."""
    text = f"{value + math.copysign(_HALF_UP, value):.{places}f}"
    if float(text) == 0.0:
        text = text.lstrip("-")
    if not zero and places:
        text = text.replace("0.", ".", 1) if text.lstrip("-").startswith("0.") else text
    return text.replace("-", "−")


def _inward(value: float, places: int, up: bool) -> float:
    """A limit rounded to the inside: the least one up, the most one down."""
    step = 10.0**-places
    count = value / step
    nearest = round(count)
    if abs(count - nearest) < 1e-6:
        return nearest * step
    return (math.ceil(count) if up else math.floor(count)) * step


def written(
    value: float, tolerance: Tolerance | None, places: int, unit: str = "", zero: bool = True
) -> str:
    """A value with its tolerance, all in one unit; ``places`` where no tolerance is stated."""
    if tolerance is None:
        return figure(value, places, zero) + unit
    if tolerance.unknown:
        return BLANK + unit
    places = decimals_for(_least(tolerance))
    if tolerance.limits:
        low = _inward(value - tolerance.minus, places, up=True)
        high = _inward(value + tolerance.plus, places, up=False)
        return f"{figure(low, places, zero)} to {figure(high, places, zero)}{unit}"
    shown = figure(value, places, zero)
    if math.isclose(tolerance.plus, tolerance.minus):
        return f"{shown}{unit} ±{figure(tolerance.plus, places, zero)}{unit}"
    plus = f"+{figure(tolerance.plus, places, zero)}" if tolerance.plus else "0"
    minus = f"−{figure(tolerance.minus, places, zero)}" if tolerance.minus else "0"
    return f"{shown}{unit} {plus}/{minus}{unit}"


def in_inches(tolerance: Tolerance | None) -> Tolerance | None:
    """A tolerance of millimeters, in inches."""
    if tolerance is None or tolerance.unknown:
        return tolerance
    return Tolerance(tolerance.plus / INCH, tolerance.minus / INCH, tolerance.limits)


def in_degrees(tolerance: Tolerance | None) -> Tolerance | None:
    """A tolerance of radians, in degrees."""
    if tolerance is None or tolerance.unknown:
        return tolerance
    plus, minus = math.degrees(tolerance.plus), math.degrees(tolerance.minus)
    return Tolerance(plus, minus, tolerance.limits)


def length_lines(
    value: float, tolerance: Tolerance | None, general: float | None, before: str = ""
) -> tuple[str, str]:
    """A length in millimeters, and in inches; ``general`` is the tolerance where none is stated."""
    metric = 1 if general is None else decimals_for(general)
    inches = 3 if general is None else decimals_for(general / INCH)
    first = written(value, tolerance, metric)
    second = written(value / INCH, in_inches(tolerance), inches, zero=False)
    return (f"{before}{first}", f"[{second} in]")


def in_both(size: Size | None) -> str:
    """A length in both units on one line; empty if it is not known."""
    return "" if size is None else " ".join(length_lines(size.value, size.tolerance, None))


def in_words(*sizes: Size) -> str:
    """The sum of some sizes in a description: millimeters, or that nobody knows it."""
    return f"{sum(s.value for s in sizes):.1f} mm" if is_known(*sizes) else "a length not known yet"


def angle_line(value: float, tolerance: Tolerance | None, before: str = "") -> str:
    """An angle in degrees."""
    return before + written(math.degrees(value), in_degrees(tolerance), 1, "°")


def lines_of(dimension: Dimension, general: float | None) -> tuple[str, ...]:
    """The lines in which a dimension is written."""
    before = f"{dimension.before} " if dimension.before else ""
    match dimension:
        case Angular():
            return (angle_line(dimension.value, dimension.tolerance, before),)
        case Diameter():
            return length_lines(dimension.value, dimension.tolerance, general, f"{before}Ø ")
        case Radius():
            return length_lines(dimension.value, dimension.tolerance, general, f"{before}R ")
        case _:
            return length_lines(dimension.value, dimension.tolerance, general, before)


def one_line(dimension: Dimension, general: float | None) -> str:
    """The same in one line, with both units named."""
    written_lines = lines_of(dimension, general)
    if len(written_lines) == 1:
        return written_lines[0]
    return f"{written_lines[0]} mm {written_lines[1]}"
