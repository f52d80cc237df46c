"""The line of stewards in words: the table beside the drawing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from archive_tools.model.findings import Bounds, Custody, CustodyPeriod, Hand, Presence
from archive_tools.model.tree import Tree
from archive_tools.publish.came_and_went import how_it_came
from archive_tools.publish.context import Context, Named, root_of
from archive_tools.publish.drawings import set_drawing
from archive_tools.publish.event_words import grade_word, kind_words
from archive_tools.publish.typography import set_in_type

WITHIN_A_YEAR = 366
"""Days; as the drawing has it (`illustrate.bars.CRISP_DAYS`)."""


@dataclass(frozen=True, slots=True)
class HeldRow:
    """One holder, or a gap. `who` is empty for a gap; `note` says how the tree came, or what a gap rests on."""

    start: str
    end: str
    who: tuple[Named, ...]
    note: str
    grade: str
    is_gap: bool = False


@dataclass(frozen=True, slots=True)
class HandRow:
    """What one steward's hands did, and in which years."""

    who: tuple[Named, ...]
    years: str
    what: str


@dataclass(frozen=True, slots=True)
class StewardsPart:
    """The drawing (an SVG element, or "") and its table."""

    drawing: str
    held: tuple[HeldRow, ...]
    hands: tuple[HandRow, ...]
    key: tuple[str, ...]
    """What a reader needs to be told of the drawing: only of what it shows."""
    told: str
    """The line in a paragraph."""


def stewards_part(context: Context, tree: Tree) -> StewardsPart | None:
    """The line of stewards of a tree, or None where nothing is known of any."""
    custody = context.view.findings.custodies.get(tree.accession)
    if custody is None or not custody.periods:
        return None
    root = root_of(f"{context.tree_path(tree.accession)}index.md")
    return StewardsPart(
        drawing=set_drawing(context, context.pictures.custody_lines.get(tree.accession, ""), root),
        held=tuple(_held(context, tree, period) for period in custody.periods),
        hands=(*hands_of(context, custody), *present_of(context, custody)),
        key=_key(context, custody) if tree.accession in context.pictures.custody_lines else (),
        told=_told(context, tree),
    )


def _told(context: Context, tree: Tree) -> str:
    lineage = context.view.findings.lineages.get(tree.accession)
    return set_in_type(lineage.text[0], context.language) if lineage is not None and lineage.text else ""


def _key(context: Context, custody: Custody) -> tuple[str, ...]:
    """The signs of the drawing, each in a sentence, as far as they occur in it."""
    _ = context.translations.gettext
    held = [period for period in custody.periods if not period.is_gap]
    lent = [period for period in held if not period.owner]
    gaps = {period.gap_grade or "unknown" for period in custody.gaps}
    signs = (
        (any(_is_vague(b) for p in held for b in (p.start, p.end) if b), _("A soft end is a vague date.")),
        (any(p.joint for p in held), _("A bar in strands is held together.")),
        (bool(lent), _("An open bar: it stood with them and was not theirs.")),
        (bool(lent) and any(p.owner for p in held), _("A thin line: theirs, and standing elsewhere.")),
        (bool(gaps & {"unknown", "bridged"}), _("Dots are years in which nobody is known.")),
        ("bridged" in gaps, _("A stroke among them: somebody tells of the tree.")),
        ("presumed" in gaps, _("Dashes: nothing is told, and it is thought to have stayed.")),
        (any(p.given_in_return for p in held), _("Two arrows: an exchange both ways.")),
    )
    return tuple(sentence for is_shown, sentence in signs if is_shown)


def _is_vague(bounds: Bounds) -> bool:
    """Whether the drawing lets a bar fade for it: dates known to within a year are drawn as points."""
    if bounds.earliest is None or bounds.latest is None:
        return True
    return (bounds.latest - bounds.earliest).days > WITHIN_A_YEAR


def _held(context: Context, tree: Tree, period: CustodyPeriod) -> HeldRow:
    _ = context.translations.gettext
    start = _start(context, tree, period)
    end = context.dates.bounds(period.end) if period.end is not None else ""
    if period.is_gap:
        words = {
            "bridged": _("Nobody known, but somebody tells of the tree"),
            "presumed": _("Nothing told; thought to have stayed"),
            "unknown": _("No evidence"),
        }
        return HeldRow(start, end, (), words.get(period.gap_grade or "unknown", _("No evidence")), "", is_gap=True)
    return HeldRow(
        start, end, context.stewards(period.holders), how_words(context, period), grade_word(period.grade, _)
    )


def _start(context: Context, tree: Tree, period: CustodyPeriod) -> str:
    event = tree.event(period.event) if period.event else None
    if event is not None and event.when is not None and period.start.known:
        return context.dates.year(event.when)
    return context.dates.bounds(period.start)


def how_words(context: Context, period: CustodyPeriod) -> str:
    """How the tree came to a holder."""
    _ = context.translations.gettext
    said = how_it_came(context, period)
    if not period.owner and period.lent_by and period.how != "quarantine":
        said = _("On loan from %(who)s") % {"who": context.names(period.lent_by)}
    if period.joint:
        said = _("%(how)s, jointly") % {"how": said}
    if period.through:
        said = _("%(how)s, through %(who)s") % {"how": said, "who": context.names(period.through)}
    if period.given_in_return:
        trees = context.listed([context.tree_named(one).name for one in period.given_in_return])
        said = _("%(how)s, for %(trees)s") % {"how": said, "trees": trees}
    return said


def hands_of(context: Context, custody: Custody) -> tuple[HandRow, ...]:
    """Who worked on the tree, each with the years and the kinds of work, in order of first work."""
    words = kind_words(context.translations.gettext)
    by_stewards: dict[tuple[str, ...], list[Hand]] = {}
    for hand in custody.hands:
        by_stewards.setdefault(hand.stewards, []).append(hand)
    rows = []
    for stewards, hands in by_stewards.items():
        kinds = list(dict.fromkeys(words.get(hand.kind, hand.kind) for hand in hands))
        what = ", ".join([kinds[0], *(kind[:1].lower() + kind[1:] for kind in kinds[1:])])
        rows.append(HandRow(context.stewards(stewards), _years(context, hands), what))
    return tuple(rows)


def present_of(context: Context, custody: Custody) -> tuple[HandRow, ...]:
    """Who was present when something was done to the tree, each with the years and what was done."""
    _ = context.translations.gettext
    words = kind_words(_)
    by_stewards: dict[tuple[str, ...], list[Presence]] = {}
    for presence in custody.present:
        by_stewards.setdefault(presence.stewards, []).append(presence)
    rows = []
    for stewards, seen in by_stewards.items():
        kinds = dict.fromkeys(words.get(one.kind, one.kind) for one in seen)
        what = ", ".join(kind[:1].lower() + kind[1:] for kind in kinds)
        rows.append(HandRow(context.stewards(stewards), _years(context, seen), _("Present: %(work)s") % {"work": what}))
    return tuple(rows)


def _years(context: Context, hands: Sequence[Hand | Presence]) -> str:
    firsts = [hand.bounds.earliest for hand in hands if hand.bounds.earliest is not None]
    lasts = [hand.bounds.latest for hand in hands if hand.bounds.latest is not None]
    if not firsts or not lasts:
        return context.dates.bounds(hands[0].bounds)
    return context.dates.bounds(Bounds(min(firsts), max(lasts)))
