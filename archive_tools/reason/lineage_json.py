"""The machine form of a tree's lineage."""

from __future__ import annotations

from archive_tools.model.findings import Bounds, Custody, CustodyPeriod


def lineage_as_json(custody: Custody) -> dict[str, object]:
    """Holders and gaps, as `archive-tools lineage ACCESSION --json` prints them. What is not known is null."""
    return {
        "accession": custody.accession,
        "holders": [_holder(period) for period in custody.periods if not period.is_gap],
        "gaps": [
            {"from": _bounds(gap.start), "to": _bounds(gap.end), "grade": gap.gap_grade, "years": years_at_most(gap)}
            for gap in custody.gaps
        ],
    }


def years_at_most(period: CustodyPeriod) -> int | None:
    """The calendar years a period can have touched at most, from its earliest start to its latest end."""
    if period.end is None or period.start.earliest is None or period.end.latest is None:
        return None
    return period.end.latest.year - period.start.earliest.year


def _holder(period: CustodyPeriod) -> dict[str, object]:
    return {
        "stewards": list(period.holders),
        "from": _bounds(period.start),
        "to": _bounds(period.end),
        "how": period.how,
        "owner": period.owner,
        "lent_by": list(period.lent_by),
        "event": period.event,
        "grade": period.grade.word,
    }


def _bounds(bounds: Bounds | None) -> dict[str, str | None] | None:
    if bounds is None:
        return None
    return {
        "earliest": bounds.earliest.isoformat() if bounds.earliest else None,
        "latest": bounds.latest.isoformat() if bounds.latest else None,
    }
