"""Pictures of every page of the workbench, desktop and tablet, into docs/screenshots/.

Starts a workbench of its own on a free port with an empty shelf, fills it with two builds, and
looks at it in a real browser.  Look at every picture afterwards: nothing here can tell whether a
page is good.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

from axlewright.web.pages import PAGES

CHROMIUM = Path("/usr/bin/chromium")
FLAGS = ["--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run", "--hide-scrollbars"]
NAMES = [p.PATH.rpartition("/")[2] for p in PAGES if "{build}" in p.PATH]
LONGEST = 60
"""Seconds that a page may take to work something out."""
TARGET = Path(__file__).resolve().parents[1] / "docs" / "screenshots"
MOST = 2_500_000
QUALITY = 36


@dataclass(frozen=True)
class Screen:
    """A window to look through."""

    name: str
    width: int
    height: int
    shade: str = "light"


DESKTOP = Screen("desktop", 1280, 900)
TABLET = Screen("tablet", 820, 1180)
SMALL = Screen("small-tablet", 768, 1024)
DARK = Screen("dark", 1280, 900, "dark")


def main() -> None:
    """Start, fill, look, count."""
    if not CHROMIUM.exists():
        raise SystemExit(f"the browser {CHROMIUM} is missing; type: sudo apt-get install chromium")
    TARGET.mkdir(parents=True, exist_ok=True)
    for old in TARGET.glob("*.jpg"):
        old.unlink()
    with serving() as address, sync_playwright() as play:
        browser = play.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        build = filled(browser, address)
        for page in pages(browser, address, DESKTOP):
            everything(page, build, DESKTOP)
        for page in pages(browser, address, TABLET):
            everything(page, build, TABLET)
        for page in pages(browser, address, SMALL):
            shot(page, f"/builds/{build}/car", "car", SMALL)
        for page in pages(browser, address, DARK):
            shot(page, f"/builds/{build}/car", "car", DARK)
        browser.close()
    size = sum(p.stat().st_size for p in TARGET.glob("*.jpg"))
    print(f"{len(list(TARGET.glob('*.jpg')))} pictures, {size / 1e6:.2f} MB, in {TARGET}")
    if size > MOST:
        raise SystemExit(f"that is more than {MOST / 1e6:g} MB: make fewer")


@contextmanager
def serving() -> Iterator[str]:
    """The address of a running workbench with an empty shelf."""
    command = [
        sys.executable, "-m", "axlewright.cli.main", "serve", "--port", "0", "--no-open",
        "--launch-samples", "1000",
    ]  # fmt: skip
    with (
        tempfile.TemporaryDirectory() as folder,
        subprocess.Popen(
            [*command, "--data", folder],
            stdout=subprocess.PIPE,
            text=True,
            env={**os.environ, "PYTHONUNBUFFERED": "1"},
        ) as server,
    ):
        assert server.stdout is not None
        try:
            found = re.search(r"http://127\.0\.0\.1:\d+", server.stdout.readline())
            if found is None:
                raise SystemExit("the workbench did not start")
            yield found[0]
        finally:
            server.terminate()


def pages(browser: Browser, address: str, screen: Screen) -> Iterator[Page]:
    """One fresh page of that size."""
    context = browser.new_context(
        base_url=address,
        viewport={"width": screen.width, "height": screen.height},
        color_scheme="dark" if screen.shade == "dark" else "light",
        reduced_motion="reduce",
    )
    yield context.new_page()
    context.close()


def filled(browser: Browser, address: str) -> str:
    """Two builds on the shelf, one of them with a few revisions and a photo; gives its id."""
    context = browser.new_context(base_url=address)
    page = context.new_page()
    start(page, "Tin Pelican")
    build = start(page, "Copper Wren")
    write(page, "wheels.grip_class", "slick")
    write(page, "axle.shaft", "35-spline alloy")
    page.goto(f"/builds/{build}/papers")
    note = {"name": "dyno sheet.csv", "mimeType": "text/csv", "buffer": b"rpm,lb ft\n3000,380\n"}
    page.locator("#file").set_input_files(note)
    page.locator("#file-go").click()
    context.close()
    return build


def start(page: Page, name: str) -> str:
    """A build from the template."""
    page.goto("/")
    page.locator("#new-name").fill(name)
    page.locator("#new-go").click()
    page.locator("html[data-ready]").wait_for()
    return page.url.split("/")[-2]


def write(page: Page, path: str, value: str) -> None:
    """Write a value into a field and wait for the answer."""
    field = page.locator(f'[data-path="{path}"]')
    field.evaluate("e => e.closest('details')?.setAttribute('open', '')")
    with page.expect_response(lambda r: r.url.endswith("/car/field") and "keep=true" in
                              (r.request.post_data or "")):  # fmt: skip
        if field.evaluate("e => e.tagName") == "SELECT":
            field.select_option(value)
        else:
            field.fill(value)
            field.blur()
    page.wait_for_timeout(300)


def everything(page: Page, build: str, screen: Screen) -> None:
    """Every page, from its top, and what opens on it."""
    shot(page, "/", "shelf", screen)
    for name in NAMES:
        shot(page, f"/builds/{build}/{name}", name, screen)
    page.goto(f"/builds/{build}/load-path")
    page.locator("html[data-ready]").wait_for()
    page.locator("#open-differential").click()
    page.locator("#working .eq").first.wait_for()
    save(page, "working", screen)


def shot(page: Page, path: str, name: str, screen: Screen) -> None:
    """A page as it stands; on a build's page scrolled so that its own part is in sight too."""
    page.goto(path)
    page.locator("html[data-ready]").wait_for()
    for _ in range(LONGEST * 2):  # what is being worked out is waited for
        page.wait_for_timeout(500)
        if not page.evaluate("!!document.querySelector('progress, .htmx-request')"):
            break
    save(page, name, screen, full=True)


def save(page: Page, name: str, screen: Screen, full: bool = False) -> None:
    """Write the picture, not longer than fits on a page of the documentation."""
    tall = page.evaluate("document.documentElement.scrollHeight")
    clip = {
        "x": 0,
        "y": 0,
        "width": screen.width,
        "height": min(tall, 1200 if screen.width > 1000 else 1600),
    }
    page.screenshot(
        path=TARGET / f"{name}-{screen.name}.jpg",
        type="jpeg",
        quality=QUALITY,
        full_page=full,
        **({"clip": clip} if full else {}),
    )


if __name__ == "__main__":
    main()
