"""Side view and stiffness of the axle's links, from points and bushes, for the launch.

The geometry is solved for nominal values and for samples alike, once for all its numbers.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import TYPE_CHECKING, NamedTuple

from axlewright.build.fitting import BushStiffness, Spot
from axlewright.build.linkage import Hung, is_known, linkage_of, place, stated_wheels
from axlewright.quantities.estimate import Derived, Leaf, Plain
from axlewright.quantities.formula import Num
from axlewright.quantities.sampling import Samples
from axlewright.quantities.solved import solved
from axlewright.suspension.forces import mount_of
from axlewright.suspension.kinds import mirrored
from axlewright.suspension.linkage import Wheels
from axlewright.suspension.motion import side_view_of
from axlewright.suspension.pose import ride_height
from axlewright.vehicle.axle_forces import wheel_center_left

if TYPE_CHECKING:
    from axlewright.build.resolve.measured import Readings

_LINKS = (
    "wheel_center", "lower_", "upper_", "lateral_", "watt_", "arm_front", "bar_pivot", "leaf_",
    "shackle_",
)  # fmt: skip
_RATES = ("lower", "upper", "lateral", "arm", "leaf_rate", "leaf_sideways", "coil_rate")
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
    """The links of one build: names of what was read, and the last answer."""

    def __init__(self, kind: str, names: tuple[str, ...], single_leaf: bool) -> None:
        self.kind, self.names, self.single_leaf = kind, names, single_leaf
        self._last: tuple[tuple[Num, ...], dict[str, Num]] | None = None

    def numbers(self, read: Mapping[str, Num]) -> dict[str, Num]:
        """Every number; kept for the very same readings."""
        given, last = tuple(read.values()), self._last
        if last is not None and all(a is b for a, b in zip(last[0], given, strict=True)):
            return last[1]
        made = self._solved(read)
        self._last = given, made
        return made

    def _solved(self, read: Mapping[str, Num]) -> dict[str, Num]:
        points = {
            n: Spot(read[f"{n} forward"], read[f"{n} left"], read[f"{n} up"]) for n in self.names
        }
        rates = {n: read[f"{n} stiffness"] for n in _RATES}
        bushes: BushStiffness[Num] = BushStiffness(**rates, single_leaf=self.single_leaf)
        wheels = stated_wheels(points)
        if wheels is None:
            left = place(Spot(0.0, wheel_center_left(read["track"]), read["tire radius"]))
            wheels = Wheels(left, mirrored(left))
        pose = ride_height(linkage_of(self.kind, Hung(points, bushes), wheels))
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
    read, names = _read(x, track, tire_radius)
    solver = Links(kind, names, x.bushes.single_leaf)
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


def _read(x: Readings, track: Leaf, tire_radius: Leaf) -> tuple[dict[str, Leaf], tuple[str, ...]]:
    """What the links are worked out from, by name, and the names of its points."""
    names = tuple(n for n in x.points if n.removeprefix("right_").startswith(_LINKS))
    read: dict[str, Leaf] = {}
    for name in names:
        for axis in ("forward", "left", "up"):
            read[f"{name} {axis}"] = getattr(x.points[name], axis)
    for rate in _RATES:
        read[f"{rate} stiffness"] = getattr(x.bushes, rate)
    return read | {"track": track, "tire radius": tire_radius}, names
