"""Every key of a build file with its meaning, default, source and limits.

The commented template (``axlewright new``), the reference page and the checks all come from here.
A key without a default takes it from the catalogue class that the build names; it then says so.
"""

from __future__ import annotations

from typing import Literal

from axlewright.build.model_angles import Angles, Slip, Tunnel
from axlewright.build.model_brakes import Brakes
from axlewright.build.model_centre import Centre
from axlewright.build.model_ends import Ends
from axlewright.build.model_fit import Fit
from axlewright.build.model_gears import Gears
from axlewright.build.model_points import Bushes, Points
from axlewright.build.model_wheel import Wheel
from axlewright.quantities.fields import (
    Angle,
    Area,
    Count,
    Distance,
    Inertia,
    Length,
    Mass,
    Power,
    Pressure,
    Ratio,
    Rotation,
    ShortTime,
    Stiffness,
    Temperature,
    ThermalConductance,
    Torque,
    TorsionalStiffness,
    Volume,
    key,
)
from axlewright.quantities.sections import Section

_PRACTICE = "common practice, no source"
_MEMORY = "from memory"


class Car(Section):
    """Weights and dimensions that decide how much the rear tires can push."""

    weight: Mass = key(
        "Weight of the car ready to run, with driver and fuel.",
        example="3650 lb", default="3500 ± 500 lb", because=_PRACTICE,
        usual=("1600 lb", "7000 lb"), possible=("600 lb", "20000 lb"),
        advice="Weigh it on a public scale, driver and fuel in.", first=True, stated_spread="2 %",
    )  # fmt: skip
    rear_weight: Mass = key(
        "Weight on the rear wheels, if weighed by axle.",
        example="1660 lb", possible=("100 lb", "15000 lb"),
        advice="Weigh the rear axle alone on a level scale.", stated_spread="2 %",
    )  # fmt: skip
    front_weight: Mass = key(
        "Weight on the front wheels, if weighed by axle.",
        example="1990 lb", possible=("100 lb", "15000 lb"),
        advice="Weigh the front axle alone on a level scale.", stated_spread="2 %",
    )  # fmt: skip
    rear_share: Ratio = key(
        "Share of the weight on the rear wheels, if not weighed.",
        example="46 %", default="46 ± 4 %", because=_PRACTICE,
        usual=("38 %", "58 %"), possible=("15 %", "85 %"),
        advice="Weigh each axle on a level scale.", stated_spread="3 %",
    )  # fmt: skip
    wheelbase: Length = key(
        "Front to rear wheel centre.", example="108 in", default="108 ± 8 in", because=_PRACTICE,
        usual=("84 in", "150 in"), possible=("50 in", "250 in"),
        advice="Tape from hub centre to hub centre.", stated_spread="0.5 %",
    )  # fmt: skip
    cg_height: Length = key(
        "Height of the centre of gravity above ground.",
        example="21 in", default="21 ± 2.5 in", because=_PRACTICE,
        usual=("14 in", "34 in"), possible=("8 in", "60 in"),
        advice="Weigh the front axle level and again with the rear raised; or 40 % of roof height.",
        stated_spread="8 %",
    )  # fmt: skip
    track: Length = key(
        "Rear track, tire centre to tire centre.",
        example="59 in", default="58 ± 3 in", because=_PRACTICE,
        usual=("45 in", "75 in"), possible=("30 in", "110 in"),
        advice="Tape between the tread centres of the rear tires.", stated_spread="1 %",
    )  # fmt: skip
    drag_area: Area = key(
        "Drag coefficient times frontal area; for launch and run, not for the load path.",
        example="9 ft^2", default="7 to 11 ft^2", because=_PRACTICE,
        usual=("4 ft^2", "20 ft^2"), possible=("1 ft^2", "60 ft^2"),
        advice="Coast down from 70 mph on a level road and log the speed.",
    )  # fmt: skip
    driven: Literal["rear", "front", "all"] = key(
        "Which wheels are driven; only a driven rear live axle is worked out.",
        choices={"rear": "rear wheels", "front": "refused", "all": "refused"},
    )  # fmt: skip
    rear_axle: Literal["live", "independent", "de Dion"] = key(
        "Form of the rear axle; only a live axle is worked out.",
        choices={"live": "solid live axle", "independent": "refused", "de Dion": "refused"},
    )  # fmt: skip


class Air(Section):
    """Air on the day, for an engine without boost."""

    pressure: Pressure = key(
        "Dry air pressure at the track (station pressure, not sea-level).",
        example="29.2 inHg", possible=("15 inHg", "33 inHg"),
    )  # fmt: skip
    temperature: Temperature = key(
        "Air temperature.", example="75 °F", possible=("-40 °F", "140 °F")
    )


