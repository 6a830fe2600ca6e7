"""Where the builder's data lie; apart, because who only looks there needs no database."""

from __future__ import annotations

import os
from pathlib import Path


def data_folder() -> Path:
    """Where the builder's data lie: ``AXLEWRIGHT_DATA``, or the folder that the system names."""
    chosen = os.environ.get("AXLEWRIGHT_DATA")
    if chosen:
        return Path(chosen).expanduser()
    shared = os.environ.get("XDG_DATA_HOME", "")
    base = Path(shared) if Path(shared).is_absolute() else Path.home() / ".local" / "share"
    return base / "axlewright"
