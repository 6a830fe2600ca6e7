"""Readings of tape, plumb line and angle gauge made into dimensions, and contradictions found."""
