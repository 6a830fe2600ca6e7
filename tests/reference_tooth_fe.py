"""Teeth by finite elements of another library: scikit-fem, quadratic tetrahedra, own mesh.

Only the flanks' points and the outline of the rim come from the program; mesh, stiffness and loads
are made here.  Loads are patches of pressure on the flank (tents over the mesh's own triangles),
displacements are read on the flank itself.  ``reference_tooth_press`` adds what lies below the
size of a patch.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csc_matrix, csr_matrix
from scipy.sparse.linalg import SuperLU, splu
from scipy.spatial import cKDTree
from skfem import (
    Basis,
    BilinearForm,
    ElementTetP1,
    ElementTetP2,
    ElementVector,
    FacetBasis,
    MeshTet,
)
from skfem.helpers import sym_grad
from skfem.models.elasticity import lame_parameters, linear_elasticity, linear_stress

from axlewright.hypoid.loaded.bodies import Tooth, line_at
from axlewright.hypoid.loaded.grid import Cells, grid_of

Array = NDArray[np.float64]
Index = NDArray[np.int64]
YOUNGS, POISSON = 206e9, 0.3


class Fineness(NamedTuple):
    """Cells along, up (two in the flare) and through; down the rim and to each side of a tooth."""

    along: int = 24
    up: int = 8
    through: int = 6
    down: int = 3
    side: int = 4


@dataclass
class Body:
    """Teeth on a piece of rim.

    ``vertices`` (points, 3); ``teeth`` (tooth, along, up, through) and ``rim`` number them.
    ``places`` of the first two are shares of face and depth.  ``turns`` are the teeth's angles
    about the gear's ``axis`` from the one in the middle.
    """

    axis: int
    vertices: Array
    teeth: Index
    rim: Index
    held: NDArray[np.bool_]
    places: tuple[Array, Array]
    turns: Array

    @cached_property
    def mesh(self) -> MeshTet:
        blocks = [self.rim, *self.teeth]
        return MeshTet(self.vertices.T.copy(), np.concatenate([tets(b) for b in blocks]).T.copy())

    @cached_property
    def basis(self) -> Basis:
        return Basis(self.mesh, ElementVector(ElementTetP2()), intorder=2)

    @cached_property
    def stiffness(self) -> csr_matrix:
        return linear_elasticity(*lame_parameters(YOUNGS, POISSON)).assemble(self.basis)

    @cached_property
    def node_dofs(self) -> Index:
        """Degrees of freedom (3, nodes): corners first, then middles of edges."""
        return np.hstack([self.basis.nodal_dofs, self.basis.edge_dofs])

    @cached_property
    def nodes(self) -> Array:
        m = self.mesh
        return np.vstack([m.p.T, 0.5 * (m.p[:, m.edges[0]] + m.p[:, m.edges[1]]).T])

    @cached_property
    def free(self) -> Index:
        m = self.mesh
        held = np.concatenate([self.held, self.held[m.edges[0]] & self.held[m.edges[1]]])
        return np.sort(self.node_dofs[:, ~held].ravel())

    @cached_property
    def factors(self) -> SuperLU:
        free = self.free
        return splu(
            csc_matrix(self.stiffness[free][:, free]), permc_spec="MMD_AT_PLUS_A",
            diag_pivot_thresh=0.0, options={"SymmetricMode": True},
        )  # fmt: skip

    def moved(self, loads: Array) -> Array:
        """Displacements (dofs, loads)."""
        out = np.zeros_like(loads)
        out[self.free] = self.factors.solve(np.ascontiguousarray(loads[self.free]))
        return out

    def lattice(self, tooth: int, up: slice = slice(None), through: slice = slice(None)) -> Index:
        """Nodes (2·along+1, …) of a tooth: corners and the middles between them, as numbers."""
        v = self.vertices[self.teeth[tooth][:, up, through]]
        wanted = middles(v)
        off, found = self._tree.query(wanted.reshape(-1, 3))
        if off.max() > 1e-9:
            raise ArithmeticError("the mesh has no node where the lattice has one")
        return found.reshape(wanted.shape[:3])

    @cached_property
    def _tree(self) -> cKDTree:
        return cKDTree(self.nodes)


def middles(v: Array) -> Array:
    """Corners of a lattice and the middles of all edges that cutting into tetrahedra makes."""
    low = [np.arange(2 * n - 1) // 2 for n in v.shape[:3]]
    high = [(np.arange(2 * n - 1) + 1) // 2 for n in v.shape[:3]]
    return 0.5 * (v[np.ix_(*low)] + v[np.ix_(*high)])


def tets(index: Index) -> Index:
    """Six tetrahedra to a cell, all about the same long diagonal."""
    n = [k - 1 for k in index.shape]
    found = []
    for order in itertools.permutations(range(3)):
        at = np.zeros(3, dtype=int)
        corners = [at.copy()]
        for k in order:
            at[k] += 1
            corners.append(at.copy())
        found.append(
            np.stack([index[c[0]:c[0] + n[0], c[1]:c[1] + n[1], c[2]:c[2] + n[2]].ravel()
                      for c in corners], axis=1)
        )  # fmt: skip
    return np.concatenate(found)


def body_of(tooth: Tooth, fine: Fineness, beside: int = 0, reach: float = 2.0) -> Body:
    """A tooth with ``beside`` more on either side, on rim that is held ``reach`` pitches away."""
    grid = grid_of(tooth, Cells(fine.along // 2, fine.up // 2, 1, 1, 1))
    s = tooth.ends[0] + grid.along * (tooth.ends[1] - tooth.ends[0])
    low, high = line_at(tooth.root, s), line_at(tooth.tip, s)
    h = low[:, None] + grid.up * (high - low)[:, None]
    first, last = (azimuth(tooth.axis, grid.points[grid.flank(k)]) for k in (1, -1))
    thick = (last - first + np.pi) % (2.0 * np.pi) - np.pi
    part = 0.5 * (1.0 - np.cos(np.pi * np.arange(fine.through + 1) / fine.through))
    turn = first[..., None] + part * thick[..., None]
    block = tooth.points(
        np.broadcast_to(s[:, None, None], turn.shape), h[..., None] + 0.0 * turn, turn
    )
    pitch = float(np.sign(thick[0, 0])) * 2.0 * np.pi / tooth.teeth
    turns = pitch * np.arange(-beside, beside + 1)
    across, columns = across_rim(turn[:, 0], turns, reach * pitch, fine.side)
    deep = (np.arange(fine.down + 1) / fine.down)[::-1] ** 1.3
    below = low[:, None] - tooth.rim * deep
    rim = tooth.points(
        np.broadcast_to(s[:, None, None], (*below.shape, 1)), below[..., None], across[:, None]
    )
    rim_index = np.arange(rim.size // 3).reshape(rim.shape[:3])
    held = np.zeros(rim.shape[:3], dtype=bool)
    held[:, 0] = held[:, :, [0, -1]] = True
    points, numbers, marks = [rim.reshape(-1, 3)], [], [held.ravel()]
    count = rim_index.size
    for angle, column in zip(turns, columns, strict=True):
        above = turned(block[:, 1:], tooth.axis, angle)
        own = count + np.arange(above.size // 3).reshape(above.shape[:3])
        numbers.append(np.concatenate([rim_index[:, -1:, column], own], axis=1))
        points.append(above.reshape(-1, 3))
        marks.append(np.zeros(own.size, dtype=bool))
        count += own.size
    return Body(
        tooth.axis, np.concatenate(points), np.stack(numbers), rim_index, np.concatenate(marks),
        (grid.along, grid.up), turns,
    )  # fmt: skip


def across_rim(root: Array, turns: Array, reach: float, side: int) -> tuple[Array, list[slice]]:
    """Azimuths across the rim at every station, and which columns each tooth stands on."""
    middle = 0.5 * (root[:, :1] + root[:, -1:])
    between = np.arange(1, side) / side
    columns, parts, at = [], [middle + turns[0] - reach], 1
    for angle in turns:
        start = parts[-1][:, -1:]
        parts += [start + between * (root[:, :1] + angle - start), root + angle]
        at += side - 1
        columns.append(slice(at, at + root.shape[1]))
        at += root.shape[1]
    start = parts[-1][:, -1:]
    parts += [start + between * (middle + turns[-1] + reach - start), middle + turns[-1] + reach]
    return np.concatenate(parts, axis=1), columns


def azimuth(axis: int, points: Array) -> Array:
    return np.arctan2(points[..., (axis + 2) % 3], points[..., (axis + 1) % 3])


def turned(v: Array, axis: int, angle: float) -> Array:
    """Vectors (…, 3) turned right-handed about a coordinate axis."""
    i, j = (axis + 1) % 3, (axis + 2) % 3
    out = np.array(v)
    out[..., i] = np.cos(angle) * v[..., i] - np.sin(angle) * v[..., j]
    out[..., j] = np.sin(angle) * v[..., i] + np.cos(angle) * v[..., j]
    return out


@dataclass
class Pressed:
    """One flank of a tooth of a body: tents of pressure on it and what they do.

    ``corners`` (along, up, 3) and ``normals`` into the tooth; ``triangles`` (n, 3) number the
    corners row by row; ``area`` and ``center`` of every tent; ``loads`` (dofs, tents) have one
    newton each along the normal.
    """

    corners: Array
    normals: Array
    triangles: Index
    area: Array
    center: Array
    loads: Array
    nodes: Index


def flank_of(body: Body, tooth: int, side: int) -> Pressed:
    face = slice(0, 1) if side > 0 else slice(-1, None)
    index = body.teeth[tooth][:, :, face][:, :, 0]
    corners = body.vertices[index]
    inside = body.vertices[body.teeth[tooth][:, :, 1 if side > 0 else -2]]
    normals = np.cross(np.gradient(corners, axis=0), np.gradient(corners, axis=1))
    normals /= np.linalg.norm(normals, axis=-1, keepdims=True)
    normals *= np.sign(np.sum(normals * (inside - corners), axis=-1, keepdims=True))
    m = body.mesh
    number = np.full(m.p.shape[1], -1)
    number[index.ravel()] = np.arange(index.size)
    facets = np.flatnonzero((number[m.facets] >= 0).all(axis=0))
    quadratic = FacetBasis(m, ElementTetP2(), facets=facets, intorder=4)
    linear = quadratic.with_element(ElementTetP1())
    product = BilinearForm(lambda u, v, _: u * v)
    mass = product.assemble(linear, quadratic)[:, index.ravel()].toarray()
    plain = product.assemble(linear, linear)[index.ravel()][:, index.ravel()]
    area = np.asarray(plain.sum(axis=1)).ravel()
    flat = corners.reshape(-1, 3)
    scalar = np.concatenate([quadratic.nodal_dofs[0], quadratic.edge_dofs[0]])
    loads = np.zeros((body.basis.N, index.size))
    for k in range(3):
        loads[body.node_dofs[k]] = mass[scalar] / area * normals.reshape(-1, 3)[:, k]
    return Pressed(
        corners, normals, number[m.facets[:, facets]].T, area, (plain @ flat) / area[:, None],
        loads, body.lattice(tooth, through=face)[:, :, 0],
    )  # fmt: skip


def spread_loads(body: Body, side: int, amount: list[Array]) -> Array:
    """Loads (dofs, n) spread evenly through the thickness, one newton each.

    ``amount`` is the pressure on the flank at nodes (along, up) of the middle tooth's lattice.
    """
    k = len(body.turns) // 2
    nodes = body.lattice(k)
    at = body.nodes[nodes]
    face = at[:, :, 0 if side > 0 else -1]
    way = np.cross(np.gradient(face, axis=0), np.gradient(face, axis=1))
    way /= np.linalg.norm(way, axis=-1, keepdims=True)
    away = at[:, :, -1 if side > 0 else 0] - face
    way *= np.sign(np.sum(way * away, axis=-1, keepdims=True))
    through = np.linalg.norm(at - at[:, :, :1], axis=-1).mean(axis=(0, 1))
    places = [simpson(p) for p in body.places]
    weight = np.einsum("a,b,c->abc", *places, simpson(through[::2]))
    loads = np.zeros((body.basis.N, len(amount)))
    for n, a in enumerate(amount):
        own = weight * a[..., None]
        own /= own.sum()
        for c in range(3):
            loads[body.node_dofs[c][nodes], n] = own * way[..., c : c + 1]
    return loads


def simpson(corners: Array) -> Array:
    """Weights of Simpson's rule at corners and middles of cells."""
    wide = np.diff(corners)
    out = np.zeros(2 * wide.size + 1)
    out[:-1:2] += wide / 6.0
    out[2::2] += wide / 6.0
    out[1::2] += 4.0 * wide / 6.0
    return out


