"""Every number of the angles study by key, for one filling of the build.

Works on floats, on samples and traced alike; it only hands values from formula to formula.
"""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.driveline import driveshaft_length, pinion_setting, pinion_turn
from axlewright.fit.oil_level import oil_over_pinion
from axlewright.quantities.formula import Num
from axlewright.studies.angles_axle import (
    CASES,
    Carried,
    axle_numbers,
    carried,
    pulls,
    squatting,
    told_of,
    windup_rise,
)
from axlewright.studies.angles_fill import Filled, Number, Numbers
from axlewright.studies.angles_line import Line, line_of
from axlewright.studies.angles_linkage import Axle, axle_of, posing
from axlewright.studies.angles_moves import State
from axlewright.studies.angles_shaft import (
    joint_numbers,
    life_numbers,
    top_shaft_speed,
    whirl_numbers,
)
from axlewright.studies.angles_states import pulling, state_numbers, states_of
from axlewright.studies.angles_trace import solved
from axlewright.suspension.pose import Pose, ride_height


@dataclass(frozen=True)
class Asked:
    """What decides which way the numbers are worked out: the same for every filling."""

    kind: str
    rise_measured: bool
    window: tuple[float, float] | None = None
    """Between which slopes at rest every limit is kept, if there is any such setting."""
    trouble: str = ""
    """Why the links that were measured are left out."""


@dataclass(frozen=True)
class Found:
    """All numbers, and what they were worked out from."""

    numbers: Numbers
    line: Line
    states: tuple[State, ...]
    axle: Axle | None
    pose: Pose | None
    forces: dict[str, Carried]
    speed: Num


@dataclass(frozen=True)
class Start:
    """What the states of the driveline begin with."""

    line: Line
    axle: Axle | None
    pose: Pose | None
    launch: Carried | None
    rise: Num
    numbers: Numbers


def start(x: Filled, asked: Asked) -> Start:
    """The line as measured, the axle at ride height, and how far the nose rises."""
    with posing():
        return _start(x, asked)


def _start(x: Filled, asked: Asked) -> Start:
    line = line_of(x)
    axle = axle_of(x, asked.kind)
    pose = ride_height(axle.linkage) if axle is not None else None
    launch = None
    if axle is not None and pose is not None:
        launch = carried(x, axle, pose, ("launch",))["launch"]
    numbers = _measured(x, line)
    rise, more = _rise(x, asked, launch, pose)
    return Start(line, axle, pose, launch, rise, numbers | more)


def found(x: Filled, asked: Asked) -> Found:
    """Everything that the readings allow; links that cannot be moved raise :class:`LinksError`."""
    with posing():
        return _found(x, asked)


def _found(x: Filled, asked: Asked) -> Found:
    begin, speed = start(x, asked), top_shaft_speed(x)
    line, axle, pose, numbers = begin.line, begin.axle, begin.pose, dict(begin.numbers)
    states = states_of(x, line, axle, pulling(x, begin.rise), asked.window, numbers)
    for state in states:
        numbers |= state_numbers(x, state)
    numbers |= _length(x, line, states)
    numbers |= _oil(x, numbers)
    numbers |= whirl_numbers(x, line.length, speed)
    pulled_state = next((s for s in states if s.key == "set_loaded"), None)
    numbers |= joint_numbers(x, pulled_state)
    if pulled_state is not None:
        numbers |= life_numbers(x, pulled_state)
    numbers |= axle_numbers(x, pose)
    forces: dict[str, Carried] = {}
    if axle is not None and pose is not None and begin.launch is not None:
        forces = {"launch": begin.launch} | carried(x, axle, pose, ("brake", "corner"))
        numbers |= _pulls(x, pose, forces)
    return Found(numbers, line, tuple(states), axle, pose, forces, speed)


def _oil(x: Filled, numbers: Numbers) -> Numbers:
    """Oil over the front pinion bearing with the nose as it should be, where the hole is known."""
    c = x.fitting.centre
    up, behind, ahead = c.fill_hole_up, c.fill_hole_behind, c.bearing_ahead
    if "static" not in numbers or up is None or behind is None or ahead is None:
        return {}
    depth = oil_over_pinion(up, behind, ahead, x.machine.gears.offset, numbers["static"].value)
    means = "Oil over the pinion's middle at its front bearing, filled to the hole, as it should be"
    return {"oil_bearing": Number(means, "length", depth)}


