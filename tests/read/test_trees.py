from __future__ import annotations

import os
from pathlib import Path

import pytest

from archive_tools.model.grades import Visibility
from archive_tools.model.problems import Reach, Severity
from archive_tools.model.tree import Kin, OriginLocality
from archive_tools.model.words import Words
from archive_tools.read import read_collection
from archive_tools.read.schema_tree import TreeSchema

from .folder_of import MAPLE, errors, made, only, places, read, read_tree, rules

EVERY_KEY = """\
accession: T1
taxon: [Acer palmatum, Acer buergerianum]
other_numbers: {number: "0123", given_by: nursery, from: 1962, until: 1970}
name: {en: The Maple, ja: 楓}
rootstock: Acer palmatum
common_name: maple
native_to: Japan
tradition: bonsai
form: [broom, stair cascade]
penjing_class: water-and-land
kind: planting
members:
  - {id: a, accession: T2, taxon: Acer, count: 3, from: 1972, until: 1980, place_in_planting: left, began: from seed}
  - {accession: T3}
  - {taxon: Acer}
visibility: public
public_from: 2030
place: {id: yard, visibility: public}
label: A label.
credit_line: A gift
talking_points: |
  - One
  - Two
label_written: 2025-03-30
portrait: a.jpg
origin_locality: {text: A gully, public_text: The hills, latitude: -33.8567, longitude: 151.2, sensitivity: high}
hazards: [sharp, overhanging]
events: {id: e, kind: fed}
comparisons:
  id: c
  before: a.jpg
  after: b.jpg
  title: Then
  align_on: [rim, foot]
  measure: [{name: height, from: rim, to: apex}, {name: apex, mark: apex}]
  text: Lower
  visibility: internal
  public_from: 2031
kin: {text: A sister, holder: school, url: "https://school.example/a"}
due: {kind: repotted, every: P3Y/P5Y, months: [3, 4], cycle: roots, text: early}
not_shown: {date: 2026-11, until: 2027-03, why: frost}
"""


def test_every_key_of_a_tree_reaches_the_model(tmp_path: Path) -> None:
    house = "name: x\ncustodian: y\nvocabulary: {style: stair cascade, hazards: overhanging}\n"
    collection, problems = read(tmp_path, {"trees/T1-a/tree.yml": EVERY_KEY}, house)
    assert problems == []
    tree = collection.trees["T1"]
    assert (tree.accession, tree.folder) == ("T1", "trees/T1-a")
    assert tree.taxon == ("Acer palmatum", "Acer buergerianum")
    (number,) = tree.other_numbers
    assert (number.number, number.given_by) == ("0123", "nursery")
    assert number.from_ is not None and number.until is not None
    assert (number.from_.text, number.until.text) == ("1962", "1970")
    assert tree.name == Words((("en", "The Maple"), ("ja", "楓")))
    assert (tree.rootstock, tree.common_name, tree.native_to) == (
        "Acer palmatum",
        Words.plain("maple"),
        Words.plain("Japan"),
    )
    assert (tree.tradition, tree.form, tree.penjing_class) == ("bonsai", ("broom", "stair cascade"), "water-and-land")
    assert (tree.kind, tree.is_planting) == ("planting", True)
    first, second, third = tree.members
    assert (first.id, first.accession, first.taxon, first.count) == ("a", "T2", "Acer", 3)
    assert (first.place_in_planting, first.began) == (Words.plain("left"), Words.plain("from seed"))
    assert first.from_ is not None and first.until is not None
    assert (second.id, second.count, third.id) == ("T3", 1, "member-3")
    assert tree.visibility is Visibility.PUBLIC
    assert tree.public_from is not None and tree.public_from.text == "2030"
    assert (tree.place, tree.place_visibility) == ("yard", Visibility.PUBLIC)
    assert (tree.label, tree.credit_line) == (Words.plain("A label."), Words.plain("A gift"))
    assert tree.talking_points == Words.plain("- One\n- Two")
    assert tree.label_written is not None and tree.label_written.text == "2025-03-30"
    assert (tree.portrait, tree.hazards) == ("a.jpg", ("sharp", "overhanging"))
    assert tree.origin_locality == OriginLocality(
        Words.plain("A gully"), Words.plain("The hills"), -33.8567, 151.2, "high"
    )
    assert [event.id for event in tree.events] == ["e"]
    (comparison,) = tree.comparisons
    assert (comparison.id, comparison.before, comparison.after) == ("c", "a.jpg", "b.jpg")
    assert (comparison.title, comparison.text) == (Words.plain("Then"), Words.plain("Lower"))
    assert comparison.align_on == ("rim", "foot") and comparison.visibility is Visibility.INTERNAL
    length, moved = comparison.measure
    assert (length.name, length.from_mark, length.to_mark, length.mark) == (Words.plain("height"), "rim", "apex", None)
    assert (moved.from_mark, moved.to_mark, moved.mark) == (None, None, "apex")
    assert tree.kin == (Kin(Words.plain("A sister"), "school", "https://school.example/a"),)
    (due,) = tree.due
    assert due.every is not None
    assert (due.kind, due.every[0].text, due.every[1].text) == ("repotted", "P3Y", "P5Y")
    assert (due.months, due.cycle, due.text) == ((3, 4), "roots", Words.plain("early"))
    (hidden,) = tree.not_shown
    assert hidden.when is not None and hidden.until is not None and hidden.why == Words.plain("frost")