class Engine(Section):
    """What the engine makes at the flywheel, and how that figure was taken."""

    torque: Torque = key(
        "Peak torque.", example="620 lbf*ft", default="400 ± 100 lbf*ft", because=_PRACTICE,
        usual=("80 lbf*ft", "1500 lbf*ft"), possible=("20 lbf*ft", "4000 lbf*ft"),
        advice="Put it on a dynamometer and keep the sheet with its correction.",
        first=True, stated_spread="6 %",
    )  # fmt: skip
    torque_speed: Rotation = key(
        "Engine speed at peak torque; for launch and run, not for the load path.",
        example="4200 rpm", default="by power_speed or rev_limit", because=_PRACTICE,
        possible=("500 rpm", "12000 rpm"),
        advice="Read it off the dynamometer sheet.",
    )  # fmt: skip
    power: Power = key(
        "Peak power; gives the torque when no torque is stated.",
        example="560 hp", possible=("20 hp", "4000 hp"), stated_spread="6 %",
    )  # fmt: skip
    power_speed: Rotation = key(
        "Engine speed at peak power.", example="5800 rpm", possible=("500 rpm", "14000 rpm")
    )
    curve: list[tuple[str, str]] | None = key(
        "Torque curve as pairs of engine speed and torque, lowest speed first.",
        example='[["2000 rpm", "380 lbf*ft"], ["4200 rpm", "620 lbf*ft"]]',
    )  # fmt: skip
    measured_at: Literal["flywheel", "wheels"] | None = key(
        "Where the figures were taken; wheel figures are raised by the loss between.",
        choices={"flywheel": "engine dynamometer", "wheels": "chassis dynamometer"},
        default={"flywheel": 1.0}, because=_PRACTICE,
    )  # fmt: skip
    wheel_loss: Ratio = key(
        "Loss between flywheel and wheels on the dynamometer day (for wheel figures).",
        example="15 %", default="15 ± 4 %", because=_PRACTICE, possible=("0 %", "40 %"),
    )  # fmt: skip
    correction: Literal["J1349", "STD", "none"] | None = key(
        "Correction of the dynamometer sheet.",
        choices={
            "J1349": "SAE J1349: 990 mbar dry, 25 °C",
            "STD": "the older standard day: 29.92 inHg, 60 °F; reads about 4 % high",
            "none": "as observed that day",
        },
        default={"J1349": 1.0}, because=_PRACTICE,
    )  # fmt: skip
    aspiration: Literal["natural", "boosted"] | None = key(
        "Whether the engine is boosted; air correction applies only without boost.",
        choices={"natural": "naturally aspirated", "boosted": "turbo- or supercharged"},
        default={"natural": 1.0}, because="taken as natural unless boost is stated",
    )  # fmt: skip
    boost: Pressure = key(
        "Manifold boost that will be run.", example="12 psi",
        usual=("0 psi", "40 psi"), possible=("0 psi", "120 psi"), stated_spread="6 %",
    )  # fmt: skip
    boost_of_figures: Pressure = key(
        "Boost at which the figures above were taken; the same as `boost` when left out.",
        example="8 psi", possible=("0 psi", "120 psi"), stated_spread="6 %",
    )  # fmt: skip
    air: Air | None = key("Air on the day.")
    motored_torque: Torque = key(
        "Drag of the engine with the throttle shut; for the launch.",
        example="70 lbf*ft", default="by peak torque", because=_MEMORY,
        possible=("1 lbf*ft", "500 lbf*ft"),
        advice="Log how fast the car slows in gear, throttle shut, against out of gear.",
    )  # fmt: skip
    inertia: Inertia = key(
        "Inertia of crank, flywheel and clutch (or flexplate and converter pump).",
        example="5.5 lb*ft^2", default="0.25 ± 0.1 kg*m^2", because=_MEMORY,
        usual=("0.05 kg*m^2", "0.8 kg*m^2"), possible=("0.01 kg*m^2", "3 kg*m^2"),
    )  # fmt: skip
    rev_limit: Rotation = key(
        "Rev limit.", example="6500 rpm", default="6200 ± 500 rpm", because=_PRACTICE,
        possible=("1500 rpm", "14000 rpm"),
    )  # fmt: skip


class Clutch(Section):
    """A dry clutch: the fuse of the driveline, if it slips in time."""

    capacity: Torque = key(
        "Torque at which the clutch slips.", example="750 lbf*ft",
        usual=("100 lbf*ft", "2000 lbf*ft"), possible=("30 lbf*ft", "5000 lbf*ft"),
        advice="Ask for the clamp load and disc size, or note the gear and rpm at which it slips.",
        stated_spread="12 %",
    )  # fmt: skip
    reserve: Ratio = key(
        "Capacity over peak engine torque, when the capacity is not known.",
        example="1.4", default="1.2 to 1.8", because=_MEMORY, possible=("0.5", "5"),
    )  # fmt: skip
    bite: ShortTime = key(
        "Time from first touch to full clamp: how long the clutch takes to bite.",
        example="60 ms",
        usual=("10 ms", "600 ms"), possible=("0 ms", "5 s"),
        advice="Film the pedal, or log engine and driveshaft speed at 100 samples a second.",
        stated_spread="30 %",
    )  # fmt: skip
    slide_ratio: Ratio = key(
        "Torque that it passes while it slides over the torque at which it lets go.",
        example="90 %", default="75 to 100 %", because=_MEMORY, possible=("30 %", "100 %"),
        advice="Ask the maker of the facing for both friction figures.",
    )  # fmt: skip


