"""Who taught whom, of the whole collection: line by line, the largest first, and an index of all names."""

from __future__ import annotations

from dataclasses import dataclass

from archive_tools.model.lineage import TeachingTie
from archive_tools.model.page import Page
from archive_tools.model.teaching_lines import Branch, LineOfTeaching, lines_of_teaching
from archive_tools.publish.addresses import anchor
from archive_tools.publish.citations import cited
from archive_tools.publish.context import Context, Named, root_of
from archive_tools.publish.drawings import set_drawing
from archive_tools.publish.event_words import grade_word
from archive_tools.publish.names_index import Letter, by_letter
from archive_tools.publish.steward_entries import lesson_years, years_of

PATH = "teaching/index.md"
OPEN = 24
"""So many people lie open on the page: the lines after them are folded."""


@dataclass(frozen=True, slots=True)
class TieRow:
    """One lesson in the table. `anchor`: the id of the pupil's place, at their first row; "" at the others.
    `teacher_anchor`: the same of a teacher who is nobody's pupil.
    """

    teacher: Named
    pupil: Named
    years: str
    grade: str
    sources: str
    anchor: str
    teacher_anchor: str


@dataclass(frozen=True, slots=True)
class DrawnBranch:
    """One branch: whose it is, and the drawing of it."""

    name: str
    drawing: str


@dataclass(frozen=True, slots=True)
class TaughtLine:
    """One line: its head, how large it is, the drawings of its branches, and its table."""

    name: str
    anchor: str
    said: str
    is_open: bool
    branches: tuple[DrawnBranch, ...]
    ties: tuple[TieRow, ...]


@dataclass(frozen=True, slots=True)
class NameRow:
    """One name of the index: the page of the person, and the anchor of their place in a line."""

    named: Named
    anchor: str


def teaching_pages(context: Context) -> tuple[Page, ...]:
    """The page, if anybody taught anybody of whom the edition may tell."""
    _ = context.translations.gettext
    lines = lines_of_teaching(context.view.findings.teaching)
    if not lines:
        return ()
    told: list[TaughtLine] = []
    people = 0
    for line in lines:
        people += len(line.people)
        told.append(_line(context, line, is_open=not told or people <= OPEN))
    names = [(_filed(context, one), NameRow(context.steward(one), _place(context, one)))
             for line in lines for one in line.people]  # fmt: skip
    letters: tuple[Letter[NameRow], ...] = by_letter(names)
    body = context.render(
        "teaching.html",
        PATH,
        lines=told,
        letters=letters,
        people=people,
        counted=_counted(context, people, len(lines)),
        key=_key(context, told),
    )
    return (Page(PATH, _("Who taught whom"), body, "stewards", _("Teachers and pupils."), language=context.language),)


def _counted(context: Context, people: int, lines: int) -> str:
    ngettext, _ = context.translations.ngettext, context.translations.gettext
    said = ngettext("%(n)s person", "%(n)s people", people) % {"n": people}
    if lines == 1:
        return _("A teacher or a pupil is known of %(people)s, in one line.") % {"people": said}
    return _("A teacher or a pupil is known of %(people)s, in %(lines)s lines.") % {"people": said, "lines": lines}


def _line(context: Context, line: LineOfTeaching, *, is_open: bool) -> TaughtLine:
    root = root_of(PATH)
    pupils = {tie.pupil for tie in line.ties}
    seen: set[str] = set()
    rows = []
    for tie in line.ties:
        placed = [
            one for one in (tie.pupil, tie.teacher) if one not in seen and (one == tie.pupil or one not in pupils)
        ]
        rows.append(_tie(context, tie, placed))
        seen.update(placed)
    return TaughtLine(
        context.steward(line.head).name,
        f"line-{anchor(context.steward_addresses.get(line.head, 'x'))}",
        _size(context, line),
        is_open,
        tuple(_branch(context, branch, root) for branch in line.branches),
        tuple(rows),
    )


def _branch(context: Context, branch: Branch, root: str) -> DrawnBranch:
    svg = context.pictures.teaching_diagrams.get(branch.head, "")
    return DrawnBranch(context.steward(branch.head).name, set_drawing(context, svg, root))


def _size(context: Context, line: LineOfTeaching) -> str:
    ngettext, _ = context.translations.ngettext, context.translations.gettext
    people = ngettext("%(n)s person", "%(n)s people", len(line.people)) % {"n": len(line.people)}
    generations = ngettext("%(n)s generation", "%(n)s generations", line.generations) % {"n": line.generations}
    days = [bounds for tie in line.ties for bounds in (tie.start, tie.end) if bounds is not None and bounds.known]
    parts = [people, generations, years_of(context, days) if days else ""]
    return ", ".join(part for part in parts if part)


def _tie(context: Context, tie: TeachingTie, placed: list[str]) -> TieRow:
    return TieRow(
        context.steward(tie.teacher),
        context.steward(tie.pupil),
        lesson_years(context, tie),
        grade_word(tie.grade, context.translations.gettext),
        cited(context, tie.sources),
        _place(context, tie.pupil) if tie.pupil in placed else "",
        _place(context, tie.teacher) if tie.teacher in placed and tie.teacher != tie.pupil else "",
    )


def _place(context: Context, steward_id: str) -> str:
    """The id of somebody's place in the table of their line."""
    return f"who-{anchor(context.steward_addresses.get(steward_id, 'x'))}"


def _filed(context: Context, steward_id: str) -> str:
    steward = context.records.stewards.get(steward_id)
    return steward_id if steward is None else steward.sorts_as


def _key(context: Context, lines: list[TaughtLine]) -> tuple[str, ...]:
    _ = context.translations.gettext
    drawn = "".join(branch.drawing for line in lines for branch in line.branches)
    signs = (
        ('class="held"' in drawn, _("A bar: the years of being taught.")),
        ('class="with"' in drawn, _("A thin line: the years in which the records tell of somebody.")),
        (' said"' in drawn, _("A broken tie is told, and not documented at the time.")),
        ('fill="url(#' in drawn, _("A soft end is a vague date.")),
    )
    return tuple(sentence for is_shown, sentence in signs if is_shown)
