"""A walk in the browser: by keyboard, by finger, by its address, without a script, without a network."""

from __future__ import annotations

from typing import Any

import pytest

from tests.browser.test_accessibility import faults

pytestmark = pytest.mark.slow

WALK = "tours/mother-and-daughter/walk/"
PAGES = ["tours/", "tours/mother-and-daughter/", WALK, WALK + "ja/"]


def test_arrow_keys_lead_from_stop_to_stop_and_tell_where_one_is(browser: Any, public: str) -> None:
    page = browser.new_page(viewport={"width": 1440, "height": 900}, reduced_motion="reduce")
    page.goto(public + WALK)
    status = page.locator(".walk [role=status]")
    for expected in ("stop-1", "stop-2", "stop-3"):
        page.keyboard.press("ArrowRight")
        assert page.evaluate("document.activeElement.id") == expected
        assert page.url.endswith("#" + expected)
    assert status.inner_text() == "3 of 8: The Harbour Pine"
    page.keyboard.press("ArrowLeft")
    assert page.evaluate("document.activeElement.id") == "stop-2"
    page.keyboard.press("End")
    assert page.evaluate("document.activeElement.id") == "stop-8"
    page.keyboard.press("ArrowRight")
    assert page.evaluate("document.activeElement.id") == "stop-8", "the walk ends where it ends"
    page.close()


def test_an_address_leads_to_its_stop(browser: Any, public: str) -> None:
    page = browser.new_page(viewport={"width": 1440, "height": 900}, reduced_motion="reduce")
    page.goto(public + WALK + "#stop-5", wait_until="networkidle")
    assert abs(page.locator("#stop-5").bounding_box()["y"]) < 80
    page.keyboard.press("ArrowRight")
    assert page.url.endswith("#stop-6"), "and from there on"
    page.close()


def test_a_sweep_of_the_finger_leads_on(browser: Any, public: str) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True, reduced_motion="reduce")
    page = context.new_page()
    page.goto(public + WALK)
    page.keyboard.press("ArrowRight")
    sweep = """([from, to]) => {
      const at = (x, target) => new Touch({identifier: 1, target, clientX: x, clientY: 300});
      const walk = document.querySelector('.walk');
      walk.dispatchEvent(new TouchEvent('touchstart', {touches: [at(from, walk)], bubbles: true}));
      walk.dispatchEvent(new TouchEvent('touchend', {changedTouches: [at(to, walk)], bubbles: true}));
    }"""
    page.evaluate(sweep, [300, 100])
    assert page.url.endswith("#stop-2")
    page.evaluate(sweep, [100, 300])
    assert page.url.endswith("#stop-1")
    page.evaluate(sweep, [200, 180])
    assert page.url.endswith("#stop-1"), "a small movement is no sweep"
    context.close()


def test_without_a_script_it_reads_from_top_to_bottom(browser: Any, public: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(public + WALK)
    tops = [box["y"] for box in (halt.bounding_box() for halt in page.locator(".halt").all())]
    assert len(tops) == 8 and tops == sorted(tops)
    assert not page.locator(".by-key").is_visible(), "no keys are promised that would do nothing"
    page.locator("#stop-1 a[rel=next]").click()
    assert page.url.endswith("#stop-2")
    context.close()


def test_once_opened_it_can_be_walked_without_a_network(browser: Any, public: str) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.goto(public + WALK, wait_until="networkidle")
    page.wait_for_function("document.documentElement.dataset.kept === 'yes'", timeout=20_000)
    context.set_offline(True)
    page.goto(public + WALK)
    assert page.locator(".halt").count() == 8
    page.wait_for_function("[...document.images].every(image => image.complete && image.naturalWidth > 0)")
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(248, 247, 244)", "in its own style"
    page.goto(public + WALK + "#stop-4")
    assert page.locator("#stop-4 h2").is_visible()
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1440])
def test_the_pages_of_walks_have_no_fault(browser: Any, public: str, width: int, scheme: str) -> None:
    context = browser.new_context(viewport={"width": width, "height": 900}, color_scheme=scheme)
    page = context.new_page()
    found = {}
    for path in PAGES:
        page.goto(public + path)
        if some := faults(page):
            found[path] = some
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    context.close()
    assert found == {}


def test_a_walk_for_staff_is_in_the_house_alone(browser: Any, public: str, internal: str) -> None:
    page = browser.new_page()
    assert page.goto(public + "tours/what-is-carried-first/").status == 404
    assert page.goto(internal + "tours/what-is-carried-first/").status == 200
    page.close()


def test_a_walk_in_another_language_says_so(browser: Any, public: str) -> None:
    page = browser.new_page()
    page.goto(public + WALK + "ja/")
    assert page.locator(".walk").get_attribute("lang") == "ja"
    assert "皆さんが風です" in page.locator("#stop-2").inner_text()
    said = page.locator(".walk").inner_text()
    assert "1970年" in said, "the sentence of the age is in the language of the walk too"
    assert "since" not in said
    page.close()
