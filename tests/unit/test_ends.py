"""Ends, studs, register, speedometer gears and oil: sums, limits, words and spreads."""

import dataclasses
import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.fit import end_stack, register, speedometer, studs
from axlewright.fit.end_look import Access, Bearing, Disc, Drum, End, WheelSeat, look_at
from axlewright.fit.end_spread import end_chains, governs
from axlewright.fit.end_words import AIMS, RETENTION, Aim, chance_within, faults
from axlewright.fit.oil_level import (
    OilRoom,
    level_of,
    look_at_oil,
    oil_over_point,
    oil_volume,
    surface_lean,
)

BEARING = Bearing(pocket=0.0190, plate=0.0032, width=0.0221, to_flange=0.0604)
SEAT = WheelSeat(
    flange=0.150, hat_inside=0.156, hat=0.007, spacer=0.0, wheel_pad=0.012, stud_reach=0.045,
    stud_diameter=0.0127, nut_thread=0.020, register_diameter=0.0705, register_height=0.012,
    hat_bore=0.0706, wheel_bore=0.0707, closed_nut_depth=0.030,
)  # fmt: skip
DISC = Disc(offset=0.040, caliper_out=0.0235, slot=0.014, thickness=0.012)
END = End("left", BEARING, SEAT, DISC)
PLAY = Aim(0.0, 0.00025, "an invented manual that wants play")
CRUSH = Aim(-0.00015, -0.00005, "an invented manual that wants crush")


def test_a_good_end_has_no_faults():
    look = look_at(END)
    assert look.bearing_gap == pytest.approx(0.0001)
    assert look.brake_space == pytest.approx(0.0635)
    assert look.rotor_off == pytest.approx(0.0)
    assert look.rotor_room == pytest.approx(0.001)
    assert look.diameters == pytest.approx(0.020 / 0.0127)
    assert look.register_left == pytest.approx(0.005)
    assert faults(END, look, PLAY) == ()


def test_the_same_gap_is_right_in_one_family_and_wrong_in_the_other():
    look = look_at(END)
    (words,) = faults(END, look, CRUSH)
    assert words.startswith("left: the bearing has play of 0.10 mm")
    assert "wants -0.15 to -0.05 mm" in words
    assert "add it beside the bearing" in words


def test_without_an_aim_nothing_is_judged_and_it_is_said():
    (words,) = faults(END, look_at(END), None)
    assert "manual of this axle alone" in words


def test_where_only_the_kind_of_aim_is_known_only_the_sign_is_judged():
    look = look_at(END)
    assert faults(END, look, AIMS["play"]) == ()
    assert "wants crush (how much stands" in faults(END, look, AIMS["crush"])[0]
    assert "wants -0.03 to 0.03 mm" in faults(END, look, AIMS["flush"])[0]
    crushed = dataclasses.replace(END, bearing=dataclasses.replace(BEARING, lip=0.0002))
    look = look_at(crushed)
    assert faults(crushed, look, AIMS["crush"]) == ()
    words = faults(crushed, look, AIMS["play"])[0]
    assert "wants play" in words
    assert "add shim under the retainer" in words


def test_a_shim_does_opposite_things_in_its_two_places():
    under = dataclasses.replace(BEARING, gasket=0.0003)
    beside = dataclasses.replace(BEARING, shim=0.0003)
    gaps = [float(look_at(dataclasses.replace(END, bearing=b)).bearing_gap) for b in
            (under, BEARING, beside)]  # fmt: skip
    assert np.diff(gaps) == pytest.approx([-0.0003, -0.0003])


def test_brake_space_by_two_ways():
    both = dataclasses.replace(END, bearing=dataclasses.replace(BEARING, space=0.0653))
    look = look_at(both)
    assert look.brake_space == 0.0653
    assert look.space_disagrees == pytest.approx(0.0018)
    assert any("+1.80 mm off" in w for w in faults(both, look, PLAY))
    alone = dataclasses.replace(BEARING, to_flange=None, space=0.0635)
    assert look_at(dataclasses.replace(END, bearing=alone)).space_disagrees is None
    with pytest.raises(ValueError, match="measure the brake space"):
        Bearing(pocket=0.019, plate=0.003, width=0.022)


def test_a_nut_that_runs_out_of_thread():
    blank = dataclasses.replace(END, seat=dataclasses.replace(SEAT, root_blank=0.020))
    assert look_at(blank).thread_under_nut == pytest.approx(-0.001)
    assert any("runs out of thread" in w for w in faults(blank, look_at(blank), PLAY))


