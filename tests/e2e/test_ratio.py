"""The ratio page in a real browser: asked, answered, looked into, by mouse and by keyboard."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

pytestmark = pytest.mark.xdist_group("browser")

Faultless = Callable[[str, int, Callable[[], object]], None]
EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "copper-wren-tired.toml"
SLOWLY = 90_000  # the first answer of a machine waits for the compiler
FEW = "ratios=37%2F12%2C40%2F10"


@pytest.fixture
def build(page: Page) -> str:
    made = page.request.post(
        "/api/builds", data={"text": EXAMPLE.read_text(encoding="utf-8")},
        headers={"Origin": page.request.get("/").url.rstrip("/")},
    )  # fmt: skip
    assert made.status == 201, made.text()
    return str(made.json()["result"]["build"]["id"])


def opened(page: Page, build: str, query: str = FEW) -> None:
    page.goto(f"/builds/{build}/ratio?{query}")
    page.locator("#looked-title").wait_for(timeout=SLOWLY)
    page.locator("h2#run-title").wait_for(timeout=SLOWLY)


def test_the_page_answers_by_itself_and_says_that_it_is_at_work(page: Page, build: str) -> None:
    page.goto(f"/builds/{build}/ratio")
    expect(page.locator("h2#ask-title")).to_have_text("Which ratio?")
    # Either it is there at once, or the page says what it is doing; it never stands empty.
    assert page.locator(".waiting, #ratio-answer").count() >= 1
    page.locator("#looked-title").wait_for(timeout=SLOWLY)
    page.locator("h2#run-title").wait_for(timeout=SLOWLY)
    expect(page.locator(".waiting")).to_have_count(0)
    expect(page.locator(".choice .sentence")).to_contain_text("over the quarter mile")
    expect(page.locator(".ratios tr.chosen")).to_have_count(1)
    expect(page.locator("nav a[aria-current]")).to_have_text("Ratio")


def test_pairs_and_tires_are_compared_as_asked(page: Page, build: str) -> None:
    opened(page, build)
    page.get_by_label("Pairs of teeth").fill("41/10, 35/10")
    page.get_by_label("Further tires").fill("28x10.5-15 slick")
    page.get_by_label("Road speeds").fill("50 mph, 110 km/h")
    page.get_by_role("button", name="Compare").click()
    page.locator("#looked-title").wait_for(timeout=SLOWLY)
    expect(page.locator("table.ratios")).to_have_count(2)
    first = page.locator("table.ratios").first
    assert [a.inner_text() for a in first.locator("tbody th a").all()] == [
        "35/10",
        "41/11",
        "41/10",
    ]
    expect(first.locator("thead")).to_contain_text("rpm at 110 km/h")
    expect(page.get_by_label("Pairs of teeth")).to_have_value("41/10, 35/10")


@pytest.mark.parametrize(
    ("query", "said"),
    [("ratios=4.10", "no pair of teeth"), ("tires=banana", "no tire size"), ("speeds=x", "70 mph")],
)
def test_what_does_not_read_is_said_beside_the_form(
    page: Page, build: str, query: str, said: str
) -> None:
    page.goto(f"/builds/{build}/ratio?{query}")
    expect(page.locator("#ask-refused")).to_contain_text(said)
    expect(page.locator("#ratio-answer")).to_have_count(0)


def test_a_number_opens_its_working_from_the_keyboard(page: Page, build: str) -> None:
    opened(page, build)
    number = page.locator('[data-working^="top_speed@41/11"]')
    number.focus()
    page.keyboard.press("Enter")
    expect(page.locator("#working .working-title")).to_contain_text("41/11 on 275/60R15")
    shown = page.locator("#working .eq").first.inner_text()
    assert re.match(r"= 1\d\d(\.\d+)? mph", shown)
    page.keyboard.press("Escape")
    expect(page.locator("#panel")).to_be_hidden()
    expect(number).to_be_focused()


def test_every_number_of_the_page_has_a_working(page: Page, build: str) -> None:
    opened(page, build, f"{FEW}&show=40/10%40275/60R15")
    ids = page.eval_on_selector_all("[data-from=ratio]", "all => all.map(e => e.dataset.working)")
    assert len(ids) > 50
    seen = {re.sub(r"@.*", "", i): i for i in ids}
    for number in seen.values():
        reply = page.request.get(f"/builds/{build}/ratio/working", params={"number": number})
        assert reply.status == 200, number
    assert page.request.get(f"/builds/{build}/ratio/working?number=nothing").status == 404


def test_a_pair_is_looked_into(page: Page, build: str) -> None:
    opened(page, build)
    page.locator("table.ratios tbody th a", has_text="40/10").click()
    expect(page.locator("#looked-title")).to_have_text("40/10 on 275/60R15", timeout=SLOWLY)
    expect(page.locator("section:has(> #looked-title)")).to_contain_text("timing marks")
    expect(page.locator("#saw-chart-gear-1")).to_have_count(1)


def test_charts_are_saved(page: Page, build: str) -> None:
    opened(page, build)
    for name in ("saw-tooth", "run"):
        box = page.locator("figcaption", has=page.locator(f'[data-name="{name}"]'))
        with page.expect_download() as info:
            box.get_by_role("link", name="SVG").click()
        text = Path(str(info.value.path())).read_text(encoding="utf-8")
        assert text.startswith("<svg")
        with page.expect_download() as info:
            box.get_by_role("link", name="CSV").click()
        rows = Path(str(info.value.path())).read_text(encoding="utf-8").splitlines()
        assert len(rows) > 20
        with page.expect_download() as info:
            box.get_by_role("button", name="PNG").click()
        assert Path(str(info.value.path())).read_bytes().startswith(b"\x89PNG")


@pytest.mark.parametrize(("theme", "width"), [("light", 1280), ("dark", 768), ("light", 390)])
def test_it_is_accessible_and_fits(
    page: Page, build: str, theme: str, width: int, faultless: Faultless
) -> None:
    faultless(theme, width, lambda: opened(page, build))


def test_nothing_stands_inside_the_page_that_its_policy_forbids(
    page: Page, build: str, clean_inside: Callable[[], None]
) -> None:
    opened(page, build)
    clean_inside()


def test_a_wrong_build_has_no_ratio(page: Page) -> None:
    made = page.request.post(
        "/api/builds", data={"text": "format = 1\n[car]\nweight = 'heavy'\n"},
        headers={"Origin": page.request.get("/").url.rstrip("/")},
    ).json()["result"]["build"]["id"]  # fmt: skip
    page.goto(f"/builds/{made}/ratio")
    expect(page.locator("main")).to_contain_text("No ratio yet")
    assert page.request.get(f"/builds/{made}/ratio/answer").status == 409
