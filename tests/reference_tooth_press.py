"""Contact of two teeth in cells of pressure: finite elements for the teeth, half-spaces below.

A cell's force acts on the elements as tents of pressure with the same sum and the same point of
attack; what a force in a cell does beyond its tents is that of the half-space under both
(Boussinesq; a rectangle's closed form is Love's).  The rest has neither sum nor moment and dies
away within a tent or two, so the half-space need only be right close by.  Every displacement is
the one of the flank itself: nothing is read in the middle of a tooth and no dent is added.

The gap is the distance of the pinion's real points from the cutter's cone, and the loads come
from conjugate gradients (Polonsky and Keer, Wear 231, 1999, from memory): neither lines of
contact nor their curvature nor the program's solution enter.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_matrix

from axlewright.hypoid import chebyshev
from axlewright.hypoid.conjugate_pinion import NODES, Flank
from axlewright.hypoid.ease_off import PinionSurface
from axlewright.hypoid.loaded.bodies import Tooth, line_at
from reference_tooth_fe import POISSON, YOUNGS, Block, Body, Pressed, azimuth, flank_of, turned

Array = NDArray[np.float64]
SOFT = (1.0 - POISSON**2) / (np.pi * YOUNGS)
_SPLIT = 6
_FEW = 4
Frame = tuple[Array, Array, Array]
"""Places, normals and directions of cells along the line (n, 3)."""


@dataclass
class Green:
    """What tents on one tooth's flank do on another's of the same gear, or on its own.

    ``moved`` (nodes along, up, 3, tents) by unit tents, both told in the frame of the tooth in the
    middle; ``pressed`` belongs to that tooth.
    """

    pressed: Pressed
    moved: Array
    places: tuple[Array, Array]


def greens_of(
    body: Body, side: int, loaded: tuple[int, ...], batch: int = 32
) -> dict[tuple[int, int], Green]:
    """By (tooth that is read, tooth that is loaded), numbers among the body's teeth."""
    middle = flank_of(body, len(body.turns) // 2, side)
    found = {}
    for k in loaded:
        pressed = flank_of(body, k, side)
        count = pressed.loads.shape[1]
        dofs = {i: body.node_dofs[:, flank_of(body, i, side).nodes].transpose(1, 2, 0)
                for i in loaded}  # fmt: skip
        moved = {i: np.empty((*d.shape, count)) for i, d in dofs.items()}
        for n in range(0, count, batch):
            fields = body.moved(pressed.loads[:, n : n + batch])
            for i, d in dofs.items():
                moved[i][..., n : n + batch] = fields[d]
        for i, m in moved.items():
            back = np.moveaxis(turned(np.moveaxis(m, 2, -1), body.axis, -body.turns[i]), -1, 2)
            found[i, k] = Green(middle, back, body.places)
    middle.loads = middle.loads[:0]  # large, and done with
    return found


@dataclass
class Cells:
    """Cells of one pair at a roll angle: ``point`` etc. (n, 3) in the pinion's frame (`pinion_`)
    and the ring's (`ring_`); ``along`` and ``across`` are their directions, ``size`` (m) their
    two edges, ``gap`` m, ``lever`` m per rad of the ring, ``x`` and ``y`` places on the flank,
    ``line`` and ``row`` number them along and across.
    """

    x: Array
    y: Array
    gap: Array
    lever: Array
    size: tuple[float, float]
    line: NDArray[np.int64]
    row: NDArray[np.int64]
    pinion: Frame
    ring: Frame

    def on(self, teeth: tuple[Tooth, Tooth], side: int) -> Cells:
        """The same in the frames of the ring's and the pinion's tooth as they were meshed: of two
        flanks of a tooth only one stands where it was cut."""
        frames = []
        for tooth, frame in zip(teeth, (self.ring, self.pinion), strict=True):
            along, up = tooth.located(frame[0].T)
            s = tooth.ends[0] + along * (tooth.ends[1] - tooth.ends[0])
            low, high = line_at(tooth.root, s), line_at(tooth.tip, s)
            there = tooth.flanks[side](s, low + up * (high - low))
            turn = there - azimuth(tooth.axis, frame[0])
            turn = (turn - turn[0] + np.pi) % (2.0 * np.pi) - np.pi + turn[0]
            frames.append(tuple(turned(v, tooth.axis, float(np.median(turn))) for v in frame))
        return replace(self, ring=frames[0], pinion=frames[1])

    def table(self, values: Array) -> Array:
        """Values by place along and across; nothing where no cell is."""
        out = np.zeros((self.line.max() + 1, self.row.max() + 1))
        out[self.line, self.row] = values
        return out

    def peaks(self, force: Array, inside: float) -> tuple[float, float]:
        """Peak pressure of stations that lie at |x| and |y| below ``inside``; of any cell."""
        pressure = self.table(force / (self.size[0] * self.size[1]))
        far = np.zeros(pressure.shape[0])
        where = np.maximum(np.abs(self.x), np.abs(self.y))
        np.maximum.at(far, self.line, np.where(force > 0.0, where, 0.0))
        well = ridge(pressure)[far < inside]
        return float(well.max(initial=0.0)), float(pressure.max())


def ridge(pressure: Array) -> Array:
    """Peak pressure across every station along (0 where too few cells carry).

    The square of Hertz's pressure is a parabola across; fitted through all carrying cells of three
    stations, so that the ripple of the tents' kinks (a few percent) does not count as peaks.
    """
    across = np.linspace(-1.0, 1.0, pressure.shape[1])
    found = np.zeros(pressure.shape[0])
    for i in range(1, pressure.shape[0] - 1):
        p = pressure[i - 1 : i + 2]
        on = p > 0.0
        if on[1].sum() < _FEW:
            continue
        c = np.polynomial.Polynomial.fit(np.tile(across, (3, 1))[on], p[on] ** 2, 2).convert().coef
        if c[2] < 0.0:
            found[i] = np.sqrt(max(c[0] - 0.25 * c[1] ** 2 / c[2], 0.0))
    return found


def read(values: Array, x: Array, y: Array) -> Array:
    """Values (…, along, up) at the Chebyshev points, read at places (n,): (…, n)."""
    bx, by = (
        chebyshev.basis(v, n) @ chebyshev.to_coefficients(n)
        for v, n in zip((x, y), NODES, strict=True)
    )
    return np.einsum("ni,...ij,nj->...n", bx, values, by)


def center_line(flank: Flank, level: float, step: float) -> tuple[Array, Array, float]:
    """Middles (x, y) of equal lengths of the line of contact, about ``step`` each; that length."""
    y = np.linspace(-1.0, 1.0, 801)
    x = np.zeros_like(y)
    low, high = -np.ones_like(y), np.ones_like(y)
    rise = np.sign(flank.roll[-1, 0] - flank.roll[0, 0])
    ends = [rise * (read(flank.roll, v, y) - level) for v in (low, high)]
    there = (ends[0] <= 0.0) & (ends[1] >= 0.0)
    for _ in range(50):
        x = 0.5 * (low + high)
        beyond = rise * (read(flank.roll, x, y) - level) > 0.0
        low, high = np.where(beyond, low, x), np.where(beyond, x, high)
    x, y = x[there], y[there]
    point = read(flank.pinion, x, y)
    way = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(point), axis=0))])
    count = max(3, round(way[-1] / step))
    each = way[-1] / count
    at = (np.arange(count) + 0.5) * each
    return np.interp(at, way, x), np.interp(at, way, y), each


