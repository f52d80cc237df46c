"""Stewards: an index of names, and a page for each who may be named."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from archive_tools.model.kinds import KINDS, Group
from archive_tools.model.page import Page
from archive_tools.model.people import Steward
from archive_tools.publish.context import Context, Named, root_of
from archive_tools.publish.event_words import kind_words
from archive_tools.publish.prose import Setting, block
from archive_tools.publish.tree_stewards import how_words
from archive_tools.publish.wall import WallEntry, wall_entry

PATH = "stewards/index.md"
MADE = frozenset({Group.BEGINNING, Group.PLANTING})
SHAPED = frozenset({"styled", "bent", "carved", "deadwood made", "front changed", "planting angle changed",
                    "branch removed", "demonstrated"})  # fmt: skip


@dataclass(frozen=True, slots=True)
class TreeLine:
    """One tree of a steward: the tree, the years, and what they did or how they came to it."""

    tree: WallEntry
    years: str
    words: str


@dataclass(frozen=True, slots=True)
class StewardLine:
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
    lines = [_line(context, steward) for steward in named]
    body = context.render("stewards.html", PATH, lines=lines, withheld=withheld)
    index = Page(PATH, _("Stewards"), body, "stewards", _("Those who kept the trees."), language=context.language)
    return (index, *(_page(context, steward) for steward in named))


def _page(context: Context, steward: Steward) -> Page:
    path = f"{context.steward_path(steward.id)}index.md"
    about = context.say(steward.about)
    pupils = [
        other for other in context.records.stewards.values()
        if not other.masked and any(taught.who == steward.id for taught in other.taught_by)
    ]  # fmt: skip
    body = context.render(
        "steward.html",
        path,
        steward=steward,
        name=context.steward_name(steward),
        other_names=other_names(steward),
        kind=kind_of(context, steward),
        life=life_of(context, steward),
        about=block(context, about, Setting(root_of(path), first_heading=2)) if about else Markup(""),
        held=_held(context, steward.id),
        made=_worked(context, steward.id, made=True),
        shaped=_worked(context, steward.id, made=False),
        teachers=[(context.steward(taught.who), context.dates.until(taught.from_, taught.until))
                  for taught in steward.taught_by],
        pupils=[context.steward(other.id) for other in pupils],
        members=[context.steward(member) for member in steward.members],
        member_of=[context.steward(club) for club in steward.member_of],
    )  # fmt: skip
    life = life_of(context, steward)
    description = ", ".join(part for part in (context.steward_name(steward), life) if part)
    return Page(path, context.steward_name(steward), body, "stewards", description, language=context.language)


def _line(context: Context, steward: Steward) -> StewardLine:
    ngettext = context.translations.ngettext
    trees = {line.tree.accession for line in _held(context, steward.id)}
    trees |= {line.tree.accession for made in (True, False) for line in _worked(context, steward.id, made=made)}
    words = ngettext("%(n)s tree", "%(n)s trees", len(trees)) % {"n": len(trees)} if trees else ""
    kind = kind_of(context, steward)
    return StewardLine(
        context.steward(steward.id),
        other_names(steward),
        life_of(context, steward),
        ", ".join(part for part in (kind, words) if part),
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
    active = context.dates.year(steward.active)
    return _("active %(years)s") % {"years": active} if active else ""


def _held(context: Context, steward_id: str) -> list[TreeLine]:
    lines = []
    for accession, custody in context.view.findings.custodies.items():
        tree = context.records.trees.get(accession)
        for period in custody.periods:
            if tree is None or steward_id not in period.holders:
                continue
            start = context.dates.bounds(period.start)
            years = context.translations.gettext("since %(date)s") % {"date": start} if start else ""
            if period.end is not None:
                years = context.translations.gettext("%(start)s to %(end)s") % {
                    "start": start or "?", "end": context.dates.bounds(period.end) or "?"
                }  # fmt: skip
            lines.append(TreeLine(wall_entry(context, tree), years, how_words(context, period)))
    return lines


def _worked(context: Context, steward_id: str, *, made: bool) -> list[TreeLine]:
    words = kind_words(context.translations.gettext)
    lines = []
    for accession, custody in context.view.findings.custodies.items():
        tree = context.records.trees.get(accession)
        hands = [
            hand for hand in custody.hands
            if steward_id in hand.stewards and hand.kind in KINDS
            and (KINDS[hand.kind].group in MADE if made else hand.kind in SHAPED)
        ]  # fmt: skip
        if tree is None or not hands:
            continue
        years = dict.fromkeys(filter(None, (context.dates.bounds(hand.bounds) for hand in hands)))
        kinds = dict.fromkeys(words.get(hand.kind, hand.kind) for hand in hands)
        lines.append(TreeLine(wall_entry(context, tree), ", ".join(years), ", ".join(kinds)))
    return lines
