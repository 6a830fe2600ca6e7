"""The angles study for every face: asked for, worked out at once, kept for the last few texts."""

from __future__ import annotations

import threading
from collections import OrderedDict

from axlewright import __version__
from axlewright.build.resolve import Resolved
from axlewright.catalogue.load import data_hash
from axlewright.quantities.working import Node
from axlewright.studies.angles import SAMPLES, SEED, angle_nodes, angles_study
from axlewright.studies.angles_picture import Standing, standing_at
from axlewright.studies.angles_report import AnglesReport

__all__ = ["SAMPLES", "SEED", "AnglesReport", "Standing", "angles", "nodes", "picture"]

_MOST = 16
_lock = threading.Lock()
_reports: OrderedDict[tuple[object, ...], AnglesReport] = OrderedDict()


def angles(build: Resolved, seed: int = SEED, samples: int = SAMPLES) -> AnglesReport:
    """The angles study of a build."""
    key = (__version__, data_hash(), build.source.file, build.source.text, seed, samples)
    with _lock:
        known = _reports.get(key)
        if known is not None:
            _reports.move_to_end(key)
            return known
    made = angles_study(build, seed, samples)
    with _lock:
        _reports[key] = made
        while len(_reports) > _MOST:
            _reports.popitem(last=False)
    return made


def nodes(build: Resolved) -> dict[str, Node]:
    """The working behind every number, by key."""
    return angle_nodes(build)


def picture(build: Resolved, travel: float) -> Standing | None:
    """Where everything stands with both wheels at a travel, m up; None without angles."""
    return standing_at(build, travel)
