"""Memory cards and collections for stories: pictures that differ, cards that can be read, cameras with clocks."""

from __future__ import annotations

import hashlib
import io
from datetime import date, datetime
from pathlib import Path
from typing import Any

import numpy as np
import segno
from PIL import ExifTags, Image

from archive_tools.sort_in import Done, card_text, take_in
from archive_tools.sort_in.plan import Line, Plan

DAY = date(2026, 11, 25)
SITE = "https://the-slope.example/"
HOUSE = (
    f"name: The Slope\ncustodian: house\nsite_url: {SITE}\nhemisphere: north\n"
    "accession_pattern: '^S[0-9]{4}\\.[0-9]{1,3}$'\n"
)
TREES = {
    "S1979.2": "taxon: Acer buergerianum\nother_numbers: [{number: Q-17, from: 1954, until: 1979}, {number: '17'}]\n",
    "S1986.1": "taxon: Carpinus laxiflora\nkind: planting\n",
    "S2015.9": "taxon: Acer buergerianum\nother_numbers: [{number: Q-17, from: 1990, until: 2015}]\n",
}
ONE = ("Ormond", "Tern 4", "1001")
TWO = ("Lisk", "Pocket", "")


def collection(folder: Path, trees: dict[str, str] | None = None, sheets: dict[str, bytes] | None = None) -> Path:
    """A collection of three trees at `folder`; `sheets`: the photos.yml of some, by accession."""
    folder.mkdir(parents=True)
    (folder / "collection.yml").write_text(HOUSE)
    for accession, more in (trees or TREES).items():
        home = folder / "trees" / f"{accession}-a-tree"
        home.mkdir(parents=True)
        (home / "tree.yml").write_text(f"accession: {accession}\n{more}")
    for accession, data in (sheets or {}).items():
        photos = folder / "trees" / f"{accession}-a-tree" / "photos"
        photos.mkdir()
        (photos / "photos.yml").write_bytes(data)
    return folder


def scene(number: int, size: tuple[int, int] = (320, 240)) -> Image.Image:
    """A picture unlike every other of another number: clouds of light and dark, fine and coarse."""
    rng = np.random.default_rng(number)
    coarse = Image.fromarray(rng.integers(0, 255, (24, 32, 3), dtype=np.uint8))
    return coarse.resize(size, Image.Resampling.BICUBIC)


def showing_code(text: str, size: tuple[int, int] = (640, 480), share: float = 0.6, number: int = 7) -> Image.Image:
    """A scene with the code of `text` in it; `share`: the code's side of the shorter side of the picture."""
    picture = scene(number, size)
    code = segno.make(text, error="m", micro=False)
    drawn = io.BytesIO()
    code.save(drawn, kind="png", scale=8, border=4)
    side = round(min(size) * share * code.symbol_size(border=4)[0] / code.symbol_size(border=0)[0])
    placed = Image.open(drawn).convert("RGB").resize((side, side), Image.Resampling.LANCZOS)
    picture.paste(placed, ((size[0] - side) // 2, (size[1] - side) // 2))
    return picture


def shot(
    path: Path,
    picture: Image.Image,
    when: str | None = None,
    camera: tuple[str, str, str] = ONE,
    zone: str | None = None,
    part: str | None = None,
    scanner: bool = False,
    **how: Any,
) -> Path:
    """`picture` as a camera writes it: `when` like "2026-05-03 10:00:00", with the zone if the camera knows one."""
    exif = Image.Exif()
    if any(camera):
        exif[ExifTags.Base.Make], exif[ExifTags.Base.Model] = camera[0], camera[1]
    inner: dict[int, Any] = {}
    if when is not None:
        datetime.fromisoformat(when)
        tag = ExifTags.Base.DateTimeDigitized if scanner else ExifTags.Base.DateTimeOriginal
        inner[tag] = when.replace("-", ":")
    if zone is not None:
        inner[ExifTags.Base.OffsetTimeOriginal] = zone
    if part is not None:
        inner[ExifTags.Base.SubsecTimeOriginal] = part
    if camera[2]:
        inner[ExifTags.Base.BodySerialNumber] = camera[2]
    if scanner:
        inner[ExifTags.Base.FileSource] = b"\x02"
    if path.suffix.lower() == ".tif":
        # Pillow writes no inner block of notes into a TIFF; TIFF/EP has the same ones at the top.
        for tag, value in inner.items():
            exif[tag] = value
    else:
        exif._ifds[ExifTags.IFD.Exif] = inner
    path.parent.mkdir(parents=True, exist_ok=True)
    picture.save(path, exif=exif, **{"quality": 90, **how})
    return path


def card(path: Path, accession: str, when: str, camera: tuple[str, str, str] = ONE, **how: Any) -> Path:
    """A session card photographed before a lens."""
    return shot(path, showing_code(card_text(accession, DAY)), when, camera, **how)


def taken_in(root: Path, folder: Path, **how: Any) -> Done:
    """The plan of `folder` for the collection at `root`, carried out with `apply=True`."""
    return take_in(root, folder, **{"day": DAY, "apply": False, **how})


def line(plan: Plan, file: str) -> Line:
    """What the plan says of one file."""
    (found,) = [one for one in plan.lines if one.source == file]
    return found


def whose(plan: Plan) -> dict[str, tuple[str, ...] | str]:
    """By file: the trees it goes to, or what else becomes of it."""
    return {one.source: one.of if one.target else one.state.value for one in plan.lines}


def bytes_below(folder: Path, besides: tuple[str, ...] = (".archive-cache",)) -> dict[str, str]:
    """Every file and folder below `folder` with the hash of its bytes, but for the cache of what was looked at."""
    found = {}
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        if name.split("/")[0] not in besides:
            found[name] = "folder" if path.is_dir() else hashlib.sha256(path.read_bytes()).hexdigest()
    return found
