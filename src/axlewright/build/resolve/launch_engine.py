"""Resolving what pushes at the launch: torque curve, coupling, and what the driver does."""

from __future__ import annotations

from axlewright.build.launching import Coupling, Curve, Driver
from axlewright.build.machine import Machine
from axlewright.build.resolve.ledger import MEMORY, PRACTICE, Ledger, derived
from axlewright.build.sizes import read_curve
from axlewright.quantities.estimate import Leaf
from axlewright.vehicle.torque_curve import (
    curve_torque,
    motored_torque,
    peak_above_power,
    share_at_power,
    share_below_peak,
    share_beyond_peak,
    share_of_speed,
    speed_beyond_peak,
    typical_share_at_power,
)

_BELOW = (0.2, 0.4, 0.6, 0.8)
_REACHES = (0.5, 1.0, 1.5, 2.0, 3.0)
_SAG = {False: "0.3 to 0.7", True: "0.7 to 1.5"}
_MOTORED = {False: "12 to 22 %", True: "7 to 15 %"}
_SHIFT_TIMES = {"manual": "250 to 700 ms", "automatic": "150 to 600 ms"}


def curve(book: Ledger, m: Machine[Leaf]) -> Curve[Leaf]:
    """The stated curve brought to the torque as it will be run, else a shape through its peak."""
    said = book.stated("engine.curve")
    speeds, torques = _stated(book, m, said) if said else _typical(book, m)
    drag = derived(
        "engine.motored_torque",
        motored_torque,
        engine_torque=m.engine.torque,
        motored_share=book.assumed(
            "engine.motored_share",
            _MOTORED[m.engine.boosted],
            "ratio",
            MEMORY,
            "Drag with the throttle shut over peak torque.",
            book.meta("engine.motored_torque")[0].advice,
        ),
    )
    return Curve(speeds, torques, book.quantity("engine.motored_torque", drag))


Points = tuple[tuple[Leaf, ...], tuple[Leaf, ...]]


def _stated(book: Ledger, m: Machine[Leaf], said: list[tuple[str, str]]) -> Points:
    points = read_curve(said)
    top = max(torque for _, torque in points)
    speeds: list[Leaf] = []
    torques: list[Leaf] = []
    for n, (speed, torque) in enumerate(points, start=1):
        where = f"engine.curve.{n}"
        speeds.append(
            book.exact(f"{where}.speed", speed, "rotation", "the build file", "Speed of a point.")
        )
        share = book.exact(
            f"{where}.share",
            torque / top,
            "ratio",
            "the build file",
            "Torque of a point over the highest one of the curve.",
        )
        torques.append(
            derived(f"{where}.torque", curve_torque, top_torque=m.engine.torque, curve_share=share)
        )
    return tuple(speeds), tuple(torques)


def _typical(book: Ledger, m: Machine[Leaf]) -> Points:
    """Nine points along two parabolas that meet at the torque peak."""
    peak_speed, power_speed = _peaks(book, m)
    at_power, top = _share_at_power(book, m, peak_speed, power_speed)
    sag = book.assumed(
        "engine.curve.sag",
        _SAG[m.engine.boosted],
        "ratio",
        PRACTICE,
        "Sag of the torque curve below its peak.",
        "Put it on a dynamometer and state engine.curve.",
    )
    speeds: list[Leaf] = []
    shares: list[Leaf] = []
    for n, part in enumerate(_BELOW, start=1):
        where = f"engine.curve.{n}"
        place = _place(book, where, part, "Speed of a point over that of the torque peak.")
        speeds.append(
            derived(f"{where}.speed", share_of_speed, whole_speed=peak_speed, speed_share=place)
        )
        shares.append(derived(f"{where}.share", share_below_peak, curve_sag=sag, speed_share=place))
    speeds.append(peak_speed)
    shares.append(_place(book, "engine.curve.peak", 1.0, "The peak itself."))
    for n, reach in enumerate(_REACHES, start=len(_BELOW) + 2):
        where = f"engine.curve.{n}"
        place = _place(book, where, reach, "How far a point lies beyond the torque peak.")
        speeds.append(
            derived(
                f"{where}.speed",
                speed_beyond_peak,
                torque_speed=peak_speed,
                power_speed=power_speed,
                curve_reach=place,
            )
        )
        shares.append(
            derived(f"{where}.share", share_beyond_peak, share_at_power=at_power, curve_reach=place)
        )
    torques = tuple(
        derived(f"engine.curve.{n}.torque", curve_torque, top_torque=top, curve_share=share)
        for n, share in enumerate(shares, start=1)
    )
    return tuple(speeds), torques


def _place(book: Ledger, where: str, value: float, means: str) -> Leaf:
    return book.exact(f"{where}.place", value, "ratio", f"where the curve is drawn; {PRACTICE}",
                      means)  # fmt: skip


