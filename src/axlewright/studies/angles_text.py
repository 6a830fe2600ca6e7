"""Numbers of the angles study as every face prints them."""

from __future__ import annotations

from collections.abc import Sequence

from axlewright.quantities.finding import Finding
from axlewright.quantities.units import System, from_si, show, significant

PERCENT = {"anti_squat", "anti_lift", "roll_steer", "torque_left", "half_distance"}
_NO_SHARE, _NO_FORCE = 1e-9, 1e-3
_OUTLASTS = 1e5 * 3600.0
_DIGITS = {"balance_offset": 2, "couple": 2, "mount_height": 2}
_OF_KIND = {"force": 3, "torque": 3, "stiffness": 2, "torsional stiffness": 2, "rotation": 3,
            "speed": 3, "mass": 3, "angular acceleration": 3}  # fmt: skip


def degrees(value: float) -> str:
    """An angle to a tenth of a degree, as a gauge is read."""
    return f"{tenth(value)} deg"


def tenth(value: float) -> str:
    """Tenths of a degree without the unit."""
    text = f"{from_si(value, 'angle')[0]:.1f}"
    return "0.0" if text == "-0.0" else text


def band_of(f: Finding) -> str:
    """The band of an angle."""
    return f"{tenth(f.low)} to {tenth(f.high)}"


def number_text(f: Finding, system: System = "shop") -> str:
    """A number as every face prints it in this study."""
    if f.dimension == "angle":
        return degrees(f.value)
    if f.id in PERCENT:
        return f"{significant(_whole(f.value, _NO_SHARE) * 100.0, 2)} %"
    if f.dimension == "ratio":
        return shares(f.value)
    if f.dimension == "time":
        return _hours(f.value)
    if f.id == "balance_weight":
        return f"{significant(f.value * 1000.0, 2)} g"
    value = _whole(f.value, _NO_FORCE) if f.dimension == "force" else f.value
    return show(value, f.dimension, system, _DIGITS.get(f.id, _OF_KIND.get(f.dimension, 4)))


def band_text(f: Finding, system: System = "shop") -> str:
    """Its 5 to 95 % band without the unit; nothing where it has no width."""
    low, high = (
        number_text(Finding(f.id, f.means, v, v, v, f.dimension), system) for v in (f.low, f.high)
    )
    if low == high:
        return ""
    return " to ".join(t.removesuffix(f" {t.rpartition(' ')[2]}") for t in (low, high))


def shares(value: float) -> str:
    """A share of a limit or a margin in two decimals, never rounded across one."""
    text = f"{value:.2f}"
    if text == "1.00" and value != 1.0:
        return "1.01" if value > 1.0 else "0.99"
    return text


def _whole(value: float, least: float) -> float:
    """The value, or nothing where it is what rounding leaves of nothing."""
    return value if abs(value) >= least else 0.0


def _hours(seconds: float) -> str:
    """A running time; what outlasts the car is not told in digits."""
    if seconds > _OUTLASTS:
        return f"over {significant(_OUTLASTS / 3600.0, 1)} h"
    return f"{significant(seconds / 3600.0, 2)} h"


def joined(parts: Sequence[str]) -> str:
    """One, two and three."""
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"
