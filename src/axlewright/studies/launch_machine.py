"""From the machine to the car that the launch marches; numbers are floats or samples alike."""

from __future__ import annotations

import numpy as np

from axlewright.build.launching import Launching
from axlewright.build.machine import Machine
from axlewright.dynamics.launch_car import LaunchCar, LaunchConverter
from axlewright.quantities.formula import Array, Num
from axlewright.vehicle.engine import torque_at_speed


def launch_car(m: Machine[Num], x: Launching[Num], gear: int) -> LaunchCar:
    """The car as the march reads it, in a gear."""
    converter = None
    if m.converter is not None:
        assert x.coupling.stall_speed is not None
        converter = LaunchConverter(
            rated_stall_speed=x.coupling.stall_speed,
            rated_stall_torque=torque_at_speed(
                x.coupling.stall_speed, _stack(x.curve.speeds), _stack(x.curve.torques)
            ),
            stall_torque_ratio=m.converter.torque_ratio,
            turbine_inertia=m.converter.inertia,
        )
        capacity = m.converter.band_capacity
    else:
        assert m.clutch is not None
        capacity = m.clutch.capacity
    return LaunchCar(
        curve_speeds=_stack(x.curve.speeds),
        curve_torques=_stack(x.curve.torques),
        engine_inertia=m.engine.inertia,
        rev_limit=m.engine.rev_limit,
        motored_torque=x.curve.motored_torque,
        converter=converter,
        clutch_capacity=capacity,
        slide_ratio=x.coupling.slide_ratio,
        input_inertia=x.spin.input_inertia[gear - 1],
        gear_ratio=m.gearbox.ratios[gear - 1],
        gearbox_efficiency=m.gearbox.efficiency,
        driveshaft_stiffness=x.twist.driveshaft_stiffness,
        driveshaft_damping_time=x.twist.driveshaft_damping_time,
        driveshaft_half_gap=x.twist.driveshaft_half_gap,
        pinion_inertia=x.spin.pinion_inertia,
        axle_ratio=m.gears.ratio,
        axle_efficiency=m.gears.efficiency,
        left_shaft_stiffness=x.twist.left_shaft_stiffness,
        right_shaft_stiffness=x.twist.right_shaft_stiffness,
        shaft_damping_time=x.twist.shaft_damping_time,
        shaft_half_gap=x.twist.shaft_half_gap,
        side_gear_inertia=x.spin.side_gear_inertia,
        bias_ratio=m.differential.bias_ratio,
        differential_preload=m.differential.preload,
        locked=m.differential.locks,
        wheel_inertia=x.spin.wheel_inertia,
        tire_radius=x.tire.radius,
        tire_grip=x.tire.grip,
        grip_reference_load=x.tire.grip_reference_load,
        load_sensitivity=m.tires.load_sensitivity,
        tire_shape=x.tire.shape,
        tire_rise=x.tire.rise,
        tire_bend=x.tire.bend,
        relaxation_length=x.tire.relaxation_length,
        rolling_resistance=m.use.rolling,
        tire_vertical_stiffness=x.tire.vertical_stiffness,
        tire_vertical_damping=x.tire.vertical_stiffness * x.tire.vertical_damping_time,
        vehicle_mass=m.car.mass,
        axle_mass=x.body.axle_mass,
        rear_share=m.car.rear_share,
        wheelbase=m.car.wheelbase,
        cg_height=m.car.cg_height,
        track=m.car.track,
        air_drag=x.body.air_drag,
        pitch_inertia=x.body.pitch_inertia,
        roll_inertia=x.body.roll_inertia,
        front_stiffness=x.body.front_stiffness,
        front_damping=x.body.front_stiffness * x.body.front_damping_time,
        rear_stiffness=x.body.rear_stiffness,
        rear_damping=x.body.rear_stiffness * x.body.rear_damping_time,
        roll_stiffness=x.body.roll_stiffness,
        roll_damping=x.body.roll_stiffness * x.body.roll_damping_time,
        rear_roll_share=x.body.rear_roll_share,
        roll_torque_share=x.mount.roll_torque_share,
        thrust_slope=x.mount.thrust_slope,
        reaction_arm=x.mount.reaction_arm,
        mount_height=x.mount.height,
        mount_stiffness=x.mount.stiffness,
        mount_damping=x.mount.stiffness * x.mount.damping_time,
        windup_stiffness=x.mount.windup_stiffness,
        windup_damping=x.mount.windup_stiffness * x.mount.windup_damping_time,
        housing_inertia=x.mount.housing_inertia,
    )


def _stack(points: tuple[Num, ...]) -> Array:
    """Points of a curve as one array, its first axis along the curve."""
    return np.stack(np.broadcast_arrays(*points))
