"""Short ways to ask for a lineage in tests: by years, as a reader would write them down."""

from __future__ import annotations

from datetime import date
from typing import Any

from archive_tools.model.event import EventRef
from archive_tools.model.people import Steward
from archive_tools.model.places_in_files import Where
from archive_tools.model.tree import Member, Tree
from archive_tools.model.words import Words
from archive_tools.reason import find
from archive_tools.reason.lineage_json import lineage_as_json
from tests.making import AS_OF, collection, steward, when

NAMES = {
    "anna": "Anna Orr", "bo": "Bo Lind", "cleo": "Cleo Ray", "dov": "Dov Hale", "the-house": "The House",
    "field-nursery": "Field Nursery", "hill-club": "The Hill Club", "old-rooms": "Old Rooms",
    "harbour-museum": "Harbour Museum", "station": "Quarantine Station", "orr-estate": "the estate of Anna Orr",
    "orr-lind": "Anna and Bo", "rays": "the Ray family",
}  # fmt: skip
KINDS = {
    "field-nursery": "nursery", "hill-club": "club", "old-rooms": "institution", "harbour-museum": "institution",
    "the-house": "institution", "station": "institution", "orr-estate": "estate", "orr-lind": "couple",
    "rays": "family",
}  # fmt: skip


def people(**more: dict[str, Any]) -> list[Steward]:
    """Everybody the stories speak of; `anna={"died": "1980"}` says more of one (hyphens written as underscores)."""
    said = {key.replace("_", "-"): value for key, value in more.items()}
    made = []
    for key, name in NAMES.items():
        keys = {"kind": KINDS.get(key, "person"), **said.get(key, {})}
        for word in ("born", "died"):
            if isinstance(keys.get(word), str):
                keys[word] = when(keys[word])
        if isinstance(keys.get("public_name"), str):
            keys["public_name"] = Words.plain(keys["public_name"])
        made.append(steward(key, name, **keys))
    return made


def refs(*names: str) -> tuple[EventRef, ...]:
    """Trees or members as an event names them."""
    return tuple(EventRef(name, None) for name in names)


def lineage(*trees: Tree, of: str = "T1", as_of: date = AS_OF, **more: dict[str, Any]) -> dict[str, Any]:
    """The machine form of one tree's lineage, from the records of these trees."""
    records = collection(*trees, stewards=people(**more))
    found = find(records, as_of, as_of)
    return lineage_as_json(found.custodies[of], found.lineages[of], records.stewards, as_of)


def held(told: dict[str, Any]) -> list[str]:
    """Each holder in a line: "anna 1953 to 1978, gift", "the-house 1994 to 1996, loan, holder"."""
    lines = []
    for holder in told["holders"]:
        role = "" if holder["role"] == "owner" else ", holder"
        joint = ", joint" if holder["joint"] else ""
        lines.append(
            f"{holder['steward'] or holder['name']} {years(holder['from'])} to {years(holder['to'])}, "
            f"{holder['how']}{role}{joint}"
        )
    return lines


def gaps(told: dict[str, Any]) -> list[str]:
    """Each gap in a line: "anna ? bo 1975 to 1989, 13-14 years, unknown"."""
    return [
        f"{gap['after']} ? {gap['before']} {years(gap['from'])} to {years(gap['to'])}, "
        f"{gap['years_min']}-{gap['years_max']} years, {gap['state']}"
        for gap in told["gaps"]
    ]


def stood(told: dict[str, Any], what: str = "members") -> list[str]:
    """Each spell in a planting in a line: "T2 1972 to 2004"."""
    return [f"{spell['tree']} {years(spell['from'])} to {years(spell['to'])}" for spell in told["kin"][what]]


def kin(told: dict[str, Any], what: str) -> list[str]:
    """Each tie in a line: "T1 by layer 1986"."""
    return [f"{tie['tree'] or tie['text']} by {tie['relation']} {years(tie['date'])}" for tie in told["kin"][what]]


def years(bounds: dict[str, str | None] | None) -> str:
    """Years: "1953", "1953-1955", "-1955" for an open beginning, "now" for what lasts."""
    if bounds is None:
        return "now"
    first, last = (day[:4] if day else "" for day in (bounds["earliest"], bounds["latest"]))
    return first if first == last else f"{first}-{last}"


def member(member_id, accession=None, from_=None, until=None, place=None, count=1):
    said = Words.plain(place) if place else None
    return Member(member_id, Where("tree.yml"), accession, None, count, when(from_), when(until), said)
