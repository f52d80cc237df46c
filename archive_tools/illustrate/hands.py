"""The hands that worked on a tree, as marks on a row of their own under the line of stewards.

Every dated piece of work has its mark. Words are given to as many as have room, the weightiest first: on a phone in
two rows, on a wider page in three and with the names of those who did it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from archive_tools.illustrate.bars import Bar, bar, fades, vague
from archive_tools.illustrate.change import Translate
from archive_tools.illustrate.period_words import first_day, names
from archive_tools.illustrate.svg_frame import group, words
from archive_tools.illustrate.svg_text import NARROW, WIDE, Run, Text, about, percent, pixels
from archive_tools.illustrate.year_axis import YearAxis
from archive_tools.model.findings import Hand
from archive_tools.model.kinds import KINDS, Group
from archive_tools.model.people import Steward

_DESIGN = frozenset(
    {
        "styled", "front changed", "planting angle changed", "bent", "branch removed", "carved", "deadwood made",
        "grafted on", "divided", "layer set",
    }
)  # fmt: skip
"""Work that changed what the tree is; named before the work that keeps it so."""
_LASTING = frozenset({"repotted", "planted out", "lifted", "demonstrated", "cut back", "wired", "guyed", "pruned"})
"""Work that a visitor may still see after some years; what is done every season has its mark and no words."""
_SEASONAL = 3
_NARROW_ROWS, _WIDE_ROWS = 2, 3
_BETWEEN = 10.0
"""Pixels kept free between two labels of a row."""
_AGAIN = 0.12
"""The same work nearer than this share of the width is said once."""
_SAME_MARK = 0.006
"""Marks nearer than this share of the width are one mark."""
_HEAD, _MARK, _LABEL, _NAME, _ROW = 18.0, 28.0, 62.0, 20.0, 46.0
"""Pixels from the top: baseline of the head, top of the marks, first baseline of labels; then to name and next row."""


@dataclass(frozen=True, slots=True)
class HandsRow:
    """The row as SVG, and its height in pixels."""

    markup: str
    height: float
    texts: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class _Mark:
    x: float
    vague: Bar | None
    hands: tuple[Hand, ...]

    @property
    def main(self) -> Hand:
        return min(self.hands, key=lambda hand: _weight(hand.kind))


_Labelled = tuple[_Mark, tuple[Text, ...]]


def drawn_days(hands: Iterable[Hand], as_of: date) -> list[date]:
    """The days that the row has to show, for the line of years to hold."""
    return [day for hand in hands if hand.bounds.known for day in _days(hand, as_of)]


def hands_row(
    hands: Iterable[Hand],
    stewards: Mapping[str, Steward],
    axis: YearAxis,
    as_of: date,
    top: float,
    prefix: str,
    language: str = "",
    _: Translate = str,
) -> HandsRow | None:
    """The row of hands with its top at `top` pixels, or None when no work is dated. `prefix` names the fades."""
    marks = _marks(hands, axis, as_of)
    if not marks:
        return None
    labels, leaders = _labels(marks, stewards, top, language, _)
    head = Text((Run(_("Hands"), "gap-word"),), 0.0, top + _HEAD)
    y = top + _MARK
    drawn = "".join(_drawn(mark, y, prefix) for mark in marks)
    bottom = max((text.y for text in labels), default=y + 16)
    texts = (head, *labels)
    return HandsRow(group(words([head]), drawn, leaders, words(labels)), bottom - top + 14, texts)


def _days(hand: Hand, as_of: date) -> tuple[date, date]:
    low, high = vague(hand.bounds, is_end=False, otherwise=as_of)
    return min(low, as_of), min(high, as_of)


def _marks(hands: Iterable[Hand], axis: YearAxis, as_of: date) -> list[_Mark]:
    marks: list[_Mark] = []
    for hand in sorted((hand for hand in hands if hand.bounds.known), key=lambda hand: first_day(hand.bounds)):
        low, high = _days(hand, as_of)
        x = (axis.at(low) + axis.at(high)) / 2
        spread = bar((low, low), (high, high), axis) if high > low else None
        near = next((at for at, mark in enumerate(marks) if abs(mark.x - x) < _SAME_MARK), None)
        if near is None:
            marks.append(_Mark(x, spread, (hand,)))
        else:
            known = marks[near]
            marks[near] = _Mark(known.x, known.vague and spread, (*known.hands, hand))
    return marks


def _drawn(mark: _Mark, y: float, prefix: str) -> str:
    line = f'<line class="hand" x1="{percent(mark.x)}" x2="{percent(mark.x)}" y1="{pixels(y)}" y2="{pixels(y + 16)}"/>'
    if mark.vague is None:
        return line
    low, high = mark.vague.low, mark.vague.high
    return "".join(fades(Bar(low, mark.x, mark.x, high), prefix, y + 7, 2)) + line


def _labels(
    marks: list[_Mark], stewards: Mapping[str, Steward], top: float, language: str, _: Translate
) -> tuple[list[Text], str]:
    """The words under the marks, left to right, and the hairlines that lead to the lower rows."""
    rows: list[list[_Labelled]] = [[] for _row in range(_WIDE_ROWS)]
    told = [mark for mark in marks if _weight(mark.main.kind) < _SEASONAL] or marks
    waiting = sorted(told, key=lambda mark: (_weight(mark.main.kind), mark.x))
    for minor, room, allowed in ((False, NARROW, _NARROW_ROWS), (True, WIDE, _WIDE_ROWS)):
        for mark in list(waiting):
            if _said_beside(mark, rows):
                continue
            for at in range(allowed):
                label = _label(mark, stewards, top + _LABEL + at * _ROW, room, language, _, minor=minor)
                if label[0].width <= room and all(_free(label, other) for _mark, other in rows[at]):
                    rows[at].append((mark, label))
                    waiting.remove(mark)
                    break
    leaders = "".join(_leader(mark, label, top) for row in rows[1:] for mark, label in row)
    in_order = (label for row in rows for _mark, label in sorted(row, key=lambda one: one[0].x))
    return [text for label in in_order for text in label], leaders


def _leader(mark: _Mark, label: tuple[Text, ...], top: float) -> str:
    css = "grid minor" if label[0].minor else "grid"
    x, y1, y2 = percent(mark.x), pixels(top + _MARK + 16), pixels(label[0].y - 15)
    return f'<line class="{css}" x1="{x}" x2="{x}" y1="{y1}" y2="{y2}"/>'


def _said_beside(mark: _Mark, rows: list[list[_Labelled]]) -> bool:
    """Whether a mark near this one already says the same work: pots are changed again and again."""
    return any(
        abs(other.x - mark.x) < _AGAIN and other.main.kind == mark.main.kind for row in rows for other, _label in row
    )


def _label(
    mark: _Mark, stewards: Mapping[str, Steward], y: float, room: float, language: str, _: Translate, *, minor: bool
) -> tuple[Text, ...]:
    kind = about(Run(_(mark.main.kind)), mark.x, y, room, minor=minor)
    run = Run(names(mark.main.stewards, stewards, language, _))
    if not run.words or run.width > WIDE:
        return (kind,)
    below = Text((run,), kind.x, y + _NAME, anchor=kind.anchor, minor=True)
    left, right = below.ends(WIDE)
    return kind, below if left >= 0 and right <= WIDE else about(run, mark.x, y + _NAME, WIDE, minor=True)


def _free(label: tuple[Text, ...], other: tuple[Text, ...]) -> bool:
    """Whether two labels of a row keep clear of each other, on the narrowest phone and on the narrowest wide page.

    From there on they only move apart.
    """
    phone, other_phone = (tuple(text for text in one if not text.minor) for one in (label, other))
    return _clear(phone, other_phone, NARROW) and _clear(label, other, WIDE)


def _clear(label: tuple[Text, ...], other: tuple[Text, ...], across: float) -> bool:
    if not label or not other:
        return True
    ends, other_ends = ([text.ends(across) for text in one] for one in (label, other))
    return max(right for _left, right in ends) + _BETWEEN <= min(left for left, _right in other_ends) or max(
        right for _left, right in other_ends
    ) + _BETWEEN <= min(left for left, _right in ends)


def _weight(kind: str) -> int:
    known = KINDS.get(kind)
    if known is not None and known.group in (Group.BEGINNING, Group.PLANTING):
        return 0
    return 1 if kind in _DESIGN else 2 if kind in _LASTING else _SEASONAL
