"""`compare ACCESSION --json`, as it is promised: which keys, which way the matrix leads, which sign a change has."""

from __future__ import annotations

import json
import math
import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from PIL import Image

import archive_tools
from archive_tools import pipeline
from archive_tools.cli import cli
from archive_tools.comparing import comparing
from archive_tools.model.grades import Edition
from archive_tools.publish.comparison_lines import comparisons_as_json

DEMO = Path(archive_tools.__file__).parents[1] / "demo_collection"
AS_OF = date(2026, 11, 25)
KEYS = {"before", "after", "method", "matrix", "residual_px", "inliers", "measures", "state", "why"}
MEASURE_KEYS = {"name", "unit", "before", "before_pm", "after", "after_pm", "change", "change_pm", "why"}

TREE = """\
accession: T1
name: The Old Elm
taxon: Ulmus parvifolia
comparisons:
  - id: lowered
    before: 1962_front_1.png
    after: 2024_front_1.png
    align_on: [base, left, right]
    measure:
      - {name: Height, from: base, to: apex}
      - {name: Apex, mark: apex}
      - {name: Branch, from: base, to: tip}
  - id: other-side
    before: 1962_front_1.png
    after: 2024_back_1.png
"""
# The later picture is the earlier one moved by (40, 20); 600 px of pot are 60 cm in both. The apex came down by 90 px.
PHOTOS = """\
- file: 1962_front_1.png
  date: 1962
  dated_by: print
  view: front
  marks: {base: [400, 500], left: [100, 520], right: [700, 520], apex: [400, 100], tip: [560, 281]}
  scale: {from: left, to: right, cm: 60, plus_minus: 0.5}
- file: 2024_front_1.png
  date: 2024
  dated_by: print
  view: front
  marks: {base: [440, 520], left: [140, 540], right: [740, 540], apex: [440, 210], tip: [600, 301]}
  scale: {from: left, to: right, cm: 60, plus_minus: 0.5}
- file: 2024_back_1.png
  date: 2024
  dated_by: print
  view: back
"""


@pytest.fixture
def house(tmp_path: Path) -> Path:
    folder = tmp_path / "collection"
    photos = folder / "trees/T1-the-old-elm/photos"
    photos.mkdir(parents=True)
    (folder / "stewards").mkdir()
    (folder / "collection.yml").write_text("name: The House\ncustodian: the-house\n", "utf-8")
    (folder / "stewards/the-house.yml").write_text("name: The House\nvisibility: public\n", "utf-8")
    (photos.parent / "tree.yml").write_text(TREE, "utf-8")
    (photos / "photos.yml").write_text(PHOTOS, "utf-8")
    for name in ("1962_front_1.png", "2024_front_1.png", "2024_back_1.png"):
        Image.effect_noise((840, 640), 60).save(photos / name)
    return folder


def carried(matrix: list[list[float]], point: tuple[float, float]) -> tuple[float, float]:
    u, v, w = (sum(a * b for a, b in zip(row, (*point, 1.0), strict=True)) for row in [*matrix, [0, 0, 1]][:3])
    return u / w, v / w


def test_the_machine_form_of_a_known_pair(house: Path) -> None:
    done = CliRunner().invoke(cli, ["compare", "T1", "--collection", str(house), "--json"])
    assert done.exit_code == 0, done.stderr
    lowered, other = json.loads(done.stdout)
    assert set(lowered) == set(other) == KEYS
    assert (lowered["before"], lowered["after"]) == ("1962_front_1.png", "2024_front_1.png")
    assert (lowered["state"], lowered["method"], lowered["why"]) == ("aligned", "similarity", None)
    assert lowered["inliers"] == 3
    assert lowered["residual_px"] == pytest.approx(0, abs=1e-6)
    # From the later picture back to the earlier one.
    assert carried(lowered["matrix"], (440, 520)) == pytest.approx((400, 500), abs=1e-6)
    height, apex, branch = lowered["measures"]
    assert [set(one) for one in lowered["measures"]] == [MEASURE_KEYS] * 3
    assert [one["unit"] for one in lowered["measures"]] == ["cm"] * 3
    # 10 px are 1 cm: 400 px high before, 310 after.
    assert height["before"] == pytest.approx(40, abs=1e-3)
    assert height["after"] == pytest.approx(31, abs=1e-3)
    assert height["change"] == pytest.approx(-9, abs=1e-3)
    assert apex["change"] == pytest.approx(-9, abs=1e-3)
    assert apex["before"] is apex["after"] is None
    # The first-order uncertainty of a length (JCGM 100:2008, 5.1.2), k = 2: 60 ± 0.5 cm over 600 px, 2 px a coordinate.
    of_length = 2 * 40 * math.sqrt((0.5 / 60) ** 2 + (2 * math.sqrt(2) / 600) ** 2 + (2 * math.sqrt(2) / 400) ** 2)
    assert height["before_pm"] == pytest.approx(of_length, rel=0.02)
    assert 0 < height["change_pm"] < height["before_pm"] + height["after_pm"]
    assert height["why"] is None
    # The branch is as long as it was: refused, in words, with nulls.
    numbers = {key: branch[key] for key in MEASURE_KEYS - {"name", "unit", "why"}}
    assert numbers == dict.fromkeys(numbers)
    assert "no change that can be measured" in branch["why"]


