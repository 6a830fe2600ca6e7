"""Units at the edge: text as the shop writes it to SI and back, typed by the expected dimension.

A key knows whether it wants a torque or a mass, so ``lb·ft`` is never ambiguous: under a torque
it is pound-force feet.  The grammar is small on purpose::

    quantity = number [unit] [("±" | "+/-") number ["%" | unit]] [unit]
             | number [unit] ("to" | "..") number [unit]
    number   = "3850" | "3,850" | "0.0015" | "1,5" | "3/8" | "1 3/8" | "1-3/8" | "2e3"

What follows ``±`` are shop limits: the value is taken to lie inside them.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Literal

System = Literal["shop", "si"]

_LB = 0.45359237
_G = 9.80665
_LBF = _LB * _G
_IN = 0.0254
_FT = 0.3048
_MI = 1609.344
_PSI = _LBF / _IN**2
_HP = 550.0 * _LBF * _FT
_BTU = 1055.056
_DEG_F = 5.0 / 9.0
_BTU_H_F = _BTU / 3600.0 / _DEG_F
_QT = 231.0 * _IN**3 / 4.0
_RPM = math.pi / 30.0


@dataclass(frozen=True)
class Dimension:
    """A physical dimension as the shop and SI write it; ``units`` maps spelling to SI factor."""

    name: str
    si: str
    units: dict[str, float]
    shop: str
    metric: str
    digits: int = 4
    zero: tuple[tuple[str, float], ...] = ()

    def offset(self, unit: str) -> float:
        """SI value of the unit's own zero (temperatures only)."""
        return dict(self.zero).get(unit, 0.0)


def _dim(
    name: str,
    si: str,
    units: dict[str, float],
    shop: str,
    metric: str,
    digits: int = 4,
    zero: tuple[tuple[str, float], ...] = (),
) -> Dimension:
    return Dimension(name, si, units, shop, metric, digits, zero)


_LENGTHS = {
    "m": 1.0, "cm": 0.01, "mm": 1e-3, "um": 1e-6, "µm": 1e-6, "μm": 1e-6,
    "in": _IN, "inch": _IN, "inches": _IN, '"': _IN, "″": _IN, "ft": _FT, "'": _FT, "′": _FT,
    "thou": _IN / 1000, "mil": _IN / 1000, "thousandths": _IN / 1000,
    "mi": _MI, "mile": _MI, "miles": _MI, "km": 1000.0,
}  # fmt: skip
_TORQUES = {
    "N*m": 1.0, "Nm": 1.0, "kN*m": 1000.0, "kNm": 1000.0, "N*mm": 1e-3,
    "lbf*ft": _LBF * _FT, "ft*lbf": _LBF * _FT, "lb*ft": _LBF * _FT, "ft*lb": _LBF * _FT,
    "ft*lbs": _LBF * _FT, "lbs*ft": _LBF * _FT,
    "lbf*in": _LBF * _IN, "in*lbf": _LBF * _IN, "lb*in": _LBF * _IN, "in*lb": _LBF * _IN,
    "in*lbs": _LBF * _IN, "ozf*in": _LBF * _IN / 16, "kgf*m": _G,
}  # fmt: skip
_PRESSURES = {
    "Pa": 1.0, "kPa": 1e3, "MPa": 1e6, "GPa": 1e9, "N/mm^2": 1e6,
    "psi": _PSI, "ksi": 1e3 * _PSI, "kpsi": 1e3 * _PSI, "Mpsi": 1e6 * _PSI, "Msi": 1e6 * _PSI,
    "bar": 1e5, "mbar": 100.0, "hPa": 100.0, "atm": 101325.0, "inHg": 3386.389, "mmHg": 133.322387,
}  # fmt: skip

