"""Drawings as Chromium lays them out with the theme's own style sheet and type: real boxes, not estimated ones."""

import itertools
import re
from pathlib import Path

import pytest
from illustrate_builders import steward, tree, view_of
from line_builders import FERRY, HERE, WHO, WORK, during
from test_drawings import chronology

import archive_tools
from archive_tools.illustrate.custody_line import custody_line
from archive_tools.illustrate.svg_text import SIZES, SPACE, Run, width_of
from archive_tools.illustrate.years_of_collection import years_of_collection
from archive_tools.model.findings import Custody, CustodyPeriod, Hand
from archive_tools.model.grades import Grade

STYLE = Path(archive_tools.__file__).parent / "theme" / "assets" / "catalogue.css"

BUSY = (
    CustodyPeriod(("sumire",), during(None, 1968), during(1984), "first hands"),
    CustodyPeriod(("estate",), during(1984), during(1998, 2003), "purchase"),
    CustodyPeriod(("house",), during(1998, 2003), None, "bequest"),
)
BUSY_WORK = tuple(
    Hand(("sumire" if year < 1990 else "estate",), kind, during(year), f"e{year}", Grade.DOCUMENTED)
    for year, kind in (
        (1970, "training begun"), (1971, "wired"), (1972, "repotted"), (1982, "deadwood made"), (1990, "styled"),
        (2003, "repotted"), (2012, "planting angle changed"), (2019, "repotted"), (2024, "needles plucked"),
    )
)  # fmt: skip
STEWARDS = (
    *WHO,
    steward("sumire", "Sumire Aonuma 青沼すみれ"),
    steward("estate", "The Estate of Wilhelmina MacWhimsy & Sons, Ironmongers"),
)

BOXES = """() => [...document.querySelectorAll("svg")].flatMap(svg => {
  const frame = svg.getBoundingClientRect();
  return [...svg.querySelectorAll("text")].filter(t => getComputedStyle(t).display !== "none").map(t => {
    const box = t.getBoundingClientRect();
    return {words: t.textContent, svg: svg.getAttribute("aria-labelledby"), left: box.left - frame.left,
            right: box.right - frame.left, top: box.top, bottom: box.bottom, across: frame.width};
  });
})"""


def page_of(browser, tmp_path, body, width):
    file = tmp_path / "page.html"
    style = STYLE.as_uri()
    file.write_text(
        f'<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">'
        f'<title>drawings</title><link rel="stylesheet" href="{style}">{body}',
        encoding="utf-8",
    )
    page = browser.new_page(viewport={"width": width, "height": 900})
    page.goto(file.as_uri())
    page.evaluate("document.fonts.ready")
    return page


def drawings():
    custodies = {"T1": Custody("T1", FERRY, WORK, HERE), "T2": Custody("T2", BUSY, BUSY_WORK, HERE)}
    trees = [tree("T1", name="Halvard’s Maple"), tree("T2", name="Evening at Heron Reach 夕照鷺灣")]
    found = {
        "T1": chronology("T1", during(1951), during(1996)),
        "T2": chronology("T2", during(1968), during(1998, 2003)),
    }
    view = view_of(trees, STEWARDS, custodies, found)
    parts = [custody_line(view, "T1"), custody_line(view, "T2"), years_of_collection(view)]
    return "".join(
        f'<section class="part"><div class="head"><h2>Head</h2></div><div class="matter">{part}</div></section>'
        for part in parts
    )


@pytest.mark.slow
@pytest.mark.parametrize("width", [320, 360, 390, 767, 768, 960, 1024, 1440])
def test_no_words_meet_or_leave_the_page_in_a_browser(browser, tmp_path, width):
    page = page_of(browser, tmp_path, drawings(), width)
    boxes = page.evaluate(BOXES)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.close()
    assert len(boxes) > 25
    for box in boxes:
        assert -1.5 <= box["left"] <= box["right"] <= box["across"] + 1.5, box  # an italic leans a pixel out
    for one, other in itertools.combinations(boxes, 2):
        aside = one["right"] <= other["left"] or other["right"] <= one["left"]
        # A line's box is taller than its letters: half a line may touch, letters may not.
        above = one["bottom"] - 6 <= other["top"] or other["bottom"] - 6 <= one["top"]
        assert one["svg"] != other["svg"] or aside or above, (one, other)


@pytest.mark.slow
def test_words_are_never_wider_than_they_are_taken_to_be(browser, tmp_path):
    samples = [
        "Halvard Quist", "The Skerrow Terraces", "Wilhelmina MacWhimsy", "Illinois", "WMWMWM mmmm", "nobody known",
        "1951 to 1960–64", "loan 1994, given 1996", "needles plucked", "Sumire Aonuma 青沼すみれ", "林巧禾",
        "Éßłøå Žižkov", "“quoted” (1/2) [x]: a; b! c? d@e% f—g…", "ABCDEFGHIJKLMNOPQRSTUVWXYZ", "Αθήνα Ωμέγα",
        "abcdefghijklmnopqrstuvwxyz", "Жук Щит",
    ]  # fmt: skip
    rows = "".join(
        f'<text class="{css}" y="{30 * at}">{words.replace("&", "&amp;")}</text>'
        for css in SIZES
        for at, words in enumerate(samples)
    )
    page = page_of(browser, tmp_path, f'<svg class="drawing" height="900">{rows}</svg>', 1000)
    measured = page.evaluate('[...document.querySelectorAll("text")].map(t => t.getComputedTextLength())')
    page.close()
    for (css, words), real in zip(itertools.product(SIZES, samples), measured, strict=True):
        assert real > 0
        assert real <= width_of(words, SIZES[css]) + 0.1, (css, words, real)


def test_sizes_of_type_agree_with_the_style_sheet():
    style = STYLE.read_text(encoding="utf-8")

    def size(selector):
        return float(re.search(rf"{re.escape(selector)} \{{ font: (?:italic )?400 ([\d.]+)px/1", style)[1])

    assert size(".drawing text") == SIZES[""]
    assert size(".drawing .who") == SIZES["who"]
    assert size(".drawing .gap-word") == SIZES["gap-word"]
    assert Run("x", "who").width > Run("x").width
    assert SPACE >= 4 + 0.28 * 19
