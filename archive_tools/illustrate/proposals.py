"""Which two photographs of a tree would make a comparison that nobody has declared yet.

A pure function over what is known of the photographs. Far apart in years counts most; both must be sharp, from one side
and framed alike; the same season, and marks or unchanged places to lay them by, speak for a pair too.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import combinations

from archive_tools.illustrate.change import Translate
from archive_tools.model.pictures import ProposedPair

FEWEST_YEARS = 5.0
LEAST_SHARP = 0.004
"""Of `sharpness`: below it a picture is blurred."""
SHARP = 0.03
LEAST_PIXELS = 500
"""The longer side; a smaller picture shows nothing beside a larger one."""
MOST_UNLIKE = 1.6
"""Times as wide for its height as the other: no picture is framed like that one."""
KEPT = 3
_LONG = 40.0
"""Years from which on a pair gains nothing by being farther apart."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """What is known of one photograph. months: those it can be of, 1-12; none where only the year is known.

    alike: files of other photographs onto which the program could lay this one; marks: names of its marks.
    """

    file: str
    day: date
    view: str
    width: int
    height: int
    sharpness: float
    months: frozenset[int] = frozenset()
    marks: frozenset[str] = frozenset()
    alike: frozenset[str] = frozenset()
    sure: bool = True


def proposed(
    accession: str,
    candidates: Sequence[Candidate],
    declared: Sequence[tuple[str, str]],
    ids: Sequence[str] = (),
    translate: Translate = str,
) -> tuple[ProposedPair, ...]:
    """The pairs worth comparing, the best first, at most `KEPT` of them, and none that is declared already.

    declared: the file names of pairs that are comparisons already. ids: of those, so that a new one differs.
    translate: into the language of the reasons.
    """
    done = {frozenset(pair) for pair in declared}
    found = []
    for one, other in combinations(sorted(candidates, key=lambda c: (c.day, c.file)), 2):
        if frozenset((one.file, other.file)) not in done:
            pair = _judged(accession, one, other, ids, translate)
            if pair is not None:
                found.append(pair)
    found.sort(key=lambda pair: (-pair.score, pair.before, pair.after))
    kept: list[ProposedPair] = []
    for pair in found:
        # Twenty old prints against one portrait would say one thing twenty times.
        if len(kept) < KEPT and all(pair.before != k.before and pair.after != k.after for k in kept):
            kept.append(pair)
    return tuple(kept)


def _judged(accession: str, one: Candidate, other: Candidate, ids: Sequence[str], _: Translate) -> ProposedPair | None:
    years = (other.day - one.day).days / 365.25
    shapes = one.width / one.height, other.width / other.height
    unlike = max(shapes) / min(shapes)
    sharp = min(one.sharpness, other.sharpness)
    pixels = min(max(one.width, one.height), max(other.width, other.height))
    if years < FEWEST_YEARS or one.view != other.view or not one.view or one.view == "detail":
        return None
    if unlike > MOST_UNLIKE or sharp < LEAST_SHARP or pixels < LEAST_PIXELS or not (one.sure and other.sure):
        return None
    reasons = [_("%(years)s years apart") % {"years": round(years)}, _both_from(one.view, _)]
    apart = math.log1p(min(years, _LONG)) / math.log1p(_LONG)
    sharpness = min(sharp / SHARP, 1.0)
    if sharp >= SHARP:
        reasons.append(_("both sharp"))
    framing = 1 - (unlike - 1) / (MOST_UNLIKE - 1)
    if unlike < 1.1:
        reasons.append(_("framed alike"))
    held = _held(one, other, reasons, _)
    season = 0.5
    if one.months and other.months:
        season = 1.0 if one.months & other.months else 0.0
        reasons.append(_("taken at the same time of year") if season else _("taken at different times of year"))
    score = 0.45 * apart + 0.15 * sharpness + 0.15 * framing + 0.15 * held + 0.10 * season
    return ProposedPair(accession, one.file, other.file, round(score, 3), tuple(reasons), _snippet(one, other, ids))


def _both_from(view: str, _: Translate) -> str:
    words = {
        "front": _("both from the front"), "back": _("both from the back"), "left": _("both from the left"),
        "right": _("both from the right"), "top": _("both from above"),
    }  # fmt: skip
    return words.get(view, _("both from one side"))


def _held(one: Candidate, other: Candidate, reasons: list[str], _: Translate) -> float:
    shared = one.marks & other.marks
    if len(shared) >= 2:
        reasons.append(_("%(n)s marks in both already") % {"n": len(shared)})
        return 1.0
    if other.file in one.alike or one.file in other.alike:
        reasons.append(_("enough has stayed the same to lay them over each other without marks"))
        return 1.0
    return 0.0


def _snippet(one: Candidate, other: Candidate, ids: Sequence[str]) -> str:
    stem = f"{one.view}-{one.day.year}-{other.day.year}"
    name = next(name for name in (stem, *(f"{stem}-{n}" for n in range(2, len(ids) + 3))) if name not in ids)
    return f"  - id: {name}\n    before: {one.file}\n    after: {other.file}\n"


def seasons(earliest: date | None, latest: date | None) -> frozenset[int]:
    """The months between two days, where they lie within half a year; else none: the season is not known."""
    if earliest is None or latest is None or (latest - earliest).days > 183:
        return frozenset()
    months = (latest.year - earliest.year) * 12 + latest.month - earliest.month
    return frozenset((earliest.month - 1 + step) % 12 + 1 for step in range(months + 1))
