"""Resolving what holds the axle together: case, caps, tubes and brackets."""

from __future__ import annotations

from axlewright.build.machine import (
    Case,
    Held,
    Housing,
)
from axlewright.build.resolve import measured_axle
from axlewright.build.resolve.ledger import MEMORY, PRACTICE, Ledger, derived, mixture
from axlewright.build.resolve.parts import bolts, keeps, ring_gear_row, steel
from axlewright.build.resolve.ties import read_or
from axlewright.catalogue import rows
from axlewright.mechanics.sizes import scaled_length
from axlewright.quantities.estimate import Estimate, Leaf, Limits, Scatter
from axlewright.quantities.solved import untraced
from axlewright.quantities.units import Reading

_REACTION = {
    "leaf": "0.5 to 0.6",
    "coil-link": "0.5 to 0.6",
    "four-link": "0.5 to 0.6",
    "ladder bars": "0.5 to 0.6",
    "three-link": "0.2 to 0.5",
    "torque arm": "0.02 to 0.15",
}
"""A torque arm or a link on the centre takes torque that the tubes would carry otherwise."""
_HOUSING_STEEL = "DOM 1020"


def case(book: Ledger) -> Case[Leaf]:
    """Case iron, caps and their bolts; an unknown iron is a mixture."""
    row = ring_gear_row(book)
    kinds = book.kinds("axle.case_iron", row.irons)
    irons = [book.shelf.find(rows.Iron, k, ("axle", "case_iron")) for k in kinds.kinds]

    def mixed(field: str) -> Leaf:
        options: list[Leaf] = []
        for k, iron in zip(kinds.kinds, irons, strict=True):
            stand_in = field if getattr(iron, field) is not None else "tensile_strength"
            options.append(book.row(iron, stand_in, f"axle.case.{field}.{k}", advice=kinds.advice))
        return mixture(kinds, f"axle.case.{field}", options)

    def brittle(k: str, iron: rows.Iron) -> Leaf:
        return book.exact(
            f"axle.case.brittle.{k}",
            float(iron.brittle),
            "ratio",
            iron.source,
            "One if the iron is judged as brittle.",
        )

    def size(field: str) -> Leaf:
        return book.row(row, field, f"axle.case.{field}", advice="Measure the case.")

    scatter = max(i.scatter.value if i.scatter else 0.08 for i in irons)
    return Case(
        carrier=book.stated("axle.carrier") or row.carrier,
        iron=" or ".join(kinds.kinds),
        brittle=mixture(
            kinds,
            "axle.case.brittle",
            [brittle(k, i) for k, i in zip(kinds.kinds, irons, strict=True)],
        ),
        tensile_strength=mixed("tensile_strength"),
        compressive_strength=mixed("compressive_strength"),
        yield_strength=mixed("yield_strength"),
        strength_factor=Estimate(
            "axle.case.strength_factor",
            1.0,
            "ratio",
            Scatter(scatter),
            "catalogue",
            irons[kinds.likeliest].source,
            means="Scatter of the iron's strength from casting to casting.",
        ),
        cap_bridge_share=book.assumed(
            "axle.case.cap_bridge_share",
            "0.05 to 0.25",
            "ratio",
            "judged: more would break caps that are known to hold; common practice, no source",
            "Share of a free bridge's bending that a cap round a bearing sees.",
        ),
        no_stress=book.exact(
            "axle.case.no_stress", 0.0, "stress", "a bridge is not pressed", "No stress."
        ),
        casting_notch=book.assumed(
            "axle.case.notch",
            "1.5 to 2.5",
            "ratio",
            MEMORY,
            "Stress at a rib foot or bore edge over the plain stress.",
        ),
        bearing_span=size("carrier_bearing_span"),
        ring_side_share=size("ring_side_share"),
        web_thickness=size("web_thickness"),
        web_height=size("web_height"),
        web_support=book.assumed(
            "axle.case.web_support",
            "0.15 to 0.40",
            "ratio",
            "plates held on three edges, Roark (from memory)",
            "Stress of a web held at its edges over that of a free one.",
        ),
        cap_bore=derived(
            "axle.case.cap_bore",
            scaled_length,
            length=size("cap_bolt_spacing"),
            factor=book.assumed(
                "axle.case.cap_bore_share",
                "0.76 to 0.86",
                "ratio",
                PRACTICE,
                "Carrier bearing bore over bolt spacing.",
            ),
        ),
        cap_width=size("cap_width"),
        cap_thickness=size("cap_thickness"),
        cap_bolt_spacing=size("cap_bolt_spacing"),
        cap_bolts=bolts(
            book,
            "axle.cap_bolts",
            row.cap_bolt,
            "grade 8",
            ("axle", "ring_gear"),
            book.exact("axle.cap_bolts.count", 2.0, "count", "two bolts a cap", "Bolts in a cap."),
            size("cap_bolt_spacing"),
            book.assumed(
                "axle.cap_bolt_torque",
                "55 to 85 lbf*ft",
                "torque",
                "gear-set instruction sheets: 60 to 85 lb·ft by size",
                "Tightening torque of the cap bolts.",
            ),
            keeps(book, "caps"),
        ),
        joint_share=book.assumed(
            "axle.cap_bolts.joint_share",
            "0.15 to 0.30",
            "ratio",
            "Shigley, joint constant of stiff members (from memory)",
            "Share of an outside pull that a cap bolt feels.",
        ),
        keeps=keeps(book, "case"),
        caps_keep=keeps(book, "caps"),
    )


