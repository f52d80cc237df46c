"""`prune-cache`: what neither edition needs goes from the cache, and not one file that a build would look for."""

from __future__ import annotations

import json
import os
import shutil
import time
from datetime import date
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner, Result
from PIL import Image

from archive_tools import pipeline
from archive_tools.cli import cli
from archive_tools.made_before import CACHE
from archive_tools.model.grades import Edition

AS_OF = date(2026, 11, 25)
OLD = time.time() - 3 * 24 * 3600
HOUSE = """\
name: The House
custodian: the-house
defaults: {trees: public, events: public, notes: public, photographs: public, stewards: public, sources: public}
"""
TREE = """\
accession: T1
name: The Old Elm
taxon: Ulmus parvifolia
label: A label.
comparisons:
  - id: then-and-now
    before: 1962_front_1.jpg
    after: 2024_front_1.jpg
"""
PICTURES = {"1962_front_1.jpg": "public", "1990_front_1.jpg": "internal", "2024_front_1.jpg": "public"}
MARKS = "{base: [300, 420], left: [200, 400], right: [400, 400]}"


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A collection with both editions built three days ago; the internal one shows a picture more, so a strip too."""
    house = tmp_path_factory.mktemp("whole") / "collection"
    photos = house / "trees/T1-the-old-elm/photos"
    photos.mkdir(parents=True)
    (house / "stewards").mkdir()
    (house / "collection.yml").write_text(HOUSE, "utf-8")
    (house / "stewards/the-house.yml").write_text("name: The House\nkind: institution\n", "utf-8")
    (photos.parent / "tree.yml").write_text(TREE, "utf-8")
    rng = np.random.default_rng(1)
    for name in PICTURES:
        grain = rng.integers(0, 256, (12, 16, 3), dtype=np.uint8)
        Image.fromarray(grain).resize((640, 480), Image.Resampling.BICUBIC).save(photos / name)
    entry = "- file: {0}\n  date: {1}\n  dated_by: print\n  view: front\n  visibility: {2}\n  marks: {3}\n"
    (photos / "photos.yml").write_text(
        "".join(entry.format(name, name[:4], seen, MARKS) for name, seen in PICTURES.items()), "utf-8"
    )
    for edition in Edition:
        assert built(house, edition) > 0
    for file in (house / CACHE).rglob("*"):
        os.utime(file, (OLD, OLD))
    return house


@pytest.fixture
def house(whole: Path, tmp_path: Path) -> Path:
    """A copy of it, with the times of every file."""
    return Path(shutil.copytree(whole, tmp_path / "collection"))


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(cli, [str(argument) for argument in arguments])


def prune(house: Path, *more: str) -> dict[str, object]:
    done = run("prune-cache", "--collection", house, "--as-of", AS_OF.isoformat(), "--json", *more)
    assert done.exit_code == 0, done.output
    found: dict[str, object] = json.loads(done.stdout)
    return found


def built(house: Path, edition: Edition) -> int:
    """How many pictures a build has to make."""
    return pipeline.make(house, edition=edition, as_of=AS_OF, today=date.today(), cache=house / CACHE).encoded


def files(house: Path) -> set[str]:
    return {file.relative_to(house / CACHE).as_posix() for file in (house / CACHE).rglob("*") if file.is_file()}


def going(found: dict[str, object]) -> dict[str, str]:
    told = found["going"]
    assert isinstance(told, list)
    return {one["file"]: one["why"] for one in told}


def test_of_two_editions_as_they_are_only_yesterdays_results_go(house: Path) -> None:
    before = files(house)
    found = prune(house)
    assert {file.partition("/")[0] for file in going(found)} == {"made"}
    assert files(house) == before, "without --apply nothing is removed"
    assert found["applied"] is False
    kept = prune(house, "--apply")
    assert files(house) == before - set(going(kept))
    assert kept["kept"]["files"] == len(files(house))  # type: ignore[index]
    assert [built(house, edition) for edition in Edition] == [0, 0]


def test_what_a_removed_photograph_left_behind_goes_and_nothing_else(house: Path) -> None:
    pictures = {file for file in files(house) if file.startswith("pictures/")}
    (house / "trees/T1-the-old-elm/photos/1990_front_1.jpg").unlink()
    sheet = house / "trees/T1-the-old-elm/photos/photos.yml"
    sheet.write_text("".join(f"- file:{e}" for e in sheet.read_text().split("- file:")[1:] if "1990" not in e), "utf-8")
    gone = {file for file in going(prune(house, "--apply")) if file.startswith("pictures/")}
    assert 0 < len(gone) < len(pictures)
    assert files(house) >= pictures - gone
    assert [built(house, edition) for edition in Edition] == [0, 0]


def test_cuts_of_another_version_go(house: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The recipe and the libraries are in every cut's name: after an upgrade no old cut is found, nor taken for new."""
    pictures = {file for file in files(house) if file.startswith("pictures/")}
    monkeypatch.setattr("archive_tools.illustrate.cuts.RECIPE", "another version")
    assert built(house, Edition.PUBLIC) > 0
    built(house, Edition.INTERNAL)
    new = {file for file in files(house) if file.startswith("pictures/")} - pictures
    assert len(new) == len(pictures)
    assert {file for file in going(prune(house, "--apply")) if file.startswith("pictures/")} == pictures
    assert new <= files(house)


