"""The usual ways to hold a solid axle, from the points of the left-hand side.

Links given for the left are mirrored to the right.  A car whose sides differ, or with any other
arrangement, is a ``Linkage`` of its own pieces.  Every function says what has to give: where there
are more pieces than an axle needs, each piece must have a stiffness.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike

from axlewright.quantities.formula import Array, Num
from axlewright.suspension import leaf
from axlewright.suspension.linkage import RIGID, Crank, Guide, Link, Linkage, Wheels, spot

_MIRROR = np.array([1.0, -1.0, 1.0])
_UP = (0.0, 0.0, 1.0)
_FORWARD = (1.0, 0.0, 0.0)
_LEFT = (0.0, 1.0, 0.0)


@dataclass(frozen=True)
class Watt:
    """A Watt linkage: a crank in the middle with a rod to each side of the car."""

    left: Link
    """Left rod; the crank carries the end that lies on what the crank stands on."""
    right: Link
    crank: Crank

    @classmethod
    def on_axle(
        cls,
        pivot: ArrayLike,
        left: tuple[ArrayLike, ArrayLike],
        right: tuple[ArrayLike, ArrayLike],
        stiffness: Num = RIGID,
    ) -> Watt:
        """Crank on the axle; each rod from its point on the body to its end of the crank."""
        return cls(
            Link(*left, stiffness, crank=0, name="left Watt rod"),
            Link(*right, stiffness, crank=0, name="right Watt rod"),
            Crank(pivot, _FORWARD, "axle"),
        )


Lateral = Link | Watt
"""What holds an axle sideways: a rod from body to axle, or a Watt linkage."""


@dataclass(frozen=True)
class LeafSpring:
    """The left leaf spring with its shackle behind, main leaf at the height of its eyes."""

    front_eye: ArrayLike
    seat: ArrayLike
    """Main leaf over or under the middle of its clamp."""
    rear_eye: ArrayLike
    shackle_top: ArrayLike
    """The shackle's pivot on the body."""
    rate: Num
    """N/m at the seat, as springs are tested."""
    bush: Num = RIGID
    """N/m fore and aft of the front eye."""
    sideways: Num = RIGID
    """N/m of the whole spring with its bushes against a sideways force at the seat."""
    single: bool = False
    """One leaf of one thickness rather than a stepped pack."""


def mirrored(point: ArrayLike) -> Array:
    """The same point on the other side of the car."""
    other: Array = spot(point) * _MIRROR
    return other


def pair(link: Link, name: str) -> tuple[Link, Link]:
    """A left-hand link and its mirror image."""
    right = replace(link, body=mirrored(link.body), axle=mirrored(link.axle), name=f"right {name}")
    return replace(link, name=f"left {name}"), right


def triangulated_four_link(wheels: Wheels, lower: Link, upper: Link) -> Linkage:
    """Two links low, two high; a slanted pair holds the axle sideways.  Nothing has to give."""
    return Linkage(wheels, [*pair(lower, "lower link"), *pair(upper, "upper link")])


def parallel_four_link(wheels: Wheels, lower: Link, upper: Link, lateral: Lateral) -> Linkage:
    """Four links and a rod or Watt linkage: one more than needed, so the bushes give in roll."""
    links = [*pair(lower, "lower link"), *pair(upper, "upper link")]
    return _with_lateral(wheels, links, lateral)


def three_link(wheels: Wheels, lower: Link, upper: Link, lateral: Lateral) -> Linkage:
    """Two links low, one high (anywhere across the car).  Nothing has to give."""
    links = [*pair(lower, "lower link"), replace(upper, name="upper link")]
    return _with_lateral(wheels, links, lateral)


def torque_arm(
    wheels: Wheels, lower: Link, arm_front: ArrayLike, lateral: Lateral, stiffness: Num = RIGID
) -> Linkage:
    """Two links low; an arm fixed to the housing that slides fore and aft in a bush ahead.

    ``stiffness`` is that of bush and arm together, up and down at its front.
    """
    arm = Guide(arm_front, arm_front, _UP, stiffness, name="torque arm")
    return _with_lateral(wheels, [*pair(lower, "lower link"), arm], lateral)


def ladder_bars(
    wheels: Wheels, pivot: ArrayLike, lateral: Lateral, fore_aft: Num, upright: Num
) -> Linkage:
    """Two bars fixed to the housing, each with one pivot ahead; they bind in roll and must give.

    ``fore_aft`` and ``upright`` are the stiffness of one pivot, bar included, in N/m.
    """
    ends = (("left", spot(pivot)), ("right", mirrored(pivot)))
    guides = [
        Guide(end, end, way, stiffness, name=f"{side} bar {word}")
        for side, end in ends
        for way, stiffness, word in ((_FORWARD, fore_aft, "thrust"), (_UP, upright, "reaction"))
    ]
    return _with_lateral(wheels, guides, lateral)


def leaf_springs(wheels: Wheels, spring: LeafSpring) -> Linkage:
    """Two leaf springs that also locate the axle: each half a link, and a spring against turning.

    Bending is counted up and down the body.  What the load standing still adds or takes away, by
    pulling on leaves and shackles that turn, is left out; so is the twist of a leaf in roll.
    """
    pieces: list[Link | Guide] = []
    cranks = []
    for number, (side, flip) in enumerate((("left", 1.0), ("right", -1.0))):
        turn = np.array([1.0, flip, 1.0])
        front, seat, rear, top = (
            spot(p) * turn
            for p in (spring.front_eye, spring.seat, spring.rear_eye, spring.shackle_top)
        )
        cranks.append(Crank(top, _LEFT, "body"))
        pieces += _halves(spring, front, seat, rear, side, number)
        pieces.append(Guide(seat, seat, _LEFT, spring.sideways, name=f"{side} leaf sideways"))
    return Linkage(wheels, pieces, cranks)


def _halves(
    spring: LeafSpring, front: Array, seat: Array, rear: Array, side: str, number: int
) -> list[Link | Guide]:
    ahead, behind = front - seat, seat - rear
    front_half = leaf.half_leaf_length(ahead[..., 0], ahead[..., 2])
    rear_half = leaf.half_leaf_length(behind[..., 0], behind[..., 2])
    near = leaf.near_half_rate(spring.rate, front_half, rear_half)
    far = leaf.near_half_rate(spring.rate, rear_half, front_half)
    inner, outer = (
        seat + _along(half, spring.single) * way for half, way in ((front_half, 1), (rear_half, -1))
    )
    return [
        Link(front, inner, spring.bush, name=f"{side} front half"),
        Guide(front, front, _UP, near, name=f"{side} front bending"),
        Link(rear, outer, crank=number, name=f"{side} rear half"),
        Guide(rear, rear, _UP, far, crank=number, name=f"{side} rear bending"),
    ]


def _along(half: Num, single: bool) -> Array:
    """From the seat to where the link that stands for a half leaf turns."""
    link = leaf.single_leaf_link(half) if single else leaf.stepped_leaf_link(half)
    offset: Array = np.asarray(half - link)[..., None] * np.array(_FORWARD)
    return offset


def _with_lateral(wheels: Wheels, pieces: Sequence[Link | Guide], lateral: Lateral) -> Linkage:
    if isinstance(lateral, Watt):
        return Linkage(wheels, [*pieces, lateral.left, lateral.right], [lateral.crank])
    return Linkage(wheels, [*pieces, replace(lateral, name="lateral rod")])
