"""The work page of the internal edition: what is due, what is missing, where dates disagree, what evidence would gain
most.
"""

from __future__ import annotations

from dataclasses import dataclass

from archive_tools.model.findings import Contradiction, Sharpening, Verdict
from archive_tools.model.page import Page
from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context, Named
from archive_tools.publish.event_words import grade_word
from archive_tools.publish.photographs import shown
from archive_tools.publish.statement_words import statement_line
from archive_tools.publish.tree_next import Coming, coming_of
from archive_tools.publish.work_photographs import photograph_work

PATH = "work/index.md"
MOST = 12


@dataclass(frozen=True, slots=True)
class DueLine:
    """Something coming for one tree."""

    tree: Named
    number: str
    coming: Coming


@dataclass(frozen=True, slots=True)
class MissingLine:
    """What one tree lacks, in words."""

    tree: Named
    number: str
    lacks: str


@dataclass(frozen=True, slots=True)
class Disagreement:
    """Statements about one tree that cannot all be true: (grade, words, where); and the one left out."""

    tree: Named
    number: str
    statements: tuple[tuple[str, str, str], ...]
    left_out: str
    under_review: bool


@dataclass(frozen=True, slots=True)
class GainLine:
    """What one piece of evidence would gain."""

    tree: Named
    number: str
    what: str
    years: int


def work_page(context: Context) -> Page:
    """The page that puts work first. Only for the internal edition: it names files and lines."""
    _ = context.translations.gettext
    trees = context.records.trees.values()
    body = context.render(
        "work.html",
        PATH,
        due=_due(context),
        missing=tuple(line for tree in trees if (line := _missing(context, tree))),
        disagreements=_disagreements(context),
        gains=_gains(context),
        claims=context.view.findings.prose,
        verdicts={
            Verdict.STRONGER: _("Stronger than the evidence"),
            Verdict.CONTRADICTED: _("Contradicted"),
            Verdict.STALE: _("Gone stale"),
            Verdict.SUPPORTED: _("Supported"),
        },
        left_out=context.view.left_out,
        photographs=photograph_work(context),
    )
    return Page(PATH, _("Work"), body, "work", language=context.language)


def _due(context: Context) -> tuple[DueLine, ...]:
    return tuple(
        DueLine(context.tree_named(tree.accession), tree.accession, coming)
        for tree in context.records.trees.values()
        for coming in coming_of(context, tree)
    )


def _missing(context: Context, tree: Tree) -> MissingLine | None:
    _ = context.translations.gettext
    chronology = context.view.findings.chronologies.get(tree.accession)
    lacks = []
    if not tree.portrait:
        lacks.append(_("portrait"))
    if not tree.label:
        lacks.append(_("label"))
    if not any(True for _photo in shown(context, tree)):
        lacks.append(_("any photograph"))
    if chronology is None or not any(finding.wording for finding in chronology.milestones.values()):
        lacks.append(_("any date that can be printed"))
    if not lacks:
        return None
    return MissingLine(context.tree_named(tree.accession), tree.accession, context.listed(lacks))


def _disagreements(context: Context) -> tuple[Disagreement, ...]:
    return tuple(
        _disagreement(context, accession, contradiction, chronology.under_review)
        for accession, chronology in context.view.findings.chronologies.items()
        if accession in context.records.trees
        for contradiction in chronology.contradictions
    )


def _disagreement(context: Context, accession: str, found: Contradiction, under_review: bool) -> Disagreement:
    _ = context.translations.gettext
    tree = context.records.trees[accession]
    statements = tuple(
        (grade_word(s.grade, _), statement_line(context, tree, s), str(s.mark)) for s in found.statements
    )
    left_out = statement_line(context, tree, found.left_out) if found.left_out else ""
    return Disagreement(context.tree_named(accession), accession, statements, left_out, under_review)


def _wanted(context: Context, accession: str, gain: Sharpening) -> str:
    if not gain.confirms:
        return gain.what
    _ = context.translations.gettext
    lines = (statement_line(context, context.records.trees[accession], one) for one in gain.confirms)
    return _("a document for: %(said)s") % {"said": _("; ").join(dict.fromkeys(lines))}


def _gains(context: Context) -> tuple[GainLine, ...]:
    lines = [
        GainLine(context.tree_named(accession), accession, _wanted(context, accession, sharpening), sharpening.years)
        for accession, chronology in context.view.findings.chronologies.items()
        if accession in context.records.trees
        for sharpening in chronology.sharpen
    ]
    return tuple(sorted(lines, key=lambda line: (-line.years, line.number))[:MOST])
