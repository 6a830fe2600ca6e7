"""Reading build files: every fault is told with its line, and nothing but a BuildError comes out.

``AXLEWRIGHT_WRITE_GOLDEN=1 pytest ...`` writes the expected messages anew; read the difference.
"""

import os
import random
import re
import string
import tomllib
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from axlewright.build.model import Build
from axlewright.build.problems import BuildError
from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.build.shelf import Shelf
from axlewright.build.sizes import (
    SizeError,
    read_curve,
    read_ratios,
    read_studs,
    read_teeth,
    read_tire,
)
from axlewright.quantities.estimate import leaves
from axlewright.quantities.fields import dimension_of, meta_of, subsection, walk

BAD = Path(__file__).parents[1] / "golden" / "bad_builds"
BAD_FILES = sorted(BAD.glob("*.toml"))
FUZZ = settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow])

LEAST = 'format = 1\n[gearbox]\nkind = "manual"\n[axle]\nring_gear = "8.5"\n'
FULL = """\
format = 1
name = "Copper Wren"

[car]
weight = "3650 ± 40 lb"
rear_share = "46 %"
wheelbase = "108 in"

[engine]
torque = "620 lbf*ft"
curve = [["2000 rpm", "380 lbf*ft"], ["4200 rpm", "620 lbf*ft"]]
rev_limit = "6500 rpm"

[engine.air]
pressure = "29.2 inHg"
temperature = "75 °F"

[clutch]
capacity = "750 lbf*ft"
bite = "20 to 120 ms"

[gearbox]
kind = "manual"
ratios = [2.97, "2.07", 1.43, 1.00]

[driveshaft]
tube_diameter = "3 in"
tube_wall = "0.083 in"

[axle]
ring_gear = "8.5"
ratio = "41/11"
differential = "clutch"
found = ["cracked case"]
shaft = "mine"

[wheels]
tire = "275/60R15"
studs = "5 x 1/2-20"

[use]
launch = "dump"
burnouts = true

[parts.axle_shafts."mine"]
spline = "31x24"
body_diameter = "1.29 in"
seat_diameter = "1.531 in"
engagement = "1.4 in"
steel = "own steel"

[parts.steels."own steel"]
treatment = "through"
tensile_strength = "200 ksi"
yield_strength = "180 ksi"
"""


def read_all(text, file="build.toml"):
    return resolve(read_build(text, file))


# ------------------------------------------------------------------------------ golden messages


def test_there_are_enough_bad_builds():
    assert len(BAD_FILES) >= 20


@pytest.mark.parametrize("path", BAD_FILES, ids=lambda p: p.stem)
def test_bad_build(path):
    with pytest.raises(BuildError) as caught:
        read_all(path.read_text(encoding="utf-8"), path.name)
    said = f"{caught.value}\n"
    golden = path.with_suffix(".txt")
    if os.environ.get("AXLEWRIGHT_WRITE_GOLDEN"):
        golden.write_text(said, encoding="utf-8")
    assert said == golden.read_text(encoding="utf-8")


@pytest.mark.parametrize("path", BAD_FILES, ids=lambda p: p.stem)
def test_messages_read_well(path):
    lines = max(1, len(path.read_text(encoding="utf-8").splitlines()))
    with pytest.raises(BuildError) as caught:
        read_all(path.read_text(encoding="utf-8"), path.name)
    for problem in caught.value.problems:
        assert problem.severity == "error"
        assert 1 <= problem.line <= lines
        assert problem.column >= 1
        assert len(problem.message) > 15
        assert not problem.message.endswith(".")
        for word in (
            "Traceback",
            "pydantic",
            "Reading(",
            "Error",
            "None",
            "Input should",
            "<class",
        ):
            assert word not in problem.message


def test_messages_stand_in_the_order_of_the_file():
    for path in BAD_FILES:
        with pytest.raises(BuildError) as caught:
            read_all(path.read_text(encoding="utf-8"), path.name)
        found = [p.line for p in caught.value.problems]
        assert found == sorted(found)


