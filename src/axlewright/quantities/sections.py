"""Tables of keys read from TOML: a small reader of typed sections that starts in no time.

A general validation library does this too, and well; loading one and letting it compile the few
hundred keys of the build file and the catalogue took a quarter of the time of a whole check.  What
a TOML table can hold is little: text, numbers, true or false, lists, tables.  Faults are collected,
not raised one by one, as ``{"type", "loc", "input", "ctx"}``, so that a face can word them.
"""

from __future__ import annotations

import functools
import types
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import (
    Annotated,
    Any,
    Literal,
    Self,
    TypeVar,
    Union,
    get_args,
    get_origin,
    get_type_hints,
)

Place = tuple[str | int, ...]
Fault = dict[str, Any]
REQUIRED = object()
_HUGE = 1e308


@dataclass(frozen=True)
class Declared:
    """What stands behind a key's ``=`` in its class: description, default, anything further."""

    description: str
    default: Any = REQUIRED
    extra: Any = None


@dataclass(frozen=True)
class Reader:
    """Marks a type that has its own way of reading; raises ``ValueError`` in words.

    The error of one entry of a list carries its number, from 0, as ``entry``.
    """

    read: Callable[[Any], Any]


@dataclass(frozen=True)
class FieldInfo:
    """One key of a section: its type, what is attached to the type, and its declaration."""

    annotation: Any
    metadata: tuple[Any, ...]
    declared: Declared
    reader: Callable[[Any], Any] | None = field(default=None, compare=False)

    @property
    def description(self) -> str:
        """What the key means."""
        return self.declared.description

    def is_required(self) -> bool:
        """Whether a table without the key is refused."""
        return self.declared.default is REQUIRED


class FaultsError(ValueError):
    """A table that does not fit its section; carries every fault found."""

    def __init__(self, section: str, faults: list[Fault]) -> None:
        self._faults = faults
        super().__init__(f"{len(faults)} faults in {section}")

    def errors(self) -> list[Fault]:
        """Every fault: its type, where it is, what was found, and words of a reader, if any."""
        return self._faults


class _SectionType(type):
    """Gives each section class its fields, worked out when first asked for."""

    @property
    def model_fields(cls) -> dict[str, FieldInfo]:
        """Every key by name, in order, those of the base class first."""
        return _fields_of(cls)


@functools.cache
def _fields_of(cls: type) -> dict[str, FieldInfo]:
    return {
        name: _field(hint, getattr(cls, name))
        for name, hint in get_type_hints(cls, include_extras=True).items()
        if isinstance(getattr(cls, name, None), Declared)
    }


def _field(hint: Any, declared: Declared) -> FieldInfo:
    metadata: tuple[Any, ...] = ()
    if get_origin(hint) is Annotated:
        hint, *rest = get_args(hint)
        metadata = tuple(rest)
    reader = next((m.read for m in metadata if isinstance(m, Reader)), None)
    return FieldInfo(hint, metadata, declared, reader)


class Section(metaclass=_SectionType):
    """A table of keys; unknown keys are refused, and what has been read does not change."""

    def __init__(self, values: Mapping[str, Any]) -> None:
        self.__dict__.update(values)

    def __setattr__(self, name: str, value: Any) -> None:
        raise AttributeError(f"{type(self).__name__}.{name} cannot be changed to {value!r}")

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and self.__dict__ == other.__dict__

    def __hash__(self) -> int:
        return id(self)

    def __repr__(self) -> str:
        said = ", ".join(f"{k}={v!r}" for k, v in self.__dict__.items() if v is not None)
        return f"{type(self).__name__}({said})"

    @classmethod
    def model_validate(cls, raw: Any) -> Self:
        """Read a table; raises :class:`FaultsError` with every fault."""
        faults: list[Fault] = []
        made = _section(cls, raw, (), faults)
        if faults or made is None:
            raise FaultsError(cls.__name__, faults)
        return made


S = TypeVar("S", bound=Section)


def _fault(kind: str, place: Place, found: Any, **context: Any) -> Fault:
    return {"type": kind, "loc": place, "input": found, "ctx": context}


