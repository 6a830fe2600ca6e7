"""The workbench as it is started by hand, and a real browser before it."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

CHROMIUM = Path("/usr/bin/chromium")
FLAGS = [
    "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
]  # fmt: skip
LAUNCHES = "200"
"""Of each case: the page says how many; thousands would keep the machine busy through the tests."""
GEARS = "2"
"""Samples of the gear study: each takes a second or two."""
MISSING = f"the browser {CHROMIUM} is missing; type: sudo apt-get install -y chromium"


class Server:
    """The workbench in a process of its own; it can be killed and started again."""

    def __init__(self, data: Path, *more: str) -> None:
        self.data = data
        self.more = more
        self.port = 0
        self.passphrase = ""
        self.start()

    def start(self) -> None:
        command = [
            sys.executable, "-m", "axlewright.cli.main", "serve", "--no-open",
            "--port", str(self.port), "--data", str(self.data),
            "--launch-samples", LAUNCHES, "--gear-samples", GEARS, *self.more,
        ]  # fmt: skip
        self.process = subprocess.Popen(
            command, stdout=subprocess.PIPE, text=True, env={**os.environ, "PYTHONUNBUFFERED": "1"}
        )
        assert self.process.stdout is not None
        for line in self.process.stdout:
            found = re.search(r"http://127\.0\.0\.1:(\d+)/", line)
            if found:
                self.port = int(found[1])
            if line.startswith("Passphrase: "):
                self.passphrase = line.partition(": ")[2].strip()
            if line.startswith("Stop it"):
                return
        raise AssertionError(f"the workbench did not start ({self.process.wait(10)})")

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def kill(self) -> None:
        self.process.send_signal(signal.SIGKILL)
        self._over()

    def stop(self) -> None:
        self.process.terminate()
        self._over()

    def _over(self) -> None:
        self.process.wait(20)
        assert self.process.stdout is not None
        self.process.stdout.close()


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    made = Server(tmp_path_factory.mktemp("workbench"))
    yield made
    made.stop()


@pytest.fixture
def lan(tmp_path: Path) -> Iterator[Server]:
    """The workbench as it is started for a tablet on the network."""
    made = Server(tmp_path, "--lan")
    yield made
    made.stop()


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    if not CHROMIUM.exists():
        pytest.fail(MISSING)
    with sync_playwright() as play:
        made = play.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield made
        made.close()


@pytest.fixture
def page(browser: Browser, server: Server) -> Iterator[Page]:
    """A fresh page; what it complains about fails the test."""
    context = browser.new_context(
        base_url=server.address, viewport={"width": 1280, "height": 900}, accept_downloads=True
    )
    made = context.new_page()
    made.set_default_timeout(15_000)
    faults: list[str] = []
    made.on("pageerror", lambda e: faults.append(str(e)))
    made.on(
        "console",
        lambda m: faults.append(m.text)
        if m.type == "error" and "Failed to load resource" not in m.text
        and "net::ERR" not in m.text and not m.text.startswith(("htmx:", "Response Status"))
        else None,
    )  # fmt: skip
    yield made
    context.close()
    assert faults == []


@pytest.fixture
def faultless(page: Page) -> Callable[[str, int, Callable[[], object]], None]:
    """Open a page in a theme and a width: nothing wider than it, nothing that axe objects to."""
    axe = next(Path(__file__).parent.glob("axe-core-*.min.js")).read_text(encoding="utf-8")

    def check(theme: str, width: int, opened: Callable[[], object]) -> None:
        url = page.request.get("/").url
        page.context.add_cookies([{"name": "theme", "value": theme, "url": url}])
        page.set_viewport_size({"width": width, "height": 900})
        opened()
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        page.evaluate(axe)
        found = page.evaluate(
            "axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa']})"
            ".then(r => r.violations.map(v => [v.id, v.nodes.slice(0, 3).map(n => n.html)]))"
        )
        assert found == []

    return check


@pytest.fixture
def clean_inside(page: Page) -> Callable[[], None]:
    """Whether the page holds nothing that its policy forbids, and no id twice."""

    def check() -> None:
        html = page.content()
        assert not re.search(r"<script(?![^>]*\bsrc=)", html)
        assert not re.search(r"<[^>]+ (style|on\w+)=", html.split("<body")[1])
        ids = re.findall(r' id="([^"]+)"', html)
        assert len(ids) == len(set(ids)), sorted({i for i in ids if ids.count(i) > 1})

    return check
