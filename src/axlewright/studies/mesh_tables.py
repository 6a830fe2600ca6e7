"""Ratings of the gear pair as tables: one row a load, and what decides in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from axlewright.hypoid.oil_heat import ALARM, STOP, WANTED
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import show, significant
from axlewright.studies.mesh_carries import LIVES, life_id
from axlewright.studies.mesh_heat import CRUISE
from axlewright.studies.mesh_report import GearLoad, RatingRow, RatingTable

MARGINS: Final = {
    "bending_margin_by_method": "bending at the root, by the method",
    "bending_margin_by_contact": "bending at the root, by the contact",
    "pitting_margin_by_method": "pressure as rated, by the method",
    "pitting_margin_by_contact": "pressure as rated, by the contact",
    "pressure_margin": "the contact's own pressure",
}
_SNAPS: Final = {
    "snap_margin_by_method": "by the method",
    "snap_margin_by_contact": "by the contact",
}
_UNCHECKED = (
    "The method, its allowed stresses and its factor of 1.5 for crowning are from memory;"
    " its geometry factors are estimates: bending within 15 %, pressure within 20 %."
)
_NO_FILLET = (
    "Root tension by finite elements has no fillet: it compares torques, places and blanks, is no"
    " strength and enters no margin."
)
_EDGES = (
    "Unevenness leaves out the outermost 2.5 % of the flank. Where the load reaches an edge the"
    " tooth may chip there long before its middle reaches any of these limits."
)


@dataclass(frozen=True)
class _Table:
    name: str
    title: str
    means: str
    columns: Mapping[str, str]
    decides: Mapping[str, str]
    cautions: tuple[str, ...]


_TABLES: Final = (
    _Table(
        "spread", "How evenly the load lies",
        "Factor by which the greatest load exceeds that of an evenly crowned tooth: the method's,"
        " the standard's, and what the loaded contact gives; and how much one pair of teeth takes.",
        {
            "load_factor_by_method": "method", "load_factor_by_standard": "standard",
            "load_factor_by_contact": "contact", "largest_share": "most on one pair",
        },
        {}, (_EDGES,),
    ),
    _Table(
        "root", "Bending at the root",
        "Stress by the axle method with either load distribution, how much torque reaches its"
        " design limit over this torque, and the tension that finite elements show.",
        {
            "bending_by_method": "method", "bending_by_contact": "contact",
            "bending_margin_by_method": "margin, method",
            "bending_margin_by_contact": "margin, contact",
            "ring_root": "ring, elements", "pinion_root": "pinion, elements",
        },
        {k: v.partition(", ")[2] for k, v in MARGINS.items() if k.startswith("bending")},
        (_UNCHECKED, _NO_FILLET),
    ),
    _Table(
        "flank", "Pressure between the flanks",
        "As rated with either load distribution, and the contact's own greatest pressure; how much"
        " torque reaches the design limit over this torque.",
        {
            "pitting_by_method": "method", "pitting_by_contact": "contact",
            "peak_pressure": "contact's own", "pitting_margin_by_method": "margin, method",
            "pitting_margin_by_contact": "margin, contact", "pressure_margin": "margin, own",
        },
        {k: v.removeprefix("pressure ") for k, v in MARGINS.items() if "pressure" in v},
        (_UNCHECKED, "The contact's own pressure is taken to grow with the root of the torque."),
    ),
    _Table(
        "overload", "One overload",
        "Torque at the ring gear that snaps a tooth in one go, and over this torque.",
        {
            "snap_by_method": "method", "snap_by_contact": "contact",
            "snap_margin_by_method": "margin, method",
            "snap_margin_by_contact": "margin, contact",
        },
        _SNAPS,
        ("How far beyond the design stress a tooth snaps (2.2 to 3.4 times) is from memory.",
         _NO_FILLET),
    ),
    _Table(
        "long_life", "Torque for a long life",
        "Torque at the ring gear that root and flanks stand for millions of loadings, if the load"
        " lay as it does under this one.",
        {"long_life_by_method": "method", "long_life_by_contact": "contact"},
        {}, (_UNCHECKED,),
    ),
    _Table(
        "scuffing", "Scuffing, for ranking",
        "Every load at the speed of first gear at the shift, held until the teeth are warm, in oil"
        f" as warm as {CRUISE} on the hottest day leaves it.",
        {
            "sliding": "sliding", "flash": "flash", "body": "bodies", "integral": "integral",
            "scuffing_rank": "rank",
        },
        {},
        ("Forms for cylindrical gears, from memory: they rank loads, oils and ratios and foretell"
         " nothing. A pull of seconds leaves the bodies far cooler; a launch peaks at low speed.",),
    ),
    _Table(
        "losses", "What it turns into heat",
        "By part, at the speed of first gear at the shift; the first row is the cruise at"
        f" {CRUISE} on the hottest day.",
        {
            "mesh_heat": "teeth", "bearing_load_heat": "bearings, load",
            "bearing_drag_heat": "bearings, oil", "seal_heat": "seals",
            "churning_heat": "stirring", "lost_power": "all", "passes": "passes",
        },
        {},
        ("Friction of the flanks is chosen so that axles pass what was measured; bearings and"
         " stirring are from memory. Read a figure as 2 points either way, hot and loaded.",
         "Losses while coasting are not worked out."),
    ),
)  # fmt: skip


def tables_of(loads: Sequence[GearLoad], oil: Mapping[str, Finding]) -> tuple[RatingTable, ...]:
    """All tables of a report that have a row, the verdict first."""
    plain = {t.name: _plain(t, loads) for t in _TABLES}
    cruise = RatingRow("cruise", f"{CRUISE} on the hottest day", _cells(
        next(t for t in _TABLES if t.name == "losses"), oil), "")  # fmt: skip
    losses = plain["losses"]
    plain["losses"] = RatingTable(
        losses.name, losses.title, losses.means, losses.columns, (cruise, *losses.rows),
        losses.cautions,
    )  # fmt: skip
    whole = (_verdict(loads), *plain.values(), _bearings(loads), _oil(oil))
    return tuple(t for t in whole if t.rows)


def _plain(t: _Table, loads: Sequence[GearLoad]) -> RatingTable:
    rows = []
    for load in loads:
        cells = _cells(t, load.rated | load.contact)
        if any(cells):
            rows.append(RatingRow(load.name, load.title, cells, _decides(t, load)))
    return RatingTable(
        t.name, t.title, t.means, tuple(t.columns.values()), tuple(rows), t.cautions
    )  # fmt: skip


def _cells(t: _Table, found: Mapping[str, Finding]) -> tuple[Finding | None, ...]:
    return tuple(found.get(name) for name in t.columns)


def _decides(t: _Table, load: GearLoad) -> str:
    """Which way gives the smaller margin, where there are two."""
    known = {name: load.rated[name].value for name in t.decides if name in load.rated}
    if len(known) < 2:
        return ""
    return f"decides: {t.decides[min(known, key=lambda name: known[name])]}"


def least_margin(load: GearLoad) -> tuple[Finding, str] | None:
    """The least of a load's margins to its design limits, and whose it is."""
    known = [(load.rated[name], words) for name, words in MARGINS.items() if name in load.rated]
    return min(known, key=lambda each: each[0].value) if known else None


