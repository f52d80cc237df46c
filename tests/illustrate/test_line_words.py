"""No words of a line of stewards ever meet, on random lines, and no letter is wider than it is taken to be."""

import re
import unicodedata
from datetime import date, timedelta

import pytest
from drawing_reader import (
    assert_clear,
    classes,
    each,
    extent,
    glyphs,
    has_letter,
    parse,
    rows,
    share,
)
from hypothesis import given, settings
from hypothesis import strategies as st
from illustrate_builders import AS_OF, steward, tree
from line_builders import during, line_of

from archive_tools.illustrate.svg_text import SIZES, width_of
from archive_tools.model.findings import Bounds, CustodyPeriod, Hand
from archive_tools.model.grades import Grade
from archive_tools.model.kinds import KINDS


def stands_alone(letter):
    return letter.isprintable() and not unicodedata.category(letter).startswith("M")


@pytest.mark.parametrize("css", ["who", "gap-word", ""])
def test_no_letter_of_the_themes_faces_is_wider_than_it_is_taken_to_be(css):
    ranges = (range(0x20, 0x180), range(0x370, 0x460), range(0x2010, 0x2040))
    letters = [chr(at) for one in ranges for at in one if stands_alone(chr(at)) and has_letter(css, chr(at))]
    assert len(letters) > 250
    wider = [one for one in letters if glyphs(one, css) > width_of(one, SIZES[css]) + 0.05]
    assert wider == []


# Random lives -------------------------------------------------------------------------------------------------------


LETTERS = st.characters(codec="utf-8", exclude_categories=("Cc", "Cs", "Cn", "Co"))


NAMES = st.one_of(
    st.sampled_from(
        ["Halvard Quist", "青沼すみれ", "Brannock Nursery", "MWMWMWMWMWMWMWMWMWMWMWMW", "林巧禾 " * 12, "i"]
    ),
    st.text(LETTERS, min_size=1, max_size=60).filter(lambda text: text.strip() != ""),
)


@st.composite
def vague_dates(draw, from_=date(1700, 1, 1)):
    day = draw(st.dates(from_, AS_OF))
    later = min(day + timedelta(days=draw(st.integers(0, 9000))), AS_OF)
    return draw(st.sampled_from([Bounds(day, day), Bounds(day, later), Bounds(None, later), Bounds(day), Bounds()]))


@st.composite
def periods(draw):
    ids = ["a", "b", "c", "house"]
    found = []
    for _ in range(draw(st.integers(0, 8))):
        holders = tuple(draw(st.lists(st.sampled_from(ids), max_size=2, unique=True)))
        end = draw(st.one_of(st.none(), vague_dates()))
        hows = [
            "gift",
            "bequest",
            "first hands",
            "not known how",
            "found in collection",
            "exchange",
            "estate",
            "family",
        ]
        how = draw(st.sampled_from(hows))
        owner = not holders or draw(st.booleans())
        how = how if owner else draw(st.sampled_from(["loan", "quarantine"]))
        grade = None if holders else draw(st.sampled_from(["unknown", "presumed", "bridged"]))
        found.append(CustodyPeriod(
            holders, draw(vague_dates()), end, how, owner=owner, gap_grade=grade, joint=len(holders) > 1,
            through=tuple(draw(st.lists(st.sampled_from(ids), max_size=1))),
            given_in_return=("T2",) if how == "exchange" else (), bridged_by=("seen",) if grade == "bridged" else (),
        ))  # fmt: skip
    return sorted(found, key=lambda one: one.start.earliest or one.start.latest or date.min)


@st.composite
def work(draw):
    kinds = st.sampled_from(sorted(KINDS))
    who = st.lists(st.sampled_from(["a", "b", "c"]), max_size=2, unique=True).map(tuple)
    return [
        Hand(draw(who), draw(kinds), draw(vague_dates()), "e", Grade.DOCUMENTED)
        for _ in range(draw(st.integers(0, 30)))
    ]


PAGES = {"wide": (520, 532, 600, 682, 912, 1160), "upright": (280, 300, 350, 535)}


"""Pixels across each drawing: pages of 600 to 1440 px, and of 320 to 599 px, with their margins."""


def assert_whole(svg):
    """The drawing is well formed, its ids are its own and found, its marks lie in it, its words are clear."""
    root = parse(svg)
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    named = {*root.get("aria-labelledby").split(), *(root.get("aria-describedby") or "").split()}
    assert set(re.findall(r"url\(#([^)]+)\)", svg)) | named <= set(ids)
    is_wide = "wide" in classes(root)
    top, left = (float(root.get("height")), 280.0)
    for bar in root.iter("rect"):
        if is_wide:
            assert 0 <= share(bar) <= 1
            assert 0 < share(bar, "width") <= 1.0001 - share(bar)
        else:
            assert 0 <= float(bar.get("y")) <= float(bar.get("y")) + float(bar.get("height")) <= top
            assert 0 <= float(bar.get("x")) <= float(bar.get("x")) + float(bar.get("width")) <= left
    for line in root.iter("line"):
        if is_wide:
            assert 0 <= share(line, "x1") <= share(line, "x2") <= 1
        assert 0 <= float(line.get("y1")) <= float(line.get("y2")) <= top
    for across in PAGES["wide" if is_wide else "upright"]:
        assert_clear(svg, across, is_wide and across < 682)


@settings(max_examples=30, deadline=None)
@given(periods(), work(), st.tuples(NAMES, NAMES, NAMES))
def test_no_words_of_a_custody_line_meet_or_leave_the_page(some_periods, some_work, some_names):
    stewards = [steward(id_, name) for id_, name in zip("abc", some_names, strict=True)]
    markup = line_of(some_periods, some_work, stewards, told=[("seen", during(1900))], trees=[tree("T2")])
    if markup:
        across, down = each(markup)
        assert_whole(across)
        assert_whole(down)
        ids = re.findall(r' id="([^"]+)"', markup)
        assert len(ids) == len(set(ids)), "the two drawings of a page share no id"
    else:
        assert not some_periods
        assert all(not hand.bounds.known for hand in some_work)


@settings(max_examples=20, deadline=None)
@given(periods())
def test_a_row_begins_no_earlier_and_ends_no_later_than_what_is_known(some_periods):
    markup = line_of(some_periods, (), [steward(id_, id_.upper()) for id_ in "abc"])
    for svg, down in ((one, "upright" in one[:40]) for one in each(markup)):
        height = float(parse(svg).get("height"))
        for row in (*rows(svg, "holder"), *rows(svg, "gap-row")):
            first, last = extent(row, down)
            assert 0 <= first <= last <= (height if down else 1.0001)
