"""Ratings, heat, losses and lives of one axle by their ids, beside the numbers of its movement."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from axlewright.hypoid.support.duty import Duty
from axlewright.studies.mesh_heat import HEATED, LOST, OILS, PASSES, heated, losses_of
from axlewright.studies.mesh_numbers import Number, id_of, numbers
from axlewright.studies.mesh_rating import RATED, Pressed, pressed_of, rated
from axlewright.studies.mesh_rest import Stand
from axlewright.studies.mesh_runs import Run
from axlewright.vehicle.gearing import road_of_turns

LIVES: dict[str, tuple[str, str]] = {
    "life_by_rule": ("count", "turns for nine of ten by the rating rule of ISO 281"),
    "life_by_slices": ("count", "turns for nine of ten by its rollers and their slices"),
    "road": ("distance", "road until the end of the shorter life, under this very load"),
}
NAMES: dict[str, tuple[str, str]] = {
    **RATED,
    **HEATED,
    **{name: ("power", means) for name, means in LOST.items()},
    "passes": ("ratio", PASSES),
}
OF_PINION = ("head bearing", "tail bearing", "pilot bearing")
"""Bearings that turn with the pinion; the others turn with the ring gear."""


def all_numbers(run: Run) -> dict[str, Number]:
    """Every number of a run by its id, ratings and heat among them."""
    found = numbers(run)
    for name, value in run.warmth.oil.items():
        dimension, means = OILS[name]
        found[oil_id(name)] = Number(float(value), dimension, _capital(means))
    for n in run.loads.names:
        for what, number in _of(run, run.stands[n.name]):
            found[id_of(n.name, what)] = number._replace(means=f"{n.title}: {number.means}")
    return found


def names_under(run: Run, stand: Stand) -> tuple[str, ...]:
    """Names that a load's ratings may have, in order."""
    bearings = stand.support.duties(stand.rest)
    return (*NAMES, *(life_id(bearing, what) for bearing in bearings for what in LIVES))


def oil_id(name: str) -> str:
    """Stable id of a number of the cruise, as ``gear_pair.oil.hot_day``."""
    return f"gear_pair.oil.{name}"


def life_id(bearing: str, what: str) -> str:
    """Name of a bearing's life, as ``head_bearing_life_by_rule``."""
    return f"{bearing.replace(' ', '_')}_{what}"


def pressed_in(run: Run, stand: Stand) -> Pressed | None:
    """What the loaded contact gives to ratings; nothing where there is none."""
    known = run.warmth.judged
    if stand.loaded is None:
        return None
    return pressed_of(stand.loaded, known.youngs_modulus, known.poisson_ratio)


def _of(run: Run, stand: Stand) -> Iterator[tuple[str, Number]]:
    side, torque = stand.load.side, stand.load.ring_torque
    if torque <= 0.0:
        return
    pressed = pressed_in(run, stand)
    angle = run.blank.angles[side]
    for what, value in rated(run.machine, run.blank.geometry, side, angle, torque, pressed):
        yield what, _number(what, float(value))
    if pressed is not None:
        for what, value in heated(run.warmth, pressed.rubbing):
            yield what, _number(what, float(value))
    if side == "drive":
        for what, value in losses_of(run.warmth, torque):
            yield what, _number(what, float(value))
    for bearing, duty in stand.support.duties(stand.rest).items():
        yield from _lives(run, bearing, duty)


def _number(what: str, value: float) -> Number:
    dimension, means = NAMES[what]
    return Number(value, dimension, means, what in {"largest_share", "passes"})


def _lives(run: Run, bearing: str, duty: Duty) -> Iterator[tuple[str, Number]]:
    """Both lives of a bearing, where they have an end, and the shorter one's time."""
    g = run.machine.gears
    ratio = g.ratio if bearing in OF_PINION else g.one
    each = {
        "life_by_rule": duty.rated_life,
        "life_by_slices": duty.life,
        "road": float(road_of_turns(duty.believed_life, ratio, run.warmth.tire_radius)),
    }
    for what, value in each.items():
        if np.isfinite(value):
            dimension, means = LIVES[what]
            yield life_id(bearing, what), Number(value, dimension, f"{bearing}, {means}")


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"
