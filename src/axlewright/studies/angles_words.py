"""The angles study in words: the sentence, what to set, what to measure, what to keep in mind."""

from __future__ import annotations

from collections.abc import Sequence

from axlewright.build.resolve import Resolved
from axlewright.build.resolve.ledger import Ledger
from axlewright.quantities.estimate import leaves
from axlewright.quantities.finding import Finding, Likelihood
from axlewright.quantities.units import System, from_si, show, significant
from axlewright.studies.angles_linkage import NEEDS, lacking
from axlewright.studies.angles_numbers import Asked, Found
from axlewright.studies.angles_report import Judged, Proposal, Room, Setting, Verdict, Wanted
from axlewright.studies.input_lines import input_line
from axlewright.studies.report import InputLine

Findings = dict[str, Finding]
_FIRST = {
    "gearbox": ("angles.gearbox", "the gearbox's slope"),
    "shaft": ("angles.driveshaft", "the driveshaft's slope"),
    "pinion": ("angles.pinion", "the pinion's slope"),
}
_TABLES = ("angles.", "slip.", "tunnel.")
_MORE = ("fit.bump", "fit.droop", "centre.nose")


def degrees(value: float) -> str:
    """An angle to a tenth of a degree, as a gauge is read."""
    return f"{_tenth(value)} deg"


def _tenth(value: float) -> str:
    text = f"{from_si(value, 'angle')[0]:.1f}"
    return "0.0" if text == "-0.0" else text


def band_of(f: Finding) -> str:
    """The band of an angle."""
    return f"{_tenth(f.low)} to {_tenth(f.high)}"


def first_wanted(f: Found) -> tuple[str, ...]:
    """Slopes without which nothing can be said, of gearbox, shaft and pinion."""
    return tuple(name for name in _FIRST if getattr(f.line, name) is None)


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
        names = [_FIRST[name][1] for name in first_wanted(f)]
        return f"Measure {_list(names)} first: without them no joint angle is known."
    if verdict == "right":
        front, rear = found["now_loaded_front"], found["now_loaded_rear"]
        return (
            f"The angles are right as they are: under full pull the joints work at"
            f" {degrees(front.value)} and {degrees(rear.value)}, and every limit is kept up to"
            f" {show(found['shaft_top'].value, 'rotation', digits=3)} of the driveshaft."
        )
    if verdict == "turn":
        return _turn(found)
    failing = _list([j.what for j in then if not j.keeps])
    return (
        f"No pinion angle keeps every limit: set for full pull ({degrees(found['static'].value)}"
        f" at rest) there is still too much of {failing}. Bring gearbox and axle nearer to one"
        " line first."
    )


def _turn(found: Findings) -> str:
    turn, gauge, off = found["turn"], found["gauge"], found["off_shaft"]
    way = "up" if turn.value > 0.0 else "down"
    low, high = sorted((abs(turn.low), abs(turn.high)))
    band = f"{_tenth(low)} to {_tenth(high)}" if turn.low * turn.high > 0.0 else band_of(turn)
    side = "above" if off.value > 0.0 else "below"
    return (
        f"Turn the pinion's nose {way} by {degrees(abs(turn.value))} ({band}): at rest on this"
        f" floor the gauge on it then shows {degrees(gauge.value)}, with the nose"
        f" {degrees(abs(off.value))} {side} the driveshaft's line."
    )


def more_words(
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
            else "as the bushes of the links give" if f.pose is not None
            else "which is only what the trade allows for: measure it on a launch"
        )  # fmt: skip
        said.append(
            f"Reckoned with a nose that rises {degrees(rise.value)} ({band_of(rise)}) under full"
            f" pull, {source}."
        )
    for room in rooms:
        if not room.holds:
            least, wanted = (show(v, room.dimension, digits=2) for v in (room.least, room.wanted))
            said.append(f"Too near, {room.what}: {least} of {wanted} wanted, {room.where}.")
    return tuple(said)


def _apart(one: Finding, other: Finding) -> bool:
    """Whether two angles differ as one reads them."""
    return degrees(one.value) != degrees(other.value)


