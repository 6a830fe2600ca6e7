"""Resolving what pushes: car, engine, coupling, gearbox, tires and what the car is used for."""

from __future__ import annotations

from dataclasses import replace

from axlewright.build.machine import Car, Clutch, Converter, Engine, Gearbox, Tires, Use
from axlewright.build.resolve import measured_axle
from axlewright.build.resolve.ledger import (
    MEMORY,
    PRACTICE,
    Ledger,
    derived,
    limits_of,
    mixture,
    row_estimate,
)
from axlewright.build.resolve.ties import read_or
from axlewright.build.sizes import read_curve, read_ratios, read_tire
from axlewright.catalogue import rows
from axlewright.catalogue.load import rows_of
from axlewright.quantities.estimate import Estimate, Leaf, Limits
from axlewright.vehicle.air import j1349_torque_from_std, power_correction, torque_in_this_air
from axlewright.vehicle.clutch import capacity_from_reserve
from axlewright.vehicle.engine import boosted_torque, flywheel_torque, torque_from_power
from axlewright.vehicle.weights import (
    mass_of_axles,
    rear_share_left_by_front,
    rear_share_of_axles,
    rear_share_of_whole,
)

_BITES = {
    "gentle": "400 to 1500 ms",
    "slip": "150 to 500 ms",
    "dump": "20 to 120 ms",
    "two-step": "15 to 100 ms",
}
_LAUNCH_SPEEDS = {
    "gentle": "1200 ± 300 rpm",
    "slip": "2500 ± 700 rpm",
    "dump": "4000 ± 1000 rpm",
    "two-step": "4500 ± 800 rpm",
    "foot-brake": "2000 ± 500 rpm",
    "trans-brake": "3500 ± 1000 rpm",
    "neutral drop": "3000 ± 800 rpm",
}
_LAUNCH_OF = {"manual": "slip", "automatic": "foot-brake"}
_REGRIP = {True: "6 to 20 rad/s", False: "1 to 8 rad/s"}
_FIRST_GEAR = "2.9 ± 0.4"
_STEPS = {"manual": (1.0, 0.68, 0.48, 0.345), "automatic": (1.0, 0.6, 0.4)}


def car(book: Ledger) -> Car[Leaf]:
    """Weights and dimensions of the car."""
    said = book.build.car
    front = said is not None and said.front_weight is not None
    rear = said is not None and said.rear_weight is not None
    whole = said is not None and said.weight is not None
    front_axle = book.quantity("car.front_weight") if front else None
    rear_axle = book.quantity("car.rear_weight") if rear else None
    mass = book.quantity("car.weight")
    share = book.quantity("car.rear_share")
    if front and rear:
        both = {"front_axle_mass": front_axle, "rear_axle_mass": rear_axle}
        mass = derived("car.mass", mass_of_axles, **both)
        share = derived("car.rear_mass_share", rear_share_of_axles, **both)
    elif rear and whole:
        share = derived(
            "car.rear_mass_share", rear_share_of_whole, rear_axle_mass=rear_axle, vehicle_mass=mass
        )
    elif front and whole:
        share = derived(
            "car.rear_mass_share",
            rear_share_left_by_front,
            front_axle_mass=front_axle,
            vehicle_mass=mass,
        )
    return Car(
        mass=mass,
        rear_share=share,
        wheelbase=book.quantity("car.wheelbase"),
        cg_height=book.quantity("car.cg_height"),
        track=read_or(book, "car.track", measured_axle.track),
        front_roll_share=book.quantity("suspension.front_roll_share"),
    )


