"""Flanks under torque with other shims: placed by a map as balanced; reversal; the working."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.hypoid.setting import set_movement
from axlewright.quantities.working import steps
from axlewright.studies import mesh_map as maps
from axlewright.studies.mesh import mesh_study
from axlewright.studies.mesh_pictures import shimmed
from axlewright.studies.mesh_report import MeshReport
from axlewright.studies.mesh_runs import Run, nominal_run
from axlewright.studies.mesh_sentences import (
    mm,
    moved_cell,
    moved_words,
    reversal_words,
    set_words,
    thou,
    warm_words,
)
from axlewright.studies.mesh_under import Case, placed, worked_out
from axlewright.studies.mesh_working import findings_of, mesh_nodes

TEXT = (
    'format = 1\nname = "Gray Heron"\n[gearbox]\nkind = "manual"\n[axle]\nring_gear = "8.5"\n'
    'ratio = "41/11"\ncase_iron = "gray"\nsupport = "overhung"\n'
)
BUILD = resolve(read_build(TEXT, "heron.toml"))


@pytest.fixture(scope="module")
def run() -> Run:
    """The likeliest axle with the give of its teeth."""
    return nominal_run(BUILD)


@pytest.fixture(scope="module")
def drawn(run: Run) -> maps.MeshMap:
    """A map of few cases: this very case and support."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(maps, "DEPTHS", (-7.62e-5, 0.0, 7.62e-5))
        patch.setattr(maps, "TORQUES", 3)
        patch.setattr(maps, "IRONS", ("gray",))
        patch.setattr(maps, "SUPPORTS", ("overhung",))
        return maps.mesh_map(run)


@pytest.fixture(scope="module")
def quick() -> MeshReport:
    return mesh_study(BUILD, 1, 0, contact=False).report


@pytest.mark.parametrize(("shim", "more_lash"), [(0.0, 0.0), (7.62e-5, 0.0), (0.0, 1e-4)])
def test_a_map_places_the_gears_where_the_balance_does(
    run: Run, drawn: maps.MeshMap, shim: float, more_lash: float
) -> None:
    """At a case of the map to what its coarser contact differs; .004 in of lash hardly matters."""
    assert run.pair is not None and run.teeth.give is not None
    s = run.meshing.setting
    at = shimmed(run.pair, set_movement(s.shim_at, shim, 0.0, 0.0).P, s.backlash + more_lash)
    torque = drawn.torques[1]
    found = placed(run.pair, run.teeth.give, drawn, at, Case(torque, "gray", "overhung"))
    true = worked_out(run, at, torque)
    for side, flank in found.flanks.items():
        other = true.flanks[side]
        assert flank.loaded is not None and other.loaded is not None
        for what, moved in flank.moves.items():
            assert moved == pytest.approx(
                other.moves[what], abs=1e-6, rel=0.06 if more_lash else 0.0
            )
        assert flank.loaded.center == pytest.approx(other.loaded.center, abs=0.005)
        assert flank.loaded.peak == pytest.approx(other.loaded.peak, rel=0.03)
    assert found.ring_torque == torque and found.cautions


def test_beyond_the_map_is_said_and_no_torque_is_no_load(run: Run, drawn: maps.MeshMap) -> None:
    assert run.pair is not None and run.teeth.give is not None
    backlash = run.meshing.setting.backlash
    far = shimmed(run.pair, 1.5e-4, backlash)
    found = placed(run.pair, run.teeth.give, drawn, far, Case(500.0, "gray", "overhung"))
    assert any("farther from its place than the map" in c for c in found.cautions)
    still = placed(run.pair, run.teeth.give, drawn, far, Case(0.0, "gray", "overhung"))
    for flank in still.flanks.values():
        assert flank.loaded is None and flank.why == "no torque"
        assert all(abs(v) < 1e-9 for v in flank.moves.values())


def test_a_case_without_rest_says_so(run: Run, drawn: maps.MeshMap) -> None:
    assert run.pair is not None and run.teeth.give is not None
    at = shimmed(run.pair, 0.0, drawn.backlash)
    values = {name: np.full_like(v, np.nan) for name, v in drawn.values.items()}
    nowhere = dataclasses.replace(drawn, values=values)
    found = placed(run.pair, run.teeth.give, nowhere, at, Case(500.0, "gray", "overhung"))
    assert all("nothing comes to rest" in f.why for f in found.flanks.values())


def test_flanks_that_are_not_known_are_not_pressed(run: Run) -> None:
    even = dataclasses.replace(
        run, teeth=dataclasses.replace(run.teeth, pair=None), refused="face-hobbed"
    )
    assert run.pair is not None
    at = shimmed(run.pair, 0.0, run.meshing.setting.backlash)
    with pytest.raises(ValueError, match="face-hobbed"):
        worked_out(even, at, 500.0)


