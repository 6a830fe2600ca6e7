"""Resolving what carries: driveshaft, gear set, bolts, differential, shafts, wheel ends, housing."""

from __future__ import annotations

import math
from dataclasses import replace

from axlewright.build.machine import (
    AxleShaft,
    BoltGroup,
    Case,
    Differential,
    Driveshaft,
    GearSet,
    Housing,
    Pinion,
    Spline,
    Steel,
    UniversalJoint,
    WheelEnd,
)
from axlewright.build.resolve.ledger import MEMORY, PRACTICE, Ledger, derived, mixture
from axlewright.build.sizes import read_studs, read_teeth
from axlewright.catalogue import rows
from axlewright.hypoid.rating import CONTACT_CONSTANT
from axlewright.hypoid.teeth import tooth_ratio
from axlewright.mechanics.sizes import scaled_length
from axlewright.mechanics.wear import kept_together
from axlewright.quantities.estimate import EXACT, Estimate, Leaf, Limits, Scatter
from axlewright.quantities.units import Reading

_CONDITION = {"new": "1", "used": "0.93 to 1", "tired": "0.75 to 1"}
_DEFAULT_RATIO = "3.42 ± 0.35"
_PINION_STEEL = "pinion carburized 8620"
_CROSS_STEEL = "carburized cross"
_SLIP_STEEL = "factory induction carbon"
_TUBE_STEEL = "DOM 1020"
_HOUSING_STEEL = "DOM 1020"
_SLIP_SPLINE = "27x24"


def keeps(book: Ledger, link: str) -> Leaf:
    """Share of strength that a link of the axle has kept, by condition and by what was found."""
    condition = book.choice("axle.condition")
    share: Leaf = book.assumed(
        f"axle.kept.{link}", _CONDITION[condition], "ratio",
        f"axle in {condition} condition; {PRACTICE}", f"Share of strength that the {link.replace('_', ' ')} kept.",
        "Inspect it: see `axlewright recognise`.",
    )  # fmt: skip
    for name in book.stated("axle.found") or ():
        row = book.shelf.find(rows.Finding, name, ("axle", "found"))
        if row.link == link:
            found = book.row(row, "keeps", f"axle.found.{name}")
            share = derived(f"axle.kept.{link}.{name}", kept_together,
                            kept_share=share, further_kept_share=found)  # fmt: skip
    return share


def steel(book: Ledger, path: str, name: str, key: tuple[str, ...], kept: Leaf) -> Steel[Leaf]:
    """A catalogue steel as used at one place, with its own scatter."""
    row = book.shelf.find(rows.Steel, name, key)
    scatter = row.scatter.value if row.scatter else 0.06
    hardened = row.treatment in {"induction", "carburized"}
    factor = Estimate(f"{path}.strength_factor", 1.0, "ratio", Scatter(scatter), "catalogue",
                      row.source, means=f"Scatter of strength from piece to piece ({row.means})")  # fmt: skip

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
        misalignment=book.assumed(f"{path}.misalignment", "0.000 to 0.004 in", "length", PRACTICE,
                                  "Misalignment along the spline."),
        share_of_teeth=book.assumed(f"{path}.share_of_teeth", "0.5 to 0.8", "ratio",
                                    "Machinery's Handbook: half of the teeth; more as they yield"
                                    " (from memory)", "Share of the teeth that carry in shear."),
        seated_teeth=book.exact(f"{path}.seated_teeth", 1.0, "ratio",
                                "Machinery's Handbook: all teeth, in bearing (from memory)",
                                "Share of the teeth that carry in bearing."),
    )  # fmt: skip


