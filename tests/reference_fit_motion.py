"""Where the axle of an invented car goes, by SciPy and nothing of the program under test.

Links keep their lengths (or, where there is one too many, all give alike): least squares over the
six movements of the axle and the turn of a Watt crank.  Leaves are arcs: each half keeps its length
and bends to one circle, both by the same curvature, for the axle is free to turn between them.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
from scipy.optimize import fsolve, least_squares

from reference_fit_cars import Car, Vector, X, Y, Z, turned

HEAVE = 2.0
"""Inches that both wheels go up or down."""
_STIFF = 1e3


def motion(car: Car) -> dict[str, float]:
    """Pinion's change of slope at both ends, nose up, and how far the axle moves aside in bump."""
    found = {}
    for word, travel in (("bump", HEAVE), ("droop", -HEAVE)):
        nose, aside = _leaves(car, travel) if car.kind == "leaf" else _links(car, travel)
        found[f"pinion change, {word}"] = math.degrees(nose)
        if car.kind != "leaf":
            found[f"sideways, {word}"] = aside
    return found


def _links(car: Car, travel: float) -> tuple[float, float]:
    at = car.points()
    start = 0.5 * (at["wheel_center"] + at["right_wheel_center"])

    def moved(point: Vector, q: Vector) -> Vector:
        size = float(np.linalg.norm(q[3:6]))
        arm = point - start
        return start + q[:3] + (turned(arm, q[3:6], size) if size > 0.0 else arm)

    held = _pieces(car, at, moved)

    def open_by(q: Vector) -> list[float]:
        wheels = [
            moved(at[n], q)[2] - at[n][2] - travel for n in ("wheel_center", "right_wheel_center")
        ]
        return [*(_STIFF * w for w in wheels), *(piece(q) for piece in held)]

    guess = np.zeros(7 if "watt" in car.kind else 6)
    guess[2] = travel
    found = least_squares(open_by, guess, xtol=1e-15, ftol=1e-15, gtol=1e-15).x
    forward = moved(start + X, found) - moved(start, found)
    return math.atan2(forward[2], math.hypot(forward[0], forward[1])), float(found[1])


Piece = Callable[[Vector], float]


def _pieces(
    car: Car, at: dict[str, Vector], moved: Callable[[Vector, Vector], Vector]
) -> list[Piece]:
    """By how much each link is too long, each guide off its plane."""

    def link(body: str, axle: str) -> Piece:
        long = float(np.linalg.norm(at[body] - at[axle]))
        return lambda q: float(np.linalg.norm(moved(at[axle], q) - at[body])) - long

    def guide(point: str, way: Vector) -> Piece:
        return lambda q: float((moved(at[point], q) - at[point]) @ way)

    def rod(side: str) -> Piece:
        body, pivot = at[f"watt_{side}_body"], at["watt_pivot"]
        lever = at[f"watt_{side}_crank"] - pivot
        long = float(np.linalg.norm(body - pivot - lever))
        return lambda q: (
            float(np.linalg.norm(moved(pivot + turned(lever, X, float(q[6])), q) - body)) - long
        )

    both = ("", "right_")
    links, _, across = car.kind.partition(", ")
    found: list[Piece] = []
    if links == "ladder bars":
        found += [guide(f"{s}bar_pivot", way) for s in both for way in (X, Z)]
    else:
        found += [link(f"{s}lower_body", f"{s}lower_axle") for s in both]
    if links in {"triangulated", "parallel"}:
        found += [link(f"{s}upper_body", f"{s}upper_axle") for s in both]
    elif links == "three-link":
        found.append(link("upper_body", "upper_axle"))
    elif links == "torque arm":
        found.append(guide("arm_front", Z))
    if across == "rod":
        found.append(link("lateral_body", "lateral_axle"))
    elif across == "watt":
        found += [rod("left"), rod("right")]
    return found


def _leaves(car: Car, travel: float) -> tuple[float, float]:
    """In side view, with the mean of both sides."""
    at = car.points()

    def mean(name: str) -> Vector:
        return 0.5 * (at[name] + at[f"right_{name}"])

    center, seat = mean("wheel_center"), mean("leaf_seat")
    front, rear, top = mean("leaf_front_eye"), mean("leaf_rear_eye"), mean("shackle_top")
    shackle = math.hypot(rear[0] - top[0], rear[2] - top[2])
    hang = math.atan2(rear[0] - top[0], top[2] - rear[2])
    halves = [_arc(e[0] - seat[0], e[2] - seat[2]) for e in (front, rear)]

    def open_by(q: Vector) -> list[float]:
        x, nose, bent, swing, other = q
        arm = turned(seat - center, Y, -float(nose))
        clamp = center + arm + np.array([float(x), 0.0, travel])
        swung = hang + float(swing)
        eyes = (front, top + shackle * np.array([math.sin(swung), 0.0, -math.cos(swung)]))
        result = []
        for (long, curve, way), more, eye in zip(halves, (bent, other), eyes, strict=True):
            now = curve + float(more)
            flat = np.array(
                [way * math.sin(now * long) / now, 0.0, (1 - math.cos(now * long)) / now]
            )
            end = clamp + turned(flat, Y, -float(nose))
            result += [float(end[0] - eye[0]), float(end[2] - eye[2])]
        return [*result, 100.0 * float(bent - other)]

    found = fsolve(open_by, [0.0, 0.0, -2e-3 * travel, 0.0, -2e-3 * travel], xtol=1e-11)
    return float(found[1]), 0.0


def _arc(ahead: float, up: float) -> tuple[float, float, float]:
    """Length, curvature and direction of a half leaf that leaves its seat level."""
    chord, slope = math.hypot(ahead, up), math.atan2(up, abs(ahead))
    curve = 2.0 * math.sin(slope) / chord
    long = chord if slope == 0.0 else 2.0 * slope / curve
    return long, curve, math.copysign(1.0, ahead)
