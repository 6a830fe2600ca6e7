"""Shop units: the grammar with its traps, every unit against pint, round trips, error texts."""

import math
import re

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.quantities.units import (
    DIMENSIONS,
    UnitError,
    canonical,
    example,
    factor,
    from_si,
    pretty,
    read,
    read_number,
    show,
    show_both,
    significant,
    wanted,
)

LB, IN, FT = 0.45359237, 0.0254, 0.3048
LBF = LB * 9.80665
LIGHT = settings(max_examples=60, deadline=None)
ALL_UNITS = [(d.name, u) for d in DIMENSIONS.values() for u in d.units]


# ------------------------------------------------------------------------------- grammar


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("3850", 3850), ("3,850", 3850), ("1,234,567.5", 1234567.5), ("0.0015", 0.0015),
        (".005", 0.005), ("5.", 5), ("1,5", 1.5), ("0,75", 0.75), ("3/8", 0.375),
        ("1 3/8", 1.375), ("1-3/8", 1.375), ("2e3", 2000), ("1.5E-3", 0.0015), (" 7 ", 7),
    ],
)  # fmt: skip
def test_numbers(text, number):
    assert read_number(text) == pytest.approx(number, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "dimension", "si"),
    [
        ("1 3/8 in", "length", 1.375 * IN),
        ("1-3/8 in", "length", 1.375 * IN),
        ('1 3/8"', "length", 1.375 * IN),
        ("3/8 in", "length", 0.375 * IN),
        ("1,5 mm", "length", 0.0015),
        ("1,500 mm", "length", 1.5),
        ("5. in", "length", 5 * IN),
        (".005 in", "length", 0.005 * IN),
        ("5 thou", "length", 0.005 * IN),
        ("1.375 in.", "length", 1.375 * IN),
        ("-3 in", "length", -3 * IN),
        ("−3 in", "length", -3 * IN),
        ("+3 in", "length", 3 * IN),
        ("620 lb·ft", "torque", 620 * LBF * FT),
        ("620 lb-ft", "torque", 620 * LBF * FT),
        ("620 lb ft", "torque", 620 * LBF * FT),
        ("620 ft-lbs", "torque", 620 * LBF * FT),
        ("620 ft lbs", "torque", 620 * LBF * FT),
        ("620 LB-FT", "torque", 620 * LBF * FT),
        ("620 lbf*ft", "torque", 620 * LBF * FT),
        ("20 in-lb", "small torque", 20 * LBF * IN),
        ("100 N·m", "torque", 100.0),
        ("100 Nm", "torque", 100.0),
        ("100 N m", "torque", 100.0),
        ("3850 lb", "mass", 3850 * LB),
        ("3850 lb", "force", 3850 * LBF),
        ("5.5 lb·ft²", "inertia", 5.5 * LB * FT**2),
        ("24 1/in", "pitch", 24 / IN),
        ("24 /in", "pitch", 24 / IN),
        ("20 tpi", "pitch", 20 / IN),
        ("6 ksi√in", "toughness", 6e3 * LBF / IN**2 * math.sqrt(IN)),
        ("6 ksi·in^½", "toughness", 6e3 * LBF / IN**2 * math.sqrt(IN)),
        ("15 MPa√m", "toughness", 15e6),
        ("75 °F", "temperature", 297.0388889),
        ("-40 °F", "temperature", 233.15),
        ("-40 °C", "temperature", 233.15),
        ("25 C", "temperature", 298.15),
        ("46 %", "ratio", 0.46),
        ("46 percent", "ratio", 0.46),
        ("41/11", "ratio", 41 / 11),
        ("3.73:1", "ratio", 3.73),
        ("5 º", "angle", math.radians(5)),
        ("2e3", "count", 2000.0),
    ],
)
def test_single_quantities(text, dimension, si):
    reading = read(text, dimension)
    assert reading.value == pytest.approx(si, rel=1e-9)
    assert (reading.low, reading.high) == (reading.value, reading.value)
    assert not reading.has_limits
    assert (reading.text, reading.dimension) == (text, dimension)


