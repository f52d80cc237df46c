"""Pots, trays, stands, stones, scrolls and accents: an index, and a page for each with the trees that stood in it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from archive_tools.model.event import Event
from archive_tools.model.lineage import ObjectLine, TreeInObject
from archive_tools.model.page import Page
from archive_tools.model.people import CollectionObject
from archive_tools.publish.came_and_went import came_words, went_words
from archive_tools.publish.context import Context, Named, root_of
from archive_tools.publish.drawings import set_drawing
from archive_tools.publish.event_words import Say, grade_word, title_of, where_said
from archive_tools.publish.photographs import Shot, portrait
from archive_tools.publish.prose import Setting, as_text, inline
from archive_tools.publish.steward_entries import evidence, from_to, held_years

PATH = "objects/index.md"
KINDS = ("pot", "tray", "stand", "stone", "scroll", "accent")


@dataclass(frozen=True, slots=True)
class ObjectRow:
    """One thing in the index: what it is of, and the tree that stands in it."""

    named: Named
    made_of: str
    tree: Named | None
    words: str


@dataclass(frozen=True, slots=True)
class Shelf:
    """The things of one kind."""

    kind: str
    title: str
    things: tuple[ObjectRow, ...]


@dataclass(frozen=True, slots=True)
class TreeRow:
    """One tree in the table of those that stood in it."""

    tree: Named
    number: str
    years: str
    how: str
    grade: str


@dataclass(frozen=True, slots=True)
class HolderRow:
    """One holder in the table; nobody for years of which none is known."""

    who: tuple[Named, ...]
    years: str
    words: str
    grade: str


@dataclass(frozen=True, slots=True)
class Happening:
    """Something that happened to it."""

    when: str
    title: str
    text: Markup
    evidence: str


def object_pages(context: Context) -> tuple[Page, ...]:
    """The index and a page for each thing that the edition may show by its name; none where there are no things."""
    _ = context.translations.gettext
    things = [thing for thing in context.records.objects.values() if not thing.masked]
    if not things:
        return ()
    things.sort(key=lambda thing: context.say(thing.name).casefold())
    body = context.render("objects.html", PATH, shelves=_shelves(context, things), total=len(things))
    title = _("Pots and other things")
    description = _("Pots, trays, stands and stones, and the trees that stood in them.")
    index = Page(PATH, title, body, "objects", description, language=context.language)
    return (index, *(_page(context, thing) for thing in things))


def _shelves(context: Context, things: list[CollectionObject]) -> tuple[Shelf, ...]:
    words = _kinds(context.translations.gettext)
    by_kind: dict[str, list[ObjectRow]] = {kind: [] for kind in KINDS}
    for thing in things:
        by_kind.setdefault(thing.kind, []).append(_row(context, thing))
    return tuple(Shelf(kind, words.get(kind, kind), tuple(rows)) for kind, rows in by_kind.items() if rows)


def _kinds(_: Say) -> Mapping[str, str]:
    return {
        "pot": _("Pots"), "tray": _("Trays"), "stand": _("Stands"), "stone": _("Stones"), "scroll": _("Scrolls"),
        "accent": _("Accents"),
    }  # fmt: skip


def kind_words(_: Say) -> Mapping[str, str]:
    """Each kind of thing in the singular."""
    return {
        "pot": _("Pot"), "tray": _("Tray"), "stand": _("Stand"), "stone": _("Stone"), "scroll": _("Scroll"),
        "accent": _("Accent"),
    }  # fmt: skip


def line_of(context: Context, thing: CollectionObject) -> ObjectLine:
    """The line of a thing; an empty one where nothing is recorded."""
    return context.view.findings.objects.get(thing.id, ObjectLine(thing.id, (), (), ()))


def _now(line: ObjectLine) -> TreeInObject | None:
    return next((spell for spell in reversed(line.trees) if spell.end is None and spell.sort == "in"), None)


def _row(context: Context, thing: CollectionObject) -> ObjectRow:
    _ = context.translations.gettext
    now = _now(line_of(context, thing))
    made_of = _brief(context.say(thing.material) or context.say(thing.glaze))
    if now is None:
        return ObjectRow(context.thing(thing.id), made_of, None, "")
    return ObjectRow(context.thing(thing.id), made_of, context.tree_named(now.tree), from_to(context, now.start, None))


def _brief(words: str) -> str:
    """The first part of a description, as an index has room for it."""
    return words.split(";", maxsplit=1)[0].split(". ", maxsplit=1)[0]


def _page(context: Context, thing: CollectionObject) -> Page:
    _ = context.translations.gettext
    path = f"{context.object_path(thing.id)}index.md"
    root = root_of(path)
    line = line_of(context, thing)
    drawing = context.pictures.object_lines.get(thing.id, "")
    name = context.say(thing.name)
    body = context.render(
        "object.html",
        path,
        name=name,
        kind=kind_words(_).get(thing.kind, thing.kind),
        facts=_facts(context, thing),
        maker=context.steward(thing.maker) if thing.maker else None,
        owner=context.steward(thing.owner) if thing.owner else None,
        leading=_leading(context, line),
        drawing=set_drawing(context, drawing, root),
        holders=_holders(context, line),
        trees=[_tree_row(context, spell) for spell in line.trees],
        happened=[_happening(context, event, root) for event in thing.events if not event.planned],
    )
    description = as_text(context, thing.material) or name
    return Page(path, name, body, "objects", description, language=context.language)


def _facts(context: Context, thing: CollectionObject) -> list[tuple[str, str]]:
    _ = context.translations.gettext
    facts = (
        (_("Mark"), thing.mark), (_("Material"), thing.material), (_("Glaze"), thing.glaze), (_("Size"), thing.size),
    )  # fmt: skip
    return [(name, context.say(words)) for name, words in facts if words]


def _leading(context: Context, line: ObjectLine) -> tuple[Named, Shot] | None:
    """The portrait of the tree that stands in it."""
    now = _now(line)
    tree = context.records.trees.get(now.tree) if now is not None else None
    shot = portrait(context, tree) if tree is not None else None
    return (context.tree_named(tree.accession), shot) if tree is not None and shot is not None else None


def _holders(context: Context, line: ObjectLine) -> list[HolderRow]:
    _ = context.translations.gettext
    rows = []
    for at, period in enumerate(line.periods):
        if period.is_gap:
            rows.append(HolderRow((), held_years(context, period), "", ""))
            continue
        said = ". ".join(
            part for part in (came_words(context, line.periods, at), went_words(context, line.periods, at)) if part
        )
        years = held_years(context, period) if period.start.known or period.end is not None else ""
        words = evidence(context, period.grade, period.sources)
        rows.append(HolderRow(context.stewards(period.holders), years, said, words))
    return rows


def _tree_row(context: Context, spell: TreeInObject) -> TreeRow:
    _ = context.translations.gettext
    words = _("Stood in it") if spell.sort == "in" else _("With it")
    if spell.sort == "in" and spell.end is None:
        words = _("Stands in it")
    if spell.presumed_end:
        words = _("Stood in it; that it left is inferred from the next tree")
    return TreeRow(
        context.tree_named(spell.tree),
        spell.tree,
        from_to(context, spell.start, spell.end),
        words,
        grade_word(spell.grade, _),
    )


def _happening(context: Context, event: Event, root: str) -> Happening:
    place = where_said(context, event)
    title = title_of(context, event)
    return Happening(
        context.dates.until(event.when, event.until),
        f"{title}, {place}" if place else title,
        inline(context, event.text, Setting(root)),
        evidence(context, event.standing, event.sources),
    )
