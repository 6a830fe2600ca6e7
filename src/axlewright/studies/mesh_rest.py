"""The pair under torque: where shafts, bearings and case let it go, and what it shows there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from axlewright.hypoid.loaded.contact import LoadedContact
from axlewright.hypoid.support.contributions import contributions
from axlewright.hypoid.support.dials import Dials, dials
from axlewright.hypoid.support.equilibrium import Housed, NoRestError, Rest
from axlewright.hypoid.support.mesh import Movement
from axlewright.hypoid.unloaded import Contact
from axlewright.studies.mesh_teeth import Load, Teeth


@dataclass(frozen=True)
class Stand:
    """The pair at rest under a load.

    ``moved`` is what the support gave, ``at`` that and the shims together; ``contact`` is what
    marking compound would show there, rolled by hand, ``loaded`` what the torque itself makes.
    ``note`` says so where the loaded contact found no rest and the textbook's force stands in.
    """

    load: Load
    pinion_torque: float
    rest: Rest
    moved: Movement
    at: Movement
    dials: Dials
    by_part: dict[str, Movement]
    support: Housed
    contact: Contact | None
    loaded: LoadedContact | None
    note: str = ""


def stand(teeth: Teeth, support: Housed, load: Load, start: Rest | None = None) -> Stand:
    """Equilibrium under a load, the contact in the loop where the teeth's give is known.

    Raises ``NoRestError`` in words where even the textbook's force finds no rest.
    """
    rest, note = _rest(teeth, support, load, start)
    moved = support.movement(rest)
    at = teeth.at(moved)
    return Stand(
        load=load,
        pinion_torque=teeth.torque_in(load),
        rest=rest,
        moved=moved,
        at=at,
        dials=dials(support, rest),
        by_part=contributions(support, rest),
        support=support,
        contact=teeth.shown(load.side, at),
        loaded=None if note else teeth.pressed(load, at),
        note=note,
    )


def _rest(teeth: Teeth, support: Housed, load: Load, start: Rest | None) -> tuple[Rest, str]:
    force, note = teeth.contact(load), ""
    if force is not None:
        try:
            return support.rest(force, start), ""
        except NoRestError as e:
            note = f"the textbook's tooth force stands in for the loaded contact: {e}"
    return support.rest(teeth.at_mean_point(load)), note


def stands(teeth: Teeth, support: Housed, loads: Mapping[str, Load]) -> dict[str, Stand]:
    """Every load by its name."""
    return {name: stand(teeth, support, load) for name, load in loads.items()}
