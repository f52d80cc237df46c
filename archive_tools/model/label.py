"""What a label says, what was printed when, and what of it is no longer so."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from archive_tools.model.places_in_files import Mark


@dataclass(frozen=True, slots=True)
class OtherLanguage:
    """What a label says of the tree a second time, in another language. Texts that are not written are empty."""

    language: str
    name: str = ""
    common_name: str = ""
    text: str = ""


@dataclass(frozen=True, slots=True)
class LabelWords:
    """Every word of one label, before it is set in type. What is not known is empty.

    taxa: botanical names as they are written in the record. since, origin: sentences of the chronology, in
    `facts_language` (the house's own words may not be there in every language). address: of the tree's permanent page.
    place: where the label stands, by its public name; it is not printed. marks: where each text is written.
    """

    accession: str
    language: str
    name: str
    taxa: tuple[str, ...] = ()
    common_name: str = ""
    native_to: str = ""
    origin: str = ""
    since: str = ""
    text: str = ""
    credit: str = ""
    address: str = ""
    other: OtherLanguage | None = None
    place: str = ""
    facts_language: str = "en"
    text_language: str = ""
    marks: Mapping[str, Mark] = field(default_factory=dict, compare=False, hash=False, repr=False)

    @property
    def said(self) -> dict[str, str]:
        """What stands on the label, by what it is, in the order of reading; only what is there."""
        said = {
            "name": self.name, "botanical": ", ".join(self.taxa), "common": self.common_name, "native": self.native_to,
            "origin": self.origin, "since": self.since, "text": self.text, "credit": self.credit,
            "address": self.address,
        }  # fmt: skip
        if self.other is not None:
            beside = {"name": self.other.name, "common": self.other.common_name, "text": self.other.text}
            said |= {f"{key} {self.other.language}": text for key, text in beside.items()}
        return {key: text for key, text in said.items() if text}


@dataclass(frozen=True, slots=True)
class LabelPrinted:
    """One line of the register: a label that was printed. says: as `LabelWords.said` gave it that day."""

    accession: str
    printed: date
    as_of: date
    size: str
    languages: tuple[str, ...]
    says: Mapping[str, str]
    mark: Mark
    place: str = ""
    edition: str = "public"


@dataclass(frozen=True, slots=True)
class LabelChange:
    """One thing on a printed label that is no longer so: what it was, and what it is now ("" for nothing any more)."""

    what: str
    was: str
    now: str


@dataclass(frozen=True, slots=True)
class StaleLabel:
    """A printed label that is no longer true, with everything that is not."""

    label: LabelPrinted
    changes: tuple[LabelChange, ...]
