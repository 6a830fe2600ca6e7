"""Printing the angles study: the sentence first, then what to set, then what turns and carries."""

from __future__ import annotations

from collections.abc import Sequence

from rich.console import Console
from rich.table import Table
from rich.text import Text

from axlewright.cli.show import console
from axlewright.quantities.units import System, pretty, show, significant
from axlewright.studies.angles_axle import CASES
from axlewright.studies.angles_report import AnglesReport, Judged, Sweep
from axlewright.studies.angles_text import band_text, degrees, number_text

_WIDTH = 98


def print_angles(report: AnglesReport, system: System) -> None:
    """Print the whole answer."""
    out = console()
    out.print(Text(report.name, style="bold"))
    out.print(Text(report.sentence, style="bold"), width=_WIDTH)
    for line in report.more:
        out.print(line, width=_WIDTH)
    _print(out, _settings(report, system))
    if report.states:
        _print(out, _states(report))
        _print(out, _limits(report))
    _print(out, _shaft(report, system))
    if report.rooms:
        _print(out, _rooms(report, system))
    _print(out, _tubes(report, system))
    _print(out, _joints(report, system))
    _print(out, _axle(report, system))
    if report.sweep is not None:
        _print(out, _travel(report, report.sweep, system))
    if report.carries:
        _print(out, _carries(report, system))
    _wanted(out, report)
    _notes(out, report)


def _print(out: Console, table: Table) -> None:
    out.print()
    out.print(table)


def _table(title: str, heads: Sequence[str], left: Sequence[int] = (0,)) -> Table:
    table = Table(
        box=None, pad_edge=False, header_style="dim", title=title, title_justify="left",
        title_style="bold", caption_justify="left",
    )  # fmt: skip
    for n, head in enumerate(heads):
        table.add_column(head, justify="left" if n in left else "right")
    return table


def _settings(report: AnglesReport, system: System) -> Table:
    table = _table("What to set, and what gauge and tape show", ("", "", "band", ""), (0, 3))
    for s in report.settings:
        f = report.findings[s.number]
        table.add_row(s.what, number_text(f, system), band_text(f, system), s.how)
    return table


def _states(report: AnglesReport) -> Table:
    heads = ("deg, rad/s²", "pinion", "shaft", "front joint", "rear joint", "front", "rear",
             "left over")  # fmt: skip
    table = _table("The driveline in every state", heads)
    for s in report.states:
        angles = (f"{s.key}_{e}" for e in ("pinion", "shaft", "front", "rear"))
        shakes = (f"{s.key}_{e}" for e in ("front_inertia", "rear_inertia", "left_over"))
        table.add_row(
            s.title,
            *(degrees(report.findings[k].value).removesuffix(" deg") for k in angles),
            *(significant(report.findings[k].value, 3) for k in shakes),
        )
    table.caption = (
        "front, rear: how hard that joint alone winds the shaft; left over: what both leave for"
        " the pinion. In first gear at the rev limit there, else at the top speed of the shaft."
    )
    return table


def _limits(report: AnglesReport) -> Table:
    table = _table("Limits, two separate ones and two of angles", ("", "limit", "as it is", "as it"
                   " should be"), (0, 1))  # fmt: skip
    for now, then in zip(report.now, report.then, strict=True):
        table.add_row(now.what, now.limit, _kept(report, now), _kept(report, then))
    return table


def _kept(report: AnglesReport, j: Judged) -> str:
    text = number_text(report.findings[j.number], "shop")
    return text if j.keeps else f"{text} !"


def _shaft(report: AnglesReport, system: System) -> Table:
    keys = ("shaft_top", "whirl_pinned", "whirl_ends", "whirl_margin", "half_critical",
            "half_road", "half_distance", "balance_offset", "balance_weight", "hard_torque",
            "cap_force", "dents_at", "couple", "joint_rating", "life_cruise",
            "life_pull")  # fmt: skip
    return _rows("Driveshaft", report, keys, system)


def _rows(title: str, report: AnglesReport, keys: Sequence[str], system: System) -> Table:
    table = _table(title, ("", "", "band"))
    for f in (report.findings[k] for k in keys if k in report.findings):
        table.add_row(f.means, number_text(f, system), band_text(f, system))
    return table


