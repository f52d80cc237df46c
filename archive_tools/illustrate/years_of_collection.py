"""The collection's years at a glance: one line a tree, from its first known care to today or to its end.

Thin while it lived elsewhere, thicker once here; fading where its beginning is vague. While the trees are few each line
bears its name; many stand close, like the lines of a page, and the names are in the table.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from archive_tools.illustrate.bars import Bar, bar, fades, full, gradients, vague
from archive_tools.illustrate.change import Translate
from archive_tools.illustrate.svg_frame import drawing, group, words
from archive_tools.illustrate.svg_text import NARROW, Run, beside, percent, pixels, wrapped
from archive_tools.illustrate.year_axis import YearAxis, axis_for
from archive_tools.model.findings import Bounds, Custody, TreeChronology
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.view import EditionView

NAMED = 24
"""Up to so many trees have their names beside their lines."""
_PREFIX = "years"
_CLOSE, _NAMED_ROW, _NEXT_LINE = 8.0, 36.0, 17.0


@dataclass(frozen=True, slots=True)
class _Life:
    """One tree's line: between which days its care began, since when it is here, and when it ended or left."""

    name: str
    care: tuple[date, date]
    here: date | None
    end: date
    died: bool


def years_of_collection(view: EditionView, _: Translate = str) -> str:
    """All the edition's trees on one line of years, as an SVG element; "" when nothing is dated."""
    lives, undated = _lives(view)
    if not lives:
        return ""
    axis = axis_for([day for life in lives for day in (*life.care, life.end)], view.as_of)
    named = len(lives) <= NAMED
    parts, y = [], 6.0
    for life in lives:
        label = ""
        if named:
            lines = [(line,) for line in wrapped(Run(life.name), NARROW)]
            texts = beside(lines, axis.at(life.care[0]), axis.at(life.end), y + 15, _NEXT_LINE)
            label, y = words(texts), texts[-1].y + 6
        parts.append(group(label, _line(life, axis, y + 2)))
        y += _NAMED_ROW - 21 if named else _CLOSE
    return drawing(
        _PREFIX,
        _title(len(lives), _),
        _described(lives, undated, _),
        y + 38,
        gradients(f"{_PREFIX}-soft"),
        axis.lines(y + 8) + "".join(parts) + group(words(axis.numbers(y + 30))),
    )


def _line(life: _Life, axis: YearAxis, y: float) -> str:
    """One tree's line, with its middle at `y`, as SVG."""
    begun, ended = life.care, (life.end, life.end)
    marks = []
    if life.here is None or life.here > life.care[0]:
        away = bar(begun, ended if life.here is None else (life.here, life.here), axis)
        marks += [fades(away, f"{_PREFIX}-soft", y - 1, 2)[0], full("held", away, y - 1, 2)]
    if life.here is not None:
        here = bar((life.here, life.here), ended, axis)
        marks.append(full("here", Bar(here.low, here.low, here.high, here.high), y - 2, 4))
    if life.died:
        x = percent(axis.at(life.end))
        marks.append(f'<line class="ended" x1="{x}" x2="{x}" y1="{pixels(y - 4)}" y2="{pixels(y + 4)}"/>')
    return "".join(marks)


def _lives(view: EditionView) -> tuple[list[_Life], int]:
    """The trees that can be drawn, the longest in care first, and how many cannot."""
    language = view.records.settings.languages[0] if view.records.settings.languages else ""
    lives, undated = [], 0
    for accession, tree in view.records.trees.items():
        chronology = view.findings.chronologies.get(accession)
        life = None
        if chronology is not None and not chronology.under_review:
            custody = view.findings.custodies.get(accession)
            life = _life(tree.called(language), chronology, custody, view.as_of, view.records.settings.custodian)
        if life is None:
            undated += 1
        else:
            lives.append(life)
    return sorted(lives, key=lambda life: (life.care[1], life.care[0], life.name)), undated


def _life(name: str, chronology: TreeChronology, custody: Custody | None, as_of: date, custodian: str) -> _Life | None:
    care, arrival = _said(chronology, Milestone.CARE), _said(chronology, Milestone.ARRIVAL)
    begun = care if care.known else arrival
    if not begun.known:
        return None
    low, high = (min(day, as_of) for day in vague(begun, is_end=False, otherwise=as_of))
    end, died = _end(chronology, custody, as_of, custodian)
    end = max(end, high)
    here = arrival.earliest or arrival.latest or _came_here(custody, custodian)
    return _Life(name, (low, high), None if here is None else min(max(here, low), end), end, died)


def _said(chronology: TreeChronology, milestone: Milestone) -> Bounds:
    """The bounds of a milestone by the firmest evidence there is."""
    finding = chronology.milestones.get(milestone)
    if finding is None:
        return Bounds()
    layers = (finding.layers.get(grade, Bounds()) for grade in Grade)
    return next((bounds for bounds in layers if bounds.known), Bounds())


def _came_here(custody: Custody | None, custodian: str) -> date | None:
    """For a tree that has left: when it came."""
    held = [period for period in custody.periods if custodian in period.holders] if custody else []
    return (held[-1].start.earliest or held[-1].start.latest) if held else None


def _end(chronology: TreeChronology, custody: Custody | None, as_of: date, custodian: str) -> tuple[date, bool]:
    """The last day of the line, and whether the tree died then."""
    died = next((found for found in chronology.events if found.kind == "died"), None)
    if died is not None and died.bounds.known:
        return min(died.bounds.earliest or died.bounds.latest or as_of, as_of), True
    if custody is not None and not custody.state.in_collection:
        left = [period.end for period in custody.periods if custodian in period.holders and period.end is not None]
        if left:
            return min(left[-1].earliest or left[-1].latest or as_of, as_of), False
    return as_of, False


def _title(count: int, _: Translate) -> str:
    if count == 1:
        return _("One tree from first care to today")
    return _("%(count)s trees from first care to today") % {"count": count}


def _described(lives: list[_Life], undated: int, _: Translate) -> str:
    """The drawing in sentences: how many began in each decade, when the first came here, how many are gone."""
    decades: dict[int, int] = {}
    for life in lives:
        decade = life.care[1].year // 10 * 10
        decades[decade] = decades.get(decade, 0) + 1
    began = _(", ").join(
        _("%(count)s in the %(decade)ss") % {"count": count, "decade": decade}
        for decade, count in sorted(decades.items())
    )
    said = [_("First known in training: %(began)s.") % {"began": began}]
    came = [life.here for life in lives if life.here is not None]
    if came:
        said.append(_("The first came here in %(year)s.") % {"year": min(came).year})
    gone = sum(life.died for life in lives)
    if gone:
        said.append(_("Died: %(count)s.") % {"count": gone})
    if undated:
        said.append(_("Without a date that can be drawn: %(count)s.") % {"count": undated})
    return " ".join(said)
