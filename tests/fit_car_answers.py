"""What the program answers of an invented car: build text from readings, answers with bands."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np

from axlewright.build.reader import read_build
from axlewright.build.resolve import Resolved, resolve
from axlewright.driveline.pinion_setting import static_pinion
from axlewright.mechanics.joint_directions import angle_between
from axlewright.quantities.estimate import Plain
from axlewright.quantities.finding import band
from axlewright.quantities.formula import Num
from axlewright.quantities.sampling import Samples
from axlewright.studies.angles_fill import Filled, filled, kind_of
from axlewright.studies.angles_line import line_of
from axlewright.studies.angles_linkage import axle_of
from axlewright.studies.fit import meets_bulge
from axlewright.studies.fit_fill import Filled as Fit
from axlewright.studies.fit_fill import fill
from axlewright.studies.fit_known import Lack
from axlewright.studies.fit_look import Look, Plan, look_across
from axlewright.studies.fit_order import dimensions
from axlewright.suspension.pose import solve_pose
from axlewright.suspension.reach import pinion_angle, sideways
from reference_fit_cars import INNER, MOVING, OUTER, SHIFT, Car
from reference_fit_motion import HEAVE
from reference_measurer import Written, as_text

IN, DEG = 0.0254, np.pi / 180.0
COUNT = 400
_KINDS = {
    "triangulated": "four-link", "parallel": "four-link", "three-link": "three-link",
    "torque arm": "torque arm", "ladder bars": "ladder bars", "leaf": "leaf",
}  # fmt: skip


@dataclass(frozen=True)
class Answer:
    """Nominal value and the band that a finding prints (5 to 95 %); inches or degrees."""

    value: float
    low: float
    high: float
    least: float
    """The farthest samples: as good as the shop's limits."""
    most: float

    def holds(self, truth: float) -> bool:
        return self.low <= truth <= self.high

    def holds_in_limits(self, truth: float) -> bool:
        return self.least <= truth <= self.most

    @property
    def half(self) -> float:
        return 0.5 * (self.high - self.low)


def build_text(car: Car, sheet: Written, care: str = "careful") -> str:
    """The build file that this car's owner writes."""
    links = car.kind.split(",", maxsplit=1)[0]
    fit = [
        "[fit]", f'care = "{care}"', f'outer_clearance = "{OUTER} in"',
        f'inner_clearance = "{INNER} in"', f'moving_clearance = "{MOVING} in"',
        f'lateral_shift = "{SHIFT} in"',
    ]  # fmt: skip
    if car.bare_datum:
        fit.append('old_face = "bare"')
    head = [
        "format = 1", "[gearbox]", 'kind = "manual"', "[axle]", 'ring_gear = "8.5"',
        "[suspension]", f'kind = "{_KINDS[links]}"',
    ]  # fmt: skip
    bushes = '"8 kN/mm"'
    head += ["[bushes]", *(f"{w}_stiffness = {bushes}" for w in ("lower", "upper", "lateral"))]
    body = as_text(sheet).replace("[fit]", "\n".join(fit), 1)
    if not car.symmetric:
        body = body.replace("[points]", "[points]\nsymmetric = false", 1)
    return "\n".join([*head, body, ""])


def resolved(car: Car, sheet: Written, care: str = "careful") -> Resolved:
    """What the program makes of the readings."""
    return resolve(read_build(build_text(car, sheet, care)))


@dataclass(frozen=True)
class Worked:
    """All answers of one car, and the width over the faces that was chosen for the order."""

    answers: dict[str, Answer]
    chosen: float


