from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from archive_tools.model.event import Citation, Event, EventRef, Rings
from archive_tools.model.grounds import Path, Place, Stop, Talk, TalkSection, Tour
from archive_tools.model.words import Words
from tests.check.builders import (
    collection,
    comparison,
    event,
    member,
    note,
    photo,
    ref,
    source,
    spot,
    steward,
    taught,
    the_one,
    thing,
    timing,
    told,
    tree,
    where,
)

PLACES = {"tide-court": Place("tide-court", Words.plain("Tide Court"), where("places.yml", "places", "tide-court"))}


def one_tree(*events: Event, **keys: Any) -> Any:
    return collection(source("ledger-b"), thing("blue-oval"), tree("T1", *events, **keys), places=PLACES)


def test_sources() -> None:
    problem = the_one(one_tree(event("observed", source=["ledger-b", Citation("leger-b", "p. 4")])))
    assert (problem.rule, problem.instead) == ("unknown-source", "ledger-b")
    assert spot(problem.mark) == "trees/T1/tree.yml events/0/source/1"
    assert told(one_tree(event("observed", source=["ledger-b"]))) == []


def test_sources_of_notes_photographs_stewards_and_lessons() -> None:
    made = collection(
        source("ledger-b"),
        steward("a", source="ledger-c", taught_by=(taught("b"), taught("b", source="ledger-d"))),
        steward("b", source="ledger-b"),
        tree(
            "T1",
            notes=(note("2020-01-01-n", source="ledger-e"), note("2020-01-02-n", source="ledger-b")),
            photos=(photo("2020.jpg", visibility="public", source="ledger-f"),),
        ),
    )
    assert told(made) == [
        ("unknown-source", "stewards/a.yml source/0"),
        ("unknown-source", "stewards/a.yml taught_by/1/source/0"),
        ("unknown-source", "trees/T1/notes/2020-01-01-n.md source/0"),
        ("unknown-source", "trees/T1/photos/photos.yml 2020.jpg/source/0"),
    ]


def test_objects() -> None:
    made = one_tree(event("repotted", into="blue-ovel", objects=["blue-oval", "grey-stand"]))
    assert told(made) == [
        ("unknown-object", "trees/T1/tree.yml events/0/into"),
        ("unknown-object", "trees/T1/tree.yml events/0/objects/1"),
    ]
    assert told(one_tree(event("repotted", into="blue-oval", objects=["blue-oval"]))) == []


def test_objects_have_events_of_their_own() -> None:
    made = collection(thing("blue-oval", event("observed", by="nobody-known", source="none")))
    assert [rule for rule, _ in told(made)] == ["unknown-steward", "unknown-source"]


def test_usual_places_must_be_known() -> None:
    problem = the_one(one_tree(place="tide-cort"))
    assert (problem.rule, problem.instead) == ("unknown-place", "tide-court")
    assert problem.subject == ("T1", "tree value", "place")
    assert told(one_tree(place="tide-court")) == []


def test_an_events_place_may_be_text() -> None:
    assert told(one_tree(event("exhibited", at="the corn hall"), event("moved", at="tide-court"))) == []
    assert told(one_tree(event("exhibited", at="abroad"))) == []
    problem = the_one(one_tree(event("moved", at="tide-cuort")))
    assert (problem.rule, problem.instead) == ("unknown-place", "tide-court")


def test_paths() -> None:
    path = Path(("tide-court", "tidecourt"), 4, True, where("places.yml", "paths", 0))
    problem = the_one(replace(one_tree(), paths=(path,)))
    assert spot(problem.mark) == "places.yml paths/0/between/1"
    assert problem.subject == ("", "path", "0")
    assert told(replace(one_tree(), paths=(replace(path, between=("tide-court", "tide-court")),))) == []