def _section(cls: type[S], raw: Any, place: Place, faults: list[Fault]) -> S | None:
    if isinstance(raw, cls):
        return raw
    if not isinstance(raw, Mapping):
        faults.append(_fault("model_type", place, raw))
        return None
    fields = cls.model_fields
    values: dict[str, Any] = {}
    for name, info in fields.items():
        if name in raw:
            values[name] = _key(info, raw[name], (*place, name), faults)
        elif info.is_required():
            faults.append(_fault("missing", (*place, name), raw))
        else:
            values[name] = info.declared.default
    faults += [_fault("extra_forbidden", (*place, k), raw[k]) for k in raw if k not in fields]
    return cls(values)


def _key(info: FieldInfo, value: Any, place: Place, faults: list[Fault]) -> Any:
    if info.reader is None:
        return _value(info.annotation, value, place, faults)
    try:
        return info.reader(value)
    except ValueError as e:
        entry = getattr(e, "entry", None)
        inside = place if entry is None else (*place, int(entry))
        faults.append(_fault("words", inside, value, why=str(e)))
        return None


def _value(wanted: Any, value: Any, place: Place, faults: list[Fault]) -> Any:
    """Read a value of a plain type, noting what does not fit."""
    origin = get_origin(wanted)
    if origin is Union or origin is types.UnionType:
        return _one_of(get_args(wanted), value, place, faults)
    if origin is Literal:
        if value not in get_args(wanted) or not isinstance(value, str):
            faults.append(_fault("literal_error", place, value, expected=get_args(wanted)))
        return value
    if origin in _CONTAINERS:
        return _CONTAINERS[origin](get_args(wanted), value, place, faults)
    if isinstance(wanted, type) and issubclass(wanted, Section):
        return _section(wanted, value, place, faults)
    kind = next((k for k, fits in _PLAIN.items() if wanted is k and not fits(value)), None)
    if kind is not None:
        faults.append(_fault(f"{kind.__name__}_type", place, value))
    return float(value) if wanted is float and kind is None else value


def _one_of(options: tuple[Any, ...], value: Any, place: Place, faults: list[Fault]) -> Any:
    """The first option that fits; None fits only a missing key, which never comes here."""
    real = [o for o in options if o is not types.NoneType]
    if value is None and len(real) < len(options):
        return None
    if len(real) == 1:
        return _value(real[0], value, place, faults)
    tried: list[Fault] = []
    for option in real:
        mine: list[Fault] = []
        read = _value(option, value, (*place, getattr(option, "__name__", "?")), mine)
        if not mine:
            return read
        tried += mine
    faults += tried
    return None


def _list(inner: tuple[Any, ...], value: Any, place: Place, faults: list[Fault]) -> Any:
    if not isinstance(value, list):
        faults.append(_fault("list_type", place, value))
        return None
    return [_value(inner[0], v, (*place, i), faults) for i, v in enumerate(value)]


def _tuple(inner: tuple[Any, ...], value: Any, place: Place, faults: list[Fault]) -> Any:
    if not isinstance(value, list | tuple) or len(value) != len(inner):
        faults.append(_fault("tuple_type", place, value))
        return None
    return tuple(
        _value(t, v, (*place, i), faults) for i, (t, v) in enumerate(zip(inner, value, strict=True))
    )


def _dict(inner: tuple[Any, ...], value: Any, place: Place, faults: list[Fault]) -> Any:
    if not isinstance(value, Mapping):
        faults.append(_fault("dict_type", place, value))
        return None
    return {k: _value(inner[1], v, (*place, k), faults) for k, v in value.items()}


_CONTAINERS: dict[Any, Callable[[tuple[Any, ...], Any, Place, list[Fault]], Any]] = {
    list: _list, tuple: _tuple, dict: _dict,
}  # fmt: skip
_PLAIN: dict[type, Callable[[Any], bool]] = {
    str: lambda v: isinstance(v, str),
    bool: lambda v: isinstance(v, bool),
    int: lambda v: isinstance(v, int) and not isinstance(v, bool),
    float: lambda v: isinstance(v, float) or (_PLAIN[int](v) and abs(v) < _HUGE),
}
