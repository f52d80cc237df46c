"""The plan of a walk as it is drawn: its words stand free of the ways, of each other, and within the page."""

from __future__ import annotations

from typing import Any

import pytest

pytestmark = pytest.mark.slow

MEETING = """() => {
  const svg = document.querySelector("svg.courts"), page = document.documentElement.clientWidth, found = [];
  const texts = [...svg.querySelectorAll("text")].map(t => ({ box: t.getBoundingClientRect(), says: t.textContent }));
  const home = svg.getBoundingClientRect();
  for (const { box, says } of texts) {
    if (box.left < 0 || box.right > page || box.top < home.top - 1 || box.bottom > home.bottom + 1)
      found.push(says + " is cut off");
    for (const line of svg.querySelectorAll("line")) {
      const [x1, y1, x2, y2] = ["x1", "y1", "x2", "y2"].map(n => line[n].baseVal.value);
      for (let t = 0; t <= 1; t += .005) {
        const [x, y] = [home.left + x1 + (x2 - x1) * t, home.top + y1 + (y2 - y1) * t];
        if (x > box.left && x < box.right && y > box.top + 3 && y < box.bottom - 3) {
          found.push(says + " stands on a way"); break;
        }
      }
    }
    for (const { box: other, says: words } of texts)
      if (says < words && box.left < other.right && other.left < box.right
          && box.top + 3 < other.bottom - 3 && other.top + 3 < box.bottom - 3)
        found.push(says + " stands on " + words);
  }
  return found;
}"""


@pytest.mark.parametrize("width", [390, 768, 1440])
def test_words_of_the_way_stand_free(browser: Any, public: str, internal: str, width: int) -> None:
    page = browser.new_page(viewport={"width": width, "height": 900})
    for tour in (
        public + "tours/mother-and-daughter/",
        public + "tours/gold-red-and-fruit/",
        internal + "tours/what-is-carried-first/",
    ):
        page.goto(tour, wait_until="networkidle")
        assert page.locator("svg.courts text").count() >= 4
        assert page.evaluate(MEETING) == [], tour
    page.close()


def test_words_that_stand_on_a_way_are_found(browser: Any) -> None:
    page = browser.new_page()
    page.set_content(
        '<svg class="courts" width="300" height="300"><line x1="0" y1="150" x2="300" y2="150"/>'
        '<text x="100" y="155">Court</text><text x="110" y="155">Wall</text></svg>'
    )
    found = page.evaluate(MEETING)
    assert "Court stands on a way" in found and "Court stands on Wall" in found
    page.close()