def test_a_fault_is_named_with_its_own_line():
    for n, line in enumerate(FULL.splitlines(), start=1):
        key = line.partition(" = ")[0]
        if " = " not in line or key in {"format", "found", "kind", "ring_gear"}:
            continue
        wrong = FULL.splitlines()
        wrong[n - 1] = f"{key} = 1979-05-27"
        with pytest.raises(BuildError) as caught:
            read_all("\n".join(wrong))
        assert [p.line for p in caught.value.problems] == [n], line
        assert caught.value.problems[0].key.endswith(key)


# ------------------------------------------------------------------------------- builds that hold


def test_the_least_build_resolves():
    done = read_all(LEAST)
    assert done.machine.gearbox.kind == "manual"
    assert len(leaves(done.machine)) > 100


def test_a_full_build_resolves_and_keeps_its_texts():
    done = read_all(FULL)
    known = leaves(done.machine)
    assert done.source.text == FULL
    assert done.machine.name == "Copper Wren"
    assert known["car.weight"].text == "3650 ± 40 lb"
    assert known["car.weight"].origin == "measured"
    assert known["engine.torque"].origin == "stated"
    assert known["axle.tube_press"].origin == "assumed"
    assert done.machine.shaft.steel.name == "own steel"


def test_unusual_values_are_cautions_not_errors():
    source = read_build(LEAST + '[car]\nweight = "7500 lb"\n', "build.toml")
    assert [p.text("b") for p in source.cautions] == [
        "b:7: car.weight: 7500 lb is unusual, please check; usual is 1600 lb to 7000 lb"
    ]
    assert source.cautions[0].severity == "caution"


def test_every_leaf_says_where_it_comes_from():
    for leaf in leaves(read_all(FULL).machine).values():
        assert leaf.origin in {"measured", "stated", "assumed", "catalogue"}
        assert leaf.source or leaf.origin == "stated", leaf.path
        assert leaf.means, leaf.path


def sections(model=Build, path=()):
    for name, info in model.model_fields.items():
        inner = subsection(info)
        if inner is None:
            yield (*path, name), info
        else:
            yield from sections(inner, (*path, name))


QUANTITIES = [(p, i) for p, i in sections() if dimension_of(i)]


@pytest.mark.parametrize(
    ("path", "info"), QUANTITIES, ids=lambda x: ".".join(x) if isinstance(x, tuple) else ""
)
def test_every_example_of_a_quantity_reads(path, info):
    meta = meta_of(info)
    text = meta.example or meta.default
    assert text, path
    table, name = path[:-1], path[-1]
    needs = {
        "boost_of_figures": 'boost = "12 psi"\n',
        "power": 'power_speed = "5800 rpm"\n',
        "windup_torque": 'windup_angle = "3 deg"\n',
        "windup_angle": 'windup_torque = "1000 lbf*ft"\n',
    }
    other = needs.get(path[-1], "")
    kind = "automatic" if table == ("converter",) else "manual"
    rows = {
        "gearbox": f'kind = "{kind}"\n',
        "axle": 'ring_gear = "8.5"\n',
    }
    rows.setdefault(".".join(table), "")
    rows[".".join(table)] += f'{name} = "{text}"\n{other}'
    body = "format = 1\n" + "".join(f"[{t}]\n{keys}" for t, keys in rows.items())
    build = read_build(body).build
    for part in path:
        build = getattr(build, part)
    assert build.text == text
    assert read_all(body).machine is not None


def test_walk_names_every_key_once():
    names = [n for n, _ in walk(Build)]
    assert len(names) == len(set(names))
    assert {"car.weight", "engine.air.pressure", "axle.ring_gear"} <= set(names)


# ------------------------------------------------------------------------------- size codes


def test_tire_sizes():
    assert read_tire("275/60R15") == pytest.approx((0.275, 0.60, 0.381))
    assert read_tire("P225/70 R14") == read_tire("225/70r14")
    inch = read_tire("28x10.5-15")
    assert inch.rim_diameter + 2 * inch.aspect_ratio * inch.section_width == pytest.approx(
        28 * 0.0254
    )


def test_teeth_and_ratios():
    teeth = read_teeth("41/11")
    assert (teeth.ratio.value, teeth.ring_teeth, teeth.pinion_teeth) == (41 / 11, 41, 11)
    for said in (3.73, "3.73:1", "3.73"):
        assert read_teeth(said).ratio.value == 3.73
        assert read_teeth(said).ring_teeth is None
    assert read_teeth("3.55 ± 0.1").ratio.low == pytest.approx(3.45)
    assert [r.value for r in read_ratios([2.97, "2.07", 1])] == [2.97, 2.07, 1.0]