@pytest.mark.parametrize(
    ("text", "dimension", "value", "low", "high"),
    [
        ("3850 ± 60 lb", "mass", 3850 * LB, 3790 * LB, 3910 * LB),
        ("3850 lb ± 60 lb", "mass", 3850 * LB, 3790 * LB, 3910 * LB),
        ("3850 +/- 60 lb", "mass", 3850 * LB, 3790 * LB, 3910 * LB),
        ("3850 lb +/- 60", "mass", 3850 * LB, 3790 * LB, 3910 * LB),
        ("3850 lb ± 2 %", "mass", 3850 * LB, 3773 * LB, 3927 * LB),
        ("1 1/2 ± 1/16 in", "length", 1.5 * IN, 1.4375 * IN, 1.5625 * IN),
        ("1 1/2 in ± 1 mm", "length", 0.0381, 0.0371, 0.0391),
        ("46 ± 4 %", "ratio", 0.46, 0.42, 0.50),
        ("46 % ± 4 %", "ratio", 0.46, 0.42, 0.50),
        ("46 percent ± 4 percent", "ratio", 0.46, 0.42, 0.50),
        ("0.46 ± 0.04", "ratio", 0.46, 0.42, 0.50),
        ("1.3 % ± 8 %", "ratio", 0.013, -0.067, 0.093),
        ("3.73:1 ± 2 %", "ratio", 3.73, 3.6554, 3.8046),
        ("20 to 150 ms", "short time", 0.085, 0.020, 0.150),
        ("20..150 ms", "short time", 0.085, 0.020, 0.150),
        ("20–150 ms", "short time", 0.085, 0.020, 0.150),
        ("20 ms to 0.15 s", "short time", 0.085, 0.020, 0.150),
        ("95 to 98.5 %", "ratio", 0.9675, 0.95, 0.985),
        ("3/8 to 1 1/2 in", "length", 0.9375 * IN, 0.375 * IN, 1.5 * IN),
        ("-3 to 2 in", "length", -0.5 * IN, -3 * IN, 2 * IN),
        ("-3 to -1 in", "length", -2 * IN, -3 * IN, -1 * IN),
        ("70 to 80 °F", "temperature", 297.0388889, 294.2611111, 299.8166667),
        ("75 ± 5 °F", "temperature", 297.0388889, 294.2611111, 299.8166667),
        ("20 °C ± 9 °F", "temperature", 293.15, 288.15, 298.15),
    ],
)
def test_quantities_with_limits(text, dimension, value, low, high):
    reading = read(text, dimension)
    assert (reading.value, reading.low, reading.high) == pytest.approx((value, low, high), rel=1e-7)
    assert reading.has_limits


def test_bare_numbers_only_without_unit():
    assert read(0.46, "ratio").value == 0.46
    assert read(300, "count").value == 300.0
    assert read(300, "count").text == "300"


def test_the_same_letters_are_what_the_key_wants():
    assert read("5 lb", "mass").value == pytest.approx(5 * LB)
    assert read("5 lb", "force").value == pytest.approx(5 * LBF)
    assert read("5 g", "mass").value == pytest.approx(0.005)
    assert read("5 g", "acceleration").value == pytest.approx(49.03325)
    assert read("5 lb·ft", "torque").value == pytest.approx(5 * LBF * FT)
    assert read("5 1/in", "pitch").value == pytest.approx(5 / IN)
    with pytest.raises(UnitError):
        read("5 lb·ft", "mass")


# ------------------------------------------------------------------------------- error texts


