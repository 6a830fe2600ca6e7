"""Resolving the new wheel and tire: stated, or what the tire's size says."""

from __future__ import annotations

from axlewright.build.fitting import WheelSizes
from axlewright.build.machine import Machine
from axlewright.build.resolve.fit_readings import Notebook
from axlewright.build.resolve.ledger import MEMORY, PRACTICE, derived
from axlewright.fit.tire_section import theoretical_rim, tread_of_section
from axlewright.fit.wheel import backspace_from_offset, offset_from_backspace
from axlewright.measuring.shares import share_of_length
from axlewright.quantities.estimate import Leaf
from axlewright.vehicle.tire import free_diameter

_RIM_SHARES = {True: "0.68 to 0.77", False: "0.83 to 0.92"}
"""Measuring rim over section: tall tires, and low ones."""
_TALL = 0.5


def wheel(notes: Notebook, m: Machine[Leaf]) -> WheelSizes[Leaf]:
    """The wheel; backspace and offset each from the other."""
    width, lip = notes.leaf("wheel.rim_width"), notes.sure("wheel.lip_width")
    backspace, offset = _either(notes, width, lip)
    section = notes.sure("wheel.section", m.tires.section_width)
    diameter = notes.sure("wheel.diameter", _diameter(m))
    return WheelSizes(
        rim_width=width,
        rim_diameter=notes.sure("wheel.rim_diameter", m.tires.rim_diameter),
        backspace=backspace,
        offset=offset,
        lip_width=lip,
        pad_thickness=notes.leaf("wheel.pad_thickness"),
        hub_bore=notes.leaf("wheel.hub_bore"),
        section=section,
        measuring_rim=notes.sure("wheel.measuring_rim", _measuring_rim(notes, m)),
        loaded_bulge=notes.sure("wheel.loaded_bulge"),
        diameter=diameter,
        lip_height=notes.sure("wheel.lip_height"),
        tread_width=notes.sure("wheel.tread_width", _tread(notes, section)),
        loaded_radius=notes.sure("wheel.loaded_radius", _loaded(notes, diameter)),
        inner_radius=notes.leaf("wheel.inner_radius"),
        spoke_back=notes.leaf("wheel.spoke_back"),
        growth=notes.sure("wheel.growth"),
        backspaces=_choices(notes, "wheel.backspaces"),
        rim_widths=_choices(notes, "wheel.rim_widths"),
        tires=tuple(notes.book.stated("wheel.tires") or ()),
    )


def offset_of(notes: Notebook) -> Leaf | None:
    """Offset of the new wheel: stated, or from its backspace."""
    return _either(notes, notes.leaf("wheel.rim_width"), notes.sure("wheel.lip_width"))[1]


def _either(notes: Notebook, width: Leaf | None, lip: Leaf) -> tuple[Leaf | None, Leaf | None]:
    """Backspace and offset, the missing one worked out where the rim's width is known."""
    backspace, offset = notes.leaf("wheel.backspace"), notes.leaf("wheel.offset")
    if width is None or (backspace is None) == (offset is None):
        return backspace, offset
    if backspace is not None:
        from_it = derived(
            "wheel.offset",
            offset_from_backspace,
            backspace=backspace,
            rim_width=width,
            rim_lip=lip,
        )
        return backspace, from_it
    from_it = derived(
        "wheel.backspace",
        backspace_from_offset,
        wheel_offset=offset,
        rim_width=width,
        rim_lip=lip,
    )
    return from_it, offset


def _tread(notes: Notebook, section: Leaf) -> Leaf:
    share = _share(notes, "tread_width", "72 to 84 %", PRACTICE)
    return derived("wheel.tread_width", tread_of_section, section_width=section, tread_share=share)


def _loaded(notes: Notebook, diameter: Leaf) -> Leaf:
    share = _share(notes, "loaded_radius", "46 to 48.5 %", MEMORY)
    return derived(
        "wheel.loaded_radius", share_of_length, whole_length=diameter, length_share=share
    )


def _share(notes: Notebook, name: str, text: str, because: str) -> Leaf:
    """A usual share of another size, where nobody measured this one."""
    meta, _ = notes.book.meta(f"wheel.{name}")
    return notes.book.assumed(
        f"wheel.{name}_share", text, "ratio", because, meta.means, meta.advice
    )


def _diameter(m: Machine[Leaf]) -> Leaf:
    return derived(
        "wheels.tire.free_diameter",
        free_diameter,
        section_width=m.tires.section_width,
        aspect_ratio=m.tires.aspect_ratio,
        rim_diameter=m.tires.rim_diameter,
    )


def _measuring_rim(notes: Notebook, m: Machine[Leaf]) -> Leaf:
    share = _share(notes, "measuring_rim", _RIM_SHARES[_is_tall(m)], MEMORY)
    return derived(
        "wheel.measuring_rim",
        theoretical_rim,
        section_width=m.tires.section_width,
        theoretical_rim_share=share,
    )


def _is_tall(m: Machine[Leaf]) -> bool:
    ratio = m.tires.aspect_ratio
    return not hasattr(ratio, "value") or ratio.value >= _TALL


def _choices(notes: Notebook, path: str) -> tuple[Leaf, ...]:
    """Sizes that can be had: exact, for they are nominal."""
    means = notes.book.meta(path)[0].means
    return tuple(
        notes.book.exact(f"{path}.{n}", r.value, r.dimension, "the build file", means)
        for n, r in enumerate(notes.book.stated(path) or (), start=1)
    )
