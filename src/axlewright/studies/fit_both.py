"""One build looked at twice: at the nominal values, and on samples of what readings may be off."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.build.resolve import Resolved
from axlewright.quantities.estimate import Plain
from axlewright.quantities.sampling import Samples
from axlewright.studies.angles_fill import filled as angles_filled
from axlewright.studies.angles_fill import kind_of
from axlewright.studies.angles_linkage import axle_of
from axlewright.studies.angles_linkage import lacking as lacking_points
from axlewright.studies.fit_fill import SIDES, Filled, fill
from axlewright.studies.fit_known import number
from axlewright.studies.fit_look import Look, Plan, look_across
from axlewright.studies.fit_places import Moving, moving
from axlewright.suspension.linkage import Linkage


@dataclass(frozen=True)
class Both:
    """The same looked at plainly and on samples."""

    plain: Filled
    look: Look
    drawn: Filled
    sampled: Look
    low: dict[str, bool]
    samples: Samples
    moving: Moving


def both(build: Resolved, seed: int, count: int) -> Both:
    """Look at a build plainly and on samples."""
    plain = fill(build, Plain())
    low = meets_bulge(plain)
    look = look_across(plain, low, Plan())
    samples = Samples(seed, count)
    drawn = fill(build, samples)
    return Both(
        plain, look, drawn, look_across(drawn, low, plan_of(plain, look)), low, samples,
        moving(plain, look, _linkage(build)),
    )  # fmt: skip


def _linkage(build: Resolved) -> Linkage | None:
    """The links, where kind and points are known."""
    kind = kind_of(build)
    if not kind or lacking_points(kind, build.fitting.points):
        return None
    axle = axle_of(angles_filled(build, Plain()), kind)
    return None if axle is None else axle.linkage


def meets_bulge(plain: Filled) -> dict[str, bool]:
    """Whether the thing inboard is beside the bulge over the ground, side by side.

    So it counts where nobody measured its height.
    """
    ups = {side: plain.side(side).inner_up for side in SIDES}
    return {side: up is None or float(up) < 0.0 for side, up in ups.items()}


def plan_of(plain: Filled, look: Look) -> Plan:
    """What was decided: a width that is to be ordered, an offset for an axle that is there."""
    width = None if look.there else number(look.width)
    offset = None if plain.fitting.wheel.offset is not None else number(look.offset)
    return Plan(width, offset)
