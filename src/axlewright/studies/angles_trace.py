"""What geometry in space gives back, as steps of a working without a formula to print."""

from __future__ import annotations

from axlewright.quantities.solved import solved

__all__ = ["solved"]
