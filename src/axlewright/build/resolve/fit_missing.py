"""What nobody measured yet, of all that this car needs."""

from __future__ import annotations

from axlewright.build.resolve.fit_readings import Notebook
from axlewright.measuring.worksheet import items

_LATERAL = {"lateral_body", "lateral_axle"}
_LOWER = {"lower_body", "lower_axle"}
_UPPER = {"upper_body", "upper_axle"}
_COIL = {"spring_body", "spring_axle"}
POINTS_OF_KIND = {
    "leaf": {"leaf_front_eye", "leaf_seat", "leaf_rear_eye", "shackle_top"},
    "four-link": _LOWER | _UPPER | _COIL,
    "three-link": _LOWER | _UPPER | _LATERAL | _COIL,
    "torque arm": _LOWER | {"arm_front"} | _LATERAL | _COIL,
    "ladder bars": {"bar_pivot"} | _LATERAL | _COIL,
    "coil-link": _LOWER | _UPPER | _COIL,
}
"""Points without which a suspension of this kind cannot be worked out."""
_ALWAYS = {
    "wheel_center", "shock_body", "shock_axle", "stop_body", "stop_axle", "pinion_joint",
    "gearbox_joint",
}  # fmt: skip


def missing(notes: Notebook) -> tuple[str, ...]:
    """Keys of readings that are neither stated nor known from others, in worksheet order."""
    wanted = _points_wanted(notes)
    return tuple(key for key in items() if _is_wanted(key, wanted) and not _is_known(notes, key))


def _points_wanted(notes: Notebook) -> set[str]:
    kind = notes.book.stated("suspension.kind")
    of_kind = POINTS_OF_KIND[str(kind)] if kind else set()
    wanted = of_kind | _ALWAYS
    if notes.book.stated("points.symmetric") is not False:
        return wanted
    return wanted | {f"right_{name}" for name in wanted}


def _is_wanted(key: str, points: set[str]) -> bool:
    table, _, name = key.partition(".")
    if table == "points":
        return name in points
    return not key.startswith(("ends.left.", "ends.right."))


def _is_known(notes: Notebook, key: str) -> bool:
    if key in notes.settled or notes.book.stated(key) is not None:
        return True
    table, _, name = key.partition(".")
    if table == "ends":
        return all(notes.book.stated(f"ends.{side}.{name}") is not None for side in _SIDES)
    other = _SAME.get(key)
    return other is not None and notes.book.stated(other) is not None


_SIDES = ("left", "right")
_SAME = {"wheel.backspace": "wheel.offset", "wheel.offset": "wheel.backspace"}
