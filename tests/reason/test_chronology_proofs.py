"""What proofs say: each statement in words, written down by hand first, and which statements decide an end."""

from __future__ import annotations

import pytest

from archive_tools.model.event import Citation, EventRef
from archive_tools.model.tree import Member
from archive_tools.reason.chronology import solve
from tests.making import AS_OF, HOUSE, collection, event, photo, source, steward, tree, when
from tests.reason.chronology_asking import (
    ARRIVAL,
    CARE,
    CONTAINER,
    DOCUMENTED,
    HERE,
    ORIGIN,
    REPORTED,
    UNSOURCED,
    after,
    before,
    clashes,
    days,
    rings,
    shown,
    solved,
    stated,
)


def because(found, milestone, end="latest") -> list[str]:
    one = found.milestones[milestone]
    return [s.says for s in (one.because_latest if end == "latest" else one.because_earliest)]


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ("1953", "potted 1953"),
        ("1953-04-12", "potted 1953-04-12"),
        ("1953~", "potted about 1953"),
        ("../1953", "potted not after 1953"),
        ("1951/1953", "potted 1951 to 1953"),
        ("1951/1953~", "potted about 1951 to 1953"),
    ],
)
def test_dates_are_said_in_words(written, says) -> None:
    assert because(solved(event("potted", written)), CARE) == [says]


def test_an_uncertain_date_is_said_to_be_so() -> None:
    assert because(solved(event("potted", "1953?", standing=REPORTED)), CARE) == ["potted perhaps 1953"]
    assert because(solved(event("potted", "1953/..")), CARE, "earliest") == ["potted not before 1953"]


def test_a_chain_of_lapses_is_told_in_the_order_of_the_argument() -> None:
    potted = event("potted", id="p", timing=(after("s", "P2Y", "P3Y"),))
    found = solved(event("struck", "1951-04-01", id="s"), potted)
    timing = "potted at least 2 years, at most 3 years after s"
    assert because(found, CARE) == ["struck 1951-04-01", timing]
    assert because(found, CARE, "earliest") == ["struck 1951-04-01", timing]


@pytest.mark.parametrize(
    ("counted", "says"),
    [
        (rings(38), "38 rings counted (observed 2000)"),
        (rings(38, (0, 0)), "38 rings counted, none missed (observed 2000)"),
        (rings(38, (3, 3)), "38 rings counted, 3 missed (observed 2000)"),
        (rings(38, (0, 5), false=2), "38 rings counted, 0-5 missed, 2 false (observed 2000)"),
        (rings(38, (2, None)), "38 rings counted, 2+ missed (observed 2000)"),
    ],
)
def test_rings_say_how_they_were_counted(counted, says) -> None:
    assert because(solved(event("observed", "2000", rings=counted)), ORIGIN) == ["observed 2000", says]


def test_rings_up_to_another_event_name_it() -> None:
    found = solved(event("collected", "1961", id="c"), event("observed", "2014", rings=rings(38, up_to="c")))
    assert because(found, ORIGIN) == ["collected 1961", "38 rings counted (c)"]


@pytest.mark.parametrize(
    ("age", "says"),
    [
        (stated(CARE, 60, 60, "2002"), "published: “60 years” of care, 2002"),
        (stated(CARE, 60, 60, "2002", about=True), "published: “about 60 years” of care, 2002"),
        (stated(CARE, 60, None, "2002"), "published: “at least 60 years” of care, 2002"),
        (stated(CARE, 55, 60, "2002"), "published: “55 to 60 years” of care, 2002"),
    ],
)
def test_a_stated_age_is_quoted_with_its_day(age, says) -> None:
    found = solved(event("published", "2003", states_age=age))
    assert [s.says for s in found.contradictions] == []
    told = found.sharpen[0].what
    assert told == f"a document for: {says}"


def test_a_stewards_life_is_said_by_name() -> None:
    edda = steward("edda", "Edda", born=when("1911~"), died=when("1978-02"))
    found = solved(event("potted", id="p", by="edda"), stewards=(edda,))
    assert because(found, CARE) == ["Edda died 1978-02"]
    assert because(found, CARE, "earliest") == ["Edda was born about 1911"]


def test_a_mother_plant_is_named() -> None:
    daughter = tree(event("struck", "1986", from_tree=EventRef("T1", None)), accession="T2")
    found = solve(collection(tree(event("potted", "2001")), daughter), AS_OF, today=AS_OF)
    assert because(found["T1"], ORIGIN) == ["struck 1986", "struck 1986 from T1"]


def test_a_photograph_says_what_it_shows() -> None:
    album = source("album", "Red album", kind="photograph")
    print_ = shown("1971", "container", sources=(Citation("album"),))
    cited = solved(photos=(print_,), sources=(album,))
    assert because(cited, CONTAINER) == ["photograph a, in a container, 1971 (Red album)"]
    plain = solved(photos=(photo("b.jpg", when=when("1971"), standing=DOCUMENTED),))
    assert because(plain, ORIGIN) == ["photograph b 1971"]


