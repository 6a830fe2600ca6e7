"""The angles study in words: the sentence, what belongs to it, and what to set."""

from __future__ import annotations

from collections.abc import Sequence

from axlewright.build.resolve import Resolved
from axlewright.quantities.finding import Finding, Likelihood
from axlewright.quantities.units import show
from axlewright.studies.angles_notes import FIRST, Findings, first_wanted
from axlewright.studies.angles_numbers import Asked, Found
from axlewright.studies.angles_report import Judged, Room, Setting, Verdict
from axlewright.studies.angles_text import band_of, degrees, joined, number_text, tenth


def verdict_of(f: Found, now: Sequence[Judged], then: Sequence[Judged]) -> Verdict:
    """Which of the four answers it is."""
    if first_wanted(f):
        return "measure"
    if all(j.keeps for j in now):
        return "right"
    return "turn" if all(j.keeps for j in then) else "no setting"


def sentence(
    verdict: Verdict, f: Found, found: Findings, now: Sequence[Judged], then: Sequence[Judged]
) -> str:
    """The answer in one sentence."""
    if verdict == "measure":
        names = [FIRST[name][1] for name in first_wanted(f)]
        return f"Measure {joined(names)} first: without them no joint angle is known."
    if verdict == "right":
        front, rear = found["now_loaded_front"], found["now_loaded_rear"]
        return (
            f"The angles are right as they are: under full pull the joints work at"
            f" {degrees(front.value)} and {degrees(rear.value)}, and every limit is kept up to"
            f" {show(found['shaft_top'].value, 'rotation', digits=3)} of the driveshaft."
        )
    if verdict == "turn":
        return _turn(found)
    failing = joined([j.what for j in then if not j.keeps])
    return (
        f"No pinion angle keeps every limit: set for full pull ({degrees(found['static'].value)}"
        f" at rest) these are not kept: {failing}. Bring gearbox and axle nearer to one line first."
    )


def _turn(found: Findings) -> str:
    turn, gauge, off = found["turn"], found["gauge"], found["off_shaft"]
    way = "up" if turn.value > 0.0 else "down"
    low, high = sorted((abs(turn.low), abs(turn.high)))
    band = f"{tenth(low)} to {tenth(high)}" if turn.low * turn.high > 0.0 else band_of(turn)
    side = "above" if off.value > 0.0 else "below"
    return (
        f"Turn the pinion's nose {way} by {degrees(abs(turn.value))} ({band}): at rest on this"
        f" floor the gauge on it then shows {degrees(gauge.value)}, with the nose"
        f" {degrees(abs(off.value))} {side} the driveshaft's line."
    )


def contradictions(build: Resolved) -> list[str]:
    """Readings of the driveline that cannot all be right."""
    return [
        c.said
        for c in build.fitting.checks
        if c.said and any(name.startswith(("angles.", "slip.", "points.")) for name in c.suspects)
    ]


def more_words(
    build: Resolved,
    verdict: Verdict,
    asked: Asked,
    f: Found,
    found: Findings,
    now: Sequence[Judged],
    rooms: Sequence[Room],
    then: Likelihood | None,
) -> tuple[str, ...]:
    """What belongs to the answer but not into its sentence."""
    said = []
    failing = [f"{j.what}: {number_text(found[j.number])}, {j.limit}" for j in now if not j.keeps]
    if verdict != "measure" and failing:
        said.append(f"Not right as it is: {'; '.join(failing)}.")
    if verdict == "right":
        said.append(
            f"The middle way would be to turn the nose by {degrees(found['turn'].value)}"
            f" ({band_of(found['turn'])}); that is not needed."
        )
    if asked.window is not None:
        low, high = asked.window
        said.append(
            f"Anything from {degrees(low)} to {degrees(high)} at rest, against the car's floor"
            " line, keeps every limit."
        )
    if then is not None and then != "unlikely":
        said.append(
            f"Set so, it is {then} that a limit is still passed, for what is not known well:"
            " measure again what is read with a wide band."
        )
    if "static" in found and _apart(found["static_pull"], found["static"]):
        said.append(
            f"Full pull in first gear alone would ask for {degrees(found['static_pull'].value)} at"
            f" rest; it is set at {degrees(found['static'].value)} so that every limit is kept at"
            " the top speed of the shaft, too, coasting and pulling."
        )
    if verdict != "measure":
        rise = found["rise"]
        source = (
            "as it was measured" if asked.rise_measured
            else "as the bushes of the links give and the tail sinks" if f.pose is not None
            else "which is only what the trade allows for: measure it on a launch"
        )  # fmt: skip
        said.append(
            f"Reckoned with a nose that rises {degrees(rise.value)} ({band_of(rise)}) under full"
            f" pull, {source}."
        )
    said += contradictions(build)
    for room in rooms:
        if not room.holds:
            least, wanted = (show(v, room.dimension, digits=2) for v in (room.least, room.wanted))
            said.append(f"Too near, {room.what}: {least} of {wanted} wanted, {room.where}.")
    return tuple(said)


def _apart(one: Finding, other: Finding) -> bool:
    """Whether two angles differ as one reads them."""
    return degrees(one.value) != degrees(other.value)


def settings(found: Findings) -> tuple[Setting, ...]:
    """What to set, and what gauge and tape show then."""
    rows = (
        ("turn", "turn the nose up by", "shims, link lengths or perches; minus is down"),
        ("gauge", "gauge on the pinion", "on this floor, ride height, driver in; + is nose up"),
        ("gauge_shaft", "gauge on the driveshaft", "then, same place and same zero"),
        ("off_shaft", "pinion against the driveshaft", "reading on the pinion less that on the"
         " shaft"),
        ("static", "pinion against the car's floor line", "at rest"),
        ("set_loaded_pinion", "pinion against the car's floor line", "then, under full pull"),
        ("wanted", "gearbox against the car's floor line", "what full pull would have the pinion"
         " parallel to"),
        ("length", "driveshaft, joint center to joint center", "ride height, weight on the tires;"
         " measure again when the axle is in before it is ordered"),
        ("seal_length", "gearbox seal to the rear joint center", "ride height, to check it"),
        ("slip_gap", "slip yoke off its bottom", "ride height"),
        ("oil_bearing", "oil over the pinion's middle, front bearing",
         "filled to the hole; below zero fill by volume and turn the axle by hand first"),
    )  # fmt: skip
    return tuple(Setting(*row) for row in rows if row[0] in found)
