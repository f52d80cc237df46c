"""What the dates of a collection, taken together, turn out to say: contradictions, and orders left open."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from archive_tools.check.telling import error, warning
from archive_tools.model.collection import Collection
from archive_tools.model.event import Event
from archive_tools.model.findings import Bounds, Contradiction, Findings, Statement, TreeChronology, Verdict
from archive_tools.model.kinds import KINDS
from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem
from archive_tools.model.tree import Tree

_ORDERED = ("acquired", "loan", "collected", "ends")


def contradictions(findings: Findings) -> Iterator[Problem]:
    """Statements that cannot all be true, each set once, with the one that was left out of the reckoning if any was."""
    told: set[frozenset[tuple[Mark, str]]] = set()
    for chronology in findings.chronologies.values():
        for found in chronology.contradictions:
            key = frozenset((statement.mark, statement.says) for statement in found.statements)
            if key not in told:
                told.add(key)
                yield _contradiction(chronology, found)


def _contradiction(chronology: TreeChronology, found: Contradiction) -> Problem:
    mark = found.left_out.mark if found.left_out else max((s.mark for s in found.statements), key=_reading_order)
    what = "these cannot all be true: " + "; ".join(map(_said, found.statements))
    if found.left_out is not None:
        what += f". Left out of the reckoning: {_said(found.left_out)}"
        # A legend that documents disprove is worth keeping: nobody has to delete it to be rid of an error.
        return warning(mark, "contradiction", what, "the date or the source that is wrong, or leave it as it is")
    what += f". Until it is settled the dates of {chronology.accession} are under review and no age is said"
    return error(mark, "contradiction", what, "the date that is wrong, or a lower `grade` for what is doubtful")


def prose_not_borne_out(findings: Findings) -> Iterator[Problem]:
    """Claims of years in the curator's texts that say more than the evidence does, or no longer what it does."""
    for claim in findings.prose:
        says = {
            Verdict.STRONGER: "says more than the evidence does",
            Verdict.CONTRADICTED: "is contradicted by the evidence",
            Verdict.STALE: "was right when it was written and no longer is",
        }[claim.verdict]
        what = f"“{claim.words}” {says} ({claim.about.value})"
        rule = "claim-stronger" if claim.verdict is Verdict.STRONGER else f"claim-{claim.verdict.value}"
        yield warning(
            claim.mark, rule, what, claim.could_say or "nothing about it, or add the source that bears it out"
        )


def _reading_order(mark: Mark) -> tuple[str, int, int]:
    return mark.file, mark.line or 0, mark.column or 0


def _said(statement: Statement) -> str:
    return f"{statement.says} ({statement.grade.word}; {statement.mark})"


def orders_left_open(collection: Collection, findings: Findings) -> Iterator[Problem]:
    """Two changes of hands, one after the other as written, whose dates and timings leave open which came first."""
    for accession, chronology in findings.chronologies.items():
        tree = collection.trees.get(accession)
        if tree is None:
            continue
        custody = [e for e in tree.events if e.kind in KINDS and KINDS[e.kind].custody in _ORDERED and not e.planned]
        dated = sorted(((_bounds(chronology, event), event) for event in custody), key=lambda pair: _order(pair[0]))
        after = _after(tree)
        for (first_bounds, first), (second_bounds, second) in pairwise(dated):
            if _certain(first_bounds, second_bounds) or second.id in after.get(first.id, set()):
                continue
            if first.id in after.get(second.id, set()):
                continue
            what = f"the dates leave open whether “{first.id}” or “{second.id}” came first; the order written decides"
            yield warning(second.where.at("date"), "order-open", what, f"timing: [{{after: {first.id}}}]")


def _bounds(chronology: TreeChronology, event: Event) -> Bounds:
    found = chronology.event(event.id)
    if found is not None:
        return found.bounds
    return Bounds(event.when.earliest, event.when.latest) if event.when else Bounds()


def _order(bounds: Bounds) -> tuple[int, int]:
    # As custody is drawn: by the earliest possible day, then the latest; what has none stands last.
    last = 10**7
    return (
        bounds.earliest.toordinal() if bounds.earliest else last,
        bounds.latest.toordinal() if bounds.latest else last,
    )


def _certain(first: Bounds, second: Bounds) -> bool:
    return first.latest is not None and second.earliest is not None and first.latest < second.earliest


def _after(tree: Tree) -> dict[str, set[str]]:
    """For each event of the tree, all those that its timings put after it, directly or through others."""
    later: dict[str, set[str]] = {}
    for event in tree.events:
        for timing in event.timing:
            if timing.other.event is None or timing.other.accession not in (None, tree.accession):
                continue
            first, second = timing.other.event, event.id
            if timing.relation == "before":
                first, second = second, first
            later.setdefault(first, set()).add(second)
    reached: dict[str, set[str]] = {}
    for start, next_ones in later.items():
        found: set[str] = set()
        ahead = list(next_ones)
        while ahead:
            event_id = ahead.pop()
            if event_id not in found:
                found.add(event_id)
                ahead.extend(later.get(event_id, ()))
        reached[start] = found
    return reached
