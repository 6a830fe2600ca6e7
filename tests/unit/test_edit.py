"""Editing a build file changes what was meant and leaves every other byte as it was."""

import tomllib
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from axlewright.build.edit import EditError, edit, field_values, in_field, raw_values
from axlewright.build.model import Build
from axlewright.build.reader import read_build
from axlewright.build.spans import values_of
from axlewright.build.splice import set_value
from axlewright.build.written import decoded, dotted, quoted, split
from axlewright.quantities.fields import subsection, walk
from axlewright.workshop.keys import tables
from axlewright.workshop.template import template

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
FUZZ = settings(max_examples=80, deadline=None, suppress_health_check=list(HealthCheck))
KEYS = [p for p, info in walk(Build) if subsection(info) is None and p not in {"format", "parts"}]
BARE = {entry.path for part in tables() for entry in part.entries if entry.bare}
REPEATED = {entry.path for part in tables() for entry in part.entries if entry.repeats}
TEXT_KEYS = sorted(set(KEYS) - BARE)

ODD = """\
# Head of the file.
format = 1   # the only one
name = 'Copper "Wren"'

[use]  # before the car
launch = "dump"
burnouts = true

  [car]
  # measured on Sunday
  weight = "3650 ± 40 lb"   # truck scale
                            # with half a tank
  'wheelbase' = '''108 in'''

[engine]
torque = "620 lbf*ft"
air.pressure = "29.2 inHg"  # dry
curve = [
  ["2000 rpm", "380 lbf*ft"],  # from the sheet
  ["4200 rpm", "620 lbf*ft"],
]

[gearbox]
kind = "manual"
ratios = [2.97, 2.07, 1.00]
# the end of the box

[axle]
ring_gear = "8.5"

[parts.axle_shafts."my 31.5"]
spline = "31x24"
steel = "alloy 4340 through-hardened"

[parts.ring_gears.big]
irons = { gray = 0.8, "nod ular" = 0.2 }
"""


def flat(text):
    def leaves(here, path=()):
        for name, value in here.items():
            yield from (
                leaves(value, (*path, name))
                if isinstance(value, dict)
                else [((*path, name), repr(value))]
            )

    return dict(leaves(tomllib.loads(text)))


def all_found(old, new, name):
    """Whether each old line is there in its order, a header or the key itself uncommented."""

    def same(line, now):
        live = line.replace("#", "", 1).strip()
        used = live.startswith("[") and now.strip() == live
        key = live.startswith(name) and now.strip().startswith(name)
        return line == now or (line.strip().startswith("#") and (used or key))

    rest = iter(new)
    return all(any(same(line, now) for now in rest) for line in old)


@st.composite
def build_texts(draw):
    """Build files as people write them: any order, comments, indents, dotted keys, line ends."""
    chosen = draw(st.lists(st.sampled_from(TEXT_KEYS), max_size=12, unique=True))
    tables = {"": [], "gearbox": ['kind = "manual"'], "axle": ['ring_gear = "8.5"']}
    air = draw(st.sampled_from(["table", "dotted", "inline"]))
    for path in chosen:
        table, _, name = path.rpartition(".")
        line = f'{name} = "x{draw(st.integers(0, 99))}"'
        if name in {"kind", "ring_gear"}:
            continue
        if table == "engine.air" and air != "table":
            table, line = "engine", f"air.{line}" if air == "dotted" else f"air = {{ {line} }}"
            if any(other.startswith("air =") for other in tables.get("engine", [])):
                continue
        tables.setdefault(table, []).append(line)
    comment = st.sampled_from(["", "", "  # said", "# said", "#weight = 'left'", "\n", "#[clutch]"])
    order = draw(st.permutations([t for t in tables if t]))
    out = [draw(comment), "format = 1", *tables[""]]
    for table in order:
        indent = draw(st.sampled_from(["", "", "  ", "\t"]))
        out += [draw(comment), f"{indent}[{table}]" + draw(st.sampled_from(["", "  # head"]))]
        for line in tables[table]:
            out += [f"{indent}{line}" + draw(st.sampled_from(["", "  # why"])), draw(comment)]
    text = "\n".join(out) + draw(st.sampled_from(["\n", "", "\n\n# end\n"]))
    return text.replace("\n", draw(st.sampled_from(["\n", "\r\n"])))


