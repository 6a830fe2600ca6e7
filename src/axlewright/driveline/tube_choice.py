"""Which of several tubes does for a driveshaft: strong enough, fast enough, and then the lightest.

Strength and whirl are those of the mechanics; here they are put in a row for several tubes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from axlewright.driveline.margins import torque_margin
from axlewright.mechanics import shafts, sizes, tubes, whirl
from axlewright.quantities.formula import Num, formula


@formula("m_t", "mass", source="area, length and density multiplied, closed form")
def bare_tube_mass(section_area: Num, length: Num, density: Num) -> Num:
    """Mass of the bare tube, taken as long as the shaft from joint to joint."""
    return section_area * length * density


@dataclass(frozen=True)
class Tube:
    """A tube to choose from; SI."""

    name: str
    outer_diameter: float
    wall: float
    youngs_modulus: float
    density: float
    shear_yield: float


@dataclass(frozen=True)
class TubeMargins:
    """What one tube would give.  Margins above one hold; numbers, or arrays of samples."""

    tube: Tube
    twist_margin: Num
    whirl_margin: Num
    mass: Num

    @property
    def holds(self) -> bool:
        """Whether both margins reach one, in the middle of the samples."""
        return bool(min(np.median(self.twist_margin), np.median(self.whirl_margin)) >= 1.0)


def tube_margins(
    tube: Tube, torque: Num, speed: Num, length: Num, critical_share: Num
) -> TubeMargins:
    """Margins of a tube for a torque (N·m), a speed (rad/s) and a joint-center length (m).

    The critical share is what real ends leave of the speed on stiff pins: 0.7 is usual for cars.
    """
    bore = sizes.bore_of_tube(tube.outer_diameter, tube.wall)
    holds = shafts.elastic_torque(tube.shear_yield, tube.outer_diameter, bore)
    critical = whirl.critical_speed(
        tube.youngs_modulus, tube.density, tube.outer_diameter, bore, length
    )
    area = tubes.tube_area(tube.outer_diameter, tube.wall)
    return TubeMargins(
        tube,
        torque_margin(holds, torque),
        whirl.whirl_margin(critical, critical_share, speed),
        bare_tube_mass(area, length, tube.density),
    )


def rank_tubes(
    choices: Sequence[Tube], torque: Num, speed: Num, length: Num, critical_share: Num
) -> tuple[TubeMargins, ...]:
    """All tubes with their margins: those that hold first, lightest ahead, then the rest."""
    found = [tube_margins(tube, torque, speed, length, critical_share) for tube in choices]
    return tuple(sorted(found, key=lambda m: (not m.holds, float(np.median(m.mass)))))
