"""The end of the housing as a chain of dimensions: pocket, bearing, retainer, brake, hat, wheel.

Everything is measured along the axle from the face of the housing end, outward above zero; both
sides of a car are two stacks.  A bearing that is held by a retainer plate wants a little play with
some axles and a little crush with others: the aim belongs to the axle at hand and is given, never
assumed.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_STACK = "lengths along the axle added up (closed form)"
_ACROSS = "half the difference of two diameters (closed form)"


@formula("g_b", "length", source=_STACK)
def bearing_gap(
    bearing_pocket: Num,
    backing_plate: Num,
    end_gasket: Num,
    retainer_lip: Num,
    wheel_bearing_width: Num,
    bearing_shim: Num,
) -> Num:
    """End play of the bearing under its retainer; below zero it is crushed by as much.

    A shim under the retainer adds play, one beside the bearing takes it away.
    """
    clamped = bearing_pocket + backing_plate + end_gasket
    return clamped - retainer_lip - wheel_bearing_width - bearing_shim


@formula("t_s", "length", source=_STACK)
def spacer_for_bracket(old_plate_thickness: Num, bracket_thickness: Num) -> Num:
    """Spacer that a brake bracket needs where a thicker drum plate was; below zero it is thicker.

    Without it the retainer clamps the bearing as much harder.  The bolts grow by a thicker stack.
    """
    return old_plate_thickness - bracket_thickness


@formula("s_b", "length", source=_STACK)
def brake_space_of_shaft(
    bearing_to_flange: Num, wheel_bearing_width: Num, bearing_pocket: Num
) -> Num:
    """Brake space: face of the housing end to face of the wheel flange, bearing home in its pocket.

    Measured on the shaft and the end alone, to hold against the same space measured together.
    """
    return bearing_to_flange + wheel_bearing_width - bearing_pocket


@formula("Δ_s", "length", source="difference of two lengths (closed form)")
def space_difference(brake_space: Num, reckoned_space: Num) -> Num:
    """Brake space as measured less the one of shaft and pocket: other than zero, one is wrong."""
    return brake_space - reckoned_space


@formula("e_r", "length", source=_STACK)
def rotor_off_center(brake_space: Num, rotor_offset: Num, caliper_out: Num) -> Num:
    """How far the disc runs outside the middle of its caliper; below zero inside.

    ``rotor_offset`` runs from the hat's mounting face in to the middle of the disc, ``caliper_out``
    from the housing end to the middle of the caliper's slot, bracket bolted on.
    """
    return brake_space - rotor_offset - caliper_out


@formula("g_r", "length", source=_STACK)
def rotor_side_room(caliper_slot: Num, rotor_thickness: Num, rotor_off: Num) -> Num:
    """Room between disc and caliper on the tighter side, where the disc runs."""
    result: Num = 0.5 * (caliper_slot - rotor_thickness) - np.abs(rotor_off)
    return result


@formula("g_d", "length", source=_STACK)
def drum_edge_gap(brake_space: Num, drum_depth: Num, drum_plate_face: Num) -> Num:
    """Gap from the open edge of the drum to its backing plate; below zero it rubs.

    ``drum_depth`` runs from the drum's mounting face in to its edge, ``drum_plate_face`` from the
    housing end to the face of the plate beside the edge.
    """
    return brake_space - drum_depth - drum_plate_face


@formula("g_c", "length", source="difference of two radii (closed form)")
def caliper_under_rim(rim_inside_radius: Num, caliper_outer_radius: Num) -> Num:
    """Room between the caliper and the barrel of the rim; below zero the wheel does not go on.

    Take the least inside radius over the width of the caliper, balance weights counted in.
    """
    return rim_inside_radius - caliper_outer_radius


@formula("g_s", "length", source=_STACK)
def caliper_behind_spokes(
    brake_space: Num, wheel_hat: Num, wheel_spacer: Num, spoke_standoff: Num, caliper_face: Num
) -> Num:
    """Room between the caliper and the back of the spokes; below zero the wheel does not go on.

    The standoff runs from the wheel's mounting face out to the back of the spokes where the
    caliper passes, ``caliper_face`` from the housing end to the caliper's outer face.
    """
    return brake_space + wheel_hat + wheel_spacer + spoke_standoff - caliper_face


@formula("g_f", "length", source=_ACROSS)
def flange_in_hat(hat_inside: Num, flange_outside: Num) -> Num:
    """Gap around the wheel flange inside hat or drum; below zero the flange must be turned down."""
    return 0.5 * (hat_inside - flange_outside)


@formula("g_h", "length", source="tool against hole on one line (closed form)")
def access_room(
    access_hole: Num, access_hole_radius: Num, socket_outside: Num, retainer_bolt_radius: Num
) -> Num:
    """Room around a socket that goes through the flange to a retainer nut; below zero it will not.

    Radii are distances from the middle of the axle.  Hat or drum need the hole in the same place,
    or go on afterward.
    """
    aside = np.abs(access_hole_radius - retainer_bolt_radius)
    result: Num = 0.5 * (access_hole - socket_outside) - aside
    return result


@formula("r_b", "length", source="half the diagonal of the bolts (closed form)")
def radius_of_retainer_bolts(bolts_across: Num, bolts_up: Num) -> Num:
    """Retainer bolts from the middle of the axle, four of them in a rectangle."""
    result: Num = 0.5 * np.sqrt(bolts_across * bolts_across + bolts_up * bolts_up)
    return result


@formula("l_r", "length", source=_STACK)
def retainer_bolt_spare(
    retainer_bolt_length: Num,
    end_flange_thickness: Num,
    backing_plate: Num,
    end_gasket: Num,
    retainer_thickness: Num,
    retainer_nut: Num,
) -> Num:
    """Thread that shows beyond the nut of a retainer bolt; below zero the bolt is too short."""
    clamped = end_flange_thickness + backing_plate + end_gasket + retainer_thickness
    return retainer_bolt_length - clamped - retainer_nut
