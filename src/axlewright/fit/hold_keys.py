"""Which keys of a build file make a reading of the hold points known.

A key that both sides share counts as taken when it stands for both, or for left and right apart.
Readings that no key holds are ticked off by hand.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

KEYS: Mapping[str, tuple[str, ...]] = {
    "room each side": ("fit.left.lip", "fit.right.lip", "fit.left.inner", "fit.right.inner"),
    "bump and droop travel": ("fit.bump", "fit.droop"),
    "mounted section": ("wheel.section",),
    "axle ratio": ("axle.ratio",),
    "rear brake share": ("brakes.rear_share",),
    "parking brake kind": ("brakes.parking",),
    "wheel bearing": ("ends.bearing_bore", "ends.bearing_width"),
    "brake space": ("ends.brake_space",),
    "hat thickness": ("ends.hat",),
    "pinion offset": ("centre.pinion_left",),
    "mount places": ("fit.left.seat", "fit.right.seat"),
    "ride height": ("fit.state",),
    "pinion angle at ride height": ("angles.pinion",),
    "gearbox slope": ("angles.gearbox",),
    "differential center": ("centre.differential_left",),
    "center gap": ("centre.differential_gap",),
    "bolt circle": ("wheels.stud_circle",),
    "flange size": ("ends.flange_diameter", "ends.hat_inside"),
    "stud reach": ("ends.stud_length",),
    "bearing aim": ("ends.end_play_aim",),
    "joint distance at ride height": ("angles.joint_to_joint",),
    "slip travel": ("slip.bottomed_reach", "slip.spline_length"),
    "joint size": ("driveshaft.joint",),
    "highest shaft speed": ("engine.rev_limit",),
}
"""By reading; all of its keys must be stated."""

BY_HAND: tuple[str, ...] = (
    "brake size",
    "shaft spline",
    "full travel sweep",
    "setup figures",
    "measured rolling radius",
    "speedo drive teeth",
)
"""Readings without a key."""


AT_RIDE_HEIGHT: frozenset[str] = frozenset(
    {
        "room each side",
        "ride height",
        "pinion angle at ride height",
        "gearbox slope",
        "joint distance at ride height",
    }
)
"""Readings that do not count when the wheels were hanging."""


def known_readings(stated: Collection[str], hanging: bool = False) -> frozenset[str]:
    """Readings of the hold points that these stated keys make known.

    With ``hanging`` the car was not at ride height when they were taken.
    """
    have = frozenset(stated)
    found = {name for name, keys in KEYS.items() if all(_there(k, have) for k in keys)}
    return frozenset(found - AT_RIDE_HEIGHT if hanging else found)


def _there(name: str, have: frozenset[str]) -> bool:
    if name in have:
        return True
    section, _, last = name.rpartition(".")
    return all(f"{section}.{side}.{last}" in have for side in ("left", "right"))
