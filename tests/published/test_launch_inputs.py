"""What the launch is fed with, against closed forms and a root finder of another library."""

import mpmath
import numpy as np
import pytest
from scipy.optimize import minimize_scalar

from axlewright.vehicle.engine import piecewise_linear
from axlewright.vehicle.tire_curve import tire_rise, tire_shape, tire_turn
from axlewright.vehicle.torque_curve import (
    share_below_peak,
    share_beyond_peak,
    speed_beyond_peak,
    typical_share_at_power,
)

pytestmark = pytest.mark.published


def magic(slip, rise, shape, bend):
    # Bakker, Nyborg & Pacejka, SAE 870421 (form from memory), peak 1.
    turn = rise * slip
    return np.sin(shape * np.arctan(turn - bend * (turn - np.arctan(turn))))


@pytest.mark.parametrize("slide", [0.55, 0.75, 0.9])
@pytest.mark.parametrize("peak_slip", [0.06, 0.12, 0.3])
@pytest.mark.parametrize("bend", [-0.5, 0.0, 0.45, 0.7])
def test_the_curve_has_its_top_and_its_end_where_they_were_asked(slide, peak_slip, bend):
    # Top searched by scipy's bounded minimizer on the Magic Formula written out above.
    turn = tire_turn(slide, peak_slip, bend)
    rise, shape = tire_rise(turn, peak_slip), tire_shape(turn, bend)
    top = minimize_scalar(
        lambda s: -magic(s, rise, shape, bend), bounds=(0.0, 1.0), options={"xatol": 1e-10}
    )
    assert top.x == pytest.approx(peak_slip, rel=1e-4)
    assert -top.fun == pytest.approx(1.0, abs=1e-9)
    assert magic(1.0, rise, shape, bend) == pytest.approx(slide, abs=1e-9)


def test_a_very_short_peak_has_the_shape_of_the_textbook():
    # Limit of a peak at no slip: C = 2 - (2/pi)*asin(slide), Pacejka, Tyre and Vehicle Dynamics
    # (from memory): the curve then ends at its asymptote.
    slide, bend = mpmath.mpf("0.75"), 0.3
    wanted = 2 - 2 / mpmath.pi * mpmath.asin(slide)
    turn = tire_turn(float(slide), 1e-7, bend)
    assert tire_shape(turn, bend) == pytest.approx(float(wanted), rel=1e-6)


@pytest.mark.parametrize(("torque_speed", "power_speed"), [(300, 380), (400, 560), (420, 650)])
def test_the_drawn_curve_makes_its_power_where_it_is_said_to(torque_speed, power_speed):
    # Power of the shape, searched on a fine grid; straight lines between the points shift the top
    # of a flat hill by a few percent of its speed and hardly change its height.
    share = typical_share_at_power(torque_speed, power_speed)
    reaches = [0.5, 1.0, 1.5, 2.0]
    speeds = [torque_speed, *(speed_beyond_peak(torque_speed, power_speed, r) for r in reaches)]
    shares = [1.0, *(share_beyond_peak(share, r) for r in reaches)]
    at = np.linspace(torque_speed, speeds[-1], 2000)
    power = at * piecewise_linear(at, speeds, shares)
    assert power.max() == pytest.approx(power_speed * share, rel=0.005)
    exact = at * (1 - (1 - share) * ((at - torque_speed) / (power_speed - torque_speed)) ** 2)
    assert at[exact.argmax()] == pytest.approx(power_speed, rel=1e-3)


def test_both_branches_of_the_curve_meet_at_the_peak():
    # Limit from below and from above is the peak itself.
    assert share_below_peak(0.5, 1.0) == share_beyond_peak(0.9, 0.0) == 1.0
    assert speed_beyond_peak(400.0, 560.0, 0.0) == 400.0
