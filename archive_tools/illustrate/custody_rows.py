"""The rows of a line of stewards: a holder, or years of which nobody is known, each with its words and its bar."""

from __future__ import annotations

from collections.abc import Sequence

from archive_tools.illustrate import period_words
from archive_tools.illustrate.change import Translate
from archive_tools.illustrate.figure import Mark, Row, Strand, Stretch, moment, stretch_of
from archive_tools.illustrate.svg_text import Run
from archive_tools.model.findings import Bounds, Custody, CustodyPeriod
from archive_tools.model.view import EditionView

_RETURNS = frozenset({"survivor", "family", "estate", "found again"})
"""Ways in which a tree does not come back from somebody else."""


def custody_rows(view: EditionView, custody: Custody, language: str, _: Translate = str) -> list[Row]:
    """A row a holder, in order of time; a loan that the borrower then kept is one row with what followed it."""
    rows: list[Row] = []
    merged: set[int] = set()
    before = view.as_of
    periods = custody.periods
    stretches: list[Stretch] = []
    for period in periods:
        stretches.append(stretch_of(period.start, period.end, before, view.as_of))
        before = stretches[-1].end[1]
    for at, (period, stretch) in enumerate(zip(periods, stretches, strict=True)):
        if at in merged:
            continue
        if period.is_gap:
            rows.append(_gap_row(view, custody, period, stretch, _))
            continue
        kept_at = _kept(view, periods, at)
        strand = _strand(view, periods, stretches, at if kept_at is None else kept_at)
        if kept_at is not None:
            merged.add(kept_at)
            own = periods[kept_at]
            words = period_words.lent_then_given(period, own, _)
            if _came_back(view, periods, kept_at):
                words = _("again, %(years)s") % {"years": words}
            said = _more(view, own, words, language, _)
            strands: tuple[Strand, ...] = (_strand(view, periods, stretches, at), strand)
            track = "held"
        else:
            said = _said(view, periods, at, language, _)
            strands = (strand,)
            track = "held" if period.owner else "lent"
        who = period_words.names(period.holders, view.records.stewards, language, _)
        swap = _swapped(view, period if kept_at is None else periods[kept_at])
        rows.append(Row("holder", (Run(who, "who"), *said), strands, swap, track))
    return rows


def _gap_row(view: EditionView, custody: Custody, period: CustodyPeriod, stretch: Stretch, _: Translate) -> Row:
    chronology = view.findings.chronologies.get(custody.accession)
    found = [chronology.event(event) for event in period.bridged_by] if chronology else []
    told_of = [one.bounds for one in found if one is not None and one.bounds.known]
    said = period_words.gap(period, told_of, view.as_of, _)
    runs = (Run(period_words.gap_head(period, _), "gap-word"), *((Run(said),) if said else ()))
    marks = tuple(Mark(*moment(bounds, view.as_of), "seen") for bounds in told_of)
    return Row("gap-row", runs, (Strand(stretch, f"gap {period.gap_grade or 'unknown'}"),), marks)


def _strand(view: EditionView, periods: Sequence[CustodyPeriod], stretches: Sequence[Stretch], at: int) -> Strand:
    period = periods[at]
    here = view.records.settings.custodian in period.holders
    if not period.owner:
        return Strand(stretches[at], "loan" if here else "loan out", len(period.holders) if period.joint else 1)
    away = tuple(
        stretches[other] for other, loan in enumerate(periods) if not loan.owner and not loan.is_gap and other != at
    )
    css = "here" if here else "held"
    return Strand(stretches[at], css, len(period.holders) if period.joint else 1, away)


def _swapped(view: EditionView, period: CustodyPeriod) -> tuple[Mark, ...]:
    """The sign of an exchange both ways, at its day."""
    if period.how != "exchange" or not period.given_in_return or not period.start.known:
        return ()
    return (Mark(*moment(period.start, view.as_of), "swap"),)


def _said(view: EditionView, periods: Sequence[CustodyPeriod], at: int, language: str, _: Translate) -> tuple[Run, ...]:
    period = periods[at]
    said = period_words.held(period, view.records.settings.custodian, _)
    if period.joint:
        said = _("jointly, %(years)s") % {"years": said}
    if _came_back(view, periods, at):
        said = _("again, %(years)s") % {"years": said}
    return _more(view, period, said, language, _)


def _more(view: EditionView, period: CustodyPeriod, said: str, language: str, _: Translate) -> tuple[Run, ...]:
    """What is said of a holder's time, with what sort of holder it is, through whom it came and what went in return."""
    stewards = view.records.stewards
    more = [said]
    if period.through:
        agents = period_words.names(period.through, stewards, language, _)
        more.append(_("through %(names)s") % {"names": agents})
    if period.given_in_return:
        trees = period_words.listed([_called(view, one, language) for one in period.given_in_return], _)
        more.append(_("for %(trees)s") % {"trees": trees})
    sort = period_words.sort_of(period.holders, stewards, _)
    told = _(", ").join(part for part in (sort, *more) if part)
    return (Run(told),) if told else ()


def _called(view: EditionView, accession: str, language: str) -> str:
    tree = view.records.trees.get(accession)
    return accession if tree is None else tree.called(language)


def _is_masked(view: EditionView, period: CustodyPeriod) -> bool:
    """Whether one of its holders may not be named: then nothing is drawn that tells whether two are one person."""
    known = view.records.stewards
    return any(one not in known or known[one].masked for one in period.holders)


def _came_back(view: EditionView, periods: Sequence[CustodyPeriod], at: int) -> bool:
    """Whether the tree came back to those who had owned it, from somebody else who had."""
    period = periods[at]
    if not period.owner or period.how in _RETURNS or _is_masked(view, period):
        return False
    owners = [other for other in periods[:at] if other.owner and not other.is_gap]
    return (
        bool(owners)
        and owners[-1].holders != period.holders
        and any(other.holders == period.holders for other in owners)
    )


def _kept(view: EditionView, periods: Sequence[CustodyPeriod], at: int) -> int | None:
    """Where, after a loan, the time begins in which the same holders owned the tree; None where it does not follow."""
    loan = periods[at]
    if loan.owner or loan.is_gap or loan.end is None or loan.how == "quarantine" or _is_masked(view, loan):
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