def flare_tension(body: Body, side: int, moved: Array) -> Array:
    """Greatest tension (Pa; by load) at the root on the loaded side, without a fillet of its own.

    The mean of the first principal stress over the two rows of cells of the flare, where it is
    greatest along the face.
    """
    k = len(body.turns) // 2
    index = body.teeth[k][:, :3, 0 if side > 0 else -1]
    m = body.mesh
    station = np.full(m.p.shape[1], -1)
    station[index.ravel()] = np.repeat(np.arange(index.shape[0]), index.shape[1])
    facets = m.boundary_facets()
    facets = facets[(station[m.facets[:, facets]] >= 0).all(axis=0)]
    cell = station[m.facets[:, facets]].min(axis=0)
    face = FacetBasis(m, ElementVector(ElementTetP2()), facets=facets, intorder=2)
    stress = linear_stress(*lame_parameters(YOUNGS, POISSON))
    greatest = []
    for column in moved.T:
        tensor = np.asarray(stress(sym_grad(face.interpolate(column))))
        first = np.linalg.eigvalsh(np.moveaxis(tensor, (0, 1), (-2, -1)))[..., -1]
        share = np.bincount(cell, (first * face.dx).sum(axis=1)) / np.bincount(
            cell, face.dx.sum(axis=1)
        )
        greatest.append(share.max())
    return np.array(greatest)


@dataclass
class Block:
    """Where points lie on a plain block's face, as a tooth tells it."""

    size: tuple[float, float, float]

    def located(self, points: Array) -> tuple[Array, Array]:
        return points[0] / self.size[0], points[1] / self.size[1]


def block_body(block: Block, cells: tuple[int, int, int]) -> Body:
    """A block that is held at its far face; cells grow with the depth."""
    along, up = (np.linspace(0.0, 1.0, n + 1) for n in cells[:2])
    deep = (np.arange(cells[2] + 1) / cells[2]) ** 1.6
    points = np.stack(
        np.meshgrid(*(a * k for a, k in zip((along, up, deep), block.size, strict=True)),
                    indexing="ij"), axis=-1,
    )  # fmt: skip
    index = np.arange(points.size // 3).reshape(points.shape[:3])
    held = np.zeros(index.size, dtype=bool)
    held[index[:, :, -1]] = True
    nothing = np.zeros((1, 1, 1), dtype=np.int64)
    return Body(
        2, points.reshape(-1, 3), index[None], nothing, held, (along, up), np.zeros(1)
    )  # fmt: skip
