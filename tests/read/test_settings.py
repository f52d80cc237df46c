from __future__ import annotations

from pathlib import Path

import pytest

from archive_tools.model.collection import Settings
from archive_tools.model.dates import DatePolicy, Duration
from archive_tools.model.grades import Visibility
from archive_tools.model.problems import Reach
from archive_tools.model.words import Words
from archive_tools.read import read_collection
from archive_tools.read.schema_collection import CollectionSchema

from .folder_of import MAPLE, errors, made, only, read, rules

EVERY_KEY = """\
name: {en: The Slope, ja: 坂}
custodian: house
site_url: https://slope.example/
accent: "#1F4A3D"
languages: [en, ja, zh-Hant]
hemisphere: south
timezone: Europe/London
accession_pattern: '^S[0-9]{4}$'
defaults: {trees: public, notes: restricted}
approximate: {day: P1D, century: P50Y}
at_the_time: P2Y
unbroken_within: P20Y
speaking_rate: 120
walking_speed: 0.5
label_words: 60
rights: CC-BY-4.0
vocabulary: {style: [stair cascade], hazards: overhanging}
due:
  - {kind: repotted, every: P3Y/P5Y, months: 3, taxon: Acer palmatum, trees: place = yard, text: early, cycle: roots}
"""


def settings(folder: Path, text: str) -> Settings:
    collection, problems = read(folder, {}, text)
    assert problems == []
    return collection.settings


def test_every_key_of_the_collection_reaches_the_model(tmp_path: Path) -> None:
    found = settings(tmp_path, EVERY_KEY)
    assert (found.name, found.custodian) == (Words((("en", "The Slope"), ("ja", "坂"))), "house")
    assert (found.site_url, found.accent) == ("https://slope.example/", "#1f4a3d")
    assert (found.languages, found.timezone) == (("en", "ja", "zh-Hant"), "Europe/London")
    assert found.accession_pattern == "^S[0-9]{4}$"
    assert found.defaults == {"trees": Visibility.PUBLIC, "notes": Visibility.RESTRICTED}
    assert found.dates.hemisphere == "south"
    assert found.dates.margin("day") == Duration(0, 0, 1, "P1D")
    assert found.dates.margin("century") == Duration(50, 0, 0, "P50Y")
    assert found.dates.margin("year") == Duration(2, 0, 0, "P2Y")
    assert (found.at_the_time.text, found.unbroken_within.text) == ("P2Y", "P20Y")
    assert (found.speaking_rate, found.walking_speed, found.label_words) == (120, 0.5, 60)
    assert (found.rights, found.vocabulary) == (
        "CC-BY-4.0",
        {"style": ("stair cascade",), "hazards": ("overhanging",)},
    )
    (due,) = found.due
    assert (due.kind, due.months, due.taxon, due.trees, due.cycle) == (
        "repotted",
        (3,),
        "Acer palmatum",
        "place = yard",
        "roots",
    )
    assert due.where.at("trees").line == 19


def test_no_key_of_the_schema_is_without_a_test() -> None:
    assert set(CollectionSchema.model_fields) == {
        line.partition(":")[0] for line in EVERY_KEY.splitlines() if line[0] != " "
    }


def test_what_is_not_said_is_as_the_format_says(tmp_path: Path) -> None:
    found = settings(tmp_path, "name: x\ncustodian: y\n")
    assert found.dates == DatePolicy()
    margins = {unit: found.dates.margin(unit).text for unit in ("day", "month", "season", "year", "decade", "century")}
    assert margins == {
        "day": "P3D",
        "month": "P1M",
        "season": "P2M",
        "year": "P2Y",
        "decade": "P5Y",
        "century": "P25Y",
    }
    assert (found.at_the_time.text, found.unbroken_within.text) == ("P1Y", "P10Y")
    assert (found.speaking_rate, found.walking_speed, found.label_words) == (130, 0.8, 75)
    assert found.defaults == {} and found.languages == ("en",)


FAULTS = [
    ("site_url: slope.example", "bad-address", "https://"),
    ("accent: green", "bad-value", '"#1f4a3d"'),
    ("languages: english", "bad-language", "en"),
    ("hemisphere: northern", "unknown-word", "north"),
    ("timezone: Europe/Londn", "bad-value", "Europe/London"),
    ("accession_pattern: '['", "bad-value", "single quotes"),
    ("defaults: {tree: public}", "unknown-key", "trees"),
    ("defaults: {photos: public}", "unknown-key", "photographs"),
    ("defaults: {trees: pubic}", "bad-visibility", "public"),
    ("approximate: {years: P2Y}", "unknown-key", "year"),
    ("approximate: {year: 2}", "bad-duration", "P2Y"),
    ("speaking_rate: fast", "bad-number", ""),
    ("walking_speed: 0", "bad-number", "above 0"),
    ("vocabulary: {styles: x}", "unknown-key", "style"),
    ("custodain: y", "unknown-key", "custodian"),
]


@pytest.mark.parametrize(("fault", "rule", "instead"), FAULTS)
def test_a_fault_in_the_settings_stops_a_build_and_the_rest_is_read(
    tmp_path: Path, fault: str, rule: str, instead: str
) -> None:
    collection, problems = read(tmp_path, {"trees/T1/tree.yml": MAPLE}, f"name: x\ncustodian: y\n{fault}\n")
    problem = only(errors(problems))
    assert (problem.rule, problem.mark.line, problem.reach) == (rule, 3, Reach.RECORD)
    assert instead in (problem.instead or "")
    assert list(collection.trees) == ["T1"]
    # A default that cannot be read opens nothing.
    assert collection.settings.defaults == {}


def test_a_colour_without_quotes_is_told_with_the_quotes(tmp_path: Path) -> None:
    _, problems = read(tmp_path, {}, "name: x\ncustodian: y\naccent: #1f4a3d\n")
    assert '"#1f4a3d"' in (only(problems).instead or "")


@pytest.mark.parametrize("text", ["name: x\n", "custodian: y\n", "name: [\n", "", "- a\n"])
def test_without_name_or_custodian_there_is_no_collection_but_all_is_told(tmp_path: Path, text: str) -> None:
    folder = made(tmp_path, {"trees/T1/tree.yml": MAPLE + "form: bromm\n"}, text)
    collection, problems = read_collection(folder)
    assert collection is None
    assert "unknown-style" in rules(problems) and len(problems) > 1


def test_a_folder_without_settings_is_told(tmp_path: Path) -> None:
    collection, problems = read_collection(tmp_path)
    assert collection is None and rules(problems) == ["no-collection"]
    collection, problems = read_collection(tmp_path / "nowhere")
    assert collection is None and rules(problems) == ["no-collection"]