def test_what_is_not_aligned_says_why(house: Path) -> None:
    done = CliRunner().invoke(cli, ["compare", "T1", "--collection", str(house), "--json"])
    other = json.loads(done.stdout)[1]
    assert other["state"] == "not aligned"
    assert "different sides" in other["why"]
    assert other["measures"] == []
    assert all(other[key] is None for key in ("method", "matrix", "residual_px", "inliers"))


def asked(house: Path, *more: str) -> list[dict[str, Any]]:
    done = CliRunner().invoke(cli, ["compare", "T1", "--collection", str(house), "--json", *more])
    assert done.exit_code == 0, done.stderr
    told: list[dict[str, Any]] = json.loads(done.stdout)
    return told


def rewritten(house: Path, name: str, old: str, new: str) -> None:
    file = next(house.rglob(name))
    assert old in file.read_text("utf-8")
    file.write_text(file.read_text("utf-8").replace(old, new), "utf-8")


@pytest.mark.parametrize("spoilt", ["gone", "cut short", "no picture"])
def test_a_comparison_whose_picture_cannot_be_had_is_told_in_its_place(house: Path, spoilt: str) -> None:
    picture = next(house.rglob("2024_front_1.png"))
    if spoilt == "gone":
        picture.unlink()
    else:
        picture.write_bytes(picture.read_bytes()[:2000] if spoilt == "cut short" else b"no picture")
    lowered, other = asked(house)
    assert (lowered["after"], other["after"]) == ("2024_front_1.png", "2024_back_1.png")
    assert lowered["state"] == "not aligned"
    assert "2024_front_1.png" in lowered["why"]
    assert all(lowered[key] is None for key in ("method", "matrix", "residual_px", "inliers"))
    assert [one["why"] for one in lowered["measures"]] == [lowered["why"]] * 3
    for one in lowered["measures"]:
        _whole(one)
    page = CliRunner().invoke(cli, ["compare", "T1", "--collection", str(house)]).stdout
    assert "left out: " in page
    assert "No comparison is declared" not in page


def test_what_the_public_edition_hides_is_not_named(house: Path) -> None:
    (house / "collection.yml").write_text(
        "name: The House\ncustodian: the-house\n"
        "defaults: {trees: public, events: public, photographs: public, stewards: public}\n",
        "utf-8",
    )
    rewritten(house, "photos.yml", "- file: 2024_front_1.png\n", "- file: 2024_front_1.png\n  visibility: internal\n")
    assert [one["after"] for one in asked(house, "--edition", "public")] == ["2024_back_1.png"]
    assert [one["after"] for one in asked(house)] == ["2024_front_1.png", "2024_back_1.png"]
    next(house.rglob("2024_back_1.png")).write_bytes(b"no picture")
    assert asked(house, "--edition", "public") == []
    rewritten(house, "tree.yml", "id: other-side\n", "id: other-side\n    visibility: restricted\n")
    assert [one["after"] for one in asked(house)] == ["2024_front_1.png"]


def test_no_comparison_is_an_empty_list(house: Path) -> None:
    tree = next(house.rglob("tree.yml"))
    tree.write_text(TREE.partition("comparisons:")[0], "utf-8")
    assert asked(house) == []


