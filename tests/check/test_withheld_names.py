from __future__ import annotations

import sys
import unicodedata
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archive_tools.check import names_in_public_texts
from archive_tools.model.collection import HandWrittenPage
from archive_tools.model.event import Citation
from archive_tools.model.folding import fold, letters_of
from archive_tools.model.grades import Visibility
from archive_tools.model.places_in_files import Where
from archive_tools.model.problems import Problem, Reach, Severity
from archive_tools.model.words import Words
from tests.check.builders import (
    collection,
    comparison,
    event,
    note,
    photo,
    public,
    source,
    spot,
    steward,
    thing,
    tree,
)

DONOR = steward(
    "donor-94",
    "Cordelia Vaszary",
    visibility="restricted",
    public_name="a private donor",
    aliases=("Mrs Vaszary", "C. V."),
    sort_name="Vaszary, Cordelia",
)


def found_in(text: str, *hidden: Any, others: tuple[Any, ...] = ()) -> list[Problem]:
    """What is found in the body of one public note."""
    made = collection(*(hidden or (DONOR,)), *others, tree("T1", notes=(note("2020-01-01-a", text),)))
    return names_in_public_texts(public(made))


@pytest.mark.parametrize(
    "text",
    [
        "Given by Cordelia Vaszary in 1994.",
        "CORDELIA VASZARY",
        "cordelia vaszary",
        "Cordelia\nVaszary",
        "Cordelia   \n   Vaszary",
        "> Cordelia\n> Vaszary",
        "Cordelia\u00a0Vaszary",
        "Cordelia\u2003Vaszary",
        "Cordelia\u2011Vaszary",
        "Cordelia-Vaszary",
        "Cordélia Vászáry",
        unicodedata.normalize("NFD", "Cordélia Vászáry"),
        "\uff23\uff4f\uff52\uff44\uff45\uff4c\uff49\uff41 Vaszary",
        "Cordelia Vas\u00adzary",
        "Corde\u200blia Vaszary",
        "Cordelia Vas-\nzary",
        "Cor-\ndelia Vaszary",
        "> Cordelia Vas-\n> zary",
        "Cordelia Vaszary's tree",
        "Cordelia Vaszary\u2019s tree",
        "Cordelia Vaszarys träd",
        "(Cordelia Vaszary)",
        "_Cordelia Vaszary_",
        "Cordelia **Vaszary**",
        "*Cordelia* *Vaszary*",
        "[Cordelia Vaszary](https://x.example)",
        "Cordelia&nbsp;Vaszary",
        "Cordelia <b>Vaszary</b>",
        "Cordelia&#32;Vasz&aacute;ry",
        "https://x.example/Cordelia%20Vaszary",
        "https://x.example/cordelia-vaszary/",
        "Vaszary, Cordelia",
        "Mrs Vaszary",
        "C. V.",
        "C.V.",
        "C.\u00a0V. wrote",
    ],
)
def test_found(text: str) -> None:
    problems = found_in(text)
    assert problems, text
    problem = problems[0]
    assert (problem.rule, problem.severity, problem.reach) == ("withheld-name", Severity.ERROR, Reach.RECORD)
    assert "donor-94" in problem.what
    assert problem.mark.file == "trees/T1/notes/2020-01-01-a.md"


@pytest.mark.parametrize(
    "text",
    [
        "Given by a private donor.",
        "Cordelia alone, and a Vaszary alone.",
        "Cordelia Vaszaryana is a moss",
        "Concordelia Vaszary",
        "Cordelia, Vaszary and others",
        "Cordelia. Vaszary",
        "Mrs Vaszaryova",
        "c v",
        "A CV",
        "Acer palmatum cv. 'Deshojo'",
        "C. Vaszar",
        "donor",
    ],
)
def test_not_found(text: str) -> None:
    assert found_in(text) == []


def test_line_and_column() -> None:
    (problem,) = found_in("First line.\nThen caf\u00e9 and Cordelia\nVaszary came.")
    assert (problem.mark.line, problem.mark.column) == (5, 15)


def test_the_message_does_not_say_the_name() -> None:
    (problem,) = found_in("Cordelia Vaszary")
    assert "vaszary" not in f"{problem.what} {problem.instead}".casefold()
    assert problem.instead is not None
    assert "a private donor" in problem.instead


@pytest.mark.parametrize(
    ("text", "hit"),
    [
        ("Ash gave it.", True),
        ("Given by Ash", True),
        ("Ash's tree", True),
        ("Ash\u2019s tree", True),
        ("the ash-grey stone", True),
        ("wood ashes", False),
        ("washed", False),
        ("Ashby", False),
        ("ash2", False),
        ("fl\u00e5sh", False),
    ],
)
def test_short_names_are_whole_words(text: str, hit: bool) -> None:
    assert bool(found_in(text, steward("x", "Ash", visibility="internal"))) is hit


