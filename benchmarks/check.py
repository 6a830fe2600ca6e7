"""How fast, how large: the verdict of one build, measured. Goals are printed, not asserted."""

from __future__ import annotations

import math
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace
from pathlib import Path
from typing import Any

os.environ.setdefault("OMP_NUM_THREADS", "1")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np
from one_by_one import evaluate_one_by_one

from axlewright.build.reader import read_build
from axlewright.build.resolve import Resolved, resolve
from axlewright.quantities.sampling import Samples, forget
from axlewright.studies.load_path import load_path
from axlewright.studies.path import evaluate

BUILD = """format = 1
name = "Copper Wren"
[car]
weight = "3600 lb"
[engine]
torque = "520 lbf*ft"
[gearbox]
kind = "manual"
ratios = [2.97, 2.07, 1.43, 1.00, 0.80]
[axle]
ring_gear = "8.5"
ratio = "41/11"
differential = "clutch"
shaft = "28-spline factory"
[wheels]
tire = "275/60R15"
grip_class = "drag radial"
[use]
launch = "dump"
surface = "strip"
"""
SAMPLES, LOOPED, AGREE = 10_000, 200, 1e-9
START = "import sys; from axlewright.cli.main import run; run(sys.argv[1:])"


def main() -> None:
    resolved = resolve(read_build(BUILD))
    with tempfile.TemporaryDirectory() as folder:
        build = Path(folder, "build.toml")
        build.write_text(BUILD, encoding="utf-8")
        compiled = str(Path(folder, "compiled"))
        start(build, compiled)
        walls, peak = zip(*(start(build, compiled) for _ in range(10)), strict=True)
    line("axlewright check, interpreter start included", statistics.median(walls), "s", 0.5)
    verdict = best(lambda: (forget(), load_path(resolved, 1, SAMPLES)))
    line(f"verdict of {SAMPLES:,} samples, working and findings included", verdict, "s", 0.1)
    load_path(resolved, 1, SAMPLES)
    edits = [resolve(read_build(BUILD.replace("3600 lb", f"{3600 + n} lb"))) for n in range(9)]
    edit = best(lambda: load_path(edits.pop(), 1, SAMPLES))
    line("the same once more after another weight", edit, "s", 0.1)
    line("most memory that it held", max(peak), "MB", 200.0)
    compare(resolved)


def start(build: Path, compiled: str) -> tuple[float, float]:
    """Wall time and peak memory of one command as a user starts it, modules compiled before."""
    environment = os.environ | {"PYTHONPYCACHEPREFIX": compiled}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    call = [sys.executable, "-c", START, "check", str(build)]
    before = time.perf_counter()
    with subprocess.Popen(call, stdout=subprocess.DEVNULL, env=environment) as command:
        _, status, used = os.wait4(command.pid, 0)
        command.returncode = os.waitstatus_to_exitcode(status)
    wall = time.perf_counter() - before
    if command.returncode not in {0, 1}:
        raise SystemExit(f"axlewright check ended with {command.returncode}")
    return wall, used.ru_maxrss / (1024.0 if sys.platform != "darwin" else 1024.0**2)


def best(work: Callable[[], Any], times: int = 7) -> float:
    """Median wall time of warm calls."""
    work()
    found = []
    for _ in range(times):
        before = time.perf_counter()
        work()
        found.append(time.perf_counter() - before)
    return statistics.median(found)


def line(what: str, got: float, unit: str, goal: float, least: bool = False) -> None:
    met = got >= goal if least else got <= goal
    sign = "at least" if least else "at most"
    print(
        f"{what:<62}{got:9.3g} {unit:<3} goal {sign} {goal:g} {unit}: {'met' if met else 'MISSED'}"
    )


def sample(node: Any, i: int) -> Any:
    """One sample of a machine of arrays, as plain floats."""
    if isinstance(node, np.ndarray):
        return float(node[i])
    if isinstance(node, tuple):
        return tuple(sample(n, i) for n in node)
    if is_dataclass(node) and not isinstance(node, type):
        return replace(node, **{f.name: sample(getattr(node, f.name), i) for f in fields(node)})
    return node


def margins(path: Any) -> dict[tuple[str, int, str], Any]:
    """Every margin of a load path by link, limit and case."""
    return {
        (link.name, n, case): value
        for link in path.links
        for n, limit in enumerate(link.limits)
        for case, value in limit.margins().items()
    }


def compare(resolved: Resolved) -> None:
    """The ratio of the loop to arrays, and whether they agree."""
    arrays = Samples(1, SAMPLES).tree(resolved.machine)
    at_once = best(lambda: margins(evaluate(arrays))) / SAMPLES
    one_by_one = evaluate_one_by_one()
    singles = [sample(arrays, i) for i in range(LOOPED)]
    looped = best(lambda: [margins(one_by_one(m)) for m in singles], 3) / LOOPED
    print(f"{'all margins in one go':<62}{at_once * 1e6:9.3g} µs a sample")
    print(f"{f'one by one, math only, {LOOPED} samples':<62}{looped * 1e6:9.3g} µs a sample")
    line("arrays are faster by", looped / at_once, "x", 100.0, least=True)
    whole = margins(evaluate(arrays))
    apart = 0.0
    for i, machine in enumerate(singles):
        for key, value in margins(one_by_one(machine)).items():
            expected = float(np.broadcast_to(whole[key], (SAMPLES,))[i])
            if math.isnan(value) != math.isnan(expected):
                raise SystemExit(f"{key}, sample {i}: {value} one by one, {expected} in arrays")
            if value != expected and not math.isnan(value):
                apart = max(apart, abs(value - expected) / abs(expected))
    line(f"{len(whole)} margins of each sample apart by, relative", apart, "", AGREE)
    if not apart <= AGREE:
        raise SystemExit("the loop and the arrays disagree: this comparison is void")


if __name__ == "__main__":
    main()
