"""The line of stewards in words: the table beside the drawing."""

from __future__ import annotations

from dataclasses import dataclass

from archive_tools.model.findings import Bounds, Custody, CustodyPeriod, Hand
from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context, Named
from archive_tools.publish.event_words import grade_word, kind_words


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
    has_gap: bool
    has_loan: bool


def stewards_part(context: Context, tree: Tree) -> StewardsPart | None:
    """The line of stewards of a tree, or None where nothing is known of any."""
    custody = context.view.findings.custodies.get(tree.accession)
    if custody is None or not custody.periods:
        return None
    return StewardsPart(
        drawing=context.pictures.custody_lines.get(tree.accession, ""),
        held=tuple(_held(context, tree, period) for period in custody.periods),
        hands=hands_of(context, custody),
        has_gap=any(period.is_gap for period in custody.periods),
        has_loan=any(not period.owner for period in custody.periods),
    )


def _held(context: Context, tree: Tree, period: CustodyPeriod) -> HeldRow:
    _ = context.translations.gettext
    start = _start(context, tree, period)
    end = context.dates.bounds(period.end) if period.end is not None else ""
    if period.is_gap:
        words = {
            "bridged": _("Said not to have changed hands"),
            "presumed": _("Nobody known; thought not to have changed hands"),
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
    words = {
        "first hands": _("First hands"), "gift": _("By gift"), "bequest": _("By bequest"),
        "purchase": _("By purchase"), "exchange": _("By exchange"), "transfer": _("Handed over"),
        "given away": _("By gift"), "sold": _("By purchase"),
        "loan": _("On loan"), "collected": _("Collected it"), "found in collection": _("Found in the collection"),
    }  # fmt: skip
    said = words.get(period.how) or kind_words(_).get(period.how, period.how)
    if not period.owner and period.lent_by:
        return _("On loan from %(who)s") % {"who": context.names(period.lent_by)}
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


def _years(context: Context, hands: list[Hand]) -> str:
    firsts = [hand.bounds.earliest for hand in hands if hand.bounds.earliest is not None]
    lasts = [hand.bounds.latest for hand in hands if hand.bounds.latest is not None]
    if not firsts or not lasts:
        return context.dates.bounds(hands[0].bounds)
    return context.dates.bounds(Bounds(min(firsts), max(lasts)))
