"""The driveline seen from above, front at the left, as recognizable parts.

Each function draws one part in its own place on a sheet of 186 × 72 mm and is painted by the state
of its link.  ``PLACES`` says where a leader points at each link and where its balloon stands.
"""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.drawing import palette
from axlewright.drawing.primitives import Circle, Line, Look, Point, Polygon, Rect, Shape

WIDTH, HEIGHT = 186.0, 72.0
_Y = 36.0  # pinion and driveshaft
_X = 148.0  # axle


@dataclass(frozen=True)
class Place:
    """Where a leader points on the picture, and where the balloon of a link stands."""

    target: Point
    balloon: Point


PLACES: dict[str, Place] = {
    "clutch": Place((8.6, 30.0), (9.5, 13.0)),
    "converter": Place((8.6, 30.0), (9.5, 13.0)),
    "gearbox": Place((30.0, 31.0), (30.0, 18.0)),
    "slip_spline": Place((57.0, 35.2), (54.0, 22.0)),
    "universal_joint": Place((65.0, 34.8), (68.0, 22.0)),
    "driveshaft_tube": Place((90.0, 34.5), (90.0, 22.0)),
    "pinion_stem": Place((125.0, 35.6), (114.0, 22.0)),
    "gear_set": Place((137.0, 38.4), (114.0, 49.0)),
    "ring_bolts": Place((141.5, 42.2), (120.0, 57.0)),
    "differential": Place((152.0, 33.0), (173.0, 28.0)),
    "axle_shaft": Place((147.7, 20.3), (124.0, 13.5)),
    "axle_shaft.right": Place((147.7, 20.3), (124.0, 13.5)),
    "axle_shaft.left": Place((148.0, 58.0), (170.0, 65.0)),
    "wheel_end": Place((151.0, 14.8), (172.0, 16.0)),
    "studs": Place((150.5, 10.7), (172.0, 5.0)),
    "case": Place((161.0, 36.0), (174.0, 36.5)),
    "caps": Place((151.0, 44.4), (173.0, 44.0)),
    "tube_joint": Place((153.0, 47.8), (171.0, 51.0)),
    "tube": Place((151.5, 53.0), (166.0, 57.5)),
    "brackets": Place((140.3, 54.0), (126.0, 65.0)),
}

Paint = dict[str, str]
"""Fill color of each link; links that are not there are plain steel."""

_EDGE_STEEL = Look(fill=palette.STEEL, stroke=palette.INK, width=0.3)
_THIN = Look(stroke=palette.INK, width=0.18)
_AXIS = Look(stroke=palette.STEEL_DARK, width=0.15, dash=(3.0, 0.8, 0.6, 0.8))
_HOUSING = Look(fill=palette.FAINT, stroke=palette.STEEL_DARK, width=0.25)


def _fill(paint: Paint, link: str) -> Look:
    return Look(fill=paint.get(link, palette.STEEL), stroke=palette.INK, width=0.3)


def _spread(x: float, half: float, width: float, look: Look, corner: float = 0.0) -> Rect:
    """A rectangle lying on the driveshaft's axis."""
    return Rect((x, _Y - half), width, 2 * half, look, corner)


def _taper(x1: float, half1: float, x2: float, half2: float, look: Look) -> Polygon:
    return Polygon(((x1, _Y - half1), (x2, _Y - half2), (x2, _Y + half2), (x1, _Y + half1)), look)


def picture(paint: Paint) -> tuple[Shape, ...]:
    """The whole driveline with each part painted by its link."""
    return (
        *housing(paint),
        Line((1.0, _Y), (_X, _Y), _AXIS),
        Line((_X, 0.5), (_X, HEIGHT - 0.5), _AXIS),
        *_front(paint),
        *_driveshaft(paint),
        *_axle_shafts(paint),
        *_differential(paint),
        *_gears(paint),
        *_wheels(paint),
    )


def _front(paint: Paint) -> tuple[Shape, ...]:
    """Flywheel with clutch or converter in its bell, and the gearbox."""
    bell = Polygon(
        ((2.0, 20.0), (5.0, 20.0), (18.0, 28.0), (18.0, 44.0), (5.0, 52.0), (2.0, 52.0)), _HOUSING
    )
    coupling = "converter" if "converter" in paint else "clutch"
    flywheel = _spread(3.5, 13.0, 2.2, _EDGE_STEEL)
    teeth = tuple(
        Line((3.5, _Y + d), (5.7, _Y + d), _THIN)
        for d in (-12.2, -11.4, -10.6, 10.6, 11.4, 12.2)
    )  # fmt: skip
    look = _fill(paint, coupling)
    cover: Shape = (
        _spread(5.7, 10.5, 7.0, look, 3.4)
        if coupling == "converter"
        else _taper(5.7, 10.5, 10.8, 7.0, look)
    )
    box = _fill(paint, "gearbox")
    ribs = tuple(Line((x, _Y - 8), (x, _Y + 8), _THIN) for x in (24.0, 30.0, 36.0))
    shaft = _spread(10.8, 1.0, 7.2, _EDGE_STEEL)
    return (bell, flywheel, *teeth, shaft, cover, _spread(18.0, 8.0, 24.0, box, 1.0), *ribs,
            _taper(42.0, 5.2, 53.0, 3.0, box))  # fmt: skip


