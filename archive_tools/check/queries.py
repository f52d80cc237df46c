"""Queries that name trees, where something other than a note asks them."""

from __future__ import annotations

from collections.abc import Iterator

from archive_tools.check.telling import left_out, warning
from archive_tools.model.collection import Collection
from archive_tools.model.places_in_files import Step, Where
from archive_tools.model.problems import Problem
from archive_tools.model.tree_query import QueryProblem, trees_that_fit

_Asked = tuple[str, Where, tuple[Step, ...], tuple[str, str, str]]
"""The query, where it stands, under which key, and what is left out of a build when it cannot be read."""


def queries_that_find_nothing(collection: Collection) -> Iterator[Problem]:
    """Queries of tours, talks and house rules: one that cannot be read is an error, one that fits no tree a warning."""
    for text, where, at, subject in _asked(collection):
        try:
            found = trees_that_fit(text, collection.trees.values())
        except QueryProblem as problem:
            yield left_out(where, at, subject, "bad-query", problem.what, problem.instead)
            continue
        if not found:
            yield warning(where.at(*at), "nothing-found", f"no tree of the collection fits “{text}”")


def _asked(collection: Collection) -> Iterator[_Asked]:
    for tour in collection.tours.values():
        if tour.prefer:
            yield tour.prefer, tour.where, ("prefer",), (tour.id, "tour", tour.id)
    for talk in collection.talks.values():
        for section in talk.sections:
            if section.trees_query:
                yield section.trees_query, section.where, ("trees",), (talk.id, "talk", talk.id)
    for number, rule in enumerate(collection.settings.due):
        if rule.trees:
            yield rule.trees, rule.where, ("trees",), ("", "collection value", f"due/{number}")