class Converter(Section):
    """A torque converter."""

    stall_speed: Rotation = key(
        "Stall speed behind this engine; for launch and run, not for the load path.",
        example="2800 rpm",
        default="2400 ± 500 rpm", because=_PRACTICE, possible=("800 rpm", "8000 rpm"),
        advice="Hold the car on a trans-brake at full throttle for a second and read the rpm.",
    )  # fmt: skip
    torque_ratio: Ratio = key(
        "Torque ratio at stall.", example="2.1", default="1.8 to 2.3", because=_MEMORY,
        usual=("1.4", "2.6"), possible=("1", "5"), stated_spread="5 %",
    )  # fmt: skip
    inertia: Inertia = key(
        "Inertia of turbine and gearbox input.", example="0.06 kg*m^2",
        default="0.06 ± 0.03 kg*m^2", because=_MEMORY, possible=("0.001 kg*m^2", "1 kg*m^2"),
    )  # fmt: skip


class Gearbox(Section):
    """Gearbox ratios and losses."""

    kind: Literal["manual", "automatic"] = key(
        "Manual with a clutch, or automatic with a converter.",
        choices={"manual": "foot clutch", "automatic": "torque converter"},
        example="manual", first=True, required=True,
    )  # fmt: skip
    ratios: list[str | float] | None = key(
        "Forward ratios, first gear first.", example="[2.97, 2.07, 1.43, 1.00, 0.80]",
        default="first gear 2.5 to 3.3 and a direct top gear", because=_PRACTICE,
        advice="Count turns of input against output, or read the gearbox's data plate.",
    )  # fmt: skip
    efficiency: Ratio = key(
        "Share of torque that passes in a low gear.", example="97 %", default="95 to 98.5 %",
        because="Gillespie, ch. 2, examples use 96.6 % (from memory)", possible=("70 %", "100 %"),
    )  # fmt: skip
    inertia: Inertia = key(
        "Inertia of the parts that turn with the input.", example="0.02 kg*m^2",
        default="0.01 to 0.04 kg*m^2", because=_MEMORY, possible=("0 kg*m^2", "1 kg*m^2"),
    )  # fmt: skip
    torque_rating: Torque = key(
        "Input torque that the gearbox is rated for by a source that you trust.",
        example="600 lbf*ft", possible=("30 lbf*ft", "5000 lbf*ft"),
    )  # fmt: skip
    band_capacity: Torque = key(
        "Torque at the input at which bands or clutches inside an automatic slip.",
        example="700 lbf*ft", possible=("30 lbf*ft", "6000 lbf*ft"),
    )  # fmt: skip
    play: Angle = key(
        "Free play of gearbox and joints at the driveshaft, in first gear.",
        example="3 deg", default="by condition of the axle", because=_MEMORY,
        usual=("0.5 deg", "8 deg"), possible=("0 deg", "30 deg"),
        advice="First gear, engine still: rock the front of the driveshaft against a protractor.",
    )  # fmt: skip
    output_spline: str | None = key(
        "Spline of output shaft and slip yoke, teeth x diametral pitch.", example="31x24",
        default="27x24", because=_PRACTICE,
    )  # fmt: skip


class Driveshaft(Section):
    """The tube between gearbox and axle and its joints."""

    tube_diameter: Length = key(
        "Outer diameter of the tube.", example="3 in", default="2.75 to 3.25 in", because=_PRACTICE,
        usual=("2 in", "5 in"), possible=("1 in", "8 in"),
        advice="Caliper over the tube away from weights and welds.", stated_spread="0.2 %",
    )  # fmt: skip
    tube_wall: Length = key(
        "Wall thickness of the tube.", example="0.083 in", default="0.065 to 0.095 in",
        because=_PRACTICE, usual=("0.049 in", "0.25 in"), possible=("0.02 in", "0.5 in"),
        advice="Ask the maker, or weigh the shaft.", stated_spread="4 %",
    )  # fmt: skip
    tube_steel: str | None = key("Catalogue steel of the tube.", example="DOM 1020")
    joint: str | None = key(
        "Universal joint by cap diameter and span.", example="1.062 x 3.625",
        default="1.062 x 3.219", because=_PRACTICE,
        advice="Caliper one cap and the length over opposite caps.",
    )  # fmt: skip
    angle: Angle = key(
        "Working angle of the joints at the launch.", example="3 deg", default="2 to 5 deg",
        because=_PRACTICE, usual=("0 deg", "8 deg"), possible=("0 deg", "30 deg"),
    )  # fmt: skip
    length: Length = key(
        "Joint centre to joint centre.", example="50 in", default="50 ± 8 in", because=_PRACTICE,
        possible=("10 in", "100 in"), stated_spread="1 %",
    )  # fmt: skip
    stiffness: TorsionalStiffness = key(
        "Torsional stiffness from gearbox output to pinion, joints and shafts counted in.",
        example="250 lbf*ft/deg", default="by its tube, with an allowance for what is before it",
        because=_MEMORY, possible=("20 lbf*ft/deg", "5000 lbf*ft/deg"),
        advice="Hold the gearbox in gear and the pinion with a torque bar; read both angles.",
    )  # fmt: skip


