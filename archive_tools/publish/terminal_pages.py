"""A tree on one page of a terminal: its life, its dates with their proofs, its line of holders."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping

from archive_tools.model.findings import AgeRange, Bounds, CustodyPeriod, Sharpening, Statement, TreeChronology
from archive_tools.model.grades import Grade
from archive_tools.model.people import Steward
from archive_tools.model.view import EditionView
from archive_tools.publish.problem_lines import number_of

WIDTH = 88


def tree_page(view: EditionView, accession: str) -> str:
    """A tree's life: what it is, what may be said of its age, who held it, what happened, what is kept of it."""
    tree = view.records.trees[accession]
    chronology = view.findings.chronologies[accession]
    custody = view.findings.custodies[accession]
    lines = [f"{accession}  {tree.called()}", "        ".rstrip() + ", ".join(tree.taxon)]
    lines += [f"{view.edition.value} edition, as of {view.as_of.isoformat()}; {custody.state.word}", ""]
    if tree.label:
        lines += [*textwrap.wrap(tree.label.say(), WIDTH), ""]
    lines += [*_wordings(chronology), "", "Holders", *_holders(view, accession), "", "Events"]
    for event in sorted(tree.events, key=lambda e: _order(chronology, e.id)):
        found = chronology.event(event.id)
        when = event.when.text if event.when else "undated"
        who = ", ".join(_name(view.records.stewards, steward) for steward in event.by)
        planned = "planned, " if event.planned else ""
        read = f" [{bounds_in_figures(found.bounds)}]" if found else ""
        lines.append(f"  {when:<12} {event.kind}{f', {who}' if who else ''} ({planned}{event.standing.word}){read}")
    if chronology.quiet:
        lines += ["", "Quiet years"]
        lines += [f"  {quiet.start.year}–{quiet.end.year} ({quiet.years} years)" for quiet in chronology.quiet]
    lines += ["", f"{len(tree.notes)} notes, {len(tree.photos)} photographs, {len(tree.comparisons)} comparisons"]
    return "\n".join(lines)


def chronology_page(view: EditionView, accession: str) -> str:
    """The milestones of a tree in every layer, with ages and the statements that decide each end."""
    chronology = view.findings.chronologies[accession]
    lines = [f"{accession}  {view.records.trees[accession].called()}, as of {chronology.as_of.isoformat()}", ""]
    lines += [*_wordings(chronology), ""]
    for milestone, found in chronology.milestones.items():
        lines.append(milestone.value)
        for grade in Grade:
            bounds, age = found.layers.get(grade, Bounds()), found.ages.get(grade, AgeRange())
            lines.append(f"  {grade.word:<11} {bounds_in_figures(bounds):<26} {age_in_figures(age)}")
        lines += _because("not before", found.because_earliest)
        lines += _because("not after", found.because_latest)
    if chronology.unbroken_since.known:
        lines += ["", f"Unbroken care since {bounds_in_figures(chronology.unbroken_since)}"]
    for contradiction in chronology.contradictions:
        lines += ["", "These cannot all be true:", *(f"  {_statement(s)}" for s in contradiction.statements)]
        if contradiction.left_out:
            lines.append(f"  left out: {_statement(contradiction.left_out)}")
    return "\n".join(lines)


def lineage_page(view: EditionView, accession: str) -> str:
    """Who held the tree and whose hands worked on it."""
    custody = view.findings.custodies[accession]
    lines = [f"{accession}  {view.records.trees[accession].called()}", "", "Holders", *_holders(view, accession)]
    if custody.hands:
        lines += ["", "Hands"]
        for hand in custody.hands:
            who = ", ".join(_name(view.records.stewards, steward) for steward in hand.stewards)
            lines.append(f"  {bounds_in_figures(hand.bounds):<26} {hand.kind}, {who} ({hand.grade.word})")
    return "\n".join(lines)


def research_page(view: EditionView) -> str:
    """What evidence would gain most over the collection, the most years first."""
    lines = [f"What evidence would gain most, as of {view.as_of.isoformat()}", ""]
    for accession, gain in research_order(view):
        lines.append(
            f"{number_of(gain.years, 'year'):>9}  {accession}  {view.records.trees[accession].called()}: {gain.what}"
        )
    return "\n".join(lines if len(lines) > 2 else [*lines, "nothing that the records point at"])


def research_order(view: EditionView) -> list[tuple[str, Sharpening]]:
    """(accession, what would sharpen it) of every tree, the most years gained first, then by accession."""
    found = [(a, gain) for a, chronology in view.findings.chronologies.items() for gain in chronology.sharpen]
    return sorted(found, key=lambda item: (-item[1].years, item[0], item[1].milestone))


def research_as_json(view: EditionView) -> list[dict[str, object]]:
    """The machine form of the same list."""
    return [
        {
            "accession": accession,
            "milestone": gain.milestone.value,
            "end": gain.end,
            "what": gain.what,
            "years": gain.years,
        }
        for accession, gain in research_order(view)
    ]


def bounds_in_figures(bounds: Bounds | None) -> str:
    """Bounds as two ISO days, shortened where they are one day, one month or whole years; "…" for an open end."""
    if bounds is None or not bounds.known:
        return "not known"
    first = bounds.earliest.isoformat() if bounds.earliest else "…"
    last = bounds.latest.isoformat() if bounds.latest else "…"
    if first == last:
        return first
    if first.endswith("-01-01") and last.endswith("-12-31"):
        return first[:4] if first[:4] == last[:4] else f"{first[:4]} – {last[:4]}"
    return f"{first} – {last}"


def age_in_figures(age: AgeRange) -> str:
    """Completed years: "66 years", "65–66 years", "at least 52 years", or nothing."""
    if age.min is None:
        return f"at most {age.max} years" if age.max is not None else ""
    if age.max is None:
        return f"at least {age.min} years"
    return f"{age.min} years" if age.min == age.max else f"{age.min}–{age.max} years"


def _wordings(chronology: TreeChronology) -> Iterator[str]:
    if chronology.under_review:
        yield "Dates under review"
        return
    for found in chronology.milestones.values():
        if found.wording:
            yield found.wording


def _holders(view: EditionView, accession: str) -> Iterator[str]:
    for period in view.findings.custodies[accession].periods:
        yield f"  {_period(period):<48} {_holder(view.records.stewards, period)}"


def _holder(stewards: Mapping[str, Steward], period: CustodyPeriod) -> str:
    if period.is_gap:
        return f"nobody known ({period.gap_grade})"
    names = " and ".join(_name(stewards, steward) for steward in period.holders)
    return f"{names}, {period.how} ({period.grade.word})"


def _period(period: CustodyPeriod) -> str:
    return f"{bounds_in_figures(period.start)} to {bounds_in_figures(period.end) if period.end else 'now'}"


def _name(stewards: Mapping[str, Steward], steward_id: str) -> str:
    steward = stewards.get(steward_id)
    return steward.name.say() if steward else steward_id


def _because(end: str, statements: tuple[Statement, ...]) -> Iterator[str]:
    if statements:
        yield f"    {end}: " + " → ".join(map(_statement, statements))


def _statement(statement: Statement) -> str:
    return f"{statement.says} ({statement.grade.word}, {statement.mark})"


def _order(chronology: TreeChronology, event_id: str) -> str:
    found = chronology.event(event_id)
    first = (found.bounds.earliest or found.bounds.latest) if found else None
    return first.isoformat() if first else "9999"
