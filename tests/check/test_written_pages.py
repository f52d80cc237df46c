"""Hand-written pages that would stand where another page stands are told and left out, and nothing else is."""

from __future__ import annotations

import pytest

from archive_tools.check import check_collection, without
from archive_tools.check.written_pages import pages_in_the_way
from archive_tools.model.collection import Collection, HandWrittenPage
from archive_tools.model.grades import Edition
from archive_tools.model.page import MADE_FOLDERS, address_of
from archive_tools.model.places_in_files import Where
from archive_tools.publish import make_site
from tests.check.builders import TODAY, collection, the_one
from tests.publish.sample_view import sample_pictures, sample_view


def pages(*paths: str) -> Collection:
    written = (HandWrittenPage(path, "A page", "Words.\n", Where(f"pages/{path}", {(): (1, 1)})) for path in paths)
    return collection(pages=tuple(written))


@pytest.mark.parametrize(
    ("path", "stands_at", "instead"),
    [
        ("objects.md", "objects/", "pages/about-objects.md"),
        ("Teaching.md", "teaching/", "pages/about-teaching.md"),
        ("tours/spring.md", "tours/spring/", "pages/spring.md"),
        ("tours/index.md", "tours/", "pages/about-tours.md"),
        ("work/README.md", "work/", "pages/about-work.md"),
        ("trees/s1979.2/marks.md", "trees/s1979.2/marks/", "pages/s1979.2-marks.md"),
    ],
)
def test_a_page_in_a_folder_that_the_archive_fills(path: str, stands_at: str, instead: str) -> None:
    made = pages("index.md", path, "visiting.md")
    problem = the_one(made)
    assert (problem.rule, str(problem.mark)) == ("page-in-the-way", f"pages/{path}:1:1")
    assert f"would stand at {stands_at}, where the archive puts" in problem.what
    assert problem.instead == f"another name, such as {instead}"
    assert [page.path for page in without(made, [problem]).pages] == ["index.md", "visiting.md"]


@pytest.mark.parametrize(
    ("one", "other", "address"),
    [
        ("visiting.md", "visiting/index.md", "visiting/"),
        ("index.md", "README.md", "the front door"),
        ("House.md", "house.md", "house/"),
    ],
)
def test_two_pages_at_one_address(one: str, other: str, address: str) -> None:
    problem = the_one(pages(one, other))
    assert problem.what == f"this page would stand at {address}, and so would pages/{one}"
    assert [page.path for page in without(pages(one, other), [problem]).pages] == [one]


def test_pages_of_the_house_s_own_stand_where_they_are() -> None:
    made = pages("index.md", "how-we-date.md", "glossary.md", "visiting.md", "staff/index.md", "staff/objects.md")
    assert list(pages_in_the_way(made)) == []
    assert check_collection(made, TODAY) == []


@pytest.mark.parametrize("edition", list(Edition))
def test_every_page_that_the_archive_makes_stands_in_one_of_those_folders(edition: Edition) -> None:
    site = make_site(sample_view(edition), sample_pictures())
    made = {address_of(page.path).partition("/")[0] for page in site.pages if not page.is_markdown}
    made |= {file.path.partition("/")[0] for file in site.files}
    assert made - set(MADE_FOLDERS) <= {"", "how-we-date", "glossary"}
    assert {"trees", "stewards", "objects"} <= made