def _verdict(loads: Sequence[GearLoad]) -> RatingTable:
    rows = []
    for load in loads:
        least = least_margin(load)
        if least is not None:
            rows.append(RatingRow(load.name, load.title, (least[0],), f"decides: {least[1]}"))
    return RatingTable(
        "verdict", "What decides",
        "Least of all margins to the design limits: torque that reaches one over this torque.",
        ("least margin",), tuple(rows), (_UNCHECKED,),
    )  # fmt: skip


def _bearings(loads: Sequence[GearLoad]) -> RatingTable:
    rows = [row for load in loads for row in _of_bearings(load)]
    return RatingTable(
        "bearings", "Lives of the bearings",
        "Turns of its shaft that nine of ten reach under this very load: by the rating rule of ISO"
        " 281, and by each roller's slices; the road until the shorter life ends.",
        ("ISO 281", "by slices", "road"), tuple(rows),
        ("Rollers, ratings and ISO/TS 16281 are from size and memory where the build does not name"
         " the bearing; oil film, dirt and edge stress are no part of either life. A load that"
         " comes seldom uses up little: weigh each by how long it lasts.",),
    )  # fmt: skip


def _of_bearings(load: GearLoad) -> Iterator[RatingRow]:
    for line in load.bearings:
        cells = tuple(load.rated.get(life_id(line.name, what)) for what in LIVES)
        if any(cells):
            yield RatingRow(
                load.name, f"{load.title}: {line.name}", cells, "; ".join(line.cautions)
            )


def _oil(oil: Mapping[str, Finding]) -> RatingTable:
    columns = {"hot_day": "hottest day", "mild_day": "mild day", "warming": "two thirds after"}
    cells = tuple(oil.get(c) for c in columns)
    row = RatingRow("cruise", f"Oil at {CRUISE}", cells, _mark(oil["hot_day"].value))
    return RatingTable(
        "oil", "How warm the oil gets",
        f"Heat made against heat carried off, steady at {CRUISE} on a level road.",
        tuple(columns.values()), (row,),
        ("No car's oil was measured for this: the air under the car is a guess, so the band is"
         " wide. Wanted is below 250 °F; at 275 °F slow down and let it cool, 300 °F ruins oil and"
         " seals (the trade's marks, from memory). Read it with a strip or an infrared gun; hot oil"
         " burns.",),
    )  # fmt: skip


def _mark(hot: float) -> str:
    """The trade's word on oil so warm on the hottest day."""
    if hot >= STOP:
        return "on the hottest day it ruins oil and seals"
    if hot >= ALARM:
        return "on the hottest day slow down and let it cool"
    return "on the hottest day warmer than wanted" if hot >= WANTED else "as warm as wanted"


def rating_sentence(loads: Sequence[GearLoad]) -> str:
    """What the pair carries in its hardest case."""
    hardest = next(load for load in loads if load.name == "drive.hardest")
    least = least_margin(hardest)
    if least is None:
        return ""
    margin, what = least
    torque = show(hardest.ring_torque.value, "torque", digits=3)
    stays = "stays within" if margin.value >= 1.0 else "is beyond"
    snaps = [hardest.rated[name] for name in _SNAPS if name in hardest.rated]
    snap = min(snaps, key=lambda f: f.value)
    return (
        f"In the hardest case ({torque} at the ring gear) the pair {stays} its design limits:"
        f" {what}, decides and is reached at {_times(margin)} this torque; a tooth snaps at"
        f" {_times(snap)} it."
    )


def _times(found: Finding) -> str:
    """A margin with its band, where it has one."""
    value = f"{significant(found.value, 2)} times"
    if found.low == found.high:
        return value
    return f"{value} ({significant(found.low, 2)} to {significant(found.high, 2)})"