def test_trees_of_events() -> None:
    made = collection(tree("S1.1", event("exchange", to="the-house", trees=(ref("S1.2"), ref("S1.22")))), tree("S1.2"))
    problem = the_one(made)
    assert (problem.rule, problem.instead) == ("unknown-tree", "S1.2")
    assert spot(problem.mark) == "trees/S1.1/tree.yml events/0/trees/1"


def test_members_may_be_named_by_id() -> None:
    def planting(*named: str) -> Any:
        made = tree("T1", event("assembled", trees=tuple(map(ref, named))), members=(member("tall"), member("company")))
        return collection(made)

    assert told(planting("tall", "company")) == []
    assert the_one(planting("tall", "compny")).instead == "company"


def test_mother_plants() -> None:
    made = collection(tree("S1.1"), tree("S1.2", event("layer severed", from_tree=ref("S1.3"))))
    assert the_one(made).rule == "unknown-tree"
    assert told(collection(tree("S1.1"), tree("S1.2", event("layer severed", from_tree=ref("S1.1"))))) == []
    made = collection(
        tree("S1.1", event("layer set")), tree("S1.2", event("layer severed", from_tree=ref("S1.1#layer-sett")))
    )
    assert (the_one(made).rule, the_one(made).instead) == ("unknown-event", "S1.1#layer-set")
    assert told(collection(tree("T1", event("struck", from_tree_text="a street tree")))) == []


def test_members_records_and_what_a_photograph_shows() -> None:
    made = one_tree(
        members=(member("a", accession="T2"), member("b")),
        photos=(photo("2020.jpg", visibility="public", of=("T1", "T3")),),
    )
    assert told(made) == [
        ("unknown-tree", "trees/T1/photos/photos.yml 2020.jpg/of/1"),
        ("unknown-tree", "trees/T1/tree.yml members/a/accession"),
    ]


def test_timing() -> None:
    made = one_tree(event("struck"), event("potted", timing=(timing("after", "strck"),)))
    problem = the_one(made)
    assert (problem.rule, problem.instead) == ("unknown-event", "struck")
    assert spot(problem.mark) == "trees/T1/tree.yml events/1/timing/0/after"
    assert told(one_tree(event("struck"), event("potted", timing=(timing("after", "struck"),)))) == []


def test_timing_across_trees_and_by_photographs() -> None:
    mother, daughter = tree("S1", event("layer set")), event("potted", timing=(timing("after", "S1#layer-set"),))
    assert told(collection(mother, tree("S2", daughter))) == []
    bad = event("potted", timing=(timing("after", "S3#layer-set"),))
    assert the_one(collection(mother, tree("S2", bad))).what == "there is no tree S3"
    seen = event("potted", timing=(timing("after", "2020"),))
    assert told(one_tree(seen)) == []


def test_timing_of_a_photograph() -> None:
    shown = photo("2020.jpg", visibility="public")
    late = replace(timing("after", "nothing"), where=shown.where.inner("timing", 0))
    problem = the_one(one_tree(photos=(replace(shown, timing=(late,)),)))
    assert problem.subject == ("T1", "photo", "2020.jpg")
    assert spot(problem.mark).endswith("timing/0/after")


def test_does_and_up_to() -> None:
    rings = Rings(20, (0, 0), 0, None, EventRef(None, "colected"), where("loose.yml"))
    made = one_tree(event("collected", by="the-house"), event("observed", does="plan", rings=rings))
    assert told(made) == [
        ("unknown-event", "trees/T1/tree.yml events/1/does"),
        ("unknown-event", "trees/T1/tree.yml events/1/rings/up_to"),
    ]
    good = event("observed", rings=replace(rings, up_to=EventRef(None, "collected")))
    assert told(one_tree(event("collected", by="the-house"), good)) == []


def test_a_notes_event() -> None:
    made = one_tree(event("repotted"), notes=(note("2020-01-01-a", event="reported"),))
    problem = the_one(made)
    assert (problem.rule, problem.instead, problem.subject) == (
        "unknown-event",
        "repotted",
        ("T1", "note", "2020-01-01-a"),
    )
    assert told(one_tree(event("repotted"), notes=(note("2020-01-01-a", event="repotted"),))) == []


