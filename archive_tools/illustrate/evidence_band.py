"""How well a tree's care is witnessed: one band from its first care to today, broken where nothing is known.

Soft where the beginning is vague, dotted where a silence is too long to count as unbroken, with a mark for each dated
event: many marks, good evidence. A change of hands in a silence says nothing of care and has no mark.
"""

from __future__ import annotations

from datetime import date

from archive_tools.illustrate.bars import Bar, bar, fades, full, gradients, vague
from archive_tools.illustrate.change import Translate
from archive_tools.illustrate.svg_frame import drawing, group, id_part, words
from archive_tools.illustrate.svg_text import Run, Text, beside, percent, pixels
from archive_tools.illustrate.year_axis import YearAxis, axis_for
from archive_tools.model.findings import Bounds, QuietPeriod, TreeChronology
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.view import EditionView

_BAND, _ROW, _NAMED_SILENCES = 16.0, 24.0, 4


def evidence_band(view: EditionView, accession: str, _: Translate = str) -> str:
    """The band of one tree, as an SVG element; "" where nothing is known of its care or its dates are under review."""
    chronology = view.findings.chronologies.get(accession)
    if chronology is None or chronology.under_review:
        return ""
    care = _care(chronology)
    if not care.known:
        return ""
    as_of = view.as_of
    first, last = (min(day, as_of) for day in vague(care, is_end=False, otherwise=as_of))
    end = min(_end(chronology) or as_of, as_of)
    axis = axis_for([first, last, end], as_of)
    prefix = f"care-{id_part(accession)}"
    marks = [_pieces(first, last, end, chronology.quiet, axis, prefix), _evidence(chronology, axis, end)]
    texts: list[Text] = []
    y = _BAND + 28.0
    for quiet in sorted(chronology.quiet, key=lambda q: -q.years)[:_NAMED_SILENCES]:
        said = Run(_("no evidence of care %(from)s to %(to)s") % _span(quiet), "gap-word")
        texts += beside([(said,)], axis.at(quiet.start), axis.at(quiet.end), y, _ROW)
        y += _ROW
    name = view.records.trees[accession].called(view.records.settings.languages[0])
    return drawing(
        prefix,
        _("How the care of %(name)s is witnessed") % {"name": name},
        " ".join(care_in_words(chronology, _)),
        y + 26,
        gradients(f"{prefix}-soft"),
        axis.lines(y) + group(*marks) + group(words(texts)) + group(words(axis.numbers(y + 18))),
    )


def care_in_words(chronology: TreeChronology, _: Translate = str) -> list[str]:
    """The same in sentences, which stand in for the drawing where it cannot be seen."""
    said = []
    since = chronology.unbroken_since
    if since.latest is not None and since.earliest is not None:
        years = str(since.earliest.year)
        if since.earliest.year != since.latest.year:
            years = f"{since.earliest.year}–{since.latest.year}"
        said.append(_("Care is witnessed without a long silence since %(years)s.") % {"years": years})
    said += [
        _("There is no evidence of its care from %(from)s to %(to)s.") % _span(quiet)
        for quiet in sorted(chronology.quiet, key=lambda quiet: quiet.start)
    ]
    if chronology.evidence_share is not None:
        share = round(chronology.evidence_share * 100)
        said.append(_("Of every hundred years of its care, %(share)s have evidence of their own.") % {"share": share})
    return said


def _span(quiet: QuietPeriod) -> dict[str, str]:
    return {"from": str(quiet.start.year), "to": str(quiet.end.year)}


def _care(chronology: TreeChronology) -> Bounds:
    """The start of care by the firmest evidence there is."""
    found = chronology.milestones.get(Milestone.CARE)
    layers = (found.layers.get(grade, Bounds()) for grade in Grade) if found else ()
    return next((bounds for bounds in layers if bounds.known), Bounds())


def _end(chronology: TreeChronology) -> date | None:
    died = next((found for found in chronology.events if found.kind == "died"), None)
    return (died.bounds.earliest or died.bounds.latest) if died else None


def _pieces(first: date, last: date, end: date, quiet: tuple[QuietPeriod, ...], axis: YearAxis, prefix: str) -> str:
    """The band, with dots for its silences."""
    drawn = []
    begun = (first, last)
    for silence in sorted(quiet, key=lambda silence: silence.start):
        if silence.start > begun[0]:
            drawn += _piece(bar(begun, (silence.start, silence.start), axis), prefix)
        x1, x2 = (percent(axis.at(min(day, end))) for day in (silence.start, silence.end))
        y = pixels(_BAND)
        drawn.append(f'<line class="gap" x1="{x1}" x2="{x2}" y1="{y}" y2="{y}"/>')
        begun = (silence.end, silence.end)
    if begun[0] < end:
        drawn += _piece(bar(begun, (end, end), axis), prefix)
    return "".join(drawn)


def _piece(piece: Bar, prefix: str) -> list[str]:
    return [fades(piece, f"{prefix}-soft", _BAND - 2.5, 5)[0], full("held", piece, _BAND - 2.5, 5)]


def _evidence(chronology: TreeChronology, axis: YearAxis, end: date) -> str:
    """A mark for each event whose day is known to within a year; what is known of a silence is no care."""
    drawn = []
    for found in chronology.events:
        day, latest = found.bounds.earliest, found.bounds.latest
        if day is None or latest is None or (latest - day).days > 366 or day > end:
            continue
        if any(silence.start < day < silence.end for silence in chronology.quiet):
            continue
        x = percent(axis.at(day))
        drawn.append(f'<line class="hand" x1="{x}" x2="{x}" y1="{pixels(_BAND - 10)}" y2="{pixels(_BAND - 4)}"/>')
    return "".join(dict.fromkeys(drawn))
