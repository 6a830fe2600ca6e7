"""Write the pictures of the documentation: load path, a page of the check paper, the limit card.

The same build, program and data give the same pictures; the date on them is fixed.  All stand on
white ground, so that they can be read on a dark page too.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from axlewright.drawing import palette
from axlewright.drawing.load_path import load_path
from axlewright.drawing.primitives import Drawing, Look, Rect
from axlewright.drawing.svg import to_svg
from axlewright.papers.check_paper import content
from axlewright.papers.limit_card import card_page
from axlewright.papers.press import page_pictures
from axlewright.workshop import bench

ROOT = Path(__file__).resolve().parents[1]
EXAMPLE = ROOT / "examples" / "copper-wren-tired.toml"
FOLDER = ROOT / "docs" / "pictures"
DAY = "2025-03-31"
SEED = 1
SAMPLES = 10_000
PAPER_PPI = 78.0
CARD_PPI = 130.0


def main() -> None:
    """Write all pictures."""
    for name, picture in pictures().items():
        (FOLDER / name).write_bytes(picture)
        print(f"{name}: {len(picture) / 1000:.0f} kB")


def pictures() -> dict[str, bytes]:
    """The pictures by file name."""
    build = bench.open_build(EXAMPLE)
    report = replace(bench.check(build, SEED, SAMPLES), file=EXAMPLE.name)
    card = bench.limits(build, SEED)
    path = on_white(load_path(report))
    return {
        "load-path.svg": to_svg(path, "path").encode(),
        "paper-page-1.png": page_pictures("check.typ", content(report, card, DAY), PAPER_PPI)[0],
        "limit-card.png": page_pictures("card.typ", card_page(card, DAY), CARD_PPI)[0],
    }


def on_white(drawing: Drawing) -> Drawing:
    """The drawing with white ground under it."""
    ground = Look(fill=palette.PAPER, stroke=None)
    sheet = Rect((0.0, 0.0), drawing.width, drawing.height, ground)
    return replace(drawing, shapes=(sheet, *drawing.shapes))


if __name__ == "__main__":
    main()
