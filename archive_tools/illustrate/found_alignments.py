"""Alignments the program finds by itself, kept from build to build by the two pictures' fingerprints.

Looking for places takes about a second a pair, so the answer, a refusal included, is written down beside the cuts.
OpenCV is brought in only where something has to be looked for: a build that finds everything kept never loads it.
"""

from __future__ import annotations

import hashlib
import json
import multiprocessing
import os
import tempfile
from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import asdict, dataclass
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from archive_tools.illustrate.alignment import CannotAlign, Laid
from archive_tools.illustrate.originals import Original, pixels_of
from archive_tools.illustrate.pixels import CannotRead
from archive_tools.model.reasons import N_, Reason, because, reason_from

if TYPE_CHECKING:
    from archive_tools.illustrate.features import Places

SETTINGS = "6"
"""Changes with anything that would give another answer for the same two pictures."""
FOLDER = "alignments"
_FEW = 2
"""Starting processes takes longer than looking at so many pairs."""
_AT_HAND = 24
"""Pictures whose places are kept at hand while pairs are looked at."""

Pair = tuple[Original, Original]


@dataclass(frozen=True, slots=True)
class Found:
    """How one picture lies over another, in pixels of the originals; or None, and why not."""

    laid: Laid | None
    why: Reason | None = None


def found_alignments(pairs: Iterable[Pair], cache: Path, processes: int | None = None) -> dict[tuple[str, str], Found]:
    """What is found for each pair, by the fingerprints of its pictures; only what the cache lacks is looked for.

    Raises OSError when the disk cannot be written or a process was ended from outside.
    """
    wanted = {(before.fingerprint, after.fingerprint): (before, after) for before, after in pairs}
    found = kept_alignments(wanted, cache)
    missing = sorted(set(wanted) - set(found), key=lambda key: (key[1], key[0]))
    for key, (answer, lasting) in zip(missing, _look([wanted[key] for key in missing], processes), strict=True):
        found[key] = answer
        if lasting:
            _write(alignment_file(cache, key), answer)
    return found


def kept_alignments(wanted: Iterable[tuple[str, str]], cache: Path) -> dict[tuple[str, str], Found]:
    """What was found for pairs in former runs, by the fingerprints of their pictures; nothing is looked for."""
    known = {key: _read(alignment_file(cache, key)) for key in wanted}
    return {key: value for key, value in known.items() if value is not None}


def find(before: Original, after: Original) -> tuple[Found, bool]:
    """Look for what has not changed; the answer, and whether it holds as long as the two files stay the same."""
    from archive_tools.illustrate.acceptance import accepted
    from archive_tools.illustrate.features import agreed
    from archive_tools.illustrate.refinement import refined

    try:
        first, second = _places(before), _places(after)
    except CannotRead as reason:
        return Found(None, because(N_("a picture cannot be read: %(why)s"), why=str(reason))), False
    try:
        found = accepted(agreed(first, second), first, second)
        return Found(refined(found, first.size, second.size, before, after)), True
    except CannotAlign as reason:
        return Found(None, reason.why), True
    except CannotRead as reason:
        return Found(None, because(N_("a picture cannot be read: %(why)s"), why=str(reason))), False


def working_size(size: tuple[int, int], longest: int) -> tuple[int, int]:
    """A size brought down to a longest side."""
    factor = min(1.0, longest / max(size))
    return max(1, round(size[0] * factor)), max(1, round(size[1] * factor))


@lru_cache(maxsize=_AT_HAND)
def _places(original: Original) -> Places:
    from archive_tools.illustrate.features import WORKING, places_in

    return places_in(np.asarray(pixels_of(original, working_size(original.size, WORKING)).convert("L")))


def _look(pairs: Sequence[Pair], processes: int | None) -> Iterator[tuple[Found, bool]]:
    workers = min(processes or os.cpu_count() or 1, len(pairs))
    if workers <= 1 or len(pairs) <= _FEW:
        yield from (find(before, after) for before, after in pairs)
        return
    # Started afresh, not forked: the caller may be a server with threads of its own.
    with ProcessPoolExecutor(workers, multiprocessing.get_context("spawn")) as pool:
        try:
            firsts, seconds = zip(*pairs, strict=True)
            yield from pool.map(find, firsts, seconds, chunksize=max(1, min(8, len(pairs) // workers)))
        except BrokenProcessPool as error:
            raise OSError("a process that lays pictures over each other was ended from outside") from error


def alignment_file(cache: Path, key: tuple[str, str]) -> Path:
    """Where what is found for a pair, by the fingerprints of its pictures, is kept."""
    told = "\n".join((*key, f"settings {SETTINGS}"))
    return cache / FOLDER / (hashlib.sha256(told.encode()).hexdigest()[:32] + ".json")


def _read(file: Path) -> Found | None:
    """What was kept; None where nothing was, or what was kept is damaged."""
    try:
        kept: dict[str, Any] = json.loads(file.read_text(encoding="utf-8"))
        laid = kept["laid"]
        if laid is None:
            return Found(None, reason_from(kept["why"]))
        matrix = tuple((float(a), float(b), float(c)) for a, b, c in laid["matrix"])
        centre = (float(laid["centre"][0]), float(laid["centre"][1]))
        return Found(
            Laid(
                str(laid["model"]), matrix, float(laid["residual"]), centre, float(laid["spread"]), int(laid["points"])
            )
        )
    except (OSError, ValueError, KeyError, TypeError, IndexError):
        return None


def _write(file: Path, found: Found) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    kept = {
        "laid": None if found.laid is None else asdict(found.laid),
        "why": found.why.as_json() if found.why else None,
    }
    handle, aside = tempfile.mkstemp(dir=file.parent, suffix=".part")
    with os.fdopen(handle, "w", encoding="utf-8") as sheet:
        json.dump(kept, sheet)
    Path(aside).replace(file)
