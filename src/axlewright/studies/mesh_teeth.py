"""What the teeth answer: their force at a movement of the pair, and what they show there.

Without compliance the force is the textbook's, one at the mean point.  With it the loaded contact
is asked at every movement: the one seam between flanks and support.
"""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.build.machine import Machine
from axlewright.hypoid.forces import pinion_torque
from axlewright.hypoid.loaded.compliance import Compliance, compliance_of
from axlewright.hypoid.loaded.contact import Counts, LoadedContact, loaded
from axlewright.hypoid.loaded.mesh_force import mesh_force
from axlewright.hypoid.setting import together
from axlewright.hypoid.support.mesh import Movement, ToothForce, ToothLoad, steady, tooth_load
from axlewright.hypoid.teeth import tooth_ratio
from axlewright.hypoid.unloaded import Contact, analyze
from axlewright.studies.mesh_pair import SIDES, Blank, GearPair, Side

COARSE = Counts(12, 24)
"""Roll positions and slices for a map of many cases."""


@dataclass(frozen=True)
class Load:
    """A torque at the ring gear (N·m) that the pair is asked to carry, and on which flank."""

    side: Side
    ring_torque: float


@dataclass(frozen=True)
class Teeth:
    """The teeth of a pair: blank always, flanks where they are known, give where it was made."""

    blank: Blank
    ratio: float
    pair: GearPair | None
    give: dict[Side, Compliance] | None = None
    counts: Counts | None = None

    def torque_in(self, load: Load) -> float:
        """Pinion torque without losses, by the counted teeth."""
        return float(pinion_torque(load.ring_torque, self.ratio))

    def at(self, moved: Movement) -> Movement:
        """Place of the pair when the support lets it move so: its shims and that."""
        return moved if self.pair is None else together(self.pair.set_at, moved)

    def at_mean_point(self, load: Load) -> ToothForce:
        """One force at the mean point, whatever the pair's movement."""
        side = load.side
        return steady(
            tooth_load(
                self.blank.mesh, self.torque_in(load), self.blank.angles[side], float(SIDES[side])
            )
        )

    def contact(self, load: Load) -> ToothForce | None:
        """Force and place of the loaded contact; nothing without give, or without a torque."""
        if self.pair is None or self.give is None or load.ring_torque <= 0.0:
            return None
        pressed = mesh_force(
            self.pair.surfaces[load.side], self.give[load.side], load.ring_torque, self.counts
        )

        def moved(E: float, P: float, G: float, sigma: float) -> ToothLoad:
            return pressed(*self.at(Movement(E, P, G, sigma)))

        return moved

    def shown(self, side: Side, at: Movement) -> Contact | None:
        """What compound shows at a place of the pair, rolled without load."""
        if self.pair is None:
            return None
        return analyze(self.pair.surfaces[side], at, self.pair.film)

    def pressed(self, load: Load, at: Movement) -> LoadedContact | None:
        """What the torque itself makes of the flank there."""
        if self.pair is None or self.give is None or load.ring_torque <= 0.0:
            return None
        surface = self.pair.surfaces[load.side]
        return loaded(surface, self.give[load.side], load.ring_torque, at, self.counts)


def teeth_of(m: Machine[float], blank: Blank, pair: GearPair | None) -> Teeth:
    """Teeth without give: the textbook's force."""
    return Teeth(blank, float(tooth_ratio(m.gears.pinion_teeth, m.gears.ring_teeth)), pair)


def give_of(pair: GearPair) -> dict[Side, Compliance]:
    """How both flanks' teeth give: a few seconds, kept for the last few blanks."""
    drive, coast = (pair.surfaces[side].flank for side in ("drive", "coast"))
    return {side: compliance_of(drive, coast, sign) for side, sign in SIDES.items()}
