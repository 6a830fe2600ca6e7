"""What several links are resolved from: kept strength, steels, splines, bolts."""

from __future__ import annotations

from dataclasses import replace

from axlewright.build.machine import (
    BoltGroup,
    Spline,
    Steel,
)
from axlewright.build.resolve.ledger import PRACTICE, Ledger, derived
from axlewright.catalogue import rows
from axlewright.mechanics.wear import kept_together
from axlewright.quantities.estimate import EXACT, Estimate, Leaf, Scatter

_CONDITION = {"new": "1", "used": "0.93 to 1", "tired": "0.75 to 1"}


def keeps(book: Ledger, link: str) -> Leaf:
    """Share of strength that a link of the axle has kept, by condition and by what was found."""
    condition = book.choice("axle.condition")
    share: Leaf = book.assumed(
        f"axle.kept.{link}",
        _CONDITION[condition],
        "ratio",
        f"axle in {condition} condition; {PRACTICE}",
        f"Share of strength that the {link.replace('_', ' ')} kept.",
        "Inspect it: see `axlewright recognise`.",
    )
    for name in book.stated("axle.found") or ():
        row = book.shelf.find(rows.Finding, name, ("axle", "found"))
        if row.link == link:
            found = book.row(row, "keeps", f"axle.found.{name}")
            share = derived(
                f"axle.kept.{link}.{name}",
                kept_together,
                kept_share=share,
                further_kept_share=found,
            )
    return share


def piece_scatter(row: rows.Steel, path: str) -> Estimate:
    """Scatter of a steel's strength from piece to piece, one at the nominal."""
    scatter = row.scatter.value if row.scatter else 0.06
    return Estimate(
        f"{path}.strength_factor",
        1.0,
        "ratio",
        Scatter(scatter),
        "catalogue",
        row.source,
        means="Scatter of strength from piece to piece.",
    )


def steel(book: Ledger, path: str, name: str, key: tuple[str, ...], kept: Leaf) -> Steel[Leaf]:
    """A catalogue steel as used at one place, with its own scatter."""
    row = book.shelf.find(rows.Steel, name, key)
    hardened = row.treatment in {"induction", "carburized"}
    factor = piece_scatter(row, path)

    def leaf(field: str) -> Leaf:
        return book.row(row, field, f"{path}.{field}", advice="Have its hardness tested.")

    return Steel(
        name=name,
        treatment=row.treatment,
        yield_strength=leaf("yield_strength"),
        tensile_strength=leaf("tensile_strength"),
        surface_hardness=leaf("surface_hardness") if hardened else None,
        case_depth_share=leaf("case_depth_share") if hardened else None,
        fatigue_coefficient=leaf("fatigue_coefficient") if row.fatigue_coefficient else None,
        fatigue_exponent=replace(
            book.row(row, "fatigue_exponent", f"{path}.fatigue_exponent"), spread=EXACT
        )
        if row.fatigue_exponent
        else None,
        strength_factor=factor,
        keeps=kept,
    )


def spline(
    book: Ledger, path: str, name: str, key: tuple[str, ...], engagement: Leaf
) -> Spline[Leaf]:
    """A spline size as used at one place."""
    row = book.shelf.find(rows.Spline, name, key)
    return Spline(
        name=name,
        root_form=row.root,
        teeth=book.row(row, "teeth", f"{path}.teeth", advice="Count the teeth."),
        pitch=book.row(row, "pitch", f"{path}.pitch"),
        engagement=engagement,
        misalignment=book.assumed(
            f"{path}.misalignment",
            "0.000 to 0.004 in",
            "length",
            PRACTICE,
            "Misalignment along the spline.",
        ),
        share_of_teeth=book.assumed(
            f"{path}.share_of_teeth",
            "0.5 to 0.8",
            "ratio",
            "Machinery's Handbook: half of the teeth; more as they yield (from memory)",
            "Share of the teeth that carry in shear.",
        ),
        seated_teeth=book.exact(
            f"{path}.seated_teeth",
            1.0,
            "ratio",
            "Machinery's Handbook: all teeth, in bearing (from memory)",
            "Share of the teeth that carry in bearing.",
        ),
    )


def ring_gear_row(book: Ledger) -> rows.RingGear:
    """The ring-gear class of the build."""
    return book.shelf.find(rows.RingGear, book.build.axle.ring_gear, ("axle", "ring_gear"))


def bolts(
    book: Ledger,
    path: str,
    size: str,
    grade: str,
    key: tuple[str, ...],
    count: Leaf,
    circle: Leaf,
    torque: Leaf,
    kept: Leaf,
    friction: Leaf | None = None,
) -> BoltGroup[Leaf]:
    """A group of bolts or studs."""
    thread = book.shelf.find(rows.BoltSize, size, key)
    strength = book.shelf.find(rows.BoltGrade, grade, key)
    return BoltGroup(
        size=size,
        metric=thread.metric,
        count=count,
        diameter=book.row(thread, "diameter", f"{path}.diameter"),
        threads=book.row(thread, "threads", f"{path}.threads"),
        circle=circle,
        tightening_torque=torque,
        nut_factor=book.assumed(
            f"{path}.nut_factor",
            "0.14 to 0.24",
            "ratio",
            "Shigley, Table 8-15: 0.12 to 0.30 by lubrication and plating",
            "Nut factor: tightening torque over preload and diameter.",
        ),
        friction=friction
        or book.assumed(
            f"{path}.friction",
            "0.10 to 0.20",
            "ratio",
            "handbook range for clamped steel faces (from memory)",
            "Friction between the clamped faces.",
        ),
        tensile_strength=book.row(strength, "tensile_strength", f"{path}.tensile_strength", 0.04),
        keeps=kept,
    )
