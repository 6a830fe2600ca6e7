"""The commands that march a launch in time and size what stands before the gearbox."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

BuildPath = Annotated[Path, typer.Argument(help="Build file (TOML).", metavar="BUILD")]
Json = Annotated[bool, typer.Option("--json", help="Print the whole result as JSON.")]
Metric = Annotated[bool, typer.Option("--si", help="Show SI units instead of shop units.")]
Seed = Annotated[int, typer.Option("--seed", help="Seed of the samples.", min=0)]


def launch(
    build: BuildPath,
    as_json: Json = False,
    si: Metric = False,
    seed: Seed = 1,
    samples: Annotated[
        int,
        typer.Option("--samples", help="Number of launches of each case.", min=100, max=100_000),
    ] = 10_000,
    trace: Annotated[
        str | None,
        typer.Option("--trace", help="Write this case in time to a CSV file.", metavar="CASE"),
    ] = None,
    out: Annotated[Path | None, typer.Option("-o", "--out", help="CSV file to write.")] = None,
) -> None:
    """March the launch in time: peak torques, what decides them, and whether the axle hops.

    The load path takes these peaks from then on, until an input changes.
    """
    from axlewright.cli import faults, show_launch
    from axlewright.workshop import bench, launches, messages

    opened = bench.open_build(build)
    if trace is not None:
        path = out or build.with_suffix(f".{trace.replace(' ', '-')}.csv")
        faults.writable(path)
        try:
            history = launches.history(opened, trace)
        except KeyError as e:
            raise faults.InputError(str(e.args[0])) from None
        show_launch.write_history(history, path)
        typer.echo(
            messages.envelope("launch-trace", {"path": str(path)}) if as_json else f"Wrote {path}"
        )
        return
    with show_launch.Watched("marching launches") as tell:
        report = launches.launch(opened, seed, samples, tell)
    if as_json:
        typer.echo(messages.envelope("launch", report))
    else:
        show_launch.print_launch(report, "si" if si else "shop")


def coupling(build: BuildPath, as_json: Json = False, si: Metric = False, seed: Seed = 1) -> None:
    """Say whether the clutch holds, where the converter stalls, and what slips first."""
    from axlewright.cli import show_launch
    from axlewright.workshop import bench, launches, messages

    report = launches.coupling(bench.open_build(build), seed).report
    if as_json:
        typer.echo(messages.envelope("coupling", report))
    else:
        show_launch.print_coupling(report, "si" if si else "shop")
