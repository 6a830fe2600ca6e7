"""Printing the ratio study and the run down the strip: the sentence first, then the table."""

from __future__ import annotations

from collections.abc import Sequence

from rich.table import Table
from rich.text import Text

from axlewright.cli.show import console
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import System, from_si, pretty, show, significant
from axlewright.studies.ratio_choice import margin_words
from axlewright.studies.ratio_heat import OIL
from axlewright.studies.ratio_report import RatioOption, RatioReport, SpeedAsked
from axlewright.studies.run_report import RunReport

_WIDTH = 98


def print_ratios(report: RatioReport, system: System) -> None:
    """Print the choice, a table for each tire, and what beats what."""
    out = console()
    out.print(Text(report.name, style="bold"))
    out.print(Text(report.sentence, style="bold"), width=_WIDTH)
    if report.price:
        out.print(report.price, width=_WIDTH)
    for tire in report.tires:
        mine = [o for o in report.options if o.tire == tire]
        out.print()
        out.print(_table(report, tire, mine, system))
        for option in mine:
            if option.beaten:
                out.print(Text(f"  {option.teeth}: {option.beaten}.", style="dim"))
    out.print()
    chosen = next(o for o in report.options if o.chosen)
    out.print(_gears(report, chosen, system))
    out.print()
    out.print(_noise(report, chosen))
    out.print()
    out.print(_heat(report, chosen, system), width=_WIDTH)
    _notes(report.cautions, report.safety, report.made.seed, report.made.samples)


def _table(report: RatioReport, tire: str, options: Sequence[RatioOption], system: System) -> Table:
    speed, oil = (pretty(from_si(1.0, d, system)[1]) for d in ("speed", "temperature"))
    table = Table(
        box=None, pad_edge=False, header_style="dim", title_justify="left", title_style="bold",
        title=f"On {tire}: times in s, speeds in {speed}, rpm and axle oil in {oil} at"
        f" {report.cruise.text} in top gear",
    )  # fmt: skip
    heads = ("teeth", "ratio", "60 ft", "1/4 mile", "trap", "rpm", "oil", "top", "whip", "gears",
             "link", "pair", "")  # fmt: skip
    for n, head in enumerate(heads):
        table.add_column(head, no_wrap=True, justify="left" if n in {0, 11, 12} else "right")
    top = f"engine_{report.cruise.key}_gear_{len(report.gears)}"
    for o in options:
        f = o.findings
        quarter = f["time_quarter_mile"]
        row = (
            o.teeth,
            f"{f['ratio'].value:.2f}",
            f"{f['time_60_ft'].value:.2f}",
            f"{quarter.value:.2f} ({quarter.low:.1f}–{quarter.high:.1f})",
            _plain(f["trap_quarter_mile"], system, 4),
            _plain(f[top], system, 2),
            _plain(f[OIL], system, 3),
            _plain(f["top_speed"], system, 3) + ("*" if o.top_limit == "rev limit" else ""),
            f"{f['whip_share'].value:.2f}" + ("!" if _whips(o) else ""),
            margin_words(f["gear_margin"].value),
            margin_words(f["weakest_margin"].value),
            o.hunting,
            _word(o),
        )
        table.add_row(*row, style="bold" if o.chosen else "dim" if o.beaten else "")
    table.caption = (
        "whip: driveshaft at top speed over the speed at which it whips, ! more than is safe;"
        " gears, link: margin of ring and pinion and of the weakest link; * at the rev limit"
    )
    table.caption_justify = "left"
    return table


def _whips(option: RatioOption) -> bool:
    return option.findings["whip_share"].value > option.findings["whip_allowed"].value


def _word(option: RatioOption) -> str:
    words = ["take" if option.chosen and not option.fitted else "stay" if option.chosen else ""]
    words += ["fitted"] if option.fitted else []
    words += [f"beaten by {option.beaten_by}"] if option.beaten_by else []
    return ", ".join(filter(None, words))


def _plain(finding: Finding, system: System, digits: int) -> str:
    value = from_si(finding.value, finding.dimension, system)[0]
    return f"{float(significant(value, digits).replace(',', '')):,.{1 if digits == 4 else 0}f}"


