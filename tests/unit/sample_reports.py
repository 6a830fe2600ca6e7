"""An invented build, large enough to fill a paper: not one number here comes from a real car."""

from __future__ import annotations

from dataclasses import replace

from axlewright.quantities.finding import Finding, Likelihood, likelihood
from axlewright.studies.report import (
    CardLine,
    CaseReport,
    GearReport,
    GripStep,
    InputLine,
    LimitCard,
    LimitKind,
    LinkLimits,
    LinkReport,
    LoadPathReport,
    Made,
    Margin,
    MeasureNext,
    Verdict,
)

FT = 1.3558179483314

MADE = Made("axlewright 0.1.0", "load path 1", "d41c0f7a9e12", "8be2c04fd9a1", 20240, 10000)


def finding(id: str, means: str, value: float, spread: float, dimension: str) -> Finding:
    return Finding(id, means, value, value * (1 - spread), value * (1 + spread), dimension)


def margin(
    link: str, kind: LimitKind, mode: str, case: str, value: float, share: float, spread: float
) -> Margin:
    demand = 2400.0 * FT
    odds: Likelihood = likelihood(share)
    return Margin(
        f"{link}.{mode}.{case}", link, kind, mode, case,
        finding(f"{link}.capacity", "what it stands", demand * value, 0.1, "torque"),
        finding(f"{link}.demand", "what reaches it", demand, 0.12, "torque"),
        finding(f"{link}.margin", "margin", value, spread, "ratio"), share, odds,
    )  # fmt: skip


# link, title, part, breaks (margin, share, mode, case), gives, first share, consequence
_LINKS = (
    ("clutch", "Clutch", "11 in disk, diaphragm cover", None,
     (1.08, 0.31, "slips", "re-grip"), 0.0, "It slips and protects everything behind it."),
    ("gearbox", "Gearbox", "five-speed, rated 600 lb·ft", (1.31, 0.06, "rating", "clutch dump"),
     None, 0.05, "A gear loses teeth; the car coasts."),
    ("slip_spline", "Slip spline", "28 teeth, 1.208 in", (1.92, 0.001, "tooth shear", "re-grip"),
     (1.55, 0.01, "wear", "steady"), 0.0, "The shaft spins free; the car coasts."),
    ("universal_joint", "Universal joints, front and rear", "cross 3.219 in wide, solid",
     (1.27, 0.09, "trunnion bending", "re-grip"), (0.96, 0.58, "needle dents", "clutch dump"),
     0.07, "The shaft drops: a hoop must catch it."),
    ("driveshaft_tube", "Driveshaft tube", "3 in × 0.083 in, welded steel",
     (2.35, 0.0, "torsion buckling", "re-grip"), (1.88, 0.0, "yield", "re-grip"), 0.0,
     "The tube folds and whips."),
    ("pinion_stem", "Pinion stem and spline", "28 teeth, 1.25 in stem",
     (1.44, 0.03, "torsion", "wheels-up landing"), (1.12, 0.22, "yield", "wheels-up landing"),
     0.02, "The stem shears; the car coasts."),
    ("gear_set", "Ring and pinion", "8.8 in, 41/11 teeth",
     (1.06, 0.38, "tooth bending", "clutch dump"), (0.92, 0.66, "pitting", "steady"), 0.24,
     "Teeth break; the axle may lock."),
    ("ring_bolts", "Ring gear bolts", "ten 7/16-20, grade 8",
     (3.4, 0.0, "shear", "clutch dump"), (1.6, 0.01, "joint slips", "clutch dump"), 0.0,
     "The ring gear works loose on its seat."),
    ("differential", "Differential", "helical, bias 2.6",
     (1.68, 0.02, "pinion pockets", "one wheel"),
     None, 0.01, "One wheel pulls alone."),
    ("axle_shaft", "Axle shafts", "28 teeth, case-hardened medium-carbon steel, 31.4 in",
     (0.87, 0.71, "spline torsion", "wheels-up landing"),
     (0.71, 0.88, "takes a set", "clutch dump"), 0.58,
     "The shaft snaps at the spline; with a clip-held shaft the wheel leaves the car."),
    ("wheel_end", "Wheel ends", "semi-float, roller bearing",
     (1.83, 0.0, "flange bending", "corner"),
     (1.21, 0.16, "bearing dents", "bump"), 0.0, "The wheel wobbles, then leaves."),
    ("studs", "Wheel studs", "five 1/2-20", (2.9, 0.0, "bolt tension", "one wheel"),
     (1.75, 0.0, "wheel slips", "one wheel"), 0.0, "The wheel works loose."),
    ("case", "Axle center section", "gray iron, class 30 assumed",
     (1.18, 0.19, "split at the pinion bore", "clutch dump"), None, 0.03,
     "The case cracks and the gears walk apart."),
    ("caps", "Bearing caps", "gray iron, two bolts each",
     (1.39, 0.05, "cap bending", "clutch dump"), (1.02, 0.45, "cap lifts", "clutch dump"), 0.0,
     "The carrier climbs out of its seat."),
    ("tube_joint", "Tubes in the center section", "pressed, plug-welded",
     (2.2, 0.0, "weld shear", "brake"), (1.14, 0.24, "turns in the press fit", "clutch dump"), 0.0,
     "The tubes turn in the center section."),
    ("tube", "Axle tubes", "3 in × 0.25 in", (2.75, 0.0, "bending", "bump"),
     (1.9, 0.0, "yield", "bump"), 0.0, "The housing bends; the seals leak."),
    ("brackets", "Spring perches and link brackets", "", None, None, 0.0,
     "The axle turns under the car."),
)  # fmt: skip