def test_bracket_in_place_of_a_plate_needs_its_spacer():
    thin = dataclasses.replace(END, bearing=dataclasses.replace(BEARING, plate=0.0020))
    (words,) = faults(thin, look_at(thin), PLAY)
    assert "crush of 1.10 mm" in words
    spacer = end_stack.spacer_for_bracket(0.0032, 0.0020)
    cured = dataclasses.replace(END, bearing=dataclasses.replace(BEARING, plate=0.0020 + spacer))
    assert look_at(cured).bearing_gap == pytest.approx(look_at(END).bearing_gap)


def test_spacer_eats_stud_and_register():
    spaced = dataclasses.replace(END, seat=dataclasses.replace(SEAT, spacer=0.015))
    words = " ".join(faults(spaced, look_at(spaced), PLAY))
    assert "0.87 stud diameters" in words
    assert "do not drive it" in words
    assert "step too short" in words


def test_closed_nut_flange_and_bore_faults():
    seat = dataclasses.replace(
        SEAT, closed_nut_depth=0.025, flange=0.158, hat_bore=0.0700, wheel_bore=0.0720
    )
    bad = dataclasses.replace(END, seat=seat)
    words = " ".join(faults(bad, look_at(bad), PLAY))
    for part in ("bottoms on its stud", "larger than the inside", "hat is not centered by the hub: "
                 "does not go on", "wheel is not centered by the hub: by the nuts"):  # fmt: skip
        assert part in words


def test_disc_off_center_and_drum_on_its_plate():
    off = dataclasses.replace(END, brake=dataclasses.replace(DISC, caliper_out=0.0215))
    words = faults(off, look_at(off), PLAY)
    assert words == ("left: the disc runs 2.00 mm outside the middle of its caliper",)
    drum = dataclasses.replace(END, brake=Drum(depth=0.060, plate_face=0.005))
    look = look_at(drum)
    assert look.drum_gap == pytest.approx(-0.0015)
    assert look.rotor_off is None
    assert faults(drum, look, PLAY) == ("left: the drum rubs on its plate",)


def test_socket_and_retainer_bolts():
    good = Access(0.032, 0.048, 0.019, 0.050, 0.050, 0.016, 0.010, 0.013)
    look = look_at(dataclasses.replace(END, access=good))
    assert look.access_room == pytest.approx(0.0045)
    assert look.bolt_spare == pytest.approx(0.050 - 0.016 - 0.0032 - 0.010 - 0.013)
    assert faults(END, look, PLAY) == ()
    bad = dataclasses.replace(good, socket=0.030, bolt_length=0.040)
    said = faults(END, look_at(dataclasses.replace(END, access=bad)), PLAY)
    assert len(said) == 2
    assert "does not pass the flange" in said[0]
    assert "too short for the stack" in said[1]


def test_caliper_in_its_wheel():
    wide = dataclasses.replace(DISC, outer_radius=0.178, outer_face=0.0915)
    wheel = dataclasses.replace(SEAT, rim_inside_radius=0.180, spoke_standoff=0.020)
    end = dataclasses.replace(END, brake=wide, seat=wheel)
    look = look_at(end)
    assert look.under_rim == pytest.approx(0.002)
    assert look.behind_spokes == pytest.approx(0.0635 + 0.007 + 0.020 - 0.0915)
    rim, spokes = faults(end, look, PLAY)
    assert "only 2.0 mm to the rim" in rim
    assert "1.0 mm too large for the spokes" in spokes
    drum = dataclasses.replace(end, brake=Drum(depth=0.055, plate_face=0.005))
    assert look_at(drum).under_rim is None


def test_chance_that_the_bearing_sits_as_it_should():
    pocket = np.linspace(0.0188, 0.0192, 401)  # gap from -0.1 to +0.3 mm, evenly
    end = dataclasses.replace(END, bearing=dataclasses.replace(BEARING, pocket=pocket))
    assert chance_within(PLAY, look_at(end)) == pytest.approx(0.25 / 0.4, abs=0.006)


def test_retention_says_whether_the_wheel_stays_on():
    assert "nothing holds the wheel" in RETENTION["clip inside"]
    assert "leaves the wheel on" in RETENTION["full float"]


def test_end_without_brake_or_register_leaves_them_out():
    bare = End("right", BEARING, dataclasses.replace(SEAT, register_diameter=None))
    names = set(look_at(bare).numbers)
    assert not names & {"rotor_off", "drum_gap", "hat_clearance", "register_left"}


def test_samples_run_through():
    wide = dataclasses.replace(
        END, bearing=dataclasses.replace(BEARING, pocket=np.array([0.0189, 0.0190, 0.0191]))
    )
    np.testing.assert_allclose(look_at(wide).bearing_gap, [0.0, 0.0001, 0.0002], atol=1e-12)


# ------------------------------------------------------------------------------------ spreads

