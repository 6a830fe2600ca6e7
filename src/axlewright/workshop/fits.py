"""The question of fit for every face: asked, worked out once, kept.

It answers within a tenth of a second, so a page works it out as somebody types.
"""

from __future__ import annotations

from axlewright import __version__
from axlewright.build.resolve import Resolved
from axlewright.catalogue.load import data_hash
from axlewright.measuring.worksheet import STAGES, Stage
from axlewright.quantities.estimate import leaves
from axlewright.quantities.working import Node
from axlewright.studies.fit import SAMPLES, SEED, STUDY, fit_study
from axlewright.studies.fit_ask import FitAsk, FitAskError, read_fit_ask, with_tried
from axlewright.studies.fit_report import FitReport
from axlewright.studies.fit_working import fit_nodes
from axlewright.studies.input_lines import input_line
from axlewright.studies.report import InputLine
from axlewright.workshop.keeping import Kept

__all__ = [
    "SAMPLES", "SEED", "FitAsk", "FitAskError", "fit", "inputs", "nodes", "read_fit_ask", "stages",
    "with_tried",
]  # fmt: skip

_KEPT = 64
_reports: Kept[FitReport] = Kept(_KEPT)
_nodes: Kept[dict[str, Node]] = Kept(8)


def fit(
    build: Resolved, ask: FitAsk | None = None, seed: int = SEED, samples: int = SAMPLES
) -> FitReport:
    """Will it fit, and how is it cut."""
    asked = ask or FitAsk()
    key = f"{STUDY}|{__version__}|{data_hash()}|{seed}|{samples}|{asked!r}|{build.source.text}"
    return _reports.get(key, lambda: fit_study(build, asked, seed, samples))


def nodes(build: Resolved, ask: FitAsk | None = None) -> dict[str, Node]:
    """The working behind the numbers, by id."""
    asked = ask or FitAsk()
    key = f"{STUDY}|{__version__}|{data_hash()}|{asked!r}|{build.source.text}"
    return _nodes.get(key, lambda: fit_nodes(build, asked))


def inputs(build: Resolved) -> dict[str, InputLine]:
    """Every reading as used, repeats combined, and what is assumed where nobody measured."""
    return {path: input_line(known) for path, known in leaves(build.fitting).items()}


def stages() -> tuple[Stage, ...]:
    """What there is to measure, stage by stage, in the order of the work."""
    return STAGES
