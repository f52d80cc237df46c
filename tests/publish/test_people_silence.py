"""Whoever asked for silence, over a whole built site: every file's bytes and every path of it.

A small invented collection with two anonymous donors, a masked teacher, a masked pupil and a masked owner of a pot.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from urllib.parse import unquote

import pytest

from archive_tools.model.grades import Edition
from archive_tools.pipeline import RefusedError
from archive_tools.site_plugin import build_site
from tests.making import AS_OF
from tests.read.folder_of import made

HOUSE = """\
name: The Slope
custodian: the-slope
hemisphere: north
site_url: https://slope.example/
defaults: {trees: public, events: public, notes: public, photographs: public, stewards: public, sources: public,
  objects: public}
"""
SILENT = "public_name: a private donor\n"
STEWARDS = {
    "the-slope": "name: The Slope\nkind: institution\n",
    "ottoline-vance": (
        f"name: Ottoline Vance\naliases: [Tilly of the Weir]\nborn: 1917\nkind: person\n{SILENT}about: She grew elms.\n"
    ),
    "perrin-dace": f"name: Perrin Dace\nkind: person\nvisibility: restricted\n{SILENT}taught_by: [zdenko-hruby]\n",
    "zdenko-hruby": "name: Zdeňko Hrubý\nnames: [{ja: 静かな先生}]\nkind: person\nvisibility: internal\n",
    "ilka-thorn": (
        "name: Ilka Thorn\nkind: person\ntaught_by: [{who: zdenko-hruby, from: 1951}, {who: bram-oss, from: 1955}]\n"
    ),
    "bram-oss": "name: Bram Oss\nkind: person\ntaught_by: [{who: perrin-dace, from: 1943}]\n",
    "weir-club": "name: The Weir Club\nkind: club\nmembers: [ottoline-vance, ilka-thorn]\n",
}
ELM = """\
accession: S1
taxon: Ulmus parvifolia
name: The Elm
events:
  - {id: sown, kind: sown, date: 1950, by: ottoline-vance, source: book}
  - {id: passed, kind: gift, date: 1960, from: ottoline-vance, to: perrin-dace, source: book}
  - {id: styled, kind: styled, date: 1965, by: ilka-thorn, with: [perrin-dace, ottoline-vance], source: book}
  - {id: pot, kind: repotted, date: 1966-04, by: ilka-thorn, into: red-oval, source: book}
  - {id: given, kind: gift, date: 1970-05-01, from: perrin-dace, to: the-slope, source: book}
"""
PINE = """\
accession: S2
taxon: Pinus thunbergii
name: The Pine
events:
  - {id: sown, kind: sown, date: 1948, by: bram-oss, source: book}
  - {id: passed, kind: purchase, date: 1955, from: bram-oss, to: ottoline-vance, source: book}
  - {id: worked, kind: bent, date: 1958, by: zdenko-hruby, source: book}
  - {id: given, kind: gift, date: 1972, from: ottoline-vance, to: the-slope, source: book}
"""
POT = """\
name: The red oval
kind: pot
maker: zdenko-hruby
owner: ottoline-vance
events:
  - {id: bought, kind: purchase, date: 1949, to: perrin-dace, source: book}
  - {id: passed, kind: gift, date: 1962, from: perrin-dace, to: ottoline-vance, source: book}
"""
FILES: dict[str, str | bytes] = {
    **{f"stewards/{one}.yml": text for one, text in STEWARDS.items()},
    "sources/book.yml": "title: Bench book\nkind: diary\n",
    "trees/S1-elm/tree.yml": ELM,
    "trees/S2-pine/tree.yml": PINE,
    "objects/red-oval.yml": POT,
}
SECRET = (
    "ottoline", "vance", "tilly", "of the weir", "perrin", "dace", "zdenko", "zdeňko", "hruby", "hrubý", "静かな先生",
    "1917", "1943", "1951", "she grew elms",
)  # fmt: skip
"""Names, aliases, ids, slugs, and what is only known of them."""


def site(folder: Path, files: dict[str, str | bytes] = FILES, edition: Edition = Edition.PUBLIC) -> Path:
    collection = made(folder / "house", files, HOUSE)
    build_site(
        collection, folder / "site", edition=edition, as_of=AS_OF, pages=None, cache=folder / "cache", quiet=True
    )
    return folder / "site"


def texts(built: Path) -> Iterator[tuple[str, str]]:
    """Every file: its path, and its bytes as they are, undone of the ways in which HTML, JSON and addresses write."""
    for path in sorted(built.rglob("*")):
        if path.is_file():
            raw = path.read_bytes().decode("utf-8", "replace")
            undone = unescape(unquote(re.sub(r"\\u([0-9a-fA-F]{4})", lambda m: chr(int(m[1], 16)), raw)))
            yield path.relative_to(built).as_posix(), f"{raw}\n{undone}"


def plain(text: str) -> str:
    decomposed = unicodedata.normalize("NFKD", text.casefold())
    return "".join(letter for letter in decomposed if not unicodedata.combining(letter))


@pytest.fixture(scope="module")
def public(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return site(tmp_path_factory.mktemp("silence"))


@pytest.fixture(scope="module")
def inside(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return site(tmp_path_factory.mktemp("inside"), edition=Edition.INTERNAL)


THEME = ("assets/", "search/")
"""The theme's own files, the same in every house."""