def test_no_key_of_the_schema_is_without_a_test() -> None:
    keys = {field.alias or name for name, field in TreeSchema.model_fields.items()}
    assert keys == {line.partition(":")[0] for line in EVERY_KEY.splitlines() if line[0] not in " -"}


def test_only_accession_and_taxon_are_required(tmp_path: Path) -> None:
    collection, problems = read_tree(tmp_path, "")
    tree = collection.trees["T1"]
    assert problems == []
    assert (tree.visibility, tree.kind, tree.events, tree.place_visibility) == (None, "single", (), None)


def test_a_place_may_be_its_id_alone(tmp_path: Path) -> None:
    tree = read_tree(tmp_path, "place: yard\n")[0].trees["T1"]
    assert (tree.place, tree.place_visibility) == ("yard", None)


def test_a_locality_that_says_no_sensitivity_is_kept_as_close_as_any(tmp_path: Path) -> None:
    tree = read_tree(tmp_path, "origin_locality: {text: A gully}\n")[0].trees["T1"]
    assert tree.origin_locality is not None and tree.origin_locality.sensitivity == "extreme"


OWN_FAULTS = [
    # key and value, rule, column, advice
    ("visibilty: restricted", "unknown-key", 1, "visibility"),
    ("visibility: Restricted", "bad-visibility", 13, "restricted"),
    ("species: Acer", "unknown-key", 1, "taxon"),
    ("form: bromm", "unknown-style", 7, "broom"),
    ("form: [raft, kengai]", "unknown-style", 14, "cascade"),
    ("penjing_class: shuihan", "unknown-word", 16, "water-and-land"),
    ("tradition: bonzai", "unknown-word", 12, "bonsai"),
    ("kind: plantation", "unknown-word", 7, "planting"),
    ("hazards: [sharpe]", "unknown-word", 11, "sharp"),
    ("public_from: next year", "bad-date", 14, ""),
    ("origin_locality: {latitude: 91}", "bad-number", 29, "90"),
    ("origin_locality: {sensitivity: hi}", "unknown-word", 32, "high"),
    ("origin_locality: {lat: 1}", "unknown-key", 19, "latitude"),
    ("place: {id: yard, visible: public}", "unknown-key", 19, "visibility"),
    ("name: [a, b]", "bad-value", 7, '"[a,b]"'),
    ("name: {english: a}", "bad-language", 7, "en"),
]