def driveshaft(book: Ledger) -> Driveshaft[Leaf]:
    """Tube, slip spline and joints."""
    new: Leaf = book.exact("driveshaft.kept", 1.0, "ratio", PRACTICE, "Strength that it kept.")
    slip = book.stated("gearbox.output_spline") or _SLIP_SPLINE
    joint_name = book.stated("driveshaft.joint") or str(book.meta("driveshaft.joint")[0].default)
    joint = book.shelf.find(rows.UniversalJoint, joint_name, ("driveshaft", "joint"))
    where = "driveshaft.joint"

    def size(field: str) -> Leaf:
        return book.row(joint, field, f"{where}.{field}", advice="Caliper the joint.")

    return Driveshaft(
        tube_diameter=book.quantity("driveshaft.tube_diameter"),
        tube_wall=book.quantity("driveshaft.tube_wall"),
        length=book.quantity("driveshaft.length"),
        steel=steel(book, "driveshaft.tube", book.stated("driveshaft.tube_steel") or _TUBE_STEEL,
                    ("driveshaft", "tube_steel"), new),
        slip=spline(book, "gearbox.output", slip, ("gearbox", "output_spline"),
                    book.assumed("gearbox.output.engagement", "2.0 to 3.5 in", "length", PRACTICE,
                                 "Length of spline in the slip yoke.")),
        slip_steel=steel(book, "gearbox.output.steel", _SLIP_STEEL, ("gearbox",), new),
        joint=UniversalJoint(
            name=joint_name,
            cap_span=size("span"),
            trunnion_diameter=size("trunnion_diameter"),
            trunnion_bore=size("trunnion_bore"),
            needle_diameter=size("needle_diameter"),
            needle_length=size("needle_length"),
            needles=size("needles"),
            needle_gap=book.assumed(f"{where}.needle_gap", "0.03 to 0.10 in", "length", PRACTICE,
                                    "Needle end to trunnion root."),
            steel=steel(book, f"{where}.steel", joint.steel, ("driveshaft", "joint"), new),
        ),
        joint_angle=book.quantity("driveshaft.angle"),
    )  # fmt: skip


def ring_gear_row(book: Ledger) -> rows.RingGear:
    """The ring-gear class of the build."""
    return book.shelf.find(rows.RingGear, book.build.axle.ring_gear, ("axle", "ring_gear"))


def gears(book: Ledger) -> GearSet[Leaf]:
    """Ring and pinion."""
    row = ring_gear_row(book)

    def size(field: str) -> Leaf:
        return book.row(row, field, f"axle.gears.{field}", advice="Measure the gear set.")

    straddle = (book.stated("axle.support") or row.support) == "straddle"
    ratio, ring, pinion = _teeth(book)
    return GearSet(
        name=book.build.axle.ring_gear,
        ring_teeth=ring,
        pinion_teeth=pinion,
        ratio=ratio,
        ring_diameter=size("ring_diameter"),
        face_width=size("face_width"),
        offset=book.quantity("axle.pinion_offset", size("offset")),
        spiral_angle=size("spiral_angle"),
        cutter_radius=size("cutter_radius"),
        pressure_angle=size("pressure_angle"),
        efficiency=book.assumed("axle.efficiency", "95 to 97.5 %", "ratio",
                                "review literature: 95 to 97 % (secondary)",
                                "Share of torque that passes the axle."),
        shaft_angle=book.exact("axle.gears.shaft_angle", math.pi / 2, "angle",
                               "car axles are square", "Angle between pinion and ring axis."),
        limit_share=book.exact("axle.gears.limit_share", 1.0, "ratio",
                               "ISO 23509 default (from memory)",
                               "Share of the limit pressure angle that the design takes up."),
        profile_contact_ratio=book.assumed("axle.gears.profile_contact_ratio", "1.15 to 1.45",
                                           "ratio", MEMORY, "Teeth in contact by the profile."),
        contact_length_ratio=book.assumed("axle.gears.contact_length_ratio", "0.6 to 0.9", "ratio",
                                          MEMORY, "Length of contact line over tooth length."),
        contact_constant=book.exact("axle.gears.contact_constant", CONTACT_CONSTANT,
                                    "contact constant",
                                    "axle-gear torque method after Stokes (from memory)",
                                    "Contact constant of crowned steel gears."),
        one=book.exact("axle.gears.plain_factor", 1.0, "ratio",
                       "peaks come from the load cases, not from a factor",
                       "Overload, surface and speed factor of the method."),
        drive=book.exact("axle.gears.drive_flank", 1.0, "ratio", "drive, not coast", "Drive flank."),
        load_factor=book.assumed("axle.gears.load_factor",
                                 "1.0 to 1.1" if straddle else "1.1 to 1.25", "ratio",
                                 "axle-gear torque method after Stokes (from memory)",
                                 "Uneven load along the tooth, by pinion support."),
        peak_bending=_allowable(book, "peak_bending", "600 to 800 MPa",
                                "Root stress allowed at the greatest torque."),
        overload_reserve=book.assumed("axle.gears.overload_reserve", "2.2 to 3.4", "ratio",
                                      "ISO 6336-3 and -5: one overload breaks case-hardened teeth at"
                                      " about 2.5 times the nominal 920 MPa (from memory)",
                                      "Stress at which a tooth snaps over the stress allowed."),
        endurance_bending=_allowable(book, "endurance_bending", "190 to 240 MPa",
                                     "Root stress allowed for a long life."),
        peak_contact=_allowable(book, "peak_contact", "2500 to 3100 MPa",
                                "Flank pressure allowed at the greatest torque."),
        endurance_contact=_allowable(book, "endurance_contact", "1600 to 1900 MPa",
                                     "Flank pressure allowed for a long life."),
        keeps=keeps(book, "gear_set"),
    )  # fmt: skip


