"""Its story: the notes of the house, in order of time."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import PurePosixPath

from markupsafe import Markup

from archive_tools.model.event import Note
from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context
from archive_tools.publish.event_words import title_of
from archive_tools.publish.number_words import number_in_words
from archive_tools.publish.prose import Setting, block

OPEN = 4
"""How many notes stand open when there are many."""
ON_SHEET = 650
"""How many letters a note may have to stand on the printed sheet, which has room for one."""
UNDATED = "9999"


@dataclass(frozen=True, slots=True)
class Told:
    """One note: its heading, when it was written and by whom, its text.

    `mark` is its file in the internal edition; `on_sheet` says that it is the one that is printed.
    """

    title: str
    when: str
    by: str
    text: Markup
    mark: str = ""
    on_sheet: bool = False


@dataclass(frozen=True, slots=True)
class StoryPart:
    """The notes that stand open, and those folded away under them with their years."""

    first: tuple[Told, ...]
    more: tuple[Told, ...]
    more_words: str
    years: str


def story_of(context: Context, tree: Tree, root: str) -> StoryPart | None:
    """The notes that have any text, earliest first; None where there is none."""
    written = sorted((note for note in tree.notes if note.body.strip()), key=_day)
    if not written:
        return None
    at = len(written) if len(written) <= OPEN + 1 else OPEN
    notes = [told(context, tree, note, root) for note in written]
    lengths = [len(note.body) for note in written[:at]]
    short = next((place for place, length in enumerate(lengths) if length <= ON_SHEET), lengths.index(min(lengths)))
    notes[short] = replace(notes[short], on_sheet=True)
    folded = [day[:4] for note in written[at:] if (day := _day(note)[0]) != UNDATED]
    years = "" if not folded else folded[0] if folded[0] == folded[-1] else f"{folded[0]}–{folded[-1]}"
    number = number_in_words(context, len(notes) - at)
    return StoryPart(tuple(notes[:at]), tuple(notes[at:]), number[:1].upper() + number[1:], years)


def told(context: Context, tree: Tree, note: Note, root: str) -> Told:
    """One note as the page of `tree` tells it."""
    event = tree.event(note.event) if note.event else None
    title = context.say(note.title)
    if not title and event is not None:
        title = title_of(context, event)

    def find_picture(address: str) -> tuple[str, int, int] | None:
        photo = tree.photo(PurePosixPath(address).name)
        cuts = context.pictures.photos.get(photo.path) if photo else None
        if cuts is None:
            return None
        cut = next((cut for cut in cuts.cuts if cut.width >= 600), cuts.largest)
        return cut.url, cut.width, cut.height

    setting = Setting(root, tree.accession, first_heading=4, find_picture=find_picture)
    return Told(
        title=title,
        when=context.dates.when(note.when or (event.when if event else None)),
        by=context.names(note.by or (event.by if event else ())),
        text=block(context, note.body, setting),
        mark="" if context.is_public else note.path,
    )


def _day(note: Note) -> tuple[str, str]:
    when = note.when
    first = when.said.first or when.said.last if when else None
    return (first.isoformat() if first else UNDATED, note.id)
