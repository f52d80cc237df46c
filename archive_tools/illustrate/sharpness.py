"""How sharp a photograph is, measured once and kept by its fingerprint.

The variance of the Laplacian of a reduced grey picture (Pech-Pacheco et al. 2000, "Diatom autofocusing in brightfield
microscopy", ICPR 3:314-317), divided by the variance of the picture itself, so that a faded print is not taken for a
blurred one.
"""

from __future__ import annotations

import json
import multiprocessing
import os
import tempfile
from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from archive_tools.illustrate.found_alignments import working_size
from archive_tools.illustrate.originals import Original, pixels_of
from archive_tools.illustrate.pixels import CannotRead

REDUCED = 960
"""Longest side, in pixels, at which sharpness is measured."""
FILE = "sharpness 1.json"
"""In the cache: the sharpness of each original by its fingerprint, for this way of measuring."""
_FEW = 200
"""Starting processes takes longer than measuring so many pictures."""
_AT_ONCE = 8


def sharpness(grey: NDArray[np.float64]) -> float:
    """0 for a picture without detail; about 0.02 where it is blurred, and 0.1 and more where it is sharp."""
    varied = float(grey.var())
    if varied <= 0 or min(grey.shape) < 3:
        return 0.0
    middle = grey[1:-1, 1:-1]
    edges = grey[:-2, 1:-1] + grey[2:, 1:-1] + grey[1:-1, :-2] + grey[1:-1, 2:] - 4 * middle
    return float(edges.var()) / varied


def sharpness_of(originals: Iterable[Original], cache: Path, processes: int | None = None) -> dict[str, float]:
    """The sharpness of each original by its fingerprint; what cannot be read is left out. Only new ones are opened.

    Raises OSError when the disk cannot be written or a process was ended from outside.
    """
    file = cache / FILE
    known = _read(file)
    wanted = {original.fingerprint: original for original in originals}
    new = [original for fingerprint, original in wanted.items() if fingerprint not in known]
    for original, value in zip(new, _measured(new, processes), strict=True):
        if value is not None:
            known[original.fingerprint] = value
    if new:
        _write(file, known)
    return {fingerprint: known[fingerprint] for fingerprint in wanted if fingerprint in known}


def _measured(originals: Sequence[Original], processes: int | None) -> Iterator[float | None]:
    workers = min(processes or os.cpu_count() or 1, len(originals))
    if workers <= 1 or len(originals) <= _FEW:
        yield from map(_measure, originals)
        return
    # Started afresh, not forked: the caller may be a server with threads of its own.
    with ProcessPoolExecutor(workers, multiprocessing.get_context("spawn")) as pool:
        try:
            yield from pool.map(_measure, originals, chunksize=_AT_ONCE)
        except BrokenProcessPool as error:
            raise OSError("a process that looks at pictures was ended from outside") from error


def _measure(original: Original) -> float | None:
    try:
        picture = pixels_of(original, working_size(original.size, REDUCED))
    except CannotRead:
        return None
    return round(_of_picture(picture), 6)


def _of_picture(picture: Image.Image) -> float:
    return sharpness(np.asarray(picture.convert("L"), dtype=np.float64))


def _read(file: Path) -> dict[str, float]:
    try:
        return {str(key): float(value) for key, value in json.loads(file.read_text(encoding="utf-8")).items()}
    except (OSError, ValueError, AttributeError, TypeError):
        return {}


def _write(file: Path, known: dict[str, float]) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    handle, aside = tempfile.mkstemp(dir=file.parent, suffix=".part")
    with os.fdopen(handle, "w", encoding="utf-8") as sheet:
        json.dump(known, sheet, sort_keys=True)
    Path(aside).replace(file)
