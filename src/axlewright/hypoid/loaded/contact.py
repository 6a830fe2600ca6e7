"""Loaded contact of a pair through a pitch: error of transmission, shares, pressure, force.

Frictionless and at rest.  Where the load reaches the end of a line the pressure there is that of a
cut-off strip; a sharp edge presses up to twice as hard.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from axlewright.hypoid.conjugate_pinion import Flank
from axlewright.hypoid.ease_off import PinionSurface
from axlewright.hypoid.lines import EDGES, GRID
from axlewright.hypoid.loaded import hertz
from axlewright.hypoid.loaded.compliance import Compliance, Member
from axlewright.hypoid.loaded.pressure import Pattern, pattern_of
from axlewright.hypoid.loaded.sharing import SHALLOW, Shared, places_on, share
from axlewright.hypoid.loaded.slices import Slices, sliced
from axlewright.hypoid.rolling import AT_REST
from axlewright.hypoid.support.mesh import Movement, ToothLoad
from axlewright.hypoid.unloaded import closing
from axlewright.quantities.formula import Array, Num

EDGE_PRESSURE = 0.3
"""Share of the peak pressure above which a line's end counts as an edge that carries (assumed)."""
INSIDE = 0.95
"""How far the inside of the flank reaches (of -1…1): beyond it real edges are broken or rounded,
and pressure at a sharp one would grow with every finer slice (assumed)."""


class Counts(NamedTuple):
    """Roll positions to a pitch and slices to a line of contact."""

    positions: int = 24
    slices: int = 32


@dataclass(frozen=True)
class LoadedContact:
    """What a torque does, by roll position, pair of teeth and slice of its line of contact.

    ``roll`` is rad of the pinion.  ``error`` (rad of the ring, by position) is zero where the
    unloaded flanks first touch and below zero where the ring lags, wind-up of the teeth included.
    ``share`` (position, pair) is each pair's part of the torque.  ``line_load`` N/m and
    ``pressure`` Pa lie at ``x`` and ``y`` (-1…1, as on the flank), each on a ``length`` (m) of its
    line, which is zero where a pair has no line.  ``edges`` says for which share
    of the pitch a line's end carries at an edge of the flank, ``edge_pressure`` (Pa) how hard;
    that figure does not settle with finer slices.  ``peak_pressure`` (Pa) is the greatest inside,
    2.5 % of face and height away from all edges.
    ``force`` is the mean over the pitch on the pinion, with its moment about the mean point;
    ``point`` (m) is where it acts, the places of contact weighted by load.
    ``ring_root`` and ``pinion_root`` are the greatest tension (Pa) at the root by position and
    pair, without the fillet's notch.
    """

    flank: Flank
    movement: Movement
    ring_torque: float
    roll: Array
    error: Array
    share: Array
    x: Array
    y: Array
    length: Array
    line_load: Array
    pressure: Array
    pattern: Pattern
    edges: dict[str, float]
    edge_pressure: dict[str, float]
    peak_pressure: float
    force: ToothLoad
    point: Array
    ring_root: Array
    pinion_root: Array
    rounds: int
    cautions: tuple[str, ...]

    @property
    def amplitude(self) -> float:
        """Peak-to-peak loaded transmission error, rad of the ring."""
        return float(self.error.max() - self.error.min())


def loaded(
    surface: PinionSurface,
    teeth: Compliance,
    ring_torque: float,
    movement: Movement = AT_REST,
    counts: Counts | None = None,
    grid: tuple[int, int] = GRID,
) -> LoadedContact:
    """Roll a moved pair through a pitch under a torque on the ring gear (N·m, above zero)."""
    many = counts or Counts()
    slices, levels, strained = mesh_slices(surface, teeth, movement, many)
    carried = share(slices, teeth, ring_torque)
    line = np.where(slices.real[..., None], carried.load / slices.length, 0.0)
    modulus = hertz.contact_modulus(teeth.youngs, teeth.poisson)
    pressure = np.asarray(hertz.line_pressure(line, slices.radius, modulus))
    least = np.where(slices.real[..., None], slices.gap / slices.lever, np.inf).min()
    peak = _peak(slices, pressure)
    edges, pressed = _edges(slices, pressure, peak)
    return LoadedContact(
        flank=surface.flank,
        movement=movement,
        ring_torque=ring_torque,
        roll=levels[:, 0],
        error=float(least) - carried.turn,
        share=np.sum(carried.load * slices.lever, axis=2) / ring_torque,
        x=slices.x,
        y=slices.y,
        length=np.where(slices.real[..., None], slices.length, 0.0),
        line_load=line,
        pressure=pressure,
        pattern=pattern_of(slices, levels, carried.load, (pressure, peak), surface.flank, grid),
        edges=edges,
        edge_pressure=pressed,
        peak_pressure=peak,
        force=_force(slices, carried, surface.flank),
        point=np.sum(carried.load * slices.point, axis=(1, 2, 3)) / carried.load.sum(),
        ring_root=_root_tension(teeth.ring, slices.ring_at, carried.load),
        pinion_root=_root_tension(teeth.pinion, slices.pinion_at, carried.load),
        rounds=carried.rounds,
        cautions=_cautions(edges, strained, _thin(slices, line, modulus)),
    )


