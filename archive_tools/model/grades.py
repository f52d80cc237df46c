"""How far a statement can be relied on, and who may see a thing."""

from __future__ import annotations

from enum import IntEnum, StrEnum


class Grade(IntEnum):
    """The ladder of reliance; a lower number is firmer. Each layer of an answer contains those above it."""

    DOCUMENTED = 1
    REPORTED = 2
    INFERRED = 3
    UNSOURCED = 4

    @property
    def word(self) -> str:
        """The grade as written in the collection and in every output."""
        return self.name.lower()

    @classmethod
    def of(cls, word: str) -> Grade:
        """The grade with this word. Raises KeyError for any other word."""
        return cls[word.upper()]


class Visibility(StrEnum):
    """Public things are in both editions, internal things in the internal one, restricted things in neither."""

    PUBLIC = "public"
    INTERNAL = "internal"
    RESTRICTED = "restricted"

    @property
    def closeness(self) -> int:
        """0 for public, 2 for restricted: of two, the larger wins."""
        return list(Visibility).index(self)


class Edition(StrEnum):
    """Which things a built site may hold."""

    PUBLIC = "public"
    INTERNAL = "internal"


class Milestone(StrEnum):
    """The four days that say how old a tree may be called (see the chronology)."""

    ORIGIN = "origin"
    CARE = "care"
    CONTAINER = "container"
    ARRIVAL = "arrival"