def engine(book: Ledger) -> Engine[Leaf]:
    """The engine as it will be run."""
    boosted = book.stated("engine.boost") is not None or (
        book.choice("engine.aspiration") == "boosted"
    )
    runs_boost = book.stated("engine.boost") is not None
    launch = launch_of(book)
    speed = book.assumed(
        "use.launch_speed",
        _LAUNCH_SPEEDS[launch],
        "rotation",
        f"customary for a launch by {launch}; {PRACTICE}",
        "Engine speed at the launch.",
        "Watch the tachometer, or log it.",
    )
    return Engine(
        torque=_as_run(book, _as_made(book, _figure(book)), boosted),
        inertia=book.quantity("engine.inertia"),
        rev_limit=book.quantity("engine.rev_limit"),
        launch_speed=book.quantity("use.launch_speed", speed),
        boosted=boosted,
        boost=book.quantity("engine.boost") if runs_boost else None,
        barometer=_barometer(book) if runs_boost else None,
    )


def _figure(book: Ledger) -> Leaf:
    """Peak torque as the figures say it."""
    curve = book.stated("engine.curve")
    meta, _ = book.meta("engine.torque")
    if curve and book.stated("engine.torque") is None:
        _, peak = max(read_curve(curve), key=lambda point: point[1])
        half = peak * 0.06
        return Estimate(
            "engine.curve",
            peak,
            "torque",
            Limits(peak - half, peak + half),
            "stated",
            "highest point of the torque curve",
            advice=meta.advice,
            means="Peak torque of the curve.",
        )
    stated_power = book.stated("engine.power"), book.stated("engine.power_speed")
    if book.stated("engine.torque") is None and all(stated_power):
        book.cautions.append(
            "engine: the torque at peak power stands in for the peak torque, which is higher;"
            " state engine.torque"
        )
        return derived(
            "engine.torque",
            torque_from_power,
            power=book.quantity("engine.power"),
            engine_speed=book.exact(
                "engine.power_speed",
                stated_power[1].value,
                "rotation",
                "the build file",
                "Engine speed at peak power.",
            ),
        )
    return book.quantity("engine.torque")


def _as_made(book: Ledger, figure: Leaf) -> Leaf:
    """Torque at the flywheel on the standard day (or as observed)."""
    if book.choice("engine.measured_at") == "wheels":
        figure = derived(
            "engine.flywheel_torque",
            flywheel_torque,
            wheel_dyno_torque=figure,
            dyno_loss=book.quantity("engine.wheel_loss"),
        )
    if book.choice("engine.correction") == "STD":
        figure = derived("engine.j1349_torque", j1349_torque_from_std, std_torque=figure)
    return figure


def _as_run(book: Ledger, torque: Leaf, boosted: bool) -> Leaf:
    """Torque in the day's air, or at the boost that will be run."""
    of_figures = book.stated("engine.boost_of_figures")
    air = book.stated("engine.air")
    if boosted:
        if air is not None:
            book.cautions.append(
                "engine.air is not applied: the boost control makes up for thin air"
            )
        if of_figures is None:
            return torque
        barometer = _barometer(book)
        return derived(
            "engine.torque_as_run",
            boosted_torque,
            reference_torque=torque,
            barometer=barometer,
            boost_pressure=book.quantity("engine.boost"),
            reference_boost=book.quantity("engine.boost_of_figures"),
        )
    if air is None or book.choice("engine.correction") == "none":
        return torque
    if air.pressure is None or air.temperature is None:
        book.cautions.append("engine.air needs both pressure and temperature; it is not applied")
        return torque
    correction = derived(
        "engine.air_correction",
        power_correction,
        dry_air_pressure=book.quantity("engine.air.pressure"),
        air_temperature=book.quantity("engine.air.temperature"),
    )
    return derived(
        "engine.torque_as_run",
        torque_in_this_air,
        rated_engine_torque=torque,
        power_correction=correction,
    )


def _barometer(book: Ledger) -> Estimate:
    """Air pressure around a boosted engine."""
    return book.assumed(
        "engine.barometer",
        "99 ± 2 kPa",
        "pressure",
        "J1349 standard day",
        "Air pressure around the engine.",
    )


def launch_of(book: Ledger) -> str:
    """The hardest launch: stated, or customary for the gearbox."""
    return str(book.stated("use.launch") or _LAUNCH_OF[book.build.gearbox.kind])


