"""A planting: its places as rows on a line of years, who stood in them and when, and when it was remade.

A plant with a record of its own has a thin line for the years before it was set in, and after it was taken out: the
age of a planting is not that of its plants.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from archive_tools.illustrate.across import across
from archive_tools.illustrate.change import Translate
from archive_tools.illustrate.figure import Figure, Mark, Row, Strand, moment, stretch_of
from archive_tools.illustrate.kinship_diagram import described
from archive_tools.illustrate.life_spans import life_began, life_ended
from archive_tools.illustrate.period_words import names, years
from archive_tools.illustrate.planting_plan import planting_plan
from archive_tools.illustrate.svg_frame import id_part
from archive_tools.illustrate.svg_text import NARROW, Run
from archive_tools.illustrate.year_axis import axis_for
from archive_tools.model.findings import Bounds
from archive_tools.model.lineage import Lineage, MemberSpell, Version, member_numbers
from archive_tools.model.view import EditionView


def planting_chart(view: EditionView, accession: str, _: Translate = str) -> str:
    """The members of a planting through time, as two SVG elements, for a page and for a phone; "" where no member's
    years are known; after them the plan of its places, where they are counted.

    Both have a row for each place. Time does not run down on the phone: plants set together begin on one day, and words
    led off to the side of their bars could not be told apart. Links are written as in `kinship_diagram`.
    """
    figure = planting_figure(view, accession, _)
    if figure is None:
        return ""
    axis = axis_for(figure.days, view.as_of)
    chart = across(figure, axis) + across(replace(figure, prefix=f"{figure.prefix}-up"), axis, "upright", NARROW)
    return chart + planting_plan(view, accession, _)


def planting_figure(view: EditionView, accession: str, _: Translate = str) -> Figure | None:
    """What the chart shows, before it is laid out; None where no member's years are known."""
    tree = view.records.trees.get(accession)
    lineage = view.findings.lineages.get(accession)
    if tree is None or lineage is None or not lineage.members:
        return None
    language = view.records.settings.languages[0] if view.records.settings.languages else ""
    made = [row for version in lineage.versions for row in _made(view, lineage, version, language, _)]
    numbers = member_numbers(lineage.members)
    stood = [_place(view, spells, numbers, language, _) for spells in places_of(lineage)]
    figure = Figure(f"planting-{id_part(accession)}", "", "", (*made, *stood), linked=True, ruled=True)
    if not figure.days or not any(row.strands for row in stood):
        return None
    said = {"tree": tree.called(language), "start": min(figure.days).year}
    title = _("Who stood in %(tree)s, and when, from %(start)s to today") % said
    return replace(figure, title=title, description=described(view, accession))


def places_of(lineage: Lineage) -> list[list[MemberSpell]]:
    """The spells, gathered by who succeeded whom: a plant set into the very place of one that had left follows it.

    That two had the same place is taken from the record's words alone, never guessed from their years.
    """
    by_member: dict[str, list[MemberSpell]] = {}
    for spell in lineage.members:
        by_member.setdefault(spell.member, []).append(spell)
    rows: list[list[MemberSpell]] = []
    for spells in by_member.values():
        place = spells[0].place
        before = next(
            (row for row in rows if place is not None and row[-1].place == place and _follows(row[-1], spells[0])), None
        )
        if before is None:
            rows.append(list(spells))
        else:
            before += spells
    return rows


def _follows(gone: MemberSpell, came: MemberSpell) -> bool:
    if gone.end is None or gone.end.earliest is None or came.start.latest is None:
        return False
    return gone.end.earliest <= came.start.latest


