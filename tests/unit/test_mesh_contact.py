"""The gear pair with its loaded contact in the loop: flanks and support agree about one place."""

from dataclasses import replace

import numpy as np
import pytest

from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.studies.mesh_numbers import id_of
from axlewright.studies.mesh_rest import stand
from axlewright.studies.mesh_runs import all_runs, nominal_run, with_teeth
from axlewright.studies.mesh_teeth import COARSE
from axlewright.studies.mesh_told import Told

TEXT = 'format = 1\n[gearbox]\nkind = "manual"\n[axle]\nring_gear = "8.8"\nratio = "41/11"\n'


@pytest.fixture(scope="module")
def build():
    return resolve(read_build(TEXT, "heron.toml"))


@pytest.fixture(scope="module")
def in_the_loop(build):
    return nominal_run(build)


def test_teeth_and_support_agree_with_the_contact_in_the_loop(in_the_loop):
    textbook = with_teeth(in_the_loop, replace(in_the_loop.teeth, give=None)).stands
    for name, found in in_the_loop.stands.items():
        assert found.note == ""
        assert found.rest.mismatch < 1e-7
        plain = textbook[name]
        assert found.dials.pinion_lift == pytest.approx(plain.dials.pinion_lift, rel=0.3)
        assert np.sum(found.loaded.share, axis=1) == pytest.approx(1.0, abs=1e-6)


def test_force_in_the_loop_carries_the_torque_of_the_ring(in_the_loop):
    """Statics: the force on the ring at its place turns it by the torque that was asked for."""
    mesh = in_the_loop.blank.mesh
    for found in in_the_loop.stands.values():
        load = found.rest.load
        about = np.cross(mesh.mean_point, -load.force) - load.moment
        assert abs(about[2]) == pytest.approx(found.load.ring_torque, rel=0.01)


def test_samples_are_worked_out_with_the_contact_too(build):
    runs = all_runs(build, seed=1, count=2)
    told = Told(runs)
    assert runs.lost == {}
    for what in ("pinion_lift", "peak_pressure", "ring_root", "load_center"):
        found = told.finding(id_of("drive.rated", what))
        assert found.low < found.high
        assert found.cautions == ()


def test_the_maps_coarse_contact_stands_for_the_fine_one(in_the_loop):
    fine = in_the_loop.stands["drive.rated"]
    coarse = stand(replace(in_the_loop.teeth, counts=COARSE), in_the_loop.support, fine.load)
    assert coarse.dials.pinion_lift == pytest.approx(fine.dials.pinion_lift, rel=0.01)
    assert coarse.loaded.pattern.center == pytest.approx(fine.loaded.pattern.center, abs=0.01)
    # Not so the pressure, which peaks at an edge here and grows as the slices get finer.
    tension = (np.max(x.loaded.ring_root) for x in (coarse, fine))
    assert next(tension) == pytest.approx(next(tension), rel=0.05)