def worked(plan: Resolved, bench: Resolved, seed: int, moving: bool = True) -> Worked:
    """First what is to be ordered, before there is an axle; then with the housing on the bench."""
    plain, drawn = fill(plan, Plain()), fill(plan, Samples(seed, COUNT))
    look = look_across(plain, meets_bulge(plain), Plan())
    chosen = float(look.width)
    then = look_across(drawn, meets_bulge(plain), Plan(chosen))
    found = _answers(_order(plain, look), _order(drawn, then), _PLANNED, IN)
    plain, drawn = fill(bench, Plain()), fill(bench, Samples(seed, COUNT))
    low = meets_bulge(plain)
    look, then = look_across(plain, low, Plan()), look_across(drawn, low, Plan())
    found |= _answers(_order(plain, look), _order(drawn, then), _ON_BENCH, IN)
    here, there = filled(bench, Plain()), filled(bench, Samples(seed, COUNT))
    found |= _answers(_lengths(here), _lengths(there), {}, IN)
    found |= _answers(_angles(here), _angles(there), {}, DEG)
    kind = kind_of(bench) if moving else ""
    if kind:
        found |= _answers(_motion(here, kind), _motion(there, kind), {}, 1.0)
    return Worked(found, chosen / IN)


def before_there_is_an_axle(sheet: Written) -> Written:
    """What is known when the width is chosen: the room, the wheel, the parts of the ends."""
    left_out = {"centre.end_to_end", "centre.left_half", "centre.right_half"}
    rooms = ("fit.", "wheel.", "ends.", "centre.")
    return {k: v for k, v in sheet.items() if k.startswith(rooms) and k not in left_out}


_PLANNED = {
    "fit_width": "width to order", "shaft_left": "left shaft, planned",
    "shaft_right": "right shaft, planned",
}  # fmt: skip
_ON_BENCH = {
    "fit_width": "new axle, face to face", "order_width": "new axle, bare to bare",
    "shaft_left": "left shaft", "shaft_right": "right shaft",
    "housing_left": "left half of the housing", "housing_right": "right half of the housing",
    "pinion_left": "left pinion half", "pinion_right": "right pinion half",
    "brake_space_left": "left brake space", "brake_space_right": "right brake space",
    "offset": "wheel offset", "backspace": "wheel backspace",
}  # fmt: skip


def _answers(
    nominal: dict[str, Num], drawn: dict[str, Num], renamed: dict[str, str], unit: float
) -> dict[str, Answer]:
    found = {}
    for key, value in nominal.items():
        if renamed and key not in renamed:
            continue
        samples = np.asarray(drawn[key], dtype=np.float64) / unit
        here = float(value) / unit
        low, high = band(samples, here)
        found[renamed.get(key, key)] = Answer(
            here, low, high, float(samples.min()), float(samples.max())
        )
    return found


def _order(x: Fit, look: Look) -> dict[str, Num]:
    """Lines of the order sheet that are known; the width to order with the room's own band."""
    found = {d.key: d.value for d in dimensions(x, look) if not isinstance(d.value, Lack)}
    return found | {"fit_width": look.best}


def _lengths(x: Filled) -> dict[str, Num]:
    fit = x.fitting
    return {
        "old axle, face to face": fit.car.face_to_face,
        "old axle, bare to bare": fit.car.bare_to_bare,
        "old housing, end to end": fit.car.end_to_end,
        "left shaft, by the sums": fit.centre.left_shaft,
        "right shaft, by the sums": fit.centre.right_shaft,
        "driveshaft, joint to joint": line_of(x).length,
    }


def _angles(x: Filled) -> dict[str, Num]:
    line = line_of(x)
    parts = (line.gearbox, line.shaft, line.pinion)
    joints = [angle_between(a.side, a.plan, b.side, b.plan) for a, b in itertools.pairwise(parts)]
    names = ("gearbox slope", "driveshaft slope", "pinion slope")
    return dict(zip(names, (p.side for p in parts), strict=True)) | {
        "front joint": joints[0],
        "rear joint": joints[1],
        "pinion at rest, in line under pull": static_pinion(
            line.gearbox.side, x.fitting.angles.pinion_rise
        ),
    }


def _motion(x: Filled, kind: str) -> dict[str, Num]:
    """What travel does to pinion and axle."""
    axle = axle_of(x, kind)
    assert axle is not None
    rest = solve_pose(axle.linkage, 0.0, 0.0)
    found = {}
    for word, travel in (("bump", HEAVE * IN), ("droop", -HEAVE * IN)):
        pose = solve_pose(axle.linkage, travel, travel)
        found[f"pinion change, {word}"] = (pinion_angle(pose) - pinion_angle(rest)) / DEG
        if kind != "leaf":
            found[f"sideways, {word}"] = sideways(pose) / IN
    return found