def _allowable(book: Ledger, name: str, text: str, means: str) -> Estimate:
    return book.assumed(f"axle.gears.{name}", text, "stress",
                        "axle-gear torque method after Stokes (from memory)", means)  # fmt: skip


def _teeth(book: Ledger) -> tuple[Leaf, Leaf, Leaf]:
    """Ratio and tooth counts; counts that were not given are those of a usual set."""
    said = book.stated("axle.ratio")
    meta, _ = book.meta("axle.ratio")
    if said is None:
        ratio: Leaf = book.assumed(
            "axle.ratio", _DEFAULT_RATIO, "ratio", PRACTICE, meta.means, meta.advice
        )
        pinion_count, origin = 11, PRACTICE
    else:
        teeth = read_teeth(said)
        origin = "the build file"
        if teeth.ring_teeth and teeth.pinion_teeth:
            ring: Leaf = book.exact(
                "axle.ring_teeth", teeth.ring_teeth, "count", origin, "Ring-gear teeth."
            )
            pinion: Leaf = book.exact(
                "axle.pinion_teeth", teeth.pinion_teeth, "count", origin, "Pinion teeth."
            )
            return (
                derived("axle.ratio", tooth_ratio, pinion_teeth=pinion, ring_teeth=ring),
                ring,
                pinion,
            )
        ratio = book.exact("axle.ratio", teeth.ratio, "ratio", origin, meta.means)
        pinion_count = max(8, min(15, round(41.0 / teeth.ratio)))
    nominal = ratio.value if isinstance(ratio, Estimate) else 0.0
    ring_count = round(nominal * pinion_count)
    because = f"the usual count near this ratio; {PRACTICE}"
    return (
        ratio,
        book.assumed("axle.ring_teeth", str(ring_count), "count", because, "Ring-gear teeth.",
                     "Count them, or read the tag."),
        book.assumed("axle.pinion_teeth", str(pinion_count), "count", because, "Pinion teeth.",
                     "Count them, or read the tag."),
    )  # fmt: skip


def pinion(book: Ledger) -> Pinion[Leaf]:
    """Pinion stem, spline and bearings."""
    row = ring_gear_row(book)
    engagement = book.row(row, "stem_engagement", "axle.pinion.engagement")
    return Pinion(
        stem_diameter=book.row(row, "stem_diameter", "axle.pinion.stem_diameter",
                               advice="Caliper the pinion stem."),
        spline=spline(book, "axle.pinion.spline", row.stem_spline, ("axle", "ring_gear"), engagement),
        steel=steel(book, "axle.pinion.steel", _PINION_STEEL, ("axle",), keeps(book, "pinion_stem")),
        bearing_span=book.row(row, "pinion_bearing_span", "axle.pinion.bearing_span"),
        overhang=book.row(row, "pinion_overhang", "axle.pinion.overhang"),
        support=book.stated("axle.support") or row.support,
    )  # fmt: skip


