"""The last look finds a hidden string however it is spelled, and does not cry out at ordinary words."""

from __future__ import annotations

import pytest

from archive_tools.editions import (
    find_secrets,
    named_in,
    references_to_hidden_trees,
    secrets_of,
    with_effective_visibility,
)
from archive_tools.model.grades import Edition, Visibility
from archive_tools.model.grounds import Place
from archive_tools.model.people import CollectionObject
from archive_tools.model.places_in_files import Where
from archive_tools.model.tree import OriginLocality
from archive_tools.model.words import Words
from tests.making import AS_OF, collection, note, steward, tree

HIDDEN = Visibility.RESTRICTED


def whole(*trees, **parts):
    opened = {"trees": Visibility.PUBLIC, "notes": Visibility.PUBLIC}
    return with_effective_visibility(collection(*trees, defaults=opened, **parts), AS_OF)


def found(text: str, path: str = "trees/T1/index.md", **parts):
    donor = steward("donor-94", "Zoë Quill-Østby", visibility=HIDDEN, aliases=("林巧",))
    secrets = secrets_of(whole(stewards=[donor], **parts), Edition.PUBLIC)
    return [problem.rule for problem in find_secrets(secrets, [(path, text)])]


@pytest.mark.parametrize(
    "text",
    [
        "Given by Zoë Quill-Østby.",
        "ZOË QUILL-ØSTBY",
        "Zoe\u0308 Quill\u2011Østby",  # combining diaeresis, non-breaking hyphen
        "Zoe Quill–Østby",
        "Zo&euml; Quill-&Oslash;stby",
        "Zoë <b>Quill-Østby</b>",
        "Zoë\n   Quill-Østby",
        '<img alt="Zoë Quill-Østby in her garden">',
        "<a href='/x/Zo%C3%AB%20Quill-%C3%98stby/'>",
        "made by 林巧先生",
        "stewards/donor-94/",
        "Zoë<br>Quill-Østby",
        "<p>Zoë</p><p>Quill-Østby</p>",
        "Zo\u00adë Quill-Øst\u00adby",  # soft hyphens
        "Zoë Quill-Øst&shy;by",
        "Zoë\u200bQuill-Østby",
        "Zoë_Quill-Østby",
        "zoe-quill-ostby",
        "<i>Z</i>oë Quill-Østby",
    ],
)
def test_a_hidden_name_is_found_however_it_is_spelled(text):
    assert found(text) == ["would-leak"]


@pytest.mark.parametrize("text", ["Zoë Quill-Østbyson", "Quill pens", "donor-940", "", "Zoë and another Quill"])
def test_other_words_are_left_alone(text):
    assert found(text) == []


@pytest.mark.parametrize("text", ["Mrs O’Dell", "Mrs O&#39;Dell", "MRS O'DELL", "Mrs O&rsquo;Dell"])
def test_an_apostrophe_is_an_apostrophe(text):
    secrets = secrets_of(whole(stewards=[steward("donor", "Mrs O'Dell", visibility=HIDDEN)]), Edition.PUBLIC)
    assert len(find_secrets(secrets, [("a", f"Given by {text}.")])) == 1


def test_a_hidden_name_in_an_address_is_found():
    assert found("nothing here", path="stewards/donor-94/index.md") == ["would-leak"]


def test_a_bench_code_is_found_and_a_plain_word_for_a_hidden_place_is_not():
    places = {
        key: Place(key, Words.plain(name), Where("places.yml"), visibility=Visibility.INTERNAL)
        for key, name in (("bench-y-7", "Bench Y-7"), ("store", "Store"))
    }
    assert found("It stands on bench Y-7 now.", places=places) == ["would-leak"]
    assert found("Store in a cool place.", places=places) == []


def test_short_codes_and_numbers_are_found() -> None:
    """A bench code or an accession is often two or three signs long, and tells as much as a long one."""
    places = {"y-7": Place("y-7", Words.plain("Y-7"), Where("places.yml"), visibility=Visibility.INTERNAL)}
    assert found("It stands on Y-7 now.", places=places) == ["would-leak"]
    assert found("In July 7 trees and by-7s; Y-70.", places=places) == []
    secrets = secrets_of(whole(tree(), tree(accession="T2", visibility=Visibility.INTERNAL)), Edition.PUBLIC)
    assert [p.rule for p in find_secrets(secrets, [("a", "like T2, only taller")])] == ["would-leak"]
    assert find_secrets(secrets, [("a", "T20, AT2, t2x")]) == []


def test_a_short_name_is_found() -> None:
    secrets = secrets_of(whole(stewards=[steward("donor", "Li", visibility=HIDDEN)]), Edition.PUBLIC)
    assert len(find_secrets(secrets, [("a", "Given by Li in 1994.")])) == 1
    assert len(find_secrets(secrets, [("a", '<img alt="Li in her garden">')])) == 1
    assert len(find_secrets(secrets, [("a", "<p>A gift</p><!-- from Li -->")])) == 1
    assert find_secrets(secrets, [("a", '<li class="li">Given in 1994, said Lia.</li>')]) == []


def test_an_object_that_is_not_named_is_found() -> None:
    pot = CollectionObject(
        "blue", Words.plain("The heron pot"), Where("objects/blue.yml"), visibility=Visibility.INTERNAL
    )
    secrets = secrets_of(whole(objects={"blue": pot}), Edition.PUBLIC)
    assert len(find_secrets(secrets, [("a", "Moved into the heron pot.")])) == 1


def test_a_part_of_a_name_that_may_be_said_gives_nobody_away() -> None:
    people = [
        steward("shy", "Quill", visibility=HIDDEN),
        steward("known", "Ada Quill", visibility=Visibility.PUBLIC),
    ]
    house = whole(stewards=people)
    secrets, allowed = secrets_of(house, Edition.PUBLIC), named_in(house, Edition.PUBLIC)
    assert find_secrets(secrets, [("a", "Styled by Ada Quill.")], allowed) == []
    assert len(find_secrets(secrets, [("a", "Styled by Ada Quill, given by Quill.")], allowed)) == 1


def test_the_place_of_a_wild_find_is_found():
    locality = OriginLocality(Words.plain("Hagger Corrie, north ledge"), None, None, None, "high")
    secrets = secrets_of(whole(tree(origin_locality=locality)), Edition.PUBLIC)
    assert len(find_secrets(secrets, [("a", "dug at Hagger Corrie, north ledge in May")])) == 1


def test_a_public_text_that_points_at_a_hidden_tree_is_told_with_its_line():
    hidden = tree(accession="T2", visibility=Visibility.INTERNAL)
    told = references_to_hidden_trees(
        whole(tree(notes=(note("1994-01-01-a", "One line.\nSee [[T2]] too.\n"),)), hidden), Edition.PUBLIC
    )
    assert [(str(p.mark), p.rule) for p in told] == [("trees/T1/notes/1994-01-01-a.md:4", "hidden-reference")]
    assert references_to_hidden_trees(whole(tree(), hidden), Edition.PUBLIC) == []
