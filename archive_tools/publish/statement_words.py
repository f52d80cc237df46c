"""One statement of a proof in a visitor's words.

A statement stands in an event or a photograph, or in a part of an event: an age somebody stated, rings counted, a lapse
of time. Which part is meant is told by the place in the file at which the statement is written.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from archive_tools.model.event import Event, Rings, StatedAge, Timing
from archive_tools.model.findings import Statement
from archive_tools.model.photo import Photo
from archive_tools.model.places_in_files import Mark, Where
from archive_tools.model.tree import Tree
from archive_tools.publish.citations import cited, quoted
from archive_tools.publish.context import Context
from archive_tools.publish.duration_words import duration_words
from archive_tools.publish.event_words import kind_beside, title_of


@dataclass(frozen=True, slots=True)
class SaidWords:
    """A statement as a page prints it: the date it bears, its words, what it quotes, where it comes from."""

    when: str
    says: str
    quote: str
    sources: str


def statement_words(context: Context, tree: Tree, statement: Statement) -> SaidWords:
    """The words of a statement; those of the proof itself where it stands in no event and no photograph."""
    event = tree.event(statement.event) if statement.event else None
    if event is not None:
        return _of_event(context, tree, event, statement)
    photo = photo_of(tree, statement)
    if photo is not None:
        return _of_photo(context, photo)
    said = statement.says
    return SaidWords("", said[:1].upper() + said[1:], "", "")


def photo_of(tree: Tree, statement: Statement) -> Photo | None:
    """The photograph a statement stands in."""
    return next((photo for photo in tree.photos if statement.event in {photo.id, photo.file}), None)


def _of_event(context: Context, tree: Tree, event: Event, statement: Statement) -> SaidWords:
    when = context.dates.until(event.when, event.until)
    sources, quote = cited(context, event.sources), quoted(context, event.sources)
    parts = [title_of(context, event), kind_beside(context, event)]
    for part in (*event.states_age, event.rings, *event.timing):
        if part is not None and _stands_in(statement.mark, part.where):
            parts.append(_part_words(context, tree, part))
            quote = ""  # it is the event's, and need not bear on this
    return SaidWords(when, ". ".join(part.rstrip(".") for part in parts if part), quote, sources)


def _part_words(context: Context, tree: Tree, part: StatedAge | Rings | Timing) -> str:
    if isinstance(part, StatedAge):
        return _stated_words(context, part)
    return _rings_words(context, part) if isinstance(part, Rings) else _timing_words(context, tree, part)


def _of_photo(context: Context, photo: Photo) -> SaidWords:
    _ = context.translations.gettext
    says = _("A photograph of the tree")
    if "trained" in photo.shows:
        says = _("A photograph shows the tree trained")
    elif "container" in photo.shows:
        says = _("A photograph shows the tree in a container")
    sources = cited(context, photo.sources) or dated_by_words(context, photo)
    return SaidWords(context.dates.when(photo.when), says, "", sources)


def _stands_in(mark: Mark, where: Where) -> bool:
    """Whether a place in a file is that of a value of this record."""
    depth = len(where.base)
    if mark.file != where.file or depth == 0:
        return False
    return any(spot == (mark.line, mark.column) for path, spot in where.marks.items() if path[:depth] == where.base)


def _stated_words(context: Context, stated: StatedAge) -> str:
    _ = context.translations.gettext
    ngettext = context.translations.ngettext
    if stated.least is None or stated.most is None:
        bound = stated.least if stated.least is not None else stated.most
        years = ngettext("%(n)s year", "%(n)s years", bound or 0) % {"n": bound}
        pattern = _("Says that it was at least %(years)s") if stated.least is not None else _("Says at most %(years)s")
        return pattern % {"years": years}
    if stated.least == stated.most:
        years = ngettext("%(n)s year", "%(n)s years", stated.least) % {"n": stated.least}
    else:
        years = _("%(least)s to %(most)s years") % {"least": stated.least, "most": stated.most}
    pattern = _("Says that it was about %(years)s") if stated.approximate else _("Says that it was %(years)s")
    return pattern % {"years": years}


def _rings_words(context: Context, rings: Rings) -> str:
    _ = context.translations.gettext
    said = context.translations.ngettext("%(n)s ring counted", "%(n)s rings counted", rings.count) % {"n": rings.count}
    fewest, most = rings.missed
    if most == 0:
        return _("%(rings)s, none missed") % {"rings": said}
    if most is None:
        return said if not fewest else _("%(rings)s, at least %(n)s missed") % {"rings": said, "n": fewest}
    missed = str(fewest) if fewest == most else f"{fewest}–{most}"
    return _("%(rings)s, %(n)s missed") % {"rings": said, "n": missed}


def _timing_words(context: Context, tree: Tree, timing: Timing) -> str:
    _ = context.translations.gettext
    same_tree = timing.other.accession in {None, tree.accession}
    event = tree.event(timing.other.event or "") if same_tree else None
    other = f"“{title_of(context, event)}”" if event else context.tree_named(timing.other.accession or "").name
    least = duration_words(context, timing.at_least) if timing.at_least else ""
    most = duration_words(context, timing.at_most) if timing.at_most else ""
    if least and most:
        lapse = least if least == most else _("%(least)s to %(most)s") % {"least": least, "most": most}
    elif least:
        lapse = _("at least %(time)s") % {"time": least}
    else:
        lapse = _("at most %(time)s") % {"time": most} if most else ""
    pattern = _("%(lapse)s after %(event)s") if timing.relation == "after" else _("%(lapse)s before %(event)s")
    said = (pattern % {"lapse": lapse, "event": other}).strip()
    return said[:1].upper() + said[1:]


def dated_by_words(context: Context, photo: Photo) -> str:
    """How a photograph came by its date."""
    _ = context.translations.gettext
    words: Mapping[str, str] = {
        "print": _("Dated by the print"), "lab stamp": _("Dated by the laboratory’s stamp"),
        "negative sleeve": _("Dated on the sleeve of the negative"), "caption on back": _("Dated on the back"),
        "camera": _("Dated by the camera"), "publication": _("Dated by its publication"),
        "postmark": _("Dated by the postmark"), "what it shows": _("Dated by what it shows"),
        "estimate": _("Dated by estimate"), "scan": _("Dated by the scan"), "file name": _("Dated by its file name"),
    }  # fmt: skip
    return words.get(photo.dated_by or "", "")
