from __future__ import annotations

import hashlib
from decimal import Decimal
from pathlib import Path

import pytest

from archive_tools.model.event import Citation, EventRef
from archive_tools.model.grades import Visibility
from archive_tools.model.photo import PictureScale
from archive_tools.model.problems import Reach, Severity
from archive_tools.model.words import Words
from archive_tools.read.schema_photo import PhotoSchema

from .folder_of import MAPLE, errors, only, picture, places, read, read_tree, rules

FOLDER = "trees/T1-a/photos"
LIST = f"{FOLDER}/photos.yml"

EVERY_KEY = """\
- file: 1962_front.jpg
  of: [T1, T2]
  sure: probably
  date: 1962~
  dated_by: caption on back
  why: Written in pencil
  timing: {after: potted, at_least: P1Y}
  view: front
  caption: In the yard
  alt: A small tree
  photographer: dracott
  rights_holder: house
  held_by: archive
  credit: The archive
  rights: CC-BY-4.0
  permission: documents/letter.pdf
  people: [quist, a boy]
  children: true
  consent: unknown
  shows: [trained, container]
  marks: {rim left: [1, 2.5], apex: [4, 0]}
  scale: {from: rim left, to: apex, cm: 61.5, plus_minus: 0.5}
  source: album
  visibility: internal
  public_from: 2030
"""


def test_every_key_of_a_photograph_reaches_the_model(tmp_path: Path) -> None:
    data = picture(8, 6)
    others: dict[str, str | bytes] = {f"{FOLDER}/1962_front.jpg": data, LIST: EVERY_KEY}
    collection, problems = read_tree(tmp_path, "", **others, **{"trees/T2/tree.yml": "accession: T2\ntaxon: x\n"})
    assert problems == []
    (photo,) = collection.trees["T1"].photos
    assert collection.trees["T2"].photos == (photo,)
    assert (photo.file, photo.path, photo.id) == ("1962_front.jpg", f"{FOLDER}/1962_front.jpg", "1962_front")
    assert (photo.width, photo.height, photo.fingerprint) == (8, 6, hashlib.sha256(data).hexdigest())
    assert (photo.of, photo.sure, photo.dated_by, photo.view) == (("T1", "T2"), "probably", "caption on back", "front")
    assert photo.when is not None and photo.when.text == "1962~"
    assert (photo.why, photo.caption, photo.alt) == (
        Words.plain("Written in pencil"),
        Words.plain("In the yard"),
        Words.plain("A small tree"),
    )
    (timing,) = photo.timing
    assert timing.other == EventRef(None, "potted") and str(timing.where.at("at_least")) == f"{LIST}:7:37"
    assert (photo.photographer, photo.rights_holder, photo.held_by) == ("dracott", "house", "archive")
    assert (photo.credit, photo.rights, photo.permission) == (
        Words.plain("The archive"),
        "CC-BY-4.0",
        Words.plain("documents/letter.pdf"),
    )
    assert (photo.people, photo.children, photo.consent) == (("quist", "a boy"), True, "unknown")
    assert photo.shows == ("trained", "container")
    assert photo.marks == (("rim left", (1.0, 2.5)), ("apex", (4.0, 0.0)))
    assert photo.scale == PictureScale("rim left", "apex", Decimal("61.5"), Decimal("0.5"))
    assert (photo.sources, photo.visibility) == ((Citation("album"),), Visibility.INTERNAL)
    assert photo.public_from is not None and photo.public_from.text == "2030"
    assert str(photo.where.at("date")) == f"{LIST}:4:9"


def test_no_key_of_the_schema_is_without_a_test() -> None:
    keys = {field.alias or name for name, field in PhotoSchema.model_fields.items()}
    assert keys == {line.strip("- ").partition(":")[0] for line in EVERY_KEY.splitlines()}


def test_a_photograph_without_an_entry_is_shown_and_told(tmp_path: Path) -> None:
    collection, problems = read_tree(tmp_path, "", **{f"{FOLDER}/1962_front.jpg": picture()})
    (photo,) = collection.trees["T1"].photos
    assert photo.of == ("T1",) and photo.when is not None
    assert (photo.when.text, photo.dated_by) == ("1962", "file name")
    problem = only(problems)
    assert (problem.rule, problem.severity, problem.reach) == ("photo-not-listed", Severity.WARNING, Reach.TOLD)


