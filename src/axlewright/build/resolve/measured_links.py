"""Side view and stiffness of the axle's links, from points and bushes, for the launch.

The geometry is solved for nominal values and for samples alike, once for all its numbers.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import TYPE_CHECKING, NamedTuple

from axlewright.build.fitting import Spot
from axlewright.build.linkage import (
    hung_of,
    is_known,
    linkage_of,
    place,
    stated_wheels,
)
from axlewright.build.resolve.measured_points import read_of
from axlewright.quantities.estimate import Derived, Leaf, Plain
from axlewright.quantities.formula import Num
from axlewright.quantities.sampling import Samples
from axlewright.quantities.solved import solved, untraced
from axlewright.suspension.forces import mount_of
from axlewright.suspension.kinds import mirrored
from axlewright.suspension.linkage import Wheels
from axlewright.suspension.motion import side_view_of
from axlewright.suspension.pose import ride_height
from axlewright.vehicle.axle_forces import wheel_center_left

if TYPE_CHECKING:
    from axlewright.build.resolve.measured import Readings

_DRAWS, _SEED = 64, 1
_TROUBLE = (
    "points: the links as measured cannot be worked out ({}); the launch takes its instant center"
    " and mounts by kind of suspension"
)
_BUSHES = (
    "suspension: stiffness against wind-up and fore and aft is that of the bushes alone; brackets,"
    " housing and floor give too, so the axle is softer than that. A reading with a torque bar is"
    " better: suspension.windup_torque and windup_angle"
)


class Number(NamedTuple):
    """A number of the links."""

    means: str
    dimension: str
    of_bushes: bool = False


NUMBERS = {
    "thrust_slope": Number("Thrust slope of the links.", "ratio"),
    "reaction_arm": Number("Reaction arm of the links.", "per distance"),
    "instant_center_ahead": Number("Instant center of the links ahead of the axle.", "length"),
    "instant_center_height": Number("Instant center of the links above ground.", "length"),
    "windup_stiffness": Number(
        "Stiffness of the bushes against winding up.", "torsional stiffness", True
    ),
    "mount_stiffness": Number("Stiffness of the bushes fore and aft.", "stiffness", True),
    "mount_height": Number("Height at which a push does not turn the axle.", "length", True),
}


class Links:
    """The links of one build, and the last answer."""

    def __init__(self, kind: str, single_leaf: bool) -> None:
        self.kind, self.single_leaf = kind, single_leaf
        self._last: tuple[tuple[Num, ...], dict[str, Num]] | None = None

    def numbers(self, read: Mapping[str, Num]) -> dict[str, Num]:
        """Every number; kept for the very same readings."""
        given, last = tuple(read.values()), self._last
        if last is not None and all(a is b for a, b in zip(last[0], given, strict=True)):
            return last[1]
        with untraced():
            made = self._solved(read)
        self._last = given, made
        return made

    def _solved(self, read: Mapping[str, Num]) -> dict[str, Num]:
        hung = hung_of(read, self.single_leaf)
        wheels = stated_wheels(hung.points)
        if wheels is None:
            left = place(Spot(0.0, wheel_center_left(read["track"]), read["tire radius"]))
            wheels = Wheels(left, mirrored(left))
        pose = ride_height(linkage_of(self.kind, hung, wheels))
        view, mount = side_view_of(pose), mount_of(pose)
        return {
            "thrust_slope": view.thrust_slope,
            "reaction_arm": view.reaction_arm,
            "instant_center_ahead": view.instant_center_ahead,
            "instant_center_height": view.instant_center_height(_axle_height(read)),
            "windup_stiffness": mount.windup,
            "mount_stiffness": mount.stiffness,
            "mount_height": mount.height,
        }


def _axle_height(read: Mapping[str, Num]) -> Num:
    """Axle line above ground as it was when the points were measured, else by the tire."""
    return read.get("wheel_center up", read["tire radius"])


class LinkNumber:
    """One number of the links, as the function of a leaf."""

    def __init__(self, links: Links, name: str) -> None:
        self.links, self.name = links, name
        self.__name__ = f"{links.kind} {name}"

    def __call__(self, **read: Num) -> Num:
        """Work it out from the readings by name."""
        number = NUMBERS[self.name]
        value = self.links.numbers(read)[self.name]
        return solved(number.means.rstrip("."), number.dimension, value, read)


def links(x: Readings, track: Leaf, tire_radius: Leaf) -> dict[str, Leaf]:
    """Every number that points and bushes give; none where the links are not known."""
    kind = str(x.book.stated("suspension.kind") or "")
    if not is_known(kind, x.points):
        return {}
    read = read_of(x) | {"track": track, "tire radius": tire_radius}
    solver = Links(kind, x.bushes.single_leaf)
    made: dict[str, Leaf] = {
        name: Derived(f"suspension.{name}", LinkNumber(solver, name), read) for name in NUMBERS
    }
    try:
        Samples(_SEED, _DRAWS).fill(made["thrust_slope"])
        values = {name: float(Plain().fill(leaf)) for name, leaf in made.items()}
    except ValueError as e:
        x.book.cautions.append(_TROUBLE.format(e))
        return {}
    stated = x.book.stated("bushes") is not None
    if stated:
        x.book.cautions.append(_BUSHES)
    return {
        name: leaf
        for name, leaf in made.items()
        if (stated or not NUMBERS[name].of_bushes)
        and (math.isfinite(values[name]) or not NUMBERS[name].of_bushes)
    }
