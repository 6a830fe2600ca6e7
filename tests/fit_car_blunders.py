"""Mistakes of every kind in every reading that a sum holds: caught, named, or let through."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.build.problems import BuildError
from fit_car_trials import Make, Objection, Try, measured, names, objections
from reference_measurer import Blunder, Written, swapped

HAT = 0.28
LENGTHS = (
    "fit.face_to_face", "fit.bare_to_bare", "fit.end_to_end", "fit.old_hat", "fit.lip_to_lip",
    "fit.inner_to_inner", "fit.rail_to_rail", "fit.left.lip", "fit.left.inner", "fit.left.rail",
    "fit.left.pinion", "fit.left.differential", "fit.left.housing_end",
    "fit.left.ground_to_center", "wheel.backspace", "wheel.offset", "wheel.rim_width",
    "wheel.lip_width", "ends.left.brake_space", "ends.left.bearing_to_flange",
    "ends.bearing_pocket", "ends.bearing_width", "ends.left.hat", "centre.end_to_end",
    "centre.left_half", "centre.differential_gap", "centre.differential_left", "centre.pinion_left",
    "slip.bottomed_reach", "slip.gap", "slip.reach", "angles.joint_to_joint",
    "angles.seal_to_joint", "angles.gearbox_height", "angles.pinion_height",
    "angles.gearbox_left", "angles.pinion_left", "wheel.section", "fit.left.lip_height",
    "fit.left.shock", "points.lower_body.up", "points.upper_axle.forward",
)  # fmt: skip
SLOPES = (
    "angles.gearbox", "angles.driveshaft", "angles.pinion", "angles.floor",
    "angles.pinion_loaded", "angles.pinion_rise", "angles.gearbox_plan", "angles.pinion_plan",
)  # fmt: skip
PAIRS = (
    ("fit.left.lip", "fit.right.lip"), ("fit.left.inner", "fit.right.inner"),
    ("fit.left.rail", "fit.right.rail"), ("fit.left.pinion", "fit.right.pinion"),
    ("fit.left.differential", "fit.right.differential"),
    ("fit.left.housing_end", "fit.right.housing_end"),
    ("ends.left.brake_space", "ends.right.brake_space"), ("centre.left_half", "centre.right_half"),
)  # fmt: skip
WRONG_DATUM = (
    ("lip from the bare flange", {"fit.left.lip": HAT}),
    ("inner gap from the bare flange", {"fit.left.inner": -HAT}),
    ("pinion from the bare flange", {"fit.left.pinion": -HAT}),
    ("cross pin from the bare flange", {"fit.left.differential": -HAT}),
    ("rail from the bare flange", {"fit.left.rail": -HAT}),
    ("width over the bare flanges", {"fit.face_to_face": -2 * HAT}),
    ("width with one hat off", {"fit.face_to_face": -HAT}),
    ("bare width with the brakes on", {"fit.bare_to_bare": 2 * HAT}),
    ("both lips from the bare flange", {"fit.left.lip": HAT, "fit.right.lip": HAT}),
    ("both pinion halves from the bare flange",
     {"fit.left.pinion": -HAT, "fit.right.pinion": -HAT}),
    ("backspace to the bead seat", {"wheel.backspace": -0.5}),
    ("rim width over the lips", {"wheel.rim_width": 1.0}),
    ("brake space with the hat on", {"ends.left.brake_space": HAT}),
    ("housing from flange to flange", {"centre.end_to_end": 5.0}),
    ("every reading of both sides and the width from the bare flange", {
        "fit.face_to_face": -2 * HAT, "fit.left.lip": HAT, "fit.right.lip": HAT,
        **{f"fit.{s}.{n}": -HAT for s in ("left", "right")
           for n in ("inner", "rail", "pinion", "differential", "housing_end")},
    }),
)  # fmt: skip


@dataclass
class Tally:
    """How often a mistake was objected to, and how often the wrong reading was named."""

    tries: int = 0
    caught: int = 0
    named: int = 0


def least(sheet: Written) -> Written:
    """The sheet of someone who reads nothing twice and nothing that another reading gives."""
    left_out = {
        "fit.bare_to_bare", "fit.end_to_end", "fit.old_hat", "fit.lip_to_lip",
        "fit.inner_to_inner", "fit.rail_to_rail", "fit.left.differential",
        "fit.right.differential", "fit.left.housing_end", "fit.right.housing_end",
        "fit.right.pinion", "fit.left.rail", "fit.right.rail", "wheel.offset",
        "ends.left.bearing_to_flange", "ends.right.bearing_to_flange", "slip.gap",
        "angles.seal_to_joint", "angles.gearbox_height", "angles.pinion_height",
        "angles.pinion_rise", "centre.left_half", "centre.right_half",
    }  # fmt: skip
    return {
        k: v[:1]
        for k, v in sheet.items()
        if k not in left_out
        and not k.startswith(("points.", "fit.left.ground", "fit.right.ground"))
    }


@dataclass(frozen=True)
class Base:
    """A try without a mistake, and what the program objects to in it nevertheless."""

    it: Try
    said: frozenset[str]


def bases(makes: tuple[Make, ...], seeds: range, little: bool = False) -> list[Base]:
    """Honest tries, with the full sheet or the least one."""
    found = []
    for seed in seeds:
        for make in makes:
            it = measured(make, seed, repeats=not little)
            if little:
                it = it.with_sheet(least(it.sheet))
            found.append(Base(it, frozenset(o.said for o in objections_of(it))))
    return found


def objections_of(it: Try) -> list[Objection]:
    """What is objected to, a build that is refused outright included."""
    try:
        return objections(it.build)
    except BuildError as e:
        return [Objection(f"refused: {p.key}: {p.message}", (p.key,), (), ()) for p in e.problems]


def spoiled(it: Try, blunder: Blunder) -> Try:
    """The same try with the mistake made."""
    return it.with_sheet(blunder.made(it.sheet))


def single(key: str, by: float, once: bool = False) -> Blunder:
    """One reading off by so much."""
    return Blunder(f"{key} off by {by:g}", {key: by}, once)


def tally(known: list[Base], blunder: Blunder) -> Tally:
    """One mistake in many cars."""
    found = Tally()
    for base in known:
        if all(k in base.it.sheet for k in blunder.off):
            _count(found, base, spoiled(base.it, blunder), tuple(blunder.off))
    return found


def tally_swapped(known: list[Base], one: str, other: str, apart: float) -> Tally:
    """Two readings in each other's place, where truly they differ by so much and more."""
    found = Tally()
    for base in known:
        sheet = base.it.sheet
        if abs(sheet[one][0] - sheet[other][0]) >= apart:
            _count(found, base, base.it.with_sheet(swapped(one, other, sheet)), (one, other))
    return found


def _count(found: Tally, base: Base, after: Try, keys: tuple[str, ...]) -> None:
    """Only what the mistake itself brings up counts."""
    new = [o for o in objections_of(after) if o.said not in base.said]
    found.tries += 1
    found.caught += bool(new)
    found.named += any(names(new, k) for k in keys)
