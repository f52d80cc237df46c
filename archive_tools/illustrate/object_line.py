"""The line of a pot, tray, stand, stone, scroll or accent: who held it, and which trees stood in it when."""

from __future__ import annotations

from datetime import date

from archive_tools.illustrate.across import across
from archive_tools.illustrate.change import Translate
from archive_tools.illustrate.custody_rows import custody_rows
from archive_tools.illustrate.figure import Figure, Mark, Row, Strand, moment, stretch_of
from archive_tools.illustrate.period_words import year_range, years
from archive_tools.illustrate.svg_frame import id_part
from archive_tools.illustrate.svg_text import Run
from archive_tools.illustrate.upright import upright
from archive_tools.illustrate.year_axis import axis_for
from archive_tools.model.findings import Custody, TreeState
from archive_tools.model.lineage import ObjectLine, TreeInObject
from archive_tools.model.people import CollectionObject
from archive_tools.model.view import EditionView

_NO_TREE = TreeState(False, "", False, None)


def object_lines(view: EditionView, _: Translate = str) -> dict[str, str]:
    """By object id, the line of each that the edition shows and of which a date is known: two SVG elements each (see
    `custody_line`). Links to trees are written `tree:` and the accession.
    """
    found = {}
    for object_id, line in view.findings.objects.items():
        thing = view.records.objects.get(object_id)
        figure = object_figure(view, thing, line, _) if thing is not None and not thing.masked else None
        if figure is not None:
            axis = axis_for(figure.days, max(figure.days))
            found[object_id] = across(figure, axis) + upright(figure, axis)
    return found


def object_figure(view: EditionView, thing: CollectionObject, line: ObjectLine, _: Translate = str) -> Figure | None:
    """What the drawing shows, before it is laid out; None where nothing of it is dated."""
    language = view.records.settings.languages[0] if view.records.settings.languages else ""
    dated = tuple(period for period in line.periods if period.start.known or period.end is not None)
    holders = custody_rows(view, Custody(thing.id, dated, (), _NO_TREE), language, _)
    trees = [_tree_row(view, spell, language, _) for spell in line.trees]
    trees = [row for row in trees if row.days]
    apart = _("Trees that stood in it or with it")
    rows = (*holders, *(Row(r.css, r.runs, r.strands, r.marks, r.track, r.marks_told, apart if at == 0 else "")
                        for at, r in enumerate(trees)))  # fmt: skip
    if not any(row.days for row in rows):
        return None
    told = ". ".join(" ".join(run.words for run in row.runs) for row in rows)
    title = _("Who held %(thing)s, and what stood in it") % {"thing": thing.name.say(language)}
    return Figure(f"object-{id_part(thing.id)}", title, f"{told}.", rows, linked=True)


def _tree_row(view: EditionView, spell: TreeInObject, language: str, _: Translate) -> Row:
    tree = view.records.trees.get(spell.tree)
    name = spell.tree if tree is None else tree.called(language)
    runs = (Run(name, "by", f"tree:{spell.tree}"), Run(stood_words(spell, _)))
    stretch = stretch_of(spell.start, spell.end, view.as_of, view.as_of)
    if spell.sort == "with" and _days(stretch.days) < 400:
        mark = Mark(*moment(spell.start, view.as_of), "hand small", runs)
        return Row("tree", runs, (), (mark,), track="with", marks_told=True)
    return Row("tree", runs, (Strand(stretch, "here" if spell.end is None else "held"),), track="trees")


def _days(days: tuple[date, ...]) -> int:
    return (max(days) - min(days)).days


def stood_words(spell: TreeInObject, _: Translate = str) -> str:
    """From when to when: "1957 to 1969", "since 2003", "with it, 2018", "from 1969, gone by 2003"."""
    start = years(spell.start, _)
    if spell.end is None:
        return _("since %(start)s") % {"start": start} if start else _("to this day")
    end = years(spell.end, _)
    if spell.sort == "with":
        return _("shown with it, %(years)s") % {"years": _from_to(spell, start, end, _)}
    if spell.presumed_end and spell.end.latest is not None:
        gone = {"start": start, "end": spell.end.latest.year}
        return _("from %(start)s, gone by %(end)s") % gone if start else _("gone by %(end)s") % gone
    return _from_to(spell, start, end, _)


def _from_to(spell: TreeInObject, start: str, end: str, _: Translate) -> str:
    first, last = spell.start.earliest, spell.end.latest if spell.end else None
    if start == end and first is not None and last is not None:
        return year_range(first.year, last.year, _)
    if not end:
        return _("from %(start)s") % {"start": start} if start else ""
    return _("%(start)s to %(end)s") % {"start": start, "end": end} if start else _("until %(end)s") % {"end": end}