def _made(view: EditionView, lineage: Lineage, version: Version, language: str, _: Translate) -> list[Row]:
    """A row for each time the planting was planted together, and for the day it was taken apart."""
    counts = {spell.member: spell.count for spell in lineage.members}
    rows = []
    if version.start.known:
        word = _("Planted together %(years)s") if version.number == 1 else _("Remade %(years)s")
        runs = [Run(word % {"years": years(version.start, _)}, "by")]
        plants = sum(counts.get(member, 1) for member in version.members)
        said = _plants(plants, _) if plants else ""
        if version.by:
            by = names(version.by, view.records.stewards, language, _)
            said = (
                _("%(plants)s, by %(names)s") % {"plants": said, "names": by}
                if said
                else _("by %(names)s") % {"names": by}
            )
        rows.append(_moment_row(view, (*runs, *((Run(said),) if said else ())), version.start, "made"))
    apart = version.taken_apart
    if apart is not None and apart.known and (version.end is None or years(apart, _) != years(version.end, _)):
        runs = [Run(_("Taken apart %(years)s") % {"years": years(apart, _)}, "by")]
        rows.append(_moment_row(view, tuple(runs), apart, "made"))
    return rows


def _moment_row(view: EditionView, runs: tuple[Run, ...], bounds: Bounds, css: str) -> Row:
    return Row("version", runs, marks=(Mark(*moment(bounds, view.as_of), css),), track="made")


def _plants(count: int, _: Translate) -> str:
    return _("one plant") if count == 1 else _("%(count)s plants") % {"count": count}


def _place(
    view: EditionView, spells: list[MemberSpell], numbers: Mapping[str, int], language: str, _: Translate
) -> Row:
    """One place of the planting: the names of those who stood in it, one after the other, and where it is."""
    strands: list[Strand] = []
    marks: list[Mark] = []
    runs: list[Run] = []
    named = list({spell.member: spell for spell in spells}.values())
    place = spells[-1].place.say(language) if spells[-1].place is not None else ""
    if place and len(named) == 1 and spells[0].count == 1 and spells[0].tree not in view.records.trees:
        runs.append(Run(place[:1].upper() + place[1:], "by"))
        named, place = [], ""
    for at, spell in enumerate(named):
        then = _("then %(name)s") if at else "%(name)s"
        link = f"tree:{spell.tree}" if spell.tree and spell.tree in view.records.trees else ""
        runs.append(Run(then % {"name": _name(view, spell, numbers, language, _)}, "by", link))
    if place:
        runs.append(Run(place))
    for spell in spells:
        if not spell.start.known and (spell.end is None or not spell.end.known):
            continue
        strands += _bars(view, spell, stays={one.member for one in spells if one.end is None})
    for tree in dict.fromkeys(spell.tree for spell in spells if spell.tree):
        ended = life_ended(view, tree)
        if ended is not None:
            marks.append(Mark(*moment(ended, view.as_of), "ended"))
    return Row("member", tuple(runs), tuple(strands), tuple(marks), track=spells[0].member, tight=True)


def _bars(view: EditionView, spell: MemberSpell, stays: set[str]) -> list[Strand]:
    """A plant's time in the planting, and its own life before and after as a thin line."""
    stretch = stretch_of(spell.start, spell.end, view.as_of, view.as_of)
    bars = [Strand(stretch, "here" if spell.member in stays else "held", spell.count)]
    if spell.tree is None:
        return bars
    began, ended = life_began(view, spell.tree), life_ended(view, spell.tree)
    if began.known:
        alone = stretch_of(began, spell.start, stretch.start[0], view.as_of)
        if alone.start[1] < stretch.start[0]:
            bars.insert(0, Strand(alone, "with"))
    if spell.end is not None:
        after = stretch_of(spell.end, ended, stretch.end[1], view.as_of)
        if after.end[0] > stretch.end[1]:
            bars.append(Strand(after, "with"))
    return bars


def _name(view: EditionView, spell: MemberSpell, numbers: Mapping[str, int], language: str, _: Translate) -> str:
    """What a plant of a planting is called: by its own record, else by how many it stands for, else by its number."""
    tree = view.records.trees.get(spell.tree or "")
    if tree is not None:
        name = tree.called(language)
        return f"{name} × {spell.count}" if spell.count > 1 else name
    if spell.count > 1:
        return _plants(spell.count, _)
    return _("Plant %(n)s") % {"n": numbers.get(spell.member, 1)}
