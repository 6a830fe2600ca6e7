"""The commands of ``axlewright``."""

from __future__ import annotations

import io
import sys
from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from axlewright import __version__
from axlewright.cli import angles, drawings, faults, fit, launching, mesh, ratio
from axlewright.cli.serve import serve

app = typer.Typer(
    name="axlewright",
    help="Work out what torque reaches each part from flywheel to ground, what each part stands,"
    " and which goes first.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)

BuildPath = Annotated[Path, typer.Argument(help="Build file (TOML).", metavar="BUILD")]
Json = Annotated[bool, typer.Option("--json", help="Print the whole result as JSON.")]
Metric = Annotated[bool, typer.Option("--si", help="Show SI units instead of shop units.")]
Seed = Annotated[int, typer.Option("--seed", help="Seed of the samples.", min=0)]


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"axlewright {__version__}")
        raise typer.Exit


@app.callback()
def _root(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version.")
    ] = False,
) -> None:
    del version


@app.command()
def new(
    path: Annotated[
        Path | None, typer.Argument(help="File to write; standard output when left out.")
    ] = None,
    full: Annotated[
        bool, typer.Option("--full", help="Every key, not only the first ten.")
    ] = False,
    as_json: Json = False,
) -> None:
    """Write a commented build file to fill in."""
    from axlewright.workshop.messages import envelope
    from axlewright.workshop.template import template

    text = template("full" if full else "short")
    if path is not None:
        faults.write_new(path, text)
    if as_json:
        typer.echo(envelope("new", {"path": str(path) if path else None, "text": text}))
    elif path is None:
        typer.echo(text, nl=False)
    else:
        typer.echo(f"Wrote {path}. Fill it in, then: axlewright check {path}")


@app.command()
def check(
    build: BuildPath,
    as_json: Json = False,
    si: Metric = False,
    seed: Seed = 1,
    samples: Annotated[
        int, typer.Option("--samples", help="Number of samples.", min=100, max=200_000)
    ] = 10_000,
    all_inputs: Annotated[bool, typer.Option("--inputs", help="List every input as used.")] = False,
) -> None:
    """Say what goes first, what each link stands, and what to measure next. Exit 1 if short."""
    from axlewright.workshop import bench, messages

    report = bench.check(bench.open_build(build), seed, samples)
    if as_json:
        typer.echo(messages.envelope("load-path", report))
    else:
        from axlewright.cli import show

        show.print_report(report, "si" if si else "shop", all_inputs)
    raise typer.Exit(messages.HOLDS if report.verdict.holds else messages.SHORT)


@app.command()
def limits(build: BuildPath, as_json: Json = False, seed: Seed = 1) -> None:
    """Say how far launch speed, torque, grip and bite may go with what is on the car."""
    from axlewright.workshop import bench, messages

    card = bench.limits(bench.open_build(build), seed)
    if as_json:
        typer.echo(messages.envelope("limit-card", card))
    else:
        from axlewright.cli import show

        show.print_card(card)


@app.command()
def working(
    build: BuildPath,
    number: Annotated[
        str | None,
        typer.Argument(help="Id of the number; lists the ids when left out.", metavar="ID"),
    ] = None,
    as_json: Json = False,
    si: Metric = False,
) -> None:
    """Show how a number came about: formulas, values, sources."""
    from axlewright.cli import show
    from axlewright.workshop import bench, messages

    nodes = bench.workings(bench.open_build(build), 1)
    if number is None:
        if as_json:
            typer.echo(messages.envelope("working-ids", sorted(nodes)))
        else:
            typer.echo("\n".join(sorted(nodes)))
        return
    show.open_number(nodes, number, as_json, "si" if si else "shop")


@app.command()
def paper(
    build: BuildPath,
    out: Annotated[Path | None, typer.Option("-o", "--out", help="PDF to write.")] = None,
    card: Annotated[bool, typer.Option("--card", help="Only the limit card, visor size.")] = False,
    seed: Seed = 1,
    as_json: Json = False,
) -> None:
    """Write the check paper (or the limit card) as a PDF."""
    from axlewright.papers.check_paper import write_check_paper
    from axlewright.papers.limit_card import write_limit_card
    from axlewright.workshop import bench, messages

    resolved = bench.open_build(build)
    path = out or build.with_suffix(".card.pdf" if card else ".pdf")
    faults.writable(path)
    limit = bench.limits(resolved, seed)
    today = date.today().isoformat()
    if card:
        written = write_limit_card(limit, path, today)
    else:
        launch = bench.launch_on_paper(resolved, seed)
        report = bench.check(resolved, seed, 10_000)
        gears = bench.gears_on_paper(resolved, seed)
        written = write_check_paper(report, limit, path, today, launch, gears)
    typer.echo(
        messages.envelope("paper", {"path": str(written)}) if as_json else f"Wrote {written}"
    )


@app.command()
def recognise(as_json: Json = False) -> None:
    """Say how to tell which axle is on the car, and what wear to look for."""
    from axlewright.cli import show
    from axlewright.workshop import messages
    from axlewright.workshop.recognising import guide

    rows = guide()
    if as_json:
        typer.echo(messages.envelope("recognise", rows))
    else:
        show.print_guide(rows)


@app.command()
def verify(
    files: Annotated[
        list[Path] | None,
        typer.Argument(help="Further cases in the same format.", metavar="[FILE]..."),
    ] = None,
    as_json: Json = False,
    everything: Annotated[
        bool, typer.Option("--all", help="List every case, not only by formula.")
    ] = False,
) -> None:
    """Check the formulas against published values. Exit 1 if a case fails."""
    from axlewright.cli import show_verify
    from axlewright.verify.cases import CaseError
    from axlewright.workshop import messages
    from axlewright.workshop.verifying import verification

    try:
        outcome = verification([*(files or [])])
    except CaseError as e:
        raise faults.InputError(str(e)) from None
    if as_json:
        typer.echo(messages.envelope("verify", outcome))
    else:
        show_verify.print_verification(outcome, everything)
    raise typer.Exit(messages.HOLDS if outcome.passed else messages.SHORT)


app.command()(launching.launch)
app.command()(launching.coupling)
app.command()(mesh.mesh)
app.command()(fit.fit)
app.command()(angles.angles)
app.command()(drawings.worksheet)
app.command()(drawings.drawings)
app.command()(ratio.ratio)
app.command("run")(ratio.run)
app.command()(serve)


def run(arguments: list[str] | None = None) -> None:
    """Run a command; bad input is told in words (2), our own fault briefly with a log file (3)."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):  # a terminal that lacks a sign shows a stand-in
            stream.reconfigure(errors="replace")
    sys.exit(faults.guarded(app, arguments if arguments is not None else sys.argv[1:]))


if __name__ == "__main__":
    run()