def bolts(
    book: Ledger, path: str, size: str, grade: str, key: tuple[str, ...],
    count: Leaf, circle: Leaf, torque: Leaf, kept: Leaf,
) -> BoltGroup[Leaf]:  # fmt: skip
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
        nut_factor=book.assumed(f"{path}.nut_factor", "0.14 to 0.24", "ratio",
                                "Shigley, Table 8-15: 0.12 to 0.30 by lubrication and plating",
                                "Nut factor: tightening torque over preload and diameter."),
        friction=book.assumed(f"{path}.friction", "0.10 to 0.20", "ratio",
                              "handbook range for clamped steel faces (from memory)",
                              "Friction between the clamped faces."),
        tensile_strength=book.row(strength, "tensile_strength", f"{path}.tensile_strength", 0.04),
        proof_strength=book.row(strength, "proof_strength", f"{path}.proof_strength"),
        keeps=kept,
    )  # fmt: skip


def ring_bolts(book: Ledger) -> BoltGroup[Leaf]:
    """The bolts that hold the ring gear to the differential case."""
    row = ring_gear_row(book)
    return bolts(book, "axle.ring_bolts", row.ring_bolt, "ring-gear bolt", ("axle", "ring_gear"),
                 book.row(row, "ring_bolts", "axle.ring_bolts.count"),
                 book.row(row, "ring_bolt_circle", "axle.ring_bolts.circle"),
                 book.quantity("axle.ring_bolt_torque"), keeps(book, "ring_bolts"))  # fmt: skip


def studs(book: Ledger) -> BoltGroup[Leaf]:
    """Wheel studs."""
    pattern = read_studs(book.stated("wheels.studs") or "5 x 1/2-20")
    said = book.stated("wheels.studs") is not None
    count = Estimate("wheels.studs.count", pattern.count, "count",
                     origin="stated" if said else "assumed",
                     source="the build file" if said else PRACTICE, means="Number of wheel studs.")  # fmt: skip
    return bolts(book, "wheels.studs", pattern.size, "wheel stud", ("wheels", "studs"), count,
                 book.quantity("wheels.stud_circle"), book.quantity("wheels.stud_torque"),
                 keeps(book, "studs"))  # fmt: skip


def differential(book: Ledger) -> Differential[Leaf]:
    """The differential class; an unknown one is a mixture."""
    kinds = book.kinds("axle.differential")
    found = [book.shelf.find(rows.Differential, k, ("axle", "differential")) for k in kinds.kinds]
    likeliest = found[kinds.likeliest]

    def mixed(field: str) -> Leaf:
        return mixture(kinds, f"axle.differential.{field}", [
            book.row(r, field, f"axle.differential.{field}.{k}")
            for k, r in zip(kinds.kinds, found, strict=True)
        ])  # fmt: skip

    shock = "0.50 to 0.64" if likeliest.locks else "0.50 to 0.60"
    return Differential(
        name=" or ".join(kinds.kinds),
        locks=likeliest.locks,
        bias_ratio=mixed("bias_ratio"),
        preload=mixed("preload"),
        strength_share=mixed("strength_share"),
        shock_share=book.assumed("axle.differential.shock_share", shock, "ratio", MEMORY,
                                 "Share of a shock that the harder-gripping side takes."),
        keeps=keeps(book, "differential"),
    )  # fmt: skip


def shaft(book: Ledger) -> AxleShaft[Leaf]:
    """The axle shafts."""
    name = book.stated("axle.shaft") or ring_gear_row(book).shaft
    row = book.shelf.find(rows.AxleShaft, name, ("axle", "shaft"))
    advice = book.meta("axle.shaft")[0].advice
    engagement = book.row(row, "engagement", "axle.shaft.engagement", advice=advice)
    return AxleShaft(
        name=name,
        spline=spline(book, "axle.shaft.spline", row.spline, ("axle", "shaft"), engagement),
        steel=steel(book, "axle.shaft.steel", row.steel, ("axle", "shaft"), keeps(book, "axle_shaft")),
        body_diameter=book.row(row, "body_diameter", "axle.shaft.body_diameter", advice=advice),
        seat_diameter=book.row(row, "seat_diameter", "axle.shaft.seat_diameter", advice=advice),
        bore=book.exact("axle.shaft.bore", 0.0, "length", "axle shafts are solid", "Bore."),
        length=book.assumed("axle.shaft.length", "28 to 33 in", "length", PRACTICE,
                            "Length of shaft that twists."),
        shear_modulus=book.assumed("steel.shear_modulus", "79.3 ± 0.8 GPa", "modulus",
                                   "handbook value of carbon steel", "Shear modulus of steel."),
    )  # fmt: skip