def clutch(book: Ledger, engine_torque: Leaf) -> Clutch[Leaf] | None:
    """The clutch of a manual gearbox."""
    if book.build.gearbox.kind != "manual":
        return None
    launch = launch_of(book)
    bite = book.assumed(
        "clutch.bite",
        _BITES[launch],
        "short time",
        f"customary for a launch by {launch}; {MEMORY}, no measured source",
        "Time from first touch to full clamp.",
        book.meta("clutch.bite")[0].advice,
    )
    capacity = book.stated("clutch.capacity")
    return Clutch(
        capacity=book.quantity("clutch.capacity")
        if capacity is not None
        else derived(
            "clutch.capacity",
            capacity_from_reserve,
            engine_torque=engine_torque,
            clutch_reserve=book.quantity("clutch.reserve"),
        ),
        bite=book.quantity("clutch.bite", bite),
    )


def converter(book: Ledger, engine_torque: Leaf) -> Converter[Leaf] | None:
    """The converter of an automatic gearbox."""
    if book.build.gearbox.kind != "automatic":
        return None
    reserve = book.assumed(
        "gearbox.band_reserve",
        "1.8 to 3.0",
        "ratio",
        MEMORY,
        "Capacity of the automatic's inner clutches over engine torque.",
    )
    capacity = derived(
        "gearbox.band_capacity",
        capacity_from_reserve,
        engine_torque=engine_torque,
        clutch_reserve=reserve,
    )
    return Converter(
        torque_ratio=book.quantity("converter.torque_ratio"),
        inertia=book.quantity("converter.inertia"),
        band_capacity=book.quantity("gearbox.band_capacity", capacity),
        damping=book.assumed(
            "driveline.damping",
            "0.05 to 0.30",
            "ratio",
            MEMORY,
            "Damping ratio of the driveline in torsion.",
        ),
    )


def gearbox(book: Ledger) -> Gearbox[Leaf]:
    """Gearbox ratios and losses."""
    kind = book.build.gearbox.kind
    rating = book.stated("gearbox.torque_rating")
    return Gearbox(
        kind=kind,
        ratios=_ratios(book, kind),
        efficiency=book.quantity("gearbox.efficiency"),
        inertia=book.quantity("gearbox.inertia"),
        torque_rating=book.quantity("gearbox.torque_rating") if rating is not None else None,
    )


def _ratios(book: Ledger, kind: str) -> tuple[Leaf, ...]:
    said = book.stated("gearbox.ratios")
    advice = book.meta("gearbox.ratios")[0].advice
    if said:
        return tuple(
            Estimate(
                f"gearbox.ratio.{n}",
                r.value,
                "ratio",
                limits_of(r),
                "stated",
                "the build file",
                advice=advice,
                means=f"Ratio of gear {n}.",
            )
            for n, r in enumerate(read_ratios(said), start=1)
        )
    first = book.assumed(
        "gearbox.ratio.1", _FIRST_GEAR, "ratio", PRACTICE, "Ratio of gear 1.", advice
    )
    return tuple(
        first.times(step, f"gearbox.ratio.{n}") if n > 1 else first
        for n, step in enumerate(_STEPS[kind], start=1)
    )


