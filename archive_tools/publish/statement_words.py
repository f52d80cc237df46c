"""One statement of a proof in a visitor's words.

A statement stands in an event or a photograph, or in a part of an event: an age somebody stated, rings counted, a lapse
of time. Which part is meant is told by the place in the file at which the statement is written. It may stand in the
record of another tree (a planting's, a daughter's) or of a steward: what a visitor reads is whose record that is, by
name, and never how it is filed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from archive_tools.model.dates import WhenWritten
from archive_tools.model.event import Event, Rings, StatedAge, Timing
from archive_tools.model.findings import Statement
from archive_tools.model.people import Steward
from archive_tools.model.photo import Photo
from archive_tools.model.places_in_files import Mark, Where
from archive_tools.model.tree import Member, Tree
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
    """The words of a statement about `tree`; those of the proof itself where its record is not in the edition."""
    home = home_of(context, tree, statement)
    event = home.event(statement.event) if statement.event else None
    if event is not None:
        return _of_event(context, tree, home, event, statement)
    photo = photo_of(home, statement)
    if photo is not None:
        return _of_photo(context, photo)
    member = next((one for one in home.members if _stands_in(statement.mark, one.where)), None)
    if member is not None:
        return _of_member(context, tree, home, member)
    for steward in context.records.stewards.values():
        if not steward.masked and statement.tree is None and steward.where.file == statement.mark.file:
            return _of_steward(context, steward, statement)
    said = statement.says
    return SaidWords("", said[:1].upper() + said[1:], "", "")


def statement_line(context: Context, tree: Tree, statement: Statement) -> str:
    """A statement in one line: what it says, its date, where it comes from."""
    words = statement_words(context, tree, statement)
    said = context.translations.gettext(", ").join(part for part in (words.says, words.when) if part)
    return f"{said} ({words.sources})" if words.sources else said


def home_of(context: Context, tree: Tree, statement: Statement) -> Tree:
    """The tree whose record a statement about `tree` stands in: itself, or a planting, a daughter, a mother of it.

    What is written once for several trees (a note, a photograph) stands in the record of each.
    """
    other = context.records.trees.get(statement.tree or tree.accession, tree)
    own, there = (one.event(statement.event or "") for one in (tree, other))
    return tree if own is not None and there is not None and own.where == there.where else other


def date_of(context: Context, tree: Tree, statement: Statement) -> WhenWritten | None:
    """The date that is written where a statement stands, if one is."""
    home = home_of(context, tree, statement)
    holder = (home.event(statement.event) if statement.event else None) or photo_of(home, statement)
    return holder.when if holder is not None else None


def photo_of(tree: Tree, statement: Statement) -> Photo | None:
    """The photograph a statement stands in."""
    return next((photo for photo in tree.photos if statement.event in {photo.id, photo.file}), None)


def _of_event(context: Context, tree: Tree, home: Tree, event: Event, statement: Statement) -> SaidWords:
    when = context.dates.until(event.when, event.until)
    sources, quote = cited(context, event.sources), quoted(context, event.sources)
    parts = [title_of(context, event), kind_beside(context, event)]
    for part in (*event.states_age, event.rings, *event.timing):
        if part is not None and _stands_in(statement.mark, part.where):
            parts.append(_part_words(context, home, part))
            quote = ""  # it is the event's, and need not bear on this
    said = ". ".join(part.rstrip(".") for part in parts if part)
    return SaidWords(when, said if home is tree else _told_there(context, tree, home, event, said), quote, sources)


def _told_there(context: Context, tree: Tree, home: Tree, event: Event, said: str) -> str:
    """What the record of another tree says, with the names of that tree and of this."""
    _ = context.translations.gettext
    names = {"other": context.tree_name(home), "what": said, "tree": context.tree_name(tree)}
    mother = event.from_tree
    if mother is not None and mother.accession == tree.accession:
        return _("%(other)s: %(what)s, from %(tree)s") % names
    known = {tree.accession, *(member.id for member in home.members if member.accession == tree.accession)}
    if known & {one.accession for one in event.trees}:
        return _("%(other)s: %(what)s, with %(tree)s") % names
    return _("%(other)s: %(what)s") % names


def _of_member(context: Context, tree: Tree, home: Tree, member: Member) -> SaidWords:
    _ = context.translations.gettext
    when = context.dates.until(member.from_, None)
    said = _("In %(planting)s since then") % {"planting": context.tree_name(home)}
    if home is tree:
        named = context.tree_named(member.accession).name if member.accession else context.say(member.place_in_planting)
        said = _("Stands in it since then: %(member)s") % {"member": named} if named else _("One of its plants")
    return SaidWords(when, said, "", "")


def _of_steward(context: Context, steward: Steward, statement: Statement) -> SaidWords:
    _ = context.translations.gettext
    is_death = steward.died is not None and statement.mark == steward.where.at("died")
    pattern = _("Death of %(who)s") if is_death else _("Birth of %(who)s")
    when = context.dates.when(steward.died if is_death else steward.born)
    said = pattern % {"who": context.steward_name(steward)}
    return SaidWords(when, said, "", cited(context, steward.sources))


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
    there = tree if same_tree else context.records.trees.get(timing.other.accession or "")
    event = there.event(timing.other.event or "") if there is not None else None
    named = "" if same_tree else context.tree_named(timing.other.accession or "").name
    other = _("“%(event)s”") % {"event": title_of(context, event)} if event else named
    if event and named:
        other = _("%(event)s of %(tree)s") % {"event": other, "tree": named}
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