def _driveshaft(paint: Paint) -> tuple[Shape, ...]:
    """Slip spline, tube, and a joint at each end."""
    spline = _spread(53.0, 1.7, 7.5, _fill(paint, "slip_spline"))
    lines = tuple(Line((53.0, _Y + d), (60.5, _Y + d), _THIN) for d in (-0.8, 0.0, 0.8))
    tube = _fill(paint, "driveshaft_tube")
    weld = (_taper(69.5, 2.0, 72.5, 3.2, tube), _taper(107.0, 3.2, 110.0, 2.0, tube))
    return (
        spline,
        *lines,
        *weld,
        _spread(72.5, 3.2, 34.5, tube),
        *_joint(65.0, paint),
        *_joint(114.5, paint),
        _spread(119.0, 3.0, 2.2, _EDGE_STEEL),
    )


def _joint(x: float, paint: Paint) -> tuple[Shape, ...]:
    """Two yokes and the cross between them."""
    look = _fill(paint, "universal_joint")
    left = Polygon(
        ((x - 4.5, _Y - 1.8), (x - 3.0, _Y - 3.4), (x + 0.8, _Y - 3.4), (x + 0.8, _Y - 2.0),
         (x - 2.0, _Y - 2.0), (x - 2.0, _Y + 2.0), (x + 0.8, _Y + 2.0), (x + 0.8, _Y + 3.4),
         (x - 3.0, _Y + 3.4), (x - 4.5, _Y + 1.8)), look)  # fmt: skip
    right = Rect((x + 1.6, _Y - 2.0), 2.9, 4.0, look, 0.6)
    return (left, right, Circle((x, _Y), 1.9, look), Line((x - 1.3, _Y), (x + 1.3, _Y), _THIN),
            Line((x, _Y - 1.3), (x, _Y + 1.3), _THIN))  # fmt: skip


def housing(paint: Paint) -> tuple[Shape, ...]:
    """What holds the gears: case, caps, tube joints, tubes and brackets."""
    case_look = Look(fill=paint.get("case", palette.FAINT), stroke=palette.INK, width=0.3)
    case = Polygon(
        ((121.5, 32.6), (127.0, 31.8), (133.5, 26.5), (139.0, 24.0), (157.0, 24.0), (163.0, 29.0),
         (163.0, 43.0), (157.0, 48.0), (139.0, 48.0), (133.5, 45.5), (127.0, 40.2),
         (121.5, 39.4)), case_look)  # fmt: skip
    tube = Look(fill=paint.get("tube", palette.FAINT), stroke=palette.INK, width=0.3)
    joint = _fill(paint, "tube_joint")
    plate = _fill(paint, "brackets")
    shapes: list[Shape] = [Rect((_X - 4.5, 17.0), 9.0, 8.0, tube), case]
    shapes.insert(0, Rect((_X - 4.5, 47.0), 9.0, 8.0, tube))
    for y in (23.0, 46.8):
        shapes.append(Rect((_X - 5.4, y), 10.8, 2.2, joint))
    for y, way in ((18.6, -1.0), (53.4, 1.0)):
        shapes.append(
            Polygon(((_X - 4.5, y - 1.6), (138.0, y - 0.6 + way), (138.0, y + 0.6 + way),
                     (_X - 4.5, y + 1.6)), plate)
        )  # fmt: skip
        shapes.append(Circle((139.4, y + way * 0.8), 0.45, Look(palette.PAPER, palette.INK, 0.18)))
    return tuple(shapes)


def _axle_shafts(paint: Paint) -> tuple[Shape, ...]:
    """Both shafts, splined at their inner ends."""
    plain = paint.get("axle_shaft", palette.STEEL)
    shapes: list[Shape] = []
    for side, top, bottom, spline in (
        ("right", 12.5, 31.5, 28.0),
        ("left", 40.0, 59.5, 40.0),
    ):
        look = Look(fill=paint.get(f"axle_shaft.{side}", plain), stroke=palette.INK, width=0.3)
        shapes.append(Rect((_X - 1.4, top), 2.8, bottom - top, look))
        shapes.extend(
            Line((_X + d, spline), (_X + d, spline + 3.5), _THIN) for d in (-0.7, 0.0, 0.7)
        )
    return tuple(shapes)


