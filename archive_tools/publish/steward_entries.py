"""The entries of a steward's page: a line for each tree held, made, styled or worked on, each thing, each lesson."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from archive_tools.model.event import Citation
from archive_tools.model.findings import Bounds, CustodyPeriod, Hand, Presence
from archive_tools.model.grades import Grade
from archive_tools.model.lineage import StewardLine, TeachingTie, TreeHeld
from archive_tools.publish.came_and_went import came_words, went_words
from archive_tools.publish.citations import cited
from archive_tools.publish.context import Context, Named
from archive_tools.publish.event_words import grade_word, kind_words

FEW = 9
"""So many entries are told one below the other; more are folded, decade by decade."""

MANY = 200
"""Of more trees than these an entry is the name and the years: the tree's own page tells the rest."""
FEW_SOURCES = 3
"""Of more citations than these a line names the sources alone."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One line. `first` is the day it is filed by; `evidence` says the grade and the sources."""

    named: Named
    years: str
    words: str
    evidence: str
    number: str = ""
    first: date = date.max


@dataclass(frozen=True, slots=True)
class Decade:
    """Entries of one decade, with the words of its fold: "The 1980s", "10 trees"."""

    title: str
    said: str
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class Entries:
    """One part of the page: its head, and its entries as they are or, where they are many, by decades."""

    key: str
    title: str
    entries: tuple[Entry, ...]
    decades: tuple[Decade, ...] = ()
    said: str = ""
    """How many trees, things or people there are, where they are folded."""


def entries_of(context: Context, line: StewardLine) -> tuple[Entries, ...]:
    """All parts of which there is something to tell, in the order in which a catalogue tells them."""
    _ = context.translations.gettext
    parts = (
        ("held", _("Held"), [_held(context, one, is_brief=len(line.held) > MANY) for one in line.held]),
        ("made", _("Made"), _worked(context, [(w.tree, w.hand) for w in line.made])),
        ("styled", _("Styled"), _worked(context, [(w.tree, w.hand) for w in line.styled])),
        ("worked", _("Worked on"), _worked(context, [(w.tree, w.hand) for w in line.worked])),
        ("present", _("Was present"), _worked(context, [(s.tree, s.presence) for s in line.present])),
        ("things", _("Pots and other things"), _things(context, line)),
        ("teachers", _("Taught by"), [lesson(context, tie, tie.teacher) for tie in line.teachers]),
        ("pupils", _("Taught"), [lesson(context, tie, tie.pupil) for tie in line.pupils]),
    )
    return tuple(_part(context, key, title, found) for key, title, found in parts if found)


def _part(context: Context, key: str, title: str, found: Sequence[Entry]) -> Entries:
    in_time = tuple(sorted(found, key=lambda entry: entry.first))
    if len(in_time) <= FEW:
        return Entries(key, title, in_time)
    return Entries(key, title, in_time, _decades(context, key, in_time), _counted(context, key, in_time))


def _counted(context: Context, key: str, entries: Sequence[Entry]) -> str:
    """How many different trees, things or people these are."""
    ngettext = context.translations.ngettext
    n = len({entry.number or entry.named for entry in entries})
    if key == "things":
        return ngettext("%(n)s thing", "%(n)s things", n) % {"n": n}
    if key in ("teachers", "pupils"):
        return ngettext("%(n)s person", "%(n)s people", n) % {"n": n}
    return ngettext("%(n)s tree", "%(n)s trees", n) % {"n": n}


