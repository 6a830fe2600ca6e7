"""How the pair jumps when coast becomes drive: the play of its bearings, or preload that is low."""

from __future__ import annotations

from typing import Final

from axlewright.hypoid.support.equilibrium import float_at_reversal
from axlewright.hypoid.support.mesh import ToothLoad, tooth_load
from axlewright.studies.mesh_pair import SIDES
from axlewright.studies.mesh_report import Reversal
from axlewright.studies.mesh_runs import Run
from axlewright.studies.mesh_teeth import Load

LITTLE: Final = 0.02
"""Share of the rated torque that counts as hardly any: what turns the wheels while rolling."""


def reversal_of(run: Run) -> Reversal:
    """The jump; raises ``ArithmeticError`` in words where nothing comes to rest."""
    torque = LITTLE * run.loads.one()["drive.rated"].ring_torque
    drive, coast = (_pushed(run, Load(side, torque)) for side in SIDES)
    jump = float_at_reversal(run.support, drive, coast)
    return Reversal(ring_torque=torque, offset=jump.E, pinion=jump.P, ring=jump.G)


def _pushed(run: Run, load: Load) -> ToothLoad:
    """The textbook's tooth force at the mean point."""
    return tooth_load(
        run.blank.mesh, run.teeth.torque_in(load), run.blank.angles[load.side],
        float(SIDES[load.side]),
    )  # fmt: skip
