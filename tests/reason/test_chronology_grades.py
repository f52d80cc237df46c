"""How far a statement can be relied on: each rule of the format's "Grades" by cases worked out by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from archive_tools.model.event import Measured
from archive_tools.model.grades import Grade
from archive_tools.reason.grades import graded
from tests.making import collection, event, photo, source, tree, when
from tests.reason.chronology_asking import DOCUMENTED, INFERRED, REPORTED, UNSOURCED, rings

UNGRADED = UNSOURCED


def grade_of(on: str | None, *sources, kind: str = "repotted", **keys) -> Grade:
    """The grade of an event on that date that cites these sources."""
    cited = tuple(keys.pop("sources", ())) or tuple(one.id for one in sources)
    written = event(kind, on, id="e", standing=UNGRADED, **keys)
    if cited:
        from archive_tools.model.event import Citation

        written = replace(written, sources=tuple(Citation(one) for one in cited))
    return graded(collection(tree(written), sources=sources)).trees["T1"].events[0].standing


def made(kind: str, on: str | None = None, **keys):
    return source(keys.pop("name", kind.replace(" ", "-")), "A source", kind=kind, when=when(on), **keys)


@pytest.mark.parametrize("kind", ["ledger", "diary", "bench card", "receipt", "permit", "tag", "photograph"])
def test_what_is_kept_at_the_time_is_documented_without_a_date(kind) -> None:
    assert grade_of("1953", made(kind)) is DOCUMENTED


@pytest.mark.parametrize("kind", ["letter", "film", "publication", "catalogue", "label", "recording"])
def test_other_kinds_without_a_date_are_reported(kind) -> None:
    assert grade_of("1953", made(kind)) is REPORTED


@pytest.mark.parametrize(
    ("event_date", "source_date", "grade"),
    [
        ("1953", "1953", DOCUMENTED),
        ("1953", "1949/1977", DOCUMENTED),
        ("1953-06-01", "1954-06-01", DOCUMENTED),
        ("1953-06-01", "1954-06-02", REPORTED),
        ("1953", "1954-12-31", DOCUMENTED),
        ("1953", "1955-01-01", REPORTED),
        ("1961-05-13", "1960-06", DOCUMENTED),
        ("1961-05-13", "1960-05-12", REPORTED),
        ("1953", "1990", REPORTED),
    ],
)
def test_a_dated_source_is_of_the_time_within_a_year(event_date, source_date, grade) -> None:
    assert grade_of(event_date, made("letter", source_date)) is grade
    assert grade_of(event_date, made("ledger", source_date)) is grade


def test_a_source_may_say_itself_whether_it_was_made_at_the_time() -> None:
    assert grade_of("1953", made("letter", "1990", at_the_time=True)) is DOCUMENTED
    assert grade_of("1953", made("ledger", at_the_time=False)) is REPORTED


@pytest.mark.parametrize("kind", ["interview", "recollection"])
def test_what_is_told_afterwards_is_always_reported(kind) -> None:
    assert grade_of("2016", made(kind, "2016", at_the_time=True)) is REPORTED


def test_the_firmest_of_several_sources_decides() -> None:
    assert grade_of("1953", made("interview", "2016"), made("ledger")) is DOCUMENTED


def test_what_cites_nothing_known_is_unsourced() -> None:
    assert grade_of("1953") is UNSOURCED
    assert grade_of("1953", sources=("nowhere",)) is UNSOURCED


def test_an_own_grade_lowers_and_never_raises() -> None:
    assert grade_of("1953", made("ledger"), grade=INFERRED) is INFERRED
    assert grade_of("1953", made("interview"), grade=DOCUMENTED) is REPORTED


def test_an_uncertain_date_is_at_most_reported() -> None:
    assert grade_of("1953?", made("ledger")) is REPORTED
    assert grade_of("1953%", made("ledger")) is REPORTED
    assert grade_of("1953~", made("ledger")) is DOCUMENTED


def test_a_survey_documents_what_it_counts_and_infers_the_rest() -> None:
    survey = made("survey", "2014")
    assert grade_of("2014-10-18", survey, kind="observed", rings=rings(38)) is DOCUMENTED
    girth = Measured("girth", 31, "cm", None)  # type: ignore[arg-type]
    assert grade_of("2014-10-18", survey, kind="observed", measured=(girth,)) is DOCUMENTED
    assert grade_of("2014-10-18", survey, kind="observed") is DOCUMENTED
    assert grade_of("1930", survey, kind="sown") is INFERRED
    assert grade_of("1990", survey, kind="damaged") is INFERRED


@pytest.mark.parametrize(
    ("on", "grade"), [("2019-05-03", DOCUMENTED), ("2019-05", UNSOURCED), ("2019", UNSOURCED), (None, UNSOURCED)]
)
def test_a_note_is_its_own_source_on_its_own_day(on, grade) -> None:
    assert grade_of(on, from_note=True) is grade


def test_a_note_that_cites_a_source_goes_by_that() -> None:
    assert grade_of("2019-05-03", made("interview"), from_note=True) is REPORTED


@pytest.mark.parametrize(
    ("dated_by", "grade"),
    [
        ("print", DOCUMENTED),
        ("lab stamp", DOCUMENTED),
        ("negative sleeve", DOCUMENTED),
        ("caption on back", DOCUMENTED),
        ("camera", DOCUMENTED),
        ("publication", DOCUMENTED),
        ("what it shows", INFERRED),
        ("estimate", INFERRED),
        ("scan", UNSOURCED),
        ("file name", UNSOURCED),
        (None, UNSOURCED),
    ],
)
def test_a_photograph_goes_by_what_its_date_rests_on(dated_by, grade) -> None:
    one = photo("a.jpg", when=when("1971"), dated_by=dated_by)
    assert graded(collection(tree(photos=(one,)))).trees["T1"].photos[0].standing is grade


def test_a_photograph_with_a_source_goes_by_the_source() -> None:
    from archive_tools.model.event import Citation

    one = photo("a.jpg", when=when("1971"), dated_by="estimate", sources=(Citation("album"),))
    album = source("album", "The album", kind="photograph", when=when("1965/1972"))
    assert graded(collection(tree(photos=(one,)), sources=(album,))).trees["T1"].photos[0].standing is DOCUMENTED


def test_nothing_else_is_changed() -> None:
    before = collection(tree(event("repotted", "1953", standing=UNGRADED)))
    assert replace(graded(before), trees=before.trees) == before
