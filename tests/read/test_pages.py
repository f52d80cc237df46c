from __future__ import annotations

from pathlib import Path

import pytest

from archive_tools.model.grades import Visibility
from archive_tools.model.problems import Reach
from archive_tools.read import read_collection, read_pages

from .folder_of import errors, made, only, read, rules


def test_pages_of_the_collection_are_read_with_their_titles(tmp_path: Path) -> None:
    files: dict[str, str | bytes] = {
        "pages/visiting.md": "---\ntitle: Visiting us\n---\n\n# Hours\n",
        "pages/staff/handbook.md": "---\nedition: internal\n---\n# The handbook\n",
        "pages/how-we-date.md": "Text.\n",
    }
    collection, problems = read(tmp_path, files)
    assert problems == []
    assert [(page.path, page.title, page.visibility) for page in collection.pages] == [
        ("how-we-date.md", "How we date", Visibility.PUBLIC),
        ("staff/handbook.md", "The handbook", Visibility.INTERNAL),
        ("visiting.md", "Visiting us", Visibility.PUBLIC),
    ]
    visiting = collection.pages[2]
    assert str(visiting.where.at("body")) == "pages/visiting.md:5:1"
    assert visiting.body == "# Hours\n" and str(visiting.where.at("title")) == "pages/visiting.md:2:8"


@pytest.mark.parametrize(
    ("text", "rule"),
    [
        ("---\nediton: internal\n---\nSecret\n", "unknown-key"),
        ("---\nedition: intern\n---\nSecret\n", "unknown-word"),
        ("---\nedition: internal\nSecret\n", "bad-front-matter"),
        ("edition: internal\n---\nSecret\n", "bad-front-matter"),
        ("---\nedition: [internal\n---\nSecret\n", "bad-yaml"),
    ],
)
def test_a_page_whose_edition_cannot_be_trusted_is_left_out_and_stops_a_build(
    tmp_path: Path, text: str, rule: str
) -> None:
    collection, problems = read(tmp_path, {"pages/a.md": text, "pages/b.md": "B\n"})
    assert [page.path for page in collection.pages] == ["b.md"]
    assert (only(errors(problems)).rule, only(errors(problems)).reach) == (rule, Reach.RECORD)


def test_pages_kept_elsewhere_join_those_of_the_collection(tmp_path: Path) -> None:
    house = made(tmp_path / "house", {"pages/visiting.md": "Ours\n"})
    made(tmp_path / "content", {"visiting.md": "Theirs\n", "home.md": "Home\n", "logo.svg": "x"}, None)
    collection, problems = read_collection(house, tmp_path / "content")
    assert collection is not None
    assert [(page.path, page.body, page.where.file) for page in collection.pages] == [
        ("home.md", "Home\n", "content/home.md"),
        ("visiting.md", "Ours\n", "pages/visiting.md"),
    ]
    assert rules(problems) == ["stray-file", "duplicate-page"]


def test_the_collections_own_folder_of_pages_is_read_once(tmp_path: Path) -> None:
    collection, problems = read_collection(made(tmp_path, {"pages/a.md": "A\n"}), tmp_path / "pages")
    assert collection is not None and len(collection.pages) == 1 and problems == []


def test_a_folder_of_pages_alone(tmp_path: Path) -> None:
    made(tmp_path / "content", {"a.md": "A\n"}, None)
    pages, problems = read_pages(tmp_path / "content")
    assert [page.path for page in pages] == ["a.md"] and problems == []
    assert rules(read_pages(tmp_path / "none")[1]) == ["no-pages"]
