"""Properties of wheels, widths, room and shaft lengths: closures, inverses, steps."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from axlewright.fit import room, shaft_length, tire_section, wheel, width
from axlewright.fit.axle_cut import SideParts, cut_axle
from axlewright.fit.least_clearance import least_clearance
from axlewright.fit.mounted import TireFacts, mount
from axlewright.fit.shaft_seat import SideGear, seat_shaft
from axlewright.fit.side_plan import RoomThere, plan_both, plan_side, plan_wheel
from axlewright.fit.tolerance import Part, close_chain
from axlewright.fit.trade_off import Setup, changes
from axlewright.quantities.working import Node, Traced, tracing

INCH = 0.0254
rim = st.floats(0.1, 0.4)
lip = st.floats(0.005, 0.02)
small = st.floats(-0.1, 0.1)
gap = st.floats(0.0, 0.03)
half = st.floats(0.6, 0.9)


@given(small, rim, lip)
def test_offset_and_backspace_are_inverse(offset, rim_width, rim_lip):
    back = wheel.backspace_from_offset(offset, rim_width, rim_lip)
    assert wheel.offset_from_backspace(back, rim_width, rim_lip) == pytest.approx(offset, abs=1e-15)


@given(small, rim, lip)
def test_back_and_front_space_make_up_the_rim(offset, rim_width, rim_lip):
    back = wheel.backspace_from_offset(offset, rim_width, rim_lip)
    front = wheel.front_space(back, rim_width, rim_lip)
    over = wheel.rim_over_lips(rim_width, rim_lip)
    assert back + front == pytest.approx(over, abs=1e-15)
    # Without a tire the rim itself is what stands out.
    assert wheel.inboard_reach(0.0, over, offset) == pytest.approx(back, abs=1e-15)
    assert wheel.outboard_reach(0.0, over, offset) == pytest.approx(front, abs=1e-15)


@given(small, rim, lip, gap)
def test_spacer_adds_to_front_what_it_takes_from_the_back(offset, rim_width, rim_lip, spacer):
    moved = wheel.offset_with_spacer(offset, spacer)
    back = [wheel.backspace_from_offset(o, rim_width, rim_lip) for o in (offset, moved)]
    assert back[0] - back[1] == pytest.approx(spacer, abs=1e-15)


@given(st.floats(0.08, 0.2), st.floats(0.02, 0.2), st.floats(0.02, 0.2))
def test_loaded_sidewall_keeps_its_length(height, bulge_share, squash_share):
    # Closed form: arc of a circle, length 2·r·asin(chord/2r), solved by SciPy.
    def arc(chord, sagitta):
        radius = (chord * chord / 4 + sagitta * sagitta) / (2 * sagitta)
        return 2 * radius * np.arctan2(chord / 2, radius - sagitta)

    bulge, squash = bulge_share * height, squash_share * height
    length = arc(height, bulge)
    want = brentq(lambda b: arc(height - squash, b) - length, 1e-6, height, xtol=1e-14)
    got = tire_section.loaded_bulge(height, bulge, squash)
    assert got == pytest.approx(want, rel=4e-3)
    assert got >= bulge * (1 - 1e-3) if squash_share < 0.02 else got > bulge


def test_unloaded_sidewall_bulges_as_it_did():
    assert tire_section.loaded_bulge(0.1, 0.012, 0.0) == pytest.approx(0.012, rel=1e-4)


@given(half, half, gap, gap, gap, gap, small, small)
def test_cut_axle_closes(left, right, left_gap, right_gap, left_hat, right_hat, diff, pinion):
    cut = cut_axle(
        SideParts(left, left_hat, 0.0635, left_gap),
        SideParts(right, right_hat, 0.06, right_gap),
        differential_left=diff,
        pinion_left=pinion,
    )
    assert cut.shafts_close == pytest.approx(cut.order_width, abs=1e-14)
    assert cut.fit_width == pytest.approx(left + right, abs=1e-14)
    assert cut.housing_width == pytest.approx(cut.order_width - 0.1235, abs=1e-14)
    assert cut.left.housing_half + cut.right.housing_half == pytest.approx(
        cut.housing_width, abs=1e-14
    )
    assert cut.right.bare_half - cut.left.bare_half == pytest.approx(
        2 * cut.differential_offset, abs=1e-14
    )
    assert cut.right.pinion_half - cut.left.pinion_half == pytest.approx(
        2 * cut.pinion_offset, abs=1e-14
    )


def test_like_sides_and_a_pinion_two_to_the_left_differ_by_four():
    side = SideParts(30.0 * INCH, 0.0, 2.5 * INCH, 0.5 * INCH)
    cut = cut_axle(side, side, differential_left=0.0, pinion_left=2 * INCH)
    assert cut.left.pinion_half / INCH == pytest.approx(28.0)
    assert cut.right.pinion_half / INCH == pytest.approx(32.0)
    assert cut.left.shaft == cut.right.shaft  # the differential is in the middle, so shafts are


@given(st.floats(30, 70), st.floats(-3, 3))
def test_halves_and_offset_are_inverse(whole, offset):
    left, right = width.left_half(whole, offset), width.right_half(whole, offset)
    assert width.whole_width(left, right) == pytest.approx(whole)
    assert width.center_offset(left, right) == pytest.approx(offset, abs=1e-13)


@given(half, gap, gap)
def test_housing_and_fit_halves_are_inverse(fit, hat, space):
    housing = width.housing_half(width.bare_half(fit, hat), space)
    assert width.fit_half_of_housing(housing, space, hat) == pytest.approx(fit, abs=1e-15)


@given(st.floats(0.85, 1.0), st.floats(0.4, 0.6), gap, gap, st.floats(0.2, 0.35), small)
def test_planned_half_shares_the_surplus(lip_at, inner, outer, inside, section, offset):
    there = RoomThere(lip_at, inner, outer, inside)
    plan = plan_side(there, section, 0.0, offset)
    out = wheel.outboard_reach(section, 0.0, offset)
    inward = wheel.inboard_reach(section, 0.0, offset)
    assert room.outer_clearance(lip_at, plan.half, out) - outer == pytest.approx(plan.surplus)
    assert room.inner_clearance(plan.half, inward, inner) - inside == pytest.approx(plan.surplus)
    # The surplus is half of what the widest tire would have over this one.
    widest = room.widest_tire(lip_at, inner, outer, inside)
    assert 2 * plan.surplus == pytest.approx(widest - section, abs=1e-14)
    # The other way round: for that axle, this is the offset.
    assert room.even_offset(plan.half, lip_at, inner, outer, inside) == pytest.approx(
        offset, abs=1e-14
    )
    least = room.least_offset(plan.half, lip_at, outer, section)
    most = room.most_offset(plan.half, inner, inside, section)
    assert most - least == pytest.approx(2 * plan.surplus, abs=1e-14)


def test_one_half_for_both_sides_is_no_better_than_either():
    left = plan_side(RoomThere(0.92, 0.55, 0.019, 0.019), 0.27, 0.25, 0.0)
    right = plan_side(RoomThere(0.90, 0.56, 0.019, 0.019), 0.27, 0.25, 0.0)
    both = plan_both(left, right)
    assert both.surplus <= min(left.surplus, right.surplus)
    assert both.widest == right.widest
    assert both.narrowest == right.narrowest
    # No other half leaves more on the tightest face.
    for other in np.linspace(0.7, 0.8, 41):
        spare = min(both.widest - other, other - both.narrowest)
        assert spare <= both.surplus + 1e-12


def test_arrays_of_samples_pass_through_the_plan():
    lips = np.array([0.90, 0.92])
    plan = plan_side(RoomThere(lips, 0.55, 0.019, 0.019), 0.27, 0.25, 0.0)
    assert np.shape(plan.half) == (2,)
    assert plan.half[1] - plan.half[0] == pytest.approx(0.01)


def test_quarter_inch_table():
    quarter = 0.25
    setup = Setup(
        fit_half=31.0, backspace=5.5, rim_width=9.0, rim_lip=0.5, measured_section=10.5,
        measuring_rim=8.5, lip_position=37.0, inner_position=24.0,
    )  # fmt: skip
    table = {c.what: (c.outer, c.inner) for c in changes(setup, quarter)}
    # By hand: on a rim wider by a quarter the tire is a tenth wider, its middle an eighth further
    # out at the same backspace.
    assert table["this side of the axle longer"] == pytest.approx((-0.25, 0.25))
    assert table["more backspace"] == pytest.approx((0.25, -0.25))
    assert table["rim wider at the same backspace"] == pytest.approx((-0.175, 0.075))
    assert table["rim wider at the same offset"] == pytest.approx((-0.05, -0.05))
    assert table["tire wider"] == pytest.approx((-0.125, -0.125))
    assert table["spacer of that thickness"] == pytest.approx((-0.25, 0.25))


@given(half, st.floats(0.0, 0.03), st.floats(0.02, 0.06), st.floats(-0.002, 0.002))
def test_spline_engaged_is_never_more_than_either_spline(bare, end, spline, out):
    shaft = shaft_length.shaft_length(bare, end)
    assert shaft_length.end_gap(bare, shaft) == pytest.approx(end, abs=1e-15)
    got = shaft_length.engaged_length(end, spline, 0.018, 0.048, out)
    assert 0.0 <= got <= min(spline, 0.03) + 1e-15
    # Brute force: points of the shaft's spline that lie in the gear.
    at = np.linspace(end + out, end + out + spline, 20_001)
    share = np.mean((at >= 0.018) & (at <= 0.048))
    assert got == pytest.approx(share * spline, abs=2e-5)


def test_growth_follows_the_square_of_speed():
    grown = tire_section.grown_radius(0.35, 0.04, np.array([0.0, 30.0, 60.0]), 60.0)
    assert grown == pytest.approx([0.35, 0.3535, 0.364])


def test_parts_of_a_chain_are_checked():
    with pytest.raises(ValueError, match="hat: its value"):
        Part("hat", 0.01, 0.011, 0.012)
    with pytest.raises(ValueError, match="name of its own"):
        close_chain([Part("hat", 0.01, 0.009, 0.011), Part("hat", 0.01, 0.009, 0.011)])


def test_lopsided_limits_move_the_mean():
    part = Part("drum", 0.010, 0.010, 0.013)
    assert part.mean == pytest.approx(0.011)
    assert close_chain([part]).middle == pytest.approx(0.0115)


def test_one_offset_for_both_sides_of_an_axle_that_is_there():
    left = RoomThere(0.92, 0.55, 0.019, 0.019)
    right = RoomThere(0.90, 0.545, 0.019, 0.025)
    plan = plan_wheel(left, right, 0.74, 0.735, 0.27)

    def tightest(offset):
        spare = []
        for there, at in ((left, 0.74), (right, 0.735)):
            out = wheel.outboard_reach(0.27, 0.0, offset)
            inward = wheel.inboard_reach(0.27, 0.0, offset)
            spare.append(room.outer_clearance(there.lip, at, out) - there.outer_wanted)
            spare.append(room.inner_clearance(at, inward, there.inner) - there.inner_wanted)
        return min(spare)

    assert tightest(plan.even) == pytest.approx(plan.surplus)
    assert tightest(plan.least) == pytest.approx(0.0, abs=1e-12)
    assert tightest(plan.most) == pytest.approx(0.0, abs=1e-12)
    around = [tightest(plan.even + d) for d in np.linspace(-0.02, 0.02, 41)]
    assert max(around) == pytest.approx(plan.surplus)


def test_mounted_tire_is_wider_on_its_foot_and_taller_at_speed():
    facts = TireFacts(
        0.275, 8 * INCH, 0.335, 0.318, 0.235, 0.21, 0.0, growth_share=0.03, growth_speed=60.0,
        top_speed=60.0,
    )  # fmt: skip
    on = mount(facts, 9 * INCH, 0.5 * INCH, 5.5 * INCH)
    assert on.section == pytest.approx(0.275 + 0.4 * INCH)
    assert on.offset == pytest.approx(0.5 * INCH)
    assert on.running.radius == pytest.approx(0.335 * 1.03)
    assert on.standing.radius == 0.335
    assert on.standing.section > on.running.section == on.section
    # A deflection of 17 mm cannot push a sidewall out by more than that much again.
    assert on.standing.section - on.section < 2 * 0.017


def test_seat_of_a_shaft():
    gear = SideGear(0.7 * INCH, 1.9 * INCH, 0.375 * INCH)
    seat = seat_shaft(30 * INCH, 29.5 * INCH, 2 * INCH, 1.333 * INCH, gear, 0.03 * INCH, 1.0)
    # By hand: the gear's whole spline; half an inch less pin and float.
    assert seat.engaged / INCH == pytest.approx(1.2)
    assert seat.wanted / INCH == pytest.approx(1.333)
    assert seat.pin_clearance / INCH == pytest.approx(0.095)


def traced(value, name="input"):
    return Traced(Node("input", name, "x", "length", value))


def test_every_number_of_a_plan_can_be_opened():
    with tracing() as seen:
        there = RoomThere(*(traced(v) for v in (0.92, 0.55, 0.019, 0.019)))
        on = mount(
            TireFacts(
                *(traced(v) for v in (0.275, 0.2, 0.335, 0.318, 0.235, 0.21, 0.0, 0.0, 60.0, 50.0))
            ),
            traced(0.22), traced(0.0127), traced(0.14),
        )  # fmt: skip
        plan = plan_side(there, on.running.section, on.running.over_lips, on.offset)
        both = plan_both(plan, plan_side(there, on.section, on.running.over_lips, on.offset))
        parts = SideParts(both.half, traced(0.007), traced(0.0635), traced(0.012))
        cut = cut_axle(parts, parts, traced(0.01), traced(0.02))
        least = least_clearance(
            both.half, on.section, on.running.over_lips, on.offset, on.running.radius,
            *(traced(v) for v in (0.235, 0.21, 0.92, 0.6, 0.0, 0.25, 0.08, 0.09, 0.01, 0.33, 1.5)),
        )  # fmt: skip
    assert seen.untracked == []
    assert cut.left.shaft.node.name == "fit.shaft_length.shaft_length"
    assert both.surplus.node.name == "fit.room.even_surplus"
    assert least.node.kind == "solve"
