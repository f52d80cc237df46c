"""Problems: what a curator is told, as data. How it is printed is decided where it is printed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from archive_tools.model.places_in_files import Mark


class Severity(StrEnum):
    """`error`: something written is wrong. `warning`: it can stand, but somebody should look."""

    ERROR = "error"
    WARNING = "warning"


class Reach(StrEnum):
    """How far a problem reaches in a build.

    `statement`: one event, photograph or note is left out and named. `record`: a whole record or file
    cannot be trusted (a misspelt `visibility` may hide in it), so the build stops. `told`: nothing is left out.
    """

    TOLD = "told"
    STATEMENT = "statement"
    RECORD = "record"


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong: where, what, and what to write instead."""

    mark: Mark
    what: str
    instead: str | None = None
    rule: str = "unreadable"
    severity: Severity = Severity.ERROR
    reach: Reach = Reach.STATEMENT
    subject: tuple[str, str, str] | None = None
    """What is left out when `reach` is `statement`: (owner, sort, id), such as ("S1979.2", "event", "potted")."""

    @property
    def sort_key(self) -> tuple[str, int, int, str, str]:
        """Problems are told file by file, from the top of each file down."""
        return (self.mark.file, self.mark.line or 0, self.mark.column or 0, self.rule, self.what)
