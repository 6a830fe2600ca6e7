"""The launch page as a builder meets it: the march in the background, scrubbing, hop, charts."""

from __future__ import annotations

import re
import time
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

pytestmark = pytest.mark.xdist_group("browser")

AXE = next(Path(__file__).parent.glob("axe-core-*.min.js"))
MARCHED = 240_000
"""ms; the first march on a machine is compiled, on two busy cores."""
CAUTION = "has not been marched in time yet"


def start(page: Page, name: str, weight: str) -> str:
    """A build from the template with a weight of its own: like inputs share a march."""
    page.goto("/")
    page.get_by_label("Name", exact=True).fill(name)
    page.get_by_role("button", name="Start", exact=True).click()
    page.wait_for_url(re.compile(r"/builds/[^/]+/car$"))
    ready(page)
    build = page.url.split("/")[-2]
    address = page.url.partition("/builds")[0]
    kept = page.request.patch(
        f"/api/builds/{build}/keys/car.weight", data={"value": weight}, headers={"Origin": address}
    )
    assert kept.ok
    return build


def ready(page: Page) -> None:
    page.locator("html[data-ready]").wait_for()


def until(page: Page, so: str, within: float = 30.0) -> None:
    end = time.monotonic() + within
    while not page.evaluate(so):
        assert time.monotonic() < end, so
        page.wait_for_timeout(20)


@pytest.fixture(scope="module")
def marched(browser: Any, server: Any) -> str:
    """A build whose launch has been marched, by opening its page."""
    context = browser.new_context(base_url=server.address)
    page = context.new_page()
    build = start(page, "Copper Wren", "3610 lb")
    page.goto(f"/builds/{build}/load-path")
    expect(page.locator("main")).to_contain_text(CAUTION)
    page.goto(f"/builds/{build}/launch")
    expect(page.locator("#launch-sentence")).to_be_visible(timeout=MARCHED)
    context.close()
    return build


def opened(page: Page, build: str) -> None:
    """The launch page, its slider ready."""
    page.goto(f"/builds/{build}/launch")
    ready(page)
    page.locator('#story[data-ready="yes"]').wait_for(timeout=MARCHED)


def test_opening_the_page_starts_the_march_which_survives_a_reload(page: Page) -> None:
    build = start(page, "Tin Pelican", "3620 lb")
    page.goto(f"/builds/{build}/launch")
    ready(page)
    expect(page.locator("#march-job")).to_contain_text("Not marched yet with these inputs")
    expect(page.locator("#bounds-title")).to_be_visible()
    expect(page.locator("#march-bar")).to_be_visible()
    until(page, "document.querySelector('#march-bar')?.value > 0 || "
          "document.querySelector('#launch-sentence')", MARCHED / 1000)  # fmt: skip
    page.reload()
    ready(page)
    jobs = page.request.get(f"/api/builds/{build}/jobs").json()["result"]
    assert [j["kind"] for j in jobs] == ["launch"], "a reload must not start it again"
    verdict = page.locator("#verdict").inner_text()
    sentence = page.locator("#launch-sentence")
    expect(sentence).to_be_visible(timeout=MARCHED)
    expect(sentence).to_contain_text("Hardest on the axle is")
    expect(page.locator("#peaks-title")).to_be_visible()
    expect(page.locator("#bounds-title")).to_have_count(0)
    told = page.request.get(f"/api/builds/{build}/launch").json()["result"]
    assert told["made"]["samples"] == 200
    expect(page.locator("#march")).to_contain_text("200 launches of each case")
    page.reload()
    assert page.locator("#verdict").inner_text() != "" and verdict != ""
    assert page.locator("#launch-sentence").is_visible()


def test_after_the_march_the_load_path_stands_on_its_peaks(page: Page, marched: str) -> None:
    page.goto(f"/builds/{marched}/load-path")
    assert CAUTION not in page.locator("main").inner_text()
    peak = page.request.get(f"/api/builds/{marched}/launch").json()["result"]["cases"][0]
    cases = page.request.get(f"/api/builds/{marched}/load-path").json()["result"]["cases"]
    same = next(c for c in cases if c["case"] == peak["case"])
    for place, found in peak["peaks"].items():
        assert same["torques"][place]["value"] == pytest.approx(found["value"], rel=1e-6)


def test_an_edit_that_matters_makes_the_march_old_and_one_that_does_not_keeps_it(
    page: Page, marched: str
) -> None:
    answer = page.request.post(
        f"/api/builds/{marched}/revisions",
        data={"text": text_of(page, marched) + "\n# a thought\n"},
        headers={"Origin": ours(page)},
    )
    assert answer.ok
    opened(page, marched)
    expect(page.locator("#launch-sentence")).to_be_visible()
    heavier = page.request.patch(
        f"/api/builds/{marched}/keys/car.weight",
        data={"value": "4400 lb"},
        headers={"Origin": ours(page)},
    )
    assert heavier.ok
    assert page.request.get(f"/api/builds/{marched}/launch").status == 409
    page.goto(f"/builds/{marched}/load-path")
    expect(page.locator("main")).to_contain_text(CAUTION)
    back = page.request.post(
        f"/api/builds/{marched}/revisions/2/restore", headers={"Origin": ours(page)}
    )
    assert back.ok
    assert page.request.get(f"/api/builds/{marched}/launch").ok


def ours(page: Page) -> str:
    """The address of the workbench, as its own pages send it."""
    page.goto("/")
    return page.url.rstrip("/")


def text_of(page: Page, build: str) -> str:
    return page.request.get(f"/api/builds/{build}/build.toml").text()


