"""The page on which marks are placed: what it carries, and who has it."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from decimal import Decimal
from html.parser import HTMLParser
from typing import Any

from archive_tools.illustrate import measure
from archive_tools.model.grades import Edition
from archive_tools.model.page import Page, Site
from archive_tools.model.photo import ComparisonWanted, MeasureWanted, PictureScale
from archive_tools.model.places_in_files import Where
from archive_tools.model.tree import Tree
from archive_tools.model.words import Words
from archive_tools.publish import make_site, marks_page
from tests.publish.sample_view import ELM, FOREST, HERE, sample_pictures, sample_view
from tests.publish.test_translation import Marked

LIST = Where("trees/M1-elm/photos/photos.yml", {(0,): (4, 5), (0, "file"): (4, 11)}, (0,))
MEASURED = ComparisonWanted(
    "first", "1971_front_1.jpg", "2024_front_1.jpg", HERE, align_on=("foot", "fork"),
    measure=(MeasureWanted(Words.plain("Apex"), None, None, "apex"),
             MeasureWanted(Words.plain("Rim"), "rim left", "foot", None)),
)  # fmt: skip


def elm() -> Tree:
    old, new = ELM.photos
    old = replace(
        old, width=4000, height=3000, where=LIST, marks=(("</script><b>", (1.5, 2.0)), ("2", (3.0, 4.0))),
        scale=PictureScale("2", "</script><b>", Decimal("50.0"), None),
    )  # fmt: skip
    return replace(ELM, photos=(old, replace(new, width=5000, height=3750, where=Where(new.path))),
                   comparisons=(MEASURED,))  # fmt: skip


def site(edition: Edition, tree: Tree | None = None) -> Site:
    return make_site(sample_view(edition, trees=(tree or elm(), FOREST)), sample_pictures())


def page_of(made: Site) -> Page:
    (page,) = [page for page in made.pages if page.path == "trees/M1/marks/index.md"]
    return page


class Sheet(HTMLParser):
    """The text of the script element with the page's data, as a browser finds it."""

    def __init__(self) -> None:
        super().__init__()
        self.inside, self.text = False, ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.inside = tag == "script" and ("id", "marks-sheet") in attrs

    def handle_data(self, data: str) -> None:
        self.text += data if self.inside else ""

    def handle_endtag(self, tag: str) -> None:
        self.inside = False


def sheet_of(page: Page) -> dict[str, Any]:
    reader = Sheet()
    reader.feed(page.body)
    found: dict[str, Any] = json.loads(reader.text)
    return found


def test_a_tree_without_photographs_and_the_public_edition_have_no_page_and_no_instruments() -> None:
    internal, public = site(Edition.INTERNAL), site(Edition.PUBLIC)
    assert [page.path for page in internal.pages if "/marks/" in page.path] == ["trees/M1/marks/index.md"]
    assert {file.path for file in internal.files} >= {"assets/marks.css", "assets/marks.js"}
    assert [page.path for page in public.pages if "marks" in page.path] == []
    assert [file.path for file in public.files if "marks" in file.path] == []
    assert not any("Place marks" in page.body for page in public.pages)


def test_sizes_are_those_of_the_originals_and_pictures_those_of_the_site() -> None:
    old, new = sheet_of(page_of(site(Edition.INTERNAL)))["photos"]
    assert (old["width"], old["height"], old["url"]) == (4000, 3000, "../../../pictures/then-960.jpg")
    assert (new["width"], new["height"], new["url"]) == (5000, 3750, "../../../pictures/now-1280.jpg")


def test_marks_and_scales_come_as_written_whatever_their_names() -> None:
    old, new = sheet_of(page_of(site(Edition.INTERNAL)))["photos"]
    assert old["marks"] == [["</script><b>", [1.5, 2.0]], ["2", [3.0, 4.0]]]
    assert old["scale"] == ["2", "</script><b>", "50.0", ""], "50.0 is known more closely than 50"
    assert (new["marks"], new["scale"]) == ([], None)


def test_lines_go_into_the_entry_at_its_own_indent_or_make_a_new_one() -> None:
    old, new = sheet_of(page_of(site(Edition.INTERNAL)))["photos"]
    assert (old["listed"], old["where"], old["indent"]) == (True, "trees/M1-elm/photos/photos.yml:4:5", 4)
    assert (new["listed"], new["where"], new["indent"]) == (False, "trees/M1-elm/photos/photos.yml", 2)


def test_the_names_a_comparison_leans_on_are_asked_for() -> None:
    (pair,) = sheet_of(page_of(site(Edition.INTERNAL)))["pairs"]
    assert pair["names"] == ["foot", "fork", "apex", "rim left"]


def test_a_photograph_whose_size_is_not_known_is_not_offered() -> None:
    old, new = elm().photos
    made = site(Edition.INTERNAL, replace(elm(), photos=(old, replace(new, width=0))))
    assert [photo["file"] for photo in sheet_of(page_of(made))["photos"]] == [old.file]


def test_the_tree_page_and_its_comparison_lead_there() -> None:
    (body,) = [page.body for page in site(Edition.INTERNAL).pages if page.path == "trees/M1/index.md"]
    links = re.findall(r'href="([^"]*marks/[^"]*)"', body)
    assert "../../trees/M1/marks/" in links
    assert "../../trees/M1/marks/?photo=1971_front_1.jpg&amp;beside=2024_front_1.jpg" in links


def test_it_reckons_with_the_same_uncertainty_as_measuring_does() -> None:
    assert marks_page.PLACING == measure.PLACING


def test_every_word_the_script_says_comes_from_the_catalogue() -> None:
    made = make_site(sample_view(Edition.INTERNAL, trees=(elm(),)), sample_pictures(), Marked())
    words = sheet_of(page_of(made))["words"]
    assert len(words) > 30
    assert all(word.startswith("⟦") for word in words.values())
    script = next(file.content for file in made.files if file.path == "assets/marks.js")
    assert script is not None
    used = set(re.findall(r'say\((?:[^"()]*\? )?"(\w+)"', script.decode()))
    assert used <= set(words)
