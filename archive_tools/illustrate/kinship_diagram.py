"""Kinship: the plants a tree came of and those that came of it, each a bar on one line of years, with a tie where and
when one came of the other.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from archive_tools.illustrate.across import across
from archive_tools.illustrate.change import Translate
from archive_tools.illustrate.figure import Figure, Mark, Row, Strand, Tie, middle, moment, stretch_of
from archive_tools.illustrate.life_spans import life_began, life_ended
from archive_tools.illustrate.period_words import years
from archive_tools.illustrate.svg_frame import id_part
from archive_tools.illustrate.svg_text import Run
from archive_tools.illustrate.upright import upright
from archive_tools.illustrate.work_words import work_words
from archive_tools.illustrate.year_axis import axis_for
from archive_tools.model.findings import Bounds
from archive_tools.model.lineage import Elsewhere, Kinship, Lineage
from archive_tools.model.view import EditionView

MOST = 16
"""So many relatives of the house are drawn; the nearest come first, the table has them all."""
_NOTHING = Lineage("")


def kinship_diagram(view: EditionView, accession: str, _: Translate = str) -> str:
    """The kin of one tree, as two SVG elements (see `custody_line`); "" where no relative can be drawn.

    Links to trees are written `tree:` and the accession; whoever shows the drawing puts the addresses of pages there.
    """
    figure = kinship_figure(view, accession, _)
    if figure is None:
        return ""
    axis = axis_for(figure.days, view.as_of)
    return across(figure, axis) + upright(figure, axis)


def kinship_figure(view: EditionView, accession: str, _: Translate = str) -> Figure | None:
    """What the diagram shows, before it is laid out; None where no relative can be drawn."""
    tree = view.records.trees.get(accession)
    lineage = view.findings.lineages.get(accession)
    if tree is None or lineage is None:
        return None
    language = view.records.settings.languages[0] if view.records.settings.languages else ""
    order = family_of(view, accession)
    rows: list[Row] = []
    at: dict[str, int] = {}
    ties: list[Tie] = []
    for one in order:
        for mother in _of(view, one).came_from:
            if mother.tree is None and mother.text:
                rows.append(_mother_in_words(mother, view.as_of, _))
                ties.append(_tie(len(rows) - 1, -1, mother, view.as_of))
        at[one] = len(rows)
        rows.append(_life(view, one, accession, language, _))
        ties = [replace(tie, younger=at[one]) if tie.younger < 0 else tie for tie in ties]
    for one in order:
        ties += [_tie(at[k.tree], at[one], k, view.as_of) for k in _of(view, one).came_from if k.tree in at]
    ties += _stood(view, accession, lineage, at)
    if sum(bool(row.strands) for row in rows) < 2:
        return None
    rows += _elsewhere(view, lineage.elsewhere, language, _)
    figure = Figure(f"kin-{id_part(accession)}", "", "", tuple(rows), tuple(ties), linked=True)
    if not figure.days:
        return None
    title = _("The kin of %(tree)s, from %(start)s to today") % {
        "tree": tree.called(language),
        "start": min(figure.days).year,
    }
    return replace(figure, title=title, description=described(view, accession))


def described(view: EditionView, accession: str) -> str:
    """What is told in words of its kin and planting."""
    custody = view.findings.custodies.get(accession)
    return " ".join(_of(view, accession).text[1 if custody and custody.periods else 0 :])


def family_of(view: EditionView, accession: str) -> list[str]:
    """The tree, those it came of, all that came of them, and the plantings it stood in; the older before the younger.

    Of a large family the nearest `MOST`.
    """
    near = [accession]
    for one in near:
        lineage = _of(view, one)
        kin = [tie.tree for tie in (*lineage.came_from, *lineage.gave_rise_to) if tie.tree]
        kin += [spell.planting for spell in lineage.part_of] if one == accession else []
        near += [k for k in dict.fromkeys(kin) if k in view.records.trees and k not in near]
    chosen = near[:MOST]
    order: list[str] = []
    roots = [one for one in chosen if not any(tie.tree in chosen for tie in _of(view, one).came_from)]
    for root in sorted(roots, key=lambda one: (one == accession, chosen.index(one))):
        _down(view, root, chosen, order)
    return order + [one for one in chosen if one not in order]


def _down(view: EditionView, accession: str, chosen: list[str], order: list[str]) -> None:
    """Puts a tree into the order, and after it all that came of it, the first first."""
    if accession in order:
        return
    order.append(accession)
    for tie in _of(view, accession).gave_rise_to:
        if tie.tree in chosen:
            _down(view, tie.tree or "", chosen, order)


def _of(view: EditionView, accession: str) -> Lineage:
    return view.findings.lineages.get(accession, _NOTHING)


def _life(view: EditionView, accession: str, own: str, language: str, _: Translate) -> Row:
    """A relative's own row: its name, how and when it began, and its life."""
    tree = view.records.trees[accession]
    came = _of(view, accession).came_from
    began = life_began(view, accession)
    if not began.known and came:
        began = came[0].bounds
    ended = life_ended(view, accession)
    merged = next((t.bounds for t in _of(view, accession).gave_rise_to if t.relation == "merged"), None)
    name = Run(tree.called(language), "who", "" if accession == own else f"tree:{accession}")
    said = [_how(came[0], _)] if came else []
    if not said and began.known:
        word = _("planted together %(years)s") if tree.is_planting else _("since %(years)s")
        said = [word % {"years": years(began, _)}]
    if ended is not None:
        said.append(_("died %(years)s") % {"years": years(ended, _)})
    runs = (name, *((Run(_(", ").join(said)),) if said else ()))
    if not began.known:
        return Row("life", runs, track=accession)
    stretch = stretch_of(began, ended or merged, view.as_of, view.as_of)
    died = (Mark(*moment(ended, view.as_of), "ended"),) if ended is not None else ()
    return Row("life", runs, (Strand(stretch, "here" if accession == own else "held"),), died, track=accession)


