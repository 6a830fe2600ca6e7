"""A car for the tests of wheel hop, and many like it about which little is known."""

from dataclasses import replace

import numpy as np

from axlewright.dynamics.launch_car import LaunchCar

CAR = LaunchCar(
    curve_speeds=[100.0, 300.0, 600.0],
    curve_torques=[500.0, 550.0, 480.0],
    engine_inertia=0.25,
    rev_limit=650.0,
    motored_torque=50.0,
    converter=None,
    clutch_capacity=800.0,
    slide_ratio=0.9,
    input_inertia=0.03,
    gear_ratio=2.95,
    gearbox_efficiency=0.97,
    driveshaft_stiffness=20e3,
    driveshaft_damping_time=2e-4,
    driveshaft_half_gap=0.02,
    pinion_inertia=0.012,
    axle_ratio=3.73,
    axle_efficiency=0.96,
    left_shaft_stiffness=14e3,
    right_shaft_stiffness=14e3,
    shaft_damping_time=5e-4,
    shaft_half_gap=0.005,
    side_gear_inertia=0.002,
    bias_ratio=1.5,
    differential_preload=50.0,
    locked=False,
    wheel_inertia=1.5,
    tire_radius=0.345,
    tire_grip=1.1,
    grip_reference_load=3600.0,
    load_sensitivity=2e-5,
    tire_shape=1.5,
    tire_rise=12.0,
    tire_bend=0.3,
    relaxation_length=0.15,
    rolling_resistance=0.012,
    tire_vertical_stiffness=450e3,
    tire_vertical_damping=800.0,
    vehicle_mass=1600.0,
    axle_mass=120.0,
    rear_share=0.46,
    wheelbase=2.75,
    cg_height=0.52,
    track=1.5,
    air_drag=0.4,
    pitch_inertia=2400.0,
    roll_inertia=500.0,
    front_stiffness=45e3,
    front_damping=3500.0,
    rear_stiffness=45e3,
    rear_damping=3500.0,
    roll_stiffness=5e4,
    roll_damping=3000.0,
    rear_roll_share=0.4,
    roll_torque_share=1.0,
    thrust_slope=-0.0375,
    reaction_arm=1.0 / 1.2,
    mount_height=0.0,
    mount_stiffness=2e6,
    mount_damping=4e3,
    windup_stiffness=18e3,
    windup_damping=60.0,
    housing_inertia=3.0,
)

HARD = replace(CAR, windup_damping=20.0, shaft_damping_time=2e-4, tire_shape=1.7, tire_grip=1.3)
"""A car that hops."""

# What is seldom known: from soft to stiff, from hardly to well damped (assumed, wide on purpose).
UNKNOWN = {
    "mount_stiffness": (2e5, 5e6),
    "mount_damping": (3e2, 5e3),
    "windup_stiffness": (5e3, 8e4),
    "windup_damping": (10.0, 150.0),
    "shaft_damping_time": (1e-4, 1e-3),
    "tire_vertical_damping": (100.0, 1500.0),
    "rear_damping": (800.0, 5000.0),
    "rear_stiffness": (25e3, 80e3),
    "driveshaft_damping_time": (5e-5, 5e-4),
    "left_shaft_stiffness": (8e3, 25e3),
    "reaction_arm": (0.3, 1.5),
    "mount_height": (1e-4, 0.1),
    "axle_mass": (80.0, 160.0),
    "housing_inertia": (1.5, 5.0),
    "wheel_inertia": (0.8, 2.5),
    "tire_vertical_stiffness": (3e5, 6e5),
    "tire_shape": (1.35, 1.8),
    "tire_rise": (6.0, 16.0),
    "tire_grip": (0.8, 2.0),
    "relaxation_length": (0.08, 0.4),
}
SLIPS = np.linspace(0.0, 0.6, 25)


def unknown_cars(n, seed=2, **fixed):
    """Draw ``n`` cars, each unknown spread evenly over its logarithm."""
    rng = np.random.default_rng(seed)
    drawn = {k: np.exp(rng.uniform(np.log(a), np.log(b), n)) for k, (a, b) in UNKNOWN.items()}
    drawn["right_shaft_stiffness"] = drawn["left_shaft_stiffness"]
    return replace(CAR, **(drawn | fixed))
