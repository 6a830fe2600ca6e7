"""The ten invented cars: one of each way to locate an axle, and what goes wrong on real ones.

A seed draws every dimension anew about the car's own, so that no try profits from a length that
happens to lie on a mark of the tape.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping
from dataclasses import replace

import numpy as np

from reference_fit_cars import Car, Housing, Vector, Wheel

Points = Mapping[str, tuple[float, float, float]]

LOWER_BODY, LOWER_AXLE = (22.0, 18.1, 9.0), (0.4, 19.7, -4.9)
_LINKS: dict[str, tuple[Points, Points]] = {
    "triangulated": (
        {"lower_body": LOWER_BODY, "upper_body": (16.5, 15.8, 14.6)},
        {"lower_axle": LOWER_AXLE, "upper_axle": (0.5, 4.7, 4.0)},
    ),
    "parallel": (
        {"lower_body": LOWER_BODY, "upper_body": (16.5, 12.0, 14.2)},
        {"lower_axle": LOWER_AXLE, "upper_axle": (0.5, 12.4, 4.2)},
    ),
    "three-link": (
        {"lower_body": LOWER_BODY, "upper_body": (17.7, 2.4, 15.7)},
        {"lower_axle": LOWER_AXLE, "upper_axle": (0.8, 3.1, 5.1)},
    ),
    "torque arm": (
        {"lower_body": LOWER_BODY, "arm_front": (45.0, 2.8, 13.5)},
        {"lower_axle": LOWER_AXLE},
    ),
    "ladder bars": ({"bar_pivot": (33.0, 14.2, 11.0)}, {}),
    "leaf": (
        {"leaf_front_eye": (22.8, 20.5, 11.8), "leaf_rear_eye": (-29.0, 21.6, 13.0),
         "shackle_top": (-28.4, 21.6, 17.0)},
        {"leaf_seat": (0.0, 21.3, -2.4)},
    ),
}  # fmt: skip
_ROD = ({"lateral_body": (-4.7, -20.5, 14.6)}, {"lateral_axle": (-4.3, 18.9, 0.4)})
_WATT = (
    {"watt_left_body": (-6.0, 18.1, 14.2), "watt_right_body": (-6.0, -18.1, 9.9)},
    {"watt_pivot": (-5.5, 0.0, -0.8), "watt_left_crank": (-6.0, 0.4, 1.5),
     "watt_right_crank": (-6.0, -0.4, -3.1)},
)  # fmt: skip
_OTHERS: tuple[Points, Points] = (
    {"spring_body": (1.0, 16.0, 23.0), "shock_body": (-3.0, 17.0, 27.0),
     "stop_body": (0.0, 17.0, 19.0), "hose_body": (6.0, 4.0, 20.0), "bar_body": (-14.0, 15.0, 14.0),
     "exhaust": (0.0, 12.0, 19.0), "tank": (-13.0, 0.0, 14.0)},
    {"spring_axle": (1.0, 17.0, 1.2), "shock_axle": (-3.0, 20.0, -3.0),
     "stop_axle": (0.0, 17.0, 3.3), "hose_axle": (2.0, 3.0, 4.0), "bar_axle": (-3.0, 19.0, -3.0)},
)  # fmt: skip
TWICE = (
    "lower_body", "lower_axle", "upper_body", "upper_axle", "bar_pivot", "leaf_front_eye",
    "leaf_seat", "leaf_rear_eye", "shackle_top", "spring_body", "spring_axle", "shock_body",
    "shock_axle",
)  # fmt: skip
_PARTS = {
    "wheel.rim_diameter": 15.0, "wheel.pad_thickness": 0.48, "wheel.hub_bore": 2.81,
    "wheel.loaded_bulge": 0.55, "ends.spacer": 0.0, "ends.register": 2.78,
    "ends.register_height": 0.46, "ends.rotor_bore": 2.79, "ends.hat_inside": 6.41,
    "ends.flange_diameter": 6.25, "ends.flange_thickness": 0.45, "ends.stud_length": 2.06,
    "ends.stud_blank": 0.18, "ends.nut_thread": 0.78, "ends.bearing_pocket": 0.83,
    "ends.bearing_width": 0.85, "ends.backing_plate": 0.12, "ends.retainer": 0.25,
    "ends.retainer_lip": 0.0, "ends.gasket": 0.012, "ends.bolt_length": 1.25,
    "ends.bolts_across": 3.5, "ends.bolts_up": 2.36, "ends.bearing_bore": 3.15,
    "ends.rotor_depth": 1.92, "ends.rotor_thickness": 0.81, "ends.caliper_out": 0.77,
    "ends.caliper_slot": 1.02, "centre.shaft_float": 0.011, "centre.nose": 12.4,
    "centre.height_above": 5.55, "centre.depth_behind": 7.1, "centre.fill_hole_up": -1.4,
    "fit.bump": 3.55, "fit.droop": 3.1, "fit.floor_gap": 5.2, "fit.tank_gap": 4.4,
    "fit.exhaust_gap": 4.6, "fit.hose_slack": 4.1,
    "slip.spline_length": 4.0, "slip.spline_diameter": 1.21, "angles.phase": 0.6,
    "tunnel.ahead": 30.3, "tunnel.above": 3.9, "tunnel.below": 4.6, "tunnel.left": 4.2,
    "tunnel.right": 3.7, "brakes.rear_radius": 4.9, "brakes.front_radius": 5.1,
    "brakes.parking_radius": 3.6, "wheel.lip_height": 0.69, "wheel.tread_width": 8.5,
    "wheel.inner_radius": 6.9, "wheel.spoke_back": 0.9, "wheel.loaded_radius": 13.2,
    "ends.bearing_shim": 0.0, "ends.drum_depth": 2.6, "ends.plate_face": 0.2,
    "ends.caliper_radius": 6.1, "ends.caliper_face": 2.3, "ends.access_hole": 1.25,
    "ends.access_radius": 2.1, "ends.socket": 0.95, "ends.end_flange": 0.4,
    "ends.retainer_nut": 0.45, "ends.stud_lead": 0.05, "ends.nut_sink": 0.0,
    "ends.nut_depth": 1.1, "centre.shaft_spline": 2.2, "centre.fill_hole_behind": 6.5,
    "centre.bearing_ahead": 8.5,
}  # fmt: skip
_EACH = {
    "roof": 19.2, "seat": 8.8, "shock": 10.3, "lip_at_bump": 7.1, "inner_at_bump": 8.8,
}  # fmt: skip


def _wheel(rim: float, section: float, offset: float) -> Wheel:
    return Wheel(rim, 0.5, offset, section, 27.3)


def _car(seed: int, number: int, name: str, links: str, across: str, **more: object) -> Car:
    """A car with small differences between its sides, drawn for its number and seed."""
    rng = random.Random(1000 * seed + number)

    def off(width: float = 0.06) -> float:
        return rng.uniform(-width, width)

    body: dict[str, Vector] = {}
    axle: dict[str, Vector] = {}
    rods = {"rod": _ROD, "watt": _WATT, "": ({}, {})}[across]
    for store, places in ((body, 0), (axle, 1)):
        for group in (_LINKS[links], rods, _OTHERS):
            for point, at in group[places].items():
                store[point] = np.add(at, [off(), off(), off()])
                if point in TWICE:
                    mirrored = store[point] * [1.0, -1.0, 1.0]
                    store[f"right_{point}"] = np.add(mirrored, [off(0.04), off(0.04), off(0.04)])
    half = 29.7 + off(0.8)
    aside = float(more.pop("differential_left", 0.0))  # type: ignore[arg-type]
    pinion = float(more.pop("pinion_left", 0.0))  # type: ignore[arg-type]
    old = Housing(
        (half - aside + off(), half + aside + off()), (2.42 + off(0.02), 2.42 + off(0.02)),
        (0.28, 0.28), 0.8, pinion, 12.2 + off(0.4),
    )  # fmt: skip
    wider = half - 1.1 + off(0.5)
    new = Housing(
        (wider - 0.6 * aside + off(0.03), wider + 0.6 * aside + off(0.03)),
        (2.5 + off(0.01), 2.5 + off(0.01)), (0.27 + off(0.01), 0.27 + off(0.01)),
        1.06 + off(0.1), 0.9 * pinion, 12.4,
    )  # fmt: skip
    parts = {k: v * (1.0 + off(0.05)) for k, v in _PARTS.items()}
    parts |= {f"fit.{s}.{k}": v + off(0.5) for s in ("left", "right") for k, v in _EACH.items()}
    for side, space in zip(("left", "right"), new.brake_space, strict=True):
        pressed = space + parts["ends.bearing_pocket"] - parts["ends.bearing_width"]
        parts[f"ends.{side}.bearing_to_flange"] = pressed
    lip = half + 7.3
    car = Car(
        name=name,
        kind=f"{links}, {across}" if across else links,
        old=old,
        new=new,
        wheel=_wheel(8.0, 10.3, 0.3),
        old_offset=0.2,
        center_height=12.9 + off(0.3),
        pinion_slope=1.5 + off(1.5),
        pinion_plan=off(0.4),
        gearbox_slope=3.0 + off(0.8),
        gearbox_plan=off(0.4),
        gearbox_joint=(65.5 + off(3.0), 0.8 * pinion + off(0.3), 14.3 + off(0.5)),
        axle_left=aside + off(0.1),
        lean=off(0.1),
        floor=off(0.3),
        cross_floor=off(0.08),
        gauge_zero=0.0,
        loaded_rise=2.5 + off(0.8),
        lip=(lip + off(0.15), lip + off(0.15)),
        lip_up=27.4 + off(0.5),
        inner=(half - 9.3 + off(0.2), half - 9.3 + off(0.2)),
        inner_up=18.8 + off(0.5),
        rail=(half - 8.1 + off(0.03), half - 8.1 + off(0.03)),
        rail_up=15.5,
        body=body,
        axle=axle,
        slip_bottomed=3.55 + off(0.3),
        slip_gap=0.9 + off(0.1),
        spline=(0.62, 2.15),
        parts=parts,
    )
    return replace(car, **more)  # type: ignore[arg-type]


def _slanted(seed: int) -> Car:
    return _car(seed, 1, "slanted uppers", "triangulated", "")


def _offset_pinion(seed: int) -> Car:
    return _car(seed, 2, "offset pinion", "parallel", "rod", pinion_left=-1.1,
                differential_left=-0.4)  # fmt: skip


def _sloping_floor(seed: int) -> Car:
    return _car(seed, 3, "sloping floor", "three-link", "rod", floor=0.7)


def _zeroed_on_a_rail(seed: int) -> Car:
    return _car(seed, 4, "gauge zeroed on a rail", "torque arm", "rod", gauge_zero=0.8)


def _wide_tires(seed: int) -> Car:
    return _car(seed, 5, "wide tires", "ladder bars", "rod", symmetric=False,
                wheel=_wheel(12.0, 14.6, -0.6))  # fmt: skip


def _bare_datum(seed: int) -> Car:
    return _car(seed, 6, "bare flanges as datum", "leaf", "", bare_datum=True)


def _sagged(seed: int) -> Car:
    return _car(seed, 7, "sagged left spring", "leaf", "", lean=1.0, symmetric=False)


def _far_differential(seed: int) -> Car:
    return _car(seed, 8, "far offset differential", "three-link", "watt", differential_left=1.2,
                pinion_left=-0.8)  # fmt: skip


def _bent(seed: int) -> Car:
    car = _car(seed, 9, "bent housing", "parallel", "watt", symmetric=False)
    return replace(car, old=replace(car.old, bent=(0.45, -0.1)))


def _bad_reading(seed: int) -> Car:
    return _car(seed, 10, "one bad reading", "triangulated", "", symmetric=False, bad=True)


CARS = (
    _slanted, _offset_pinion, _sloping_floor, _zeroed_on_a_rail, _wide_tires, _bare_datum,
    _sagged, _far_differential, _bent, _bad_reading,
)  # fmt: skip
"""Each makes its car for a seed."""


def pushed_side(seed: int) -> Car:
    """An eleventh: the left quarter was pushed in by an inch, so that no body symmetry holds."""
    car = _car(seed, 11, "pushed side", "parallel", "rod", symmetric=False)
    return replace(car, lip=(car.lip[0] - 1.0, car.lip[1]))


def off_middle(aside: float) -> Callable[[int], Car]:
    """A car like the first whose axle sits so many inches left of the body's middle."""

    def make(seed: int) -> Car:
        return replace(_slanted(seed), name="axle off the middle", axle_left=aside)

    return make
