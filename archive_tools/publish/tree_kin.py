"""Kin and planting: what a tree was raised from, what was raised from it, what it stands with."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from archive_tools.model.event import Event
from archive_tools.model.tree import Member, Tree
from archive_tools.publish.context import Context, Named
from archive_tools.publish.event_words import kind_words
from archive_tools.publish.photographs import Shot, portrait
from archive_tools.publish.prose import as_text


@dataclass(frozen=True, slots=True)
class Relative:
    """A relative of the house: the tree, its portrait, and the words that say how they belong together."""

    named: Named
    portrait: Shot | None
    words: str
    number: str


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """A relative kept elsewhere, or a mother plant known only in words."""

    text: str
    holder: str
    url: str


@dataclass(frozen=True, slots=True)
class MemberRow:
    """One plant of a planting."""

    named: Named
    taxon: Markup | None
    place: str
    began: str
    years: str
    is_gone: bool


@dataclass(frozen=True, slots=True)
class KinPart:
    """All of it; `members` is empty for a single tree."""

    members: tuple[MemberRow, ...]
    standing: int
    relatives: tuple[Relative, ...]
    elsewhere: tuple[Elsewhere, ...]


def kin_part(context: Context, tree: Tree) -> KinPart | None:
    """Kin and planting of a tree, or None where there is nothing to tell."""
    relatives = [*_mothers(context, tree), *_daughters(context, tree), *_plantings(context, tree)]
    elsewhere = [Elsewhere(text, "", "") for event in tree.events if (text := _mother_in_words(context, event))]
    for kin in tree.kin:
        holder = context.steward(kin.holder).name if kin.holder else ""
        elsewhere.append(Elsewhere(as_text(context, kin.text, tree.accession), holder, kin.url or ""))
    members = tuple(_member(context, tree, member) for member in tree.members)
    if not relatives and not elsewhere and not members:
        return None
    standing = sum(member.count for member, row in zip(tree.members, members, strict=True) if not row.is_gone)
    unique = tuple({relative.number: relative for relative in relatives}.values())
    return KinPart(members, standing, unique, tuple(elsewhere))


def _mothers(context: Context, tree: Tree) -> list[Relative]:
    _ = context.translations.gettext
    found = []
    for event in tree.events:
        mother = context.records.trees.get(event.from_tree.accession or "") if event.from_tree else None
        if mother is not None and mother.accession != tree.accession:
            words = _("Its mother: %(how)s") % {"how": _how(context, event)}
            found.append(_relative(context, mother, words))
    return found


def _daughters(context: Context, tree: Tree) -> list[Relative]:
    _ = context.translations.gettext
    return [
        _relative(context, other, _("Raised from it: %(how)s") % {"how": _how(context, event)})
        for other, event in context.offspring.get(tree.accession, ())
    ]


def _plantings(context: Context, tree: Tree) -> list[Relative]:
    _ = context.translations.gettext
    found = [
        _relative(context, other, _("The planting it is part of"))
        for other in context.plantings.get(tree.accession, ())
    ]
    for member in tree.members:
        plant = context.records.trees.get(member.accession or "")
        if plant is not None:
            found.append(_relative(context, plant, _("Stands in this planting")))
    return found


def _relative(context: Context, tree: Tree, words: str) -> Relative:
    return Relative(context.tree_named(tree.accession), portrait(context, tree), words, tree.accession)


def _how(context: Context, event: Event) -> str:
    word = kind_words(context.translations.gettext).get(event.kind, event.kind)
    when = context.dates.when(event.when)
    said = f"{word}, {when}" if when else word
    return said[:1].lower() + said[1:]


def _mother_in_words(context: Context, event: Event) -> str:
    if not event.from_tree_text:
        return ""
    text = event.from_tree_text
    return context.translations.gettext("Raised from %(mother)s") % {"mother": text}


def _member(context: Context, tree: Tree, member: Member) -> MemberRow:
    _ = context.translations.gettext
    if member.accession and member.accession in context.records.trees:
        named = context.tree_named(member.accession)
    else:
        name = member.id.replace("-", " ").replace("_", " ")
        named = Named(f"{name} × {member.count}" if member.count > 1 else name)
    years = context.dates.until(member.from_, member.until)
    if member.from_ and not member.until:
        years = _("since %(date)s") % {"date": context.dates.when(member.from_)}
    is_gone = member.until is not None and (member.until.latest is None or member.until.latest <= context.as_of)
    taxon = member.taxon or (tree.taxon[0] if len(tree.taxon) == 1 else None)
    return MemberRow(
        named=named,
        taxon=context.botanical(taxon) if taxon else None,
        place=context.say(member.place_in_planting),
        began=context.say(member.began),
        years=years,
        is_gone=is_gone,
    )
