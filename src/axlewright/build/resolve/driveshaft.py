"""Resolving the driveshaft: tube, slip spline and joints."""

from __future__ import annotations

from axlewright.build.machine import (
    Driveshaft,
    UniversalJoint,
)
from axlewright.build.resolve import measured_line
from axlewright.build.resolve.ledger import PRACTICE, Ledger
from axlewright.build.resolve.parts import piece_scatter, spline, steel
from axlewright.build.resolve.ties import read_or
from axlewright.catalogue import rows
from axlewright.quantities.estimate import Leaf

_SLIP_STEEL = "factory induction carbon"
_TUBE_STEEL = "DOM 1020"
_SLIP_SPLINE = "27x24"


def driveshaft(book: Ledger) -> Driveshaft[Leaf]:
    """Tube, slip spline and joints."""
    tube = book.stated("driveshaft.tube_steel") or _TUBE_STEEL
    light = tube.startswith("aluminum")
    new: Leaf = book.exact("driveshaft.kept", 1.0, "ratio", PRACTICE, "Strength that it kept.")
    slip = book.stated("gearbox.output_spline") or _SLIP_SPLINE
    joint_name = book.stated("driveshaft.joint") or str(book.meta("driveshaft.joint")[0].default)
    joint = book.shelf.find(rows.UniversalJoint, joint_name, ("driveshaft", "joint"))
    cross = book.shelf.find(rows.Steel, joint.steel, ("driveshaft", "joint"))
    where = "driveshaft.joint"

    length = read_or(book, "driveshaft.length", measured_line.length)

    def size(field: str) -> Leaf:
        return book.row(joint, field, f"{where}.{field}", advice="Caliper the joint.")

    return Driveshaft(
        tube_diameter=book.quantity("driveshaft.tube_diameter"),
        tube_wall=book.quantity("driveshaft.tube_wall"),
        length=length,
        youngs_modulus=book.assumed(
            "driveshaft.youngs_modulus",
            "205 ± 4 GPa" if not light else "69 ± 1 GPa",
            "modulus",
            "handbook value of the tube's metal",
            "Young's modulus of the tube.",
        ),
        density=book.assumed(
            "driveshaft.density",
            "7850 ± 20 kg/m^3" if not light else "2700 ± 20 kg/m^3",
            "density",
            "handbook value of the tube's metal",
            "Density of the tube.",
        ),
        critical_share=book.assumed(
            "driveshaft.critical_share",
            "0.65 to 0.75",
            "ratio",
            "a joint maker's sizing page: 0.7 for cars (secondary)",
            "Share of the first critical speed that is safe to run.",
        ),
        steel=steel(
            book,
            "driveshaft.tube",
            tube,
            ("driveshaft", "tube_steel"),
            new,
        ),
        slip=spline(
            book,
            "gearbox.output",
            slip,
            ("gearbox", "output_spline"),
            book.assumed(
                "gearbox.output.engagement",
                "2.0 to 3.5 in",
                "length",
                PRACTICE,
                "Length of spline in the slip yoke.",
            ),
        ),
        slip_steel=steel(book, "gearbox.output.steel", _SLIP_STEEL, ("gearbox",), new),
        joint=UniversalJoint(
            name=joint_name,
            cap_span=size("span"),
            trunnion_diameter=size("trunnion_diameter"),
            trunnion_bore=size("trunnion_bore"),
            needle_diameter=size("needle_diameter"),
            needle_length=size("needle_length"),
            needles=size("needles"),
            needle_gap=book.assumed(
                f"{where}.needle_gap",
                "0.03 to 0.10 in",
                "length",
                PRACTICE,
                "Needle end to trunnion root.",
            ),
            surface_hardness=book.row(
                cross, "surface_hardness", f"{where}.surface_hardness", advice="Have it tested."
            ),
            strength_factor=piece_scatter(cross, where),
            keeps=new,
        ),
        joint_angle=read_or(book, "driveshaft.angle", lambda x: measured_line.angle(x, length)),
    )
