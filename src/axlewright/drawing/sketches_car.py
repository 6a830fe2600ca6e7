"""Sketches of the car as it stands: wheelhouse, across the car, and from the side."""

from __future__ import annotations

from axlewright.drawing.primitives import Shape
from axlewright.drawing.sketch_marks import (
    BODY,
    CENTER,
    GROUND,
    HIDDEN,
    OPEN,
    SOFT,
    Sketch,
    Span,
    Spot,
    area,
    box,
    mirrored,
    path,
    ring,
    words,
)


def _arch() -> tuple[Shape, ...]:
    """The left wheelhouse from behind, its center plane on the right."""
    return (
        path((30, 66), (28, 70), (30, 92), (34, 99), look=BODY),
        path((30, 66), (34, 82), (86, 82), (88, 64), look=BODY),
        box(90, 52, 104, 64, SOFT), ring((100, 58), 1.3),
        path((172, 4), (172, 98), look=CENTER), words((150, 3), "center plane"),
    )  # fmt: skip


def _axle(up: float) -> tuple[Shape, ...]:
    """The old axle with its drum, wheel face on the left, so high."""
    return (
        box(60, up - 13, 70, up + 13), box(70, up - 3.5, 152, up + 3.5),
        ring((166, up), 13.5, SOFT),
        path((54, up), (172, up), look=CENTER),
    )  # fmt: skip


WHEELHOUSE = Sketch(
    "wheelhouse", "Left wheelhouse from behind, wheel off, brake in place",
    "The left wheelhouse from behind with the old axle; the right one is its mirror image. Datum is"
    " the wheel face of the old axle, the plumb lines hang from lip and rail.",
    180.0, 100.0,
    (
        *_arch(), *_axle(35), path((8, 7), (180, 7), look=GROUND), ring((150, 29), 2.0),
        words((151.5, 20.5), "pinion", size=2.5),
        area((79, 40), (82, 40), (85, 79), (82, 79), look=SOFT), box(92, 38.5, 100, 41, SOFT),
        words((33, 94), "fender"), words((106, 61), "rail"), words((112, 3), "ground"),
        words((43, 16), "wheel face", size=2.5),
        ring((152, 78), 12.0, SOFT), box(131, 81, 138, 87, SOFT), words((122, 61), "from the left"),
    ),
    (
        Span("lip_height", (54, 35), (30, 66), 16.0, "up"),
        Span("ground_to_center", (54, 7), (54, 35), 16.0, "up"),
        Span("lip", (30, 66), (60, 48), 57.0),
        Span("inner", (60, 48), (90, 56), 54.5, share=0.4),
        Span("inner_up", (104, 35), (104, 58), 112.0, "up"),
        Span("inner_ahead", (152, 78), (134.5, 84), 94.0),
        Span("shock", (60, 22), (79, 42), 26.0),
        Span("seat", (60, 22), (96, 38.5), 18.0, share=0.7),
        Span("roof", (65, 35), (65, 82), 65.0, "up", 0.75),
        Span("rail", (60, 48), (100, 58), 70.5, share=0.62),
        Span("pinion", (60, 22), (150, 29), 12.0, share=0.75),
    ),
)  # fmt: skip

BUMP = Sketch(
    "wheelhouse_bump", "The same with the axle at its stop",
    "The left wheelhouse with the axle pushed up to its bump stop: what is beside the tire then.",
    180.0, 100.0,
    (
        *_arch(), *_axle(47), path((54, 35), (172, 35), look=HIDDEN),
        words((106, 61), "rail"), words((120, 31), "ride height"), words((33, 94), "fender"),
        area((90, 64), (104, 64), (108, 74), (96, 74), look=SOFT), words((110, 70), "kick-up"),
        words((16, 20), "outside, as high as the tire then is: the lip or what is above it",
              size=2.5),
    ),
    (
        Span("lip_at_bump", (32, 74), (60, 60), 76.0, share=0.45),
        Span("inner_at_bump", (60, 60), (96, 70), 70.0, share=0.45),
    ),
)  # fmt: skip

_SIDE = (
    box(28, 20, 36, 44), box(36, 29, 76, 35), box(56, 44, 64, 54, SOFT),
    path((20, 58), (18, 62), (22, 72), look=BODY),
)  # fmt: skip

ACROSS = Sketch(
    "car_across", "Across the car from behind",
    "The car from behind: distances from one side to the other, which check the readings of both.",
    180.0, 82.0,
    (
        *mirrored(_SIDE, 90.0), ring((90, 32), 15.0, SOFT), path((90, 10), (90, 76), look=CENTER),
        path((10, 8), (170, 8), look=GROUND), ring((60, 49), 1.0), ring((120, 49), 1.0),
        words((11, 64), "lip"), words((37, 23), "wheel face", size=2.5), words((66, 56), "rail"),
    ),
    (
        Span("lip_to_lip", (20, 58), (160, 58), 76.0, share=0.4),
        Span("inner_to_inner", (56, 54), (124, 54), 69.0, share=0.4),
        Span("rail_to_rail", (60, 49), (120, 49), 62.0, share=0.4),
        Span("face_to_face", (28, 20), (152, 20), 14.0, share=0.4),
    ),
)  # fmt: skip

SIDE = Sketch(
    "car_side", "Beside and above the axle, from the left",
    "The axle from the left, front on the left: room up to floor, exhaust and bump stop, back to"
    " the"
    " tank, slack of the hose, and the travel up and down.",
    180.0, 80.0,
    (
        ring((84, 36), 13.0, SOFT), area((73, 42), (48, 37), (48, 31), (73, 30), look=SOFT),
        ring((84, 36), 4.5), path((40, 36), (176, 36), look=CENTER),
        path((26, 66), (70, 66), (78, 70), (132, 70), look=BODY), words((27, 68), "floor"),
        box(118, 20, 140, 50, SOFT), words((124, 34), "tank"),
        ring((74, 60), 3.0), words((58, 61), "exhaust"),
        area((91, 70), (99, 70), (97, 60), (93, 60), look=SOFT), words((101, 63), "stop"),
        box(91, 46, 99, 48, SOFT),
        path((108, 70), (113, 60), (108, 52), (99, 44), (90, 40), look=OPEN), words((113, 61),
        "hose"),
        ring((162, 36), 3.0), words((142, 38), "wheel center", size=2.5),
        path((152, 54), (172, 54), look=HIDDEN), path((152, 18), (172, 18), look=HIDDEN),
        words((152, 56), "pressed flat", size=2.4), words((152, 13), "shock at its end", size=2.4),
    ),
    (
        Span("floor_gap", (84, 49), (84, 70), 84.0, "up", 0.62),
        Span("tank_gap", (97, 36), (118, 36), 30.0),
        Span("exhaust_gap", (81, 40), (74, 57), 66.0, "up"),
        Span("stop_gap", (95, 48), (95, 60), 104.0, "up", -0.6),
        Spot("hose_slack", (112, 58), (122, 57)),
        Span("bump", (162, 36), (162, 54), 162.0, "up", 0.55),
        Span("droop", (162, 18), (162, 36), 162.0, "up", 0.42),
    ),
)  # fmt: skip
