"""One plain car and one plain launch, for tests to change what they are about."""

from __future__ import annotations

import dataclasses

from axlewright.dynamics.launch_car import LaunchCar, LaunchEvents, Ramp

NEVER = 1e9
"""s, a start that no launch lives to see."""


def flat(height: float) -> Ramp:
    """A ramp that stays where it is."""
    return Ramp(height, height, 0.0, 0.0)


def plain_car(**changes: object) -> LaunchCar:
    """A strong street car with a foot clutch and a limited slip, as a start for changes."""
    car = LaunchCar(
        curve_speeds=[80.0, 200.0, 350.0, 480.0, 620.0],
        curve_torques=[400.0, 600.0, 760.0, 700.0, 500.0],
        engine_inertia=0.25,
        rev_limit=660.0,
        motored_torque=60.0,
        converter=None,
        clutch_capacity=1000.0,
        slide_ratio=0.9,
        input_inertia=0.03,
        gear_ratio=2.95,
        gearbox_efficiency=0.97,
        driveshaft_stiffness=20e3,
        driveshaft_damping_time=2e-4,
        driveshaft_half_gap=0.03,
        pinion_inertia=0.012,
        axle_ratio=3.73,
        axle_efficiency=0.96,
        left_shaft_stiffness=14e3,
        right_shaft_stiffness=14e3,
        shaft_damping_time=5e-4,
        shaft_half_gap=0.02,
        side_gear_inertia=0.0015,
        bias_ratio=2.5,
        differential_preload=80.0,
        locked=False,
        wheel_inertia=1.5,
        tire_radius=0.345,
        tire_grip=1.1,
        grip_reference_load=3.6e3,
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
        track=1.47,
        air_drag=0.45,
        pitch_inertia=2400.0,
        roll_inertia=500.0,
        front_stiffness=45e3,
        front_damping=3.5e3,
        rear_stiffness=45e3,
        rear_damping=3.5e3,
        roll_stiffness=60e3,
        roll_damping=4e3,
        rear_roll_share=0.3,
        roll_torque_share=1.0,
        thrust_slope=(0.3 - 0.345) / 1.2,
        reaction_arm=1.0 / 1.2,
        mount_height=0.0,
        mount_stiffness=2e6,
        mount_damping=4e3,
        windup_stiffness=18e3,
        windup_damping=60.0,
        housing_inertia=3.0,
    )
    return dataclasses.replace(car, **changes)  # type: ignore[arg-type]


def plain_events(**changes: object) -> LaunchEvents:
    """Full throttle from a standstill, clutch shut within 30 ms, as a start for changes."""
    events = LaunchEvents(
        duration=0.4,
        engine_speed=500.0,
        input_speed=0.0,
        road_speed=0.0,
        wheel_slip=0.0,
        throttle=flat(1.0),
        second_throttle=Ramp(1.0, 1.0, NEVER, 0.0),
        clamp=Ramp(0.0, 1.0, 0.02, 0.03),
        hold=flat(0.0),
        brakes=flat(0.0),
        grip=flat(1.0),
        heave=0.0,
        pitch=0.0,
    )
    return dataclasses.replace(events, **changes)  # type: ignore[arg-type]
