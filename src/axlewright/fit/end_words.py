"""What is wrong with one end of the axle, in words for the shop."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.fit import register, studs
from axlewright.fit.end_look import End, EndLook
from axlewright.quantities.formula import Num


@dataclass(frozen=True)
class Aim:
    """What this axle's bearing wants under its retainer, in m: play above zero, crush below."""

    low: float
    high: float
    family: str
    """Whose figure it is: the manual of this very axle, or the maker of the bearing."""

    @property
    def words(self) -> str:
        """The aim and whose it is."""
        if np.isinf(self.high):
            return f"play ({self.family})"
        if np.isinf(self.low):
            return f"crush ({self.family})"
        return f"{self.low * 1e3:.2f} to {self.high * 1e3:.2f} mm ({self.family})"


_BY_SIGN = "how much stands in the manual of this axle"
AIMS = {
    "play": Aim(0.0, np.inf, _BY_SIGN),
    "flush": Aim(-0.03e-3, 0.03e-3, f"face to face, 0.03 mm by common practice; {_BY_SIGN}"),
    "crush": Aim(-np.inf, 0.0, _BY_SIGN),
}
"""Where only the kind of aim is known: nothing but the sign is judged."""
SPACE_ERROR = 0.5e-3
"""Two ways to the same brake space that differ by more are not both right (m)."""


CALIPER_ROOM = 3e-3
"""Least room between caliper and wheel (m); common practice, no source."""

RETENTION = {
    "clip inside": "A clip inside the differential holds the shaft; if the shaft breaks nothing "
    "holds the wheel. Race rules often bar it.",
    "bearing retained": "A plate at the housing end holds bearing and shaft; a break outside the "
    "bearing still loses the wheel.",
    "bolt-in conversion": "Holds the wheel if the shaft breaks inside it; with ball bearings it "
    "leaks and wears under side load on the street.",
    "full float": "The hub carries the wheel and the shaft only torque: a broken shaft leaves the "
    "wheel on.",
}
"""What holds the wheel when a shaft breaks; as the trade tells it, checked against no standard."""


def chance_within(aim: Aim, look: EndLook) -> float:
    """Share of the samples whose bearing gap lies where this axle wants it."""
    gap = np.asarray(look.bearing_gap)
    return float(np.mean((gap >= aim.low) & (gap <= aim.high)))


def faults(end: End, look: EndLook, aim: Aim | None) -> tuple[str, ...]:
    """What must not be put together so, in words; the middle of samples is judged."""
    said = _bearing_words(look, aim)
    for words in (_seat_words, _brake_words, _access_words, _wheel_words):
        said += words(look)
    return tuple(f"{end.side}: {what}" for what in said)


def _bearing_words(look: EndLook, aim: Aim | None) -> list[str]:
    gap = _middle(look.bearing_gap)
    what = f"{'play' if gap >= 0.0 else 'crush'} of {abs(gap) * 1e3:.2f} mm"
    if aim is None:
        return [
            f"the bearing has {what} under its retainer; whether that is right stands in the "
            "manual of this axle alone, for families aim opposite ways"
        ]
    if aim.low <= gap <= aim.high:
        return []
    cure = (
        "take shim from under the retainer or add it beside the bearing"
        if gap > aim.high
        else "add shim under the retainer or take it from beside the bearing"
    )
    return [f"the bearing has {what} under its retainer and wants {aim.words}: {cure}"]


def _seat_words(look: EndLook) -> list[str]:
    said = []
    if look.space_disagrees is not None and abs(_middle(look.space_disagrees)) > SPACE_ERROR:
        said.append(
            f"the brake space as measured is {_middle(look.space_disagrees) * 1e3:+.2f} mm off "
            "the one of shaft and pocket: one of them is wrong, or the bearing is not home"
        )
    if _middle(look.thread_under_nut) < 0.0:
        said.append("the nut runs out of thread before it clamps the wheel: other studs")
    if _middle(look.diameters) < studs.LEAST_DIAMETERS:
        said.append(
            f"the nut takes only {_middle(look.diameters):.2f} stud diameters of thread and needs "
            "one at least: longer studs; do not drive it"
        )
    if look.closed_nut_gap is not None and _middle(look.closed_nut_gap) <= 0.0:
        said.append("the closed nut bottoms on its stud and clamps nothing")
    if _middle(look.flange_in_hat) <= 0.0:
        said.append("the flange is larger than the inside of hat or drum")
    step = _middle(look.register_left) if look.register_left is not None else np.inf
    for name, clearance in (("hat", look.hat_clearance), ("wheel", look.wheel_clearance)):
        if clearance is not None:
            how = register.centering(_middle(clearance), step if name == "wheel" else np.inf)
            if how != "by the hub":
                said.append(f"the {name} is not centered by the hub: {how}")
    return said


def _brake_words(look: EndLook) -> list[str]:
    said = []
    if look.drum_gap is not None and _middle(look.drum_gap) <= 0.0:
        said.append("the drum rubs on its plate")
    if look.rotor_room is not None and _middle(look.rotor_room) <= 0.0:
        off = _middle(look.rotor_off or 0.0)
        way = "outside" if off > 0.0 else "inside"
        said.append(f"the disc runs {abs(off) * 1e3:.2f} mm {way} the middle of its caliper")
    return said


def _wheel_words(look: EndLook) -> list[str]:
    said = []
    for room, where in ((look.under_rim, "the rim"), (look.behind_spokes, "the spokes")):
        if room is None or _middle(room) >= CALIPER_ROOM:
            continue
        left = _middle(room) * 1e3
        if left < 0.0:
            said.append(f"the caliper is {-left:.1f} mm too large for {where}")
        else:
            said.append(
                f"the caliper has only {left:.1f} mm to {where}; {CALIPER_ROOM * 1e3:.0f} mm is "
                "the least: pads wear, wheels bend and weights stick out"
            )
    return said


def _access_words(look: EndLook) -> list[str]:
    said = []
    if look.access_room is not None and _middle(look.access_room) < 0.0:
        said.append("the socket does not pass the flange to the retainer's nuts")
    if look.bolt_spare is not None and _middle(look.bolt_spare) < 0.0:
        said.append("the retainer bolts are too short for the stack: their nuts are not full")
    return said


def _middle(value: Num) -> float:
    return float(np.median(value))
