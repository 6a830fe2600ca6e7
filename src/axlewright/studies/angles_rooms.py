"""What moves against what as the axle goes through its travel: slip joint and tunnel, one car."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from axlewright.build.fitting import Spot
from axlewright.fit.travel import Places, Travel, in_words, places, plain_axle
from axlewright.fit.travel_lengths import SlipYoke, hose, slack_hose, slip_rooms, strut_rooms
from axlewright.fit.travel_shapes import driveshaft_bar
from axlewright.fit.travel_sweep import Pair, sweep
from axlewright.fit.tunnel import TunnelRoom, tunnel_edges
from axlewright.mechanics.sizes import scaled_length
from axlewright.quantities.formula import Num
from axlewright.studies.angles_fill import Filled
from axlewright.studies.angles_line import Place
from axlewright.studies.angles_linkage import track_wheels
from axlewright.studies.angles_numbers import Found
from axlewright.studies.angles_report import Room


def rooms(x: Filled, f: Found) -> tuple[Room, ...]:
    """Least rooms over the travel, with nominal values; nothing where nobody measured."""
    car, line = x.fitting.car, f.line
    if car.bump is None or car.droop is None:
        return ()
    linkage = f.axle.linkage if f.axle is not None else plain_axle(track_wheels(x))
    axle = places(linkage, Travel(float(car.bump), float(car.droop)))
    hoses = tuple(_hose(x, axle))
    if line.front is None:
        return hoses
    rests = {s.key: s.rear for s in f.states if s.key in {"set", "set_loaded"}}
    rear = rests.get("set", line.rear)
    front, joint = _point(line.front), _point(rear)
    wound = _point(rests["set_loaded"]) if "set_loaded" in rests else joint
    return (
        *_slip(x, axle, front, joint),
        *_nearer(
            tuple(_tunnel(x, axle, line.rear, front, joint)),
            tuple(_tunnel(x, axle, line.rear, front, wound)),
        ),
        *hoses,
    )


def _hose(x: Filled, axle: Places) -> Iterator[Room]:
    """Slack of the brake hose at its straightest, by its length or by its slack at ride height."""
    points, wanted = x.fitting.points, float(x.fitting.car.moving_clearance)
    free, slack = x.fitting.brakes.hose_free, x.fitting.car.hose_slack
    if "hose_body" not in points or "hose_axle" not in points:
        return
    body, end = (_spot(points[name]) for name in ("hose_body", "hose_axle"))
    if free is not None:
        piece = hose("brake hose", body, end, float(free), 0.0)
    elif slack is not None:
        piece = slack_hose("brake hose", body, end, float(slack))
    else:
        return
    for least in strut_rooms(axle, (piece,)):
        where = in_words(least.left, least.right)
        kept = bool(least.least >= wanted)
        yield Room("brake hose to pulled straight", least.least, wanted, where, kept)


def _spot(spot: Spot[Num]) -> tuple[float, float, float]:
    return float(spot.forward), float(spot.left), float(spot.up)


def _nearer(rest: tuple[Room, ...], wound: tuple[Room, ...]) -> Iterator[Room]:
    """Of each room the lesser one: coasting, or with the nose wound up by the pull."""
    pulled = {r.what: r for r in wound}
    for room in rest:
        other = pulled[room.what]
        if other.least < room.least:
            yield replace(other, where=f"{other.where}, nose wound up by the pull")
        else:
            yield room


def _point(place: Place) -> tuple[float, float, float]:
    return float(place.x), float(place.y), float(place.z)


def _slip(
    x: Filled, axle: Places, front: tuple[float, ...], rear: tuple[float, ...]
) -> Iterator[Room]:
    slip = x.fitting.slip
    if slip.spline_length is None or slip.spline_diameter is None:
        return
    yoke = SlipYoke(
        float(slip.gap), float(slip.spline_length), float(slip.spline_diameter),
        float(slip.least_free),
    )  # fmt: skip
    names = ("slip yoke to its bottom, beyond what must be left", "spline beyond the least engaged")
    for name, least in zip(names, slip_rooms(axle, front, rear, yoke), strict=True):
        yield Room(name, least.least, 0.0, in_words(least.left, least.right), least.holds)


def _tunnel(
    x: Filled, axle: Places, old: Place, front: tuple[float, ...], rear: tuple[float, ...]
) -> Iterator[Room]:
    t = x.fitting.tunnel
    if t.ahead is None:
        return
    room = TunnelRoom(float(t.ahead), *(_maybe(v) for v in (t.above, t.below, t.left, t.right)))
    radius = float(scaled_length(x.machine.driveshaft.tube_diameter, x.assumed.half))
    shaft = driveshaft_bar(front, rear, radius, 0.0)
    wanted = float(x.fitting.car.moving_clearance)
    pairs = [Pair(shaft, edge, wanted) for edge in tunnel_edges(front, _point(old), room)]
    for near in sweep(axle, pairs):
        yield Room(
            f"{near.moving} to {near.against}", near.least, near.wanted,
            in_words(near.left, near.right), near.clears,
        )  # fmt: skip


def _maybe(value: Num | None) -> float | None:
    return None if value is None else float(value)
