"""Answers kept as files under a hash of everything that they read: found again until it changes."""

from __future__ import annotations

import os
import time
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

from axlewright.quantities.estimate import Derived, Estimate, Kinds, Mixture

UNFINISHED = ".part"
_ABANDONED = 86_400.0
"""s after which a file that was never finished is taken away."""


def facts(node: Any) -> Iterator[str]:
    """Every fact of a tree that moves a number, in order."""
    if isinstance(node, Estimate):
        yield f"{node.path}={node.value!r}~{node.spread!r}~{node.draw};"
    elif isinstance(node, Kinds):
        yield f"{node.path}={node.kinds!r}~{node.weights!r};"
    elif isinstance(node, Mixture):
        yield f"{node.path}:"
        yield from facts((node.choice, *node.options))
    elif isinstance(node, Derived):
        yield f"{node.path}={getattr(node.function, '__name__', '')}:"
        yield from facts(node.arguments)
    elif isinstance(node, tuple | list):
        for one in node:
            yield from facts(one)
    elif isinstance(node, dict):
        for name, one in node.items():
            yield f"{name}:"
            yield from facts(one)
    elif is_dataclass(node) and not isinstance(node, type):
        for f in fields(node):
            if f.name != "cautions":
                yield f"{f.name}:"
                yield from facts(getattr(node, f.name))
    else:
        yield f"{node!r};"


def tidy(kept: Path, pattern: str, most: int) -> None:
    """Drop the oldest files beyond the most that are kept, and what was never finished."""
    files = sorted((age(p), p) for p in kept.glob(pattern))
    for _, old in files[most:]:
        old.unlink(missing_ok=True)
    for part in kept.glob(f"*{UNFINISHED}"):
        if age(part) > _ABANDONED:
            part.unlink(missing_ok=True)


def age(path: Path) -> float:
    """Seconds since a file was written; one that another process just took away is new."""
    try:
        return time.time() - path.stat().st_mtime
    except FileNotFoundError:
        return 0.0


def write(path: Path, text: str) -> None:
    """Write a file whole or not at all."""
    import tempfile  # noqa: PLC0415 (not for who only looks)

    path.parent.mkdir(parents=True, exist_ok=True)
    handle, unfinished = tempfile.mkstemp(suffix=UNFINISHED, dir=path.parent)
    with os.fdopen(handle, "w", encoding="utf-8") as file:
        file.write(text)
    Path(unfinished).replace(path)