def cells_of(
    surface: PinionSurface, level: float, half_width: float, step: float, count: int
) -> Cells:
    """Cells about the line of contact at a roll angle, those on the flank only."""
    flank, pair = surface.flank, surface.flank.pair
    x, y, length = center_line(flank, level, step)
    width = 2.0 * half_width / count
    small = 1e-5

    def slopes(field: Array) -> tuple[Array, Array]:
        found = []
        for dx, dy in ((small, 0.0), (0.0, small)):
            ends = [(np.clip(x + k * dx, -1.0, 1.0), np.clip(y + k * dy, -1.0, 1.0))
                    for k in (1.0, -1.0)]  # fmt: skip
            apart = sum(a - b for a, b in zip(*ends, strict=True))
            found.append((read(field, *ends[0]) - read(field, *ends[1])) / apart)
        return found[0], found[1]

    px, py = slopes(surface.points)
    rx, ry = slopes(flank.roll)
    along = py - ry / rx * px
    along /= np.linalg.norm(along, axis=0)
    normal = read(surface.normals, x, y)
    across = np.cross(normal, along, axis=0)
    basis = np.stack([np.stack([np.sum(a * b, axis=0) for b in (px, py)], -1) for a in (px, py)], 1)
    right = np.stack([np.sum(across * a, axis=0) for a in (px, py)], -1)
    way = np.linalg.solve(basis, right[..., None])[..., 0]
    rows = np.arange(count) - 0.5 * (count - 1)
    x2 = x[:, None] + way[:, :1] * rows * width
    y2 = y[:, None] + way[:, 1:] * rows * width
    on = (np.abs(x2) <= 1.0) & (np.abs(y2) <= 1.0)
    line, row = np.nonzero(on)
    x2, y2 = x2[on], y2[on]
    pinion = read(surface.points, x2, y2).T
    n = read(surface.normals, x2, y2).T
    t = along.T[line]
    t = t - np.sum(t * n, axis=1)[:, None] * n
    t /= np.linalg.norm(t, axis=1)[:, None]
    # Rolled into the ring's frame.
    offset = np.array([0.0, pair.axis_at, 0.0])
    ring = turned(turned(pinion, 0, level) + offset, 2, level / pair.ratio)
    n_ring, t_ring = (turned(turned(v, 0, level), 2, level / pair.ratio) for v in (n, t))
    cone = flank.cone.normal(ring.T).T
    lever = np.abs(ring[:, 0] * cone[:, 1] - ring[:, 1] * cone[:, 0])
    return Cells(
        x2, y2, flank.cone.distance(ring.T), lever, (length, width), line, row,
        (pinion, n, t), (ring, n_ring, t_ring),
    )  # fmt: skip