def test_a_shared_note_attaches_to_an_event_of_any_of_its_trees() -> None:
    shared = note("2020-01-01-a", folder=".", event="repotted", trees=("S1", "S2"))
    assert told(collection(tree("S1", event("repotted"), notes=(shared,)), tree("S2", notes=(shared,)))) == []
    assert told(collection(tree("S1", notes=(shared,)), tree("S2", notes=(shared,)))) == [
        ("unknown-event", "./notes/2020-01-01-a.md event")
    ]


def test_portraits_and_comparisons() -> None:
    made = one_tree(portrait="2021.jpg", comparisons=(comparison("c", "2020.jpg", "2022.jpg"),))
    assert told(made) == [
        ("unknown-photo", "trees/T1/tree.yml comparisons/c/after"),
        ("unknown-photo", "trees/T1/tree.yml portrait"),
    ]


def tour(**keys: Any) -> Any:
    made = Tour("t", Words.plain("T"), where("tours/t.yml"), **keys)
    return replace(one_tree(), tours={"t": made})


def stop(**keys: Any) -> Stop:
    return Stop(
        **{**dict.fromkeys(("tree", "place", "object", "seconds", "text")), **keys},
        where=where("tours/t.yml", "stops", 0),
    )


@pytest.mark.parametrize(
    ("keys", "place"),
    [
        ({"must": ("T1", "T2")}, "must/1"),
        ({"start": "gate"}, "start"),
        ({"end": "gate"}, "end"),
        ({"stops": (stop(tree="T2"),)}, "stops/0/tree"),
        ({"stops": (stop(place="gate"),)}, "stops/0/place"),
        ({"stops": (stop(object="oval"),)}, "stops/0/object"),
    ],
)
def test_tours(keys: dict[str, Any], place: str) -> None:
    problem = the_one(tour(**keys))
    assert spot(problem.mark) == f"tours/t.yml {place}"
    assert problem.subject == ("t", "tour", "t")


def test_a_sound_tour() -> None:
    stops = (stop(tree="T1"), stop(place="tide-court"), stop(object="blue-oval"))
    assert told(tour(must=("T1",), start="tide-court", end="tide-court", stops=stops)) == []


def talk(trees: tuple[str, ...] = (), show: tuple[str, ...] = ()) -> Any:
    section = TalkSection(None, 60, trees, None, None, show, where("talks/t.yml", "sections", 0))
    made = one_tree(
        photos=(photo("2020.jpg", visibility="public"), photo("2021.jpg", visibility="public")),
        comparisons=(comparison("then", "2020.jpg", "2021.jpg"),),
    )
    return replace(made, talks={"t": Talk("t", Words.plain("T"), where("talks/t.yml"), sections=(section,))})


@pytest.mark.parametrize(
    ("show", "rule", "instead"),
    [
        ("T1/2021.jpeg", "unknown-photo", "T1/2021.jpg"),
        ("T1#thn", "unknown-comparison", "T1#then"),
        ("T11/2020.jpg", "unknown-tree", "T1"),
        ("2020.jpg", "bad-reference", "accession/photograph or accession#comparison"),
        ("T1/", "bad-reference", "accession/photograph or accession#comparison"),
    ],
)
def test_talks_show(show: str, rule: str, instead: str) -> None:
    problem = the_one(talk(show=("T1/2020.jpg", show)))
    assert (problem.rule, problem.instead) == (rule, instead)
    assert spot(problem.mark) == "talks/t.yml sections/0/show/1"


def test_a_sound_talk() -> None:
    assert told(talk(("T1",), ("T1/2020.jpg", "T1/2021", "T1#then"))) == []
    assert the_one(talk(("T9",))).rule == "unknown-tree"
