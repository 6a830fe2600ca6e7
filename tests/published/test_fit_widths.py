"""Wheels, widths and tolerance chains against numbers from outside the project."""

import numpy as np
import pytest
from scipy import stats

from axlewright.fit import tire_section, wheel, width
from axlewright.fit.tolerance import Part, chain_samples, close_chain, limits_deviation
from axlewright.quantities.sampling import uniforms

pytestmark = pytest.mark.published

INCH = 0.0254

# Tire-industry table for a 205/60R15 (read): section width on each rim it may go on, in inches;
# the tire is measured on a rim of 6 in.
SECTIONS = [(5.5, 8.03), (6.0, 8.23), (6.5, 8.43), (7.0, 8.63), (7.5, 8.83)]


@pytest.mark.parametrize(("rim", "section"), SECTIONS)
def test_section_on_every_rim_of_a_205(rim, section):
    got = tire_section.section_on_rim(8.23 * INCH, rim * INCH, 6.0 * INCH)
    assert got / INCH == pytest.approx(section, abs=1e-9)


def test_nominal_205_gives_the_section_of_the_table():
    # UN Regulation No. 30, 6.1.1.1 (read), theoretical rim 0.7 of the width (from memory); the
    # table above has 8.23 in, 209 mm, on 6 in.
    theoretical = tire_section.theoretical_rim(0.205, 0.7)
    got = tire_section.design_section(0.205, 6.0 * INCH, theoretical)
    assert round(got * 1000) == 209


def test_offset_of_the_page_that_counts_lips():
    # A wheel maker's page on measuring backspace (read): 35 mm on 8 in with half-inch lips is
    # 5 7/8 in.
    got = wheel.backspace_from_offset(0.035, 8 * INCH, 0.5 * INCH)
    assert round(got / INCH * 8) / 8 == 5.875


def test_center_off_by_two_makes_halves_differ_by_four():
    # An axle builder's ordering page (read): 60 in with 2 in offset is 28 and 32 in.
    halves = (width.left_half(60 * INCH, 2 * INCH), width.right_half(60 * INCH, 2 * INCH))
    assert np.array(halves) / INCH == pytest.approx([28.0, 32.0], abs=1e-12)
    assert (halves[1] - halves[0]) / INCH == pytest.approx(2 * 2.0, abs=1e-12)


# Worked stack of a shaft in a case (read, as printed by a public library of one-dimensional
# tolerance analysis), in millimeters: name, value, lower and upper limit, direction.
STACK = [
    ("shaft", 208.0, 207.964, 208.036, 1),
    ("retainer ring", 1.75, 1.75, 1.81, -1),
    ("bearing", 23.0, 23.0, 23.12, -1),
    ("sleeve", 20.0, 19.974, 20.026, 1),
    ("case", 200.0, 199.855, 200.145, -1),
    ("other sleeve", 20.0, 19.974, 20.026, 1),
    ("other bearing", 23.0, 23.0, 23.12, -1),
]


def parts(shape):
    return [
        Part(name, value * 1e-3, low * 1e-3, high * 1e-3, direction, shape)
        for name, value, low, high, direction in STACK
    ]


def test_worked_stack_at_worst_and_by_root_sum_of_squares():
    chain = close_chain(parts("normal"))
    got = np.array([chain.value, chain.low, chain.high, chain.middle, chain.root_sum]) * 1e3
    assert got == pytest.approx([0.25, -0.283, 0.483, 0.1, 0.17825], abs=5e-6)


def test_normal_parts_spread_as_the_root_sum_says():
    # With limits three deviations out, the root sum of squares is three deviations of the gap.
    chain = close_chain(parts("normal"))
    assert 3.0 * chain.deviation == pytest.approx(chain.root_sum, rel=1e-12)
    assert chain.mean == pytest.approx(chain.middle, abs=1e-15)
    assert next(iter(chain.shares)) == "case"
    assert chain.shares["case"] == pytest.approx(0.145**2 / 0.17825**2, rel=1e-4)


@pytest.mark.parametrize("shape", ["limits", "normal", "even"])
def test_samples_agree_with_mean_and_deviation(shape):
    count = 100_000
    made = parts(shape)
    draws = {p.name: uniforms(p.name, 7, count) for p in made}
    gap = chain_samples(made, draws)
    chain = close_chain(made)
    assert gap.mean() == pytest.approx(chain.mean, abs=4 * chain.deviation / np.sqrt(count))
    assert gap.std() == pytest.approx(chain.deviation, rel=0.01)
    if shape != "normal":
        assert gap.min() >= chain.low
        assert gap.max() <= chain.high


@pytest.mark.parametrize("mode", [0.0, 0.3, 0.5, 1.0])
def test_deviation_between_limits_against_scipy(mode):
    # scipy.stats.triang
    low, span = 0.0123, 0.004
    want = stats.triang(mode, low, span).std()
    assert limits_deviation(low, low + span, low + mode * span) == pytest.approx(want, rel=1e-12)


def test_sum_of_evenly_spread_parts_has_the_irwin_hall_distribution():
    # Closed form: three parts spread evenly over 0..1 sum to below 1 with a chance of 1/3!.
    even = [Part(f"part {n}", 0.5, 0.0, 1.0, 1.0, "even") for n in range(3)]
    gap = chain_samples(even, {p.name: uniforms(p.name, 3, 200_000) for p in even})
    assert np.mean(gap < 1.0) == pytest.approx(1 / 6, abs=0.0034)