@pytest.mark.parametrize(("fault", "rule", "column", "instead"), OWN_FAULTS)
def test_a_fault_in_the_records_own_keys_stops_a_build(
    tmp_path: Path, fault: str, rule: str, column: int, instead: str
) -> None:
    collection, problems = read_tree(tmp_path, f"{fault}\nportrait: a.jpg\nlabel_written: 1951-02-30\n")
    first, second = errors(problems)
    assert (first.rule, first.mark.line, first.mark.column) == (rule, 3, column)
    assert instead in (first.instead or "")
    assert (second.rule, second.mark.line) == ("bad-date", 5)
    assert first.reach is Reach.RECORD and first.subject == ("T1", "tree", "T1")
    # What is left can be checked further, but is closed to everybody.
    tree = collection.trees["T1"]
    assert (tree.portrait, tree.visibility) == ("a.jpg", Visibility.RESTRICTED)


def test_a_tree_without_accession_is_missing_and_told(tmp_path: Path) -> None:
    collection, problems = read(tmp_path, {"trees/T1-a/tree.yml": "taxon: Acer\nacession: T1\n"})
    assert collection.trees == {}
    assert places(problems, "unknown-key") == [("trees/T1-a/tree.yml", 2, 1)]
    # The misspelt key is told once, not also as missing.
    assert rules(problems) == ["unknown-key"]


def test_a_missing_key_is_told_where_its_record_begins(tmp_path: Path) -> None:
    _, problems = read(tmp_path, {"trees/T1-a/tree.yml": "# A tree.\naccession: T1\n"})
    problem = only(problems)
    assert (problem.rule, str(problem.mark)) == ("missing-key", "trees/T1-a/tree.yml:2:1")
    assert "taxon" in problem.what


def test_all_faults_of_a_file_are_told_at_once(tmp_path: Path) -> None:
    text = "form: bromm\nvisibilty: public\nevents:\n  - {kind: fedd}\n  - {kind: fed, date: 1951-13}\nkin: {url: x}\n"
    _, problems = read_tree(tmp_path, text)
    assert [(p.rule, p.mark.line) for p in problems] == [
        ("unknown-style", 3),
        ("unknown-key", 4),
        ("unknown-kind", 6),
        ("bad-date", 7),
        ("missing-key", 8),
        ("bad-address", 8),
    ]


PARTS = [
    ("comparisons: [{before: a.jpg}, {before: a.jpg, after: b.jpg}]", "comparison", "comparisons"),
    (
        "comparisons: [{before: a, after: b, measure: {name: x, from: y}}, {before: a, after: b}]",
        "comparison",
        "comparisons",
    ),
    ("kin: [{txt: x}, {text: y}]", "kin", "kin"),
    ("due: [{kind: repoted}, {kind: fed}]", "due", "due"),
    ("due: [{kind: fed, every: 2 years}, {kind: fed}]", "due", "due"),
    ("due: [{kind: fed, months: [13]}, {kind: fed}]", "due", "due"),
    ("members: [{id: a, count: 0}, {id: b}]", "member", "members"),
    ("not_shown: [{date: soon}, {date: 2026}]", "not_shown", "not_shown"),
    ("other_numbers: [{nr: 3}, {number: 4}]", "other_number", "other_numbers"),
]


@pytest.mark.parametrize(("text", "sort", "key"), PARTS)
def test_a_faulty_item_leaves_out_itself_alone(tmp_path: Path, text: str, sort: str, key: str) -> None:
    collection, problems = read_tree(tmp_path, text + "\n")
    tree = collection.trees["T1"]
    assert len(getattr(tree, key)) == 1 and tree.visibility is None
    assert {problem.reach for problem in errors(problems)} == {Reach.STATEMENT}
    assert {problem.subject[:2] for problem in problems if problem.subject} == {("T1", sort)}


def test_a_second_comparison_of_the_same_id_is_left_out(tmp_path: Path) -> None:
    text = "comparisons:\n  - {id: c, before: a.jpg, after: b.jpg}\n  - {id: c, before: a.jpg, after: d.jpg}\n"
    collection, problems = read_tree(tmp_path, text)
    assert [one.after for one in collection.trees["T1"].comparisons] == ["b.jpg"]
    assert only(problems).subject == ("T1", "comparison", "c#2")