@pytest.mark.parametrize(
    ("text", "dimension", "said"),
    [
        (3650, "mass", "3650 has no unit; use lb or kg, in quotes"),
        ("3650", "mass", "3650 has no unit; use lb or kg"),
        ("12", "length", "12 has no unit; use in, mm or m"),
        (True, "torque", "true is no torque; use lb·ft or N·m"),
        ([1], "length", "expected one length; use in, mm or m, in quotes"),
        (None, "ratio", "expected one ratio; write a plain number or a percentage, in quotes"),
        ("heavy", "mass", "'heavy' is no mass; use lb or kg, for example '3850 ± 60 lb'"),
        ("", "length", "'' is no length; use in, mm or m, for example '3/8 in'"),
        ("620 lb", "torque", "'lb' is no unit of torque (lb is a unit of mass); use lb·ft or N·m"),
        ("5 ft", "torque", "'ft' is no unit of torque (ft is a unit of length); use lb·ft or N·m"),
        ("5 foo", "rotation", "'foo' is no unit of rotation; use rpm or rad/s"),
        ("5 mpa", "stress", "'mpa' is no unit of stress; use ksi, MPa or Pa"),
        ("5 MM", "length", "'MM' is no unit of length; use in, mm or m"),
        ("5 %", "count", "'%' is no unit of count (% is a unit of ratio); write a plain number"),
        ("3 ft 6 in", "length", "'ft 6 in' is no unit of length; use in, mm or m"),
        ("3850 ± 2 % lb", "mass", "'% lb' is no unit of mass; use lb or kg"),
        ("150 to 20 ms", "short time",
         "'150 to 20 ms' runs backward; write the smaller value first"),
        ("20-150 ms", "short time",
         "'20-150 ms' is no short time; write a range with 'to', like 20 to 150"),
        ("1/0 in", "length", "'1/0' divides by zero"),
        ("1 3/0 in", "length", "'1 3/0' divides by zero"),
        ("1e999 N", "force", "'1e999 N' is no number that can be worked with"),
        (math.nan, "ratio", "nan is no number that can be worked with"),
        (math.inf, "ratio", "inf is no number that can be worked with"),
        (10**400, "ratio",
         "1000000000000000000000000000000000000... is no number that can be worked with"),
        ("1.3 ± 8 %", "ratio", "'1.3 ± 8 %' reads two ways; write '1.3 % ± 8 %' or '1.3 ± 0.104'"),
        ("20 °C ± 5 %", "temperature",
         "'20 °C ± 5 %': a temperature takes limits in degrees, not a percentage"),
        ("5 in ± 1 in ± 2 in", "length",
         "'5 in ± 1 in ± 2 in' is no length; use in, mm or m, for example '3/8 in'"),
        ("9" * 300 + " in", "length",
         "'9999999999999999999999999999999999999...' is too long for a length; use in, mm or m"),
    ],
)  # fmt: skip
def test_what_is_said(text, dimension, said):
    with pytest.raises(UnitError) as caught:
        read(text, dimension)
    assert str(caught.value) == said


@LIGHT
@given(st.text(max_size=30), st.sampled_from(sorted(DIMENSIONS)))
def test_any_text_reads_or_is_refused_in_words(text, dimension):
    try:
        reading = read(text, dimension)
    except UnitError as e:
        assert re.search(r"use |write |divides by zero|worked with|in degrees", str(e))
    else:
        assert math.isfinite(reading.value)
        assert reading.low <= reading.value <= reading.high


@LIGHT
@given(
    st.text("0123456789.,/-+± %toeE", max_size=14),
    st.sampled_from(["", "in", "lb", "%", "°F", "ms"]),
    st.sampled_from(["length", "mass", "ratio", "temperature", "short time"]),
)
def test_scraps_of_numbers_read_or_are_refused(number, unit, dimension):
    try:
        reading = read(f"{number} {unit}", dimension)
    except UnitError as e:
        assert str(e)
    else:
        assert reading.low <= reading.value <= reading.high


# ------------------------------------------------------------------------------- every unit