TYPED = st.sampled_from(["3/8 in", "3850 ± 60 lb", "41/11", '3" wide', "C:\\x", "a'b\"c", "é # ="])
STARTS = [ODD, ODD.replace("\n", "\r\n"), template("short"), template("full")]
STARTS += [p.read_text(encoding="utf-8") for p in EXAMPLES]
TEXTS = st.one_of(build_texts(), st.sampled_from(STARTS))


@FUZZ
@given(TEXTS, st.sampled_from(TEXT_KEYS), TYPED)
def test_a_key_that_is_set_says_what_was_typed_and_nothing_else_changes(text, path, typed):
    after = edit(text, path, typed)
    assert raw_values(after)[path] == typed
    assert {**flat(text), split(path): repr(typed)} == flat(after)
    old, new = text.splitlines(), after.splitlines()
    if path in raw_values(text):
        changed = [n for n, (a, b) in enumerate(zip(old, new, strict=True)) if a != b]
        assert len(changed) <= 1
        for n in changed:
            assert old[n].partition("  #")[2] == new[n].partition("  #")[2]
    else:
        assert all_found(old, new, split(path)[-1])
        assert len(new) - len(old) <= 4
    assert edit(after, path, typed) == after


@FUZZ
@given(TEXTS, st.sampled_from(TEXT_KEYS))
def test_a_key_that_is_taken_out_is_gone_and_nothing_else(text, path):
    after = edit(text, path, None)
    assert flat(after) == {k: v for k, v in flat(text).items() if k != split(path)}
    lost = [line for line in text.splitlines() if line not in after.splitlines() and line.strip()]
    assert len(lost) <= 2
    assert text.count("# ") == after.count("# ")
    assert edit(after, path, "") == after


@FUZZ
@given(TEXTS, st.sampled_from(TEXT_KEYS), TYPED)
def test_taking_out_what_was_put_in_gives_the_text_back(text, path, typed):
    if path in raw_values(text):
        text = edit(text, path, None)
    back = edit(edit(text, path, typed), path, None)
    assert flat(back) == flat(text)
    name = split(path)[-1]
    parked = ("#" + name, "#[", "[")

    def lines(t):
        return [s for s in map(str.strip, t.splitlines()) if s and not s.startswith(parked)]

    assert lines(back) == lines(text)
    if f"#{name}" not in text and f"#[{path.rpartition('.')[0]}]" not in text:
        assert text.split() == back.split() or back.count("#[") > text.count("#[")


@FUZZ
@given(TEXTS, st.sampled_from(KEYS), st.text(max_size=40))
def test_whatever_is_typed_the_text_still_reads(text, path, typed):
    wanted = typed.replace("\r\n", "\n").strip()
    if any("\ud800" <= c <= "\udfff" for c in typed):
        with pytest.raises(EditError, match="no text"):
            edit(text, path, typed)
        return
    after = edit(text, path, typed)
    tomllib.loads(after)
    listed = path in REPEATED and any(mark in wanted for mark in ("[", ";", ", "))
    if path in TEXT_KEYS and not listed:
        assert raw_values(after).get(path, "") == wanted


@FUZZ
@given(st.sampled_from(STARTS), st.lists(st.text(min_size=1, max_size=8), min_size=1, max_size=4))
def test_any_path_is_either_set_or_refused_in_words(text, parts):
    try:
        path = dotted(tuple(parts))
        assert split(path) == tuple(parts)
        after = edit(text, path, "x")
    except (EditError, UnicodeEncodeError):
        return
    assert raw_values(after)[path] == "x"
    assert flat(edit(after, path, None)) == {
        k: v for k, v in flat(text).items() if k != split(path)
    }