def links() -> tuple[LinkReport, ...]:
    found = []
    for link, title, part, breaks, gives, first, consequence in _LINKS:
        b = (
            margin(link, "breaks", breaks[2], breaks[3], breaks[0], breaks[1], 0.24)
            if breaks
            else None
        )
        kind: LimitKind = "slips" if link == "clutch" else "takes a set"
        g = margin(link, kind, gives[2], gives[3], gives[0], gives[1], 0.2) if gives else None
        note = "" if b or g else "No dimensions given: measure plate thickness and weld length."
        endures = (
            finding("axle_shaft.launches", "hard launches until a crack", 410.0, 0.8, "count")
            if link == "axle_shaft"
            else None
        )
        found.append(LinkReport(link, title, part, b, g, endures, first, consequence, note))
    return tuple(found)


_PLACES = (
    ("flywheel", "torque at the flywheel", 1.0),
    ("driveshaft", "torque in the driveshaft", 2.6),
    ("ring", "torque at the ring gear", 9.2),
    ("shaft", "torque in the harder-loaded axle shaft", 4.9),
)
_CASES = (
    ("steady", "Full throttle, steady", "first gear, tires gripping", 1, "engine", 410.0),
    ("clutch dump", "Clutch dumped", "pedal slipped at 5,500 rpm", 1, "clutch", 760.0),
    ("re-grip", "Tires let go and bite again", "wheel hop on a dry road", 1, "grip", 690.0),
    ("one wheel", "One wheel carries all", "the other on ice", 1, "grip", 430.0),
    ("wheels-up landing", "Wheels in the air, throttle open, landing", "a crest", 2, "grip", 810.0),
    ("corner", "Hard corner", "1 g sideways", 0, "", 0.0),
    ("brake", "Braking hard", "locked wheels", 0, "", 0.0),
    ("bump", "Bump at speed", "pothole, wheel load three times", 0, "", 0.0),
)  # fmt: skip


def cases() -> tuple[CaseReport, ...]:
    return tuple(
        CaseReport(
            case, title, means, gear, governed,
            {
                key: finding(f"{case}.{key}", words, base * FT * factor, 0.13, "torque")
                for key, words, factor in _PLACES
                if governed
            },
        )
        for case, title, means, gear, governed, base in _CASES
    )  # fmt: skip


def gears() -> tuple[GearReport, ...]:
    found = []
    for gear, ratio in enumerate((2.97, 2.07, 1.43, 1.0, 0.8), start=1):
        engine = 430.0 * FT * ratio * 3.73 * 0.93
        clutch = 520.0 * FT * ratio * 3.73 * 0.93
        grip = 3300.0 * FT
        key = min((engine, "engine"), (clutch, "clutch"), (grip, "grip"))[1]
        found.append(
            GearReport(
                gear, finding(f"gear.{gear}.ratio", "gear ratio", ratio, 0.0, "ratio"), key,
                {
                    "engine": finding(f"gear.{gear}.engine", "by engine", engine, 0.06, "torque"),
                    "clutch": finding(f"gear.{gear}.clutch", "by clutch", clutch, 0.15, "torque"),
                    "grip": finding(f"gear.{gear}.grip", "by grip", grip, 0.18, "torque"),
                    "ring": finding(
                        f"gear.{gear}.ring", "at the ring gear", min(engine, clutch, grip), 0.1,
                        "torque"),
                },
            )
        )  # fmt: skip
    return tuple(found)


# source, whether it spreads, advice; in turns
_KINDS = (
    ("the build file", "yes", "Weigh it."),
    ("common practice, no source", "yes", "Measure it with a caliper."),
    ("sizes by ANSI B92.1", "", "Count the teeth."),
    ("the build file", "yes", ""),
    ("from memory", "yes", ""),
    ("axle shafts are solid", "", ""),
)


def inputs() -> tuple[InputLine, ...]:
    areas = (
        "engine",
        "clutch",
        "gearbox",
        "driveshaft",
        "gears",
        "axle",
        "housing",
        "tires",
        "car",
        "road",
    )
    things = ("torque", "inertia", "diameter", "length", "grade of steel", "surface finish")
    found = []
    for i, (area, thing) in enumerate((a, t) for a in areas for t in things):
        origin = ("stated", "assumed", "catalogue", "measured", "assumed", "stated")[i % 6]
        source, spread, advice = _KINDS[i % 6]
        found.append(
            InputLine(
                f"{area}.{thing.replace(' ', '_')}", f"{thing} of the {area}.",
                f"{1.05 + i:.2f} in",
                spread and f"{0.95 + i:.2f} in to {1.15 + i:.2f} in", origin, source, advice,
            )
        )  # fmt: skip
    return tuple(found)


