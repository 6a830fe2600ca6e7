"""The run down the strip: when and how fast the car passes each mark, and how sure that is."""

from __future__ import annotations

from axlewright import __version__
from axlewright.build.resolve import Resolved
from axlewright.catalogue.load import data_hash
from axlewright.quantities.estimate import Estimate, Plain, leaves
from axlewright.quantities.finding import Finding, band
from axlewright.quantities.sampling import Samples
from axlewright.quantities.units import show, significant
from axlewright.studies.ratio_fill import alone
from axlewright.studies.ratio_times import KILOMETER, MARKS, QUARTER, time_numbers
from axlewright.studies.report import Made
from axlewright.studies.run_car import driving, run_car
from axlewright.studies.run_report import RunAssumption, RunHistory, RunMark, RunReport
from axlewright.studies.safety import safety_lines

STUDY = "run 1"
SAMPLES, SEED = 400, 1
_ON_GRIP = 0.5  # s on the limit of the tires from which it is worth saying


def run_study(build: Resolved, seed: int = SEED, count: int = SAMPLES) -> RunReport:
    """Times, trap speeds and the rest to the standing kilometer, with bands."""
    nominal = time_numbers(alone(build, Plain()), KILOMETER)
    sampled = time_numbers(alone(build, Samples(seed, count)), KILOMETER)
    findings = {
        key: _finding(key, n.means, float(n.value), sampled[key].value, n.dimension)
        for key, n in nominal.items()
    }
    return RunReport(
        name=build.machine.name,
        file=build.source.file,
        sentence=_sentence(findings),
        marks=tuple(
            RunMark(name, findings[f"time_{key}"], findings.get(f"trap_{key}"))
            for key, name in MARKS.items()
        ),
        findings=findings,
        assumed=_assumed(build),
        cautions=tuple(dict.fromkeys((*build.cautions, *build.launching.cautions))),
        safety=safety_lines(build.machine),
        made=Made(f"axlewright {__version__}", STUDY, data_hash(), build.source.hash, seed, count),
    )


def _finding(key: str, means: str, value: float, samples: object, dimension: str) -> Finding:
    low, high = band(samples, value)  # type: ignore[arg-type]
    return Finding(f"run.{key}", means, value, low, high, dimension)


def _sentence(found: dict[str, Finding]) -> str:
    """The answer: the quarter mile, and what holds the launch back."""
    time, trap, start = found["time_quarter_mile"], found["trap_quarter_mile"], found["time_60_ft"]
    said = (
        f"About {time.value:.2f} s at {show(trap.value, 'speed', digits=3)} over the quarter mile"
        f" ({time.low:.1f} to {time.high:.1f} s); 60 ft in {start.value:.2f} s"
        f" ({start.low:.2f} to {start.high:.2f} s)."
    )
    grip = found["time_on_grip"].value
    if found["wheels_up"].value > 0.0:
        said += " The front wheels come up: what holds the launch back is the wheelie."
    elif grip > _ON_GRIP:
        said += f" The tires are the limit for {significant(grip, 2)} s of it."
    else:
        said += " The engine, not the tires, is the limit almost all the way."
    return said


def _assumed(build: Resolved) -> tuple[RunAssumption, ...]:
    """What the run takes for granted: the driver, and what the build leaves out about the strip."""
    body, driver = build.launching.body, build.launching.driver
    found = leaves((driving(build.machine), body.drag_area, driver))
    return tuple(
        RunAssumption(e.means.rstrip("."), e.text or show(e.value, e.dimension), e.source)
        for e in found.values()
        if isinstance(e, Estimate) and e.origin == "assumed"
    )


def run_history(build: Resolved) -> RunHistory:
    """The run at the nominal values, to the quarter mile."""
    from axlewright.dynamics.run import MARKS as PLACES  # noqa: PLC0415 (loads the compiler)
    from axlewright.dynamics.run import run_history as march  # noqa: PLC0415

    side = alone(build, Plain())
    h = march(run_car(side.filled, side.driving), every=0.04, farthest=QUARTER)
    marks = tuple(
        (name, float(t))
        for name, place in PLACES.items()
        if place <= QUARTER
        for t in (*h.time[h.distance >= place - 1e-6], h.time[-1])[:1]
    )
    return RunHistory(
        title=f"{build.machine.name}: speed and engine speed down the quarter mile",
        times=tuple(map(float, h.time)),
        speeds=tuple(map(float, h.speed)),
        distances=tuple(map(float, h.distance)),
        engine_speeds=tuple(map(float, h.engine_speed)),
        gears=tuple(int(g) for g in h.gear),
        marks=marks,
    )
