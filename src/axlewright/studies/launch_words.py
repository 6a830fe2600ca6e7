"""What the marched cases are called, in one place for the march and for the load path."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from axlewright.quantities.units import significant

WORDS: Final[dict[str, tuple[str, str]]] = {
    "gentle": (
        "Gentle start",
        "Clutch and throttle brought in together, slowly; an automatic's throttle rolled on.",
    ),
    "slip": ("Slipped launch", "Clutch let in at launch speed and slipped on purpose."),
    "dump": (
        "Clutch dump",
        "Foot off the side of the pedal at launch speed, throttle opened with it.",
    ),
    "two-step": ("Two-step launch", "Full throttle on the limiter, clutch dropped."),
    "foot-brake": ("Brake-stall launch", "Wound up on the brakes, then let go."),
    "trans-brake": (
        "Trans-brake release",
        "Stall torque held inside the gearbox, then let go at once.",
    ),
    "neutral drop": (
        "Neutral drop",
        "Put into gear at speed: the turbine is stopped by clutches inside.",
    ),
    "re-grip": (
        "Re-grip",
        "Wheels that spin on a slick patch roll onto full grip with the throttle down.",
    ),
    "water": ("Out of the water", "A burnout driven from water onto dry ground."),
    "shift": ("Hard shift to second", "Throttle held down through the shift."),
    "lift-off": (
        "Lift off and back on",
        "Throttle shut and opened again: the free play is crossed both ways.",
    ),
    "landing": (
        "Wheels-up landing",
        "Foot off in a wheelstand, and down again as the front wheels land.",
    ),
}
"""Title and meaning of each case."""

BOUNDED: Final = frozenset(
    {"slip", "dump", "two-step", "foot-brake", "trans-brake", "neutral drop", "re-grip", "landing"}
)
"""Cases that the load path bounds in closed form; the others have only a steady torque there."""
_BEYOND = 1.05


def beyond_bound(ratios: Mapping[str, float]) -> Iterator[str]:
    """Say where the march finds more at the ring gear than the closed form, which is no bound then.

    ``ratios`` holds marched peak over closed form at the ring gear of the likeliest car, by case.
    """
    for case, ratio in ratios.items():
        if case in BOUNDED and ratio > _BEYOND:
            yield (
                f"{WORDS[case][0]}: the launch marched in time brings {significant(ratio, 2)} times"
                " what the closed form says at the ring gear; take the marched figure"
            )