class Axle(Section):
    """The rear axle from pinion yoke to wheel flange."""

    ring_gear: str = key(
        "Ring-gear class by nominal diameter in inches.", example="8.5", first=True, required=True,
        advice="Measure the ring gear or see `axlewright recognise`.",
    )  # fmt: skip
    ratio: str | float | None = key(
        "Axle ratio, as a number or tooth counts ring/pinion.", example="41/11",
        default="3.08 to 3.73", because=_PRACTICE, first=True,
        advice="Turn the driveshaft and count against one wheel turn, both wheels turning.",
    )  # fmt: skip
    gear_cutting: Literal["face-milled", "face-hobbed", "unknown"] | None = key(
        "How the gear set was cut; a face-hobbed set (teeth of even depth) is not rated.",
        choices={"face-milled": "tooth depth tapers toward the toe", "face-hobbed": "not rated",
                 "unknown": "taken as face-milled with a caution"},
        default={"face-milled": 1.0}, because=_PRACTICE,
    )  # fmt: skip
    carrier: Literal["integral", "removable"] | None = key(
        "Case form: gears set in the housing (rear cover) or in a removable centre.",
        choices={"integral": "rear cover", "removable": "drops out at the front"},
        default="by ring-gear class", because="catalogue",
    )  # fmt: skip
    support: Literal["overhung", "straddle"] | None = key(
        "Pinion support: two bearings ahead of the head, or a third one behind it.",
        choices={"overhung": "two bearings", "straddle": "pilot bearing inboard of the head"},
        default="by ring-gear class", because="catalogue",
    )  # fmt: skip
    case_iron: str | None = key(
        "Case material by catalogue name: gray, nodular, or a grade.", example="nodular",
        default="by ring-gear class, usually gray", because="catalogue",
        advice="Ring it with a hammer: nodular rings, gray is dull; or file a chip.",
    )  # fmt: skip
    differential: str | None = key(
        "Differential class.", example="helical", default={"open": 0.7, "clutch": 0.3},
        because=_PRACTICE, first=True,
        advice="Jack both wheels up and turn one: see `axlewright recognise`.",
    )  # fmt: skip
    shaft: str | None = key(
        "Axle shafts by catalogue name or by your own [parts.axle_shafts] row.",
        example="31-spline alloy", default="by ring-gear class", because="catalogue", first=True,
        advice="Pull one shaft: count the splines, caliper the thinnest place.",
    )  # fmt: skip
    wheel_end: Literal["semi-floating", "full-floating"] | None = key(
        "Whether the shaft carries the wheel (semi-floating) or only turns it.",
        choices={"semi-floating": "shaft carries weight and torque",
                 "full-floating": "hub carries the weight"},
        default={"semi-floating": 1.0}, because=_PRACTICE,
    )  # fmt: skip
    retention: Literal["clip", "flange"] | None = key(
        "What holds the shaft in: a clip in the differential, or a plate at the bearing.",
        choices={"clip": "C-shaped clip at the inner end", "flange": "bolted bearing retainer"},
        default={"clip": 0.6, "flange": 0.4}, because=_PRACTICE,
    )  # fmt: skip
    wheel_lever: Length = key(
        "Tire centre plane outboard of the wheel-bearing centre; grows with wheel offset.",
        example="2.8 in", default="2.5 ± 1 in", because=_PRACTICE,
        usual=("0.5 in", "7 in"), possible=("-3 in", "15 in"),
        advice="Straightedge across the tire, tape to the bearing; add what a spacer adds.",
    )  # fmt: skip
    flange_fillet: Ratio = key(
        "Stress concentration at the bearing shoulder and flange fillet, in bending.",
        default="1.3 to 2.0", because="Shigley, shoulder fillet charts (from memory)",
        possible=("1", "5"),
    )  # fmt: skip
    tube_diameter: Length = key(
        "Outer diameter of the axle tube.", example="3 in", default="by ring-gear class",
        because="catalogue", usual=("2.25 in", "4 in"), possible=("1.5 in", "6 in"),
        stated_spread="0.3 %",
    )  # fmt: skip
    tube_wall: Length = key(
        "Wall of the axle tube.", example="0.25 in", default="by ring-gear class",
        because="catalogue", usual=("0.12 in", "0.5 in"), possible=("0.06 in", "1 in"),
        stated_spread="5 %",
    )  # fmt: skip
    tube_joint: Literal["pressed", "plug-welded", "welded"] | None = key(
        "How the tube is held in the cast centre.",
        choices={"pressed": "press fit alone", "plug-welded": "press fit and plug welds",
                 "welded": "press fit, plugs and a full weld round the tube"},
        default={"plug-welded": 1.0}, because=_PRACTICE,
        advice="Look where tube and casting meet; a paint stripe across shows any turning.",
    )  # fmt: skip
    tube_press: Length = key(
        "Diametral press fit of tube in centre.", example="0.005 in", default="0.003 to 0.007 in",
        because="common practice (0.002 in per inch of diameter), no source",
        possible=("0 in", "0.03 in"),
    )  # fmt: skip
    pinion_offset: Length = key(
        "Hypoid offset: pinion axis below ring axis.", example="1.5 in",
        default="by ring-gear class", because="catalogue", possible=("0 in", "4 in"),
    )  # fmt: skip
    wheel_bearing: str | None = key(
        "Wheel bearing by catalogue name.", example="6209",
        default="none: its rating is not judged", because=_PRACTICE,
        advice="Read the number on its ring.",
    )  # fmt: skip
    ring_dowels: Count = key(
        "Dowels between ring gear and differential case.", example="2", possible=("0", "24")
    )
    ring_dowel_diameter: Length = key(
        "Diameter of those dowels.", example="0.25 in", default="0.25 in", because=_PRACTICE,
        possible=("0.05 in", "1 in"),
    )  # fmt: skip
    condition: Literal["new", "used", "tired"] | None = key(
        "New, used and inspected, or tired: many miles of unknown history.",
        choices={"new": "new or rebuilt with new parts", "used": "used and inspected",
                 "tired": "high miles, history unknown"},
        default={"used": 1.0}, because=_PRACTICE,
    )  # fmt: skip
    found: list[str] | None = key(
        "What was found on inspection, by catalogue name (see `axlewright recognise`).",
        example='["turned tube"]',
    )  # fmt: skip
    ring_bolt_torque: Torque = key(
        "Tightening torque of the ring-gear bolts.", example="65 lbf*ft",
        default="62 ± 8 lbf*ft", because="gear-set instruction sheets for 7/16 in bolts",
        possible=("10 lbf*ft", "200 lbf*ft"),
    )  # fmt: skip
    backlash: Length = key(
        "Backlash of ring and pinion at the outside of the ring gear; for the launch.",
        example="0.008 in", default="by condition: 0.006 to 0.010 in, more when tired",
        because=_PRACTICE,
        usual=("0.003 in", "0.02 in"), possible=("0 in", "0.1 in"),
        advice="Dial gauge on the heel of a tooth, square to it, pinion held.",
    )  # fmt: skip
    yoke_play: Angle = key(
        "Free play at the pinion yoke with both wheels held; for the launch.",
        example="6 deg", usual=("1 deg", "25 deg"), possible=("0 deg", "60 deg"),
        advice="Both wheels on the ground, brake on: turn the yoke to and fro, protractor on it.",
    )  # fmt: skip
    wheel_play: Angle = key(
        "Free play of side gears and splines at one wheel; for the launch.",
        example="2 deg", default="by condition", because=_MEMORY,
        usual=("0.2 deg", "8 deg"), possible=("0 deg", "30 deg"),
        advice="Hold yoke and other wheel, rock this wheel: movement at the tread over its radius.",
    )  # fmt: skip
    left_shaft_length: Length = key(
        "Length of the left axle shaft that twists, side gear to flange; for the launch.",
        example="28.5 in", possible=("5 in", "60 in"), stated_spread="0.5 %",
        advice="Pull the shaft and tape it.",
    )  # fmt: skip
    right_shaft_length: Length = key(
        "Length of the right axle shaft that twists, side gear to flange; for the launch.",
        example="31.5 in", possible=("5 in", "60 in"), stated_spread="0.5 %",
        advice="Pull the shaft and tape it.",
    )  # fmt: skip
    mass: Mass = key(
        "Weight of the axle without wheels: housing, gears, shafts, half of its links; for"
        " the launch.",
        example="180 lb", default="by ring-gear diameter", because=_MEMORY,
        usual=("90 lb", "400 lb"), possible=("40 lb", "1500 lb"), stated_spread="4 %",
        advice="Weigh it bare, with its brakes, before it goes in.",
    )  # fmt: skip
    oil_grade: Literal["75W-90", "80W-90", "75W-110", "75W-140", "85W-140"] | None = key(
        "Viscosity grade of the axle's oil; for its temperature, in the ratio study.",
        example="80W-90",
        choices={"75W-90": "thin when cold, usually synthetic", "80W-90": "plain mineral oil",
                 "75W-110": "between a 90 and a 140, synthetic",
                 "75W-140": "thick when hot, synthetic", "85W-140": "thick mineral oil"},
        default={"80W-90": 0.5, "75W-90": 0.5}, because=_PRACTICE, advice="Read it on the bottle.",
    )  # fmt: skip
    oil_volume: Volume = key(
        "Oil in the axle; for its temperature, in the ratio study.",
        example="2 qt", default="1.6 to 2.6 qt", because=_PRACTICE,
        usual=("1 qt", "4 qt"), possible=("0.3 qt", "12 qt"),
        advice="Measure what drains out, or count what goes in up to the plug.",
    )  # fmt: skip
    cooling: ThermalConductance = key(
        "Heat that the axle gives off per degree of its oil over the air at cruise, if known.",
        example="18 W/K", possible=("2 W/K", "200 W/K"), stated_spread="15 %",
        advice="Steady readings with and without a trailer on one road: more heat, more degrees.",
    )  # fmt: skip


