"""Which ratios are beaten, which one to take, and what it costs: the comparison in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from axlewright.hypoid.oil_heat import ALARM, STOP, WANTED
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import show, significant
from axlewright.studies.ratio_heat import OIL
from axlewright.studies.ratio_report import RatioOption, SpeedAsked

TALL = 9.0
"""First gear times axle below which a foot clutch slips long at the line (common practice, no
source).  A ratio so tall is not taken while another one is as quick."""
CLOSE = 0.05
"""Seconds over the quarter mile within which two runs of one car differ (common practice, no
source): a gain that small is not worth a price."""


@dataclass(frozen=True)
class Aim:
    """Something wanted: its key, whether less of it is better, and the least that is worth saying.

    ``share`` reads that least as a share of the value.
    """

    key: str
    less: bool
    least: float
    better: str
    share: bool = False

    def gain(self, one: RatioOption, other: RatioOption) -> float:
        """How much better the first is than the second; below zero if worse."""
        a, b = one.findings[self.key].value, other.findings[self.key].value
        return b - a if self.less else a - b

    def worth(self, other: RatioOption) -> float:
        """The least gain that is worth saying."""
        return self.least * (other.findings[self.key].value if self.share else 1.0)


def aims(cruise: SpeedAsked, top_gear: int) -> tuple[Aim, ...]:
    """What a ratio is wanted for: quick, strong, calm on the road, fast."""
    return (
        Aim("time_60_ft", True, 0.005, "quicker to 60 ft"),
        Aim("time_quarter_mile", True, 0.01, "quicker over the quarter mile"),
        Aim("weakest_margin", False, 0.005, "weakest link", share=True),
        Aim("gear_margin", False, 0.005, "ring and pinion", share=True),
        Aim(cruise_key(cruise, top_gear), True, 2.0, f"less at {cruise.text}"),
        Aim("top_speed", False, 0.02, "more top speed", share=True),
    )


def cruise_key(cruise: SpeedAsked, top_gear: int) -> str:
    """Key of the engine speed at the cruise speed in top gear."""
    return f"engine_{cruise.key}_gear_{top_gear}"


def beats(one: RatioOption, other: RatioOption, wanted: Sequence[Aim]) -> bool:
    """Better in one aim by something worth saying, and worse in none by as much.

    A ratio that makes a foot clutch slip long beats none that does not.
    """
    if slips_long(one) and not slips_long(other):
        return False
    gains = [(a.gain(one, other), a.worth(other)) for a in wanted]
    return all(g > -w for g, w in gains) and any(g >= w for g, w in gains)


def judged(options: Sequence[RatioOption], wanted: Sequence[Aim]) -> list[RatioOption]:
    """Each option with the one that beats it most clearly on the same tire, if one does."""
    out = []
    for option in options:
        better = [
            o for o in options
            if o is not option and o.tire == option.tire and beats(o, option, wanted)
        ]  # fmt: skip
        if not better:
            out.append(option)
            continue
        best = min(better, key=lambda o: o.findings["time_quarter_mile"].value)
        out.append(replace(option, beaten_by=best.teeth, beaten=_gains(best, option, wanted)))
    return out


def _gains(one: RatioOption, other: RatioOption, wanted: Sequence[Aim]) -> str:
    told = [_gain(a, one, other) for a in wanted if a.gain(one, other) >= a.worth(other)]
    return f"{one.teeth} beats it: {'; '.join(told)}"


def _gain(aim: Aim, one: RatioOption, other: RatioOption) -> str:
    mine, others = one.findings[aim.key], other.findings[aim.key]
    if mine.dimension == "ratio":
        return f"{aim.better} {margin_words(mine.value)} against {margin_words(others.value)}"
    if mine.dimension == "time":
        return f"{aim.gain(one, other):.2f} s {aim.better}"
    return f"{_difference(aim.gain(one, other), mine.dimension)} {aim.better}"


def _difference(value: float, dimension: str) -> str:
    return show(abs(value), dimension, digits=2)


def choose(options: Sequence[RatioOption], wanted: Sequence[Aim], cruise: str) -> RatioOption:
    """The calmest of those that are as good as the quickest on the tires fitted.

    Looks only at ratios that nothing beats, and where the load path holds it does not give that
    away.  Nor does it make a foot clutch slip long where it need not.
    """
    mine = [o for o in options if o.tire == options[0].tire]
    fitted = next((o for o in mine if o.fitted), mine[0])
    floor = min(1.0, fitted.findings["weakest_margin"].value)
    sound = [o for o in mine if o.findings["weakest_margin"].value >= floor] or mine
    best = [o for o in judged(sound, wanted) if not o.beaten_by] or sound
    quickest = min(_quarter(o) for o in best)
    close = [o for o in best if _quarter(o) <= quickest + CLOSE]
    easy = [o for o in close if not slips_long(o)] or close
    picked = min(easy, key=lambda o: (o.findings[cruise].value, o.hunting != "hunting"))
    return next(o for o in options if o.name == picked.name)


def slips_long(option: RatioOption) -> bool:
    """Whether a foot clutch has to slip long at the line."""
    return "clutch_heat" in option.findings and option.findings["overall_first"].value < TALL


def _quarter(option: RatioOption) -> float:
    return option.findings["time_quarter_mile"].value


def choice_sentence(
    chosen: RatioOption, options: Sequence[RatioOption], cruise: SpeedAsked, key: str
) -> str:
    """What to run, in one or two sentences."""
    quarter, turns = chosen.findings["time_quarter_mile"], chosen.findings[key]
    verb = "Stay with" if chosen.fitted else "Take"
    head = (
        f"{verb} {named(chosen)}: {_seconds(quarter)} over the quarter mile,"
        f" {show(turns.value, 'rotation', digits=2)} at {cruise.text} in top gear."
    )
    mine = [o for o in options if o.tire == chosen.tire]
    quickest = min(mine, key=_quarter)
    if quickest.name == chosen.name:
        return f"{head} Nothing else in the list is quicker."
    gain = _quarter(chosen) - _quarter(quickest)
    if gain <= CLOSE:
        return (
            f"{head} {named(quickest)} is the quickest, by {gain:.2f} s: less than two runs of one"
            " car differ by."
        )
    return (
        f"{head} {named(quickest)} would be {gain:.2f} s quicker, but then the weakest link has"
        f" a margin of only {margin_words(quickest.findings['weakest_margin'].value)}."
    )


def price_sentence(
    chosen: RatioOption,
    options: Sequence[RatioOption],
    cruise: SpeedAsked,
    key: str,
) -> str:
    """What the choice costs against what is fitted, or what stands in its way."""
    fitted = next((o for o in options if o.fitted and o.tire == chosen.tire), None)
    said = []
    if fitted is not None and not chosen.fitted:
        said.append(
            f"Against the {named(fitted)} that is fitted: {_against(chosen, fitted, cruise, key)}."
        )
    weakest = chosen.findings["weakest_margin"].value
    if weakest < 1.0:
        said.append(
            f"Short all the same: {chosen.weakest.lower()}, at a margin of {margin_words(weakest)}."
        )
    shaft = chosen.findings["whip_share"].value
    allowed = chosen.findings["whip_allowed"].value
    if shaft > allowed:
        said.append(
            f"At its top speed the driveshaft turns at {significant(shaft * 100, 2)} % of the speed"
            f" at which it whips, more than the {significant(allowed * 100, 2)} % that is safe:"
            f" keep it below"
            f" {show(chosen.findings['top_speed'].value * allowed / shaft, 'speed', digits=2)}."
        )
    if slips_long(chosen):
        said.append(_slipping(chosen, options, fitted))
    said += _oil(chosen, cruise)
    if chosen.hunting != "hunting" and chosen.counted:
        said.append(f"{chosen.teeth} is a {chosen.hunting} pair: line up its timing marks.")
    return " ".join(said)


def _slipping(
    chosen: RatioOption, options: Sequence[RatioOption], fitted: RatioOption | None
) -> str:
    """What a tall first gear asks of the clutch, and which ratio would spare it."""
    f = chosen.findings
    more = ""
    if fitted is not None and fitted is not chosen:
        times = f["clutch_heat"].value / fitted.findings["clutch_heat"].value
        more = f", {significant(times, 2)} times as much as with {named(fitted)}"
    spares = [o for o in options if o.tire == chosen.tire and not slips_long(o)]
    other = ""
    if spares:
        quickest = min(spares, key=_quarter)
        later = _quarter(quickest) - _quarter(chosen)
        word = "slower" if later >= 0.0 else "quicker"
        other = f" The quickest that spares it, {named(quickest)}, is {abs(later):.2f} s {word}."
    return (
        f"First gear and axle together make only {f['overall_first'].value:.1f} to 1: at the line"
        f" the clutch slips to {show(f['clutch_grabs'].value, 'speed', digits=2)} or beyond and"
        f" takes at least {show(f['clutch_heat'].value, 'energy', digits=2)}{more}.{other}"
    )


def _oil(chosen: RatioOption, cruise: SpeedAsked) -> list[str]:
    """A word on the axle's oil where it may get too warm."""
    oil = chosen.findings[OIL]
    if oil.value <= WANTED:
        return []
    value, low, high = (show(t, oil.dimension, digits=2) for t in (oil.value, oil.low, oil.high))
    mark = ""
    if oil.value > STOP:
        mark = " That ruins oil and seals: do not cruise so."
    elif oil.value > ALARM:
        mark = " So warm one slows down and lets it cool."
    return [
        f"The axle's oil would settle at some {value} ({low} to {high}) at {cruise.text} on a hot"
        f" day: read it with a strip or an infrared gun before trusting it on a long way.{mark}"
    ]


