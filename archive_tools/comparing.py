"""One question beside the order of work: how a tree's photographs compare. Nothing is published by it."""

from __future__ import annotations

import os
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path
from tempfile import TemporaryDirectory

from archive_tools.editions import with_effective_visibility
from archive_tools.illustrate.asked import TreeCompared, compare_tree
from archive_tools.made_before import CACHE
from archive_tools.model.grades import Edition, Visibility
from archive_tools.model.photo import ComparisonWanted
from archive_tools.model.problems import Problem, Severity
from archive_tools.model.view import EditionView
from archive_tools.pipeline import Gathered


def comparing(view: EditionView, accession: str, folder: Path) -> TreeCompared:
    """The comparisons of a tree and the pairs that would make more, by the collection's own cache where it may write.

    Raises KeyError for a tree the edition does not hold.
    """
    cache = folder / CACHE
    if os.access(cache if cache.exists() else folder, os.W_OK):
        # A folder within it may belong to somebody else, or the disk be full: then it is asked again elsewhere.
        with suppress(OSError):
            return compare_tree(view, accession, folder, cache)
    with TemporaryDirectory() as passing:
        return compare_tree(view, accession, folder, Path(passing))


def left_out(
    gathered: Gathered, view: EditionView, accession: str, compared: Iterable[str]
) -> tuple[tuple[int, ComparisonWanted, str], ...]:
    """The comparisons declared of a tree that are not among `compared` (ids): which it is of those declared, counted
    from 0, and what is wrong with it.

    Only for the internal edition: what the public one leaves out is not even named. Comparisons that nobody may see
    are in neither.
    """
    if view.edition is not Edition.INTERNAL or gathered.written is None:
        return ()
    known = set(compared)
    declared = with_effective_visibility(gathered.written, view.as_of).trees[accession].comparisons
    told = [wanted for wanted in declared if wanted.effective is not Visibility.RESTRICTED]
    return tuple(
        (place, wanted, _wrong_with(wanted, accession, gathered.problems))
        for place, wanted in enumerate(told)
        if wanted.id not in known
    )


def _wrong_with(wanted: ComparisonWanted, accession: str, problems: Iterable[Problem]) -> str:
    """What is wrong with its pictures, else with itself, in the words of `check`."""
    errors = [problem for problem in problems if problem.severity is Severity.ERROR]
    pictures = [
        f"{file}: {problem.what}"
        for file in (wanted.before, wanted.after)
        for problem in errors
        if problem.subject == (accession, "photo", file)
    ]
    itself = [problem.what for problem in errors if problem.subject == (accession, "comparison", wanted.id)]
    return "; ".join(dict.fromkeys(pictures or itself)) or "one of its pictures cannot be read"
