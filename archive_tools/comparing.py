"""One question beside the order of work: how a tree's photographs compare. Nothing is published by it."""

from __future__ import annotations

import os
from pathlib import Path
from tempfile import TemporaryDirectory

from archive_tools.illustrate.asked import TreeCompared, compare_tree
from archive_tools.made_before import CACHE
from archive_tools.model.view import EditionView


def comparing(view: EditionView, accession: str, folder: Path) -> TreeCompared:
    """A tree's comparisons and what else could be compared. What is found is kept where builds keep it, if that can be.

    Raises KeyError for a tree the edition does not hold.
    """
    if os.access(folder, os.W_OK):
        return compare_tree(view, accession, folder, folder / CACHE)
    with TemporaryDirectory() as passing:
        return compare_tree(view, accession, folder, Path(passing))
