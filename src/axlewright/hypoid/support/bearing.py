"""All bearings at once, roller by roller and slice by slice.

The inner ring moves against the outer ring by five numbers: shift along (0) and across (1, 2) the
shaft, turn about both cross axes (3, 4).  At a roller at angle ψ, at a place s along it, the races
approach by::

    δ = f sin α·u₀ + cos α (u₁ cos ψ + u₂ sin ψ) + (f r sin α - s)(u₃ sin ψ - u₄ cos ψ)
        + closing - profile(s)

and a slice carries Palmgren's share of load, 10/9 power of δ, when δ > 0 (one normal approach for
both contacts of a roller; rings stay round, their seats give elsewhere).  Forces are the gradient
of one energy, so the stiffness is symmetric.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from axlewright.hypoid.support.roller import Roller
from axlewright.mechanics import roller_contact
from axlewright.quantities.formula import Array

SLICES = 15
"""Slices along a roller."""


class Response(NamedTuple):
    """What the bearings answer: energy, force on the outer rings (n, 5), stiffness (n, 5, 5)."""

    energy: float
    force: Array
    stiffness: Array


class Bearings:
    """Bearings side by side, padded to the one with the most rollers."""

    def __init__(self, rollers: Sequence[Roller], slices: int = SLICES) -> None:
        self.rollers = tuple(rollers)
        most = max(r.count for r in rollers)
        self.arms = np.zeros((len(rollers), most, 2, 5))
        self.stiff = np.zeros((len(rollers), most))
        self.places = np.zeros((len(rollers), slices))
        self.profile = np.zeros((len(rollers), slices))
        middles = (np.arange(slices) + 0.5) / slices - 0.5
        for i, r in enumerate(rollers):
            self.arms[i, : r.count] = arms(r, 2.0 * np.pi * np.arange(r.count) / r.count)
            whole = float(roller_contact.roller_load(1e-6, r.length)) / 1e-6 ** (10.0 / 9.0)
            self.stiff[i, : r.count] = whole * r.stiffening / slices
            self.places[i] = middles * r.length
            if r.crowned:
                self.profile[i] = roller_contact.roller_profile(
                    self.places[i], r.length, r.diameter
                )
            self.profile[i] += 0.5 * r.clearance * np.cos(r.contact_angle)
        self._flat = self.arms.reshape(len(rollers), -1, 5)
        self._powers = np.stack([np.ones_like(self.places), self.places, self.places**2], axis=2)

    def approach(self, shift: Array, closing: Array) -> Array:
        """Approach of the races, (bearing, roller, slice); below zero is a gap."""
        parts = (self._flat @ shift[:, :, None]).reshape(self.arms.shape[:3])
        return np.asarray(
            parts @ self._powers[:, :, :2].transpose(0, 2, 1)
            + (closing[:, None] - self.profile)[:, None, :]
        )

    def loads(self, shift: Array, closing: Array) -> Array:
        """Loads of all slices (bearing, roller, slice)."""
        pressed = np.maximum(self.approach(shift, closing), 0.0)
        return np.asarray(self.stiff[:, :, None] * pressed ** (10.0 / 9.0))

    def respond(self, shift: Array, closing: Array) -> Response:
        """Energy, forces and stiffness for the shifts (n, 5) of inner against outer rings."""
        pressed = np.maximum(self.approach(shift, closing), 0.0)
        root = self.stiff[:, :, None] * pressed ** (1.0 / 9.0)
        load = root * pressed
        sums = load @ self._powers[:, :, :2]
        slopes = (10.0 / 9.0) * root @ self._powers
        n, rollers = self.stiff.shape
        force = (sums.reshape(n, 1, -1) @ self._flat)[:, 0]
        pairs = slopes[:, :, [0, 1, 1, 2]].reshape(n, rollers, 2, 2)
        weighted = (pairs @ self.arms).reshape(n, -1, 5)
        stiffness = self._flat.transpose(0, 2, 1) @ weighted
        return Response(9.0 / 19.0 * float(np.sum(load * pressed)), force, stiffness)


def arms(roller: Roller, angles: Array) -> Array:
    """How the five shifts close a roller at each angle: (angle, at its middle | per s, shift)."""
    sin, cos = np.sin(roller.contact_angle), np.cos(roller.contact_angle)
    lever = roller.facing * roller.pitch_radius * sin
    both = np.zeros((angles.size, 2, 5))
    both[:, 0, 0] = roller.facing * sin
    both[:, 0, 1] = cos * np.cos(angles)
    both[:, 0, 2] = cos * np.sin(angles)
    both[:, 1, 3] = -np.sin(angles)
    both[:, 1, 4] = np.cos(angles)
    both[:, 0, 3:] = -lever * both[:, 1, 3:]
    return both
