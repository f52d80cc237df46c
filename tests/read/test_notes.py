from __future__ import annotations

from pathlib import Path

import pytest

from archive_tools.model.event import Citation, EventRef
from archive_tools.model.grades import Visibility
from archive_tools.model.problems import Reach, Severity
from archive_tools.model.words import Words

from .folder_of import MAPLE, errors, only, places, read, read_tree, rules

FILE = "trees/T1-a/notes/1991-05-12-bent.md"


def test_a_note_with_a_kind_is_an_event_and_a_note(tmp_path: Path) -> None:
    text = "---\nkind: bent\nby: renn\nsource: film\nvisibility: internal\ntitle: Bent\n---\n\nThe whole top.\n"
    collection, problems = read_tree(tmp_path, "events: [{id: e, kind: fed}]\n", **{FILE: text})
    assert problems == []
    tree = collection.trees["T1"]
    (note,) = tree.notes
    assert (note.id, note.path, note.trees, note.event) == ("1991-05-12-bent", FILE, ("T1",), "1991-05-12-bent")
    assert (note.body, note.body_line) == ("The whole top.\n", 9)
    assert (note.title, note.by, note.sources) == (Words.plain("Bent"), ("renn",), (Citation("film"),))
    assert note.visibility is Visibility.INTERNAL
    assert note.when is not None and note.when.text == "1991-05-12"
    _, event = tree.events
    assert (event.id, event.kind, event.tree, event.from_note) == ("1991-05-12-bent", "bent", "T1", True)
    assert event.when == note.when and event.visibility is Visibility.INTERNAL
    assert str(event.where.at("by")) == f"{FILE}:3:5"


def test_a_note_without_a_kind_is_text_only(tmp_path: Path) -> None:
    tree = read_tree(tmp_path, "", **{FILE: "Text.\n"})[0].trees["T1"]
    assert tree.events == ()
    assert [(note.body, note.body_line, note.event) for note in tree.notes] == [("Text.\n", 1, None)]


def test_a_note_may_belong_to_an_event_already_recorded(tmp_path: Path) -> None:
    tree = read_tree(tmp_path, "events: [{id: e, kind: fed}]\n", **{FILE: "---\nevent: e\n---\nx"})[0].trees["T1"]
    assert [note.event for note in tree.notes] == ["e"] and len(tree.events) == 1


def test_a_note_cannot_be_an_event_and_belong_to_another(tmp_path: Path) -> None:
    collection, problems = read_tree(tmp_path, "", **{FILE: "---\nkind: fed\nevent: e\n---\nx"})
    assert rules(problems) == ["bad-value"] and collection.trees["T1"].notes == ()


@pytest.mark.parametrize("date", ["1991-05-12", "1991", "1991-05~", "../1991", "1990/1992"])
def test_a_date_that_agrees_with_the_file_name_is_taken(tmp_path: Path, date: str) -> None:
    collection, problems = read_tree(tmp_path, "", **{FILE: f"---\ndate: {date}\n---\nx"})
    (note,) = collection.trees["T1"].notes
    assert problems == [] and note.when is not None and note.when.text == date


@pytest.mark.parametrize("date", ["1991-05-13", "1990", "1992/..", "../1991-04"])
def test_a_date_that_disagrees_with_the_file_name_leaves_the_note_out(tmp_path: Path, date: str) -> None:
    collection, problems = read_tree(tmp_path, "", **{FILE: f"---\nkind: fed\ndate: {date}\n---\nx"})
    assert collection.trees["T1"].notes == () and collection.trees["T1"].events == ()
    problem = only(problems)
    assert (problem.rule, str(problem.mark)) == ("date-differs", f"{FILE}:3:7")
    assert (problem.reach, problem.subject) == (Reach.STATEMENT, ("T1", "note", "1991-05-12-bent"))


def test_a_note_without_any_date_is_told(tmp_path: Path) -> None:
    collection, problems = read_tree(tmp_path, "", **{"trees/T1-a/notes/remarks.md": "x"})
    problem = only(problems)
    assert (problem.rule, problem.severity, problem.reach) == ("no-date", Severity.WARNING, Reach.TOLD)
    assert collection.trees["T1"].notes[0].when is None