_ALL = [
    _dim("ratio", "", {"": 1.0, "%": 0.01, ":1": 1.0, "percent": 0.01}, "", ""),
    _dim("length", "m", _LENGTHS, "in", "mm"),
    _dim("distance", "m", _LENGTHS, "mi", "km"),
    _dim("area", "m²", {"m^2": 1.0, "mm^2": 1e-6, "cm^2": 1e-4, "in^2": _IN**2, "ft^2": _FT**2},
         "in^2", "mm^2"),
    _dim("mass", "kg", {"kg": 1.0, "g": 1e-3, "lb": _LB, "lbs": _LB, "lbm": _LB, "t": 1000.0,
                        "ton": 2000 * _LB}, "lb", "kg"),
    _dim("force", "N", {"N": 1.0, "kN": 1e3, "lbf": _LBF, "lb": _LBF, "lbs": _LBF,
                        "kip": 1e3 * _LBF, "kgf": _G}, "lbf", "N"),
    _dim("torque", "N·m", _TORQUES, "lbf*ft", "N*m"),
    _dim("small torque", "N·m", _TORQUES, "lbf*in", "N*m"),
    _dim("stress", "Pa", _PRESSURES, "ksi", "MPa"),
    _dim("modulus", "Pa", _PRESSURES, "Mpsi", "GPa"),
    _dim("pressure", "Pa", _PRESSURES, "psi", "kPa"),
    _dim("toughness", "Pa·m^0.5", {"MPa*m^0.5": 1e6, "Pa*m^0.5": 1.0,
                                   "ksi*in^0.5": 1e3 * _PSI * _IN**0.5},
         "ksi*in^0.5", "MPa*m^0.5"),
    _dim("power", "W", {"W": 1.0, "kW": 1e3, "hp": _HP, "bhp": _HP, "PS": 75 * _G}, "hp", "kW"),
    _dim("energy", "J", {"J": 1.0, "kJ": 1e3, "MJ": 1e6, "Btu": _BTU, "Wh": 3600.0},
         "Btu", "kJ"),
    _dim("rotation", "rad/s", {"rad/s": 1.0, "rpm": _RPM, "r/min": _RPM, "1/min": _RPM},
         "rpm", "rpm"),
    _dim("angular acceleration", "rad/s²", {"rad/s^2": 1.0}, "rad/s^2", "rad/s^2"),
    _dim("speed", "m/s", {"m/s": 1.0, "km/h": 1 / 3.6, "kph": 1 / 3.6, "mph": _MI / 3600,
                          "ft/s": _FT, "ft/min": _FT / 60}, "mph", "km/h"),
    _dim("acceleration", "m/s²", {"m/s^2": 1.0, "g": _G, "ft/s^2": _FT}, "g", "m/s^2"),
    _dim("time", "s", {"s": 1.0, "ms": 1e-3, "min": 60.0, "h": 3600.0}, "s", "s"),
    _dim("short time", "s", {"s": 1.0, "ms": 1e-3, "min": 60.0, "h": 3600.0}, "ms", "ms"),
    _dim("angle", "rad", {"rad": 1.0, "deg": math.pi / 180, "°": math.pi / 180,
                          "degrees": math.pi / 180}, "deg", "deg"),
    _dim("inertia", "kg·m²", {"kg*m^2": 1.0, "lb*ft^2": _LB * _FT**2, "lb*in^2": _LB * _IN**2,
                              "lbf*in*s^2": _LBF * _IN, "in*lb*s^2": _LBF * _IN,
                              "lb*in*s^2": _LBF * _IN,
                              "slug*ft^2": _LBF * _FT}, "lb*ft^2", "kg*m^2"),
    _dim("torsional stiffness", "N·m/rad", {
        "N*m/rad": 1.0, "kN*m/rad": 1e3, "N*m/deg": 180 / math.pi,
        "lbf*ft/deg": _LBF * _FT * 180 / math.pi, "lb*ft/deg": _LBF * _FT * 180 / math.pi,
        "lbf*ft/rad": _LBF * _FT, "lb*ft/rad": _LBF * _FT}, "lbf*ft/deg", "N*m/rad"),
    _dim("stiffness", "N/m", {"N/m": 1.0, "N/mm": 1e3, "kN/mm": 1e6, "lbf/in": _LBF / _IN,
                              "lb/in": _LBF / _IN, "Mlbf/in": 1e6 * _LBF / _IN}, "lbf/in", "N/mm"),
    _dim("section modulus", "m³", {"m^3": 1.0, "mm^3": 1e-9, "cm^3": 1e-6, "in^3": _IN**3},
         "in^3", "mm^3"),
    _dim("second moment", "m⁴", {"m^4": 1.0, "mm^4": 1e-12, "cm^4": 1e-8, "in^4": _IN**4},
         "in^4", "mm^4"),
    _dim("density", "kg/m³", {"kg/m^3": 1.0, "g/cm^3": 1e3, "lb/in^3": _LB / _IN**3,
                              "lb/ft^3": _LB / _FT**3}, "lb/ft^3", "kg/m^3"),
    _dim("linear density", "kg/m", {"kg/m": 1.0, "lb/ft": _LB / _FT, "lb/in": _LB / _IN},
         "lb/ft", "kg/m"),
    _dim("temperature", "K", {"K": 1.0, "°C": 1.0, "degC": 1.0, "C": 1.0, "°F": 5 / 9,
                              "degF": 5 / 9, "F": 5 / 9}, "°F", "°C", 4,
         tuple((u, 273.15) for u in ("°C", "degC", "C"))
         + tuple((u, 273.15 - 32 * 5 / 9) for u in ("°F", "degF", "F"))),
    _dim("temperature rise", "K", {"K": 1.0, "°C": 1.0, "degC": 1.0, "°F": _DEG_F, "degF": _DEG_F},
         "°F", "K"),
    _dim("thermal expansion", "1/K", {"1/K": 1.0, "1/°C": 1.0, "um/m/K": 1e-6, "1/°F": 1.8},
         "1/°F", "1/K"),
    _dim("thermal conductance", "W/K", {"W/K": 1.0, "W/°C": 1.0, "kW/K": 1e3,
                                        "Btu/h/°F": _BTU_H_F}, "Btu/h/°F", "W/K"),
    _dim("film coefficient", "W/(m²·K)", {"W/m^2/K": 1.0, "W/(m^2*K)": 1.0,
                                          "Btu/h/ft^2/°F": _BTU_H_F / _FT**2},
         "Btu/h/ft^2/°F", "W/m^2/K"),
    _dim("thermal conductivity", "W/(m·K)", {"W/m/K": 1.0, "W/(m*K)": 1.0,
                                             "Btu/h/ft/°F": _BTU_H_F / _FT},
         "Btu/h/ft/°F", "W/m/K"),
    _dim("thermal contact", "N/(m·s^0.5·K)", {"N/m/s^0.5/K": 1.0, "kN/m/s^0.5/K": 1e3,
                                              "N/mm/s^0.5/K": 1e3},
         "N/mm/s^0.5/K", "N/mm/s^0.5/K"),
    _dim("specific heat", "J/(kg·K)", {"J/kg/K": 1.0, "J/(kg*K)": 1.0, "kJ/kg/K": 1e3,
                                       "Btu/lb/°F": _BTU / _LB / _DEG_F}, "Btu/lb/°F", "J/kg/K"),
    _dim("heat capacity", "J/K", {"J/K": 1.0, "kJ/K": 1e3, "Btu/°F": _BTU / _DEG_F},
         "Btu/°F", "kJ/K"),
    _dim("kinematic viscosity", "m²/s", {"m^2/s": 1.0, "mm^2/s": 1e-6, "cSt": 1e-6, "St": 1e-4},
         "cSt", "mm^2/s"),
    _dim("dynamic viscosity", "Pa·s", {"Pa*s": 1.0, "mPa*s": 1e-3, "cP": 1e-3}, "cP", "mPa*s"),
    _dim("volume", "m³", {"m^3": 1.0, "L": 1e-3, "mL": 1e-6, "cm^3": 1e-6, "qt": _QT,
                          "pt": _QT / 2, "gal": 4 * _QT, "in^3": _IN**3}, "qt", "L"),
    _dim("frequency", "1/s", {"1/s": 1.0, "Hz": 1.0, "kHz": 1e3}, "Hz", "Hz"),
    _dim("damping", "N·s/m", {"N*s/m": 1.0, "N*s/mm": 1e3, "kN*s/m": 1e3,
                              "lbf*s/in": _LBF / _IN, "lb*s/in": _LBF / _IN,
                              "lbf*s/ft": _LBF / _FT}, "lbf*s/in", "N*s/m"),
    _dim("pitch", "1/m", {"1/m": 1.0, "1/in": 1 / _IN, "/in": 1 / _IN, "1/mm": 1e3,
                          "tpi": 1 / _IN}, "1/in", "1/mm"),
    _dim("per distance", "1/m", {"1/m": 1.0, "rev/mi": 1 / _MI, "rev/mile": 1 / _MI,
                                 "rev/km": 1e-3}, "rev/mi", "rev/km"),
    _dim("load sensitivity", "1/N", {"1/N": 1.0, "1/kN": 1e-3, "1/klbf": 1e-3 / _LBF},
         "1/klbf", "1/kN"),
    _dim("line load", "N/m", {"N/m": 1.0, "N/mm": 1e3, "lbf/in": _LBF / _IN}, "lbf/in", "N/mm"),
    _dim("contact constant", "Pa^0.5", {"Pa^0.5": 1.0, "MPa^0.5": 1e3, "psi^0.5": _PSI**0.5},
         "psi^0.5", "MPa^0.5"),
    _dim("count", "", {"": 1.0}, "", "", 5),
]  # fmt: skip
DIMENSIONS: dict[str, Dimension] = {d.name: d for d in _ALL}

