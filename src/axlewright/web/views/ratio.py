"""The tables and pictures of the ratio page, as plain values."""

from __future__ import annotations

import re
from dataclasses import dataclass

from axlewright.drawing.primitives import Drawing
from axlewright.drawing.svg import to_svg
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import from_si, show, significant
from axlewright.studies.ratio_choice import cruise_key, margin_words
from axlewright.studies.ratio_heat import OIL
from axlewright.studies.ratio_report import RatioOption, RatioReport, SawTooth
from axlewright.studies.run_report import RunHistory, RunReport
from axlewright.web.views.tables import Number

_ENDS = {"rev limit": "limiter", "air and road": "air"}
_SIZE = re.compile(r' width="[^"]*mm" height="[^"]*mm"')


@dataclass(frozen=True)
class OptionLine:
    """One pair of teeth on one tire: its cells in the order of :data:`HEADS`, and what is said."""

    option: RatioOption
    cells: tuple[Number, ...]
    words: str
    note: str


@dataclass(frozen=True)
class GearLine:
    """One gear: engine speed at each road speed asked, the rev limit, and the shift out of it."""

    gear: int
    ratio: str
    speeds: tuple[Number, ...]
    limiter: Number
    shift: tuple[Number, ...]


@dataclass(frozen=True)
class NoiseLine:
    """What repeats how often at one road speed, Hz."""

    at: str
    rates: tuple[Number, ...]


@dataclass(frozen=True)
class MarkLine:
    """One mark of the strip."""

    name: str
    time: str
    time_band: str
    speed: str
    speed_band: str


def heads(report: RatioReport) -> tuple[str, ...]:
    """Heads of the columns of numbers."""
    return (
        "60 ft, s", "¼ mile, s", "Trap, mph", f"rpm at {report.cruise.text}",
        f"Axle oil at {report.cruise.text}, °F", "Top, mph", "Shaft at top, of whip",
        "Ring and pinion", "Weakest link",
    )  # fmt: skip


def lines(report: RatioReport, tire: str) -> list[OptionLine]:
    """The options on one tire, longest ratio first."""
    key = cruise_key(report.cruise, len(report.gears))
    return [_line(o, key) for o in report.options if o.tire == tire]


def _line(o: RatioOption, cruise: str) -> OptionLine:
    f = o.findings
    whip, safe = f["whip_share"], f["whip_allowed"]
    cells = (
        _timed(f["time_60_ft"]),
        _timed(f["time_quarter_mile"]),
        _whole(f["trap_quarter_mile"], 1),
        Number(f[cruise].id, f"{round(from_si(f[cruise].value, 'rotation')[0], -1):,.0f}"),
        _whole(f[OIL], 0),
        Number(f["top_speed"].id, _plain(f["top_speed"], 0),
               f"{_ENDS[o.top_limit]}, gear {o.top_gear}"),
        Number(whip.id, f"{significant(whip.value * 100, 2)} %",
               "" if whip.value <= safe.value else "too fast"),
        _margin(f["gear_margin"]),
        _margin(f["weakest_margin"], o.weakest),
    )  # fmt: skip
    words = [
        ("stay" if o.fitted else "take this") if o.chosen else "",
        "fitted" if o.fitted else "",
        f"beaten by {o.beaten_by}" if o.beaten_by else "",
    ]
    return OptionLine(o, cells, ", ".join(filter(None, words)), o.beaten)


def _timed(f: Finding) -> Number:
    return Number(f.id, f"{f.value:.2f}", _band(f, f"{f.low:.2f}", f"{f.high:.2f}"))


def _whole(f: Finding, decimals: int) -> Number:
    low, high = (f"{from_si(v, f.dimension)[0]:.{decimals}f}" for v in (f.low, f.high))
    return Number(f.id, _plain(f, decimals), _band(f, low, high))


def _plain(f: Finding, decimals: int) -> str:
    return f"{from_si(f.value, f.dimension)[0]:,.{decimals}f}"


def _margin(f: Finding, more: str = "") -> Number:
    band = _band(f, margin_words(f.low), margin_words(f.high))
    return Number(f.id, margin_words(f.value), "\n".join(filter(None, (band, more))))


