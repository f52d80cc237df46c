"""There is always one whole site: the former or the new."""

from __future__ import annotations

import threading
from pathlib import Path

import pytest

from archive_tools import swap


@pytest.fixture
def folders(tmp_path: Path) -> tuple[Path, Path]:
    made, out = tmp_path / "made", tmp_path / "out"
    for folder, text in ((made, "new"), (out, "former")):
        folder.mkdir()
        (folder / "index.html").write_text(text)
    return made, out


@pytest.mark.parametrize("can_exchange", [True, False])
def test_the_new_one_takes_the_place_of_the_former(
    folders: tuple[Path, Path], can_exchange: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    made, out = folders
    if not can_exchange:
        monkeypatch.setattr(swap, "_exchange", lambda _one, _other: False)
    swap.put_in_place(made, out)
    assert ((out / "index.html").read_text(), (made / "index.html").read_text()) == ("new", "former")


def test_where_nothing_stood_it_is_simply_put(tmp_path: Path) -> None:
    made = tmp_path / "made"
    made.mkdir()
    swap.put_in_place(made, tmp_path / "out")
    assert (tmp_path / "out").is_dir()
    assert not made.exists()


def test_a_refused_move_puts_the_former_back(folders: tuple[Path, Path], monkeypatch: pytest.MonkeyPatch) -> None:
    made, out = folders
    monkeypatch.setattr(swap, "_exchange", lambda _one, _other: False)
    rename = Path.rename

    def refuse_the_new(self: Path, target: Path) -> Path:
        if self == made:
            raise OSError("no room")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", refuse_the_new)
    with pytest.raises(OSError, match="no room"):
        swap.put_in_place(made, out)
    assert (out / "index.html").read_text() == "former"


def test_somebody_who_looks_always_finds_a_site(folders: tuple[Path, Path]) -> None:
    made, out = folders
    if not swap._exchange(made, out):
        pytest.skip("this file system cannot exchange two folders in one step")
    missing = []
    stop = threading.Event()

    def look() -> None:
        while not stop.is_set():
            if not (out / "index.html").exists():
                missing.append(1)

    looker = threading.Thread(target=look)
    looker.start()
    for _ in range(500):
        swap.put_in_place(made, out)
    stop.set()
    looker.join()
    assert missing == []
