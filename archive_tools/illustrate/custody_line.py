"""The line of stewards: who held one tree, from when to when, drawn with what is not known.

One row a holder, words above the bar: full for what is certain, fading where a date is vague, open for a loan, dots for
years in which nobody is known. The hands that worked on the tree stand on the last row, the years below it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from archive_tools.illustrate import period_words
from archive_tools.illustrate.bars import LEAST, Bar, bar, fades, full, gradients, vague
from archive_tools.illustrate.change import Translate
from archive_tools.illustrate.hands import drawn_days, hands_row
from archive_tools.illustrate.svg_frame import drawing, group, id_part, words
from archive_tools.illustrate.svg_text import NARROW, Run, Text, beside, line_width, percent, pixels, wrapped
from archive_tools.illustrate.year_axis import YearAxis, axis_for
from archive_tools.model.findings import Bounds, Custody, CustodyPeriod
from archive_tools.model.people import Steward
from archive_tools.model.view import EditionView

_FIRST_LINE, _NEXT_LINE, _TO_BAR, _BELOW = 22.0, 21.0, 11.0, 19.0
"""Pixels: top of a row to its first baseline, to each further one, to the bar, and to the next row."""


@dataclass(frozen=True, slots=True)
class _Stretch:
    """Days between which a bar begins, and between which it ends."""

    start: tuple[date, date]
    end: tuple[date, date]


@dataclass(frozen=True, slots=True)
class _Row:
    """One row: a holder's time, with the loan that went before it if the two belong together."""

    period: CustodyPeriod
    stretch: _Stretch
    loan: _Stretch | None
    runs: tuple[Run, ...]


def custody_line(view: EditionView, accession: str, _: Translate = str) -> str:
    """The line of stewards of one tree as an SVG element; "" when no holder and no dated work is known."""
    custody = view.findings.custodies.get(accession)
    tree = view.records.trees.get(accession)
    if custody is None or tree is None:
        return ""
    language = view.records.settings.languages[0] if view.records.settings.languages else ""
    stewards, custodian = view.records.stewards, view.records.settings.custodian
    rows = _rows(custody, stewards, custodian, view.as_of, language, _)
    days = [day for row in rows for one in (row.stretch, row.loan) if one for day in (*one.start, *one.end)]
    days += drawn_days(custody.hands, view.as_of)
    if not days:
        return ""
    axis = axis_for(days, view.as_of)
    prefix = f"line-{id_part(accession)}"
    parts, y = [], 0.0
    for row in rows:
        markup, y = _drawn(row, axis, y, prefix, custodian)
        parts.append(markup)
    hands = hands_row(custody.hands, stewards, axis, view.as_of, y, f"{prefix}-soft", language, _)
    if hands is not None:
        parts.append(hands.markup)
        y += hands.height
    numbers = axis.numbers(y + 30)
    definitions = gradients(f"{prefix}-soft") + gradients(f"{prefix}-soft-here", "of-here")
    return drawing(
        prefix,
        _title(custody, days, _) % {"tree": tree.called(language), "start": min(days).year, "end": max(days).year},
        description(custody, stewards, custodian, language, _),
        y + 38,
        definitions,
        axis.lines(y + 8) + "".join(parts) + group(words(numbers)),
    )


def _title(custody: Custody, days: list[date], _: Translate) -> str:
    if any(period.end is None for period in custody.periods):
        return _("Who held %(tree)s, %(start)s to today")
    return _("Who held %(tree)s, %(start)s to %(end)s")


def description(
    custody: Custody, stewards: Mapping[str, Steward], custodian: str, language: str = "", _: Translate = str
) -> str:
    """The drawing in sentences: every holder, every gap and every hand, in order of time."""
    held = []
    for period in custody.periods:
        if period.is_gap:
            who, when = _("nobody known"), period_words.held(period, "", _)
        else:
            who = period_words.names(period.holders, stewards, language, _)
            when = period_words.held(period, custodian, _)
        held.append(f"{who}, {when}" if when else who)
    said = "; ".join(held)
    said = f"{said[0].upper()}{said[1:]}." if said else ""
    worked = "; ".join(period_words.worked(hand, stewards, language, _) for hand in custody.hands)
    return f"{said} {_('Hands: %(worked)s.') % {'worked': worked}}".strip() if worked else said


