"""Both flanks under a torque, with the shims set anew: worked out, or placed by a map of cases.

Worked out, shafts, bearings, case and teeth are in balance.  Placed, how far they give is read
from the map and only the contact itself is worked out there, which is fast enough for a page.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from axlewright.hypoid.loaded.compliance import Compliance
from axlewright.hypoid.loaded.contact import loaded
from axlewright.hypoid.setting import together
from axlewright.hypoid.support.dials import LIMITS
from axlewright.hypoid.support.mesh import Movement
from axlewright.studies.mesh_map import MeshMap
from axlewright.studies.mesh_pair import SIDES, GearPair, Side
from axlewright.studies.mesh_pictures import Shimmed, picture_of, pressed_picture, shimmed
from axlewright.studies.mesh_report import LoadedPicture, Picture
from axlewright.studies.mesh_rest import stand
from axlewright.studies.mesh_runs import Run
from axlewright.studies.mesh_teeth import Load, give_of

NEAR: Final = (
    "How far shafts, bearings and case give is read between the cases of this build's map."
)
BEYOND: Final = (
    "The pinion stands farther from its place than the map goes ({} in at most): shafts, bearings"
    " and case are taken to give as at its end."
)
_IN: Final = 0.0254
_TOUCH: Final = 1e-9
"""Lengths (m) nearer than this are the same."""


@dataclass(frozen=True)
class Case:
    """What is asked: torque at the ring gear (N·m), iron of the case, support of the pinion."""

    ring_torque: float
    iron: str
    support: str


@dataclass(frozen=True)
class FlankUnder:
    """One flank under a torque: movement as dials read it (m), what compound and torque show.

    ``why`` says why there is no answer.
    """

    side: Side
    moves: dict[str, float]
    picture: Picture | None
    loaded: LoadedPicture | None
    why: str


@dataclass(frozen=True)
class Under:
    """Both flanks under one torque, each with the torque pressing on it."""

    ring_torque: float
    flanks: dict[str, FlankUnder]
    cautions: tuple[str, ...]


@dataclass(frozen=True)
class Setting:
    """A pair with its shims set anew, without torque and, if one was asked for, under it."""

    setting: Shimmed
    under: Under | None


def placed(
    pair: GearPair, give: Mapping[Side, Compliance], drawn: MeshMap, at: Shimmed, case: Case
) -> Under:
    """Both flanks where the map says that the gears go; raises ``ArithmeticError`` in words."""
    depth = min(max(at.pinion_out, drawn.depths[0]), drawn.depths[-1])
    of_map = shimmed(pair, depth, drawn.backlash)
    # The map holds shims and support together, at its own backlash: only the support's is wanted.
    instead = Movement(0.0, at.pinion_out - of_map.pinion_out, at.ring_out - of_map.ring_out, 0.0)
    found = {}
    for side in SIDES:
        told = drawn.at(side, case.ring_torque, case.iron, case.support, depth)
        there = together(Movement(told["E"], told["P"], told["G"], told["shaft_angle"]), instead)
        found[str(side)] = _placed(pair, give, Load(side, case.ring_torque), there, told)
    far = abs(at.pinion_out - depth) > _TOUCH
    said = (BEYOND.format(f"{drawn.depths[-1] / _IN:.3f}"),) if far else ()
    return Under(case.ring_torque, found, (NEAR, *said))


def _placed(
    pair: GearPair,
    give: Mapping[Side, Compliance],
    load: Load,
    there: Movement,
    told: Mapping[str, float],
) -> FlankUnder:
    side = load.side
    if not np.isfinite(tuple(there)).all():
        return FlankUnder(side, {}, None, None, "nothing comes to rest in this case")
    moves = {what: told[what] for what in LIMITS}
    if load.ring_torque <= 0.0:
        return FlankUnder(side, moves, None, None, "no torque")
    try:
        pressed = loaded(pair.surfaces[side], give[side], load.ring_torque, there)
    except ArithmeticError as e:
        return FlankUnder(side, moves, None, None, str(e))
    return FlankUnder(side, moves, None, pressed_picture(pressed, side), "")


def worked_out(run: Run, at: Shimmed, ring_torque: float) -> Under:
    """Both flanks with the pair set so, everything in balance; half a second and some for teeth.

    Raises ``ValueError`` where the flanks are not known.
    """
    if run.pair is None:
        raise ValueError(run.refused)
    pair = replace(run.pair, set_at=run.pair.set_at._replace(P=at.pinion_out, G=at.ring_out))
    give = run.teeth.give or give_of(pair)
    teeth = replace(run.teeth, pair=pair, give=give)
    found: dict[str, FlankUnder] = {}
    notes: list[str] = []
    for side in SIDES:
        try:
            there = stand(teeth, run.support, Load(side, ring_torque))
        except ArithmeticError as e:
            found[side] = FlankUnder(side, {}, None, None, str(e))
            continue
        notes.extend(filter(None, (there.note,)))
        moves = {what: float(getattr(there.dials, what)) for what in there.dials._fields}
        picture = None if there.contact is None else picture_of(there.contact, side, pair.film)
        pressed = None if there.loaded is None else pressed_picture(there.loaded, side)
        found[side] = FlankUnder(side, moves, picture, pressed, there.note)
    return Under(ring_torque, found, tuple(dict.fromkeys(notes)))