def test_the_firmest_layer_that_knows_an_end_gives_its_proof() -> None:
    """The latest day is documented, the earliest only reported: each end is proved where it is first known."""
    found = solved(event("potted", "1960", standing=REPORTED), photos=(shown("1971"),))
    assert because(found, CARE) == ["photograph a, trained, 1971"]
    assert because(found, CARE, "earliest") == ["potted 1960"]


def test_of_two_dates_that_say_the_same_the_firmest_and_narrowest_decides_wherever_it_is_written() -> None:
    year, day = event("potted", "1953", id="a"), event("potted", "1953-01-01/1953-12-31", id="b")
    assert because(solved(year, day), CARE) == because(solved(day, year), CARE) == ["potted 1953"]


def test_the_end_of_what_lasted_is_said_as_such() -> None:
    found = solved(event("wired", until="1992-03", id="w"))
    assert because(found, CARE) == ["wired until 1992-03"]


def test_the_stay_is_proved_by_the_departure_before_it() -> None:
    found = solved(
        event("gift", "1980", to=HOUSE), event("sold", "1990-06-01", from_=HOUSE), event("purchase", "1990", to=HOUSE)
    )
    assert days(found, ARRIVAL) == ("1990-06-01", "1990-12-31")
    assert because(found, ARRIVAL, "earliest") == ["sold 1990-06-01"]
    assert because(found, ARRIVAL) == ["purchase 1990"]


# Members of plantings -----------------------------------------------------------------------------------------------


def planted(*events, members=(), beside=()):
    return solve(collection(tree(*events, kind="planting", members=members), *beside), AS_OF, today=AS_OF)


def test_a_member_listed_from_a_year_grew_by_then_but_nobody_vouches_for_it() -> None:
    member = Member("a", HERE, "A", from_=when("1972-03"))
    found = planted(
        event("assembled", "1969"), members=(member,), beside=(tree(event("pruned", "1990"), accession="A"),)
    )
    assert days(found["A"], ORIGIN, UNSOURCED) == (None, "1972-03-31")
    assert days(found["A"], ORIGIN, REPORTED) == (None, "1990-12-31")


def test_a_dead_tree_is_not_planted_but_is_taken_out() -> None:
    dead = tree(event("sown", "1950"), event("died", "1960"), accession="A")
    refs = (EventRef("A", None),)
    added = planted(event("member added", "1970", trees=refs), beside=(dead,))
    assert clashes(added["A"]) == [({"died 1960", "member added 1970", "member added 1970 with A"}, None)]
    removed = planted(event("member removed", "1970", trees=refs), beside=(dead,))
    assert not removed["A"].under_review


def test_a_daughter_of_a_tree_that_died_is_named_with_it() -> None:
    mother = tree(event("died", "1960", standing=REPORTED))
    daughter = tree(event("struck", "1970", from_tree=EventRef("T1", None)), accession="T2")
    found = solve(collection(mother, daughter), AS_OF, today=AS_OF)
    assert clashes(found["T2"])[0][0] == {"died 1960", "struck 1970", "struck 1970 from T1"}
    assert not found["T2"].under_review


# What cannot be used ------------------------------------------------------------------------------------------------


def test_what_refers_to_nothing_that_is_shown_bounds_nothing() -> None:
    found = solved(
        event("potted", "1950/1960", id="p", timing=(after("nowhere", "P1Y"), before("p"), after("T9#e", "P1Y"))),
        event("observed", "2000", rings=rings(90, up_to="nowhere")),
        event("struck", id="s", from_tree=EventRef("T9", None)),
    )
    assert days(found, CARE) == ("1950-01-01", "1960-12-31")
    assert days(found, ORIGIN) == (None, "1960-12-31")


def test_rings_and_ages_of_a_planting_have_no_origin_to_bound() -> None:
    found = planted(
        event("assembled", "1969"), event("observed", "2000", rings=rings(90), states_age=stated(ORIGIN, 90, None))
    )
    assert found["T1"].contradictions == ()
    assert days(found["T1"], ORIGIN, UNSOURCED) == (None, None)


def test_an_age_of_a_day_that_is_not_known_bounds_nothing() -> None:
    found = solved(event("observed", id="o", states_age=stated(CARE, 60, None)))
    assert days(found, CARE, UNSOURCED) == (None, None)


def test_contradicting_documents_about_a_stay_still_leave_the_stay_to_others() -> None:
    """The dates as written put the sale before the purchase although a death and a pruning contradict each other."""
    one = tree(
        event("died", "1980", id="d"),
        event("pruned", "1990"),
        event("sold", "1960", from_=HOUSE),
        event("purchase", "1970", to=HOUSE),
    )
    two = tree(
        event("sold", "1995", from_=HOUSE),
        event("purchase", "2000", to=HOUSE, timing=(after("T1#d", "P1Y"),)),
        accession="T2",
    )
    found = solve(collection(one, two), AS_OF, today=AS_OF)
    assert found["T1"].under_review
    assert days(found["T2"], ARRIVAL) == ("2000-01-01", "2000-12-31")
