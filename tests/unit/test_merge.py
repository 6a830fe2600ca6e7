"""Two changes of one build come together by key; what cannot is said, and nothing is lost."""

import tomllib

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from axlewright.build.edit import edit, raw_values
from axlewright.build.merge import Conflict, merge, merge_all

BASE = """\
# The car of the year.
format = 1
name = "Copper Wren"

[car]
weight = "3650 lb"      # scale
rear_weight = "1660 lb"
track = "59 in"

[clutch]
capacity = "750 lbf*ft"

[gearbox]
kind = "manual"
ratios = [2.97, 2.07, 1.00]

[axle]
ring_gear = "8.5"
"""
PATHS = ["name", "car.weight", "car.track", "clutch.capacity", "clutch.bite", "axle.ratio"]
PATHS += ["wheels.tire", "engine.air.pressure", "parts.axle_shafts.mine.steel"]
CHANGES = st.dictionaries(st.sampled_from(PATHS), st.sampled_from(["", "a", "b"]), max_size=5)
FUZZ = settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))


def changed(text, changes):
    for path, typed in changes.items():
        text = edit(text, path, typed)
    return text


@FUZZ
@given(CHANGES, CHANGES)
def test_each_key_is_merged_by_itself(ours, theirs):
    mine, other = changed(BASE, ours), changed(BASE, theirs)
    text, conflicts = merge(BASE, mine, other)
    base, a, b = raw_values(BASE), raw_values(mine), raw_values(other)
    clashing = {p for p in PATHS if a.get(p) != base.get(p) != b.get(p) and a.get(p) != b.get(p)}
    assert {c.key for c in conflicts} == clashing
    for c in conflicts:
        values = (base.get(c.key, ""), a.get(c.key, ""), b.get(c.key, ""))
        assert (c.base, c.ours, c.theirs) == values
    expected = {
        p: v
        for p in {*base, *a, *b}
        if (v := (b if p in clashing or a.get(p) == base.get(p) else a).get(p)) is not None
    }
    assert raw_values(text) == expected


@FUZZ
@given(CHANGES, CHANGES)
def test_without_a_conflict_either_order_says_the_same(ours, theirs):
    mine, other = changed(BASE, ours), changed(BASE, theirs)
    one, conflicts = merge(BASE, mine, other)
    two, others = merge(BASE, other, mine)
    assert {c.key for c in conflicts} == {c.key for c in others}
    if not conflicts:
        assert tomllib.loads(one) == tomllib.loads(two)


@FUZZ
@given(CHANGES)
def test_what_one_side_did_comes_out_to_the_byte(ours):
    mine = changed(BASE, ours)
    assert merge(BASE, mine, BASE) == (mine, ())
    assert merge(BASE, BASE, mine) == (mine, ())
    assert merge(BASE, mine, mine) == (mine, ())


@FUZZ
@given(CHANGES, CHANGES)
def test_a_save_sent_again_changes_nothing(ours, theirs):
    mine, other = changed(BASE, ours), changed(BASE, theirs)
    text, conflicts = merge(BASE, mine, other)
    assert raw_values(merge(BASE, mine, text)[0]) == raw_values(text)
    assert merge(BASE, mine, text)[1] == conflicts


def test_comments_of_both_sides_are_kept():
    mine = BASE.replace("# scale", "# truck scale").replace("8.5", "8.8")
    other = edit(BASE, "gearbox.ratios", "[2.48, 1.48, 1.00]") + "# checked\n"
    merged = merge_all(BASE, mine, other)
    assert merged.complete and not merged.conflicts
    for said in ("# truck scale", "8.8", "[2.48, 1.48, 1.00]", "# checked\n"):
        assert said in merged.text


def test_keys_on_touching_lines_are_merged_too():
    mine, other = edit(BASE, "car.weight", "3700 lb"), edit(BASE, "car.rear_weight", "1700 lb")
    merged = merge_all(BASE, mine, other)
    assert merged.text == edit(mine, "car.rear_weight", "1700 lb") and merged.complete


def test_a_comment_that_does_not_come_through_is_told():
    mine = BASE.replace('weight = "3650 lb"      # scale', 'weight = "3600 lb"  # truck scale')
    other = BASE.replace("# scale", "# kitchen scale")
    merged = merge_all(BASE, mine, other)
    assert not merged.conflicts and not merged.complete
    assert raw_values(merged.text)["car.weight"] == "3600 lb"


def test_a_conflict_names_the_three_values():
    mine, other = edit(BASE, "car.weight", "3700 lb"), edit(BASE, "car.weight", None)
    assert merge(BASE, mine, other)[1] == (Conflict("car.weight", "3650 lb", "3700 lb", ""),)
    assert merge(BASE, mine, other)[0] == other
    assert merge(BASE, other, mine) == (mine, (Conflict("car.weight", "3650 lb", "", "3700 lb"),))


def test_another_way_of_writing_the_same_is_no_change():
    mine = BASE.replace('"59 in"', "'59 in'")
    assert merge(BASE, mine, edit(BASE, "car.track", "60 in"))[1] == ()


def test_a_value_and_a_table_of_one_name_clash():
    mine, other = 'a = 1\n[b]\nc = "x"\n', 'b = "x"\n'
    text, conflicts = merge("\n", mine, other)
    assert raw_values(text) == {"b": "x", "a": "1"}
    assert conflicts == (Conflict("b.c", "", "x", ""),)


def test_lists_of_tables_are_whole_values():
    base = "[[a]]\nb = 1\n[c]\nd = 1\ne = 1\nf = 1\n"
    mine, other = base.replace("b = 1", "b = 2"), base.replace("f = 1", "f = 2")
    assert merge(base, mine, other) == (mine.replace("f = 1", "f = 2"), ())
    text, conflicts = merge(base, mine, base.replace("b = 1", "b = 3"))
    assert "b = 3" in text and [c.key for c in conflicts] == ["a"]


@pytest.mark.parametrize("broken", ["ours", "theirs", "base"])
def test_a_text_that_does_not_read_is_merged_by_line_or_clashes_as_a_whole(broken):
    sides = {
        "base": BASE,
        "ours": edit(BASE, "name", "Wren"),
        "theirs": edit(BASE, "axle.ring_gear", "8.8"),
    }
    if broken == "base":
        sides = {k: t.replace("59 in", '5"9 in') for k, t in sides.items()}
    else:
        sides[broken] = "[[\n" + sides[broken]
    text, conflicts = merge(*sides.values())
    assert conflicts == () and '"Wren"' in text and '"8.8"' in text
    sides["ours"] += "a = = b\n"
    sides["theirs"] += "c = = d\n"
    text, conflicts = merge(*sides.values())
    assert text == sides["theirs"]
    assert conflicts == (Conflict("", *sides.values()),)
