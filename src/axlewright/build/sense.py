"""Does the build make sense: what is refused, and what contradicts itself."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from axlewright.build.lines import Path
from axlewright.build.model import Build, Engine, Suspension
from axlewright.build.problems import Severity
from axlewright.build.sizes import (
    SizeError,
    read_curve,
    read_ratios,
    read_studs,
    read_teeth,
    read_tire,
)
from axlewright.quantities.units import Reading, show

Remark = tuple[Path, str, Severity]
_WEIGHT_SLACK = 0.02
_POWER_SLACK = 0.03


def refusals(build: Build) -> Iterator[Remark]:
    """Layouts whose load path this program does not know."""
    car = build.car
    if car is not None and car.driven != "rear" and car.driven is not None:
        yield (
            ("car", "driven"),
            f"{car.driven}-wheel drive is not worked out: only a driven rear live axle is",
            "error",
        )
    if car is not None and car.rear_axle not in {"live", None}:
        yield (
            ("car", "rear_axle"),
            "only a solid live axle is worked out: with independent wheels the half shafts, their"
            " joints and the fixed centre carry other loads",
            "error",
        )
    if build.axle.gear_cutting == "face-hobbed":
        yield (
            ("axle", "gear_cutting"),
            "a face-hobbed set (teeth of even depth) is not rated: the tooth form and the rating"
            " method here are for face-milled, tapered teeth",
            "error",
        )
    if build.axle.gear_cutting == "unknown":
        yield (
            ("axle", "gear_cutting"),
            "taken as face-milled; if the teeth are of even depth from toe to heel, the gear-set"
            " figures do not apply",
            "caution",
        )
    if build.gears is not None and build.gears.depth == "even":
        yield (
            ("gears", "depth"),
            "teeth of even depth are face-hobbed: their flanks and their strength are not worked"
            " out, and the gear-set figures of the load path do not apply",
            "error" if build.axle.gear_cutting == "face-milled" else "caution",
        )


def contradictions(build: Build) -> Iterator[Remark]:
    """Statements that cannot all be true, or that do not read."""
    yield from _weights(build)
    yield from _drive(build)
    yield from _engine(build.engine)
    yield from _shift(build)
    yield from _links(build.suspension)
    yield from _sizes(build)
    shaft = build.driveshaft
    if shaft and shaft.tube_diameter and shaft.tube_wall:
        yield from _wall(("driveshaft", "tube_wall"), shaft.tube_diameter, shaft.tube_wall)
    axle = build.axle
    if axle.tube_diameter and axle.tube_wall:
        yield from _wall(("axle", "tube_wall"), axle.tube_diameter, axle.tube_wall)


def _wall(path: Path, outer: Reading, wall: Reading) -> Iterator[Remark]:
    if wall.value >= 0.5 * outer.value:
        yield path, f"a wall of {wall.text} does not fit in a tube of {outer.text}", "error"


def _weights(build: Build) -> Iterator[Remark]:
    car = build.car
    if car is None:
        return
    if car.weight and car.front_weight and car.rear_weight:
        total = car.front_weight.value + car.rear_weight.value
        if abs(total - car.weight.value) > _WEIGHT_SLACK * car.weight.value:
            yield (
                ("car", "weight"),
                f"front and rear weight add up to {show(total, 'mass')}, not {car.weight.text};"
                " leave one of the three out or weigh again",
                "error",
            )
    whole = car.weight.value if car.weight else None
    for name, part in (("rear_weight", car.rear_weight), ("front_weight", car.front_weight)):
        if whole and part and part.value >= whole:
            yield ("car", name), f"{part.text} is no less than the whole car", "error"
    if car.rear_share and car.rear_weight and (car.weight or car.front_weight):
        front = car.front_weight.value if car.front_weight else 0.0
        total = car.weight.value if car.weight else car.rear_weight.value + front
        share = car.rear_weight.value / total if total > 0.0 else car.rear_share.value
        if abs(share - car.rear_share.value) > _WEIGHT_SLACK:
            yield (
                ("car", "rear_share"),
                f"the weights say {100.0 * share:.1f} %, not {car.rear_share.text};"
                " leave rear_share out",
                "error",
            )


def _drive(build: Build) -> Iterator[Remark]:
    manual = build.gearbox.kind == "manual"
    if manual and build.converter is not None:
        yield ("converter",), "a manual gearbox has a clutch, not a converter", "error"
    if not manual and build.clutch is not None:
        yield ("clutch",), "an automatic gearbox has a converter, not a foot clutch", "error"
    launch = build.use.launch if build.use else None
    wrong = (
        {"foot-brake", "trans-brake", "neutral drop"} if manual else {"slip", "dump", "two-step"}
    )
    if launch in wrong:
        which = "manual" if manual else "automatic"
        yield ("use", "launch"), f"{launch} is no launch of a car with {which} gearbox", "error"
    rev_limit = build.engine.rev_limit if build.engine else None
    speed = build.use.launch_speed if build.use else None
    if rev_limit and speed and speed.value > rev_limit.value:
        yield (
            ("use", "launch_speed"),
            f"{speed.text} is above the rev limit of {rev_limit.text}",
            "error",
        )


def _engine(engine: Engine | None) -> Iterator[Remark]:
    if engine is None:
        return
    speed = engine.power_speed
    if engine.torque and engine.power and speed and speed.value > 0.0:
        at_power = engine.power.value / speed.value
        if at_power > engine.torque.value * (1 + _POWER_SLACK):
            yield (
                ("engine", "power"),
                f"{engine.power.text} at {speed.text} needs"
                f" {show(at_power, 'torque')}, more than the peak torque of {engine.torque.text}",
                "error",
            )
    if speed and engine.torque_speed and engine.torque_speed.low > speed.high:
        yield (
            ("engine", "torque_speed"),
            f"{engine.torque_speed.text} is above the speed of peak power, {speed.text}: below its"
            " torque peak an engine makes less torque and less power",
            "error",
        )
    if engine.power and not engine.power_speed and not engine.torque and not engine.curve:
        yield ("engine", "power"), "needs power_speed, or state the peak torque", "error"
    if engine.aspiration == "natural" and engine.boost and engine.boost.value > 0:
        yield ("engine", "boost"), "a naturally aspirated engine has no boost", "error"
    if engine.boost_of_figures and not engine.boost:
        yield ("engine", "boost_of_figures"), "needs boost as well: what will be run", "error"


def _shift(build: Build) -> Iterator[Remark]:
    said = build.driver.shift_speed if build.driver else None
    rev_limit = build.engine.rev_limit if build.engine else None
    if said and rev_limit and said.low > rev_limit.high:
        yield (
            ("driver", "shift_speed"),
            f"{said.text} is above the rev limit of {rev_limit.text}",
            "error",
        )


def _links(suspension: Suspension | None) -> Iterator[Remark]:
    """One thing said twice, or half of what only a pair can say."""
    if suspension is None:
        return
    if suspension.anti_squat and suspension.instant_center_height:
        yield (
            ("suspension", "anti_squat"),
            "anti-squat and the height of the instant center say the same; leave one out",
            "error",
        )
    torque, angle = suspension.windup_torque, suspension.windup_angle
    if suspension.windup_stiffness and (torque or angle):
        yield (
            ("suspension", "windup_stiffness"),
            "wind-up is said twice: leave out either the stiffness or torque and angle",
            "error",
        )
    elif torque and not angle:
        yield ("suspension", "windup_torque"), "needs windup_angle as well: what it gave", "error"
    elif angle and not torque:
        yield ("suspension", "windup_angle"), "needs windup_torque as well: what gave it", "error"


def _sizes(build: Build) -> Iterator[Remark]:
    wheels, engine = build.wheels, build.engine
    yield from _size(("wheels", "tire"), read_tire, wheels.tire if wheels else None)
    yield from _size(("wheels", "studs"), read_studs, wheels.studs if wheels else None)
    yield from _size(("axle", "ratio"), read_teeth, build.axle.ratio)
    yield from _size(("gearbox", "ratios"), read_ratios, build.gearbox.ratios)
    yield from _size(("engine", "curve"), read_curve, engine.curve if engine else None)


def _size(path: Path, reader: Callable[[Any], object], value: object) -> Iterator[Remark]:
    if value is None:
        return
    try:
        reader(value)
    except SizeError as e:
        yield path, str(e), "error"
