"""The states of the driveline: as it is and as it should be, coasting, pulling, at the stops."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.driveline import pinion_setting, pinion_turn
from axlewright.driveline.line_places import downward
from axlewright.mechanics import joint_directions
from axlewright.quantities.formula import Num
from axlewright.studies import angles_moves as moves
from axlewright.studies.angles_fill import Filled, Number, Numbers
from axlewright.studies.angles_line import Line
from axlewright.studies.angles_linkage import Axle
from axlewright.studies.angles_moves import State
from axlewright.studies.angles_shaft import top_shaft_speed
from axlewright.suspension.pose import solve_pose
from axlewright.vehicle.gearing import driveshaft_speed

_NOW, _SET = "As it is", "As it should be"
_OVERDRIVE = 0.995


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


def states_of(
    x: Filled,
    line: Line,
    axle: Axle | None,
    how: Pulling,
    window: tuple[float, float] | None,
    numbers: Numbers,
) -> list[State]:
    """States of the driveline; none as long as a slope is missing."""
    if line.gearbox is None or line.pinion is None or line.shaft is None:
        return []
    now = moves.at_rest(line, how.top, how.phase)
    static = pinion_setting.static_pinion(line.gearbox.side, how.rise)
    numbers["static_pull"] = Number(
        "Pinion at rest if full pull in first gear were all that counts", "angle", static
    )
    if window is not None:
        static = pinion_turn.setting_kept(static, *pinion_turn.aim_between(*window))
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


def state_numbers(x: Filled, s: State) -> Numbers:
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
