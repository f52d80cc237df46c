"""Whoever asked for silence stands in the drawings by the public name alone, and no drawing tells two of them apart."""

from __future__ import annotations

from pathlib import Path

import pytest

from archive_tools.illustrate.custody_line import custody_line
from archive_tools.illustrate.kinship_diagram import kinship_diagram
from archive_tools.illustrate.planting_chart import planting_chart
from archive_tools.model.grades import Edition
from archive_tools.pipeline import view
from tests.making import AS_OF
from tests.read.folder_of import made
from tests.reason.test_lineage_anonymity import FILES, HOUSE, SECRET

SEEDLING = """\
accession: T2
taxon: Ulmus parvifolia
visibility: public
kin: [{text: A sister of it, holder: perrin-dace}]
events:
  - {id: sown, kind: sown, date: 1966, by: [ottoline-vance, perrin-dace], from_tree: T1, source: book}
  - {id: given, kind: gift, date: 1975, from: [ottoline-vance, perrin-dace], to: ilka-thorn, joint: true, source: book}
"""
GROVE = """\
accession: T3
taxon: Ulmus parvifolia
kind: planting
visibility: public
members: [{id: one, accession: T2, from: 1980}, {id: two, from: 1980, until: 1990}]
events:
  - {id: made, kind: assembled, date: 1980, by: perrin-dace, trees: [one, two], source: book}
  - {id: remade, kind: assembled, date: 1991, by: ottoline-vance, trees: [one], source: book}
"""
ALL = {**FILES, "trees/T2-seedling/tree.yml": SEEDLING, "trees/T3-grove/tree.yml": GROVE}
CANARIES = (*SECRET, "ottoline-vance", "perrin-dace", "Ottoline Vance", "Perrin Dace")


def drawings(folder: Path, files: dict[str, str], edition: Edition = Edition.PUBLIC) -> dict[str, str]:
    """Every drawing of an edition, by the tree and its sort."""
    shown = view(made(folder, files, HOUSE), edition=edition, as_of=AS_OF, today=AS_OF)
    draw = {"line": custody_line, "kin": kinship_diagram, "planting": planting_chart}
    found = {f"{tree} {sort}": one(shown, tree) for tree in shown.records.trees for sort, one in draw.items()}
    return {key: svg for key, svg in found.items() if svg}


def test_no_name_id_or_date_of_theirs_is_in_a_public_drawing(tmp_path: Path) -> None:
    drawn = drawings(tmp_path, ALL)
    assert set(drawn) == {"T1 line", "T1 kin", "T2 line", "T2 kin", "T3 line", "T3 planting"}
    for key, svg in drawn.items():
        assert [word for word in CANARIES if word.casefold() in svg.casefold()] == [], key
    assert "a private donor" in drawn["T1 line"]
    assert "a private donor" in drawn["T3 planting"]


def test_inside_the_house_one_with_a_public_name_is_named(tmp_path: Path) -> None:
    inside = drawings(tmp_path, ALL, Edition.INTERNAL)
    assert "Ottoline Vance" in inside["T1 line"]
    assert not any("Perrin" in svg for svg in inside.values())


def test_two_who_asked_for_silence_are_not_told_apart(tmp_path: Path) -> None:
    """With one in the other's place in every record, the drawings are the same to the letter."""
    swapped = {
        path: text.replace("ottoline-vance", "\0").replace("perrin-dace", "ottoline-vance").replace("\0", "perrin-dace")
        for path, text in ALL.items()
        if path.startswith("trees/")
    }
    assert drawings(tmp_path / "one", ALL) == drawings(tmp_path / "other", {**ALL, **swapped})


@pytest.mark.parametrize("second", ["perrin-dace", "ottoline-vance"])
def test_nor_does_a_drawing_tell_whether_two_of_them_are_one(tmp_path: Path, second: str) -> None:
    """A loan and then a gift to somebody unnamed: two rows, whether or not it was the same person both times."""
    tree = f"""\
accession: T1
taxon: Ulmus parvifolia
visibility: public
events:
  - {{id: sown, kind: sown, date: 1950, by: ottoline-vance, source: book}}
  - {{id: given, kind: gift, date: 1960, from: ottoline-vance, to: ilka-thorn, source: book}}
  - {{id: lent, kind: loan, date: 1970, until: 1975, from: ilka-thorn, to: ottoline-vance, source: book}}
  - {{id: kept, kind: gift, date: 1975, from: ilka-thorn, to: {second}, source: book}}
"""
    files = {**FILES, "trees/T1-elm/tree.yml": tree}
    line = drawings(tmp_path, files)["T1 line"]
    assert line.count("again,") == 0
    words = line.split("</desc>")[1].split("</svg>")[0]
    assert "on loan 1970 to 1975" in words
    assert "loan 1970, given" not in words
    assert words.count("a private donor") == 4, "three rows of holders and one of hands"