# Which date holds: as written, then the file name, then the camera (the order of the format's own rule).
DATES = [
    # name, EXIF original, EXIF digitised, entry, date, dated_by
    ("1962_a.jpg", "1970:01:02 10:00:00", None, "", "1962", "file name"),
    ("a.jpg", "1970:01:02 10:00:00", None, "", "1970-01-02", "camera"),
    ("a.jpg", None, "2014:01:02 10:00:00", "", None, None),
    ("1962_a.jpg", None, None, "date: 1963, dated_by: print", "1963", "print"),
    ("1962_a.jpg", None, None, "date: 1963", "1963", None),
    ("1962_a.jpg", None, None, "dated_by: estimate", "1962", "estimate"),
    ("1962_a.jpg", "1970:01:02 10:00:00", None, "dated_by: camera", "1970-01-02", "camera"),
    ("1962_a.jpg", None, None, "dated_by: camera", "1962", "camera"),
    ("1962~_a.jpg", None, None, "", "1962~", "file name"),
    ("196X.jpg", None, None, "", "196X", "file name"),
]


@pytest.mark.parametrize(("name", "taken", "digitised", "entry", "date", "dated_by"), DATES)
def test_what_a_photograph_is_dated_by(
    tmp_path: Path,
    name: str,
    taken: str | None,
    digitised: str | None,
    entry: str,
    date: str | None,
    dated_by: str | None,
) -> None:
    others: dict[str, str | bytes] = {f"{FOLDER}/{name}": picture(taken=taken, digitised=digitised)}
    if entry:
        others[LIST] = f"- {{file: {name}, {entry}}}\n"
    (photo,) = read_tree(tmp_path, "", **others)[0].trees["T1"].photos
    assert (photo.when.text if photo.when else None, photo.dated_by) == (date, dated_by)


def test_a_photograph_that_nothing_dates_is_told(tmp_path: Path) -> None:
    _, problems = read_tree(tmp_path, "", **{f"{FOLDER}/a.jpg": picture(), LIST: "- file: a.jpg\n"})
    assert (only(problems).rule, only(problems).severity) == ("no-date", Severity.WARNING)


FAULTS = [
    ("visibilty: restricted", "unknown-key", "visibility"),
    ("view: fornt", "unknown-word", "front"),
    ("dated_by: lab", "unknown-word", "lab stamp"),
    ("sure: maybe", "unknown-word", "yes, probably or no"),
    ("consent: 'true'", "unknown-word", "yes, no or unknown"),
    ("children: some", "bad-value", "true or false"),
    ("marks: {rim: 3}", "bad-value", "[x, y]"),
    ("marks: [1, 2]", "bad-value", "rim left"),
    ("marks: {rim: [1, two]}", "bad-number", "digits"),
    ("scale: {from: a, to: b}", "missing-key", "cm"),
    ("scale: {from: a, to: a, cm: 3}", "bad-value", "two marks"),
    ("scale: {from: a, to: b, cm: 0}", "bad-number", "centimetres"),
    ("file: a.jpg", "duplicate-key", "once"),
]


@pytest.mark.parametrize(("fault", "rule", "instead"), FAULTS)
def test_a_faulty_entry_leaves_out_its_photograph_alone(tmp_path: Path, fault: str, rule: str, instead: str) -> None:
    others: dict[str, str | bytes] = {
        f"{FOLDER}/a.jpg": picture(8),
        f"{FOLDER}/b.jpg": picture(9),
        LIST: f"- file: a.jpg\n  {fault}\n- {{file: b.jpg, date: 1962}}\n",
    }
    collection, problems = read_tree(tmp_path, "", **others)
    assert [photo.file for photo in collection.trees["T1"].photos] == ["b.jpg"]
    problem = only(problems)
    assert (problem.rule, problem.mark.file, problem.mark.line) == (rule, LIST, 2)
    assert (problem.reach, problem.subject) == (Reach.STATEMENT, ("T1", "photo", "a.jpg"))
    assert instead in (problem.instead or "")


def test_a_faulty_timing_leaves_its_photograph_standing(tmp_path: Path) -> None:
    entry = "- {file: a.jpg, date: 1962, timing: [{aftr: x}, {before: y}]}\n"
    collection, problems = read_tree(tmp_path, "", **{f"{FOLDER}/a.jpg": picture(), LIST: entry})
    (photo,) = collection.trees["T1"].photos
    assert [str(timing.other) for timing in photo.timing] == ["y"]
    assert errors(problems)[0].rule == "unknown-key"


