"""The answer to the question of fit in a sentence or two."""

from __future__ import annotations

from collections.abc import Sequence

from axlewright.quantities.units import show_both, significant
from axlewright.studies.fit_report import (
    Contradiction,
    MeasureLine,
    OrderLine,
    RoomLine,
    SearchReport,
    Verdict,
    WheelChoice,
)

_NAMED = 3


def length(value: float, digits: int = 4) -> str:
    """A length in both units."""
    return show_both(value, "length", digits)


HANGING = "the car was measured with its wheels hanging; take the readings at ride height"


def verdict_of(
    rooms: Sequence[RoomLine], contradictions: Sequence[Contradiction], doubt: str
) -> Verdict:
    """Whether it fits; a side that nobody measured leaves it open, unless another is short."""
    if contradictions or doubt:
        return "not known"
    if any(r.kept == "short" for r in rooms):
        return "does not fit"
    return "fits" if stands(rooms) and not untraveled(rooms) else "not known"


def stands(rooms: Sequence[RoomLine]) -> bool:
    """Whether both faces of both tires are known to clear at ride height."""
    needed = [r for r in rooms if r.key.startswith(("lip_ride", "inner_ride"))]
    return all(r.kept == "kept" for r in needed)


def untraveled(rooms: Sequence[RoomLine]) -> tuple[str, ...]:
    """Readings without which a face is not known at bump or over the travel, either of the two."""
    by_key = {r.key: r for r in rooms}
    open_ = []
    for side in ("left", "right"):
        for face in ("lip", "inner"):
            lines = [by_key[f"{face}_{where}_{side}"] for where in ("bump", "travel")]
            if all(r.kept == "not measured" for r in lines):
                open_ += [k for r in lines for k in r.lacks]
    return tuple(dict.fromkeys(open_))


def sentence(
    verdict: Verdict,
    order: Sequence[OrderLine],
    rooms: Sequence[RoomLine],
    contradictions: Sequence[Contradiction],
    lines: Sequence[MeasureLine],
    doubt: str,
) -> str:
    """What to do, first of all."""
    if contradictions:
        return (
            "Order nothing yet: readings contradict each other"
            f" ({', '.join(c.title for c in contradictions)})."
        )
    if doubt:
        return f"Not known yet: {doubt}."
    if verdict == "not known" and stands(rooms):
        return f"It stands clear{_as_what(order)}, but nobody knows yet how it moves:" + (
            f" measure {_listed(untraveled(rooms))}."
        )
    if verdict == "not known":
        return _unknown(lines)
    worst = tightest(rooms)
    if verdict == "does not fit":
        return f"It does not fit: {_short(rooms)}."
    return f"It fits{_as_what(order)}. Tightest: {_tight(worst)}." if worst else "It fits."


def _listed(keys: Sequence[str]) -> str:
    named = ", ".join(keys[:_NAMED])
    return f"{named} and {len(keys) - _NAMED} more" if len(keys) > _NAMED else named


def _unknown(lines: Sequence[MeasureLine]) -> str:
    named = [f"{m.what} ({m.key})" for m in lines[:_NAMED]]
    rest = len(lines) - len(named)
    more = f", and {rest} more" if rest > 0 else ""
    return f"Not known yet: measure {'; '.join(named)}{more}."


def _as_what(order: Sequence[OrderLine]) -> str:
    by_key = {o.key: o for o in order}
    width, back = by_key["fit_width"], by_key["backspace"]
    said = []
    if width.finding is not None:
        word = "as it is" if width.origin == "measured" else "to order"
        over = f"axle {word}, {length(width.finding.value)} over the wheel faces with brakes on"
        said.append(over + _over_flanges(by_key["order_width"]))
    if back.finding is not None:
        word = "wheels ordered with" if back.origin == "to order" else "wheels with"
        said.append(f"{word} {length(back.finding.value)} of backspace")
    return f" with the {' and '.join(said)}" if said else ""


def _over_flanges(bare: OrderLine) -> str:
    """The same axle as it is ordered: hats mistaken for flanges cost an axle."""
    if bare.finding is None:
        return f" (ordered over the bare flanges: that waits for {_listed(bare.lacks)})"
    return f" ({length(bare.finding.value)} over the bare flanges, as axles are ordered)"


def tightest(rooms: Sequence[RoomLine]) -> RoomLine | None:
    """The clearance that is the least sure, or the nearest to what is wanted."""
    known = [r for r in rooms if r.clearance is not None]
    if not known:
        return None
    return min(known, key=lambda r: (r.chance or 0.0, _over(r)))


def _over(r: RoomLine) -> float:
    assert r.clearance is not None
    return r.clearance.value - r.wanted


def _tight(r: RoomLine) -> str:
    assert r.clearance is not None
    return (
        f"{r.side} {r.thing} at {r.where}, {length(r.clearance.value, 3)} where"
        f" {length(r.wanted, 3)} is wanted, {kept_words(r.chance)}"
    )


def kept_words(chance: float | None) -> str:
    """How sure it is that a clearance is kept."""
    share = 100.0 * (chance or 0.0)
    if share >= 99.5:
        return "kept whatever the readings may be off by"
    return f"kept in {significant(share, 2)} % of what the readings may be off by"


def _short(rooms: Sequence[RoomLine]) -> str:
    short = sorted((r for r in rooms if r.kept == "short"), key=_over)
    told = [f"{r.side} {r.thing} at {r.where} lacks {length(-_over(r), 3)}" for r in short[:_NAMED]]
    more = f" and {len(short) - _NAMED} more" if len(short) > _NAMED else ""
    return "; ".join(told) + more


def further(verdict: Verdict, search: SearchReport, contradictions: Sequence[Contradiction]) -> str:
    """What would fit, or what to take again."""
    if contradictions:
        return contradictions[0].said
    if verdict == "not known" or not search.tried:
        return ""
    if search.choices:
        best = search.choices[0]
        return f"Of {search.tried:,} combinations {search.fitting:,} clear. {choice_words(best)}."
    if search.misses:
        near = search.misses[0]
        lack = max(v for _, v in near.lacks) if near.lacks else -near.spare
        return (
            f"None of {search.tried:,} combinations clears: the nearest, {combination(near)},"
            f" lacks {length(lack, 3)} at the {near.tightest}."
        )
    return ""


def choice_words(c: WheelChoice) -> str:
    """A choice with why it stands there."""
    reason = f"{c.reason[:1].upper()}{c.reason[1:]}"
    return f"{reason}: {combination(c)}, {length(c.spare, 3)} to spare at the {c.tightest}"


def combination(c: WheelChoice) -> str:
    """Tire, rim, backspace and width."""
    return (
        f"{c.tire}, rim {length(c.rim_width, 3)}, backspace {length(c.backspace, 3)}, axle"
        f" {length(c.width)}"
    )
