"""Originals read ahead: in several processes, the same facts as in one, nothing read twice, nothing read in vain."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from PIL import Image

from archive_tools.read import FactsCache, read_ahead
from archive_tools.read.photo_files import photo_facts

ahead = sys.modules["archive_tools.read.read_ahead"]


@pytest.fixture
def collection(tmp_path: Path) -> Path:
    for number in range(6):
        folder = tmp_path / "collection" / "trees" / f"T{number % 2}" / "photos"
        folder.mkdir(parents=True, exist_ok=True)
        Image.effect_noise((60, 40), 50 + number).convert("RGB").save(folder / f"19{60 + number}.jpg")
    shared = tmp_path / "collection" / "photos"
    shared.mkdir()
    Image.effect_noise((40, 60), 30).save(shared / "1999.png")
    return tmp_path / "collection"


def pictures(collection: Path) -> list[Path]:
    return sorted([*collection.rglob("*.jpg"), *collection.rglob("*.png")])


@pytest.fixture
def many(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ahead, "_FEW", 2)
    monkeypatch.setattr(ahead, "_LIGHT", 0)


@pytest.mark.usefixtures("many")
def test_the_same_facts_as_read_in_order_and_what_is_spoilt_is_left_to_its_turn(collection: Path) -> None:
    spoilt = collection / "trees" / "T0" / "photos" / "2001.jpg"
    spoilt.write_bytes(b"\xff\xd8 and no more")
    (collection / "trees" / "T0" / "photos" / "photos.yml").write_text("[]")
    (collection / "photos" / "link.jpg").symlink_to(pictures(collection)[0])
    cache = FactsCache()
    assert read_ahead(collection, cache, processes=2) == 7
    for path in pictures(collection):
        assert cache.knows(path) is (path != spoilt and not path.is_symlink())
    for path in pictures(collection):
        if cache.knows(path):
            assert photo_facts(path, cache) == photo_facts(path)
    assert ahead_of_nothing(collection, cache) == []


def ahead_of_nothing(collection: Path, cache: FactsCache) -> list[str]:
    """Which originals are opened when all that can be read is known."""
    opened: list[str] = []
    sys.addaudithook(lambda event, told: opened.append(str(told[0])) if event == "open" else None)
    for path in pictures(collection):
        if cache.knows(path):
            photo_facts(path, cache)
    return [name for name in opened if name.startswith(str(collection))]


def test_a_few_pictures_are_not_worth_a_process(collection: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ahead, "ProcessPoolExecutor", None)
    assert read_ahead(collection, FactsCache()) == 0


def test_one_name_from_every_folder_and_what_is_gone_is_forgotten(
    collection: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept = tmp_path / "kept.json"
    cache = FactsCache(kept)
    first, second, *_ = pictures(collection)
    for path in (first, second):
        photo_facts(path, cache)
    cache.save()
    monkeypatch.chdir(collection)
    again = FactsCache(kept)
    assert again.knows(first.relative_to(collection))
    second.unlink()
    photo_facts(pictures(collection)[1], again)
    again.save()
    assert str(second) not in kept.read_text()
    assert str(first) in kept.read_text()