def test_studs_and_curves():
    assert (read_studs("5 x 1/2-20").count, read_studs("5 x 1/2-20").size) == (5, "1/2-20")
    assert read_studs("6×M12x1.5").size == "M12x1.5"
    assert read_curve([("1000 rpm", "100 N*m"), ("2000 rpm", "200 N*m")])[1][1] == 200.0


@pytest.mark.parametrize(
    ("reader", "value", "part"),
    [
        (read_tire, "", "write it like 275/60R15"),
        (read_tire, "100x10-15", "write it like 275/60R15"),
        (read_teeth, "nan", "write 3.73"),
        (read_teeth, "41/0", "write it like 41/11"),
        (read_teeth, "four", "write 3.73"),
        (read_ratios, [9.0], "between 0.3 and 8"),
        (read_ratios, ["2.97 in"], "no unit of ratio"),
        (read_curve, [("1000 rpm", "100 N*m")], "two points"),
        (read_curve, [("-1 rpm", "100 N*m"), ("2000 rpm", "1 N*m")], "above zero"),
        (read_curve, [("1 rpm", "100 N*m"), ("2000 rpm", "0 N*m")], "above zero"),
        (read_studs, "2 x 1/2-20", "write it like 5 x 1/2-20"),
    ],
)
def test_codes_that_do_not_read(reader, value, part):
    with pytest.raises(SizeError, match=re.escape(part)):
        reader(value)


def test_own_part_goes_before_the_catalogue():
    row = {"outer_diameter": "4 in", "wall": "0.3 in"}
    shelf = Shelf({"tubes": {"mine": row}})
    kind = type(shelf._own["tubes", "mine"])
    assert shelf.find(kind, "mine", ()).outer_diameter.text == "4 in"
    assert shelf.find(kind, "mine", ()).source == "the builder's own part"


# ------------------------------------------------------------------------------- fuzz


def never_anything_else(text):
    """Read and resolve; a BuildError is the only thing that may come out."""
    try:
        read_all(text)
    except BuildError as e:
        assert e.problems
        assert all(p.message and p.line >= 1 for p in e.problems)


@FUZZ
@given(st.text(max_size=200))
@example("a = " + "1" * 5000)
@example("a = " + "[" * 3000)
@example("format = 1\n\x00")
@example("format = 1979-13-45")
def test_any_text(text):
    never_anything_else(text)
    never_anything_else("format = 1\n" + text)


QUOTED = [
    "0 lb", "0 rpm", "-1 in", "1e308 lb", "1e-320 in", "0", "-0", "nan", "inf", "5 %", "1/0 in",
    "41/11", "8.5", "manual", "automatic", "wheels", "STD", "natural", "boosted", "face-hobbed",
    "unknown", "nodular", "open", "28x10.5-15", "5 x M12x1.5", "31x24", "0 psi", "90 deg", "-40 °F",
    "tired", "strip", "dump", "trans-brake", "straddle", "full-floating", "welded", "0.46 ± 4 %",
]  # fmt: skip
BARE = [
    "0", "-1", "1e400", "nan", "true", "false", "[]", "{}", "[[]]", "1979-05-27", "07:32:00",
    "[1, 2]", "[3, 2, 1]", '[["1 rpm", "1 N*m"], ["2 rpm", "2 N*m"]]', '["a"]', "{ a = 1 }",
    "3.55", "1" + "0" * 400, '"""\n"""', "''",
]  # fmt: skip
SCRAPS = st.one_of(
    st.sampled_from([f'"{s}"' for s in QUOTED]),
    st.sampled_from(BARE),
    st.floats().map(repr),
    st.text(string.printable.replace("\n", ""), max_size=12).map(lambda s: f"'{s}'"),
)
KEYS = [n for n, i in walk(Build) if subsection(i) is None and n not in {"format", "parts"}]