def test_a_file_name_that_begins_with_no_day_is_told(tmp_path: Path) -> None:
    _, problems = read_tree(tmp_path, "", **{"trees/T1-a/notes/1991-02-30-x.md": "x"})
    assert (only(problems).rule, only(problems).severity) == ("bad-date", Severity.WARNING)


@pytest.mark.parametrize(
    ("head", "rule", "line", "column"),
    [
        ("visibilty: restricted", "unknown-key", 2, 1),
        ("kind: bend", "unknown-kind", 2, 7),
        ("title: x\ntitle: y", "duplicate-key", 3, 1),
        ("by: [a", "bad-yaml", 2, 5),
        ("by: *x", "alias", 2, 5),
        ("- a", "bad-value", 2, 1),
    ],
)
def test_a_faulty_head_leaves_the_note_out_and_is_told_at_its_line(
    tmp_path: Path, head: str, rule: str, line: int, column: int
) -> None:
    collection, problems = read_tree(tmp_path, "", **{FILE: f"---\n{head}\n---\nx"})
    tree = collection.trees["T1"]
    assert tree.notes == () and tree.events == () and tree.visibility is None
    problem = only(errors(problems))
    assert (problem.rule, problem.mark.line, problem.mark.column) == (rule, line, column)
    assert (problem.reach, problem.subject) == (Reach.STATEMENT, ("T1", "note", "1991-05-12-bent"))


@pytest.mark.parametrize("text", ["---\nvisibility: restricted\nSecret.\n", "visibility: restricted\n---\nSecret.\n"])
def test_a_broken_head_is_never_published_as_text(tmp_path: Path, text: str) -> None:
    collection, problems = read_tree(tmp_path, "", **{FILE: text})
    assert collection.trees["T1"].notes == ()
    assert (only(problems).rule, only(problems).reach) == ("bad-front-matter", Reach.STATEMENT)


def test_a_faulty_statement_in_a_note_leaves_the_note_standing(tmp_path: Path) -> None:
    text = "---\nkind: fed\ntiming: {after: e, at_least: long}\n---\nx"
    collection, problems = read_tree(tmp_path, "", **{FILE: text})
    (event,) = collection.trees["T1"].events
    assert event.timing == ()
    assert only(problems).subject == ("T1", "timing", "1")


def test_keys_that_nothing_is_made_of_are_told(tmp_path: Path) -> None:
    text = "---\nid: other\nshare: 1/4\ntitle: x\n---\nx"
    _, problems = read_tree(tmp_path, "", **{FILE: text})
    assert places(problems, "idle-key") == [(FILE, 2, 1), (FILE, 3, 1)]
    assert {problem.severity for problem in problems} == {Severity.WARNING}


def test_in_a_note_of_one_tree_trees_means_what_it_means_in_an_event(tmp_path: Path) -> None:
    text = "---\nkind: exchange\ntrees: [T2]\n---\nx"
    tree = read_tree(tmp_path, "", **{FILE: text})[0].trees["T1"]
    assert tree.events[0].trees == (EventRef("T2", None),) and tree.notes[0].trees == ("T1",)


def test_an_event_made_of_a_note_keeps_its_id_from_one_in_the_record(tmp_path: Path) -> None:
    record = "events:\n  - {kind: fed, date: 1991-05-12}\n  - {id: 1991-05-12-bent, kind: fed}\n"
    collection, problems = read_tree(tmp_path, record, **{FILE: "---\nkind: bent\n---\nx"})
    assert [event.kind for event in collection.trees["T1"].events] == ["fed", "fed"]
    assert only(problems).rule == "duplicate-id"


def test_other_files_among_the_notes_are_told(tmp_path: Path) -> None:
    _, problems = read_tree(tmp_path, "", **{"trees/T1-a/notes/1991.txt": "x", "trees/T1-a/notes/old/1991.md": "x"})
    assert [(p.rule, p.mark.file) for p in problems] == [
        ("stray-file", "trees/T1-a/notes/1991.txt"),
        ("stray-file", "trees/T1-a/notes/old"),
    ]


