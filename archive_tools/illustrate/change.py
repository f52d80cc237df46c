"""What a comparison is asked to measure, measured, and said in plain words that claim no more than the numbers do."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace

from archive_tools.illustrate.alignment import Point
from archive_tools.illustrate.measure import PLACING, CannotMeasure, Length, length, movement
from archive_tools.model.photo import MeasureWanted, Photo
from archive_tools.model.pictures import MeasuredChange

COVERAGE = 2.0
"""A change is claimed only when it is larger than this many standard uncertainties.

About 95 in 100 (JCGM 100:2008, 6.3.3)."""

Translate = Callable[[str], str]


def measured_change(
    wanted: MeasureWanted,
    before: Photo,
    after: Photo,
    align_on: tuple[str, ...],
    _: Translate = str,
    placing: float = PLACING,
) -> MeasuredChange:
    """One measurement of a comparison, with its words. `align_on` are the marks both pictures are aligned on.

    Never raises for what a picture lacks: `refused` then says it.
    """
    if wanted.mark is not None:
        return _moved(wanted, before, after, align_on, _, placing)
    if wanted.from_mark is None or wanted.to_mark is None:
        return _worded(MeasuredChange(wanted.name, refused=_("two marks are needed for a length")), _)
    lengths: list[Length | None] = []
    refused = []
    for which, photo in ((_("the earlier picture"), before), (_("the later picture"), after)):
        try:
            lengths.append(length(dict(photo.marks), photo.scale, wanted.from_mark, wanted.to_mark, placing))
        except CannotMeasure as reason:
            lengths.append(None)
            refused.append(_("%(which)s cannot be measured: %(why)s") % {"which": which, "why": reason})
    first, second = lengths
    change = MeasuredChange(
        wanted.name,
        before=first.cm if first else None,
        after=second.cm if second else None,
        before_uncertainty=first.uncertainty if first else None,
        after_uncertainty=second.uncertainty if second else None,
        refused="; ".join(refused) or None,
    )
    return _worded(change, _)


def _moved(
    wanted: MeasureWanted, before: Photo, after: Photo, align_on: tuple[str, ...], _: Translate, placing: float
) -> MeasuredChange:
    assert wanted.mark is not None
    earlier: Mapping[str, Point] = dict(before.marks)
    try:
        found = movement(earlier, dict(after.marks), align_on, wanted.mark, after.scale, placing)
    except CannotMeasure as reason:
        return _worded(MeasuredChange(wanted.name, refused=str(reason)), _)
    worse = max(found.right_uncertainty, found.up_uncertainty)
    return _worded(MeasuredChange(wanted.name, moved=(found.right, found.up), moved_uncertainty=worse), _)


def _worded(change: MeasuredChange, _: Translate) -> MeasuredChange:
    return replace(change, words=change_in_words(change, _))


def change_in_words(change: MeasuredChange, _: Translate = str) -> str:
    """The change in plain words: "3.4 cm, now 11.1 cm (± 0.2)", "lowered by 9 cm (± 1)", or why nothing can be said.

    What stands after ± is the standard uncertainty (k = 1); numbers are written no finer than it allows.
    """
    if change.moved is not None and change.moved_uncertainty is not None:
        return _movement_in_words(*change.moved, change.moved_uncertainty, _)
    if change.before is not None and change.after is not None:
        return _lengths_in_words(change, _)
    if change.before is not None and change.before_uncertainty is not None:
        told = _in_cm(change.before, change.before_uncertainty)
        return _("then %(length)s; what it is now cannot be measured") % {"length": told}
    if change.after is not None and change.after_uncertainty is not None:
        told = _in_cm(change.after, change.after_uncertainty)
        return _("now %(length)s; what it was cannot be measured") % {"length": told}
    return _("cannot be measured: %(why)s") % {"why": change.refused or _("no marks")}


def _movement_in_words(right: float, up: float, uncertainty: float, _: Translate) -> str:
    parts = []
    if abs(up) > COVERAGE * uncertainty:
        way = _("raised by %(length)s") if up > 0 else _("lowered by %(length)s")
        parts.append(way % {"length": _cm(abs(up), uncertainty)})
    if abs(right) > COVERAGE * uncertainty:
        way = _("moved %(length)s to the right") if right > 0 else _("moved %(length)s to the left")
        parts.append(way % {"length": _cm(abs(right), uncertainty)})
    if not parts:
        return _("no change that can be measured (± %(length)s)") % {"length": _cm(uncertainty, uncertainty)}
    said = _("%(one)s and %(other)s") % {"one": parts[0], "other": parts[1]} if len(parts) == 2 else parts[0]
    return f"{said} (± {_number(uncertainty, uncertainty)})"


def _lengths_in_words(change: MeasuredChange, _: Translate) -> str:
    assert change.before is not None and change.after is not None
    first, second = change.before_uncertainty or 0.0, change.after_uncertainty or 0.0
    uncertainty = math.hypot(first, second)
    if abs(change.after - change.before) <= COVERAGE * uncertainty:
        return _("%(length)s, no change that can be measured") % {"length": _in_cm(change.after, second)}
    worse = max(first, second)
    words = {"before": _cm(change.before, worse), "after": _cm(change.after, worse)}
    return f"{_('%(before)s, now %(after)s') % words} (± {_number(worse, worse)})"


def _in_cm(value: float, uncertainty: float) -> str:
    return f"{_cm(value, uncertainty)} (± {_number(uncertainty, uncertainty)})"


def _cm(value: float, uncertainty: float) -> str:
    return f"{_number(value, uncertainty)} cm"


def _number(value: float, uncertainty: float) -> str:
    """To whole centimetres or to millimetres, as the uncertainty allows; an uncertainty is never rounded to 0."""
    if uncertainty >= 0.95:
        return f"{max(value, 0.0):.0f}"
    return f"{max(value, 0.1):.1f}" if value == uncertainty else f"{value:.1f}"
