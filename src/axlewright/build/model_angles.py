"""Keys of angles, slip and tunnel: the driveshaft as it stands in the car."""

from __future__ import annotations

from typing import Literal

from axlewright.build.model_fit import MEMORY
from axlewright.quantities.fields import Angle, AngleReadings, Count, Length, LengthReadings, key
from axlewright.quantities.sections import Section

_USUAL = ("-8 deg", "10 deg")
_POSSIBLE = ("-40 deg", "40 deg")
_GAUGE = "Read to a quarter degree on a machined face; turn the gauge end for end and take both."


class Angles(Section):
    """Gauge readings: + when the front end is the higher one; driver in, weight on the tires."""

    state: Literal["ride height", "stands at ride height", "hanging"] | None = key(
        "How the car stood when the angles were read.",
        choices={"ride height": "weight on the tires, driver or ballast in",
                 "stands at ride height": "axle on stands, body loaded to ride height",
                 "hanging": "wheels hanging: these angles do not count"},
        default={"ride height": 1.0}, because="what the keys ask for",
    )  # fmt: skip
    gearbox: AngleReadings = key(
        "Slope of engine and gearbox as the gauge shows it: + when the tail hangs down.",
        example="3 deg", usual=_USUAL, possible=_POSSIBLE,
        advice=f"On the harmonic damper's face, oil pan rail or output cap. {_GAUGE}",
    )  # fmt: skip
    driveshaft: AngleReadings = key(
        "Slope of the driveshaft as the gauge shows it: + when its front is the higher end.",
        example="2 deg", usual=_USUAL, possible=_POSSIBLE,
        advice=f"Along the tube, clear of welds and weights. {_GAUGE}",
    )  # fmt: skip
    pinion: AngleReadings = key(
        "Slope of the pinion as the gauge shows it: - when the nose points down.",
        example="1 deg", usual=_USUAL, possible=_POSSIBLE,
        advice=f"On the yoke's cap or face, or square on the carrier's face. {_GAUGE}",
    )  # fmt: skip
    floor: AngleReadings = key(
        "Slope of the floor that the car stands on, by the gauge along the car: + when it rises"
        " toward the front.",
        example="0 deg", default="-0.3 to 0.3 deg", because="garage floors fall to a drain;"
        " from memory", usual=("-1.5 deg", "1.5 deg"), possible=("-8 deg", "8 deg"),
        advice="Straight bar along the wheelbase on the floor, gauge on it.",
    )  # fmt: skip
    gauge_zero: AngleReadings = key(
        "Slope against level of the place where the gauge was zeroed; 0 if it shows level itself.",
        example="0 deg", default="0 deg", because="most gauges show level",
        usual=("-2 deg", "2 deg"), possible=("-30 deg", "30 deg"),
        advice="Say so if it was zeroed on a rail or the floor.",
    )  # fmt: skip
    gauge_error: Angle = key(
        "Zero error of the gauge: what it shows on a level surface.",
        example="0.1 deg", default="-0.2 to 0.2 deg",
        because="angle gauges of the shop, from memory", possible=("-5 deg", "5 deg"),
        advice="Half the difference of both readings end for end.",
    )  # fmt: skip
    pinion_loaded: AngleReadings = key(
        "Slope of the pinion under full pull against the car's floor line, from a camera or"
        " sender on the launch.",
        example="4 deg", usual=("-8 deg", "15 deg"), possible=_POSSIBLE,
        advice="Stripe on the axle, camera fixed to the body; frame at the hardest pull.",
    )  # fmt: skip
    pinion_rise: AngleReadings = key(
        "How far the pinion's nose rises from rest to full pull.",
        example="3 deg", default="by kind of suspension and bushes", because="trade's allowances",
        usual=("0 deg", "10 deg"), possible=("-5 deg", "25 deg"),
        advice="Loaded slope less slope at rest, both against the body.",
    )  # fmt: skip
    gearbox_left: LengthReadings = key(
        "Joint center at the gearbox, left of the car's center plane; minus to the right.",
        example="-1 in", usual=("-4 in", "4 in"), possible=("-20 in", "20 in"),
        advice="Plumb bob to the floor, tape to the center line between both rails.",
    )  # fmt: skip
    pinion_left: LengthReadings = key(
        "Joint center at the pinion, left of the car's center plane; minus to the right.",
        example="-1 in", usual=("-4 in", "4 in"), possible=("-20 in", "20 in"),
        advice="Plumb bob to the floor, tape to the center line between both rails.",
    )  # fmt: skip
    gearbox_plan: AngleReadings = key(
        "Gearbox line seen from above: + when its front is further left.",
        example="0 deg", default="-0.5 to 0.5 deg", because=MEMORY,
        usual=("-3 deg", "3 deg"), possible=_POSSIBLE,
        advice="Plumb bobs off damper and output; slope of that line against the car's.",
    )  # fmt: skip
    pinion_plan: AngleReadings = key(
        "Pinion line seen from above: + when its front is further left.",
        example="0 deg", default="-0.5 to 0.5 deg", because=MEMORY,
        usual=("-3 deg", "3 deg"), possible=_POSSIBLE,
        advice="Square off the axle tube; it is square to it unless the housing is bent.",
    )  # fmt: skip
    joint_to_joint: LengthReadings = key(
        "Joint center at the gearbox to joint center at the pinion. Ride height.",
        example="54 in", usual=("36 in", "68 in"), possible=("10 in", "100 in"),
        advice="Rod between the crosses; the axle where it will sit.",
    )  # fmt: skip
    seal_to_joint: LengthReadings = key(
        "Seal face of the gearbox's tail to the joint center at the pinion. Ride height.",
        example="58 3/8 in", usual=("38 in", "74 in"), possible=("10 in", "110 in"),
        advice="Rod from the seal's metal face to the cap's middle.",
    )  # fmt: skip
    gearbox_height: LengthReadings = key(
        "Ground up to the joint center at the gearbox. Ride height.",
        example="14 in", usual=("7 in", "22 in"), possible=("2 in", "40 in"),
        advice="Tape from the floor.",
    )  # fmt: skip
    pinion_height: LengthReadings = key(
        "Ground up to the joint center at the pinion. Ride height.",
        example="12 in", usual=("7 in", "20 in"), possible=("2 in", "40 in"),
        advice="Tape from the floor.",
    )  # fmt: skip
    phase: AngleReadings = key(
        "Twist between the yokes at both ends of the driveshaft, seen along it.",
        example="0 deg", default="-1.5 to 1.5 deg", because=MEMORY,
        usual=("-3 deg", "3 deg"), possible=("-90 deg", "90 deg"),
        advice="Shaft on the bench on V blocks: gauge on both yokes.",
    )  # fmt: skip


