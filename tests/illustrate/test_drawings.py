"""The line of stewards and the years of the collection: what they say, and that no words ever meet."""

import re
from datetime import date, timedelta
from itertools import combinations

import pytest
from drawing_reader import boxes, classes, parse
from hypothesis import given, settings
from hypothesis import strategies as st
from illustrate_builders import AS_OF, steward, tree, view_of

from archive_tools.illustrate.custody_line import custody_line
from archive_tools.illustrate.svg_frame import id_part
from archive_tools.illustrate.years_of_collection import NAMED, years_of_collection
from archive_tools.model.findings import (
    Bounds,
    Custody,
    CustodyPeriod,
    EventFinding,
    Hand,
    MilestoneFinding,
    TreeChronology,
    TreeState,
)
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.kinds import KINDS

HERE = TreeState(True, "in collection", True, None)
PAGES = ((280, True), (320, True), (681, True), (600, False), (682, False), (1000, False), (1160, False))
"""Pixels across a drawing, and whether minor words are hidden: pages of 320 to 1440 px, with their margins."""


def during(first: int | None, last: int | None = None) -> Bounds:
    """Some day from the beginning of one year to the end of another (or of the same)."""
    last = first if last is None else last
    return Bounds(None if first is None else date(first, 1, 1), None if last is None else date(last, 12, 31))


def line_of(periods, hands=(), stewards=(), name="The Tide Elm", accession="T1"):
    custody = Custody(accession, tuple(periods), tuple(hands), HERE)
    return custody_line(view_of([tree(accession, name=name)], stewards, {accession: custody}), accession)


FERRY = (
    CustodyPeriod(("anna",), during(1951), during(1960, 1964), "first hands"),
    CustodyPeriod(("tomas",), during(1960, 1964), during(1974), "gift"),
    CustodyPeriod((), during(1974), during(1981, 1983), "gap", gap_grade="unknown"),
    CustodyPeriod(("circle",), during(1981, 1983), during(1989), "not known how"),
    CustodyPeriod(("ines",), during(1989), during(1996), "gift"),
    CustodyPeriod(("house",), during(1994), during(1996), "loan", owner=False, lent_by=("ines",)),
    CustodyPeriod(("house",), during(1996), None, "gift"),
)
WHO = (
    steward("anna", "Anna Lindq <b>&"),
    steward("tomas", "Tomas Verr"),
    steward("circle", "The Harbour Circle"),
    steward("ines", "Inés Okor"),
)
WORK = (
    Hand(("anna",), "potted", during(1953), "a", Grade.DOCUMENTED),
    Hand(("ines",), "styled", during(1988), "b", Grade.DOCUMENTED),
    Hand((), "repotted", during(1990, 1994), "c", Grade.REPORTED),
)


def all_of(svg, name, css=None):
    return [element for element in parse(svg).iter(name) if css is None or css in classes(element)]


def share(element, attribute="x"):
    return float(element.get(attribute).rstrip("%")) / 100


def test_every_holder_has_a_row_with_their_years_and_a_loan_joins_what_followed_it():
    said = [box.words for box in boxes(line_of(FERRY, WORK, WHO), 1000, phone=False)]
    assert {"Anna Lindq <b>&", "1951 to 1960–64"} <= set(said)  # two lines: both would not fit a phone side by side
    assert "Tomas Verr 1960–64 to 1974" in said
    assert "nobody known" in said
    assert {"The Harbour Circle", "1981–83 to 1989"} <= set(said)
    assert sum("loan 1994, given 1996" in words for words in said) == 1
    assert sum("Terraces" in words for words in said) == 1


def test_bars_stand_at_their_years():
    svg = line_of(FERRY, (), WHO)  # the axis runs from 1950 to 2030
    held, here, loan, gap = (all_of(svg, kind, css) for kind, css in
        (("rect", "held"), ("rect", "here"), ("rect", "loan"), ("line", "gap")))  # fmt: skip
    assert [share(one) for one in held] == pytest.approx([1 / 80, 15 / 80, 34 / 80, 39 / 80], abs=1e-3)
    assert share(held[0]) + share(held[0], "width") == pytest.approx(10 / 80, abs=1e-3)
    assert share(loan[0]) == pytest.approx(44 / 80, abs=1e-3)
    assert share(here[0]) == pytest.approx(46 / 80, abs=1e-3)
    assert share(here[0]) + share(here[0], "width") == pytest.approx((AS_OF.year + 0.9 - 1950) / 80, abs=1e-3)
    assert 24 / 80 < share(gap[0], "x1") < share(gap[0], "x2") < 31 / 80


def test_vague_dates_are_drawn_soft_and_certain_ones_are_not():
    svg = line_of(FERRY, (), WHO)
    soft = [(one.get("fill"), share(one), share(one, "width")) for one in all_of(svg, "rect") if one.get("fill")]
    assert [x for _, x, _ in soft] == pytest.approx([10 / 80, 10 / 80, 31 / 80], abs=2e-3)
    assert [width for _, _, width in soft] == pytest.approx([5 / 80, 5 / 80, 3 / 80], abs=2e-3)
    assert [fill.rsplit("-", 1)[1] for fill, _, _ in soft] == ["end)", "start)", "start)"]
    certain = line_of((CustodyPeriod(("anna",), during(1951), during(1960), "gift"),), (), WHO)
    assert [one for one in all_of(certain, "rect") if one.get("fill")] == []


