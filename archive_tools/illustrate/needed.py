"""Which files of the cache the pictures of an edition come from, worked out without opening a single original."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from archive_tools.illustrate.comparison import Shot
from archive_tools.illustrate.cuts import picture_of, sizes_of
from archive_tools.illustrate.found_alignments import alignment_file, kept_alignments
from archive_tools.illustrate.originals import original_of
from archive_tools.illustrate.pairs import comparisons_of, unmarked_pairs
from archive_tools.illustrate.pixels import CannotRead
from archive_tools.illustrate.years_strip import strips_of
from archive_tools.model.view import EditionView


@dataclass(frozen=True, slots=True)
class Needed:
    """files: of the cache, relative to it, with `/`. fingerprints: of the originals that an edition shows."""

    files: frozenset[str]
    fingerprints: frozenset[str]


def needed(view: EditionView, root: Path, cache: Path) -> Needed:
    """What `draw` would look for in the cache for this edition; root: the collection's folder.

    A pair whose alignment is not kept has no pictures that could be found again, so none of it is needed.
    """
    shots: dict[str, Shot] = {}
    for tree in view.records.trees.values():
        for photo in tree.photos:
            try:
                original = original_of(photo, root)
                cuts = picture_of(sizes_of(*original.size), original.fingerprint)
            except (CannotRead, ValueError):
                continue
            shots[photo.path] = Shot(photo, original, cuts)
    trees = tuple(view.records.trees.values())
    keys = [(before.fingerprint, after.fingerprint) for before, after in unmarked_pairs(trees, shots)]
    found = kept_alignments(keys, cache)
    pictures = [shot.cuts for shot in shots.values()]
    for tree in trees:
        jobs = [job for _, job in comparisons_of(tree, shots, found) if job is not None]
        jobs += [job for _, made in strips_of(tree, shots, found) for job in made]
        pictures += [picture for job in jobs for picture in job.pictures]
    files = {cut.url for picture in pictures for cut in picture.cuts}
    files |= {alignment_file(cache, key).relative_to(cache).as_posix() for key in keys}
    return Needed(frozenset(files), frozenset(shot.original.fingerprint for shot in shots.values()))
