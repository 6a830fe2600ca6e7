"""Sketches of a housing end with bearing, brake, flange, studs and nuts: loose on the bench."""

from __future__ import annotations

from axlewright.drawing.sketch_marks import (
    BODY,
    CENTER,
    HIDDEN,
    SOFT,
    Along,
    Sketch,
    Span,
    Spot,
    area,
    box,
    path,
    ring,
    words,
)

_SHAFT = (
    box(28, 20, 176, 28), box(42, 20, 50, 70), box(32, 20, 42, 33),
    path((6, 20), (178, 20), look=CENTER),
)  # fmt: skip
_HOUSING = (
    area((114, 44), (114, 74), (126, 74), (126, 50), (176, 50), (176, 44), (136, 44), (136, 34),
         (132, 34), (132, 44), look=SOFT),
    words((150, 46), "tube", size=2.5),
)  # fmt: skip

BEARING = Sketch(
    "end_stack", "Housing end, bearing and flange, upper half",
    "The stack from the housing end outward, which is to the left: shim, bearing, gasket, plate,"
    " retainer, shaft flange with its register, hat or drum.",
    180.0, 104.0,
    (
        *_SHAFT, *_HOUSING,
        box(106, 28, 130, 44), box(130, 28, 132, 44), box(112.5, 46, 114, 74),
        box(106, 46, 112.5, 84, SOFT), area((98, 38), (106, 38), (108, 42), (106, 43.4),
        (106, 66), (98, 66)),
        box(88, 60, 126, 64), box(90, 57.5, 98, 66.5),
        area((36, 34), (42, 34), (42, 76), (88, 76), (88, 82), (36, 82), look=SOFT),
        box(30, 36, 36, 70, SOFT), path((30, 36), (14, 36), (14, 70), (30, 70), look=HIDDEN),
        words((18, 51), "wheel", size=2.5), words((60, 22.5), "shaft", size=2.5),
    ),
    (
        Span("brake_space", (42, 70), (114, 74), 97.0, share=0.35),
        Span("bearing_to_flange", (42, 70), (106, 44), 90.5, share=0.35),
        Spot("hat", (39, 79), (28, 88)),
        Spot("spacer", (33, 60), (22, 62)),
        Spot("register", (36, 33), (22, 30)),
        Span("register_height", (32, 22), (42, 22), 12.0),
        Spot("rotor_bore", (39, 34), (56, 40)),
        Spot("hat_inside", (66, 76), (66, 69)),
        Spot("flange_diameter", (46, 70), (57, 64)),
        Spot("flange_thickness", (48, 54), (60, 54)),
        Span("bearing_pocket", (114, 44), (132, 34), 12.0, share=0.5),
        Span("bearing_width", (106, 28), (130, 28), 5.0, share=0.5),
        Spot("backing_plate", (109, 80), (120, 84)),
        Spot("retainer", (100, 50), (86, 48)),
        Spot("retainer_lip", (107, 41), (92, 36)),
        Spot("gasket", (113.2, 70), (132, 80)),
        Spot("bearing_shim", (131, 38), (144, 36)),
        Spot("end_flange", (121, 70), (140, 66)),
    ),
)  # fmt: skip

DISC = Sketch(
    "end_stack", "Disc and caliper, upper half",
    "The disc on its hat and the caliper on the housing end: all from the flange side of the hat or"
    " from the housing end's face.",
    180.0, 104.0,
    (
        *_SHAFT, *_HOUSING,
        area((36, 34), (42, 34), (42, 71), (70, 71), (70, 90), (62, 90), (62, 77), (36, 77),
             look=SOFT),
        area((52, 80), (59, 80), (59, 93), (73, 93), (73, 80), (84, 80), (84, 98), (52, 98)),
        area((84, 84), (106, 84), (106, 50), (114, 50), (114, 44), (100, 44), (100, 78), (84, 78),
             look=SOFT),
        words((108, 80), "bracket", size=2.5), path((66, 67), (66, 101), look=CENTER),
    ),
    (
        Span("rotor_depth", (42, 50), (66, 71), 58.0, share=0.6),
        Spot("rotor_thickness", (66, 84), (88, 70)),
        Span("caliper_out", (66, 71), (114, 50), 38.0, share=0.55),
        Spot("caliper_slot", (59, 86), (44, 90)),
        Span("caliper_radius", (60, 20), (60, 98), 20.0, "up", 0.6),
        Span("caliper_face", (52, 80), (114, 44), 12.0, share=0.4),
    ),
)  # fmt: skip

