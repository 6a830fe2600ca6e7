"""What is usually forgotten when an axle is cycled through its travel: the list for the sweep.

Rooms are common practice, no source: half an inch for steel on steel that only passes by, more for
what is hot, soft or swings.
"""

from __future__ import annotations

from dataclasses import dataclass

_INCH = 0.0254


@dataclass(frozen=True)
class Watch:
    """One thing to look at over the whole travel."""

    moving: str
    against: str
    worst: str
    """Where it is usually nearest."""
    wanted: float
    """Room wanted, m."""
    why: str


WATCHED: tuple[Watch, ...] = (
    Watch("axle tube", "exhaust over the axle", "full bump", _INCH, "hot, and it shakes"),
    Watch("axle tube", "floor or frame over the axle", "bump stop squeezed", 0.5 * _INCH,
          "rubber gives: the stop's height is not the end"),
    Watch("differential cover", "tank", "full bump, nose wound down by braking", _INCH,
          "a tank that is struck leaks"),
    Watch("differential cover", "lateral rod", "full bump on the rod's side", 0.5 * _INCH,
          "the rod moves on an arc of its own"),
    Watch("anti-roll bar", "differential cover", "roll", 0.5 * _INCH, "its arms swing"),
    Watch("pinion yoke", "tunnel", "full bump, nose wound up by the launch", 0.5 * _INCH,
          "the nose rises as the axle is wound up"),
    Watch("driveshaft", "tunnel, loop and floor", "full bump", 0.75 * _INCH,
          "it whirls and its tube is out of true"),
    Watch("driveshaft", "parking cables and exhaust", "full bump and droop", _INCH,
          "a cable that it catches locks a wheel"),
    Watch("caliper or its hose", "spring, link and rim", "roll", 0.5 * _INCH,
          "a hose that rubs through takes the brakes with it"),
    Watch("brake line on the tube", "lower or upper link", "full bump and roll", 0.5 * _INCH,
          "a tab in the way of a link is bent at the first dip"),
    Watch("link bracket", "body bracket, spring seat", "full droop", 0.25 * _INCH,
          "links swing past their brackets as the axle hangs"),
    Watch("shock and its mount", "frame, tire, link", "roll", 0.5 * _INCH, "it leans in roll"),
    Watch("perch and U-bolts", "ground", "full bump, tire flat", 2.0 * _INCH,
          "a flat tire puts the axle on whatever hangs lowest"),
)  # fmt: skip
"""To be gone through with the axle in the car, both wheels up, both down, and one of each."""
