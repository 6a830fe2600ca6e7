"""The angles study in words: what to measure, what to keep in mind, what to write down."""

from __future__ import annotations

from axlewright.build.resolve import Resolved
from axlewright.build.resolve.ledger import Ledger
from axlewright.quantities.estimate import leaves
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import show
from axlewright.studies.angles_fill import assumptions
from axlewright.studies.angles_linkage import NEEDS, lacking
from axlewright.studies.angles_numbers import Asked, Found
from axlewright.studies.angles_report import Proposal, Wanted
from axlewright.studies.angles_text import band_of
from axlewright.studies.input_lines import input_line
from axlewright.studies.report import InputLine

Findings = dict[str, Finding]
FIRST = {
    "gearbox": ("angles.gearbox", "the gearbox's slope"),
    "shaft": ("angles.driveshaft", "the driveshaft's slope"),
    "pinion": ("angles.pinion", "the pinion's slope"),
}
_TABLES = ("angles.", "slip.", "tunnel.")
_MORE = ("fit.bump", "fit.droop", "centre.nose")


def first_wanted(f: Found) -> tuple[str, ...]:
    """Slopes without which nothing can be said, of gearbox, shaft and pinion."""
    return tuple(name for name in FIRST if getattr(f.line, name) is None)


def wanted(build: Resolved, asked: Asked, f: Found) -> tuple[Wanted, ...]:
    """Readings that nobody took: those that the answer waits for ahead of the others."""
    first = [FIRST[name][0] for name in first_wanted(f)]
    missing = build.fitting.missing
    paths = [*first, *(p for p in missing if p.startswith(_TABLES) or p in _MORE)]
    if not asked.kind and not asked.trouble:
        paths.append("suspension.kind")
    paths += [f"points.{name}" for name in lacking(asked.kind, build.fitting.points)]
    book = Ledger(build.source.build)
    made = []
    for path in dict.fromkeys(paths):
        meta, _ = book.meta(path)
        made.append(Wanted(path, meta.means.rstrip("."), meta.advice, path in first))
    return tuple(made)


_KEYS = {
    "suspension.instant_center_ahead": "ic_ahead",
    "suspension.instant_center_height": "ic_height",
    "suspension.windup_stiffness": "windup_stiffness",
    "suspension.mount_stiffness": "mount_stiffness",
    "suspension.mount_height": "mount_height",
    "suspension.roll_torque_share": "torque_left",
}


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


def _text(f: Finding) -> str:
    """A band as the build file takes it."""
    low, high = (show(v, f.dimension, digits=4).replace(",", "") for v in (f.low, f.high))
    return low if low == high else f"{low.rpartition(' ')[0] or low} to {high}"


def inputs(build: Resolved) -> tuple[InputLine, ...]:
    """The readings that were used, and what was assumed beside them."""
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
        "Full pull is taken at ride height; that the tail sinks or rises meanwhile counts only in"
        " how far the nose turns. The table of the travel says what the angles are there.",
        "Two yokes that take different caps or widths want a combination joint: measure both"
        " yokes; outside clips over the caps, inside clips between the clips.",
    ]
    if "roll_center" in found:
        said.append(
            "Links and brackets do not give, bushes give along the link only. The load path judges"
            " tubes and bracket welds by the forces of these links where the wheel centers were"
            " measured, too; else it says so."
        )
    return tuple(dict.fromkeys(said))


def _unknown(asked: Asked, build: Resolved) -> str:
    if asked.trouble:
        return (
            f"The links as measured cannot be moved through the travel ({asked.trouble}): look at"
            " the points again. Until then side view and stiffness are those of the class, and the"
            " axle is taken to move straight up and down."
        )
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