def _differential(paint: Paint) -> tuple[Shape, ...]:
    """Differential case with its spider, between the two bearing caps."""
    look = _fill(paint, "differential")
    caps = _fill(paint, "caps")
    gear = Look(fill=palette.PAPER, stroke=palette.INK, width=0.2)
    spider = (
        Polygon(((_X - 4, 31.4), (_X + 4, 31.4), (_X + 2, 33.2), (_X - 2, 33.2)), gear),
        Polygon(((_X - 4, 37.4), (_X + 4, 37.4), (_X + 2, 35.6), (_X - 2, 35.6)), gear),
        Polygon(((_X - 4.4, 31.6), (_X - 2.4, 33.4), (_X - 2.4, 35.4), (_X - 4.4, 37.2)), gear),
        Polygon(((_X + 4.4, 31.6), (_X + 2.4, 33.4), (_X + 2.4, 35.4), (_X + 4.4, 37.2)), gear),
    )
    return (
        Rect((_X - 5.6, 30.2), 11.2, 8.4, look, 1.4),
        *spider,
        Rect((_X - 3.6, 26.4), 7.2, 2.8, caps, 0.5),
        Rect((_X - 3.6, 43.2), 7.2, 2.8, caps, 0.5),
    )


def _gears(paint: Paint) -> tuple[Shape, ...]:
    """Pinion with its stem, ring gear seen edge on, and the bolts behind it."""
    look = _fill(paint, "gear_set")
    bolts = _fill(paint, "ring_bolts")
    bearing = Look(fill=palette.PAPER, stroke=palette.INK, width=0.2)
    stem = _spread(121.2, 1.2, 13.0, _fill(paint, "pinion_stem"))
    rollers = tuple(
        Polygon(((x, _Y + s * 1.2), (x + w, _Y + s * 1.2), (x + w, _Y + s * 2.7),
                 (x, _Y + s * 3.1)), bearing)
        for x, w in ((123.2, 1.8), (130.6, 2.0)) for s in (-1, 1)
    )  # fmt: skip
    pinion = Polygon(((133.4, 32.8), (140.4, 34.2), (140.4, 37.8), (133.4, 39.2)), look)
    pinion_teeth = tuple(
        Line((133.4, _Y + 3.2 * s), (140.4, _Y + 1.8 * s), _THIN) for s in (-0.6, -0.2, 0.2, 0.6)
    )
    ring = Polygon(
        ((135.6, 40.0), (141.0, 38.8), (155.0, 38.8), (160.4, 40.0), (160.4, 41.6), (135.6, 41.6)),
        look,
    )
    teeth = tuple(
        Line((x, 39.9 if x < 138 or x > 158 else 39.2), (x + 0.5, 40.6), _THIN)
        for x in (137.0, 138.4, 139.8, 141.2, 154.8, 156.2, 157.6, 159.0)
    )
    heads = tuple(
        Rect((x, 41.6), 1.4, 1.1, bolts) for x in (137.4, 140.8, 153.8, 157.2)
    )  # fmt: skip
    return (stem, *rollers, *heads, ring, *teeth, pinion, *pinion_teeth)


def _wheels(paint: Paint) -> tuple[Shape, ...]:
    """Wheel ends, studs and tires."""
    rubber = Look(fill="#d3d9df", stroke=palette.INK, width=0.3)
    rim = Look(fill=palette.PAPER, stroke=palette.INK, width=0.2)
    end, stud = _fill(paint, "wheel_end"), _fill(paint, "studs")
    shapes: list[Shape] = []
    for sign, tire in ((-1.0, 0.6), (1.0, 61.4)):
        shapes.append(Rect((_X - 13.5, tire), 27.0, 10.0, rubber, 2.2))
        for x in (-10.0, -6.0, 6.0, 10.0):
            shapes.append(Line((_X + x, tire + 0.6), (_X + x, tire + 9.4), _THIN))
        inner = tire + 5.6 if sign < 0 else tire
        shapes.append(Rect((_X - 8.0, inner), 16.0, 4.4, rim, 0.4))
        flange = _Y + sign * 24.0 - 0.6
        shapes.append(Rect((_X - 5.0, flange), 10.0, 1.2, end))
        shapes.append(Rect((_X - 4.0, _Y + sign * 21.0 - 1.9), 8.0, 3.8, end, 0.4))
        for x in (-3.6, -1.6, 1.0, 3.0):
            y = flange - 2.6 if sign < 0 else flange + 1.0
            shapes.append(Rect((_X + x, y), 0.7, 2.8, stud))
    return tuple(shapes)
