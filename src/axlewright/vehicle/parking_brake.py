"""Does the parking brake hold the car on a grade: cable, lever, shoe or caliper, and tires.

The grade is rise over run.  Only the rear wheels are braked, so their grip is a limit of its own:
nose up the hill the rear tires gain load, nose down they lose it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.quantities.formula import Num, formula, least
from axlewright.vehicle.brake_torque import FactorRange

_GRADE = "weight on a slope (closed form)"
USUAL_PARKING = {
    "drum": FactorRange(1.6, 2.2, 4.5, "the service shoes, spread by a lever"),
    "shoes in the hat": FactorRange(1.4, 2.2, 4.0, "small shoes, often of the servo kind"),
    "caliper lever": FactorRange(0.60, 0.76, 0.90, "two pads"),
}
"""Brake factors of parking brakes by kind; from memory, wide on purpose.  Small shoes in a hat do
not bed themselves in: new ones hold clearly less."""
WANTED_GRADE = 0.20
"""Grade that a passenger car alone must be held on, either way: UNECE R13-H (from memory)."""
STEEP_GRADE = 0.30
"""Steeper grade that older rules ask of cars with a foot clutch: FMVSS 105, S5.2.1 (from memory; a
letter to the agency, read in part, names the same)."""
MOST_HAND_FORCE = 400.0
"""N at a hand lever for that; UNECE R13-H (from memory)."""
MOST_FOOT_FORCE = 500.0
"""N at a pedal for that; UNECE R13-H (from memory)."""


@formula("q", "ratio", source="tangent (closed form)")
def grade_of_angle(grade_angle: Num) -> Num:
    """Grade, rise over run, of a slope read as an angle: 20 % is 11.3 degrees."""
    result: Num = np.tan(grade_angle)
    return result


@formula("F_q", "force", source=_GRADE)
def grade_pull(vehicle_weight: Num, grade: Num) -> Num:
    """Pull down the hill of a car that stands."""
    result: Num = vehicle_weight * grade / np.sqrt(1.0 + grade * grade)
    return result


@formula("F_c", "force", source="lever, equalizer and friction in the cables (closed form)")
def cable_pull(hand_force: Num, hand_lever_ratio: Num, cable_efficiency: Num) -> Num:
    """Pull in the cable of one wheel; the equalizer gives each side half."""
    return 0.5 * hand_force * hand_lever_ratio * cable_efficiency


@formula("T_p", "torque", source="pull times lever times brake factor times radius (closed form)")
def parking_torque(
    cable_force: Num, brake_lever_ratio: Num, brake_factor: Num, brake_radius: Num
) -> Num:
    """Torque with which one wheel is held.

    ``brake_lever_ratio`` is force on one shoe (or clamp of the caliper) over pull of the cable.
    For a caliper the brake factor is twice the friction of its pads.
    """
    return cable_force * brake_lever_ratio * brake_factor * brake_radius


@formula("T_q", "torque", source=_GRADE)
def torque_to_hold(vehicle_weight: Num, grade: Num, tire_radius: Num) -> Num:
    """Torque that each of two wheels must be held with on a grade."""
    result: Num = 0.5 * vehicle_weight * grade / np.sqrt(1.0 + grade * grade) * tire_radius
    return result


@formula("q_b", "ratio", source=_GRADE)
def grade_by_brakes(wheel_parking_torque: Num, tire_radius: Num, vehicle_weight: Num) -> Num:
    """Steepest grade on which both brakes hold; 10 if they would hold it anywhere."""
    sine = 2.0 * wheel_parking_torque / (tire_radius * vehicle_weight)
    held = np.minimum(sine, 0.995037)
    result: Num = held / np.sqrt(1.0 - held * held)
    return result


@formula("q_u", "ratio", source="load on the rear tires on a slope (closed form)")
def grade_by_grip_nose_up(
    tire_grip: Num, rear_weight_share: Num, cg_height: Num, wheelbase: Num
) -> Num:
    """Steepest grade on which the braked rear tires do not slide, nose up the hill."""
    return tire_grip * rear_weight_share / np.maximum(1.0 - tire_grip * cg_height / wheelbase, 0.1)


@formula("q_d", "ratio", source="load on the rear tires on a slope (closed form)")
def grade_by_grip_nose_down(
    tire_grip: Num, rear_weight_share: Num, cg_height: Num, wheelbase: Num
) -> Num:
    """Steepest grade on which the braked rear tires do not slide, nose down the hill."""
    return tire_grip * rear_weight_share / (1.0 + tire_grip * cg_height / wheelbase)


@dataclass(frozen=True)
class Parking:
    """Steepest grades of a parking brake.  Numbers, or arrays of samples."""

    by_brakes: Num
    by_grip_nose_up: Num
    by_grip_nose_down: Num

    @property
    def steepest(self) -> Num:
        """Steepest grade on which the car stands either way round."""
        return least(
            "steepest_grade", "q", "ratio", brakes=self.by_brakes,
            tires_nose_up=self.by_grip_nose_up, tires_nose_down=self.by_grip_nose_down,
        )  # fmt: skip

    def chance(self, grade: float) -> float:
        """Share of the samples that hold on a grade."""
        return float(np.mean(np.asarray(self.steepest) >= grade))

    @property
    def cautions(self) -> tuple[str, ...]:
        """What must be said beside the answer."""
        said = [
            "A worked-out parking brake proves nothing: try it on a real slope with wheels ready "
            "to be chocked, and have it inspected as the local rules ask.",
        ]
        if np.any(np.asarray(self.by_grip_nose_down) < np.asarray(self.by_brakes)):
            said.append("Nose down the hill the rear tires slide before the brake lets go.")
        return tuple(said)


def parking(
    wheel_parking_torque: Num, tire_radius: Num, vehicle_weight: Num, tire_grip: Num,
    rear_weight_share: Num, cg_height: Num, wheelbase: Num,
) -> Parking:  # fmt: skip
    """How steep a grade the car can be left on."""
    car = (tire_grip, rear_weight_share, cg_height, wheelbase)
    return Parking(
        grade_by_brakes(wheel_parking_torque, tire_radius, vehicle_weight),
        grade_by_grip_nose_up(*car),
        grade_by_grip_nose_down(*car),
    )
