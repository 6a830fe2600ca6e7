"""Resolving the axle's oil, what drags in it, and what carries its heat off."""

from __future__ import annotations

from axlewright.build.axle_oil import AxleHeat, Cooling, OilBath
from axlewright.build.machine import Machine
from axlewright.build.model import Build
from axlewright.build.resolve.launch_train import iron
from axlewright.build.resolve.ledger import MEMORY, PRACTICE, Ledger, derived, mixture
from axlewright.catalogue import rows
from axlewright.mechanics.sizes import scaled_length
from axlewright.quantities.estimate import Leaf
from axlewright.vehicle.masses import mass_by_size

_READ_IT = "Stick a temperature strip on the case, or aim an infrared gun at it after the drive."


def axle_heat(build: Build, m: Machine[Leaf]) -> AxleHeat[Leaf]:
    """What the heat of an axle is worked out from; leaves of the machine are shared."""
    book = Ledger(build)
    return AxleHeat(_bath(book, m), _cooling(book, m))


def _ratio(book: Ledger, name: str, text: str, because: str, means: str) -> Leaf:
    return book.assumed(f"axle.oil.{name}", text, "ratio", because, means, _READ_IT)


def _by_ring(book: Ledger, m: Machine[Leaf], name: str, share: str, means: str) -> Leaf:
    """A length that goes with the ring gear."""
    return derived(
        f"axle.oil.{name}",
        scaled_length,
        length=m.gears.ring_diameter,
        factor=_ratio(book, f"{name}_share", share, MEMORY, f"{means} over the ring's diameter."),
    )


def _bath(book: Ledger, m: Machine[Leaf]) -> OilBath[Leaf]:
    kinds = book.kinds("axle.oil_grade")
    grades = [book.shelf.find(rows.GearOil, k, ("axle", "oil_grade")) for k in kinds.kinds]

    def oil(field: str) -> Leaf:
        each: list[Leaf] = [
            book.row(row, field, f"axle.oil.{field}.{k}", advice="See the oil's data sheet.")
            for k, row in zip(kinds.kinds, grades, strict=True)
        ]
        return mixture(kinds, f"axle.oil.{field}", each)

    return OilBath(
        viscosity_40=oil("viscosity_40"),
        viscosity_100=oil("viscosity_100"),
        density=oil("density"),
        volume=book.quantity("axle.oil_volume"),
        immersion=_ratio(book, "immersion", "0.25 to 0.5", MEMORY,
                         "Depth to which the ring gear dips, over its radius."),
        churning_share=_ratio(
            book, "churning_share", "0.5 to 2",
            "own judgement: fitted to single gears in a wide box, case and pinion left out",
            "Stirring in this case over that in a wide box."),
        tooth_friction=_ratio(
            book, "tooth_friction", "0.025 to 0.06",
            "measured axles pass 95 to 97 % (secondary); friction that leaves as much (derived)",
            "Friction of the tooth flanks, warm."),
        drag_factor=_ratio(book, "drag_factor", "3 to 4",
                           "Palmgren, tapered bearings in an oil bath (from memory)",
                           "Drag factor of the bearings in their oil."),
        friction_factor=_ratio(book, "friction_factor", "0.0003 to 0.0005",
                               "Palmgren: 0.0004 for tapered bearings (from memory)",
                               "Friction of the bearings under load."),
        pinion_bearing=_by_ring(book, m, "pinion_bearing", "0.25 to 0.33",
                                "Mean diameter of a pinion bearing"),
        carrier_bearing=_by_ring(book, m, "carrier_bearing", "0.32 to 0.42",
                                 "Mean diameter of a carrier bearing"),
        pinion_load_share=_ratio(
            book, "pinion_load_share", "2.2 to 3.8",
            "one overhung pinion by statics, twice Y times thrust with Y of 1.5 (derived)",
            "Friction load of both pinion bearings over the force on the teeth."),
        carrier_load_share=_ratio(
            book, "carrier_load_share", "0.9 to 1.7", "the same gears' ring side (derived)",
            "Friction load of both carrier bearings over the force on the teeth."),
        pinion_preload=_preload(book, "pinion_preload", "10 to 45 kN",
                                "Friction load of the preloaded pinion bearings."),
        carrier_preload=_preload(book, "carrier_preload", "8 to 40 kN",
                                 "Friction load of the preloaded carrier bearings."),
        pinion_seal=derived(
            "axle.oil.pinion_seal", scaled_length, length=m.pinion.stem_diameter,
            factor=_ratio(book, "pinion_seal_share", "1.3 to 1.7", PRACTICE,
                          "Seal's track on the yoke over the pinion stem.")),
        seal_share=_ratio(book, "seal_share", "0.5 to 1.5", "own judgement",
                          "What a seal takes over the rule's figure."),
        hottest=book.exact("axle.oil.reference", 373.15, "temperature",
                           "a point of the oil's sheet", "Temperature for which heats are stated."),
    )  # fmt: skip


def _preload(book: Ledger, name: str, text: str, means: str) -> Leaf:
    return book.assumed(
        f"axle.oil.{name}", text, "force",
        "preloads of 1.5 to 7 kN, twice Y times both thrusts (derived from figures from memory)",
        means, "Turn the pinion by a small beam wrench.",
    )  # fmt: skip


def _cooling(book: Ledger, m: Machine[Leaf]) -> Cooling[Leaf]:
    known = book.stated("axle.cooling") is not None
    return Cooling(
        air_temperature=book.quantity("use.hot_day"),
        underbody_rise=book.assumed(
            "axle.oil.underbody_rise", "2 to 15 K", "temperature rise", MEMORY,
            "Warming of the air by exhaust and gearbox before the axle.", _READ_IT),
        air_share=_ratio(book, "air_share", "0.25 to 0.7", "own judgement; no source",
                         "Speed of the air at the axle over road speed."),
        prandtl=book.exact("axle.oil.prandtl", 0.703, "ratio", "air at 330 K (from memory)",
                           "Prandtl number of air."),
        housing_diameter=_by_ring(book, m, "housing_diameter", "1.15 to 1.45",
                                  "Diameter of the case that the air meets"),
        area_factor=_ratio(book, "area_factor", "6 to 10",
                           "a ball about the case, the nose and a hand's breadth of each tube"
                           " (derived)",
                           "Warm outside of the axle over the square of the ring's diameter."),
        still_film=book.assumed(
            "axle.oil.still_film", "5 to 12 W/m^2/K", "film coefficient",
            "still air and radiation together (handbook size, from memory)",
            "Heat given off per area and degree in still air.", _READ_IT),
        heated_mass=derived(
            "axle.oil.heated_mass", mass_by_size, density=iron(book),
            ring_gear_diameter=m.gears.ring_diameter,
            mass_share=_ratio(book, "heated_mass_share", "0.4 to 0.75", MEMORY,
                              "Iron and steel that warm with the oil, by the ring's size.")),
        conductance=book.quantity("axle.cooling") if known else None,
    )  # fmt: skip
