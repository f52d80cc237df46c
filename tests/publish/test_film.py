"""The film of a tree's years: which photographs, where on the line, and what is said of them."""

from __future__ import annotations

import re
from dataclasses import replace
from gettext import NullTranslations

from archive_tools.model.photo import Photo
from archive_tools.model.pictures import Cut, Pictures, StripFrame, YearsStrip
from archive_tools.publish import make_site
from archive_tools.publish.context import Context
from archive_tools.publish.tree_film import LENGTH, Film, films_of
from tests.publish.sample_view import ELM, HERE, cuts, day, sample_pictures, sample_view, year

DAYS = {"a.jpg": year("1960"), "b.jpg": day("2010-06-01"), "c.jpg": day("2010-06-01"), "d.jpg": year("2020")}


def photo(file: str) -> Photo:
    return Photo(file, f"trees/M1-elm/photos/{file}", HERE, ("M1",), when=DAYS[file], view="front", photographer="pim")


ELM_OF_FOUR = replace(ELM, photos=tuple(photo(file) for file in DAYS), portrait=None, comparisons=())


def frame(file: str, *, aligned: bool = True) -> StripFrame:
    return StripFrame(file, Cut(f"pictures/strip-{file}", 960, 640), aligned, None if aligned else "blurred")


def drawn(*frames: StripFrame, view: str = "front") -> Pictures:
    shown = {photo(file).path: cuts(file, (480, 360)) for file in DAYS}
    strips = {"M1": (YearsStrip("M1", view, frames[-1].file, frames),)}
    return replace(sample_pictures(), photos=shown, comparisons={}, strips=strips)


def context_of(pictures: Pictures) -> Context:
    return Context(sample_view(trees=(ELM_OF_FOUR,)), pictures, "en", NullTranslations())


def film(*frames: StripFrame) -> Film:
    (found,) = films_of(context_of(drawn(*frames)), ELM_OF_FOUR)
    return found


def test_photographs_stand_on_the_line_where_their_days_lie_and_never_two_at_one_place() -> None:
    places = [f.at for f in film(*(frame(file) for file in DAYS)).frames]
    assert (places[0], places[-1]) == (0, LENGTH)
    # 1 January 1960 to 1 January 2020 are 21,915 days, to 1 June 2010 18,414: 840 of 1000.
    assert places[1:3] == [840, 841]


def test_two_photographs_of_one_day_alone_can_both_be_stopped_at() -> None:
    assert [f.at for f in film(frame("b.jpg"), frame("c.jpg")).frames] == [0, 1]


def test_what_happened_since_the_photograph_before_is_told_with_what_is_less_than_documented() -> None:
    told = [f.before for f in film(*(frame(file) for file in DAYS)).frames]
    assert told == [
        "Before this: 1951 Struck as a cutting (reported); 1953 Into the fish box.",
        "Since the photograph before: 1968 Damaged by wind; 1988 Styled; 1996 Given by a private donor.",
        "",
        "",
    ]
    # Of more than three those that weigh least are left out: here the wind, and of two of one weight the later.
    (late, *_rest) = film(frame("b.jpg"), frame("d.jpg")).frames
    assert late.before.startswith("Before this: 1951 ")
    assert "1968" not in late.before


def test_years_under_the_line_keep_clear_of_each_other() -> None:
    assert [(mark.year, mark.side, mark.minor) for mark in film(*(frame(file) for file in DAYS)).marks] == [
        ("1960", "first", False),
        ("2010", "", True),  # at 840 of 1000: beside 2020 on a phone there is no room
        ("2020", "last", False),
    ]


def test_what_was_done_to_the_pictures_is_said() -> None:
    whole = film(*(frame(file) for file in DAYS))
    assert (
        whole.how == "Four photographs, 1960 to 2020. They are brought to one scale and level, and to one brightness."
    )
    some = film(frame("a.jpg", aligned=False), *(frame(file) for file in ("b.jpg", "c.jpg", "d.jpg")))
    assert "Three of them are brought to one scale" in some.how
    assert [bool(f.note) for f in some.frames] == [True, False, False, False]
    none = film(frame("a.jpg", aligned=False), frame("d.jpg"))
    assert none.how.endswith("Each is shown as it was taken.")
    assert [f.note for f in none.frames] == ["", ""]


def test_a_photograph_the_edition_does_not_hold_is_not_in_the_film() -> None:
    assert [f.year for f in film(frame("a.jpg"), frame("hidden.jpg"), frame("d.jpg")).frames] == ["1960", "2020"]


def test_one_photograph_is_no_film() -> None:
    tree = ELM_OF_FOUR
    assert films_of(context_of(drawn(frame("a.jpg"))), tree) == ()
    assert films_of(context_of(sample_pictures()), tree) == ()


def test_the_page_shows_every_frame_lazily_with_its_words() -> None:
    site = make_site(sample_view(trees=(ELM_OF_FOUR,)), drawn(*(frame(file) for file in DAYS)))
    (body,) = [page.body for page in site.pages if page.path == "trees/M1/index.md"]
    part = body[body.index('class="film"') : body.index("</figure>", body.index('class="film"'))]
    images = re.findall(r"<img [^>]+>", part)
    assert [re.findall(r'src="([^"]+)"', image)[0] for image in images] == [
        f"../../pictures/strip-{file}" for file in DAYS
    ]
    assert all('loading="lazy"' in image and 'alt="The Ferry Elm, ' in image for image in images)
    assert part.count("Pim Dracott") == 4
    assert {file.path for file in site.files} >= {f"pictures/strip-{file}" for file in DAYS}
