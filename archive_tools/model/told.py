"""A sentence that is spoken, and what in the records stands behind it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from archive_tools.model.findings import ProseClaim


class Standing(StrEnum):
    """Whether records bear a sentence out.

    YEARS: it claims years of a tree, which were compared with the evidence (see the claims' verdicts). RECORDED: it
    names a year or a person, and so does a record of a tree that is spoken of. UNPROVED: it names a year, a number or a
    person, and no record of those trees names that year or person. PLAIN: it names nothing that records could bear.
    """

    YEARS = "years"
    RECORDED = "recorded"
    UNPROVED = "unproved"
    PLAIN = "plain"


@dataclass(frozen=True, slots=True)
class Behind:
    """A record that bears on a sentence: an event or a photograph of a tree, by its id."""

    accession: str
    record: str


@dataclass(frozen=True, slots=True)
class ToldSentence:
    """One sentence of a text. `part`: the number of the section it belongs to, from 0."""

    part: int
    text: str
    standing: Standing
    behind: tuple[Behind, ...] = ()
    claims: tuple[ProseClaim, ...] = ()
