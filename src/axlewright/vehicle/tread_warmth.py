"""Grip of a tire against the temperature of its tread: a bell with a window.

Rubber that is too cold is hard, rubber that is too hot gives way, and between the two lies the
warmth at which a compound holds best.  That much is common practice; the form of the bell is coined
here, and no measured tread stands behind it.
"""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula


@formula(
    "k_θ",
    "ratio",
    source="bell over tread temperature, nine tenths at the ends of the window (form coined here; "
    "that grip has a best temperature is common practice, no source)",
    valid={"tread_temperature": (255.0, 430.0), "tread_window": (5.0, 150.0)},
    outside="frozen or blistered rubber does not follow a bell",
)
def grip_by_warmth(tread_temperature: Num, best_tread_temperature: Num, tread_window: Num) -> Num:
    """Grip at this tread temperature over that at the best one: half of it three windows away."""
    away = (tread_temperature - best_tread_temperature) / tread_window
    return 9.0 / (9.0 + away * away)