@pytest.mark.parametrize(
    ("text", "hit"),
    [
        ("寄贈:青沼すみれ氏", True),
        ("青沼 すみれ", True),
        ("青沼\u3000すみれ", True),
        ("青沼・すみれ", True),
        ("青沼\nすみれ", True),
        ("木は青沼すみれの庭にあった", True),
        ("青沼すみ", False),
        ("青い沼とすみれ", False),
        ("\uff8d\uff9e", False),
    ],
)
def test_names_without_spaces(text: str, hit: bool) -> None:
    hidden = steward("x", "Sumire Aonuma", visibility="internal", names=(("ja", "青沼すみれ"),))
    assert bool(found_in(text, hidden)) is hit


def test_kana_with_and_without_voicing_are_other_names() -> None:
    hidden = steward("x", "ガク", visibility="internal")
    assert found_in("ガクさん", hidden)
    assert found_in(unicodedata.normalize("NFD", "ガクさん"), hidden)
    assert found_in("\uff76\uff9e\uff78さん", hidden)
    assert not found_in("カクさん", hidden)


def test_chinese_and_korean_names() -> None:
    assert found_in("作者林巧禾先生", steward("x", "林巧禾", visibility="internal"))
    assert not found_in("林中巧禾", steward("x", "林巧禾", visibility="internal"))
    assert found_in("김민수가 주었다", steward("x", "김민수", visibility="internal"))
    assert not found_in("김민주", steward("x", "김민수", visibility="internal"))


def test_letters_that_unicode_does_not_take_apart() -> None:
    assert found_in("by Soren Lukasz", steward("x", "Søren Łukasz", visibility="internal"))
    assert found_in("by SØREN ŁUKASZ", steward("x", "Soren Lukasz", visibility="internal"))
    assert found_in("Strasse", steward("x", "Straße", visibility="internal"))


def test_apostrophes_and_hyphens_in_names() -> None:
    hidden = steward("x", "Ruth O'Hara-Lien", visibility="internal")
    for text in ("Ruth O\u2019Hara\u2013Lien", "Ruth O\u02bcHara-Lien", "Ruth O'Hara Lien", "Ruth O'Hara-\nLien"):
        assert found_in(text, hidden), text


def test_one_letter_is_no_name_to_look_for() -> None:
    assert not found_in("A maple. K", steward("x", "K", visibility="internal"))


def test_only_those_who_may_not_be_named() -> None:
    open_one = steward("x", "Halvard Quist", visibility="public")
    assert not found_in("Halvard Quist", open_one)
    assert found_in("Halvard Quist", steward("x", "Halvard Quist", visibility="internal"))
    assert found_in("Halvard Quist", steward("x", "Halvard Quist", visibility="public", public_name="a builder"))


def test_part_of_the_longer_name_of_somebody_else() -> None:
    hidden = steward("x", "Marit", visibility="internal")
    marit_quist = steward("marit-quist", "Marit Quist", visibility="public")
    assert not found_in("Marit Quist's garden", hidden, others=(marit_quist,))
    assert not found_in("Marit\nQuist", hidden, others=(marit_quist,))
    assert found_in("Marit brought Marit Quist's box", hidden, others=(marit_quist,))
    assert found_in("Marit", hidden, others=(marit_quist,))


def test_the_same_name_as_somebody_who_may_be_named_is_told() -> None:
    twins = (steward("x", "Jan Holt", visibility="internal"), steward("y", "Jan Holt", visibility="public"))
    assert found_in("Jan Holt", *twins)


def test_internal_texts_may_name() -> None:
    made = collection(DONOR, tree("T1", notes=(note("2020-01-01-a", "Cordelia Vaszary", visibility="internal"),)))
    assert names_in_public_texts(public(made)) == []


def test_masked_references_are_no_texts() -> None:
    hidden = steward("cordelia", "Cordelia", visibility="internal")
    made = collection(hidden, tree("T1", event("gift", from_=["cordelia"], to="the-house")))
    assert names_in_public_texts(public(made)) == []
    named = collection(hidden, tree("T1", event("gift", from_=["Cordelia"], to="the-house")))
    assert [spot(p.mark) for p in names_in_public_texts(public(named))] == ["trees/T1/tree.yml events/0/from/0"]


N = "by Cordelia Vaszary"