PERCENT = {"anti_squat", "anti_lift", "roll_steer", "torque_left", "half_distance"}


def number_text(f: Finding, system: System = "shop") -> str:
    """A number as every face prints it in this study."""
    if f.dimension == "angle":
        return degrees(f.value)
    if f.id in PERCENT:
        return f"{significant(f.value * 100.0, 2)} %"
    if f.dimension == "ratio":
        return shares(f.value)
    if f.dimension == "time":
        return _hours(f.value)
    if f.id == "balance_weight":
        return f"{significant(f.value * 1000.0, 2)} g"
    return show(f.value, f.dimension, system, _DIGITS.get(f.id, _OF_KIND.get(f.dimension, 4)))


def _hours(seconds: float) -> str:
    """A running time; what outlasts the car is not told in digits."""
    if seconds > _OUTLASTS:
        return f"over {significant(_OUTLASTS / 3600.0, 1)} h"
    return f"{significant(seconds / 3600.0, 2)} h"


_OUTLASTS = 1e5 * 3600.0
_DIGITS = {"balance_offset": 2, "couple": 2, "mount_height": 2}
_OF_KIND = {"force": 3, "torque": 3, "stiffness": 2, "torsional stiffness": 2, "rotation": 3,
            "speed": 3, "mass": 3, "angular acceleration": 3}  # fmt: skip


def band_text(f: Finding, system: System = "shop") -> str:
    """Its 5 to 95 % band without the unit; nothing where it has no width."""
    low, high = (
        number_text(Finding(f.id, f.means, v, v, v, f.dimension), system) for v in (f.low, f.high)
    )
    if low == high:
        return ""
    return " to ".join(t.removesuffix(f" {t.rpartition(' ')[2]}") for t in (low, high))


def settings(found: Findings) -> tuple[Setting, ...]:
    """What to set, and what gauge and tape show then."""
    rows = (
        ("turn", "turn the nose up by", "shims, link lengths or perches; minus is down"),
        ("gauge", "gauge on the pinion", "on this floor, ride height, driver in; + is nose up"),
        ("gauge_shaft", "gauge on the driveshaft", "then, same place and same zero"),
        ("off_shaft", "pinion against the driveshaft", "reading on the pinion less that on the"
         " shaft"),
        ("static", "pinion against the car's floor line", "at rest"),
        ("wanted", "pinion against the car's floor line", "under full pull: as the gearbox"),
        ("length", "driveshaft, joint center to joint center", "ride height, weight on the tires;"
         " measure again when the axle is in before it is ordered"),
        ("seal_length", "gearbox seal to the rear joint center", "ride height, to check it"),
        ("slip_gap", "slip yoke off its bottom", "ride height"),
    )  # fmt: skip
    return tuple(Setting(*row) for row in rows if row[0] in found)


def wanted(build: Resolved, asked: Asked, f: Found) -> tuple[Wanted, ...]:
    """Readings that nobody took: those that the answer waits for ahead of the others."""
    first = [_FIRST[name][0] for name in first_wanted(f)]
    missing = build.fitting.missing
    paths = [*first, *(p for p in missing if p.startswith(_TABLES) or p in _MORE)]
    if not asked.kind:
        paths.append("suspension.kind")
    paths += [f"points.{name}" for name in lacking(asked.kind, build.fitting.points)]
    book = Ledger(build.source.build)
    made = []
    for path in dict.fromkeys(paths):
        meta, _ = book.meta(path)
        made.append(Wanted(path, meta.means.rstrip("."), meta.advice, path in first))
    return tuple(made)


def proposals(f: Found, found: Findings) -> tuple[Proposal, ...]:
    """Lines for the build file that the launch and the load path could read."""
    made = []
    if f.pose is not None:
        why = "worked out from points and bushes"
        for key, number in _KEYS.items():
            if number in found:
                made.append(Proposal(key, _text(found[number]), why))
    if "set_loaded_rear" in found:
        made.append(
            Proposal("driveshaft.angle", _text(found["set_loaded_rear"]),
                     "working angle of the rear joint under full pull")
        )  # fmt: skip
    if f.line.found.get("length", "").startswith(("measured", "from", "between")):
        made.append(Proposal("driveshaft.length", _text(found["length"]), f.line.found["length"]))
    return tuple(made)


