"""What one edition shows: the only thing that pages, pictures and exports are made from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from archive_tools.model.collection import Selected
from archive_tools.model.findings import Findings
from archive_tools.model.grades import Edition


@dataclass(frozen=True, slots=True)
class LeftOut:
    """Something the edition does not show, and why, for the summary of a build."""

    what: str
    why: str
    count: int


@dataclass(frozen=True, slots=True)
class EditionView:
    """The records an edition may show and what follows from exactly those records.

    Made by the editions stage alone. Findings were solved from `records`, not from the whole collection, so no
    conclusion gives away hidden evidence.
    """

    edition: Edition
    as_of: date
    records: Selected
    findings: Findings
    left_out: tuple[LeftOut, ...] = ()
    findings_in: Mapping[str, Findings] = field(default_factory=dict)
    """The same findings with their sentences in further languages, for what is spoken in them."""

    @property
    def is_public(self) -> bool:
        """True in the public edition."""
        return self.edition is Edition.PUBLIC