class Wheels(Section):
    """Rear tires and wheel studs."""

    tire: str | None = key(
        "Rear tire size as on the sidewall.", example="275/60R15", default="245/60R15",
        because=_PRACTICE, first=True, advice="Read the sidewall.",
    )  # fmt: skip
    grip_class: str | None = key(
        "Grip class of the tire.", example="drag radial",
        default={"all-season street": 0.35, "performance street": 0.65}, because=_PRACTICE,
        first=True, advice="Read the tire's treadwear grade; note the best 60-foot time.",
    )  # fmt: skip
    grip: Ratio = key(
        "Peak friction of the rear tires, if known from a launch.", example="1.3",
        usual=("0.5", "2.5"), possible=("0.1", "5"),
        advice="Work it back from a 60-foot time or a logged launch in g.", stated_spread="8 %",
    )  # fmt: skip
    studs: str | None = key(
        "Wheel studs: number x size.", example="5 x 1/2-20", default="5 x 1/2-20",
        because=_PRACTICE,
    )  # fmt: skip
    stud_circle: Length = key(
        "Bolt circle of the wheel.", example="4.75 in", default="4.75 ± 0.25 in",
        because=_PRACTICE, possible=("3 in", "9 in"),
    )  # fmt: skip
    stud_torque: Torque = key(
        "Tightening torque of the wheel nuts.", example="80 lbf*ft", default="80 ± 15 lbf*ft",
        because="service practice for 1/2 in studs", possible=("20 lbf*ft", "250 lbf*ft"),
    )  # fmt: skip
    inertia: Inertia = key(
        "Inertia of one rear wheel with tire and brake.", example="1.3 kg*m^2",
        default="0.8 to 1.6 kg*m^2", because=_MEMORY, possible=("0.1 kg*m^2", "10 kg*m^2"),
    )  # fmt: skip
    weight: Mass = key(
        "Weight of one rear wheel with tire and rotating brake; for the launch.",
        example="52 lb", default="by its inertia", because="radius of gyration, common practice",
        usual=("25 lb", "110 lb"), possible=("10 lb", "400 lb"), stated_spread="2 %",
        advice="Stand on a bathroom scale with it.",
    )  # fmt: skip
    pressure: Pressure = key(
        "Rear tire pressure at the launch: sets its vertical stiffness.",
        example="26 psi", default="by grip class", because=_PRACTICE,
        usual=("6 psi", "45 psi"), possible=("2 psi", "100 psi"),
        advice="Gauge it cold, and again at the line.", stated_spread="5 %",
    )  # fmt: skip
    tread: Literal["cold", "warm", "hot"] | None = key(
        "How warm the tread is at the launch; for the launch, not for the load path.",
        choices={"cold": "straight from the pits or on a cool day",
                 "warm": "as the grip of its class is meant",
                 "hot": "just spun in a burnout"},
        default={"warm": 1.0}, because="the grip of a class is meant for a warm tread",
    )  # fmt: skip
    tread_temperature: Temperature = key(
        "Tread temperature at the launch, in place of tread: grip is taken as that of the best one"
        " of the grip class, and falls on both sides of it.",
        example="140 °F", usual=("40 °F", "230 °F"), possible=("0 °F", "310 °F"),
        advice="Probe or infrared gun on the tread at the line, several places.",
    )  # fmt: skip


