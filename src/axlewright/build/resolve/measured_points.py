"""Points and bushes of the links by name: what launch and housing are worked out from alike."""

from __future__ import annotations

from typing import TYPE_CHECKING

from axlewright.build.linkage import AXES, RATES, of_links
from axlewright.quantities.estimate import Leaf

if TYPE_CHECKING:
    from axlewright.build.resolve.measured import Readings


def read_of(x: Readings) -> dict[str, Leaf]:
    """What the links are worked out from, by name."""
    read: dict[str, Leaf] = {}
    for name in of_links(x.points):
        for axis in AXES:
            read[f"{name} {axis}"] = getattr(x.points[name], axis)
    return read | {f"{rate} stiffness": getattr(x.bushes, rate) for rate in RATES}
