"""Before and after: two photographs of one tree, and the measured change in words."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from archive_tools.model.photo import Photo
from archive_tools.model.pictures import AlignedComparison
from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context
from archive_tools.publish.marks_page import marks_path
from archive_tools.publish.number_words import number_in_words
from archive_tools.publish.photographs import Shot, caution, credit, shot
from archive_tools.publish.prose import as_text


@dataclass(frozen=True, slots=True)
class Measure:
    """One measured thing and its change in words, uncertainty included, or why it cannot be measured."""

    name: str
    words: str


@dataclass(frozen=True, slots=True)
class ComparisonFigure:
    """A pair. `slides` where the two lie on each other, so that a line can be drawn across.

    `how` says how they were brought together, in words for visitors; `why_not` is the reckoning's own reason against it
    and `marks` the page on which marks are placed, both for the internal edition alone. `caution` says what no
    measuring in one view can tell, `matched` that the earlier picture was given the brightness of the later.
    """

    id: str
    title: str
    then: Shot
    now: Shot
    then_year: str
    now_year: str
    then_when: str
    now_when: str
    slides: bool
    how: str
    text: str
    measures: tuple[Measure, ...]
    why_not: str = ""
    marks: str | None = None
    caution: str = ""
    matched: bool = False


def comparisons_of(context: Context, tree: Tree) -> tuple[ComparisonFigure, ...]:
    """The tree's comparisons, as drawn for this edition."""
    wanted = {comparison.id: comparison for comparison in tree.comparisons}
    figures = []
    for made in context.pictures.comparisons.get(tree.accession, ()):
        asked = wanted.get(made.id)
        before = tree.photo(asked.before) if asked else None
        after = tree.photo(asked.after) if asked else None
        if asked is None or before is None or after is None:
            continue
        figures.append(
            ComparisonFigure(
                id=made.id,
                title=context.say(asked.title),
                then=_side(context, tree, before, made, is_before=True),
                now=_side(context, tree, after, made, is_before=False),
                then_year=context.dates.year(before.when),
                now_year=context.dates.year(after.when),
                then_when=_when(context, before),
                now_when=_when(context, after),
                slides=made.aligned,
                how=_how(context, made, before, after),
                text=as_text(context, asked.text, tree.accession),
                measures=tuple(
                    Measure(context.say(c.name), _unbroken(c.words or c.refused or "")) for c in made.changes
                ),
                why_not="" if context.is_public or made.aligned else made.why_not or "",
                marks=marks_path(context, tree, before.file, after.file),
                caution=made.caution,
                matched=made.exposure_matched,
            )
        )
    return tuple(figures)


def _when(context: Context, photo: Photo) -> str:
    when = context.dates.when(photo.when) or context.translations.gettext("not dated")
    return f"{when[:1].upper()}{when[1:]}"


def _side(context: Context, tree: Tree, photo: Photo, made: AlignedComparison, *, is_before: bool) -> Shot:
    words = shot(context, tree, photo) if photo.path in context.pictures.photos else None
    year = context.dates.year(photo.when)
    alt = words.alt if words else context.tree_name(tree)
    if year and year not in alt:
        alt = f"{year}: {alt}"
    picture = made.before if is_before else made.after
    told = caution(context, photo)
    return Shot(picture, alt, credit=credit(context, photo), year=year, doubt=told[:1].lower() + told[1:])


def _how(context: Context, made: AlignedComparison, before: Photo, after: Photo) -> str:
    _ = context.translations.gettext
    ngettext = context.translations.ngettext
    apart = ""
    first, last = before.when, after.when
    if first and last and first.said.first and last.said.first:
        years = last.said.first.year - first.said.first.year
        if years > 0:
            apart = ngettext("%(n)s year apart", "%(n)s years apart", years) % {"n": years}
    how = _laid(context, made) if made.aligned else _apart(before, after, _)
    sentence = ", ".join(part for part in (apart, how) if part).rstrip(".")
    return f"{sentence[:1].upper()}{sentence[1:]}."


def _laid(context: Context, made: AlignedComparison) -> str:
    """By what two pictures were laid over each other."""
    _, ngettext = context.translations.gettext, context.translations.ngettext
    if made.method == "features":
        return _("brought to one scale and level by what has not changed in them")
    count = len(made.marks_used)
    if not count:
        return _("brought to one scale and level")
    said = ngettext(
        "brought to one scale and level by %(n)s mark", "brought to one scale and level by %(n)s marks", count
    )
    return said % {"n": number_in_words(context, count)}


def _apart(before: Photo, after: Photo, _: Callable[[str], str]) -> str:
    """Why two pictures stand side by side, as far as a visitor asks."""
    if before.view and after.view and before.view != after.view:
        return _("side by side: they show the tree from different sides")
    return _("side by side, as they were taken, and not to one scale")


def _unbroken(words: str) -> str:
    """Figures kept on one line with the word before them, their units and their uncertainties."""
    return re.sub(r" (?=\(?±|\d|cm\b)", "\u00a0", words)