def test_a_broken_file_is_told_and_its_tree_missing(tmp_path: Path) -> None:
    collection, problems = read_tree(
        tmp_path, "form: [broom\nname: x\n", **{"trees/T2/tree.yml": "accession: T2\ntaxon: x\n"}
    )
    assert list(collection.trees) == ["T2"]
    problem = only(problems)
    assert (problem.rule, problem.reach, str(problem.mark)) == ("bad-yaml", Reach.RECORD, "trees/T1-a/tree.yml:3:7")


@pytest.mark.parametrize("content", [b"", b"# nothing yet\n", b"- accession: T1\n", b"just words\n", b"\xff\xfe\x00"])
def test_a_file_that_is_no_record_stops_a_build(tmp_path: Path, content: bytes) -> None:
    collection, problems = read(tmp_path, {"trees/T1-a/tree.yml": content})
    assert collection.trees == {}
    assert {problem.reach for problem in problems} == {Reach.RECORD}


def test_the_folder_must_begin_with_the_accession(tmp_path: Path) -> None:
    files: dict[str, str | bytes] = {
        "trees/T1/tree.yml": MAPLE,
        "trees/T2-the-pine/tree.yml": "accession: T2\ntaxon: x\n",
        "trees/T33-x/tree.yml": "accession: T3\ntaxon: x\n",
    }
    _, problems = read(tmp_path, files)
    assert places(problems) == [("trees/T33-x/tree.yml", 1, 12)] and rules(problems) == ["folder-name"]


def test_two_trees_of_one_accession_are_told_at_both_places(tmp_path: Path) -> None:
    files: dict[str, str | bytes] = {"trees/T1-a/tree.yml": MAPLE, "trees/T1-b/tree.yml": "# b\n" + MAPLE}
    collection, problems = read(tmp_path, files)
    assert collection.trees["T1"].folder == "trees/T1-a"
    assert places(problems, "duplicate-accession") == [
        ("trees/T1-a/tree.yml", 1, 12),
        ("trees/T1-b/tree.yml", 2, 12),
    ]
    assert "trees/T1-b/tree.yml:2:12" in problems[0].what and "trees/T1-a/tree.yml:1:12" in problems[1].what
    assert {problem.reach for problem in problems} == {Reach.RECORD}


def test_an_accession_must_have_the_form_the_house_asks_for(tmp_path: Path) -> None:
    house = "name: x\ncustodian: y\naccession_pattern: '^S[0-9]{4}'\n"
    files: dict[str, str | bytes] = {
        "trees/S1979/tree.yml": "accession: S1979\ntaxon: x\n",
        "trees/S1979.2/tree.yml": "accession: S1979.2\ntaxon: x\n",
    }
    _, problems = read(tmp_path, files, house)
    problem = only(problems)
    assert (problem.rule, problem.mark.file) == ("accession-pattern", "trees/S1979.2/tree.yml")


@pytest.mark.parametrize("accession", ["1985/102", "T#1", "T[1]", "a:b"])
def test_an_accession_that_no_folder_can_bear_is_refused(tmp_path: Path, accession: str) -> None:
    _, problems = read(tmp_path, {"trees/T1/tree.yml": f'accession: "{accession}"\ntaxon: x\n'})
    assert rules(problems) == ["bad-accession"]


@pytest.mark.parametrize("accession", ["1962", "1985.10", "0123", "no", "1985 102", "十-3"])
def test_accessions_stay_as_they_are_written(tmp_path: Path, accession: str) -> None:
    collection, problems = read(tmp_path, {f"trees/{accession}-x/tree.yml": f"accession: {accession}\ntaxon: x\n"})
    assert problems == [] and list(collection.trees) == [accession]


def test_a_folder_without_a_record_is_told(tmp_path: Path) -> None:
    _, problems = read(tmp_path, {"trees/T1-a/notes/1951.md": "x\n", "trees/T2/tree.yaml": "accession: T2\n"})
    assert [(p.rule, p.mark.file, p.severity) for p in problems] == [
        ("no-record", "trees/T1-a", Severity.ERROR),
        ("no-record", "trees/T2", Severity.ERROR),
        ("stray-file", "trees/T2/tree.yaml", Severity.WARNING),
    ]
    assert problems[2].instead == "tree.yml"


