from __future__ import annotations

from pathlib import Path

import pytest

from archive_tools.read.event_ids import ids_of_events, slug

from .folder_of import errors, only, read_tree


def test_an_event_without_an_id_is_called_after_kind_and_date() -> None:
    assert ids_of_events([{"kind": "repotted", "date": "2003-03"}, {"kind": "candles cut"}]) == [
        "repotted-2003-03",
        "candles-cut",
    ]


def test_made_ids_give_way_to_written_ones_and_to_each_other() -> None:
    twice = {"kind": "fed", "date": "2003"}
    assert ids_of_events([twice, twice, {"id": "fed-2003", "kind": "fed"}, twice], taken=["fed-2003-3"]) == [
        "fed-2003-2",
        "fed-2003-4",
        "fed-2003",
        "fed-2003-5",
    ]


def test_one_event_may_stand_alone_and_faulty_ones_keep_their_number() -> None:
    assert ids_of_events({"kind": "fed"}) == ["fed"]
    assert ids_of_events(None) == []
    assert ids_of_events(["text", None, {"kind": ["a"], "date": {}}, {"id": 3}]) == [
        "event",
        "event-2",
        "event-3",
        "event-4",
    ]


@pytest.mark.parametrize(("text", "made"), [("Élan ~1971/..", "elan-1971"), ("青", ""), ("  A  b--c ", "a-b-c")])
def test_slugs(text: str, made: str) -> None:
    assert slug(text) == made


def test_ids_do_not_move_when_a_faulty_event_is_left_out(tmp_path: Path) -> None:
    items = ["{kind: fed, date: 2003, by: x}", "{kind: fed, date: 2003, bx: x}", "{kind: fed, date: 2003}"]
    events = "events:\n" + "".join(f"  - {item}\n" for item in items)
    collection, problems = read_tree(tmp_path, events)
    assert [event.id for event in collection.trees["T1"].events] == ["fed-2003", "fed-2003-3"]
    assert only(problems).subject == ("T1", "event", "fed-2003-2")


def test_a_written_id_borne_twice_is_told_with_both_places(tmp_path: Path) -> None:
    events = "events:\n  - {id: a, kind: fed}\n  - {id: b, kind: fed}\n  - {id: a, kind: pruned}\n"
    collection, problems = read_tree(tmp_path, events)
    assert [(event.id, event.kind) for event in collection.trees["T1"].events] == [("a", "fed"), ("b", "fed")]
    problem = only(errors(problems))
    assert problem.rule == "duplicate-id"
    assert str(problem.mark) == "trees/T1-a/tree.yml:6:10"
    assert "trees/T1-a/tree.yml:4:10" in problem.what
    assert problem.subject == ("T1", "event", "a#2")
