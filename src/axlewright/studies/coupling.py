"""Clutch or converter: does it hold, where does it stall, and what slips first.

Something must give when more is asked than the car can put down.  Which one may be chosen on
purpose: a clutch or a tire that slips is a fuse, a shaft is not.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from axlewright import __version__
from axlewright.build.launching import Launching
from axlewright.build.machine import Machine
from axlewright.build.resolve import Resolved
from axlewright.catalogue.load import data_hash
from axlewright.driveline.margins import first_break_torque, torque_margin
from axlewright.quantities.finding import Finding, Likelihood, band, likelihood
from axlewright.quantities.formula import Num, least
from axlewright.quantities.sampling import Samples
from axlewright.quantities.working import Node, Nominal, Traced, tracing
from axlewright.studies.coupling_words import advice, fuse_words, sentence
from axlewright.studies.demand import Standing, axle_torque_in, standing
from axlewright.studies.path import evaluate
from axlewright.studies.report import Made
from axlewright.vehicle.clutch import sliding_capacity
from axlewright.vehicle.converter import stall_speed_on_curve, turbine_torque
from axlewright.vehicle.engine import torque_at_speed

STUDY = "coupling 2"
SAMPLES = 4_000


@dataclass(frozen=True)
class GearFuse:
    """What gives first at full throttle in one gear, and in how many of the samples."""

    gear: int
    first: str
    shares: dict[str, float]
    limits: dict[str, Finding]


@dataclass(frozen=True)
class CouplingReport:
    """Does it hold, where does it stall, what is the fuse."""

    name: str
    kind: str
    sentence: str
    fuse: str
    slips: Likelihood
    findings: tuple[Finding, ...]
    gears: tuple[GearFuse, ...]
    advice: tuple[str, ...]
    cautions: tuple[str, ...]
    made: Made


@dataclass(frozen=True)
class CouplingStudy:
    """The report and the working behind its numbers."""

    report: CouplingReport
    nodes: dict[str, Node]


def coupling_study(resolved: Resolved, seed: int = 1, count: int = SAMPLES) -> CouplingStudy:
    """Size what stands between engine and gearbox."""
    with tracing() as traced:
        filler = Nominal()
        nominal = _numbers(filler.tree(resolved.machine), filler.tree(resolved.launching))
    samples = Samples(seed, count)
    drawn = _numbers(samples.tree(resolved.machine), samples.tree(resolved.launching))
    nodes: dict[str, Node] = {}
    findings = {
        key: _finding(nodes, f"coupling.{key}", means, value, drawn.values[key][1], dimension)
        for key, (means, value, dimension) in nominal.values.items()
    }
    gears = tuple(
        _gear(nodes, n, a, b, count)
        for n, (a, b) in enumerate(zip(nominal.gears, drawn.gears, strict=True), start=1)
    )
    slip = float(np.mean(np.broadcast_to(drawn.values["hold"][1], (count,)) < 1.0))
    fused = float(np.mean(np.broadcast_to(drawn.values["fuse"][1], (count,)) >= 1.0))
    kind = "clutch" if resolved.machine.clutch is not None else "converter"
    report = CouplingReport(
        name=resolved.machine.name,
        kind=kind,
        sentence=sentence(kind, findings, gears[0].first, slip),
        fuse=fuse_words(kind, findings, fused),
        slips=likelihood(slip),
        findings=tuple(findings.values()),
        gears=gears,
        advice=advice(kind, findings),
        cautions=(*resolved.launching.cautions, *traced.outside.values()),
        made=Made(
            f"axlewright {__version__}", STUDY, data_hash(), resolved.source.hash, seed, count
        ),
    )
    return CouplingStudy(report, nodes)


@dataclass(frozen=True)
class _Numbers:
    values: dict[str, tuple[str, Num, str]]
    gears: tuple[dict[str, Num], ...]


def _numbers(m: Machine[Num], x: Launching[Num]) -> _Numbers:
    car = standing(m)
    through = _capacity(m)
    stall = _stall(m, x) if m.converter is not None else {}
    asked = stall["stall_out"][1] if stall else m.engine.torque
    values: dict[str, tuple[str, Num, str]] = {
        "engine": ("Peak torque of the engine as run", m.engine.torque, "torque"),
        **stall,
        "capacity": ("Torque at the gearbox input at which it slips", through, "torque"),
        "hold": (
            "What it holds over the stalled converter's torque"
            if stall
            else "What it holds over the engine's torque",
            torque_margin(through, asked),
            "ratio",
        ),
        "catch": (
            "The same once it slides, when it must catch again under power",
            torque_margin(sliding_capacity(through, x.coupling.slide_ratio), asked),
            "ratio",
        ),
    }
    breaks = _first_break(m)
    struck = axle_torque_in(m, car, through, 1)
    values["struck"] = (
        "Ring-gear torque in first gear when it slips and the tires hold",
        struck,
        "torque",
    )
    values["breaks"] = ("Ring-gear torque at which the first part breaks", breaks, "torque")
    values["fuse"] = (
        "First break over what it lets through in first gear, nothing sudden",
        torque_margin(breaks, struck),
        "ratio",
    )
    gears = range(1, len(m.gearbox.ratios) + 1)
    return _Numbers(values, tuple(_gear_limits(m, car, n, asked) for n in gears))


def _capacity(m: Machine[Num]) -> Num:
    """Torque at the gearbox input at which the clutch, or what is inside an automatic, slips."""
    if m.clutch is not None:
        return m.clutch.capacity
    assert m.converter is not None
    return m.converter.band_capacity


def _stall(m: Machine[Num], x: Launching[Num]) -> dict[str, tuple[str, Num, str]]:
    assert m.converter is not None
    assert x.coupling.stall_speed is not None
    speeds = np.stack(np.broadcast_arrays(*x.curve.speeds))
    torques = np.stack(np.broadcast_arrays(*x.curve.torques))
    rated = torque_at_speed(x.coupling.stall_speed, speeds, torques)
    stall = stall_speed_on_curve(speeds, torques, x.coupling.stall_speed, rated)
    held = torque_at_speed(stall, speeds, torques)
    return {
        "stall": ("Engine speed at full-throttle stall", stall, "rotation"),
        "stall_torque": ("Engine torque at that stall", held, "torque"),
        "stall_out": (
            "Torque that the stalled converter hands to the gearbox",
            turbine_torque(held, m.converter.torque_ratio),
            "torque",
        ),
    }


def _first_break(m: Machine[Num]) -> Num:
    """Steady ring-gear torque at which the weakest part breaks."""
    path = evaluate(m)
    steady = {
        f"{link.name} {limit.mode}": by_case["steady"]
        for link, by_limit in zip(path.links, path.margins, strict=True)
        for limit, by_case in zip(link.limits, by_limit, strict=True)
        if limit.kind == "breaks" and "steady" in by_case
    }
    least_of_all = least("least margin", "n_min", "ratio", **steady)
    return first_break_torque(path.demand.gears[0].torques["ring"], least_of_all)


def _gear_limits(m: Machine[Num], car: Standing, gear: int, first: Num) -> dict[str, Num]:
    """Ring-gear torque at which engine, clutch and tires stand in a gear.

    ``first`` is what comes to the gearbox in first gear; a converter multiplies in no other.
    """
    made = first if gear == 1 else m.engine.torque
    return {
        "engine": axle_torque_in(m, car, made, gear),
        "clutch" if m.clutch is not None else "inner clutches": axle_torque_in(
            m, car, _capacity(m), gear
        ),
        "tires": car.ring_at_grip,
    }


def _gear(
    nodes: dict[str, Node], gear: int, nominal: Mapping[str, Num], drawn: Mapping[str, Num], n: int
) -> GearFuse:
    names = list(nominal)
    table = np.vstack([np.broadcast_to(drawn[k], (n,)) for k in names])
    lowest = np.argmin(table, axis=0)
    value = {k: float(v) for k, v in nominal.items()}
    return GearFuse(
        gear=gear,
        first=min(value, key=lambda k: value[k]),
        shares={k: float(np.mean(lowest == i)) for i, k in enumerate(names)},
        limits={
            k: _finding(
                nodes,
                f"coupling.gear.{gear}.{k.replace(' ', '_')}",
                f"Gear {gear}: ring-gear torque by {k}",
                nominal[k],
                drawn[k],
                "torque",
            )
            for k in names
        },
    )


def _finding(
    nodes: dict[str, Node], key: str, means: str, nominal: Num, drawn: Num, dimension: str
) -> Finding:
    if isinstance(nominal, Traced):
        nodes[key] = nominal.node
    low, high = band(drawn, float(nominal))
    return Finding(key, means, float(nominal), low, high, dimension)