_NUMBER = (
    r"(?:\d+[ -]\d+/\d+|\d+/\d+|\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+,\d+|\d+\.(?!\d)"
    r"|\d*\.?\d+(?:[eE][+-]?\d+)?)"
)
_LONGEST = 200  # characters; nobody writes a quantity that long
_UNIT = r"(?:1/)?[^\d\s±+-][^±]*?"
_SINGLE = re.compile(
    rf"^\s*(?P<sign>[+-]?)\s*(?P<value>{_NUMBER})\s*(?P<unit>{_UNIT})?\s*"
    rf"(?:(?:±|\+/-|\+-)\s*(?P<tol>{_NUMBER})\s*(?P<tolunit>{_UNIT})?)?\s*$"
)
_RANGE = re.compile(
    rf"^\s*(?P<s1>-?)(?P<low>{_NUMBER})\s*(?P<lowunit>{_UNIT})?\s*(?:\.\.|\bto\b|–)\s*"
    rf"(?P<s2>-?)(?P<high>{_NUMBER})\s*(?P<unit>{_UNIT})?\s*$"
)


class UnitError(ValueError):
    """Text that is no quantity of the wanted dimension; says what would be right."""


@dataclass(frozen=True)
class Reading:
    """A quantity as written: SI value, shop limits (equal to it when none given), and the text."""

    value: float
    low: float
    high: float
    text: str
    dimension: str

    @property
    def has_limits(self) -> bool:
        """Whether the writer gave limits."""
        return self.low < self.high


