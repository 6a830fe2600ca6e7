"""Losses and oil temperature: limits, order, arrays equal to scalars, a balance that holds."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.hypoid import churning, losses, oil_heat, peak_load, rating, scuffing
from axlewright.hypoid.geometry import pitch_cones
from axlewright.mechanics import bearing_friction
from axlewright.mechanics.oil import oil_viscosity

ANGLE = np.radians(20.0)
LIGHT = settings(max_examples=80, deadline=None)
watts = st.floats(0.0, 4000.0)


@given(st.floats(0.0, 0.12), st.floats(0.6, 0.95), st.floats(0.05, 0.5))
@LIGHT
def test_mesh_loss_is_the_efficiency_where_nothing_slides_up_and_down(friction, pinion, offset):
    ring = pinion - offset
    along = losses.mean_sliding_ratio(losses.sliding_ratio(offset, ring), 0.0)
    drive = losses.drive_mesh_loss(friction, along, ANGLE, pinion)
    coast = losses.coast_mesh_loss(friction, along, ANGLE, pinion, ring)
    assert drive == pytest.approx(
        1.0 - losses.drive_efficiency(friction, ANGLE, pinion, ring), abs=1e-9
    )
    assert coast == pytest.approx(
        1.0 - losses.coast_efficiency(friction, ANGLE, pinion, ring), abs=1e-9
    )
    assert coast >= drive - 1e-12


def test_mean_sliding_lies_between_its_parts_and_their_sum():
    along, profile = np.meshgrid(np.linspace(0.0, 0.6, 13), np.linspace(0.0, 0.4, 9))
    mean = losses.mean_sliding_ratio(along, profile)
    assert np.all(mean >= np.maximum(along, profile) - 1e-9)
    assert np.all(mean <= along + profile + 1e-6)


@pytest.mark.parametrize(("cold", "hot"), [(145e-6, 14.7e-6), (350e-6, 26e-6), (32e-6, 5.4e-6)])
def test_oil_meets_its_two_points_and_thins_with_heat(cold, hot):
    assert oil_viscosity(313.15, cold, hot) == pytest.approx(cold, rel=1e-12)
    assert oil_viscosity(373.15, cold, hot) == pytest.approx(hot, rel=1e-12)
    assert np.all(np.diff(oil_viscosity(np.linspace(250.0, 440.0, 60), cold, hot)) < 0.0)


def test_viscous_moment_hardly_steps_where_its_two_laws_meet():
    at = 2000.0 / 15.0 * np.pi / 30.0
    below, above = (
        bearing_friction.viscous_moment(3.5, 15e-6, at * k, 0.06) for k in (0.9999, 1.0001)
    )
    assert above == pytest.approx(below, rel=0.01)


def test_stirring_has_no_step():
    numbers = np.linspace(3000.0, 12000.0, 400)
    heat = churning.churning_heat(80.0, 200.0, numbers)
    assert np.max(np.abs(np.diff(heat))) < 1.0
    assert (heat[0], heat[-1]) == (80.0, 200.0)


def test_a_gear_that_does_not_dip_touches_no_oil():
    whole = churning.immersed_surface(0.2, 0.03, 1.0)
    assert churning.immersed_surface(0.2, 0.03, 0.0) == 0.0
    assert whole == pytest.approx(np.pi * 0.1**2 + np.pi * 0.1 * 0.03)  # half a wheel, two sides


@given(watts, watts, watts, watts, st.floats(1e3, 1e5), st.floats(4.0, 60.0),
       st.floats(250.0, 325.0), st.sampled_from([(105e-6, 15e-6), (350e-6, 26e-6)]))  # fmt: skip
@LIGHT
def test_heat_made_is_heat_given_off(steady, bearings, thick, thin, reynolds, given_off, air, oil):
    found = oil_heat.steady_oil_temperature(
        air, given_off, steady, bearings, thick, thin, reynolds, *oil
    )
    assert found >= air
    thicker = oil_viscosity(found, *oil) / oil[1]
    stirred = churning.churning_heat(thick * thicker**0.21, thin, reynolds / thicker)
    made = steady + bearings * thicker ** (2.0 / 3.0) + stirred
    assert given_off * (found - air) == pytest.approx(made, rel=2e-4, abs=0.05)


def test_many_oils_at_once_are_each_alone():
    rng = np.random.default_rng(3)
    spans = ((270, 320), (8, 40), (300, 2000), (20, 400), (10, 300), (20, 600), (5e3, 4e4))
    columns = [rng.uniform(low, high, 200) for low, high in spans]
    together = oil_heat.steady_oil_temperature(*columns, 145e-6, 14.7e-6)
    alone = [
        oil_heat.steady_oil_temperature(*row, 145e-6, 14.7e-6) for row in zip(*columns, strict=True)
    ]
    assert np.allclose(together, alone, rtol=0, atol=1e-9)


def test_rating_by_contact_agrees_with_the_method_that_it_is_fed_from():
    flank = peak_load.FlankMethod(41.0, 41 / 11, 0.0324, 0.00527, 0.0725, 0.26, 0.11)
    allowed = peak_load.Allowed(700e6, 2800e6, 2300e6)
    torque, uneven = 3000.0, 1.15
    root = rating.bending_stress(
        torque, 1.0, rating.axle_size_factor(0.00527), uneven, 1.0, 0.0324, 0.00527, 41.0, 0.26
    )
    pressed = rating.contact_stress(
        rating.CONTACT_CONSTANT, torque, 41 / 11, 1.0, uneven, 1.0, 1.0, 0.0324, 0.0725, 0.11
    )
    method = peak_load.by_method(flank, allowed, uneven)
    contact = peak_load.by_contact(peak_load.FlankContact(torque, pressed, root), allowed)
    apart = peak_load.spread(method, contact)
    for one, other, far in (
        (method.bending, contact.bending, apart.bending),
        (method.pressure, contact.pressure, apart.pressure),
        (method.fracture, contact.fracture, apart.fracture),
    ):
        assert one == pytest.approx(other, rel=1e-12)
        assert far == pytest.approx(1.0)
    assert method.fracture / method.bending == pytest.approx(23 / 7)


def test_a_sharper_contact_carries_less():
    allowed = peak_load.Allowed(700e6, 2800e6, 2300e6)
    mild = peak_load.FlankContact(3000.0, 2000e6, 500e6)
    sharp = replace(mild, peak_pressure=2400e6, root_stress=650e6)
    a, b = (peak_load.by_contact(x, allowed) for x in (mild, sharp))
    assert b.bending < a.bending
    assert b.pressure < a.pressure
    assert b.fracture < a.fracture


def test_scuffing_ranks_oil_heat_and_sliding_the_right_way():
    flash = scuffing.flash_temperature(0.06, 300e3, np.array([2.0, 4.0]), 6.0, 4.0, 3e-4, 13.8e3)
    assert flash[1] == pytest.approx(2.0 * flash[0])
    warm = scuffing.integral_temperature(
        scuffing.body_temperature(np.array([350.0, 380.0]), 60.0), 60.0
    )
    stands = scuffing.scuffing_temperature(np.array([10.0, 12.0])[:, None], 145e-6, 1.0)
    rank = scuffing.scuffing_rank(stands, warm)
    assert np.all(np.diff(rank, axis=0) > 0.0)
    assert np.all(np.diff(rank, axis=1) < 0.0)


def test_thinner_oil_and_more_load_raise_tooth_friction():
    friction = scuffing.mean_tooth_friction(
        np.array([100e3, 300e3])[:, None], 12.0, 0.015, np.array([0.01, 0.05]), 1.0
    )
    assert np.all(np.diff(friction, axis=0) > 0.0)
    assert np.all(np.diff(friction, axis=1) < 0.0)


def test_heat_of_a_pair_slides_as_the_sliding_ratio_says_and_grows_with_load():
    cones = pitch_cones(9, 41, 0.2413, 0.035, 0.0381, np.radians(48.0), 0.09525, np.pi / 2)
    speed = 300.0
    pair = scuffing.Flanks(
        line_load=np.array([200e3, 400e3]), relative_radius=0.02,
        pinion_radius=cones.pinion_mean_radius, ring_radius=cones.ring_mean_radius,
        pinion_spiral=cones.pinion_mean_spiral, ring_spiral=cones.ring_mean_spiral,
        pressure_angle=ANGLE, slant=np.radians(35.0), pinion_speed=speed,
        ring_speed=speed * 9 / 41, contact_modulus=113e9, thermal_contact=13.8e3,
        roughness=0.5e-6, oil_temperature=363.15, oil_viscosity=0.015,
    )  # fmt: skip
    along = [
        scuffing.lengthwise_run(r, w, b)
        for r, w, b in (
            (pair.pinion_radius, speed, pair.pinion_spiral),
            (pair.ring_radius, pair.ring_speed, pair.ring_spiral),
        )
    ]
    ratio = losses.sliding_ratio(cones.offset_angle, cones.ring_mean_spiral)
    assert scuffing.lengthwise_sliding(*along) == pytest.approx(
        ratio * speed * cones.pinion_mean_radius, rel=1e-6
    )
    rises = [
        scuffing.profile_rise(r, w, b, ANGLE)
        for r, w, b in (
            (pair.pinion_radius, speed, pair.pinion_spiral),
            (pair.ring_radius, pair.ring_speed, pair.ring_spiral),
        )
    ]
    assert rises[0] == pytest.approx(rises[1], rel=1e-6)  # both flanks keep touching
    heat = scuffing.flank_heat(pair)
    assert heat.flash[1] > heat.flash[0] > 0.0
    assert np.all(heat.integral > heat.body)
    assert np.all(heat.body > pair.oil_temperature)
