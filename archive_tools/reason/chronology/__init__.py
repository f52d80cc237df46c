"""What may be said about a tree's age: every dated statement, solved together, with proofs.

Read in this order: `statements` (records become claims and bounds between points), `network` (the tightest bounds that
follow), `beginnings` ("the earliest of"), `layers` (the ladder of grades and contradictions), `answers` (what is said).
"""

from __future__ import annotations

from datetime import date

from archive_tools.model.collection import Collection
from archive_tools.model.findings import TreeChronology
from archive_tools.reason.chronology.answers import Answers
from archive_tools.reason.chronology.layers import climb
from archive_tools.reason.chronology.statements import system_of
from archive_tools.reason.chronology.ties import connected_groups
from archive_tools.reason.chronology.wording import Translate


def solve(collection: Collection, as_of: date, *, today: date, translate: Translate = str) -> dict[str, TreeChronology]:
    """The chronology of every tree, by accession, at `as_of`.

    Takes graded records (`reason.grades.graded`), already cut down to what one edition may show. Trees whose dates
    bear on each other are solved together. `today`, the day of the build, bounds nothing: a statement dated after it
    is evidence like any other. `translate` turns English messages into the reader's language.
    """
    del today
    found: dict[str, TreeChronology] = {}
    for group in connected_groups(collection):
        system = system_of(group, collection)
        answers = Answers(system, climb(system, collection.sources, as_of), collection, as_of, translate)
        for accession in group:
            found[accession] = answers.of(accession)
    return {accession: found[accession] for accession in collection.trees}