@given(st.text(max_size=30))
def test_quoted_text_reads_back(text):
    if not any("\ud800" <= c <= "\udfff" for c in text):
        assert tomllib.loads(f"v = {quoted(text)}")["v"] == text
        assert "\n" not in quoted(text)


@pytest.mark.parametrize("text", STARTS)
def test_spans_agree_with_the_reader(text):
    values = values_of(text)
    assert {p: repr(tomllib.loads(f"v = {v}")["v"]) for p, v in values.items()} == flat(text)


def test_spans_know_all_of_toml():
    text = (
        'a = """one\n# no comment\n[no.table]\n""quoted"""""\n'
        "b = '''x'''\nc = 'lit\\eral' # \"not\n"
        "'d e'.\"f\\u0041\" . g = 1979-05-27 07:32:00 # when\n"
        "h = [ [1, 2], # [[\n  { i = '}' , j = [ ']' ] }, ]\n"
        'k = { l = { m = "}{" }, n.o = 3 }\n'
        "[p . 'q']  # r\ns = +1_000.5e-3\n"
        "[[t]]\nu = 1\n[t.v]\nw = 2\n[[t.z]]\n[[t]]\nu = 2\n[x]\ny = inf\n"
    )
    values = values_of(text)
    expected = flat(text)
    listed = values.pop(("t",))
    assert tomllib.loads(listed) == {"t": tomllib.loads(text)["t"]}
    expected.pop(("t",))
    assert {p: repr(tomllib.loads(f"v = {v}")["v"]) for p, v in values.items()} == expected


ONE_LINE = [
    # a change where it stands
    ("car.weight", "3700 lb", '  weight = "3700 lb"   # truck scale'),
    ("car.wheelbase", "3/8 in", '  \'wheelbase\' = "3/8 in"'),
    ("use.burnouts", "false", "burnouts = false"),
    ("gearbox.ratios", "[2.97, 2.07]", "ratios = [2.97, 2.07]"),
    ("gearbox.ratios", "2.97, 2.07", "ratios = [2.97, 2.07]"),
    ("gearbox.ratios", "[41/11; 2.07]", 'ratios = ["41/11", 2.07]'),
    ("gearbox.ratios", "[2.97, 2.07", 'ratios = "[2.97, 2.07"'),
    ("gearbox.ratios", "[1]\nx = 2", "ratios = \"[1]\\nx = 2\""),
    ("engine.air.pressure", "29 inHg", 'air.pressure = "29 inHg"  # dry'),
    ("parts.ring_gears.big.irons.gray", "0.7", "irons = { gray = 0.7, \"nod ular\" = 0.2 }"),
    ("parts.axle_shafts.'my 31.5'.steel", "mine", 'steel = "mine"'),
    ("format", "1", "format = 1   # the only one"),
    # a new key
    ("car.track", "59 in", '  track = "59 in"'),
    ("axle.found", "turned tube, brake smell", 'found = ["turned tube", "brake smell"]'),
    ("engine.air.temperature", "75 °F", 'air.temperature = "75 °F"'),
    ("axle.ratio", "3.70", 'ratio = "3.70"'),
    ("parts.ring_gears.big.irons.steel", "0.1",
     'irons = { gray = 0.8, "nod ular" = 0.2, steel = 0.1 }'),
    ("note", "two\r\nlines", 'note = "two\\nlines"'),
]  # fmt: skip


@pytest.mark.parametrize(("path", "typed", "line"), ONE_LINE)
def test_one_line_is_written(path, typed, line):
    new = edit(ODD, path, typed).splitlines()
    old = ODD.splitlines()
    assert line in new
    assert [n for n in new if n not in old] in ([line], [])
    windows = edit(ODD.replace("\n", "\r\n"), path, typed)
    assert windows.count("\n") == windows.count("\r\n") and line in windows.splitlines()


def test_a_continued_comment_stays_with_its_key():
    lines = edit(ODD, "car.rear_weight", "1660 lb").splitlines()
    at = lines.index('  rear_weight = "1660 lb"')
    assert "with half a tank" in lines[at - 1] and "truck scale" in lines[at - 2]


