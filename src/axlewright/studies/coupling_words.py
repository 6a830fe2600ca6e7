"""The sizing of clutch or converter in words."""

from __future__ import annotations

from collections.abc import Mapping

from axlewright.quantities.finding import Finding, likelihood
from axlewright.quantities.units import show, significant

_GIVES = {
    "engine": "nothing slips: the engine is the limit",
    "clutch": "the clutch slips first",
    "inner clutches": "the clutches inside the automatic slip first",
    "tires": "the tires let go first",
}


def sentence(kind: str, found: Mapping[str, Finding], first: str, slip: float) -> str:
    """Whether it holds, and what gives first in first gear."""
    hold, catch = found["hold"], found["catch"]
    clutch = kind == "clutch"
    what = "clutch" if clutch else "automatic's inner clutches"
    verb = {
        "unlikely": "holds" if clutch else "hold",
        "possible": "may slip",
        "likely": "will likely slip",
    }[likelihood(slip)]
    over = "the engine's peak torque" if clutch else "what the stalled converter hands on"
    text = (
        f"The {what} {verb}: {significant(hold.value, 2)} times {over}"
        f" ({significant(hold.low, 2)} to {significant(hold.high, 2)}). In first gear"
        f" {_GIVES[first]}."
    )
    if catch.value < 1.0 <= hold.value:
        text += (
            f" Once it slides it passes only {significant(catch.value, 2)} times that torque and"
            " goes on sliding until you lift."
        )
    if "stall" in found:
        text += f" The converter stalls near {show(found['stall'].value, 'rotation')}."
    return text


def fuse_words(kind: str, found: Mapping[str, Finding], share: float) -> str:
    """Whether it guards the axle; ``share`` of the samples in which it does."""
    clutch = kind == "clutch"
    what, it = ("clutch", "it") if clutch else ("inner clutches", "they")
    slips, lets = ("slips", "lets") if clutch else ("slip", "let")
    ratio = found["fuse"]
    if share >= 0.95:
        head = f"On tires that never slip, the {what} would still slip before anything breaks"
    elif share >= 0.5:
        head = f"On tires that never slip, the {what} would likely slip before anything breaks"
    else:
        guard = "does not guard" if clutch else "do not guard"
        head = f"The {what} {guard} the axle: the first part breaks before {it} {slips}"
    return (
        f"{head} (first break at {significant(ratio.value, 2)} times what {it} {lets} through,"
        f" {significant(ratio.low, 2)} to {significant(ratio.high, 2)}; nothing sudden counted)."
    )


def advice(kind: str, found: Mapping[str, Finding]) -> tuple[str, ...]:
    """What to fit, to hold or to be a fuse."""
    engine, most = found["engine"], found["capacity"].value * found["fuse"].value
    if kind != "clutch":
        return (
            "An automatic's clutches burn quickly when they slip: they are no fuse to plan on.",
        )
    catching = engine.high * found["hold"].value / found["catch"].value
    said = [
        f"To hold the engine: at least {show(engine.high, 'torque', digits=3)} of clutch;"
        f" to catch again after it has slid: about {show(catching, 'torque', digits=3)}.",
        f"To stay a fuse in first gear: at most {show(most, 'torque', digits=3)}, less what a"
        " blow adds.",
    ]
    if most < engine.high:
        said.append(
            "Both cannot be had: with this axle either the tires are the fuse, or a part is."
        )
    return tuple(said)
