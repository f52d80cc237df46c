"""The dates that a photograph's entry, its file name and its file give, compared.

Told only where no explanation is at hand: a `why` in the entry settles it, a print that was copied by a camera is
younger as a file than as a photograph, and a time near midnight belongs to two days.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from archive_tools.check.telling import listed, warning
from archive_tools.check.walk import all_photos
from archive_tools.model.calendar import add, latest_before
from archive_tools.model.collection import Collection
from archive_tools.model.dates import Span
from archive_tools.model.findings import Findings, TreeChronology
from archive_tools.model.photo import Photo
from archive_tools.model.problems import Problem
from archive_tools.model.stamps import Stamp, meet, possible_days

_ON_PAPER = frozenset({"print", "lab stamp", "negative sleeve", "caption on back", "publication", "postmark"})
"""What dates a photograph that is a thing of paper or film: its file is younger."""
_ONLY_NOT_AFTER = frozenset({"lab stamp", "publication", "postmark", "scan"})
_DIGITAL_FROM = 1990
"""A photograph older than this can only have become a file later (digital cameras were sold from then; from memory)."""


def dates_that_differ(collection: Collection) -> Iterator[Problem]:
    """A photograph whose date is not that of its file name, or not that which its file gives."""
    timezone = collection.settings.timezone
    for _, photo in all_photos(collection):
        if photo.when is None or photo.why is not None:
            continue
        said = _said(photo)
        mark = photo.where.at("date")
        if photo.named is not None and not meet(said, Span(photo.named.earliest, photo.named.latest)):
            what = f"{photo.path} is dated {photo.when.text}{_by(photo)}, and its name begins with {photo.named.text}"
            instead = f"`date: {photo.named.text}`, another file name, or `why` it is dated so"
            yield warning(mark, "photo-dates-differ", what, instead)
        for day, stamps in _others(photo, said, timezone).items():
            fields = listed(dict.fromkeys(stamp.field for stamp in stamps))
            what = f"{photo.path} is dated {photo.when.text}{_by(photo)}, and its {fields} {_gives(stamps)} {day}"
            instead = f"`date: {day}`{_camera(stamps)} if the file is right, or `why` it is dated so"
            yield warning(mark, "photo-dates-differ", what, instead)


def scanned_before_taken(collection: Collection) -> Iterator[Problem]:
    """A scan that is older than the photograph is said to be."""
    for _, photo in all_photos(collection):
        if photo.when is None or photo.why is not None or photo.dated_by == "scan" or photo.made_by == "camera":
            continue
        if any(stamp.kind == "taken" and not stamp.doubt for stamp in photo.stamps):
            continue
        said = Span(photo.when.earliest, photo.when.latest)
        for stamp in photo.stamps:
            days = possible_days(stamp, collection.settings.timezone)
            if stamp.kind != "digitised" or stamp.doubt or days is None or days.last is None or said.first is None:
                continue
            if days.last < said.first:
                what = (
                    f"{photo.path} is dated {photo.when.text}{_by(photo)}, and was digitised before that "
                    f"({stamp.field} {stamp.text})"
                )
                yield warning(
                    photo.where.at("date"), "scanned-before-taken", what, "an earlier date, or `why` it is dated so"
                )
                break


def stamps_out_of_order(collection: Collection, findings: Findings) -> Iterator[Problem]:
    """What a file gives as its date, where the photograph's own `timing` puts it before or after an event."""
    timezone = collection.settings.timezone
    for tree, photo in all_photos(collection):
        chronology = findings.chronologies.get(tree.accession)
        if not photo.timing or photo.why is not None or chronology is None or chronology.under_review:
            continue
        bounds, words = _by_timing(photo, chronology)
        told: set[str] = set()
        for stamp in photo.stamps:
            days = possible_days(stamp, timezone)
            # A date that the photograph goes by is compared with its timing when the chronology is solved.
            goes_by_it = photo.when is not None and days is not None and _within(_said(photo), days)
            if (
                stamp.kind == "digitised"
                or stamp.doubt
                or days is None
                or goes_by_it
                or _is_a_copy(photo, stamp, bounds)
            ):
                continue
            if not meet(days, bounds) and stamp.day not in told:
                told.add(stamp.day)
                what = f"{photo.path} is {words} by its `timing`, and its {stamp.field} gives {stamp.day}"
                yield warning(
                    photo.where.at("timing"),
                    "photo-out-of-order",
                    what,
                    "another `timing`, or `why` the file's date is not right",
                )


