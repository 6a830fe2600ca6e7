"""The data files: every row loads, names resolve, and values stand in a sane order."""

import tomllib
from importlib.resources import files
from itertools import pairwise

import numpy as np
import pytest

from axlewright.catalogue import rows
from axlewright.catalogue.load import TABLES, rows_of, table
from axlewright.hypoid.geometry import pitch_cones
from axlewright.mechanics import splines
from axlewright.quantities.units import Reading, read

LINKS = {
    "clutch", "gearbox", "slip_spline", "driveshaft_tube", "universal_joint", "pinion_stem",
    "gear_set", "ring_bolts", "differential", "axle_shaft", "wheel_end", "studs", "case", "caps",
    "tube_joint", "tube", "brackets",
}  # fmt: skip
ROWS = [(name, key) for name in TABLES for key in table(name)]
IRONS = rows_of(rows.Iron)
STEELS = rows_of(rows.Steel)
SPLINES = rows_of(rows.Spline)
SHAFTS = rows_of(rows.AxleShaft)
RINGS = rows_of(rows.RingGear)
JOINTS = rows_of(rows.UniversalJoint)
TUBES = rows_of(rows.Tube)
BEARINGS = rows_of(rows.Bearing)
GRADES = rows_of(rows.BoltGrade)
SIZES = rows_of(rows.BoltSize)
TIRES = rows_of(rows.Tire)
DIFFERENTIALS = rows_of(rows.Differential)
FINDINGS = rows_of(rows.Finding)

# SAE J413 as reproduced by Fett, Heat Treating Progress, October 2009: HRC, tensile strength, MPa
J413_HRC = [10, 20, 30, 40, 50, 52]
J413_MPA = [655, 759, 966, 1276, 1690, 1793]


def inch(length: Reading) -> float:
    return length.value / 0.0254


def readings(row: rows.Row) -> dict[str, Reading]:
    return {k: v for k, v in vars(row).items() if isinstance(v, Reading)}


@pytest.mark.parametrize("name", TABLES)
def test_table_loads_and_holds_rows(name):
    assert len(table(name)) >= 5


def test_every_data_file_belongs_to_a_table():
    found = {p.name for p in files("axlewright.catalogue").joinpath("data").iterdir()}
    assert found == {f"{name}.toml" for name in TABLES}


@pytest.mark.parametrize(("name", "key"), ROWS)
def test_row_says_what_it_is_and_where_from(name, key):
    row = table(name)[key]
    assert len(row.means) > 10
    assert row.means[0].isupper() or row.means[0].isdigit()
    assert row.means.endswith((".", ")"))
    assert len(row.source) > 5


@pytest.mark.parametrize(("name", "key"), ROWS)
def test_required_keys_are_there_and_quantities_positive(name, key):
    row = table(name)[key]
    for field, info in type(row).model_fields.items():
        assert not info.is_required() or getattr(row, field) is not None, field
    for field, reading in readings(row).items():
        assert reading.low <= reading.value <= reading.high, field
        if field != "fatigue_exponent":
            assert reading.low >= 0.0, field


@pytest.mark.parametrize("name", TABLES)
def test_quantities_with_a_unit_are_written_as_text(name):
    raw = tomllib.loads(
        files("axlewright.catalogue").joinpath("data", f"{name}.toml").read_text("utf-8")
    )
    for key, row in raw.items():
        numbers = {k for k, v in row.items() if type(v) in {int, float}}
        assert numbers <= {"teeth", "needles", "ring_bolts"}, key


# irons


@pytest.mark.parametrize("key", IRONS)
def test_gray_is_brittle_and_everything_else_yields(key):
    iron = IRONS[key]
    gray = key == "gray" or key.startswith("A48")
    assert iron.brittle is gray
    assert (iron.yield_strength is None) is gray
    assert (iron.compressive_strength is not None) is gray
    if not gray:
        assert iron.yield_strength.high < iron.tensile_strength.low * 1.001
        assert iron.elongation.low >= 0.02
    else:
        assert iron.elongation.high <= 0.01
        assert iron.compressive_strength.value > 2.5 * iron.tensile_strength.value
    assert iron.endurance_limit.value < 0.6 * iron.tensile_strength.value