def test_an_entry_of_no_file_is_told_and_no_unlisted_photograph_shown(tmp_path: Path) -> None:
    # The entry may be meant for the file that is not listed, and it says that the photograph is restricted.
    others: dict[str, str | bytes] = {
        f"{FOLDER}/1962_front.jpg": picture(8),
        f"{FOLDER}/1970_front.jpg": picture(9),
        LIST: "- {file: 1970_front.jpg}\n- file: 1962_fornt.jpg\n  visibility: restricted\n",
    }
    collection, problems = read_tree(tmp_path, "", **others)
    assert [photo.file for photo in collection.trees["T1"].photos] == ["1970_front.jpg"]
    missing, unlisted = sorted(problems, key=lambda problem: problem.rule)
    assert (missing.rule, unlisted.rule) == ("photo-missing", "photo-not-listed")
    assert (str(missing.mark), missing.instead) == (f"{LIST}:2:9", "1962_front.jpg")
    assert unlisted.severity is Severity.ERROR and unlisted.subject == ("T1", "photo", "1962_front.jpg")


def test_only_a_file_without_an_entry_is_offered_for_one_that_is_missing(tmp_path: Path) -> None:
    others: dict[str, str | bytes] = {
        f"{FOLDER}/1962_front_1.jpg": picture(8),
        LIST: "- file: 1962_front_1.jpg\n- file: 1962_front_2.jpg\n",
    }
    _, problems = read_tree(tmp_path, "", **others)
    assert (only(problems).rule, only(problems).instead) == ("photo-missing", None)


@pytest.mark.parametrize(
    "entry", ["- fil: a.jpg\n  visibility: restricted\n", "- visibility: restricted\n", "- a.jpg\n"]
)
def test_an_entry_that_names_no_file_stops_a_build(tmp_path: Path, entry: str) -> None:
    collection, problems = read_tree(tmp_path, "", **{f"{FOLDER}/a.jpg": picture(), LIST: entry})
    assert collection.trees["T1"].photos == ()
    assert Reach.RECORD in {problem.reach for problem in problems if problem.mark.file == LIST}


def test_a_list_that_cannot_be_read_leaves_out_all_its_photographs(tmp_path: Path) -> None:
    collection, problems = read_tree(tmp_path, "", **{f"{FOLDER}/a.jpg": picture(), LIST: "- {file: a.jpg\n"})
    assert collection.trees["T1"].photos == ()
    assert (only(problems).rule, only(problems).reach) == ("bad-yaml", Reach.RECORD)


def test_two_entries_of_one_file_leave_it_out(tmp_path: Path) -> None:
    text = "- {file: a.jpg, visibility: public}\n- {file: a.jpg, visibility: restricted}\n"
    collection, problems = read_tree(tmp_path, "", **{f"{FOLDER}/a.jpg": picture(), LIST: text})
    assert collection.trees["T1"].photos == ()
    assert places(problems) == [(LIST, 2, 10)] and f"{LIST}:1:10" in problems[0].what


def test_one_entry_may_stand_alone(tmp_path: Path) -> None:
    text = "file: a.jpg\ndate: 1962\n"
    collection, problems = read_tree(tmp_path, "", **{f"{FOLDER}/a.jpg": picture(), LIST: text})
    assert problems == [] and len(collection.trees["T1"].photos) == 1


@pytest.mark.parametrize("data", [b"", b"no picture", picture()[:200], b"GIF89a"])
def test_a_file_that_is_no_picture_is_left_out(tmp_path: Path, data: bytes) -> None:
    collection, problems = read_tree(tmp_path, "", **{f"{FOLDER}/1962.jpg": data, LIST: "- file: 1962.jpg\n"})
    assert collection.trees["T1"].photos == ()
    problem = only(problems)
    assert (problem.rule, problem.mark.file, problem.mark.line) == ("unreadable-picture", f"{FOLDER}/1962.jpg", None)
    assert problem.subject == ("T1", "photo", "1962.jpg")


