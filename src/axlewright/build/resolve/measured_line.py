"""Length and working angle of the driveshaft, from the readings for angles; None if not taken."""

from __future__ import annotations

from typing import TYPE_CHECKING

from axlewright.build.fitting import Spot
from axlewright.build.resolve.ledger import MEMORY, derived
from axlewright.driveline import driveshaft_length, line_places, pinion_setting, pinion_turn
from axlewright.mechanics.joint_directions import angle_between
from axlewright.quantities.estimate import Leaf, Plain

if TYPE_CHECKING:
    from axlewright.build.resolve.measured import Readings


def length(x: Readings) -> Leaf | None:
    """Between the joints, from the seal, or between the points of both joints."""
    path, bottomed = "driveshaft.length", x.leaf("slip.bottomed_reach")
    between, seal = x.leaf("angles.joint_to_joint"), x.leaf("angles.seal_to_joint")
    if x.hangs or between is not None:
        return None if x.hangs else between
    if seal is not None and bottomed is not None:
        return derived(
            path,
            driveshaft_length.length_from_seal,
            seal_to_rear_center=seal,
            bottomed_reach=bottomed,
            ride_gap=x.gap,
        )
    ends = _ends(x)
    if ends is None:
        return None
    front, rear = ends
    return derived(
        path,
        driveshaft_length.joint_distance,
        front_joint_x=front.forward,
        front_joint_y=front.left,
        front_joint_z=front.up,
        rear_joint_x=rear.forward,
        rear_joint_y=rear.left,
        rear_joint_z=rear.up,
    )


def angle(x: Readings, span: Leaf) -> Leaf | None:
    """Working angle at the launch: the greater of both joints with the nose risen."""
    shaft, pinion = _shaft(x, span), x.slope("pinion")
    if x.hangs or shaft is None or pinion is None:
        return None
    line = x.line
    side, plan = _risen_shaft(x, span, shaft, pinion, line.pinion_rise)
    loaded = derived(
        "driveshaft.loaded_pinion",
        pinion_turn.turned_pinion,
        pinion_slope=pinion,
        nose_rise=line.pinion_rise,
    )
    rear = _joint("rear", (side, plan), (loaded, line.pinion_plan))
    gearbox = x.slope("gearbox")
    if gearbox is None:
        return rear
    front = _joint("front", (gearbox, line.gearbox_plan), (side, plan))
    return max(front, rear, key=lambda leaf: float(Plain().fill(leaf)))


def _joint(which: str, ahead: tuple[Leaf, Leaf], behind: tuple[Leaf, Leaf]) -> Leaf:
    return derived(
        f"driveshaft.{which}_angle",
        angle_between,
        front_side_slope=ahead[0],
        front_plan_slope=ahead[1],
        rear_side_slope=behind[0],
        rear_plan_slope=behind[1],
    )


def _shaft(x: Readings, span: Leaf) -> Leaf | None:
    """Side slope of the shaft at rest: by the gauge, by both points, by both heights."""
    by_gauge = x.slope("driveshaft")
    if by_gauge is not None:
        return by_gauge
    path, ends = "driveshaft.side_slope", _ends(x)
    if ends is not None:
        front, rear = ends
        return derived(
            path,
            line_places.slope_of_joints,
            front_joint_x=front.forward,
            front_joint_z=front.up,
            rear_joint_x=rear.forward,
            rear_joint_z=rear.up,
        )
    high, low = x.leaf("angles.gearbox_height"), x.leaf("angles.pinion_height")
    if high is None or low is None:
        return None
    return derived(
        path,
        line_places.slope_of_heights,
        front_joint_z=high,
        rear_joint_z=low,
        joint_distance=span,
    )


def _ends(x: Readings) -> tuple[Spot[Leaf], Spot[Leaf]] | None:
    """Points of the joints at gearbox and pinion."""
    names = "gearbox_joint", "pinion_joint"
    if not all(name in x.points for name in names):
        return None
    front, rear = (x.points[name] for name in names)
    return front, rear


def _plan(x: Readings, span: Leaf) -> Leaf:
    """The shaft seen from above: by points, by offsets, else nearly straight."""
    path, ends = "driveshaft.plan_slope", _ends(x)
    if ends is not None:
        front, rear = ends
        return derived(
            path,
            line_places.plan_of_joints,
            front_joint_x=front.forward,
            front_joint_y=front.left,
            rear_joint_x=rear.forward,
            rear_joint_y=rear.left,
        )
    ahead, behind = x.leaf("angles.gearbox_left"), x.leaf("angles.pinion_left")
    if ahead is None or behind is None:
        return x.book.assumed(
            path, "-1 to 1 deg", "angle", MEMORY, "Driveshaft seen from above.",
            "State angles.gearbox_left and angles.pinion_left.",
        )  # fmt: skip
    return derived(
        path,
        line_places.plan_of_offsets,
        front_joint_y=ahead,
        rear_joint_y=behind,
        joint_distance=span,
    )


def _nose(x: Readings) -> Leaf:
    """Axle line forward to the joint at the pinion."""
    measured, joint = x.leaf("centre.nose"), x.points.get("pinion_joint")
    if measured is not None:
        return measured
    if joint is not None:
        return joint.forward
    return x.book.assumed(
        "driveshaft.nose", "10 to 14 in", "length", MEMORY,
        "Axle line forward to the center of the joint at the pinion.", "State centre.nose.",
    )  # fmt: skip


def _risen_shaft(
    x: Readings, span: Leaf, side: Leaf, pinion: Leaf, rise: Leaf
) -> tuple[Leaf, Leaf]:
    """Slopes of the shaft once the nose has risen and taken the rear joint with it."""
    plan, zero = _plan(x, span), x.book.exact(
        "driveshaft.rear_joint", 0.0, "length", "counted from there", "Rear joint at rest."
    )  # fmt: skip
    run = derived(
        "driveshaft.run",
        line_places.run_of_shaft,
        joint_distance=span,
        shaft_side_slope=side,
        shaft_plan_slope=plan,
    )
    nose = {"nose_length": _nose(x), "static_slope": pinion, "nose_rise": rise}
    ahead = derived(
        "driveshaft.front_ahead", line_places.front_joint_ahead, rear_joint_x=zero, end_run=run
    )
    back = derived("driveshaft.joint_advance", pinion_setting.joint_advance, **nose)
    risen_side = derived(
        "driveshaft.risen_side",
        line_places.slope_of_joints,
        front_joint_x=ahead,
        front_joint_z=derived(
            "driveshaft.front_up",
            line_places.front_joint_up,
            rear_joint_z=zero,
            end_run=run,
            shaft_side_slope=side,
        ),
        rear_joint_x=back,
        rear_joint_z=derived("driveshaft.joint_rise", pinion_setting.joint_rise, **nose),
    )
    risen_plan = derived(
        "driveshaft.risen_plan",
        line_places.plan_of_joints,
        front_joint_x=ahead,
        front_joint_y=derived(
            "driveshaft.front_left",
            line_places.front_joint_left,
            rear_joint_y=zero,
            end_run=run,
            shaft_plan_slope=plan,
        ),
        rear_joint_x=back,
        rear_joint_y=zero,
    )
    return risen_side, risen_plan
