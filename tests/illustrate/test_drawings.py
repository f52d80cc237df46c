"""The years of the collection as a drawing: what it says, and that no words ever meet."""

import re
from datetime import date, timedelta
from itertools import combinations

import pytest
from drawing_reader import all_of, boxes, parse, share
from hypothesis import given, settings
from hypothesis import strategies as st
from illustrate_builders import AS_OF, tree, view_of

from archive_tools.illustrate.years_of_collection import NAMED, years_of_collection
from archive_tools.model.findings import (
    Bounds,
    EventFinding,
    MilestoneFinding,
    TreeChronology,
)
from archive_tools.model.grades import Grade, Milestone

PAGES = ((280, True), (320, True), (681, True), (600, False), (682, False), (1000, False), (1160, False))
"""Pixels across a drawing, and whether minor words are hidden: pages of 320 to 1440 px, with their margins."""


def during(first: int | None, last: int | None = None) -> Bounds:
    """Some day from the beginning of one year to the end of another (or of the same)."""
    last = first if last is None else last
    return Bounds(None if first is None else date(first, 1, 1), None if last is None else date(last, 12, 31))


# Random lives -------------------------------------------------------------------------------------------------------

LETTERS = st.characters(codec="utf-8", exclude_categories=("Cc", "Cs", "Cn", "Co"))
NAMES = st.one_of(
    st.sampled_from(
        ["Halvard Quist", "青沼すみれ", "Brannock Nursery", "MWMWMWMWMWMWMWMWMWMWMWMW", "林巧禾 " * 12, "i"]
    ),
    st.text(LETTERS, min_size=1, max_size=60).filter(lambda text: text.strip() != ""),
)
DAYS = st.dates(date(1700, 1, 1), AS_OF)


@st.composite
def vague_dates(draw, from_=date(1700, 1, 1)):
    day = draw(st.dates(from_, AS_OF))
    later = min(day + timedelta(days=draw(st.integers(0, 9000))), AS_OF)
    return draw(st.sampled_from([Bounds(day, day), Bounds(day, later), Bounds(None, later), Bounds(day), Bounds()]))


def assert_whole(svg):
    """The drawing is well formed, its ids are its own and found, its marks lie in it, its words are clear."""
    root = parse(svg)
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    assert set(re.findall(r"url\(#([^)]+)\)", svg)) | set(root.get("aria-labelledby").split()) <= set(ids)
    for element in root.iter("rect"):
        assert 0 <= share(element) <= 1
        assert 0 < share(element, "width") <= 1.0001 - share(element)
    for element in root.iter("line"):
        assert 0 <= share(element, "x1") <= share(element, "x2") <= 1
    for across, phone in PAGES:
        shown = boxes(svg, across, phone)
        for box in shown:
            assert box.left >= -0.5, (across, box)
            assert box.right <= across + 0.5, (across, box)
            assert box.bottom <= float(root.get("height"))
        for one, other in combinations(shown, 2):
            assert not one.meets(other), (across, one, other)


def milestone(name, bounds):
    return MilestoneFinding(name, {Grade.DOCUMENTED: Bounds(), Grade.REPORTED: bounds}, {})


def chronology(accession, care, arrival=None, died=None):
    found = {Milestone.CARE: milestone(Milestone.CARE, care)}
    if arrival is not None:
        found[Milestone.ARRIVAL] = milestone(Milestone.ARRIVAL, arrival)
    events = (EventFinding("died", "died", died, None, Grade.DOCUMENTED),) if died else ()
    return TreeChronology(accession, AS_OF, False, found, events)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.tuples(NAMES, vague_dates(), st.none() | vague_dates(), st.none() | vague_dates()), min_size=1, max_size=40
    )
)
def test_no_words_of_the_collections_years_meet_or_leave_the_page(lives):
    trees = [tree(f"T{at}", name=life[0]) for at, life in enumerate(lives)]
    found = {f"T{at}": chronology(f"T{at}", *life[1:]) for at, life in enumerate(lives)}
    svg = years_of_collection(view_of(trees, chronologies=found))
    if svg:
        assert_whole(svg)
    else:
        assert all(not care.known and not (arrival and arrival.known) for _, care, arrival, _ in lives)


def test_the_years_of_the_collection_are_told_and_drawn():
    trees = [tree("T1", name="The Elder"), tree("T2", name="The Younger"), tree("T3", name="Not dated")]
    found = {
        "T1": chronology("T1", during(1951, 1955), during(1978), during(2012)),
        "T2": chronology("T2", during(1986), during(1986)),
    }
    svg = years_of_collection(view_of(trees, chronologies=found))
    assert parse(svg).find("title").text == "2 trees from first care to today"
    assert parse(svg).find("desc").text == (
        "First known in training: 1 in the 1950s, 1 in the 1980s. The first came here in 1978. Died: 1. "
        "Without a date that can be drawn: 1."
    )
    assert [share(one) for one in all_of(svg, "rect", "held")] == pytest.approx([6 / 80], abs=1e-3)
    assert [share(one) for one in all_of(svg, "rect", "here")] == pytest.approx([28 / 80, 36 / 80], abs=1e-3)
    assert [share(one, "x1") for one in all_of(svg, "line", "ended")] == pytest.approx([62 / 80], abs=1e-3)
    assert len([one for one in all_of(svg, "rect") if one.get("fill")]) == 1
    assert {"The Elder", "The Younger"} <= {box.words for box in boxes(svg, 320, phone=True)}


def test_many_trees_stand_close_and_without_names():
    count = NAMED + 1
    trees = [tree(f"T{at}", name=f"Tree number {at}") for at in range(count)]
    found = {f"T{at}": chronology(f"T{at}", during(1950 + at)) for at in range(count)}
    svg = years_of_collection(view_of(trees, chronologies=found))
    assert "Tree number" not in svg
    assert len(all_of(svg, "rect", "held")) == count


def test_a_tree_under_review_is_not_drawn():
    under_review = TreeChronology("T1", AS_OF, True, {Milestone.CARE: milestone(Milestone.CARE, during(1950))}, ())
    assert years_of_collection(view_of([tree("T1")], chronologies={"T1": under_review})) == ""
