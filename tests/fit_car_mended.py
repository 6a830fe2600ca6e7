"""One bad reading: made at random, objected to or not, and taken again where it is named."""

from __future__ import annotations

import random
from dataclasses import dataclass

from fit_car_blunders import LENGTHS, PAIRS, SLOPES, WRONG_DATUM, objections_of, spoiled
from fit_car_trials import Make, Try, exact, measured
from reference_measurer import Blunder, Measurer, swapped

ROUNDS = 3


@dataclass(frozen=True)
class Mended:
    """A try with a bad reading: as written, and as it stands when nothing more is accused."""

    what: str
    spoiled: Try
    mended: Try
    objected: bool
    """Whether the program brought up anything that it had not against the honest sheet."""
    rounds: int
    """How often readings were taken again."""
    silent: bool
    """Whether it had nothing more to say at the end."""


def bad_reading(make: Make, seed: int) -> Mended:
    """A competent sheet with one mistake, drawn for the seed."""
    it = measured(make, seed)
    what, wrong = _mistake(it, random.Random(seed))
    old = {o.said for o in objections_of(it)}
    objected = any(o.said not in old for o in objections_of(wrong))
    mended, rounds = wrong, 0
    for n in range(ROUNDS):
        if not objections_of(mended):
            break
        mended, rounds = _taken_again(mended, n), n + 1
    return Mended(what, wrong, mended, objected, rounds, not objections_of(mended))


def _mistake(it: Try, rng: random.Random) -> tuple[str, Try]:
    """Half to one inch, two degrees, a wrong datum, or two sides in each other's place."""
    kind = rng.choice(("inches", "inches", "degrees", "datum", "swap", "once"))
    if kind == "swap":
        one, other = rng.choice(PAIRS)
        return f"{one} and {other} swapped", it.with_sheet(swapped(one, other, it.sheet))
    if kind == "datum":
        what, off = rng.choice(WRONG_DATUM)
        return what, spoiled(it, Blunder(what, off))
    way = rng.choice((-1.0, 1.0))
    if kind == "degrees":
        key, by = rng.choice([k for k in SLOPES if k in it.sheet]), 2.0 * way
    else:
        key, by = rng.choice([k for k in LENGTHS if k in it.sheet]), rng.uniform(0.5, 1.0) * way
    what = f"{key} off by {by:.2f}"
    return what, spoiled(it, Blunder(what, {key: by}, once=kind == "once"))


def _taken_again(it: Try, times: int) -> Try:
    """What is accused is read again by an honest hand; the second time all that sums hold is."""
    true, again = exact(it.car), Measurer(it.seed + 500_000 + times)
    keys = dict.fromkeys(k for o in objections_of(it) for k in o.suspects)
    if times:
        keys |= dict.fromkeys(k for k in LENGTHS if k in true)
        keys |= dict.fromkeys(k.replace("left", "right") for k in LENGTHS if k in true)
        keys |= dict.fromkeys(SLOPES)
    sheet = dict(it.sheet)
    sheet |= {k: again.read(k, true[k]) for k in keys if k in true}
    return it.with_sheet(sheet)
