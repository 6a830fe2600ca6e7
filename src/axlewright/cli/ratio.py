"""The commands ``axlewright ratio`` and ``axlewright run``."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from axlewright.cli import faults

BuildPath = Annotated[Path, typer.Argument(help="Build file (TOML).", metavar="BUILD")]
Json = Annotated[bool, typer.Option("--json", help="Print the whole result as JSON.")]
Metric = Annotated[bool, typer.Option("--si", help="Show SI units instead of shop units.")]
Seed = Annotated[int, typer.Option("--seed", help="Seed of the samples.", min=0)]
Chart = Annotated[Path | None, typer.Option("--chart", help="SVG of the chart to write.")]


def ratio(
    build: BuildPath,
    ratios: Annotated[
        list[str] | None,
        typer.Option("--ratios", help="Pairs of ring and pinion teeth, like 41/11,39/10."),
    ] = None,
    tires: Annotated[
        list[str] | None,
        typer.Option(
            "--tires", help="Further tires: a size, and a grip class after it if it is another."
        ),
    ] = None,
    speeds: Annotated[
        list[str] | None,
        typer.Option("--speeds", help="Road speeds to tell rpm and noise at; the highest cruises."),
    ] = None,
    working: Annotated[
        str | None,
        typer.Option("--working", metavar="ID", help="Show how one number came about."),
    ] = None,
    chart: Chart = None,
    as_json: Json = False,
    si: Metric = False,
    seed: Seed = 1,
    samples: Annotated[
        int, typer.Option("--samples", help="Number of samples.", min=50, max=5000)
    ] = 200,
) -> None:
    """Compare real pairs of teeth on several tires, and say which to take and what it costs."""
    from axlewright.cli import show
    from axlewright.workshop import bench, messages
    from axlewright.workshop import ratios as strip

    resolved = bench.open_build(build)
    try:
        ask = strip.read_ask(resolved, ratios or (), tires or (), speeds or ())
    except strip.AskError as e:
        raise faults.InputError(str(e)) from None
    if working is not None:
        _, _, option = working.partition("@")
        try:
            nodes = strip.ratio_nodes(resolved, strip.ask_of(resolved, working), option)
        except (LookupError, strip.AskError) as e:
            known = ", ".join(f"{t.text}@{r.text}" for t in ask.teeth[:2] for r in ask.tires[:1])
            raise faults.InputError(
                f"{e.args[0]}; an id is a number's key, then @teeth@tire, like"
                f" top_speed@{known.partition(',')[0]}"
            ) from None
        show.open_number(nodes, working, as_json, "si" if si else "shop")
        return
    if chart is not None:
        faults.writable(chart)
    report = strip.ratios(resolved, ask, seed, samples)
    if chart is not None:
        from axlewright.drawing.saw_tooth import saw_tooth
        from axlewright.drawing.svg import to_svg

        chosen = next(o for o in report.options if o.chosen)
        curves = strip.saw_tooth(resolved, ask, chosen.name)
        chart.write_text(to_svg(saw_tooth(curves), "saw-tooth"), encoding="utf-8")
    if as_json:
        typer.echo(messages.envelope("ratio", report))
    else:
        from axlewright.cli import show_ratio

        show_ratio.print_ratios(report, "si" if si else "shop")


def run(
    build: BuildPath,
    chart: Chart = None,
    as_json: Json = False,
    si: Metric = False,
    seed: Seed = 1,
    samples: Annotated[
        int, typer.Option("--samples", help="Number of samples.", min=50, max=20_000)
    ] = 400,
) -> None:
    """Say when and how fast the car passes each mark of a strip, and how sure that is."""
    from axlewright.workshop import bench, messages
    from axlewright.workshop import ratios as strip

    resolved = bench.open_build(build)
    if chart is not None:
        faults.writable(chart)
    report = strip.run(resolved, seed, samples)
    if chart is not None:
        from axlewright.drawing.run_chart import run_chart
        from axlewright.drawing.svg import to_svg

        picture = run_chart(strip.strip(resolved).history)
        chart.write_text(to_svg(picture, "run"), encoding="utf-8")
    if as_json:
        typer.echo(messages.envelope("run", report))
    else:
        from axlewright.cli import show_ratio

        show_ratio.print_run(report, "si" if si else "shop")