def test_what_is_new_or_of_another_hand_stays(house: Path) -> None:
    cache = house / CACHE
    for file, when in {
        "aside/tmpabc_1234.part": OLD,
        "aside/tmpabc_5678.part": time.time(),
        "aside/holiday film.part": OLD,
        "holiday film.mp4.part": OLD,
        "photographs.json.4711.part": OLD,
        ".pictures-looked-at.json.4711.part": OLD,
        "pictures/" + "0" * 32 + ".jpg": time.time(),
        "pictures/holiday.jpg": OLD,
        "notes.txt": OLD,
        "sharpness 0.json": OLD,
        "alignments/" + "f" * 32 + ".json": OLD,
    }.items():
        (cache / file).parent.mkdir(exist_ok=True)
        (cache / file).write_bytes(b"x")
        os.utime(cache / file, (when, when))
    found = prune(house, "--apply")
    told = {file for file in going(found) if not file.startswith("made/")}
    assert told == {
        "aside/tmpabc_1234.part",
        "photographs.json.4711.part",
        ".pictures-looked-at.json.4711.part",
        "sharpness 0.json",
        "alignments/" + "f" * 32 + ".json",
    }
    foreign = ["aside/holiday film.part", "holiday film.mp4.part", "notes.txt", "pictures/holiday.jpg"]
    assert sorted(found["foreign"]) == foreign  # type: ignore[call-overload]
    assert {
        *foreign,
        "aside/tmpabc_5678.part",
        "notes.txt",
        "pictures/holiday.jpg",
        "pictures/" + "0" * 32 + ".jpg",
    } <= files(house)


def test_a_person_is_told_what_would_go_and_how_to_do_it(house: Path) -> None:
    done = run("prune-cache", "--collection", house, "--as-of", AS_OF.isoformat())
    assert done.exit_code == 0
    assert done.stderr == ""
    assert "the result of a build on another day" in done.stdout
    assert "Nothing was changed; repeat it with --apply." in done.stdout
    assert "removed" not in done.stdout
    done = run("prune-cache", "--collection", house, "--as-of", AS_OF.isoformat(), "--apply")
    assert "were removed from" in done.stdout
    done = run("prune-cache", "--collection", house, "--as-of", AS_OF.isoformat(), "--apply")
    assert "is needed" in done.stdout


def test_a_cache_that_is_not_there_holds_nothing(house: Path) -> None:
    shutil.rmtree(house / CACHE)
    assert prune(house, "--apply")["going"] == []


def test_another_cache_must_be_there(house: Path) -> None:
    done = run("prune-cache", "--collection", house, "--cache", house / "cahce", "--apply")
    assert done.exit_code == 2
    assert "there is no folder" in done.stderr
