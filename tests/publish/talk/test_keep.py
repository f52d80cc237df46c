"""A deck made again: what its speaker did to it stays, the rest follows the records. Stories, one a test."""

from __future__ import annotations

import copy
import io
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from pptx import Presentation
from pptx.util import Mm

from tests.publish.talk.decks import PLAN, made, slide


def edited(content: bytes, change: Callable[[Any], None]) -> bytes:
    """The file after a speaker has opened it, done something, and saved it."""
    deck = Presentation(io.BytesIO(content))
    change(deck)
    out = io.BytesIO()
    deck.save(out)
    return out.getvalue()


def titles(content: bytes) -> list[str]:
    return [s.shapes.title.text_frame.text if s.shapes.title else "?" for s in Presentation(io.BytesIO(content)).slides]


def reworded(deck: Any) -> None:
    deck.slides[1].shapes.title.text_frame.paragraphs[0].runs[0].text = "A broom nobody signed"


def test_nothing_changed_and_nothing_is_told() -> None:
    first = made(PLAN)[0]
    again, changes = made(PLAN, first)
    assert titles(again) == titles(first)
    assert (changes.new, changes.changed, changes.kept, changes.own) == ((), (), (), 0)


def test_merely_opened_and_saved_is_not_edited() -> None:
    first = edited(made(PLAN)[0], lambda deck: None)
    assert made((PLAN[0], replace(PLAN[1], lines=("Another caption.",)), PLAN[2]), first)[1].kept == ()


def test_an_edited_title_stays_and_a_new_caption_elsewhere_comes() -> None:
    theirs = edited(made(PLAN)[0], reworded)
    plan = (PLAN[0], PLAN[1], replace(PLAN[2], title="The Besom, February 2026"))
    again, changes = made(plan, theirs)
    assert titles(again) == ["A label is a claim", "A broom nobody signed", "The Besom, February 2026"]
    assert changes.kept == ("A broom nobody signed",) and changes.outdated == ()
    assert changes.changed == ("The Besom, February 2026",)


def test_an_edited_slide_whose_records_changed_is_told() -> None:
    theirs = edited(made(PLAN)[0], reworded)
    again, changes = made((PLAN[0], replace(PLAN[1], title="The Besom, 1973"), PLAN[2]), theirs)
    assert "A broom nobody signed" in titles(again)
    assert changes.outdated == ("A broom nobody signed",)


@pytest.mark.parametrize(
    "change",
    [
        lambda s: setattr(s.notes_slide.notes_text_frame, "text", "Remember the pram."),
        lambda s: setattr(next(x for x in s.shapes if hasattr(x, "image")), "left", Mm(60)),
        lambda s: s.shapes.add_textbox(Mm(10), Mm(10), Mm(40), Mm(10)),
        lambda s: setattr(s.shapes.title.text_frame.paragraphs[0].runs[0].font, "bold", True),
    ],
    ids=["notes", "moved", "a box more", "bold"],
)
def test_whatever_was_edited_stays(change: Callable[[Any], None]) -> None:
    theirs = edited(made(PLAN)[0], lambda deck: change(deck.slides[1]))
    assert made(PLAN, theirs)[1].kept == (PLAN[1].title,)


def test_a_slide_of_the_speakers_own_stays_after_the_one_it_followed() -> None:
    def add(deck: Any) -> None:
        own = deck.slides.add_slide(deck.slide_layouts[1])
        own.shapes.title.text_frame.text = "My grandmother's pram"
        entries = deck.slides._sldIdLst
        moved = entries[-1]
        entries.remove(moved)
        entries.insert(1, moved)

    theirs = edited(made(PLAN)[0], add)
    plan = (PLAN[0], slide("section-1/zero", "The label itself"), *PLAN[1:])
    again, changes = made(plan, theirs)
    assert titles(again)[:3] == ["A label is a claim", "My grandmother's pram", "The label itself"]
    assert changes.own == 1 and changes.new == ("The label itself",)


def remove(at: int) -> Callable[[Any], None]:
    def removed(deck: Any) -> None:
        entries = deck.slides._sldIdLst
        deck.part.drop_rel(entries[at].rId)
        entries.remove(entries[at])

    return removed


def test_a_slide_taken_out_stays_out_until_it_is_asked_for() -> None:
    theirs = edited(made(PLAN)[0], remove(2))
    again, changes = made(PLAN, theirs)
    assert titles(again) == [PLAN[0].title, PLAN[1].title]
    assert changes.left_out == (PLAN[2].title,)
    assert titles(made(PLAN, again)[0]) == [PLAN[0].title, PLAN[1].title]
    assert titles(made(PLAN, again, bring_back=True)[0]) == [one.title for one in PLAN]


def test_the_speakers_order_is_kept_and_a_new_slide_finds_its_place() -> None:
    def swap(deck: Any) -> None:
        entries = deck.slides._sldIdLst
        last = entries[2]
        entries.remove(last)
        entries.insert(1, last)

    theirs = edited(made(PLAN)[0], swap)
    again, _ = made((*PLAN, slide("section-1/three", "Leaves")), theirs)
    assert titles(again) == [PLAN[0].title, PLAN[2].title, "Leaves", PLAN[1].title]


def test_a_slide_no_longer_in_the_plan_goes_unless_it_was_edited() -> None:
    first = made(PLAN)[0]
    assert made(PLAN[:1] + PLAN[2:], first)[1].gone == (PLAN[1].title,)
    again, changes = made(PLAN[:1] + PLAN[2:], edited(first, reworded))
    assert "A broom nobody signed" in titles(again) and changes.kept == ("A broom nobody signed",)


def test_a_copy_of_a_made_slide_is_the_speakers_own() -> None:
    def double(deck: Any) -> None:
        own = deck.slides.add_slide(deck.slides[1].slide_layout)
        for shape in deck.slides[1].shapes:
            if shape.has_text_frame:
                own.shapes._spTree.append(copy.deepcopy(shape._element))

    assert made(PLAN, edited(made(PLAN)[0], double))[1].own == 1


def test_many_times_over_the_file_neither_grows_nor_breaks() -> None:
    content, sizes = made(PLAN)[0], []
    for at in range(6):
        plan = (PLAN[0], replace(PLAN[1], title=f"Title {at % 2}"), PLAN[2])
        content = made(plan, content)[0]
        sizes.append(len(content))
        assert titles(content) == [one.title for one in plan]
    assert max(sizes) - min(sizes) < 600


@pytest.mark.parametrize("content", [b"", b"no zip at all", b"PK\x03\x04 but no more"])
def test_what_is_no_presentation_is_refused(content: bytes) -> None:
    with pytest.raises(ValueError, match="not a presentation"):
        made(PLAN, content)


def test_a_deck_without_our_marks_is_left_alone() -> None:
    stranger = io.BytesIO()
    Presentation().save(stranger)
    with pytest.raises(ValueError, match="no marks"):
        made(PLAN, stranger.getvalue())
