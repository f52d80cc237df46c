"""One question beside the order of work: how a tree's photographs compare. Nothing is published by it."""

from __future__ import annotations

import os
from collections.abc import Iterable
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory

from archive_tools.check import check_collection
from archive_tools.editions import with_effective_visibility
from archive_tools.illustrate.asked import TreeCompared, compare_tree
from archive_tools.made_before import CACHE, PHOTOGRAPHS
from archive_tools.model.grades import Edition, Visibility
from archive_tools.model.photo import ComparisonWanted
from archive_tools.model.problems import Problem, Severity
from archive_tools.model.view import EditionView
from archive_tools.read import FactsCache, read_collection


def comparing(view: EditionView, accession: str, folder: Path) -> TreeCompared:
    """A tree's comparisons and what else could be compared. What is found is kept where builds keep it, if that can be.

    Raises KeyError for a tree the edition does not hold.
    """
    cache = folder / CACHE
    if os.access(cache if cache.exists() else folder, os.W_OK):
        try:
            return compare_tree(view, accession, folder, cache)
        except OSError:
            pass  # a folder within it belongs to somebody else, or the disk is full: ask again elsewhere
    with TemporaryDirectory() as passing:
        return compare_tree(view, accession, folder, Path(passing))


def left_out(
    view: EditionView, accession: str, folder: Path, today: date, compared: Iterable[str]
) -> tuple[tuple[int, ComparisonWanted, str], ...]:
    """The comparisons declared of a tree that are not among `compared` (ids): which it is of those declared, counted
    from 0, and what is wrong with it.

    Only for the internal edition: what the public one leaves out is not even named. Comparisons that nobody may see
    are in neither.
    """
    if view.edition is not Edition.INTERNAL:
        return ()
    collection, problems = read_collection(folder, None, FactsCache(folder / CACHE / PHOTOGRAPHS))
    if collection is None:
        return ()
    problems = problems + check_collection(collection, today)
    known = set(compared)
    declared = with_effective_visibility(collection, view.as_of).trees[accession].comparisons
    told = [wanted for wanted in declared if wanted.effective is not Visibility.RESTRICTED]
    return tuple(
        (place, wanted, _wrong_with(wanted, accession, problems))
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
