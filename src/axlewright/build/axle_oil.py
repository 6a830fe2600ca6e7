"""What the heat of an axle is worked out from, beside the machine."""

from __future__ import annotations

from typing import Generic, TypeVar

from axlewright.quantities.records import branch

T = TypeVar("T")


@branch
class OilBath(Generic[T]):
    """The oil and what drags in it; friction loads are those of a pair of bearings."""

    viscosity_40: T
    viscosity_100: T
    density: T
    volume: T
    immersion: T
    churning_share: T
    tooth_friction: T
    drag_factor: T
    friction_factor: T
    pinion_bearing: T
    carrier_bearing: T
    pinion_load_share: T
    carrier_load_share: T
    pinion_preload: T
    carrier_preload: T
    pinion_seal: T
    seal_share: T
    hottest: T
    """Temperature for which heats that follow the oil are stated: 100 °C."""


@branch
class Cooling(Generic[T]):
    """What carries heat off; ``conductance`` takes the place of the estimate if it is known."""

    air_temperature: T
    underbody_rise: T
    air_share: T
    prandtl: T
    housing_diameter: T
    area_factor: T
    still_film: T
    heated_mass: T
    conductance: T | None


@branch
class AxleHeat(Generic[T]):
    """Both."""

    bath: OilBath[T]
    cooling: Cooling[T]
