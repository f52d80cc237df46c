"""Small collections in a temporary folder, and what is told of them."""

from __future__ import annotations

import io
from collections.abc import Iterable
from pathlib import Path

from PIL import Image

from archive_tools.model.collection import Collection
from archive_tools.model.problems import Problem, Severity
from archive_tools.read import read_collection

HOUSE = "name: The Slope\ncustodian: house\nhemisphere: north\n"
MAPLE = "accession: T1\ntaxon: Acer palmatum\n"


def made(folder: Path, files: dict[str, str | bytes], house: str | None = HOUSE) -> Path:
    """`folder` with these files in it; `trees/T1/tree.yml` and the like."""
    if house is not None:
        files = {"collection.yml": house, **files}
    for name, content in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content.encode() if isinstance(content, str) else content)
    return folder


def read(folder: Path, files: dict[str, str | bytes], house: str | None = HOUSE) -> tuple[Collection, list[Problem]]:
    """The collection that these files make, and its problems."""
    collection, problems = read_collection(made(folder, files, house))
    assert collection is not None, [problem.what for problem in problems]
    return collection, problems


def read_tree(folder: Path, text: str, **others: str | bytes) -> tuple[Collection, list[Problem]]:
    """A collection with the one tree T1, whose record goes on with `text`."""
    return read(folder, {"trees/T1-a/tree.yml": MAPLE + text, **others})


def places(problems: Iterable[Problem], rule: str | None = None) -> list[tuple[str, int | None, int | None]]:
    """File, line and column of each problem (of one rule)."""
    return [(p.mark.file, p.mark.line, p.mark.column) for p in problems if rule in (None, p.rule)]


def rules(problems: Iterable[Problem]) -> list[str]:
    """The rules that are broken, in the order told."""
    return [problem.rule for problem in problems]


def errors(problems: Iterable[Problem]) -> list[Problem]:
    """Errors without warnings."""
    return [problem for problem in problems if problem.severity is Severity.ERROR]


def only(problems: Iterable[Problem]) -> Problem:
    """The one problem there is."""
    (problem,) = problems
    return problem


def picture(width: int = 8, height: int = 6, taken: str | None = None, digitised: str | None = None) -> bytes:
    """A small JPEG; `taken` and `digitised` as EXIF writes them (`2003:04:05 10:00:00`)."""
    exif = Image.Exif()
    inside = exif.get_ifd(0x8769)
    if taken:
        inside[0x9003] = taken
    if digitised:
        inside[0x9004] = digitised
    kept = io.BytesIO()
    Image.new("RGB", (width, height), (width % 256, height % 256, 40)).save(kept, "JPEG", exif=exif)
    return kept.getvalue()
