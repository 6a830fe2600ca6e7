"""Sketches of the driveline at ride height: slopes, places of the joints, slip joint, tunnel."""

from __future__ import annotations

from axlewright.drawing.sketch_marks import (
    BODY,
    CENTER,
    GROUND,
    HIDDEN,
    SOFT,
    Sketch,
    Span,
    Spot,
    Turn,
    area,
    box,
    path,
    ring,
    words,
)

ANGLES = Sketch(
    "angles_side", "Where the gauge is laid, from the left",
    "The driveline from the left, front on the left: engine with gearbox, driveshaft, pinion, and"
    " the"
    " floor; each slope above zero with the front end higher.",
    180.0, 72.0,
    (
        area((8, 56), (30, 55), (46, 47), (46, 40), (30, 38), (8, 38), look=SOFT),
        ring((50, 43), 2.6), area((52, 44.5), (124, 36.5), (124, 33), (52, 41)), ring((127, 34.5),
        2.6),
        area((130, 37), (142, 40), (142, 29), (130, 32)), ring((154, 34), 13.0, SOFT),
        path((4, 14), (176, 14), look=GROUND), words((10, 60), "engine and gearbox"),
        words((146, 50), "axle"), words((6, 9), "floor"),
        box(154, 60, 170, 64, SOFT), words((120, 68), "gauge on level: its zero", size=2.5),
    ),
    (
        Spot("gearbox", (44, 44), (38, 33)),
        Spot("driveshaft", (88, 38.8), (88, 50)),
        Spot("pinion", (136, 34), (130, 48)),
        Spot("pinion_loaded", (141, 38), (142, 56)),
        Spot("pinion_rise", (141, 30), (138, 21)),
        Spot("floor", (60, 14), (60, 22)),
        Spot("gauge_zero", (160, 62), (174, 56)),
        Spot("phase", (52, 42), (62, 33)),
    ),
)  # fmt: skip

PLAN = Sketch(
    "angles_plan", "Where the joints are, from the left and from above",
    "Above: the joints from the left with their heights over the floor. Below: from above, front on"
    " the left, with the car's center plane.",
    180.0, 104.0,
    (
        box(20, 84, 40, 94, SOFT), ring((50, 89), 2.6),
        area((52, 90.3), (124, 85.6), (124, 82.6), (52, 87.3)), ring((127, 84),
        2.6),
        ring((154, 82), 12.0, SOFT), area((130, 87), (142, 88), (142, 77), (130, 81)),
        path((4, 62), (176, 62), look=GROUND), words((6, 97), "from the left"),
        path((40, 84), (40, 94)), words((22, 80), "seal face", size=2.5),
        area((8, 36), (30, 34), (44, 30), (44, 24), (30, 20), (8, 18), look=SOFT), ring((50, 27),
        2.6),
        area((52, 28.6), (124, 22.6), (124, 19.6), (52, 25.6)), ring((127, 21), 2.6),
        area((130, 23.6), (142, 26), (142, 15), (130, 18)), box(142, 6, 152, 38, SOFT),
        path((4, 12), (176, 12), look=CENTER), words((6, 46), "from above"), words((90, 7),
        "center plane", size=2.5),
    ),
    (
        Span("joint_to_joint", (50, 89), (127, 84), 99.0, share=0.5),
        Span("seal_to_joint", (40, 84), (127, 84), 74.0, share=0.5),
        Span("gearbox_height", (50, 62), (50, 89), 50.0, "up", 0.25),
        Span("pinion_height", (127, 62), (127, 84), 127.0, "up", 0.25),
        Span("gearbox_left", (50, 12), (50, 27), 62.0, "up", 0.45),
        Span("pinion_left", (127, 12), (127, 21), 118.0, "up", -0.7),
        Turn("gearbox_plan", (12, 27), 36.0, 0.0, 8.0),
        Turn("pinion_plan", (127, 21), 30.0, 0.0, -9.0),
    ),
)  # fmt: skip

SLIP = Sketch(
    "slip", "The slip joint at the gearbox",
    "The slip yoke on the gearbox's shaft: as it stands, and pushed home (dashed).",
    180.0, 66.0,
    (
        box(10, 14, 46, 50, SOFT), words((12, 54), "gearbox"), box(46, 29, 92, 35),
        box(58, 25, 110, 39, SOFT), area((110, 39), (126, 42), (132, 36), (132, 28), (126, 22),
        (110, 25), look=SOFT),
        ring((132, 32), 3.0), path((30, 32), (150, 32), look=CENTER),
        path((46, 24), (46, 40)), words((48, 44.5), "seal face", size=2.5),
         ring((122, 32), 3.0, HIDDEN), words((136, 44),
        "joint center", size=2.5),
    ),
    (
        Span("reach", (46, 40), (132, 35), 60.0, share=0.5),
        Span("bottomed_reach", (46, 40), (122, 35), 52.0, share=0.62),
        Span("gap", (46, 24), (58, 25), 19.0, share=0.5),
        Span("spline_length", (58, 29), (92, 29), 12.0, share=0.5),
        Spot("spline_diameter", (52, 35), (72, 46)),
    ),
)  # fmt: skip

TUNNEL = Sketch(
    "tunnel", "The tunnel where the driveshaft is nearest to it",
    "A cut through the tunnel, seen from behind, and the driveshaft from the left: room from the"
    " shaft's center line, and how far ahead of the rear joint the place is.",
    180.0, 74.0,
    (
        path((8, 22), (22, 22), (26, 60), (62, 60), (66, 22), (82, 22), look=BODY), ring((46, 40),
        7.0, SOFT),
        path((46, 8), (46, 70), look=CENTER), path((12, 40), (80, 40), look=CENTER),
        path((26, 16), (66, 16), look=BODY), words((70, 15), "loop", size=2.5), words((8, 68),
        "from behind"),
        box(104, 33, 160, 38), ring((164, 35.5), 3.0), path((96, 56), (130, 54), (172, 58),
        look=BODY),
        path((128, 26), (128, 58), look=HIDDEN), words((104, 68), "from the left"),
        words((100, 22), "narrowest place", size=2.5),
    ),
    (
        Span("above", (46, 40), (46, 60), 46.0, "up", 0.72),
        Span("below", (46, 16), (46, 40), 46.0, "up", 0.28),
        Span("left", (24.2, 40), (46, 40), 32.0, share=0.25),
        Span("right", (46, 40), (64, 40), 48.0, share=0.8),
        Span("ahead", (128, 36), (164, 35.5), 12.0),
    ),
)  # fmt: skip