@pytest.mark.published
@pytest.mark.parametrize(
    ("grade", "tensile", "compressive", "endurance"),
    [
        (20, 22, 83, 10), (25, 26, 97, 11.5), (30, 31, 109, 14), (35, 36.5, 124, 16),
        (40, 42.5, 140, 18.5),
    ],
)  # fmt: skip
def test_gray_classes_as_tabulated(grade, tensile, compressive, endurance):
    # Shigley's Mechanical Engineering Design, Table A-24(a), kpsi
    iron = IRONS[f"A48 class {grade}"]
    assert iron.tensile_strength.value == pytest.approx(read(f"{tensile} ksi", "stress").value)
    assert iron.compressive_strength.value == pytest.approx(
        read(f"{compressive} ksi", "stress").value
    )
    assert iron.endurance_limit.value == pytest.approx(read(f"{endurance} ksi", "stress").value)


@pytest.mark.published
@pytest.mark.parametrize("key", [k for k in IRONS if k.startswith("A536")])
def test_nodular_grades_start_at_the_minima_in_their_name(key):
    # ASTM A536: the name is tensile ksi - yield ksi - elongation %
    tensile, strength, elongation = (int(n) for n in key.split()[1].split("-"))
    iron = IRONS[key]
    assert iron.tensile_strength.low == pytest.approx(read(f"{tensile} ksi", "stress").value)
    assert iron.yield_strength.low == pytest.approx(read(f"{strength} ksi", "stress").value)
    assert iron.elongation.low == pytest.approx(elongation / 100)


@pytest.mark.published
@pytest.mark.parametrize(
    ("key", "strength"),
    [("400-18", 250), ("450-10", 310), ("500-7", 320), ("600-3", 370), ("700-2", 420)],
)
def test_metric_nodular_grades_start_at_the_minima(key, strength):
    # ISO 1083:2004: the name is tensile MPa - elongation %
    tensile, elongation = (int(n) for n in key.split("-"))
    iron = IRONS[f"ISO 1083 {key}"]
    assert iron.tensile_strength.low == pytest.approx(tensile * 1e6)
    assert iron.yield_strength.low == pytest.approx(strength * 1e6)
    assert iron.elongation.low == pytest.approx(elongation / 100)


def test_unknown_irons_cover_their_grades():
    for short, grades in (
        ("gray", ["A48 class 30", "A48 class 35"]),
        ("nodular", ["A536 65-45-12", "A536 80-55-06"]),
    ):
        wide = IRONS[short].tensile_strength
        for grade in grades:
            one = IRONS[grade].tensile_strength
            assert wide.low <= one.low
            assert one.high <= wide.high
    assert IRONS["gray"].tensile_strength.high < IRONS["nodular"].tensile_strength.low


# steels


@pytest.mark.parametrize("key", STEELS)
def test_steel_is_consistent(key):
    steel = STEELS[key]
    assert steel.yield_strength.value < steel.tensile_strength.value
    if steel.treatment == "none":
        assert steel.surface_hardness is None
        return
    assert steel.surface_hardness.low >= steel.core_hardness.low
    if steel.treatment == "through":
        assert steel.surface_hardness.value == steel.core_hardness.value
        assert steel.case_depth_share is None
    else:
        assert steel.surface_hardness.low > steel.core_hardness.high
    if steel.treatment == "induction":
        assert 0.0 < steel.case_depth_share.high <= 0.5
    if steel.fatigue_coefficient is not None:
        assert steel.fatigue_coefficient.low > steel.tensile_strength.low
        assert -0.2 < steel.fatigue_exponent.low <= steel.fatigue_exponent.high < -0.05


@pytest.mark.published
@pytest.mark.parametrize(
    "key", [k for k, s in STEELS.items() if s.core_hardness and s.core_hardness.high <= 52]
)
def test_core_strength_follows_hardness(key):
    steel = STEELS[key]
    expected = np.interp(steel.core_hardness.value, J413_HRC, J413_MPA)
    assert steel.tensile_strength.value / 1e6 == pytest.approx(expected, rel=0.05)


def test_every_shaft_steel_has_a_fatigue_line():
    for shaft in SHAFTS.values():
        assert STEELS[shaft.steel].fatigue_coefficient is not None
        assert STEELS[shaft.steel].fatigue_exponent is not None


# splines and shafts


@pytest.mark.parametrize("key", SPLINES)
def test_spline_name_and_size_agree(key):
    spline = SPLINES[key]
    teeth, pitch = key.split()[0].split("x")
    assert spline.teeth.value == int(teeth)
    assert spline.pitch.value * 0.0254 == pytest.approx(int(pitch))
    assert ("fillet" in key) == (spline.root == "fillet")


