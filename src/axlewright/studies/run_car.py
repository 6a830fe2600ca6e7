"""The car for a run down the strip, from the machine and from how it is driven.

The machine says what the car is; how quickly boost comes, what the foot does at the line and how
much of the grip a driver really gets is nowhere in a build file, so it is assumed here, each with
its spread.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Generic, TypeVar

from axlewright.build.machine import Machine
from axlewright.quantities.estimate import EXACT, Estimate, Leaf, Limits
from axlewright.quantities.formula import Num
from axlewright.quantities.units import read
from axlewright.studies.ratio_road import Filled
from axlewright.vehicle.engine import torque_at_speed
from axlewright.vehicle.wheels import both_wheels_inertia

if TYPE_CHECKING:
    from axlewright.dynamics.run_car import RunCar

T = TypeVar("T")
PRACTICE = "common practice, no source"
MEMORY = "from memory"

_GRIP_SHARE = {"dump": "0.75 to 0.95", "neutral drop": "0.75 to 0.95"}
_CLUTCH_SHARE = {"gentle": "0.45 to 0.75", "slip": "0.65 to 0.95"}
_PULLED_TO = {"gentle": "1100 ± 200 rpm", "slip": "1800 ± 500 rpm"}


@dataclass(frozen=True, eq=False, repr=False)
class Driving(Generic[T]):
    """What the driver and the engine's lag add to the machine."""

    boost_time: T
    boost_floor: T
    shift_share: T
    shift_flare: T
    clutch_share: T
    least_slip_speed: T
    grip_share: T
    pitch_time: T
    lockup_gear: int


def driving(m: Machine[Leaf]) -> Driving[Leaf]:
    """Assumptions about the run, by kind of launch, gearbox and engine."""
    manual, boosted, launch = m.clutch is not None, m.engine.boosted, m.use.launch
    return Driving(
        boost_time=_assumed("boost_time", "0.3 to 1.2 s", "time", MEMORY,
                            "Time constant with which boost comes.")
        if boosted
        else _exact("boost_time", 0.0, "time", "no boost", "Time in which boost comes."),
        boost_floor=_assumed("boost_floor", "0.55 to 0.8", "ratio", MEMORY,
                             "Share of the torque that is there before boost comes.")
        if boosted
        else _exact("boost_floor", 1.0, "ratio", "no boost", "Torque without boost."),
        shift_share=_exact("shift_share", 0.0, "ratio", "the foot clutch is open",
                           "Torque that comes through during a shift.")
        if manual
        else _assumed("shift_share", "0.6 to 0.95", "ratio", PRACTICE,
                      "Torque that comes through during a shift."),
        shift_flare=_assumed("shift_flare", "0.2 to 0.8" if manual else "0.1 to 0.5", "ratio",
                             PRACTICE, "Speed drop left for the clutch after a shift."),
        clutch_share=_assumed("clutch_share", _CLUTCH_SHARE.get(launch, "0.85 to 1.0"), "ratio",
                              PRACTICE, "Share of the clutch that the foot lets in at the line."),
        least_slip_speed=_assumed("pulled_to", _PULLED_TO.get(launch, "2500 ± 700 rpm"),
                                  "rotation", PRACTICE,
                                  "Engine speed below which the driver slips the clutch."),
        grip_share=_assumed("grip_share", _GRIP_SHARE.get(launch, "0.85 to 0.98"), "ratio",
                            PRACTICE, "Share of the grip that the driver gets under power."),
        pitch_time=_assumed("pitch_time", "0.1 to 0.3 s", "time", MEMORY,
                            "Time in which load goes to the rear tires."),
        lockup_gear=0,
    )  # fmt: skip


def _assumed(name: str, text: str, dimension: str, because: str, means: str) -> Estimate:
    reading = read(text, dimension)
    spread = Limits(reading.low, reading.high)
    return Estimate(
        f"run.{name}", reading.value, dimension, spread, "assumed", because, means=means, text=text,
        advice="A time slip narrows it.",
    )  # fmt: skip


def _exact(name: str, value: float, dimension: str, because: str, means: str) -> Estimate:
    return Estimate(f"run.{name}", value, dimension, EXACT, "stated", because, means=means)


def run_car(x: Filled, d: Driving[Num]) -> RunCar:
    """What the run reads, as floats or arrays of samples."""
    from axlewright.dynamics.launch_car import LaunchConverter  # noqa: PLC0415 (loads the compiler)
    from axlewright.dynamics.run_car import RunCar  # noqa: PLC0415

    m, from_launch = x.machine, x.launching
    body, spin, driver, tire = (
        from_launch.body, from_launch.spin, from_launch.driver, from_launch.tire
    )  # fmt: skip
    converter = None
    stall = from_launch.coupling.stall_speed
    if m.converter is not None and stall is not None:
        converter = LaunchConverter(
            stall, torque_at_speed(stall, x.speeds, x.torques), m.converter.torque_ratio,
            m.converter.inertia,
        )  # fmt: skip
    capacity = m.clutch.capacity if m.clutch is not None else m.converter.band_capacity  # type: ignore[union-attr]
    return RunCar(
        curve_speeds=x.speeds,
        curve_torques=x.torques,
        boost_time=d.boost_time,
        boost_floor=d.boost_floor,
        engine_inertia=m.engine.inertia,
        rev_limit=m.engine.rev_limit,
        shift_speed=driver.shift_speed,
        shift_time=driver.shift_time,
        shift_share=d.shift_share,
        shift_flare=d.shift_flare,
        gear_ratios=m.gearbox.ratios,
        gearbox_efficiency=m.gearbox.efficiency,
        axle_ratio=m.gears.ratio,
        axle_efficiency=m.gears.efficiency,
        clutch_capacity=capacity,
        launch_share=d.clutch_share,
        launch_speed=m.engine.launch_speed,
        least_slip_speed=d.least_slip_speed,
        converter=converter,
        lockup_gear=d.lockup_gear,
        input_inertia=spin.input_inertia[0],
        driveshaft_inertia=spin.pinion_inertia,  # the driveshaft is halved between both lumps
        driven_inertia=both_wheels_inertia(spin.wheel_inertia),
        rolling_inertia=both_wheels_inertia(m.tires.wheel_inertia),
        tire_radius=tire.radius,
        tire_grip=tire.grip,
        grip_reference_load=tire.grip_reference_load,
        load_sensitivity=m.tires.load_sensitivity,
        slide_share=d.grip_share,
        locked=m.differential.locks,
        bias_ratio=m.differential.bias_ratio,
        differential_preload=m.differential.preload,
        track=m.car.track,
        front_roll_share=m.car.front_roll_share,
        vehicle_mass=m.car.mass,
        rear_share=m.car.rear_share,
        wheelbase=m.car.wheelbase,
        cg_height=m.car.cg_height,
        pitch_time=d.pitch_time,
        drag_area=body.drag_area,
        air_density=body.air_density,
        rolling_resistance=m.use.rolling,
        rollout=driver.rollout,
    )
