"""What a little more of each dimension costs in room: the table to read before anything is cut."""

from __future__ import annotations

from dataclasses import dataclass, replace

from axlewright.fit import room, tire_section, wheel
from axlewright.quantities.formula import Num


@dataclass(frozen=True)
class Setup:
    """One side as it is planned, in m."""

    fit_half: Num
    backspace: Num
    rim_width: Num
    rim_lip: Num
    measured_section: Num
    measuring_rim: Num
    lip_position: Num
    inner_position: Num

    @property
    def offset(self) -> Num:
        """Offset of the wheel."""
        return wheel.offset_from_backspace(self.backspace, self.rim_width, self.rim_lip)

    @property
    def clearances(self) -> tuple[Num, Num]:
        """Outer and inner clearance."""
        section = tire_section.section_on_rim(
            self.measured_section, self.rim_width, self.measuring_rim
        )
        over_lips = wheel.rim_over_lips(self.rim_width, self.rim_lip)
        out = wheel.outboard_reach(section, over_lips, self.offset)
        inside = wheel.inboard_reach(section, over_lips, self.offset)
        return (
            room.outer_clearance(self.lip_position, self.fit_half, out),
            room.inner_clearance(self.fit_half, inside, self.inner_position),
        )


@dataclass(frozen=True)
class Change:
    """What one step of one dimension does; above zero is more room."""

    what: str
    outer: Num
    inner: Num


def changes(setup: Setup, step: Num) -> tuple[Change, ...]:
    """What one step more of each dimension does to the clearance outside and inside."""
    wider_rim = replace(setup, rim_width=setup.rim_width + step)
    same_offset = replace(
        wider_rim,
        backspace=wheel.backspace_from_offset(setup.offset, wider_rim.rim_width, setup.rim_lip),
    )
    tries = (
        ("this side of the axle longer", replace(setup, fit_half=setup.fit_half + step)),
        ("more backspace", replace(setup, backspace=setup.backspace + step)),
        ("rim wider at the same backspace", wider_rim),
        ("rim wider at the same offset", same_offset),
        ("tire wider", replace(setup, measured_section=setup.measured_section + step)),
        ("spacer of that thickness", replace(setup, backspace=setup.backspace - step)),
    )
    outer, inner = setup.clearances
    return tuple(
        Change(what, other.clearances[0] - outer, other.clearances[1] - inner)
        for what, other in tries
    )