class Slip(Section):
    """The slip joint at the gearbox."""

    bottomed_reach: LengthReadings = key(
        "Seal face of the gearbox's tail to the joint center, yoke pushed in until it bottoms.",
        example="3.5 in", usual=("1.5 in", "8 in"), possible=("0.3 in", "20 in"),
        advice="Push it home by hand, square or rule along it.",
    )  # fmt: skip
    reach: LengthReadings = key(
        "Seal face to the joint center as the yoke stands in the car. Ride height.",
        example="4 3/8 in", usual=("2 in", "10 in"), possible=("0.3 in", "25 in"),
        advice="Rule along the yoke.",
    )  # fmt: skip
    gap: LengthReadings = key(
        "How far the yoke stands out from where it bottoms. Ride height.",
        example="7/8 in", default="0.75 to 1 in", because=MEMORY,
        usual=("0.4 in", "2 in"), possible=("0 in", "8 in"),
        advice="Mark the bottomed yoke at the seal, pull it out, measure from the mark.",
    )  # fmt: skip
    spline_length: LengthReadings = key(
        "Length of spline that is engaged when the yoke is bottomed.",
        example="4 in", usual=("2.5 in", "7 in"), possible=("0.5 in", "20 in"),
        advice="Length of the output's spline that the yoke covers.",
    )  # fmt: skip
    spline_diameter: LengthReadings = key(
        "Outer diameter of the output's spline.", example="1.2 in",
        usual=("0.9 in", "1.8 in"), possible=("0.5 in", "4 in"), advice="Caliper.",
    )  # fmt: skip
    least_engagement: Count = key(
        "Spline diameters that must stay engaged at any height.", example="2", default="2",
        because=MEMORY, possible=("0.5", "6"),
    )  # fmt: skip
    least_free: Length = key(
        "Free way that must be left before the yoke bottoms, at any height.",
        example="0.25 in", default="0.25 in", because=MEMORY, possible=("0 in", "3 in"),
    )  # fmt: skip


class Tunnel(Section):
    """Room round the driveshaft at its narrowest place: old shaft in, ride height."""

    ahead: LengthReadings = key(
        "Joint center at the pinion forward to the narrowest place.", example="30 in",
        usual=("0 in", "60 in"), possible=("-5 in", "100 in"), advice="Tape along the shaft.",
    )  # fmt: skip
    above: LengthReadings = key(
        "Center line of the shaft up to the tunnel there.", example="4 in",
        usual=("2 in", "8 in"), possible=("0.5 in", "20 in"),
        advice="Gap to the tube plus half of its diameter.",
    )  # fmt: skip
    below: LengthReadings = key(
        "Center line of the shaft down to loop, crossmember or exhaust there.", example="4 in",
        usual=("2 in", "12 in"), possible=("0.5 in", "30 in"),
        advice="Gap to the tube plus half of its diameter.",
    )  # fmt: skip
    left: LengthReadings = key(
        "Center line of the shaft left to the nearest thing there.", example="4 in",
        usual=("2 in", "10 in"), possible=("0.5 in", "30 in"),
        advice="Gap to the tube plus half of its diameter.",
    )  # fmt: skip
    right: LengthReadings = key(
        "Center line of the shaft right to the nearest thing there.", example="4 in",
        usual=("2 in", "10 in"), possible=("0.5 in", "30 in"),
        advice="Gap to the tube plus half of its diameter.",
    )  # fmt: skip
