"""The gear study: the pattern that was asked for, movement under torque, what is refused."""

import csv
import io
import json
import sys

import numpy as np
import pytest

from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.hypoid.support.dials import LIMITS
from axlewright.quantities.finding import Finding
from axlewright.studies.mesh import mesh_study
from axlewright.studies.mesh_map import DEPTHS, mesh_map
from axlewright.studies.mesh_pictures import pictures_at, shimmed
from axlewright.studies.mesh_points import as_csv, as_json, flank_points
from axlewright.studies.mesh_rest import stand
from axlewright.studies.mesh_runs import NoPairError, StoppedError
from axlewright.studies.mesh_teeth import Load

HEAD = (
    'format = 1\nname = "Gray Heron"\n[gearbox]\nkind = "manual"\n[axle]\nring_gear = "{ring}"\n'
    'ratio = "41/11"\n{axle}'
)
THOU = 25.4e-6


def build(gears="", ring="8.8", axle=""):
    text = HEAD.format(ring=ring, axle=axle) + ("[gears]\n" + gears if gears else "")
    return resolve(read_build(text, "heron.toml"))


@pytest.fixture(scope="module")
def quick():
    return mesh_study(build(), count=0, contact=False)


@pytest.fixture(scope="module")
def pair(quick):
    return quick.pair


def load(study, name):
    return next(x for x in study.report.loads if x.name == name)


def moves(study, name):
    return {k: f.value for k, f in load(study, name).moves.items()}


def test_the_pattern_without_torque_is_the_stated_one():
    study = mesh_study(
        build('pattern_length = "55 %"\npattern_place = "42 %"\npattern_height = "52 %"\n'),
        count=0, contact=False,
    )  # fmt: skip
    for picture in study.report.pictures.values():
        assert picture.length == pytest.approx(0.55, abs=1e-3)
        assert picture.center == pytest.approx(0.42, abs=1e-3)
        assert picture.height == pytest.approx(0.52, abs=1e-3)
        marked = np.array(picture.gap) <= picture.film
        shown = np.ptp(np.array(picture.along)[marked.any(axis=1)])
        assert shown == pytest.approx(0.55, abs=2.0 / len(picture.along))


def test_drive_climbs_and_pushes_out_coast_does_the_reverse(quick):
    """Common practice: the driven pinion climbs the ring gear and is thrust out of mesh."""
    drive, coast = moves(quick, "drive.rated"), moves(quick, "coast.rated")
    assert drive["pinion_lift"] < 0.0 < drive["pinion_axial"]
    assert coast["pinion_axial"] < 0.0 < coast["pinion_lift"]


def test_the_drive_pattern_goes_to_the_heel_under_torque(quick):
    """A gear maker's page (read): under load the pattern moves toward the heel."""
    at_rest = quick.report.pictures["drive"].center
    rated, hardest = (
        load(quick, f"drive.{x}").pattern["center"].value for x in ("rated", "hardest")
    )
    assert at_rest + 0.05 < rated
    assert (hardest > rated) == (
        load(quick, "drive.hardest").ring_torque.value
        > load(quick, "drive.rated").ring_torque.value
    )


def test_ids_are_stable_and_every_finding_says_what_it_means(quick):
    assert load(quick, "drive.rated").moves["pinion_lift"].id == "gear_pair.drive.pinion_lift.rated"
    for one in quick.report.loads:
        for group in (one.moves, one.shares, one.pattern, {"t": one.ring_torque}):
            for finding in group.values():
                assert isinstance(finding, Finding)
                assert finding.means.startswith(one.title)
                assert finding.low <= finding.value <= finding.high


def test_without_samples_a_band_says_that_it_is_none(quick):
    assert all("not sampled" in f.cautions[0] for f in load(quick, "drive.rated").moves.values())


def test_shares_of_parts_add_up(quick):
    for one in quick.report.loads:
        assert sum(f.value for f in one.shares.values()) == pytest.approx(1.0)
        assert sum(one.by_part.values()) == pytest.approx(1.0)


def test_rollers_of_an_own_bearing_are_taken():
    own = (
        'head_bearing = "mine"\n[parts.bearings.mine]\nkind = "tapered"\nbore = "50 mm"\n'
        'outside = "90 mm"\nwidth = "24.75 mm"\ndynamic_rating = "82 kN"\n'
        'static_rating = "100 kN"\n'
        'contact_angle = "15 deg"\nrollers = 19\nroller_diameter = "9.5 mm"\nroller_length = "{}"\n'
    )
    systems = {}
    for length in ("16 mm", "8 mm"):
        found = mesh_study(build(own.format(length)), count=0, contact=False)
        systems[length] = found
        roller = found.nominal.support.system.pinion.seats[0].roller
        assert (roller.count, roller.diameter, roller.rating) == (19, 0.0095, 82e3)
    short, long = (moves(systems[x], "drive.rated")["pinion_lift"] for x in ("8 mm", "16 mm"))
    assert abs(short) > abs(long)


