"""The mapping file: what it decides, and where it says what is wrong with it."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archive_tools.model.collection import Collection
from archive_tools.sort_in.csv_text import BadTableError, rows_of, separator_of
from archive_tools.sort_in.facts import MappingFile
from archive_tools.sort_in.mapping import mapping_of
from tests.making import collection as made
from tests.making import tree
from tests.sort_in.scenes import card, collection, line, scene, shot, taken_in, whose

FILES = ("IMG_1.JPG", "a/IMG_2.JPG", "b/IMG_2.JPG", "old prints/möhre.tif")
HOUSE: Collection = made(tree(accession="S1979.2"), tree(accession="S1986.1"))


def _mapped(text: str) -> MappingFile:
    return mapping_of(text, "map.csv", FILES, HOUSE)


def _spots(found: MappingFile) -> list[tuple[int | None, int | None, str]]:
    return [(one.mark.line, one.mark.column, one.rule) for one in found.problems]


def test_a_table_says_whose_a_picture_is_and_what_photos_yml_will_say() -> None:
    found = _mapped(
        "file,accession,view,date,dated_by,caption,people\n"
        'IMG_1.JPG,S1979.2,front,1962~,print,"Before the wall, in May",Oda; Pim\n'
        "a/IMG_2.JPG,S1979.2; S1986.1,,,,,\n"
        "möhre.tif,-,,,,,\n"
    )
    assert not found.problems
    assert found.rows["IMG_1.JPG"].trees == ("S1979.2",)
    assert dict(found.rows["IMG_1.JPG"].entry) == {
        "date": "1962~",
        "dated_by": "print",
        "view": "front",
        "caption": "Before the wall, in May",
        "people": ["Oda", "Pim"],
    }
    assert found.rows["a/IMG_2.JPG"].trees == ("S1979.2", "S1986.1")
    assert found.rows["old prints/möhre.tif"].trees == ()


@pytest.mark.parametrize(
    ("text", "spot"),
    [
        ("", (1, 1, "bad-table")),
        ("file\nIMG_1.JPG\n", (1, 1, "missing-key")),
        ("file,accession,vew\n", (1, 16, "unknown-key")),
        ("file,accession,file\n", (1, 16, "duplicate-key")),
        ("file,accession\nIMG_1.JPG,S1979.3\n", (2, 11, "unknown-tree")),
        ("file,accession\nIMG_1.JPG,S1979.2; S9\n", (2, 20, "unknown-tree")),
        ("file,accession\nIMG_9.JPG,S1979.2\n", (2, 1, "photo-missing")),
        ("file,accession\nIMG_2.JPG,S1979.2\n", (2, 1, "unclear-file")),
        ("file,accession\nIMG_1.JPG,S1979.2\nIMG_1.JPG,S1986.1\n", (3, 1, "duplicate-entry")),
        ("file,accession,view\nIMG_1.JPG,S1979.2,fornt\n", (2, 19, "unknown-word")),
        ("file,accession,date\nIMG_1.JPG,S1979.2,3.5.1962\n", (2, 19, "bad-date")),
        ('file,accession,caption\n"IMG_1.JPG",S1979.2,"two\nlines",x\n', (3, 8, "bad-table")),
        ('file,accession\n"IMG_1.JPG,S1979.2\n', (2, 1, "bad-table")),
        ('file,accession\n"IMG_1.JPG"x,S1979.2\n', (2, 12, "bad-table")),
        ("file,accession\nIMG_1.JPG,S1979.2,extra\n", (2, 19, "bad-table")),
        ("file,accession\n,S1979.2\n", (2, 1, "missing-key")),
        ("file,accession,caption\nIMG_1.JPG,S1979.2,a\x00b\n", (2, 19, "control-character")),
    ],
)
def test_what_is_wrong_is_told_with_line_and_column(text: str, spot: tuple[int, int, str]) -> None:
    found = _mapped(text)
    told = _spots(found)
    assert told[0][:2] == spot[:2], found.problems
    assert told[0][2] == spot[2] or spot[2] == "unknown-word", told
    assert found.rows == {}


def test_a_slip_is_answered_with_the_nearest_that_would_do() -> None:
    (problem,) = _mapped("file,accession\nIMG_1.JPG,S1979.3\n").problems
    assert problem.instead == "S1979.2"
    (problem,) = _mapped("file,acession\n").problems[:1]
    assert problem.instead == "accession"


def test_a_table_from_a_spreadsheet_with_semicolons_or_tabs_and_a_byte_order_mark(tmp_path: Path) -> None:
    root, source = collection(tmp_path / "house"), tmp_path / "card"
    shot(source / "1.jpg", scene(1), "2026-05-03 10:00:00")
    table = tmp_path / "map.csv"
    for sign in (";", "\t"):
        table.write_bytes(f"\ufefffile{sign}accession\r\n1.jpg{sign}S1979.2\r\n".encode())
        plan = taken_in(root, source, mapping=table).plan
        assert plan.problems == ()
        assert whose(plan) == {"1.jpg": ("S1979.2",)}


def test_a_table_in_another_encoding_is_refused_in_plain_words(tmp_path: Path) -> None:
    root, source = collection(tmp_path / "house"), tmp_path / "card"
    shot(source / "1.jpg", scene(1), "2026-05-03 10:00:00")
    table = tmp_path / "map.csv"
    table.write_bytes("file,accession\n".encode("utf-16"))
    (problem,) = taken_in(root, source, mapping=table).plan.problems
    assert "UTF-16" in problem.what


def test_the_table_decides_where_other_ways_differ_and_says_so(tmp_path: Path) -> None:
    root, source = collection(tmp_path / "house"), tmp_path / "card"
    card(source / "1.jpg", "S1979.2", "2026-05-03 10:00:00")
    shot(source / "S1986.1.jpg", scene(2), "2026-05-03 10:01:00")
    assert whose(taken_in(root, source).plan)["S1986.1.jpg"] == "doubtful"
    table = tmp_path / "map.csv"
    table.write_text("file,accession,view,date,dated_by\nS1986.1.jpg,S1986.1,front,1962,print\n")
    done = taken_in(root, source, mapping=table, apply=True)
    told = line(done.plan, "S1986.1.jpg")
    assert told.target == "trees/S1986.1-a-tree/photos/1962_front_1.jpg"
    assert told.because == ("line 2 of the mapping file says so",)
    assert any("although it follows the card of S1979.2" in one for one in told.told)
    assert (root / "trees/S1986.1-a-tree/photos/photos.yml").read_text() == (
        "- file: 1962_front_1.jpg\n  date: 1962\n  dated_by: print\n  view: front\n"
    )


def test_the_table_may_leave_the_tree_to_the_card_and_add_a_view(tmp_path: Path) -> None:
    root, source = collection(tmp_path / "house"), tmp_path / "card"
    card(source / "1.jpg", "S1979.2", "2026-05-03 10:00:00")
    shot(source / "2.jpg", scene(2), "2026-05-03 10:01:00")
    table = tmp_path / "map.csv"
    table.write_text("file,accession,view\n2.jpg,,back\n")
    plan = taken_in(root, source, mapping=table).plan
    assert line(plan, "2.jpg").target == "trees/S1979.2-a-tree/photos/2026-05-03_back_1.jpg"


def test_the_table_may_file_a_card_and_leave_a_picture_out(tmp_path: Path) -> None:
    root, source = collection(tmp_path / "house"), tmp_path / "card"
    card(source / "1.jpg", "S1979.2", "2026-05-03 10:00:00")
    shot(source / "2.jpg", scene(2), "2026-05-03 10:01:00")
    table = tmp_path / "map.csv"
    table.write_text("file,accession\n1.jpg,S1979.2\n2.jpg,-\n")
    assert whose(taken_in(root, source, mapping=table).plan) == {"1.jpg": ("S1979.2",), "2.jpg": "left out"}


def test_with_a_faulty_table_nothing_at_all_is_filed(tmp_path: Path) -> None:
    root, source = collection(tmp_path / "house"), tmp_path / "card"
    shot(source / "S1979.2.jpg", scene(1), "2026-05-03 10:00:00")
    table = tmp_path / "map.csv"
    table.write_text("file,accession\nS1979.2.jpg,S1979.9\n")
    done = taken_in(root, source, mapping=table, apply=True)
    assert done.receipt is None
    assert done.plan.problems
    assert not (root / "trees/S1979.2-a-tree/photos").exists()


_CELLS = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\r\0"), max_size=12)
_TABLES = st.lists(st.lists(_CELLS, min_size=2, max_size=4), min_size=1, max_size=5)


@settings(deadline=None)
@given(_TABLES, st.sampled_from([csv.QUOTE_ALL, csv.QUOTE_NONNUMERIC]))
def test_tables_are_taken_apart_as_pythons_own_reader_does(table: list[list[str]], quoting: int) -> None:
    written = io.StringIO()
    csv.writer(written, quoting=quoting, lineterminator="\n").writerows(table)
    text = written.getvalue()
    if separator_of(text.partition("\n")[0]) != ",":
        return
    expected = [row for row in csv.reader(io.StringIO(text, newline="")) if any(cell.strip() for cell in row)]
    rows = rows_of(text)
    assert [[cell.text for cell in row] for row in rows] == expected
    lines = text.split("\n")
    for row in rows:
        for cell in row:
            assert lines[cell.line - 1][cell.column - 1 :][:1] == '"'


@settings(max_examples=300, deadline=None)
@given(
    st.one_of(
        st.text(max_size=200),
        st.lists(
            st.sampled_from(
                ["file", "accession", "date", "view", "IMG_1.JPG", "S1979.2", "-", ",", ";", "\t", '"', "\n", " ",
                 "1962", "front", "children", "yes", "é", "\x00", "source", "people", "\\", "a/IMG_2.JPG", "consent"]
            ),
            max_size=40,
        ).map("".join),
        st.lists(st.sampled_from(["IMG_1.JPG,S1979.2,", "a/IMG_2.JPG,,", "möhre.tif,-,", "1962", "x", "\n", '"a\nb"']),
                 max_size=12).map(lambda parts: "file,accession,date\n" + "".join(parts)),
    )
)  # fmt: skip
def test_any_text_at_all_is_either_used_or_answered_with_places(text: str) -> None:
    found = _mapped(text)
    assert bool(found.problems) or all(
        row.trees is None or set(row.trees) <= set(HOUSE.trees) for row in found.rows.values()
    )
    assert not (found.problems and found.rows)
    last = text.count("\n") + 1
    for problem in found.problems:
        assert problem.mark.file == "map.csv"
        assert problem.mark.line is not None and 1 <= problem.mark.line <= last
        assert problem.mark.column is not None and problem.mark.column >= 1
        assert problem.what


def test_a_broken_quotation_says_where_it_was_opened() -> None:
    with pytest.raises(BadTableError) as raised:
        rows_of('a,b\n1,"2\n3,4\n')
    assert (raised.value.line, raised.value.column) == (2, 3)
