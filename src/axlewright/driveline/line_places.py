"""Where both joint centers of a driveshaft are, and how it lies between them.

Places are in the car's axes: forward of the axle line, left of the center plane, up from the
ground.  Slopes have the one sign of the driveline: + when the front end is the higher one, or the
one further left.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_LINE = "straight line between two points, closed form"
_RUN = "direction (1, tan p, tan s) of a straight line, closed form"
_MOVED = "place and movement added, closed form"


@formula("s_s", "angle", source=_LINE)
def slope_of_joints(
    front_joint_x: Num, front_joint_z: Num, rear_joint_x: Num, rear_joint_z: Num
) -> Num:
    """Side slope of a driveshaft from where its two joint centers are."""
    result: Num = np.arctan2(front_joint_z - rear_joint_z, front_joint_x - rear_joint_x)
    return result


@formula("p_s", "angle", source=_LINE)
def plan_of_joints(
    front_joint_x: Num, front_joint_y: Num, rear_joint_x: Num, rear_joint_y: Num
) -> Num:
    """Plan slope of a driveshaft from where its two joint centers are."""
    result: Num = np.arctan2(front_joint_y - rear_joint_y, front_joint_x - rear_joint_x)
    return result


@formula("s_s", "angle", source="height over the length of a straight line, closed form")
def slope_of_heights(front_joint_z: Num, rear_joint_z: Num, joint_distance: Num) -> Num:
    """Side slope of a driveshaft from the heights of its ends; upright where they contradict it.

    Exact for a shaft that lies straight in the car; one that slants by 5 degrees in plan is 0.4 %
    of the slope off.
    """
    share = (front_joint_z - rear_joint_z) / joint_distance
    result: Num = np.arcsin(np.minimum(np.maximum(share, -1.0), 1.0))
    return result


@formula("p_s", "angle", source="offset over the length of a straight line, closed form")
def plan_of_offsets(front_joint_y: Num, rear_joint_y: Num, joint_distance: Num) -> Num:
    """Plan slope of a driveshaft from how far left its ends are; square where they contradict it.

    Exact for a shaft that lies level; one that slopes by 5 degrees is 0.4 % of the slope off.
    """
    share = (front_joint_y - rear_joint_y) / joint_distance
    result: Num = np.arcsin(np.minimum(np.maximum(share, -1.0), 1.0))
    return result


@formula("l_x", "length", source=_RUN)
def run_of_shaft(joint_distance: Num, shaft_side_slope: Num, shaft_plan_slope: Num) -> Num:
    """How far along the car a shaft of this length reaches."""
    result: Num = joint_distance / np.sqrt(
        1.0 + np.tan(shaft_side_slope) ** 2 + np.tan(shaft_plan_slope) ** 2
    )
    return result


@formula("x_1", "length", source=_MOVED)
def front_joint_ahead(rear_joint_x: Num, end_run: Num) -> Num:
    """Front joint center forward of the axle line."""
    return rear_joint_x + end_run


@formula("y_1", "length", source=_RUN)
def front_joint_left(rear_joint_y: Num, end_run: Num, shaft_plan_slope: Num) -> Num:
    """Front joint center left of the center plane."""
    result: Num = rear_joint_y + end_run * np.tan(shaft_plan_slope)
    return result


@formula("z_1", "length", source=_RUN)
def front_joint_up(rear_joint_z: Num, end_run: Num, shaft_side_slope: Num) -> Num:
    """Front joint center up from the ground."""
    result: Num = rear_joint_z + end_run * np.tan(shaft_side_slope)
    return result


@formula("x_2", "length", source=_MOVED)
def rear_joint_moved_ahead(rear_joint_x: Num, joint_advance: Num) -> Num:
    """Rear joint center forward of the axle line after the nose has turned."""
    return rear_joint_x + joint_advance


@formula("z_2", "length", source=_MOVED)
def rear_joint_moved_up(rear_joint_z: Num, joint_rise: Num) -> Num:
    """Rear joint center above ground after the nose, or the whole axle, has come up."""
    return rear_joint_z + joint_rise


@formula("z_w", "length", source="the same way the other way round, definition")
def downward(wheel_droop: Num) -> Num:
    """Travel of a wheel counted upward, from its droop."""
    return -wheel_droop
