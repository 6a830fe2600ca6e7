"""What a row of each catalogue table says."""

from __future__ import annotations

from typing import Literal

from axlewright.quantities.fields import (
    Angle,
    Count,
    Density,
    Force,
    KinematicViscosity,
    Length,
    LoadSensitivity,
    Modulus,
    Pitch,
    Pressure,
    Ratio,
    Stiffness,
    Stress,
    Temperature,
    TemperatureRise,
    Torque,
    TorsionalStiffness,
    Toughness,
    key,
)
from axlewright.quantities.sections import Section


class Row(Section):
    """Any row: it says where it comes from."""

    means: str = key("What it is, in plain words.", required=True)
    source: str = key("Where the figures come from.", required=True)


class Iron(Row):
    """A case material: gray and nodular irons, and what replaces them."""

    tensile_strength: Stress = key("Ultimate tensile strength.", example="31 ksi", required=True)
    compressive_strength: Stress = key("Ultimate compressive strength.", example="109 ksi")
    yield_strength: Stress = key("0.2 % yield strength; gray iron has none.", example="45 ksi")
    youngs_modulus: Modulus = key("Young's modulus.", example="14 to 16 Mpsi", required=True)
    endurance_limit: Stress = key("Rotating-bending endurance limit.", example="14 ksi")
    elongation: Ratio = key("Elongation at fracture.", example="12 %", required=True)
    toughness: Toughness = key("Plane-strain fracture toughness.", example="15 MPa*m^0.5")
    brittle: bool = key("Judged as brittle (fracture) rather than ductile (yield).", required=True)
    scatter: Ratio = key("Standard deviation of strength over its value.", example="8 %")


class Steel(Row):
    """A shaft, gear or tube steel with its heat treatment."""

    treatment: Literal["through", "induction", "carburized", "none"] = key(
        "How it is hardened.", required=True
    )
    tensile_strength: Stress = key("Ultimate tensile strength of the core.", required=True)
    yield_strength: Stress = key("Tensile yield strength of the core.", required=True)
    surface_hardness: Count = key("Rockwell C of the surface.", example="52 to 58")
    core_hardness: Count = key("Rockwell C of the core.", example="20 to 30")
    case_depth_share: Ratio = key("Effective case depth over diameter.", example="0.10 to 0.20")
    fatigue_coefficient: Stress = key("Fatigue strength coefficient σf′ of the Basquin line.")
    fatigue_exponent: Ratio = key("Fatigue strength exponent b of the Basquin line.")
    scatter: Ratio = key("Standard deviation of strength over its value.", example="5 %")


class Spline(Row):
    """An involute spline size; its diameters are computed from the standard."""

    teeth: Count = key("Number of teeth.", example="31", required=True)
    pitch: Pitch = key("Diametral pitch.", example="24 1/in", required=True)
    root: Literal["flat", "fillet"] = key("Root form.", required=True)
    pressure_angle: Angle = key("Pressure angle.", example="30 deg", required=True)


class AxleShaft(Row):
    """An axle shaft as one meets it: spline, smallest body, bearing seat, steel."""

    spline: str = key("Name of the spline size.", example="31x24", required=True)
    body_diameter: Length = key("Smallest diameter of the shank.", required=True)
    seat_diameter: Length = key("Diameter at the wheel bearing seat.", required=True)
    engagement: Length = key("Length of spline in the side gear.", required=True)
    steel: str = key("Name of the steel.", required=True)


class RingGear(Row):
    """A ring-gear size class with plausible hypoid geometry, pinion stem and surroundings."""

    ring_diameter: Length = key("Outer pitch diameter of the ring gear.", required=True)
    offset: Length = key("Hypoid offset: pinion axis below ring axis.", required=True)
    face_width: Length = key("Face width of the ring gear.", required=True)
    spiral_angle: Angle = key("Pinion mean spiral angle.", required=True)
    cutter_radius: Length = key("Face-mill cutter radius.", required=True)
    pressure_angle: Angle = key("Mean normal pressure angle.", required=True)
    stem_diameter: Length = key(
        "Smallest pinion stem diameter ahead of the head bearing.", required=True
    )
    stem_spline: str = key("Spline of the pinion stem (teeth x pitch).", required=True)
    stem_engagement: Length = key("Length of spline in the pinion yoke.", required=True)
    pinion_bearing_span: Length = key("Effective span of the two pinion bearings.", required=True)
    pinion_overhang: Length = key(
        "Mesh point to effective centre of the head bearing.", required=True
    )
    carrier_bearing_span: Length = key("Effective span of the carrier bearings.", required=True)
    ring_side_share: Ratio = key(
        "Distance of the ring's mesh plane from the ring-side bearing over the span.", required=True
    )
    ring_bolts: Count = key("Number of ring-gear bolts.", required=True)
    ring_bolt: str = key("Size of the ring-gear bolts.", example="7/16-20", required=True)
    ring_bolt_circle: Length = key("Diameter of the ring-gear bolt circle.", required=True)
    cap_bolt: str = key("Size of the bearing-cap bolts.", example="1/2-13", required=True)
    cap_bolt_spacing: Length = key("Distance between the two bolts of a cap.", required=True)
    cap_width: Length = key("Width of a bearing cap along the axle.", required=True)
    cap_thickness: Length = key("Thickness of a bearing cap over the bearing.", required=True)
    web_thickness: Length = key(
        "Effective thickness of the case web behind a bearing bore.", required=True
    )
    web_height: Length = key("Effective height of that web.", required=True)
    tube_diameter: Length = key("Outer diameter of the axle tube.", required=True)
    tube_wall: Length = key("Wall of the axle tube.", required=True)
    tube_depth: Length = key("Depth to which the tube sits in the centre.", required=True)
    shaft: str = key("Usual axle shaft of the class.", required=True)
    irons: dict[str, float] = key("Case irons met in this class with weights.", required=True)
    carrier: Literal["integral", "removable"] = key("Case form.", required=True)
    support: Literal["overhung", "straddle"] = key("Pinion support.", required=True)


