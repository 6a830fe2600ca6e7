"""A tire on its rim, from what is told or measured of it: as it runs, and as it stands."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.fit import tire_section, wheel
from axlewright.fit.envelope import Tire
from axlewright.quantities.formula import Num


@dataclass(frozen=True)
class TireFacts:
    """What is known of a tire, SI.  A tire measured on the very rim states that rim as measured."""

    measured_section: Num
    measuring_rim: Num
    free_radius: Num
    loaded_radius: Num
    tread_width: Num
    rim_lip_radius: Num
    width_allowance: Num = 0.0
    """How much wider it may be made than told; nothing if it was measured itself."""
    growth_share: Num = 0.0
    """Growth of the radius seen at ``growth_speed``; nothing for a radial tire."""
    growth_speed: Num = 1.0
    top_speed: Num = 0.0


@dataclass(frozen=True)
class Mounted:
    """A mounted tire."""

    section: Num
    """On this rim, not loaded."""
    offset: Num
    running: Tire
    """At its widest and grown."""
    standing: Tire
    """Over the contact patch."""


def mount(facts: TireFacts, rim_width: Num, rim_lip: Num, backspace: Num) -> Mounted:
    """Put a tire on a rim."""
    on_rim = tire_section.section_on_rim(facts.measured_section, rim_width, facts.measuring_rim)
    section = tire_section.widest_section(on_rim, facts.width_allowance)
    offset = wheel.offset_from_backspace(backspace, rim_width, rim_lip)
    over_lips = wheel.rim_over_lips(rim_width, rim_lip)
    grown = tire_section.grown_radius(
        facts.free_radius, facts.growth_share, facts.top_speed, facts.growth_speed
    )
    bulge = tire_section.sidewall_bulge(section, rim_width, facts.tread_width)
    loaded = tire_section.loaded_bulge(
        tire_section.sidewall_height(facts.free_radius, facts.rim_lip_radius),
        bulge,
        tire_section.tire_deflection(facts.free_radius, facts.loaded_radius),
    )
    wide = tire_section.loaded_section(section, bulge, loaded)
    tread, lip = facts.tread_width, facts.rim_lip_radius
    return Mounted(
        on_rim,
        offset,
        Tire(section, over_lips, offset, grown, tread, lip),
        Tire(wide, over_lips, offset, facts.free_radius, tread, lip),
    )
