"""Every number of the angles study by key, for one filling of the build.

Works on floats, on samples and traced alike; it only hands values from formula to formula.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.driveline import driveshaft_length, pinion_setting, pinion_turn
from axlewright.driveline.line_places import downward
from axlewright.mechanics import joint_directions
from axlewright.quantities.formula import Num
from axlewright.studies import angles_moves as moves
from axlewright.studies.angles_axle import (
    CASES,
    Carried,
    axle_numbers,
    carried,
    pulls,
    told_of,
    windup_rise,
)
from axlewright.studies.angles_fill import Filled, Number, Numbers
from axlewright.studies.angles_line import Line, line_of
from axlewright.studies.angles_linkage import Axle, axle_of
from axlewright.studies.angles_moves import State
from axlewright.studies.angles_shaft import (
    joint_numbers,
    life_numbers,
    top_shaft_speed,
    whirl_numbers,
)
from axlewright.studies.angles_trace import solved
from axlewright.suspension.pose import Pose, ride_height, solve_pose
from axlewright.vehicle.gearing import driveshaft_speed

_NOW, _SET = "As it is", "As it should be"
_OVERDRIVE = 0.995


@dataclass(frozen=True)
class Asked:
    """What decides which way the numbers are worked out: the same for every filling."""

    kind: str
    rise_measured: bool
    window: tuple[float, float] | None = None
    """Between which slopes at rest every limit is kept, if there is any such setting."""


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


def found(x: Filled, asked: Asked) -> Found:
    """Everything that the readings allow."""
    line, speed = line_of(x), top_shaft_speed(x)
    axle = axle_of(x, asked.kind)
    pose = ride_height(axle.linkage) if axle is not None else None
    forces = carried(x, axle, pose) if axle is not None and pose is not None else {}
    numbers = _measured(x, line)
    rise, more = _rise(x, asked, forces.get("launch"))
    numbers |= more
    states = _states(x, line, axle, rise, asked, numbers)
    for state in states:
        numbers |= _of_state(x, state)
    numbers |= _length(x, line, states)
    numbers |= whirl_numbers(x, line.length, speed)
    pulled_state = next((s for s in states if s.key == "set_loaded"), None)
    numbers |= joint_numbers(x, pulled_state)
    if pulled_state is not None:
        numbers |= life_numbers(x, pulled_state)
    numbers |= axle_numbers(x, pose)
    if pose is not None:
        numbers |= _pulls(x, pose, forces)
    return Found(numbers, line, tuple(states), axle, pose, forces, speed)


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


def _rise(x: Filled, asked: Asked, launch: Carried | None) -> tuple[Num, Numbers]:
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
    rise = by_stiffness if launch is not None and not asked.rise_measured else stated
    return rise, made | {"rise": Number("Rise of the nose reckoned with", "angle", rise)}


def _states(
    x: Filled, line: Line, axle: Axle | None, rise: Num, asked: Asked, numbers: Numbers
) -> list[State]:
    """States of the driveline; none as long as a slope is missing."""
    if line.gearbox is None or line.pinion is None or line.shaft is None:
        return []
    how = pulling(x, rise)
    now = moves.at_rest(line, how.top, how.phase)
    static = pinion_setting.static_pinion(line.gearbox.side, rise)
    numbers["static_pull"] = Number(
        "Pinion at rest if full pull in first gear were all that counts", "angle", static
    )
    if asked.window is not None:
        static = pinion_turn.setting_kept(static, *pinion_turn.aim_between(*asked.window))
    turn = pinion_turn.pinion_turn(static, line.pinion.side)
    rest = moves.turned(line, now, "set", f"{_SET}, coasting", turn, how.top, how.phase)
    a = x.fitting.angles
    numbers |= {
        "rise_fast": Number("Rise of the nose at full pull in direct gear", "angle", how.fast),
        "wanted": Number("Pinion in line with the gearbox under full pull", "angle",
                         line.gearbox.side),
        "static": Number("Pinion at rest, as it should be", "angle", rest.pinion.side),
        "turn": Number("How far to turn the nose up; minus is down", "angle", turn),
        "gauge": Number(
            "Gauge on the pinion, on this floor, as it should be", "angle",
            pinion_setting.gauge_shows(rest.pinion.side, a.floor, a.gauge_zero),
        ),
        "off_shaft": Number(
            "Pinion against the driveshaft, as it should be", "angle",
            pinion_setting.pinion_to_shaft(rest.pinion.side, rest.shaft.side),
        ),
        "gauge_shaft": Number(
            "Gauge on the driveshaft then", "angle",
            pinion_setting.gauge_shows(rest.shaft.side, a.floor, a.gauge_zero),
        ),
    }  # fmt: skip
    return [
        now, *pulled(line, now, "now", _NOW, how), rest, *pulled(line, rest, "set", _SET, how),
        *_travelled(x, line, axle, rest, how),
    ]  # fmt: skip


@dataclass(frozen=True)
class Pulling:
    """How far the nose rises, and how fast the shaft turns then."""

    rise: Num
    fast: Num
    top: Num
    first: Num
    phase: Num


def pulling(x: Filled, rise: Num) -> Pulling:
    """Full pull in first gear and in direct gear: torque, rise and speed of the shaft."""
    first = x.pull.torques["ring"]
    direct = direct_gear(x)
    fast = pinion_setting.rise_at(rise, x.demand.gears[direct - 1].torques["ring"], first)
    slow = driveshaft_speed(x.machine.engine.rev_limit, x.machine.gearbox.ratios[0])
    return Pulling(rise, fast, top_shaft_speed(x), slow, x.fitting.angles.phase)


def direct_gear(x: Filled) -> int:
    """The gear that turns the shaft fastest without overdrive: the last that is not below one."""
    ratios = [float(np.median(r)) for r in x.machine.gearbox.ratios]
    return max([n for n, r in enumerate(ratios, start=1) if r > _OVERDRIVE], default=1)


def pulled(line: Line, rest: State, key: str, title: str, how: Pulling) -> list[State]:
    """A setting under full pull, in first gear and in direct gear."""
    return [
        moves.turned(line, rest, f"{key}_loaded", f"{title}, full pull in first gear", how.rise,
                     how.first, how.phase),
        moves.turned(line, rest, f"{key}_fast", f"{title}, full pull in direct gear", how.fast,
                     how.top, how.phase),
    ]  # fmt: skip


def _travelled(x: Filled, line: Line, axle: Axle | None, rest: State, how: Pulling) -> list[State]:
    """Full bump and full droop as it should be set, where the travel was measured."""
    car = x.fitting.car
    made = []
    for key, title, travel in (
        ("bump", f"{_SET}, full bump", car.bump),
        ("droop", f"{_SET}, full droop", None if car.droop is None else downward(car.droop)),
    ):
        if travel is None:
            continue
        if axle is None:
            made.append(moves.lifted(line, rest, key, title, travel, how.top, how.phase))
        else:
            pose = solve_pose(axle.linkage, travel, travel)
            made.append(moves.posed(line, rest, key, title, pose, how.top, how.phase))
    return made


def _of_state(x: Filled, s: State) -> Numbers:
    """Angles and shakes of a state."""
    key, at = s.key, s.title[:1].lower() + s.title[1:]
    fronts, rears = s.motion.inertia_accelerations
    return {
        f"{key}_pinion": Number(f"Pinion, {at}", "angle", s.pinion.side),
        f"{key}_shaft": Number(f"Driveshaft, {at}", "angle", s.shaft.side),
        f"{key}_front": Number(f"Working angle of the front joint, {at}", "angle", s.front_angle),
        f"{key}_rear": Number(f"Working angle of the rear joint, {at}", "angle", s.rear_angle),
        f"{key}_apart": Number(
            f"Difference of both working angles, {at}", "angle",
            pinion_turn.ends_apart(s.front_angle, s.rear_angle),
        ),
        f"{key}_front_inertia": Number(
            f"Front joint winds the shaft with, {at}", "angular acceleration", fronts
        ),
        f"{key}_rear_inertia": Number(
            f"Rear joint winds the shaft with, {at}", "angular acceleration", rears
        ),
        f"{key}_inertia": Number(
            f"Hardest joint, of its limit, {at}", "ratio",
            joint_directions.share_of_shake_limit(s.hardest, x.assumed.inertia_limit),
        ),
        f"{key}_left_over": Number(
            f"Both joints leave over, {at}", "angular acceleration", s.motion.left_over
        ),
        f"{key}_smooth": Number(
            f"What is left over, of its limit, {at}", "ratio",
            joint_directions.share_of_shake_limit(s.motion.left_over, x.assumed.smooth_limit),
        ),
        f"{key}_length": Number(f"Joint center to joint center, {at}", "length", s.length),
    }  # fmt: skip


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
