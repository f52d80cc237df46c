"""Labels before they are printed. Limits: Smithsonian Guidelines for Accessible Exhibition Design (25 words a sentence,
75 to 100 words a label).
"""

from __future__ import annotations

import pytest

from archive_tools.check.label_texts import check_label_texts
from archive_tools.check.trade_words import glossary_terms, unexplained
from archive_tools.model.collection import HandWrittenPage
from archive_tools.model.label import LabelWords, OtherLanguage
from archive_tools.model.places_in_files import Mark, Where
from archive_tools.model.problems import Problem, Severity
from archive_tools.reason.reading_level import reading_level
from tests.making import collection

MARK = Mark("trees/T1-a/tree.yml", 7, 3)


def told(text: str, most: int = 75, explained: tuple[str, ...] = ()) -> dict[str, Problem]:
    words = LabelWords("T1", "en", "The Old Elm", text=text, marks={"text": MARK})
    level = reading_level(text)
    problems = check_label_texts([words], {"T1": level} if level else {}, most_words=most, explained=explained)
    assert all(one.severity is Severity.WARNING and one.mark == MARK and one.instead for one in problems)
    return {one.rule: one for one in problems}


def sentence(words: int) -> str:
    return " ".join(["Old", *["elm"] * (words - 2), "here."])


def test_a_plain_label_is_left_alone() -> None:
    assert told("Halvard Quist built boats. He grew this tree in a box that herring came in.") == {}


@pytest.mark.parametrize(("words", "is_told"), [(25, False), (26, True)])
def test_a_sentence_has_at_most_25_words(words: int, is_told: bool) -> None:
    assert ("label-sentence" in told(sentence(words))) == is_told


@pytest.mark.parametrize(("words", "is_told"), [(20, False), (21, True)])
def test_a_label_has_no_more_words_than_the_house_allows(words: int, is_told: bool) -> None:
    found = told(sentence(words), most=20)
    assert ("label-long" in found) == is_told
    if is_told:
        assert "1 more than" in found["label-long"].what


def test_a_hard_text_is_told_with_the_sentence_that_costs_most() -> None:
    hard = "Considerable horticultural sophistication characterises this extraordinary representative."
    found = told(f"It is old. {hard}")
    assert hard in found["label-hard"].what


def test_a_word_of_the_trade_is_told_unless_it_is_explained() -> None:
    assert "nebari" in told("Look at the nebari.")["label-jargon"].what
    assert told("Look at the nebari (the roots at the surface).") == {}
    assert told("Look at the nebari.", explained=("Nebari",)) == {}


def test_part_of_a_word_is_no_word_of_the_trade() -> None:
    assert unexplained("Janjinski kept a diary; mamean things", ()) == ()
    assert [word for word, _ in unexplained("Two jins and a Shari", ())] == ["jins", "Shari"]


def test_a_label_without_a_text_is_told() -> None:
    assert set(told("")) == {"label-empty"}


def test_the_glossary_is_read_from_its_definition_lists() -> None:
    body = "# Words\n\nCascade\n:   <span>懸崖</span> *kengai*. It falls; *never* up.\n\nText\n\nBroom\n:   A fan.\n"
    page = HandWrittenPage("glossary.md", "Words", body, Where("pages/glossary.md"))
    other = HandWrittenPage("visiting.md", "Visiting", "Jin\n: no\n", Where("pages/visiting.md"))
    assert glossary_terms(collection(pages=(page, other))) == ("Cascade", "kengai", "Broom")


def test_a_language_that_the_label_does_not_have_is_told() -> None:
    english = LabelWords("T1", "ja", "Elm", text="An elm.", text_language="en", marks={"text": MARK})
    both = LabelWords("T1", "en", "Elm", text="An elm.", text_language="en", other=OtherLanguage("ja", "楡"))
    for label in (english, both):
        (problem,) = check_label_texts([label], {}, most_words=75, explained=())
        assert problem.rule == "label-language"
        assert "“ja”" in problem.what
    full = LabelWords("T1", "en", "Elm", text="An elm.", text_language="en", other=OtherLanguage("ja", text="楡。"))
    assert check_label_texts([full], {}, most_words=75, explained=()) == ()