DRUM = Sketch(
    "end_stack", "Drum and its plate, upper half",
    "The drum and the plate on the housing end: depth of the drum from the flange side of its web,"
    " place of the plate beside its edge from the housing end's face.",
    180.0, 96.0,
    (
        *_SHAFT, *_HOUSING,
        area((36, 34), (42, 34), (42, 82), (98, 82), (98, 89), (36, 89), look=SOFT),
        area((106, 46), (114, 46), (114, 74), (110, 78), (106, 90), (102, 90), (104, 76), (106, 72),
             look=SOFT),
        words((60, 85), "drum", size=2.5), words((118, 86), "plate", size=2.5),
    ),
    (
        Span("drum_depth", (42, 60), (98, 82), 56.0, share=0.45),
        Span("plate_face", (104, 78), (114, 46), 40.0, share=-1.2),
    ),
)  # fmt: skip

FACE = Sketch(
    "end_stack", "Face of the housing end, and of the flange",
    "The housing end from outside with its bolt holes and bore, and the shaft flange with its"
    " access"
    " hole and the socket through it.",
    180.0, 82.0,
    (
        area((16, 14), (76, 14), (76, 66), (16, 66), look=SOFT), ring((46, 40), 17.0),
        ring((24, 22), 2.4), ring((68, 22), 2.4), ring((24, 58), 2.4), ring((68, 58), 2.4),
        path((10, 40), (82, 40), look=CENTER), path((46, 8), (46, 72), look=CENTER),
        words((14, 76), "housing end, from outside"),
        ring((134, 40), 30.0, SOFT), ring((134, 40), 10.0), ring((134, 40), 20.0, CENTER),
        ring((134, 60), 2.2), ring((153, 46), 2.2), ring((145.8, 23.8), 2.2), ring((122.2, 23.8),
        2.2),
        ring((115, 46), 2.2), ring((148, 54), 5.0), ring((148, 54), 3.4, HIDDEN),
        path((100, 40), (168, 40), look=CENTER), words((102, 76), "flange, from outside"),
    ),
    (
        Span("bolts_across", (24, 22), (68, 22), 6.0, share=0.5),
        Span("bolts_up", (24, 22), (24, 58), 8.0, "up"),
        Spot("bearing_bore", (58, 52), (86, 52)),
        Spot("access_hole", (152, 57.2), (172, 66)),
        Spot("socket", (149, 51), (172, 50)),
        Along("access_radius", (134, 40), (148, 54), share=0.58),
    ),
)  # fmt: skip

STUD = Sketch(
    "end_stack", "Stud, wheel nut, and the bolts of the retainer",
    "A stud in the flange with hat and wheel on it; the nut in section; a retainer bolt with its"
    " nut.",
    180.0, 80.0,
    (
        box(62, 16, 70, 64), box(56, 16, 62, 64, SOFT), path((42, 16), (42, 64), look=HIDDEN),
        path((56, 16), (42, 16), look=HIDDEN), path((56, 64), (42, 64), look=HIDDEN),
        box(12, 36, 76, 44), box(46, 35, 62, 45), path((16, 36), (16, 44), look=BODY),
        words((63, 67), "flange", size=2.5), words((43, 67), "wheel", size=2.5),
        area((98, 28), (118, 28), (118, 52), (98, 52), (94, 47), (94, 33), look=SOFT),
        box(94, 36, 112, 44), path((98, 28), (98, 52), look=HIDDEN),
        words((120, 46), "wheel nut", size=2.5),
        words((86, 39), "seat", size=2.5),
        box(138, 44, 172, 50), box(134, 40, 138, 54), box(160, 40, 168, 54, SOFT),
        words((134, 58), "retainer bolt", size=2.5),
    ),
    (
        Span("stud_length", (12, 36), (62, 16), 8.0, share=0.4),
        Span("stud_blank", (46, 35), (62, 35), 26.0, share=0.5),
        Span("stud_lead", (12, 44), (16, 44), 52.0, share=-0.9),
        Span("nut_thread", (94, 36), (112, 36), 14.0, share=0.5),
        Span("nut_sink", (94, 47), (98, 52), 66.0, share=-1.2),
        Span("nut_depth", (98, 44), (112, 44), 74.0, share=0.5),
        Span("bolt_length", (138, 44), (172, 44), 32.0, share=0.5),
        Span("retainer_nut", (160, 54), (168, 54), 66.0, share=1.8),
    ),
)  # fmt: skip
