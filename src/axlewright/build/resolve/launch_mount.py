"""Resolving how the axle hangs: instant center, mounts, wind-up."""

from __future__ import annotations

from axlewright.build.launching import Mount
from axlewright.build.machine import Machine
from axlewright.build.resolve.launch_train import by_size
from axlewright.build.resolve.ledger import Ledger, derived, mixture
from axlewright.catalogue import rows
from axlewright.quantities.estimate import Leaf
from axlewright.quantities.solved import untraced
from axlewright.vehicle import axle_location
from axlewright.vehicle.modes import bounce_speed, damping_time, torsion_speed


def mount(book: Ledger, m: Machine[Leaf], radius: Leaf, axle_mass: Leaf) -> Mount[Leaf]:
    """Where the axle pulls and how stiffly it is held."""
    links = _links(book, m, radius)
    ahead = _either(book, links, "instant_center_ahead", _of_kind(book, "instant_center_ahead"))
    height = _center_height(book, m, links, ahead)
    slope, arm = _side_view(book, links, ahead, height, radius)
    stiffness = _either(
        book, links, "mount_stiffness", _of_kind(book, "mount_stiffness"), at_most=True
    )
    windup = _windup(book, links)
    inertia = by_size(
        book, m, "axle.housing", "0.35 to 0.9", "Inertia of the housing about the axle, by size."
    )
    return Mount(
        kind=" or ".join(book.kinds("suspension.kind").kinds),
        roll_torque_share=book.quantity(
            "suspension.roll_torque_share", _of_kind(book, "roll_torque_share")
        ),
        instant_center_ahead=ahead,
        instant_center_height=height,
        thrust_slope=slope,
        reaction_arm=arm,
        height=_either(book, links, "mount_height"),
        stiffness=stiffness,
        damping_time=derived(
            "suspension.mount_damping_time",
            damping_time,
            damping_ratio=_of_kind(book, "mount_damping"),
            swing_speed=derived(
                "suspension.mount_swing",
                bounce_speed,
                spring_stiffness=stiffness,
                bouncing_mass=axle_mass,
            ),
        ),
        windup_stiffness=windup,
        windup_damping_time=derived(
            "suspension.windup_damping_time",
            damping_time,
            damping_ratio=_of_kind(book, "windup_damping"),
            swing_speed=derived(
                "suspension.windup_swing",
                torsion_speed,
                torsional_stiffness=windup,
                swinging_inertia=inertia,
            ),
        ),
        housing_inertia=inertia,
    )


def _of_kind(book: Ledger, field: str) -> Leaf:
    """A figure of the suspension's kind, or of a mixture of kinds if it is not known."""
    kinds = book.kinds("suspension.kind")
    options: list[Leaf] = [
        book.row(
            book.shelf.find(rows.Suspension, kind, ("suspension", "kind")),
            field,
            f"suspension.{field}.{kind}",
            advice=_advice(book, field),
        )
        for kind in kinds.kinds
    ]
    return mixture(kinds, f"suspension.{field}", options)


def _advice(book: Ledger, field: str) -> str:
    """How to find a figure out, if there is a key for it."""
    if field.endswith("_damping"):
        return ""
    return book.meta(f"suspension.{field}")[0].advice


def _links(book: Ledger, m: Machine[Leaf], radius: Leaf) -> dict[str, Leaf]:
    """What points and bushes say, where they were measured."""
    if book.readings is None:
        return {}
    from axlewright.build.resolve.measured_links import links  # noqa: PLC0415 (few builds have any)

    with untraced():
        return links(book.readings, m.car.track, radius)


def _either(
    book: Ledger,
    links: dict[str, Leaf],
    name: str,
    usual: Leaf | None = None,
    *,
    at_most: bool = False,
) -> Leaf:
    """The stated value of a key, else that of the links, else what is usual."""
    path = f"suspension.{name}"
    if book.readings is None:
        return book.quantity(path, usual)
    with untraced():
        return book.readings.either(path, links.get(name), usual, at_most=at_most)


_CENTER = ("anti_squat", "instant_center_ahead", "instant_center_height")


def _side_view(
    book: Ledger, links: dict[str, Leaf], ahead: Leaf, height: Leaf, radius: Leaf
) -> tuple[Leaf, Leaf]:
    """Thrust slope and reaction arm: of the links themselves, else of the instant center.

    Parallel links have no instant center, but a slope and an arm they have.
    """
    if links and all(book.stated(f"suspension.{name}") is None for name in _CENTER):
        return links["thrust_slope"], links["reaction_arm"]
    slope = derived(
        "suspension.thrust_slope",
        axle_location.thrust_slope,
        instant_center_height=height,
        instant_center_ahead=ahead,
        tire_radius=radius,
    )
    arm = derived("suspension.reaction_arm", axle_location.reaction_arm, instant_center_ahead=ahead)
    return slope, arm


def _center_height(book: Ledger, m: Machine[Leaf], links: dict[str, Leaf], ahead: Leaf) -> Leaf:
    """Height of the instant center: stated, from the stated anti-squat, or of its kind."""
    if book.stated("suspension.anti_squat") is None:
        usual = _of_kind(book, "instant_center_height")
        return _either(book, links, "instant_center_height", usual)
    return derived(
        "suspension.instant_center_height",
        axle_location.height_for_anti_squat,
        anti_squat=book.quantity("suspension.anti_squat"),
        instant_center_ahead=ahead,
        cg_height=m.car.cg_height,
        wheelbase=m.car.wheelbase,
    )


def _windup(book: Ledger, links: dict[str, Leaf]) -> Leaf:
    """Wind-up stiffness as stated, from a torque bar, of the bushes, else of its kind."""
    read = book.stated("suspension.windup_torque"), book.stated("suspension.windup_angle")
    if not all(read):
        usual = _of_kind(book, "windup_stiffness")
        return _either(book, links, "windup_stiffness", usual, at_most=True)
    by_bar = derived(
        "suspension.windup_stiffness",
        axle_location.windup_stiffness,
        windup_torque=book.quantity("suspension.windup_torque"),
        windup_angle=book.quantity("suspension.windup_angle"),
    )
    return book.quantity("suspension.windup_stiffness", by_bar)
