"""Writes the page and the picture of the road-test comparison."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import numpy as np
from road_tests import Agreement, Row

from axlewright.drawing import palette
from axlewright.drawing.primitives import Circle, Drawing, Group, Line, Look, Rect, Shape, Text
from axlewright.drawing.svg import to_svg
from axlewright.quantities.formula import Array

DOCS = Path(__file__).resolve().parents[1] / "docs"
BEGIN, END = "<!-- from here on written by examples/road_tests.py -->\n", "<!-- to here -->\n"
LOW, HIGH = 12.0, 26.0
_LEFT, _TOP, _SIDE = 16.0, 6.0, 112.0
_GRID = Look(stroke=palette.RULE, width=0.18)


def _table(header: Sequence[str], body: Sequence[Sequence[str]]) -> list[str]:
    lines = [header, ["---"] * len(header), *body]
    return ["| " + " | ".join(line) + " |" for line in lines]


def _of(a: Agreement) -> list[str]:
    return [a.name, f"{a.correlation:.3f}", f"{a.bias:+.2f} s", f"{a.rmse:.2f} s"]


def lines(
    rows: Sequence[Row], worked: Array, found: Sequence[Agreement], fit: tuple[Array, float, float]
) -> list[str]:
    """What came out, as Markdown."""
    head = found[0]
    apart = worked - np.array([r.seconds for r in rows])
    spread = float(np.std(apart))
    text = [
        f"**All {len(rows)} rows, as frozen: correlation {head.correlation:.2f}, mean error"
        f" {head.bias:+.2f} s, root mean square error {head.rmse:.2f} s.** With the mean error"
        f" taken off, {spread:.2f} s is left. {int(np.sum(np.abs(apart) <= 1.0))} rows lie within"
        f" 1 s; the farthest is row {rows[int(np.argmax(np.abs(apart)))].number} with"
        f" {apart[np.argmax(np.abs(apart))]:+.2f} s.",
        "",
        f"The fit is t = {fit[1]:.2f} s · (lb/hp)^{fit[2]:.3f}, both numbers chosen from these very"
        " rows.",
        "",
        *_table(
            ("tried", "correlation", "mean error", "root mean square error"),
            [_of(a) for a in found],
        ),
        "",
        *_table(
            ("row", "measured", "worked out", "fitted", "worked out − measured"),
            [
                [f"{r.number}", f"{r.seconds:.2f} s", f"{w:.2f} s", f"{f:.2f} s", f"{a:+.2f} s"]
                for r, w, f, a in zip(rows, worked, fit[0], apart, strict=True)
            ],
        ),
    ]
    return [line.replace("-0.00", "0.00") for line in text]


def _place(seconds: float) -> float:
    return (min(max(seconds, LOW), HIGH) - LOW) / (HIGH - LOW) * _SIDE


def chart(rows: Sequence[Row], worked: Array, fit: Array) -> Drawing:
    """Worked-out over measured time; on the heavy line both are the same."""
    right, bottom = _LEFT + _SIDE, _TOP + _SIDE
    shapes: list[Shape] = []
    for tick in np.arange(LOW, HIGH + 0.1, 2.0):
        x, y = _LEFT + _place(tick), bottom - _place(tick)
        shapes += [
            Line((x, _TOP), (x, bottom), _GRID),
            Line((_LEFT, y), (right, y), _GRID),
            Text((x, bottom + 4.2), f"{tick:g}", 2.8, anchor="middle"),
            Text((_LEFT - 1.8, y + 1.0), f"{tick:g}", 2.8, anchor="end"),
        ]
    shapes.append(Line((_LEFT, bottom), (right, _TOP), Look(stroke=palette.INK, width=0.5)))
    shapes.append(Text((right, bottom + 9.0), "measured, s", 3.0, "SemiBold", "end"))
    shapes.append(Text((_LEFT, _TOP - 2.0), "worked out, s", 3.0, "SemiBold"))
    solid, hollow = Look(fill=palette.HOLDS, stroke=None), Look(stroke=palette.POSSIBLE, width=0.3)
    for row, w, f in zip(rows, worked, fit, strict=True):
        x = _LEFT + _place(row.seconds)
        inside = Group(
            (
                Circle((x, bottom - _place(float(f))), 1.1, hollow),
                Circle((x, bottom - _place(float(w))), 1.1, solid),
                Text((x + 1.5, bottom - _place(float(w)) - 0.6), f"{row.number}", 2.0,
                     color=palette.MUTED),
            ),
            id=f"row-{row.number}",
        )  # fmt: skip
        shapes.append(inside)
    key = bottom + 15.0
    shapes += [
        Circle((_LEFT + 1.1, key - 1.0), 1.1, solid),
        Text((_LEFT + 3.4, key), "worked out from the row and frozen defaults", 2.8),
        Circle((_LEFT + 67.1, key - 1.0), 1.1, hollow),
        Text((_LEFT + 69.4, key), "two numbers fitted to these rows", 2.8),
    ]
    size = (right + 6.0, key + 4.0)
    ground = Rect((0.0, 0.0), *size, Look(fill=palette.PAPER, stroke=None))
    words = " ".join(
        f"Row {r.number}: measured {r.seconds:.2f} s, worked out {w:.2f} s."
        for r, w in zip(rows, worked, strict=True)
    )
    title = "Quarter-mile times of 32 road tests of 1974, worked out against measured"
    return Drawing(*size, title, words, (ground, *shapes))


def write(
    rows: Sequence[Row], worked: Array, found: Sequence[Agreement], fit: tuple[Array, float, float]
) -> None:
    """Put what came out into the page, and the picture beside it."""
    page = DOCS / "road-tests.md"
    head, _, rest = page.read_text(encoding="utf-8").partition(BEGIN)
    text = "\n".join(lines(rows, worked, found, fit))
    page.write_text(f"{head}{BEGIN}\n{text}\n\n{END}{rest.partition(END)[2]}", encoding="utf-8")
    picture = DOCS / "pictures" / "road-tests.svg"
    picture.write_text(to_svg(chart(rows, worked, fit[0]), "road-tests"), encoding="utf-8")