def _rows(
    custody: Custody, stewards: Mapping[str, Steward], custodian: str, as_of: date, language: str, _: Translate
) -> list[_Row]:
    rows: list[_Row] = []
    merged: set[int] = set()
    before = as_of
    for at, period in enumerate(custody.periods):
        if at in merged:
            continue
        kept_at = _kept(custody.periods, at)
        kept = custody.periods[kept_at] if kept_at is not None else None
        stretch = _stretch(period, before, as_of)
        before = stretch.end[1]
        if period.is_gap:
            said = period_words.gap(period, _)
            runs = (Run(_("nobody known"), "gap-word"), *((Run(said),) if said else ()))
            rows.append(_Row(period, stretch, None, runs))
            continue
        who = Run(period_words.names(period.holders, stewards, language, _), "who")
        if kept is not None and kept_at is not None:
            merged.add(kept_at)
            own = _stretch(kept, before, as_of)
            runs = (who, Run(period_words.lent_then_given(period, kept, _)))
            rows.append(_Row(kept, own, stretch, runs))
        else:
            rows.append(_Row(period, stretch, None, (who, Run(period_words.held(period, custodian, _)))))
    return rows


def _kept(periods: tuple[CustodyPeriod, ...], at: int) -> int | None:
    """Where, after a loan, the time begins in which the same holders owned the tree; None where it does not follow."""
    loan = periods[at]
    if loan.owner or loan.is_gap or loan.end is None:
        return None
    return next(
        (
            later
            for later in range(at + 1, len(periods))
            if periods[later].owner and periods[later].holders == loan.holders and _meet(loan.end, periods[later].start)
        ),
        None,
    )


def _meet(end: Bounds, start: Bounds) -> bool:
    """Whether an end and a beginning may fall on one day."""
    return (end.earliest is None or start.latest is None or end.earliest <= start.latest) and (
        start.earliest is None or end.latest is None or start.earliest <= end.latest
    )


def _stretch(period: CustodyPeriod, before: date, as_of: date) -> _Stretch:
    low, high = (min(day, as_of) for day in vague(period.start, is_end=False, otherwise=before))
    if period.end is None:
        return _Stretch((low, high), (as_of, as_of))
    ends = tuple(min(max(day, low), as_of) for day in vague(period.end, is_end=True, otherwise=high))
    return _Stretch((low, high), (ends[0], ends[1]))


def _drawn(row: _Row, axis: YearAxis, top: float, prefix: str, custodian: str) -> tuple[str, float]:
    """A row as SVG, and where the next one begins."""
    own = bar(row.stretch.start, row.stretch.end, axis)
    lent = bar(row.loan.start, row.loan.end, axis) if row.loan else None
    texts = _lines(row.runs, (lent or own).low, own.high, top)
    y = texts[-1].y + _TO_BAR
    if row.period.is_gap:
        marks = _dots(own, y + 2)
    else:
        marks = _bar(own, row.period, y, prefix, custodian)
        if lent is not None:
            marks = "".join(fades(lent, f"{prefix}-soft-here", y, 5)) + full("loan", lent, y, 5) + marks
    return group(words(texts), marks), y + _BELOW


def _lines(runs: tuple[Run, ...], start: float, end: float, top: float) -> tuple[Text, ...]:
    """The words of a row: on one line where that fits a phone, else each part on its own lines."""
    fits = line_width(runs) <= NARROW
    lines = [runs] if fits else [(line,) for run in runs for line in wrapped(run, NARROW)]
    return beside(lines, start, end, top + _FIRST_LINE, _NEXT_LINE)


def _bar(own: Bar, period: CustodyPeriod, y: float, prefix: str, custodian: str) -> str:
    here = custodian in period.holders
    soft = "".join(fades(own, f"{prefix}-soft-here" if here or not period.owner else f"{prefix}-soft", y, 5))
    if not period.owner:
        return soft + full("loan", own, y, 5)
    return soft + (full("here", own, y - 0.8, 6.6) if here else full("held", own, y, 5))


def _dots(own: Bar, y: float) -> str:
    """Years in which nobody is known, between what is known on both sides."""
    start, end = (own.from_, own.to) if own.to - own.from_ > 2 * LEAST else (own.low, own.high)
    inset = min(0.006, (end - start) / 4)
    place = f'x1="{percent(start + inset)}" x2="{percent(end - inset)}" y1="{pixels(y)}" y2="{pixels(y)}"'
    return f'<line class="gap" {place}/>'
