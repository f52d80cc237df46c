"""The line of years at the head of a sheet: photographs and events where their days lie, silences as gaps."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context
from archive_tools.publish.photographs import shown
from archive_tools.publish.tree_years import happenings

EVERY = ((300, 50), (140, 20), (30, 10), (12, 5), (0, 1))
"""Of so many years or more, one in so many is written."""
AT_EDGE = 24
"""A year nearer than this to an end of the line is written inwards."""


@dataclass(frozen=True, slots=True)
class Written:
    """A year under the line; `anchor` is the text-anchor of SVG."""

    x: float
    year: str
    anchor: str


@dataclass(frozen=True, slots=True)
class LineOfYears:
    """Places along the line, from its beginning; `held` and `quiet` are stretches from and to."""

    photographs: tuple[float, ...]
    events: tuple[float, ...]
    held: tuple[tuple[float, float], ...]
    quiet: tuple[tuple[float, float], ...]
    years: tuple[Written, ...]


def line_of_years(context: Context, tree: Tree, wide: float) -> LineOfYears:
    """The years of a tree to one scale, `wide` units long: the first year begins at 0 and the last ends at `wide`."""
    said = [photo.when.said for photo in shown(context, tree) if photo.when is not None]
    taken = [day for span in said if (day := span.first or span.last) is not None]
    happened = [day for day, _ in happenings(context, tree)]
    chronology = context.view.findings.chronologies.get(tree.accession)
    quiet = [(period.start, period.end) for period in chronology.quiet] if chronology else []
    days = [*taken, *happened, *(day for period in quiet for day in period)]
    if not days:
        return LineOfYears((), (), ((0, wide),), (), ())
    first, last = min(days).year, max(days).year
    start, end = date(first, 1, 1).toordinal(), date(last, 12, 31).toordinal()

    def at(day: date) -> float:
        return (day.toordinal() - start) * wide / (end - start)

    gaps = sorted((at(start), at(end)) for start, end in quiet)
    return LineOfYears(
        tuple(at(day) for day in taken),
        tuple(at(day) for day in happened),
        tuple(_between(gaps, wide)),
        tuple(gaps),
        tuple(_written(first, last, wide, at)),
    )


def _between(gaps: Sequence[tuple[float, float]], wide: float) -> Iterator[tuple[float, float]]:
    reached = 0.0
    for start, end in gaps:
        if start > reached:
            yield reached, start
        reached = max(reached, end)
    if reached < wide:
        yield reached, wide


def _written(first: int, last: int, wide: float, at: Callable[[date], float]) -> Iterator[Written]:
    every = next(step for longer, step in EVERY if last - first >= longer)
    for year in range(first + -first % every, last + 1, every):
        x = at(date(year, 1, 1))
        yield Written(x, str(year), "start" if x < AT_EDGE else "end" if x > wide - AT_EDGE else "middle")
