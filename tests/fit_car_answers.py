"""What the program answers of an invented car: build text from readings, answers with their bands."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np

from axlewright.build.reader import read_build
from axlewright.build.resolve import Resolved, resolve
from axlewright.fit.room import inner_from_face, lip_from_face
from axlewright.fit.side_plan import RoomThere, plan_side
from axlewright.fit.wheel import rim_over_lips
from axlewright.mechanics.joint_directions import angle_between
from axlewright.quantities.estimate import Plain
from axlewright.quantities.finding import band
from axlewright.quantities.formula import Num
from axlewright.quantities.sampling import Samples
from axlewright.studies.angles_fill import Filled, filled, kind_of
from axlewright.studies.angles_line import line_of
from axlewright.studies.angles_linkage import axle_of
from axlewright.suspension.pose import solve_pose
from axlewright.suspension.reach import pinion_angle, sideways
from reference_fit_cars import INNER, OUTER, Car
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
        f'inner_clearance = "{INNER} in"',
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


def answers(build: Resolved, seed: int, moving: bool = True) -> dict[str, Answer]:
    """Every answer that truths and motion of the reference know, with its band."""
    kind = kind_of(build) if moving else ""
    nominal = _numbers(filled(build, Plain()), kind)
    sampled = _numbers(filled(build, Samples(seed, COUNT)), kind)
    found = {}
    for name, value in nominal.items():
        samples = np.asarray(sampled[name])
        low, high = band(samples, float(value))
        found[name] = Answer(float(value), low, high, float(samples.min()), float(samples.max()))
    return found


def _numbers(x: Filled, kind: str) -> dict[str, Num]:
    """Answers in inches and degrees."""
    fit, angles = x.fitting, line_of(x)
    lengths = {
        "left shaft": fit.centre.left_shaft,
        "right shaft": fit.centre.right_shaft,
        "new axle, bare to bare": fit.centre.bare_to_bare,
        "new axle, face to face": fit.centre.face_to_face,
        "old axle, face to face": fit.car.face_to_face,
        "old axle, bare to bare": fit.car.bare_to_bare,
        "old housing, end to end": fit.car.end_to_end,
        "width for the new wheels": _width(x),
        "driveshaft, joint to joint": angles.length,
        "wheel offset": fit.wheel.offset,
    }
    parts = (angles.gearbox, angles.shaft, angles.pinion)
    joints = [
        angle_between(a.side, a.plan, b.side, b.plan)
        for a, b in itertools.pairwise(parts)
    ]
    turned = dict(
        zip(("gearbox slope", "driveshaft slope", "pinion slope"), (p.side for p in parts),
            strict=True)
    ) | {"front joint": joints[0], "rear joint": joints[1]}  # fmt: skip
    return (
        {n: v / IN for n, v in lengths.items()}
        | {n: v / DEG for n, v in turned.items()}
        | (_motion(x, kind) if kind else {})
    )


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


def _width(x: Filled) -> Num:
    """Both halves that share the surplus evenly, from the middle between the body's datums."""
    fit, wheel = x.fitting, x.fitting.wheel
    total = 0.0
    for side in (fit.left, fit.right):
        half = 0.5 * fit.car.rail_to_rail + side.rail
        room = RoomThere(
            lip_from_face(half, side.lip), inner_from_face(half, side.inner),
            fit.car.outer_clearance, fit.car.inner_clearance,
        )  # fmt: skip
        over = rim_over_lips(wheel.rim_width, wheel.lip_width)
        total = total + plan_side(room, wheel.section, over, wheel.offset).half
    return total