def _decades(context: Context, key: str, entries: Sequence[Entry]) -> tuple[Decade, ...]:
    _ = context.translations.gettext
    by_decade: dict[int, list[Entry]] = {}
    for entry in entries:
        by_decade.setdefault(entry.first.year // 10 * 10, []).append(entry)
    undated = date.max.year // 10 * 10
    return tuple(
        Decade(
            _("Without a date") if year == undated else _("The %(year)ss") % {"year": year},
            _counted(context, key, those),
            tuple(those),
        )
        for year, those in by_decade.items()
    )


def _held(context: Context, held: TreeHeld, *, is_brief: bool) -> Entry:
    if is_brief:
        period = held.period
        named, years = context.tree_named(held.tree), held_years(context, period)
        return Entry(named, years, "", "", held.tree, _filed(period.start, period.end))
    custody = context.view.findings.custodies.get(held.tree)
    periods = custody.periods if custody is not None else (held.period,)
    at = periods.index(held.period) if held.period in periods else 0
    return Entry(
        context.tree_named(held.tree),
        held_years(context, held.period),
        _sentences(came_words(context, periods, at), went_words(context, periods, at)),
        evidence(context, held.period.grade, held.period.sources),
        held.tree,
        _filed(held.period.start, held.period.end),
    )


def held_years(context: Context, period: CustodyPeriod) -> str:
    """Like "1954 to 1978", "since 1979", "until 1978"."""
    return from_to(context, period.start, period.end)


def from_to(context: Context, start: Bounds, end: Bounds | None) -> str:
    """Like "1954 to 1978", "since 1979", "until 1978"; `end` None means that it lasts."""
    _ = context.translations.gettext
    first = context.dates.bounds(start)
    if end is None:
        return _("since %(date)s") % {"date": first} if first else _("to this day")
    last = context.dates.bounds(end)
    if first and last and first != last:
        return _("%(start)s to %(end)s") % {"start": first, "end": last}
    if last and not first:
        return _("until %(date)s") % {"date": last}
    return first


def _worked(context: Context, works: Sequence[tuple[str, Hand | Presence]]) -> list[Entry]:
    """An entry a tree, with everything of one sort that was done to it."""
    by_tree: dict[str, list[Hand | Presence]] = {}
    for tree, work in works:
        by_tree.setdefault(tree, []).append(work)
    return [_work(context, tree, done, is_brief=len(by_tree) > MANY) for tree, done in by_tree.items()]


def _work(context: Context, tree: str, done: Sequence[Hand | Presence], *, is_brief: bool) -> Entry:
    days = [work.bounds for work in done]
    return Entry(
        context.tree_named(tree),
        years_of(context, days),
        "" if is_brief else _sentences(work_words(context, done)),
        "" if is_brief else _evidence_of(context, done),
        tree,
        min(_filed(day, None) for day in days),
    )


def years_of(context: Context, days: Sequence[Bounds]) -> str:
    """From the first to the last of several dates: "1957–1974", "1991"."""
    firsts = [day.earliest for day in days if day.earliest is not None]
    lasts = [day.latest for day in days if day.latest is not None]
    if not firsts or not lasts:
        return context.dates.bounds(days[0])
    return context.dates.bounds(Bounds(min(firsts), max(lasts)))


def work_words(context: Context, done: Sequence[Hand | Presence]) -> str:
    """What was done, each kind once with its year, or with how often: "Styled 1991, bent 1991, repotted 3 times"."""
    _ = context.translations.gettext
    words = kind_words(_)
    by_kind: dict[str, list[Hand | Presence]] = {}
    for work in done:
        by_kind.setdefault(work.kind, []).append(work)
    said = []
    for kind, works in by_kind.items():
        word = words.get(kind, kind)
        word = word[:1].lower() + word[1:]
        year = context.dates.bounds(works[0].bounds)
        if len(works) == 2:
            word = _("%(work)s twice") % {"work": word}
        elif len(works) > 2:
            word = _("%(work)s %(n)s times") % {"work": word, "n": len(works)}
        elif year and len(by_kind) > 1:
            word = f"{word} {year}"
        said.append(word)
    told = ", ".join(said)
    return told[:1].upper() + told[1:]


def _things(context: Context, line: StewardLine) -> list[Entry]:
    found = []
    for one in line.objects:
        thing = context.view.findings.objects.get(one)
        for at, period in enumerate(thing.periods if thing is not None else ()):
            if thing is not None and line.steward in period.holders:
                found.append(
                    Entry(
                        context.thing(one),
                        held_years(context, period) if period.start.known or period.end else "",
                        _sentences(came_words(context, thing.periods, at), went_words(context, thing.periods, at)),
                        evidence(context, period.grade, period.sources),
                        first=_filed(period.start, period.end),
                    )
                )
    return found


def lesson(context: Context, tie: TeachingTie, other: str) -> Entry:
    """One who taught or was taught, with the years, the sources and the grade."""
    return Entry(
        context.steward(other),
        lesson_years(context, tie),
        "",
        evidence(context, tie.grade, tie.sources),
        first=_filed(tie.start or tie.end or Bounds(), None),
    )


def lesson_years(context: Context, tie: TeachingTie) -> str:
    """From when to when, as it is written: "1974 to 1979", "from about 2010", "until 1990"; "" where nothing is."""
    _ = context.translations.gettext
    if tie.from_ is not None and tie.until is None:
        return _("from %(date)s") % {"date": context.dates.when(tie.from_)}
    if tie.from_ is not None or tie.until is not None:
        return context.dates.until(tie.from_, tie.until)
    if tie.start is None and tie.end is None:
        return ""
    return from_to(context, tie.start or Bounds(), tie.end or Bounds())


def evidence(context: Context, grade: Grade, sources: Iterable[Citation]) -> str:
    """Like "Documented. Bench book of Halvard Quist, leaf 61"."""
    said = cited(context, sources)
    word = grade_word(grade, context.translations.gettext)
    return f"{word}. {said}" if said else word


def _evidence_of(context: Context, done: Sequence[Hand | Presence]) -> str:
    """The grade of several pieces of work, and what they rest on: of many, the sources without the leaves in them."""
    _ = context.translations.gettext
    sources = [source for work in done for source in work.sources]
    if len(sources) > FEW_SOURCES:
        sources = [replace(source, at=None) for source in sources]
    firm, weak = min(work.grade for work in done), max(work.grade for work in done)
    if firm is weak:
        return evidence(context, firm, sources)
    words = {"firm": grade_word(firm, _), "weak": grade_word(weak, _)}
    graded = _("%(firm)s; some of it: %(weak)s") % {**words, "weak": words["weak"][:1].lower() + words["weak"][1:]}
    said = cited(context, sources)
    return f"{graded}. {said}" if said else graded


def _sentences(*parts: str) -> str:
    return " ".join(f"{part}." for part in parts if part)


def _filed(start: Bounds, end: Bounds | None) -> date:
    days = [start.earliest, start.latest, end.earliest if end else None, end.latest if end else None]
    return next((day for day in days if day is not None), date.max)
