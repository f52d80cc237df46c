"""The sheet of years: everything on it, nothing over another, and as large as there is room for."""

from __future__ import annotations

from dataclasses import replace
from gettext import NullTranslations
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from archive_tools.model.grades import Edition
from archive_tools.model.page import Site
from archive_tools.publish import make_site
from archive_tools.publish.broken_lines import broken, letters
from archive_tools.publish.context import Context
from archive_tools.publish.photographs import Shot
from archive_tools.publish.poster_layout import BOTTOM, GAP, LABEL_LINE, TOP, WIDE, Layout, set_out
from archive_tools.publish.poster_layout import LABEL as LABEL_SIZE
from archive_tools.publish.poster_years import line_of_years
from archive_tools.publish.tree_poster import MOST
from archive_tools.publish.tree_years import YearFrame
from tests.publish.sample_view import ELM, cuts, sample_pictures, sample_view, year

SVG = "{http://www.w3.org/2000/svg}"


def picture(of: int, ratio: float = 4 / 3, caption: str = "In the yard") -> YearFrame:
    shot = Shot(cuts(f"p{of}", (960, round(960 / ratio))), "a tree", year=str(of))
    return YearFrame("picture", str(of), "", caption, shot=shot, credit="Pim Dracott")


def word(of: int, text: str, weight: int = 1) -> YearFrame:
    return YearFrame("word", str(of), text, "By somebody", weight=weight)


def edges(layout: Layout) -> list[tuple[float, float, float, float]]:
    """Left, top, right and bottom of each cell, its words included."""
    found = []
    for row in layout.rows:
        for cell in row.cells:
            found.append((cell.x, row.top, cell.x + cell.wide, row.top + layout.tall + cell.deep))
    return found


@pytest.mark.parametrize("count", [1, 2, 3, 5, 9, 16, 24])
@pytest.mark.parametrize("ratio", [0.5, 0.75, 4 / 3, 2.4])
def test_any_number_of_photographs_stands_on_the_sheet_and_none_on_another(count: int, ratio: float) -> None:
    frames = [picture(1950 + n, ratio) for n in range(count)]
    layout = set_out([*frames[:1], word(1950, "Potted"), *frames[1:]])
    found = edges(layout)
    assert len(found) == count
    assert all(left >= 0 and top >= TOP for left, top, _, _ in found)
    assert all(right <= WIDE + 1 and bottom <= BOTTOM for _, _, right, bottom in found)
    for row, below in pairwise(layout.rows):
        assert row.top + layout.tall + max(cell.deep for cell in row.cells) <= below.top
    for row in layout.rows:
        assert all(one.x + one.wide + GAP <= other.x + 0.01 for one, other in pairwise(row.cells))
    shapes = {round(cell.wide / layout.tall, 2) for row in layout.rows for cell in row.cells}
    assert all(abs(shape - ratio) < 0.02 for shape in shapes), "no picture is cut or stretched"


def test_pictures_are_as_large_as_there_is_room_for() -> None:
    few, many = set_out([picture(1950 + n) for n in range(3)]), set_out([picture(1950 + n) for n in range(12)])
    assert few.tall > many.tall
    # Twelve of 4:3 fit in three rows of four: a row of four is 1460 - 3 gaps wide at most.
    assert many.tall > 180


def test_what_happened_stands_under_the_picture_before_it_and_the_rest_before_the_first() -> None:
    layout = set_out([word(1950, "Struck"), picture(1960), word(1965, "The gale"), picture(1970)])
    cells = [cell for row in layout.rows for cell in row.cells]
    assert [cell.picture.year for cell in cells] == ["1960", "1970"]
    assert [[entry.lines for entry in cell.entries] for cell in cells] == [[("The gale",)], []]
    assert [entry.lines for entry in layout.margin.entries] == [("Struck",)]


LABEL = "Halvard built boats, and grew his maples in the boxes that the herring came in. " * 4


