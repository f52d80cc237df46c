"""What a comparison is asked to measure, measured, and said in plain words that claim no more than the numbers do."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from archive_tools.illustrate.alignment import CannotAlign, Laid
from archive_tools.illustrate.measure import CannotMeasure, Length, length, same_scale, uncertainty_of_change
from archive_tools.illustrate.movement import Movement, movement, movement_laid
from archive_tools.illustrate.richer_models import PLACING
from archive_tools.model.photo import MeasureWanted, Photo
from archive_tools.model.pictures import COVERAGE, MeasuredChange
from archive_tools.model.reasons import N_, Reason, because

Translate = Callable[[str], str]
_WITHIN = N_("%(said)s (± %(within)s)")
_WHOLE = 0.95
"""From this many centimetres on an uncertainty is told in whole centimetres, below it in millimetres; from a hundred
times as many on in tens of centimetres, so that it never has more than two figures (JCGM 100:2008, 7.2.6)."""
_ROUNDED_DOWN = 0.05
"""An uncertainty is rounded down only where that takes no more than this share from it, else up (EA-4/02, 6.3)."""


def measured_change(
    wanted: MeasureWanted,
    before: Photo,
    after: Photo,
    align_on: tuple[str, ...],
    _: Translate = str,
    placing: float = PLACING,
    laid: Laid | None = None,
) -> MeasuredChange:
    """One measurement of a comparison, with its words.

    align_on: the marks both pictures are aligned on. laid: the alignment, where it was found without marks.
    Never raises for what a picture lacks: `refused` then says it.
    """
    if wanted.mark is not None:
        return _moved(wanted, before, after, align_on, _, placing, laid)
    if wanted.from_mark is None or wanted.to_mark is None:
        return _worded(MeasuredChange(wanted.name, refused=_("two marks are needed for a length")), _)
    lengths: list[Length | None] = []
    refused = []
    for which, photo in ((_("the earlier picture"), before), (_("the later picture"), after)):
        try:
            lengths.append(length(dict(photo.marks), photo.scale, wanted.from_mark, wanted.to_mark, placing))
        except CannotMeasure as reason:
            lengths.append(None)
            refused.append(_("%(which)s cannot be measured: %(why)s") % {"which": which, "why": reason.why.say(_)})
    first, second = lengths
    one_scale = same_scale(before.scale, after.scale)
    change = MeasuredChange(
        wanted.name,
        before=first.cm if first else None,
        after=second.cm if second else None,
        before_uncertainty=first.uncertainty if first else None,
        after_uncertainty=second.uncertainty if second else None,
        change_uncertainty=uncertainty_of_change(first, second, one_scale=one_scale) if first and second else None,
        refused=_("; ").join(refused) or None,
    )
    return _worded(change, _)


def _moved(
    wanted: MeasureWanted,
    before: Photo,
    after: Photo,
    align_on: tuple[str, ...],
    _: Translate,
    placing: float,
    laid: Laid | None,
) -> MeasuredChange:
    assert wanted.mark is not None
    earlier, later = dict(before.marks), dict(after.marks)
    try:
        found: Movement = (
            movement(earlier, later, align_on, wanted.mark, after.scale, placing)
            if laid is None
            else movement_laid(earlier, later, laid, wanted.mark, after.scale, placing)
        )
    except (CannotMeasure, CannotAlign) as reason:
        return _worded(MeasuredChange(wanted.name, refused=reason.why.say(_)), _)
    worse = max(found.right_uncertainty, found.up_uncertainty)
    moved = MeasuredChange(
        wanted.name,
        moved=(found.right, found.up),
        moved_uncertainty=worse,
        change_uncertainty=found.up_uncertainty,
    )
    return _worded(moved, _)


def _worded(change: MeasuredChange, _: Translate) -> MeasuredChange:
    told = change_told(change)
    return replace(change, told=told, words=told.say(_))


def change_in_words(change: MeasuredChange, _: Translate = str) -> str:
    """The change in plain words: "3.4 cm, now 11.1 cm (± 0.4)", "lowered by 29 cm (± 1)", or why nothing can be said.

    What stands after ± is twice the standard uncertainty (k = 2: about 95 in 100, JCGM 100:2008, 6.3.3); numbers are
    written no finer than it allows, and it is never written as 0.
    """
    return change_told(change).say(_)


def change_told(change: MeasuredChange) -> Reason:
    """The same apart from any language: a walk may be given in another one than the pages."""
    if change.moved is not None and change.moved_uncertainty is not None:
        worse = change.moved_uncertainty
        up = worse if change.change_uncertainty is None else change.change_uncertainty
        return _movement_told(*change.moved, worse * COVERAGE, up * COVERAGE)
    if change.before is not None and change.after is not None:
        return _lengths_told(change)
    if change.before is not None and change.before_uncertainty is not None:
        told = _in_cm(change.before, change.before_uncertainty * COVERAGE)
        return because(N_("then %(length)s; what it is now cannot be measured"), length=told)
    if change.after is not None and change.after_uncertainty is not None:
        told = _in_cm(change.after, change.after_uncertainty * COVERAGE)
        return because(N_("now %(length)s; what it was cannot be measured"), length=told)
    return because(N_("cannot be measured: %(why)s"), why=change.refused or because(N_("no marks")))


def _movement_told(right: float, up: float, worse: float, within_up: float) -> Reason:
    """worse, within_up: what is left open of the worse of the two ways, and of the way up as programs judge it."""
    parts = []
    aside = abs(right) > worse
    within = worse if aside or abs(up) <= within_up else within_up
    if abs(up) > within_up:
        way = N_("raised by %(length)s") if up > 0 else N_("lowered by %(length)s")
        parts.append(because(way, length=_cm(abs(up), within)))
    if aside:
        way = N_("moved %(length)s to the right") if right > 0 else N_("moved %(length)s to the left")
        parts.append(because(way, length=_cm(abs(right), within)))
    if not parts:
        return because(N_("no change that can be measured (± %(length)s)"), length=f"{plus_minus(within)} cm")
    said = because(N_("%(one)s and %(other)s"), one=parts[0], other=parts[1]) if len(parts) == 2 else parts[0]
    return because(_WITHIN, said=said, within=plus_minus(within))


def _lengths_told(change: MeasuredChange) -> Reason:
    assert change.before is not None and change.after is not None
    first, second = change.before_uncertainty or 0.0, change.after_uncertainty or 0.0
    of_change = change.change_uncertainty
    within = COVERAGE * (math.hypot(first, second) if of_change is None else of_change)
    if abs(change.after - change.before) <= within:
        length = _in_cm(change.after, second * COVERAGE)
        return because(N_("%(length)s, no change that can be measured"), length=length)
    worse = max(first, second) * COVERAGE
    both = because(N_("%(before)s, now %(after)s"), before=_cm(change.before, worse), after=_cm(change.after, worse))
    told = because(_WITHIN, said=both, within=plus_minus(worse))
    grown = change.after - change.before
    if abs(grown) > worse:
        return told
    # What both lengths share, such as one scale, tells less in their difference than in either of them.
    more, less = N_("%(lengths)s: %(change)s more (± %(within)s)"), N_("%(lengths)s: %(change)s less (± %(within)s)")
    of_both = {"change": _cm(abs(grown), within), "within": plus_minus(within)}
    return because(more if grown > 0 else less, lengths=told, **of_both)


def _in_cm(value: float, within: float) -> Reason:
    return because(_WITHIN, said=_cm(value, within), within=plus_minus(within))


def _cm(value: float, within: float) -> str:
    unit, places = _last_place(within)
    return f"{round(value / unit) * unit:.{places}f} cm"


def plus_minus(within: float) -> str:
    """An uncertainty in centimetres, rounded like its value; never 0, never made to look smaller than it is."""
    unit, places = _last_place(within)
    steps = math.floor(within / unit + 1e-9)
    if steps * unit < within * (1 - _ROUNDED_DOWN):
        steps += 1
    return f"{max(steps, 1) * unit:.{places}f}"


def _last_place(within: float) -> tuple[float, int]:
    """To what a number is rounded that is known within so much, in centimetres, and with how many decimals."""
    if within < _WHOLE:
        return 0.1, 1
    unit = 1.0
    while within >= 100 * _WHOLE * unit:
        unit *= 10
    return unit, 0