def test_no_byte_and_no_path_of_the_public_site_betrays_them(public: Path) -> None:
    found = [
        (path, word)
        for path, text in texts(public)
        for word in SECRET
        if plain(word) in plain(f"{path}\n{text}") and not (path.startswith(THEME) and word.isdigit())
    ]
    assert found == []


def test_the_search_would_find_them(inside: Path) -> None:
    """Inside the house the one with a public name is named: the same search finds her there."""
    found = {word for path, text in texts(inside) for word in SECRET if plain(word) in plain(f"{path}\n{text}")}
    assert {"ottoline", "vance", "zdenko", "hruby", "静かな先生", "1917", "she grew elms"} <= found
    assert not {"perrin", "dace"} & found, "restricted: in neither edition"


def test_their_opaque_ids_stand_nowhere(public: Path) -> None:
    pages = [path for path, text in texts(public) if "withheld-" in f"{path}{text}"]
    assert pages == []


def test_they_stand_by_their_public_name_in_pages_and_drawings(public: Path) -> None:
    elm = (public / "trees/S1/index.html").read_text("utf-8")
    pot = (public / "objects/red-oval/index.html").read_text("utf-8")
    for page in (elm, pot):
        drawing = page.split('<svg class="drawing wide"')[1].split("</svg>")[0]
        assert "rivate donor" in drawing
    assert "name withheld" in pot, "the maker, who has no public name"


def test_teachers_and_pupils_who_are_silent_are_in_no_line(public: Path) -> None:
    page = (public / "teaching/index.html").read_text("utf-8")
    assert "Bram Oss" in page
    assert "Ilka Thorn" in page
    assert "A teacher or a pupil is known of 2 people, in one line." in page
    assert "1955" in page
    assert "1951" not in page, "the lesson with the silent teacher"


def test_two_anonymous_donors_are_not_told_apart(tmp_path: Path, public: Path) -> None:
    """With one in the other's place in every record the public pages are the same to the letter."""
    other_of = {"ottoline-vance": "perrin-dace", "perrin-dace": "ottoline-vance"}

    def swapped(text: str | bytes) -> str | bytes:
        assert isinstance(text, str)
        return re.sub("ottoline-vance|perrin-dace", lambda one: other_of[one[0]], text)

    files = {path: swapped(text) if path.startswith(("trees/", "objects/")) else text for path, text in FILES.items()}
    other = site(tmp_path, files)
    pages = [path for path, _ in texts(public) if path.endswith(".html")]
    assert pages == [path for path, _ in texts(other) if path.endswith(".html")]
    differing = [path for path in pages if (public / path).read_bytes() != (other / path).read_bytes()]
    assert differing == []


@pytest.mark.parametrize(
    ("path", "text", "place"),
    [
        ("stewards/ilka-thorn.yml", STEWARDS["ilka-thorn"] + "about: She learned it all of Zdenko Hruby.\n", (4, 8)),
        ("objects/red-oval.yml", POT + "size: as wide as Tilly of the Weir could carry\n", (8, 7)),
        ("trees/S1-elm/tree.yml", ELM + "label: Sown by Ottoline\u00a0Vance.\n", (10, 8)),
    ],
)
def test_prose_that_names_them_stops_the_build_with_file_and_line(
    tmp_path: Path, path: str, text: str, place: tuple[int, int]
) -> None:
    with pytest.raises(RefusedError) as refused:
        site(tmp_path, {**FILES, path: text})
    assert [(p.mark.file, p.mark.line, p.mark.column) for p in refused.value.problems] == [(path, *place)]
    assert not (tmp_path / "site").exists()
