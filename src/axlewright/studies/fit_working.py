"""The working behind the numbers of the answer about fit."""

from __future__ import annotations

from axlewright.build.resolve import Resolved
from axlewright.quantities.working import Node, Nominal, Traced, tracing
from axlewright.studies.fit_ask import FitAsk
from axlewright.studies.fit_both import both, meets_bulge
from axlewright.studies.fit_brakes import brake_gaps, speedo_gaps
from axlewright.studies.fit_ends import gaps_of_end
from axlewright.studies.fit_fill import SIDES, fill
from axlewright.studies.fit_known import Known
from axlewright.studies.fit_lines import alike_ends
from axlewright.studies.fit_look import Plan, look_across
from axlewright.studies.fit_order import dimensions
from axlewright.studies.fit_room import rooms

_SEED, _FEW = 1, 2


def fit_nodes(build: Resolved, ask: FitAsk | None = None) -> dict[str, Node]:
    """The working behind every number that is worked out from one reading after the other, by id.

    Clearances over the whole travel are looked for in space: theirs tells where they were found.
    """
    b = both(build, _SEED, _FEW)
    with tracing():
        x = fill(build, Nominal())
        look = look_across(x, meets_bulge(x), Plan())
        found: dict[str, Known] = {d.key: d.value for d in dimensions(x, look)}
        found |= {r.key: r.clearance for r in rooms(x, look)}
        found |= {g.key: g.value for g in (*brake_gaps(x), *speedo_gaps(x, ask or FitAsk()))}
        sides = ("both",) if alike_ends(build) else SIDES
        for side in sides:
            which = "left" if side == "both" else side
            found |= {f"{g.key}_{side}": g.value for g in gaps_of_end(x, which)}
    nodes = {key: v.node for key, v in found.items() if isinstance(v, Traced)}
    for key, clearance in b.moving.least.items():
        nodes[key] = Node(
            "solve", f"Least room over the whole travel: {clearance.place}, at the"
            f" {clearance.zone} ({clearance.known})", "", "length", float(clearance.least),
            {"room at ride height": nodes[key.replace("_travel_", "_ride_")]},
        )  # fmt: skip
    return nodes
