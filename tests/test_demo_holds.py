"""What the invented collection holds: every kind, form, grade, wording and state of the format at least once.

The records are read here without the program, so that what is counted is what was written.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import yaml
from click.testing import CliRunner
from PIL import Image, ImageOps

from archive_tools.cli import cli
from archive_tools.model.findings import Findings
from archive_tools.model.grades import Edition, Grade
from archive_tools.model.kinds import KINDS
from archive_tools.model.vocabulary import DATED_BY, OBJECT_KINDS, SOURCE_KINDS, STEWARD_KINDS
from archive_tools.pipeline import view

ROOT = Path(__file__).resolve().parent.parent
DEMO = ROOT / "demo_collection"
AS_OF = "2026-11-25"
LEAST_PHOTOGRAPHS = 150
LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)

pytestmark = pytest.mark.slow


def records(pattern: str) -> list[dict[str, Any]]:
    """Records as they are written, read without the program: every value is text."""
    found = (yaml.load(path.read_text("utf-8"), Loader=LOADER) for path in sorted(DEMO.glob(pattern)))
    return [record for record in found if isinstance(record, dict)]


def front_matter() -> list[dict[str, Any]]:
    found = [re.match(r"---\n(.*?)\n---\n", path.read_text("utf-8"), re.DOTALL) for path in DEMO.glob("**/notes/*.md")]
    return [yaml.load(match[1], Loader=LOADER) for match in found if match]


def events() -> list[dict[str, Any]]:
    recorded = [*records("trees/*/tree.yml"), *records("objects/*.yml")]
    return [*(event for record in recorded for event in record.get("events") or ()), *front_matter()]


def listings() -> Iterator[list[dict[str, Any]]]:
    """Every photos.yml."""
    for path in sorted(DEMO.glob("trees/*/photos/photos.yml")):
        yield yaml.load(path.read_text("utf-8"), Loader=LOADER)


def values_of(record: Any, key: str) -> Iterator[Any]:
    """Every value written under `key`, however deep."""
    if isinstance(record, dict):
        for name, value in record.items():
            if name == key:
                yield value
            yield from values_of(value, key)
    elif isinstance(record, list):
        for item in record:
            yield from values_of(item, key)


def test_the_demo_is_large_enough_to_be_walked_through() -> None:
    trees = list(DEMO.glob("trees/*/tree.yml"))
    photographs = [p for p in DEMO.glob("trees/*/photos/*") if p.suffix == ".jpg"]
    assert 29 <= len(trees) <= 31
    assert len(photographs) >= LEAST_PHOTOGRAPHS
    assert len(list(DEMO.glob("stewards/*.yml"))) >= 26
    assert len(list(DEMO.glob("sources/*.yml"))) >= 18
    assert len(list(DEMO.glob("tours/*.yml"))) == 3
    assert len(list(DEMO.glob("talks/*.yml"))) == 2
    assert sum(p.stat().st_size for p in photographs) < 45_000_000


def test_every_photograph_of_the_demo_is_listed_and_every_entry_has_its_picture() -> None:
    for folder in DEMO.glob("trees/*/photos"):
        listed = yaml.load((folder / "photos.yml").read_text("utf-8"), Loader=LOADER)
        assert sorted(entry["file"] for entry in listed) == sorted(p.name for p in folder.glob("*.jpg")), folder


def test_every_public_tree_has_a_label_in_both_languages() -> None:
    for tree in records("trees/*/tree.yml"):
        if tree.get("visibility") != "internal":
            assert {"en", "ja"} <= set(tree["label"]), tree["accession"]


def test_labels_and_their_sentences_are_short() -> None:
    """At most 25 words a sentence and 75 a label: Smithsonian Guidelines for Accessible Exhibition Design."""
    for tree in records("trees/*/tree.yml"):
        text = re.sub(r"\[\[[^\]]*\]\]", "it", tree.get("label", {}).get("en", ""))
        for sentence in re.split(r"(?<=[.!?])\s+", text):
            assert len(sentence.split()) <= 25, (tree["accession"], sentence)
        assert len(text.split()) <= 75, tree["accession"]


def test_a_tour_can_be_given_in_either_language() -> None:
    trees = {tree["accession"]: tree for tree in records("trees/*/tree.yml")}
    public = [tour for tour in records("tours/*.yml") if tour.get("visibility") != "internal"]
    assert len(public) == 2
    for tour in public:
        assert {"en", "ja"} <= set(tour["title"]), tour["title"]
        for stop in tour["stops"]:
            assert {"en", "ja"} <= set(stop["text"]), stop
            if "tree" in stop:
                assert {"en", "ja"} <= set(trees[stop["tree"]]["talking_points"]), stop["tree"]


def test_every_tree_has_a_portrait_that_its_visitors_may_see() -> None:
    for path in DEMO.glob("trees/*/tree.yml"):
        tree = yaml.load(path.read_text("utf-8"), Loader=LOADER)
        listed = yaml.load((path.parent / "photos/photos.yml").read_text("utf-8"), Loader=LOADER)
        portrait = next(entry for entry in listed if entry["file"] == tree["portrait"])
        assert portrait.get("visibility", "public") == "public", tree["accession"]
        assert portrait["view"] == "front" and portrait["dated_by"] == "camera", tree["accession"]


def test_every_photograph_says_what_is_seen_and_who_took_it() -> None:
    for listing in listings():
        for entry in listing:
            assert 12 <= len(entry["alt"].split()) <= 36, (entry["file"], entry["alt"])
            assert not entry["alt"].lower().startswith(("picture of", "photograph of", "image of")), entry["alt"]
            assert entry["photographer"] and entry["credit"], entry["alt"]


def test_only_cameras_date_by_what_they_wrote() -> None:
    """EXIF 2.32: 0x9003 is the day on which the original was taken. A scan has none, whatever it shows."""
    exif_ifd, date_time_original = 0x8769, 0x9003
    for path in sorted(DEMO.glob("trees/*/photos/photos.yml")):
        for entry in yaml.load(path.read_text("utf-8"), Loader=LOADER):
            with Image.open(path.parent / entry["file"]) as picture:
                taken = picture.getexif().get_ifd(exif_ifd).get(date_time_original)
                width, height = ImageOps.exif_transpose(picture).size
            if entry["dated_by"] == "camera":
                assert taken[:10].replace(":", "-") == entry["date"], (path.parent.parent.name, entry["file"])
            else:
                assert taken is None, (path.parent.parent.name, entry["file"])
            for x, y in entry.get("marks", {}).values():
                assert 0 <= float(x) <= width and 0 <= float(y) <= height, (path.parent.parent.name, entry["file"])


def test_every_kind_of_everything_occurs_in_the_demo() -> None:
    assert {name for name in KINDS if name not in {event.get("kind") for event in events()}} == set()
    assert {record["kind"] for record in records("objects/*.yml")} == set(OBJECT_KINDS)
    assert {record["kind"] for record in records("stewards/*.yml")} == set(STEWARD_KINDS)
    assert {record["kind"] for record in records("sources/*.yml")} == set(SOURCE_KINDS)
    everything = [*records("**/*.yml"), *listings(), *front_matter()]
    assert set(values_of(everything, "visibility")) == {"public", "internal", "restricted"}
    assert any(values_of(everything, "public_from"))


def test_every_way_of_dating_a_photograph_occurs_in_the_demo() -> None:
    assert set(DATED_BY) - set(values_of(list(listings()), "dated_by")) == set()


DATE_FORMS = {
    "a day": r"\d{4}-\d\d-\d\d",
    "a month": r"\d{4}-(0\d|1[0-2])",
    "a year": r"\d{4}",
    "a time of day": r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ",
    "about": r"\d{4}~",
    "uncertain": r"\d{4}\?",
    "both": r"\d{4}%",
    "a component about": r"\d{4}-~\d\d",
    "a day about": r"\d{4}-\d\d-~\d\d",
    "a decade": r"\d{3}X",
    "a century": r"\d\dXX",
    "an unspecified digit of a month": r"\d{4}-\dX",
    "an unspecified digit of a day": r"\d{4}-\d\d-\dX",
    "a season": r"\d{4}-2[1-4]",
    "a northern season": r"\d{4}-2[5-8]",
    "a southern season": r"\d{4}-(29|3[0-2])",
    "a quarter": r"\d{4}-3[3-6]",
    "a third": r"\d{4}-3[7-9]",
    "a half": r"\d{4}-4[01]",
    "not after, open": r"\.\./\d{4}",
    "not after, unknown": r"/\d{4}",
    "not before": r"\d{4}/\.\.",
    "not before, unknown end": r"\d{4}/",
    "between": r"\d{4}/\d{4}",
    "one of them": r"\[\d{4},\d{4}\]",
    "one of a run": r"\[\d{4}\.\.\d{4}\]",
}
"""Forms of the EDTF specification (Library of Congress, 4 February 2019) that collection-format admits."""


@pytest.mark.parametrize("form", DATE_FORMS)
def test_every_form_of_date_occurs_in_the_demo(form: str) -> None:
    everything = [*records("**/*.yml"), *listings(), *front_matter()]
    written = {
        value
        for key in ("date", "until", "from", "born", "died", "active", "as_of")
        for value in values_of(everything, key)
        if isinstance(value, str)
    }
    assert [value for value in written if re.fullmatch(DATE_FORMS[form], value)], form


@pytest.fixture(scope="module")
def findings() -> Findings:
    """What is concluded for the public edition."""
    day = date.fromisoformat(AS_OF)
    return view(DEMO, edition=Edition.PUBLIC, as_of=day, today=day).findings


def test_every_grade_occurs_in_the_demo(findings: Findings) -> None:
    assert {event.grade for told in findings.chronologies.values() for event in told.events} == set(Grade)


WORDINGS = (
    "Dates under review",
    r"In training since \d{4} or earlier",
    r"In training since about \d{4}",
    r"In training since \d{4}",
    r"In training since .*; said to go back to \d{4}",
    r"In cultivation since \d{4}",
    r"Planted together in \d{4}, remade in \d{4}.*",
    r"In a container since \d{4}-\d{4}",
    r"Probably in a container since \d{4}",
    r"Said to have been in a container since \d{4}",
    r"Thought to have been in a container since about \d{4}",
    r"From seed sown in \d{4}",
    r"From seed that germinated in \d{4}",
    r"From a layer severed in \d{4}",
    r"Raised from a graft in .*",
    r"At least \d+ years old in \d{4} by its \d+ rings",
    r"\d+-\d+ years old in \d{4} by its \d+ rings",
    r"Here since \d{4}",
    r"Here since \d{4} on loan, given in \d{4}",
    r"Here since \d{4} on loan",
)


def test_every_row_of_the_wording_table_occurs_in_the_demo(findings: Findings) -> None:
    told = [one.wording for found in findings.chronologies.values() for one in found.milestones.values()]
    said = {sentence for sentence in told if sentence}
    assert [row for row in WORDINGS if not any(re.fullmatch(row, sentence) for sentence in said)] == []
    assert None in told


def test_every_way_of_changing_hands_occurs_in_the_demo(findings: Findings) -> None:
    kinds = {event.get("kind") for event in events()}
    assert {name for name, kind in KINDS.items() if kind.custody} <= kinds
    periods = [period for custody in findings.custodies.values() for period in custody.periods]
    assert {period.gap_grade for period in periods if period.is_gap} == {"bridged", "presumed", "unknown"}
    assert {period.joint for period in periods} == {True, False}
    assert {"first hands", "not known how", "family", "survivor"} <= {period.how for period in periods}
    states = {custody.state.word for custody in findings.custodies.values()}
    assert {"in collection", "on loan here", "on loan elsewhere", "died"} <= states
    assert {"missing", "stolen", "found again"} <= kinds


def test_every_state_of_a_comparison_occurs_in_the_demo() -> None:
    states = set()
    for path in DEMO.glob("trees/*/tree.yml"):
        tree = yaml.load(path.read_text("utf-8"), Loader=LOADER)
        listing = path.parent / "photos" / "photos.yml"
        listed = yaml.load(listing.read_text("utf-8"), Loader=LOADER) if listing.exists() else []
        photos = {entry["file"]: entry for entry in listed}
        for pair in tree.get("comparisons") or ():
            before, after = photos[pair["before"]], photos[pair["after"]]
            shared = set(before.get("marks", {})) & set(after.get("marks", {}))
            if before["view"] != after["view"] or len(shared) < 2:
                states.add("not aligned")
            else:
                states.add("measured" if pair.get("measure") and after.get("scale") else "aligned, not measured")
    assert states == {"measured", "aligned, not measured", "not aligned"}


def test_the_demo_has_its_three_open_questions_and_no_other_problem() -> None:
    told = json.loads(CliRunner().invoke(cli, ["check", str(DEMO), "--as-of", AS_OF, "--json"]).stdout)
    found = {(p["rule"], p["severity"], p["file"].removeprefix("trees/").split("-")[0]) for p in told["problems"]}
    assert found == {
        ("contradiction", "warning", "S2003.7"),  # an age in a sale catalogue, against the diary
        ("contradiction", "error", "S2010.1"),  # two documents: dates under review
        ("order-open", "warning", "S1990.5"),  # a gift and a loan of one summer
    }
    assert len(told["problems"]) == 3
