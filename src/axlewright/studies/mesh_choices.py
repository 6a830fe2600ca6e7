"""What would change how the pair moves, and how movement grows with torque."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from axlewright.hypoid.support.case import METALS
from axlewright.studies.mesh_pair import Side
from axlewright.studies.mesh_report import Choice, TorqueCurve
from axlewright.studies.mesh_rest import Stand, stand
from axlewright.studies.mesh_runs import Run
from axlewright.studies.mesh_support import Held, held_as, housed
from axlewright.studies.mesh_teeth import COARSE, Load

STEPS = 9
"""Torques of a curve, none and the hardest counted in."""


def choices_of(run: Run) -> tuple[tuple[Choice, ...], tuple[str, ...]]:
    """The case in either iron, the pinion on two or three bearings, caps and cover.

    The second part says of what cannot be why not.
    """
    now = held_as(run.machine, run.meshing)
    as_it_is = abs(run.stands["drive.hardest"].dials.pinion_lift)
    found, impossible = [], []
    for name, title, held in _options(now):
        try:
            found.append(_choice(run, now, name, title, held, as_it_is))
        except (ValueError, ArithmeticError) as e:
            impossible.append(f"Not compared: {title}: {e}")
    return tuple(found), tuple(impossible)


def _options(now: Held) -> Iterator[tuple[str, str, Held]]:
    yield "present", "as it is", now
    for name, title in (("gray", "case of gray iron"), ("nodular", "case of nodular iron")):
        yield name, title, now.changed(modulus=METALS[name].youngs_modulus)
    yield "overhung", "pinion on two bearings", now.changed(straddle=False)
    yield "straddle", "third bearing on the pinion's nose", now.changed(straddle=True)
    yield "billet caps", "billet caps", now.changed(billet_caps=True)
    yield "loaded cover", "load-carrying cover", now.changed(loaded_cover=True)


def _choice(run: Run, now: Held, name: str, title: str, held: Held, as_it_is: float) -> Choice:
    if held == now:
        rated, hardest = run.stands["drive.rated"], run.stands["drive.hardest"]
    else:
        support = housed(run.blank, run.machine, run.meshing, held)
        loads = run.loads.one()
        rated, hardest = (
            stand(run.teeth, support, loads[load]) for load in ("drive.rated", "drive.hardest")
        )
    seen = None if hardest.contact is None else hardest.contact.pattern
    lift = hardest.dials.pinion_lift
    return Choice(
        name=name,
        title=title,
        present=held == now,
        lift_rated=rated.dials.pinion_lift,
        lift_hardest=lift,
        ring_axial_rated=rated.dials.ring_axial,
        center_hardest=None if seen is None else seen.center,
        heel_end_hardest=None if seen is None else seen.heel_end,
        peak_hardest=None if hardest.loaded is None else hardest.loaded.peak_pressure,
        times=abs(lift) / as_it_is if as_it_is else np.nan,
    )


def curves_of(run: Run) -> tuple[TorqueCurve, ...]:
    """Both flanks from no torque to the hardest, as far as there is a rest."""
    most = run.loads.one()["drive.hardest"].ring_torque
    return tuple(_curve(run, side, most) for side in ("drive", "coast"))


def _curve(run: Run, side: Side, most: float) -> TorqueCurve:
    torques = np.linspace(0.0, most, STEPS)
    found: list[Stand] = []
    teeth = replace(run.teeth, counts=COARSE)
    for torque in torques:
        start = found[-1].rest if found else None
        try:
            found.append(stand(teeth, run.support, Load(side, float(torque)), start))
        except ArithmeticError:  # beyond this torque nothing comes to rest: the curve ends
            break
    pressed = [s.loaded for s in found if s.loaded is not None]
    patterns = [s.contact.pattern for s in found if s.contact is not None]
    return TorqueCurve(
        side=side,
        torques=tuple(torques[: len(found)].tolist()),
        moves={
            what: tuple(float(getattr(s.dials, what)) for s in found)
            for what in found[0].dials._fields
        },
        center=tuple(p.center for p in patterns),
        height=tuple(p.height for p in patterns),
        toe_end=tuple(p.toe_end for p in patterns),
        heel_end=tuple(p.heel_end for p in patterns),
        load_center=tuple(p.pattern.center for p in pressed),
        peak=tuple(p.peak_pressure for p in pressed),
    )
