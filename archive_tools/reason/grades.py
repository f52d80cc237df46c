"""How far each event and photograph can be relied on, by the rules of the format ("Grades").

Worked out on the whole collection, before any edition is chosen: hiding a source hides its name, not its worth.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date

from archive_tools.model.calendar import FIRST_DAY, LAST_DAY, add
from archive_tools.model.collection import Collection
from archive_tools.model.dates import Duration, WhenWritten
from archive_tools.model.event import Citation, Event
from archive_tools.model.grades import Grade
from archive_tools.model.kinds import KINDS
from archive_tools.model.people import Source, Steward, Taught
from archive_tools.model.photo import Photo
from archive_tools.model.vocabulary import DATED_BY, KEPT_AT_THE_TIME, TOLD_AFTERWARDS

Days = tuple[date, date]


def graded(collection: Collection) -> Collection:
    """The collection with `standing` set on every event (of trees and of objects) and every photograph.

    Who taught whom has the same in `grade`: its sources', or lower where it says so.
    """
    sources, near = collection.sources, collection.settings.at_the_time
    return replace(
        collection,
        stewards={key: _taught(steward, sources, near) for key, steward in collection.stewards.items()},
        trees={
            accession: replace(
                tree,
                events=tuple(replace(e, standing=event_grade(e, sources, near)) for e in tree.events),
                photos=tuple(replace(p, standing=photo_grade(p, sources, near)) for p in tree.photos),
            )
            for accession, tree in collection.trees.items()
        },
        objects={
            key: replace(thing, events=tuple(replace(e, standing=event_grade(e, sources, near)) for e in thing.events))
            for key, thing in collection.objects.items()
        },
    )


def _taught(steward: Steward, sources: Mapping[str, Source], near: Duration) -> Steward:
    if not steward.taught_by:
        return steward
    ties = (replace(taught, grade=taught_grade(taught, sources, near)) for taught in steward.taught_by)
    return replace(steward, taught_by=tuple(ties))


def taught_grade(taught: Taught, sources: Mapping[str, Source], at_the_time: Duration) -> Grade:
    """How far it can be relied on that one taught another: by its firmest source, or lower if it says so."""
    cited = _cited(taught.sources, sources)
    days = _days(taught.from_, taught.until)
    found = min((source_grade(source, days, at_the_time) for source in cited), default=Grade.UNSOURCED)
    return _lowered(found, taught.grade, taught.from_)


def event_grade(event: Event, sources: Mapping[str, Source], at_the_time: Duration) -> Grade:
    """An event's grade: its firmest source's, at most its own `grade`, at most reported if its date is uncertain."""
    cited = _cited(event.sources, sources)
    days = _days(event.when, event.until)
    if cited:
        found = min(_survey_grade(event, s, days, at_the_time) if s.kind == "survey" else
                    source_grade(s, days, at_the_time) for s in cited)  # fmt: skip
    elif event.from_note and not event.sources:
        found = Grade.DOCUMENTED if _dated_to_a_day(event.when) else Grade.UNSOURCED
    else:
        found = Grade.UNSOURCED
    return _lowered(found, event.grade, event.when)


def photo_grade(photo: Photo, sources: Mapping[str, Source], at_the_time: Duration) -> Grade:
    """The grade of a photograph: its source's, or what its date rests on."""
    cited = _cited(photo.sources, sources)
    if cited:
        days = _days(photo.when, None)
        found = min(source_grade(source, days, at_the_time) for source in cited)
    else:
        found = DATED_BY.get(photo.dated_by or "", Grade.UNSOURCED)
    return _lowered(found, None, photo.when)


def source_grade(source: Source, days: Days | None, at_the_time: Duration) -> Grade:
    """What a source that is no survey lends to a statement about `days` (None: the statement has no date)."""
    return Grade.DOCUMENTED if _made_at_the_time(source, days, at_the_time) else Grade.REPORTED


def _survey_grade(event: Event, source: Source, days: Days | None, at_the_time: Duration) -> Grade:
    """What was counted, measured or seen on the day is documented; what was inferred from it is inferred."""
    counted = event.rings is not None or bool(event.measured)
    seen = not KINDS[event.kind].begins and _made_at_the_time(source, days, at_the_time)
    return Grade.DOCUMENTED if counted or seen else Grade.INFERRED


def _made_at_the_time(source: Source, days: Days | None, at_the_time: Duration) -> bool:
    if source.kind in TOLD_AFTERWARDS or source.at_the_time is False:
        return False
    if source.at_the_time:
        return True
    written = _days(source.when, None)
    if written is None or days is None:
        return source.kind in KEPT_AT_THE_TIME
    return _reaches(written, days, at_the_time) and _reaches(days, written, at_the_time)


def _reaches(first: Days, second: Days, within: Duration) -> bool:
    """Whether `first`, lengthened by `within`, is not over before `second` begins."""
    end = add(first[1], within)
    return end is None or end >= second[0]


def _cited(citations: Iterable[Citation], sources: Mapping[str, Source]) -> list[Source]:
    return [sources[citation.source] for citation in citations if citation.source in sources]


def _days(when: WhenWritten | None, until: WhenWritten | None) -> Days | None:
    """The days something may have lasted, an open end at the horizon; None without any date."""
    if when is None and until is None:
        return None
    begin, end = when or until, until or when
    assert begin is not None
    assert end is not None
    first, last = begin.earliest or FIRST_DAY, end.latest or LAST_DAY
    return (first, last) if first <= last else (last, first)


def _dated_to_a_day(when: WhenWritten | None) -> bool:
    return when is not None and when.precision == "day" and when.one_day is not None


def _lowered(found: Grade, own: Grade | None, when: WhenWritten | None) -> Grade:
    at_most = Grade.REPORTED if when is not None and when.uncertain else Grade.DOCUMENTED
    return max(found, own or found, at_most)
