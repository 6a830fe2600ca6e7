"""The angles page in a real browser: stepped through the travel, edited, opened, by keyboard."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

pytestmark = pytest.mark.xdist_group("browser")

Faultless = Callable[[str, int, Callable[[], object]], None]
EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "copper-wren-fit.toml"


@pytest.fixture
def build(page: Page) -> str:
    made = page.request.post(
        "/api/builds", data={"text": EXAMPLE.read_text(encoding="utf-8")},
        headers={"Origin": page.request.get("/").url.rstrip("/")},
    )  # fmt: skip
    assert made.status == 201, made.text()
    return str(made.json()["result"]["build"]["id"])


def opened(page: Page, build: str) -> None:
    page.goto(f"/builds/{build}/angles")
    page.locator("html[data-ready=yes]").wait_for()
    expect(page.locator("#angles-sentence")).to_be_visible()


def test_the_slider_steps_through_the_travel_by_keyboard(page: Page, build: str) -> None:
    opened(page, build)
    expect(page.locator("nav a[aria-current]")).to_have_text("Angles")
    slider = page.locator("#travel")
    before = page.locator("#moves dd").nth(2).inner_text()
    slider.focus()
    page.keyboard.press("End")
    expect(page.locator("#travel-said")).to_have_text("3.5 in up")
    expect(page.locator("#moves dd").nth(2)).not_to_have_text(before)
    expect(slider).to_have_attribute("aria-valuetext", "3.5 in up")
    expect(slider).to_be_focused()


def test_a_reading_that_is_typed_moves_the_answer_and_keeps_the_height(
    page: Page, build: str
) -> None:
    opened(page, build)
    page.locator("#travel").focus()
    page.keyboard.press("Home")
    expect(page.locator("#moves")).to_contain_text("further in")
    sentence = page.locator("#angles-sentence").inner_text()
    field = page.get_by_label("Pinion", exact=True)
    field.fill("1 deg")
    expect(page.locator("#angles-sentence")).not_to_have_text(sentence)
    expect(page.locator("#keeping")).to_contain_text("Trying it")
    expect(field).to_be_focused()
    page.keyboard.press("Tab")
    expect(page.locator("#keeping")).to_have_text("Revision 2 is kept.")
    assert page.locator("#travel").input_value() == "-3"
    expect(page.locator("#travel-said")).to_have_text("3 in down")


def test_a_link_point_moves_the_anti_squat(page: Page, build: str) -> None:
    opened(page, build)
    squat = page.locator("#moves div:has(> dt:text-is('Anti-squat')) dd")
    before = squat.inner_text()
    page.get_by_label("Lower body").fill("20.5 in, 18.25 in, 11 in")
    expect(squat).not_to_have_text(before)


def test_a_number_opens_its_working_from_the_keyboard(page: Page, build: str) -> None:
    opened(page, build)
    number = page.locator('[data-working="gauge"]')
    number.focus()
    page.keyboard.press("Enter")
    expect(page.locator("#working .working-title")).to_contain_text("Gauge on the pinion")
    page.keyboard.press("Escape")
    expect(number).to_be_focused()


@pytest.mark.parametrize(("theme", "width"), [("light", 1280), ("dark", 820), ("light", 390)])
def test_it_is_accessible_and_fits(
    page: Page, build: str, theme: str, width: int, faultless: Faultless
) -> None:
    faultless(theme, width, lambda: opened(page, build))


def test_nothing_stands_inside_the_page_that_its_policy_forbids(
    page: Page, build: str, clean_inside: Callable[[], None]
) -> None:
    opened(page, build)
    clean_inside()


def test_on_paper_the_fields_and_the_slider_are_left_out(page: Page, build: str) -> None:
    opened(page, build)
    page.emulate_media(media="print")
    expect(page.locator("#travel")).to_be_hidden()
    expect(page.locator("#inputs")).to_be_hidden()
    expect(page.locator("#moves svg")).to_be_visible()


def test_words_are_large_enough_to_read_and_presses_for_a_finger(page: Page, build: str) -> None:
    page.set_viewport_size({"width": 820, "height": 1180})
    opened(page, build)
    small = page.evaluate(
        "[...document.querySelectorAll('main *')].filter(e => e.checkVisibility() &&"
        " !e.closest('svg') && parseFloat(getComputedStyle(e).fontSize) < 12.5)"
        ".map(e => e.outerHTML.slice(0, 80))"
    )
    assert small == []
    low = page.evaluate(
        "[...document.querySelectorAll('button, summary, select, input')]"
        ".filter(e => e.checkVisibility()).map(e => [e.getBoundingClientRect(), e])"
        ".filter(([b]) => b.height < 24 || b.width < 20).map(([b, e]) => e.outerHTML.slice(0, 80))"
    )
    assert low == []
