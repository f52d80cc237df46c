"""Dates in words. What each EDTF date means: Library of Congress, EDTF specification, 4 February 2019."""

from __future__ import annotations

from datetime import date
from gettext import NullTranslations

import pytest

from archive_tools.model.dates import DatePolicy, Span, WhenWritten
from archive_tools.model.findings import Bounds
from archive_tools.publish.date_words import DateWords
from archive_tools.read.edtf_text import read_date

WORDS = DateWords("en", NullTranslations())


def read(text: str) -> WhenWritten:
    return read_date(text, DatePolicy("north"))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("1953-04-14", "14 April 1953"),
        ("1953-04", "April 1953"),
        ("1953", "1953"),
        ("1953~", "about 1953"),
        ("1953?", "perhaps 1953"),
        ("1953%", "perhaps about 1953"),
        ("1948-02~", "about February 1948"),
        ("196X", "the 1960s"),
        ("19XX", "between 1900 and 1999"),
        ("1991-21", "spring 1991"),
        ("1991-24", "winter 1991–92"),
        ("2001-34", "second quarter of 2001"),
        ("1991-21~", "about spring 1991"),
        ("1991-30", "summer 1991–92, south"),
        ("../1951", "1951 or earlier"),
        ("/1951", "1951 or earlier"),
        ("1951/..", "1951 or later"),
        ("1951/1953", "between 1951 and 1953"),
        ("1951-03/1951-05", "between March 1951 and May 1951"),
        ("1951~/1953", "between about 1951 and 1953"),
        ("[1951,1953]", "1951 or 1953"),
        ("[1951,1953,1960]", "1951, 1953 or 1960"),
        ("1985-04-XX", "April 1985"),
        ("1985-XX-XX", "1985"),
    ],
)
def test_a_written_date_in_words(text: str, words: str) -> None:
    assert WORDS.when(read(text)) == words


@pytest.mark.parametrize(
    ("text", "year"),
    [
        ("1953-04-14", "1953"),
        ("1953~", "about 1953"),
        ("1953?", "1953?"),
        ("1951/1953", "1951–53"),
        ("1898/1902", "1898–1902"),
        ("../1951", "1951 or earlier"),
        ("196X", "the 1960s"),
    ],
)
def test_the_year_that_heads_a_column(text: str, year: str) -> None:
    assert WORDS.year(read(text)) == year


def test_what_lasts_has_two_ends() -> None:
    assert WORDS.until(read("1951"), read("1953-04")) == "1951 to April 1953"
    assert WORDS.until(None, read("1953")) == "until 1953"
    assert WORDS.until(read("1951"), None) == "1951"
    assert WORDS.when(None) == ""


def test_bounds_never_say_more_than_they_hold() -> None:
    assert WORDS.bounds(Bounds(date(1951, 1, 1), date(1953, 12, 31))) == "1951–1953"
    assert WORDS.bounds(Bounds(None, date(1973, 12, 31))) == "1973 or earlier"
    assert WORDS.bounds(Bounds(date(1960, 5, 1), None)) == "1960 or later"
    assert WORDS.bounds(Bounds()) == ""


def test_ends_inside_a_month_are_said_to_the_day() -> None:
    assert WORDS.span(Span(date(1951, 3, 4), date(1951, 5, 31))) == "between 4 March 1951 and May 1951"
    assert WORDS.span(Span(None, None)) == "not dated"


def test_other_languages_have_their_own_order() -> None:
    # Unicode CLDR, long date formats of de and ja.
    assert DateWords("de", NullTranslations()).when(read("1953-04-14")) == "14. April 1953"
    assert DateWords("ja", NullTranslations()).when(read("1953-04-14")) == "1953年4月14日"
    assert DateWords("en-US", NullTranslations()).when(read("1953-04-14")) == "April 14, 1953"
