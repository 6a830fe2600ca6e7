"""Small builds that between them take every branch of the load path."""

from __future__ import annotations

MANUAL = """format = 1
[car]
rear_weight = "1650 lb"
front_weight = "1950 lb"
[engine]
power = "420 hp"
power_speed = "5600 rpm"
measured_at = "wheels"
correction = "STD"
air = { pressure = "28.5 inHg", temperature = "88 °F" }
[gearbox]
kind = "manual"
torque_rating = "500 lbf*ft"
[axle]
ring_gear = "8.5"
ratio = "41/11"
tube_joint = "welded"
found = ["worn side gears"]
wheel_bearing = "6209"
ring_dowels = 2
[use]
launch = "dump"
"""
LOCKED = """format = 1
[car]
weight = "3000 lb"
rear_weight = "1400 lb"
[engine]
torque = "500 lbf*ft"
boost = "12 psi"
boost_of_figures = "8 psi"
[gearbox]
kind = "manual"
[axle]
ring_gear = "9.0"
shaft = "35-spline alloy"
differential = "spool"
tube_joint = "pressed"
case_iron = "gray"
[wheels]
grip_class = "slick"
[use]
surface = "strip"
launch = "two-step"
"""
TRANS_BRAKE = """format = 1
[car]
weight = "3000 lb"
front_weight = "1500 lb"
[gearbox]
kind = "automatic"
output_spline = "31x24 fillet"
[axle]
ring_gear = "9.0"
case_iron = "nodular"
differential = "helical"
[use]
launch = "trans-brake"
"""
NEUTRAL_DROP = """format = 1
[gearbox]
kind = "automatic"
[axle]
ring_gear = "7.5"
[use]
launch = "neutral drop"
"""
BUILDS = (MANUAL, LOCKED, TRANS_BRAKE, NEUTRAL_DROP)
