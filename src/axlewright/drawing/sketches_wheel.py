"""Sketches of the new wheel with its tire, off the car: section, standing, loaded."""

from __future__ import annotations

from axlewright.drawing.sketch_marks import (
    CENTER,
    GROUND,
    SOFT,
    Sketch,
    Span,
    Spot,
    area,
    box,
    path,
    ring,
    words,
)

_TIRE = area(
    (27, 57), (22, 62), (20, 69), (22, 77), (28, 84), (62, 84), (68, 77), (70, 69), (68, 62),
    (63, 57), (63, 60), (65, 64), (66, 69), (64, 75), (60, 80), (30, 80), (26, 75), (24, 69),
    (25, 64), (27, 60), look=SOFT,
)  # fmt: skip
_RIM = area(
    (24, 60), (26, 60), (26, 54), (32, 54), (36, 48), (54, 48), (58, 54), (64, 54), (64, 60),
    (66, 60), (66, 52), (59, 52), (55, 46), (35, 46), (31, 52), (24, 52),
)  # fmt: skip
_DISC = area((34, 20), (40, 20), (40, 34), (36, 38), (36, 46), (33, 46), (33, 37), (34, 34))

WHEEL = Sketch(
    "wheel_section", "The new wheel and tire",
    "Section through wheel and tire, outboard on the left; the wheel standing on the ground from"
    " the"
    " side and from behind.",
    180.0, 102.0,
    (
        _TIRE, _RIM, _DISC,
        path((14, 20), (78, 20), look=CENTER), path((45, 40), (45, 88), look=CENTER),
        box(34, 14, 40, 20), words((4, 20.8), "axle"), words((2, 72), "street"),
        ring((118, 53), 25.0, SOFT), ring((118, 53), 16.0), ring((118, 53), 2.5),
        path((84, 28), (180, 28), look=GROUND), words((100, 22.5), "from the side"),
        area((158, 28), (156, 32), (158, 38), (158, 74), (161, 80), (171, 80), (174, 74),
             (174, 38), (176, 32), (174, 28), look=SOFT),
        words((155, 22.5), "from behind"),
    ),
    (
        Span("rim_width", (26, 58), (64, 58), 67.0),
        Spot("rim_diameter", (62, 54), (78, 50)),
        Span("backspace", (40, 26), (66, 52), 4.0),
        Span("offset", (40, 22), (45, 40), 10.0, share=-2.2),
        Span("lip_width", (24, 60), (26, 60), 63.5, share=-6.0),
        Span("pad_thickness", (34, 28), (40, 28), 28.0, share=-1.4),
        Spot("hub_bore", (40, 15), (52, 13)),
        Span("section", (20, 69), (70, 69), 97.0),
        Spot("measuring_rim", (69, 66), (80, 60)),
        Span("lip_height", (66, 54), (66, 60), 74.0, "up", 3.0),
        Span("tread_width", (28, 84), (62, 84), 89.5, share=0.24),
        Span("inner_radius", (60, 20), (60, 52), 60.0, "up", 0.62),
        Span("spoke_back", (36, 41), (40, 34), 41.0, share=3.3),
        Span("loaded_radius", (118, 53), (118, 28), 118.0, "up"),
        Spot("loaded_bulge", (156.4, 32), (149, 40)),
        Spot("diameter", (135.7, 70.7), (145, 84)),
    ),
)  # fmt: skip