def _mother_in_words(tie: Kinship, as_of: date, _: Translate) -> Row:
    """A mother plant known only in words: nothing is known of it but that it stood there when the other was taken."""
    until = tie.ended or tie.bounds
    if not until.known:
        return Row("life", (Run(tie.text or "", "gap-word"),), track=f"words {tie.event}")
    stretch = stretch_of(Bounds(None, until.earliest or until.latest), until, as_of, as_of)
    ended = (Mark(*moment(tie.ended, as_of), "ended"),) if tie.ended is not None and tie.ended.known else ()
    return Row(
        "life", (Run(tie.text or "", "gap-word"),), (Strand(stretch, "held"),), ended, track=f"words {tie.event}"
    )


def _how(tie: Kinship, _: Translate) -> str:
    return " ".join(part for part in (work_words(_).get(tie.how, _(tie.how)), years(tie.bounds, _)) if part)


def _tie(older: int, younger: int, tie: Kinship, as_of: date) -> Tie:
    css = "seed" if tie.relation == "seed" else "same"
    return Tie(older, younger, middle(moment(tie.bounds, as_of)), css)


def _stood(view: EditionView, accession: str, lineage: Lineage, at: dict[str, int]) -> list[Tie]:
    """When the tree was set in a planting, and when it was taken out."""
    found = []
    for spell in lineage.part_of:
        if spell.planting not in at:
            continue
        joined = middle(moment(spell.start, view.as_of))
        found.append(Tie(at[spell.planting], at[accession], joined, "joined"))
        if spell.end is not None:
            found.append(Tie(at[spell.planting], at[accession], middle(moment(spell.end, view.as_of)), "left"))
    return found


def _elsewhere(view: EditionView, kept: tuple[Elsewhere, ...], language: str, _: Translate) -> list[Row]:
    """Relatives that other houses keep: words without a bar, since nothing here tells their years.

    By the name of whoever keeps it, else by what is first said of it: the page has the whole of it beside the drawing.
    """
    house = view.records.settings.custodian
    said = [_keeper(view, one, language, _) for one in kept if one.holder != house]
    return [
        Row("kept-elsewhere", (run,), track="elsewhere", apart=_("Kept elsewhere") if at == 0 else "")
        for at, run in enumerate(dict.fromkeys(said))
    ]


def _keeper(view: EditionView, one: Elsewhere, language: str, _: Translate) -> Run:
    if not one.holder:
        return Run(one.text.say(language).split(". ", maxsplit=1)[0].rstrip("."))
    steward = view.records.stewards.get(one.holder)
    if steward is None:
        return Run(one.holder, "by")
    name = steward.name.say(language)
    return Run(_(name) if steward.masked else name, "by")
