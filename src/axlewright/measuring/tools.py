"""How well a tool reads in the shop: limits ± of one reading, careful and hurried.

The division is what a reading is rounded to.  Repeats that fall on the same mark all share what was
rounded off, so no number of them makes it smaller.

Common practice, no source: half to one division of the tool, more where a datum is soft (a plumb
bob that swings, a lip that is no edge) or the thing is out of reach.  The limits hold a reading
with hardly any doubt; repeats show whether they do.
"""

from __future__ import annotations

from axlewright.quantities.records import record


@record
class Tool:
    """A way of measuring; ``careful``, ``hurried`` and ``division`` are shop text with units."""

    name: str
    careful: str
    hurried: str
    division: str


RULE = Tool("steel rule or tape", "1/16 in", "1/8 in", "1/16 in")
TAPE = Tool("tape over a long way", "1/8 in", "1/4 in", "1/16 in")
PLUMB = Tool("plumb bob and straightedge to the floor, tape", "1/8 in", "1/4 in", "1/16 in")
SQUARE = Tool("square off a straightedge, rule", "1/16 in", "3/16 in", "1/16 in")
DEPTH = Tool("depth gauge", "0.005 in", "0.02 in", "0.001 in")
CALIPER = Tool("caliper", "0.005 in", "0.02 in", "0.001 in")
MICROMETER = Tool("micrometer", "0.001 in", "0.003 in", "0.0005 in")
BAR = Tool("bar or tape through the tubes", "1/16 in", "1/8 in", "1/16 in")
GRID = Tool("plumb bob to a grid on the floor, tape for height", "1/8 in", "3/8 in", "1/16 in")
GAUGE = Tool("angle gauge", "0.25 deg", "0.75 deg", "0.1 deg")
CAMERA = Tool("camera fixed to the body, stripe on the axle", "0.5 deg", "1.5 deg", "0.1 deg")
PLAN = Tool("plumb bobs at both ends, tape", "0.3 deg", "1 deg", "0.1 deg")
TRAVEL = Tool("zip tie or tape, before and after", "1/8 in", "3/8 in", "1/16 in")
WRAP = Tool("tape round it", "1/16 in", "1/8 in", "1/16 in")
STAMP = Tool("read off the part", "1/32 in", "1/16 in", "1/32 in")
