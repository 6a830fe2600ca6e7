"""Tube in center, tubes and bracket welds under the forces of the real links."""

from __future__ import annotations

from axlewright.driveline import link_shares
from axlewright.mechanics import tubes
from axlewright.mechanics.beams import resultant_moment
from axlewright.mechanics.combined import von_mises
from axlewright.quantities.formula import Num
from axlewright.studies.demand import Loads
from axlewright.studies.links.held import LEVEL, TWIST, UPRIGHT, Holding

_NOTE = "By the forces of links and springs at the places that were measured."


def note(x: Holding) -> str:
    """How this was worked out, and which links the tubes do not carry."""
    if not x.on_center:
        return _NOTE
    return f"{_NOTE} Taken to sit on the center, not on a tube: {', '.join(x.on_center)}."


def tube_twists(x: Holding) -> dict[str, Num]:
    """Torque of the tube that is twisted hardest where it enters the center, by case."""
    return {
        load.case: link_shares.twist_either_way(x.moment(x.most_twisted(load), TWIST, load))
        for load in x.d.cases
        if load.torques or load.case == "brake"
    }


def tube_stresses(x: Holding) -> dict[str, Num]:
    """Equivalent stress where a tube is stressed hardest, by case."""
    h = x.m.housing
    section = tubes.tube_section_modulus(h.tube_diameter, h.tube_wall)
    polar = tubes.tube_polar_moment(h.tube_diameter, h.tube_wall)

    def stress(load: Loads) -> Num:
        cut = x.worst_cut(load)
        bent = resultant_moment(x.moment(cut, UPRIGHT, load), x.moment(cut, LEVEL, load))
        twist = x.moment(cut, TWIST, load)
        return von_mises(
            tubes.bending_stress(bent, section),
            tubes.torsion_stress(twist, h.tube_diameter, polar),
        )

    return {load.case: stress(load) for load in x.d.cases}


def weld_torques(x: Holding) -> dict[str, Num]:
    """What shears the welds of the hardest loaded bracket, as a torque about the tube, by case."""

    def torque(load: Loads) -> Num:
        moments, forces = x.worst_bracket(load)
        fore, across, up = (x.force(forces, axis, load) for axis in range(3))
        return link_shares.weld_turning(
            x.moment(moments, TWIST, load),
            link_shares.bracket_force(fore, across, up),
            x.m.housing.tube_diameter,
        )

    return {load.case: torque(load) for load in x.d.cases if load.case != "bump"}
