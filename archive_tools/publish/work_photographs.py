"""What the work page says of photographs: what could not be laid over each other or measured, and what could be
compared.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from archive_tools.model.pictures import ProposedPair
from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context, Named
from archive_tools.publish.marks_page import marks_path
from archive_tools.publish.photographs import Shot, shot

AT_ONCE = 6
"""So many proposals lie open; the rest can be opened."""


@dataclass(frozen=True, slots=True)
class Refusal:
    """A comparison that stands side by side, or one of its measures that cannot be taken, and why."""

    tree: Named
    what: str
    why: str
    marks: str | None


@dataclass(frozen=True, slots=True)
class Loose:
    """The photographs of one side of a tree that lie in no common frame: each with the reason and where to mark it."""

    tree: Named
    said: str
    photographs: tuple[tuple[str, str, str | None], ...]


@dataclass(frozen=True, slots=True)
class Proposal:
    """Two photographs that would make a comparison: (year, picture) of each, why, and the lines for tree.yml."""

    tree: Named
    before: tuple[str, Shot]
    after: tuple[str, Shot]
    reasons: str
    snippet: str
    file: str
    marks: str | None
    score: float


@dataclass(frozen=True, slots=True)
class PhotographWork:
    """All of it; every part may be empty. The best proposals are those that lie open."""

    refusals: tuple[Refusal, ...]
    loose: tuple[Loose, ...]
    proposals: tuple[Proposal, ...]
    more: tuple[Proposal, ...] = ()


def photograph_work(context: Context) -> PhotographWork:
    """What there is to do with the photographs of all trees of the edition."""
    trees = context.records.trees.values()
    proposals = sorted((found for tree in trees for found in _proposals(context, tree)), key=lambda found: -found.score)
    return PhotographWork(
        tuple(refusal for tree in trees for refusal in _refusals(context, tree)),
        tuple(loose for tree in trees for loose in _loose(context, tree)),
        tuple(proposals[:AT_ONCE]),
        tuple(proposals[AT_ONCE:]),
    )


def _refusals(context: Context, tree: Tree) -> Iterator[Refusal]:
    _ = context.translations.gettext
    named = context.tree_named(tree.accession)
    wanted = {comparison.id: comparison for comparison in tree.comparisons}
    for made in context.pictures.comparisons.get(tree.accession, ()):
        asked = wanted.get(made.id)
        if asked is None:
            continue
        title = context.say(asked.title) or made.id
        marks = marks_path(context, tree, asked.before, asked.after)
        if not made.aligned:
            yield Refusal(named, title, _sentence(made.why_not or _("no reason is known")), marks)
        for change in made.changes:
            if change.refused:
                what = _("%(comparison)s, %(measure)s") % {"comparison": title, "measure": context.say(change.name)}
                yield Refusal(named, what, _sentence(change.refused), marks)


def _loose(context: Context, tree: Tree) -> Iterator[Loose]:
    ngettext = context.translations.ngettext
    for strip in context.pictures.strips.get(tree.accession, ()):
        loose = [frame for frame in strip.frames if not frame.aligned]
        if loose:
            said = ngettext(
                "%(n)s of %(all)s photographs is not laid over %(reference)s",
                "%(n)s of %(all)s photographs are not laid over %(reference)s",
                len(loose),
            ) % {"n": len(loose), "all": len(strip.frames), "reference": strip.reference}
            each = (
                (frame.file, _sentence(frame.why_not or ""), marks_path(context, tree, frame.file, strip.reference))
                for frame in loose
            )
            yield Loose(context.tree_named(tree.accession), said, tuple(each))


def _proposals(context: Context, tree: Tree) -> Iterator[Proposal]:
    for pair in context.pictures.proposals.get(tree.accession, ()):
        sides = [_side(context, tree, file) for file in (pair.before, pair.after)]
        if sides[0] is not None and sides[1] is not None:
            yield _proposal(context, tree, pair, sides[0], sides[1])


def _proposal(
    context: Context, tree: Tree, pair: ProposedPair, before: tuple[str, Shot], after: tuple[str, Shot]
) -> Proposal:
    return Proposal(
        context.tree_named(tree.accession),
        before,
        after,
        _sentence(context.translations.gettext(", ").join(pair.reasons)),
        pair.snippet.rstrip("\n"),
        f"{tree.folder}/tree.yml",
        marks_path(context, tree, pair.before, pair.after),
        pair.score,
    )


def _side(context: Context, tree: Tree, file: str) -> tuple[str, Shot] | None:
    photo = tree.photo(file)
    if photo is None or photo.path not in context.pictures.photos:
        return None
    return context.dates.when(photo.when) or file, shot(context, tree, photo)


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:].rstrip('.')}." if words else ""