def read_number(text: str) -> float:
    """Read a shop number: decimal, thousands, decimal comma, fraction or mixed fraction."""
    text = text.strip()
    mixed = re.fullmatch(r"(?:(\d+)[ -])?(\d+)/(\d+)", text)
    if mixed:
        whole, top, bottom = mixed.groups()
        if float(bottom) == 0.0:
            raise UnitError(f"{text!r} divides by zero")
        return float(whole or 0) + float(top) / float(bottom)
    if re.fullmatch(r"\d{1,3}(?:,\d{3})+(?:\.\d+)?", text):
        return float(text.replace(",", ""))
    return float(text.replace(",", "."))


def canonical(unit: str) -> str:
    """One spelling for the many ways a unit is typed: ``lb-ft``, ``lb·ft`` and ``lb ft``."""
    unit = unit.strip().rstrip(".")
    for mark, plain in (("²", "^2"), ("³", "^3"), ("⁴", "^4"), ("½", "0.5"), ("º", "°")):
        unit = unit.replace(mark, plain)
    unit = re.sub(r"\s*√\s*([A-Za-z]+)", r"*\1^0.5", unit)
    unit = re.sub(r"\s*[·⋅×∙*]\s*", "*", unit)
    unit = re.sub(r"(?<=[A-Za-z])\s*-\s*(?=[A-Za-z])", "*", unit)
    return re.sub(r"(?<=[A-Za-z])\s+(?=[A-Za-z])", "*", unit)


