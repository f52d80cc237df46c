"""Accessibility by axe-core (version in package.json): WCAG 2.2 levels A and AA, AAA contrast, best practices."""

from __future__ import annotations

from typing import Any

import pytest

from tests.browser.conftest import tool

pytestmark = pytest.mark.slow

PUBLIC = [
    "",
    "trees/",
    "trees/by-steward/",
    "trees/S1979.2/",
    "trees/S1986.1/",
    "trees/S1994.3/",
    "trees/S1979.2/years/",
    "stewards/",
    "stewards/sumire-aonuma/",
    "stewards/skerrow-terraces/",
    "teaching/",
    "objects/",
    "objects/blue-oval/",
    "how-we-date/",
    "glossary/",
    "visiting/",
    "404.html",
]
INTERNAL = ["work/", "trees/S1979.2/marks/", "trees/S2019.1/", "trees/S2003.7/", "staff-handbook/"]
TAGS = ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


def faults(page: Any) -> list[str]:
    page.evaluate("for (const d of document.querySelectorAll('details')) d.open = true")
    page.add_script_tag(path=str(tool("axe-core/axe.min.js")))
    result = page.evaluate("tags => axe.run(document, {runOnly: tags, resultTypes: ['violations']})", TAGS)
    return [f"{v['id']}: {n['html'][:200]} ({n['failureSummary']})" for v in result["violations"] for n in v["nodes"]]


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1440])
def test_pages_have_no_fault(browser: Any, public: str, internal: str, width: int, scheme: str) -> None:
    context = browser.new_context(viewport={"width": width, "height": 900}, color_scheme=scheme)
    page = context.new_page()
    found = {}
    for address in [*(public + path for path in PUBLIC), *(internal + path for path in INTERNAL)]:
        page.goto(address)
        if some := faults(page):
            found[address] = some
    context.close()
    assert found == {}


def test_axe_finds_a_fault(browser: Any) -> None:
    page = browser.new_page()
    page.set_content('<html lang="en"><title>x</title><main><h1>x</h1><img src="x.png"></main></html>')
    assert any(fault.startswith("image-alt") for fault in faults(page))
    page.close()
