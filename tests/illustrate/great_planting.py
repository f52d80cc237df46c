"""A planting of fifty places over sixty years, thirty of its plants replaced: all invented, the same each time.

`python -m tests.illustrate.great_planting FOLDER` writes it as a collection, to build and to look at.
"""

from __future__ import annotations

import random
import sys
from pathlib import Path

HOUSE = """\
name: The Hollow Wood
custodian: hollow-house
languages: [en]
hemisphere: north
defaults: {trees: public, events: public, notes: public, photographs: public, stewards: public, sources: public}
"""
STEWARDS = {
    "hollow-house": "name: The Hollow House\nkind: institution\n",
    "berit-maas": "name: Berit Maas\nkind: person\n",
    "anselm-rook": "name: Anselm Rook\nkind: person\n",
}
BOOK = "title: Book of the wood\nkind: diary\n"
FIRST = ("low", "tall", "leaning", "forked", "pale", "dark", "north", "south", "thin", "stout")
SECOND = ("lamp", "mast", "oar", "gate", "post", "rung", "heron", "stile")
PLACES, REPLACED, BEGAN, REMADE = 50, 30, 1966, (1984, 2005)
OLD = {"low-lamp": ("W1.1", "The Old Lamp", 1949), "tall-mast": ("W1.2", "The Mast Tree", 1955)}
"""Plants with records of their own, and since when they are in training."""


def names() -> list[str]:
    """Eighty names, no two alike."""
    return [f"{first}-{second}" for second in SECOND for first in FIRST]


def files() -> dict[str, str]:
    """The files of the collection, by their paths."""
    chance = random.Random(1966)
    called = names()
    place = [f"row {at // 10 + 1}, {at % 10 + 1} from the left" for at in range(PLACES)]
    stands = {at: called[at] for at in range(PLACES)}
    members = {called[at]: [place[at], str(BEGAN), ""] for at in range(PLACES)}
    events = [_assembled(BEGAN, "berit-maas", stands)]
    years = sorted(chance.sample([year for year in range(1968, 2026) if year not in REMADE], REPLACED))
    keeps = {at for at in range(PLACES) if called[at] in OLD}
    for number, year in enumerate(years):
        at = chance.choice([at for at in range(PLACES) if at not in keeps])
        gone, new = stands[at], called[PLACES + number]
        members[gone][2], stands[at] = str(year), new
        members[new] = [place[at], str(year), ""]
        by = "berit-maas" if year < 1990 else "anselm-rook"
        events.append(f"  - {{id: out-{number}, kind: member removed, date: {year}-03, by: {by}, trees: [{gone}], "
                      "source: book}")  # fmt: skip
        events.append(f"  - {{id: in-{number}, kind: member added, date: {year}-04, by: {by}, trees: [{new}], "
                      "source: book}")  # fmt: skip
        later = years[number + 1] if number + 1 < len(years) else 9999
        events += [_assembled(made, by, stands) for made in REMADE if year < made < later]
    wood = "\n".join(
        ["accession: W1", "name: The Fifty", "taxon: Fagus crenata", "kind: planting", "visibility: public", "members:"]
        + [_member(member, *told) for member, told in members.items()]
        + ["events:", *events,
           "  - {id: given, kind: gift, date: 1999-05-01, from: berit-maas, to: hollow-house, source: book}", ""]
    )  # fmt: skip
    found = {"collection.yml": HOUSE, "sources/book.yml": BOOK, "trees/W1-the-fifty/tree.yml": wood}
    found |= {f"stewards/{steward}.yml": text for steward, text in STEWARDS.items()}
    for accession, name, since in OLD.values():
        found[f"trees/{accession}-old/tree.yml"] = (
            f"accession: {accession}\nname: {name}\ntaxon: Fagus crenata\nvisibility: public\nevents:\n"
            f"  - {{id: begun, kind: training begun, date: {since}, by: berit-maas, source: book}}\n"
        )
    return found


def _assembled(year: int, by: str, stands: dict[int, str]) -> str:
    trees = ", ".join(stands[at] for at in sorted(stands))
    return f"  - {{id: made-{year}, kind: assembled, date: {year}-03-20, by: {by}, trees: [{trees}], source: book}}"


def _member(member: str, place: str, start: str, end: str) -> str:
    record = f", accession: {OLD[member][0]}" if member in OLD else ""
    until = f", until: {end}" if end else ""
    return f'  - {{id: {member}{record}, from: {start}{until}, place_in_planting: "{place}"}}'


def write(folder: Path) -> Path:
    """Writes the collection into `folder`, and gives it back."""
    for path, text in files().items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(text, encoding="utf-8")
    return folder


if __name__ == "__main__":
    write(Path(sys.argv[1]))
