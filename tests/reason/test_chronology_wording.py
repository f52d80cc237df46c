"""What is said of a tree: one story a test, each sentence written down by hand from the wording table first."""

from __future__ import annotations

import pytest

from tests.making import HOUSE, event, source
from tests.reason.chronology_asking import (
    ARRIVAL,
    CARE,
    CONTAINER,
    DOCUMENTED,
    INFERRED,
    ORIGIN,
    REPORTED,
    UNSOURCED,
    after,
    age,
    days,
    event_days,
    rings,
    said,
    shown,
    solved,
    stated,
)


@pytest.mark.parametrize(
    ("written", "standing", "sentence"),
    [
        ("1953", DOCUMENTED, "In training since 1953"),
        ("1953-04-12", DOCUMENTED, "In training since 1953"),
        ("1953/1955", DOCUMENTED, "In training since 1953-1955"),
        ("195X", DOCUMENTED, "In training since 1950-1959"),
        ("1953~", DOCUMENTED, "In training since about 1953"),
        ("195X~", DOCUMENTED, "In training since about 1950-1959"),
        ("../1951", DOCUMENTED, "In training since 1951 or earlier"),
        ("1953/..", DOCUMENTED, "In training since 1953 or later"),
        ("1953", REPORTED, "Said to have been in training since 1953"),
        ("1953~", REPORTED, "Said to have been in training since about 1953"),
        ("1950?", REPORTED, "Probably in training since 1950"),
        ("1950%", REPORTED, "Probably in training since about 1950"),
        ("1953~", INFERRED, "Thought to have been in training since about 1953"),
        ("1953", INFERRED, "Thought to have been in training since about 1953"),
        ("1953", UNSOURCED, None),
        (None, DOCUMENTED, None),
    ],
)
def test_training_begun(written, standing, sentence) -> None:
    assert said(solved(event("training begun", written, standing=standing))) == sentence


@pytest.mark.parametrize(
    ("kind", "written", "standing", "sentence"),
    [
        ("sown", "1951", DOCUMENTED, "From seed sown in 1951"),
        ("sown", "1951~", DOCUMENTED, "From seed sown about 1951"),
        ("struck", "1951", DOCUMENTED, "From a cutting struck in 1951"),
        ("struck", "1951/1953", DOCUMENTED, "From a cutting struck in 1951-1953"),
        ("struck", "../1951", DOCUMENTED, "From a cutting struck 1951 or earlier"),
        ("layer severed", "1986-09-20", DOCUMENTED, "From a layer severed in 1986"),
        ("struck", "1951", REPORTED, "Said to be from a cutting struck in 1951"),
        ("struck", "1951?", REPORTED, "Probably from a cutting struck in 1951"),
        ("raised from graft", "1951", INFERRED, "Thought to have been raised from a graft about 1951"),
        ("pruned", "1951", DOCUMENTED, "Growing since 1951 or earlier"),
    ],
)
def test_origin(kind, written, standing, sentence) -> None:
    assert said(solved(event(kind, written, standing=standing)), ORIGIN) == sentence


def test_documented_later_than_reported_is_said_to_go_back() -> None:
    found = solved(event("potted", "1953"), event("potted", "1950", standing=REPORTED))
    assert said(found) == "In training since 1953; said to go back to 1950"
    assert days(found, CARE, REPORTED) == ("1950-01-01", "1950-12-31")


def test_a_report_within_the_documented_range_does_not_go_back() -> None:
    found = solved(event("training begun", "1953/1955"), event("potted", "1954", standing=REPORTED))
    assert said(found) == "In training since 1953-1955"


def test_a_document_that_only_attests_and_a_reported_start() -> None:
    found = solved(event("potted", "1960", standing=REPORTED), photos=(shown("1971"),))
    assert said(found) == "In training since 1971 or earlier; said to go back to 1960"


def test_collected_trees_are_in_cultivation_before_they_are_in_training() -> None:
    found = solved(event("collected", "1961-05"), event("potted", "1963"))
    assert said(found) == "In cultivation since 1961"
    assert said(found, CONTAINER) == "In a container since 1963"
    assert said(solved(event("collected", "1961", standing=REPORTED))) == "Said to have been in cultivation since 1961"


def test_a_year_is_about_when_both_its_ends_follow_from_an_approximate_date() -> None:
    """Struck about 1951 (1949 to 1953) and potted two years later: 1951 to 1955, in the middle 1953."""
    found = solved(event("struck", "1951~", id="s"), event("potted", id="p", timing=(after("s", "P2Y", "P2Y"),)))
    assert days(found, CARE) == ("1951-01-01", "1955-12-31")
    assert said(found) == "In training since about 1953"


