"""The gear pair in its bearings: what the gear study reads beyond the machine, generic in leaves.

It stands apart from the machine, so that the load path neither samples nor lists what it does not
read.  Both trees share leaves, and a leaf is filled once by whoever fills both.  Lengths m.
"""

from __future__ import annotations

from typing import Generic, TypeVar

from axlewright.quantities.records import branch

T = TypeVar("T")


@branch
class Pattern(Generic[T]):
    """What the set showed in marking compound when it was new; it fixes the micro-geometry.

    ``length`` is a share of the face, ``place`` its middle from toe to heel, ``height`` from the
    lowest line of contact to the tip; ``film`` is how thick the compound is.
    """

    length: T
    place: T
    height: T
    profile_crown: T
    film: T


@branch
class Setting(Generic[T]):
    """Backlash at the heel, and what was moved since the pattern was set."""

    backlash: T
    shim_at: str
    pinion_shim: T
    ring_shim: T
    depth_error: T


@branch
class BearingSize(Generic[T]):
    """One rolling bearing by its size; a cylindrical one has no contact angle.

    Rating and rollers are known of a named bearing at most; else they follow from the size.
    """

    name: str
    bore: T
    outside: T
    width: T
    contact_angle: T
    rating: T | None = None
    rollers: T | None = None
    roller_diameter: T | None = None
    roller_length: T | None = None


@branch
class Holding(Generic[T]):
    """Spans, bearings and preload of pinion and ring gear."""

    overhang: T
    span: T
    head: BearingSize[T]
    tail: BearingSize[T]
    carrier: BearingSize[T]
    pilot: BearingSize[T]
    """On the pinion's nose; it counts only where the pinion is straddled."""
    pilot_clearance: T
    pilot_ahead: T
    flange_thickness: T
    pinion_preload: T
    carrier_preload: T


@branch
class Iron(Generic[T]):
    """How stiff the case is: its form, over what is assumed for it; metal; caps and cover."""

    form: str
    metal: str
    """Kind of the likeliest metal, for its growth: gray, nodular or aluminum."""
    stiffness: T
    modulus: T
    billet_caps: bool
    loaded_cover: bool


@branch
class Meshing(Generic[T]):
    """All of it, with the cautions of resolving it."""

    tapered: bool
    """Teeth of tapered depth, which are face-milled; others have flanks that are not known here."""
    pattern: Pattern[T]
    setting: Setting[T]
    holding: Holding[T]
    iron: Iron[T]
    rated_torque: T
    motored_torque: T
    """Drag of the engine with the throttle shut: what coasts."""
    cautions: tuple[str, ...] = ()