def factor(unit: str, dimension: str) -> float:
    """SI value of one unit; raises :class:`UnitError` naming the units that would fit."""
    return _find(unit, DIMENSIONS[dimension])[1]


def _find(unit: str, dimension: Dimension) -> tuple[str, float]:
    spelled = canonical(unit)
    for candidate in (spelled, spelled.replace("*", "")):
        if candidate in dimension.units:
            return candidate, dimension.units[candidate]
    lowered = {u.lower(): u for u in dimension.units}
    if spelled.lower() in lowered and spelled[:1] not in {"M", "m", "k", "K"}:
        found = lowered[spelled.lower()]
        return found, dimension.units[found]
    others = [d.name for d in _ALL if spelled in d.units and spelled and d.name != dimension.name]
    hint = f" ({unit.strip()} is a unit of {others[0]})" if others else ""
    raise UnitError(f"{unit.strip()!r} is no unit of {dimension.name}{hint}; {wanted(dimension)}")


def wanted(dimension: Dimension) -> str:
    """Say which units a dimension takes."""
    if dimension.si == "":
        return "write a plain number" + (" or a percentage" if "%" in dimension.units else "")
    shown = dict.fromkeys([dimension.shop, dimension.metric, dimension.si.replace("·", "*")])
    units = [pretty(u) for u in shown if u in dimension.units]
    return "use " + " or ".join([", ".join(units[:-1]), units[-1]] if units[1:] else units)


def read(text: str | float | int, dimension: str) -> Reading:
    """Read a quantity of the given dimension from shop text (or a bare number, if unitless)."""
    dim = DIMENSIONS[dimension]
    if isinstance(text, bool):
        raise UnitError(f"{str(text).lower()} is no {dim.name}; {wanted(dim)}")
    if isinstance(text, int | float):
        if dim.si != "":
            raise UnitError(f"{text} has no unit; {wanted(dim)}, in quotes")
        try:
            number = float(text)
        except OverflowError:
            number = math.inf
        if not math.isfinite(number):
            raise UnitError(f"{_short(str(text))} is no number that can be worked with")
        return Reading(number, number, number, str(text), dimension)
    if not isinstance(text, str):
        raise UnitError(f"expected one {dim.name}; {wanted(dim)}, in quotes")
    if len(text) > _LONGEST:
        raise UnitError(f"{_short(text)!r} is too long for a {dim.name}; {wanted(dim)}")
    plain = text.replace("−", "-")  # the minus sign that print has
    ranged = _RANGE.match(plain)
    reading = _read_range(text, ranged, dim) if ranged else _read_single(text, plain, dim)
    if not all(math.isfinite(v) for v in (reading.value, reading.low, reading.high)):
        raise UnitError(f"{text!r} is no number that can be worked with")
    return reading


def _short(text: str) -> str:
    return text if len(text) <= 40 else text[:37] + "..."


def _to_si(value: float, unit: str | None, dim: Dimension) -> float:
    if (unit or "") == "" and dim.si != "":
        raise UnitError(f"{value:g} has no unit; {wanted(dim)}")
    spelled, size = _find(unit or "", dim)
    return value * size + dim.offset(spelled)


def _read_single(text: str, plain: str, dim: Dimension) -> Reading:
    match = _SINGLE.match(plain)
    if not match:
        raise UnitError(f"{text!r} is no {dim.name}; {_remedy(plain, dim)}")
    part = match.groupdict()
    tolerance_unit = part["tolunit"]
    percent = tolerance_unit is not None and tolerance_unit.strip() in {"%", "percent"}
    shared = not percent or dim.name == "ratio"  # 46 ± 4 % means both; 50 kg ± 4 % does not
    unit = part["unit"] or (tolerance_unit if shared else None)
    number = read_number(part["value"]) * (-1.0 if part["sign"] == "-" else 1.0)
    if percent:
        _refuse_doubtful_percent(text, number, part["unit"], part["tol"], dim)
    value = _to_si(number, unit, dim)
    if part["tol"] is None:
        return Reading(value, value, value, text, dim.name)
    spread = read_number(part["tol"])
    if percent and dim.name != "ratio":
        half = abs(value) * spread / 100.0
    elif percent:
        half = spread / 100.0 * (1.0 if (unit or "").strip() in {"%", "percent"} else abs(value))
    else:
        half = spread * _find(tolerance_unit or unit or "", dim)[1]
    return Reading(value, value - half, value + half, text, dim.name)


