"""The years of one steward: their own, as far as the records tell of them, and below the trees they had a hand in.

A row a tree, with a bar for as long as they held it and a mark for each piece of work; of many trees a row for those
that came in one decade.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from archive_tools.illustrate.across import across
from archive_tools.illustrate.change import Translate
from archive_tools.illustrate.figure import Figure, Mark, Row, Strand, Stretch, moment, stretch_of
from archive_tools.illustrate.period_words import held as held_words
from archive_tools.illustrate.period_words import listed, name_of, year_range, years
from archive_tools.illustrate.svg_frame import id_part
from archive_tools.illustrate.svg_text import Run
from archive_tools.illustrate.upright import upright
from archive_tools.illustrate.work_words import work_words
from archive_tools.illustrate.year_axis import axis_for
from archive_tools.model.active_years import active_ends
from archive_tools.model.dates import WhenWritten
from archive_tools.model.findings import Bounds, CustodyPeriod, Hand
from archive_tools.model.lineage import StewardLine
from archive_tools.model.people import Steward
from archive_tools.model.view import EditionView

MOST = 8
"""So many trees of one sort have rows of their own; more are told decade by decade."""
_NAMED = 2
"""So many trees of a decade are named."""
_KINDS = 3


@dataclass(slots=True)
class _Tree:
    """What one steward had to do with one tree."""

    accession: str
    periods: list[CustodyPeriod] = field(default_factory=list)
    hands: list[Hand] = field(default_factory=list)
    weighty: set[str] = field(default_factory=set)


def steward_years(view: EditionView, _: Translate = str) -> dict[str, str]:
    """By steward id, the years of each whom the edition may name and of whom a date is known: two SVG elements each
    (see `custody_line`). Links to trees are written `tree:` and the accession.
    """
    found = {}
    for steward_id, line in view.findings.stewards.items():
        steward = view.records.stewards.get(steward_id)
        figure = steward_figure(view, steward, line, _) if steward is not None and not steward.masked else None
        if figure is not None:
            axis = axis_for(figure.days, max(figure.days))
            found[steward_id] = across(figure, axis) + upright(figure, axis)
    return found


def steward_figure(view: EditionView, steward: Steward, line: StewardLine, _: Translate = str) -> Figure | None:
    """What the drawing shows, before it is laid out; None where no tree of theirs has a date."""
    trees = _trees(line)
    held = [one for one in trees if one.periods]
    worked = [one for one in trees if not one.periods]
    rows = [*_part(view, held, "", _), *_part(view, worked, _("Worked on"), _)]
    rows = [row for row in rows if row.days]
    if not rows:
        return None
    own = _own(view, steward, line, _)
    everything = (*((own,) if own else ()), *rows)
    name = _name(view, steward.id, _)
    title = _("The years of %(name)s and the trees in them") % {"name": name}
    told = ". ".join(" ".join(run.words for run in row.runs) for row in everything)
    return Figure(f"years-{id_part(steward.id)}", title, f"{told}.", everything, linked=True)


def _trees(line: StewardLine) -> list[_Tree]:
    """The trees of a steward by the first thing that is told of each."""
    found: dict[str, _Tree] = {}
    for held in line.held:
        found.setdefault(held.tree, _Tree(held.tree)).periods.append(held.period)
    for work in (*line.made, *line.styled, *line.worked):
        one = found.setdefault(work.tree, _Tree(work.tree))
        one.hands.append(work.hand)
        if work not in line.worked:
            one.weighty.add(work.hand.event)
    return sorted(found.values(), key=lambda one: (_first(one), one.accession))


def _first(one: _Tree) -> date:
    days = [period.start for period in one.periods] or [hand.bounds for hand in one.hands]
    return min((day.earliest or day.latest or date.max for day in days), default=date.max)


def _own(view: EditionView, steward: Steward, line: StewardLine, _: Translate) -> Row | None:
    """The first row: their life, as far as it is known, and on it the years of which the records tell."""
    start, end = active_ends(line, steward)
    strands = []
    if steward.born is not None or steward.died is not None:
        born = _written(steward.born) or start
        died = _written(steward.died) or end or Bounds(view.as_of, view.as_of)
        strands.append(Strand(stretch_of(born, died, view.as_of, view.as_of), "with"))
    if start.known:
        css = "here" if steward.id == view.records.settings.custodian else "held"
        strands.append(Strand(stretch_of(start, end, view.as_of, view.as_of), css))
    said = in_the_records(start, end, _)
    if not strands:
        return None
    runs = (Run(_name(view, steward.id, _), "who"), *((Run(said),) if said else ()))
    return Row("own", runs, tuple(strands), track="own")


def in_the_records(start: Bounds, end: Bounds | None, _: Translate = str) -> str:
    """Like "in the records from 1949 to 1978", "in the records since 1978"; "" where nothing is dated."""
    first = years(start, _)
    last = years(end, _) if end is not None else ""
    if end is None:
        return _("in the records since %(start)s") % {"start": first} if first else _("in the records to this day")
    if first and last and first != last:
        return _("in the records from %(start)s to %(end)s") % {"start": first, "end": last}
    return _("in the records in %(start)s") % {"start": first or last} if first or last else ""


def _written(when: WhenWritten | None) -> Bounds | None:
    return Bounds(when.earliest, when.latest) if when is not None else None


def _part(view: EditionView, trees: Sequence[_Tree], apart: str, _: Translate) -> list[Row]:
    """The rows of one sort; `apart` stands above the first."""
    rows = _by_decade(view, trees, _) if len(trees) > MOST else [_tree_row(view, one, _) for one in trees]
    rows = [row for row in rows if row.days]
    return [Row(r.css, r.runs, r.strands, r.marks, r.track, r.marks_told, apart if at == 0 else "")
            for at, r in enumerate(rows)]  # fmt: skip


def _tree_row(view: EditionView, one: _Tree, _: Translate) -> Row:
    custodian = view.records.settings.custodian
    said = [held_words(period, custodian, _) for period in one.periods] or [_work(one.hands, _)]
    runs = (Run(_called(view, one.accession), "by", f"tree:{one.accession}"), Run(_("; ").join(said)))
    strands = tuple(_strand(view, period) for period in one.periods)
    marks = tuple(_mark(one, hand, view.as_of) for hand in one.hands if hand.bounds.known)
    if strands:
        return Row("tree", runs, strands, marks, track="trees")
    told = (Mark(marks[0].first, marks[0].last, marks[0].css, runs), *marks[1:]) if marks else ()
    return Row("tree", runs, (), told, track="worked", marks_told=True)


def _strand(view: EditionView, period: CustodyPeriod) -> Strand:
    here = view.records.settings.custodian in period.holders
    several = len(period.holders) if period.joint else 1
    owned = "here" if here else "held"
    css = owned if period.owner else "loan" if here else "loan out"
    return Strand(stretch_of(period.start, period.end, view.as_of, view.as_of), css, several)


def _mark(one: _Tree, hand: Hand, as_of: date) -> Mark:
    low, high = moment(hand.bounds, as_of)
    return Mark(low, high, "hand" if hand.event in one.weighty else "hand small")


def _work(hands: Iterable[Hand], _: Translate) -> str:
    """What was done and when: "styled 1991, repotted twice"."""
    by_kind: dict[str, list[Hand]] = {}
    for hand in hands:
        by_kind.setdefault(hand.kind, []).append(hand)
    said = []
    for kind, done in list(by_kind.items())[:_KINDS]:
        word = work_words(_).get(kind, _(kind))
        if len(done) == 1:
            said.append(f"{word} {years(done[0].bounds, _)}".strip())
        elif len(done) == 2:
            said.append(_("%(work)s twice") % {"work": word})
        else:
            said.append(_("%(work)s %(count)s times") % {"work": word, "count": len(done)})
    told = _(", ").join(said)
    return told if len(by_kind) <= _KINDS else _("%(work)s and other work") % {"work": told}


def _by_decade(view: EditionView, trees: Sequence[_Tree], _: Translate) -> list[Row]:
    """A row for the trees of each decade, by the first thing told of each: longer spans where there are many decades.

    The bar runs from the first that came to the last that left, with a mark where each of them came.
    """
    dated = [one for one in trees if _first(one) != date.max]
    if not dated:
        return []
    reach = _first(dated[-1]).year - _first(dated[0]).year
    span = next(span for span in (10, 20, 50, 100, 1000, 10000) if reach / span <= MOST)
    groups: dict[int, list[_Tree]] = {}
    for one in dated:
        groups.setdefault(_first(one).year // span * span, []).append(one)
    return [_group_row(view, those, _) for those in groups.values()]


def _group_row(view: EditionView, trees: Sequence[_Tree], _: Translate) -> Row:
    named = [_called(view, one.accession) for one in trees]
    if len(named) > _NAMED + 1:
        named = [*named[:_NAMED], _("%(count)s others") % {"count": len(named) - _NAMED}]
    first, last = _first(trees[0]).year, _first(trees[-1]).year
    runs = (Run(year_range(first, last, _), "by"), Run(listed(named, _)))
    days = [_arrived(one, view.as_of) for one in trees]
    marks = tuple(Mark(low, high, "hand") for low, high in days)
    periods = [period for one in trees for period in one.periods]
    if not periods:
        hands = [hand for one in trees for hand in one.hands if hand.bounds.known]
        done = {moment(hand.bounds, view.as_of) for hand in hands}
        all_marks = tuple(Mark(low, high, "hand small") for low, high in sorted(done))
        told = (Mark(all_marks[0].first, all_marks[0].last, "hand small", runs), *all_marks[1:])
        return Row("tree", runs, (), told, track="worked", marks_told=True)
    stretches = [stretch_of(p.start, p.end, view.as_of, view.as_of) for p in periods]
    start = min(stretches, key=lambda one: one.start).start
    end = max((one.end for one in stretches), key=lambda end: end[1])
    here = any(view.records.settings.custodian in period.holders for period in periods)
    return Row("tree", runs, (Strand(Stretch(start, end), "here" if here else "held"),), marks, track="trees")


def _arrived(one: _Tree, as_of: date) -> tuple[date, date]:
    bounds = one.periods[0].start if one.periods else one.hands[0].bounds
    return moment(bounds, as_of)


def _called(view: EditionView, accession: str) -> str:
    tree = view.records.trees.get(accession)
    language = view.records.settings.languages[0] if view.records.settings.languages else ""
    return accession if tree is None else tree.called(language)


def _name(view: EditionView, steward_id: str, _: Translate) -> str:
    language = view.records.settings.languages[0] if view.records.settings.languages else ""
    stewards: Mapping[str, Steward] = view.records.stewards
    return name_of(steward_id, stewards, language, _)