def test_a_range_with_one_approximate_end_from_elsewhere_is_said_as_a_range() -> None:
    """Begun 1950 to 1960, and a print of about 1955 (not after 1957) shows it trained."""
    found = solved(event("training begun", "1950/1960"), photos=(shown("1955~"),))
    assert said(found) == "In training since 1950-1957"


@pytest.mark.parametrize(
    ("events", "sentence"),
    [
        ([event("gift", "1996", to=HOUSE)], "Here since 1996"),
        ([event("gift", "1996", to=HOUSE, standing=REPORTED)], "Said to have been here since 1996"),
        ([event("loan", "1994", to=HOUSE)], "Here since 1994 on loan"),
        (
            [event("loan", "1994", to=HOUSE), event("gift", "1996", to=HOUSE)],
            "Here since 1994 on loan, given in 1996",
        ),
        (
            [event("loan", "1994", to=HOUSE), event("purchase", "1996", to=HOUSE)],
            "Here since 1994 on loan, bought in 1996",
        ),
        ([event("found in collection", "1988-05")], "Here since 1988 or earlier"),
        ([event("gift", "1996", to="somebody-else")], None),
    ],
)
def test_arrival(events, sentence) -> None:
    assert said(solved(*events), ARRIVAL) == sentence


@pytest.mark.parametrize(
    ("counted", "sentence"),
    [
        (rings(80), "At least 79 years old in 2014 by its 80 rings"),
        (rings(80, (0, 5)), "79-85 years old in 2014 by its 80 rings"),
        (rings(80, (3, 3), false=2), "At least 80 years old in 2014 by its 80 rings"),
    ],
)
def test_rings_counted_on_a_plant_of_unknown_beginning(counted, sentence) -> None:
    assert said(solved(event("observed", "2014-05-01", rings=counted)), ORIGIN) == sentence


def test_rings_that_are_only_reported_are_said_to_be_so() -> None:
    found = solved(event("collected", "1961", rings=rings(38), standing=REPORTED))
    assert said(found, ORIGIN) == ("Said to have been collected in 1961, then at least 37 years old by its 38 rings")


def test_an_open_beginning_is_clipped_at_as_of_as_an_event_but_gives_no_youngest_age() -> None:
    found = solved(event("training begun", "1953/..", id="begun"))
    assert event_days(found, "begun") == ("1953-01-01", "2026-11-25")
    assert age(found, CARE) == (None, 73)


def test_an_event_without_any_date_is_not_clipped() -> None:
    assert event_days(solved(event("pruned", id="p")), "p") == (None, None)


def test_other_languages_come_through_the_catalogue() -> None:
    from archive_tools.reason.chronology import solve
    from tests.making import AS_OF, collection, tree

    words = {"In training since %(years)s": "In Gestaltung seit %(years)s", "about %(years)s": "etwa %(years)s"}
    one = tree(event("training begun", "1953~"))
    found = solve(collection(one), AS_OF, today=AS_OF, translate=lambda text: words.get(text, text))
    assert said(found["T1"]) == "In Gestaltung seit etwa 1953"


def test_a_proof_names_source_and_page_and_a_source_that_is_not_public_only_as_such() -> None:
    from archive_tools.model.event import Citation

    ledger = source("ledger-b", "Ledger B")
    hidden = source("hidden", "a source that is not public", masked=True)
    found = solved(
        event("struck", "1951", sources=(Citation("hidden"),)),
        event("potted", "1953~", sources=(Citation("ledger-b", at="p. 41"),)),
        sources=(ledger, hidden),
    )
    assert [s.says for s in found.milestones[CARE].because_latest] == ["potted about 1953 (Ledger B, p. 41)"]
    assert [s.says for s in found.milestones[ORIGIN].because_latest] == ["struck 1951 (source not public)"]


def test_what_would_sharpen_names_the_report_that_a_document_would_confirm() -> None:
    interview = source("talk", "Interview with the keeper")
    found = solved(
        event("potted", "1950", standing=REPORTED, sources="talk"), photos=(shown("1971"),), sources=(interview,)
    )
    care = next(s for s in found.sharpen if s.milestone is CARE)
    assert (care.end, care.what, care.years) == (
        "latest",
        "a document for: potted 1950 (Interview with the keeper)",
        21,
    )


def test_what_would_sharpen_a_range_is_any_earlier_document() -> None:
    found = solved(event("training begun", "1950/1960"))
    care = next(s for s in found.sharpen if s.milestone is CARE)
    assert (care.what, care.years) == ("a dated document of its training before 1960", 10)


def test_stated_ages_are_reported_at_most() -> None:
    found = solved(event("published", "2013-06-15", states_age=stated(CARE, 60, 60)))
    assert days(found, CARE) == (None, "2013-06-15")
    assert days(found, CARE, REPORTED) == ("1952-06-16", "1953-06-15")
    assert said(found) == "In training since 2013 or earlier; said to go back to 1952-1953"
