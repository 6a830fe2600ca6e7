"""Brakes, parking on a grade and the speedometer with the new tire and ratio."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from axlewright.fit import speedometer
from axlewright.quantities.formula import Num
from axlewright.quantities.units import show, significant
from axlewright.studies.fit_ask import FitAsk
from axlewright.studies.fit_ends import Gap, Judge
from axlewright.studies.fit_figures import percent
from axlewright.studies.fit_fill import Filled
from axlewright.studies.fit_known import Known, Lack, read, work
from axlewright.vehicle import brake_balance, parking_brake
from axlewright.vehicle.brake_curves import rear_line_pressure
from axlewright.vehicle.brake_rules import brake_cautions
from axlewright.vehicle.brake_torque import disc_brake_torque, drum_brake_torque
from axlewright.vehicle.load_transfer import vehicle_weight
from axlewright.vehicle.tire import free_diameter, rolling_radius, turns_per_distance

GRIPS = (0.3, 0.6, 0.8, 1.0)
"""Wet leaves, wet road, dry road, good tires on a dry road."""
_MILE = 1609.344
CABLE_TURNS = 1000.0 / _MILE
"""Turns of the speedometer's cable for each meter: 1,000 in a mile with most old instruments."""
_SHELF = range(10, 46)
_AT = 60.0 * 0.44704
FRONT_TIRES = "Front tires are taken as tall as the rear ones."
SHARE_TAKEN = (
    "The rear's share of the braking is {} (brakes.rear_share): measure radius and piston area of"
    " both brakes and it is worked out."
)


def tire_radius(x: Filled) -> Num:
    """Radius on which the new tire rolls."""
    return rolling_radius(x.fitting.wheel.diameter)


def rear_torque(x: Filled) -> Known:
    """Torque of one rear brake at the line pressure of a hard stop."""
    b = x.fitting.brakes
    if b.rear_kind is None:
        return Lack(("brakes.rear_kind",))
    radius = read(b.rear_radius, "brakes.rear_radius")
    area = read(b.rear_piston_area, "brakes.rear_piston_area")
    pressure = b.line_pressure
    if b.knee_pressure is not None:
        pressure = rear_line_pressure(b.line_pressure, b.knee_pressure, b.knee_share)
    if b.rear_kind == "disc":
        return work(disc_brake_torque, line_pressure=pressure, piston_area=area,
                    pad_friction=b.rear_friction, pad_radius=radius)  # fmt: skip
    return work(drum_brake_torque, line_pressure=pressure, cylinder_area=area,
                brake_factor=b.rear_drum_factor, drum_radius=radius)  # fmt: skip


def rear_share(x: Filled) -> Known:
    """The rear's share of the braking from both brakes; nothing assumed."""
    b = x.fitting.brakes
    if b.front_kind != "disc":
        return Lack(("brakes.front_kind",))
    front = work(
        disc_brake_torque,
        line_pressure=b.line_pressure,
        piston_area=read(b.front_piston_area, "brakes.front_piston_area"),
        pad_friction=b.front_friction,
        pad_radius=read(b.front_radius, "brakes.front_radius"),
    )
    radius = tire_radius(x)
    return work(
        brake_balance.rear_share_of_brakes,
        front_brake_torque=front,
        rear_brake_torque=rear_torque(x),
        front_tire_radius=radius,
        tire_radius=radius,
    )


def used_share(x: Filled) -> Num:
    """The worked-out share, else the one that is stated or assumed."""
    worked = rear_share(x)
    return x.fitting.brakes.rear_share if isinstance(worked, Lack) else worked


def brake_gaps(x: Filled) -> Iterator[Gap]:
    """Split, locking and parking as numbers."""
    share, car = used_share(x), x.beside
    yield Gap("rear_brake_torque", "Torque of one rear brake in a hard stop", rear_torque(x), _fine,
              "torque")  # fmt: skip
    yield Gap("rear_brake_share", "Rear share of the braking", share, _fine, "ratio")
    yield Gap(
        "lock_changeover", "Rate of braking above which the rear locks first, in g",
        brake_balance.lock_changeover(car.rear_share, share, car.cg_height, car.wheelbase),
        _changeover, "ratio",
    )  # fmt: skip
    yield from _parking(x)


def _changeover(rate: float) -> str:
    if rate >= 0.8:
        return ""
    return "the rear locks first within what tires can do, and the car turns round"


def _fine(value: float) -> str:
    del value
    return ""


def parking_torque(x: Filled) -> Known:
    """Torque with which the parking brake holds one wheel."""
    b = x.fitting.brakes
    return work(
        parking_brake.parking_torque,
        cable_force=parking_brake.cable_pull(b.lever_force, b.lever_ratio, b.cable_efficiency),
        brake_lever_ratio=b.wheel_lever_ratio,
        brake_factor=read(b.parking_factor, "brakes.parking"),
        brake_radius=read(b.parking_radius, "brakes.parking_radius"),
    )


