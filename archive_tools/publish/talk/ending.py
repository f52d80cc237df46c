"""The last slides of a talk: where the trees stand, and whom to thank for pictures and evidence."""

from __future__ import annotations

from collections.abc import Iterator

from archive_tools.model.tree import Tree
from archive_tools.publish.citations import sources_of
from archive_tools.publish.context import Context
from archive_tools.publish.photographs import credit
from archive_tools.publish.talk import slide as kinds
from archive_tools.publish.talk.figures import plan_figure
from archive_tools.publish.talk.slide import Slide


def ending(context: Context, trees: tuple[Tree, ...], slides: tuple[Slide, ...]) -> Iterator[Slide]:
    """Where the trees of the talk may be seen, if any may, and the credits."""
    where = _where(context, trees)
    if where is not None:
        yield where
    _ = context.translations.gettext
    lines = (*picture_credits(context, trees, slides), context.house)
    yield Slide("credits", kinds.CREDITS, _("Pictures"), lines)


def picture_credits(context: Context, trees: tuple[Tree, ...], slides: tuple[Slide, ...]) -> tuple[str, ...]:
    """Who took the pictures that are shown, each with the trees and years: one line a photographer."""
    _ = context.translations.gettext
    used = {plate.url for slide in slides for plate in slide.plates}
    found: dict[str, dict[str, list[str]]] = {}
    for tree in trees:
        of_pairs = {
            c for made in context.pictures.comparisons.get(tree.accession, ()) for c in (made.before, made.after)
        }
        pairs = {c.before for c in tree.comparisons} | {c.after for c in tree.comparisons}
        paired = any(cut.url in used for picture in of_pairs for cut in picture.cuts)
        strips = context.pictures.strips.get(tree.accession, ())
        framed = {frame.file for strip in strips for frame in strip.frames if frame.cut.url in used}
        for photo in tree.photos:
            picture = context.pictures.photos.get(photo.path)
            whole = picture is not None and any(cut.url in used for cut in picture.cuts)
            if whole or photo.file in framed or (paired and photo.file in pairs):
                by = credit(context, photo) or _("Photographer not known")
                years = found.setdefault(by, {}).setdefault(context.tree_name(tree), [])
                year = context.dates.year(photo.when)
                if year and year not in years:
                    years.append(year)
    return tuple(
        f"{by}: " + "; ".join(f"{name} {', '.join(years)}".strip() for name, years in of_trees.items())
        for by, of_trees in found.items()
    )


def source_lines(context: Context, trees: tuple[Tree, ...]) -> tuple[str, ...]:
    """Every source the trees lean on, once, in the order in which they are first cited."""
    lines = [
        ". ".join(part for part in (line.title, line.details) if part)
        for tree in trees
        for line in sources_of(context, tree)
    ]
    return tuple(dict.fromkeys(lines))


def _where(context: Context, trees: tuple[Tree, ...]) -> Slide | None:
    """Which of the talk's trees stand in which court, as far as visitors may know."""
    standing: dict[str, list[str]] = {}
    for tree in trees:
        custody = context.view.findings.custodies.get(tree.accession)
        place = custody.state.place if custody and custody.state.in_collection and custody.state.on_display else None
        if place is not None and place in context.records.places:
            standing.setdefault(place, []).append(context.tree_name(tree))
    figure = plan_figure(context, set(standing))
    if not standing or figure is None:
        return None
    _ = context.translations.gettext
    lines = tuple(f"{context.place(place)}: {context.listed(names)}" for place, names in standing.items())
    return Slide("where", kinds.MAP, _("Where to see them"), lines, (), figure, "\n".join(lines))
