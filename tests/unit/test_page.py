"""The page laid out by hand looks as the terminal library prints it, and leaves it the rest."""

import io
import os
import re
import subprocess
import sys

import pytest
from rich.console import Console

from axlewright.cli import page, rich_page, show
from axlewright.cli.page import Cell, Column, Grid, Line

BLOCKS = [
    Line("Copper Wren", "bold"),
    Line("one two three " * 20, "bold", 98),
    Line(""),
    Grid(
        [Column("link", least=17), Column("breaks", right=True, least=6), Column("part", most=14)],
        [
            [Cell("► Axle shafts", "bold"), Cell("0.71", "bold"), Cell("28-spline factory, long")],
            [Cell("  Clutch"), Cell("–"), Cell("dry clutch")],
        ],
        "Torque, lb·ft",
    ),
    Line("breaks: what it stands over what reaches it; bar: 5 to 95 % band, │ is one. " * 2, "dim",
         indent=2),
    Line("  1. A long remark about what to measure (now 2 to 3 in): caliper it." * 3, width=98),
    Line("Caution: mind the gap", "yellow", 98),
]  # fmt: skip
CODES = re.compile(r"\x1b\[([\d;]*)m|(.)")


class Terminal(io.StringIO):
    def __init__(self, terminal):
        super().__init__()
        self._terminal = terminal

    def isatty(self):
        return self._terminal


@pytest.fixture
def out(monkeypatch):
    """Gives what a page prints by hand and by the library, on a terminal or into a pipe."""
    for name in page._SPECIAL:
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("TERM", "xterm")

    def both(blocks, wide, terminal=True):
        size = os.terminal_size((wide, 40))
        monkeypatch.setattr(page.shutil, "get_terminal_size", lambda *_: size)
        printed = []
        for how in (page.print_page, rich_page.print_blocks):
            stream = Terminal(terminal)
            monkeypatch.setattr(sys, "stdout", stream)
            library = Console(file=stream, width=wide, force_terminal=terminal, highlight=False,
                              color_system="standard" if terminal else None)  # fmt: skip
            monkeypatch.setattr(rich_page, "console", lambda made=library: made)
            how(blocks)
            printed.append(stream.getvalue())
        return printed

    return both


def seen(text):
    """What is seen: signs with their style, without blanks at the end of a line."""
    lines = []
    for line in text.split("\n"):
        style, cells = "", []
        for code, sign in CODES.findall(line):
            if sign:
                cells.append((sign, "" if sign == " " else style))
            else:
                style = code.strip("0")
        while cells and cells[-1][0] == " ":
            cells.pop()
        lines.append(cells)
    return lines


@pytest.mark.parametrize("wide", [98, 100, 120, 160])
def test_by_hand_it_looks_as_the_library_prints_it(out, wide):
    ours, theirs = out(BLOCKS, wide)
    assert seen(ours) == seen(theirs)
    assert "\x1b[1m" in ours
    assert "\x1b[33m" in ours


def test_into_a_pipe_there_is_no_style(out):
    ours, theirs = out(BLOCKS, page.PIPE, terminal=False)
    assert "\x1b" not in ours
    assert seen(ours) == seen(theirs)
    assert all(line == line.rstrip() for line in ours.splitlines())


@pytest.mark.parametrize(
    "blocks",
    [
        [Line("中央工房")],
        [Line("a\tb")],
        [Line("e\u0301")],
        [Line("\x1b[31mred")],
        [Grid([Column("part")], [[Cell("車")]])],
        [Grid([Column("source", wraps=True)], [[Cell("word " * 60)]])],
    ],
)
def test_what_is_out_of_the_ordinary_goes_to_the_library(out, monkeypatch, blocks):
    out([], 100)
    asked = []
    monkeypatch.setattr(rich_page, "print_blocks", asked.append)
    page.print_page(blocks)
    assert asked == [blocks]


@pytest.mark.parametrize(
    ("name", "value"),
    [("NO_COLOR", "1"), ("FORCE_COLOR", "1"), ("COLUMNS", "70"), ("TERM", "dumb")],
)
def test_a_special_terminal_goes_to_the_library(out, monkeypatch, name, value):
    out([], 100)
    monkeypatch.setattr(sys, "stdout", Terminal(True))
    monkeypatch.setenv(name, value)
    asked = []
    monkeypatch.setattr(rich_page, "print_blocks", asked.append)
    page.print_page(BLOCKS)
    assert asked == [BLOCKS]


def test_a_column_that_may_be_cut_gives_way_with_a_sign(out):
    grid = Grid(
        [Column("link", least=80), Column("part", most=40)],
        [[Cell("Axle"), Cell("semi-floating, clip retained")]],
    )
    ours, _ = out([grid], 100)
    assert ours.splitlines()[1].endswith("semi-floating, cl…")
    assert max(len(line) for line in re.sub(r"\x1b\[\d*m", "", ours).splitlines()) == 100


def test_a_check_into_a_pipe_never_loads_the_library(tmp_path):
    build = tmp_path / "b.toml"
    build.write_text('format = 1\n[gearbox]\nkind = "manual"\nratios = [3.0, 1.0]\n'
                     '[axle]\nring_gear = "8.5"\n')  # fmt: skip
    code = (
        "import sys\nfrom axlewright.cli.main import run\n"
        f"try: run(['check', {str(build)!r}, '--samples', '100'])\n"
        "except SystemExit: pass\nassert 'rich' not in sys.modules\n"
    )
    plain = {k: v for k, v in os.environ.items() if k not in page._SPECIAL}
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, env=plain, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    assert "breaks: what it stands" in done.stdout


def test_the_page_of_a_report_is_blocks_only(monkeypatch):
    from axlewright.build.reader import read_build
    from axlewright.build.resolve import resolve
    from axlewright.studies.load_path import load_path

    text = 'format = 1\n[gearbox]\nkind = "manual"\nratios = [3.0, 1.0]\n[axle]\nring_gear = "8.5"'
    report = load_path(resolve(read_build(text)), 1, 100).report
    pages = []
    monkeypatch.setattr(page, "print_page", pages.append)
    show.print_report(report, "shop", True)
    (blocks,) = pages
    assert all(isinstance(b, Line | Grid) for b in blocks)
    assert [len(b.rows) for b in blocks if isinstance(b, Grid)][-1] == len(report.inputs)
