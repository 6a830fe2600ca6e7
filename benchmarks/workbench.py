"""How fast the workbench answers: one builder, twenty at once, the first page, a real browser.

A server of its own on loopback; goals are printed, not asserted.
"""

from __future__ import annotations

import gzip
import http.client
import itertools
import os
import re
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlencode, urljoin, urlsplit

if TYPE_CHECKING:
    from playwright.sync_api import Browser as Chromium

os.environ.setdefault("OMP_NUM_THREADS", "1")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

EDITS, CLIENTS, EACH = 60, 20, 10
SERVE = [sys.executable, "-m", "axlewright.cli.main", "serve", "--port", "0", "--no-open"]
FORM = "application/x-www-form-urlencoded"
FLAGS = ["--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run"]
VISITS = 20
BARE = "/static/htmx-2.0.11.LICENSE.txt"
EDIT = """value => new Promise(done => {
  const field = document.querySelector('[data-path="car.weight"]');
  const before = performance.now();
  document.body.addEventListener("htmx:afterSettle", () => requestAnimationFrame(
    () => done(performance.now() - before)), { once: true });
  field.value = value;
  field.dispatchEvent(new Event("change", { bubbles: true }));
})"""
LINKED = re.compile(r"""(?:src|href)="(/[^"#]*)"|url\(["']?([^"')]+)|from\s*["'](\.{0,2}/[^"']+)""")


class Browser:
    """One page of the workbench: keeps its connection, packs as browsers do."""

    def __init__(self, port: int) -> None:
        self.host = f"127.0.0.1:{port}"
        self._line = http.client.HTTPConnection("127.0.0.1", port, timeout=60)

    def ask(
        self, path: str, form: dict[str, str] | None = None
    ) -> tuple[int, bytes, dict[str, str]]:
        """Status, body as transferred, and headers of an answer."""
        headers = {"Origin": f"http://{self.host}", "Accept-Encoding": "gzip"}
        body = None
        if form is not None:
            headers["Content-Type"] = FORM
            body = urlencode(form)
        self._line.request("POST" if form is not None else "GET", path, body, headers)
        answer = self._line.getresponse()
        data = answer.read()
        return answer.status, data, {k.lower(): v for k, v in answer.getheaders()}

    def new_build(self) -> str:
        """Start a build from the template; gives its id."""
        status, _, headers = self.ask("/builds/new", {"name": "Copper Wren"})
        if status != 303:
            raise SystemExit(f"no build was made: {status}")
        return headers["location"].split("/")[2]

    def edits(self, build: str, count: int, first: int = 3000) -> list[float]:
        """Seconds that each of so many edits took until the whole answer was there.

        Every weight is a new one, so that no answer was worked out before.
        """
        base, took = 1, []
        for k in range(count):
            form = {"path": "car.weight", "base": str(base), "serial": str(k + 1),
                    "value": f"{first + k} lb"}  # fmt: skip
            before = time.perf_counter()
            status, _, headers = self.ask(f"/builds/{build}/car/field", form)
            took.append(time.perf_counter() - before)
            if status != 200:
                raise SystemExit(f"an edit was answered with {status}")
            base = int(headers["x-revision"])
        if base != count + 1:
            raise SystemExit(f"{count} edits led to revision {base}")
        return took


def main() -> None:
    with serving() as port:
        browser = Browser(port)
        build = browser.new_build()
        browser.edits(browser.new_build(), 3, 2900)  # warm
        took = browser.edits(build, EDITS)
        line("edit to updated page, one builder, p95", p95(took) * 1e3, "ms", 150.0)
        say("edit to updated page, one builder, median", statistics.median(took) * 1e3, "ms")
        many(port)
        weigh(Browser(port), f"/builds/{build}/car")
        in_chromium(port, build)


@contextmanager
def serving() -> Iterator[int]:
    """The port of a running workbench with an empty shelf."""
    with tempfile.TemporaryDirectory() as folder:
        command = [*SERVE, "--data", folder]
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as server:
            assert server.stdout is not None
            try:
                found = re.search(r":(\d+)/", server.stdout.readline())
                if found is None:
                    raise SystemExit("the workbench did not start")
                yield int(found[1])
            finally:
                server.terminate()


