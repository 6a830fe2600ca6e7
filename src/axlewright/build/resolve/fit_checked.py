"""Readings held against each other where nothing is to be settled: angles, points, the middle."""

from __future__ import annotations

import math
from collections.abc import Iterator

from axlewright.build.resolve.fit_readings import Notebook
from axlewright.build.resolve.fit_settled import uncertainty
from axlewright.build.resolve.fit_words import checked
from axlewright.measuring.network import Relation, adjust
from axlewright.measuring.relations import TWICE, rising_nose, tube_slope
from axlewright.measuring.suspects import judge
from axlewright.quantities.estimate import Estimate
from axlewright.quantities.units import show

Readings = dict[str, tuple[float, float]]
_OFF_MIDDLE = 0.003  # an eighth of an inch, which no tire notices
_LEANS = 0.00635  # a quarter of an inch, as level as cars stand
_ASSUMED = {"angles.floor", "angles.gauge_zero"}
"""What is taken with its default where nobody measured it."""
_AXES = {"forward": 0, "left": 1, "up": 2}


def check(notes: Notebook) -> None:
    """Everything that is checked and left as it was read."""
    _nose(notes)
    _tube(notes)
    for relation in TWICE:
        _check(notes, "read in two places", relation)
    _travel(notes)
    _middle(notes)
    _level(notes)
    _in_line(notes)


def _nose(notes: Notebook) -> None:
    _check(notes, "angles", rising_nose())


def _tube(notes: Notebook) -> None:
    """Slope of the tube against the heights of its joints."""
    known = dict(_readings(notes, tube_slope(0.0, 1.0)))
    length = known.get("angles.joint_to_joint")
    if length is None or "angles.driveshaft" not in known:
        return
    signs = {"angles.driveshaft": 1.0, "angles.gauge_zero": 1.0, "angles.floor": -1.0}
    slope = sum(sign * known[name][0] for name, sign in signs.items())
    _check(notes, "angles", tube_slope(slope, length[0]))


def _check(notes: Notebook, title: str, relation: Relation) -> None:
    """One sum, if all of it was read."""
    known = dict(_readings(notes, relation))
    if set(known) != set(relation.shares):
        return
    adjusted = adjust(known, (relation,))
    verdict = judge(adjusted)
    notes.note(checked(title, known, (relation,), verdict, adjusted.freedom, ()))


def _readings(notes: Notebook, relation: Relation) -> Iterator[tuple[str, tuple[float, float]]]:
    for name in relation.shares:
        leaf = _one(notes, name)
        if leaf is not None:
            yield name, (leaf.value, uncertainty(leaf))


def _one(notes: Notebook, name: str) -> Estimate | None:
    """A reading, or one coordinate of a point."""
    key, _, axis = name.rpartition(".")
    if not key.startswith("points."):
        return notes.single(name, assumed=name in _ASSUMED)
    said = notes.book.stated(key)
    return notes.place(key, axis, said[_AXES[axis]]) if said is not None else None


def _travel(notes: Notebook) -> None:
    """The way until the stop is flat cannot be shorter than that until it touches."""
    bump, gap = notes.single("fit.bump"), notes.single("fit.stop_gap")
    if bump is None or gap is None:
        return
    spread = math.hypot(uncertainty(bump), uncertainty(gap))
    if gap.value - bump.value > 2.0 * spread:
        notes.book.cautions.append(
            f"fit.bump: {bump.text} up to the stop pressed flat is less than the {gap.text} until"
            " it touches (fit.stop_gap); take both again"
        )


def _middle(notes: Notebook) -> None:
    """Whether the old axle, from which everything is measured, sits in the middle of the body."""
    left, right = notes.single("fit.left.rail"), notes.single("fit.right.rail")
    if left is None or right is None:
        return
    off = 0.5 * (left.value - right.value)
    spread = 0.5 * math.hypot(uncertainty(left), uncertainty(right))
    if abs(off) > max(_OFF_MIDDLE, 2.0 * spread):
        way = "left" if off > 0.0 else "right"
        notes.book.cautions.append(
            f"fit.left.rail, fit.right.rail: the old axle sits {show(abs(off), 'length')} to the"
            f" {way} of the body's middle; all that is measured from its wheel faces is off by as"
            " much, one side more and one side less"
        )


def _level(notes: Notebook) -> None:
    """Whether the body stands level across: a sagged spring moves lips sideways as well."""
    left, right = notes.single("fit.left.lip_height"), notes.single("fit.right.lip_height")
    if left is None or right is None:
        return
    lower = right.value - left.value
    spread = math.hypot(uncertainty(left), uncertainty(right))
    if abs(lower) > max(_LEANS, 2.0 * spread):
        way = "left" if lower > 0.0 else "right"
        notes.book.cautions.append(
            "fit.left.lip_height, fit.right.lip_height: the body hangs"
            f" {show(abs(lower), 'length')} lower on the {way}: a sagged spring or a bent fender."
            " What was measured holds for the car as it stood; level it first if the spring is to"
            " be mended"
        )


def _in_line(notes: Notebook) -> None:
    """Whether both wheel centers lie on one line square to the car."""
    left = _one(notes, "points.wheel_center.forward")
    right = _one(notes, "points.right_wheel_center.forward")
    if left is None or right is None:
        return
    ahead = left.value - right.value
    spread = math.hypot(uncertainty(left), uncertainty(right))
    if abs(ahead) > max(_OFF_MIDDLE, 2.0 * spread):
        way = "left" if ahead > 0.0 else "right"
        notes.book.cautions.append(
            f"points.wheel_center, points.right_wheel_center: the {way} wheel center lies"
            f" {show(abs(ahead), 'length')} ahead of the other: the housing is bent or the axle"
            " stands askew; have the bare housing held against a straight bar before it is used"
        )
