"""A tree's line of holders in words, and a steward's trees, on one page of a terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Mapping

from archive_tools.model.findings import Bounds, Hand, Presence
from archive_tools.model.lineage import Lineage, TeachingTie, TreeHeld, TreeWorked
from archive_tools.model.people import Steward
from archive_tools.model.view import EditionView
from archive_tools.publish.terminal_pages import WIDTH, bounds_in_figures


def lineage_in_words(lineage: Lineage) -> str:
    """The paragraphs of the line, wrapped; "" where there is nothing to say."""
    return "\n\n".join(textwrap.fill(paragraph, WIDTH) for paragraph in lineage.text)


def present_in_figures(view: EditionView, accession: str) -> list[str]:
    """Who was present when something was done, under a heading of its own; nothing where nobody was."""
    rows = [
        f"  {bounds_in_figures(p.bounds):<26} {p.kind}, {_names(view.records.stewards, p.stewards)} ({p.grade.word})"
        for p in view.findings.custodies[accession].present
    ]
    return ["", "Present", *rows] if rows else []


def steward_page(view: EditionView, steward_id: str) -> str:
    """All trees a steward held, made, styled or worked on; teachers and pupils; years of activity."""
    steward, line = view.records.stewards[steward_id], view.findings.stewards[steward_id]
    lines = [f"{steward_id}  {steward.name.say()}", f"{view.edition.value} edition, as of {view.as_of.isoformat()}"]
    if line.active.known:
        lines.append(f"in the records {bounds_in_figures(_whole_years(line.active))}")
    lines += _part("Held", (_held(view, one) for one in line.held))
    for title, works in (("Made", line.made), ("Styled", line.styled), ("Worked on", line.worked)):
        lines += _part(title, (_work(view, work) for work in works))
    lines += _part("Present at", (_at(view, seen.tree, seen.presence) for seen in line.present))
    lines += _part("Taught by", (_tie(view, tie, tie.teacher) for tie in line.teachers))
    lines += _part("Taught", (_tie(view, tie, tie.pupil) for tie in line.pupils))
    return "\n".join(lines)


def _part(title: str, rows: Iterable[str]) -> Iterator[str]:
    found = [f"  {row}" for row in rows]
    if found:
        yield from ("", title, *found)


def _held(view: EditionView, held: TreeHeld) -> str:
    period = held.period
    years = f"{bounds_in_figures(period.start)} to {bounds_in_figures(period.end) if period.end else 'now'}"
    return f"{years:<48} {_tree(view, held.tree)}, {period.how}{'' if period.owner else ' (not as owner)'}"


def _work(view: EditionView, work: TreeWorked) -> str:
    return _at(view, work.tree, work.hand)


def _at(view: EditionView, tree: str, hand: Hand | Presence) -> str:
    return f"{bounds_in_figures(hand.bounds):<26} {hand.kind}, {_tree(view, tree)} ({hand.grade.word})"


def _tie(view: EditionView, tie: TeachingTie, other: str) -> str:
    start = bounds_in_figures(tie.start) if tie.start else "…"
    end = bounds_in_figures(tie.end) if tie.end else "…"
    dated = f", {start} to {end}" if tie.start or tie.end else ""
    return f"{_names(view.records.stewards, (other,))}{dated} ({tie.grade.word})"


def _tree(view: EditionView, accession: str) -> str:
    return f"{accession} {view.records.trees[accession].called()}"


def _names(stewards: Mapping[str, Steward], ids: tuple[str, ...]) -> str:
    return ", ".join(stewards[one].name.say() if one in stewards else one for one in ids)


def _whole_years(bounds: Bounds) -> Bounds:
    first = bounds.earliest.replace(month=1, day=1) if bounds.earliest else None
    return Bounds(first, bounds.latest.replace(month=12, day=31) if bounds.latest else None)
