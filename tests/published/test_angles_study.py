"""The question about angles against invented cars whose true geometry is known.

The cars are made here, by vectors apart from the program; readings are what a gauge, a grid on the
floor and a tape would show, with triangular errors within what the worksheet calls careful.
"""

from __future__ import annotations

import numpy as np
import pytest

from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.measuring.worksheet import tool_of
from axlewright.quantities.estimate import Plain
from axlewright.quantities.finding import band
from axlewright.quantities.sampling import Samples
from axlewright.quantities.units import read
from axlewright.studies.angles_fill import filled
from axlewright.studies.angles_numbers import Asked, found

pytestmark = pytest.mark.published

IN, TRIES = 0.0254, 60
HEAD = (
    'format = 1\n[gearbox]\nkind = "manual"\n[axle]\nring_gear = "8.5"\n[fit]\ncare = "careful"\n'
)
KNOWN = ("now_front", "now_rear", "pinion_off_shaft", "static_pull", "length")


def unit(side: float, plan: float) -> np.ndarray:
    arrow = np.array([1.0, np.tan(plan), np.tan(side)])
    return arrow / np.linalg.norm(arrow)


def angle(one: np.ndarray, other: np.ndarray) -> float:
    return float(np.arctan2(np.linalg.norm(np.cross(one, other)), one @ other))


def hidden(seed: int) -> tuple[dict[str, float], dict[str, float]]:
    """A car: what every reading would be without error, and the truth that is asked for."""
    dice = np.random.default_rng(seed)
    gearbox, pinion, rise, floor = np.radians(dice.uniform([1, -4, 1, -0.6], [5, 2, 5, 0.6]))
    gearbox_plan, pinion_plan = np.radians(dice.uniform(-0.4, 0.4, 2))
    rear = np.array([12.5, dice.uniform(-2, 0), dice.uniform(11, 13)]) * IN
    front = rear + np.array([dice.uniform(42, 56), dice.uniform(-1, 1), dice.uniform(0, 4)]) * IN
    line = front - rear
    shaft = np.arctan2(line[2], line[0])
    along = line / np.linalg.norm(line)
    readings = {
        "angles.gearbox": gearbox + floor, "angles.driveshaft": shaft + floor,
        "angles.pinion": pinion + floor, "angles.floor": floor, "angles.pinion_rise": rise,
        "angles.gearbox_plan": gearbox_plan, "angles.pinion_plan": pinion_plan,
        "angles.gearbox_left": front[1], "angles.pinion_left": rear[1],
        "angles.joint_to_joint": float(np.linalg.norm(line)), "centre.nose": rear[0],
    }  # fmt: skip
    truth = {
        "now_front": angle(unit(gearbox, gearbox_plan), along),
        "now_rear": angle(along, unit(pinion, pinion_plan)),
        "pinion_off_shaft": pinion - shaft,
        "static_pull": gearbox - rise,
        "length": float(np.linalg.norm(line)),
    }
    return readings, truth


def written(readings: dict[str, float], seed: int) -> str:
    """The build file of whoever measured that car, every reading taken twice."""
    dice = np.random.default_rng(1000 + seed)
    lines: dict[str, list[str]] = {}
    for path, true in readings.items():
        tool = tool_of(path)
        assert tool is not None
        turn = "deg" in tool.careful
        half = read(tool.careful, "angle" if turn else "length").value
        size, name = (np.pi / 180.0, "deg") if turn else (IN, "in")
        shown = [
            f'"{v / size:.4f} {name}"' for v in dice.triangular(true - half, true, true + half, 2)
        ]
        table, key = path.split(".")
        lines.setdefault(table, []).append(f"{key} = [{', '.join(shown)}]")
    return HEAD + "\n".join(f"[{t}]\n" + "\n".join(rows) for t, rows in lines.items())


@pytest.fixture(scope="module")
def tries() -> dict[str, list[tuple[bool, float]]]:
    """For each number and each try: whether the truth lies in the band, and half its width."""
    asked = Asked("", rise_measured=True)
    seen: dict[str, list[tuple[bool, float]]] = {k: [] for k in KNOWN}
    for seed in range(TRIES):
        readings, truth = hidden(seed)
        build = resolve(read_build(written(readings, seed), "hidden.toml"))
        drawn = found(filled(build, Samples(seed, 200)), asked).numbers
        for key, true in truth.items():
            low, high = band(drawn[key].value, true)
            seen[key].append((low <= true <= high, 0.5 * (high - low)))
    return seen