LIMITS = {"bearing.pocket": 5e-5, "bearing.plate": 1e-4, "bearing.width": 1.2e-4,
          "bearing.to_flange": 2e-4, "brake.caliper_out": 3e-4, "seat.hat": 2e-4}  # fmt: skip


def corners():
    for signs in itertools.product((-1, 1), repeat=len(LIMITS)):
        end = END
        for (where, limit), sign in zip(LIMITS.items(), signs, strict=True):
            part, _, name = where.partition(".")
            old = getattr(end, part)
            moved = dataclasses.replace(old, **{name: getattr(old, name) + sign * limit})
            end = dataclasses.replace(end, **{part: moved})
        yield look_at(end).numbers


def test_worst_case_is_the_worst_corner():
    found = end_chains(END, LIMITS)
    every = list(corners())
    for name in ("bearing_gap", "brake_space", "rotor_off", "stud_left", "register_left"):
        reached = [float(e[name]) for e in every]
        assert found[name].low == pytest.approx(min(reached), abs=1e-12), name
        assert found[name].high == pytest.approx(max(reached), abs=1e-12), name
        assert found[name].value == pytest.approx(float(look_at(END).numbers[name])), name
    assert governs(found["bearing_gap"]) == "bearing.width"
    assert "wheel_clearance" not in found


def test_likely_spread_is_what_samples_scatter():
    rng = np.random.default_rng(5)
    drawn = {w: rng.triangular(-lim, 0.0, lim, 40_000) for w, lim in LIMITS.items()}
    bearing = dataclasses.replace(
        BEARING,
        **{w.split(".")[1]: getattr(BEARING, w.split(".")[1]) + d
           for w, d in drawn.items() if w.startswith("bearing")},
    )  # fmt: skip
    look = look_at(dataclasses.replace(END, bearing=bearing))
    found = end_chains(END, LIMITS)
    assert np.std(look.bearing_gap) == pytest.approx(found["bearing_gap"].deviation, rel=0.02)


# ------------------------------------------------------------------------------------ studs


@settings(max_examples=60, deadline=None)
@given(st.floats(0.003, 0.02), st.floats(0.0, 0.02), st.floats(0.008, 0.03), st.floats(0, 0.01))
def test_the_stud_that_is_asked_for_gives_one_diameter(hat, spacer, pad, sink):
    diameter, blank = 0.0127, 0.003
    reach = studs.stud_reach_for(diameter, hat, spacer, pad, sink, blank)
    left = studs.stud_left_for_nut(reach, hat, spacer, pad, sink)
    engaged = studs.nut_engagement(left, 0.05, blank)
    assert studs.engagement_in_diameters(engaged, diameter) == pytest.approx(1.0)


def test_no_thread_is_never_less_than_none():
    assert studs.nut_engagement(-0.01, 0.02, 0.0) == 0.0


def test_centering_by_clearance_and_step():
    assert register.centering(-1e-6, 0.01) == "does not go on"
    assert register.centering(0.1e-3, 0.01) == "by the hub"
    assert register.centering(0.1e-3, 0.001) == "step too short"
    assert register.centering(1e-3, 0.01) == "by the nuts"


def test_a_socket_beside_its_hole_has_no_room():
    assert end_stack.access_room(0.03, 0.05, 0.02, 0.05) == pytest.approx(0.005)
    assert end_stack.access_room(0.03, 0.05, 0.02, 0.056) < 0.0


# ------------------------------------------------------------------------------------ instruments


def test_nearest_gear_comes_first_and_reads_what_it_says():
    mile = 1609.344
    exact = speedometer.exact_driven_teeth(7.0, 3.55, 780.0 / mile, 1000.0 / mile)
    sixty = 60.0 * mile / 3600.0
    gears = speedometer.driven_gears(exact, range(17, 23), sixty)
    assert exact == pytest.approx(19.383)
    assert [g.teeth for g in gears][:2] == [19, 20]
    assert gears[0].shows == pytest.approx(sixty * 19.383 / 19)
    assert gears[0].error == pytest.approx(0.383 / 19)
    assert not gears[0].shows_low
    assert gears[1].shows_low
    assert any("less than the true speed" in c for c in speedometer.gear_cautions(gears[1]))
    assert any("4 % off" in c for c in speedometer.gear_cautions(gears[-1]))


def test_of_two_as_near_the_one_that_does_not_show_too_little():
    # 1/19.5: 19 shows 2.6 % too much, 20 shows 2.5 % too little; equal errors: 18 and 22.5.
    gears = speedometer.driven_gears(19.8, (18, 22), 27.0)
    assert [g.teeth for g in gears] == [18, 22]
    assert gears[0].error == pytest.approx(-gears[1].error)


