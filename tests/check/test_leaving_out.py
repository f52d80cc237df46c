from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from archive_tools.check import without
from archive_tools.model.event import EventRef, Rings
from archive_tools.model.grounds import Path, Talk, Tour
from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem, Reach, Severity
from archive_tools.model.words import Words
from tests.check.builders import (
    collection,
    comparison,
    event,
    note,
    photo,
    ref,
    source,
    steward,
    taught,
    thing,
    timing,
    tree,
    where,
)


def problem(mark: Mark, *subject: str, **keys: Any) -> Problem:
    owner, sort, name = subject
    return Problem(mark, "wrong", **{"reach": Reach.STATEMENT, "subject": (owner, sort, name), **keys})


def cut(made: Any, mark: Mark, *subject: str, **keys: Any) -> Any:
    return without(made, [problem(mark, *subject, **keys)])


def ids(made: Any, accession: str = "T1") -> list[str]:
    return [event.id for event in made.trees[accession].events]


def test_only_errors_of_statements() -> None:
    made = collection(tree("T1", event("struck")))
    mark = made.trees["T1"].events[0].where.at("date")
    assert ids(cut(made, mark, "T1", "event", "struck")) == []
    assert cut(made, mark, "T1", "event", "struck", severity=Severity.WARNING) is made
    assert cut(made, mark, "T1", "event", "struck", reach=Reach.TOLD) is made
    assert cut(made, mark, "T1", "event", "struck", reach=Reach.RECORD) is made
    assert without(made, [Problem(mark, "wrong")]) is made
    assert without(made, []) is made


def test_the_collection_itself_is_not_changed() -> None:
    made = collection(tree("T1", event("struck"), event("potted")))
    cut(made, made.trees["T1"].events[0].where.at("date"), "T1", "event", "struck")
    assert ids(made) == ["struck", "potted"]


def test_what_leans_on_an_event() -> None:
    rings = Rings(10, (0, 0), 0, None, EventRef(None, "potted"), where("loose.yml"))
    made = collection(
        tree(
            "T1",
            event("potted", planned=True),
            event("repotted", timing=(timing("after", "potted"), timing("after", "wired")), does="potted", rings=rings),
            event("wired"),
            notes=(note("2020-01-01-a", event="potted"), note("2020-01-02-b", event="wired"), note("2020-01-03-c")),
        ),
        tree("T2", event("struck", from_tree=ref("T1#potted"), timing=(timing("before", "T1#potted"),))),
    )
    left = cut(made, made.trees["T1"].events[0].where.at("kind"), "T1", "event", "potted")
    assert ids(left) == ["repotted", "wired"]
    repotted = left.trees["T1"].events[0]
    assert [str(one.other) for one in repotted.timing] == ["wired"]
    assert (repotted.does, repotted.rings) == (None, None)
    # A note on an internal event would become a free public note.
    assert [one.id for one in left.trees["T1"].notes] == ["2020-01-02-b", "2020-01-03-c"]
    struck = left.trees["T2"].events[0]
    assert (struck.from_tree, struck.timing) == (EventRef("T1", None), ())


def test_what_leans_on_a_photograph() -> None:
    photos = (photo("2020.jpg"), photo("2021.jpg", timing=(timing("after", "2020"),)), photo("2022.jpg"))
    made = collection(
        tree(
            "T1",
            photos=photos,
            portrait="2020.jpg",
            comparisons=(comparison("a", "2020.jpg", "2021.jpg"), comparison("b", "2021.jpg", "2022.jpg")),
        )
    )
    left = cut(made, photos[0].where.at("rights"), "T1", "photo", "2020.jpg").trees["T1"]
    assert [one.file for one in left.photos] == ["2021.jpg", "2022.jpg"]
    assert left.photos[0].timing == ()
    assert left.portrait is None
    assert [one.id for one in left.comparisons] == ["b"]


def test_comparisons_and_notes() -> None:
    made = collection(tree("T1", comparisons=(comparison("a", "x", "y"),), notes=(note("2020-01-01-a"),)))
    mark = made.trees["T1"].comparisons[0].where.at("align_on")
    assert cut(made, mark, "T1", "comparison", "a").trees["T1"].comparisons == ()
    mark = made.trees["T1"].notes[0].where.at("by")
    assert cut(made, mark, "T1", "note", "2020-01-01-a").trees["T1"].notes == ()


