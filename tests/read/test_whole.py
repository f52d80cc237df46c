from __future__ import annotations

import gc
import os
import random
from pathlib import Path

import pytest

from archive_tools.model.problems import Problem
from archive_tools.read import FactsCache, find_collection, photo_files, read_collection

from .folder_of import MAPLE, made, picture, read

WHOLE: dict[str, str | bytes] = {
    "trees/T1-a/tree.yml": MAPLE + "form: bromm\nevents: [{kind: fed, date: 1951}, {kind: fde}]\n",
    "trees/T1-a/notes/1951-x.md": "---\nkind: pruned\n---\nx",
    "trees/T1-a/notes/1952-x.md": "---\nkind: prund\n---\nx",
    "trees/T1-a/photos/1962.jpg": picture(8),
    "trees/T1-a/photos/1970.jpg": picture(9),
    "trees/T2/tree.yml": "accession: T2\ntaxon: x\n",
    "trees/t2-x/tree.yml": "accession: T2\ntaxon: x\n",
    "stewards/b.yml": "name: b\n",
    "stewards/a.yml": "nme: a\n",
    "notes/2010-a.md": "---\ntrees: [T2, T1]\n---\nx",
    "notes/2009-a.md": "---\ntrees: kind = single\n---\nx",
    "photos/1980.jpg": picture(10),
    "photos/photos.yml": "- {file: 1980.jpg, of: [T2, T1]}\n",
    "places.yml": "places: {b: {name: B}, a: {name: A}}\n",
}


def test_the_folder_is_found_upwards(tmp_path: Path) -> None:
    house = made(tmp_path / "a", {"trees/T1/notes/1951.md": "x"})
    assert find_collection(house / "trees/T1/notes") == house
    assert find_collection(house / "trees/T1/notes/1951.md") == house
    assert find_collection(house) == house
    assert find_collection(tmp_path) is None


def test_nothing_depends_on_the_order_of_the_disk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first = read(tmp_path, WHOLE)
    real = os.scandir
    shuffled = random.Random(3)

    class Scan(list[os.DirEntry[str]]):
        def __enter__(self) -> Scan:
            return self

        def __exit__(self, *_: object) -> None:
            pass

    def scandir(path: Path) -> Scan:
        with real(path) as entries:
            found = Scan(entries)
        shuffled.shuffle(found)
        return found

    monkeypatch.setattr(os, "scandir", scandir)
    for _ in range(5):
        collection, problems = read_collection(tmp_path)
        assert (collection, problems) == first
        assert collection is not None
        assert list(collection.trees) == list(first[0].trees) and list(collection.stewards) == list(first[0].stewards)


def test_problems_come_file_by_file_from_the_top_down(tmp_path: Path) -> None:
    _, problems = read(tmp_path, WHOLE)
    assert problems == sorted(problems, key=lambda problem: problem.sort_key)
    assert len({problem.mark.file for problem in problems}) > 4


def test_every_problem_has_a_place_a_rule_and_plain_words(tmp_path: Path) -> None:
    _, problems = read(tmp_path, WHOLE)
    for problem in problems:
        assert problem.rule.replace("-", "").isalpha() and problem.rule != Problem(problem.mark, "").rule
        assert problem.what and not problem.what.endswith(".") and "\n" not in problem.what
        assert (tmp_path / problem.mark.file).exists()


def test_the_collector_works_again_afterwards(tmp_path: Path) -> None:
    assert gc.isenabled()
    read(tmp_path, WHOLE)
    assert gc.isenabled()


def test_what_is_known_of_originals_is_not_read_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    cache = FactsCache()
    first = read_collection(made(tmp_path, dict(WHOLE)), cache=cache)

    def no_reading(*_: object) -> None:
        raise AssertionError("an unchanged original was read again")

    monkeypatch.setattr(photo_files, "_read", no_reading)
    assert read_collection(tmp_path, cache=cache) == first


def test_reading_changes_nothing(tmp_path: Path) -> None:
    made(tmp_path, dict(WHOLE))

    def state() -> list[tuple[str, int, bytes]]:
        files = sorted(path for path in tmp_path.rglob("*") if path.is_file())
        return [(str(path), path.stat().st_mtime_ns, path.read_bytes()) for path in files]

    before = state()
    read_collection(tmp_path)
    assert state() == before