@pytest.mark.parametrize("count", [2, 3, 6, 9, 11, 24])
@pytest.mark.parametrize("ratio", [0.75, 4 / 3, 2.4])
def test_what_the_house_says_and_how_it_began_stand_clear_of_the_pictures(count: int, ratio: float) -> None:
    begun = [word(1950, "Struck as a cutting"), word(1951, "Potted")]
    layout = set_out([*begun, *(picture(1960 + n, ratio) for n in range(count))], LABEL)
    margin, cells = layout.margin, [cell for row in layout.rows for cell in row.cells]
    assert " ".join(margin.label) == LABEL.strip()
    assert len(margin.entries) == 2
    assert TOP + margin.deep <= BOTTOM
    assert all(cell.x + cell.wide <= WIDE + 1 for cell in cells)
    # As wide as the widest line can be: 0.45 of its size a letter is more than was measured.
    reaches = max(len(line) for line in margin.label) * LABEL_SIZE * 0.45
    beside = min(cell.x for cell in cells) >= reaches
    assert beside or layout.rows[0].top >= TOP + margin.deep + GAP
    said_deep = len(margin.label) * LABEL_LINE
    assert margin.right > reaches or min(entry.down for entry in margin.entries) >= said_deep
    assert all(edge[3] <= BOTTOM + 0.01 for edge in edges(layout))


def test_a_label_for_which_there_is_no_room_is_left_out_whole() -> None:
    layout = set_out([picture(1950), picture(2000)], LABEL * 20)
    assert layout.margin.label == ()
    assert len([cell for row in layout.rows for cell in row.cells]) == 2


def test_a_long_year_does_not_run_into_what_happened() -> None:
    quiet = YearFrame("quiet", "about 1961–74?", "", "Quiet years: nothing is known")
    layout = set_out([picture(1960), quiet, word(1975, "Potted"), picture(1980)])
    (cell, *_rest) = layout.rows[0].cells
    assert [entry.inset for entry in cell.entries] == [cell.entries[0].inset] * 2, "one column of years"
    # Fourteen letters at 15.5 units, each 0.43 of that at the mean: 93 units.
    assert cell.entries[0].inset > 93


def test_the_line_of_years_is_to_scale_and_its_silences_are_gaps() -> None:
    context = Context(sample_view(), sample_pictures(), "en", NullTranslations())
    line = line_of_years(context, ELM, 1000)
    # From 1 January 1951, the cutting, to 31 December 2024: 27,028 days. 1 January 1971 is 7,305 days on: 270.3.
    assert line.photographs == pytest.approx((270.3, 986.5), abs=0.5)
    assert line.events[0] == 0
    assert [written.year for written in line.years] == [str(year) for year in range(1960, 2021, 10)]
    assert [round(written.x, 1) for written in line.years][:2] == [121.6, 256.8]
    stretches = sorted([*line.held, *line.quiet])
    assert line.quiet
    assert (stretches[0][0], stretches[-1][1]) == (0, 1000)
    assert all(one[1] == other[0] for one, other in pairwise(stretches))


@pytest.mark.slow
def test_words_that_would_make_the_pictures_small_are_left_out_the_lightest_first() -> None:
    words = [word(1960, f"Something of little weight, number {n}, told at some length") for n in range(60)]
    layout = set_out([picture(1950), *words, word(1990, "Given to the house", weight=4), picture(2000)])
    kept = [" ".join(entry.lines) for row in layout.rows for cell in row.cells for entry in cell.entries]
    assert "Given to the house" in kept
    assert layout.left_out > 0
    assert len(kept) + layout.left_out == 61
    alone = set_out([picture(1950), picture(2000)])
    assert layout.tall >= 0.85 * alone.tall


def test_the_text_goes_across_the_head_rather_than_push_out_what_happened() -> None:
    happened = {1: ("The gale", "Out of the box"), 2: ("Left by Halvard to Marit", "Carried up", "A layer"),
                3: ("Restyled before an audience",), 5: ("Into the blue oval", "Nothing to report")}  # fmt: skip
    frames = [word(1954, "A cutting, in the year of the yellow boat")]
    for n in range(1, 12):
        frames += [picture(1960 + n), *(word(1960 + n, text) for text in happened.get(n, ()))]
    layout = set_out(frames, LABEL)
    assert layout.left_out == 0
    assert layout.margin.label
    assert layout.tall >= 150, "two rows of six: 1460 less five gaps is 221 a picture, 166 high"


def test_lines_are_broken_at_spaces_and_ideographs_anywhere() -> None:
    assert broken("one two three", 60, 15, "serif") == ("one two", "three")
    lines = broken("青沼すみれの庭から来た木である", 60, 15, "serif")
    assert "".join(lines) == "青沼すみれの庭から来た木である"
    assert max(len(line) for line in lines) == 4, "an ideograph is as wide as the size: four of 15 units in 60"
    assert broken("", 60, 15, "serif") == ()


