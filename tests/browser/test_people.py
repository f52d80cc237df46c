"""The pages of people and things in a browser: at three widths, without a script, with one, and on paper."""

from __future__ import annotations

import re
from typing import Any

import pytest

pytestmark = pytest.mark.slow

PAGES = [
    "stewards/",
    "stewards/sumire-aonuma/",
    "stewards/halvard-quist/",
    "stewards/skerrow-terraces/",
    "stewards/wenna-harrack/",
    "stewards/pim-dracott/",
    "teaching/",
    "objects/",
    "objects/blue-oval/",
    "objects/ring-stone/",
]
MEETING = """() => [...document.querySelectorAll('svg.drawing')].flatMap(svg => {
  const texts = [...svg.querySelectorAll('text')].filter(t => t.getClientRects().length);
  const boxes = texts.map(t => [t.textContent, t.getBoundingClientRect()]);
  const found = [];
  boxes.forEach(([words, a], i) => {
    if (a.left < -1 || a.right > innerWidth + 1) found.push(words + ' leaves the page');
    boxes.slice(i + 1).forEach(([other, b]) => {
      const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (across > 1 && down > 3) found.push(words + ' meets ' + other);
    });
  });
  return found;
})"""


@pytest.mark.parametrize("width", [390, 768, 1440])
def test_nothing_runs_over_the_edge_and_no_words_of_a_drawing_meet(browser: Any, public: str, width: int) -> None:
    page = browser.new_page(viewport={"width": width, "height": 900})
    found = {}
    for path in PAGES:
        page.goto(public + path)
        page.evaluate("for (const d of document.querySelectorAll('details')) d.open = true")
        page.evaluate("document.fonts.ready")
        over = page.evaluate("document.documentElement.scrollWidth - innerWidth")
        meeting = page.evaluate(MEETING)
        if over > 0 or meeting:
            found[path] = (over, meeting)
    page.close()
    assert found == {}


def test_one_drawing_is_shown_at_a_time(browser: Any, public: str) -> None:
    shown = "[...document.querySelectorAll('.drawing')].filter(d => d.getClientRects().length).map(d => d.classList[1])"
    for width, expected in ((390, "upright"), (1440, "wide")):
        page = browser.new_page(viewport={"width": width, "height": 900})
        page.goto(public + "stewards/halvard-quist/")
        assert page.evaluate(shown) == [expected]
        page.close()


def test_a_name_is_found_while_it_is_typed(browser: Any, public: str) -> None:
    page = browser.new_page()
    page.goto(public + "stewards/")
    shown = "[...document.querySelectorAll('#roll li')].filter(li => li.getClientRects().length).length"
    everybody = page.evaluate(shown)
    page.get_by_label("Find a name").fill("quist")
    assert page.evaluate(shown) == 2
    assert page.locator(".seek [role=status]").inner_text() == "Names found: 2"
    page.get_by_label("Find a name").fill("nobody of that name")
    assert page.evaluate(shown) == 0
    assert page.locator(".seek [role=status]").inner_text() == "No such name"
    page.get_by_label("Find a name").fill("")
    assert page.evaluate(shown) == everybody > 30
    page.close()


def test_without_a_script_the_letters_lead_into_the_list(browser: Any, public: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(public + "stewards/")
    assert not page.get_by_label("Find a name").is_visible()
    page.get_by_role("navigation", name="Names by letter").get_by_role("link", name="Q", exact=True).click()
    assert page.url.endswith("#names-q")
    assert page.get_by_role("link", name="Halvard Quist").is_visible()
    context.close()


def test_a_name_of_who_taught_whom_opens_its_place(browser: Any, public: str) -> None:
    """The table lies folded: going to a place inside it opens it, without a script of ours (HTML, fragments)."""
    page = browser.new_page()
    page.goto(public + "teaching/")
    place = page.locator("#who-tobiah-renn")
    assert not place.is_visible()
    page.locator("#by-name ~ *, section[aria-labelledby=by-name]").get_by_role("link", name="Tobiah Renn").click()
    place.wait_for(state="visible")
    page.close()


def test_on_paper_time_goes_to_the_right(browser: Any, public: str) -> None:
    page = browser.new_page()
    page.goto(public + "stewards/halvard-quist/")
    page.emulate_media(media="print")
    assert page.locator("svg.drawing.wide").is_visible()
    assert not page.locator("svg.drawing.upright").is_visible()
    page.close()


@pytest.mark.parametrize(
    ("path", "most"),
    [("stewards/sumire-aonuma/", 1), ("teaching/", 1), ("objects/blue-oval/", 1), ("trees/S1979.2/", 2)],
)
def test_pages_of_people_and_things_are_short_on_paper(browser: Any, public: str, path: str, most: int) -> None:
    """And the sheet of a tree stays one of two pages, with its pots in it. The printer's page objects are counted."""
    page = browser.new_page()
    page.goto(public + path)
    page.wait_for_load_state("networkidle")
    paper = page.pdf(prefer_css_page_size=True)
    assert len(re.findall(rb"/Type\s*/Page\b(?!s)", paper)) in range(1, most + 1)
    page.close()
