"""The comparisons of one tree, worked out without making a single picture."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from archive_tools.illustrate.change import Translate
from archive_tools.illustrate.comparison import Shot
from archive_tools.illustrate.cuts import picture_of, sizes_of
from archive_tools.illustrate.originals import original_of
from archive_tools.illustrate.pairs import paired
from archive_tools.illustrate.pixels import CannotRead
from archive_tools.model.pictures import AlignedComparison, ProposedPair
from archive_tools.model.view import EditionView


@dataclass(frozen=True, slots=True)
class TreeCompared:
    """A tree's declared comparisons, aligned and measured, and what else could be compared."""

    comparisons: tuple[AlignedComparison, ...]
    proposals: tuple[ProposedPair, ...]


def compare_tree(
    view: EditionView, accession: str, root: Path, cache: Path, translate: Translate = str
) -> TreeCompared:
    """The comparisons of a tree of this edition. root: the collection's folder; cache: as in `draw`.

    Photographs that cannot be read are left out. Raises KeyError for a tree the edition does not hold, OSError where
    the cache cannot be written.
    """
    tree = view.records.trees[accession]
    shots: dict[str, Shot] = {}
    for photo in tree.photos:
        try:
            original = original_of(photo, root)
            shots[photo.path] = Shot(photo, original, picture_of(sizes_of(*original.size), original.fingerprint))
        except CannotRead:
            continue
    made = paired([tree], shots, cache, translate)
    return TreeCompared(tuple(pair for pair, _ in made.comparisons), made.proposals.get(accession, ()))