# Reversal ----------------------------------------------------------------------------------------


def test_the_jump_at_reversal_grows_as_preload_goes() -> None:
    """Bearings that are squeezed hardly let go; loose ones do (common practice)."""

    def jump(preload: str) -> float:
        text = f'{TEXT}[gears]\npinion_thrust = "{preload}"\n'
        report = mesh_study(resolve(read_build(text, "x.toml")), 1, 0, contact=False).report
        assert report.reversal is not None
        return abs(report.reversal.pinion)

    assert jump("0.2 kN") > 1.2 * jump("8 kN") > 0.0


# Working -----------------------------------------------------------------------------------------


def test_every_finding_has_a_working_with_its_very_value(quick: MeshReport) -> None:
    nodes, found = mesh_nodes(BUILD, quick), findings_of(quick)
    assert found.keys() <= nodes.keys()
    for key, finding in found.items():
        assert nodes[key].value == pytest.approx(finding.value, rel=1e-9, abs=1e-15), key
    formulas = {k for k, n in nodes.items() if n.kind != "simulation"}
    assert "gear_pair.drive.pinion_torque.rated" in formulas
    assert "gear_pair.lash_per_ring_move" in formulas


def test_a_movement_shows_what_it_was_balanced_with(quick: MeshReport) -> None:
    node = mesh_nodes(BUILD, quick)["gear_pair.drive.pinion_lift.rated"]
    told = steps(node, "shop")
    assert "in balance" in told[0].title
    said = " ".join(told[0].lines)
    for word in (
        "torque at the ring gear",
        "thrust on the pinion",
        "preload",
        "modulus of the case",
    ):
        assert word in said
    assert any("textbook form for spiral bevel gears" in s.source for s in told)


# Words -------------------------------------------------------------------------------------------


def test_lengths_as_the_trade_says_them() -> None:
    assert (thou(-5.08e-5), mm(-5.08e-5)) == ("−2", "−0.051")


def test_movement_in_a_table(quick: MeshReport) -> None:
    lift = next(x for x in quick.loads if x.name == "drive.rated").moves["pinion_lift"]
    assert moved_cell(lift)[2] == ""
    banded = dataclasses.replace(lift, low=1.5 * lift.value, high=0.5 * lift.value)
    assert " to " in moved_cell(banded)[2]
    assert moved_cell(dataclasses.replace(lift, value=1e-9, low=1e-9, high=1e-9))[0] == "0"


def test_sentences_of_heat_and_reversal(quick: MeshReport) -> None:
    assert "gray iron" in warm_words(quick)[0]
    assert warm_words(dataclasses.replace(quick, warm=None)) == ()
    assert quick.warm is not None
    loose = dataclasses.replace(quick.warm, loose=("head bearing",))
    assert "Loose when warm: head bearing." in warm_words(dataclasses.replace(quick, warm=loose))
    assert "jumps" in reversal_words(quick)
    assert reversal_words(dataclasses.replace(quick, reversal=None)) == ""


def test_patterns_go_the_ways_that_setters_read(run: Run) -> None:
    """Pinion deeper: both toward the root, drive to the toe, coast to the heel (setters' table)."""
    assert run.pair is not None
    lash = run.meshing.setting.backlash
    still = shimmed(run.pair, 0.0, lash).pictures
    deeper = shimmed(run.pair, -1.5e-4, lash).pictures
    drive, coast = moved_words(still, deeper).split(" Coast side: ")
    assert "toward the toe" in drive and "toward the root" in drive
    assert "toward the heel" in coast and "toward the root" in coast
    assert moved_words(still, still) == "Drive side: as it was. Coast side: as it was."
    gone = {side: dataclasses.replace(p, length=0.0) for side, p in still.items()}
    assert "Drive side: off the tooth." in moved_words(still, gone)


def test_sentences_of_the_shims(run: Run) -> None:
    assert run.pair is not None
    stated = run.meshing.setting.backlash
    as_it_is = shimmed(run.pair, 0.0, stated)
    assert "stays where it was" in set_words(0.0, as_it_is)
    loose = shimmed(run.pair, 0.0, stated + 1e-4)
    tight = shimmed(run.pair, 0.0, stated - 1e-4)
    assert "to behind the ring" not in set_words(0.0, loose)
    assert "to behind the ring" in set_words(0.0, tight)
    assert "thicker" in set_words(1e-4, as_it_is) and "thinner" in set_words(-1e-4, as_it_is)
