"""What the gear study says in sentences, and what to know before leaning on it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from axlewright.quantities.units import show, significant
from axlewright.studies.mesh_report import GearLoad, LimitLine, LoadedPicture, Picture

MODEL: Final = (
    "Gear pair: form-cut ring, pinion its envelope with an ease-off; shafts as beams, rollers one"
    " by one, seats as springs; see docs/mesh.md."
)
CAUTIONS: Final = (
    "The flanks' micro-geometry is assumed: an ease-off that shows the stated pattern. A set whose"
    " flanks were measured may differ.",
    "How stiff the bearing seats and the flange are is judged from proportions, within a half"
    " either way; use it to compare, not to predict a dial to the thousandth.",
    "Tooth forces are without friction; the case is cold where nothing else is said.",
    "Limits of a deflection test hold for a gear's rated service torque. A hard launch is beyond"
    " that in most car axles: judge it there by the pattern, by the edges and by comparison.",
)
NO_BAND: Final = "of the likeliest axle only: it was not sampled"
IN_THE_LOOP: Final = (
    "Bands come of a modest number of samples with a coarser contact and the give of the likeliest"
    " pair's teeth. A peak of pressure at an edge still grows as the contact is made finer: it says"
    " where the edge suffers, not how much."
)
UNLOADED: Final = (
    "Patterns under torque are what compound would show where the gears then stand, rolled without"
    " load; the torque itself spreads the contact."
)
_OFTEN = 0.1
"""Share of a pitch from which on an edge that carries is worth a word."""
_NEAR = 0.98
"""Share of the face from which on a pattern counts as at the end of the tooth."""
_LEAST = 2.54e-6
"""Movement (m) below which a dial shows nothing."""
_WHO: Final = {
    "pinion_lift": "pinion, along the offset",
    "pinion_axial": "pinion, along its axis",
    "ring_lift": "ring gear, along the offset",
    "ring_axial": "ring gear, along the axle",
}


def what_moves(name: str) -> str:
    """A movement that has a limit, in words."""
    return _WHO[name]


def load_sentence(
    title: str, moves: dict[str, float], picture: Picture | None, pressed: LoadedPicture | None
) -> str:
    """One load in a sentence: how pinion and ring move, where the pattern and the load lie."""
    lift, out, ring = moves["pinion_lift"], moves["pinion_axial"], moves["ring_axial"]
    said = [
        f"{title}: the pinion {'climbs' if lift < 0.0 else 'is pressed away'} {_thou(lift)} and"
        f" moves {_thou(out)} {'out of' if out > 0.0 else 'into'} mesh; the ring gear's rim moves"
        f" {_thou(ring)} {'away from' if ring > 0.0 else 'toward'} the pinion"
    ]
    if pressed is not None:
        said.append(_pressed(pressed))
    elif picture is not None:
        said.append(_lies(picture))
    return "; ".join(said) + "."


def _pressed(found: LoadedPicture) -> str:
    """Where the load lies and how hard it presses."""
    text = (
        f"the load lies about {_percent(found.center)} of the face from the toe, pressing up to"
        f" {show(found.peak, 'stress', digits=2)}"
    )
    ends = [edge for edge, share in found.edges.items() if share >= _OFTEN]
    return text + (f", and reaches the {_listed(ends)}" if ends else "")


def _listed(words: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def _thou(length: float) -> str:
    size = abs(length)
    return show(size, "length", digits=2) if size >= _LEAST else "less than 0.0001 in"


def _lies(picture: Picture) -> str:
    ends = _ends(picture)
    reach = f"{_percent(picture.toe_end)} to {_percent(picture.heel_end)} of the face from the toe"
    onto = f" and runs onto the {_listed(ends)}" if ends else ""
    return f"the pattern covers {reach}{onto}"


def _ends(picture: Picture) -> list[str]:
    """Edges of the tooth that the pattern touches."""
    ends: list[str] = [e for e in ("root", "tip") if e in picture.edges]
    if picture.toe_end <= 1.0 - _NEAR:
        ends.append("toe")
    if picture.heel_end >= _NEAR:
        ends.append("heel")
    return ends


def _percent(share: float) -> str:
    return f"{significant(100.0 * share, 2)} %"


def headline(loads: Sequence[GearLoad], limits: Sequence[LimitLine], refused: str) -> str:
    """The judgement: service loads against the limits, the hardest case by its pattern."""
    return " ".join(filter(None, (_judged(limits), _hardest(loads, refused))))


def _judged(limits: Sequence[LimitLine]) -> str:
    worst = max(limits, key=lambda line: line.times)
    moved, limit = worst.found.value, worst.high if worst.found.value > 0.0 else worst.low
    sizes = f"{what_moves(worst.what)}, {_thou(moved)} of {_thou(limit)}"
    if worst.holds:
        return f"In service the gears stay within a deflection test; nearest is: {sizes}."
    return (
        f"In service the gears move up to {significant(worst.times, 3)} times what a deflection"
        f" test allows ({worst.load.partition('.')[0]}: {sizes})."
    )


def _hardest(loads: Sequence[GearLoad], refused: str) -> str:
    if refused:
        return f"The pattern is not worked out: {refused}."
    hardest = next(x for x in loads if x.name == "drive.hardest")
    torque = show(hardest.ring_torque.value, "torque", digits=3)
    at = f"In the hardest case ({torque} at the ring gear)"
    if hardest.loaded is not None:
        return f"{at} {_pressed(hardest.loaded)}."
    assert hardest.picture is not None
    return f"{at} {_lies(hardest.picture)}."
