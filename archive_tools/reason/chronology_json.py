"""The machine form of a chronology: stable, with null for what is not known."""

from __future__ import annotations

from datetime import date

from archive_tools.model.findings import Bounds, Statement, TreeChronology
from archive_tools.model.grades import Grade


def as_json(chronology: TreeChronology) -> dict[str, object]:
    """The chronology as `archive-tools chronology ACCESSION --json` prints it."""
    found = chronology.milestones
    return {
        "accession": chronology.accession,
        "as_of": chronology.as_of.isoformat(),
        "state": "under review" if chronology.under_review else "ok",
        "milestones": {
            m.value: {grade.word: _bounds(one.layers.get(grade, Bounds())) for grade in Grade}
            for m, one in found.items()
        },
        "ages": {
            m.value: {grade.word: {"min": age.min, "max": age.max} for grade, age in one.ages.items()}
            for m, one in found.items()
        },
        "wording": {m.value: one.wording for m, one in found.items()},
        "events": [
            {"id": event.id, "kind": event.kind, **_bounds(event.bounds), "grade": event.grade.word}
            for event in chronology.events
        ],
        "because": {
            m.value: {
                "latest": [_statement(s) for s in one.because_latest],
                "earliest": [_statement(s) for s in one.because_earliest],
            }
            for m, one in found.items()
        },
        "unbroken_since": _bounds(chronology.unbroken_since),
        "quiet": [{"from": _day(q.start), "to": _day(q.end), "years": q.years} for q in chronology.quiet],
        "evidence_share": None if chronology.evidence_share is None else round(chronology.evidence_share, 2),
        "contradictions": [
            {
                "statements": [_graded(s) for s in contradiction.statements],
                "left_out": _graded(contradiction.left_out) if contradiction.left_out else None,
            }
            for contradiction in chronology.contradictions
        ],
        "sharpen": [
            {"milestone": s.milestone.value, "end": s.end, "what": s.what, "years": s.years} for s in chronology.sharpen
        ],
    }


def _day(day: date | None) -> str | None:
    return None if day is None else day.isoformat()


def _bounds(bounds: Bounds) -> dict[str, str | None]:
    return {"earliest": _day(bounds.earliest), "latest": _day(bounds.latest)}


def _statement(statement: Statement) -> dict[str, object]:
    return {"file": statement.mark.file, "line": statement.mark.line, "says": statement.says}


def _graded(statement: Statement) -> dict[str, object]:
    return {**_statement(statement), "grade": statement.grade.word}
