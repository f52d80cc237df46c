"""The film of a tree: its photographs from one side, the oldest first, to be looked through in one place."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from archive_tools.model.photo import Photo
from archive_tools.model.pictures import CutPicture, StripFrame, YearsStrip
from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context
from archive_tools.publish.number_words import number_in_words
from archive_tools.publish.photographs import Shot, caution, credit, shot
from archive_tools.publish.prose import as_text
from archive_tools.publish.tree_years import YearFrame, happenings

LENGTH = 1000
"""The line of years is so many steps long; a photograph stands on it where its day lies between the first and last."""
MOST_BETWEEN = 3
"""So many of the things that happened since the photograph before are told beside one."""
LETTER_ON_PHONE, LETTER = 32, 13
"""Steps on the line that a letter of a year takes, on the narrowest screens and on those of a tablet and wider."""


@dataclass(frozen=True, slots=True)
class FilmFrame:
    """One photograph. `at` is its step on the line of years, `note` whatever its being shown here calls for, `before`
    what happened between the photograph before and this one.
    """

    shot: Shot
    at: int
    year: str
    when: str
    caption: str
    note: str = ""
    aligned: bool = True
    before: str = ""


@dataclass(frozen=True, slots=True)
class YearMark:
    """A year written under the line at a step. `side` is "first", "last" or "" for what lies between; where the line
    is short, a `minor` one finds no room.
    """

    at: int
    year: str
    side: str
    minor: bool


@dataclass(frozen=True, slots=True)
class Film:
    """One side of a tree through the years. `ratio` is width over height of the frames that lie on each other."""

    view: str
    title: str
    how: str
    frames: tuple[FilmFrame, ...]
    ratio: float
    marks: tuple[YearMark, ...]


def films_of(context: Context, tree: Tree) -> tuple[Film, ...]:
    """The films of a tree, the front first; none where there are too few dated photographs of one side."""
    found = (_film(context, tree, strip) for strip in context.pictures.strips.get(tree.accession, ()))
    return tuple(film for film in found if film is not None)


def _film(context: Context, tree: Tree, strip: YearsStrip) -> Film | None:
    photos = [(frame, photo) for frame in strip.frames if (photo := tree.photo(frame.file)) and photo.when]
    days = [_day(photo) for _, photo in photos]
    if len(photos) < 2:
        return None
    # Where none lies in another's frame, that is said once, above, and not beside every picture.
    others = sum(frame.aligned for frame, _ in photos) >= 2
    between = _between(context, days, happenings(context, tree))
    frames = tuple(
        _frame(context, tree, frame, photo, at, others, before)
        for (frame, photo), at, before in zip(photos, _places(days), between, strict=True)
    )  # fmt: skip
    lying = next((frame for frame in frames if frame.aligned), frames[-1])
    return Film(
        strip.view,
        _title(context, strip.view),
        _how(context, frames),
        frames,
        lying.shot.ratio,
        _year_marks(frames),
    )


def _frame(
    context: Context, tree: Tree, frame: StripFrame, photo: Photo, at: int, others: bool, before: str
) -> FilmFrame:
    _ = context.translations.gettext
    whole = shot(context, tree, photo) if photo.path in context.pictures.photos else None
    laid = Shot(CutPicture((frame.cut,)), whole.alt if whole else context.tree_name(tree))
    caption = as_text(context, photo.caption, tree.accession)
    told = ". ".join(part.rstrip(".") for part in (caution(context, photo), caption, credit(context, photo)) if part)
    return FilmFrame(
        # What is not laid into the common frame may be sharper than the frames are.
        shot=laid if frame.aligned or whole is None else whole,
        at=at,
        year=context.dates.year(photo.when),
        when=context.dates.when(photo.when),
        caption=f"{told}." if told else "",
        note="" if frame.aligned or not others else _("As it was taken, not to the scale of the others."),
        aligned=frame.aligned,
        before=before,
    )


def _between(context: Context, days: list[date], happened: list[tuple[date, YearFrame]]) -> list[str]:
    """For each photograph what weighs most of all that happened since the one before, in the order of time."""
    _ = context.translations.gettext
    told: list[str] = []
    for number, day in enumerate(days):
        since = days[number - 1] if number else date.min
        events = [frame for when, frame in happened if since < when <= day]
        heaviest = sorted(range(len(events)), key=lambda at: (-events[at].weight, at))[:MOST_BETWEEN]
        said = "; ".join(_told(events[at]) for at in sorted(heaviest))
        sentence = _("Since the photograph before: %(events)s.") if number else _("Before this: %(events)s.")
        told.append(sentence % {"events": said} if said else "")
    return told


def _told(event: YearFrame) -> str:
    """An event with its year, and its grade where it is less than documented."""
    said = f"{event.year} {event.text}".strip().rstrip(".")
    return f"{said} ({event.grade[:1].lower()}{event.grade[1:]})" if event.grade else said


def _year_marks(frames: tuple[FilmFrame, ...]) -> tuple[YearMark, ...]:
    """The first and the last year, and those between them that no other covers."""
    marks = [
        YearMark(frames[0].at, frames[0].year, "first", False),
        YearMark(frames[-1].at, frames[-1].year, "last", False),
    ]
    for minor, letter in ((False, LETTER_ON_PHONE), (True, LETTER)):
        for frame in frames[1:-1]:
            mark = YearMark(frame.at, frame.year, "", minor)
            if all(_apart(mark, other, letter) for other in marks):
                marks.append(mark)
    return tuple(sorted(marks, key=lambda mark: mark.at))


def _apart(one: YearMark, other: YearMark, letter: int) -> bool:
    """Whether two years stand at least two letters from each other."""
    earlier, later = sorted((_reach(one, letter), _reach(other, letter)))
    return earlier[1] + 2 * letter <= later[0]


def _reach(mark: YearMark, letter: int) -> tuple[float, float]:
    wide = len(mark.year) * letter
    left = {"first": mark.at, "last": mark.at - wide}.get(mark.side, mark.at - wide / 2)
    return left, left + wide


def _day(photo: Photo) -> date:
    said = photo.when.said if photo.when else None
    return (said.first or said.last if said else None) or date.min


def _places(days: list[date]) -> list[int]:
    """Steps on the line of years, each after the one before, so that every photograph can be stopped at."""
    first, span = days[0].toordinal(), max(days[-1].toordinal() - days[0].toordinal(), 1)
    places: list[int] = []
    for number, day in enumerate(days):
        room_after = LENGTH - (len(days) - 1 - number)
        place = round((day.toordinal() - first) * LENGTH / span)
        places.append(min(max(place, places[-1] + 1 if places else 0), room_after))
    return places


def _title(context: Context, view: str) -> str:
    _ = context.translations.gettext
    titles = {
        "front": _("The years from the front"),
        "back": _("The years from the back"),
        "left": _("The years from the left"),
        "right": _("The years from the right"),
        "top": _("The years from above"),
        "detail": _("The years from near by"),
    }
    return titles.get(view, _("The years in one place"))


def _how(context: Context, frames: tuple[FilmFrame, ...]) -> str:
    """How many photographs, of which years, and what was done to them so that one can follow another."""
    ngettext, _ = context.translations.ngettext, context.translations.gettext
    total, together = len(frames), sum(frame.aligned for frame in frames)
    said = ngettext(
        "%(number)s photograph, %(first)s to %(last)s.", "%(number)s photographs, %(first)s to %(last)s.", total
    )
    many = number_in_words(context, total)
    told = said % {"number": many[:1].upper() + many[1:], "first": frames[0].year, "last": frames[-1].year}
    if together < 2:
        as_taken = _("Each is shown as it was taken.")
        return f"{told} {as_taken}"
    if together == total:
        alike = _("They are brought to one scale and level, and to one brightness.")
        return f"{told} {alike}"
    said = ngettext(
        "%(number)s of them is brought to one scale, level and brightness; what is not says so.",
        "%(number)s of them are brought to one scale, level and brightness; what is not says so.",
        together,
    )
    some = number_in_words(context, together)
    return f"{told} {said % {'number': some[:1].upper() + some[1:]}}"
