"""The tables, fields and picture of the angles page, as plain values."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from axlewright.build.problems import Problem
from axlewright.drawing.angles_picture import degrees as picture_degrees
from axlewright.drawing.angles_picture import height_words
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import from_si, show, significant
from axlewright.studies.angles_axle import CASES
from axlewright.studies.angles_linkage import NEEDS
from axlewright.studies.angles_picture import Standing
from axlewright.studies.angles_report import AnglesReport, Judged
from axlewright.studies.angles_text import band_text, number_text
from axlewright.web.views.form import Field, FieldGroup, Mark, groups, marks
from axlewright.web.views.tables import Number

SHAFT = (
    "shaft_top", "whirl_pinned", "whirl_ends", "whirl_margin", "half_critical", "half_road",
    "half_distance", "balance_offset", "balance_weight", "hard_torque", "cap_force", "dents_at",
    "couple", "joint_rating", "life_cruise", "life_pull",
)  # fmt: skip
AXLE = (
    "ic_ahead", "ic_height", "anti_squat", "anti_lift", "roll_center", "roll_steer", "torque_left",
    "windup_stiffness", "mount_stiffness", "mount_height", "rise_stiffness", "squat", "rise_squat",
    "rise_stated",
)  # fmt: skip
_TABLES = ("angles", "points", "bushes", "slip", "tunnel", "suspension")
_SINGLE = ("fit.bump", "fit.droop", "centre.nose", "suspension.kind")
_JOINTS = (
    "pinion_joint", "gearbox_joint", "wheel_center", "spring_body", "spring_axle", "lateral_body",
    "lateral_axle", "symmetric",
)  # fmt: skip
_EVERY = 4
"""Of the heights of the sweep, each fourth is printed."""


@dataclass(frozen=True)
class Row:
    """A line of a table: its name, its numbers, and a word after them."""

    name: str
    cells: tuple[Number, ...]
    word: str = ""
    holds: bool = True


@dataclass(frozen=True)
class FieldSet:
    """Fields that belong together, with what stands beside each; the first have no title."""

    title: str
    fields: tuple[tuple[Field, Mark], ...]


def tables(report: AnglesReport) -> dict[str, object]:
    """Every table of the page."""
    return {
        "settings": _settings(report),
        "states": _states(report),
        "limits": _limits(report),
        "shaft": _plain(report, SHAFT),
        "axle": _plain(report, AXLE),
        "rooms": _rooms(report),
        "tubes": _tubes(report),
        "joints": _joints(report),
        "carries": _carries(report),
        "cases": tuple(CASES.values()),
        "travel": _travel(report),
    }


def _number(f: Finding) -> Number:
    return Number(f.id, number_text(f), band_text(f))


def _bare(f: Finding) -> Number:
    return Number(f.id, number_text(f))


def _settings(report: AnglesReport) -> tuple[Row, ...]:
    return tuple(
        Row(s.what[:1].upper() + s.what[1:], (_number(report.findings[s.number]),), s.how)
        for s in report.settings
    )


def _states(report: AnglesReport) -> tuple[Row, ...]:
    ends = ("pinion", "shaft", "front", "rear", "front_inertia", "rear_inertia", "left_over")
    return tuple(
        Row(s.title, tuple(_short(report.findings[f"{s.key}_{e}"]) for e in ends))
        for s in report.states
    )


def _short(f: Finding) -> Number:
    """A number without its unit, which stands above the column."""
    text = number_text(f)
    bare = significant(f.value, 3) if f.dimension != "angle" else text.removesuffix(" deg")
    return Number(f.id, bare)


def _limits(report: AnglesReport) -> tuple[Row, ...]:
    rows = []
    for now, then in zip(report.now, report.then, strict=True):
        cells = (_kept(report, now), _kept(report, then))
        name = now.what[:1].upper() + now.what[1:]
        rows.append(Row(name, cells, now.limit, now.keeps))
    return tuple(rows)


def _kept(report: AnglesReport, j: Judged) -> Number:
    f = report.findings[j.number]
    return Number(f.id, number_text(f), "" if j.keeps else "not kept")


def _plain(report: AnglesReport, keys: Iterable[str]) -> tuple[Row, ...]:
    known = (report.findings[k] for k in keys if k in report.findings)
    return tuple(Row(f.means, (_number(f),)) for f in known)


def _rooms(report: AnglesReport) -> tuple[Row, ...]:
    return tuple(
        Row(
            r.what[:1].upper() + r.what[1:],
            (
                Number("", show(r.least, r.dimension, digits=2), "" if r.holds else "too near"),
                Number("", show(r.wanted, r.dimension, digits=2)),
            ),
            r.where,
            r.holds,
        )
        for r in report.rooms
    )


def _tubes(report: AnglesReport) -> tuple[Row, ...]:
    rows = []
    for t in report.tubes:
        cells = (
            Number("", f"{t.twist:.2f}"),
            Number("", f"{t.whirl:.2f}"),
            Number("", show(t.mass, "mass", digits=3)),
        )
        word = ", ".join(filter(None, ("fitted" if t.fitted else "", "" if t.holds else "short")))
        rows.append(Row(t.name, cells, word, t.holds))
    return tuple(rows)


def _joints(report: AnglesReport) -> tuple[Row, ...]:
    rows = []
    for j in report.joints:
        cells = (Number("", f"{j.dents:.2f}"), Number("", show(j.rating, "torque", digits=2)))
        word = "fitted: a plain joint, where both yokes take it" if j.fitted else j.fits
        rows.append(Row(j.name, cells, word, j.dents >= 1.0))
    return tuple(rows)


def _carries(report: AnglesReport) -> tuple[Row, ...]:
    return tuple(
        Row(
            c.name[:1].upper() + c.name[1:],
            tuple(_bare(report.findings[k]) for k in c.numbers.values()),
        )
        for c in report.carries
    )


def _travel(report: AnglesReport) -> tuple[Row, ...]:
    s = report.sweep
    if s is None:
        return ()
    rows = []
    for n in range(0, len(s.travel), _EVERY):
        cells = [picture_degrees(v[n]) for v in (s.pinion, s.front, s.rear)]
        cells.append(show(s.length[n], "length", digits=4))
        if s.anti_squat:
            cells += [
                f"{100.0 * s.anti_squat[n]:.0f} %",
                show(s.roll_center[n], "length", digits=3),
                f"{100.0 * s.roll_steer[n]:.1f} %",
            ]
        name = height_words(s.travel[n])
        rows.append(Row(name[:1].upper() + name[1:], tuple(Number("", c) for c in cells)))
    return tuple(rows)


def moves(s: Standing) -> tuple[tuple[str, str], ...]:
    """What changes as the slider goes: name and value."""
    rows = [
        ("Pinion", picture_degrees(s.pinion_slope)),
        ("Driveshaft", picture_degrees(s.shaft_slope)),
        ("Front joint", picture_degrees(s.front_angle)),
        ("Rear joint", picture_degrees(s.rear_angle)),
        ("Slip yoke", _slip(s.slip)),
    ]
    if s.anti_squat is not None:
        rows.append(("Anti-squat", f"{100.0 * s.anti_squat:.0f} %"))
    if s.roll_center is not None:
        rows.append(("Roll center", f"{show(s.roll_center, 'length', digits=3)} up"))
    return tuple(rows)


def _slip(way: float) -> str:
    if abs(way) < 1e-4:
        return "as at ride height"
    return f"{show(abs(way), 'length', digits=2)} further {'out' if way > 0.0 else 'in'}"


def fields(
    raw: Mapping[str, str], report: AnglesReport | None, problems: Iterable[Problem], kind: str
) -> tuple[FieldSet, ...]:
    """The fields of this question: angles first, then points of the kind of suspension."""
    used = {} if report is None else {line.path: line for line in report.inputs}
    beside = {m.slug: m for m in marks(tuple(problems), used, ())}
    every = groups(raw, ())
    first = (
        {f"angles.{n}" for n in _FIRST}
        | {"suspension.kind"}
        | {f"points.{n}" for n in NEEDS.get(kind, ())}
    )
    known = {f.path: f for group in every for f in group.fields}
    made = [_set("", [known[p] for p in _ordered(first, known)], beside)]
    for group in every:
        chosen = [f for f in _of(group, kind) if f.path not in first]
        if chosen:
            made.append(_set(group.title, chosen, beside))
    return tuple(made)


_FIRST = ("gearbox", "driveshaft", "pinion", "pinion_rise")


def _ordered(wanted: set[str], known: Mapping[str, Field]) -> list[str]:
    """Paths in the order of the form, angles ahead of points."""
    return sorted((p for p in known if p in wanted), key=lambda p: p.startswith("points."))


def _set(title: str, chosen: Iterable[Field], beside: Mapping[str, Mark]) -> FieldSet:
    return FieldSet(title, tuple((_named(f), beside[f.slug]) for f in chosen))


def _named(f: Field) -> Field:
    """A field whose label is understood without the title of its table."""
    return replace(f, label="Suspension") if f.path == "suspension.kind" else f


def _of(group: FieldGroup, kind: str) -> tuple[Field, ...]:
    if group.path == "points":
        names = (*NEEDS.get(kind, ()), *_JOINTS)
        wanted = {f"points.{n}" for n in names}
        return tuple(f for f in group.fields if f.path in wanted or f.value)
    if group.path in _TABLES and group.path != "suspension":
        return group.fields
    return tuple(f for f in group.fields if f.path in _SINGLE)


_HEADS = (
    "travel, in", "pinion, deg", "front joint, deg", "rear joint, deg", "joint to joint, in",
    "anti-squat, %", "roll center, in", "roll steer, %",
)  # fmt: skip


def travel_rows(report: AnglesReport) -> list[list[str]]:
    """The whole travel as numbers, to save."""
    s = report.sweep
    if s is None:
        return [["travel, in"]]
    rows = [list(_HEADS)]
    for n, travel in enumerate(s.travel):
        slopes = (_figure(v[n], "angle") for v in (s.pinion, s.front, s.rear))
        row = [_figure(travel, "length"), *slopes, _figure(s.length[n], "length")]
        if s.anti_squat:
            row += [
                f"{100.0 * s.anti_squat[n]:.4g}",
                _figure(s.roll_center[n], "length"),
                f"{100.0 * s.roll_steer[n]:.4g}",
            ]
        rows.append(row)
    return rows


def _figure(value: float, dimension: str) -> str:
    return f"{from_si(value, dimension)[0]:.5g}"