def report() -> LoadPathReport:
    all_links = links()
    known = [x for x in all_links if x.breaks or x.gives]
    order = sorted(known, key=lambda x: (x.breaks or x.gives).margin.value)  # type: ignore[union-attr]
    verdict = Verdict(
        "The axle shafts go first: in a wheels-up landing they carry 15 % more than they stand. "
        "The ring and pinion come next.",
        False,
        "axle_shaft",
        tuple(["axle_shaft"] + [x.link for x in order if x.link != "axle_shaft"]),
        (
            MeasureNext("axle.shaft.steel", "Steel and hardness of the axle shafts",
                        "assumed: medium-carbon steel, case-hardened, 50 to 58 HRC",
                        "File the end of the spline; a hardness test costs little.", 0.41),
            MeasureNext("tires.grip", "Grip of the rear tires", "assumed: 0.95 to 1.15",
                        "Log one launch on the surface that you use.", 0.27),
            MeasureNext("clutch.capacity", "Torque at which the clutch slips",
                        "assumed: 460 to 600 lb·ft",
                        "Full throttle in top gear at low speed: note the rpm at which it flares.",
                        0.14),
        ),
    )  # fmt: skip
    return LoadPathReport(
        "Blue wagon, street and strip",
        "blue-wagon.toml",
        verdict,
        all_links,
        cases(),
        gears(),
        inputs(),
        (
            "Grip of the tires is assumed; a sticky surface raises every torque behind the clutch.",
            "The gear set lies at the edge of the rating method: ratio above 3.7 with 8.8 in ring.",
            "Needle dents count as giving, not as breaking.",
        ),
        (
            "A broken axle shaft held only by a clip lets the wheel leave the car.",
            "Fit a driveshaft hoop before any launch.",
            "Stands on level ground, wheels chocked, before anyone goes under the car.",
        ),
        (
            "Budynas & Nisbett, Shigley's Mechanical Engineering Design, 9th ed. (from memory)",
            "ANSI/AGMA 2003-B97, rating of bevel gear teeth (from memory)",
            "SAE J429, mechanical requirements for fasteners (from memory)",
            "Common practice, no source: weights and grips of street cars",
        ),
        MADE,
    )


_DIALS = ("engine torque", "tire grip", "clutch bite")
_ALLOWED = {
    "gear_set": ("≤ 570 lb·ft", "any", "≥ 45 ms"),
    "axle_shaft": ("≤ 510 lb·ft", "≤ 0.93", "short already"),
    "case": ("any", "≤ 1.35", "any"),
}


def card() -> LimitCard:
    return LimitCard(
        "Blue wagon, street and strip",
        (
            CardLine("Engine torque", "430 lb·ft", "510 lb·ft", "Axle shafts", False, ""),
            CardLine("Clutch dump", "5,500 rpm", "3,100 rpm", "Axle shafts", False,
                     "lower than now"),
            CardLine("Tire grip", "1.05", "0.93", "Axle shafts", False, "street tires only"),
            CardLine("Axle ratio", "3.73", "3.42", "Ring and pinion", False, ""),
            CardLine("Weight", "3,650 lb", "4,400 lb", "none in the range tried", True, ""),
        ),
        tuple(
            GripStep(
                name,
                finding(f"grip.{name}", "grip", grip, 0.08, "ratio"),
                finding(f"ring.{name}", "at the ring gear", 3000 * FT * grip, 0.12, "torque"),
                worst,
                finding(f"margin.{name}", "margin", value, 0.2, "ratio"),
                likelihood(share),
            )
            for name, grip, worst, value, share in (
                ("all-season", 0.85, "Axle shafts", 1.14, 0.2),
                ("summer street", 1.0, "Axle shafts", 0.96, 0.55),
                ("drag radial", 1.4, "Axle shafts", 0.68, 0.97),
                ("slick, prepared strip", 2.0, "Axle shafts", 0.5, 1.0),
            )
        ),
        tuple(
            LinkLimits(x.title, dict(zip(_DIALS, _ALLOWED.get(x.link, ("any",) * 3), strict=True)))
            for x in links()
        ),
        ("Tire grip is assumed, not measured.",),
        MADE,
    )  # fmt: skip


def long_names() -> LoadPathReport:
    """The same report with names nobody should type, and signs that break careless writers."""
    sample = report()
    long = "Extraordinarily-long-windedunbreakablename<&>\"'#$*_@[x] " * 4
    return replace(
        sample,
        name=long,
        file=f"{'a-very-long-folder-name/' * 6}build.toml",
        links=tuple(replace(x, title=f"{long} {x.title}", part=long) for x in sample.links),
        cases=tuple(replace(x, title=f"{long} {x.title}") for x in sample.cases),
        inputs=tuple(replace(x, path=f"{x.path}.{'deep_key.' * 12}end") for x in sample.inputs),
        cautions=(*sample.cautions, long),
    )