def wheel_end(book: Ledger) -> WheelEnd[Leaf]:
    """How the wheel hangs on the axle."""
    return WheelEnd(
        floating=book.choice("axle.wheel_end"),
        retention=book.choice("axle.retention"),
        lever=book.quantity("axle.wheel_lever"),
        flange_fillet=book.quantity("axle.flange_fillet"),
        jolt_factor=book.assumed("axle.jolt_factor", "1.75 to 2.75", "ratio",
                                 "textbook load case for cars 1.75, trucks 2.5 (from memory)",
                                 "Wheel load on a hard bump over static load."),
        side_grip=book.assumed("wheels.side_grip", "0.8 to 1.1", "ratio",
                               "textbook skid load case (from memory)",
                               "Sideways friction of the rear tires."),
        brake_share=book.quantity("brakes.rear_share"),
        brake_grip=book.assumed("brakes.grip", "0.8 to 1.0", "ratio", PRACTICE,
                                "Deceleration of a hard stop over gravity."),
        endurance_share=book.assumed("axle.endurance_share", "0.35 to 0.5", "ratio",
                                     "Shigley, rotating bending: half the tensile strength at most,"
                                     " less surface and size (from memory)",
                                     "Endurance limit of shaft bending over tensile strength."),
        endurance_jolt=book.assumed("axle.endurance_jolt", "1.2 to 1.6", "ratio", MEMORY,
                                    "Wheel load that comes all the time over static load."),
        keeps=keeps(book, "wheel_end"),
    )  # fmt: skip


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
        return book.exact(f"axle.case.brittle.{k}", float(iron.brittle), "ratio", iron.source,
                          "One if the iron is judged as brittle.")  # fmt: skip

    def size(field: str) -> Leaf:
        return book.row(row, field, f"axle.case.{field}", advice="Measure the case.")

    scatter = max(i.scatter.value if i.scatter else 0.08 for i in irons)
    return Case(
        carrier=book.stated("axle.carrier") or row.carrier,
        iron=" or ".join(kinds.kinds),
        brittle=mixture(kinds, "axle.case.brittle",
                        [brittle(k, i) for k, i in zip(kinds.kinds, irons, strict=True)]),
        tensile_strength=mixed("tensile_strength"),
        compressive_strength=mixed("compressive_strength"),
        yield_strength=mixed("yield_strength"),
        strength_factor=Estimate("axle.case.strength_factor", 1.0, "ratio", Scatter(scatter),
                                 "catalogue", irons[kinds.likeliest].source,
                                 means="Scatter of the iron's strength from casting to casting."),
        casting_notch=book.assumed("axle.case.notch", "1.5 to 2.5", "ratio", MEMORY,
                                   "Stress at a rib foot or bore edge over the plain stress."),
        bearing_span=size("carrier_bearing_span"),
        ring_side_share=size("ring_side_share"),
        web_thickness=size("web_thickness"),
        web_height=size("web_height"),
        web_support=book.assumed("axle.case.web_support", "0.15 to 0.40", "ratio",
                                 "plates held on three edges, Roark (from memory)",
                                 "Stress of a web held at its edges over that of a free one."),
        cap_bore=derived("axle.case.cap_bore", scaled_length, length=size("cap_bolt_spacing"),
                         factor=book.assumed("axle.case.cap_bore_share", "0.76 to 0.86", "ratio",
                                             PRACTICE, "Carrier bearing bore over bolt spacing.")),
        cap_width=size("cap_width"),
        cap_thickness=size("cap_thickness"),
        cap_bolt_spacing=size("cap_bolt_spacing"),
        cap_bolts=bolts(book, "axle.cap_bolts", row.cap_bolt, "grade 8", ("axle", "ring_gear"),
                        book.exact("axle.cap_bolts.count", 2.0, "count", "two bolts a cap", "Bolts in a cap."),
                        size("cap_bolt_spacing"),
                        book.assumed("axle.cap_bolt_torque", "55 to 85 lbf*ft", "torque",
                                     "gear-set instruction sheets: 60 to 85 lb·ft by size",
                                     "Tightening torque of the cap bolts."),
                        keeps(book, "caps")),
        joint_share=book.assumed("axle.cap_bolts.joint_share", "0.15 to 0.30", "ratio",
                                 "Shigley, joint constant of stiff members (from memory)",
                                 "Share of an outside pull that a cap bolt feels."),
        keeps=keeps(book, "case"),
        caps_keep=keeps(book, "caps"),
    )  # fmt: skip