def rectangles(point: Array, along: Array, across: Array, size: tuple[float, float]) -> Array:
    """∫dA/r of rectangles (columns) at the middles of all (rows), in each one's own plane."""
    away = point[:, None, :] - point[None, :, :]
    u, v = np.sum(away * along, axis=-1), np.sum(away * across, axis=-1)
    a, b = (0.5 * k for k in size)

    def corner(x: Array, y: Array) -> Array:
        x, y = (np.where(np.abs(k) < 1e-12, 1e-12, k) for k in (x, y))
        return x * np.arcsinh(y / np.abs(x)) + y * np.arcsinh(x / np.abs(y))

    return corner(u + a, v + b) - corner(u - a, v + b) - corner(u + a, v - b) + corner(u - a, v - b)


def tent_potential(pressed: Pressed, point: Array) -> Array:
    """∫dA/r of tents of one newton each (columns) at points, by many small pieces."""
    flat = pressed.corners.reshape(-1, 3)
    corner = flat[pressed.triangles]
    share = []
    for i in range(_SPLIT):
        for j in range(_SPLIT - i):
            share.append((i + 1 / 3, j + 1 / 3))
            if i + j < _SPLIT - 1:
                share.append((i + 2 / 3, j + 2 / 3))
    b = np.array(share) / _SPLIT
    b = np.column_stack([b, 1.0 - b.sum(axis=1)])
    at = np.einsum("qk,tkc->tqc", b, corner)
    whole = 0.5 * np.linalg.norm(
        np.cross(corner[:, 1] - corner[:, 0], corner[:, 2] - corner[:, 0]), axis=1
    )
    piece = np.repeat(whole / b.shape[0], b.shape[0])
    column = np.repeat(pressed.triangles[:, None], b.shape[0], axis=1).reshape(-1, 3)
    row = np.repeat(np.arange(piece.size), 3)
    weight = (np.tile(b, (whole.size, 1)) * piece[:, None] / pressed.area[column]).ravel()
    spread = csr_matrix((weight, (row, column.ravel())), shape=(piece.size, flat.shape[0]))
    places = at.reshape(-1, 3)
    own = piece / (4.0 * np.pi)  # a disk's potential at its middle is that of this softening
    found = np.empty((point.shape[0], flat.shape[0]))
    for k in range(0, point.shape[0], 100):
        square = (
            np.sum(point[k : k + 100] ** 2, axis=1)[:, None] + np.sum(places**2, axis=1)
            - 2.0 * point[k : k + 100] @ places.T
        )  # fmt: skip
        found[k : k + 100] = (spread.T @ (1.0 / np.sqrt(np.maximum(square, 0.0) + own)).T).T
    return found