def tires(book: Ledger) -> Tires[Leaf]:
    """Rear tires: size, grip and what happens when they find grip again."""
    text = book.stated("wheels.tire") or "245/60R15"
    stated = book.stated("wheels.tire") is not None
    size = read_tire(text)

    def part(name: str, value: float, dimension: str, means: str) -> Estimate:
        return Estimate(
            f"wheels.tire.{name}",
            value,
            dimension,
            origin="stated" if stated else "assumed",
            source=f"tire size {text}" + ("" if stated else f"; {PRACTICE}"),
            means=means,
            advice="Read the sidewall.",
        )

    kinds = book.kinds("wheels.grip_class")
    surface = book.choice("use.surface")
    field = "grip_strip" if surface == "strip" else "grip_street"
    table = [book.shelf.find(rows.Tire, k, ("wheels", "grip_class")) for k in kinds.kinds]
    advice = book.meta("wheels.grip")[0].advice
    by_class = mixture(
        kinds,
        "wheels.grip",
        [
            book.row(r, field, f"wheels.grip.{k}", advice=advice)
            for k, r in zip(kinds.kinds, table, strict=True)
        ],
    )
    sensitivity = mixture(
        kinds,
        "wheels.load_sensitivity",
        [
            book.row(r, "load_sensitivity", f"wheels.load_sensitivity.{k}")
            for k, r in zip(kinds.kinds, table, strict=True)
        ],
    )
    burnouts = bool(book.stated("use.burnouts"))
    return Tires(
        size=text,
        grip_class=" or ".join(kinds.kinds),
        section_width=part("section_width", size.section_width, "length", "Section width."),
        aspect_ratio=part("aspect_ratio", size.aspect_ratio, "ratio", "Aspect ratio."),
        rim_diameter=part("rim_diameter", size.rim_diameter, "length", "Rim diameter."),
        grip=book.quantity("wheels.grip", by_class),
        low_grip_share=book.assumed(
            "wheels.low_grip_share",
            "0.1 to 0.5",
            "ratio",
            PRACTICE,
            "Grip of the slipping wheel over that of the gripping one.",
        ),
        slide_share=book.assumed(
            "wheels.slide_share",
            "0.65 to 0.85",
            "ratio",
            MEMORY,
            "Sliding friction of the tires over their peak.",
        ),
        load_sensitivity=sensitivity,
        wheel_inertia=book.quantity("wheels.inertia"),
        regrip_speed=book.assumed(
            "wheels.regrip_speed",
            _REGRIP[burnouts],
            "rotation",
            MEMORY,
            "Wheel speed lost at a stroke when spinning tires find grip.",
        ),
        landing_factor=book.assumed(
            "car.landing_factor",
            "1.2 to 1.8",
            "ratio",
            MEMORY,
            "Rear load when lifted front wheels come down, over static.",
        ),
    )


def tire_of_class(fitted: Tires[Leaf], name: str, surface: str) -> Tires[Leaf]:
    """The same wheels with tires of another grip class."""
    row = rows_of(rows.Tire)[name]
    field = "grip_strip" if surface == "strip" else "grip_street"
    return replace(
        fitted,
        grip_class=name,
        grip=row_estimate(row, field, f"wheels.grip.{name}"),
        load_sensitivity=row_estimate(row, "load_sensitivity", f"wheels.load_sensitivity.{name}"),
    )


def _trailer(book: Ledger) -> Leaf:
    if book.stated("use.towing") is not None:
        return book.quantity("use.towing")
    return book.exact(
        "use.towing", 0.0, "mass", "no trailer stated", "Trailer weight that is towed."
    )


def use(book: Ledger) -> Use[Leaf]:
    """What the car does."""
    return Use(
        launch=launch_of(book),
        surface=book.choice("use.surface"),
        burnouts=bool(book.stated("use.burnouts")),
        launches=book.quantity("use.launches"),
        shock_spread=book.assumed(
            "use.shock_spread",
            "0.85 to 1.15",
            "ratio",
            "no bound here has been compared with a measured launch",
            "Real peak of a shock over its bound.",
        ),
        trailer=_trailer(book),
        grade=book.assumed(
            "use.grade",
            "5 to 7 %",
            "ratio",
            "usual limit of main roads (from memory)",
            "Steepest long grade.",
        ),
        rolling=book.assumed(
            "use.rolling", "1.0 to 1.6 %", "ratio", MEMORY, "Rolling resistance over weight."
        ),
        rest=book.exact(
            "use.rest", 0.0, "torque", "each launch starts from rest", "Torque at rest."
        ),
    )
