"""What stands behind a spoken sentence: one tree, and sentences judged by hand beforehand."""

from __future__ import annotations

import pytest

from archive_tools.model.told import Behind, Standing, ToldSentence
from archive_tools.reason import find, told_sentences
from tests.making import AS_OF, collection, event, photo, steward, tree, when

ELM = tree(
    event("struck", "1951", by="edda"),
    event("potted", "1953-04-14", by="edda"),
    event("styled", "1991-10", by="tobiah", with_="edda"),
    event("gift", "1985-06-02", from_="edda", to="the-house"),
    event("pruned", "1960/1990", by="edda"),
    photos=(photo("1962_front_1.jpg", when=when("1962"), photographer="pim"),),
)
PEOPLE = (
    steward("edda", "Edda Lund", kind="person"),
    steward("tobiah", "Tobiah Renn", kind="person"),
    steward("pim", "Pim Lund", kind="person"),
    steward("the-house", "The House", kind="institution"),
)


def told(text: str) -> list[ToldSentence]:
    whole = collection(ELM, stewards=PEOPLE)
    return list(told_sentences(whole, find(whole, AS_OF, AS_OF), [(text, ("T1",))], AS_OF))


@pytest.mark.parametrize(
    ("sentence", "standing", "behind"),
    [
        ("Tobiah Renn bent it in October 1991.", Standing.RECORDED, ["styled-1991-10"]),
        ("In 1991 nobody knew how it would end.", Standing.RECORDED, ["styled-1991-10"]),
        ("Renn never came back.", Standing.RECORDED, ["styled-1991-10"]),
        ("The picture of 1962 is by her brother.", Standing.RECORDED, ["1962_front_1.jpg"]),
        ("Edda Lund put it into a fish box in 1953.", Standing.RECORDED, ["potted-1953-04-14"]),
        ("In 1975 she was away.", Standing.UNPROVED, []),  # "pruned, some day in thirty years" is no record of 1975
        ("Tobiah Renn came in 1999.", Standing.UNPROVED, ["styled-1991-10"]),  # he did come, but in another year
        ("Seventeen men carried it.", Standing.UNPROVED, []),
        ("Look at the moss.", Standing.PLAIN, []),
        ("Lund is a common name here.", Standing.PLAIN, []),  # two people have it
    ],
)
def test_what_stands_behind(sentence: str, standing: Standing, behind: list[str]):
    (found,) = told(sentence)
    assert (found.standing, [one.record for one in found.behind]) == (standing, behind)


def test_a_claim_of_years_is_compared_with_the_evidence():
    one, two = told("It has been in training since 1953. It is two hundred years old.")
    assert (one.standing, two.standing) == (Standing.YEARS, Standing.YEARS)
    assert one.claims[0].verdict.value == "supported"
    assert two.claims[0].verdict.value != "supported"


def test_every_sentence_is_told_once_and_in_order():
    text = "Look at the moss. Renn bent it. Then he left."
    found = told(text)
    assert [one.text for one in found] == ["Look at the moss.", "Renn bent it.", "Then he left."]
    assert found[1].behind == (Behind("T1", "styled-1991-10"),)
