"""What a curator is told to write instead: offered in the message only, and never itself an error."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archive_tools.model.dates import DatePolicy, DateProblem
from archive_tools.read.edtf_text import read_date

NORTH = DatePolicy("north")
UNSAID = DatePolicy("")


@pytest.mark.parametrize(
    ("text", "instead"),
    [
        ("circa 1951", "1951~"),
        ("c. 1951", "1951~"),
        ("ca 1951", "1951~"),
        ("about April 1951", "1951-04~"),
        ("1951 (?)", "1951?"),
        ("probably 1951", "1951?"),
        ("1951~?", "1951%"),
        ("1951??", "1951?"),
        ("1950s", "195X"),
        ("the 1950's", "195X"),
        ("early 1950s", "1950/1953"),
        ("1900s", "19XX"),
        ("1900s", "190X"),
        ("19th century", "18XX"),
        ("12.4.1951", "1951-04-12"),
        ("4/12/1951", "1951-12-04 (day first)"),
        ("4/12/1951", "1951-04-12 (month first)"),
        ("13/12/1951", "1951-12-13"),
        ("1951/04/12", "1951-04-12"),
        ("1951-4-12", "1951-04-12"),
        ("1951-4", "1951-04"),
        ("12 April 1951", "1951-04-12"),
        ("April 12th, 1951", "1951-04-12"),
        ("Sept. 1951", "1951-09"),
        ("1951\u5e744\u670812\u65e5", "1951-04-12"),
        ("spring 1951", "1951-21"),
        ("Winter of 1951", "1951-24"),
        ("1951 or 1953", "[1951,1953]"),
        ("1951, 1953", "[1951,1953]"),
        ("[1951, 1953]", "[1951,1953]"),
        ("circa 1951 or 1953", "[1951~,1953]"),
        ("before 1951", "../1950"),
        ("before 1951", "../1951"),
        ("by April 1951", "../1951-04"),
        ("after 1951", "1952/.."),
        ("since 1951", "1951/.."),
        ("1951 or later", "1951/.."),
        ("1951-1953", "1951/1953"),
        ("1951\u201353", "1951/1953"),
        ("1951-53", "1951/1953"),
        ("between 1951 and 1953", "1951/1953"),
        ("from 1951 to 1953", "1951/1953"),
        ("1951..1953", "1951/1953"),
        ("..1951", "../1951"),
        ("1951-06/08", "1951-06/1951-08"),
        ("199u", "199X"),
        ("1985-uu-uu", "1985-XX-XX"),
        ("19--", "19XX"),
        ("1951/open", "1951/.."),
        ("unknown/1951", "/1951"),
        ("(2011)-06-04~", "2011-06-04~"),
        ("[1951]", "1951"),
        ("[1951?]", "1951?"),
        ("{1951,1953}", "[1951,1953]"),
        ("{1951}", "1951"),
        (" 1951", "1951"),
        ("1951\n", "1951"),
        ("1951 / 1953", "1951/1953"),
        ("\uff11\uff19\uff15\uff11", "1951"),
        ("20050924T100000", "2005-09-24"),
        ("1985:04:12 23:20:30", "1985-04-12"),
        ("19510412", "1951-04-12"),
        ("1985-102", "1985-04-12"),
        ("1985-W15", "1985-04-08/1985-04-14"),
        ("2016-13-08", "2016-08-13"),
        ("1983-02-29", "1983-02"),
        ("1983-00-00", "1983"),
        ("1953/1951", "1951/1953"),
        ("2001-21-05", "2001-21"),
        ("1950S2", "19XX"),
        ("undated", "leave the key out"),
        ("P1Y", "`timing`"),
        ("../..", "no date at all"),
        ("XXXX", "no date at all"),
        ("Easter 1951", "a date such as"),
        ("1951 " * 60, "a date such as"),
    ],
)
def test_advice(text: str, instead: str) -> None:
    with pytest.raises(DateProblem) as problem:
        read_date(text, NORTH)
    assert problem.value.instead is not None
    assert instead in problem.value.instead


def test_advice_names_the_season_of_either_hemisphere() -> None:
    with pytest.raises(DateProblem) as problem:
        read_date("spring 1951", UNSAID)
    assert problem.value.instead == "1951-25 (northern) or 1951-29 (southern)"


@settings(max_examples=200, deadline=None)
@given(
    st.sampled_from(["c. {}", "{} or 1999", "before {}", "{}s", "spring {}", "{}-99", "{} ", "{}??", "1.2.{}"]),
    st.integers(1, 9998).map("{:04}".format),
)
def test_no_advice_leads_to_the_next_error(pattern: str, year: str) -> None:
    try:
        read_date(pattern.format(year), NORTH)
    except DateProblem as problem:
        assert problem.instead is not None
        if not problem.instead.startswith("a date such as"):
            offers = re.findall(r"(?:^| or )(\S*\d\S*)", problem.instead)
            assert offers
            for offer in offers:
                read_date(offer, NORTH)
