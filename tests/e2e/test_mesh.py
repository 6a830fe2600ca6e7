"""The gear page as a builder meets it: sliders that follow the finger, the job, the load."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

pytestmark = pytest.mark.xdist_group("browser")

Faultless = Callable[[str, int, Callable[[], object]], None]
WORKED_OUT = 400_000
"""ms; study and map on two busy cores."""
TEXT = (
    'format = 1\nname = "Gray Heron"\n[gearbox]\nkind = "manual"\n[axle]\nring_gear = "8.5"\n'
    'ratio = "41/11"\ncase_iron = "gray"\nsupport = "overhung"\n'
)
ANSWER = 0.150
"""s; 95 of 100 answers of a slider come within this (the page's own promise, two idle cores)."""


def build_of(page: Page, text: str = TEXT) -> str:
    made = page.request.post(
        "/api/builds", data={"text": text},
        headers={"Origin": page.request.get("/").url.rstrip("/")},
    )  # fmt: skip
    assert made.status == 201, made.text()
    return str(made.json()["result"]["build"]["id"])


@pytest.fixture(scope="module")
def worked(browser: Any, server: Any) -> str:
    """A build whose gear pair has been worked out, by opening its page."""
    context = browser.new_context(base_url=server.address)
    page = context.new_page()
    build = build_of(page)
    page.goto(f"/builds/{build}/mesh")
    expect(page.locator("#mesh-job")).to_contain_text("being worked out")
    expect(page.locator("#mesh-sentence")).to_be_visible(timeout=WORKED_OUT)
    expect(page.locator("#under .placed")).to_be_visible(timeout=120_000)
    context.close()
    return build


def opened(page: Page, build: str) -> None:
    page.goto(f"/builds/{build}/mesh")
    page.locator("html[data-ready][data-mesh]").wait_for()
    page.locator("#under .placed").wait_for(timeout=120_000)


def test_the_page_says_first_what_can_be_said_at_once_and_the_job_can_be_stopped(
    page: Page,
) -> None:
    build = build_of(page, TEXT.replace('"8.5"', '"8.8"'))
    page.goto(f"/builds/{build}/mesh")
    page.locator("html[data-ready]").wait_for()
    expect(page.locator("#mesh-quick")).to_contain_text("In service the gears")
    expect(page.locator("#under-waits")).to_be_visible()
    page.locator("#mesh-stop").click()
    expect(page.locator("#mesh-over")).to_have_text("Stopped.")
    jobs = page.request.get(f"/api/builds/{build}/jobs").json()["result"]
    assert [j["kind"] for j in jobs] == ["gear pair"]
    # Sliders work without the job.
    page.locator("#shim-slider").focus()
    page.keyboard.press("ArrowRight")
    expect(page.locator("#set-said")).to_contain_text("thicker")


def test_the_answer_stands_on_the_page(page: Page, worked: str) -> None:
    opened(page, worked)
    expect(page.locator("#mesh-sentence")).to_contain_text("In the hardest case")
    expect(page.locator("nav a[aria-current]")).to_have_text("Mesh")
    expect(page.locator("#mesh")).to_contain_text("Assumed micro-geometry")
    expect(page.locator("table.limits tbody tr")).to_have_count(8)
    expect(page.locator("#deflection-chart-gate-drive-rated")).to_have_count(1)
    expect(page.locator("#compound-drive")).to_have_count(1)
    expect(page.locator("#pressed-coast")).to_have_count(1)


def test_the_pattern_follows_the_slider_from_the_keyboard(page: Page, worked: str) -> None:
    opened(page, worked)
    before = page.locator("#set").inner_html()
    slider = page.locator("#shim-slider")
    slider.focus()
    for _ in range(8):
        page.keyboard.press("ArrowRight")
    expect(page.locator("#shim")).to_have_value("0.004 in")
    expect(page.locator("#set-said")).to_contain_text("0.004 in (0.1 mm) thicker")
    assert slider.get_attribute("aria-valuetext") == "0.004 in"
    expect(page.locator("#said")).to_contain_text("Drive side")
    assert page.locator("#set").inner_html() != before
    expect(page.locator("#under")).not_to_have_class(re.compile("behind"), timeout=30_000)


def test_a_field_takes_any_unit_and_refuses_nonsense_in_words(page: Page, worked: str) -> None:
    opened(page, worked)
    field = page.get_by_label("Backlash at the heel").first
    field.fill("0.2 mm")
    field.press("Enter")
    expect(page.locator("#set-said")).to_contain_text("0.2 mm")
    expect(page.locator("#backlash-slider")).to_have_value("8")
    field.fill("banana")
    field.press("Enter")
    expect(page.locator("#set .error")).to_contain_text("banana")
    field.fill("0.008")
    field.press("Enter")
    expect(page.locator("#set-said")).to_contain_text("0.008 in")


def test_torque_case_and_support_change_where_it_presses(page: Page, worked: str) -> None:
    opened(page, worked)
    said = page.locator("#pressed-desc")
    first = said.text_content()
    page.locator(".quick button").last.click()  # the hardest torque
    expect(said).not_to_have_text(first or "", timeout=30_000)
    hard = said.text_content()
    page.get_by_label("Pinion held by").select_option("straddle")
    expect(said).not_to_have_text(hard or "", timeout=30_000)
    expect(page.locator("#under tbody tr")).to_have_count(2)
    torque = page.locator("#torque-slider")
    torque.focus()
    page.keyboard.press("Home")
    expect(page.locator("#under")).to_contain_text("no torque", timeout=30_000)


def test_answers_of_a_slider_come_within_the_time_they_promise(page: Page, worked: str) -> None:
    """From the input to the drawn answer, in the page; a busy machine is given its share."""
    opened(page, worked)
    took = page.evaluate(
        """async () => {
          const slider = document.getElementById("shim-slider");
          const set = document.getElementById("set");
          const times = [];
          for (let i = 0; i < 60; i++) {
            slider.value = (i % 2 ? 1 : -1) * (0.5 + (i % 12) * 0.5);
            const serial = set.dataset.serial;
            const start = performance.now();
            slider.dispatchEvent(new Event("input", { bubbles: true }));
            while (set.dataset.serial === serial) await new Promise(requestAnimationFrame);
            times.push(performance.now() - start);
          }
          return times;
        }"""
    )
    ordered = sorted(took)
    p95 = ordered[int(0.95 * len(ordered))] / 1000.0
    print(f"slider: median {ordered[30]:.0f} ms, 95 % {1000 * p95:.0f} ms")
    crowd = max(1.0, os.getloadavg()[0] / (os.cpu_count() or 1))
    assert p95 <= ANSWER * crowd


def test_late_answers_are_dropped(page: Page, worked: str) -> None:
    """Whatever order answers come in, the last wish is what is shown; few questions are asked."""
    opened(page, worked)
    asked: list[str] = []
    page.on("request", lambda r: asked.append(r.url) if "/mesh/set?" in r.url else None)
    page.evaluate(
        """() => {
          const slider = document.getElementById("shim-slider");
          for (let i = -10; i <= 9; i += 0.5) {
            slider.value = i;
            slider.dispatchEvent(new Event("input", { bubbles: true }));
          }
        }"""
    )
    expect(page.locator("#set-said")).to_contain_text("0.009 in (0.23 mm) thicker")
    page.wait_for_timeout(300)
    assert len(asked) <= 3
    expect(page.locator("#set-said")).to_contain_text("0.009 in (0.23 mm) thicker")


def test_a_number_opens_its_working(page: Page, worked: str) -> None:
    opened(page, worked)
    number = page.locator('[data-working="gear_pair.drive.pinion_lift.rated"]').first
    number.focus()
    page.keyboard.press("Enter")
    expect(page.locator("#working")).to_contain_text("in balance")
    expect(page.locator("#working")).to_contain_text("thrust on the pinion")
    page.keyboard.press("Escape")
    expect(page.locator("#panel")).to_be_hidden()
    expect(number).to_be_focused()


def test_pictures_are_saved_as_they_are_shown(page: Page, worked: str) -> None:
    opened(page, worked)
    page.locator("#shim").fill("0.003 in")
    page.locator("#shim").press("Enter")
    expect(page.locator("#set-said")).to_contain_text("0.003 in")
    shown = page.locator("#compound-desc").text_content()
    with page.expect_download() as info:
        page.get_by_role("link", name="SVG of pattern in compound").click()
    text = Path(str(info.value.path())).read_text(encoding="utf-8")
    assert shown and shown[:40] in text
    for name in ("pattern in compound", "where the tooth presses", "movement of the gears"):
        with page.expect_download() as info:
            page.get_by_role("button", name=f"PNG of {name}").click()
        assert Path(str(info.value.path())).read_bytes().startswith(b"\x89PNG")
    with page.expect_download() as info:
        page.get_by_role("link", name="CSV", exact=True).last.click()
    assert Path(str(info.value.path())).read_text(encoding="utf-8").startswith("# points in mm")


@pytest.mark.parametrize(("theme", "width"), [("light", 1280), ("dark", 768), ("light", 390)])
def test_it_is_accessible_and_fits(
    page: Page, worked: str, theme: str, width: int, faultless: Faultless
) -> None:
    faultless(theme, width, lambda: opened(page, worked))


def test_nothing_stands_inside_the_page_that_its_policy_forbids(
    page: Page, worked: str, clean_inside: Callable[[], None]
) -> None:
    opened(page, worked)
    clean_inside()


def test_without_scripts_the_form_still_answers(browser: Any, server: Any, worked: str) -> None:
    context = browser.new_context(base_url=server.address, java_script_enabled=False)
    page = context.new_page()
    page.goto(f"/builds/{worked}/mesh?shim=0.005&backlash=0.009")
    assert "0.005 in (0.13 mm) thicker" in page.locator("#set-said").inner_text()
    assert page.get_by_role("button", name="Show it so").count() == 1
    context.close()