def _said(photo: Photo) -> Span:
    """The days that the photograph's date leaves open."""
    if photo.when is None:
        return Span(None, None)
    first = None if photo.dated_by in _ONLY_NOT_AFTER else photo.when.earliest
    return Span(first, photo.when.latest)


def _others(photo: Photo, said: Span, timezone: str) -> dict[str, list[Stamp]]:
    """Believed dates of the file that the photograph's own cannot be, by the day they give."""
    spans = {stamp: possible_days(stamp, timezone) for stamp in photo.stamps if not stamp.doubt}
    # Where the camera dates it, the satellites need only agree with the camera's clock, whose zone may be unknown.
    also = [span for stamp, span in spans.items() if stamp.kind == "taken" and span and photo.dated_by == "camera"]
    allowed = [said, *(span for span in also if meet(span, said))]
    unlike: dict[str, list[Stamp]] = {}
    for stamp, days in spans.items():
        if stamp.kind == "digitised" or days is None or any(meet(days, span) for span in allowed):
            continue
        if not _is_a_copy(photo, stamp, said):
            unlike.setdefault(stamp.day, []).append(stamp)
    return unlike


def _is_a_copy(photo: Photo, stamp: Stamp, said: Span) -> bool:
    """Whether the file is younger than the photograph because paper or film was copied."""
    days = possible_days(stamp)
    if said.last is None or days is None or days.first is None or days.first < said.last:
        return False
    return photo.dated_by in _ON_PAPER or (said.last.year < _DIGITAL_FROM and photo.made_by != "camera")


def _by_timing(photo: Photo, chronology: TreeChronology) -> tuple[Span, str]:
    """The days that the photograph's timing leaves open (`at_most` apart), and in words what they are reckoned from."""
    firsts: list[date] = []
    lasts: list[date] = []
    words = []
    for timing in photo.timing:
        here = timing.other.accession in (None, chronology.accession)
        event = chronology.event(timing.other.event) if here and timing.other.event else None
        if event is None:
            continue
        lapse = timing.at_least
        if timing.relation == "after" and event.bounds.earliest is not None:
            then = event.bounds.earliest
            firsts.append((add(then, lapse) if lapse else then) or date.max)
        if timing.relation == "before" and event.bounds.latest is not None:
            then = event.bounds.latest
            lasts.append((latest_before(then, lapse) if lapse else then) or date.min)
        words.append(f"{timing.relation} “{event.id}” ({_days(event.bounds.earliest, event.bounds.latest)})")
    span = Span(max(firsts, default=None), min(lasts, default=None))
    return span, listed(words) if words else ""


def _days(first: date | None, last: date | None) -> str:
    return str(first) if first == last else f"{first or '…'} to {last or '…'}"


def _within(inner: Span, outer: Span) -> bool:
    return (
        inner.first is not None
        and inner.last is not None
        and (outer.first is None or outer.first <= inner.first)
        and (outer.last is None or inner.last <= outer.last)
    )


def _by(photo: Photo) -> str:
    return f" ({photo.dated_by})" if photo.dated_by else ""


def _gives(stamps: list[Stamp]) -> str:
    return "gives" if len({stamp.field for stamp in stamps}) == 1 else "give"


def _camera(stamps: list[Stamp]) -> str:
    return " with `dated_by: camera`" if any(stamp.kind == "taken" for stamp in stamps) else ""
