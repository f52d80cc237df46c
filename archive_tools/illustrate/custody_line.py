"""The line of stewards: who held one tree, from when to when, drawn with what is not known.

One row a holder, words above the bar: full for what is certain, fading where a date is vague, split lengthwise for
those who held it together, open for a loan or a quarantine, thin while it was theirs and stood elsewhere, dots for
years of which nobody is known. The hands that worked on the tree stand below, the years at the foot.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from archive_tools.illustrate import period_words
from archive_tools.illustrate.across import across
from archive_tools.illustrate.change import Translate
from archive_tools.illustrate.custody_rows import custody_rows
from archive_tools.illustrate.figure import Figure
from archive_tools.illustrate.hands import hands_rows
from archive_tools.illustrate.svg_frame import id_part
from archive_tools.illustrate.upright import upright
from archive_tools.illustrate.year_axis import axis_for
from archive_tools.model.findings import Custody
from archive_tools.model.people import Steward
from archive_tools.model.view import EditionView


def custody_line(view: EditionView, accession: str, _: Translate = str) -> str:
    """The line of stewards of one tree, as two SVG elements: time from left to right, and time running down, for a
    phone; "" when no holder and no dated work is known.
    """
    figure = custody_figure(view, accession, _)
    if figure is None:
        return ""
    axis = axis_for(figure.days, view.as_of)
    return across(figure, axis) + upright(figure, axis)


def custody_figure(view: EditionView, accession: str, _: Translate = str) -> Figure | None:
    """What the line of stewards shows, before it is laid out; None when nothing of it is known."""
    custody = view.findings.custodies.get(accession)
    tree = view.records.trees.get(accession)
    if custody is None or tree is None:
        return None
    language = view.records.settings.languages[0] if view.records.settings.languages else ""
    stewards, custodian = view.records.stewards, view.records.settings.custodian
    rows = (
        *custody_rows(view, custody, language, _),
        *hands_rows(custody.hands, stewards, view.as_of, language, _),
    )
    figure = Figure(f"line-{id_part(accession)}", "", "", rows)
    if not figure.days:
        return None
    said = {"tree": tree.called(language), "start": min(figure.days).year, "end": max(figure.days).year}
    title = _title(custody, _) % said
    told = description(custody, stewards, custodian, view.as_of, language, _)
    return Figure(figure.prefix, title, told, rows)


def _title(custody: Custody, _: Translate) -> str:
    if any(period.end is None for period in custody.periods):
        return _("Who held %(tree)s, %(start)s to today")
    return _("Who held %(tree)s, %(start)s to %(end)s")


def description(
    custody: Custody,
    stewards: Mapping[str, Steward],
    custodian: str,
    as_of: date,
    language: str = "",
    _: Translate = str,
) -> str:
    """The drawing in sentences: every holder, every gap and every hand, in order of time."""
    held = []
    for period in custody.periods:
        if period.is_gap:
            who = period_words.gap_head(period, _)
            when = period_words.held(period, "", _)
        else:
            who = period_words.names(period.holders, stewards, language, _)
            when = period_words.held(period, custodian, _)
            if period.joint:
                when = _("jointly, %(years)s") % {"years": when}
        held.append(_(", ").join((who, when)) if when else who)
    said = _("; ").join(held)
    said = _("%(sentence)s.") % {"sentence": f"{said[0].upper()}{said[1:]}"} if said else ""
    worked = _("; ").join(period_words.worked(hand, stewards, language, _) for hand in custody.hands)
    if not worked:
        return said
    hands = _("Hands: %(worked)s.") % {"worked": worked}
    return f"{said} {hands}".strip()
