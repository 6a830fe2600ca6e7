"""Launches marched in time, kept as files: found again while nothing that they read has changed.

A march takes many seconds, the load path must answer at once.  So the march leaves its peaks here,
and the load path takes them if they belong to these very inputs; else it says its closed-form
bounds and that they are bounds.
"""

from __future__ import annotations

import os
from dataclasses import dataclass, field, replace
from hashlib import sha256
from pathlib import Path
from typing import Any

import numpy as np

from axlewright import __version__
from axlewright.build.resolve import Resolved
from axlewright.catalogue.load import data_hash
from axlewright.quantities.estimate import Leaf, Marched
from axlewright.store.folder import data_folder
from axlewright.studies.dial_march import DialMarch
from axlewright.studies.launch_words import beyond_bound
from axlewright.workshop.keyed_files import UNFINISHED, facts, tidy

FORMAT = "march 2"
MOST_KEPT = 64
BOUNDS = (
    "Shock loads are closed-form bounds: the launch of this build has not been marched in time yet."
)


@dataclass(frozen=True)
class March:
    """Ratios of marched peak to closed form, nominal and sampled, by case and place; the report."""

    seed: int
    nominal: dict[str, dict[str, float]]
    sampled: dict[str, dict[str, np.ndarray]]
    report: dict[str, Any]
    dials: dict[str, DialMarch] = field(default_factory=dict)
    """The stated launch along each dial of the limit card."""


def folder() -> Path:
    """Where marches are kept."""
    return data_folder() / "marches"


def with_march(build: Resolved, march: March | None) -> Resolved:
    """The build with the peaks of its march, or with the caution that it has none."""
    if march is None:
        return replace(build, cautions=(*build.cautions, BOUNDS))
    marched: dict[str, dict[str, Leaf]] = {
        case: {
            place: Marched(f"marched.{case}.{place}", value, march.sampled[case][place], march.seed)
            for place, value in by_place.items()
        }
        for case, by_place in march.nominal.items()
    }
    beyond = beyond_bound({case: by_place["ring"] for case, by_place in march.nominal.items()})
    return replace(
        build,
        machine=replace(build.machine, marched=marched),
        cautions=(*build.cautions, *beyond),
    )


HELD = (
    "The stated launch was marched in time at nine settings of each dial; other cases, and other"
    " tires, keep the ratio of marched peak to closed form that they have as the car stands."
)


def with_held_march(build: Resolved) -> Resolved:
    """The same for a study that turns dials: it says what stays as it was marched."""
    return replace(build, cautions=(*build.cautions, HELD)) if build.machine.marched else build


def stamp(key: str, where: Path | None = None) -> str:
    """What tells the march of a key from an older one, and from none, which is empty."""
    try:
        return f"{key}@{((where or folder()) / f'{key}.npz').stat().st_mtime_ns}"
    except OSError:
        return ""


def find(build: Resolved, seed: int, where: Path | None = None) -> March | None:
    """The march of this build, if it was made with these inputs and this seed.

    ``where`` is the folder of marches; that of the builder's data if left out.
    """
    kept = where or folder()
    if not kept.is_dir() or not any(kept.iterdir()):
        return None
    from zipfile import BadZipFile  # noqa: PLC0415 (only where marches are kept)
    from zlib import error as ZlibError  # noqa: N812, PLC0415

    broken = (OSError, ValueError, KeyError, EOFError, BadZipFile, ZlibError)
    try:
        with (
            (kept / f"{key_of(build, seed)}.npz").open("rb") as raw,
            np.load(raw, allow_pickle=False) as file,
        ):
            return _march({name: file[name] for name in file.files}, seed)
    except FileNotFoundError:
        return None
    except broken:  # cut short by a full disk, or written by something else: march again
        return None


def _march(arrays: dict[str, np.ndarray], seed: int) -> March:
    """A march from the arrays of its file."""
    import json  # noqa: PLC0415 (only where marches are kept)

    told = json.loads(bytes(arrays.pop("told")).decode())
    sampled: dict[str, dict[str, np.ndarray]] = {}
    along: dict[str, dict[str, np.ndarray]] = {}
    for name, values in arrays.items():
        what, place = name.split("|")
        into = along if what.startswith(_DIAL) else sampled
        into.setdefault(what.removeprefix(_DIAL), {})[place] = values.astype(np.float64)
    if {c: set(p) for c, p in sampled.items()} != {c: set(p) for c, p in told["nominal"].items()}:
        raise ValueError("the file lacks a case")
    dials = {
        name: DialMarch(
            d["case"],
            np.array(d["settings"]),
            {place: np.array(values) for place, values in d["nominal"].items()},
            along[name],
        )
        for name, d in told["dials"].items()
    }
    return March(seed, told["nominal"], sampled, told["report"], dials)


def keep(build: Resolved, march: March, where: Path | None = None) -> None:
    """Keep a march; the oldest go when there are many."""
    import json  # noqa: PLC0415 (not for who only looks)
    import tempfile  # noqa: PLC0415

    kept = where or folder()
    kept.mkdir(parents=True, exist_ok=True)
    dials = {
        name: {
            "case": d.case,
            "settings": d.settings.tolist(),
            "nominal": {place: values.tolist() for place, values in d.nominal.items()},
        }
        for name, d in march.dials.items()
    }
    told = json.dumps({"nominal": march.nominal, "report": march.report, "dials": dials})
    arrays = {
        f"{case}|{place}": values.astype(np.float32)
        for case, by_place in march.sampled.items()
        for place, values in by_place.items()
    } | {
        f"{_DIAL}{name}|{place}": values.astype(np.float32)
        for name, d in march.dials.items()
        for place, values in d.sampled.items()
    }
    path = kept / f"{key_of(build, march.seed)}.npz"
    handle, unfinished = tempfile.mkstemp(suffix=UNFINISHED, dir=kept)
    with os.fdopen(handle, "wb") as file:
        np.savez(file, told=np.frombuffer(told.encode(), dtype=np.uint8), **arrays)  # type: ignore[arg-type]
    Path(unfinished).replace(path)
    tidy(kept, "*.npz", MOST_KEPT)


_DIAL = "dial:"


def key_of(build: Resolved, seed: int) -> str:
    """Hash of everything that the march reads: text that changes nothing keeps the march."""
    from axlewright.studies.launch_reads import STUDY, what_is_read  # noqa: PLC0415 (only then)

    said = sha256(f"{FORMAT}|{STUDY}|{__version__}|{data_hash()}|{seed}".encode())
    for part in facts(what_is_read(build)):
        said.update(part.encode())
    return said.hexdigest()[:40]