def _rooms(report: AnglesReport, system: System) -> Table:
    table = _table("Least room over the travel", ("", "least", "wanted", "where"), (0, 3))
    for r in report.rooms:
        least, wanted = (show(v, r.dimension, system, 3) for v in (r.least, r.wanted))
        table.add_row(r.what, least if r.holds else f"{least} !", wanted, r.where)
    return table


def _tubes(report: AnglesReport, system: System) -> Table:
    heads = ("tube", "margin in twist", "margin of safe speed", "weight", "")
    table = _table("Which tube would do: lightest that holds first", heads, (0, 4))
    for t in report.tubes:
        word = ", ".join(filter(None, ("fitted" if t.fitted else "", "" if t.holds else "short")))
        table.add_row(
            t.name, f"{t.twist:.2f}", f"{t.whirl:.2f}", show(t.mass, "mass", system, 3), word
        )
    return table


def _joints(report: AnglesReport, system: System) -> Table:
    heads = ("joint, in", "before it dents", "rating", "one yoke as fitted, the other for this")
    table = _table("Classes of joint: margin at the greatest torque, and rating", heads, (0, 3))
    for j in report.joints:
        word = "fitted: a plain joint, where both yokes take it" if j.fitted else j.fits
        table.add_row(j.name, f"{j.dents:.2f}", show(j.rating, "torque", system, 2), word)
    return table


AXLE = (
    "ic_ahead", "ic_height", "anti_squat", "anti_lift", "roll_center", "roll_steer", "torque_left",
    "windup_stiffness", "mount_stiffness", "mount_height", "rise_stiffness", "squat", "rise_squat",
    "rise_stated",
)  # fmt: skip


def _axle(report: AnglesReport, system: System) -> Table:
    source = "from its points" if report.axle_known else "of its class, points not measured"
    return _rows(f"The axle on its links, {source}", report, AXLE, system)


_EVERY = 4
"""Of the heights of the sweep, each fourth is printed."""


def _travel(report: AnglesReport, s: Sweep, system: System) -> Table:
    heads = ["both wheels", "pinion", "front joint", "rear joint", "joint to joint"]
    heads += ["anti-squat", "roll center", "roll steer"] if report.axle_known else []
    table = _table("Over the travel, as it should be set", heads)
    for n in range(0, len(s.travel), _EVERY):
        row = [show(s.travel[n], "length", system, 2)]
        row += [degrees(v[n]) for v in (s.pinion, s.front, s.rear)]
        row.append(show(s.length[n], "length", system, 4))
        if report.axle_known:
            row += [
                f"{100.0 * s.anti_squat[n]:.0f} %",
                show(s.roll_center[n], "length", system, 3),
                f"{100.0 * s.roll_steer[n]:.1f} %",
            ]
        table.add_row(*row)
    return table


def _carries(report: AnglesReport, system: System) -> Table:
    unit = pretty("lbf" if system == "shop" else "N")
    table = _table(f"What links and brackets carry, {unit}; pull above zero, springs push",
                   ("", *CASES.values()))  # fmt: skip
    for c in report.carries:
        values = (show(report.findings[k].value, "force", system, 3) for k in c.numbers.values())
        table.add_row(c.name, *(v.rpartition(" ")[0] for v in values))
    return table


def _wanted(out: Console, report: AnglesReport) -> None:
    if not report.wanted:
        return
    out.print()
    out.print(Text("Not measured", style="bold"))
    for w in (w for w in report.wanted if w.first):
        out.print(f"  {w.path}, which the answer waits for: {w.means}. {w.advice}", width=_WIDTH,
                  markup=False, highlight=False)  # fmt: skip
    rest = [w.path for w in report.wanted if not w.first]
    if rest:
        out.print(f"  {', '.join(rest)}", width=_WIDTH, markup=False, highlight=False)


def _notes(out: Console, report: AnglesReport) -> None:
    if report.proposals:
        out.print()
        out.print(Text("The build file might say (for launch and load path)", style="bold"))
        for p in report.proposals:
            out.print(f'  {p.key} = "{p.value}"  # {p.why}', markup=False, highlight=False)
    out.print()
    for caution in report.cautions:
        out.print(f"! {caution}", width=_WIDTH, markup=False)
    for line in report.safety:
        out.print(Text(line, style="dim"), width=_WIDTH)
    made = report.made
    out.print(Text(f"seed {made.seed}, {made.samples} samples", style="dim"))
