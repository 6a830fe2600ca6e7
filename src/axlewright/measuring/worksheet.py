"""The worksheet as data: what to measure, in which order, from where, with what, and why.

The order is that of the work: the wheel first, then the car as it stands, then the old axle and
the new parts on the bench, the driveshaft last.  ``key`` is where the reading goes in the build
file; ``picture`` names the drawing that shows it.
"""

from __future__ import annotations

import functools

from axlewright.measuring.tools import Tool
from axlewright.measuring.worksheet_bench import BENCH
from axlewright.measuring.worksheet_car import CAR
from axlewright.measuring.worksheet_line import LINE
from axlewright.measuring.worksheet_rows import Item, Stage

__all__ = ["STAGES", "Item", "Stage", "items", "tool_of"]

STAGES: tuple[Stage, ...] = (BENCH[0], *CAR, *BENCH[1:], *LINE)
"""Every stage in the order of the work."""


@functools.cache
def items() -> dict[str, Item]:
    """Every item by its key, in the order of the work."""
    return {item.key: item for stage in STAGES for item in stage.items}


def tool_of(key: str) -> Tool | None:
    """The tool that a key's limits are meant for; ``ends.left.hat`` is read like ``ends.hat``."""
    item = items().get(key)
    return item.tool if item else None