class UniversalJoint(Row):
    """A cross-and-cap joint by its dimensions."""

    cap_diameter: Length = key("Diameter of a bearing cap.", required=True)
    span: Length = key("Over the ends of opposite caps.", required=True)
    trunnion_diameter: Length = key("Diameter of a trunnion.", required=True)
    trunnion_bore: Length = key("Grease bore of a trunnion, zero when solid.", required=True)
    needle_diameter: Length = key("Diameter of a needle.", required=True)
    needle_length: Length = key("Length of a needle.", required=True)
    needles: Count = key("Needles in a cap.", required=True)
    steel: str = key("Name of the steel of the cross.", required=True)


class Tube(Row):
    """A tube size."""

    outer_diameter: Length = key("Outer diameter.", required=True)
    wall: Length = key("Wall thickness.", required=True)


class Bearing(Row):
    """A rolling bearing by ISO dimensions."""

    kind: Literal["ball", "tapered", "cylindrical"] = key("Kind of bearing.", required=True)
    bore: Length = key("Bore.", required=True)
    outside: Length = key("Outside diameter.", required=True)
    width: Length = key("Width.", required=True)
    dynamic_rating: Force = key("Basic dynamic load rating.", required=True)
    static_rating: Force = key("Basic static load rating.", required=True)
    contact_angle: Angle = key("Contact angle (tapered).")
    rollers: Count = key("Number of rollers, if counted.", example="17")
    roller_diameter: Length = key("Diameter of a roller in its middle, if known.")
    roller_length: Length = key("Length on which a roller carries, if known.")


class BoltGrade(Row):
    """A strength grade of bolts."""

    proof_strength: Stress = key("Proof strength.", required=True)
    yield_strength: Stress = key("Minimum yield strength.", required=True)
    tensile_strength: Stress = key("Minimum tensile strength.", required=True)


class BoltSize(Row):
    """A thread size."""

    diameter: Length = key("Nominal diameter.", required=True)
    threads: Pitch = key("Threads per length.", example="20 tpi", required=True)
    metric: bool = key("Metric thread form.", required=True)


class Tire(Row):
    """A grip class of tires with honestly wide spread."""

    grip_street: Ratio = key("Peak friction on clean dry street.", required=True)
    grip_strip: Ratio = key("Peak friction on a prepared, warm strip.", required=True)
    load_sensitivity: LoadSensitivity = key("Relative loss of friction per load.", required=True)
    peak_slip: Ratio = key("Slip at which it pushes most.", example="8 to 16 %")
    relaxation: Length = key(
        "Distance that it rolls until its push has followed a change of slip.", example="6 to 14 in"
    )
    pressure: Pressure = key("Pressure that is customary in it.", example="26 to 34 psi")
    best_tread: Temperature = key(
        "Tread temperature at which it grips best.", example="90 to 170 °F"
    )
    tread_window: TemperatureRise = key(
        "How far from that nine tenths of the grip are left.", example="60 to 120 °F"
    )


class Suspension(Row):
    """How a live axle is held: where it pulls, and how stiff its mounts and its wind-up are."""

    instant_center_ahead: Length = key("Instant center ahead of the axle.", required=True)
    instant_center_height: Length = key("Instant center above ground.", required=True)
    mount_stiffness: Stiffness = key("Stiffness of the axle fore and aft.", required=True)
    mount_damping: Ratio = key("Damping ratio of that, the axle swinging on it.", required=True)
    windup_stiffness: TorsionalStiffness = key(
        "Stiffness of the housing against wind-up.", required=True
    )
    windup_damping: Ratio = key("Damping ratio of wind-up.", required=True)
    roll_torque_share: Ratio = key(
        "Share of the driveshaft torque that rolls body and axle against each other.", required=True
    )


class Differential(Row):
    """A differential class by torque bias."""

    bias_ratio: Ratio = key("High-side over low-side torque.", required=True)
    preload: Torque = key("Torque that it carries across with no load.", required=True)
    locks: bool = key("Ties both shafts together on power.", required=True)
    strength_share: Ratio = key(
        "Side-gear and case strength over that of the shaft spline of the class.", required=True
    )


class Finding(Row):
    """Something found on a used axle, what it says, and what it takes from a link."""

    link: str = key("Link of the load path that it weakens.", required=True)
    keeps: Ratio = key("Share of its strength that the link keeps.", required=True)
    look_for: str = key("How to find it.", required=True)


class Feature(Row):
    """A feature by which an axle class is recognised."""

    look_for: str = key("What to look at or measure.", required=True)
    tells: str = key("What it tells.", required=True)


class GearOil(Row):
    """An axle oil by its viscosity grade."""

    viscosity_40: KinematicViscosity = key("Viscosity at 40 °C.", example="145 cSt", required=True)
    viscosity_100: KinematicViscosity = key(
        "Viscosity at 100 °C.", example="14.7 cSt", required=True
    )
    density: Density = key("Density at 15 °C.", example="890 kg/m^3", required=True)
