"""What is taken off the conjugate pinion so that the contact stays in from the edges.

Ease-off is measured square to the flank, positive where material is gone.  It is prescribed over
two coordinates of the flank, ``x`` from toe (-1) to heel (+1) and ``y`` from the lowest line of
contact (-1) to the ring's tip (+1): crowning along and across, twist (bias), corrections of
spiral and pressure angle, and a parabola in the roll angle, which alone makes a transmission error
of its own amplitude.  Unless measured, this is *assumed micro-geometry*.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from axlewright.hypoid import chebyshev
from axlewright.hypoid.conjugate_pinion import NODES, Flank
from axlewright.quantities.formula import Array, Num, formula

PROFILE_CROWN = 10e-6
"""Ease-off at root and tip of a set whose own is not known, m (assumed)."""


@dataclass(frozen=True)
class EaseOff:
    """Ease-off of one flank: meters at the flank's edges, the amplitude in rad of ring rotation.

    ``length_crown`` and ``bias`` count from the center (x, y) = (``along``, ``up``);
    ``spiral`` and ``pressure`` are what a correction of spiral and pressure angle takes off at
    heel and tip (and adds at toe and root).  ``te_amplitude`` is the transmission error over half
    a pitch of the pinion from where the center touches.
    """

    length_crown: float = 0.0
    profile_crown: float = 0.0
    bias: float = 0.0
    spiral: float = 0.0
    pressure: float = 0.0
    te_amplitude: float = 0.0
    along: float = 0.0
    up: float = 0.0

    def on(self, flank: Flank) -> Array:
        """Ease-off at the flank's Chebyshev points."""
        x = chebyshev.nodes(NODES[0])[:, None]
        y = chebyshev.nodes(NODES[1])[None, :]
        dx, dy = x - self.along, y - self.up
        ease = self.length_crown * dx * dx + self.profile_crown * dy * dy + self.bias * dx * dy
        ease = ease + self.spiral * x + self.pressure * y
        if self.te_amplitude != 0.0:
            half_pitch = np.pi / flank.pair.pinion_teeth
            away = (flank.roll - self._center_roll(flank)) / half_pitch
            ease = ease + np.abs(flank.lever) * self.te_amplitude * away * away
        return np.asarray(ease)

    def _center_roll(self, flank: Flank) -> float:
        cx = chebyshev.basis(np.array([self.along]), NODES[0]) @ chebyshev.to_coefficients(NODES[0])
        cy = chebyshev.basis(np.array([self.up]), NODES[1]) @ chebyshev.to_coefficients(NODES[1])
        return float((cx @ flank.roll @ cy.T)[0, 0])

    def moved(self, **changes: float) -> EaseOff:
        """The same with some figures changed."""
        return replace(self, **changes)


@dataclass(frozen=True)
class PinionSurface:
    """The pinion's flank as it is: conjugate points set back by the ease-off, true normals."""

    flank: Flank
    ease: Array
    points: Array
    normals: Array


def ground(flank: Flank, ease: Array) -> PinionSurface:
    """Take an ease-off (values at the flank's Chebyshev points) off the conjugate pinion."""
    if not ease.any():
        return PinionSurface(flank, ease, flank.pinion, flank.pinion_normal)
    points = flank.pinion + ease * flank.pinion_normal
    dx = np.einsum("ij,cjk->cik", chebyshev.derivative(NODES[0]), points)
    dy = np.einsum("ij,ckj->cki", chebyshev.derivative(NODES[1]), points)
    normals = np.cross(dx, dy, axis=0)
    normals /= np.sqrt(np.sum(normals * normals, axis=0))
    sense = np.sign(np.sum(normals * flank.pinion_normal, axis=0))
    return PinionSurface(flank, ease, points, normals * sense)


@formula("Δφ_2", "angle", source="closed form: a parabola over half a pitch to either side")
def transmission_error_amplitude(roll_parabola: Num, pinion_teeth: Num) -> Num:
    """How far the ring lags where one pair of teeth hands over to the next."""
    half_pitch = np.pi / pinion_teeth
    return roll_parabola * half_pitch * half_pitch


@formula("s_h", "length", source="closed form: gap of a parabola equal to the film")
def half_contact_length(crown_radius: Num, marking_film: Num) -> Num:
    """Half the length that marking compound shows on a crowned tooth without load."""
    return np.sqrt(2.0 * crown_radius * marking_film)
