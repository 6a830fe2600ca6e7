"""Speedometer gear, speed sensor and brake-sensor ring after a change of ratio or tire.

A driven speedometer expects a fixed number of cable turns in a mile: 1,000 with most of the old
ones, 1,001 in some tables; the instrument's face or manual says it.  The tire turns a few percent
oftener than its free diameter says (:func:`axlewright.vehicle.tire.rolling_radius`).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from axlewright.quantities.formula import Num, formula

_GEARS = "turns in a mile of tire, driveshaft and cable (closed form)"
ALLOWED_RING_ERROR = 0.05
"""Share by which the rear sensor may differ from the front before a brake computer is surely
misled; from memory, and makers differ: ask."""


@formula("z_x", "count", source=_GEARS)
def exact_driven_teeth(
    speedo_drive_teeth: Num, axle_ratio: Num, tire_turns: Num, cable_turns: Num
) -> Num:
    """Teeth of the driven gear that would read true; gears come whole."""
    return speedo_drive_teeth * axle_ratio * tire_turns / cable_turns


@formula("v_i", "speed", source=_GEARS)
def reading_with_gear(road_speed: Num, exact_teeth: Num, fitted_teeth: Num) -> Num:
    """What the speedometer shows with the driven gear that is fitted."""
    return road_speed * exact_teeth / fitted_teeth


@formula("v_i", "speed", source=_GEARS)
def reading_after_change(
    road_speed: Num, axle_ratio: Num, old_axle_ratio: Num, tire_turns: Num, old_tire_turns: Num
) -> Num:
    """What a speedometer that was true shows after a change of ratio or tire, its gear kept.

    It holds for whatever is driven by the gearbox's output; a sensor on the wheel sees the tire
    only, so give it the same ratio twice.
    """
    return road_speed * axle_ratio * tire_turns / (old_axle_ratio * old_tire_turns)


@formula("n_p", "per distance", source=_GEARS)
def pulses_per_distance(pulses_per_turn: Num, sensor_ratio: Num, tire_turns: Num) -> Num:
    """Pulses of a speed sensor in a mile or kilometer.

    The sensor ratio is its turns for one of the wheel: the axle ratio at the gearbox's output, one
    at the wheel.
    """
    return pulses_per_turn * sensor_ratio * tire_turns


@formula("v_i", "speed", source=_GEARS)
def reading_with_pulses(road_speed: Num, sensor_pulses: Num, expected_pulses: Num) -> Num:
    """What an instrument shows that expects other pulses in a mile than it gets."""
    return road_speed * sensor_pulses / expected_pulses


@formula("ε_i", "ratio", source="definition (closed form)")
def reading_error(shown_speed: Num, road_speed: Num) -> Num:
    """Share by which the speedometer shows too much; below zero the car is faster than shown."""
    return shown_speed / road_speed - 1.0


@formula(
    "v_m",
    "speed",
    source="UNECE R39, 5.3: shown less true speed from 0 to 10 % and 4 km/h (read as quoted)",
)
def highest_reading(road_speed: Num) -> Num:
    """Most that a speedometer may show at a true speed; it may never show less than the truth."""
    return 1.1 * road_speed + 4.0 / 3.6


@formula("k_c", "ratio", source="true over shown (closed form)")
def correction_ratio(exact_teeth: Num, fitted_teeth: Num) -> Num:
    """Ratio of a correcting gearbox in the cable: turns out for one in."""
    return fitted_teeth / exact_teeth


@formula("ε_s", "ratio", source="pulses of both axles at one speed (closed form)")
def ring_mismatch(
    rear_ring_teeth: Num, tire_radius: Num, front_ring_teeth: Num, front_tire_radius: Num
) -> Num:
    """By what share a brake computer sees the rear wheels turn too fast for the front ones.

    A steady mismatch looks like wheels that slip: the computer then lets go or holds too late.
    """
    return rear_ring_teeth * front_tire_radius / (front_ring_teeth * tire_radius) - 1.0


@dataclass(frozen=True)
class DrivenGear:
    """One driven gear that may be fitted."""

    teeth: int
    error: float
    """Share by which it shows too much."""
    shows: float
    """m/s shown at the speed asked about."""

    @property
    def shows_low(self) -> bool:
        """Whether the car is faster than the needle says."""
        return self.error < 0.0


def driven_gears(
    exact_teeth: float, on_the_shelf: Iterable[int], road_speed: float
) -> tuple[DrivenGear, ...]:
    """Gears on the shelf, nearest first; of two as near, the one that does not show too little."""
    found = []
    for teeth in on_the_shelf:
        shown = reading_with_gear(road_speed, exact_teeth, float(teeth))
        error = float(reading_error(shown, road_speed))
        found.append(DrivenGear(teeth, error, float(shown)))
    return tuple(sorted(found, key=lambda g: (round(abs(g.error), 9), g.shows_low)))


@dataclass(frozen=True)
class GearPair:
    """Drive and driven gear that may be fitted together."""

    drive_teeth: int
    driven: DrivenGear


def gear_pairs(
    drives: Iterable[int], on_the_shelf: Iterable[int], axle_ratio: float, tire_turns: float,
    cable_turns: float, road_speed: float,
) -> tuple[GearPair, ...]:  # fmt: skip
    """All pairs of drive and driven gears, nearest first; turns are for each meter."""
    shelf, found = tuple(on_the_shelf), []
    for drive in drives:
        exact = exact_driven_teeth(float(drive), axle_ratio, tire_turns, cable_turns)
        found += [GearPair(drive, g) for g in driven_gears(float(exact), shelf, road_speed)]
    return tuple(sorted(found, key=lambda p: (round(abs(p.driven.error), 9), p.driven.shows_low)))


def gear_cautions(gear: DrivenGear) -> tuple[str, ...]:
    """What must be said of a driven gear."""
    said = []
    if gear.shows_low:
        said.append(
            "The needle shows less than the true speed; many rules forbid that (UNECE R39 lets a "
            "speedometer show too much, never too little)."
        )
    elif gear.shows > highest_reading(gear.shows / (1.0 + gear.error)):
        said.append("The needle shows more than UNECE R39 allows: 10 % and 4 km/h too much.")
    if abs(gear.error) > 0.04:
        said.append("More than 4 % off: change the drive gear too, or fit a correcting gearbox.")
    said.append("Gears of another count may need another housing or bore: look before ordering.")
    return tuple(said)
