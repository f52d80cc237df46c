"""The plants of a planting: who stands and stood in it, where, from when to when; and how old it is apart from them."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from archive_tools.model.findings import Bounds
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.lineage import Lineage, MemberSpell, member_numbers
from archive_tools.model.tree import Member, Tree
from archive_tools.publish.context import Context, Named


@dataclass(frozen=True, slots=True)
class MemberRow:
    """One plant of a planting, and one time it stood there."""

    named: Named
    taxon: Markup | None
    place: str
    began: str
    years: str
    is_gone: bool


def members_of(context: Context, tree: Tree, lineage: Lineage) -> tuple[MemberRow, ...]:
    """A row for each time a plant stood in the planting, as the record lists its plants."""
    listed = {member.id: member for member in tree.members}
    numbers = member_numbers(lineage.members)
    for spell in lineage.members:
        if spell.place and all(one.member == spell.member for one in lineage.members if one.place == spell.place):
            numbers.pop(spell.member, None)  # its place, of which no other is told, tells which it is
    return tuple(
        _row(context, tree, spell, listed.get(spell.member), numbers.get(spell.member)) for spell in lineage.members
    )


def standing_in(context: Context, tree: Tree, lineage: Lineage) -> int:
    """How many plants stand in it today."""
    return sum(spell.count for spell in lineage.members if not _is_gone(context, spell))


def oldest_said(context: Context, tree: Tree, lineage: Lineage) -> str:
    """How old the planting is, apart from the age of its oldest plant: "Planted together 1978; its oldest plant: in
    training since 1949". "" where no plant that stands in it has a record that tells its age.
    """
    _ = context.translations.gettext
    found = []
    for spell in lineage.members:
        chronology = context.view.findings.chronologies.get(spell.tree or "")
        if chronology is None or _is_gone(context, spell):
            continue
        for milestone in (Milestone.CARE, Milestone.ORIGIN):
            finding = chronology.milestones.get(milestone)
            if finding is None or not finding.wording:
                continue
            layers = (finding.layers.get(grade, Bounds()) for grade in Grade)
            bounds = next((one for one in layers if one.known), Bounds())
            day = bounds.latest or bounds.earliest
            if day is not None:
                found.append((day, finding.wording))
            break
    if not found or not lineage.versions or not lineage.versions[0].start.known:
        return ""
    wording = min(found)[1]
    return _("Planted together %(year)s; its oldest plant: %(age)s.") % {
        "year": context.dates.bounds(lineage.versions[0].start),
        "age": wording[:1].lower() + wording[1:],
    }


def _row(context: Context, tree: Tree, spell: MemberSpell, member: Member | None, number: int | None) -> MemberRow:
    taxon = spell.taxon or (tree.taxon[0] if len(tree.taxon) == 1 else None)
    return MemberRow(
        named=_named(context, spell, number),
        taxon=context.botanical(taxon) if taxon else None,
        place=context.say(spell.place),
        began=context.say(member.began) if member is not None else "",
        years=_years(context, spell),
        is_gone=_is_gone(context, spell),
    )


def _named(context: Context, spell: MemberSpell, number: int | None) -> Named:
    """By its record, its count or its number; where its place is enough, that stands in a column of its own."""
    _ = context.translations.gettext
    if spell.tree and spell.tree in context.records.trees:
        return context.tree_named(spell.tree)
    if spell.count > 1:
        return Named(_("%(count)s plants") % {"count": spell.count})
    one = _("one plant")
    return Named(_("Plant %(n)s") % {"n": number} if number is not None else f"{one[:1].upper()}{one[1:]}")


def _years(context: Context, spell: MemberSpell) -> str:
    _ = context.translations.gettext
    start = context.dates.bounds(spell.start)
    if spell.end is None:
        return _("since %(date)s") % {"date": start} if start else ""
    end = context.dates.bounds(spell.end)
    if not start or not end:
        return _("until %(date)s") % {"date": end} if end else start
    return start if start == end else _("%(start)s to %(end)s") % {"start": start, "end": end}


def _is_gone(context: Context, spell: MemberSpell) -> bool:
    return spell.end is not None and (spell.end.latest is None or spell.end.latest <= context.as_of)
