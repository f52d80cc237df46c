"""What is cut for an edition is gone: not only unnamed, but nowhere in the values that pages are made from."""

from __future__ import annotations

import pytest

from archive_tools.editions import select, view_of, with_effective_visibility
from archive_tools.model.event import Citation, EventRef, Timing
from archive_tools.model.findings import Findings
from archive_tools.model.grades import Edition, Visibility
from archive_tools.model.grounds import Place
from archive_tools.model.places_in_files import Where
from archive_tools.model.tree import Due, Member, OriginLocality
from archive_tools.model.words import Words
from tests.making import AS_OF, HOUSE, collection, event, nothing_found, photo, source, steward, tree

PUBLIC, INTERNAL, RESTRICTED = Visibility.PUBLIC, Visibility.INTERNAL, Visibility.RESTRICTED
OPEN = dict.fromkeys(("trees", "events", "notes", "photographs", "stewards", "sources", "objects"), PUBLIC)
DONOR = steward(
    "zenobia-quill",
    "Zenobia Quill",
    visibility=RESTRICTED,
    public_name=Words.plain("a private donor"),
    aliases=("Nobby Quill",),
)


def chosen(*trees, edition=Edition.PUBLIC, **parts):
    whole = with_effective_visibility(collection(*trees, defaults=OPEN, **parts), AS_OF)
    return select(whole, edition)[0]


def test_a_withheld_donor_leaves_nothing_of_themselves():
    shown = chosen(tree(event("gift", "1994", from_="zenobia-quill", to=HOUSE)), stewards=[DONOR])
    assert shown.trees["T1"].events[0].from_ == ("withheld-1",)
    assert shown.stewards["withheld-1"].name.say() == "a private donor"
    assert "quill" not in repr(shown).casefold()


def test_two_withheld_donors_are_numbered_as_they_are_met_not_as_they_sort():
    first = steward("zz-last", "Zz Last", visibility=RESTRICTED)
    second = steward("aa-first", "Aa First", visibility=RESTRICTED)
    shown = chosen(
        tree(event("gift", "1970", from_="zz-last", to="aa-first"), event("gift", "1994", from_="aa-first", to=HOUSE)),
        stewards=[first, second],
    )
    assert [e.from_ for e in shown.trees["T1"].events] == [("withheld-1",), ("withheld-2",)]
    assert {shown.stewards[i].name.say() for i in ("withheld-1", "withheld-2")} == {"name withheld"}


def test_a_public_steward_with_a_public_name_is_masked_outside_and_named_inside():
    shy = steward("shy", "Ida Shy", visibility=PUBLIC, public_name=Words.plain("a neighbour"))
    given = tree(event("gift", "1994", from_="shy", to=HOUSE))
    assert "Ida Shy" not in repr(chosen(given, stewards=[shy]))
    assert chosen(given, stewards=[shy], edition=Edition.INTERNAL).stewards["shy"].name.say() == "Ida Shy"


def test_the_internal_edition_does_not_hold_restricted_things_either():
    inside = chosen(
        tree(event("valued", "2020"), event("gift", "1994", from_="zenobia-quill", to=HOUSE)),
        stewards=[DONOR],
        edition=Edition.INTERNAL,
    )
    assert [e.kind for e in inside.trees["T1"].events] == ["gift"]
    assert "quill" not in repr(inside).casefold()


def test_a_hidden_source_takes_its_shelf_mark_and_quotation_with_it():
    deed = source("deed-of-quill", "Deed of Z. Quill", visibility=INTERNAL)
    cited = event("gift", "1994", sources=(Citation("deed-of-quill", "box 9", "I, Zenobia"),))
    shown = chosen(tree(cited), sources=[deed])
    assert shown.trees["T1"].events[0].sources == (Citation("withheld-source-1"),)
    for told in ("Quill", "box 9", "Zenobia"):
        assert told not in repr(shown)


def test_of_a_wild_find_only_the_public_words_are_public():
    locality = OriginLocality(Words.plain("Hagger Corrie"), Words.plain("the western hills"), 57.1, -5.2, "high")
    shown = chosen(tree(origin_locality=locality)).trees["T1"].origin_locality
    assert shown is not None
    assert (shown.text, shown.latitude, shown.longitude) == (None, None, None)
    assert shown.public_text is not None and shown.public_text.say() == "the western hills"


def test_references_to_a_hidden_tree_are_dropped():
    hidden = tree(event("struck", "1951", id="struck"), accession="T2", visibility=INTERNAL)
    timing = Timing("after", EventRef("T2", "struck"), None, None, Where("tree.yml"))
    child = tree(
        event("layer severed", "1986", from_tree=EventRef("T2", None), timing=(timing,)),
        members=(Member("a", Where("tree.yml"), accession="T2"),),
        kind="planting",
    )
    shown = chosen(child, hidden)
    assert list(shown.trees) == ["T1"]
    assert "T2" not in repr(shown)


def test_a_bench_is_not_told_and_a_court_is():
    places = {
        "y-7": Place("y-7", Words.plain("Bench Y-7"), Where("places.yml"), visibility=INTERNAL),
        "court": Place("court", Words.plain("Tide Court"), Where("places.yml"), visibility=PUBLIC),
    }
    moved = [event("moved", "2020", at="y-7"), event("on display", "2021", at="court")]
    shown = chosen(tree(*moved, place="y-7", place_visibility=PUBLIC), places=places)
    assert [e.at for e in shown.trees["T1"].events] == [None, "court"]
    assert shown.trees["T1"].place is None
    assert list(shown.places) == ["court"]


def test_what_cannot_say_that_it_is_public_is_not():
    due = Due("repotted", None, (3,), None, None, Where("tree.yml"))
    assert chosen(tree(due=(due,))).trees["T1"].due == ()
    assert chosen(tree(due=(due,)), edition=Edition.INTERNAL).trees["T1"].due == (due,)


def test_other_peoples_names_do_not_leave_the_house_with_a_picture():
    picture = photo("a.jpg", people=("Somebody Unknown", HOUSE), children=False)
    assert chosen(tree(photos=(picture,))).trees["T1"].photos[0].people == (HOUSE,)


def test_a_hidden_portrait_is_no_portrait():
    assert chosen(tree(photos=(photo("a.jpg", visibility=INTERNAL),), portrait="a.jpg")).trees["T1"].portrait is None


def test_findings_about_a_tree_the_edition_does_not_hold_are_refused():
    with pytest.raises(ValueError, match="T2"):
        view_of(chosen(tree()), Findings(AS_OF, {"T2": nothing_found("T2")}), Edition.PUBLIC)