PINT = pint.UnitRegistry()
_FORCES = {
    "torque",
    "small torque",
    "force",
    "torsional stiffness",
    "stiffness",
    "line load",
    "damping",
}
_SPELLED = {
    '"': "inch", "″": "inch", "'": "foot", "′": "foot", "thousandths": "thou", "mil": "thou",
    "kpsi": "ksi",
    "Msi": "Mpsi", "r/min": "rpm", "1/min": "rpm", "/in": "1/inch", "tpi": "1/inch",
    "bhp": "hp", "PS": "metric_horsepower", "°": "degree", "deg": "degree", "t": "metric_ton",
    "ton": "short_ton", "lbm": "lb", "1/klbf": "1/(1000*lbf)", "°C": "degC", "°F": "degF",
    "C": "degC", "F": "degF", "rev/mi": "1/mile", "rev/mile": "1/mile", "rev/km": "1/km",
    "hPa": "hectopascal", "ozf*in": "force_ounce*inch", "kgf*m": "kilogram_force*meter",
    "kgf": "kilogram_force", "kip": "kip", "in*lb*s^2": "lbf*inch*s^2",
    "lb*in*s^2": "lbf*inch*s^2", "lbs": "lb",
    "Nm": "N*m", "kNm": "kN*m", "µm": "um", "μm": "um", "inches": "inch", "miles": "mile",
    "degrees": "degree", "inHg": "inHg", "Mlbf/in": "1e6*lbf/inch", "qt": "quart", "pt": "pint",
    "gal": "gallon", "in^3": "inch^3",
}  # fmt: skip
_PLAIN = {"", "%", ":1", "percent"}
_DIFFERENCES = {"temperature rise", "thermal expansion", "thermal conductance", "film coefficient",
                "thermal conductivity", "specific heat", "heat capacity"}  # fmt: skip


def in_pint(dimension, unit):
    if dimension == "acceleration" and unit == "g":
        return "standard_gravity"
    text = _SPELLED.get(unit, unit)
    if dimension in _DIFFERENCES:
        text = re.sub(r"(?:°|deg)([CF])", r"delta_deg\1", text)
    if dimension in _FORCES:
        text = re.sub(r"\blbs?\b", "lbf", text)
    return re.sub(r"\bin\b", "inch", text)


@pytest.mark.parametrize(("dimension", "unit"), [u for u in ALL_UNITS if u[1] not in _PLAIN])
def test_unit_against_pint(dimension, unit):
    # pint, any 0.2x, independent of our table; temperatures by their two fixed points.
    dim = DIMENSIONS[dimension]
    si = dim.si.replace("·", "*").replace("²", "^2").replace("³", "^3").replace("⁴", "^4")
    if dimension == "temperature":
        for degrees in (-40.0, 100.0):
            theirs = PINT.Quantity(degrees, in_pint(dimension, unit)).to("K").magnitude
            assert read(f"{degrees} {unit}", dimension).value == pytest.approx(theirs, rel=1e-12)
        return
    theirs = PINT.Quantity(f"1 * {in_pint(dimension, unit)}").to(si).magnitude
    assert factor(unit, dimension) == pytest.approx(theirs, rel=2e-6)
    if "Hg" not in unit:  # a column of mercury depends on who weighed it
        assert factor(unit, dimension) == pytest.approx(theirs, rel=1e-12)


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_dimension_is_well_formed(dimension):
    dim = DIMENSIONS[dimension]
    assert dim.shop in dim.units
    assert dim.metric in dim.units
    assert all(f > 0 for f in dim.units.values())
    assert read(example(dim), dimension).value > 0
    for unit in re.findall(r"(?:use |, | or )([^,]+?)(?=,| or |$)", wanted(dim)):
        if dim.si:
            assert read(f"1 {unit}", dimension).value == pytest.approx(
                read(f"1 {canonical(unit)}", dimension).value
            )


@pytest.mark.parametrize(("dimension", "unit"), ALL_UNITS)
def test_every_unit_is_found_as_it_is_printed(dimension, unit):
    assert factor(pretty(unit), dimension) == factor(unit, dimension)
    assert factor(f" {unit} ", dimension) == factor(unit, dimension)