def test_a_new_table_comes_in_its_place_above_the_next_comment():
    text = 'format = 1\n\n[car]\ntrack = "59 in"\n\n# the box\n[gearbox]\nkind = "manual"\n'
    assert edit(text, "clutch.bite", "60 ms") == text.replace(
        "# the box", '[clutch]\nbite = "60 ms"\n\n# the box'
    )
    assert edit(edit(text, "clutch.bite", "60 ms"), "clutch.bite", None) == text
    assert edit(text, "wheels.tire", "x") == text + '\n[wheels]\ntire = "x"\n'
    assert edit(edit(text, "wheels.tire", "x"), "wheels.tire", None) == text
    bare = text.rstrip("\n")
    assert edit(bare, "wheels.tire", "x") == text + '\n[wheels]\ntire = "x"\n'


def test_a_line_that_the_template_offers_is_used():
    text = template("full")
    after = edit(edit(text, "clutch.bite", "60 ms"), "car.weight", "3650 lb")
    assert len(after.splitlines()) == len(text.splitlines())
    assert read_build(after).build.clutch is not None
    assert '\nweight = "3650 lb"\n' in after and "\n[clutch]  # for" in after
    assert "\n#[clutch]  # for" in edit(after, "clutch.bite", None)
    assert read_build(edit(after, "clutch.bite", None)).build.clutch is None


def test_a_value_about_which_a_comment_stands_is_commented_out():
    after = edit(ODD, "car.weight", None)
    assert '  #weight = "3650 ± 40 lb"   # truck scale\n' in after
    assert edit(after, "car.weight", "3650 ± 40 lb") == ODD


def test_a_whole_table_can_be_taken_out():
    text = edit(edit(ODD, "clutch.bite", "60 ms"), "clutch.capacity", "700 lbf*ft")
    assert edit(text, "clutch", None) == ODD
    assert not [p for p in raw_values(edit(ODD, "engine", "")) if p.startswith("engine")]
    assert "\n[gearbox]\n" in edit(ODD, "gearbox", None)
    assert edit(ODD, "parts.ring_gears", None).endswith('through-hardened"\n')


def test_empty_inline_tables_take_and_give():
    assert edit("format = 1\ncar = {}\n", "car.track", "5 ft") == (
        'format = 1\ncar = { track = "5 ft" }\n'
    )
    assert edit('format = 1\ncar = { track = "5 ft" }\n', "car.track", None) == "format = 1\n"
    three = "a = { b = 1, c = 2, d = 3 }\n"
    assert edit(three, "a.b", None) == "a = { c = 2, d = 3 }\n"
    assert edit(three, "a.c", None) == "a = { b = 1, d = 3 }\n"
    assert edit(three, "a.d", None) == "a = { b = 1, c = 2 }\n"


def test_a_number_stays_bare_only_if_it_reads_as_typed():
    text = "[axle]\nratio = 3.73\n"
    assert edit(text, "axle.ratio", "4.1") == "[axle]\nratio = 4.1\n"
    assert edit(text, "axle.ratio", "4.10") == '[axle]\nratio = "4.10"\n'
    assert edit(text, "axle.ratio", "41/11") == '[axle]\nratio = "41/11"\n'


@pytest.mark.parametrize(
    ("text", "path", "typed", "why"),
    [
        ("a = = 1", "car.weight", "1 lb", "no TOML"),
        ("a = = 1", "car.weight", None, "no TOML"),
        (ODD, "car", "x", "is a table; name one of its keys"),
        (ODD, "parts.axle_shafts", "x", "is a table"),
        (ODD, "parts.axle_shafts.my.irons.x.y", "x", None),
        (ODD, "parts.ring_gears.big.irons", "x", "is a table"),
        (ODD.replace("[use]", "[zzz.use]"), "zzz", "x", "is a table"),
        (ODD, r'car."\q"', "x", "no path"),
        (ODD, "car.weight.low", "x", "car.weight is a value"),
        (ODD, "", "x", "no path"),
        (ODD, "car..weight", "x", "no path"),
        (ODD, 'car."', None, "no path"),
        ("[[car]]\nweight = 1\n", "car.weight", "x", "list of tables"),
        ("[[car]]\nweight = 1\n", "car", None, "list of tables"),
        ("a = " + "[" * 5000 + "]" * 5000, "car.weight", "x", "too deep"),
        (ODD, "note", "\ud800", "no text"),
    ],
)
def test_what_cannot_be_done_is_said(text, path, typed, why):
    if why is None:
        assert raw_values(edit(text, path, typed))[path] == typed
        return
    with pytest.raises(EditError, match=why):
        edit(text, path, typed)


