"""Kin and planting: what a tree was raised from, what was raised from it, what it stands with."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from archive_tools.model.lineage import Kinship, Lineage
from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context, Named, root_of
from archive_tools.publish.drawings import set_drawing
from archive_tools.publish.event_words import grade_word, kind_words
from archive_tools.publish.photographs import Shot, portrait
from archive_tools.publish.prose import as_text
from archive_tools.publish.tree_members import MemberRow, members_of, oldest_said, standing_in
from archive_tools.publish.typography import set_in_type


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
class TieRow:
    """One tie of kinship in the table: with whom, how, when, and on what grade of evidence."""

    named: Named
    how: str
    when: str
    grade: str


@dataclass(frozen=True, slots=True)
class KinPart:
    """All of it; `members` is empty for a single tree. drawing, chart: SVG elements, or ""."""

    members: tuple[MemberRow, ...]
    standing: int
    oldest: str
    """How old the planting is, said apart from its oldest plant; "" where no plant of it has a record of its own."""
    relatives: tuple[Relative, ...]
    elsewhere: tuple[Elsewhere, ...]
    drawing: str = ""
    chart: str = ""
    ties: tuple[TieRow, ...] = ()
    told: tuple[str, ...] = ()
    key: tuple[str, ...] = ()
    """What a reader needs to be told of the drawings: only of what they show."""


def kin_part(context: Context, tree: Tree) -> KinPart | None:
    """Kin and planting of a tree, or None where there is nothing to tell."""
    lineage = context.view.findings.lineages.get(tree.accession, Lineage(tree.accession))
    relatives = tuple({one.number: one for one in _relatives(context, tree, lineage)}.values())
    drawing = context.pictures.kinship_diagrams.get(tree.accession, "")
    chart = context.pictures.planting_charts.get(tree.accession, "")
    elsewhere = [] if drawing else [_in_words(context, tie) for tie in lineage.came_from if tie.tree is None]
    for kin in tree.kin:
        holder = context.steward(kin.holder).name if kin.holder else ""
        elsewhere.append(Elsewhere(as_text(context, kin.text, tree.accession), holder, kin.url or ""))
    members = members_of(context, tree, lineage)
    if not relatives and not elsewhere and not members:
        return None
    root = root_of(f"{context.tree_path(tree.accession)}index.md")
    ties = (*lineage.came_from, *lineage.gave_rise_to)
    return KinPart(
        members=members,
        standing=standing_in(context, tree, lineage),
        oldest=oldest_said(context, tree, lineage),
        relatives=relatives,
        elsewhere=tuple(elsewhere),
        drawing=set_drawing(context, drawing, root),
        chart=set_drawing(context, chart, root),
        ties=tuple(_tie_row(context, tie) for tie in ties),
        told=_told(context, tree, lineage),
        key=_key(context, lineage, drawing, chart),
    )


def _key(context: Context, lineage: Lineage, drawing: str, chart: str) -> tuple[str, ...]:
    _ = context.translations.gettext
    signs = (
        (
            'class="tie seed"' in drawing,
            _("A broken tie is a seed: another plant. A whole one: the same plant, growing on."),
        ),
        (
            bool(chart) and any(spell.end is not None for spell in lineage.members),
            _("In colour: those that stand in it today."),
        ),
        (bool(chart) and any(spell.count > 1 for spell in lineage.members), _("A bar in strands: several plants.")),
        (
            'class="with"' in chart,
            _("A thin line: a plant's own years, before it was set in and after it was taken out."),
        ),
        ('class="drawing plan"' in chart, _("On the plan a ring is a place with a later plant than the first.")),
        ('class="ended"' in drawing + chart, _("A stroke at the end of a bar: it died.")),
    )  # fmt: skip
    return tuple(set_in_type(sentence, context.language) for is_shown, sentence in signs if is_shown)


def _in_words(context: Context, tie: Kinship) -> Elsewhere:
    return Elsewhere(context.translations.gettext("Raised from %(mother)s") % {"mother": tie.text or ""}, "", "")


def _told(context: Context, tree: Tree, lineage: Lineage) -> tuple[str, ...]:
    """What the lineage says in words of kin and planting, after the line of stewards."""
    custody = context.view.findings.custodies.get(tree.accession)
    paragraphs = lineage.text[1 if custody is not None and custody.periods else 0 :]
    return tuple(set_in_type(one, context.language) for one in paragraphs)


def _relatives(context: Context, tree: Tree, lineage: Lineage) -> Iterator[Relative]:
    _ = context.translations.gettext
    for tie in lineage.came_from:
        words = {
            "split off": _("It was part of this planting: %(how)s"),
            "merged": _("Taken up into it: %(how)s"),
        }.get(tie.relation, _("Its mother: %(how)s"))
        yield from _relative(context, tie.tree, words % {"how": _how(context, tie)})
    for tie in lineage.gave_rise_to:
        words = {
            "split off": _("Was part of it: %(how)s"),
            "merged": _("It was taken up into this one: %(how)s"),
        }.get(tie.relation, _("Raised from it: %(how)s"))
        yield from _relative(context, tie.tree, words % {"how": _how(context, tie)})
    for spell in lineage.part_of:
        words = _("The planting it is part of") if spell.end is None else _("The planting it was part of")
        yield from _relative(context, spell.planting, words)
    for spell in lineage.members:
        words = _("Stands in this planting") if spell.end is None else _("Stood in this planting")
        yield from _relative(context, spell.tree, words)


def _relative(context: Context, accession: str | None, words: str) -> Iterator[Relative]:
    tree = context.records.trees.get(accession or "")
    if tree is not None:
        yield Relative(context.tree_named(tree.accession), portrait(context, tree), words, tree.accession)


def _how(context: Context, tie: Kinship) -> str:
    word = kind_words(context.translations.gettext).get(tie.how, tie.how)
    when = context.dates.when(tie.when) if tie.when is not None else context.dates.bounds(tie.bounds)
    said = f"{word}, {when}" if when else word
    return said[:1].lower() + said[1:]


def _tie_row(context: Context, tie: Kinship) -> TieRow:
    _ = context.translations.gettext
    named = context.tree_named(tie.tree) if tie.tree else Named(tie.text or "")
    how = kind_words(_).get(tie.how, tie.how)
    if tie.ended is not None:
        how = _("%(how)s; it died %(when)s") % {"how": how, "when": context.dates.bounds(tie.ended)}
    when = context.dates.when(tie.when) if tie.when is not None else context.dates.bounds(tie.bounds)
    return TieRow(named, how, when, grade_word(tie.grade, _))