@pytest.mark.parametrize(
    ("made", "place"),
    [
        (tree("T1", label=N), "trees/T1/tree.yml label"),
        (tree("T1", credit_line=Words.plain(N)), "trees/T1/tree.yml credit_line"),
        (tree("T1", talking_points=Words.plain(N)), "trees/T1/tree.yml talking_points"),
        (tree("T1", name=Words.plain(N)), "trees/T1/tree.yml name"),
        (tree("T1", event("gift", text=N)), "trees/T1/tree.yml events/0/text"),
        (tree("T1", event("gift", title={"ja": N})), "trees/T1/tree.yml events/0/title/ja"),
        (tree("T1", event("gift", at=N)), "trees/T1/tree.yml events/0/at"),
        (tree("T1", event("gift", awarded_by=N)), "trees/T1/tree.yml events/0/awarded_by"),
        (tree("T1", event("struck", from_tree_text=N)), "trees/T1/tree.yml events/0/from_tree"),
        (tree("T1", event("gift", id="cordelia-vaszary-1994")), "trees/T1/tree.yml events/0/id"),
        (tree("T1", notes=(note("2020-01-01-cordelia-vaszary"),)), "trees/T1/notes/2020-01-01-cordelia-vaszary.md"),
        (tree("T1", notes=(note("2020-01-01-a", title=N),)), "trees/T1/notes/2020-01-01-a.md title"),
        (tree("T1", photos=(photo("a.jpg", caption=N),)), "trees/T1/photos/photos.yml a.jpg/caption"),
        (tree("T1", photos=(photo("a.jpg", alt=N),)), "trees/T1/photos/photos.yml a.jpg/alt"),
        (tree("T1", photos=(photo("a.jpg", credit=Words.plain(N)),)), "trees/T1/photos/photos.yml a.jpg/credit"),
        (tree("T1", photos=(photo("a.jpg", photographer=N),)), "trees/T1/photos/photos.yml a.jpg/photographer"),
        (tree("T1", photos=(photo("cordelia_vaszary.jpg"),)), "trees/T1/photos/photos.yml cordelia_vaszary.jpg/file"),
        (tree("T1", comparisons=(comparison("c", "a", "b", text=N),)), "trees/T1/tree.yml comparisons/c/text"),
        (steward("a", about=N), "stewards/a.yml about"),
        (steward("a", visibility="internal", public_name=N), "stewards/a.yml public_name"),
        (source("a", title=N), "sources/a.yml title"),
        (thing("a", name=Words.plain(N)), "objects/a.yml name"),
        (thing("a", event("observed", text=N)), "objects/a.yml events/0/text"),
    ],
)
def test_every_text(made: Any, place: str) -> None:
    things = [made] if hasattr(made, "accession") else [made, tree("T1")]
    assert [spot(p.mark) for p in names_in_public_texts(public(collection(DONOR, *things)))] == [place]


def test_a_public_name_that_gives_the_name_away() -> None:
    careless = replace(DONOR, public_name=Words.plain("Mrs Vaszary, as she wished"))
    assert [spot(p.mark) for p in names_in_public_texts(public(collection(careless)))] == [
        "stewards/donor-94.yml public_name"
    ]


def test_words_of_hidden_sources_are_hidden() -> None:
    cited = event("gift", source=[Citation("letter", "p. 2", N)])
    shown = collection(DONOR, source("letter"), tree("T1", cited))
    assert [spot(p.mark) for p in names_in_public_texts(public(shown))] == ["trees/T1/tree.yml events/0/source/0/quote"]
    hidden = collection(DONOR, source("letter", visibility="internal"), tree("T1", cited))
    assert names_in_public_texts(public(hidden)) == []


def test_pages_and_the_house() -> None:
    page = HandWrittenPage("a.md", "A", "Thanks\nto Cordelia Vaszary", Where("pages/a.md", {(): (1, 1)}))
    (problem,) = names_in_public_texts(collection(DONOR, pages=(page,)))
    assert (problem.mark.file, problem.mark.line) == ("pages/a.md", 2)
    assert names_in_public_texts(collection(DONOR, pages=(replace(page, visibility=Visibility.INTERNAL),))) == []
    house = collection(DONOR, house={"name": Words.plain("The Cordelia Vaszary Garden")})
    assert [spot(p.mark) for p in names_in_public_texts(house)] == ["collection.yml name"]


def test_folding_knows_the_way_back() -> None:
    text = "x &amp; Straße\u00a0– É\u0301\u00ad𝒜"
    folded = fold(text)
    assert folded.text == "x & strasse - ea"
    assert [text[i] for i in folded.came_from][:3] == ["x", " ", "&"]
    assert len(folded.text) == len(folded.came_from)
    assert list(folded.came_from) == sorted(folded.came_from)


@settings(max_examples=500, deadline=None)
@given(st.text())
def test_the_first_look_overlooks_nothing(text: str) -> None:
    """What the exact fold leaves of a text in letters is what the fast one leaves, so that no name is passed over."""
    assert letters_of(text) == "".join(filter(str.isalnum, fold(text).text))


def test_the_first_look_knows_every_letter() -> None:
    for number in range(sys.maxunicode + 1):
        letter = chr(number)
        assert letters_of(letter) == "".join(filter(str.isalnum, fold(letter).text)), hex(number)