@st.composite
def mutated(draw):
    """The full build with some lines lost, doubled, replaced, and keys added."""
    lines = FULL.splitlines()
    for _ in range(draw(st.integers(0, 5))):
        n = draw(st.integers(0, len(lines) - 1))
        match draw(st.integers(0, 4)):
            case 0:
                del lines[n]
            case 1:
                lines.insert(n, draw(st.sampled_from(lines)))
            case 2 if " = " in lines[n]:
                lines[n] = f"{lines[n].partition(' = ')[0]} = {draw(SCRAPS)}"
            case 3:
                lines.insert(0, f"{draw(st.sampled_from(KEYS))} = {draw(SCRAPS)}")
            case _:
                line = lines[n]
                at = draw(st.integers(0, len(line)))
                lines[n] = line[:at] + draw(st.characters(codec="utf-8")) + line[at + 1 :]
        if not lines:
            break
    return "\n".join(lines)


@FUZZ
@given(mutated())
def test_mutated_builds(text):
    never_anything_else(text)


@st.composite
def assembled(draw):
    """Builds put together key by key from values that may or may not fit."""
    said = {"gearbox.kind": draw(st.sampled_from(['"manual"', '"automatic"']))}
    said["axle.ring_gear"] = draw(st.sampled_from(['"8.5"', '"8.8"', '"9"']))
    for key in draw(st.lists(st.sampled_from(KEYS), max_size=8)):
        said[key] = draw(SCRAPS)
    return "format = 1\n" + "".join(f"{k} = {v}\n" for k, v in said.items())


@FUZZ
@given(assembled())
def test_assembled_builds(text):
    never_anything_else(text)


def test_every_key_with_every_scrap():
    draw = random.Random(7)
    scraps = ['"0 lb"', '"0 rpm"', "0", "true", "[]", "{}", '"x"', "[[1, 2]]", "nan", '"5 %"']
    for key in KEYS:
        for value in draw.sample(scraps, 4):
            never_anything_else(f"format = 1\n{key} = {value}\ngearbox.ratios = [3, 1]\n")
            kind = "" if key.startswith("gearbox.kind") else 'gearbox.kind = "manual"\n'
            ring = "" if key.startswith("axle.ring") else 'axle.ring_gear = "8.5"\n'
            never_anything_else(f"format = 1\n{kind}{ring}{key} = {value}\n")


def own_rows():
    values = [
        '"1 in"',
        '"-1"',
        '"0"',
        "{}",
        "{ gray = 0 }",
        "{ gray = nan }",
        "[]",
        "true",
        '"none"',
    ]
    for table in ("ring_gears", "steels", "axle_shafts", "irons", "bolt_sizes", "tires", "splines"):
        for value in values:
            yield f'[parts.{table}."8.5"]\nmeans = {value}\nirons = {value}\nsteel = {value}\n'
            yield f'[parts.{table}]\n"8.5" = {value}\n'


@pytest.mark.parametrize("rows", list(own_rows()))
def test_own_rows(rows):
    never_anything_else(LEAST + rows)


def test_own_ring_gear_with_irons_of_no_weight():
    data = Path(__file__).parents[2] / "src/axlewright/catalogue/data/ring_gears.toml"
    name, row = next(iter(tomllib.loads(data.read_text(encoding="utf-8")).items()))
    keys = "".join(f"{k} = {v!r}\n" for k, v in row.items() if isinstance(v, str))
    for irons in ("{}", "{ gray = 0 }", "{ gray = -1, nodular = 3 }", "{ gray = inf }"):
        text = (
            LEAST.replace('"8.5"', '"own"') + f'[parts.ring_gears."own"]\n{keys}irons = {irons}\n'
        )
        numbers = "".join(f"{k} = {v}\n" for k, v in row.items() if isinstance(v, int | float))
        with pytest.raises(BuildError, match="must give each iron a weight"):
            read_all(text + numbers)
    assert name


@pytest.mark.parametrize("line", ["a" + ".a" * 5000 + " = 1", "[a" + ".a" * 5000 + "]"])
def test_a_key_of_endless_names_is_refused_at_once(line):
    with pytest.raises(BuildError, match="far too many names"):
        read_build(f"format = 1\n{line}\n")


def test_many_dots_inside_a_value_are_no_names():
    text = 'format = 1\nnote = "a' + ".b" * 60 + '"\n[gearbox]\nkind = "manual"\n[axle]\n'
    assert read_build(text + 'ring_gear = "8.5"\n').build.note is not None
