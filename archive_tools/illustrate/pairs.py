"""Everything that is made of two photographs and more of one tree: comparisons, strips of years, proposals."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from archive_tools.illustrate.change import Translate
from archive_tools.illustrate.comparison import Shot, compared, marks_moved, needs_features
from archive_tools.illustrate.derivatives import Job
from archive_tools.illustrate.found_alignments import Found, Pair, found_alignments
from archive_tools.illustrate.proposals import Candidate, proposed, seasons
from archive_tools.illustrate.sharpness import sharpness_of
from archive_tools.illustrate.years_strip import FEWEST, dated, strip_pairs, strips_of
from archive_tools.model.photo import ComparisonWanted
from archive_tools.model.pictures import AlignedComparison, ProposedPair, YearsStrip
from archive_tools.model.tree import Tree

Shots = Mapping[str, Shot]
Founds = Mapping[tuple[str, str], Found]


@dataclass(frozen=True, slots=True)
class Paired:
    """What is made of pairs, with the work each needs: `comparisons` and `strips` go with their jobs."""

    comparisons: tuple[tuple[AlignedComparison, Job | None], ...]
    strips: tuple[tuple[YearsStrip, tuple[Job, ...]], ...]
    proposals: Mapping[str, tuple[ProposedPair, ...]]

    @property
    def jobs(self) -> list[Job]:
        """All the work there is."""
        return [job for _, job in self.comparisons if job is not None] + [
            job for _, jobs in self.strips for job in jobs
        ]

    def shown_comparisons(self, failed: Container[str]) -> dict[str, tuple[AlignedComparison, ...]]:
        """By accession, without those of which a cut could not be made. failed: the addresses of such cuts."""
        shown: dict[str, tuple[AlignedComparison, ...]] = {}
        for pair, _job in self.comparisons:
            if not any(cut.url in failed for cut in (*pair.before.cuts, *pair.after.cuts)):
                shown[pair.accession] = (*shown.get(pair.accession, ()), pair)
        return shown

    def shown_strips(self, failed: Container[str]) -> dict[str, tuple[YearsStrip, ...]]:
        """By accession, without the frames of which a cut could not be made."""
        shown: dict[str, tuple[YearsStrip, ...]] = {}
        for strip, _jobs in self.strips:
            frames = tuple(frame for frame in strip.frames if frame.cut.url not in failed)
            if len(frames) >= FEWEST:
                shown[strip.accession] = (*shown.get(strip.accession, ()), replace(strip, frames=frames))
        return shown


def paired(
    trees: Iterable[Tree], shots: Shots, cache: Path, translate: Translate = str, processes: int | None = None
) -> Paired:
    """Comparisons, strips and proposals of these trees. shots: by path, the photographs that can be shown.

    Raises OSError where the cache cannot be written.
    """
    trees = tuple(trees)
    found = found_alignments(unmarked_pairs(trees, shots), cache, processes)
    sharp = sharpness_of((shot.original for shot in shots.values()), cache, processes)
    return Paired(
        comparisons=tuple(one for tree in trees for one in comparisons_of(tree, shots, found, translate)),
        strips=tuple(one for tree in trees for one in strips_of(tree, shots, found, translate)),
        proposals={
            tree.accession: pairs for tree in trees if (pairs := proposals_of(tree, shots, found, sharp, translate))
        },
    )


def unmarked_pairs(trees: Iterable[Tree], shots: Shots) -> list[Pair]:
    """The pairs in which the program itself has to look for what has not changed."""
    return [pair for tree in trees for pair in (*_comparison_pairs(tree, shots), *strip_pairs(tree, shots))]


def comparisons_of(
    tree: Tree, shots: Shots, found: Founds, translate: Translate = str
) -> Iterator[tuple[AlignedComparison, Job | None]]:
    """The comparisons the curator declared, of which both photographs can be shown."""
    for wanted, before, after in _declared(tree, shots):
        key = (before.original.fingerprint, after.original.fingerprint)
        yield compared(tree.accession, wanted, before, after, translate, found.get(key))


def proposals_of(
    tree: Tree, shots: Shots, found: Founds, sharp: Mapping[str, float], translate: Translate = str
) -> tuple[ProposedPair, ...]:
    """What else could be compared of a tree."""
    by_print = {shots[photo.path].original.fingerprint: photo.file for photo in tree.photos if photo.path in shots}
    candidates = []
    for photo in tree.photos:
        day, shot = dated(photo), shots.get(photo.path)
        if day is None or shot is None or shot.original.fingerprint not in sharp:
            continue
        own = shot.original.fingerprint
        alike = (
            by_print[one if two == own else two]
            for (one, two), answer in found.items()
            if answer.laid is not None and own in (one, two) and one in by_print and two in by_print
        )
        candidates.append(
            Candidate(
                photo.file,
                day,
                photo.view or "",
                *shot.original.size,
                sharp[own],
                seasons(photo.when.said.first, photo.when.said.last) if photo.when else frozenset(),
                frozenset(name for name, _ in photo.marks),
                frozenset(alike),
                photo.sure == "yes",
            )
        )
    ids = [wanted.id for wanted in tree.comparisons]
    return proposed(tree.accession, candidates, [(w.before, w.after) for w in tree.comparisons], ids, translate)


def _comparison_pairs(tree: Tree, shots: Shots) -> Iterator[Pair]:
    for wanted, before, after in _declared(tree, shots):
        if needs_features(before.photo, after.photo, wanted.align_on, marks_moved(wanted)):
            yield before.original, after.original


def _declared(tree: Tree, shots: Shots) -> Iterator[tuple[ComparisonWanted, Shot, Shot]]:
    for wanted in tree.comparisons:
        before, after = (_shot(tree, file, shots) for file in (wanted.before, wanted.after))
        if before is not None and after is not None:
            yield wanted, before, after


def _shot(tree: Tree, file: str, shots: Shots) -> Shot | None:
    photo = tree.photo(file)
    return None if photo is None else shots.get(photo.path)