def housing(book: Ledger) -> Housing[Leaf]:
    """Axle tubes, their joint to the centre, and the brackets on them."""
    row = ring_gear_row(book)
    tube = book.quantity("axle.tube_diameter",
                         book.row(row, "tube_diameter", "axle.tube_diameter",
                                  advice="Caliper the axle tube."))  # fmt: skip
    wall = book.quantity("axle.tube_wall", book.row(row, "tube_wall", "axle.tube_wall"))

    def given(name: str, text: str, dimension: str, because: str, means: str) -> Estimate:
        return book.assumed(f"axle.{name}", text, dimension, because, means)

    diameter = book.stated("axle.tube_diameter")
    outer = diameter.value if isinstance(diameter, Reading) else row.tube_diameter.value  # type: ignore[union-attr]
    return Housing(
        tube_diameter=tube,
        tube_wall=wall,
        steel=steel(book, "axle.tube.steel", _HOUSING_STEEL, ("axle",), keeps(book, "tube")),
        joint=book.choice("axle.tube_joint"),
        press=book.quantity("axle.tube_press"),
        press_friction=given("tube_friction", "0.10 to 0.18", "ratio",
                             "handbook range for press fits of steel in iron (from memory)",
                             "Friction of tube in centre."),
        depth=book.row(row, "tube_depth", "axle.tube_depth"),
        hub_diameter=Estimate("axle.hub_diameter", 1.35 * outer, "length",
                              Limits(1.28 * outer, 1.42 * outer), "assumed",
                              f"1.28 to 1.42 times the tube; {PRACTICE}",
                              means="Outer diameter of the cast hub round the tube."),
        centre_modulus=given("centre_modulus", "100 to 170 GPa", "modulus",
                             "gray to nodular iron, Shigley Table A-24 and ISO 1083",
                             "Young's modulus of the centre."),
        tube_modulus=given("tube_modulus", "205 ± 4 GPa", "modulus", "handbook value of steel",
                           "Young's modulus of the tube."),
        hub_poisson=given("centre_poisson", "0.26 ± 0.02", "ratio", "handbook value of cast iron",
                          "Poisson's ratio of the centre."),
        tube_poisson=given("tube_poisson", "0.29 ± 0.01", "ratio", "handbook value of steel",
                           "Poisson's ratio of the tube."),
        plug_count=given("plug_count", "2 to 4", "count", PRACTICE, "Plug welds a tube."),
        plug_diameter=given("plug_diameter", "0.45 to 0.70 in", "length", PRACTICE,
                            "Diameter of a plug weld."),
        weld_strength=given("weld_strength", "38 to 60 ksi", "stress",
                            "shear strength of mild weld metal, 0.6 to 0.8 of 70 ksi (from memory)",
                            "Shear strength of the welds."),
        round_weld_leg=given("round_weld_leg", "0.16 to 0.28 in", "length", PRACTICE,
                             "Leg of the weld round the tube."),
        seat_inset=book.quantity("suspension.seat_inset"),
        reaction_share=given("reaction_share", "0.5 to 0.6", "ratio", PRACTICE,
                             "Share of the ring torque that one tube reacts."),
        bracket_weld=book.quantity("suspension.bracket_weld"),
        weld_leg=book.quantity("suspension.weld_leg"),
        joint_keeps=keeps(book, "tube_joint"),
        tube_keeps=keeps(book, "tube"),
        bracket_keeps=keeps(book, "brackets"),
    )  # fmt: skip