def _remedy(text: str, dim: Dimension) -> str:
    """What to write in place of text that does not read."""
    if re.match(rf"^\s*{_NUMBER}\s*-\s*{_NUMBER}", text):
        return "write a range with 'to', like 20 to 150"
    return f"{wanted(dim)}, for example {example(dim)!r}"


def _refuse_doubtful_percent(
    text: str, number: float, unit: str | None, spread: str, dim: Dimension
) -> None:
    """Refuse percentages that read two ways: 46 ± 4 % is clear, 1.3 ± 8 % is not."""
    if dim.zero:
        raise UnitError(f"{text!r}: a {dim.name} takes limits in degrees, not a percentage")
    if dim.name == "ratio" and unit is None and abs(number) < 10.0:
        points = f"{number:g} % ± {spread} %"
        part = f"{number:g} ± {abs(number) * read_number(spread) / 100.0:.3g}"
        raise UnitError(f"{text!r} reads two ways; write {points!r} or {part!r}")


def _read_range(text: str, match: re.Match[str], dim: Dimension) -> Reading:
    part = match.groupdict()
    unit = part["unit"] or part["lowunit"]
    low = _to_si(read_number(part["low"]) * (-1 if part["s1"] else 1), part["lowunit"] or unit, dim)
    high = _to_si(read_number(part["high"]) * (-1 if part["s2"] else 1), unit, dim)
    if low > high:
        raise UnitError(f"{text!r} runs backward; write the smaller value first")
    return Reading(0.5 * (low + high), low, high, text, dim.name)


def example(dim: Dimension) -> str:
    """A well-formed example of a dimension."""
    return {"length": "3/8 in", "mass": "3850 ± 60 lb", "torque": "620 lbf*ft"}.get(
        dim.name, f"12 {dim.shop}".strip()
    )


def pretty(unit: str) -> str:
    """A unit as printed: ``lb·ft`` for ``lbf*ft``, superscripts for powers."""
    unit = unit.replace("lbf*ft", "lb·ft").replace("lbf*in", "lb·in").replace("*", "·")
    for plain, mark in (("^0.5", "^½"), ("^2", "²"), ("^3", "³"), ("^4", "⁴")):
        unit = unit.replace(plain, mark)
    return unit


def from_si(value: float, dimension: str, system: System = "shop") -> tuple[float, str]:
    """Convert an SI value to the customary unit of a system; gives the number and its unit."""
    dim = DIMENSIONS[dimension]
    unit = dim.shop if system == "shop" else dim.metric
    return (value - dim.offset(unit)) / dim.units[unit], unit


def significant(value: float, digits: int = 4) -> str:
    """Round to significant digits without an exponent where people expect none."""
    if not math.isfinite(value):
        return "unlimited" if value > 0 else "none"
    if value == 0:
        return "0"
    magnitude = math.floor(math.log10(abs(value)))
    if magnitude < -5 or magnitude > 9:
        return f"{value:.{digits - 1}e}"
    rounded = round(value, digits - 1 - magnitude)
    decimals = max(0, digits - 1 - magnitude)
    text = f"{rounded:,.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def show(value: float, dimension: str, system: System = "shop", digits: int = 4) -> str:
    """Print an SI value in the customary unit of a system."""
    number, unit = from_si(value, dimension, system)
    text = significant(number, digits)
    return f"{text} {pretty(unit)}".strip()


def show_both(value: float, dimension: str, digits: int = 4) -> str:
    """Print an SI value in shop units with SI in brackets (once, where they are the same)."""
    dim = DIMENSIONS[dimension]
    if dim.shop == dim.metric:
        return show(value, dimension, "shop", digits)
    return f"{show(value, dimension, 'shop', digits)} ({show(value, dimension, 'si', digits)})"
