"""What the exports in open models share: addresses of things, people who may not be named, and days as ranges."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from urllib.parse import quote

from archive_tools.model.collection import Selected
from archive_tools.model.findings import Bounds
from archive_tools.model.people import Steward

Node = dict[str, object]
NO_ADDRESS = "https://collection.invalid/"
"""Stands for the address of a collection that has none; names under `.invalid` lead nowhere (RFC 2606)."""


class Addresses:
    """The address of everything an edition names, under the address of its site.

    An address is made of accessions and ids alone, so that it stays when the records grow. Whoever may not be named
    has one for every mention, made of the thing that mentions them: nobody can tell by it whether two are the same.
    """

    def __init__(self, records: Selected) -> None:
        self.records = records
        site = records.settings.site_url or NO_ADDRESS
        self.base = f"{site.rstrip('/')}/id/"
        languages = records.settings.languages
        self.language = languages[0] if languages else "en"

    def tree(self, accession: str) -> str:
        """A tree or planting."""
        return f"{self.base}tree/{quote(accession, safe='')}"

    def event(self, thing: str, told_as: str) -> str:
        """An event of the tree or object with the address `thing`, or `accession#event` of another tree."""
        home, _, event_id = told_as.rpartition("#")
        return f"{self.tree(home) if home else thing}/event/{quote(event_id, safe='')}"

    def member(self, planting: str, member: str, tree: str | None) -> str:
        """A plant of a planting, by its own accession where it has one."""
        return self.tree(tree) if tree else f"{self.tree(planting)}/member/{quote(member, safe='')}"

    def source(self, source_id: str) -> str | None:
        """A source that may be shown."""
        source = self.records.sources.get(source_id)
        return None if source is None or source.masked else f"{self.base}source/{quote(source_id, safe='')}"

    def sources(self, ids: Iterable[str]) -> list[str]:
        """Those of several that may be shown."""
        return [found for found in map(self.source, dict.fromkeys(ids)) if found]

    def thing(self, object_id: str) -> str | None:
        """A pot, tray, stand or stone that may be named."""
        thing = self.records.objects.get(object_id)
        return None if thing is None or thing.masked else f"{self.base}object/{quote(object_id, safe='')}"

    def steward(self, steward_id: str) -> str | None:
        """A steward whom the edition names; None for one who may not be named, and for text that is no id."""
        steward = self.records.stewards.get(steward_id)
        return None if steward is None or steward.masked else f"{self.base}steward/{quote(steward_id, safe='')}"

    def name(self, steward_id: str) -> str:
        """The name by which the edition knows a steward; text that is no id is the name it is."""
        steward = self.records.stewards.get(steward_id)
        return steward.name.say(self.language) if steward else steward_id

    def named(self) -> list[Steward]:
        """All whom the edition may name."""
        return [steward for steward in self.records.stewards.values() if not steward.masked]

    def term(self, name: str) -> str:
        """A term of this export's own."""
        return f"{self.base}terms#{quote(name.replace(' ', '-'), safe='')}"


def part(thing: str, sort: str, *names: str) -> str:
    """The address of something that belongs to a thing: `part(tree, "held", "gift-1979")`."""
    return "/".join([thing, sort, *(quote(name, safe="") for name in names)])


def iso(bounds: Bounds | None) -> tuple[str | None, str | None]:
    """The earliest and the latest day as xsd:date, None where there is none."""
    if bounds is None:
        return None, None
    first = bounds.earliest.isoformat() if bounds.earliest else None
    return first, bounds.latest.isoformat() if bounds.latest else None


def without_nothing(node: Node) -> Node:
    """A node without the keys that say nothing."""
    return {key: value for key, value in node.items() if value not in (None, "", [], {})}


def words_in(document: str) -> str:
    """Every text of a JSON document, as a reader of it has them: JSON writes quotation marks in its own way."""
    return "\n".join(_texts(json.loads(document)))


def _texts(value: object) -> Iterator[str]:
    if isinstance(value, dict):
        for key, one in value.items():
            yield str(key)
            yield from _texts(one)
    elif isinstance(value, list):
        for one in value:
            yield from _texts(one)
    elif isinstance(value, str):
        yield value
