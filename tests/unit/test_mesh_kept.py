"""Gear pairs kept as files: found again while nothing that they read has changed."""

import dataclasses
import shutil

import numpy as np
import pytest

from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.studies.mesh import mesh_study
from axlewright.studies.mesh_runs import NoPairError
from axlewright.workshop import meshes
from axlewright.workshop.meshes import Meshes, key_of, map_from, told_map

TEXT = (
    'format = 1\nname = "Gray Heron"\n[gearbox]\nkind = "manual"\n[axle]\nring_gear = "8.5"\n'
    'ratio = "41/11"\n[gears]\npattern_length = "50 %"\n'
)


def build(old="", new=""):
    assert old in TEXT
    return resolve(read_build(TEXT.replace(old, new) if old else TEXT, "heron.toml"))


def quickly(build, seed, count, tell=None, contact=False):
    """The study under the textbook's force: in no time."""
    return mesh_study(build, seed, count, tell, contact=False)


@pytest.fixture(scope="module")
def worked(tmp_path_factory):
    """One gear pair worked out and kept, with what it told and how it went on."""
    heard = []
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(meshes, "mesh_study", quickly)
        made = Meshes(tmp_path_factory.mktemp("meshes"), samples=3)
        report = made.work(build(), lambda share: heard.append(share) is None)
    return made, report, heard


@pytest.fixture
def kept(worked, tmp_path, monkeypatch):
    """A folder of its own with that gear pair in it."""
    monkeypatch.setattr(meshes, "mesh_study", quickly)
    shutil.copytree(worked[0]._where, tmp_path, dirs_exist_ok=True)
    return Meshes(tmp_path, samples=3)


@pytest.fixture
def empty(tmp_path, monkeypatch):
    monkeypatch.setattr(meshes, "mesh_study", quickly)
    return Meshes(tmp_path, samples=3)


def test_nothing_kept_is_nothing_found(empty):
    assert empty.report(build()) is None
    assert empty.map(build()) is None


def test_what_was_worked_out_is_found(kept, worked):
    _, made, heard = worked
    assert kept.report(build()) == made
    assert heard == sorted(heard)
    assert heard[-1] == pytest.approx(1.0)
    drawn = kept.map(build())
    assert drawn.values["center"].shape == (2, 5, 2, 2, 5)
    found = drawn.at("drive", drawn.torques[3], "gray", "overhung", 0.0)
    assert found["pinion_lift"] < 0.0
    other = kept.report(build("Gray Heron", "Brown Wren"))
    assert other == dataclasses.replace(made, name="Brown Wren")
    assert kept.report(build("50 %", "52 %")) is None


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("Gray Heron", "Brown Wren"),
        ("[gears]", "# set on a Tuesday\n[gears]"),
        ("50 %", "50.0 %"),
        ('ratio = "41/11"', 'ratio = "41/11"\nsupport = "overhung"'),
    ],
)
def test_what_moves_no_number_keeps_the_answer(old, new):
    assert key_of(build(old, new)) == key_of(build())


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("50 %", "51 %"),
        ("50 %", "50 ± 2 %"),
        ("41/11", "39/11"),
        ('ratio = "41/11"', 'ratio = "41/11"\nsupport = "straddle"'),
        ('ratio = "41/11"', 'ratio = "41/11"\ncase_iron = "nodular"'),
        ('ratio = "41/11"', 'ratio = "41/11"\nbacklash = "0.008 in"'),
        ("[gears]", '[engine]\ntorque = "500 lbf*ft"\n[gears]'),
        ("[gears]", '[gears]\ncover = "load-carrying"'),
        ("[gears]", '[gears]\npinion_shim = "0.001 in"'),
    ],
)
def test_what_moves_a_number_asks_for_another_answer(old, new):
    assert key_of(build(old, new)) != key_of(build())


def test_a_broken_file_is_none(kept):
    for path in kept._where.glob("*.json"):
        path.write_text(path.read_text(encoding="utf-8")[:-20], encoding="utf-8")
    assert kept.report(build()) is None
    assert kept.map(build()) is None


def test_a_job_tells_in_short_and_stops(kept):
    fresh = build("50 %", "54 %")
    task = kept.task(fresh, "hash")
    assert task.known is None
    assert task.work(lambda share: False) is None
    assert kept.report(fresh) is None
    known = kept.task(build(), "hash").known
    assert known["sentence"].startswith("In service")
    assert kept.task(build(), "hash").work(lambda share: share < 0.0) is None


def test_a_pair_that_cannot_be_is_no_job(empty):
    with pytest.raises(NoPairError):
        empty.task(build('ratio = "41/11"', 'ratio = "41/11"\npinion_offset = "3.9 in"'), "hash")


def test_flanks_that_are_not_known_have_no_slider_and_no_map(empty):
    even = build("[gears]", '[gears]\ndepth = "even"')
    with pytest.raises(ValueError, match="face-hobbed"):
        empty.shimmed(even, 0.0, 2e-4)
    with pytest.raises(ValueError, match="face-hobbed"):
        empty.points(even)
    empty.work(even)
    assert empty.report(even).refused
    assert empty.map(even) is None


def test_a_slider_is_answered_on_kept_flanks(kept):
    first = kept.shimmed(build(), 5e-5, 2e-4)
    assert kept.shimmed(build(), 5e-5, 2e-4) == first
    assert len(kept.points(build())) == 4


def test_a_thicker_shim_goes_where_it_lies(kept):
    cartridge = build("[gears]", '[gears]\npinion_shim_at = "cartridge"')
    for made, sense in ((build(), -1.0), (cartridge, 1.0)):
        found = kept.shimmed(made, 5e-5, 2e-4)
        assert found.pinion_out == pytest.approx(sense * 5e-5)
        assert found.ring_shim == pytest.approx(-found.ring_out)


def test_a_map_is_the_same_after_reading(kept):
    drawn = kept.map(build())
    again = map_from(told_map(drawn))
    for name, values in drawn.values.items():
        np.testing.assert_array_equal(values, again.values[name])


def test_a_store_in_memory_leaves_nothing_behind():
    passing = Meshes()
    where = passing._where
    assert where.is_dir()
    passing.close()
    assert not where.exists()
