"""The bench: open a build, run a study on it, give the answer to whichever face asked."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from axlewright.build.problems import BuildError, Problem
from axlewright.build.reader import read_build
from axlewright.build.resolve import Resolved, resolve
from axlewright.quantities.working import Node
from axlewright.studies.report import LimitCard, LoadPathReport

if TYPE_CHECKING:
    from axlewright.papers.launch_page import MarchedLaunch
    from axlewright.studies.mesh_report import MeshReport

LARGEST = 1_000_000
"""Bytes of a build file beyond which it is none."""


def open_build(path: Path) -> Resolved:
    """Read and resolve a build file; raises :class:`BuildError` in words."""
    return resolve(read_build(read_text(path), str(path)))


def read_text(path: Path) -> str:
    """Read a text file; raises :class:`BuildError` in words."""

    def wrong(message: str) -> BuildError:
        return BuildError(str(path), [Problem("error", "", message, 1, 1)])

    try:
        if path.stat().st_size > LARGEST:
            raise wrong("this file is far too large for a build file")
        return path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        near = (
            sorted(p.name for p in path.parent.glob("*.toml"))[:5] if path.parent.is_dir() else []
        )
        hint = f"; here are {', '.join(near)}" if near else "; make one with axlewright new"
        raise wrong(f"there is no such file{hint}") from None
    except IsADirectoryError:
        raise wrong("this is a folder; name a build file in it") from None
    except UnicodeDecodeError:
        raise wrong("this file is no text in UTF-8; save it as plain text") from None
    except OSError as e:
        raise wrong(f"cannot be read: {e.strerror}") from None


def check(build: Resolved, seed: int, samples: int) -> LoadPathReport:
    """The load path of a build, with the launch marched in time if that was kept."""
    from axlewright.studies.load_path import load_path

    return load_path(as_marched(build, seed), seed, samples).report


def as_marched(build: Resolved, seed: int) -> Resolved:
    """The build with its kept march, or the caution that it has none."""
    from axlewright.workshop.marching import find, with_march

    return with_march(build, find(build, seed))


def launch_on_paper(build: Resolved, seed: int) -> MarchedLaunch | None:
    """What the check paper prints of the launch; without a kept march nothing heavy is loaded."""
    from axlewright.workshop.marching import find

    if find(build, seed) is None:
        return None
    from axlewright.workshop.launches import launch_on_paper as told

    return told(build, seed)


def gears_on_paper(build: Resolved, seed: int) -> MeshReport | None:
    """What the check paper prints of the gear pair, if it has been worked out and kept."""
    from axlewright.workshop.meshes import Meshes, folder

    if not folder().is_dir():
        return None
    return Meshes(folder()).report(as_marched(build, seed))


def limits(build: Resolved, seed: int) -> LimitCard:
    """The limit card of a build, along what a kept march found."""
    from axlewright.studies.limits import limit_card
    from axlewright.workshop.marching import find, with_held_march, with_march

    march = find(build, seed)
    turning = with_held_march(with_march(build, march))
    return limit_card(turning, seed, marched=march.dials if march else None)


def workings(build: Resolved, seed: int) -> dict[str, Node]:
    """The working behind every finding of the load path, by id."""
    from axlewright.studies.load_path import load_path

    return load_path(as_marched(build, seed), seed, 1000).nodes


def formulas_in_verdict(build: Resolved) -> tuple[str, ...]:
    """Registry names of the formulas that a build's verdict used."""
    from axlewright.studies.load_path import load_path

    return load_path(build, 1, 10).used