def _gears(report: RatioReport, option: RatioOption, system: System) -> Table:
    table = Table(
        box=None, pad_edge=False, header_style="dim", title_justify="left", title_style="bold",
        title=f"{option.teeth} on {option.tire}: engine speed by gear, rpm",
    )  # fmt: skip
    for head in ("gear", *(s.text for s in report.speeds), "rev limit at", "shift at", "drops by",
                 "to"):  # fmt: skip
        table.add_column(head, justify="right", no_wrap=True)
    f = option.findings
    for n in range(1, len(report.gears) + 1):
        shift = n < len(report.gears)
        table.add_row(
            str(n),
            *(_turns(f, s, n) for s in report.speeds),
            show(f[f"limiter_gear_{n}"].value, "speed", system, 3),
            show(f[f"shift_road_speed_{n}"].value, "speed", system, 3) if shift else "",
            _plain(f[f"shift_drop_{n}"], system, 2) if shift else "",
            _plain(f[f"after_shift_{n}"], system, 2) if shift else "",
        )
    return table


def _turns(found: dict[str, Finding], asked: SpeedAsked, gear: int) -> str:
    """Engine speed in a gear; a stroke where the gear does not reach the road speed."""
    if asked.value > found[f"limiter_gear_{gear}"].value:
        return "–"
    return _plain(found[f"engine_{asked.key}_gear_{gear}"], "shop", 2)


def _noise(report: RatioReport, option: RatioOption) -> Table:
    table = Table(
        box=None, pad_edge=False, header_style="dim", title_justify="left", title_style="bold",
        title=f"{option.teeth} on {option.tire}: what may be heard or felt, Hz",
    )  # fmt: skip
    for head in ("at", "wheel, once", "driveshaft, once", "joints, twice", "gear mesh"):
        table.add_column(head, justify="right", no_wrap=True)
    for s in report.speeds:
        table.add_row(
            s.text,
            *(hertz(option.findings[f"{p}_{s.key}"]) for p in ("wheel", "shaft", "joint", "mesh")),
        )
    return table


def _heat(report: RatioReport, option: RatioOption, system: System) -> str:
    """Oil of the axle with its band, what it comes from, and the clutch's share."""
    f = option.findings
    oil = f[OIL]
    value, low, high = (show(t, oil.dimension, system, 3) for t in (oil.value, oil.low, oil.high))
    said = (
        f"{option.teeth} on {option.tire}: axle oil {value} ({low} to {high}) at"
        f" {report.cruise.text} on a hot day, from {show(f['axle_heat'].value, 'power', system, 2)}"
        " of heat."
    )
    if "clutch_heat" in f:
        heat = show(f["clutch_heat"].value, "energy", system, 2)
        said += f" The clutch takes {heat} in a launch, or more."
    return said


def hertz(rate: Finding) -> str:
    """A rate as times a second."""
    return significant(from_si(rate.value, "rotation")[0] / 60.0, 3)


def print_run(report: RunReport, system: System) -> None:
    """Print the times down the strip."""
    out = console()
    out.print(Text(report.name, style="bold"))
    out.print(Text(report.sentence, style="bold"), width=_WIDTH)
    out.print()
    table = Table(box=None, pad_edge=False, header_style="dim")
    for head in ("mark", "time, s", "5 to 95 %", "trap speed", "5 to 95 %"):
        table.add_column(head, no_wrap=True, justify="left" if head == "mark" else "right")
    rows = [(m.name, m.time, m.speed) for m in report.marks]
    rows += [(report.findings[k].means, report.findings[k], None)
             for k in ("time_60_mph", "time_100_kmh")]  # fmt: skip
    for name, time, speed in rows:
        cells = [f"{time.value:.2f}", f"{time.low:.2f}–{time.high:.2f}"] if time else ["", ""]
        if speed:
            low, high = (_plain(_moved(speed, v), system, 3) for v in (speed.low, speed.high))
            cells += [show(speed.value, "speed", system, 4), f"{low}–{high}"]
        table.add_row(name, *cells)
    out.print(table)
    out.print()
    out.print(Text("Assumed about the run", style="bold"))
    for a in report.assumed:
        out.print(f"  {a.means}: {a.value} ({a.source})", width=_WIDTH)
    _notes(report.cautions, report.safety, report.made.seed, report.made.samples)


def _moved(finding: Finding, value: float) -> Finding:
    return Finding(finding.id, finding.means, value, value, value, finding.dimension)


def _notes(cautions: Sequence[str], safety: Sequence[str], seed: int, samples: int) -> None:
    out = console()
    out.print()
    out.print(f"{samples} samples, seed {seed}; the band holds 5 to 95 % of them.")
    for caution in cautions:
        out.print(Text(f"Caution: {caution}", style="yellow"), width=_WIDTH)
    for line in safety:
        out.print(Text(line, style="dim"), width=_WIDTH)