@pytest.mark.parametrize("literal", ["1\nformat = 2", '1\nextra = "x"', "= 2", "", "1 # 2\n["])
def test_a_literal_that_would_change_more_is_refused(literal):
    with pytest.raises(EditError, match="cannot be changed here"):
        set_value(ODD, ("car", "track"), literal)
    with pytest.raises(EditError, match="no path"):
        set_value(ODD, (), "1")


def test_comments_that_only_look_like_keys_are_left_alone():
    text = "[car]\n#track = 58 in or so\n#[clutch] = none\n"
    assert edit(text, "car.track", "x") == text.replace("[car]\n", '[car]\ntrack = "x"\n')
    assert edit(text, "clutch.bite", "x") == text + '\n[clutch]\nbite = "x"\n'


def test_unknown_keys_keep_their_kind():
    text = "[zzz]\nq = 3\nr = true\ns = [1]\n"
    for path, typed, line in (
        ("zzz.q", "4", "q = 4"),
        ("zzz.q", "four", 'q = "four"'),
        ("zzz.r", "false", "r = false"),
        ("zzz.q", "true", 'q = "true"'),
        ("zzz.s", "1, 2", "s = [1, 2]"),
        ("parts.nonsense.a.b", "1", 'b = "1"'),
    ):
        assert line in edit(text, path, typed).splitlines()


def test_raw_values_are_what_was_typed():
    values = raw_values(ODD)
    assert values["name"] == 'Copper "Wren"'
    assert values["car.weight"] == "3650 ± 40 lb" and values["car.wheelbase"] == "108 in"
    assert values["gearbox.ratios"] == "[2.97, 2.07, 1.00]" and values["use.burnouts"] == "true"
    assert values["engine.curve"].startswith('[\n  ["2000 rpm"')
    assert values['parts.axle_shafts."my 31.5".spline'] == "31x24"
    assert values['parts.ring_gears.big.irons."nod ular"'] == "0.2"
    assert raw_values("a = = 1") == {}
    assert raw_values("a = " + "[" * 5000 + "]" * 5000) == {}
    assert decoded("1_000") == "1_000"


def test_every_value_of_a_build_can_be_typed_in_again():
    for text in STARTS:
        empty = template("full") if text.startswith("# Every key") else "format = 1\n"
        built = empty
        for path, typed in raw_values(text).items():
            built = edit(built, path, typed)
            assert edit(text, path, typed) == text
        assert raw_values(built) == raw_values(text)


def test_readings_stand_in_a_field_without_brackets():
    text = 'format = 1\n\n[fit.left]\nlip = ["6 3/8 in", "6 7/16 in"]\n'
    assert field_values(text)["fit.left.lip"] == "6 3/8 in; 6 7/16 in"
    assert edit(text, "fit.left.lip", "6 3/8 in; 6 7/16 in") == text
    more = edit(text, "fit.left.lip", "6 3/8 in; 6 7/16 in; 6 1/2 in")
    assert field_values(more)["fit.left.lip"] == "6 3/8 in; 6 7/16 in; 6 1/2 in"


@pytest.mark.parametrize(
    "typed", ['["a; b", "c"]', '["only"]', "[2.95, 1.94]", '[["1", "2"]]', "[]"]
)
def test_other_lists_stand_in_a_field_as_they_were_written(typed):
    assert in_field(typed) == typed