def test_a_japanese_line_begins_with_no_closing_mark_and_parts_no_latin_word() -> None:
    """Requirements for Japanese Text Layout (W3C 2020), 3.1.7; a stop may hang in the margin."""
    text = "書記の手帳は一九六六年四月を始まりとし、写真は一九六一年。Skerrow Terracesの「楓」（雄）に、針金。"
    for wide in range(60, 400, 7):
        lines = broken(text, wide, 15, "serif")
        assert "".join(lines).replace(" ", "") == text.replace(" ", "")
        assert not any(line[0] in "、。」）" or line[-1] in "「（" for line in lines), lines
        assert all(letters(line.rstrip("、。")) * 15 * 0.43 <= max(wide, 8 * 15 * 0.43) + 1e-6 for line in lines), lines
        if wide > 8 * 15 * 0.43:
            assert [word for word in ("Skerrow", "Terraces") if not any(word in line for line in lines)] == []


def site(edition: Edition = Edition.PUBLIC) -> Site:
    return make_site(sample_view(edition), sample_pictures())


def sheet(made: Site) -> ElementTree.Element:
    (file,) = [file for file in made.files if file.path == "trees/M1/years/poster.svg"]
    assert file.content is not None
    return ElementTree.fromstring(file.content)


def test_the_drawing_stands_by_itself_with_links_to_the_sites_own_pictures() -> None:
    drawing = sheet(site())
    links = [image.get("href") for image in drawing.iter(f"{SVG}image")]
    assert links == ["../../../pictures/then-960.jpg", "../../../pictures/now-960.jpg"]
    text = " ".join("".join(element.itertext()) for element in drawing.iter(f"{SVG}text"))
    assert "The Ferry Elm" in text
    assert "In training since 1953" in text
    assert "Into the fish box" in text
    assert "Photographs: T. Verrell; Pim Dracott." in text
    assert "As of 25 November 2026." in text
    assert "Struckfromacuttingonariverbank." in text.replace(" ", ""), "what the house says of it"
    assert "Internal edition" not in text
    italic = ["".join(run.itertext()) for run in drawing.iter(f"{SVG}tspan") if run.get("class") == "italic"]
    assert italic == ["Ulmus parvifolia"], "the cultivar stands upright"


def test_the_page_has_the_drawing_and_a_list_that_says_the_same() -> None:
    made = site()
    (page,) = [page for page in made.pages if page.path == "trees/M1/years/index.md"]
    assert page.body.count("<svg") == 1
    listed = page.body[page.body.index("list-of-years") :]
    assert [words in listed for words in ("Into the fish box", "A broad elm", "Quiet years", "T. Verrell")] == [
        True
    ] * 4
    (tree,) = [page for page in made.pages if page.path == "trees/M1/index.md"]
    assert 'href="../../trees/M1/years/"' in tree.body


def test_of_very_many_photographs_some_are_shown_spread_over_all_years() -> None:
    print_, last = ELM.photos
    photos = [replace(print_, file=f"{n}.jpg", path=f"trees/M1-elm/photos/{n}.jpg", when=year(str(n)))
              for n in range(1960, 1996)]  # fmt: skip
    elm = replace(ELM, photos=(print_, *photos, last))
    pictures = {photo.path: cuts(photo.file.removesuffix(".jpg"), (960, 720)) for photo in elm.photos}
    made = make_site(sample_view(trees=(elm,)), replace(sample_pictures(), photos=pictures, comparisons={}))
    links = [image.get("href") or "" for image in sheet(made).iter(f"{SVG}image")]
    assert len(links) == MOST == len(set(links))
    assert "1960-960" in links[0]
    assert "2024_front_1-960" in links[-1]
    text = " ".join("".join(element.itertext()) for element in sheet(made).iter(f"{SVG}text"))
    assert "24 of its 38 photographs." in text


def test_a_tree_with_fewer_than_two_dated_photographs_has_no_sheet() -> None:
    one = replace(ELM, photos=ELM.photos[:1], portrait=None, comparisons=())
    made = make_site(sample_view(trees=(one,)), replace(sample_pictures(), comparisons={}))
    assert not any("/years/" in page.path for page in made.pages)
    assert not any(file.path.endswith(".svg") for file in made.files)
    assert not any('years/"' in page.body for page in made.pages)


def test_the_internal_sheet_says_that_it_is_not_for_the_public() -> None:
    text = " ".join("".join(element.itertext()) for element in sheet(site(Edition.INTERNAL)).iter(f"{SVG}text"))
    assert "Internal edition, not for the public." in text
