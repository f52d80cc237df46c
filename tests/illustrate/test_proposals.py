"""Which pairs are proposed, and how sharp a picture is; what must hold is the brief of the proposals, in their docs."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import date
from hashlib import sha256
from pathlib import Path

import numpy as np
import pytest
import yaml
from illustrate_builders import scene
from PIL import ImageFilter

from archive_tools.illustrate import sharpness as module
from archive_tools.illustrate.originals import Original
from archive_tools.illustrate.proposals import KEPT, Candidate, proposed, seasons
from archive_tools.illustrate.sharpness import FILE, sharpness, sharpness_of

OLD = Candidate("1962_front_1.jpg", date(1962, 5, 1), "front", 1600, 1200, 0.05, frozenset({5}))
NEW = replace(OLD, file="2025_front_1.jpg", day=date(2025, 5, 1))


def test_a_pair_far_apart_is_proposed_with_what_speaks_for_it_and_lines_to_paste() -> None:
    (pair,) = proposed("T1", [NEW, OLD], [])
    assert (pair.before, pair.after) == (OLD.file, NEW.file)
    assert pair.reasons == (
        "63 years apart",
        "both from the front",
        "both sharp",
        "framed alike",
        "taken at the same time of year",
    )
    assert yaml.safe_load("comparisons:\n" + pair.snippet) == {
        "comparisons": [{"id": "front-1962-2025", "before": OLD.file, "after": NEW.file}]
    }


@pytest.mark.parametrize(
    "other",
    [
        replace(NEW, day=date(1965, 5, 1)),
        replace(NEW, view="back"),
        replace(NEW, width=600, height=1600),
        replace(NEW, sharpness=0.001),
        replace(NEW, width=400, height=300),
        replace(NEW, sure=False),
    ],
    ids=["near in time", "another side", "framed otherwise", "blurred", "tiny", "perhaps another tree"],
)
def test_what_speaks_against_a_pair_keeps_it_back(other: Candidate) -> None:
    assert proposed("T1", [OLD, other], []) == ()


def test_details_and_pictures_of_no_side_are_never_proposed() -> None:
    for view in ("detail", ""):
        assert proposed("T1", [replace(OLD, view=view), replace(NEW, view=view)], []) == ()


def test_what_is_declared_is_not_proposed_and_an_id_is_not_given_twice() -> None:
    assert proposed("T1", [OLD, NEW], [(NEW.file, OLD.file)]) == ()
    (pair,) = proposed("T1", [OLD, NEW], [], ["front-1962-2025"])
    assert "id: front-1962-2025-2\n" in pair.snippet


def test_marks_in_common_and_the_same_season_bring_a_pair_forward() -> None:
    marked = replace(NEW, file="2024_front_1.jpg", day=date(2024, 11, 1), months=frozenset({11}))
    marked = replace(marked, marks=frozenset({"base", "left"}))
    old = replace(OLD, marks=frozenset({"base", "left"}))
    pairs = proposed("T1", [old, NEW, marked], [])
    assert [pair.after for pair in pairs] == [marked.file]
    assert "2 marks in both already" in pairs[0].reasons


def test_no_picture_stands_in_two_proposals_and_there_are_few_of_them() -> None:
    years = [replace(OLD, file=f"{year}_front_1.jpg", day=date(year, 5, 1)) for year in range(1950, 2026, 5)]
    pairs = proposed("T1", years, [])
    assert len(pairs) == KEPT
    assert len({pair.before for pair in pairs}) == len({pair.after for pair in pairs}) == KEPT
    assert [pair.score for pair in pairs] == sorted((pair.score for pair in pairs), reverse=True)


def test_the_months_of_a_date() -> None:
    assert seasons(date(2024, 11, 3), date(2025, 2, 1)) == {11, 12, 1, 2}
    assert seasons(date(2024, 1, 1), date(2024, 12, 31)) == frozenset()
    assert seasons(None, date(2024, 12, 31)) == frozenset()


def test_a_blurred_picture_is_less_sharp_and_a_faded_one_is_not() -> None:
    crisp = scene(960, 720).filter(ImageFilter.UnsharpMask(2, 300))
    grain = np.random.default_rng(3).normal(0, 12, (720, 960))
    grey = np.asarray(crisp.convert("L"), dtype=float) + grain
    faded = 110 + (grey - grey.mean()) * 0.4
    soft = np.asarray(crisp.filter(ImageFilter.GaussianBlur(4)).convert("L"), dtype=float)
    assert sharpness(faded) == pytest.approx(sharpness(grey), rel=1e-6)
    assert sharpness(soft) < sharpness(grey) / 20
    assert sharpness(np.full((50, 50), 7.0)) == 0


def test_sharpness_is_measured_once_and_alike_by_one_and_by_several(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    originals = []
    for seed in range(3):
        path = tmp_path / f"{seed}.png"
        scene(200, 150, seed).save(path)
        originals.append(Original(path, sha256(path.read_bytes()).hexdigest(), 200, 150))
    lost = Original(tmp_path / "lost.png", "0" * 64, 200, 150)
    alone = sharpness_of([*originals, lost], tmp_path / "one")
    assert set(alone) == {one.fingerprint for one in originals}
    monkeypatch.setattr(module, "_FEW", 1)
    monkeypatch.setattr(module, "ProcessPoolExecutor", lambda workers, _how: ThreadPoolExecutor(workers))
    assert sharpness_of([*originals, lost], tmp_path / "two", processes=2) == alone
    for one in originals:
        one.path.unlink()
    kept = (tmp_path / "one" / FILE).read_bytes()
    assert sharpness_of(originals, tmp_path / "one") == alone
    assert (tmp_path / "one" / FILE).read_bytes() == kept
