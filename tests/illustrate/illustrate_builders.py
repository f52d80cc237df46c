"""Small invented collections and pictures for the tests of the illustrate stage."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal
from pathlib import Path

import numpy as np
from PIL import Image

from archive_tools.model.collection import Collection, Selected, Settings
from archive_tools.model.dates import DatePolicy, Duration
from archive_tools.model.findings import Custody, Findings, TreeChronology
from archive_tools.model.grades import Edition
from archive_tools.model.people import Steward
from archive_tools.model.photo import ComparisonWanted, Photo, PictureScale
from archive_tools.model.places_in_files import Where
from archive_tools.model.tree import Tree
from archive_tools.model.view import EditionView
from archive_tools.model.words import Words

AS_OF = date(2026, 11, 25)
YEAR = Duration(1, 0, 0, "P1Y")


def steward(id_: str, name: str) -> Steward:
    return Steward(id_, Words.plain(name), Where(f"stewards/{id_}.yml"))


def tree(
    accession: str, photos: Iterable[Photo] = (), comparisons: Iterable[ComparisonWanted] = (), name: str = ""
) -> Tree:
    return Tree(
        accession,
        f"trees/{accession}",
        Where(f"trees/{accession}/tree.yml"),
        taxon=("Acer buergerianum",),
        name=Words.plain(name or f"Tree {accession}"),
        photos=tuple(photos),
        comparisons=tuple(comparisons),
    )


def view_of(
    trees: Iterable[Tree] = (),
    stewards: Iterable[Steward] = (),
    custodies: Mapping[str, Custody] | None = None,
    chronologies: Mapping[str, TreeChronology] | None = None,
    custodian: str = "house",
) -> EditionView:
    settings = Settings(
        Words.plain("The Terraces"), custodian, Where("collection.yml"), DatePolicy("north"), {}, YEAR, YEAR
    )
    known = {one.id: one for one in (steward("house", "The Terraces"), *stewards)}
    records = Collection(settings, {t.accession: t for t in trees}, known, {}, {}, {}, (), {}, {})
    findings = Findings(AS_OF, chronologies or {}, custodies or {})
    return EditionView(Edition.PUBLIC, AS_OF, Selected(records), findings)


def photo(
    root: Path,
    path: str,
    size: tuple[int, int] | None = None,
    marks: Mapping[str, tuple[float, float]] | None = None,
    scale: tuple[str, str, str, str | None] | None = None,
    view: str | None = "front",
) -> Photo:
    """A record of the file at `root / path`, as the reader would make it. `size` is of the upright picture."""
    data = (root / path).read_bytes()
    if size is None:
        with Image.open(root / path) as image:
            size = image.size
    known = None
    if scale is not None:
        from_, to, cm, plus_minus = scale
        known = PictureScale(from_, to, Decimal(cm), None if plus_minus is None else Decimal(plus_minus))
    return Photo(
        file=Path(path).name,
        path=path,
        where=Where(str(Path(path).parent / "photos.yml")),
        of=(),
        view=view,
        marks=tuple((marks or {}).items()),
        scale=known,
        width=size[0],
        height=size[1],
        fingerprint=hashlib.sha256(data).hexdigest(),
    )


def scene(width: int, height: int, seed: int = 1) -> Image.Image:
    """A soft, colourful picture without symmetry, so that turning and mirroring it can be seen."""
    rng = np.random.default_rng(seed)
    small = rng.integers(0, 256, (max(height // 60, 3), max(width // 60, 3), 3), dtype=np.uint8)
    return Image.fromarray(small).resize((width, height), Image.Resampling.BICUBIC)


def difference(one: Image.Image, other: Image.Image) -> float:
    """Mean absolute difference of two pictures of one size, in levels of 255."""
    first, second = (np.asarray(image.convert("RGB"), dtype=float) for image in (one, other))
    return float(np.abs(first - second).mean())