# Notes about several trees

SHARED = "notes/2010-06-01-day.md"
THREE: dict[str, str | bytes] = {
    "trees/T1-a/tree.yml": MAPLE + "place: yard\n",
    "trees/T2-b/tree.yml": "accession: T2\ntaxon: Acer palmatum\n",
    "trees/P3-c/tree.yml": "accession: P3\ntaxon: Pinus thunbergii\nplace: yard\n",
}


@pytest.mark.parametrize(
    ("trees", "about"),
    [
        ("[T2, T1]", ("T2", "T1")),
        ("P3", ("P3",)),
        ("taxon = acer*", ("T1", "T2")),
        ("place = yard and accession = T?", ("T1",)),
    ],
)
def test_a_shared_note_is_given_to_each_tree_concerned(tmp_path: Path, trees: str, about: tuple[str, ...]) -> None:
    text = f"---\ntrees: {trees}\nkind: demonstrated\nby: renn\n---\nA day.\n"
    collection, problems = read(tmp_path, {**THREE, SHARED: text})
    assert problems == []
    for accession, tree in collection.trees.items():
        if accession not in about:
            assert tree.notes == () and tree.events == ()
            continue
        (note,), (event,) = tree.notes, tree.events
        assert (note.trees, note.path, note.event) == (about, SHARED, "2010-06-01-day")
        assert (event.tree, event.id, event.from_note, event.trees) == (accession, "2010-06-01-day", True, ())


def test_exchanged_tags_name_the_other_tree(tmp_path: Path) -> None:
    text = "---\ntrees: [T1, T2]\nkind: tags exchanged\n---\nx"
    trees = read(tmp_path, {**THREE, SHARED: text})[0].trees
    assert trees["T1"].events[0].trees == (EventRef("T2", None),)
    assert trees["T2"].events[0].trees == (EventRef("T1", None),)


def test_a_shared_note_must_say_whom_it_is_about(tmp_path: Path) -> None:
    _, problems = read(tmp_path, {**THREE, SHARED: "---\nkind: fed\n---\nx"})
    assert (only(problems).rule, only(problems).mark.line) == ("missing-key", 2)


def test_a_tree_that_is_not_there_is_told_with_the_nearest(tmp_path: Path) -> None:
    collection, problems = read(tmp_path, {**THREE, SHARED: "---\ntrees: [T1, T22]\n---\nx"})
    problem = only(problems)
    assert (problem.rule, problem.mark.line, problem.mark.column, problem.instead) == ("unknown-tree", 2, 13, "T2")
    assert len(collection.trees["T1"].notes) == 1


def test_a_tree_whose_record_cannot_be_read_is_not_told_again(tmp_path: Path) -> None:
    _, problems = read(tmp_path, {**THREE, "trees/T2-b/tree.yml": "a: [", SHARED: "---\ntrees: [T1, T2]\n---\nx"})
    assert rules(problems) == ["bad-yaml"]


def test_a_query_that_cannot_be_read_and_one_that_finds_nothing(tmp_path: Path) -> None:
    files: dict[str, str | bytes] = {
        "notes/2010-a.md": "---\ntrees: taxn = x\n---\nx",
        "notes/2010-b.md": "---\ntrees: taxon = x\n---\nx",
    }
    _, problems = read(tmp_path, {**THREE, **files})
    assert [(p.rule, p.severity, p.mark.line) for p in problems] == [
        ("bad-query", Severity.ERROR, 2),
        ("nothing-found", Severity.WARNING, 2),
    ]
    assert problems[0].instead == "taxon"


def test_a_shared_note_of_the_same_name_as_a_trees_own_is_told(tmp_path: Path) -> None:
    files: dict[str, str | bytes] = {"trees/T1-a/notes/2010-x.md": "own", "notes/2010-x.md": "---\ntrees: T1\n---\nx"}
    collection, problems = read(tmp_path, {**THREE, **files})
    assert [note.body for note in collection.trees["T1"].notes] == ["own"]
    assert (only(problems).rule, only(problems).subject) == ("duplicate-id", ("T1", "note", "2010-x#2"))