def lattice_place(green: Green, at: Array) -> Array:
    """Shares (2, n) along and up as places counted in cells of the mesh."""
    return np.stack([
        np.interp(share, places, np.arange(places.size))
        for share, places in zip(at, green.places, strict=True)
    ])  # fmt: skip


def tent_weights(green: Green, at: Array, point: Array, along: Array, across: Array) -> Array:
    """Weights (tents, n) of tents that have the sum and the point of attack of a force."""
    p = green.pressed
    na, nu = p.corners.shape[:2]
    where = lattice_place(green, at)
    cell = [np.clip(np.floor(w).astype(int), 0, n - 2)
            for w, n in zip(where, (na, nu), strict=True)]  # fmt: skip
    out = np.zeros((na * nu, point.shape[0]))
    near, first = [], []
    for di in (-1, 0, 1, 2):
        for dj in (-1, 0, 1, 2):
            i, j = cell[0] + di, cell[1] + dj
            inside = (i >= 0) & (i < na) & (j >= 0) & (j < nu)
            hat = np.maximum(1 - np.abs(where[0] - i), 0) * np.maximum(1 - np.abs(where[1] - j), 0)
            near.append(np.where(inside, i * nu + j, -1))
            first.append(np.where(inside, hat, 0.0))
    number, weight = np.stack(near, 1), np.stack(first, 1)
    away = p.center[number] - point[:, None, :]
    size = np.sqrt(p.area.mean())
    rows = np.stack([
        np.ones(number.shape),
        np.sum(away * along[:, None], -1) / size,
        np.sum(away * across[:, None], -1) / size,
    ], axis=1) * (number >= 0)[:, None, :]  # fmt: skip
    # The least change of the hats' weights that puts the point of attack right, nearby ones first.
    reach = np.exp(-(rows[:, 1] ** 2 + rows[:, 2] ** 2)) * (number >= 0)
    missing = np.array([1.0, 0.0, 0.0]) - np.einsum("nrk,nk->nr", rows, weight)
    square = np.einsum("nrk,nk,nsk->nrs", rows, reach, rows)
    weight = weight + reach * np.einsum(
        "nrk,nr->nk", rows, np.linalg.solve(square, missing[..., None])[..., 0]
    )
    for k in range(number.shape[1]):
        good = np.flatnonzero(number[:, k] >= 0)
        np.add.at(out, (number[good, k], good), weight[good, k])
    return out


def read_nodes(green: Green, at: Array, normal: Array, moved: Array) -> Array:
    """Displacement along ``normal`` (n, 3) at places, of fields (nodes along, up, 3, columns)."""
    where = lattice_place(green, at)
    na, nu = green.pressed.corners.shape[:2]
    index, part = [], []
    for w, n in zip(where, (na, nu), strict=True):
        c = np.clip(np.floor(w).astype(int), 0, n - 2)
        t = w - c
        index.append(2 * c[:, None] + np.arange(3))
        part.append(np.stack([(2 * t - 1) * (t - 1), 4 * t * (1 - t), t * (2 * t - 1)], 1))
    patch = moved[index[0][:, :, None], index[1][:, None, :]]
    return np.einsum("na,nb,nabck,nc->nk", part[0], part[1], patch, normal)


