"""The band of evidence: what it says, and that its words keep inside the page and off each other."""

from __future__ import annotations

import re
from datetime import date
from xml.etree import ElementTree

import pytest

from archive_tools.editions import select, view_of, with_effective_visibility
from archive_tools.illustrate.evidence_band import evidence_band
from archive_tools.model.grades import Edition, Grade, Visibility
from archive_tools.reason import find
from tests.making import AS_OF, collection, event, tree


def band(*events, name="T1") -> str:
    opened = dict.fromkeys(("trees", "events"), Visibility.PUBLIC)
    whole = with_effective_visibility(collection(tree(*events), defaults=opened), AS_OF)
    selected, _ = select(whole, Edition.PUBLIC)
    return evidence_band(view_of(selected, find(selected, AS_OF, AS_OF), Edition.PUBLIC), name)


def worked(*years: int):
    return [event("repotted", str(year)) for year in years]


def words_of(svg: str) -> str:
    return " ".join("".join(text.itertext()) for text in ElementTree.fromstring(svg).iter("text"))


def test_unbroken_care_is_one_solid_band() -> None:
    svg = band(event("potted", "1990"), *worked(1995, 2000, 2005, 2010, 2015, 2020, 2025))
    assert svg.count('class="held"') == 1
    assert 'class="gap"' not in svg
    assert "without a long silence since 1990" in svg
    assert "no evidence" not in svg


def test_a_long_silence_breaks_it_and_is_named() -> None:
    """Worked 1963 to 1971, then nothing until 1994: 23 years, more than the ten that count as unbroken."""
    svg = band(event("potted", "1963"), *worked(1967, 1971, 1994, 2000, 2008, 2016, 2024))
    assert svg.count('class="held"') == 2
    assert svg.count('class="gap"') == 1
    assert "no evidence of care 1971 to 1994" in words_of(svg)
    assert "without a long silence since 1994" in svg


def test_a_change_of_hands_in_a_silence_has_no_mark() -> None:
    """A gift attests no care, so the silence stays; its mark would say otherwise."""
    quiet = [event("potted", "1963"), event("gift", "1980", from_="a", to="b"), *worked(1994, 2000, 2008, 2016, 2024)]
    with_gift, without = band(*quiet), band(quiet[0], *quiet[2:])
    assert with_gift.count('class="hand"') == without.count('class="hand"')


def test_a_vague_beginning_is_soft_and_a_known_one_is_not() -> None:
    assert 'fill="url(#care-T1-soft-start)"' in band(event("potted", "1951/1963"), *worked(1970, 1980))
    assert 'fill="url(#care-T1-soft-start)"' not in band(event("potted", "1951"), *worked(1960, 1970))


def test_nothing_is_drawn_where_nothing_is_known() -> None:
    assert band() == ""
    assert band(event("observed", "1990")) == ""


@pytest.mark.parametrize("grade", [Grade.REPORTED, Grade.UNSOURCED])
def test_what_is_only_said_is_drawn_too(grade: Grade) -> None:
    assert 'class="held"' in band(event("potted", "1990", standing=grade))


def test_it_is_well_formed_has_a_title_and_a_description_and_no_place_outside() -> None:
    svg = band(event("potted", "1963"), *worked(1967, 1994, 2008, 2024), event("died", "2025-03"))
    root = ElementTree.fromstring(svg)
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    assert root.get("aria-labelledby") == "care-T1-title care-T1-desc"
    for place in re.findall(r'x[12]?="([\d.]+)%"', svg):
        assert 0 <= float(place) <= 100
    assert date(2025, 3, 1) < AS_OF