def test_stray_files_are_told_and_hidden_ones_are_not(tmp_path: Path) -> None:
    others: dict[str, str | bytes] = {
        "trees/T1-a/photo/a.jpg": "x",
        "trees/T1-a/tree.yml~": "x",
        "trees/T1-a/.DS_Store": "x",
        "trees/T1-a/documents/scans/letter.pdf": "x",
        "trees/list.txt": "x",
        ".git/config": "x",
        "steward/a.yml": "x",
        "README.md": "x",
    }
    _, problems = read_tree(tmp_path, "", **others)
    assert [(p.mark.file, p.instead) for p in problems] == [
        ("steward", "stewards"),
        ("trees/T1-a/photo", "photos"),
        ("trees/list.txt", None),
    ]
    assert {(p.rule, p.severity) for p in problems} == {("stray-file", Severity.WARNING)}


def test_a_link_out_of_the_collection_is_not_followed(tmp_path: Path) -> None:
    outside = tmp_path / "outside"
    made(outside, {"tree.yml": MAPLE, "x/tree.yml": MAPLE}, None)
    inside = made(tmp_path / "inside", {"trees/T1-a/notes/1951-a.md": "Text\n"})
    (inside / "trees/T1-a/tree.yml").symlink_to(outside / "tree.yml")
    (inside / "trees/T2").symlink_to(outside / "x")
    collection, problems = read_collection(inside)
    assert collection is not None and collection.trees == {}
    assert places(problems, "leads-out") == [("trees/T1-a/tree.yml", None, None), ("trees/T2", None, None)]
    assert {problem.reach for problem in problems} == {Reach.RECORD}


def test_a_link_to_a_file_of_the_collection_is_followed_and_one_to_a_folder_is_not(tmp_path: Path) -> None:
    inside = made(tmp_path, {"trees/T1-a/tree.yml": MAPLE, "documents/1951-a.md": "Text\n"})
    (inside / "trees/T1-a/notes").mkdir()
    (inside / "trees/T1-a/notes/1951-a.md").symlink_to("../../../documents/1951-a.md")
    (inside / "trees/T1-a/documents").symlink_to("..")
    (inside / "places.yml").symlink_to("nowhere")
    collection, problems = read_collection(inside)
    assert collection is not None
    assert [note.body for note in collection.trees["T1"].notes] == ["Text\n"]
    assert places(problems, "leads-out") == [("places.yml", None, None), ("trees/T1-a/documents", None, None)]


def test_names_that_cannot_be_kept_everywhere_are_told(tmp_path: Path) -> None:
    others: dict[str, str | bytes] = {
        "trees/T1-a/documents/CON": "x",
        "trees/T1-a/documents/deep/a:b.pdf": "x",
        "trees/T1-a/documents/Letter.pdf": "x",
        "trees/T1-a/documents/letter.PDF": "x",
    }
    collection, problems = read_tree(tmp_path, "", **others)
    assert [(p.rule, p.mark.file.rpartition("/")[2]) for p in problems] == [
        ("bad-file-name", "CON"),
        ("bad-file-name", "a:b.pdf"),
        ("same-name", "letter.PDF"),
    ]
    # Told, and nothing left out: the trees are read all the same.
    assert {problem.reach for problem in problems} == {Reach.TOLD} and "T1" in collection.trees


def test_a_name_in_another_encoding_can_be_told(tmp_path: Path) -> None:
    made(tmp_path, {"trees/T1-a/tree.yml": MAPLE, "trees/T1-a/documents/a.txt": "x"})
    (tmp_path / "trees/T1-a/documents" / os.fsdecode(b"ros\xe9.txt")).write_bytes(b"x")
    _, problems = read_collection(tmp_path)
    problem = only(problems)
    assert (problem.rule, problem.mark.file) == ("bad-file-name", "trees/T1-a/documents/ros\\xe9.txt")