class Suspension(Section):
    """How the axle is held."""

    kind: Literal[
        "leaf", "four-link", "three-link", "torque arm", "ladder bars", "coil-link"
    ] | None = key(
        "Suspension of the live axle.",
        choices={"leaf": "leaf springs", "four-link": "four links", "three-link": "three links",
                 "torque arm": "torque arm", "ladder bars": "ladder bars",
                 "coil-link": "coil springs on factory links"},
        default={"leaf": 0.5, "coil-link": 0.5}, because=_PRACTICE,
    )  # fmt: skip
    front_roll_share: Ratio = key(
        "Front share of roll stiffness, which decides how much torque unloads one wheel.",
        example="70 %", default="60 to 85 %", because="Gillespie's example has 80 % (from memory)",
        possible=("0 %", "100 %"),
    )  # fmt: skip
    seat_inset: Length = key(
        "Spring or link seat inboard of the tire centre.", example="9 in", default="7 to 12 in",
        because=_PRACTICE, possible=("0 in", "30 in"),
    )  # fmt: skip
    anti_squat: Ratio = key(
        "Anti-squat; with the instant center's distance it sets its height. For the launch.",
        example="90 %", usual=("0 %", "200 %"), possible=("-100 %", "400 %"),
        advice="Draw the links to scale from the side, or state the instant center instead.",
    )  # fmt: skip
    instant_center_ahead: Length = key(
        "Instant center of the links ahead of the rear axle; for the launch.",
        example="45 in", default="by kind of suspension", because="catalogue",
        usual=("20 in", "200 in"), possible=("8 in", "10000 in"),
        advice="Stretch a string along upper and lower link from the side; see where they cross.",
    )  # fmt: skip
    instant_center_height: Length = key(
        "Instant center of the links above ground; for the launch.",
        example="10 in", default="by kind of suspension", because="catalogue",
        usual=("0 in", "40 in"), possible=("-100 in", "1000 in"),
        advice="Stretch a string along upper and lower link from the side; see where they cross.",
    )  # fmt: skip
    mount_stiffness: Stiffness = key(
        "Stiffness of the axle fore and aft, both sides together; decides wheel hop.",
        example="2.0 kN/mm", default="by kind of suspension", because="catalogue",
        possible=("0.05 kN/mm", "200 kN/mm"),
        advice="Pull the axle with a chain hoist and scale; dial gauge between axle and body.",
    )  # fmt: skip
    mount_height: Length = key(
        "Where the thrust acts on the axle: above the axle line, or below with a minus.",
        example="1 in", default="-2 to 2 in", because=_PRACTICE,
        usual=("-6 in", "6 in"), possible=("-20 in", "20 in"),
    )  # fmt: skip
    windup_stiffness: TorsionalStiffness = key(
        "Stiffness of the housing against winding up; decides wheel hop.",
        example="18 kN*m/rad", default="by kind of suspension", because="catalogue",
        possible=("1 kN*m/rad", "5000 kN*m/rad"),
        advice="Or state windup_torque and windup_angle.",
    )  # fmt: skip
    windup_torque: Torque = key(
        "Axle torque that was held while windup_angle was read.",
        example="1000 lbf*ft", possible=("50 lbf*ft", "20000 lbf*ft"),
        advice="Torque bar on the pinion yoke, wheels held: its reading times the axle ratio.",
    )  # fmt: skip
    windup_angle: Angle = key(
        "How far the nose of the housing rose under windup_torque.",
        example="3 deg", possible=("0.1 deg", "25 deg"),
        advice="Protractor on the yoke's flange or the cover, before and under torque.",
    )  # fmt: skip
    roll_torque_share: Ratio = key(
        "Share of the driveshaft torque that the links do not cancel in roll.",
        example="100 %", default="by kind of suspension", because="catalogue",
        possible=("-100 %", "200 %"),
    )  # fmt: skip
    front_frequency: Rotation = key(
        "How fast the front bounces, in bounces a minute (write 80 1/min); for the launch.",
        example="80 1/min", default="70 to 105 1/min", because=_PRACTICE,
        usual=("50 1/min", "180 1/min"), possible=("30 1/min", "330 1/min"),
        advice="188 times the root of wheel rate in lb/in over the load on that wheel in lb.",
    )  # fmt: skip
    rear_frequency: Rotation = key(
        "How fast the rear bounces, in bounces a minute (write 90 1/min); for the launch.",
        example="90 1/min", default="75 to 115 1/min", because=_PRACTICE,
        usual=("50 1/min", "180 1/min"), possible=("30 1/min", "330 1/min"),
        advice="188 times the root of wheel rate in lb/in over the load on that spring in lb.",
    )  # fmt: skip
    front_damping: Ratio = key(
        "Damping ratio of the front: 100 % just does not overshoot.",
        example="25 %", default="15 to 40 %", because=_PRACTICE, possible=("0 %", "150 %"),
        advice="Push the front down and let go, filmed: count how the swings die away.",
    )  # fmt: skip
    rear_damping: Ratio = key(
        "Damping ratio of the rear: 100 % just does not overshoot.",
        example="30 %", default="15 to 45 %", because=_PRACTICE, possible=("0 %", "150 %"),
        advice="Push the rear down and let go, filmed: count how the swings die away.",
    )  # fmt: skip
    lean: Angle = key(
        "Lean of the body at one g of cornering.",
        example="5 deg", default="3.5 to 7 deg", because=_PRACTICE,
        usual=("1 deg", "10 deg"), possible=("0.6 deg", "16 deg"),
        advice="Film it from behind on a skid pad; scale to one g.",
    )  # fmt: skip
    bracket_weld: Length = key(
        "Length of the weld along each side of a bracket or spring perch.",
        example="4 in", default="3 to 5 in",
        because=_PRACTICE, possible=("0.5 in", "40 in"),
    )  # fmt: skip
    weld_leg: Length = key(
        "Leg of that fillet weld.", example="3/16 in", default="0.14 to 0.22 in",
        because=_PRACTICE, possible=("0.05 in", "1 in"),
    )  # fmt: skip