def _measured(x: Filled, line: Line) -> Numbers:
    """Slopes at rest against the car's floor line, + when the front end is the higher one."""
    slopes = {"gearbox": line.gearbox, "shaft": line.shaft, "pinion": line.pinion}
    words = {"gearbox": "Gearbox", "shaft": "Driveshaft", "pinion": "Pinion"}
    made: Numbers = {
        f"{key}_slope": Number(f"{words[key]} against the car's floor line", "angle", slope.side)
        for key, slope in slopes.items()
        if slope is not None
    }
    if line.shaft is not None:
        made["shaft_plan"] = Number("Driveshaft seen from above", "angle", line.shaft.plan)
    if line.pinion is not None and line.shaft is not None:
        made["pinion_off_shaft"] = Number(
            "Pinion against the driveshaft as it is", "angle",
            pinion_setting.pinion_to_shaft(line.pinion.side, line.shaft.side),
        )  # fmt: skip
    return made


def _rise(
    x: Filled, asked: Asked, launch: Carried | None, pose: Pose | None
) -> tuple[Num, Numbers]:
    """The rise of the nose that is reckoned with, and the others beside it."""
    by_stiffness = windup_rise(x, launch)
    stated = x.fitting.angles.pinion_rise
    source = "of the class of suspension" if launch is None else "of the bushes"
    made = {
        "rise_stiffness": Number(
            f"Rise of the nose at full pull by the stiffness {source}", "angle", by_stiffness
        ),
        "rise_stated": Number(
            "Rise of the nose as measured" if asked.rise_measured
            else "Rise of the nose that the trade allows for", "angle", stated,
        ),
    }  # fmt: skip
    rise = stated
    if pose is not None:
        squat, turn = squatting(x, pose)
        made |= {
            "squat": Number("The tail sinks at full pull by", "length", squat),
            "rise_squat": Number("That turns the nose up by", "angle", turn),
        }
        if not asked.rise_measured:
            rise = pinion_turn.whole_rise(by_stiffness, turn)
    return rise, made | {"rise": Number("Rise of the nose reckoned with", "angle", rise)}


def _length(x: Filled, line: Line, states: list[State]) -> Numbers:
    """Length to order, and what slips at the stops."""
    made: Numbers = {
        "length": Number("Joint center to joint center, ride height", "length", line.length)
    }
    slip = x.fitting.slip
    if slip.bottomed_reach is not None:
        made["seal_length"] = Number(
            "Seal face to the rear joint center with this length", "length",
            driveshaft_length.seal_length_of(line.length, slip.bottomed_reach, slip.gap),
        )  # fmt: skip
    made["slip_gap"] = Number("Slip yoke stands off its bottom", "length", slip.gap)
    for s in states:
        if s.key not in {"bump", "droop", "set_loaded"}:
            continue
        at = s.title[:1].lower() + s.title[1:]
        made[f"{s.key}_free"] = Number(
            f"Slip yoke to its bottom, {at}", "length",
            driveshaft_length.free_to_bottom(slip.gap, line.length, s.length),
        )  # fmt: skip
        if slip.spline_length is not None:
            made[f"{s.key}_engaged"] = Number(
                f"Spline engaged, {at}", "length",
                driveshaft_length.engagement(slip.spline_length, slip.gap, line.length, s.length),
            )  # fmt: skip
    if slip.spline_diameter is not None:
        made["least_engaged"] = Number(
            "Spline that must stay engaged", "length",
            driveshaft_length.least_engagement(slip.spline_diameter),
        )  # fmt: skip
    return made


def _pulls(x: Filled, pose: Pose, forces: dict[str, Carried]) -> Numbers:
    """What each link carries, case by case; pull above zero, springs push."""
    made: Numbers = {}
    told = told_of(x) | {"ring torque": x.pull.torques["ring"]}
    for case, load in forces.items():
        for name, value in pulls(pose, load.forces).items():
            means = f"{name[:1].upper()}{name[1:]}: {CASES[case][:1].lower()}{CASES[case][1:]}"
            force = solved(means, "force", value, told)
            made[f"{case}_{name.replace(' ', '_')}"] = Number(means, "force", force)
    return made
