"""What every face says alike: JSON envelopes, error shape, exit codes."""

from __future__ import annotations

import dataclasses
import json
import math
from typing import Any

from axlewright.build.problems import BuildError
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import DIMENSIONS, show

HOLDS, SHORT, BAD_INPUT, OUR_FAULT = 0, 1, 2, 3


def plain(value: Any) -> Any:
    """Turn a report into JSON values; a finding also carries its unit and shop text."""
    if isinstance(value, Finding):
        return {
            **{f.name: plain(getattr(value, f.name)) for f in dataclasses.fields(value)},
            "unit": DIMENSIONS[value.dimension].si,
            "text": show(value.value, value.dimension),
        }
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {f.name: plain(getattr(value, f.name)) for f in dataclasses.fields(value)}
    if isinstance(value, dict):
        return {str(k): plain(v) for k, v in value.items()}
    if isinstance(value, list | tuple):
        return [plain(v) for v in value]
    if isinstance(value, float) and not math.isfinite(value):
        return None
    return value


def envelope(kind: str, result: Any) -> str:
    """The one shape of a good answer: what it is, in which version, and the result."""
    return json.dumps(
        {"schema": f"axlewright.{kind}/1", "result": plain(result)}, indent=2, ensure_ascii=False
    )


def error_envelope(kind: str, message: str, problems: list[dict[str, Any]] | None = None) -> str:
    """The one shape of an error."""
    return json.dumps(
        {
            "schema": "axlewright.error/1",
            "error": {"kind": kind, "message": message, "problems": problems or []},
        },
        indent=2,
        ensure_ascii=False,
    )


def build_error_envelope(error: BuildError) -> str:
    """A build error in that shape."""
    problems = [{"file": error.file, **plain(p)} for p in error.problems]
    return error_envelope("bad input", str(error), problems)
