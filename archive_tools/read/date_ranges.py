"""Ranges and sets put together from single dates that have been read."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from archive_tools.model.dates import DateProblem, Span, WhenWritten

OPEN = ".."


def read_range(text: str, start: WhenWritten | str, end: WhenWritten | str) -> WhenWritten:
    """`start/end`: some day between. An end is a date that was read, or `..` (open) or "" (unknown).

    Raises DateProblem if no end is given, or if every day of the end lies before the start.
    """
    begins = None if isinstance(start, str) else start
    ends = None if isinstance(end, str) else end
    if begins is None and ends is None:
        raise DateProblem(f"`{text}` says nothing about any day", "no date at all, and what is known as text")
    said = Span(begins.said.first if begins else None, ends.said.last if ends else None)
    if said.first is not None and said.last is not None and said.last < said.first:
        turned = None
        if begins and ends and begins.said.first is not None and ends.said.last is not None:
            turned = f"{ends.text}/{begins.text} if the two changed places"
        raise DateProblem(f"`{text}` ends before it begins", turned)
    return WhenWritten(
        text=text,
        earliest=begins.earliest if begins else None,
        latest=ends.latest if ends else None,
        said=said,
        parts=(said,),
        approximate=bool((begins and begins.approximate) or (ends and ends.approximate)),
        uncertain=bool((begins and begins.uncertain) or (ends and ends.uncertain)),
        precision="interval",
        open_start=start == OPEN,
        open_end=end == OPEN,
        unknown_start=start == "",
        unknown_end=end == "",
    )


def read_set(text: str, members: Sequence[WhenWritten]) -> WhenWritten:
    """`[a,b..c]`: one of its members (at least one), which are single dates or ranges."""
    return WhenWritten(
        text=text,
        earliest=_outermost([member.earliest for member in members], last=False),
        latest=_outermost([member.latest for member in members], last=True),
        said=Span(
            _outermost([member.said.first for member in members], last=False),
            _outermost([member.said.last for member in members], last=True),
        ),
        parts=tuple(member.said for member in members),
        approximate=any(member.approximate for member in members),
        uncertain=any(member.uncertain for member in members),
        precision="set",
        open_start=any(member.open_start for member in members),
        open_end=any(member.open_end for member in members),
    )


def _outermost(days: Sequence[date | None], *, last: bool) -> date | None:
    bounded = [day for day in days if day is not None]
    if len(bounded) < len(days):
        return None
    return max(bounded) if last else min(bounded)