@pytest.mark.published
@pytest.mark.parametrize(
    ("teeth", "major", "root"),
    [
        (26, 1.1250, 1.0271), (28, 1.2083, 1.1104), (30, 1.2917, 1.1937), (31, 1.3333, 1.2354),
        (33, 1.4167, 1.3187), (35, 1.5000, 1.4021), (40, 1.7083, 1.6104),
    ],
)  # fmt: skip
def test_spline_rows_give_the_standard_diameters(teeth, major, root):
    # ANSI B92.1, 30 deg, 24/48, flat root, worked by hand from its formulas, in
    spline = SPLINES[f"{teeth}x24"]
    size = (spline.teeth.value, spline.pitch.value)
    assert splines.external_major_diameter(*size) / 0.0254 == pytest.approx(major, abs=6e-5)
    assert splines.external_root_diameter_flat(*size) / 0.0254 == pytest.approx(root, abs=6e-5)


@pytest.mark.parametrize("key", SHAFTS)
def test_shaft_names_resolve_and_body_is_near_the_spline_root(key):
    shaft = SHAFTS[key]
    spline = SPLINES[shaft.spline]
    assert shaft.steel in STEELS
    assert key.split("-")[0] == shaft.spline.split("x")[0]
    major = (spline.teeth.value + 1) / spline.pitch.value
    root = (spline.teeth.value - 1.35) / spline.pitch.value
    assert 0.97 * root < shaft.body_diameter.value < major
    assert shaft.seat_diameter.low > 0.98 * major
    assert 0.8 * major < shaft.engagement.low < shaft.engagement.high < 1.5 * major


def test_more_teeth_make_a_thicker_shaft():
    order = sorted(SHAFTS.values(), key=lambda s: SPLINES[s.spline].teeth.value)
    for a, b in pairwise(order):
        if a.spline != b.spline:
            assert a.body_diameter.value < b.body_diameter.value


# ring gears


@pytest.mark.parametrize("key", RINGS)
def test_ring_gear_names_resolve(key):
    ring = RINGS[key]
    assert ring.stem_spline in SPLINES
    assert ring.shaft in SHAFTS
    assert ring.ring_bolt in SIZES
    assert ring.cap_bolt in SIZES
    assert set(ring.irons) <= set(IRONS)
    assert sum(ring.irons.values()) == pytest.approx(1.0)
    assert all(weight > 0 for weight in ring.irons.values())


@pytest.mark.parametrize("key", RINGS)
def test_ring_gear_parts_fit_each_other(key):
    ring = RINGS[key]
    diameter = inch(ring.ring_diameter)
    assert diameter == pytest.approx(float(key.split()[0]))
    spline = SPLINES[ring.stem_spline]
    major = (spline.teeth.value + 1) / spline.pitch.value
    assert major <= ring.stem_diameter.value, "the yoke passes over the stem's bearing seat"
    assert inch(ring.stem_diameter) < 0.2 * diameter
    # common proportions of hypoid pairs: face at most .155 D; offset at most .2 D but for the deep
    assert ring.face_width.value / ring.ring_diameter.value <= 0.155
    assert 0.36 < ring.cutter_radius.value / ring.ring_diameter.value < 0.46
    deep = ring.carrier == "removable" and ring.support == "straddle"
    assert (ring.offset.value / ring.ring_diameter.value > 0.2) == deep
    bolt = SIZES[ring.ring_bolt].diameter.value
    toe = ring.ring_diameter.value - 2 * ring.face_width.value
    assert ring.ring_bolt_circle.value + bolt < toe, "bolts sit inside the teeth"
    pitch = np.pi * ring.ring_bolt_circle.value / ring.ring_bolts.value
    assert pitch > 2.0 * bolt, "room for a head between neighbors"
    assert ring.cap_thickness.value < ring.cap_width.value < ring.cap_bolt_spacing.value
    assert ring.carrier_bearing_span.value < ring.ring_diameter.value
    assert ring.pinion_overhang.value < ring.pinion_bearing_span.value
    assert 2.0 * ring.tube_wall.high < ring.tube_diameter.low
    assert 0.2 < ring.ring_side_share.low < ring.ring_side_share.high < 0.5


def test_bigger_rings_have_wider_faces_and_no_smaller_parts():
    order = sorted(RINGS.values(), key=lambda r: r.ring_diameter.value)
    for a, b in pairwise(order):
        assert a.face_width.value <= b.face_width.value
        assert a.cutter_radius.value <= b.cutter_radius.value
        assert a.ring_bolt_circle.value <= b.ring_bolt_circle.value
        assert a.cap_bolt_spacing.value <= b.cap_bolt_spacing.value


