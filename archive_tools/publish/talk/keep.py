"""A deck made anew over an earlier one: what the speaker did to it stays.

Slides of the speaker's own stay, after the slide they followed. Slides that were made here and then edited stay as
they are. Slides that the speaker took out stay out. Everything else is made anew where the records say otherwise than
before.
"""

from __future__ import annotations

import io
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from pptx import Presentation

from archive_tools.publish.talk.deck_file import ReadPicture, add_slide, as_bytes, name_deck
from archive_tools.publish.talk.layouts import empty_deck
from archive_tools.publish.talk.slide import Slide
from archive_tools.publish.talk.tags import is_edited, mark, remember_keys, remembered_keys, tag_of


@dataclass(frozen=True, slots=True)
class Changes:
    """What is otherwise than in the earlier deck, by the titles of slides.

    kept: edited by the speaker, and left alone; outdated: those of them of which the records now say something else.
    own: how many slides are the speaker's own. left_out: taken out by the speaker. gone: no longer in the plan.
    """

    new: tuple[str, ...] = ()
    changed: tuple[str, ...] = ()
    gone: tuple[str, ...] = ()
    kept: tuple[str, ...] = ()
    outdated: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
    own: int = 0
    is_first: bool = False


@dataclass(slots=True)
class _Old:
    """One slide of the earlier deck. `after`: the key of the made slide that it followed."""

    slide: Any
    key: str | None
    made_from: str
    edited: bool
    after: str | None

    @property
    def title(self) -> str:
        title = self.slide.shapes.title
        return (title.text_frame.text if title is not None else "") or self.key or ""


def write_deck(
    slides: tuple[Slide, ...],
    read: ReadPicture,
    *,
    accent: str,
    title: str,
    speaker: str,
    house: str,
    language: str,
    day: datetime,
    earlier: bytes | None = None,
    bring_back: bool = False,
) -> tuple[bytes, Changes]:
    """The deck as a file, and what has changed since the earlier one.

    read: gives the bytes of a cut. bring_back: whether slides that the speaker took out come back. Raises ValueError
    where `earlier` is no presentation, or none of ours.
    """
    if earlier is None:
        deck = empty_deck(accent)
        for slide in slides:
            mark(add_slide(deck, slide, read), slide.key, slide.made_from)
        remember_keys(deck, tuple(slide.key for slide in slides))
        name_deck(deck, title, speaker, house, language, day)
        return as_bytes(deck), Changes(is_first=True)
    try:
        deck = Presentation(io.BytesIO(earlier))
    except Exception as fault:  # python-pptx raises whatever its zip and XML readers do
        raise ValueError("it is not a presentation that can be read") from fault
    if not remembered_keys(deck):
        raise ValueError("it has no marks of slides made here, or the program that saved it last has dropped them")
    changes = _renew(deck, slides, read, bring_back)
    remember_keys(deck, tuple(slide.key for slide in slides))
    name_deck(deck, title, speaker, house, language, day)
    return as_bytes(deck), changes


def _renew(deck: Any, slides: tuple[Slide, ...], read: ReadPicture, bring_back: bool) -> Changes:
    was = remembered_keys(deck)
    old = _old_slides(deck)
    by_key = {one.key: one for one in old if one.key}
    planned = {slide.key for slide in slides}
    new, changed, kept, outdated, left_out = [], [], [], [], []
    standing: dict[str, Any] = {}
    spare: list[Any] = []
    for slide in slides:
        there = by_key.get(slide.key)
        if there is None:
            if slide.key in was and not bring_back:
                left_out.append(slide.title)
                continue
            new.append(slide.title)
        elif there.edited:
            kept.append(there.title)
            if there.made_from != slide.made_from:
                outdated.append(there.title)
            standing[slide.key] = there.slide
            continue
        elif there.made_from == slide.made_from:
            standing[slide.key] = there.slide
            continue
        else:
            changed.append(slide.title)
            spare.append(there.slide)
        made = add_slide(deck, slide, read)
        mark(made, slide.key, slide.made_from)
        standing[slide.key] = made
    vanished = [one for one in old if one.key and one.key not in planned]
    gone = tuple(one.title for one in vanished if not one.edited)
    spare += [one.slide for one in vanished if not one.edited]
    kept += [one.title for one in vanished if one.edited]
    _arrange(deck, _order(slides, old, was, standing), spare)
    own = sum(one.key is None for one in old)
    return Changes(tuple(new), tuple(changed), gone, tuple(kept), tuple(outdated), tuple(left_out), own)


def _old_slides(deck: Any) -> list[_Old]:
    found: list[_Old] = []
    last = None
    for slide in deck.slides:
        tag = tag_of(slide)
        if tag is None or any(one.key == tag.key for one in found):  # a copy of a made slide is the speaker's own
            found.append(_Old(slide, None, "", True, last))
            continue
        found.append(_Old(slide, tag.key, tag.made_from, is_edited(slide, tag), last))
        last = tag.key
    return found


def _order(slides: tuple[Slide, ...], old: list[_Old], was: tuple[str, ...], standing: dict[str, Any]) -> list[Any]:
    """The slides as they shall follow each other: as planned, or as the speaker has put them."""
    planned = [slide.key for slide in slides if slide.key in standing]
    theirs = [one.key for one in old if one.key]
    if theirs != [key for key in was if key in set(theirs)]:
        planned = _in_their_order(planned, [key for key in theirs if key in standing])
    known = set(planned)
    ordered: list[Any] = []
    followers: dict[str | None, list[Any]] = {}
    last: str | None = None
    for one in old:
        if one.key in known:
            last = one.key
        elif one.key is None or one.edited:
            followers.setdefault(last, []).append(one.slide)
    ordered += followers.get(None, [])
    for key in planned:
        ordered.append(standing[key])
        ordered += followers.get(key, [])
    return ordered


def _in_their_order(planned: list[str], theirs: list[str]) -> list[str]:
    """The speaker's order, with what is new put after the slide it follows in the plan."""
    order = list(theirs)
    for at, key in enumerate(planned):
        if key not in order:
            before = planned[at - 1] if at else None
            order.insert(order.index(before) + 1 if before in order else 0, key)
    return order


def _arrange(deck: Any, ordered: list[Any], spare: list[Any]) -> None:
    identities = deck.slides._sldIdLst
    by_part = {deck.part.related_part(entry.rId): entry for entry in list(identities)}
    entries = [by_part[slide.part] for slide in ordered]
    for slide in spare:
        entry = by_part[slide.part]
        deck.part.drop_rel(entry.rId)
        identities.remove(entry)
    for entry in entries:
        identities.remove(entry)
        identities.append(entry)
    deck.part.rename_slide_parts([entry.rId for entry in identities])
