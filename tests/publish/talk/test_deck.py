"""Decks as presentation files: read back by python-pptx, which wrote them by another way than it reads."""

from __future__ import annotations

import io
import zipfile
from typing import Any

import pytest
from lxml import etree
from pptx import Presentation
from pptx.enum.shapes import MSO_SHAPE_TYPE

from archive_tools.publish.talk import Slide, too_long
from archive_tools.publish.talk.layouts import LAYOUTS
from archive_tools.publish.talk.slide import LINE, MAP, PAIR, YEARS, Bar, Figure, Spot
from tests.publish.talk.decks import PLAN, made, plate, slide

LINE_OF_TWO = Figure(
    "Brannock Nursery, 1963–1984; nobody known, 1984–1991.",
    bars=(Bar("Brannock Nursery, 1963–1984", 0, 0, 0.7, 0.75, "owned"), Bar("Nobody known", 0.75, 0.75, 1, 1, "gap")),
    years=(("1970", 0.3), ("1980", 0.6)),
)
COURTS = Figure("Tide Court", spots=(Spot("Gate", 0, 0), Spot("Tide Court", 1, 1, True)), ways=((0, 1),))


def deck_of(*slides: Slide) -> Any:
    return Presentation(io.BytesIO(made(slides)[0]))


def test_it_is_16_to_9_and_the_layouts_are_ours() -> None:
    deck = deck_of(*PLAN)
    assert deck.slide_width / deck.slide_height == pytest.approx(16 / 9)
    assert [layout.name for layout in deck.slide_layouts] == [layout.name for layout in LAYOUTS.values()]
    assert [one.shapes.title.text_frame.text for one in deck.slides] == [one.title for one in PLAN]


def test_words_notes_and_alternative_texts_are_in_their_places() -> None:
    deck = deck_of(*PLAN)
    assert deck.slides[1].notes_slide.notes_text_frame.text == "Say it slowly."
    pictures = [s for one in deck.slides for s in one.shapes if hasattr(s, "image")]
    assert len(pictures) == 3
    assert {p._element.nvPicPr.cNvPr.get("descr") for p in pictures} == {"A maple in a blue pot."}


def test_nothing_of_the_machine_or_of_the_library_is_left_in_the_file() -> None:
    content = made(PLAN)[0]
    core = Presentation(io.BytesIO(content)).core_properties
    assert (core.title, core.author, core.last_modified_by) == ("What we do not know", "Ilse Adeyi", "The Terraces")
    assert core.created == core.modified and core.created.year == 2027
    with zipfile.ZipFile(io.BytesIO(content)) as parts:
        assert not [name for name in parts.namelist() if "thumbnail" in name]
        assert b"Macintosh" not in parts.read("docProps/app.xml")


def test_every_part_of_the_file_is_well_formed_and_reached() -> None:
    with zipfile.ZipFile(io.BytesIO(made(PLAN)[0])) as parts:
        assert parts.testzip() is None
        for name in parts.namelist():
            if name.endswith((".xml", ".rels")):
                etree.fromstring(parts.read(name))


def test_a_picture_is_shown_whole_and_not_stretched() -> None:
    shown = next(s for s in deck_of(PLAN[1]).slides[0].shapes if hasattr(s, "image"))
    assert shown.width / shown.height == pytest.approx(1.6, rel=1e-3)
    assert shown.crop_left == shown.crop_top == 0


def test_beside_words_a_picture_fills_its_half_by_being_cut_not_stretched() -> None:
    shown = next(s for s in deck_of(PLAN[0]).slides[0].shapes if hasattr(s, "image"))
    seen_width, seen_height = 1.6 * (1 - shown.crop_left - shown.crop_right), 1 - shown.crop_top - shown.crop_bottom
    assert shown.width / shown.height == pytest.approx(seen_width / seen_height, rel=1e-3)


@pytest.mark.parametrize(("layout", "figure"), [(LINE, LINE_OF_TWO), (MAP, COURTS)])
def test_drawings_are_shapes_with_a_text_for_who_cannot_see_them(layout: str, figure: Figure) -> None:
    group = next(
        s for s in deck_of(Slide("k", layout, "Whose hands", figure=figure)).slides[0].shapes
        if s.shape_type == MSO_SHAPE_TYPE.GROUP
    )  # fmt: skip
    assert group._element.nvGrpSpPr.cNvPr.get("descr") == figure.says
    words = {s.text_frame.text for s in group.shapes if s.has_text_frame}
    assert {bar.words for bar in figure.bars} | {spot.name for spot in figure.spots} <= words


def test_a_gap_is_no_bar() -> None:
    group = next(
        s for s in deck_of(Slide("k", LINE, "Whose hands", figure=LINE_OF_TWO)).slides[0].shapes
        if s.shape_type == MSO_SHAPE_TYPE.GROUP
    )  # fmt: skip
    bars = [s for s in group.shapes if s.shape_type == MSO_SHAPE_TYPE.AUTO_SHAPE]
    assert len(bars) == 2  # the firm part of the first holder's time, and its vague end


def test_years_stand_in_the_middle_of_their_row() -> None:
    deck = deck_of(Slide("k", YEARS, "Through the years", plates=tuple(plate(f"{at}.png") for at in range(4))))
    pictures = [s for s in deck.slides[0].shapes if hasattr(s, "image")]
    left, right = pictures[0].left, deck.slide_width - pictures[-1].left - pictures[-1].width
    assert left == pytest.approx(right, abs=36000)


@pytest.mark.parametrize("layout", [PAIR, YEARS])
def test_the_year_stands_under_each_picture(layout: str) -> None:
    deck = deck_of(Slide("k", layout, "Then and now", plates=(plate("x.png"), plate("y.png"))))
    assert [s.text_frame.text for s in deck.slides[0].shapes if s.name == "Year"] == ["1962", "1962"]


def test_words_that_have_no_room_are_told() -> None:
    assert too_long(PLAN) == ()
    crowded = slide("k", "A title that goes on " * 20)
    assert [one.key for one, _ in too_long((crowded,))] == ["k"]
