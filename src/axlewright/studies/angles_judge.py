"""Is the line right as it is?  The limits of each state, and the settings that keep them all."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from axlewright.driveline.pinion_setting import static_pinion
from axlewright.driveline.shaft_line import (
    GREATEST_DIFFERENCE,
    INERTIA_LIMIT,
    LEAST_ANGLE,
    SMOOTH_LIMIT,
)
from axlewright.quantities.formula import Array, Num
from axlewright.quantities.units import show
from axlewright.studies import angles_moves as moves
from axlewright.studies.angles_fill import Filled
from axlewright.studies.angles_numbers import Asked, Start, start
from axlewright.studies.angles_report import Judged
from axlewright.studies.angles_states import pulled, pulling

_TURNS = np.radians(np.arange(-10.0, 10.001, 0.05))
_CLOSE = 1e-9


@dataclass(frozen=True)
class Rule:
    """A limit: the number that it holds for, ending of its key, and whether it is the least."""

    ending: str
    what: str
    limit: str
    least: bool = False


RULES = (
    Rule("front", "front joint", "angle", True),
    Rule("rear", "rear joint", "angle", True),
    Rule("inertia", "one joint winding the shaft", "share"),
    Rule("smooth", "what both joints leave over", "share"),
)
"""Kept coasting and at full pull in direct gear, both at the top speed of the shaft."""
_APART = Rule("apart", "difference of both ends", "difference")
STATES = {"": "coasting", "_fast": "full pull in direct gear", "_loaded": "full pull in first gear"}


def limit_of(rule: Rule) -> float:
    """The limit in SI."""
    return {"angle": LEAST_ANGLE, "share": 1.0, "difference": GREATEST_DIFFERENCE}[rule.limit]


def rules_of(ending: str) -> tuple[Rule, ...]:
    """The limits of a state: under the hardest pull the ends are parallel, too."""
    return (*RULES, _APART) if ending == "_loaded" else RULES


def keeps(rule: Rule, value: Num) -> NDArray[np.bool_]:
    """Whether a value keeps a limit."""
    limit = limit_of(rule)
    kept = (
        np.asarray(value) >= limit - _CLOSE if rule.least else np.asarray(value) <= limit + _CLOSE
    )
    return np.asarray(kept)


def judged(values: dict[str, Num], key: str) -> tuple[Judged, ...]:
    """Every limit of a setting (``now`` or ``set``), from the numbers by key."""
    made = []
    for ending, state in STATES.items():
        for rule in rules_of(ending):
            number = f"{key}{ending}_{rule.ending}"
            made.append(
                Judged(number, f"{rule.what}, {state}", _limit_text(rule),
                       bool(keeps(rule, values[number]).all()))
            )  # fmt: skip
    return tuple(made)


def _limit_text(rule: Rule) -> str:
    if rule.limit == "share":
        whole = INERTIA_LIMIT if rule.ending == "inertia" else SMOOTH_LIMIT
        return f"at most 1 (of {show(whole, 'angular acceleration', digits=2)})"
    word = "at least" if rule.least else "at most"
    return f"{word} {show(limit_of(rule), 'angle', digits=2)}"


def asked_of(x: Filled, kind: str, rise_measured: bool, trouble: str = "") -> Asked:
    """What is asked, with the window of settings, from a filling with nominal values."""
    begin = start(x, Asked(kind, rise_measured))
    return Asked(kind, rise_measured, window(x, begin), trouble)


def window(x: Filled, begin: Start) -> tuple[float, float] | None:
    """Between which slopes at rest every limit is kept: the run of settings next to the wanted."""
    line = begin.line
    if line.pinion is None or line.gearbox is None or line.shaft is None:
        return None
    rests, kept = _tried(x, begin)
    if not kept.any():
        return None
    wanted = float(static_pinion(line.gearbox.side, begin.rise))
    nearest = int(np.flatnonzero(kept)[np.argmin(np.abs(rests[kept] - wanted))])
    low = high = nearest
    while low > 0 and kept[low - 1]:
        low -= 1
    while high < kept.size - 1 and kept[high + 1]:
        high += 1
    return float(rests[low]), float(rests[high])


def _tried(x: Filled, begin: Start) -> tuple[Array, NDArray[np.bool_]]:
    """Slopes at rest that were tried, and which of them keep every limit."""
    line, how = begin.line, pulling(x, begin.rise)
    now = moves.at_rest(line, how.top, how.phase)
    rest = moves.turned(line, now, "set", "Tried", _TURNS, how.top, how.phase)
    loaded, fast = pulled(line, rest, "set", "Tried", how)
    kept = np.ones(_TURNS.shape, dtype=bool)
    limits = (x.assumed.inertia_limit, x.assumed.smooth_limit)
    for state in (rest, loaded, fast):
        kept &= np.minimum(state.front_angle, state.rear_angle) >= LEAST_ANGLE
        kept &= np.asarray(state.hardest) <= limits[0]
        kept &= np.asarray(state.motion.left_over) <= limits[1]
    kept &= np.abs(np.subtract(loaded.front_angle, loaded.rear_angle)) <= GREATEST_DIFFERENCE
    return np.asarray(rest.pinion.side), kept