def test_bearings_hold_the_tooth_forces(quick):
    """Statics: what pushes the pinion out of mesh is held by its bearings."""
    for name in ("drive.rated", "drive.hardest"):
        lines = {line.name: line for line in load(quick, name).bearings}
        assert set(lines) == {
            "head bearing",
            "tail bearing",
            "ring side bearing",
            "far side bearing",
        }
        force = quick.nominal.stands[name].rest.load.force
        thrust = lines["head bearing"].axial - lines["tail bearing"].axial
        assert thrust == pytest.approx(force[0], rel=1e-6)
        assert lines["head bearing"].life < lines["tail bearing"].life
        assert 0.0 < lines["head bearing"].load_zone <= 1.0


def test_an_aluminum_case_opens_backlash_as_it_warms():
    """Common practice: an aluminum case grows more than its gears and lets them apart."""
    found = {}
    for iron in ("nodular", "aluminum"):
        study = mesh_study(build(axle=f'case_iron = "{iron}"\n'), count=0, contact=False)
        found[iron] = study.report.warm
        assert found[iron].metal == iron
    assert found["aluminum"].lash_change > found["nodular"].lash_change + 1.0 * THOU
    for cold, _ in found["aluminum"].preloads.values():
        assert cold > 0.0


def test_limits_are_held_against_service_loads_only(quick):
    lines = quick.report.limits
    assert {line.load for line in lines} == {"drive.rated", "coast.engine"}
    assert {line.what for line in lines} == set(LIMITS)
    for line in lines:
        limit = line.high if line.found.value > 0.0 else line.low
        assert line.times == pytest.approx(line.found.value / limit)
        assert line.holds == (line.low <= line.found.value <= line.high)
    # A gear maker's page (read): .003 in, and .010 in for a ring gear that goes away.
    highs = {line.what: line.high / THOU for line in lines}
    assert highs == pytest.approx(
        {"pinion_lift": 3, "pinion_axial": 3, "ring_lift": 3, "ring_axial": 10}
    )


def test_what_would_change_it(quick):
    by_name = {c.name: c for c in quick.report.choices}
    assert by_name["nodular"].times < by_name["gray"].times
    assert by_name["straddle"].times < 0.7 * by_name["overhung"].times
    assert abs(by_name["loaded cover"].ring_axial_rated) < abs(by_name["present"].ring_axial_rated)
    assert [c.name for c in quick.report.choices if c.present] == ["present", "overhung"]
    # Springs in series (closed form): a case that takes a fifth to a half of the movement saves
    # that share of 1 - 110/169.
    gained = 1.0 - by_name["nodular"].times / by_name["gray"].times
    assert 0.2 * (1 - 110 / 169) < gained < 0.5 * (1 - 110 / 169)


def test_curves_begin_at_rest_and_rise(quick):
    for curve in quick.report.curves:
        lift = np.abs(curve.moves["pinion_lift"])
        assert lift[0] == pytest.approx(0.0, abs=1e-9)
        assert (np.diff(lift) > 0.0).all()
        assert curve.center[0] == pytest.approx(quick.report.pictures[curve.side].center, abs=1e-6)


def test_shims_read_as_the_shop_reads_them(pair):
    """Read depth by height on both flanks: a deeper pinion touches lower on the ring's tooth."""
    deep, high = (shimmed(pair, out * THOU, 8 * THOU).pictures for out in (-4, 4))
    for side in ("drive", "coast"):
        assert deep[side].height < 0.45
        assert high[side].height > 0.55


@pytest.mark.parametrize("lash", [4, 8, 12])
@pytest.mark.parametrize("out", [-5, 0, 5])
def test_the_slider_sets_the_backlash_it_was_asked_for(pair, out, lash):
    found = shimmed(pair, out * THOU, lash * THOU)
    assert found.backlash == pytest.approx(lash * THOU, abs=0.5e-6)
    assert found.pinion_out == pytest.approx(out * THOU)


def test_a_ring_moved_out_opens_backlash_by_less_than_twice_its_way(pair, quick):
    """Trade rule of thumb (from memory): .001 in from side to side moves it by about .0007."""
    rate = quick.report.setting["gear_pair.lash_per_ring_move"].value
    assert 0.5 < rate < 1.2
    wide, tight = (shimmed(pair, 0.0, lash * THOU).ring_out for lash in (12, 8))
    assert 4 * THOU / (wide - tight) == pytest.approx(rate, rel=0.05)