def test_pairs_of_gears_find_what_one_gear_cannot():
    mile = 1609.344
    car = (3.55, 780.0 / mile, 1000.0 / mile, 60.0 * mile / 3600.0)
    pairs = speedometer.gear_pairs((6, 7, 8), range(17, 23), *car)
    assert len(pairs) == 18
    errors = [abs(p.driven.error) for p in pairs]
    np.testing.assert_allclose(errors, sorted(errors), atol=1e-9)
    # by hand: 8 x 3.55 x 0.780 = 22.152 on 22 teeth is 0.7 % off; 7 on 19 is 2 %
    assert (pairs[0].drive_teeth, pairs[0].driven.teeth) == (8, 22)
    assert pairs[0].driven.error == pytest.approx(22.152 / 22 - 1)
    far = speedometer.driven_gears(30.0, (19,), 27.0)[0]
    assert any("R39 allows" in c for c in speedometer.gear_cautions(far))


def test_change_of_ratio_alone_and_of_tire_alone():
    assert speedometer.reading_after_change(60, 3.55, 3.55, 0.5, 0.5) == pytest.approx(60)
    assert speedometer.reading_after_change(60, 4.1, 3.08, 0.5, 0.5) > 60
    assert speedometer.reading_after_change(60, 3.55, 3.55, 0.47, 0.5) < 60


def test_pulses_and_gears_say_the_same():
    pulses = [speedometer.pulses_per_distance(8.0, ratio, 0.5) for ratio in (3.0, 3.6)]
    by_pulses = speedometer.reading_with_pulses(60.0, pulses[1], pulses[0])
    assert by_pulses == pytest.approx(speedometer.reading_after_change(60, 3.6, 3.0, 0.5, 0.5))


def test_correcting_gearbox_makes_it_true():
    exact, fitted = 19.4, 18.0
    slowed = exact * speedometer.correction_ratio(exact, fitted)
    assert speedometer.reading_with_gear(60.0, slowed, fitted) == pytest.approx(60.0)


def test_rings_of_one_count_on_unlike_tires():
    assert speedometer.ring_mismatch(48, 0.32, 48, 0.32) == pytest.approx(0.0)
    assert speedometer.ring_mismatch(48, 0.36, 48, 0.32) == pytest.approx(0.32 / 0.36 - 1)


# ------------------------------------------------------------------------------------ oil

ROOM = OilRoom(0.12, 0.15, 0.035, 0.8, -0.03, 0.10, 0.25, 0.055, 0.040)
HOLE, RACE = (-0.12, -0.01), (0.22, -0.06)


@settings(max_examples=40, deadline=None)
@given(st.floats(-0.08, 0.05), st.floats(-0.25, 0.25))
def test_level_and_volume_undo_each_other(level, nose):
    volume = float(oil_volume(ROOM, level, nose))
    assert float(oil_volume(ROOM, level_of(ROOM, volume, nose), nose)) == pytest.approx(volume)


def test_volume_grows_with_level_and_arrays_are_scalars():
    levels = np.linspace(-0.11, 0.11, 41)
    volumes = oil_volume(ROOM, levels, 0.05)
    assert np.all(np.diff(volumes) > 0.0)
    assert volumes[7] == pytest.approx(float(oil_volume(ROOM, levels[7], 0.05)))


def test_more_oil_than_it_holds_is_refused():
    with pytest.raises(ValueError, match="does not hold so much"):
        level_of(ROOM, 1.0, 0.0)


def test_nose_up_starves_the_front_bearing():
    look = look_at_oil(ROOM, HOLE, RACE, made_nose_up=0.0, nose_up=np.radians(6.0))
    assert look.over_bearing_before == pytest.approx(0.05)
    assert look.over_bearing_to_hole < look.over_bearing_before
    assert look.volume_to_hole < look.volume_before  # the hole behind the axle went down
    assert look.over_bearing_same_oil > look.over_bearing_to_hole
    same = look_at_oil(ROOM, HOLE, RACE, 0.05, 0.05)
    assert same.over_bearing_same_oil == pytest.approx(same.over_bearing_before, abs=1e-9)
    assert same.cautions == ()
    high = look_at_oil(ROOM, HOLE, RACE, 0.0, np.radians(12.0))
    assert any("stands dry" in c for c in high.cautions)
    down = look_at_oil(ROOM, HOLE, RACE, 0.0, np.radians(-8.0))
    assert any("more oil than as made" in c for c in down.cautions)


def test_a_launch_leans_the_oil_as_a_raised_nose_does():
    lean = float(surface_lean(0.5 * 9.80665))
    assert lean == pytest.approx(np.arctan(0.5))
    assert oil_over_point(*HOLE, *RACE, lean) < oil_over_point(*HOLE, *RACE, 0.0)
