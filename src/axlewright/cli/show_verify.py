"""Printing the published checks: source, published value, ours, error, pass; and what has none."""

from __future__ import annotations

from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from axlewright.cli.show import console
from axlewright.verify.run import MOST_CASES, Coverage
from axlewright.workshop.verifying import CheckedCase, Verification


def print_verification(outcome: Verification, everything: bool) -> None:
    """Print the cases (those of the verdict, or all), then the coverage."""
    out = console()
    wanted = set(outcome.verdict.cases)
    shown = [r for r in outcome.results if everything or r.formula in wanted or not r.passed]
    head = f"{'':4}  {'formula':<52} {'published':>18} {'ours':>18} {'error':>12}"
    out.print(Text(head, style="dim"))
    for r in shown:
        _case(out, r)
    failed = [r for r in outcome.results if not r.passed]
    for r in failed:
        out.print(Text(f"FAILS {r.id} ({r.formula}): {r.fault or 'outside its tolerance'}"))
    out.print()
    _coverage("that enter a verdict", outcome.verdict, out)
    _coverage("in all", outcome.everything, out)
    how = ", ".join(f"{n} {kind}" for kind, n in outcome.obtained.items())
    out.print(f"{len(outcome.results)} cases: {how}.")
    counted = sum(outcome.verdict.cases.values())
    out.print(f"{counted} of them count for the verdict (no formula more than {MOST_CASES} times).")
    out.print(
        Text(f"{len(outcome.results) - len(failed)} passed, {len(failed)} failed", style="bold")
    )


def _coverage(which: str, c: Coverage, out: Console) -> None:
    out.print(f"{len(c.checked)} of {len(c.cases)} formulas {which} have an independent check.")
    if c.unchecked:
        out.print(f"  without any: {', '.join(c.unchecked)}")


def _case(out: Console, r: CheckedCase) -> None:
    """One case: formula, published value, ours, error, pass; the source on its own line."""
    name = r.formula + (f".{r.output}" if r.output else "")
    out.print(
        f"{'pass' if r.passed else 'FAIL'}  {name:<52.52} {r.published:>18} {r.ours:>18}"
        f" {r.error:>12}"
    )
    out.print(Padding(Text(f"{r.source} [{r.obtained}]", style="dim"), (0, 0, 0, 6)))
