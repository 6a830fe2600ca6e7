"""What is planned, judged as one of the choices: what is spare beside every face."""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence
from dataclasses import replace

import numpy as np

from axlewright.quantities.finding import band
from axlewright.studies.fit_both import Both
from axlewright.studies.fit_known import number
from axlewright.studies.fit_order import dimensions
from axlewright.studies.fit_report import RoomLine, WheelChoice
from axlewright.studies.fit_room import Room, rooms


def planned(b: Both, lines: Sequence[RoomLine], tire: str) -> WheelChoice | None:
    """What is planned; None while wheel or axle is not known."""
    by_key = {line.key: line for line in lines if line.clearance is not None}
    faces = [r for r in rooms(b.plain, b.look) if r.faces and r.key in by_key]
    sizes = [number(d.value) for d in dimensions(b.plain, b.look) if d.key in _CHOSEN]
    if not faces or any(v is None for v in sizes):
        return None
    width, backspace, offset, rim, section = (float(v or 0.0) for v in sizes)
    over = {r.key: _over(by_key[r.key]) for r in faces}
    worst = by_key[min(over, key=lambda k: over[k])]
    drawn = [np.asarray(r.clearance) - r.wanted for r in _same(b, over)]
    spare = np.min(np.stack(np.broadcast_arrays(*drawn)), axis=0)
    low, high = band(spare, over[worst.key])
    return WheelChoice(
        tire, rim, section, backspace, offset, width, over[worst.key], low, high,
        float(np.mean(spare >= 0.0)), f"{worst.side} {worst.thing}", worst.where,
        tuple((f"{by_key[k].side} {by_key[k].thing}", -v) for k, v in over.items() if v < 0.0),
        "as it is planned",
    )  # fmt: skip


_CHOSEN = ("fit_width", "backspace", "offset", "rim_width", "section")


def _over(line: RoomLine) -> float:
    assert line.clearance is not None
    return line.clearance.value - line.wanted


def _same(b: Both, keys: Container[str]) -> Iterator[Room]:
    """The sampled rooms of these keys, against what is wanted at the nominal values."""
    wanted = {r.key: float(np.median(np.asarray(r.wanted))) for r in rooms(b.plain, b.look)}
    for r in rooms(b.drawn, b.sampled):
        if r.key in keys:
            yield replace(r, wanted=wanted[r.key])
