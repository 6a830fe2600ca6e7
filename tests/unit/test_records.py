"""Records behave as frozen dataclasses do, without their cost."""

import copy
import dataclasses
import math
import pickle
from typing import Any

import pytest

from axlewright.quantities.records import record


@record
class Shim:
    """A shim."""

    thickness: float
    side: str = "left"
    notes: list[str] = dataclasses.field(default_factory=list)


@dataclasses.dataclass(frozen=True)
class Plain:
    """The same, the standard way."""

    thickness: float
    side: str = "left"
    notes: list[str] = dataclasses.field(default_factory=list)


@record
class Empty:
    """Nothing."""


@record
class One:
    """One field."""

    value: Any


CALLS = [
    ((), {}),
    ((1.0,), {}),
    ((1.0, "right"), {}),
    ((1.0, "right", ["a"]), {}),
    ((), {"thickness": 2.0}),
    ((1.0,), {"notes": ["b"]}),
    ((1.0,), {"thickness": 2.0}),
    ((1.0, "right", [], 4), {}),
    ((1.0,), {"color": "red"}),
    ((1.0, "right"), {"side": "left", "notes": []}),
]


@pytest.mark.parametrize(("args", "named"), CALLS)
def test_it_takes_and_refuses_the_same_calls(args, named):
    try:
        expected = dataclasses.asdict(Plain(*args, **named))
    except TypeError:
        with pytest.raises(TypeError, match="Shim"):
            Shim(*args, **named)
    else:
        assert dataclasses.asdict(Shim(*args, **named)) == expected


def test_it_prints_compares_and_hashes_like_one():
    a, b, other = One(2.0), One(2.0), One(3.0)
    assert a == b
    assert hash(a) == hash(b)
    assert a != other
    assert a != 2.0
    assert Empty() == Empty()
    assert hash(Empty()) == hash(Empty())
    assert Shim(1.0) != Plain(1.0)
    assert repr(Shim(1.0)) == repr(Plain(1.0)).replace("Plain", "Shim")
    assert One(math.nan) != One(float("nan"))
    assert One(math.nan) == One(math.nan)  # the very same NaN, as in a tuple
    with pytest.raises(TypeError, match="unhashable"):
        hash(Shim(1.0))


def test_it_cannot_be_changed():
    shim = Shim(1.0)
    with pytest.raises(dataclasses.FrozenInstanceError, match="thickness"):
        shim.thickness = 2.0
    with pytest.raises(dataclasses.FrozenInstanceError, match="side"):
        del shim.side
    assert shim == Shim(1.0)


def test_defaults_that_can_change_are_not_shared():
    one, two = Shim(1.0), Shim(1.0)
    one.notes.append("x")
    assert two.notes == []


def test_the_tools_of_dataclasses_know_it():
    shim = Shim(1.0, "right")
    assert dataclasses.is_dataclass(shim)
    assert [f.name for f in dataclasses.fields(Shim)] == ["thickness", "side", "notes"]
    assert dataclasses.replace(shim, side="left") == Shim(1.0)
    assert copy.deepcopy(shim) == shim
    assert pickle.loads(pickle.dumps(shim)) == shim


def test_a_class_keeps_the_methods_it_brings():
    @record
    class Loud:
        value: int

        def __repr__(self):
            return "LOUD"

    assert repr(Loud(1)) == "LOUD"
    assert Loud(1) == Loud(1)