@pytest.mark.parametrize(
    ("file", "old", "new", "which", "why"),
    [
        ("tree.yml", "to: tip", "to: tipp", 2, "no mark “tipp”"),
        ("photos.yml", ", apex: [400, 100]", "", 1, "no mark “apex”"),
        ("photos.yml", "tip: [560, 281]", "tip: [402, 503]", 2, "too near each other to measure"),
        ("photos.yml", "left: [140, 540]", "left: [715, 540]", 0, "the marks of the scale are too near"),
    ],
)
def test_a_measure_that_lacks_something_is_refused_by_itself(
    house: Path, file: str, old: str, new: str, which: int, why: str
) -> None:
    rewritten(house, file, old, new)
    measures = asked(house)[0]["measures"]
    assert why in measures[which]["why"]
    _whole(measures[which])


def test_what_moved_aside_alone_did_not_come_down(house: Path) -> None:
    rewritten(house, "photos.yml", "apex: [440, 210]", "apex: [540, 121]")
    apex = asked(house)[0]["measures"][1]
    _whole(apex)
    assert apex["why"].startswith("no change up or down that can be measured; moved 10.0 cm to the right (± ")


@pytest.mark.parametrize("kept", ["a file", "a folder of somebody else's"])
def test_a_cache_that_cannot_be_written_costs_nothing_but_time(
    house: Path, kept: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = asked(house)
    if kept == "a file":
        shutil.rmtree(house / ".archive-cache")
        (house / ".archive-cache").write_text("no folder", "utf-8")
    else:

        def refused(*_: object, **__: object) -> None:
            raise PermissionError(13, "not yours")

        monkeypatch.setattr("archive_tools.illustrate.sharpness._write", refused_once(refused))
        (house / ".archive-cache/sharpness 1.json").unlink()
    assert asked(house) == whole


def refused_once(refuse: Callable[..., None]) -> Callable[..., None]:
    from archive_tools.illustrate import sharpness

    write, left = sharpness._write, [refuse]
    return lambda *given: left.pop()(*given) if left else write(*given)


def test_an_accession_that_is_not_there_is_answered_with_the_nearest(house: Path) -> None:
    rewritten(house, "tree.yml", "accession: T1", "accession: T.101")
    next(house.rglob("T1-the-old-elm")).rename(house / "trees/T.101-the-old-elm")
    done = CliRunner().invoke(cli, ["compare", "T.110", "--collection", str(house), "--json"])
    assert (done.exit_code, done.stdout) == (2, "")
    assert "did you mean T.101?" in done.stderr


@pytest.mark.slow
def test_every_comparison_of_the_demo() -> None:
    """Whatever is told is whole: all keys, a refusal has words and no numbers, and marks come back where they were."""
    view = pipeline.view(DEMO, edition=Edition.INTERNAL, as_of=AS_OF, today=date.today())
    compared = aligned = measured = 0
    for tree in view.records.trees.values():
        if not tree.comparisons:
            continue
        told = comparisons_as_json(tree, comparing(view, tree.accession, DEMO).comparisons, "en")
        assert len(told) == len(tree.comparisons)
        for wanted, one in zip(tree.comparisons, json.loads(json.dumps(told)), strict=True):
            compared += 1
            assert set(one) == KEYS
            assert (one["before"], one["after"]) == (wanted.before, wanted.after)
            for change in one["measures"]:
                _whole(change)
                measured += change["change"] is not None
            if one["state"] == "not aligned":
                assert one["why"]
                assert one["matrix"] is None
                continue
            aligned += 1
            assert one["why"] is None
            assert len(one["matrix"]) in (2, 3)
            before, after = (tree.photo(file) for file in (wanted.before, wanted.after))
            assert before is not None
            assert after is not None
            there, here = dict(before.marks), dict(after.marks)
            moved = {measure.mark for measure in wanted.measure if measure.mark}
            for name in set(wanted.align_on) - moved:
                back = carried(one["matrix"], here[name])
                assert math.dist(back, there[name]) < 4 * one["residual_px"] + 1, (tree.accession, name)
    assert compared >= 15
    assert aligned >= 5
    assert measured >= 5


def _whole(change: dict[str, Any]) -> None:
    assert set(change) == MEASURE_KEYS
    assert change["unit"] == "cm"
    assert change["name"]
    numbers = [change[key] for key in MEASURE_KEYS - {"name", "unit", "why"}]
    if change["why"]:
        assert numbers == [None] * len(numbers)
        return
    assert 0 < change["change_pm"] < abs(change["change"])
    if change["before"] is not None:
        assert change["change"] == pytest.approx(change["after"] - change["before"])
        assert min(change["before_pm"], change["after_pm"]) > 0
