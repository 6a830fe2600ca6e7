"""Invented axles of every kind that the suspension room knows, in meters; not a test itself."""

import numpy as np

from axlewright.suspension.kinds import (
    LeafSpring,
    Watt,
    ladder_bars,
    leaf_springs,
    parallel_four_link,
    three_link,
    torque_arm,
    triangulated_four_link,
)
from axlewright.suspension.linkage import Crank, Link, Wheels

RADIUS = 0.33
WHEELS = Wheels((0.0, 0.74, RADIUS), (0.0, -0.74, RADIUS))
LOWER = ((0.56, 0.46, 0.23), (0.01, 0.50, 0.205))
SLANTED = ((0.42, 0.40, 0.37), (0.012, 0.12, 0.43))
UPPER = ((0.42, 0.30, 0.37), (0.012, 0.32, 0.43))
MIDDLE = ((0.45, 0.06, 0.40), (0.02, 0.08, 0.46))
ROD = ((-0.12, -0.52, 0.37), (-0.11, 0.48, 0.33))


def links(lower=np.inf, upper=np.inf, rod=np.inf):
    """Lower, slanted, upper and middle link, and rod."""
    return (
        Link(*LOWER, lower),
        Link(*SLANTED, upper),
        Link(*UPPER, upper),
        Link(*MIDDLE, upper),
        Link(*ROD, rod),
    )


def watt(stiffness=np.inf):
    """Watt linkage with its crank on the axle."""
    return Watt.on_axle(
        (-0.14, 0.0, 0.31),
        ((-0.15, 0.46, 0.36), (-0.15, 0.01, 0.37)),
        ((-0.15, -0.46, 0.25), (-0.15, -0.01, 0.25)),
        stiffness,
    )


def watt_on_body():
    """The other way round: the crank on the body, rods to the ends of the axle."""
    left = Link((-0.15, 0.0, 0.37), (-0.13, 0.46, 0.36), crank=0, name="left Watt rod")
    right = Link((-0.15, 0.0, 0.25), (-0.13, -0.46, 0.25), crank=0, name="right Watt rod")
    return Watt(left, right, Crank((-0.15, 0.0, 0.31), (1.0, 0.0, 0.0), "body"))


def held():
    """Axles on just as many pieces as they need: nothing gives."""
    low, slanted, _, middle, rod = links()
    return {
        "triangulated": triangulated_four_link(WHEELS, low, slanted),
        "three-link": three_link(WHEELS, low, middle, rod),
        "three-link, Watt": three_link(WHEELS, low, middle, watt()),
        "three-link, Watt on body": three_link(WHEELS, low, middle, watt_on_body()),
        "torque arm": torque_arm(WHEELS, low, (1.15, 0.07, 0.36), rod),
    }


def giving():
    """Axles with more pieces than they need, and so with bushes that give."""
    low, _, upper, _, rod = links(2.0e7, 1.5e7, 1.2e7)
    return {
        "parallel": parallel_four_link(WHEELS, low, upper, rod),
        "parallel, Watt": parallel_four_link(WHEELS, low, upper, watt(1.2e7)),
        "ladder bars": ladder_bars(WHEELS, (0.82, 0.36, 0.28), rod, 1.5e7, 6.0e6),
        "leaf": leaf_springs(WHEELS, LEAF),
        "leaf in soft eyes": leaf_springs(WHEELS, SOFT_LEAF),
    }


def soft():
    """The held axles once more with bushes, for what only bushes decide."""
    low, slanted, _, middle, rod = links(8.0e6, 6.0e6, 5.0e6)
    return {
        "triangulated": triangulated_four_link(WHEELS, low, slanted),
        "three-link": three_link(WHEELS, low, middle, rod),
        "three-link, Watt": three_link(WHEELS, low, middle, watt(5.0e6)),
        "torque arm": torque_arm(WHEELS, low, (1.15, 0.07, 0.36), rod, 9.0e5),
    }


_LEAF = {
    "front_eye": (0.58, 0.52, 0.30),
    "seat": (0.0, 0.54, 0.27),
    "rear_eye": (-0.74, 0.55, 0.33),
    "shackle_top": (-0.72, 0.55, 0.43),
    "rate": 26e3,
    "sideways": 4.0e5,
}
LEAF = LeafSpring(**_LEAF)
SOFT_LEAF = LeafSpring(**_LEAF, bush=3.0e6)


def every():
    """All of them by name; the held ones stiff."""
    return held() | giving()
