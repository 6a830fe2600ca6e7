"""Keys of the brakes: what the rear ones ask of the housing, and what locks first."""

from __future__ import annotations

from typing import Literal

from axlewright.build.model_fit import MEMORY, PRACTICE
from axlewright.quantities.fields import (
    Angle,
    Area,
    Force,
    Length,
    LengthReadings,
    Pressure,
    Ratio,
    key,
)
from axlewright.quantities.sections import Section

_DISC = {"disc": "rotor and caliper", "drum": "shoes in a drum"}


class Brakes(Section):
    """Brakes of both axles and the parking brake."""

    rear_share: Ratio = key(
        "Share of the braking done by the rear axle.", example="30 %", default="25 to 40 %",
        because=PRACTICE, possible=("0 %", "100 %"),
    )  # fmt: skip
    rear_kind: Literal["disc", "drum"] | None = key(
        "Rear service brake.", choices=_DISC, default={"drum": 0.5, "disc": 0.5}, because=PRACTICE,
    )  # fmt: skip
    front_kind: Literal["disc", "drum"] | None = key(
        "Front service brake.", choices=_DISC, default={"disc": 1.0}, because=PRACTICE,
    )  # fmt: skip
    rear_radius: LengthReadings = key(
        "Effective radius at the rear: axle center to the middle of the pad, or half the drum.",
        example="4.8 in", usual=("3.5 in", "7 in"), possible=("2 in", "12 in"),
        advice="Rotor: from its center to half the pad's height. Drum: half its inner diameter.",
    )  # fmt: skip
    front_radius: LengthReadings = key(
        "Effective radius at the front: wheel center to the middle of the pad, or half the drum.",
        example="4.7 in", usual=("3.5 in", "7 in"), possible=("2 in", "12 in"),
        advice="Rotor: from its center to half the pad's height. Drum: half its inner diameter.",
    )  # fmt: skip
    rear_piston_area: Area = key(
        "Piston area that presses one pad, or the shoes, of one rear wheel: all pistons of one"
        " side of the caliper, or one bore of the wheel cylinder.",
        example="2.2 in^2", usual=("0.4 in^2", "5 in^2"), possible=("0.1 in^2", "20 in^2"),
        advice="0.785 times the bore squared; a caliper of two facing sides counts one side.",
    )  # fmt: skip
    front_piston_area: Area = key(
        "Piston area that presses one pad, or the shoes, of one front wheel.",
        example="6.8 in^2", usual=("0.6 in^2", "9 in^2"), possible=("0.1 in^2", "30 in^2"),
        advice="0.785 times the bore squared; a caliper of two facing sides counts one side.",
    )  # fmt: skip
    rear_friction: Ratio = key(
        "Friction of the rear pads or shoes.", example="40 %", default="32 to 45 %",
        because=MEMORY, usual=("20 %", "60 %"), possible=("5 %", "120 %"), stated_spread="10 %",
        advice="Ask the pad's maker for the friction when warm.",
    )  # fmt: skip
    front_friction: Ratio = key(
        "Friction of the front pads or shoes.", example="40 %", default="32 to 45 %",
        because=MEMORY, usual=("20 %", "60 %"), possible=("5 %", "120 %"), stated_spread="10 %",
        advice="Ask the pad's maker for the friction when warm.",
    )  # fmt: skip
    rear_drum_factor: Ratio = key(
        "Drum only: drag of both shoes over the push of one end of the wheel cylinder.",
        example="2.5", default="1.8 to 3.5", because="one leading shoe about 2, two servo shoes"
        " more; from memory", usual=("1.2", "6"), possible=("0.5", "12"),
    )  # fmt: skip
    line_pressure: Pressure = key(
        "Line pressure of a hard stop.", example="1000 psi", default="800 to 1200 psi",
        because=MEMORY, usual=("400 psi", "1800 psi"), possible=("50 psi", "4000 psi"),
        advice="Gauge at a bleeder, engine running, hard foot.",
    )  # fmt: skip
    knee_pressure: Pressure = key(
        "Line pressure from which the rear gets only a part more; none if there is no valve.",
        example="500 psi", usual=("150 psi", "900 psi"), possible=("0 psi", "4000 psi"),
        advice="Gauges at a front and a rear bleeder: where they part.",
    )  # fmt: skip
    knee_share: Ratio = key(
        "Part of further line pressure that the rear gets above the knee.",
        example="43 %", default="30 to 60 %", because=MEMORY, possible=("0 %", "100 %"),
        advice="Gauges at a front and a rear bleeder: slope above the knee.",
    )  # fmt: skip
    parking: Literal["drum", "shoes in the hat", "caliper lever", "none"] | None = key(
        "Parking brake at the rear.",
        choices={"drum": "a lever spreads the drum's shoes",
                 "shoes in the hat": "small shoes inside the rotor",
                 "caliper lever": "a lever turns the caliper's piston out",
                 "none": "none fitted; most road rules want one"},
        default={"drum": 1.0}, because=PRACTICE,
    )  # fmt: skip
    parking_radius: LengthReadings = key(
        "Effective radius of the parking brake: half its drum, or the middle of the pad.",
        example="3.4 in", usual=("2.5 in", "7 in"), possible=("1 in", "12 in"),
        advice="Half the inner diameter of its drum.",
    )  # fmt: skip
    parking_factor: Ratio = key(
        "Drag at the parking brake's radius over the push on one shoe or pad.",
        example="1.6", default="by kind of parking brake", because=MEMORY,
        usual=("0.5", "5"), possible=("0.1", "12"),
    )  # fmt: skip
    lever_force: Force = key(
        "Hand or foot force on the parking lever.", example="70 lbf", default="60 to 90 lbf",
        because=MEMORY, usual=("20 lbf", "160 lbf"), possible=("5 lbf", "400 lbf"),
        advice="Fish scale on the grip.",
    )  # fmt: skip
    lever_ratio: Ratio = key(
        "Way of the lever's grip over way of the cable behind it.", example="7",
        default="5 to 9", because=MEMORY, usual=("3", "15"), possible=("1", "40"),
        advice="Tape both ways.",
    )  # fmt: skip
    wheel_lever_ratio: Ratio = key(
        "Way of the cable at one wheel over way of the shoe or pad there.", example="5",
        default="3 to 7", because=MEMORY, usual=("2", "15"), possible=("0.5", "60"),
        advice="Tape both ways at the backing plate or caliper.",
    )  # fmt: skip
    cable_efficiency: Ratio = key(
        "Share of the lever's pull that reaches one wheel, the other wheel's half not counted.",
        example="70 %", default="50 to 85 %", because=MEMORY, possible=("5 %", "100 %"),
        advice="Fish scale at the wheel end against the lever end, both wheels added.",
    )  # fmt: skip
    grade: Angle = key(
        "Slope that the parking brake has to hold.", example="11.3 deg", default="11.3 deg",
        because="20 % grade, as type approvals ask; from memory",
        usual=("5 deg", "17 deg"), possible=("0 deg", "30 deg"),
    )  # fmt: skip
    hose_free: Length = key(
        "Free length of the rear brake hose between its fittings.", example="14 in",
        usual=("6 in", "30 in"), possible=("2 in", "60 in"), advice="Tape along the hose.",
    )  # fmt: skip
