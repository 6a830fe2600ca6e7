"""Lengths as they are printed for a shop: as many decimals as the band is worth, in both units."""

from __future__ import annotations

from axlewright.quantities.finding import Finding
from axlewright.quantities.units import System, from_si, pretty, significant

_FINE = 0.045
"""Half a band in inches below which a third decimal tells something."""
_PERCENT = ("_grade", "_share")
"""Endings of ids whose ratio the trade tells in percent."""
_NOTHING = 1e-6
"""m: what sums of many readings leave over by rounding."""
_DECIMALS: dict[System, tuple[int, int]] = {"shop": (2, 3), "si": (1, 2)}
"""Decimals of inches and of millimeters: for a coarse band, and for a fine one."""


def half_band(f: Finding) -> float:
    """The farther end of the band from the value."""
    return max(f.high - f.value, f.value - f.low, 0.0)


def figure(value: float, half: float, system: System = "shop") -> str:
    """A length with its unit."""
    number, unit = from_si(value, "length", system)
    fine = half < _FINE * 0.0254
    return f"{number:,.{_DECIMALS[system][fine]}f} {pretty(unit)}"


def plus_minus(f: Finding, system: System = "shop") -> str:
    """The band as what the value may be off; nothing for what is exact."""
    half = half_band(f)
    if half < _NOTHING:
        return ""
    number, unit = from_si(half, "length", system)
    return f"± {significant(number, 1 if number < 0.1 and system == 'shop' else 2)} {pretty(unit)}"


def value_text(f: Finding, system: System = "shop") -> str:
    """A finding: lengths by their band, all else by significant digits."""
    if f.dimension == "length":
        return figure(f.value, half_band(f), system)
    return other_text(f, f.value, system)


def band_text(f: Finding, system: System = "shop") -> str:
    """The 5 to 95 % band of what is no length; nothing for what is exact."""
    if f.low == f.high:
        return ""
    return f"{other_text(f, f.low, system)} to {other_text(f, f.high, system)}"


def other_text(f: Finding, value: float, system: System = "shop") -> str:
    """A value of a finding that is no length."""
    if f.id.endswith(_PERCENT):
        return f"{significant(100.0 * value, 3)} %"
    number, unit = from_si(value, f.dimension, system)
    return f"{significant(number, 3)} {pretty(unit)}".strip()


def percent(chance: float) -> str:
    """A chance; never rounded up to certainty."""
    if chance >= 1.0:
        return "100 %"
    share = 100.0 * chance
    return f"{min(share, 99.9):.1f} %" if share > 99.0 else f"{share:.0f} %"