@pytest.mark.parametrize("teeth", [(13, 40), (11, 39), (9, 41)])
@pytest.mark.parametrize("key", RINGS)
def test_pitch_cones_exist_over_the_whole_spread(key, teeth):
    ring = RINGS[key]
    rng = np.random.default_rng(7)
    corner = rng.integers(0, 2, (5, 200))

    def draw(reading: Reading, row: int) -> np.ndarray:
        return np.where(corner[row] == 1, reading.high, reading.low)

    cones = pitch_cones(
        pinion_teeth=float(teeth[0]),
        ring_teeth=float(teeth[1]),
        ring_diameter=draw(ring.ring_diameter, 0),
        ring_face_width=draw(ring.face_width, 1),
        hypoid_offset=draw(ring.offset, 2),
        pinion_spiral=draw(ring.spiral_angle, 3),
        cutter_radius=draw(ring.cutter_radius, 4),
        shaft_angle=np.pi / 2,
    )
    assert np.isfinite(cones.pinion_mean_radius).all()
    assert (cones.pinion_mean_radius < cones.ring_mean_radius).all()


def test_large_ring_class_covers_a_worked_pair():
    # 241.3 mm ring, offset 38.1, face 35, cutter 95.25 mm
    ring = RINGS["9.5"]
    assert ring.ring_diameter.value == pytest.approx(0.2413)
    for reading, value in (
        (ring.offset, 0.0381), (ring.face_width, 0.035), (ring.cutter_radius, 0.09525)
    ):  # fmt: skip
        assert reading.low <= value <= reading.high


# joints, tubes, bearings


@pytest.mark.parametrize("key", JOINTS)
def test_joint_cap_is_full_of_needles(key):
    joint = JOINTS[key]
    cap, span = (float(n) for n in key.removesuffix(" solid").split(" x "))
    assert inch(joint.cap_diameter) == pytest.approx(cap)
    assert inch(joint.span) == pytest.approx(span)
    assert joint.steel in STEELS
    circle = joint.trunnion_diameter.value + joint.needle_diameter.value
    assert joint.needles.value == np.floor(np.pi * circle / joint.needle_diameter.value)
    wall = 0.5 * (joint.cap_diameter.value - circle - joint.needle_diameter.value)
    assert 0.07 < wall / 0.0254 < 0.14
    assert joint.trunnion_bore.high < 0.4 * joint.trunnion_diameter.low


@pytest.mark.parametrize("key", TUBES)
def test_tube_name_and_size_agree(key):
    outer, wall = key.removesuffix(" aluminum").split(" x ")
    assert inch(TUBES[key].outer_diameter) == pytest.approx(float(outer))
    assert inch(TUBES[key].wall) == pytest.approx(float(wall))


@pytest.mark.parametrize("key", BEARINGS)
def test_bearing_is_consistent(key):
    bearing = BEARINGS[key]
    assert bearing.bore.value < bearing.outside.value
    dynamic, static = bearing.dynamic_rating, bearing.static_rating
    assert dynamic is not None
    assert static is not None
    assert dynamic.has_limits
    assert static.has_limits
    assert (bearing.contact_angle is not None) == (bearing.kind == "tapered")
    if bearing.kind == "ball":
        assert static.value < dynamic.value
    else:
        assert 0.85 * dynamic.value < static.value < 1.6 * dynamic.value


@pytest.mark.published
@pytest.mark.parametrize("key", [k for k in BEARINGS if k[:1] == "3" or k.startswith("62")])
def test_bore_number_of_iso_bearings(key):
    # ISO 15 and ISO 355: the last two figures times five are the bore in mm
    assert BEARINGS[key].bore.value * 1000 == pytest.approx(5 * int(key[-2:]))


def test_wider_series_carries_more():
    def rating(key: str) -> float:
        rating = BEARINGS[key].dynamic_rating
        assert rating is not None
        return rating.value

    for bore in ("07", "08", "09", "10"):
        assert rating(f"302{bore}") < rating(f"322{bore}") < rating(f"332{bore}")
    for series in ("302", "322", "332"):
        values = [rating(f"{series}{bore}") for bore in ("07", "08", "09", "10")]
        assert values == sorted(values)


# bolts


