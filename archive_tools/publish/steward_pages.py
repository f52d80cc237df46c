"""Stewards: an index of names, and a page for each who may be named."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from archive_tools.model.active_years import active_ends
from archive_tools.model.lineage import StewardLine, TreeHeld, TreeWorked
from archive_tools.model.page import Page
from archive_tools.model.people import Steward
from archive_tools.publish.context import Context, Named, root_of
from archive_tools.publish.drawings import set_drawing
from archive_tools.publish.names_index import Letter, by_letter
from archive_tools.publish.photographs import Shot, portrait
from archive_tools.publish.prose import Setting, block
from archive_tools.publish.steward_entries import Entries, entries_of, from_to

PATH = "stewards/index.md"
_WEIGHT = {"made": 4, "styled": 3, "held": 2, "worked": 1}


@dataclass(frozen=True, slots=True)
class Leading:
    """The tree that stands for a steward: the one that owes them most of those with a portrait."""

    named: Named
    shot: Shot


@dataclass(frozen=True, slots=True)
class StewardRow:
    """One name in the index."""

    named: Named
    other_names: tuple[tuple[str, str], ...]
    life: str
    words: str


def steward_pages(context: Context) -> tuple[Page, ...]:
    """The index, and the pages of all stewards whom the edition may name."""
    _ = context.translations.gettext
    named = [s for s in context.records.stewards.values() if not s.masked]
    named.sort(key=lambda steward: steward.sorts_as.casefold())
    withheld = sum(steward.masked for steward in context.records.stewards.values())
    letters: tuple[Letter[StewardRow], ...] = by_letter((steward.sorts_as, _row(context, steward)) for steward in named)
    body = context.render(
        "stewards.html",
        PATH,
        letters=letters,
        total=len(named),
        withheld=withheld,
        taught=bool(context.view.findings.teaching),
        things=bool(context.object_addresses),
    )
    index = Page(PATH, _("Stewards"), body, "stewards", _("Those who kept the trees."), language=context.language)
    return (index, *(_page(context, steward) for steward in named))


def line_of(context: Context, steward: Steward) -> StewardLine:
    """What a steward had to do with the trees; nothing where nothing is recorded."""
    return context.view.findings.stewards.get(steward.id, StewardLine(steward.id))


def _page(context: Context, steward: Steward) -> Page:
    _ = context.translations.gettext
    path = f"{context.steward_path(steward.id)}index.md"
    about = context.say(steward.about)
    line = line_of(context, steward)
    parts = entries_of(context, line)
    start, end = active_ends(line, steward)
    drawing = context.pictures.steward_years.get(steward.id, "")
    name, life = context.steward_name(steward), life_of(context, steward)
    body = context.render(
        "steward.html",
        path,
        steward=steward,
        name=name,
        other_names=other_names(steward),
        kind=kind_of(context, steward),
        life=life,
        leading=_leading(context, line),
        about=block(context, about, Setting(root_of(path), first_heading=2)) if about else Markup(""),
        active=from_to(context, start, end) if start.known or end is None else "",
        told=parts,
        drawing=set_drawing(context, drawing, root_of(path)),
        key=_key(context, drawing, parts),
        table=_table(parts),
        members=[context.steward(member) for member in steward.members],
        member_of=[context.steward(club) for club in steward.member_of],
        taught=bool(line.teachers or line.pupils),
    )
    description = ", ".join(part for part in (name, life) if part)
    return Page(path, name, body, "stewards", description, language=context.language)


def _table(parts: Sequence[Entries]) -> tuple[Entries, ...]:
    """What the drawing shows, for the table beside it."""
    return tuple(part for part in parts if part.key in _WEIGHT)


def _key(context: Context, drawing: str, parts: Sequence[Entries]) -> tuple[str, ...]:
    """The signs of the drawing, each in a sentence, as far as they occur in it."""
    _ = context.translations.gettext
    grouped = any(part.decades for part in parts if part.key in ("held", "worked"))
    signs = (
        ('class="with"' in drawing, _("A thin line is their life.")),
        (
            'class="held"' in drawing or 'class="here"' in drawing,
            _("A bar: the years in which a tree was with them, or in which records tell."),
        ),
        (_fades(drawing), _("A soft end is a vague date.")),
        ('class="loan' in drawing, _("An open bar: it was not theirs.")),
        ('class="hand' in drawing and not grouped, _("A stroke: their hands were on it.")),
        (grouped, _("Of many trees those of one decade share a row, with a stroke for each.")),
    )
    return tuple(sentence for is_shown, sentence in signs if drawing and is_shown)


def _fades(drawing: str) -> bool:
    """Whether a bar of the drawing fades: a fill names one of the gradients that are laid ready in every drawing."""
    return 'fill="url(#' in drawing


def _leading(context: Context, line: StewardLine) -> Leading | None:
    owed: dict[str, int] = {}
    parts: dict[str, Sequence[TreeHeld | TreeWorked]] = {
        "made": line.made,
        "styled": line.styled,
        "held": line.held,
        "worked": line.worked,
    }
    for key, weight in _WEIGHT.items():
        for accession in dict.fromkeys(one.tree for one in parts[key]):
            owed[accession] = owed.get(accession, 0) + weight
    for accession in sorted(owed, key=lambda one: -owed[one]):
        tree = context.records.trees.get(accession)
        shot = portrait(context, tree) if tree is not None else None
        if shot is not None:
            return Leading(context.tree_named(accession), shot)
    return None


def _row(context: Context, steward: Steward) -> StewardRow:
    ngettext = context.translations.ngettext
    line = line_of(context, steward)
    trees = len({held.tree for held in line.held} | {w.tree for w in (*line.made, *line.styled, *line.worked)})
    words = ngettext("%(n)s tree", "%(n)s trees", trees) % {"n": trees} if trees else ""
    return StewardRow(
        context.steward(steward.id),
        other_names(steward),
        life_of(context, steward),
        ", ".join(part for part in (kind_of(context, steward), words) if part),
    )


def other_names(steward: Steward) -> tuple[tuple[str, str], ...]:
    """Names in other scripts, as (language or "", name)."""
    return tuple((key if "-" in key or len(key) in {2, 3} else "", name) for key, name in steward.names)


def kind_of(context: Context, steward: Steward) -> str:
    """What sort of steward; nothing for a person, of whom the name says it."""
    _ = context.translations.gettext
    words = {
        "couple": _("a couple"), "family": _("a family"), "estate": _("an estate"), "nursery": _("a nursery"),
        "club": _("a club"), "institution": _("an institution"),
    }  # fmt: skip
    return words.get(steward.kind, "")


def life_of(context: Context, steward: Steward) -> str:
    """Years of life or of activity: "1911–1978", "born about 1924, died 2009", "active 1958–1984"."""
    _ = context.translations.gettext
    born, died = context.dates.year(steward.born), context.dates.year(steward.died)
    if born and died:
        plain = born.isdigit() and died.isdigit()
        return f"{born}–{died}" if plain else _("born %(born)s, died %(died)s") % {"born": born, "died": died}
    if born:
        return _("born %(born)s") % {"born": born}
    if died:
        return _("died %(died)s") % {"died": died}
    active = steward.active
    if active is None:
        return ""
    first, last = active.years
    if last is None and first is not None:
        return _("active since %(year)s") % {"year": first}
    if first is None and last is not None:
        return _("active until %(year)s") % {"year": last}
    return _("active %(years)s") % {"years": context.dates.year(active)}
