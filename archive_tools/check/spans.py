"""Things that end before they begin."""

from __future__ import annotations

from collections.abc import Iterator

from archive_tools.check.telling import error, in_event, in_value
from archive_tools.check.walk import all_events
from archive_tools.model.collection import Collection
from archive_tools.model.dates import WhenWritten
from archive_tools.model.problems import Problem

RULE = "until-before-date"


def ends_before_it_begins(start: WhenWritten | None, until: WhenWritten | None) -> str | None:
    """What to say where the end is certainly before the start."""
    if start is None or until is None or start.earliest is None or until.latest is None:
        return None
    if until.latest >= start.earliest:
        return None
    return f"this ends ({until.text}) before it begins ({start.text})"


def events_that_end_too_soon(collection: Collection) -> Iterator[Problem]:
    """`until` of an event before its `date`."""
    for owner, event in all_events(collection):
        if what := ends_before_it_begins(event.when, event.until):
            yield in_event(owner, event, ("until",), RULE, what, "an `until` that is not before `date`")


def records_that_end_too_soon(collection: Collection) -> Iterator[Problem]:
    """`until` before `from` or `date` in members, other numbers, `not_shown` and lessons."""
    instead = "the right one of the two dates"
    for tree in collection.trees.values():
        for member in tree.members:
            if what := ends_before_it_begins(member.from_, member.until):
                yield error(member.where.at("until"), RULE, what, instead)
        for index, number in enumerate(tree.other_numbers):
            if what := ends_before_it_begins(number.from_, number.until):
                yield error(tree.where.at("other_numbers", index, "until"), RULE, what, instead)
        for index, reason in enumerate(tree.not_shown):
            if what := ends_before_it_begins(reason.when, reason.until):
                yield error(tree.where.at("not_shown", index, "until"), RULE, what, instead)
    for steward in collection.stewards.values():
        for index, taught in enumerate(steward.taught_by):
            if what := ends_before_it_begins(taught.from_, taught.until):
                mark = steward.where.at("taught_by", index, "until")
                yield in_value(mark, ("steward", steward.id), f"taught_by/{index}", RULE, what, instead)