def contact_force(
    surface: PinionSurface,
    teeth: Compliance,
    ring_torque: float,
    movement: Movement = AT_REST,
    counts: Counts | None = None,
) -> ToothLoad:
    """Only the mean force on the pinion and its moment about the mean point, in less time."""
    slices, _, _ = mesh_slices(surface, teeth, movement, counts or Counts())
    return _force(slices, share(slices, teeth, ring_torque), surface.flank)


def mesh_slices(
    surface: PinionSurface, teeth: Compliance, movement: Movement, counts: Counts
) -> tuple[Slices, Array, float]:
    """Slices of all pairs through a pitch, and the roll angle of every line."""
    flank = surface.flank
    if teeth.side != flank.side:
        raise ValueError("these teeth were worked out for the other flank")
    meeting, turn = closing(surface, movement)
    pitch = 2.0 * np.pi / flank.pair.pinion_teeth
    roll = meeting.roll
    middle = float(roll[roll.shape[0] // 2, roll.shape[1] // 2])
    low = int(np.floor((roll.min() - middle) / pitch))
    high = int(np.ceil((roll.max() - middle) / pitch))
    start = middle + pitch * np.arange(counts.positions) / counts.positions
    levels = start[:, None] + pitch * np.arange(low, high)
    return sliced(flank, meeting, turn, teeth, levels, counts.slices), levels, meeting.strained


def _peak(slices: Slices, pressure: Array) -> float:
    """Greatest pressure inside the flank; at the edges if it carries nowhere else."""
    far = np.maximum(np.abs(slices.x), np.abs(slices.y))
    inside = far < INSIDE
    step = np.diff(far, axis=-1)
    crosses = inside[..., 1:] != inside[..., :-1]
    part = (INSIDE - far[..., :-1]) / np.where(crosses, step, 1.0)
    there = pressure[..., :-1] + part * np.diff(pressure, axis=-1)
    found = max(pressure[inside].max(initial=0.0), there[crosses].max(initial=0.0))
    return float(found) or float(pressure.max())


def _edges(
    slices: Slices, pressure: Array, peak: float
) -> tuple[dict[str, float], dict[str, float]]:
    """Edges at which a line's end carries, for which share of the pitch, and how hard."""
    ends = pressure[..., [0, -1]] * slices.real[..., None]
    carries = ends > EDGE_PRESSURE * peak
    often, pressed = {}, {}
    for k, name in enumerate(EDGES):
        here = carries & (slices.ends == k)
        if name and here.any():
            often[name] = float(np.mean(here.any(axis=(1, 2))))
            pressed[name] = float(ends[here].max())
    return often, pressed


def _force(slices: Slices, carried: Shared, flank: Flank) -> ToothLoad:
    """Mean force on the pinion and its moment about the mean point."""
    each = carried.load * slices.normal
    arm = slices.point - flank.pair.mean_point.reshape(3, 1, 1, 1)
    moment = np.cross(arm, each, axis=0)
    positions = carried.load.shape[0]
    return ToothLoad(each.sum(axis=(1, 2, 3)) / positions, moment.sum(axis=(1, 2, 3)) / positions)


def _root_tension(member: Member, at: Array, load: Array) -> Array:
    """Greatest principal stress at the loaded side's root by position and pair."""
    count = member.along.size * member.up.size
    forces = places_on(member, at).gathered(load, count)
    stress = np.einsum("psk,lk->lps", member.root, forces)
    xx, yy, zz, yz, zx, xy = np.moveaxis(stress, -1, 0)
    tensor = np.stack([xx, xy, zx, xy, yy, yz, zx, yz, zz], axis=-1).reshape(*xx.shape, 3, 3)
    greatest = np.linalg.eigvalsh(tensor)[..., -1].max(axis=1)
    return np.asarray(greatest.reshape(load.shape[:2]))


def _thin(slices: Slices, line: Array, modulus: Num) -> float:
    """Share of the carrying slices under which a tooth is thin against the width of contact."""
    carries = line > 0.0
    width = hertz.contact_half_width(line, slices.radius, modulus)
    half = np.minimum(slices.ring_half, slices.pinion_half)
    return float(np.mean((half < SHALLOW * width)[carries]))


def _cautions(edges: dict[str, float], strained: float, thin: float) -> tuple[str, ...]:
    found = []
    if edges:
        where = ", ".join(
            f"{name} for {100 * part:.0f} % of a pitch" for name, part in edges.items()
        )
        found.append(
            f"the load reaches an edge ({where}); a real edge presses harder than is shown here"
        )
    if strained > 0.0:
        found.append(f"{100 * strained:.0f} % of the flank no longer meets properly")
    if thin > 0.0:
        found.append(
            f"under {100 * thin:.0f} % of the contact a tooth is thin against the width over which "
            "it is pressed; its give there is only estimated"
        )
    return tuple(found)
