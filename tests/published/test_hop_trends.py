"""Trends of wheel hop that others have published, as far as a car with two sides alike shows them.

Only abstracts were read: they name what matters and which way, not by how much.
"""

import math
import runpy
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from axlewright.dynamics.hop import hop_influence, hop_modes, hop_verdict

pytestmark = pytest.mark.published

CARS = runpy.run_path(str(Path(__file__).parents[1] / "unit" / "hop_cars.py"))
CAR, unknown_cars = CARS["CAR"], CARS["unknown_cars"]
SLIPS = np.linspace(0.1, 0.45, 6)


@pytest.fixture(scope="module")
def answer():
    cars = unknown_cars(300, seed=11)
    return cars, hop_verdict(cars, SLIPS, 6.0)


def test_hop_excites_itself():
    # Sharp, Proc. IMechE 184 (1969), abstract: a self-excited limit cycle.  Nothing shakes the car
    # here, and motions that begin to grow do so where the tire's push falls with slip.
    cars = unknown_cars(200, seed=12)
    firm = hop_verdict(cars, [0.0, 0.02, 0.04], 6.0)
    falling = hop_verdict(cars, [0.2, 0.3, 0.4], 6.0)
    assert firm.share_growing == 0.0
    assert falling.share_growing > 0.15


def test_fore_aft_stiffness_decides(answer):
    # Sharp, Proc. IMechE 184 (1969), abstract: the longitudinal stiffness of the axle's mounting is
    # decisive.  Which car and which other numbers were varied is not in the abstract; here wind-up
    # stiffness may come before it.
    cars, verdict = answer
    own = {"mount_stiffness", "windup_stiffness", "rear_stiffness"}
    order = [i.name for i in hop_influence(cars, verdict) if i.name in own]
    assert order.index("mount_stiffness") <= 1
    shares = [
        hop_verdict(replace(cars, mount_stiffness=k), SLIPS, 6.0).share_growing
        for k in (2e5, 1e6, 5e6)
    ]
    assert shares[0] > shares[1] > shares[2]
    assert shares[0] > 1.4 * shares[2]


def test_a_light_axle_hops_more(answer):
    # Zargartalebi & Shirazi, Shock and Vibration 20 (2013) 711-723, abstract: worse with low mass
    # (read here as that of the axle).
    cars, _ = answer
    light, heavy = (
        hop_verdict(replace(cars, axle_mass=cars.axle_mass * f), SLIPS, 6.0).share_growing
        for f in (0.5, 1.5)
    )
    assert light > heavy


def test_shuffle_of_engine_against_a_gripping_car():
    # Two inertias on a shaft, sqrt(k (J1 + J2)/(J1 J2)), closed form; 2 to 10 Hz is the band that a
    # published abstract on tip-in gives.  Engine .30 kg·m² at 2.66 × 3.73, car 1600 kg on .32 m.
    grips = replace(
        CAR, engine_inertia=0.30, input_inertia=0.0, gear_ratio=2.66, tire_radius=0.32,
        driveshaft_stiffness=1e9, pinion_inertia=1e-6, left_shaft_stiffness=13293.0 / 2,
        right_shaft_stiffness=13293.0 / 2, mount_stiffness=1e9, windup_stiffness=1e12,
        housing_inertia=1e9, pitch_inertia=1e12, axle_mass=1.0, wheel_inertia=1e-3,
        tire_rise=1e5, tire_bend=0.0, axle_efficiency=1.0, gearbox_efficiency=1.0,
        rolling_resistance=0.0, air_drag=0.0,
    )  # fmt: skip
    engine, car = 0.30 * (2.66 * 3.73) ** 2, 1600.0 * 0.32**2
    wanted = math.sqrt(13293.0 * (1 / engine + 1 / car)) / (2 * math.pi)
    assert wanted == pytest.approx(3.67, abs=0.005)
    found = hop_modes(grips, 0.0, 0.5).frequency
    assert np.nanmin(np.abs(found - wanted)) < 0.01 * wanted