def many(port: int) -> None:
    """Twenty builders on twenty builds at the same time."""
    found: list[list[float]] = []

    def one(first: int) -> None:
        browser = Browser(port)
        found.append(browser.edits(browser.new_build(), EACH, first))

    threads = [threading.Thread(target=one, args=(3100 + EACH * k,)) for k in range(CLIENTS)]
    before = time.perf_counter()
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    wall = time.perf_counter() - before
    if len(found) != CLIENTS:
        raise SystemExit(f"only {len(found)} of {CLIENTS} builders got all their answers")
    took = list(itertools.chain.from_iterable(found))
    say(f"the same, {CLIENTS} builders at once, p95", p95(took) * 1e3, "ms")
    say(f"edits answered, {CLIENTS} builders at once", len(took) / wall, "a second")


def weigh(browser: Browser, page: str) -> None:
    """Bytes of a page with all that it loads, and how long the page itself took."""
    before = time.perf_counter()
    browser.ask(page)
    wall = time.perf_counter() - before
    sizes: dict[str, int] = {}
    waiting = [page]
    while waiting:
        here = waiting.pop()
        if here in sizes:
            continue
        status, data, headers = browser.ask(here)
        if status != 200:
            raise SystemExit(f"{here}: {status}")
        sizes[here] = len(data)
        kind = headers.get("content-type", "")
        if here != page and not kind.startswith(("text/css", "text/javascript")):
            continue
        text = (gzip.decompress(data) if headers.get("content-encoding") else data).decode()
        for groups in LINKED.findall(text):
            address = urlsplit(urljoin(here, next(g for g in groups if g)))
            if not address.scheme and address.path.startswith(("/static/", "/fonts/")):
                waiting.append(address.path)
    line("first page with all it loads, packed", sum(sizes.values()) / 1e3, "KB", 250.0)
    say(f"requests of the first page ({len(sizes)}), the page itself in", wall * 1e3, "ms")


def in_chromium(port: int, build: str) -> None:
    """First paint of fresh visits, and an edit from the keyboard to the changed number."""
    chromium = Path("/usr/bin/chromium")
    if not chromium.exists():
        print("no chromium here: first paint is not measured")
        return
    from playwright.sync_api import sync_playwright  # noqa: PLC0415 (only where there is one)

    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=chromium, args=FLAGS)
        where = f"http://127.0.0.1:{port}"
        for name, path in (("shelf", "/"), ("Car page", f"/builds/{build}/car")):
            paints = [painted(browser, where + path) for _ in range(VISITS + 1)][1:]
            line(
                f"first paint, {name}, fresh visit, median", statistics.median(paints), "ms", 200.0
            )
        bare = [painted(browser, f"{where}{BARE}") for _ in range(VISITS // 2)]
        say("the same, a bare text file: the browser alone", statistics.median(bare), "ms")
        page = browser.new_page()
        page.goto(f"{where}/builds/{build}/car")
        page.locator("html[data-ready]").wait_for()
        took = [page.evaluate(EDIT, f"{4000 + k} lb") for k in range(VISITS + 3)][3:]
        line("edit to changed numbers in the browser, p95", p95(took), "ms", 150.0)
        say("edit to changed numbers in the browser, median", statistics.median(took), "ms")
        browser.close()


def painted(browser: Chromium, address: str) -> float:
    """Milliseconds to the first paint in a browser that has nothing of the workbench yet."""
    context = browser.new_context()
    page = context.new_page()
    page.goto(address)
    if not address.endswith(BARE):
        page.locator("html[data-ready]").wait_for()
    page.wait_for_timeout(300)
    found = page.evaluate("performance.getEntriesByType('paint').map(e => e.startTime)")
    context.close()
    if not found:
        raise SystemExit(f"{address} painted nothing")
    return float(max(found))


def p95(values: list[float]) -> float:
    return statistics.quantiles(values, n=20)[-1]


def say(what: str, got: float, unit: str) -> None:
    print(f"{what:<62}{got:9.3g} {unit}")


def line(what: str, got: float, unit: str, goal: float) -> None:
    met = "met" if got <= goal else "MISSED"
    print(f"{what:<62}{got:9.3g} {unit:<3} goal at most {goal:g} {unit}: {met}")


if __name__ == "__main__":
    main()
