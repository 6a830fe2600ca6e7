"""How do the gears sit, and what does load do to that?  The gear pair in its bearings and case."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from axlewright import __version__
from axlewright.build.resolve import Resolved
from axlewright.catalogue.load import data_hash
from axlewright.hypoid.support.dials import LIMITS
from axlewright.quantities.estimate import leaves
from axlewright.studies.influence import measure_next
from axlewright.studies.mesh_carries import names_under, oil_id
from axlewright.studies.mesh_choices import choices_of, curves_of
from axlewright.studies.mesh_heat import judged
from axlewright.studies.mesh_loads import LoadName
from axlewright.studies.mesh_numbers import (
    LOADED,
    MOVES,
    PATTERN,
    SHARES,
    by_part,
    id_of,
)
from axlewright.studies.mesh_pair import GearPair
from axlewright.studies.mesh_pictures import (
    picture_of,
    pictures_at,
    pressed_picture,
    shapes_of,
)
from axlewright.studies.mesh_rated_nodes import beyond_ranges
from axlewright.studies.mesh_report import (
    BearingLine,
    GearLoad,
    LimitLine,
    MeshReport,
    Reversal,
    WarmPair,
)
from axlewright.studies.mesh_rest import Stand
from axlewright.studies.mesh_reversal import reversal_of
from axlewright.studies.mesh_runs import Run, Runs, Tell, all_runs, heard, part
from axlewright.studies.mesh_tables import rating_sentence, tables_of
from axlewright.studies.mesh_told import Told
from axlewright.studies.mesh_warm import warm_pair
from axlewright.studies.mesh_words import (
    CAUTIONS,
    IN_THE_LOOP,
    MODEL,
    UNLOADED,
    headline,
    load_sentence,
    what_moves,
)
from axlewright.studies.report import Made
from axlewright.studies.safety import safety_lines

STUDY = "gear pair 2"
SEED, SAMPLES = 1, 60
_RUNS, _CHOICES = 0.6, 0.75
"""Shares of the work that are done after the runs, and after the choices."""
_SETTING = ("pinion_out", "ring_out", "backlash", "lash_per_ring_move", "lash_per_pinion_move")


@dataclass(frozen=True)
class MeshStudy:
    """The report, and the nominal pair behind it for a slider or a drawing."""

    report: MeshReport
    nominal: Run

    @property
    def pair(self) -> GearPair | None:
        """Both flanks of the likeliest pair; none where they are not known."""
        return self.nominal.pair


def mesh_study(
    resolved: Resolved,
    seed: int = SEED,
    count: int = SAMPLES,
    tell: Tell | None = None,
    contact: bool = True,
) -> MeshStudy:
    """Work the pair out, nominal and sampled; raises :class:`StoppedError` if told to stop.

    ``contact`` puts the loaded contact into the loop of the likeliest axle; without it, and without
    samples, the answer takes half a second.  Raises :class:`NoPairError` in words for a build whose
    pair cannot be.
    """
    runs = all_runs(resolved, seed, count, part(tell, 0.0, _RUNS), contact)
    told = Told(runs)
    n = runs.nominal
    loads = tuple(_load(told, name) for name in n.loads.names)
    limits = tuple(_limits(told, n.loads.names))
    choices, impossible = choices_of(n)
    heard(tell, _CHOICES)
    curves = curves_of(n)
    warm, not_warm = _warm(n)
    heard(tell, 1.0)
    oil = {name: told.finding(oil_id(name)) for name in n.warmth.oil}
    inputs = leaves((resolved.machine, resolved.meshing))
    sources = leaves((resolved.machine, resolved.meshing, resolved.axle_heat, judged())).values()
    report = MeshReport(
        name=resolved.machine.name,
        file=resolved.source.file,
        sentence=headline(loads, limits, n.refused),
        refused=n.refused,
        facts=told.all(key for key in told.nominal if _is_fact(key)),
        setting=told.all(f"gear_pair.{name}" for name in _SETTING),
        pictures={} if n.pair is None else pictures_at(n.pair, n.pair.set_at),
        loads=loads,
        limits=limits,
        choices=choices,
        curves=curves,
        warm=warm,
        reversal=_reversal(n),
        shapes={} if n.pair is None else shapes_of(n.pair),
        decides=told.decides(inputs),
        lost=sum(runs.lost.values()),
        lost_because=tuple(f"{why}: {many}" for why, many in runs.lost.items()),
        measure_next=measure_next(inputs, runs.samples, told.whole(told.asked)) if count else (),
        cautions=(
            *_cautions(resolved, runs),
            *impossible,
            *not_warm,
            *beyond_ranges(resolved, loads),
        ),
        safety=safety_lines(resolved.machine),
        sources=(MODEL, *sorted({e.source for e in sources if e.source})),
        made=Made(
            f"axlewright {__version__}", STUDY, data_hash(), resolved.source.hash, seed, count
        ),
        rating=rating_sentence(loads),
        tables=tables_of(loads, oil),
        oil=oil,
    )
    return MeshStudy(report, n)


def _warm(run: Run) -> tuple[WarmPair | None, tuple[str, ...]]:
    try:
        return warm_pair(run), ()
    except ArithmeticError as e:
        return None, (f"The pair was not worked out warm: {e}",)


def _reversal(run: Run) -> Reversal | None:
    try:
        return reversal_of(run)
    except ArithmeticError:  # nothing comes to rest so close to no torque
        return None


def _is_fact(key: str) -> bool:
    return key.endswith((".unloaded", ".overlap", "_spiral", "_angle")) and ".shaft_" not in key


def _load(told: Told, name: LoadName) -> GearLoad:
    run = told.run
    stand = run.stands[name.name]
    picture = None
    if stand.contact is not None and run.pair is not None:
        picture = picture_of(stand.contact, name.side, run.pair.film)
    pressed = None if stand.loaded is None else pressed_picture(stand.loaded, name.side)
    moves = {what: told.finding(id_of(name.name, what)) for what in MOVES}
    return GearLoad(
        name=name.name,
        side=name.side,
        title=name.title,
        means=name.means,
        judged=name.judged,
        ring_torque=told.finding(id_of(name.name, "ring_torque")),
        pinion_torque=told.finding(id_of(name.name, "pinion_torque")),
        moves=moves,
        shares={what: told.finding(id_of(name.name, what)) for what in SHARES},
        by_part=by_part(stand),
        bearings=tuple(_bearings(stand)),
        pattern={
            what: told.finding(id_of(name.name, what))
            for what in (*PATTERN, "error")
            if id_of(name.name, what) in told.nominal
        },
        contact={
            what: told.finding(id_of(name.name, what))
            for what in LOADED
            if id_of(name.name, what) in told.nominal
        },
        picture=picture,
        loaded=pressed,
        rated={
            what: told.finding(id_of(name.name, what))
            for what in names_under(run, stand)
            if id_of(name.name, what) in told.nominal
        },
        cautions=tuple(
            filter(None, (stand.note, *(stand.loaded.cautions if stand.loaded else ())))
        ),
        sentence=load_sentence(
            name.title, {k: f.value for k, f in moves.items()}, picture, pressed
        ),
    )


def _bearings(stand: Stand) -> Iterable[BearingLine]:
    for name, duty in stand.support.duties(stand.rest).items():
        life = duty.believed_life
        yield BearingLine(
            name, duty.radial, duty.axial, duty.load_zone, duty.fullest_roller, duty.rib,
            duty.pressure,
            life if np.isfinite(life) else None, duty.cautions,
        )  # fmt: skip


def _limits(told: Told, names: Iterable[LoadName]) -> Iterable[LimitLine]:
    """Service loads against the limits of a deflection test."""
    for name in (n for n in names if n.judged):
        for what, (low, high) in LIMITS.items():
            found = told.finding(id_of(name.name, what))
            times = found.value / (high if found.value > 0.0 else low)
            many = told.sampled(found.id)
            beyond = (many > high) | (many < low)
            yield LimitLine(
                load=name.name,
                what=what,
                means=what_moves(what),
                found=found,
                low=low,
                high=high,
                times=times,
                holds=times <= 1.0,
                share=float(np.mean(beyond)) if many.size else float(times > 1.0),
            )


def _cautions(resolved: Resolved, runs: Runs) -> tuple[str, ...]:
    n = runs.nominal
    refused = n.refused
    lost = sum(runs.lost.values())
    return (
        *resolved.cautions,
        *resolved.meshing.cautions,
        *((f"The flanks are not worked out: {refused}",) if refused else ()),
        *((f"There is no loaded contact: {n.unpressed}",) if n.unpressed else ()),
        *(
            (f"{lost} of {runs.samples.count} samples gave no pair and are left out of the bands",)
            if lost
            else ()
        ),
        *CAUTIONS,
        *(() if refused else (UNLOADED if n.teeth.give is None else IN_THE_LOOP,)),
    )
