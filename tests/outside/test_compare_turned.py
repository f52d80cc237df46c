"""`compare --json` on pictures stored in every orientation: its matrix against the one by which OpenCV laid the pair.

Orientation: Exif 2.32, tag 0x0112. Nothing is marked, so the program has to find by itself what has not changed.
"""

from __future__ import annotations

import json
import math
from pathlib import Path

import cv2
import numpy as np
import pytest
from click.testing import CliRunner
from numpy.typing import NDArray
from PIL import Image, ImageOps

from archive_tools.cli import cli
from tests.outside.constructed_pairs import DEMO, HALF

PICTURE = DEMO / "trees/S1979.2-halvards-maple/photos/2008_front_1.jpg"
TREE = """\
accession: T1
name: The Old Elm
taxon: Ulmus parvifolia
comparisons:
  - {id: turned, before: 2008_front_1.jpg, after: 2020_front_1.jpg}
"""


# Where row 0 and column 0 of the file stand in the upright picture, in the words of the standard (from memory).
ROW_AND_COLUMN = [
    ("top", "left"), ("top", "right"), ("bottom", "right"), ("bottom", "left"),
    ("left", "top"), ("right", "top"), ("right", "bottom"), ("left", "bottom"),
]  # fmt: skip


def stored_for(upright: NDArray[np.uint8], orientation: int) -> NDArray[np.uint8]:
    row, column = ROW_AND_COLUMN[orientation - 1]
    stored = upright.swapaxes(0, 1) if row in ("left", "right") else upright
    if row in ("bottom", "right"):
        stored = stored[::-1]
    return stored[:, ::-1] if column in ("bottom", "right") else stored


def store(picture: NDArray[np.uint8], file: Path, orientation: int) -> None:
    exif = Image.Exif()
    exif[0x0112] = orientation
    Image.fromarray(np.ascontiguousarray(stored_for(picture, orientation))).save(file, quality=93, exif=exif)


@pytest.mark.slow
@pytest.mark.parametrize("orientation", range(1, 9))
def test_the_matrix_is_of_upright_pixels(orientation: int, tmp_path: Path) -> None:
    with Image.open(PICTURE) as opened:
        before = np.asarray(ImageOps.exif_transpose(opened).convert("RGB"))
    height, width = before.shape[:2]
    turn, scale = math.radians(4), 0.93
    true = np.array(
        [
            [scale * math.cos(turn), -scale * math.sin(turn), 60.0],
            [scale * math.sin(turn), scale * math.cos(turn), 25.0],
            [0, 0, 1.0],
        ]
    )
    by_centres = np.linalg.inv(HALF) @ true @ HALF
    after = cv2.warpAffine(before, by_centres[:2], (width + 40, height + 30), borderMode=cv2.BORDER_REFLECT)

    photos = tmp_path / "trees/T1-the-old-elm/photos"
    photos.mkdir(parents=True)
    (tmp_path / "stewards").mkdir()
    (tmp_path / "collection.yml").write_text("name: The House\ncustodian: the-house\n", "utf-8")
    (tmp_path / "stewards/the-house.yml").write_text("name: The House\n", "utf-8")
    (photos.parent / "tree.yml").write_text(TREE, "utf-8")
    entry = "- file: {0}_front_1.jpg\n  date: {0}\n  dated_by: print\n  view: front\n"
    (photos / "photos.yml").write_text(entry.format(2008) + entry.format(2020), "utf-8")
    store(before, photos / "2008_front_1.jpg", orientation % 8 + 1)
    store(np.asarray(after, np.uint8), photos / "2020_front_1.jpg", orientation)

    done = CliRunner().invoke(cli, ["compare", "T1", "--collection", str(tmp_path), "--json"])
    assert done.exit_code == 0, done.stderr
    (told,) = json.loads(done.stdout)
    assert (told["state"], told["method"]) == ("aligned", "features"), told["why"]
    rows = np.array(told["matrix"])
    back = rows if len(rows) == 3 else np.vstack([rows, [0, 0, 1]])
    spots = np.array([[x, y, 1.0] for x in (100, width / 2, width - 100) for y in (100, height / 2, height - 100)]).T
    found = back @ spots
    assert np.abs(found[:2] / found[2] - (np.linalg.inv(true) @ spots)[:2]).max() < 0.5