class Use(Section):
    """What the car does."""

    launch: Literal[
        "gentle", "slip", "dump", "two-step", "foot-brake", "trans-brake", "neutral drop"
    ] | None = key(
        "Hardest launch that will be made.",
        choices={
            "gentle": "let in slowly, then full throttle",
            "slip": "clutch slipped in on purpose",
            "dump": "foot off the side of the pedal",
            "two-step": "rpm held by a limiter, clutch dropped",
            "foot-brake": "stalled on the brake, then let go",
            "trans-brake": "stalled on a transmission brake, then released",
            "neutral drop": "put into gear at high rpm; nothing forgives it",
        },
        default="slip (manual) or foot-brake (automatic)", because=_PRACTICE, first=True,
    )  # fmt: skip
    launch_speed: Rotation = key(
        "Engine speed at the launch.", example="4500 rpm",
        usual=("700 rpm", "7000 rpm"), possible=("500 rpm", "12000 rpm"),
        default="by the kind of launch", because=_PRACTICE, stated_spread="5 %",
    )  # fmt: skip
    surface: Literal["street", "strip"] | None = key(
        "Surface of the hardest launches.",
        choices={"street": "clean dry road", "strip": "prepared, warm strip"},
        default={"street": 1.0}, because=_PRACTICE,
    )  # fmt: skip
    launches: Count = key(
        "Hard launches wanted from the parts.", example="300", default="50 to 1000",
        because=_PRACTICE, possible=("0", "1e6"),
    )  # fmt: skip
    burnouts: bool | None = key(
        "Spins the tires in water, then drives onto dry.", default={"no": 1.0}, because=_PRACTICE
    )
    wet_grip: Ratio = key(
        "Grip in the burnout water over grip on the dry; for the launch.",
        example="45 %", default="25 to 60 %", because=_MEMORY, possible=("2 %", "100 %"),
    )  # fmt: skip
    street_distance: Distance = key(
        "Street miles wanted from the parts; kept for the life study, not used by the load path.",
        example="30000 mi", default="10000 to 50000 mi",
        because=_PRACTICE, possible=("0 mi", "1e6 mi"),
    )  # fmt: skip
    hot_day: Temperature = key(
        "Air on the hottest day that the car cruises on; for the axle's oil.",
        example="95 °F", default="86 to 104 °F", because=_PRACTICE,
        usual=("50 °F", "115 °F"), possible=("-40 °F", "140 °F"),
    )  # fmt: skip
    towing: Mass = key(
        "Trailer weight that is towed: loads the gear set on long grades.",
        example="2000 lb",
        possible=("0 lb", "20000 lb"),
    )


