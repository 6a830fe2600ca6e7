"""Sketches of the axles on the bench: the old one, the new center and shafts, the brakes."""

from __future__ import annotations

from axlewright.drawing.sketch_marks import (
    BODY,
    CENTER,
    HIDDEN,
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

_HALF = (
    box(26, 24, 29, 46),
    box(29, 31, 38, 39),
    box(38, 26, 40, 44, SOFT),
    box(40, 30, 78, 40, SOFT),
)
_CENTER = (ring((90, 35), 14.0, SOFT), path((16, 35), (164, 35), look=CENTER))

OLD = Sketch(
    "old_axle", "The old axle from behind, brakes and shafts off",
    "The old axle from behind: bare flanges, end faces, hat or drum dashed, cross pin in the"
    " middle.",
    180.0, 74.0,
    (
        *mirrored(_HALF, 90.0), *_CENTER,
        path((38, 50), (23, 50), (23, 20), (38, 20), look=HIDDEN), words((6, 57),
        "hat or drum", size=2.5),
        path((90, 12), (90, 62), look=CENTER), box(88.5, 27, 91.5, 43, SOFT),
        words((107, 46), "cross pin", size=2.5),
    ),
    (
        Span("bare_to_bare", (26, 24), (154, 24), 14.0, share=0.4),
        Span("end_to_end", (38, 26), (142, 26), 8.0, share=0.6),
        Span("old_hat", (23, 20), (26, 24), 14.0, share=-3.0),
        Span("housing_end", (23, 50), (38, 44), 58.0, share=1.8),
        Span("differential", (23, 50), (90, 43), 66.0, share=0.5),
    ),
)  # fmt: skip

NEW = Sketch(
    "new_axle", "The new axle from behind",
    "The new axle from behind: three widths that are never the same, both shafts, and how far"
    " pinion"
    " and cross pin stand left of the middle.",
    180.0, 92.0,
    (
        *mirrored(_HALF, 90.0), box(94, 30, 140, 40, SOFT), ring((86, 35), 14.0, SOFT),
        path((16, 35), (164, 35), look=CENTER),
        path((38, 50), (23, 50), (23, 20), (38, 20), look=HIDDEN),
        path((142, 50), (157, 50), (157, 20), (142, 20), look=HIDDEN),
        path((90, 22), (90, 88), look=CENTER), words((91.5, 84),
        "middle of the wheel faces", size=2.5),
        box(84.5, 28, 87.5, 42, SOFT), ring((81, 29), 2.0),
        box(29, 33.8, 84, 36.2), box(88, 33.8, 151, 36.2),
        words((20, 88), "left", size=2.5),
    ),
    (
        Span("face_to_face", (23, 20), (157, 20), 3.5, share=0.62),
        Span("bare_to_bare", (26, 24), (154, 24), 9.5, share=0.38),
        Span("end_to_end", (38, 26), (142, 26), 15.5, share=0.62),
        Span("pinion_left", (81, 29), (90, 40), 77.0, share=-1.2),
        Span("differential_left", (86, 42), (90, 42), 70.0, share=-3.6),
        Span("left_half", (38, 44), (86, 42), 51.0, share=0.4),
        Span("right_half", (86, 42), (142, 44), 51.0, share=0.6),
        Span("left_shaft", (26, 46), (84, 36), 58.0, share=0.4),
        Span("right_shaft", (154, 46), (88, 36), 58.0, share=0.4),
        Spot("shaft_float", (154, 40), (166, 46)),
    ),
)  # fmt: skip

GAP = Sketch(
    "new_axle", "Inside the differential",
    "Cross pin, one side gear with its spline, and the ends of the shafts: all from the middle of"
    " the"
    " cross pin.",
    180.0, 62.0,
    (
        box(86, 8, 94, 54, SOFT), path((90, 4), (90, 58), look=CENTER), words((96, 50),
        "cross pin"),
        box(20, 27, 76, 35), box(104, 27, 160, 35), path((10, 31), (170, 31), look=CENTER),
        area((46, 39), (70, 39), (76, 48), (80, 48), (80, 35), (46, 35), look=SOFT),
        words((20, 44), "side gear"), box(38, 26, 76, 36, HIDDEN), words((22, 37), "shaft"),
    ),
    (
        Span("differential_gap", (76, 31), (104, 31), 18.0, share=0.28),
        Span("spline_inner", (80, 38), (90, 38), 42.5, share=1.6),
        Span("spline_outer", (46, 39), (90, 54), 57.0, share=0.5),
        Span("shaft_spline", (38, 27), (76, 27), 13.0, share=0.5),
    ),
)  # fmt: skip

BESIDE = Sketch(
    "new_axle", "The new center from the left",
    "The center from the left, front on the left: how far nose, cover and bearings stand from the"
    " axle line, and the fill hole.",
    180.0, 72.0,
    (
        ring((100, 34), 17.0, SOFT), ring((100, 34), 5.0),
        area((86, 43), (52, 37), (40, 37), (40, 27), (52, 27), (86, 24), look=SOFT),
        area((115, 45), (126, 40), (126, 24), (113, 22), look=SOFT),
        path((30, 34), (150, 34), look=CENTER), path((100, 8), (100, 66), look=CENTER),
        ring((120, 30), 1.8), words((128, 24), "fill hole", size=2.5), box(52, 29, 57, 35),
        words((58, 20), "front pinion bearing", size=2.5), ring((36, 32), 4.0), words((20, 38),
        "joint"),
    ),
    (
        Span("nose", (36, 32), (100, 34), 10.0, share=0.4),
        Span("bearing_ahead", (54.5, 35), (100, 34), 58.0, share=0.4),
        Span("height_above", (100, 51), (100, 34), 152.0, "up"),
        Span("depth_behind", (100, 34), (126, 40), 62.0),
        Span("fill_hole_behind", (100, 34), (120, 30), 14.0, share=0.6),
        Span("fill_hole_up", (120, 28.2), (120, 34), 143.0, "up", -1.6),
    ),
)  # fmt: skip

BRAKE = Sketch(
    "brake", "Brakes: where the pad or lining presses",
    "A disc with its pad, and a drum: the radius is that of the middle of the pad, or of the drum's"
    " inside.",
    180.0, 70.0,
    (
        ring((40, 33), 26.0, SOFT), ring((40, 33), 12.0), area((22, 49), (34, 57), (30, 48),
        (26, 43)),
        words((8, 66), "disc (front or rear)"), ring((40, 33), 1.0),
        ring((105, 33), 26.0, SOFT), ring((105, 33), 23.0), words((76, 66), "drum (rear)"),
        ring((105, 33), 1.0),
        ring((160, 33), 15.0, SOFT), ring((160, 33), 12.5), words((138, 66), "parking drum"),
        ring((160, 33), 1.0), path((40, 33), (27, 49), look=BODY),
    ),
    (
        Spot("front_radius", (28, 48), (8, 56)),
        Span("rear_radius", (105, 33), (128, 33), 33.0),
        Span("parking_radius", (160, 33), (172.5, 33), 12.0, share=0.5),
    ),
)  # fmt: skip