def test_a_sort_of_picture_that_is_not_read_is_told_and_not_passed_over(tmp_path: Path) -> None:
    _, problems = read_tree(tmp_path, "", **{f"{FOLDER}/1962.HEIC": b"\0\0\0\x18ftypheic", f"{FOLDER}/a.txt": "x"})
    assert [(p.rule, p.severity) for p in problems if p.rule != "photo-not-listed"] == [
        ("unreadable-picture", Severity.ERROR),
        ("stray-file", Severity.WARNING),
    ]


def test_two_pictures_that_differ_in_the_ending_alone_are_told(tmp_path: Path) -> None:
    others: dict[str, str | bytes] = {f"{FOLDER}/1962.jpeg": picture(8), f"{FOLDER}/1962.jpg": picture(9)}
    collection, problems = read_tree(tmp_path, "", **others)
    assert [photo.file for photo in collection.trees["T1"].photos] == ["1962.jpeg"]
    assert only(errors(problems)).subject == ("T1", "photo", "1962.jpg")


def test_photographs_come_by_name_whatever_the_order_of_the_list(tmp_path: Path) -> None:
    names = ["1970.jpg", "1962.jpg", "1990.jpg"]
    others: dict[str, str | bytes] = {f"{FOLDER}/{name}": picture(8 + n) for n, name in enumerate(names)}
    others[LIST] = "".join(f"- file: {name}\n" for name in names)
    photos = read_tree(tmp_path, "", **others)[0].trees["T1"].photos
    assert [photo.file for photo in photos] == ["1962.jpg", "1970.jpg", "1990.jpg"]


# Photographs of several trees

TWO: dict[str, str | bytes] = {"trees/T1-a/tree.yml": MAPLE, "trees/T2/tree.yml": "accession: T2\ntaxon: x\n"}


def test_a_shared_photograph_is_given_to_each_tree_it_shows(tmp_path: Path) -> None:
    files: dict[str, str | bytes] = {
        "photos/1962.jpg": picture(),
        "photos/photos.yml": "- {file: 1962.jpg, of: [T2, T1]}\n",
    }
    collection, problems = read(tmp_path, {**TWO, **files})
    assert problems == []
    assert [photo.path for photo in collection.trees["T1"].photos] == ["photos/1962.jpg"]
    assert collection.trees["T1"].photos == collection.trees["T2"].photos


def test_a_shared_photograph_of_no_tree_is_left_out(tmp_path: Path) -> None:
    files: dict[str, str | bytes] = {
        "photos/1962.jpg": picture(8),
        "photos/1963.jpg": picture(9),
        "photos/photos.yml": "- file: 1962.jpg\n",
    }
    _, problems = read(tmp_path, {**TWO, **files})
    assert [(p.rule, p.mark.file, p.severity) for p in problems] == [
        ("photo-not-listed", "photos/1963.jpg", Severity.ERROR),
        ("missing-key", "photos/photos.yml", Severity.ERROR),
    ]


def test_of_overrides_the_folder(tmp_path: Path) -> None:
    files: dict[str, str | bytes] = {f"{FOLDER}/1962.jpg": picture(), LIST: "- {file: 1962.jpg, of: T2}\n"}
    collection, problems = read(tmp_path, {**TWO, **files})
    assert problems == [] and collection.trees["T1"].photos == ()
    assert [photo.of for photo in collection.trees["T2"].photos] == [("T2",)]


def test_a_photograph_of_a_tree_that_is_not_there_is_told_with_the_nearest(tmp_path: Path) -> None:
    files: dict[str, str | bytes] = {f"{FOLDER}/1962.jpg": picture(), LIST: "- {file: 1962.jpg, of: T21}\n"}
    _, problems = read(tmp_path, {**TWO, **files})
    problem = only(problems)
    assert (problem.rule, str(problem.mark), problem.instead) == ("unknown-tree", f"{LIST}:1:24", "T2")


def test_a_shared_photograph_of_the_same_name_as_a_trees_own_is_told(tmp_path: Path) -> None:
    files: dict[str, str | bytes] = {
        f"{FOLDER}/1962.jpg": picture(8),
        LIST: "- file: 1962.jpg\n",
        "photos/1962.jpg": picture(9),
        "photos/photos.yml": "- {file: 1962.jpg, of: T1}\n",
    }
    collection, problems = read(tmp_path, {**TWO, **files})
    assert [photo.path for photo in collection.trees["T1"].photos] == [f"{FOLDER}/1962.jpg"]
    assert rules(problems) == ["duplicate-id"] and only(problems).subject == ("T1", "photo", "1962.jpg#2")
