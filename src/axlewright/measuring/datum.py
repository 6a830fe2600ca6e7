"""Readings that run from the wheel face, and what a missing hat does to each."""

from __future__ import annotations

OUTWARD = ("lip", "lip_at_bump")
"""Outward from the face: short of nothing, long by a hat when taken from the bare flange."""
INWARD = (
    "inner", "inner_at_bump", "pinion", "differential", "housing_end", "rail", "seat", "shock",
)  # fmt: skip
"""Inward from the face: short by a hat when taken from the bare flange."""
ACROSS = "fit.face_to_face"


def hats_short(key: str) -> float:
    """How many hats to add to a reading that was taken from the bare flange."""
    if key == ACROSS:
        return 2.0
    table, _, name = key.rpartition(".")
    if table not in {"fit.left", "fit.right"}:
        return 0.0
    return 1.0 if name in INWARD else -1.0 if name in OUTWARD else 0.0
