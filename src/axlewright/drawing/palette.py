"""Colors: few, calm, readable in print and by people who see no red; never the only signal.

Every ink stands on paper, and on its own tint, with a contrast of at least 4.5 to 1 (the AA level
of the Web Content Accessibility Guidelines 2); in black and white the inks differ in lightness and
every state has its own pattern and its own word.
"""

from __future__ import annotations

PAPER = "#ffffff"
INK = "#18202b"
MUTED = "#55606e"
RULE = "#c3cad2"
FAINT = "#eef1f4"
STEEL = "#dfe4e9"
STEEL_DARK = "#9aa5b1"

HOLDS = "#1f5f8b"
POSSIBLE = "#8f5500"
SHORT = "#a8201a"
UNKNOWN = "#55606e"

HOLDS_TINT = "#dceaf4"
POSSIBLE_TINT = "#fbe6c4"
SHORT_TINT = "#f7d4d0"
UNKNOWN_TINT = "#eef1f4"


def luminance(color: str) -> float:
    """Relative luminance of a color written ``#rrggbb`` (WCAG 2, from memory)."""
    channels = [int(color[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    r, g, b = (c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one: str, other: str) -> float:
    """Contrast of two colors, from 1 (the same) to 21 (black on white)."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)
