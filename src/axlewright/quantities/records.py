"""Records: frozen dataclasses that cost nothing to define.

The standard library writes and compiles up to six functions for each frozen dataclass, a
millisecond a class; over a hundred classes that is more than reading a build and judging it.
Here all records share functions written once.  In all else a record is a dataclass: ``fields``,
``replace`` and ``is_dataclass`` know it, and it compares, hashes and prints like one.
"""

from __future__ import annotations

import functools
import operator
from collections.abc import Callable
from dataclasses import MISSING, Field, FrozenInstanceError, dataclass, field, fields
from typing import Any, TypeVar, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True, field_specifiers=(field, Field))
def record(cls: type[T]) -> type[T]:
    """Make a class a frozen dataclass that compares by its values."""
    made = dataclass(init=False, repr=False, eq=False)(cls)
    values = _values(tuple(f.name for f in fields(made)))  # type: ignore[arg-type]
    return _with(made, {"__hash__": _hash(values), "__eq__": _equal(values)})


@dataclass_transform(frozen_default=True, eq_default=False, field_specifiers=(field, Field))
def branch(cls: type[T]) -> type[T]:
    """Make a class a frozen dataclass that is equal to itself only: it may hold arrays."""
    return _with(dataclass(init=False, repr=False, eq=False)(cls), {})


def _with(made: type[T], functions: dict[str, Callable[..., Any]]) -> type[T]:
    """Give a class what all records share, and further functions, where it has none of its own."""
    names = tuple(f.name for f in fields(made))  # type: ignore[arg-type]
    shared: dict[str, Callable[..., Any]] = {
        "__init__": _start(names, _defaults(made)),
        "__repr__": _print,
        "__setattr__": _refuse_set,
        "__delattr__": _refuse_delete,
    }
    for name, function in (shared | functions).items():
        if name not in made.__dict__:
            setattr(made, name, function)
    return made


def _defaults(made: type[Any]) -> dict[str, Callable[[], Any]]:
    """What makes the value of each field that may be left out."""
    found: dict[str, Callable[[], Any]] = {}
    for f in fields(made):
        if f.default is not MISSING:
            found[f.name] = functools.partial(_itself, f.default)
        elif f.default_factory is not MISSING:
            found[f.name] = f.default_factory
    return found


def _itself(value: Any) -> Any:
    return value


def _start(names: tuple[str, ...], defaults: dict[str, Callable[[], Any]]) -> Callable[..., None]:
    count = len(names)

    def __init__(self: Any, *args: Any, **kwargs: Any) -> None:  # noqa: N807
        own = self.__dict__
        own.update(zip(names, args, strict=False))
        own.update(kwargs)
        if len(own) != count or len(args) + len(kwargs) != count:
            _complete(self, names, defaults, len(args), kwargs)

    return __init__


def _complete(
    self: Any,
    names: tuple[str, ...],
    defaults: dict[str, Callable[[], Any]],
    placed: int,
    named: dict[str, Any],
) -> None:
    """Fill in what was left out; raise as a call with wrong arguments does."""
    kind, own = type(self).__qualname__, self.__dict__
    if placed > len(names):
        raise TypeError(f"{kind}() takes {len(names)} arguments but {placed} were given")
    for name in named:
        if name not in names:
            raise TypeError(f"{kind}() got an unexpected keyword argument {name!r}")
        if name in names[:placed]:
            raise TypeError(f"{kind}() got multiple values for argument {name!r}")
    for name in names:
        if name not in own:
            if name not in defaults:
                raise TypeError(f"{kind}() is missing the argument {name!r}")
            own[name] = defaults[name]()


def _values(names: tuple[str, ...]) -> Callable[[Any], Any]:
    """What reads all fields at once, for comparing."""
    return operator.attrgetter(*names) if names else operator.attrgetter("__class__")


def _hash(values: Callable[[Any], Any]) -> Callable[[Any], int]:
    return lambda self: hash(values(self))


def _equal(values: Callable[[Any], Any]) -> Callable[[Any, object], Any]:
    def __eq__(self: Any, other: object) -> Any:  # noqa: N807
        if type(other) is not type(self):
            return NotImplemented
        return (values(self),) == (values(other),)  # in a tuple a NaN equals itself

    return __eq__


def _print(self: Any) -> str:
    values = ", ".join(f"{f.name}={getattr(self, f.name)!r}" for f in fields(self))
    return f"{type(self).__qualname__}({values})"


def _refuse_set(self: Any, name: str, value: Any) -> None:
    del self, value
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_delete(self: Any, name: str) -> None:
    del self
    raise FrozenInstanceError(f"cannot delete field {name!r}")