def test_stated_shims_move_the_pictures(quick):
    moved = mesh_study(build('pinion_shim = "0.004 in"\nring_shim = "0.002 in"\n'), count=0,
                       contact=False)  # fmt: skip
    set_at = moved.pair.set_at
    np.testing.assert_allclose([set_at.P, set_at.G], [-4 * THOU, -2 * THOU])
    assert moved.report.pictures == pictures_at(moved.pair, set_at)
    lash = [s.report.setting["gear_pair.backlash"].value for s in (quick, moved)]
    assert lash[1] < lash[0]


def test_even_depth_is_refused_for_flanks_but_not_for_forces(quick):
    found = mesh_study(build('depth = "even"\n'), count=4).report
    assert found.pictures == {}
    assert "face-hobbed" in found.refused
    assert "face-hobbed" in found.sentence
    assert any("face-hobbed" in c for c in found.cautions)
    rated = next(x for x in found.loads if x.name == "drive.rated")
    assert rated.picture is None
    assert rated.pattern == {}
    assert rated.moves["pinion_lift"].value == pytest.approx(
        moves(quick, "drive.rated")["pinion_lift"], rel=1e-9
    )


def test_a_pair_that_cannot_be_says_so():
    with pytest.raises(NoPairError, match="this gear pair cannot be"):
        mesh_study(build(axle='pinion_offset = "3.9 in"\n', ring="7.5"), count=0, contact=False)


def test_bands_hold_the_nominal_of_what_is_not_known_and_do_not_depend_on_luck():
    one, other = (mesh_study(build(), count=6, contact=False) for _ in range(2))
    assert one.report == other.report
    band = load(one, "drive.rated").moves["pinion_lift"]
    assert band.low < band.value < band.high
    assert band.cautions == ()
    assert one.report.lost == 0


def test_a_study_stops_when_told_to():
    with pytest.raises(StoppedError):
        mesh_study(build(), count=3, contact=False, tell=lambda share: share < 0.3)


def test_the_map_has_the_cases_themselves_and_lines_between(quick):
    run = quick.nominal
    drawn = mesh_map(run)
    assert drawn.values["center"].size == 200
    assert np.isfinite(drawn.values["center"]).all()
    torque = drawn.torques[2]
    found = drawn.at("drive", torque, "nodular", "overhung", DEPTHS[2])
    again = stand(run.teeth, run.support, Load("drive", torque))
    # The class's likeliest iron and that of the map differ by a part in a thousand of the movement.
    assert found["pinion_lift"] == pytest.approx(again.dials.pinion_lift, rel=5e-3)
    half = 0.5 * (drawn.torques[2] + drawn.torques[3])
    between = drawn.at("drive", half, "gray", "overhung", DEPTHS[2])
    ends = [drawn.at("drive", t, "gray", "overhung", DEPTHS[2]) for t in drawn.torques[2:4]]
    assert between["center"] == pytest.approx(np.mean([e["center"] for e in ends]))
    beyond = drawn.at("drive", 2 * drawn.torques[-1], "gray", "overhung", DEPTHS[2])
    last = drawn.at("drive", drawn.torques[-1], "gray", "overhung", DEPTHS[2])
    assert beyond == pytest.approx(last, nan_ok=True)


def test_points_lie_on_the_cutters_cone_and_normals_have_length_one(pair):
    flanks = flank_points(pair, (9, 5))
    assert {(f.gear, f.side) for f in flanks} == {
        (g, s) for g in ("ring", "pinion") for s in ("drive", "coast")
    }
    for flank in flanks:
        np.testing.assert_allclose(np.linalg.norm(flank.normals, axis=2), 1.0, atol=1e-6)
        if flank.gear == "ring":
            cone = pair.surfaces[flank.side].flank.cone
            at = np.moveaxis(np.array(flank.points), 2, 0) * 1e-3
            assert np.abs(cone.distance(at)).max() < 2e-8
            square = np.moveaxis(cone.normal(at), 0, 2)
            np.testing.assert_allclose(flank.normals, square, atol=1e-5)


def test_points_as_tables(pair):
    flanks = flank_points(pair, (9, 5))
    text = as_csv(flanks)
    lines = [line for line in io.StringIO(text) if not line.startswith("#")]
    rows = list(csv.DictReader(lines))
    assert len(rows) == 4 * 9 * 5
    assert float(rows[0]["x_mm"]) == flanks[0].points[0][0][0]
    assert "mm" in text.splitlines()[0]
    told = json.loads(as_json(flanks))
    assert told[0]["unit"] == "mm"
    assert told[0]["points"] == json.loads(json.dumps(flanks[0].points))


def test_the_study_leaves_compiler_and_sparse_solver_alone_until_they_are_needed():
    import subprocess

    code = (
        "import sys; import axlewright.studies.mesh, axlewright.workshop.meshes;"
        "assert not {'numba', 'scipy'} & set(sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