class Driver(Section):
    """What the driver does at the line and between gears: for launch and run."""

    throttle_time: ShortTime = key(
        "Time in which the throttle opens.", example="150 ms", default="100 to 350 ms",
        because=_MEMORY, usual=("30 ms", "1 s"), possible=("0 ms", "10 s"),
        advice="Log throttle position.",
    )  # fmt: skip
    brake_time: ShortTime = key(
        "Time in which the foot brake lets go.", example="100 ms", default="50 to 250 ms",
        because=_MEMORY, possible=("0 ms", "5 s"), advice="Log brake pressure.",
    )  # fmt: skip
    trans_brake_time: ShortTime = key(
        "Time in which the trans-brake lets go.", example="40 ms", default="15 to 80 ms",
        because=_MEMORY, possible=("0 ms", "2 s"),
        advice="Log turbine or driveshaft speed from the moment the button is let go.",
    )  # fmt: skip
    shift_time: ShortTime = key(
        "Time of a shift: without drive (manual), or until the next gear holds (automatic).",
        example="350 ms", default="by gearbox: 250 to 700 ms manual, 150 to 600 ms automatic",
        because=_MEMORY, usual=("30 ms", "1.5 s"), possible=("0 ms", "5 s"),
        advice="Log engine and driveshaft speed at 100 samples a second.",
    )  # fmt: skip
    shift_speed: Rotation = key(
        "Engine speed at which the driver shifts.", example="6200 rpm",
        default="by rev limit: 92 to 99 % of it", because=_PRACTICE,
        possible=("800 rpm", "14000 rpm"), advice="Watch the tachometer, or log it.",
        stated_spread="2 %",
    )  # fmt: skip
    rollout: Length = key(
        "How far the car rolls from its place at the line until the clock starts.",
        example="11 in", default="11 ± 2 in", because=_MEMORY,
        usual=("6 in", "14 in"), possible=("0 in", "24 in"),
    )  # fmt: skip


class Build(Section):
    """A whole build file."""

    format: int = key("Format of this file.", example="1", required=True)
    name: str | None = key("Name of the build.", example="Copper Wren")
    note: str | None = key("Anything worth remembering.")
    car: Car | None = key("The car.")
    engine: Engine | None = key("The engine.")
    clutch: Clutch | None = key("The clutch (manual gearbox).")
    converter: Converter | None = key("The torque converter (automatic gearbox).")
    gearbox: Gearbox = key("The gearbox.", required=True)
    driveshaft: Driveshaft | None = key("The driveshaft.")
    axle: Axle = key("The rear axle.", required=True)
    gears: Gears | None = key("How the gear pair was cut, set and is held.")
    wheels: Wheels | None = key("Rear wheels and tires.")
    brakes: Brakes | None = key("Brakes.")
    suspension: Suspension | None = key("Rear suspension.")
    use: Use | None = key("What the car does.")
    driver: Driver | None = key("What the driver does at the line and between gears.")
    fit: Fit | None = key("Readings of the whole car for wheel, tire and axle width.")
    wheel: Wheel | None = key("The new wheel with its tire.")
    ends: Ends | None = key("Housing ends with bearing, retainer, brake and flange.")
    centre: Centre | None = key("The new axle's center and known widths.")
    points: Points | None = key("Points of the rear suspension.")
    bushes: Bushes | None = key("Stiffness of links and springs.")
    angles: Angles | None = key("Gauge readings of the driveline.")
    slip: Slip | None = key("The slip joint at the gearbox.")
    tunnel: Tunnel | None = key("Room round the driveshaft.")
    parts: dict[str, dict[str, dict[str, object]]] | None = key(
        'Your own catalogue rows: [parts.axle_shafts."mine"] with the same keys as the catalogue.'
    )