def _peaks(book: Ledger, m: Machine[Leaf]) -> tuple[Leaf, Leaf]:
    """Speeds of peak torque and of peak power, each from the other or from the rev limit."""
    said_torque = book.stated("engine.torque_speed") is not None
    said_power = book.stated("engine.power_speed") is not None
    upper = book.quantity("engine.power_speed") if said_power else None
    advice = book.meta("engine.torque_speed")[0].advice

    def share(path: str, text: str, means: str) -> Leaf:
        return book.assumed(f"engine.{path}", text, "ratio", PRACTICE, means, advice)

    if said_torque:
        lower = book.quantity("engine.torque_speed")
    elif upper is not None:
        lower = derived(
            "engine.torque_speed",
            share_of_speed,
            whole_speed=upper,
            speed_share=share(
                "torque_speed_share", "0.60 to 0.80", "Speed of peak torque over that of power."
            ),
        )
    else:
        lower = derived(
            "engine.torque_speed",
            share_of_speed,
            whole_speed=m.engine.rev_limit,
            speed_share=share(
                "torque_speed_share", "0.50 to 0.70", "Speed of peak torque over the rev limit."
            ),
        )
    if upper is None:
        upper = derived(
            "engine.power_speed",
            share_of_speed,
            whole_speed=lower,
            speed_share=share(
                "power_speed_ratio", "1.25 to 1.55", "Speed of peak power over that of torque."
            ),
        )
    return lower, upper


def _share_at_power(
    book: Ledger, m: Machine[Leaf], torque_speed: Leaf, power_speed: Leaf
) -> tuple[Leaf, Leaf]:
    """Torque at peak power over peak torque, and the peak torque as it will be run."""
    power, torque = book.stated("engine.power"), book.stated("engine.torque")
    if power is not None and torque is not None and book.stated("engine.power_speed") is not None:
        both = derived(
            "engine.share_at_power",
            share_at_power,
            power=book.quantity("engine.power"),
            power_speed=power_speed,
            sheet_torque=book.quantity("engine.torque"),
        )
        return both, m.engine.torque
    typical = derived(
        "engine.share_at_power",
        typical_share_at_power,
        torque_speed=torque_speed,
        power_speed=power_speed,
    )
    if power is None or torque is not None:
        return typical, m.engine.torque
    top = derived(
        "engine.curve.top",
        peak_above_power,
        engine_torque=m.engine.torque,
        share_at_power=typical,
    )
    return typical, top


def coupling(book: Ledger) -> Coupling[Leaf]:
    """How the clutch slides, or where the converter stalls and how its band slides."""
    if book.build.gearbox.kind == "manual":
        return Coupling(slide_ratio=book.quantity("clutch.slide_ratio"), stall_speed=None)
    return Coupling(
        slide_ratio=book.assumed(
            "gearbox.slide_ratio",
            "80 to 100 %",
            "ratio",
            MEMORY,
            "Sliding over sticking friction of bands and clutches in oil.",
        ),
        stall_speed=book.quantity("converter.stall_speed"),
    )


def driver(book: Ledger, m: Machine[Leaf]) -> Driver[Leaf]:
    """What the driver does at the line and between gears."""
    kind = book.build.gearbox.kind
    shift = book.meta("driver.shift_time")[0]
    at = derived(
        "driver.shift_speed",
        share_of_speed,
        whole_speed=m.engine.rev_limit,
        speed_share=book.assumed(
            "driver.shift_share",
            "92 to 99 %",
            "ratio",
            PRACTICE,
            "Engine speed of a shift over the rev limit.",
            book.meta("driver.shift_speed")[0].advice,
        ),
    )
    return Driver(
        throttle_rise=book.quantity("driver.throttle_time"),
        brake_release=book.quantity("driver.brake_time"),
        trans_brake_release=book.quantity("driver.trans_brake_time"),
        shift_time=book.quantity(
            "driver.shift_time",
            book.assumed(
                "driver.shift_time",
                _SHIFT_TIMES[kind],
                "short time",
                f"{kind} gearbox; {MEMORY}",
                shift.means,
                shift.advice,
            ),
        ),
        shift_speed=book.quantity("driver.shift_speed", at),
        wet_grip_share=book.quantity("use.wet_grip"),
        rollout=book.quantity("driver.rollout"),
        lift_share=book.assumed(
            "driver.lift_share",
            "50 to 85 %",
            "ratio",
            PRACTICE,
            "Engine speed at which the driver lifts in first gear, over that of the shift.",
        ),
        creep_speed=book.assumed(
            "driver.creep_speed",
            "0.7 to 2.5 m/s",
            "speed",
            PRACTICE,
            "Road speed out of the burnout water.",
        ),
        patch_speed=book.assumed(
            "driver.patch_speed",
            "2 to 7 m/s",
            "speed",
            PRACTICE,
            "Road speed at which spinning wheels come off a slick patch.",
        ),
        contact_length=book.assumed(
            "wheels.contact_length",
            "100 to 200 mm",
            "length",
            MEMORY,
            "Length of tread on the road: over so much way grip changes at an edge.",
            "Chalk the tread, stand the car on paper and measure the print.",
        ),
    )