def _against(one: RatioOption, other: RatioOption, cruise: SpeedAsked, key: str) -> str:
    pairs = {
        k: (one.findings[k], other.findings[k])
        for k in ("time_quarter_mile", key, "gear_margin", "top_speed")
    }
    time = pairs["time_quarter_mile"]
    gain = time[1].value - time[0].value
    turns = pairs[key][0].value - pairs[key][1].value
    parts = [
        f"{abs(gain):.2f} s {'quicker' if gain > 0 else 'slower'}",
        f"{_difference(turns, 'rotation')} {'more' if turns > 0 else 'less'} at {cruise.text}",
        "ring and pinion margin "
        f"{margin_words(pairs['gear_margin'][0].value)} instead of"
        f" {margin_words(pairs['gear_margin'][1].value)}",
        f"top speed {_speed(pairs['top_speed'][0])} instead of {_speed(pairs['top_speed'][1])}",
    ]
    return _list(parts)


def named(option: RatioOption) -> str:
    """Teeth and ratio: 41/11 (3.73)."""
    ratio = f"{option.findings['ratio'].value:.2f}"
    return f"{option.teeth} ({ratio})" if option.counted else ratio


def margin_words(value: float) -> str:
    """A margin in two decimals, never rounded across one."""
    return "0.99" if value < 1.0 <= round(value, 2) else f"{value:.2f}"


def _seconds(time: Finding) -> str:
    band = "" if time.low == time.high else f" ({time.low:.1f} to {time.high:.1f})"
    return f"{time.value:.2f} s{band}"


def _speed(speed: Finding) -> str:
    return show(speed.value, "speed", digits=3)


def _list(parts: Sequence[str]) -> str:
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"