@pytest.mark.parametrize("key", GRADES)
def test_bolt_grade_is_in_order(key):
    grade = GRADES[key]
    assert grade.proof_strength.value < grade.yield_strength.value < grade.tensile_strength.value


@pytest.mark.published
@pytest.mark.parametrize(
    ("size", "area", "grade", "proof_load", "tensile_load"),
    [
        ("M10x1.5", 58.0, "8.8", 33700, 46400),
        ("M10x1.5", 58.0, "10.9", 48100, 60300),
        ("M10x1.5", 58.0, "12.9", 56300, 70800),
        ("M12x1.75", 84.3, "10.9", 70000, 87700),
        ("M12x1.75", 84.3, "12.9", 81800, 103000),
    ],
)
def test_metric_bolts_give_the_loads_of_the_standard(size, area, grade, proof_load, tensile_load):
    # ISO 898-1 load tables: stress area mm², proof load N, minimum tensile load N
    bolt = SIZES[size]
    worked = np.pi / 4 * (bolt.diameter.value - 0.9382 / bolt.threads.value) ** 2 * 1e6
    assert worked == pytest.approx(area, rel=1e-3)
    strength = GRADES[grade]
    assert strength.proof_strength.value / 1e6 * area == pytest.approx(proof_load, rel=0.006)
    assert strength.tensile_strength.value / 1e6 * area == pytest.approx(tensile_load, rel=0.006)


@pytest.mark.published
@pytest.mark.parametrize(
    ("size", "area"),
    [
        ("5/16-24", 0.0581), ("3/8-16", 0.0775), ("3/8-24", 0.0878), ("7/16-20", 0.1187),
        ("1/2-13", 0.1419), ("1/2-20", 0.1599), ("9/16-18", 0.2030), ("5/8-18", 0.2560),
        ("3/4-16", 0.3730),
    ],
)  # fmt: skip
def test_inch_bolts_give_the_stress_areas_of_the_tables(size, area):
    # unified thread stress areas, in², as tabulated in handbooks
    bolt = SIZES[size]
    inches, threads = inch(bolt.diameter), bolt.threads.value * 0.0254
    assert np.pi / 4 * (inches - 0.9743 / threads) ** 2 == pytest.approx(area, rel=2e-3)


@pytest.mark.parametrize("key", SIZES)
def test_thread_name_and_size_agree(key):
    bolt = SIZES[key]
    if bolt.metric:
        diameter, pitch = (float(n) for n in key.removeprefix("M").split("x"))
        assert bolt.diameter.value * 1e3 == pytest.approx(diameter)
        assert 1e3 / bolt.threads.value == pytest.approx(pitch)
    else:
        diameter, threads = key.split("-")
        assert bolt.diameter.value == pytest.approx(read(f"{diameter} in", "length").value)
        assert bolt.threads.value * 0.0254 == pytest.approx(int(threads))


# tires, differentials, findings


def test_stickier_tires_grip_more():
    order = ["all-season street", "performance street", "sticky street", "drag radial", "slick"]
    assert list(TIRES) == order
    for a, b in pairwise(TIRES.values()):
        assert a.grip_street.value <= b.grip_street.value
        assert a.grip_strip.value < b.grip_strip.value
    for tire in TIRES.values():
        assert tire.grip_strip.value > tire.grip_street.value
        assert 0.0 < tire.load_sensitivity.low < tire.load_sensitivity.high < 1e-4
        # a spread that is honest about a figure from memory: at least 15 % of it
        assert tire.grip_street.high - tire.grip_street.low > 0.15 * tire.grip_street.value


def test_differentials_rank_by_bias():
    assert set(DIFFERENTIALS) == {
        "open", "worn clutch", "clutch", "cone", "helical", "locker", "spool", "welded",
    }  # fmt: skip
    for name, kind in DIFFERENTIALS.items():
        assert kind.bias_ratio.low >= 1.0
        assert kind.locks == (name in {"locker", "spool", "welded"})
        assert (kind.bias_ratio.value >= 100.0) == kind.locks
    bias = {k: d.bias_ratio.value for k, d in DIFFERENTIALS.items()}
    assert bias["open"] < bias["worn clutch"] < bias["cone"] <= bias["clutch"]


@pytest.mark.parametrize("key", FINDINGS)
def test_finding_weakens_a_known_link(key):
    finding = FINDINGS[key]
    assert finding.link in LINKS
    assert 0.0 < finding.keeps.low < finding.keeps.high < 1.0
    assert len(finding.look_for) > 20