@pytest.mark.parametrize("owner", ["S1", "notes"])
def test_a_shared_note_goes_from_every_tree(owner: str) -> None:
    shared = note("2020-01-01-a", folder=".", trees=("S1", "S2"))
    carried = replace(event("observed", id="2020-01-01-a"), where=shared.where)
    made = collection(tree("S1", carried, notes=(shared,)), tree("S2", carried, notes=(shared,)))
    left = cut(made, shared.where.at("by"), owner, "note", "2020-01-01-a")
    assert [one.notes for one in left.trees.values()] == [(), ()]
    left = cut(made, shared.where.at("by"), "S1", "event", "2020-01-01-a")
    assert [one.events for one in left.trees.values()] == [(), ()]


def test_one_of_the_same_name_elsewhere_stays() -> None:
    first, second = event("wired", id="a"), event("pruned", id="a")
    made = collection(tree("T1", first, second))
    mark = made.trees["T1"].events[1].where.at("id")
    assert [one.kind for one in cut(made, mark, "T1", "event", "a").trees["T1"].events] == ["wired"]
    assert [one.kind for one in cut(made, mark, "T1", "event", "a#2").trees["T1"].events] == ["wired"]
    # What was left out when the files were read has no second any more.
    alone = collection(tree("T1", first))
    alone.trees["T1"].events[0].where.at("id")
    assert ids(cut(alone, Mark("trees/T1/tree.yml", 999, 1), "T1", "event", "a#2")) == ["a"]
    assert ids(cut(alone, Mark("trees/T1/notes/a.md", 1, 1), "T1", "event", "a")) == ["a"]


def test_events_of_objects() -> None:
    made = collection(thing("pot", event("observed")))
    mark = made.objects["pot"].events[0].where.at("by")
    assert cut(made, mark, "pot", "event", "observed").objects["pot"].events == ()


def test_tours_talks_and_paths() -> None:
    words = Words.plain("T")
    made = collection(
        tours={"t": Tour("t", words, where("tours/t.yml")), "u": Tour("u", words, where("tours/u.yml"))},
        talks={"t": Talk("t", words, where("talks/t.yml"))},
        paths=tuple(Path((a, "c"), 1, True, where("places.yml", "paths", i)) for i, a in enumerate("ab")),
    )
    assert list(cut(made, Mark("tours/t.yml", 1, 1), "t", "tour", "t").tours) == ["u"]
    assert cut(made, Mark("talks/t.yml", 1, 1), "t", "talk", "t").talks == {}
    assert [path.between[0] for path in cut(made, Mark("places.yml", 1, 1), "", "path", "0").paths] == ["b"]


def test_values() -> None:
    made = collection(
        steward("a", members=("x", "y", "z"), taught_by=(taught("x"), taught("y"))),
        source("s", made_by=["x"]),
        thing("o", maker="x"),
        tree("T1", portrait="2020.jpg", place="court"),
        house={"rights": "mine"},
    )
    mark = Mark("anywhere.yml", 1, 1)
    left = without(
        made,
        [
            problem(mark, "a", "steward value", "members/0"),
            problem(mark, "a", "steward value", "members/2"),
            problem(mark, "a", "steward value", "taught_by/1"),
            problem(mark, "s", "source value", "made_by/0"),
            problem(mark, "o", "object value", "maker"),
            problem(mark, "T1", "tree value", "place"),
            problem(mark, "", "collection value", "rights"),
        ],
    )
    assert left.stewards["a"].members == ("y",)
    assert [one.who for one in left.stewards["a"].taught_by] == ["x"]
    assert left.sources["s"].made_by == ()
    assert left.objects["o"].maker is None
    assert (left.trees["T1"].place, left.trees["T1"].portrait) == (None, "2020.jpg")
    assert left.settings.rights is None


def test_a_value_of_one_record_is_not_that_of_another_of_the_same_id() -> None:
    made = collection(steward("a", members=("x",)), source("a", made_by=["x"]))
    left = cut(made, Mark("stewards/a.yml", 1, 1), "a", "steward value", "members/0")
    assert left.stewards["a"].members == ()
    assert left.sources["a"].made_by == ("x",)


def test_what_a_record_cannot_do_without_stays() -> None:
    made = collection(source("a"))
    assert cut(made, Mark("sources/a.yml", 1, 1), "a", "source value", "kind").sources["a"].kind == "ledger"
