"""All that is concluded from one set of records."""

from __future__ import annotations

from datetime import date

from archive_tools.model.collection import Collection
from archive_tools.model.findings import Findings
from archive_tools.reason.chronology import solve
from archive_tools.reason.chronology.wording import Translate
from archive_tools.reason.lineage.whole import lineages


def find(collection: Collection, as_of: date, today: date, translate: Translate = str) -> Findings:
    """Chronologies, custody and lineage of every tree in `collection`, at `as_of`; `today` is the day of the build.

    Takes graded records, cut down to what one edition may show. `translate` puts sentences into the reader's language.
    """
    chronologies = solve(collection, as_of, today=today, translate=translate)
    lines = lineages(collection, chronologies, as_of, translate)
    return Findings(
        as_of,
        chronologies,
        lines.custodies,
        lineages=lines.trees,
        objects=lines.objects,
        teaching=lines.teaching,
        stewards=lines.stewards,
    )
