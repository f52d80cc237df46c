"""Lines of stewards, kin and plantings as Chromium lays them out: boxes of real words, on every tree's page."""

from __future__ import annotations

import itertools
from typing import Any

import pytest

from tests.browser.test_accessibility import faults

pytestmark = pytest.mark.slow

WIDTHS = (320, 599, 600, 960)
"""The narrowest page of each drawing and the widest phone, and the narrowest with a margin column."""
DRAWN = """() => [...document.querySelectorAll(".part svg.wide, .part svg.upright")].map(svg => {
  const frame = svg.getBoundingClientRect();
  return {id: svg.getAttribute("aria-labelledby"), wide: svg.classList.contains("wide"), across: frame.width,
    height: frame.height, words: frame.width === 0 ? [] : [...svg.querySelectorAll("text")]
      .filter(text => getComputedStyle(text).display !== "none").map(text => {
        const box = text.getBoundingClientRect();
        return {words: text.textContent, left: box.left - frame.left, right: box.right - frame.left,
          top: box.top - frame.top, bottom: box.bottom - frame.top};
    })};
})"""


def trees(page: Any, site: str) -> list[str]:
    """The addresses of all trees' pages."""
    page.goto(site + "trees/")
    return sorted(set(page.eval_on_selector_all(".wall a", "all => all.map(one => one.href)")))


@pytest.mark.parametrize("width", WIDTHS)
def test_no_words_meet_or_leave_a_drawing_on_any_tree_s_page(browser: Any, public: str, width: int) -> None:
    page = browser.new_page(viewport={"width": width, "height": 900})
    seen = 0
    for address in trees(page, public):
        page.goto(address)
        page.evaluate("document.fonts.ready")
        assert page.evaluate("document.documentElement.scrollWidth") <= width, address
        for drawing in page.evaluate(DRAWN):
            if drawing["across"] == 0:
                continue
            seen += 1
            assert drawing["wide"] == (width >= 600), (address, drawing["id"])
            for box in drawing["words"]:
                assert -1.5 <= box["left"] <= box["right"] <= drawing["across"] + 1.5, (address, box)
                assert -1.5 <= box["top"] <= box["bottom"] <= drawing["height"] + 1.5, (address, box)
            for one, other in itertools.combinations(drawing["words"], 2):
                aside = one["right"] <= other["left"] or other["right"] <= one["left"]
                # The box of a line is taller than its letters: half a line may touch, letters may not.
                above = one["bottom"] - 6 <= other["top"] or other["bottom"] - 6 <= one["top"]
                assert aside or above, (address, one, other)
    page.close()
    assert seen > 35


@pytest.mark.parametrize("width", [390, 1440])
def test_the_drawings_need_no_script_and_their_links_lead_to_pages(browser: Any, public: str, width: int) -> None:
    context = browser.new_context(
        viewport={"width": width, "height": 900}, java_script_enabled=False, reduced_motion="reduce"
    )
    page = context.new_page()
    page.goto(public + "trees/S1979.2/")
    assert page.locator("#stewards svg:visible").count() == 1
    assert page.locator(".kin-part svg.drawing:visible").count() == 1
    daughter = page.locator(".kin-part svg.drawing:visible a").first
    daughter.scroll_into_view_if_needed()
    box = daughter.bounding_box()
    page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    page.wait_for_url(public + "trees/S2015.9/")
    assert page.locator("h1").inner_text() == "The Daughter"
    context.close()


def test_what_is_printed_has_time_from_left_to_right_whatever_the_screen(browser: Any, public: str) -> None:
    page = browser.new_page(viewport={"width": 390, "height": 900})
    page.goto(public + "trees/S1979.2/")
    assert page.locator("#stewards svg.upright").is_visible()
    page.emulate_media(media="print")
    assert page.locator("#stewards svg.wide").is_visible()
    assert not page.locator("#stewards svg.upright").is_visible()
    page.close()


def test_the_words_of_a_drawing_can_be_selected_and_copied(browser: Any, public: str) -> None:
    page = browser.new_page(viewport={"width": 1440, "height": 900})
    page.goto(public + "trees/S1979.2/")
    page.evaluate("getSelection().selectAllChildren(document.querySelector('#stewards svg.wide .holder'))")
    assert page.evaluate("getSelection().toString()").split() == ["Halvard", "Quist", "1954", "to", "1978"]
    page.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("tree", ["S1988.2", "S2012.3"])
def test_drawings_are_told_to_those_who_do_not_see_them(browser: Any, public: str, tree: str, scheme: str) -> None:
    for width in (390, 1440):
        context = browser.new_context(viewport={"width": width, "height": 900}, color_scheme=scheme)
        page = context.new_page()
        page.goto(public + f"trees/{tree}/")
        assert faults(page) == []
        for svg in page.locator(".part svg.drawing:visible").all():
            names = (
                str(svg.get_attribute("aria-labelledby")).split() + str(svg.get_attribute("aria-describedby")).split()
            )
            said = [page.locator(f'[id="{name}"]').text_content() for name in names if name != "None"]
            assert len(said) == 2
            assert all(said)
        context.close()