def _parking(x: Filled) -> Iterator[Gap]:
    b, car = x.fitting.brakes, x.beside
    wanted = parking_brake.grade_of_angle(b.grade)
    torque = parking_torque(x)
    held = work(
        parking_brake.grade_by_brakes,
        wheel_parking_torque=torque,
        tire_radius=tire_radius(x),
        vehicle_weight=vehicle_weight(car.mass),
    )
    yield Gap("parking_grade", "Grade that the parking brake holds", held, _grade(wanted), "ratio")
    grips = {
        "tire_grip": car.grip,
        "rear_weight_share": car.rear_share,
        "cg_height": car.cg_height,
        "wheelbase": car.wheelbase,
    }
    down = work(parking_brake.grade_by_grip_nose_down, **grips)
    yield Gap("grip_grade", "Grade on which the rear tires hold, nose down", down, _grade(wanted),
              "ratio")  # fmt: skip


def _grade(wanted: Num) -> Judge:
    def judge(held: float) -> str:
        asked = float(np.median(np.asarray(wanted)))
        return "" if held >= asked else f"less than the {asked * 100:.0f} % that is asked for"

    return judge


def brake_words(x: Filled, drawn: Filled) -> tuple[str, ...]:
    """What must be said of the order in which axles lock, and of the parking brake."""
    car, share = drawn.beside, used_share(drawn)
    orders = brake_balance.lock_order(GRIPS, share, car.rear_share, car.cg_height, car.wheelbase)
    said = list(brake_cautions(orders))
    worked = rear_share(x)
    said.insert(
        0,
        SHARE_TAKEN.format(show(float(x.fitting.brakes.rear_share), "ratio", digits=2))
        if isinstance(worked, Lack)
        else FRONT_TIRES,
    )
    if x.fitting.brakes.parking == "none":
        said.append("No parking brake is planned: most road rules want one that holds by itself.")
    said += _parking_words(x, drawn)
    return tuple(said)


def _parking_words(x: Filled, drawn: Filled) -> tuple[str, ...]:
    """How surely the parking brake holds what is asked of it, brakes and tires either way."""
    torque, car = parking_torque(drawn), drawn.beside
    if isinstance(torque, Lack):
        return ()
    held = parking_brake.parking(
        torque, tire_radius(drawn), vehicle_weight(car.mass), car.grip, car.rear_share,
        car.cg_height, car.wheelbase,
    )  # fmt: skip
    asked = float(parking_brake.grade_of_angle(x.fitting.brakes.grade))
    return (
        f"A grade of {significant(100.0 * asked, 2)} % is held either way in"
        f" {percent(held.chance(asked))} of what the figures allow.",
        *held.cautions,
    )


def speedo_gaps(x: Filled, ask: FitAsk) -> Iterator[Gap]:
    """What instrument and sensor see."""
    turns = turns_per_distance(tire_radius(x))
    yield Gap("tire_turns", "Turns of the new tire", turns, _fine, "per distance")
    yield Gap(
        "shaft_turns", "Turns of the driveshaft",
        speedometer.pulses_per_distance(1.0, x.beside.axle_ratio, turns), _fine, "per distance",
    )  # fmt: skip
    for drive in ask.drives:
        exact = speedometer.exact_driven_teeth(
            float(drive), x.beside.axle_ratio, turns, CABLE_TURNS
        )
        yield Gap(f"driven_{drive}", f"Driven teeth that would read true with {drive} on the shaft",
                  exact, _fine, "count")  # fmt: skip
    old = _old_turns(ask)
    if ask.old_ratio is not None or old is not None:
        before = x.beside.axle_ratio if ask.old_ratio is None else ask.old_ratio
        shown = speedometer.reading_after_change(
            _AT, x.beside.axle_ratio, before, turns, turns if old is None else old
        )
        yield Gap("shown_at_60", "Shown at a true 60 mph if nothing is changed", shown, _shown,
                  "speed")  # fmt: skip


def _old_turns(ask: FitAsk) -> Num | None:
    if ask.old_tire is None:
        return None
    return turns_per_distance(rolling_radius(free_diameter(*ask.old_tire)))


def _shown(shown: float) -> str:
    if shown < _AT:
        return "less than the truth: many rules forbid that"
    if shown > float(speedometer.highest_reading(_AT)):
        return "more than rules for speedometers allow (10 % and 4 km/h)"
    return ""


def gears(x: Filled, ask: FitAsk) -> tuple[tuple[int, int, float], ...]:
    """The two nearest driven gears for each drive gear; what shows too much comes first."""
    turns = float(turns_per_distance(tire_radius(x)))
    found = []
    for drive in ask.drives:
        exact = float(speedometer.exact_driven_teeth(
            float(drive), float(x.beside.axle_ratio), turns, CABLE_TURNS
        ))  # fmt: skip
        near = speedometer.driven_gears(exact, _SHELF, _AT)[:2]
        found += [(drive, g.teeth, g.error) for g in near]
    return tuple(found)


def speedo_words(ask: FitAsk) -> tuple[str, ...]:
    """What is taken for granted, and what is asked for."""
    said = []
    if ask.drives:
        said.append(
            "1,000 turns of the cable in a mile, as with most old instruments; its face or manual"
            " says it. Gears of another count may need another housing or bore: look first."
        )
    else:
        said.append("Count the teeth of the drive gear in the gearbox: then driven gears follow.")
    return tuple(said)