def test_units_of_one_dimension_never_differ_by_case_alone_with_other_sizes():
    for dim in DIMENSIONS.values():
        sizes = {}
        for unit, size in dim.units.items():
            key = unit.lower()
            if not unit.startswith(("M", "m", "k", "K")):
                assert sizes.setdefault(key, size) == size, (dim.name, unit)


# ------------------------------------------------------------------------------- round trips

VALUES = st.floats(-1e9, 1e9).filter(lambda x: x == 0 or abs(x) > 1e-4)


@LIGHT
@given(VALUES, st.sampled_from(sorted(DIMENSIONS)), st.sampled_from(["shop", "si"]))
def test_printed_values_read_back(number, dimension, system):
    dim = DIMENSIONS[dimension]
    unit = dim.shop if system == "shop" else dim.metric
    value = number * dim.units[unit] + dim.offset(unit)
    text = show(value, dimension, system, digits=12)
    back = read(text, dimension).value
    assert back == pytest.approx(value, rel=1e-10, abs=1e-10 * abs(dim.offset(unit)))
    assert from_si(value, dimension, system)[1] == unit


@pytest.mark.parametrize("dimension", DIMENSIONS)
@pytest.mark.parametrize("system", ["shop", "si"])
def test_round_trip_of_every_dimension(dimension, system):
    for number in (0.012345, 1.0, 98765.4):
        unit = from_si(1.0, dimension, system)[1]
        value = read(f"{number} {unit}", dimension).value
        assert from_si(value, dimension, system)[0] == pytest.approx(number, rel=1e-9)
        assert read(show(value, dimension, system, 9), dimension).value == pytest.approx(value)


@LIGHT
@given(st.integers(0, 99), st.integers(0, 63), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_fractions_of_an_inch(whole, top, bottom):
    inches = whole + top / bottom
    for text in (f"{whole} {top}/{bottom} in", f'{whole}-{top}/{bottom}"'):
        assert read(text, "length").value == pytest.approx(inches * IN)


@LIGHT
@given(st.floats(10, 1e5), st.floats(1e-3, 9), st.sampled_from(["mm", "in", "thou"]))
def test_limits_lie_about_the_value(value, tolerance, unit):
    reading = read(f"{value!r} ± {tolerance:.6f} {unit}", "length")
    size = factor(unit, "length")
    assert reading.high - reading.value == pytest.approx(reading.value - reading.low, rel=1e-6)
    assert reading.high - reading.low == pytest.approx(
        2 * float(f"{tolerance:.6f}") * size, rel=1e-6
    )


# ------------------------------------------------------------------------------- printing


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        (0.0, 4, "0"), (1234.5678, 4, "1,235"), (0.0012345, 3, "0.00123"), (9.9996, 4, "10"),
        (-2.5, 4, "-2.5"), (123456.0, 3, "123,000"), (1e12, 4, "1.000e+12"), (1e-9, 3, "1.00e-09"),
        (math.inf, 4, "unlimited"), (-math.inf, 4, "none"), (100.0, 2, "100"), (0.5, 1, "0.5"),
    ],
)  # fmt: skip
def test_significant(value, digits, text):
    assert significant(value, digits) == text


@LIGHT
@given(st.floats(1e-4, 1e8), st.integers(1, 9))
def test_significant_keeps_that_many_digits(value, digits):
    back = float(significant(value, digits).replace(",", ""))
    assert abs(back - value) <= 0.5000001 * 10 ** (math.floor(math.log10(value)) + 1 - digits)


def test_show():
    assert show(840.607128, "torque") == "620 lb·ft"
    assert show(840.607128, "torque", "si") == "840.6 N·m"
    assert show_both(0.0254, "length") == "1 in (25.4 mm)"
    assert show_both(3.73, "ratio") == "3.73"
    assert show(297.0388889, "temperature") == "75 °F"
    assert pretty("ksi*in^0.5") == "ksi·in^½"
    assert pretty("lb*ft^2") == "lb·ft²"
