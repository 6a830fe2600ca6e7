"""The templates read and resolve as they stand, and each of their lines is a good one."""

import re
import tomllib

import pytest

from axlewright.build.model import Build
from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.build.shelf import Shelf
from axlewright.quantities.fields import subsection, walk
from axlewright.workshop.keys import TABLE_OF_KEY, left_out, sample, tables, takes
from axlewright.workshop.template import template

ENTRIES = [entry for part in tables() for entry in part.entries]
FIRST = [entry for entry in ENTRIES if entry.meta.first]
COMMENTED = re.compile(r"^#(\w+ = |\[)", re.MULTILINE)


def live_keys(text):
    def paths(here, before=""):
        for name, value in here.items():
            yield from (
                paths(value, f"{before}{name}.") if isinstance(value, dict) else [before + name]
            )

    return set(paths(tomllib.loads(text)))


def section_of(path):
    section = Build
    for name in path.split(".")[:-1]:
        section = subsection(section.model_fields[name])
    return section


@pytest.mark.parametrize("style", ["short", "full"])
def test_template_reads_and_resolves_without_a_word(style):
    source = read_build(template(style))
    assert source.cautions == ()
    assert resolve(source).cautions == ()


def test_short_template_states_just_the_first_verdict():
    assert live_keys(template("short")) == {"format", "name"} | {e.path for e in FIRST}
    assert 10 <= len(FIRST) <= 12


def test_full_template_states_only_what_is_needed():
    needed = {e.path for e in ENTRIES if e.required}
    assert live_keys(template("full")) == needed


def test_full_template_offers_every_key():
    offered = COMMENTED.sub(r"\1", template("full"))
    lines = offered.splitlines()
    for part in tables():
        start = lines.index(f"[{part.path}]") if f"[{part.path}]" in lines else 0
        if part.path and not start:
            start = next(n for n, line in enumerate(lines) if line.startswith(f"[{part.path}]  #"))
        rest = lines[start + 1 :]
        end = next((n for n, line in enumerate(rest) if line.startswith("[")), len(rest))
        here = {line.partition(" = ")[0] for line in rest[:end] if not line.startswith("#")}
        assert here - {""} == {e.name for e in part.entries} - {"parts"}, part.path


def test_every_key_is_an_entry_or_a_table():
    known = {e.path for e in ENTRIES} | {t.path for t in tables()} - {""}
    assert known == {path for path, _ in walk(Build)}


@pytest.mark.parametrize("entry", [e for e in ENTRIES if e.path != "parts"], ids=lambda e: e.path)
def test_each_offered_value_is_taken_by_its_key(entry):
    value = tomllib.loads(f"x = {sample(entry)}")["x"]
    section = section_of(entry.path)
    fields = {n: i for n, i in section.model_fields.items() if i.is_required()}
    others = {n: e_value(section, n) for n in fields if n != entry.name}
    read = section.model_validate({**others, entry.name: value})
    assert getattr(read, entry.name) is not None


def e_value(section, name):
    """A good value of another key that the section needs."""
    by_name = {"format": 1, "kind": "manual", "ring_gear": "8.5"}
    inner = subsection(section.model_fields[name])
    if inner is None:
        return by_name[name]
    return {n: e_value(inner, n) for n, i in inner.model_fields.items() if i.is_required()}


@pytest.mark.parametrize("path", TABLE_OF_KEY)
def test_examples_of_catalogue_names_are_in_the_catalogue(path):
    entry = next(e for e in ENTRIES if e.path == path)
    example = tomllib.loads(f"x = {entry.meta.example}")["x"] if entry.bare else entry.meta.example
    for name in example if entry.bare else [example]:
        assert name in entry.named_rows


def test_own_part_in_the_full_template_fits_its_shelf():
    lines = [line[2:] for line in template("full").splitlines() if line.startswith("# ")]
    start = lines.index('[parts.axle_shafts."mine"]')
    text = "\n".join(lines[start : start + 6])
    Shelf(tomllib.loads(text)["parts"])
    source = read_build(template("short").replace('"31-spline alloy"', '"mine"') + "\n" + text)
    assert resolve(source).machine is not None


def test_lines_of_the_template_stay_narrow():
    for style in ("short", "full"):
        assert max(len(line) for line in template(style).splitlines()) <= 100


def test_what_a_key_takes_is_said():
    said = {e.path: takes(e) for e in ENTRIES}
    assert said["car.weight"] == "mass (lb, kg)"
    assert said["gearbox.kind"] == "a choice"
    assert said["gearbox.ratios"] == "list"
    assert said["use.burnouts"] == "yes or no"
    assert said["format"] == "whole number"
    assert said["parts"] == "tables"
    assert said["axle.shaft"] == "catalogue name (axle_shafts)"
    assert said["wheels.tire"] == "text"


def test_what_stands_in_is_said_with_its_weights():
    said = {e.path: left_out(e) for e in ENTRIES}
    assert said["axle.differential"] == "70 % open, 30 % clutch"
    assert said["axle.condition"] == "used"
    assert said["car.rear_share"] == "46 ± 4 %"