def housing(book: Ledger) -> Housing[Leaf]:
    """Axle tubes, their joint to the centre, and the brackets on them."""
    row = ring_gear_row(book)
    tube = book.quantity(
        "axle.tube_diameter",
        book.row(row, "tube_diameter", "axle.tube_diameter", advice="Caliper the axle tube."),
    )
    wall = book.quantity("axle.tube_wall", book.row(row, "tube_wall", "axle.tube_wall"))

    def given(name: str, text: str, dimension: str, because: str, means: str) -> Estimate:
        return book.assumed(f"axle.{name}", text, dimension, because, means)

    seat = read_or(book, "suspension.seat_inset", measured_axle.seat_inset)
    diameter = book.stated("axle.tube_diameter")
    outer = diameter.value if isinstance(diameter, Reading) else row.tube_diameter.value  # type: ignore[union-attr]
    return Housing(
        tube_diameter=tube,
        tube_wall=wall,
        steel=steel(book, "axle.tube.steel", _HOUSING_STEEL, ("axle",), keeps(book, "tube")),
        joint=book.choice("axle.tube_joint"),
        press=book.quantity("axle.tube_press"),
        press_friction=given(
            "tube_friction",
            "0.10 to 0.18",
            "ratio",
            "handbook range for press fits of steel in iron (from memory)",
            "Friction of tube in centre.",
        ),
        depth=book.row(row, "tube_depth", "axle.tube_depth"),
        hub_diameter=Estimate(
            "axle.hub_diameter",
            1.35 * outer,
            "length",
            Limits(1.28 * outer, 1.42 * outer),
            "assumed",
            f"1.28 to 1.42 times the tube; {PRACTICE}",
            means="Outer diameter of the cast hub round the tube.",
        ),
        centre_modulus=given(
            "centre_modulus",
            "100 to 170 GPa",
            "modulus",
            "gray to nodular iron, Shigley Table A-24 and ISO 1083",
            "Young's modulus of the centre.",
        ),
        tube_modulus=given(
            "tube_modulus",
            "205 ± 4 GPa",
            "modulus",
            "handbook value of steel",
            "Young's modulus of the tube.",
        ),
        hub_poisson=given(
            "centre_poisson",
            "0.26 ± 0.02",
            "ratio",
            "handbook value of cast iron",
            "Poisson's ratio of the centre.",
        ),
        tube_poisson=given(
            "tube_poisson",
            "0.29 ± 0.01",
            "ratio",
            "handbook value of steel",
            "Poisson's ratio of the tube.",
        ),
        plug_count=given("plug_count", "2 to 4", "count", PRACTICE, "Plug welds a tube."),
        plug_diameter=given(
            "plug_diameter", "0.45 to 0.70 in", "length", PRACTICE, "Diameter of a plug weld."
        ),
        weld_strength=given(
            "weld_strength",
            "38 to 60 ksi",
            "stress",
            "shear strength of mild weld metal, 0.6 to 0.8 of 70 ksi (from memory)",
            "Shear strength of the welds.",
        ),
        round_weld_leg=given(
            "round_weld_leg",
            "0.16 to 0.28 in",
            "length",
            PRACTICE,
            "Leg of the weld round the tube.",
        ),
        seat_inset=seat,
        reaction_share=given(
            "reaction_share",
            _REACTION[book.choice("suspension.kind")],
            "ratio",
            f"by suspension: {book.choice('suspension.kind')}; {PRACTICE}",
            "Share of the ring torque that one tube reacts.",
        ),
        bracket_weld=book.quantity("suspension.bracket_weld"),
        weld_leg=book.quantity("suspension.weld_leg"),
        joint_keeps=keeps(book, "tube_joint"),
        tube_keeps=keeps(book, "tube"),
        bracket_keeps=keeps(book, "brackets"),
        held=_held(book, seat),
    )


def _held(book: Ledger, seat: Leaf) -> Held[Leaf] | None:
    """The links that hold the axle, where they were measured."""
    if book.readings is None:
        return None
    from axlewright.build.resolve.measured_housing import held  # noqa: PLC0415 (few builds have any)

    with untraced():
        return held(book.readings, seat)
