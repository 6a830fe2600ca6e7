"""The page about fit in a real browser: changed and seen to move, by mouse and by keyboard."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, Response, expect

pytestmark = pytest.mark.xdist_group("browser")

Faultless = Callable[[str, int, Callable[[], object]], None]
EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


def made(page: Page, text: str) -> str:
    reply = page.request.post(
        "/api/builds", data={"text": text},
        headers={"Origin": page.request.get("/").url.rstrip("/")},
    )  # fmt: skip
    assert reply.status == 201, reply.text()
    return str(reply.json()["result"]["build"]["id"])


@pytest.fixture
def build(page: Page) -> str:
    return made(page, (EXAMPLES / "copper-wren-fit.toml").read_text(encoding="utf-8"))


def opened(page: Page, build: str) -> None:
    page.goto(f"/builds/{build}/fit")
    page.wait_for_function("document.documentElement.dataset.ready === 'yes'")


def answered(page: Page, act: Callable[[], object], *, keep: bool = True) -> Response:
    """Do something that changes a field and wait for its answer to be in place."""
    word = "true" if keep else "false"

    def ours(response: Response) -> bool:
        sent = response.request.post_data or ""
        return response.url.endswith("/fit/field") and f"keep={word}" in sent

    with page.expect_response(ours) as info:
        act()
    page.wait_for_function("!document.querySelector('.htmx-request')")
    return info.value


def number(page: Page, key: str) -> float:
    return float(page.locator(f"#fit-{key}").inner_text().split()[0].replace(",", ""))


def test_the_answer_comes_first_and_every_part_is_there(page: Page, build: str) -> None:
    opened(page, build)
    expect(page.locator("#fit-sentence")).to_contain_text("It fits with the axle to order, 59.25")
    expect(page.locator("nav a[aria-current]")).to_have_text("Fit")
    for title in ("order-title", "rooms-title", "search-title", "holds-title", "ends-title"):
        expect(page.locator(f"#{title}")).to_be_visible()
    expect(page.locator("#rear svg")).to_be_visible()
    expect(page.locator("tr.planned")).to_have_count(1)
    expect(page.locator("#order-shaft_left")).to_contain_text("745.36 mm")


def test_a_backspace_is_tried_while_it_is_typed_and_then_kept(page: Page, build: str) -> None:
    opened(page, build)
    was = number(page, "lip_ride_left")
    field = page.locator('[data-path="wheel.backspace"]')
    same = field.element_handle()
    page.locator('[data-path="centre.face_to_face"]').fill("59 1/4 in")
    answered(page, lambda: page.locator('[data-path="centre.face_to_face"]').blur())
    answered(page, lambda: (field.fill(""), field.press_sequentially("4.5 in")), keep=False)
    assert number(page, "lip_ride_left") == pytest.approx(was - 0.5, abs=0.02)
    assert field.evaluate("e => e === document.activeElement")
    before = page.request.get(f"/builds/{build}/papers/build.toml").text()
    assert 'backspace = "5 in"' in before
    answered(page, lambda: field.press("Enter"))
    assert same.evaluate("e => e.isConnected")
    assert 'backspace = "4.5 in"' in page.request.get(f"/builds/{build}/papers/build.toml").text()
    assert number(page, "lip_ride_left") == pytest.approx(was - 0.5, abs=0.02)


def test_a_reading_that_contradicts_the_others_is_named(page: Page, build: str) -> None:
    opened(page, build)
    field = page.locator('[data-path="fit.left.lip"]')
    field.fill("7 3/8 in")
    answered(page, field.blur)
    expect(page.locator("#fit-sentence")).to_contain_text("Order nothing yet")
    clash = page.locator(".clash")
    expect(clash).to_be_visible()
    expect(clash).to_contain_text("fit.left.lip")
    field.fill("6 3/8 in")
    answered(page, field.blur)
    expect(page.locator(".clash")).to_have_count(0)


def test_a_reading_taken_again_is_combined_and_shown_as_used(page: Page, build: str) -> None:
    opened(page, build)
    used = page.locator("#used-fit-right-lip")
    expect(used).to_contain_text("measured")
    expect(used).to_contain_text("6.25 in, 6.125 in to 6.375 in")
    field = page.locator('[data-path="fit.right.lip"]')
    field.fill("6 1/4 in; 6 5/16 in; 6 1/4 in")
    answered(page, field.blur)
    expect(used).to_contain_text("6.271 in")
    expect(page.locator("#fit-sentence")).to_contain_text("It fits")


def test_the_travel_is_gone_through_with_the_keyboard(page: Page, build: str) -> None:
    opened(page, build)
    slider = page.locator("#travel")
    shown = page.locator("#rear-gap-outer-left .gap")
    rest = shown.inner_html()
    slider.focus()
    for _ in range(6):
        page.keyboard.press("ArrowRight")
    expect(page.locator("#travel-said")).to_contain_text("3.50 in (89 mm) up")
    assert shown.inner_html() != rest
    bump = page.locator("table.stages tbody tr").first.locator("td").first.inner_text()
    assert shown.inner_html() == bump
    assert "translate(0 -" in (page.locator("#rear-axle").get_attribute("transform") or "")
    assert "lip left" in (slider.get_attribute("aria-valuetext") or "")
    page.locator("#way").select_option("lean")
    expect(page.locator("#travel-said")).to_contain_text("right the other way")
    assert "rotate(" in (page.locator("#rear-axle").get_attribute("transform") or "")
    for _ in range(6):
        slider.press("ArrowLeft")
    expect(page.locator("#travel-said")).to_have_text("ride height")
    assert shown.inner_html() == rest


def test_the_slider_stays_where_it_is_when_an_answer_comes(page: Page, build: str) -> None:
    opened(page, build)
    page.locator("#travel").focus()
    for _ in range(3):
        page.keyboard.press("ArrowRight")
    said = page.locator("#travel-said").inner_text()
    was = page.locator("#rear-gap-outer-left .gap").inner_html()
    field = page.locator('[data-path="wheel.section"]')
    field.fill("11.9 in")
    answered(page, field.blur)
    expect(page.locator("#travel-said")).to_have_text(said)
    assert page.locator("#rear-gap-outer-left .gap").inner_html() != was
    assert page.locator("#rear-axle").get_attribute("transform")


def test_a_number_opens_its_working_and_every_number_has_one(page: Page, build: str) -> None:
    opened(page, build)
    shaft = page.locator("#fit-shaft_left")
    shaft.focus()
    page.keyboard.press("Enter")
    expect(page.locator("#working .working-title")).to_be_visible()
    expect(page.locator("#working")).to_contain_text("29.345 in")
    page.keyboard.press("Escape")
    expect(page.locator("#panel")).to_be_hidden()
    expect(shaft).to_be_focused()
    ids = page.eval_on_selector_all("[data-from=fit]", "all => all.map(e => e.dataset.working)")
    assert len(ids) > 50
    for number_id in ids:
        reply = page.request.get(f"/builds/{build}/fit/working", params={"number": number_id})
        assert reply.status == 200, number_id
    assert page.request.get(f"/builds/{build}/fit/working?number=nothing").status == 404


def test_what_is_there_lets_the_next_be_ordered(page: Page, build: str) -> None:
    opened(page, build)
    expect(page.locator("section:has(> #holds-title)")).to_contain_text("Nothing may be ordered")
    page.get_by_label("brake size").check()
    page.get_by_label("Teeth of the speedometer").fill("7")
    page.get_by_role("button", name="Use this").click()
    expect(page.locator(".now-list")).to_contain_text("Wheels and tires: order now")
    expect(page.get_by_label("brake size")).to_be_checked()
    expect(page.locator("section:has(> #ends-title)")).to_contain_text("driven teeth with 7")
    page.goto(f"/builds/{build}/fit?old_ratio=dog")
    expect(page.locator("#ask-refused")).to_contain_text("41/11")


def test_nothing_measured_asks_for_readings_and_leads_to_their_fields(page: Page) -> None:
    bare = made(page, (EXAMPLES / "copper-wren-tired.toml").read_text(encoding="utf-8"))
    opened(page, bare)
    expect(page.locator("#fit-sentence")).to_contain_text("Not known yet: measure")
    expect(page.locator("#scrub")).to_be_hidden()
    page.locator("ol.measure a", has_text="Mounting face").first.click()
    expect(page.locator('[data-path="wheel.backspace"]')).to_be_focused()
    page.locator(".lacks a", has_text="ends.hat").first.click()
    expect(page.locator('[data-path="ends.hat"]')).to_be_focused()


def test_the_picture_is_saved(page: Page, build: str) -> None:
    opened(page, build)
    with page.expect_download() as info:
        page.get_by_role("link", name="SVG of the axle").click()
    assert Path(str(info.value.path())).read_text(encoding="utf-8").startswith("<svg")
    with page.expect_download() as info:
        page.get_by_role("button", name="PNG of the axle").click()
    assert Path(str(info.value.path())).read_bytes().startswith(b"\x89PNG")


@pytest.mark.parametrize(("theme", "width"), [("light", 1280), ("dark", 820), ("light", 390)])
def test_it_is_accessible_and_fits(
    page: Page, build: str, theme: str, width: int, faultless: Faultless
) -> None:
    faultless(theme, width, lambda: opened(page, build))


def test_it_prints_the_answer_and_its_tables_without_the_fields(page: Page, build: str) -> None:
    opened(page, build)
    page.emulate_media(media="print")
    expect(page.locator("#fit-sentence")).to_be_visible()
    expect(page.locator("table.order")).to_be_visible()
    expect(page.locator("table.rooms").first).to_be_visible()
    expect(page.locator("#scrub")).to_be_hidden()
    expect(page.locator('[data-path="wheel.backspace"]')).to_be_hidden()


def test_nothing_stands_inside_the_page_that_its_policy_forbids(
    page: Page, build: str, clean_inside: Callable[[], None]
) -> None:
    opened(page, build)
    clean_inside()


def test_a_wrong_build_has_no_answer(page: Page) -> None:
    wrong = made(page, "format = 1\n[car]\nweight = 'heavy'\n")
    page.goto(f"/builds/{wrong}/fit")
    expect(page.locator("main")).to_contain_text("No answer about fit yet")
    assert page.request.get(f"/builds/{wrong}/fit/working?number=fit_width").status == 409


def test_programs_get_the_same_answer(page: Page, build: str) -> None:
    reply = page.request.get(f"/api/builds/{build}/fit", params={"samples": 50})
    assert reply.status == 200, reply.text()
    answer = reply.json()
    assert answer["schema"] == "axlewright.fit/1"
    assert answer["result"]["verdict"] == "fits"
    assert page.request.get(f"/api/builds/{build}/fit?have=banana").status == 422


def test_the_papers_of_fit_are_one_press_away(page: Page, build: str) -> None:
    opened(page, build)
    for name, start in (("order sheet", b"%PDF"), ("worksheet of what is missing", b"%PDF")):
        with page.expect_download(timeout=60_000) as info:
            page.get_by_role("link", name=name).click()
        assert Path(str(info.value.path())).read_bytes().startswith(start)
    page.get_by_role("link", name="drawings of housing").click()
    expect(page.locator("#drawings")).to_be_visible()
