"""When a picture was taken: as mapped, by its file name or its camera, and what else in it speaks for or against that.

A date that a person or a program wrote into the file, or the satellites', is told and never taken unasked: only the
curator knows what it is the date of. The day of a scan dates nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from archive_tools.model.dates import DatePolicy, DateProblem, Span, WhenWritten
from archive_tools.model.stamps import meet, possible_days
from archive_tools.read.edtf_text import read_date
from archive_tools.sort_in.facts import MappingRow, Picture, listed
from archive_tools.sort_in.name_dates import NameDate, date_in_stem, unclear_in_stem
from archive_tools.sort_in.names import Days

_ON_PAPER = frozenset({"print", "lab stamp", "negative sleeve", "caption on back", "publication", "postmark"})
"""What dates a photograph that is a thing of paper or film: its file is younger."""
NOTHING = "nothing dates it: no camera, no file name, no mapping"


@dataclass(frozen=True, slots=True)
class Dated:
    """The date to be written (EDTF; None: none is known), what it rests on, and what the curator should know."""

    text: str | None
    by: str | None
    told: tuple[str, ...] = ()


def dated(
    picture: Picture, row: MappingRow | None, numbers: Sequence[str], policy: DatePolicy, timezone: str = "UTC"
) -> Dated:
    """The date of what a picture shows. numbers: of trees, in its file name. timezone: where the collection is."""
    said = dict(row.entry) if row is not None else {}
    taken = picture.taken[:10] if picture.taken else None
    doubt = (picture.doubt,) if picture.doubt else ()
    if isinstance(said.get("date"), str):
        text, by = str(said["date"]), said.get("dated_by")
        against = () if by in _ON_PAPER else _against(picture, _span(text, policy), timezone)
        return Dated(text, by if isinstance(by, str) else None, against)
    stem = picture.file.rpartition("/")[2].rpartition(".")[0]
    named = date_in_stem(stem, numbers, policy)
    if named is not None and not named.of_scan and not _is_echo(named.when, picture):
        when = named.when
        span = Span(when.earliest, when.latest)
        fits = taken is not None and when.said.holds(date.fromisoformat(taken))
        if taken is None or not (fits or named.by_clock or stem.isdigit()):
            sent = ("the name is that of a picture sent on: it may be older than the day of sending",)
            by_hand = (f"the camera says {taken}, the file name {when.text}: the name was given by hand",)
            told = (*(by_hand if taken else ()), *(sent if named.sent else ()), *doubt)
            return Dated(when.text, "file name", (*told, *(() if taken else _against(picture, span, timezone))))
    if taken is not None:
        return Dated(taken, "camera", (*doubt, *_against(picture, Span(*_day(taken)), timezone, by_camera=True)))
    return Dated(None, None, tuple(_undated(picture, stem, named, policy)))


def days_of(found: Dated, policy: DatePolicy) -> Days | None:
    """Between which days a picture was taken, as far as its date tells."""
    if found.text is None:
        return None
    try:
        when = read_date(found.text, policy)
    except DateProblem:
        return None
    return (when.earliest or date.min, when.latest or date.max)


def _undated(picture: Picture, stem: str, named: NameDate | None, policy: DatePolicy) -> Iterator[str]:
    """Why there is no date, and what might be one."""
    if picture.doubt:
        yield picture.doubt
    if named is not None and named.of_scan:
        yield f"the file name speaks of a scan: {named.when.text} is taken for its day, which dates no photograph"
    elif named is not None:
        yield f"the file name only repeats a day in the file that is not the photograph's ({named.when.text})"
    elif picture.scanned:
        yield f"it was digitised on {picture.scanned}, which does not date the photograph"
    elif not picture.doubt:
        yield NOTHING
    hints = [
        f"its {stamp.field} gives {stamp.day}"
        for stamp in picture.stamps
        if stamp.kind in ("gps", "created") and not stamp.doubt
    ]
    unclear = unclear_in_stem(stem)
    folders = picture.file.split("/")[:-1]
    found = next((at for one in reversed(folders) if (at := date_in_stem(one, (), policy)) is not None), None)
    if hints:
        yield f"{listed(list(dict.fromkeys(hints)))}: a `date` in the mapping file, if that is right"
    elif unclear:
        yield f"{unclear} as `date` in the mapping file"
    elif found is not None:
        yield f"a folder's name gives {found.when.text}: a `date` in the mapping file, if that is right"


def _is_echo(when: WhenWritten, picture: Picture) -> bool:
    return when.one_day is not None and when.one_day.isoformat() in picture.not_its_days


def _against(picture: Picture, said: Span, timezone: str, by_camera: bool = False) -> tuple[str, ...]:
    """What in the file cannot be of the days that the picture is dated to."""
    spans = [(one, possible_days(one, timezone)) for one in picture.stamps if not one.doubt and one.kind != "digitised"]
    # A camera's clock may show the time of another zone than the satellites are compared in.
    allowed = [said, *(span for one, span in spans if by_camera and one.kind == "taken" and span)]
    unlike = [one for one, span in spans if span is not None and not any(meet(span, other) for other in allowed)]
    return tuple(dict.fromkeys(f"its {one.field} gives {one.day}: one of the two dates is wrong" for one in unlike))


def _span(text: str, policy: DatePolicy) -> Span:
    try:
        when = read_date(text, policy)
    except DateProblem:
        return Span(None, None)
    return Span(when.earliest, when.latest)


def _day(text: str) -> tuple[date, date]:
    day = date.fromisoformat(text)
    return day, day
