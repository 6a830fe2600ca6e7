"""Safety sentences that every answer carries, and those that a build calls for."""

from __future__ import annotations

from axlewright.build.machine import Machine
from axlewright.quantities.estimate import Leaf

ALWAYS = (
    "This is an estimate from a description, not an inspection: nothing here replaces looking at"
    " the parts, local law, the rule book of your sanctioning body, or a licensed engineer.",
    "Chock the wheels and stand the car on rated stands; never work under a jack alone.",
    "Keep clear of turning shafts; a driveshaft loop belongs on any car that is launched hard.",
)


def safety_lines(m: Machine[Leaf]) -> tuple[str, ...]:
    """The sentences for this build."""
    lines = list(ALWAYS)
    if m.wheel_end.floating == "semi-floating" and m.wheel_end.retention == "clip":
        lines.append(
            "Where a clip holds the axle shafts from inside, a broken shaft lets the wheel leave."
            " Many rule books ask for positive retention at the bearing; check yours."
        )
    if m.differential.locks:
        lines.append(
            "A locked axle puts most of the torque on one shaft and pushes the car straight on in"
            " turns; it is not for the road, and rule books ask for stronger shafts."
        )
    if m.use.launch in {"trans-brake", "neutral drop"}:
        lines.append(
            "Nothing slips when an automatic is let go or dropped in at speed: expect the"
            " peak to reach every part."
        )
    return tuple(lines)
