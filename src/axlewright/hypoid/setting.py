"""How a pair was set and is tested: places by shims, torque by size, stiffness of its case."""

from __future__ import annotations

from dataclasses import replace

from axlewright.hypoid.backlash import Lash, Shim, shim_move
from axlewright.hypoid.support.case import DesignClass, SeatFactors
from axlewright.hypoid.support.mesh import Movement
from axlewright.hypoid.unloaded import FILM, Contact, analyze
from axlewright.quantities.formula import Num, formula

PINION_SHIMS: dict[str, Shim] = {"head": "pinion head", "cartridge": "pinion cartridge"}
"""Places of the shim that sets the pinion's depth, by the word of the build file."""
_SETTLINGS = 12
_SETTLED = 2e-7
"""Place of the ring (m) within which backlash counts as set: far finer than any shim."""


@formula(
    "T_2s",
    "torque",
    source="handbook proportion D = K T^(1/3), taken the other way (from memory)",
    valid={"size_coefficient": (12.0, 17.0)},
    outside="a coefficient that the handbooks do not use",
)
def rated_ring_torque(ring_diameter: Num, size_coefficient: Num) -> Num:
    """Torque at the ring gear that a gear set of this size is meant for in street service.

    Deflection tests are made at it; a hard launch is often a multiple.
    """
    return (1000.0 * ring_diameter / size_coefficient) ** 3.0


def together(*movements: Movement) -> Movement:
    """Small movements of the pair one after the other: they add."""
    E, P, G, sigma = (sum(parts) for parts in zip(*movements, strict=True))
    return Movement(E, P, G, sigma)


def set_movement(
    shim_at: str, pinion_shim: float, ring_shim: float, depth_error: float
) -> Movement:
    """Where shims (m added) and an error of depth (m, + out) put the pair against its set place.

    ``ring_shim`` is added behind the ring's back and taken off the other side.
    """
    return together(
        shim_move(PINION_SHIMS[shim_at], pinion_shim),
        shim_move("ring side", ring_shim),
        Movement(0.0, depth_error, 0.0, 0.0),
    )


def stiffened(design: DesignClass, share: float) -> DesignClass:
    """A design class whose seats are stiffer by a share of what is assumed for it."""

    def scaled(seat: SeatFactors) -> SeatFactors:
        return SeatFactors(*(share * factor for factor in seat))

    return replace(
        design,
        head=scaled(design.head),
        tail=scaled(design.tail),
        pilot=scaled(design.pilot),
        carrier=scaled(design.carrier),
    )


def settle(
    pair_lash: Lash, movement: Movement, wanted: float, slope: float, film: float = FILM
) -> tuple[Movement, Contact, Contact]:
    """Move the ring until the pair has the wanted backlash (rad of the ring): shims, lash again.

    ``slope`` (rad/m) is how fast backlash opens as the ring goes out.  Gives the place and the
    contact of both flanks there; raises ``ArithmeticError`` where no place of the ring gives it.
    """
    for _ in range(_SETTLINGS):
        drive = analyze(pair_lash.drive, movement, film)
        coast = analyze(pair_lash.coast, movement, film)
        missing = wanted - pair_lash.turn(drive, coast)
        if abs(missing) < _SETTLED * slope:
            return movement, drive, coast
        movement = movement._replace(G=movement.G + missing / slope)
    raise ArithmeticError("no place of the ring gives this backlash")
