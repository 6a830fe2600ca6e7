"""Ratio study and run down the strip for every face: asked for, worked out once, kept.

Both march in time, which takes seconds and, the first time ever, some more for the compiler: a page
asks, shows that it is being worked out and asks again; the command line waits.
"""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any

from axlewright import __version__
from axlewright.build.resolve import Resolved
from axlewright.catalogue.load import data_hash
from axlewright.quantities.working import Node
from axlewright.studies.ratio_ask import SPEEDS, Ask, AskError, ask_of, read_ask
from axlewright.studies.ratio_report import RatioReport, SawTooth
from axlewright.studies.run_report import RunHistory, RunReport

__all__ = [
    "SPEEDS", "Ask", "AskError", "Strip", "answer", "ask_of", "ratio_nodes", "ratios", "read_ask",
    "run", "saw_tooth", "strip", "waited",
]  # fmt: skip

SAMPLES, RUN_SAMPLES, SEED = 200, 400, 1
_MOST = 64
_lock = threading.Lock()
_answers: OrderedDict[tuple[Any, ...], Future[Any]] = OrderedDict()
_bench = ThreadPoolExecutor(1, thread_name_prefix="strip")


@dataclass(frozen=True)
class Strip:
    """A run with one history, as a page shows it."""

    report: RunReport
    history: RunHistory


def ratios(build: Resolved, ask: Ask, seed: int = SEED, samples: int = SAMPLES) -> RatioReport:
    """The ratio study."""
    from axlewright.studies.ratio import ratio_study  # noqa: PLC0415 (check goes without)

    return ratio_study(build, ask, seed, samples)


def run(build: Resolved, seed: int = SEED, samples: int = RUN_SAMPLES) -> RunReport:
    """Times down the strip with their bands."""
    from axlewright.studies.run_down import run_study  # noqa: PLC0415

    return run_study(build, seed, samples)


def strip(build: Resolved) -> Strip:
    """The run and one history."""
    from axlewright.studies.run_down import run_history  # noqa: PLC0415

    return Strip(run(build), run_history(build))


def ratio_nodes(build: Resolved, ask: Ask, option: str) -> dict[str, Node]:
    """The working behind every number of one option (``teeth@tire``), by id."""
    from axlewright.studies.ratio_working import option_nodes  # noqa: PLC0415

    return option_nodes(build, ask, option)


def saw_tooth(build: Resolved, ask: Ask, option: str) -> SawTooth:
    """The curves of one option."""
    from axlewright.studies.ratio_working import saw_tooth as curves  # noqa: PLC0415

    return curves(build, ask, option)


def answer(kind: str, build: Resolved, ask: Sequence[str], make: Callable[[], Any]) -> Future[Any]:
    """The answer of a question about a text, being worked out or kept; one at a time.

    ``ask`` is all that the answer depends on beside the text.
    """
    key = (kind, __version__, data_hash(), build.source.text, *ask)
    with _lock:
        known = _answers.get(key)
        if known is not None and not (known.done() and known.exception() is not None):
            _answers.move_to_end(key)
            return known
        made = _answers[key] = _bench.submit(make)
        while len(_answers) > _MOST:
            _, old = _answers.popitem(last=False)
            old.cancel()
        return made


def waited(future: Future[Any], seconds: float) -> bool:
    """Whether an answer is there within so many seconds."""
    try:
        future.exception(seconds)
    except TimeoutError:
        return False
    return True
