"""A tree's comparisons for a terminal and for programs."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from archive_tools.model.photo import ComparisonWanted
from archive_tools.model.pictures import COVERAGE, AlignedComparison, MeasuredChange, ProposedPair
from archive_tools.model.tree import Tree
from archive_tools.model.words import Words

WIDTH = 88
_BY = {
    "similarity": "scale, turn and shift",
    "affine": "scale, turn, shift and stretch",
    "perspective": "perspective",
    "features": "places found unchanged",
}


LeftOut = tuple[int, ComparisonWanted, str]
"""A comparison that could not be made at all: which it is of those declared, counted from 0, and why."""


def comparisons_as_json(
    tree: Tree, comparisons: Sequence[AlignedComparison], language: str, left_out: Sequence[LeftOut] = ()
) -> list[dict[str, object]]:
    """The machine form: one entry a comparison. The matrix leads from the later picture back to the earlier one.

    Everything after `_pm` is twice the standard uncertainty (k = 2), in centimetres. A refused measure has nulls and
    says why. What was `left_out` is not aligned, and each of its measures is refused for the same reason.
    """
    asked = {wanted.id: wanted for wanted in tree.comparisons}
    told = [_as_json(asked[made.id], made, language) for made in comparisons if made.id in asked]
    for place, wanted, why in left_out:
        told.insert(place, _nothing(wanted, why, language))
    return told


def _nothing(wanted: ComparisonWanted, why: str, language: str) -> dict[str, object]:
    return {
        "before": wanted.before,
        "after": wanted.after,
        "method": None,
        "matrix": None,
        "residual_px": None,
        "inliers": None,
        "measures": [_measure(MeasuredChange(one.name, refused=why), language) for one in wanted.measure],
        "state": "not aligned",
        "why": why,
    }


def _as_json(wanted: ComparisonWanted, made: AlignedComparison, language: str) -> dict[str, object]:
    return {
        "before": wanted.before,
        "after": wanted.after,
        "method": made.method,
        "matrix": None if made.back is None else [list(row) for row in made.back],
        "residual_px": made.residual_px,
        "inliers": made.inliers,
        "measures": [_measure(change, language) for change in made.changes],
        "state": "aligned" if made.aligned else "not aligned",
        "why": made.why_not,
    }


def _measure(change: MeasuredChange, language: str) -> dict[str, object]:
    """A measure whose change cannot be told from what placing its marks leaves open is refused like one without marks:
    what of it can be told stands in its words alone, so that no program takes a guess for a measurement.
    """
    why = change.refused or (None if change.is_measurable else change.words)
    if why and change.moved is not None and not why.startswith("no change"):
        # It moved aside alone, and `change` tells how far it went up.
        why = f"no change up or down that can be measured; {why}"
    known = why is None
    return {
        "name": _said(change.name, language),
        "unit": "cm",
        "before": change.before if known else None,
        "before_pm": _within(change.before_uncertainty) if known else None,
        "after": change.after if known else None,
        "after_pm": _within(change.after_uncertainty) if known else None,
        "change": change.change if known else None,
        "change_pm": _within(change.change_uncertainty) if known else None,
        "why": why,
    }


def comparisons_page(
    tree: Tree,
    comparisons: Sequence[AlignedComparison],
    proposals: Sequence[ProposedPair],
    language: str,
    left_out: Sequence[LeftOut] = (),
) -> str:
    """What was measured, how the pictures lie over each other or why they do not, and what else could be compared."""
    asked = {wanted.id: wanted for wanted in tree.comparisons}
    lines = [f"{tree.accession}  {tree.called(language)}"]
    for made in comparisons:
        if made.id in asked:
            lines += ["", *_comparison(asked[made.id], made, language)]
    for _place, wanted, why in left_out:
        lines += ["", f"{_title(wanted, language)}: {wanted.before} and {wanted.after}", *_indented(f"left out: {why}")]
    if not comparisons and not left_out:
        lines += ["", "No comparison is declared (`comparisons:` in tree.yml)."]
    caution = next((made.caution for made in comparisons if made.caution), "")
    if caution:
        lines += ["", *textwrap.wrap(caution, WIDTH)]
    if proposals:
        lines += ["", "Could be compared (to paste under `comparisons:` in tree.yml)"]
        for pair in proposals:
            lines += ["", *(f"  # {line}" for line in textwrap.wrap("; ".join(pair.reasons), WIDTH - 4))]
            lines += pair.snippet.rstrip("\n").split("\n")
    return "\n".join(lines)


def _comparison(wanted: ComparisonWanted, made: AlignedComparison, language: str) -> Iterator[str]:
    yield f"{_title(wanted, language)}: {wanted.before} and {wanted.after}"
    if made.aligned:
        held = f"{len(made.marks_used)} marks" if made.marks_used else f"{made.inliers} places"
        yield f"  aligned by {held} ({_BY.get(made.method or '', made.method)}); they miss by {made.residual_px:.1f} px"
        if made.kept_simple:
            yield from _indented(f"the marks ask for more, but {made.kept_simple}")
    else:
        yield from _indented(f"not aligned: {made.why_not}")
    for change in made.changes:
        yield from _indented(f"{_said(change.name, language)}: {change.words}")


def _title(wanted: ComparisonWanted, language: str) -> str:
    return _said(wanted.title, language) if wanted.title else wanted.id


def _indented(text: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent="  ", subsequent_indent="    ")


def _said(words: Words, language: str) -> str:
    return words.say(language)


def _within(uncertainty: float | None) -> float | None:
    return None if uncertainty is None else uncertainty * COVERAGE
