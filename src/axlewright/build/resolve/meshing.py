"""The gear pair in its bearings from a build, beside the machine that it belongs to."""

from __future__ import annotations

from axlewright.build.machine import Machine
from axlewright.build.meshing import Iron, Meshing, Pattern, Setting
from axlewright.build.model import Build
from axlewright.build.resolve import launch_engine
from axlewright.build.resolve.launch_train import backlash
from axlewright.build.resolve.ledger import MEMORY, Ledger, derived, mixture
from axlewright.build.resolve.mesh_holding import holding
from axlewright.build.resolve.parts import ring_gear_row
from axlewright.catalogue import rows
from axlewright.hypoid.setting import rated_ring_torque
from axlewright.hypoid.unloaded import FILM
from axlewright.quantities.estimate import Leaf


def meshing(build: Build, m: Machine[Leaf]) -> Meshing[Leaf]:
    """What the gear study reads beyond the machine; leaves that both have are shared."""
    book = Ledger(build)
    return Meshing(
        tapered=book.choice("gears.depth") == "tapered",
        pattern=_pattern(book),
        setting=Setting(
            backlash=backlash(book),
            shim_at=book.choice("gears.pinion_shim_at"),
            pinion_shim=book.quantity("gears.pinion_shim"),
            ring_shim=book.quantity("gears.ring_shim"),
            depth_error=book.quantity("gears.depth_error"),
        ),
        holding=holding(book, m),
        iron=_iron(book, m),
        rated_torque=_rated_torque(book, m),
        motored_torque=launch_engine.curve(book, m).motored_torque,
        cautions=tuple(dict.fromkeys(book.cautions)),
    )


def _pattern(book: Ledger) -> Pattern[Leaf]:
    return Pattern(
        length=book.quantity("gears.pattern_length"),
        place=book.quantity("gears.pattern_place"),
        height=book.quantity("gears.pattern_height"),
        profile_crown=book.quantity("gears.profile_crown"),
        film=book.exact(
            "gears.film",
            FILM,
            "length",
            f"0.00025 in of marking compound ({MEMORY})",
            "Thickness of marking compound.",
        ),
    )


def _iron(book: Ledger, m: Machine[Leaf]) -> Iron[Leaf]:
    """Case form and metal; an unknown iron is a mixture, drawn as for the case's strength."""
    kinds = book.kinds("axle.case_iron", ring_gear_row(book).irons)
    irons = [book.shelf.find(rows.Iron, kind, ("axle", "case_iron")) for kind in kinds.kinds]
    options: list[Leaf] = [
        book.row(iron, "youngs_modulus", f"gears.case_modulus.{kind}", advice=kinds.advice)
        for kind, iron in zip(kinds.kinds, irons, strict=True)
    ]
    return Iron(
        form=m.case.carrier,
        metal=_metal(kinds.kinds[kinds.likeliest], irons[kinds.likeliest]),
        stiffness=book.quantity("gears.case_stiffness"),
        modulus=mixture(kinds, "gears.case_modulus", options),
        billet_caps=book.choice("gears.caps") == "billet",
        loaded_cover=book.choice("gears.cover") == "load-carrying",
    )


def _metal(name: str, row: rows.Iron) -> str:
    """Kind of a case metal by what it does: light ones grow most, brittle ones are gray iron."""
    if name.startswith("aluminum"):
        return "aluminum"
    return "gray" if row.brittle else "nodular"


def _rated_torque(book: Ledger, m: Machine[Leaf]) -> Leaf:
    by_size = derived(
        "gears.rated_torque",
        rated_ring_torque,
        ring_diameter=m.gears.ring_diameter,
        size_coefficient=book.assumed(
            "gears.size_coefficient",
            "13 to 16",
            "ratio",
            f"handbook proportion of street axles, in mm and N·m ({MEMORY})",
            "Ring diameter over the cube root of the torque that it is rated for.",
        ),
    )
    return book.quantity("gears.rated_torque", by_size)
