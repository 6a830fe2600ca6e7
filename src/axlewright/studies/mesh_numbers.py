"""The numbers of one axle by their ids, so that the likeliest and the samples are read alike."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from axlewright.hypoid.backlash import dial_lash, lash_per_pinion_move, lash_per_ring_move
from axlewright.hypoid.loaded.contact import LoadedContact
from axlewright.hypoid.unloaded import Contact, analyze
from axlewright.studies.mesh_pair import GearPair
from axlewright.studies.mesh_rest import Stand
from axlewright.studies.mesh_runs import Run


class Number(NamedTuple):
    """A value with its dimension, what it means, and whether it is a share between none and all."""

    value: float
    dimension: str
    means: str
    share: bool = False


MOVES = {
    "pinion_lift": "movement of the pinion along the offset, away from the ring's axis",
    "pinion_axial": "movement of the pinion out of mesh",
    "pinion_sideways": "movement of the pinion toward the ring's back",
    "ring_lift": "movement of the ring gear's rim along the offset",
    "ring_axial": "movement of the ring gear's rim away from the pinion",
    "ring_sideways": "movement of the ring gear's rim toward the pinion's yoke",
    "E": "change of the offset at the crossing point",
    "P": "pinion against the crossing point, out",
    "G": "ring gear against the crossing point, out",
    "shaft_angle": "change of the angle between the axes",
}
SHARES = {
    "shafts": "share of shafts and flange in the change of offset",
    "bearings": "share of the bearings in the change of offset",
    "case": "share of the case in the change of offset",
}
PATTERN = {
    "center": "middle of the pattern from toe to heel",
    "height": "middle of the pattern from root to tip",
    "length": "length of the pattern over the face",
    "width": "width of the pattern over the working height",
    "toe_end": "end of the pattern toward the toe, from the toe",
    "heel_end": "end of the pattern toward the heel, from the toe",
}
LOADED = {
    "load_center": ("ratio", "middle of the load from toe to heel, torque on"),
    "load_height": ("ratio", "middle of the load from root to tip, torque on"),
    "load_toe_end": ("ratio", "end of the pressed area toward the toe, from the toe"),
    "load_heel_end": ("ratio", "end of the pressed area toward the heel, from the toe"),
    "peak_pressure": ("stress", "greatest pressure between the flanks"),
    "loaded_error": ("angle", "transmission error, peak to peak, torque on"),
    "ring_root": (
        "stress",
        "greatest tension at the ring tooth's root, without the fillet's notch",
    ),
    "pinion_root": (
        "stress",
        "greatest tension at the pinion tooth's root, without the fillet's notch",
    ),
}


def id_of(load: str, what: str) -> str:
    """Stable id of a number of a load, as ``gear_pair.drive.pinion_lift.rated``."""
    side, _, level = load.partition(".")
    return f"gear_pair.{side}.{what}.{level}"


def numbers(run: Run) -> dict[str, Number]:
    """Every number of a run by its id."""
    found = {f"gear_pair.{name}": number for name, number in _facts(run)}
    titles = {n.name: n.title for n in run.loads.names}
    for load, stand in run.stands.items():
        for what, number in _of_stand(stand):
            found[id_of(load, what)] = number._replace(means=f"{titles[load]}: {number.means}")
    return found


def _of_stand(stand: Stand) -> Iterator[tuple[str, Number]]:
    yield "ring_torque", Number(stand.load.ring_torque, "torque", "torque at the ring gear")
    yield "pinion_torque", Number(stand.pinion_torque, "torque", "torque at the pinion")
    moved = {**stand.dials._asdict(), **stand.moved._asdict(), "shaft_angle": stand.moved.sigma}
    for name, means in MOVES.items():
        yield name, Number(moved[name], "angle" if name == "shaft_angle" else "length", means)
    for name, share in shares(stand).items():
        yield name, Number(share, "ratio", SHARES[name])
    if stand.contact is not None:
        yield from pattern_numbers(stand.contact)
    if stand.loaded is not None:
        for name, value in loaded_values(stand.loaded).items():
            dimension, means = LOADED[name]
            yield name, Number(value, dimension, means, dimension == "ratio")


def loaded_values(found: LoadedContact) -> dict[str, float]:
    """What is told of a loaded contact."""
    p = found.pattern
    return {
        "load_center": p.center,
        "load_height": p.height,
        "load_toe_end": p.toe_end,
        "load_heel_end": p.heel_end,
        "peak_pressure": found.peak_pressure,
        "loaded_error": found.amplitude,
        "ring_root": float(found.ring_root.max()),
        "pinion_root": float(found.pinion_root.max()),
    }


def pattern_numbers(contact: Contact) -> Iterator[tuple[str, Number]]:
    """Place and size of a pattern, and the transmission error."""
    for name, means in PATTERN.items():
        yield name, Number(float(getattr(contact.pattern, name)), "ratio", means, True)
    yield "error", Number(contact.amplitude, "angle", "transmission error, peak to peak, no torque")


def shares(stand: Stand) -> dict[str, float]:
    """Change of offset by shafts, bearings and case, as shares of the whole."""
    found = dict.fromkeys(SHARES, 0.0)
    for name, share in by_part(stand).items():
        found[_group(name)] += share
    return found


def by_part(stand: Stand) -> dict[str, float]:
    """Change of offset by single part, as a share of the whole."""
    whole = sum(part.E for part in stand.by_part.values())
    return {name: part.E / whole if whole else 0.0 for name, part in stand.by_part.items()}


def _group(part: str) -> str:
    if part.endswith("bearing"):
        return "bearings"
    return "case" if part.endswith("case") else "shafts"


def _facts(run: Run) -> Iterator[tuple[str, Number]]:
    g, angles = run.blank.geometry, run.blank.angles
    yield "pinion_spiral", Number(float(g.pinion_mean_spiral), "angle", "spiral of the pinion")
    yield "ring_spiral", Number(float(g.ring_mean_spiral), "angle", "spiral of the ring gear")
    yield "drive_angle", Number(angles["drive"], "angle", "pressure angle of the drive flank")
    yield "coast_angle", Number(angles["coast"], "angle", "pressure angle of the coast flank")
    if run.pair is not None:
        yield from _set(run, run.pair)


def _set(run: Run, pair: GearPair) -> Iterator[tuple[str, Number]]:
    """How the pair stands without torque."""
    at, g = pair.set_at, run.blank.geometry
    yield "pinion_out", Number(at.P, "length", "pinion out of its set place")
    yield "ring_out", Number(at.G, "length", "ring gear out of its set place")
    here = {side: analyze(surface, at, pair.film) for side, surface in pair.surfaces.items()}
    turn = pair.lash.turn(here["drive"], here["coast"])
    yield (
        "backlash",
        Number(pair.lash.at_dial(turn), "length", "backlash at the heel, as it stands"),
    )
    wedge = run.blank.angles["drive"], run.blank.angles["coast"]
    rates = {
        "ring": lash_per_ring_move(*wedge, g.ring_pitch_angle, g.ring_mean_spiral),
        "pinion": lash_per_pinion_move(*wedge, g.pinion_pitch_angle, g.ring_mean_spiral),
    }
    for gear, rate in rates.items():
        at_heel = dial_lash(rate, run.machine.gears.ring_diameter, g.ring_mean_radius)
        yield (
            f"lash_per_{gear}_move",
            Number(
                float(at_heel),
                "ratio",
                f"backlash at the heel per distance that the {gear} moves out",
            ),
        )
    for side, contact in here.items():
        for what, number in pattern_numbers(contact):
            yield (
                f"{side}.{what}.unloaded",
                number._replace(means=f"{side.capitalize()}, no torque: {number.means}"),
            )
        flank = pair.surfaces[side].flank
        yield (
            f"{side}.overlap",
            Number(
                flank.overlap, "ratio", f"teeth in contact on the {side} flank, fully conjugate"
            ),
        )
