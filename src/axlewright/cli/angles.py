"""The command ``axlewright angles``."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from axlewright.quantities.units import System

BuildPath = Annotated[Path, typer.Argument(help="Build file (TOML).", metavar="BUILD")]


def angles(
    build: BuildPath,
    working: Annotated[
        str | None,
        typer.Option("--working", metavar="KEY", help="Show how one number came about."),
    ] = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print the whole result as JSON.")
    ] = False,
    si: Annotated[bool, typer.Option("--si", help="Show SI units instead of shop units.")] = False,
    seed: Annotated[int, typer.Option("--seed", help="Seed of the samples.", min=0)] = 1,
    samples: Annotated[
        int, typer.Option("--samples", help="Number of samples.", min=50, max=5000)
    ] = 200,
) -> None:
    """Say how to set the pinion, what driveshaft and joints do, and how the axle moves."""
    from axlewright.cli import show
    from axlewright.workshop import angles as study
    from axlewright.workshop import bench, messages

    resolved = bench.open_build(build)
    system: System = "si" if si else "shop"
    if working is not None:
        show.open_number(study.nodes(resolved), working, as_json, system)
        return
    report = study.angles(resolved, seed, samples)
    if as_json:
        typer.echo(messages.envelope("angles", report))
    else:
        from axlewright.cli import show_angles

        show_angles.print_angles(report, system)
