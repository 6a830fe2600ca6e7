"""Leaf springs as links: where the seat moves as the leaf bends, and what resists wind-up.

A leaf pack whose leaves are stepped to carry alike bends to an arc of a circle.  Its eye then moves
against the seat on a path that a rigid link of three quarters of the half leaf follows closely
(the "three-link equivalent" of the SAE spring design manuals); a single leaf of one thickness needs
five sixths.  Rates follow from cantilevers clamped at the seat.
"""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula

_EYES = {"front_half_leaf": (0.1, 1.5), "rear_half_leaf": (0.1, 1.5)}
_EYES_WORDS = "no leaf spring of a car has an eye so near to or so far from its seat"
_CAMBER = {"leaf_camber": (-0.25, 0.25)}
_CAMBER_WORDS = "a leaf bent so far is no longer close to flat"


@formula(
    "L_e",
    "length",
    source="SAE leaf spring manuals, three-link equivalent (from memory); arc (derived)",
)
def stepped_leaf_link(half_leaf: Num) -> Num:
    """Length of the link that moves the eye as half of a stepped leaf pack does."""
    return 0.75 * half_leaf


@formula("L_e", "length", source="cantilever of one thickness, shortening by its slope (derived)")
def single_leaf_link(half_leaf: Num) -> Num:
    """Length of the link that moves the eye as half of a single leaf of one thickness does."""
    return 5.0 * half_leaf / 6.0


@formula(
    "a_l",
    "length",
    source="arc of a circle, to the second power of its rise (derived)",
    valid=_CAMBER,
    outside=_CAMBER_WORDS,
)
def half_leaf_length(leaf_reach: Num, leaf_camber: Num) -> Num:
    """Length of half a leaf along its curve, from where its eye is ahead of and above the seat."""
    return leaf_reach + 2.0 * leaf_camber * leaf_camber / (3.0 * leaf_reach)


@formula(
    "k_f",
    "stiffness",
    source="two cantilevers clamped at the seat, stiffness with the cube of length (derived)",
    valid=_EYES,
    outside=_EYES_WORDS,
)
def near_half_rate(leaf_rate: Num, front_half_leaf: Num, rear_half_leaf: Num) -> Num:
    """Rate of the front half of a leaf alone, seat held from turning.

    Swap the halves for the rear one.  ``leaf_rate`` is that of the whole spring, as it is tested:
    loaded at the seat, which may turn.
    """
    both = front_half_leaf + rear_half_leaf
    return leaf_rate * rear_half_leaf * rear_half_leaf / (front_half_leaf * both)


@formula(
    "k_ψ",
    "torsional stiffness",
    source="two cantilevers clamped at the seat (derived)",
    valid=_EYES,
    outside=_EYES_WORDS,
)
def leaf_windup_stiffness(leaf_rate: Num, front_half_leaf: Num, rear_half_leaf: Num) -> Num:
    """Stiffness of one leaf spring against wind-up, with eyes and seat held up and down."""
    return leaf_rate * front_half_leaf * rear_half_leaf
