"""Sketches of the points of the suspension: links, leaf springs, and what locates it sideways."""

from __future__ import annotations

from axlewright.drawing.sketch_marks import (
    BODY,
    CENTER,
    GROUND,
    SOFT,
    Sketch,
    Spot,
    area,
    box,
    path,
    ring,
    words,
)

LINKS = Sketch(
    "points_side", "Points of links, springs and what else is near, from the left",
    "The axle from the left, front on the left; every point three ways: forward of the axle line,"
    " left"
    " of the center plane, up from the ground.",
    180.0, 92.0,
    (
        path((4, 6), (176, 6), look=GROUND), ring((118, 34), 28.0, BODY), ring((118, 34),
        11.0, SOFT),
        path((30, 12), (22, 12)), area((22, 12), (26, 13), (26, 11)), path((30, 12), (30, 22)),
        words((8, 11), "forward", size=2.5), words((28, 24), "up", size=2.5),
        path((114, 20), (56, 24)), ring((114, 20), 1.4), ring((56, 24), 1.4),
        path((116, 50), (76, 46)), ring((116, 50), 1.4), ring((76, 46), 1.4),
        path((107, 36), (40, 40)), ring((40, 40), 1.4), ring((92, 26), 1.4),
        path((134, 26), (140, 76)), ring((134, 26), 1.4), ring((140, 76), 1.4),
        box(122, 46, 130, 72, SOFT), area((100, 62), (106, 62), (104, 54), (102, 54), look=SOFT),
        path((148, 66), (152, 56), (146, 46), (128, 40)), path((128, 40), (154, 30), (168, 36)),
        ring((86, 62), 3.0), box(152, 44, 172, 58, BODY), words((156, 50), "tank", size=2.5),
        ring((66, 36), 2.2), ring((14, 42), 2.2),
    ),
    (
        Spot("wheel_center", (118, 34), (126, 34)),
        Spot("lower_body", (56, 24), (50, 17)),
        Spot("lower_axle", (114, 20), (106, 12)),
        Spot("upper_body", (76, 46), (70, 53)),
        Spot("upper_axle", (116, 50), (113, 58)),
        Spot("arm_front", (40, 40), (34, 48)),
        Spot("bar_pivot", (92, 26), (88, 16)),
        Spot("spring_body", (126, 72), (120, 82)),
        Spot("spring_axle", (126, 46), (134, 48)),
        Spot("shock_body", (140, 76), (148, 84)),
        Spot("shock_axle", (134, 26), (140, 18)),
        Spot("stop_body", (103, 54), (96, 72)),
        Spot("stop_axle", (104, 45), (97, 41)),
        Spot("hose_body", (148, 66), (160, 70)),
        Spot("hose_axle", (128, 40), (140, 38)),
        Spot("bar_body", (168, 36), (175, 30)),
        Spot("bar_axle", (154, 30), (154, 20)),
        Spot("exhaust", (86, 59), (80, 72)),
        Spot("tank", (152, 52), (146, 58)),
        Spot("pinion_joint", (66, 36), (62, 30)),
        Spot("gearbox_joint", (14, 42), (14, 52)),
    ),
)  # fmt: skip

LEAF = Sketch(
    "points_side", "Leaf spring, from the left",
    "A leaf spring with its eyes, seat and shackle, from the left, front on the left.",
    180.0, 60.0,
    (
        path((20, 30), (50, 22), (92, 19), (134, 24), (160, 34)), path((20, 31.5), (50, 23.5),
        (92, 20.5), (134, 25.5), (160, 35.5)),
        ring((20, 31), 2.0), ring((160, 35), 2.0), path((160, 35), (156, 48)), ring((156, 48), 1.6),
        ring((92, 30), 8.0, SOFT), box(84, 17, 100, 22.5), path((6, 52), (174, 52), look=BODY),
        words((8, 54), "body"), path((20, 33), (20, 52), look=BODY), path((156, 49.5), (156, 52),
        look=BODY),
    ),
    (
        Spot("leaf_front_eye", (20, 31), (32, 38)),
        Spot("leaf_seat", (92, 19), (92, 8)),
        Spot("leaf_rear_eye", (160, 35), (170, 28)),
        Spot("shackle_top", (156, 48), (142, 44)),
    ),
)  # fmt: skip

ROD = Sketch(
    "points_side", "Lateral rod or Watt linkage, from behind",
    "The axle from behind, left on the left: a lateral rod from body to axle, and below it a Watt"
    " linkage with its crank on the axle.",
    180.0, 80.0,
    (
        box(16, 50, 24, 76, BODY), box(156, 50, 164, 76, BODY), box(24, 53, 156, 59, SOFT),
        path((90, 8), (90, 78), look=CENTER), path((30, 70), (150, 66)), ring((30, 70), 1.5),
        ring((150, 66), 1.5), words((68, 74), "lateral rod", size=2.5),
        area((88, 14), (92, 14), (92, 42), (88, 42)), ring((90, 28), 1.6), path((90, 40), (30, 42)),
        path((90, 16), (150, 18)), ring((30, 42), 1.5), ring((150, 18), 1.5), ring((90, 40), 1.5),
        ring((90, 16), 1.5), words((112, 32), "Watt crank", size=2.5), words((112, 62),
        "axle", size=2.5),
    ),
    (
        Spot("lateral_body", (30, 70), (38, 76)),
        Spot("lateral_axle", (150, 66), (146, 74)),
        Spot("watt_pivot", (90, 28), (80, 28)),
        Spot("watt_left_body", (30, 42), (24, 34)),
        Spot("watt_left_crank", (90, 40), (98, 46)),
        Spot("watt_right_body", (150, 18), (156, 28)),
        Spot("watt_right_crank", (90, 16), (98, 10)),
    ),
)  # fmt: skip
