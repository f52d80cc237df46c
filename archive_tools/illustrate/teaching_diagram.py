"""Who taught whom: a row a person on one line of years, a tie down from each teacher to each pupil.

Pupils stand below their teachers, so generations go down while time goes to the right. On a phone, and where nothing is
dated, the same is told as an outline: a step to the right for each generation.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from archive_tools.illustrate.across import across
from archive_tools.illustrate.change import Translate
from archive_tools.illustrate.figure import Figure, Row, Strand, Stretch, Tie, middle, moment, stretch_of
from archive_tools.illustrate.period_words import name_of, years
from archive_tools.illustrate.svg_frame import drawing, group, id_part, words
from archive_tools.illustrate.svg_text import NARROW, Run, Text, pixels, wrapped
from archive_tools.illustrate.year_axis import axis_for
from archive_tools.model.active_years import active_ends
from archive_tools.model.findings import Bounds
from archive_tools.model.grades import Grade
from archive_tools.model.lineage import TeachingTie
from archive_tools.model.teaching_lines import Branch, lines_of_teaching
from archive_tools.model.view import EditionView

_STEP, _MOST_STEPS = 18.0, 6
"""Pixels a generation stands further to the right in an outline, and for how many generations it does."""
_NAME, _DATA, _BETWEEN = 23.0, 18.0, 9.0
"""Pixels: a line of a name, one of data, and from one person to the next."""
_Taught = dict[str, list[TeachingTie]]


def teaching_diagrams(view: EditionView, _: Translate = str) -> dict[str, str]:
    """Every branch of every line of teaching, as two SVG elements (see `custody_line`), by the id of its head.

    Links to people are written `steward:` and the id; whoever shows the drawing puts the addresses of pages there.
    """
    lines = lines_of_teaching(view.findings.teaching)
    return {branch.head: _diagram(view, branch, _) for line in lines for branch in line.branches}


def _diagram(view: EditionView, branch: Branch, _: Translate) -> str:
    figure = teaching_figure(view, branch, _)
    outline = _outline(view, branch, figure, _, "upright" if figure.days else "")
    if not figure.days:
        return outline
    return across(figure, axis_for(figure.days, max(figure.days))) + outline


def teaching_figure(view: EditionView, branch: Branch, _: Translate = str) -> Figure:
    """What the diagram shows, before it is laid out."""
    taught = _taught(branch.ties)
    rows = tuple(_row(view, one, taught, branch, _) for one in branch.people)
    place = {one: at for at, one in enumerate(branch.people)}
    ties = []
    for tie in branch.ties:
        day = _day(tie, rows[place[tie.pupil]], view.as_of)
        if day is not None and rows[place[tie.teacher]].days:
            css = "taught" if tie.grade is Grade.DOCUMENTED else "taught said"
            ties.append(Tie(place[tie.teacher], place[tie.pupil], day, css))
    title = _("Who taught whom, from %(name)s on") % {"name": _name(view, branch.head, _)}
    told = _description(view, branch.ties, _)
    return Figure(f"taught-{id_part(branch.head)}", title, told, rows, tuple(ties), linked=True)


def _taught(ties: Sequence[TeachingTie]) -> _Taught:
    found: _Taught = {}
    for tie in ties:
        found.setdefault(tie.pupil, []).append(tie)
    return found


def _row(view: EditionView, one: str, taught: _Taught, branch: Branch, _: Translate) -> Row:
    strands = []
    line = view.findings.stewards.get(one)
    if line is not None:
        start, end = active_ends(line, view.records.stewards.get(one))
        if start.known:
            strands.append(Strand(stretch_of(start, end, view.as_of, view.as_of), "with"))
    strands += [Strand(found, "held") for tie in taught.get(one, ()) if (found := _lesson(tie, view.as_of))]
    return Row("taught-row", _words(view, one, taught, branch, _, is_tied=True), tuple(strands), track=one)


def _lesson(tie: TeachingTie, as_of: date) -> Stretch | None:
    """The years of teaching; an end or a beginning that is not written fades away."""
    if tie.start is not None and tie.start.known:
        end = tie.end if tie.end is not None and tie.end.known else Bounds(tie.start.latest or tie.start.earliest, None)
        return stretch_of(tie.start, end, as_of, as_of)
    if tie.end is not None and tie.end.known:
        return stretch_of(Bounds(None, tie.end.earliest or tie.end.latest), tie.end, as_of, as_of)
    return None


def _day(tie: TeachingTie, pupil: Row, as_of: date) -> date | None:
    for bounds in (tie.start, tie.end):
        if bounds is not None and bounds.known:
            return middle(moment(bounds, as_of))
    return min(pupil.days, default=None)


def _words(
    view: EditionView, one: str, taught: _Taught, branch: Branch, _: Translate, *, is_tied: bool = False
) -> tuple[Run, ...]:
    """The name, and with whom and when they learned; `is_tied`: a tie leads to the first teacher, who is not named."""
    said = [_lesson_words(view, tie, _) for tie in taught.get(one, ())]
    if is_tied and said:
        said[0] = _span(taught[one][0], _)
    said = [words for words in said if words]
    if one in branch.goes_on:
        said.append(_("more came of this line, see below"))
    told = _("; ").join(said)
    return (Run(_name(view, one, _), "who", f"steward:{one}"), *((Run(told),) if told else ()))


def _lesson_words(view: EditionView, tie: TeachingTie, _: Translate) -> str:
    said = {"teacher": _name(view, tie.teacher, _), "years": _span(tie, _)}
    return (_("with %(teacher)s, %(years)s") if said["years"] else _("with %(teacher)s")) % said


def _span(tie: TeachingTie, _: Translate) -> str:
    start = years(tie.start, _) if tie.start is not None else ""
    end = years(tie.end, _) if tie.end is not None else ""
    if start and end:
        return start if start == end else _("%(start)s to %(end)s") % {"start": start, "end": end}
    if start:
        return _("from %(start)s") % {"start": start}
    return _("until %(end)s") % {"end": end} if end else ""


def _name(view: EditionView, one: str, _: Translate) -> str:
    language = view.records.settings.languages[0] if view.records.settings.languages else ""
    return name_of(one, view.records.stewards, language, _)


def _description(view: EditionView, ties: Sequence[TeachingTie], _: Translate) -> str:
    """The drawing in sentences: every teacher with every pupil, the first first."""
    pupils: dict[str, list[str]] = {}
    for tie in ties:
        span = _span(tie, _)
        name = _name(view, tie.pupil, _)
        pupils.setdefault(tie.teacher, []).append(
            _("%(name)s (%(years)s)") % {"name": name, "years": span} if span else name
        )
    return " ".join(
        _("%(teacher)s taught %(pupils)s.") % {"teacher": _name(view, one, _), "pupils": _(", ").join(those)}
        for one, those in pupils.items()
    )


def _outline(view: EditionView, branch: Branch, figure: Figure, _: Translate, css: str) -> str:
    """The branch with a step to the right for each generation, and a line from each teacher down to the pupils."""
    taught = _taught(branch.ties)
    depth: dict[str, int] = {}
    parts, marks = [], []
    foot: dict[str, float] = {}
    y = 0.0
    for one in branch.people:
        teacher = next((tie.teacher for tie in taught.get(one, ()) if tie.teacher in depth), None)
        depth[one] = 0 if teacher is None else depth[teacher] + 1
        x = min(depth[one], _MOST_STEPS) * _STEP
        texts = []
        for run in _words(view, one, taught, branch, _):
            for line in wrapped(run, NARROW - x):
                y += _NAME if line.css == "who" else _DATA
                texts.append(Text((line,), 0.0, y - 6, x))
                foot.setdefault(one, y)
        parts.append(group(words(texts), css="taught-row"))
        if teacher is not None:
            from_ = min(depth[teacher], _MOST_STEPS) * _STEP + 4
            way = f"M{pixels(from_)} {pixels(foot[teacher] + 1)}V{pixels(foot[one] - 12)}H{pixels(x - 4)}"
            known = all(tie.grade is Grade.DOCUMENTED for tie in taught[one] if tie.teacher == teacher)
            marks.append(f'<path class="{"elbow" if known else "elbow said"}" d="{way}"/>')
        y += _BETWEEN
    prefix = f"{figure.prefix}-up"
    ties = group(*marks) if marks else ""
    return drawing(prefix, figure.title, figure.description, y + 4, "", ties + "".join(parts), css, linked=True)
