"""The poster of a tree: its years on one sheet, as a page that prints on one and as a drawing of its own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from archive_tools.model.page import Page, SiteFile
from archive_tools.model.tree import Tree
from archive_tools.publish import botanical_names
from archive_tools.publish import poster_layout as sheet
from archive_tools.publish.broken_lines import broken
from archive_tools.publish.context import Context
from archive_tools.publish.photographs import credit, shown
from archive_tools.publish.poster_years import LineOfYears, line_of_years
from archive_tools.publish.prose import as_text
from archive_tools.publish.tree_age import sentence_of
from archive_tools.publish.tree_years import YearFrame, years_part

LARGEST_NAME = 66
FOOT = 11.5
"""Size of the credits."""
FEWEST, MOST = 2, 24
"""A sheet of years needs so many photographs at least, and shows so many at most, spread over all years."""


@dataclass(frozen=True, slots=True)
class Poster:
    """What the drawing is made of. `taxa` are the botanical names in runs, each with whether it stands in italics."""

    name: str
    taxa: tuple[tuple[str, bool], ...]
    sentence: str
    number: str
    house: str
    foot: tuple[str, ...]
    size: float
    line: LineOfYears
    layout: sheet.Layout
    frames: tuple[YearFrame, ...]


def poster_path(context: Context, tree: Tree) -> str | None:
    """Where the sheet of a tree's years stands, from the site's root; None for a tree without enough photographs."""
    return f"{context.tree_path(tree.accession)}years/" if len(_pictures(context, tree)) >= FEWEST else None


def posters(context: Context) -> Iterator[tuple[Page, SiteFile]]:
    """Page and drawing for each tree that has one."""
    for tree in context.records.trees.values():
        path = poster_path(context, tree)
        if path is not None:
            yield _made(context, tree, path)


def _pictures(context: Context, tree: Tree) -> list[str]:
    return [photo.file for photo in shown(context, tree) if photo.when is not None]


def _made(context: Context, tree: Tree, path: str) -> tuple[Page, SiteFile]:
    _ = context.translations.gettext
    source = f"{path}index.md"
    poster = poster_of(context, tree)
    drawing = Markup(context.render("tree/poster_sheet.html", source, poster=poster, sheet=sheet).strip())
    title = _("The years of %(tree)s") % {"tree": poster.name}
    body = context.render("tree/poster.html", source, tree=tree, poster=poster, drawing=drawing)
    alone = f'<?xml version="1.0" encoding="UTF-8"?>\n{drawing}\n'
    return (
        Page(source, title, body, "trees", language=context.language),
        SiteFile(f"{path}poster.svg", alone.encode()),
    )


def poster_of(context: Context, tree: Tree) -> Poster:
    """The sheet set out: the frames of the line of years, in rows."""
    years = years_part(context, tree)
    frames = _spread(years.frames) if years else ()
    name = context.tree_name(tree)
    return Poster(
        name=name,
        taxa=_taxa(tree) if tree.name or tree.common_name else (),
        sentence=sentence_of(context, tree.accession),
        number=tree.accession,
        house=context.house,
        foot=broken(_foot(context, tree), sheet.WIDE, FOOT, "sans")[:3],
        size=min(LARGEST_NAME, 900 / (0.46 * max(len(name), 1))),
        line=line_of_years(context, tree, sheet.WIDE),
        layout=sheet.set_out(frames, as_text(context, tree.label, tree.accession)),
        frames=frames,
    )


def _spread(frames: tuple[YearFrame, ...]) -> tuple[YearFrame, ...]:
    """All that happened, and at most so many pictures, the first and the last among them."""
    pictures = [at for at, frame in enumerate(frames) if frame.sort == "picture"]
    if len(pictures) <= MOST:
        return frames
    kept = {pictures[round(n * (len(pictures) - 1) / (MOST - 1))] for n in range(MOST)}
    return tuple(frame for at, frame in enumerate(frames) if frame.sort != "picture" or at in kept)


def _taxa(tree: Tree) -> tuple[tuple[str, bool], ...]:
    runs: list[tuple[str, bool]] = []
    for number, name in enumerate(tree.taxon):
        runs += [(", ", False)] if number else []
        for at, part in enumerate(botanical_names.parts_of(name)):
            runs.append((f" {part.text}" if at else part.text, part.kind == "latin"))
    return tuple(runs)


def _foot(context: Context, tree: Tree) -> str:
    """Whose photographs these are, what is shown of them, and of which day the sheet speaks."""
    _ = context.translations.gettext
    credits = [credit(context, photo) for photo in shown(context, tree) if photo.when is not None]
    named = list(dict.fromkeys(words.rstrip(".") for words in credits if words))
    day = context.dates.day(context.as_of)
    taken = len(_pictures(context, tree))
    parts = [
        _("%(some)s of its %(all)s photographs.") % {"some": MOST, "all": taken} if taken > MOST else "",
        _("Photographs: %(names)s.") % {"names": "; ".join(named)} if named else "",
        _("On the line of years a long stroke is a photograph, a short one an event, and dots are quiet years."),
        _("As of %(day)s.") % {"day": day},
        "" if context.is_public else _("Internal edition, not for the public."),
    ]
    return " ".join(part for part in parts if part)
