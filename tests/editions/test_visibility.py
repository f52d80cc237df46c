"""Visibility fails closed: what does not say public is not public, and nothing outdoes what it belongs to."""

from __future__ import annotations

from datetime import date

import pytest

from archive_tools.editions import with_effective_visibility
from archive_tools.model.grades import Visibility
from archive_tools.model.photo import ComparisonWanted
from archive_tools.model.places_in_files import Where
from tests.making import AS_OF, collection, event, note, photo, source, tree, when

PUBLIC, INTERNAL, RESTRICTED = Visibility.PUBLIC, Visibility.INTERNAL, Visibility.RESTRICTED
OPEN = dict.fromkeys(("trees", "events", "notes", "photographs", "stewards", "sources", "objects"), PUBLIC)


def seen(*trees, day=AS_OF, defaults=OPEN, **parts):
    return with_effective_visibility(collection(*trees, defaults=defaults, **parts), day).trees["T1"]


def test_what_says_nothing_in_a_collection_that_says_nothing_is_internal():
    shown = seen(tree(event("potted", "1953"), visibility=None), defaults={})
    assert (shown.effective, shown.events[0].effective) == (INTERNAL, INTERNAL)


def test_a_default_opens_what_says_nothing():
    assert seen(tree(event("potted", "1953"), visibility=None)).events[0].effective is PUBLIC


@pytest.mark.parametrize("parent", [INTERNAL, RESTRICTED])
def test_an_event_that_says_public_is_no_more_visible_than_its_tree(parent):
    shown = seen(tree(event("potted", "1953", visibility=PUBLIC), visibility=parent))
    assert shown.events[0].effective is parent


def test_a_valuation_is_restricted_unless_it_says_otherwise():
    shown = seen(tree(event("valued", "2020"), event("valued", "2021", visibility=INTERNAL)))
    assert [e.effective for e in shown.events] == [RESTRICTED, INTERNAL]


def test_an_event_resting_on_a_restricted_source_alone_is_internal_unless_it_says_public():
    papers = [source("deed", "Deed", visibility=RESTRICTED), source("ledger", "Ledger")]
    shown = seen(
        tree(
            event("gift", "1994", sources="deed"),
            event("gift", "1995", sources="deed", visibility=PUBLIC),
            event("gift", "1996", sources="ledger"),
        ),
        sources=papers,
    )
    assert [e.effective for e in shown.events] == [INTERNAL, PUBLIC, PUBLIC]


@pytest.mark.parametrize(
    ("day", "expected"),
    [(date(2026, 12, 31), INTERNAL), (date(2027, 1, 1), INTERNAL), (date(2027, 12, 31), PUBLIC)],
)
def test_a_vague_embargo_lasts_to_its_latest_day(day, expected):
    assert seen(tree(public_from=when("2027")), day=day).effective is expected


def test_an_embargo_without_an_end_never_ends():
    assert seen(tree(public_from=when("2020/..")), day=date(9999, 1, 1)).effective is INTERNAL


def test_an_embargo_never_opens_what_is_restricted():
    assert seen(tree(visibility=RESTRICTED, public_from=when("2020"))).effective is RESTRICTED


@pytest.mark.parametrize(
    ("keys", "expected"),
    [
        ({"children": True}, INTERNAL),
        ({"children": True, "consent": "unknown"}, INTERNAL),
        ({"people": ("somebody",)}, INTERNAL),
        ({"children": True, "consent": "yes"}, PUBLIC),
        ({"people": ("somebody",), "children": False}, PUBLIC),
        ({}, PUBLIC),
    ],
)
def test_a_picture_that_may_show_a_child_needs_consent(keys, expected):
    assert seen(tree(photos=(photo("a.jpg", **keys),))).photos[0].effective is expected


def test_a_picture_of_two_trees_is_as_hidden_as_the_more_hidden_of_them():
    hidden = tree(accession="T2", visibility=INTERNAL)
    both = photo("a.jpg", of=("T1", "T2"))
    assert seen(tree(photos=(both,)), hidden).photos[0].effective is INTERNAL


def test_a_note_is_no_more_visible_than_the_event_it_tells_of():
    shown = seen(
        tree(event("gift", "1994", id="gift", visibility=INTERNAL), notes=(note("1994-01-01-a", "…", event="gift"),))
    )
    assert shown.notes[0].effective is INTERNAL


def test_a_comparison_is_no_more_visible_than_its_pictures():
    pictures = (photo("a.jpg"), photo("b.jpg", visibility=INTERNAL))
    wanted = ComparisonWanted("c", "a.jpg", "b.jpg", Where("tree.yml"))
    assert seen(tree(photos=pictures, comparisons=(wanted,))).comparisons[0].effective is INTERNAL
