"""The command ``axlewright fit``."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from axlewright.cli import faults


def fit(
    build: Annotated[Path, typer.Argument(help="Build file (TOML).", metavar="BUILD")],
    backspace: Annotated[
        str | None, typer.Option("--backspace", help="Try another backspace, like '4.5 in'.")
    ] = None,
    rim: Annotated[
        str | None, typer.Option("--rim", help="Try another rim width, like '9 in'.")
    ] = None,
    section: Annotated[
        str | None, typer.Option("--section", help="Try a tire of another section, like '11.5 in'.")
    ] = None,
    tire: Annotated[
        str | None, typer.Option("--tire", help="Try another tire size, by its numbers alone.")
    ] = None,
    width: Annotated[
        str | None,
        typer.Option("--width", help="Try another axle, wheel face to wheel face, like '58 in'."),
    ] = None,
    have: Annotated[
        list[str] | None,
        typer.Option("--have", help="What is there or was looked at, like 'brake size,brakes'."),
    ] = None,
    drive_teeth: Annotated[
        list[str] | None,
        typer.Option("--drive-teeth", help="Teeth of speedometer drive gears, like 7,8."),
    ] = None,
    old_ratio: Annotated[
        str, typer.Option("--old-ratio", help="Axle ratio that the speedometer was right with.")
    ] = "",
    old_tire: Annotated[
        str, typer.Option("--old-tire", help="Tire size that it was right with.")
    ] = "",
    worksheet: Annotated[
        bool, typer.Option("--worksheet", help="List what is still to be measured, to write on.")
    ] = False,
    working: Annotated[
        str | None,
        typer.Option("--working", metavar="ID", help="Show how one number came about."),
    ] = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print the whole result as JSON.")
    ] = False,
    si: Annotated[bool, typer.Option("--si", help="Show SI units instead of shop units.")] = False,
    seed: Annotated[int, typer.Option("--seed", help="Seed of the samples.", min=0)] = 1,
    samples: Annotated[
        int, typer.Option("--samples", help="Number of samples.", min=50, max=20_000)
    ] = 400,
) -> None:
    """Say whether wheels and axle fit and how the axle is cut. Exit 1 unless it fits."""
    from axlewright.cli import show
    from axlewright.quantities.units import System
    from axlewright.workshop import bench, fits, messages

    resolved = bench.open_build(build)
    system: System = "si" if si else "shop"
    try:
        ask = fits.read_fit_ask(have or (), drive_teeth or (), old_ratio, old_tire)
        resolved = fits.with_tried(
            resolved, backspace=backspace or "", rim_width=rim or "", section=section or "",
            tire=tire or "", width=width or "",
        )  # fmt: skip
    except fits.FitAskError as e:
        raise faults.InputError(str(e)) from None
    if working is not None:
        show.open_number(fits.nodes(resolved, ask), working, as_json, system)
        return
    report = fits.fit(resolved, ask, seed, samples)
    if as_json:
        typer.echo(messages.envelope("fit", report))
    else:
        from axlewright.cli import show_fit

        if worksheet:
            show_fit.print_worksheet(resolved.machine.name, resolved.fitting.missing)
        else:
            show_fit.print_fit(report, system)
    raise typer.Exit(messages.HOLDS if report.verdict == "fits" else messages.SHORT)