def test_the_description_tells_every_holder_gap_and_hand_in_a_sentence():
    told = parse(line_of(FERRY, WORK, WHO)).find("desc").text
    assert told == (
        "Anna Lindq <b>&, 1951 to 1960–64; Tomas Verr, 1960–64 to 1974; nobody known, 1974 to 1981–83; "
        "The Harbour Circle, 1981–83 to 1989; Inés Okor, 1989 to 1996; The Terraces, on loan 1994 to 1996; "
        "The Terraces, given 1996. Hands: potted 1953, Anna Lindq <b>&; styled 1988, Inés Okor; repotted 1990–94."
    )
    assert parse(line_of(FERRY, WORK, WHO)).find("title").text == "Who held The Tide Elm, 1951 to today"


def test_a_steward_the_edition_does_not_know_is_never_named_by_id():
    svg = line_of((CustodyPeriod(("secret-donor",), during(1950), None, "first hands"),))
    assert "secret-donor" not in svg
    assert "name withheld" in svg


def test_names_cannot_break_out_of_the_drawing():
    svg = line_of(FERRY, WORK, WHO, name='<script>alert("1")</script>')
    assert "<script" not in svg
    assert "<b>" not in svg
    assert 'alert("1")' in parse(svg).find("title").text


def test_the_marks_of_hands_stand_at_their_years_with_a_vague_one_spread():
    svg = line_of(FERRY, WORK, WHO)
    marks = [share(one, "x1") for one in all_of(svg, "line", "hand")]
    assert marks == pytest.approx([3 / 80, 38 / 80, 42.5 / 80], abs=2e-3)
    assert [box.words for box in boxes(svg, 280, phone=True)].count("styled") == 1
    assert "Inés Okor" not in [box.words for box in boxes(svg, 280, phone=True)]
    assert "Inés Okor" in [box.words for box in boxes(svg, 1000, phone=False)]


def test_nothing_known_draws_nothing():
    assert line_of(()) == ""
    assert custody_line(view_of([tree("T1")]), "T1") == ""
    assert years_of_collection(view_of([tree("T1")])) == ""


def test_ids_differ_between_trees_whose_numbers_look_alike():
    assert len({id_part(number) for number in ("S1979.2", "S1979-2", "S1979 2", "S19792", "S1979/2")}) == 5
    assert all(re.fullmatch(r"[A-Za-z0-9-]+", id_part(number)) for number in ("盆.1", 'x"><b', "é"))


def test_a_line_that_ended_says_when():
    svg = line_of((CustodyPeriod(("anna",), during(1950), during(1960), "first hands"),), (), WHO)
    assert parse(svg).find("title").text == "Who held The Tide Elm, 1950 to 1960"


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


@st.composite
def periods(draw):
    ids = ["a", "b", "c", "house"]
    found = []
    for _ in range(draw(st.integers(0, 8))):
        holders = tuple(draw(st.lists(st.sampled_from(ids), max_size=2, unique=True)))
        end = draw(st.one_of(st.none(), vague_dates()))
        how = draw(st.sampled_from(["gift", "bequest", "first hands", "not known how", "found in collection"]))
        owner = not holders or draw(st.booleans())
        grade = None if holders else draw(st.sampled_from(["unknown", "presumed", "bridged"]))
        found.append(CustodyPeriod(holders, draw(vague_dates()), end, how, owner=owner, gap_grade=grade))
    return sorted(found, key=lambda one: one.start.earliest or one.start.latest or date.min)


@st.composite
def work(draw):
    kinds = st.sampled_from(sorted(KINDS))
    who = st.lists(st.sampled_from(["a", "b", "c"]), max_size=2, unique=True).map(tuple)
    return [
        Hand(draw(who), draw(kinds), draw(vague_dates()), "e", Grade.DOCUMENTED)
        for _ in range(draw(st.integers(0, 30)))
    ]


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


@settings(max_examples=150, deadline=None)
@given(periods(), work(), st.tuples(NAMES, NAMES, NAMES))
def test_no_words_of_a_custody_line_meet_or_leave_the_page(some_periods, some_work, some_names):
    stewards = [steward(id_, name) for id_, name in zip("abc", some_names, strict=True)]
    svg = line_of(some_periods, some_work, stewards)
    if svg:
        assert_whole(svg)
    else:
        assert not some_periods
        assert all(not hand.bounds.known for hand in some_work)


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


def test_a_loan_that_ended_in_the_year_of_the_gift_is_one_row_with_it():
    loan = CustodyPeriod(("house",), during(1994), during(1996), "loan", owner=False)
    gift = CustodyPeriod(("house",), Bounds(date(1996, 6, 2), date(1996, 6, 2)), None, "gift")
    later = CustodyPeriod(("house",), during(2001), None, "gift")
    assert "loan 1994, given 1996" in line_of((loan, gift))
    assert "on loan 1994 to 1996" in line_of((loan, later)).split("</desc>")[1]
