"""Mistakes that people make with a tape, as what each does to a reading.

A wrong datum shows as a difference that equals a known thickness: the hat that was or was not on,
the lip of a rim.  A tape begun at its first inch shows as a whole inch.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from axlewright.measuring.datum import ACROSS, INWARD, OUTWARD, hats_short
from axlewright.measuring.relations import IN
from axlewright.measuring.suspects import Mistake

_FACE = "fit.old_face"
_FLANGE = "was taken from the bare flange, not from the face that the wheel touches"


def bare_flange(hat: float) -> Iterator[Mistake]:
    """Readings that run from the flange where the wheel's face was meant, or the reverse."""
    for side in ("left", "right"):
        for names, sign in ((OUTWARD, 1.0), (INWARD, -1.0)):
            for name in names:
                key = f"fit.{side}.{name}"
                yield Mistake(f"{key} {_FLANGE} (one hat)", {key: sign * hat})
    for names, sign in ((OUTWARD, 1.0), (INWARD, -1.0)):
        for name in names:
            both = {f"fit.{side}.{name}": sign * hat for side in ("left", "right")}
            yield Mistake(f"{name} of both sides {_FLANGE} (two hats)", both)
    width = ACROSS
    yield Mistake(f"{width} was taken over the bare flanges (two hats)", {width: -2.0 * hat})
    yield Mistake(f"{width} was taken with one hat off", {width: -hat})
    bare = "fit.bare_to_bare"
    yield Mistake(f"{bare} was taken with the brakes on (two hats)", {bare: 2.0 * hat})
    yield Mistake(f"{bare} was taken with one brake on (one hat)", {bare: hat})


def all_bare(hat: float, known: Iterable[str]) -> Iterator[Mistake]:
    """Everything that should run from the wheel face taken from the bare flange instead."""
    added = {name: -hats_short(name) * hat for name in known if hats_short(name) != 0.0}
    if len(added) > 1:
        yield Mistake(f"every reading from the wheel face {_FLANGE}: then say so in {_FACE}", added)


def new_bare_flange(hat: float) -> Iterator[Mistake]:
    """The same for the new axle."""
    face, bare = "centre.face_to_face", "centre.bare_to_bare"
    yield Mistake(f"{face} was taken over the bare flanges (two hats)", {face: -2.0 * hat})
    yield Mistake(f"{bare} was taken with the brakes on (two hats)", {bare: 2.0 * hat})


def rim_lip(lip: float) -> Iterator[Mistake]:
    """Backspace, offset and rim width without their lips."""
    back, offset, width = "wheel.backspace", "wheel.offset", "wheel.rim_width"
    yield Mistake(f"{back} was taken to the bead seat, not to the lip's edge", {back: -lip})
    yield Mistake(f"{offset} was worked out with half the rim width alone", {offset: lip})
    yield Mistake(f"{width} was taken over the lips", {width: 2.0 * lip})


def whole_inch(names: Iterable[str]) -> Iterator[Mistake]:
    """A tape held at its first inch, or read at the wrong figure."""
    for name in names:
        yield Mistake(f"{name} reads a whole inch too much", {name: IN})
        yield Mistake(f"{name} reads a whole inch too little", {name: -IN})
