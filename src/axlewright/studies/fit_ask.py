"""What is asked beside the build: another wheel or width to try, what is there, the old gears."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from axlewright.build.edit import EditError, edit
from axlewright.build.problems import BuildError
from axlewright.build.reader import read_build
from axlewright.build.resolve import Resolved, resolve
from axlewright.build.sizes import SizeError, TireSize, read_teeth, read_tire
from axlewright.fit.hold_items import ITEMS
from axlewright.fit.hold_keys import BY_HAND

_TRIED = {
    "backspace": "wheel.backspace",
    "rim_width": "wheel.rim_width",
    "section": "wheel.section",
    "width": "centre.face_to_face",
    "tire": "wheels.tire",
}
"""What may be tried without being kept, and the key that it stands for."""
MOST_DRIVES = 6
_NAMES = tuple(item.name for item in ITEMS) + BY_HAND


class FitAskError(ValueError):
    """Something asked that does not read; says what would be right."""


@dataclass(frozen=True)
class FitAsk:
    """Everything that is asked."""

    have: tuple[str, ...] = ()
    """Items that are there, and readings without a key that were taken."""
    drives: tuple[int, ...] = ()
    """Teeth of the speedometer's drive gears."""
    old_ratio: float | None = None
    old_tire: TireSize | None = None


def read_fit_ask(
    have: Sequence[str] = (), drives: Sequence[str] = (), old_ratio: str = "", old_tire: str = ""
) -> FitAsk:
    """Read what is asked; raises :class:`FitAskError` in words."""
    there = tuple(dict.fromkeys(_item(h) for h in _several(have)))
    teeth = tuple(dict.fromkeys(_teeth(d) for d in _several(drives)))
    if len(teeth) > MOST_DRIVES:
        raise FitAskError(f"at most {MOST_DRIVES} drive gears at once")
    try:
        ratio = read_teeth(old_ratio).ratio.value if old_ratio.strip() else None
        tire = read_tire(old_tire) if old_tire.strip() else None
    except SizeError as e:
        raise FitAskError(str(e)) from None
    return FitAsk(there, teeth, ratio, tire)


def _several(texts: Sequence[str]) -> list[str]:
    return [part for text in texts for part in (p.strip() for p in text.split(",")) if part]


def _item(text: str) -> str:
    name = " ".join(text.lower().split())
    if name not in _NAMES:
        raise FitAskError(f"{text!r} is nothing that is waited for; one of: {', '.join(_NAMES)}")
    return name


def _teeth(text: str) -> int:
    if not re.fullmatch(r"\d{1,2}", text) or not 4 <= int(text) <= 40:
        raise FitAskError(f"{text!r} is no count of a drive gear's teeth; write it like 7")
    return int(text)


def with_tried(build: Resolved, **tried: str) -> Resolved:
    """The build with another wheel or width, as if its file said so; nothing is kept.

    Raises :class:`FitAskError` in words.
    """
    text = build.source.text
    for name, value in tried.items():
        typed = " ".join(value.split())
        if not typed:
            continue
        try:
            if name == "backspace":
                text = edit(text, "wheel.offset", None)
            if name == "width":
                text = _without_widths(text)
            if name == "tire":
                text = _without_tire(text)
            text = edit(text, _TRIED[name], typed)
        except EditError as e:
            raise FitAskError(f"{name.replace('_', ' ')}: {e}") from None
    if text == build.source.text:
        return build
    try:
        return resolve(read_build(text, build.source.file))
    except BuildError as e:
        raise FitAskError(e.problems[0].message) from None


def _without_tire(text: str) -> str:
    """What was measured of the tire that is planned does not hold for another one."""
    for key in ("section", "measuring_rim", "diameter", "tread_width", "loaded_radius"):
        text = edit(text, f"wheel.{key}", None)
    return text


def _without_widths(text: str) -> str:
    """Other widths of the new axle would contradict the one that is tried."""
    for key in ("bare_to_bare", "end_to_end", "left_shaft", "right_shaft"):
        text = edit(text, f"centre.{key}", None)
    return text
