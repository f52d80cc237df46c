"""Reading as visitors do: on a phone, by keyboard, without a script, on paper, in the dark."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest

TREES = sum(
    "\nvisibility: internal" not in record.read_text("utf-8")
    for record in (Path(__file__).resolve().parents[2] / "demo_collection" / "trees").glob("*/tree.yml")
)
"""As many as a visitor sees: all but those kept in the house."""

pytestmark = pytest.mark.slow

TREE = "trees/S1979.2/"
WIDTHS = [360, 390, 768, 1024, 1440, 1920]
PAGES = ["", "trees/", TREE, "trees/S1986.1/", "trees/by-species/", "stewards/", "how-we-date/", "visiting/"]


def test_no_page_asks_another_host_for_anything(browser: Any, public: str) -> None:
    hosts = set()
    page = browser.new_page()
    page.on("request", lambda request: hosts.add(urlsplit(request.url).netloc))
    for path in PAGES:
        page.goto(public + path, wait_until="networkidle")
    page.close()
    assert hosts - {""} == {urlsplit(public).netloc}


@pytest.mark.parametrize("width", WIDTHS)
def test_nothing_runs_over_the_edge(browser: Any, public: str, width: int) -> None:
    page = browser.new_page(viewport={"width": width, "height": 900})
    over = []
    for path in PAGES:
        page.goto(public + path)
        page.evaluate("for (const d of document.querySelectorAll('details')) d.open = true")
        if page.evaluate("document.documentElement.scrollWidth") > width:
            over.append(path)
    page.close()
    assert over == []


def test_the_label_comes_on_one_phone_screen_and_under_300_kilobytes(browser: Any, public: str) -> None:
    # What the code on a label opens: a common phone, three pixels to one, nothing cached.
    context = browser.new_context(viewport={"width": 390, "height": 844}, device_scale_factor=3, is_mobile=True)
    page = context.new_page()
    weights: list[int] = []
    page.on("response", lambda response: weights.append(len(response.body())))
    page.goto(public + TREE, wait_until="networkidle")
    for part in (".opening .plate img", "#name", ".label-text"):
        box = page.locator(part).bounding_box()
        assert box["y"] + box["height"] <= 844, part
    context.close()
    assert sum(weights) < 300_000


def test_without_a_script_everything_can_be_read(browser: Any, public: str) -> None:
    context = browser.new_context(java_script_enabled=False, viewport={"width": 1440, "height": 900})
    page = context.new_page()
    page.goto(public + TREE)
    then, now = page.locator(".comparison .then").first, page.locator(".comparison .now").first
    boxes = then.bounding_box(), now.bounding_box()
    assert boxes[0]["x"] + boxes[0]["width"] <= boxes[1]["x"], "the two pictures stand side by side"
    assert not page.locator(".comparison input").first.is_visible()
    assert page.locator(".measures").first.is_visible()
    assert not page.locator(".controls").is_visible(), "no button that would do nothing"
    page.locator(".since summary").click()
    assert page.locator(".chain").is_visible()
    page.goto(public + "trees/")
    assert page.locator(".wall li h2").count() == TREES
    page.locator(".index a[data-index=species]").first.click()
    assert urlsplit(page.url).path == "/trees/by-species/"
    assert page.locator(f"[id='{urlsplit(page.url).fragment}']").count() == 1
    context.close()


def test_the_slider_works_by_keyboard_and_says_what_it_shows(browser: Any, public: str) -> None:
    page = browser.new_page(viewport={"width": 1440, "height": 900})
    page.goto(public + TREE)
    slider = page.locator(".comparison input").first
    slider.focus()
    page.keyboard.press("Home")
    assert page.evaluate("document.querySelector('.pair').style.getPropertyValue('--at')") == "0%"
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    assert page.evaluate("document.querySelector('.pair').style.getPropertyValue('--at')") == "10%"
    page.keyboard.press("Shift+ArrowRight")
    assert page.evaluate("document.querySelector('.pair').style.getPropertyValue('--at')") == "11%"
    assert re.fullmatch(r"11 of 100 shows 1990, the rest 2025", slider.get_attribute("aria-valuetext"))
    page.keyboard.press("End")
    assert page.evaluate("document.querySelector('.pair').style.getPropertyValue('--at')") == "100%"
    page.close()


def parted_at(page: Any) -> float:
    """Where on the screen the line of the first comparison stands."""
    share = page.evaluate("document.querySelector('.pair').style.getPropertyValue('--at')")
    box = page.locator(".comparison .then img").first.bounding_box()
    return float(box["x"]) + float(box["width"]) * float(share.removesuffix("%")) / 100


def test_the_line_is_where_the_pointer_is_from_edge_to_edge(browser: Any, public: str) -> None:
    page = browser.new_page(viewport={"width": 1440, "height": 900})
    page.goto(public + TREE)
    page.locator(".comparison .pair").first.scroll_into_view_if_needed()
    box = page.locator(".comparison .then img").first.bounding_box()
    y = box["y"] + box["height"] / 3
    for share in (0.0, 0.1, 0.5, 0.83, 1.0):
        x = box["x"] + 1 + (box["width"] - 2) * share
        page.mouse.click(x, y)
        assert abs(parted_at(page) - x) <= 2, share
    page.mouse.down()
    page.mouse.move(box["x"] + box["width"] * 0.3, y, steps=4)
    page.mouse.up()
    assert abs(parted_at(page) - (box["x"] + box["width"] * 0.3)) <= 2
    page.close()


def test_a_finger_draws_the_line_and_both_years_stay_in_sight(browser: Any, public: str) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    page = context.new_page()
    page.goto(public + TREE)
    page.locator(".comparison .pair").first.scroll_into_view_if_needed()
    box = page.locator(".comparison .then img").first.bounding_box()
    assert (box["x"], box["width"]) == (0, 390), "the pictures take the whole of a small screen"
    page.touchscreen.tap(box["x"] + box["width"] * 0.9, box["y"] + box["height"] / 2)
    assert abs(parted_at(page) - 351) <= 2
    assert page.evaluate("document.documentElement.scrollWidth") == 390
    for side, year in ((".then", "1990"), (".now", "2025")):
        words = page.locator(f".comparison {side} .year").first
        assert words.inner_text() == year
        placed = words.bounding_box()
        assert placed["y"] >= box["y"] + box["height"], "no text on a photograph"
    context.close()


def test_choosing_on_the_wall_stands_in_the_address_and_is_announced(browser: Any, public: str) -> None:
    page = browser.new_page(viewport={"width": 1440, "height": 900})
    page.goto(public + "trees/")
    seen = page.locator(".wall li:not(.rest):visible")
    status = page.locator(".found [role=status]")
    assert seen.count() == TREES
    maples = page.locator(".index a", has_text="Acer buergerianum")
    maples.focus()
    page.keyboard.press("Enter")
    assert seen.count() == 2
    assert urlsplit(page.url).query == "species=acer-buergerianum"
    assert status.inner_text() == f"2 of {TREES} trees: Acer buergerianum."
    assert page.locator(".index .none").count() > 0, "terms that would leave nothing are dimmed"
    page.reload()
    assert seen.count() == 2
    page.locator(".index a[data-index=beginning]", has_text="layering").click()
    assert seen.count() == 1
    page.go_back()
    assert seen.count() == 2
    page.locator(".found a").click()
    assert seen.count() == TREES
    assert urlsplit(page.url).query == ""
    page.close()


def test_the_choice_of_paper_is_kept_from_page_to_page(browser: Any, public: str) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.goto(public + TREE)
    page.locator("[data-paper=dark]").click()
    page.goto(public + "stewards/")
    assert page.evaluate("document.documentElement.dataset.theme") == "dark"
    assert page.locator("[data-paper=dark]").get_attribute("aria-pressed") == "true"
    page.locator("[data-paper='']").click()
    assert page.evaluate("document.documentElement.dataset.theme") is None
    context.close()


def test_paper_can_be_chosen_where_the_browser_keeps_nothing(browser: Any, public: str) -> None:
    page = browser.new_page()
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.add_init_script(
        "Object.defineProperty(window, 'localStorage', {get() { throw new DOMException('no', 'SecurityError'); }})"
    )
    page.goto(public + TREE)
    page.locator("[data-paper=dark]").click()
    assert page.evaluate("document.documentElement.dataset.theme") == "dark"
    assert errors == []
    page.close()


def test_every_tree_prints_on_a_sheet_of_two_pages(browser: Any, public: str) -> None:
    page = browser.new_page()
    page.goto(public + "trees/")
    links = page.eval_on_selector_all(".wall a", "all => all.map(a => a.href)")
    assert len(links) == TREES
    counts = {}
    for link in links:
        page.goto(link)
        page.evaluate(
            "async () => { for (const i of document.images) i.loading = 'eager';"
            " await Promise.all([...document.images].map(i => i.decode().catch(() => 0))); }"
        )
        page.evaluate("dispatchEvent(new Event('beforeprint'))")
        pdf = page.pdf(prefer_css_page_size=True)
        counts[link] = [int(n) for n in re.findall(rb"/Type /Pages\s*/Count (\d+)|/Count (\d+)", pdf)[0] if n]
    page.close()
    assert {link: count for link, count in counts.items() if count not in ([1], [2])} == {}


def test_the_internal_edition_says_so_on_every_page(browser: Any, internal: str, public: str) -> None:
    page = browser.new_page()
    for path in ["", "trees/", "trees/S2019.1/", "work/", "stewards/", "how-we-date/"]:
        page.goto(internal + path)
        assert "as of 25 November 2026" in page.locator(".band").inner_text()
    page.goto(public)
    assert page.locator(".band").count() == 0
    page.close()
