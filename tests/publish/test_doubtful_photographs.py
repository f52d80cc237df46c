"""A photograph that is not certain to show its tree, or whose date nobody wrote down, says so in words wherever it is
shown, in both editions.
"""

from __future__ import annotations

import re
from dataclasses import replace
from html import unescape
from typing import Any

import pytest

from archive_tools.model.dates import DatePolicy
from archive_tools.model.grades import Edition
from archive_tools.model.pictures import Cut, StripFrame, YearsStrip
from archive_tools.model.tree import Tree
from archive_tools.model.words import Words
from archive_tools.publish import make_site
from archive_tools.publish.context import Context
from archive_tools.publish.photographs import caution
from archive_tools.publish.translation import translations_for
from archive_tools.read.edtf_text import read_date
from tests.publish.sample_view import ELM, FOREST, sample_pictures, sample_view

LATER = ELM.photos[1].file


def elm(**keys: Any) -> Tree:
    """The elm with a first photograph of which this is written."""
    first, second = ELM.photos
    return replace(ELM, photos=(replace(first, caption=Words.plain("From a tin."), **keys), second))


def words(tree: Tree, path: str, edition: Edition = Edition.PUBLIC) -> str:
    """The text of a page; the tree's two photographs are its film."""
    frames = (StripFrame(photo.file, Cut(f"pictures/{photo.file}", 480, 360), True) for photo in tree.photos)
    pictures = replace(sample_pictures(), strips={"M1": (YearsStrip("M1", "front", LATER, tuple(frames)),)})
    site = make_site(sample_view(edition, trees=(tree, FOREST)), pictures)
    (page,) = (page for page in site.pages if page.path == path)
    return " ".join(unescape(re.sub("<[^>]+>", " ", page.body)).split())


@pytest.mark.parametrize("edition", list(Edition))
def test_a_photograph_that_is_probably_the_tree_says_so_on_line_film_comparison_and_sheet(edition: Edition) -> None:
    tree = elm(sure="probably")
    page = words(tree, "trees/M1/index.md", edition)
    # On the line of years and in the film before the caption, beside the comparison with the date it is about.
    assert page.count("Probably this tree. From a tin. T. Verrell") == 2
    assert "About 1971: probably this tree." in page
    sheet = words(tree, "trees/M1/years/index.md", edition)
    assert sheet.count("Probably this tree. From a tin") == 2, "in the drawing, and in the list that says the same"


def test_a_portrait_that_is_probably_the_tree_says_so_on_the_wall_and_in_the_opening() -> None:
    tree = replace(elm(sure="probably"), portrait=ELM.photos[0].file)
    for path in ("trees/index.md", "index.md", "trees/M1/index.md"):
        assert "The photograph: probably this tree" in words(tree, path), path
    for path in ("trees/index.md", "index.md"):
        assert "The photograph:" not in words(elm(sure="probably"), path), "the portrait itself is certain"


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ({"dated_by": "estimate"}, "Dated by estimate. From a tin"),
        ({"dated_by": "what it shows", "sure": "probably"}, "Probably this tree; dated by what it shows. From a tin"),
        ({"when": read_date("1971?", DatePolicy("north"))}, "Perhaps 1971. From a tin"),
    ],
)
def test_a_date_that_is_not_certain_says_so_in_words(keys: dict[str, Any], said: str) -> None:
    tree = elm(**keys)
    assert said in words(tree, "trees/M1/index.md")
    assert said in words(tree, "trees/M1/years/index.md")


@pytest.mark.parametrize("dated_by", ["print", "camera", "file name", None])
def test_what_is_certain_says_nothing_of_it(dated_by: str | None) -> None:
    page = words(elm(dated_by=dated_by), "trees/M1/index.md")
    assert not re.search("robably|Dated by [^a-z]|erhaps|dated by estimate", page)
    assert "From a tin. T. Verrell" in page


def test_the_doubt_keeps_its_strength_in_japanese() -> None:
    context = Context(sample_view(), sample_pictures(), "ja", translations_for("ja"))
    doubtful = replace(ELM.photos[0], sure="probably", dated_by="estimate")
    assert caution(context, doubtful) == "おそらくこの樹; 年代は推定による"
