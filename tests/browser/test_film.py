"""The film of the years: by keyboard, by mouse, playing, without a script, without motion, on paper."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

import pytest

from tests.browser.test_accessibility import faults

pytestmark = pytest.mark.slow

TREE = "trees/S1979.2/"
FADE = "getComputedStyle(document.querySelector('.film .now img')).animationName"


@pytest.fixture
def page(browser: Any, public: str) -> Iterator[Any]:
    context = browser.new_context(viewport={"width": 1440, "height": 900})
    page = context.new_page()
    page.goto(public + TREE)
    page.locator(".film").scroll_into_view_if_needed()
    yield page
    context.close()


def seen(page: Any) -> str:
    """The year of the one photograph that is in sight."""
    frames = page.locator(".film .frames li.now")
    assert frames.count() == 1
    return str(frames.locator(".year").inner_text())


def years(page: Any) -> list[str]:
    return [text.strip() for text in page.locator(".film .frames .year").all_text_contents()]


def test_every_photograph_is_reached_by_the_keyboard_and_said(page: Any) -> None:
    expected = years(page)
    assert len(expected) >= 3
    assert expected == sorted(expected)
    slider = page.locator(".film input")
    slider.focus()
    found = [seen(page)]
    for _ in expected[1:]:
        page.keyboard.press("ArrowRight")
        found.append(seen(page))
        assert slider.get_attribute("aria-valuetext").startswith(found[-1])
    assert found == expected
    page.keyboard.press("ArrowRight")
    assert seen(page) == expected[-1], "the end stays the end"
    page.keyboard.press("Home")
    assert seen(page) == expected[0]


def test_the_nearest_photograph_comes_where_the_line_is_touched(page: Any) -> None:
    box = page.locator(".film input").bounding_box()
    page.mouse.click(box["x"] + box["width"] - 3, box["y"] + box["height"] / 2)
    assert seen(page) == years(page)[-1]
    places = [int(p) for p in page.locator(".film .frames li").evaluate_all("all => all.map(li => li.dataset.at)")]
    assert page.locator(".film input").input_value() == str(places[-1]), "the handle goes to the photograph's own day"
    middle = min(range(len(places)), key=lambda i: abs(places[i] - 500))
    page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    assert page.locator(".film input").input_value() == str(places[middle])


@pytest.mark.parametrize("width", [390, 1440])
def test_nothing_moves_when_another_year_comes(browser: Any, public: str, width: int) -> None:
    page = browser.new_page(viewport={"width": width, "height": 900})
    page.goto(public + TREE)
    slider = page.locator(".film input")
    slider.focus()
    where = "[...document.querySelectorAll('.film, .film .reel, .years-part')].map(e => [e.offsetTop, e.offsetHeight])"
    page.keyboard.press("Home")
    first = page.evaluate(where)
    for _ in years(page):
        page.keyboard.press("ArrowRight")
        assert page.evaluate(where) == first
    page.close()


def test_a_finger_can_take_the_handle_and_the_button(browser: Any, public: str) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    page = context.new_page()
    page.goto(public + TREE)
    page.locator(".film .reel").scroll_into_view_if_needed()
    line, button = page.locator(".film .line").bounding_box(), page.locator(".film button").bounding_box()
    for part in (page.locator(".film input").bounding_box(), button):
        assert part["height"] >= 44
    assert button["width"] >= 44
    last = int(page.locator(".film .frames li").last.get_attribute("data-at"))
    page.touchscreen.tap(line["x"] + line["width"] * last / 1000, line["y"] + 22)
    assert seen(page) == years(page)[-1]
    assert page.evaluate("document.documentElement.scrollWidth") == 390
    context.close()


def test_years_under_the_line_do_not_touch(browser: Any, public: str) -> None:
    for width in (360, 390, 768, 1440):
        page = browser.new_page(viewport={"width": width, "height": 900})
        page.goto(public + TREE)
        boxes = [box for box in (mark.bounding_box() for mark in page.locator(".film .ends span").all()) if box]
        assert len(boxes) >= 3, width
        for one, other in pairwise(boxes):
            assert one["x"] + one["width"] + 4 <= other["x"], width
        page.close()


def test_it_plays_to_the_end_and_stops_and_can_be_held(page: Any) -> None:
    page.clock.install()
    page.goto(page.url)
    button = page.locator(".film button")
    assert button.inner_text() == "Play"
    button.click()
    assert button.inner_text() == "Pause"
    page.clock.run_for(1000)
    page.wait_for_function("document.querySelectorAll('.film .frames li')[1].classList.contains('now')")
    button.click()
    assert button.inner_text() == "Play"
    page.clock.run_for(5000)
    assert page.locator(".film .frames li").nth(1).get_attribute("class").endswith("now"), "held"
    button.click()
    for at in range(2, len(years(page))):
        page.clock.run_for(1500)
        page.wait_for_function(f"document.querySelectorAll('.film .frames li')[{at}].classList.contains('now')")
    assert button.inner_text() == "Play"
    assert seen(page) == years(page)[-1]
    button.click()
    assert seen(page) == years(page)[0], "from the end it begins anew"


def test_only_what_is_looked_at_is_loaded(browser: Any, public: str) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 844}, device_scale_factor=3, is_mobile=True)
    page = context.new_page()
    page.goto(public + TREE, wait_until="networkidle")
    page.locator(".film").scroll_into_view_if_needed()
    page.wait_for_function("document.querySelector('.film .now img').naturalWidth > 0")
    page.wait_for_load_state("networkidle")
    loaded = page.locator(".film img").evaluate_all("all => all.map(i => i.complete && i.naturalWidth > 0)")
    assert loaded[0] is True
    assert loaded[1:].count(True) == 0
    context.close()


def test_nothing_fades_where_motion_is_not_wanted(browser: Any, public: str) -> None:
    for motion, fades in (("no-preference", "come"), ("reduce", "none")):
        context = browser.new_context(reduced_motion=motion)
        page = context.new_page()
        page.goto(public + TREE)
        assert page.evaluate(FADE) == fades
        assert page.locator(".film button").inner_text() == "Play", "and nothing plays by itself"
        context.close()


def test_without_a_script_it_is_a_row_of_pictures(browser: Any, public: str) -> None:
    context = browser.new_context(java_script_enabled=False, viewport={"width": 1440, "height": 900})
    page = context.new_page()
    page.goto(public + TREE)
    frames = page.locator(".film .frames li")
    boxes = [frame.bounding_box() for frame in frames.all()]
    assert len(boxes) >= 3
    assert all(box["width"] > 100 for box in boxes)
    assert boxes[0]["x"] + boxes[0]["width"] <= boxes[1]["x"]
    for one, other in pairwise(boxes):
        assert other["x"] < one["x"] or other["y"] == one["y"], "the pictures of a row stand level"
    assert not page.locator(".film .reel").is_visible(), "no slider that would do nothing"
    context.close()


def test_on_paper_it_is_a_row_of_pictures(page: Any) -> None:
    page.emulate_media(media="print")
    # All at one moment: pictures that still load above would move the later ones.
    boxes = page.locator(".film .frames li").evaluate_all("all => all.map(li => li.getBoundingClientRect().toJSON())")
    assert all(box["width"] > 20 for box in boxes)
    # One row: pictures may be of different heights, but none begins below the end of another.
    assert max(box["y"] for box in boxes) < min(box["y"] + box["height"] for box in boxes)
    under = "all => all.map(li => li.querySelector('.year').offsetTop >= li.querySelector('img').offsetHeight)"
    assert all(page.locator(".film .frames li").evaluate_all(under)), "each year stands under its picture"
    assert not page.locator(".film .reel").is_visible()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_it_is_accessible(browser: Any, public: str, scheme: str) -> None:
    context = browser.new_context(color_scheme=scheme)
    page = context.new_page()
    page.goto(public + TREE)
    assert faults(page) == []
    context.close()
