"""What is taken for granted, and what must be said beside the answer."""

from __future__ import annotations

from axlewright.build.resolve import Resolved
from axlewright.quantities.estimate import Estimate, leaves
from axlewright.studies.fit_both import Both
from axlewright.studies.fit_brakes import rear_share
from axlewright.studies.fit_fill import OLD_AXLE_OFF, SIDES
from axlewright.studies.fit_known import Lack


def assumptions(build: Resolved, b: Both) -> tuple[str, ...]:
    """What is taken for granted where nobody measured, in words."""
    f = build.fitting
    used = leaves((f.car, f.wheel, f.left_end, f.right_end, f.centre, f.brakes))
    if _middle_assumed(b):
        used[OLD_AXLE_OFF.path] = OLD_AXLE_OFF
    idle = _idle(b)
    return tuple(
        f"{e.means.rstrip('.')}: {e.text} ({e.source})"
        for e in used.values()
        if isinstance(e, Estimate) and e.origin == "assumed" and e.text and e.path not in idle
    )


def _idle(b: Both) -> frozenset[str]:
    """Keys of the brakes that nothing is worked out from in this build."""
    brakes = b.plain.fitting.brakes
    found = {"brakes.knee_share"} if brakes.knee_pressure is None else set()
    if not isinstance(rear_share(b.plain), Lack):
        found.add("brakes.rear_share")
    if brakes.rear_kind != "drum":
        found.add("brakes.rear_drum_factor")
    return frozenset(found)


def _middle_assumed(b: Both) -> bool:
    """Whether the old axle is taken as sitting in the middle, for want of body datums."""
    f = b.plain.fitting
    datums = (f.car.rail_to_rail, f.left.rail, f.right.rail)
    return f.car.face_to_face is not None and any(d is None for d in datums)


_STRAIGHT = (
    "The links are not worked in: the axle goes straight up and down and leans where it stands. A"
    " lateral rod moves it sideways: state fit.lateral_shift so that it covers that, or measure the"
    " points of the suspension."
)
_BEFORE_CUTTING = (
    "Lengths of shafts are taken again from the finished, straightened housing; a shaft that was"
    " cut is not taken back."
)
_MIDDLE = (
    "Body datums were not measured (fit.rail_to_rail, fit.left.rail, fit.right.rail): the old axle"
    " is taken as sitting in the middle, within a quarter inch."
)
_CLEARANCE = (
    "There is no firm standard for clearance: what is wanted here is common practice for street"
    " radials. Tires lean in bends, throw stones and wear chains; turn the wheel by hand through"
    " the whole travel before it is driven."
)
_SHOCK = (
    "Shocks and springs are taken where they stand on the old axle; new brackets may move them."
)


def cautions(build: Resolved, b: Both) -> tuple[str, ...]:
    """Everything that must be said, each once."""
    said = [*build.fitting.cautions, b.moving.caution]
    if _middle_assumed(b):
        said.append(_MIDDLE)
    if b.moving.places is not None and b.moving.linkage is None:
        said.append(_STRAIGHT)
    if any(b.plain.side(side).shock is not None for side in SIDES):
        said.append(_SHOCK)
    said += [_CLEARANCE, _BEFORE_CUTTING]
    return tuple(dict.fromkeys(s for s in said if s))
