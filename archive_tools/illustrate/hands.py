"""The hands that worked on a tree: a row each, with a mark on the line of years for every piece of work."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date

from archive_tools.illustrate.change import Translate
from archive_tools.illustrate.figure import Mark, Row, moment
from archive_tools.illustrate.period_words import first_day, listed, name_of, years
from archive_tools.illustrate.svg_text import Run
from archive_tools.illustrate.work_words import work_words
from archive_tools.model.findings import Bounds, Hand
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
_KEEPS, _SEASONAL = 2, 3
"""Weights: from the first on, work keeps what is there; from the second on it is done every season."""
_MOST_ROWS = 12
"""So many people have rows of their own; the others share the last."""
_NAMED_WORK = 4
"""So many sorts of work a row names."""
_UPRIGHT = 9
"""So many pieces of work have words where time runs down."""

_Piece = tuple[Hand, ...]
"""What one hand did at one time, the weightiest first."""


def hands_rows(
    hands: Iterable[Hand],
    stewards: Mapping[str, Steward],
    as_of: date,
    language: str = "",
    _: Translate = str,
) -> list[Row]:
    """A row for each who worked on it, by their first dated work; hands whose work has no date are not drawn.

    What several did together stands in the row of each. Those who are withheld are told by the same words, and are not
    told apart.
    """
    by_name: dict[str, list[Hand]] = {}
    for hand in sorted((hand for hand in hands if hand.bounds.known), key=_order):
        for name in dict.fromkeys(name_of(one, stewards, language, _) for one in hand.stewards) or ("",):
            by_name.setdefault(name, []).append(hand)
    whole = list(by_name.items())
    if len(whole) > _MOST_ROWS:
        rest = sorted((hand for _name, done in whole[_MOST_ROWS - 1 :] for hand in done), key=_order)
        more = len(whole) - _MOST_ROWS + 1
        whole = [*whole[: _MOST_ROWS - 1], (_("%(count)s others") % {"count": more}, rest)]
    works = [(name, _pieces(done)) for name, done in whole]
    told = _told(works)
    rows = []
    for at, (name, pieces) in enumerate(works):
        runs = (*((Run(name, "by"),) if name else ()), Run(_summary(whole[at][1], _)))
        marks = tuple(_mark(piece, name if (at, piece) in told else None, as_of, _) for piece in pieces)
        apart = _("Hands") if at == 0 else ""
        rows.append(Row("hands", runs, marks=marks, track="hands", marks_told=True, apart=apart))
    return rows


def drawn_days(hands: Iterable[Hand], as_of: date) -> list[date]:
    """The days of dated work, for the line of years to hold."""
    return [day for hand in hands if hand.bounds.known for day in moment(hand.bounds, as_of)]


def _order(hand: Hand) -> date:
    return first_day(hand.bounds)


def _pieces(done: list[Hand]) -> list[_Piece]:
    """The work of one hand, what was done at one time together, in order of time."""
    by_time: dict[Bounds, list[Hand]] = {}
    for hand in done:
        by_time.setdefault(hand.bounds, []).append(hand)
    return [tuple(sorted(hands, key=lambda hand: _weight(hand.kind))) for hands in by_time.values()]


def _mark(piece: _Piece, name: str | None, as_of: date, _: Translate) -> Mark:
    low, high = moment(piece[0].bounds, as_of)
    css = "hand" if _weight(piece[0].kind) < _KEEPS else "hand small"
    if name is None:
        return Mark(low, high, css)
    lasting = [hand for hand in piece if _weight(hand.kind) < _SEASONAL] or piece
    words = listed(list(dict.fromkeys(_word(hand.kind, _) for hand in lasting)), _)
    done = Run(f"{years(piece[0].bounds, _)} {words}")
    return Mark(low, high, css, (done, Run(name, "by")) if name else (done,))


def _told(works: list[tuple[str, list[_Piece]]]) -> list[tuple[int, _Piece]]:
    """The work that has words where time runs down, each with the row that says it: what matters most of each who
    worked on the tree, then what else changed it.
    """
    first = [min(((at, piece) for piece in pieces), key=_matters) for at, (_name, pieces) in enumerate(works)]
    others = [(at, piece) for at, (_name, pieces) in enumerate(works) for piece in pieces]
    others = [one for one in others if _matters(one)[0] < _KEEPS]
    told: list[tuple[int, _Piece]] = []
    for at, piece in (*sorted(first, key=_matters), *sorted(others, key=_matters)):
        near = any(piece == other or (piece[0].kind == other[0].kind and at == row) for row, other in told)
        if len(told) < _UPRIGHT and not near and (_weight(piece[0].kind) < _SEASONAL or not told):
            told.append((at, piece))
    return told


def _matters(one: tuple[int, _Piece]) -> tuple[int, date]:
    return _weight(one[1][0].kind), _order(one[1][0])


def _summary(done: list[Hand], _: Translate) -> str:
    """What somebody did: "first potted 1957, wired 1959, repotted 3 times and other work"."""
    by_kind: dict[str, list[Hand]] = {}
    for hand in done:
        by_kind.setdefault(hand.kind, []).append(hand)
    weighty = sorted(by_kind, key=lambda kind: (_weight(kind), _order(by_kind[kind][0])))
    named = [kind for kind in weighty if _weight(kind) < _SEASONAL][:_NAMED_WORK] or weighty[:2]
    said: list[tuple[list[str], str]] = []
    for kind in (kind for kind in by_kind if kind in named):
        word, when = _times(kind, by_kind[kind], _)
        if said and when and said[-1][1] == when:
            said[-1][0].append(word)
        else:
            said.append(([word], when))
    words = _(", ").join(" ".join(part for part in (listed(what, _), when) if part) for what, when in said)
    return words if len(by_kind) == len(named) else _("%(work)s and other work") % {"work": words}


def _times(kind: str, done: list[Hand], _: Translate) -> tuple[str, str]:
    """A sort of work, and when it was done if it was done once."""
    word = _word(kind, _)
    if len(done) == 1:
        return word, years(done[0].bounds, _)
    if len(done) == 2:
        return _("%(work)s twice") % {"work": word}, ""
    return _("%(work)s %(count)s times") % {"work": word, "count": len(done)}, ""


def _word(kind: str, _: Translate) -> str:
    return work_words(_).get(kind, _(kind))


def _weight(kind: str) -> int:
    known = KINDS.get(kind)
    if known is not None and known.group in (Group.BEGINNING, Group.PLANTING):
        return 0
    return 1 if kind in _DESIGN else 2 if kind in _LASTING else _SEASONAL
