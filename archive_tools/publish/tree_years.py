"""The years of a tree: photographs, events and silences on one line, and every event in a table."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from archive_tools.model.event import Event
from archive_tools.model.findings import TreeChronology
from archive_tools.model.grades import Grade
from archive_tools.model.kinds import KINDS, Group
from archive_tools.model.photo import Photo
from archive_tools.model.tree import Tree
from archive_tools.publish.citations import cited
from archive_tools.publish.context import Context, Named
from archive_tools.publish.event_words import grade_word, kind_beside, kind_said, title_of, where_said
from archive_tools.publish.photographs import Shot, caution, credit, portrait_photo, shot, shown
from archive_tools.publish.prose import as_text

ALWAYS = frozenset({Group.BEGINNING, Group.PLANTING, Group.CUSTODY, Group.END, Group.HARM, Group.TRAVEL})
"""Groups of events that always stand on the line of years; other work does when it has a title of its own."""

MARKED = frozenset({"styled", "front changed", "demonstrated", "exhibited"})
"""Kinds that change what visitors see, or that visitors saw; they stand on the line as well."""

ON_SHEET = 10
PICTURES_ON_SHEET = 5
WEIGHTS = {Group.BEGINNING: 5, Group.CUSTODY: 4, Group.PLANTING: 4, Group.END: 4, Group.HARM: 2, Group.TRAVEL: 2}


@dataclass(frozen=True, slots=True)
class YearFrame:
    """One frame. `sort` is "picture", "word" or "quiet"; `year` is "" where the frame before bears the same year.
    `credit` is that of a picture.

    The printed sheet has room for ten: `weight` says which go first, `on_sheet` whether this one is among them.
    """

    sort: str
    year: str
    text: str
    caption: str
    shot: Shot | None = None
    grade: str = ""
    weight: int = 0
    on_sheet: bool = True
    credit: str = ""

    @property
    def told(self) -> str:
        """Caption and credit, as one text."""
        return ". ".join(part.rstrip(".") for part in (self.caption, self.credit) if part)


@dataclass(frozen=True, slots=True)
class EventRow:
    """One event in the table."""

    when: str
    what: str
    detail: str
    who: tuple[Named, ...]
    sources: str
    grade: str
    mark: str = ""


@dataclass(frozen=True, slots=True)
class YearsPart:
    """The strip and the table, with the first and the last year shown."""

    frames: tuple[YearFrame, ...]
    rows: tuple[EventRow, ...]
    first: str
    last: str
    band: str = ""
    band_words: str = ""


def years_part(context: Context, tree: Tree) -> YearsPart | None:
    """The years of a tree, or None where there is neither a photograph nor an event."""
    chronology = context.view.findings.chronologies.get(tree.accession)
    past = _past(tree)
    dated = [(day, 0, frame) for day, frame in happenings(context, tree)]
    for photo in shown(context, tree):
        if photo.when is not None and (first := photo.when.said.first or photo.when.said.last) is not None:
            dated.append((first, 1, _picture_frame(context, tree, photo)))
    if chronology is not None:
        dated += [(quiet.start, 2, _quiet_frame(context, quiet.start, quiet.end)) for quiet in chronology.quiet]
    dated.sort(key=lambda item: item[:2])
    rows = tuple(_row(context, event) for event in sorted(past, key=lambda e: _day(chronology, e) or date.max))
    if not dated and not rows:
        return None
    frames = _years_once(_for_sheet([frame for _, _, frame in dated]))
    years = [context.dates.years(day, day) for day, _, _ in dated]
    band = context.pictures.evidence_bands.get(tree.accession)
    return YearsPart(
        frames,
        rows,
        years[0] if years else "",
        years[-1] if years else "",
        band.svg if band else "",
        " ".join(band.sentences) if band else "",
    )


def happenings(context: Context, tree: Tree) -> list[tuple[date, YearFrame]]:
    """What happened to a tree that stands on its line of years, each with the first day it can have been on."""
    chronology = context.view.findings.chronologies.get(tree.accession)
    dated = ((_day(chronology, event), event) for event in _past(tree) if _on_the_line(event))
    found = [(day, _word_frame(context, tree, event)) for day, event in dated if day is not None]
    return sorted(found, key=lambda item: item[0])


def _past(tree: Tree) -> list[Event]:
    return [event for event in tree.events if not event.planned and event.kind in KINDS]


def _on_the_line(event: Event) -> bool:
    return KINDS[event.kind].group in ALWAYS or event.kind in MARKED or event.title is not None or bool(event.award)


def _day(chronology: TreeChronology | None, event: Event) -> date | None:
    found = chronology.event(event.id) if chronology else None
    if found is not None and found.bounds.known:
        return found.bounds.earliest or found.bounds.latest
    return (event.when.said.first or event.when.said.last) if event.when else None


def _word_frame(context: Context, tree: Tree, event: Event) -> YearFrame:
    text = title_of(context, event)
    kind = kind_beside(context, event)
    told = [kind] if kind else []
    if event.by:
        told.append(context.names(event.by))
    if (place := where_said(context, event)) and event.kind in {"demonstrated", "exhibited", "styled"}:
        told.append(place)
    caption = ". ".join(told)
    return YearFrame("word", context.dates.year(event.when), as_text(context, text, tree.accession), caption,
                     grade=_doubt(context, event),
                     weight=3 if event.kind == "styled" else WEIGHTS.get(KINDS[event.kind].group, 1))  # fmt: skip


def _doubt(context: Context, event: Event) -> str:
    """A grade below documented, which the line says aloud; "" for what is documented."""
    word = grade_word(event.standing, context.translations.gettext)
    return "" if event.standing is Grade.DOCUMENTED else word


def _picture_frame(context: Context, tree: Tree, photo: Photo) -> YearFrame:
    made = shot(context, tree, photo)
    caption = as_text(context, photo.caption, tree.accession)
    if not caption and portrait_photo(context, tree) is photo:
        caption = context.translations.gettext("The portrait")
    # A mark of doubt beside the year is not words.
    spelt_out = photo.when and (photo.when.uncertain or photo.when.precision in {"month", "season"})
    when = context.dates.when(photo.when) if spelt_out else ""
    when = f"{when[:1].upper()}{when[1:]}"
    told = ". ".join(part.rstrip(".") for part in (caution(context, photo), when, caption) if part)
    return YearFrame("picture", made.year, "", told, shot=made, credit=credit(context, photo))


def _quiet_frame(context: Context, start: date, end: date) -> YearFrame:
    _ = context.translations.gettext
    years = context.dates.years(start, end)
    return YearFrame("quiet", years, "", _("Quiet years: nothing is known"))


def _years_once(frames: list[YearFrame]) -> tuple[YearFrame, ...]:
    said: list[YearFrame] = []
    last = ""
    for frame in frames:
        said.append(replace(frame, year="") if frame.year == last else frame)
        last = frame.year or last
    return tuple(said)


def _for_sheet(frames: list[YearFrame]) -> list[YearFrame]:
    """The frames, those marked that the printed sheet shows: pictures spread over the years, then what weighs most."""
    pictures = [at for at, frame in enumerate(frames) if frame.sort == "picture"]
    some = min(PICTURES_ON_SHEET, len(pictures))
    chosen = {pictures[round(n * (len(pictures) - 1) / max(some - 1, 1))] for n in range(some)}
    others = sorted((at for at in range(len(frames)) if at not in chosen), key=lambda at: (-frames[at].weight, at))
    chosen.update(others[: ON_SHEET - len(chosen)])
    return [replace(frame, on_sheet=at in chosen) for at, frame in enumerate(frames)]


def _detail(context: Context, event: Event) -> str:
    """The event's own title and text, as references in it read."""
    title, text = (as_text(context, words, event.tree) for words in (event.title, event.text))
    return f"{title.rstrip('.')}. {text}" if title and text else title or text


def _row(context: Context, event: Event) -> EventRow:
    return EventRow(
        when=context.dates.until(event.when, event.until) or context.translations.gettext("not dated"),
        what=kind_said(context, event),
        detail=_detail(context, event),
        who=context.stewards(event.by),
        sources=cited(context, event.sources),
        grade=grade_word(event.standing, context.translations.gettext),
        mark="" if context.is_public else str(event.where.at()),
    )
