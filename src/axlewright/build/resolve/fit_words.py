"""Contradictions among readings in words: what is open, who is suspected, what would tell."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from axlewright.build.fitting import Check
from axlewright.measuring.network import Relation
from axlewright.measuring.relations import SOFT
from axlewright.measuring.suspects import Mistake, Verdict, explanations, would_tell
from axlewright.measuring.tools import Tool
from axlewright.measuring.uncertainty import triangle_uncertainty
from axlewright.measuring.worksheet import tool_of
from axlewright.quantities.units import read, show

Readings = Mapping[str, tuple[float, float]]
_MOST = 3
_FAR = 20.0
"""Hurried limits of a tool beyond which nobody misreads it."""


def checked(
    title: str,
    readings: Readings,
    relations: Sequence[Relation],
    verdict: Verdict,
    freedom: int,
    mistakes: Sequence[Mistake],
) -> Check:
    """All that can be said of readings that should add up."""
    found: tuple[str, ...] = ()
    further: tuple[tuple[str, ...], ...] = ()
    said = ""
    if not verdict.agree:
        found = tuple(e.what for e in explanations(readings, relations, mistakes))
        further = _further(readings, relations, verdict)
        said = _contradiction(title, readings, relations, verdict, found[:_MOST], further[:_MOST])
    return Check(
        title,
        freedom,
        verdict.chance,
        verdict.agree,
        tuple(n for n in verdict.unchecked if n not in SOFT),
        verdict.suspects,
        verdict.errors,
        found,
        further,
        said,
    )


def _contradiction(
    title: str,
    readings: Readings,
    relations: Sequence[Relation],
    verdict: Verdict,
    found: Sequence[str],
    further: Sequence[tuple[str, ...]],
) -> str:
    """Everything in one caution."""
    said = [f"{title}: readings contradict each other"]
    said += list(_open_sums(readings, relations))
    said.append(_blame(verdict))
    if found:
        rest = " (these readings cannot tell which)" if len(found) > 1 else ""
        said.append(f"all would close if {'; or '.join(found)}{rest}")
    if further:
        said.append(f"what would tell: {'; or '.join(' with '.join(names) for names in further)}")
    return "; ".join(said) + ". Take them again before anything is ordered."


def _open_sums(readings: Readings, relations: Sequence[Relation]) -> Iterator[str]:
    """Each sum of readings alone that is off by more than twice its uncertainty."""
    for relation in relations:
        if not all(n in readings and n not in SOFT for n in relation.shares):
            continue
        off = relation.constant + sum(s * readings[n][0] for n, s in relation.shares.items())
        spread = sum((s * readings[n][1]) ** 2 for n, s in relation.shares.items()) ** 0.5
        if abs(off) > 2.0 * spread:
            yield f"{relation.name}: off by {show(abs(off), _dimension(relation))}"


def _blame(verdict: Verdict) -> str:
    pairs = list(zip(verdict.suspects, verdict.errors, strict=True))
    real = [(n, e) for n, e in pairs if _is_likely(n, e)]
    parts = [_error(n, e) for n, e in real or pairs]
    if len(parts) == 1:
        return f"likeliest: {parts[0]}"
    return f"likeliest, not to be told apart: {'; '.join(parts)}"


def _is_likely(name: str, error: float) -> bool:
    """Whether somebody could read so far wrong: not a yard with a rule."""
    tool = tool_of(name)
    return tool is None or abs(error) < _FAR * read(tool.hurried, _kind_of(tool)).value


def _kind_of(tool: Tool) -> str:
    return "angle" if "deg" in tool.careful else "length"


def _error(name: str, error: float) -> str:
    if name in SOFT:
        return f"{name} does not hold"
    way = "too much" if error > 0.0 else "too little"
    tool = tool_of(name)
    dimension = _kind_of(tool) if tool is not None else "length"
    return f"{name} about {show(abs(error), dimension, digits=2)} {way}"


def _dimension(relation: Relation) -> str:
    """Dimension of the sum: the rise of the nose is the one sum of angles."""
    return "angle" if "angles.pinion_rise" in relation.shares else "length"


def _further(
    readings: Readings, relations: Sequence[Relation], verdict: Verdict
) -> tuple[tuple[str, ...], ...]:
    """Readings not taken yet that would tell the suspects apart."""
    if len(verdict.suspects) < 2:
        return ()
    spreads = {
        n: float(triangle_uncertainty(read(tool.careful, _kind_of(tool)).value))
        for r in relations
        for n in r.shares
        if n not in readings and (tool := tool_of(n)) is not None
    }
    return would_tell(readings, relations, verdict.suspects, spreads)
