"""Stewards: an index of names, and a page for each who may be named."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from archive_tools.model.findings import CustodyPeriod, Hand
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
    """One tree of a steward, and in a few sentences what they had to do with it."""

    tree: WallEntry
    words: tuple[str, ...]


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
    trees = {steward.id: _trees(context, steward.id) for steward in named}
    lines = [_line(context, steward, len(trees[steward.id])) for steward in named]
    body = context.render("stewards.html", PATH, lines=lines, withheld=withheld)
    index = Page(PATH, _("Stewards"), body, "stewards", _("Those who kept the trees."), language=context.language)
    return (index, *(_page(context, steward, trees[steward.id]) for steward in named))


def _page(context: Context, steward: Steward, trees: tuple[TreeLine, ...]) -> Page:
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
        trees=trees,
        teachers=[(context.steward(taught.who), context.dates.until(taught.from_, taught.until))
                  for taught in steward.taught_by],
        pupils=[context.steward(other.id) for other in pupils],
        members=[context.steward(member) for member in steward.members],
        member_of=[context.steward(club) for club in steward.member_of],
    )  # fmt: skip
    life = life_of(context, steward)
    description = ", ".join(part for part in (context.steward_name(steward), life) if part)
    return Page(path, context.steward_name(steward), body, "stewards", description, language=context.language)


def _line(context: Context, steward: Steward, trees: int) -> StewardLine:
    ngettext = context.translations.ngettext
    words = ngettext("%(n)s tree", "%(n)s trees", trees) % {"n": trees} if trees else ""
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
    active = steward.active
    if active is None:
        return ""
    first, last = active.years
    if last is None and first is not None:
        return _("active since %(year)s") % {"year": first}
    if first is None and last is not None:
        return _("active until %(year)s") % {"year": last}
    return _("active %(years)s") % {"years": context.dates.year(active)}


def _trees(context: Context, steward_id: str) -> tuple[TreeLine, ...]:
    """The trees a steward had to do with, in the order of the collection, with what they did: kept, begun, styled."""
    _ = context.translations.gettext
    lines = []
    for accession, custody in context.view.findings.custodies.items():
        tree = context.records.trees.get(accession)
        if tree is None:
            continue
        held = [_held_words(context, period) for period in custody.periods if steward_id in period.holders]
        hands = [hand for hand in custody.hands if steward_id in hand.stewards and hand.kind in KINDS]
        begun = [hand for hand in hands if KINDS[hand.kind].group in MADE]
        shaped = [hand for hand in hands if hand.kind in SHAPED]
        parts = [*held, _work_words(context, begun), _work_words(context, shaped)]
        if not any(parts) and hands:
            parts = [_("Cared for it, %(years)s") % {"years": _years(context, hands)}]
        if any(parts):
            lines.append(TreeLine(wall_entry(context, tree), tuple(part for part in parts if part)))
    return tuple(lines)


def _held_words(context: Context, period: CustodyPeriod) -> str:
    _ = context.translations.gettext
    start = context.dates.bounds(period.start)
    if period.end is None:
        years = _("since %(date)s") % {"date": start} if start else ""
    else:
        end = context.dates.bounds(period.end)
        years = _("%(start)s to %(end)s") % {"start": start, "end": end} if start and end else start or end
    kept = _("Kept it %(years)s") % {"years": years} if years else _("Kept it")
    how = how_words(context, period)
    return _("%(kept)s: %(how)s") % {"kept": kept, "how": how[:1].lower() + how[1:]} if how else kept


def _work_words(context: Context, hands: Sequence[Hand]) -> str:
    """Such as "Styled, bent, 1991"."""
    if not hands:
        return ""
    words = kind_words(context.translations.gettext)
    kinds = list(dict.fromkeys(words.get(hand.kind, hand.kind) for hand in hands))
    said = ", ".join([kinds[0], *(kind[:1].lower() + kind[1:] for kind in kinds[1:])])
    years = _years(context, hands)
    return f"{said}, {years}" if years else said


def _years(context: Context, hands: Sequence[Hand]) -> str:
    years = list(dict.fromkeys(filter(None, (context.dates.bounds(hand.bounds) for hand in hands))))
    return ", ".join(years) if len(years) < 4 else f"{years[0]}–{years[-1]}"
