"""The verdict as a sentence a tired builder can use."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from axlewright.quantities.units import show, significant
from axlewright.studies.report import LinkReport, Margin

_PLENTY = 1.5
_CLOSE = 1.25


def verdict_sentence(
    links: Mapping[str, LinkReport], order: Sequence[str], titles: Mapping[str, str]
) -> tuple[str, bool]:
    """The sentence, and whether the load path holds.

    Short means a nominal margin below one, or a likely break in the samples.
    """
    first = links[order[0]]
    worst = first.breaks
    assert worst is not None
    holds = worst.margin.value >= 1.0 and worst.likelihood != "likely"
    head = _short(first, worst, titles) if not holds else _holding(first, worst, titles)
    rest = _also(links, order) + _gives(links)
    return " ".join([head, *rest]), holds


def _load(margin: Margin, titles: Mapping[str, str]) -> str:
    case = titles[margin.case].lower()
    brings = "is as hard on it as" if margin.link == "wheel_end" else "brings"
    return f"{case} {brings} {_both(margin)}"


def _both(margin: Margin) -> str:
    demand = show(margin.demand.value, margin.demand.dimension, digits=2)
    capacity = show(margin.capacity.value, margin.capacity.dimension, digits=2)
    return f"{demand}; it stands {capacity}"


def _short(first: LinkReport, worst: Margin, titles: Mapping[str, str]) -> str:
    return (
        f"Short: the {_name(first)} {_go(first)} first ({worst.mode}); {_load(worst, titles)}."
        f" If that happens, {first.consequence}."
    )


def _holding(first: LinkReport, worst: Margin, titles: Mapping[str, str]) -> str:
    size = f"margin {significant(worst.margin.value, 2)}, {_band(worst)}"
    if worst.likelihood == "unlikely" and worst.margin.value >= _PLENTY:
        return f"It holds with room: the weakest is the {_name(first)}, {size}."
    if worst.likelihood == "unlikely":
        return f"It holds: the weakest is the {_name(first)} ({worst.mode}), {size}."
    return (
        f"On the edge: the {_name(first)} may go first ({worst.mode}), {size};"
        f" {_load(worst, titles)}."
    )


def _band(worst: Margin) -> str:
    low, high = significant(worst.margin.low, 2), significant(worst.margin.high, 2)
    return f"band {low} to {high}"


def _also(links: Mapping[str, LinkReport], order: Sequence[str]) -> list[str]:
    close = [
        links[n]
        for n in order[1:]
        if (b := links[n].breaks) is not None and (b.margin.value < 1.0 or b.likelihood == "likely")
    ]
    if not close:
        return []
    return [f"Short as well: {_list([_name(r) for r in close])}."]


def _gives(links: Mapping[str, LinkReport]) -> list[str]:
    """What slips or takes a set though it does not break."""
    giving = [
        _name(r)
        for r in links.values()
        if r.gives is not None
        and r.gives.margin.value < 1.0
        and (r.breaks is None or r.breaks.margin.value >= 1.0)
    ]
    if not giving:
        return []
    return [f"Will slip or take a set before breaking: {_list(giving)}."]


def _name(link: LinkReport) -> str:
    return link.title[:1].lower() + link.title[1:]


def _go(link: LinkReport) -> str:
    return "go" if link.title.endswith("s") or " and " in link.title else "goes"


def _list(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
