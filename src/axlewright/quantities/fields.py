"""Keys as the shop writes them: a section declares each key once, with meaning and default.

The build file, the catalogue and a builder's own parts are all read through these, and the
template and the reference pages are printed from them, so a key cannot be undocumented.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated, Any, get_args

from axlewright.quantities.repeats import read_list, read_place, read_several
from axlewright.quantities.sections import REQUIRED, Declared, FieldInfo, Reader, Section
from axlewright.quantities.units import Reading, read


@dataclass(frozen=True)
class Dimensioned:
    """Marks a key's type with the dimension that it takes."""

    dimension: str


@dataclass(frozen=True)
class Repeatable:
    """Marks a key that takes one text, or a list of readings of the same thing."""


@dataclass(frozen=True)
class Listed:
    """Marks a key that holds several values of one dimension; ``point`` if they are a place."""

    dimension: str
    point: bool = False


def _repeats(dimension: str) -> tuple[Reader, Dimensioned, Repeatable]:
    def readings(value: Any) -> Reading | None:
        known = value is None or isinstance(value, Reading)
        return value if known else read_several(value, dimension)

    return Reader(readings), Dimensioned(dimension), Repeatable()


def _lists(dimension: str) -> tuple[Reader, Listed]:
    def values(value: Any) -> tuple[Reading, ...] | None:
        return None if value is None else read_list(value, dimension)

    return Reader(values), Listed(dimension)


def _place(value: Any) -> tuple[Reading, ...] | None:
    return None if value is None else read_place(value)


def _of(dimension: str) -> tuple[Reader, Dimensioned]:
    def reading(value: Any) -> Reading | None:
        return value if value is None or isinstance(value, Reading) else read(value, dimension)

    return Reader(reading), Dimensioned(dimension)


Ratio = Annotated[Reading | None, *_of("ratio")]
Count = Annotated[Reading | None, *_of("count")]
Length = Annotated[Reading | None, *_of("length")]
Distance = Annotated[Reading | None, *_of("distance")]
Area = Annotated[Reading | None, *_of("area")]
Mass = Annotated[Reading | None, *_of("mass")]
Force = Annotated[Reading | None, *_of("force")]
Torque = Annotated[Reading | None, *_of("torque")]
SmallTorque = Annotated[Reading | None, *_of("small torque")]
Stress = Annotated[Reading | None, *_of("stress")]
Modulus = Annotated[Reading | None, *_of("modulus")]
Pressure = Annotated[Reading | None, *_of("pressure")]
Toughness = Annotated[Reading | None, *_of("toughness")]
Power = Annotated[Reading | None, *_of("power")]
Rotation = Annotated[Reading | None, *_of("rotation")]
Speed = Annotated[Reading | None, *_of("speed")]
ShortTime = Annotated[Reading | None, *_of("short time")]
Angle = Annotated[Reading | None, *_of("angle")]
Inertia = Annotated[Reading | None, *_of("inertia")]
TorsionalStiffness = Annotated[Reading | None, *_of("torsional stiffness")]
Temperature = Annotated[Reading | None, *_of("temperature")]
TemperatureRise = Annotated[Reading | None, *_of("temperature rise")]
Pitch = Annotated[Reading | None, *_of("pitch")]
Density = Annotated[Reading | None, *_of("density")]
LoadSensitivity = Annotated[Reading | None, *_of("load sensitivity")]
Volume = Annotated[Reading | None, *_of("volume")]
KinematicViscosity = Annotated[Reading | None, *_of("kinematic viscosity")]
ThermalConductance = Annotated[Reading | None, *_of("thermal conductance")]
Stiffness = Annotated[Reading | None, *_of("stiffness")]
LengthReadings = Annotated[Reading | None, *_repeats("length")]
AngleReadings = Annotated[Reading | None, *_repeats("angle")]
LengthList = Annotated[tuple[Reading, ...] | None, *_lists("length")]
Place = Annotated[tuple[Reading, ...] | None, Reader(_place), Listed("length", point=True)]


@dataclass(frozen=True)
class Key:
    """What a key means and what stands in for it when the builder leaves it out.

    ``default`` is shop text with its spread, or weights over kinds; ``because`` is its source.
    ``usual`` bounds what is common (outside: a caution), ``possible`` what can be (outside: an
    error).  ``advice`` tells how to measure it.  ``first`` marks the ten first-verdict inputs.
    """

    means: str
    example: str = ""
    default: str | dict[str, float] = ""
    because: str = ""
    usual: tuple[str, str] | None = None
    possible: tuple[str, str] | None = None
    advice: str = ""
    choices: dict[str, str] | None = None
    first: bool = False
    stated_spread: str = ""


def key(
    means: str,
    *,
    example: str = "",
    default: str | dict[str, float] = "",
    because: str = "",
    usual: tuple[str, str] | None = None,
    possible: tuple[str, str] | None = None,
    advice: str = "",
    choices: dict[str, str] | None = None,
    first: bool = False,
    stated_spread: str = "",
    required: bool = False,
) -> Any:
    """Declare a key; see :class:`Key`. ``stated_spread`` is the spread of a value stated bare."""
    meta = Key(
        means, example, default, because, usual, possible, advice, choices, first, stated_spread
    )
    return Declared(means, REQUIRED if required else None, meta)


def meta_of(info: FieldInfo) -> Key:
    """The declaration of a key."""
    return info.declared.extra if isinstance(info.declared.extra, Key) else Key(info.description)


def dimension_of(info: FieldInfo) -> str | None:
    """The dimension that a key takes, or None for text, kinds and tables."""
    return next((m.dimension for m in info.metadata if isinstance(m, Dimensioned)), None)


def listed_of(info: FieldInfo) -> Listed | None:
    """What a key holds several of, or None."""
    return next((m for m in info.metadata if isinstance(m, Listed)), None)


def repeatable(info: FieldInfo) -> bool:
    """Whether a key takes a list of readings of the same thing."""
    return any(isinstance(m, Repeatable) for m in info.metadata)


def subsection(info: FieldInfo) -> type[Section] | None:
    """The section type of a key that is a table itself."""
    for candidate in (info.annotation, *get_args(info.annotation)):
        if isinstance(candidate, type) and issubclass(candidate, Section):
            return candidate
    return None


def walk(section: type[Section], path: str = "") -> Iterator[tuple[str, FieldInfo]]:
    """Every key of a section and of its tables, with its dotted path."""
    for name, info in section.model_fields.items():
        here = f"{path}.{name}" if path else name
        yield here, info
        inner = subsection(info)
        if inner is not None:
            yield from walk(inner, here)