def influence(
    green: Green,
    tooth: Tooth | Block,
    read_at: Frame,
    loaded_at: Frame,
    size: tuple[float, float] | None,
) -> Array:
    """How far cells (rows) give under one newton in cells (columns), square to the flank.

    With a ``size`` of the cells these are the same ones and the half-space is added.
    """
    point, normal, along = loaded_at
    across = np.cross(normal, along)
    weights = tent_weights(green, np.stack(tooth.located(point.T)), point, along, across)
    there = np.stack(tooth.located(read_at[0].T))
    body = read_nodes(green, there, read_at[1], green.moved) @ weights
    # The cells' normals look into the pinion's tooth, the tents' into their own.
    inward = weights.T @ green.pressed.normals.reshape(-1, 3)
    sense = np.sign(np.sum(normal * inward))
    if size is None:
        return np.asarray(sense * body)
    fine = rectangles(point, along, across, size) / (size[0] * size[1])
    coarse = tent_potential(green.pressed, point) @ weights
    return np.asarray(sense * body + SOFT * (fine - coarse))


def pressed_together(
    give: Array, gap: Array, lever: Array, torque: float, rounds: int = 3000
) -> tuple[Array, float, float]:
    """Forces (above zero or gap), turn of the ring and greatest error (m) of a gap that is closed.

    Works on the moments of the cells, whose sum is the torque.
    """
    matrix = give / np.multiply.outer(lever, lever)
    apart = gap / lever
    q = np.full(lever.size, torque / lever.size)
    way, last, fresh = np.zeros_like(q), 1.0, True
    for _ in range(rounds):
        rest = matrix @ q + apart
        on = q > 0.0
        rest -= rest[on].mean()
        size = float(rest[on] @ rest[on])
        way = np.where(on, rest + (0.0 if fresh else size / last) * way, 0.0)
        last = size
        back = matrix @ way
        back -= back[on].mean()
        stride = float(rest[on] @ way[on]) / float(back[on] @ way[on])
        q = np.maximum(q - stride * way, 0.0)
        late = (q == 0.0) & (rest < 0.0)
        fresh = bool(late.any())
        q[late] -= stride * rest[late]
        q *= torque / q.sum()
        if not fresh and np.abs(rest[on] * lever[on]).max() < 1e-11:
            break
    rest = matrix @ q + apart
    turn = float(rest[q > 0.0].mean())
    off = np.where(q > 0.0, np.abs(rest - turn), np.maximum(turn - rest, 0.0)) * lever
    return q / lever, turn, float(off.max())


@dataclass
class Ball:
    """A steel body of two radii pressed onto a block: greatest pressure (Pa) in the middle, half
    length (m) of the contact by its second moment (as if an ellipse), line load there (N/m)."""

    peak: float
    half_length: float
    line: float


def ball_on_block(
    green: Green, block: Block, radii: tuple[float, float], force: float,
    half: tuple[float, float], count: tuple[int, int],
) -> Ball:  # fmt: skip
    """Relative radii along and across; both bodies give as the block does.

    Cells cover a rectangle of half sides ``half`` in the middle of the face.
    """
    middles = [
        (np.arange(n) - 0.5 * (n - 1)) * 2.0 * h / n for n, h in zip(count, half, strict=True)
    ]
    u, v = (a.ravel() for a in np.meshgrid(*middles, indexing="ij"))
    point = np.column_stack([u + 0.5 * block.size[0], v + 0.5 * block.size[1], np.zeros(u.size)])
    frame = (point, np.tile([0.0, 0.0, 1.0], (u.size, 1)), np.tile([1.0, 0.0, 0.0], (u.size, 1)))
    size = (2.0 * half[0] / count[0], 2.0 * half[1] / count[1])
    give = influence(green, block, frame, frame, size)
    gap = 0.5 * (u * u / radii[0] + v * v / radii[1])
    found, _, _ = pressed_together(give + give.T, gap, np.ones(u.size), force)
    table = found.reshape(count)
    middle = count[0] // 2
    return Ball(
        float(ridge(table / (size[0] * size[1]))[middle]),
        float(np.sqrt(5.0 * found @ u**2 / force)),
        float(table[middle].sum() / size[0]),
    )
