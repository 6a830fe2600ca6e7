"""The command ``axlewright mesh``."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from axlewright.cli import faults
from axlewright.quantities.units import System

if TYPE_CHECKING:
    from axlewright.build.resolve import Resolved
    from axlewright.workshop.meshes import Meshes

BuildPath = Annotated[Path, typer.Argument(help="Build file (TOML).", metavar="BUILD")]
Json = Annotated[bool, typer.Option("--json", help="Print the whole result as JSON.")]
Metric = Annotated[bool, typer.Option("--si", help="Show SI units instead of shop units.")]


def mesh(
    build: BuildPath,
    torque: Annotated[
        str | None,
        typer.Option("--torque", help="Only this torque at the ring gear, like '2500 lbf*ft'."),
    ] = None,
    pinion_shim: Annotated[
        str | None,
        typer.Option("--pinion-shim", help="Only with the depth shim so much thicker."),
    ] = None,
    backlash: Annotated[
        str | None, typer.Option("--backlash", help="Only with this backlash at the heel.")
    ] = None,
    flanks: Annotated[
        Path | None,
        typer.Option("--flanks", help="Write points and normals of the flanks (.csv or .json)."),
    ] = None,
    chart: Annotated[
        Path | None, typer.Option("--chart", help="SVG of movement against torque to write.")
    ] = None,
    working: Annotated[
        str | None,
        typer.Option("--working", metavar="ID", help="Show how one number came about."),
    ] = None,
    quick: Annotated[
        bool,
        typer.Option("--quick", help="At once: under the textbook's tooth force, without bands."),
    ] = False,
    as_json: Json = False,
    si: Metric = False,
    samples: Annotated[
        int, typer.Option("--samples", help="Number of samples.", min=2, max=1000)
    ] = 60,
) -> None:
    """Say how the gears sit, where load puts the pattern, and what would change that."""
    from axlewright.studies.mesh_runs import NoPairError
    from axlewright.workshop import bench
    from axlewright.workshop.meshes import Meshes, folder

    opened = bench.as_marched(bench.open_build(build), 1)
    meshes = Meshes(folder(), samples)
    said = {"torque": torque or "", "shim": pinion_shim or "", "backlash": backlash or ""}
    try:
        meshes.quick(opened)
        if flanks is not None:
            _write_flanks(meshes, opened, flanks, as_json)
        elif any(said.values()):
            _tell_setting(meshes, opened, said, as_json, si)
        else:
            _tell(meshes, opened, (quick, chart, working), as_json, si)
    except NoPairError as e:
        raise faults.InputError(str(e)) from None


def _tell(
    meshes: Meshes,
    build: Resolved,
    wanted: tuple[bool, Path | None, str | None],
    as_json: bool,
    si: bool,
) -> None:
    """The whole study, or of it a picture or one number's working."""
    from axlewright.cli import show, show_mesh
    from axlewright.cli.show_launch import Watched
    from axlewright.workshop import messages

    quick, chart, working = wanted
    system: System = "si" if si else "shop"
    if chart is not None:
        faults.writable(chart)
    report = meshes.quick(build).report if quick else meshes.report(build)
    if report is None:
        with Watched("bringing teeth, bearings and case to balance") as tell:
            report = meshes.work(build, tell)
    if chart is not None:
        from axlewright.drawing.deflection_chart import deflection_chart
        from axlewright.drawing.svg import to_svg

        chart.write_text(to_svg(deflection_chart(report), "deflection"), encoding="utf-8")
    if working is not None:
        show.open_number(meshes.nodes(build, report), working, as_json, system)
    elif as_json:
        typer.echo(messages.envelope("mesh", report))
    else:
        show_mesh.print_mesh(report, system)


def _tell_setting(
    meshes: Meshes, build: Resolved, said: dict[str, str], as_json: bool, si: bool
) -> None:
    """The pair with other shims, and under one torque if one was named."""
    from axlewright.cli import show_mesh
    from axlewright.studies.mesh_under import Setting
    from axlewright.workshop import messages
    from axlewright.workshop.mesh_asking import asked

    try:
        at = asked(build, meshes.quick(build), said)
        found = meshes.shimmed(build, at.shim, at.backlash)
        under = meshes.worked_out(build, found, at.torque) if said["torque"] else None
    except (ValueError, ArithmeticError) as e:
        raise faults.InputError(str(e)) from None
    if as_json:
        typer.echo(messages.envelope("mesh-setting", Setting(found, under)))
    else:
        show_mesh.print_setting(at.shim, found, under, "si" if si else "shop")


def _write_flanks(meshes: Meshes, build: Resolved, path: Path, as_json: bool) -> None:
    from axlewright.studies.mesh_points import as_csv
    from axlewright.studies.mesh_points import as_json as points_as_json
    from axlewright.workshop import messages

    made = {".csv": as_csv, ".json": points_as_json}.get(path.suffix.lower())
    if made is None:
        raise faults.InputError(f"{path}: name a file that ends in .csv or .json")
    faults.writable(path)
    try:
        path.write_text(made(meshes.points(build)), encoding="utf-8")
    except ValueError as e:
        raise faults.InputError(str(e)) from None
    typer.echo(
        messages.envelope("mesh-flanks", {"path": str(path)}) if as_json else f"Wrote {path}"
    )