def test_scrubbing_by_keyboard_moves_numbers_bars_and_the_line(page: Page, marched: str) -> None:
    opened(page, marched)
    slider = page.locator("#time")
    ring = page.locator("#moment-at-ring .at-number")
    bar = page.locator("#moment-at-ring .at-bar")
    slider.focus()
    at_peak = (ring.text_content(), bar.get_attribute("width"))
    place = page.locator("#time-chart-cursor").get_attribute("transform")
    for _ in range(25):
        page.keyboard.press("ArrowRight")
    assert (ring.text_content(), bar.get_attribute("width")) != at_peak
    assert page.locator("#time-chart-cursor").get_attribute("transform") != place
    told = slider.get_attribute("aria-valuetext")
    assert re.fullmatch(rf"\d\.\d{{3}} s, ring gear {re.escape(ring.text_content() or '')} lb·ft",
                        told or "")  # fmt: skip
    page.keyboard.press("Home")
    assert page.locator("#time-said").inner_text() == "0.000 s"
    assert ring.text_content() == "0"


def test_the_picture_agrees_with_the_history_of_the_programs_side(page: Page, marched: str) -> None:
    opened(page, marched)
    case = page.locator("#case").input_value()
    answer = page.request.get(f"/api/builds/{marched}/launch/history?case={case}")
    history = answer.json()["result"]
    peak = max(history["series"]["axle"]) / 1.3558179483
    shown = float(
        (page.locator("#moment-at-ring .at-number").text_content() or "").replace(",", "")
    )
    assert shown == pytest.approx(peak, abs=5.0)


def test_another_case_is_shown_when_it_is_chosen(page: Page, marched: str) -> None:
    opened(page, marched)
    page.locator("#case").select_option("lift-off")
    until(page, "document.querySelector('#story')?.dataset.moments.endsWith('lift-off')"
                " && document.querySelector('#story').dataset.ready === 'yes'")  # fmt: skip
    low = page.evaluate(
        "fetch(document.querySelector('#story').dataset.moments).then(r => r.json())"
        ".then(t => Math.min(...t.places.find(p => p.key === 'ring').values))"
    )
    assert low < 0, "lifting off drives the axle backward"


def test_hop_sweeps_and_what_slips_first_are_told(page: Page, marched: str) -> None:
    opened(page, marched)
    expect(page.locator("#hop-sentence")).to_have_text(re.compile("^Wheel hop is (un)?likely|poss"))
    expect(page.locator("section", has=page.locator("#hop-title")).locator(".state")).to_have_text(
        re.compile("^(likely|possible|unlikely)$")
    )
    assert page.locator("#sweeps-title").is_visible()
    expect(page.locator("#ways-sentence")).to_have_text(re.compile("^Quickest to 60 ft: "))
    ways = page.locator("section", has=page.locator("#ways-title")).locator("tbody tr")
    expect(ways).to_have_count(4)
    expect(ways.locator("th", has_text="as stated")).to_have_count(1)
    number = page.locator('[data-working="coupling.hold"]')
    number.click()
    expect(page.locator("#working .eq").first).to_be_visible()
    expect(page.locator("#working")).to_contain_text("What it holds over")
    page.keyboard.press("Escape")
    expect(number).to_be_focused()


@pytest.mark.parametrize("name", ["time", "sweeps"])
def test_charts_are_saved_as_svg_png_and_csv(page: Page, marched: str, name: str) -> None:
    opened(page, marched)
    where = page.locator(f'.saves:has([data-name="{name}"])')
    for kind, begins in (("SVG", b"<svg"), ("PNG", b"\x89PNG"), ("CSV", b"")):
        with page.expect_download() as got:
            where.get_by_text(kind, exact=True).click()
        data = Path(got.value.path()).read_bytes()
        assert data.startswith(begins) and len(data) > 1000, kind


def test_the_march_can_be_stopped_and_started_again(page: Page) -> None:
    build = start(page, "Copper Wren", "3630 lb")
    here = {"Origin": ours(page)}
    # One job at a time: behind this one the march waits as long as the test wants it to.
    first = page.request.post(f"/api/builds/{build}/jobs", data={}, headers=here)
    page.goto(f"/builds/{build}/launch")
    ready(page)
    stop = page.locator("#march-stop")
    stop.focus()
    stop.press("Enter")
    expect(page.locator("#march-over")).to_have_text("Stopped.")
    expect(page.locator("#march-start")).to_be_focused()
    page.reload()
    ready(page)
    expect(page.locator("#march-over")).to_have_text("Stopped.")
    page.request.post(f"/api/jobs/{first.json()['result']['id']}/stop", headers=here)
    page.locator("#march-start").click()
    expect(page.locator("#launch-sentence")).to_be_visible(timeout=MARCHED)
    expect(page.locator("#said")).to_contain_text("The launch is marched.")


@pytest.mark.parametrize("shade", ["light", "dark"])
@pytest.mark.parametrize("width", [1280, 768])
def test_axe_finds_no_serious_fault_and_nothing_is_wider_than_the_page(
    page: Page, marched: str, shade: Any, width: int
) -> None:
    page.emulate_media(color_scheme=shade, reduced_motion="reduce")
    page.set_viewport_size({"width": width, "height": 1000})
    opened(page, marched)
    for more in page.locator("main summary").all():
        more.click()
    page.evaluate(AXE.read_text(encoding="utf-8"))
    found = page.evaluate("axe.run(document)")
    serious = [
        f"{v['id']}: {n['html'][:120]}"
        for v in found["violations"] if v["impact"] in {"serious", "critical"}
        for n in v["nodes"][:3]
    ]  # fmt: skip
    assert serious == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