@pytest.mark.parametrize("key", KNOWN)
def test_the_truth_lies_in_the_band(tries: dict[str, list[tuple[bool, float]]], key: str) -> None:
    share = float(np.mean([inside for inside, _ in tries[key]]))
    assert share >= 0.9 - 1.65 * np.sqrt(0.09 / TRIES)  # 90 %, less what so few tries scatter


def test_over_all_the_truth_lies_in_nine_of_ten_bands(
    tries: dict[str, list[tuple[bool, float]]],
) -> None:
    inside = [hit for rows in tries.values() for hit, _ in rows]
    assert float(np.mean(inside)) >= 0.9


def test_bands_of_careful_measuring_are_narrow(
    tries: dict[str, list[tuple[bool, float]]],
) -> None:
    for key in KNOWN[:3]:
        assert np.degrees(np.median([half for _, half in tries[key]])) <= 0.3, key
    assert np.median([half for _, half in tries["length"]]) <= IN / 8.0  # a tape over a long way


def test_without_errors_the_truth_comes_back() -> None:
    asked = Asked("", rise_measured=True)
    for seed in range(8):
        readings, truth = hidden(seed)
        lines: dict[str, list[str]] = {}
        for path, true in readings.items():
            tool = tool_of(path)
            assert tool is not None
            name, size = ("deg", np.pi / 180.0) if "deg" in tool.careful else ("in", IN)
            table, key = path.split(".")
            lines.setdefault(table, []).append(f'{key} = "{true / size:.9f} {name}"')
        text = HEAD + "\n".join(f"[{t}]\n" + "\n".join(rows) for t, rows in lines.items())
        numbers = found(filled(resolve(read_build(text, "x.toml")), Plain()), asked).numbers
        for key, true in truth.items():
            slack = 2e-4 if key.startswith("now") else 1e-9  # the plan is read off a tape: 0.01 deg
            assert float(numbers[key].value) == pytest.approx(true, abs=slack), (seed, key)


# Links in parallel planes: in side view the instant center is where both lines cross (Gillespie,
# Fundamentals of Vehicle Dynamics, ch. 7, from memory), worked out here by two straight lines.
LINKS = {
    "lower_body": (22.0, 18.0, 9.5), "lower_axle": (0.4, 18.0, 8.1),
    "upper_body": (16.5, 12.0, 15.6), "upper_axle": (0.5, 12.0, 16.9),
    "lateral_body": (-4.7, -20.5, 13.0), "lateral_axle": (-4.3, 18.9, 13.0),
    "wheel_center": (0.0, 29.0, 12.9), "pinion_joint": (12.5, 0.0, 12.0),
    "gearbox_joint": (60.0, 0.0, 14.0),
}  # fmt: skip


def crossing() -> tuple[float, float]:
    slopes, starts = [], []
    for name in ("lower", "upper"):
        (x1, _, z1), (x2, _, z2) = LINKS[f"{name}_body"], LINKS[f"{name}_axle"]
        slopes.append((z1 - z2) / (x1 - x2))
        starts.append(z2 - slopes[-1] * x2)
    ahead = (starts[1] - starts[0]) / (slopes[0] - slopes[1])
    return ahead, starts[0] + slopes[0] * ahead


def test_links_cross_where_two_straight_lines_do() -> None:
    points = "\n".join(f'{n} = ["{x} in", "{y} in", "{z} in"]' for n, (x, y, z) in LINKS.items())
    text = (
        f'{HEAD}[car]\nwheelbase = "108 in"\ncg_height = "20 in"\n'
        f'[suspension]\nkind = "four-link"\n[points]\n{points}\n'
    )
    x = filled(resolve(read_build(text, "links.toml")), Plain())
    numbers = found(x, Asked("four-link", rise_measured=False)).numbers
    ahead, up = crossing()
    assert float(numbers["ic_ahead"].value) / IN == pytest.approx(ahead, rel=1e-6)
    assert float(numbers["ic_height"].value) / IN == pytest.approx(up, rel=1e-6)
    assert float(numbers["anti_squat"].value) == pytest.approx(up / ahead * 108.0 / 20.0, rel=1e-6)
    # A level rod in the plane of the axle would be the roll center; it stands a little behind, and
    # the links slope, which shifts it by less than 1/8 in.
    assert float(numbers["roll_center"].value) == pytest.approx(13.0 * IN, abs=IN / 8.0)