def _band(f: Finding, low: str, high: str) -> str:
    return "" if f.low == f.high else f"{low} to {high}"


def gears(report: RatioReport, option: RatioOption) -> list[GearLine]:
    """Engine speed by gear at the speeds asked, and each shift."""
    f = option.findings
    found = []
    for n, ratio in enumerate(report.gears, start=1):
        limiter = f[f"limiter_gear_{n}"]
        speeds = tuple(
            Number("", "–") if s.value > limiter.value else _turns(f[f"engine_{s.key}_gear_{n}"])
            for s in report.speeds
        )
        shift: tuple[Number, ...] = (Number("", ""),) * 3
        if n < len(report.gears):
            at = f[f"shift_road_speed_{n}"]
            shift = (
                Number(at.id, show(at.value, "speed", digits=3)),
                _turns(f[f"shift_drop_{n}"]),
                _turns(f[f"after_shift_{n}"]),
            )
        found.append(
            GearLine(n, f"{ratio:.2f}", speeds, Number(limiter.id, show(limiter.value, "speed",
                     digits=3)), shift)
        )  # fmt: skip
    return found


def _turns(f: Finding) -> Number:
    return Number(f.id, f"{round(from_si(f.value, 'rotation')[0], -1):,.0f}")


def noise(report: RatioReport, option: RatioOption) -> list[NoiseLine]:
    """What is heard or felt, by road speed."""
    parts = ("wheel", "shaft", "joint", "mesh")
    return [
        NoiseLine(s.text, tuple(_hertz(option.findings[f"{p}_{s.key}"]) for p in parts))
        for s in report.speeds
    ]


def _hertz(f: Finding) -> Number:
    return Number(f.id, significant(from_si(f.value, "rotation")[0] / 60.0, 3))


def marks(report: RunReport) -> list[MarkLine]:
    """Times and trap speeds down the strip."""
    rows = [(m.name, m.time, m.speed) for m in report.marks]
    rows += [
        (report.findings[k].means, report.findings[k], None)
        for k in ("time_60_mph", "time_100_kmh")
    ]
    return [
        MarkLine(
            name,
            f"{t.value:.2f}" if t else "–",
            _band(t, f"{t.low:.2f}", f"{t.high:.2f}") if t else "",
            show(v.value, "speed") if v else "",
            _band(v, show(v.low, "speed", digits=3), show(v.high, "speed", digits=3)) if v else "",
        )
        for name, t, v in rows
    ]


def inline(drawing: Drawing, prefix: str) -> str:
    """A drawing as part of a page, without a size of its own."""
    return _SIZE.sub("", to_svg(drawing, prefix), count=1)


def saw_tooth_rows(curves: SawTooth) -> list[list[str]]:
    """The numbers of the saw-tooth chart."""
    rows = [["gear", "road speed, mph", "wheel torque, lb·ft", "engine speed, rpm"]]
    rows += [
        [str(g.gear), *_numbers((v, "speed"), (t, "torque"), (n, "rotation"))]
        for g in curves.gears
        for v, t, n in zip(g.speeds, g.torques, g.engine_speeds, strict=True)
    ]
    rows += [
        ["road load", *_numbers((v, "speed"), (t, "torque")), ""]
        for v, t in zip(curves.load_speeds, curves.load_torques, strict=True)
    ]
    return [*rows, ["grip", "", *_numbers((curves.grip, "torque")), ""]]


def run_rows(run: RunHistory) -> list[list[str]]:
    """The numbers of the chart of the run."""
    rows = [["time, s", "road speed, mph", "distance, ft", "engine speed, rpm", "gear"]]
    rows += [
        [f"{t:.3f}", *_numbers((v, "speed")), f"{x / 0.3048:.1f}", *_numbers((n, "rotation")),
         str(g)]
        for t, v, x, n, g in zip(
            run.times, run.speeds, run.distances, run.engine_speeds, run.gears, strict=True
        )
    ]  # fmt: skip
    return rows


def _numbers(*values: tuple[float, str]) -> list[str]:
    return [f"{from_si(v, dimension)[0]:.5g}" for v, dimension in values]
