"""Claims of years in prose: sentences with verdicts worked out by hand, in lists that prose/README.md tells apart.

A sentence counts as right only when every claim in it is found, in order, with its milestone and its verdict, and
nothing else is found.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest
import yaml

from archive_tools import pipeline
from archive_tools.model.collection import Collection
from archive_tools.model.findings import TreeChronology, Verdict
from archive_tools.model.places_in_files import Mark
from archive_tools.reason.chronology import solve
from archive_tools.reason.prose.texts import Told, house_names, judge

HERE = Path(__file__).parent / "prose"
AS_OF = date(2026, 11, 25)
HOUSE = "name: The House\ncustodian: the-house\nhemisphere: north\n"


def load(name: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = yaml.load((HERE / name).read_text("utf-8"), yaml.BaseLoader)
    return found


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> tuple[Collection, dict[str, TreeChronology]]:
    folder = tmp_path_factory.mktemp("prose")
    files: dict[str, Any] = {"stewards/the-house.yml": {"name": "The House", "kind": "institution"}}
    for record in load("trees.yml"):
        for sort in ("stewards", "sources"):
            files |= {f"{sort}/{key}.yml": value for key, value in record.pop(sort, {}).items()}
        files[f"trees/{record['accession']}-x/tree.yml"] = record
    (folder / "collection.yml").write_text(HOUSE)
    for path, value in files.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(yaml.safe_dump(value, allow_unicode=True), "utf-8")
    collection = pipeline.gather(folder, today=AS_OF).collection
    assert collection is not None
    return collection, solve(collection, AS_OF, today=AS_OF)


def read(entry: dict[str, Any], house: tuple[Collection, dict[str, TreeChronology]]) -> list[tuple[str, str]]:
    """(milestone, verdict) of every claim found, as the product reads the text."""
    collection, chronologies = house
    day = date.fromisoformat(entry["day"]) if "day" in entry else None
    is_note = entry["speaks"] == "note"
    told = Told(
        collection.trees[entry["tree"]],
        entry["text"],
        Mark("text", 1),
        day if is_note and day else AS_OF,
        None if is_note else day,
        house_names(collection),
    )
    return [
        (c.about.value, c.verdict.value) for c in judge(told, chronologies[entry["tree"]], collection.settings.dates)
    ]


def score(name: str, house: tuple[Collection, dict[str, TreeChronology]]) -> tuple[int, list[str], list[str]]:
    """How many sentences are read right; those that are not; supported claims that were called stronger."""
    right, wrong, unjust = 0, [], []
    for entry in load(name):
        expected = [(claim["about"], claim["verdict"]) for claim in entry["claims"] or []]
        found = read(entry, house)
        if found == expected:
            right += 1
        else:
            wrong.append(f"{entry['tree']} {entry['text']!r}: expected {expected}, read {found}")
        supported = [about for about, outcome in expected if outcome == Verdict.SUPPORTED.value]
        unjust += [entry["text"] for about, outcome in found if outcome == "stronger" and about in supported]
    return right, wrong, unjust


@pytest.mark.parametrize(
    ("name", "floor"),
    [
        ("seen.yml", 100),
        ("held_back.yml", 99),
        ("fresh_seen.yml", 99),
        ("more_seen.yml", 148),
        ("fresh_held_back.yml", 98),
    ],
)
def test_sentences_are_read_right_and_no_true_claim_is_doubted(
    name: str, floor: int, house: tuple[Collection, dict[str, TreeChronology]]
) -> None:
    """Every list here has been looked at by now, so none of these scores is blind any more.

    Blind they were only when first run: 90 of 100 in held_back.yml (a few of its sentences had been described in some
    words before), 84 of 100 in fresh_seen.yml (all 16 were claims that were missed). After that the reader was
    rewritten, with both lists in view, and then run once on fresh_held_back.yml, which nobody who worked on it had
    read: 98 of 100, no true claim doubted. It is kept as it was at that run.
    """
    right, wrong, unjust = score(name, house)
    assert right >= floor, "\n".join(wrong)
    assert unjust == []
