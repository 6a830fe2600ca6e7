"""Keys of a section: dimension, meaning, default; the same for catalogue and build."""

import pytest

from axlewright.build.model import Build
from axlewright.catalogue.load import TABLES
from axlewright.quantities import fields
from axlewright.quantities.fields import (
    Dimensioned,
    Length,
    Torque,
    dimension_of,
    key,
    meta_of,
    subsection,
    walk,
)
from axlewright.quantities.sections import FaultsError, Section
from axlewright.quantities.units import DIMENSIONS, Reading, UnitError, read


class Inner(Section):
    bore: Length = key("Bore.", example="1 in", possible=("0 in", "9 in"))


class Outer(Section):
    torque: Torque = key("Torque.", default="400 ± 100 lbf*ft", because="a book", required=True)
    inner: Inner | None = key("More.")
    name: str | None = key("Name.")


def faults(model, data):
    with pytest.raises(FaultsError) as caught:
        model.model_validate(data)
    return [(e["loc"], e["type"], e.get("ctx", {}).get("why")) for e in caught.value.errors()]


def test_quantities_become_readings():
    made = Outer.model_validate({"torque": "620 lbf*ft", "inner": {"bore": "1 3/8 in"}})
    assert isinstance(made.torque, Reading)
    assert made.torque.dimension == "torque"
    assert made.inner.bore.value == pytest.approx(1.375 * 0.0254)
    assert made.name is None
    again = Outer.model_validate({"torque": made.torque})
    assert again.torque is made.torque
    assert Outer.model_validate(again) is again


def test_faults_say_why():
    assert faults(Outer, {"torque": "620 lb"}) == [
        (("torque",), "words", "'lb' is no unit of torque (lb is a unit of mass); use lb·ft or N·m")
    ]
    assert faults(Outer, {}) == [(("torque",), "missing", None)]
    assert faults(Outer, {"torque": "1 N*m", "inner": {"bar": 1}}) == [
        (("inner", "bar"), "extra_forbidden", None)
    ]


def test_braces_in_a_value_do_not_upset_the_message():
    ((_, kind, why),) = faults(Outer, {"torque": "{why} {0}"})
    assert kind == "words"
    assert why.startswith("'{why} {0}' is no torque")


def test_sections_are_frozen():
    made = Outer.model_validate({"torque": "1 N*m"})
    with pytest.raises(AttributeError, match="cannot be changed"):
        made.name = "x"


def test_declarations_can_be_read_back():
    info = Outer.model_fields["torque"]
    assert meta_of(info).means == "Torque."
    assert meta_of(info).default == "400 ± 100 lbf*ft"
    assert dimension_of(info) == "torque"
    assert dimension_of(Outer.model_fields["name"]) is None
    assert subsection(Outer.model_fields["inner"]) is Inner
    assert subsection(info) is None
    assert [n for n, _ in walk(Outer)] == ["torque", "inner", "inner.bore", "name"]


def test_every_field_type_has_a_dimension():
    kinds = [v for v in vars(fields).values() if hasattr(v, "__metadata__")]
    named = {m.dimension for k in kinds for m in k.__metadata__ if isinstance(m, Dimensioned)}
    assert len(kinds) > 20
    assert named <= set(DIMENSIONS)


MODELS = [Build, *TABLES.values()]


@pytest.mark.parametrize("model", MODELS, ids=lambda m: m.__name__)
def test_every_key_says_what_it_means(model):
    for path, info in walk(model):
        means = meta_of(info).means
        assert means.endswith("."), path
        assert means[0].isupper() or means[0].isdigit(), path


@pytest.mark.parametrize("model", MODELS, ids=lambda m: m.__name__)
def test_examples_defaults_and_bounds_are_quantities(model):
    for path, info in walk(model):
        meta, dimension = meta_of(info), dimension_of(info)
        if dimension is None:
            continue
        for bounds in (meta.possible, meta.usual):
            if bounds:
                low, high = (read(b, dimension).value for b in bounds)
                assert low < high, path
        if meta.example:
            assert read(meta.example, dimension), path
        if meta.usual and meta.possible:
            assert read(meta.possible[0], dimension).value <= read(meta.usual[0], dimension).value
            assert read(meta.possible[1], dimension).value >= read(meta.usual[1], dimension).value
        if meta.stated_spread:
            assert 0 < read(meta.stated_spread, "ratio").value < 0.5, path
        if isinstance(meta.default, str) and meta.default:
            try:
                default = read(meta.default, dimension)
            except UnitError:
                assert meta.default.startswith("by "), path
                continue
            assert meta.because, path
            for bounds in (meta.possible,):
                if bounds:
                    assert default.low >= read(bounds[0], dimension).value, path
                    assert default.high <= read(bounds[1], dimension).value, path


def test_kinds_are_explained():
    for path, info in walk(Build):
        meta = meta_of(info)
        if meta.choices:
            assert all(meta.choices.values()), path
        if isinstance(meta.default, dict):
            assert sum(meta.default.values()) == pytest.approx(1.0), path
            assert meta.because, path