_KEYS = {
    "suspension.instant_center_ahead": "ic_ahead",
    "suspension.instant_center_height": "ic_height",
    "suspension.windup_stiffness": "windup_stiffness",
    "suspension.mount_stiffness": "mount_stiffness",
    "suspension.mount_height": "mount_height",
    "suspension.roll_torque_share": "torque_left",
}


def _text(f: Finding) -> str:
    """A band as the build file takes it."""
    low, high = (show(v, f.dimension, digits=4).replace(",", "") for v in (f.low, f.high))
    return low if low == high else f"{low.rpartition(' ')[0] or low} to {high}"


def inputs(build: Resolved) -> tuple[InputLine, ...]:
    """The readings that were used, and what was assumed beside them."""
    from axlewright.studies.angles_fill import assumptions  # noqa: PLC0415

    x = build.fitting
    trees = (x.angles, x.slip, x.tunnel, x.points, x.bushes, x.car.bump, x.car.droop,
             x.centre.nose, assumptions())  # fmt: skip
    return tuple(input_line(e) for e in leaves(trees).values())


def cautions(build: Resolved, asked: Asked, f: Found, found: Findings) -> tuple[str, ...]:
    """What to keep in mind."""
    said = [*build.fitting.cautions]
    words = f.line.found
    said += [f"{words[k][:1].upper()}{words[k][1:]}." for k in ("nose", "plan") if k in words]
    if words.get("length", "").startswith("driveshaft.length"):
        said.append(f"Length: {words['length']}. Do not order a shaft by it.")
    if f.axle is not None:
        bushes, trade = found["rise_stiffness"], found["rise_stated"]
        if not asked.rise_measured and (bushes.high < trade.low or trade.high < bushes.low):
            said.append(
                f"The bushes alone let the nose rise {band_of(bushes)} deg; the trade allows"
                f" {band_of(trade)} for this kind, since brackets, housing and floor give too."
                " Measure it on a launch: a camera fixed to the body, a stripe on the axle."
            )
        said += [f"{c[:1].upper()}{c[1:]}." for c in f.axle.cautions]
    else:
        said.append(_unknown(asked, build))
    said += [
        "Limits of shake (about 1,000 rad/s² for one joint, about 400 rad/s² for what both leave"
        " over), 0.5 deg at least and ends within 1 deg are common practice, no source.",
        "Bump and droop are told as places: nobody drives at top speed on the bump stop, so they"
        " are not held against the limits.",
        "Stiffness of gearbox tail and pinion is from memory with a wide band: the usual 0.7 of"
        " the speed on stiff pins stays the better guide to a safe speed.",
        "Full pull is taken at ride height; how far the tail squats or rises meanwhile is in the"
        " table of the travel.",
        "Two yokes that take different caps or widths want a combination joint: measure both"
        " yokes; outside clips over the caps, inside clips between the clips.",
    ]
    if "roll_center" in found:
        said.append(
            "Links do not bend and bushes give along the link only; brackets are as stiff as the"
            " points say. Forces on brackets are not handed to the housing check of the load path:"
            " that one still uses its own share of the torque."
        )
    return tuple(dict.fromkeys(said))


def _unknown(asked: Asked, build: Resolved) -> str:
    if not asked.kind:
        return (
            "Kind of suspension not stated: side view and stiffness are those of a mixture of"
            " kinds, and the axle is taken to move straight up and down."
        )
    names = ", ".join(f"points.{n}" for n in lacking(asked.kind, build.fitting.points))
    what = f"{names} not measured" if asked.kind in NEEDS else "the kind is not known here"
    return (
        f"Links not known ({what}): side view and stiffness are those of the class, with its wide"
        " band, and the axle is taken to move straight up and down."
    )


def shares(value: float) -> str:
    """A share of a limit or a margin in two decimals, never rounded across one."""
    text = f"{value:.2f}"
    if text == "1.00" and value != 1.0:
        return "1.01" if value > 1.0 else "0.99"
    return text


def _list(parts: Sequence[str]) -> str:
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"
