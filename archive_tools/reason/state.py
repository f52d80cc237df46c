"""Where a tree stands on the as-of day: in the house, lent, given away, dead; on display or not."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from archive_tools.model.event import Event
from archive_tools.model.findings import Bounds, CustodyPeriod, TreeState
from archive_tools.model.tree import Tree

Happened = tuple[Event, Bounds, Bounds | None]

_LAST_WORD = {"died": "died", "missing": "missing", "stolen": "stolen", "given away": "given away", "sold": "sold"}
_UNDONE_BY_FINDING = frozenset({"missing", "stolen"})
_UNDONE_BY_COMING_BACK = frozenset({"given away", "sold"})
_OFF_DISPLAY = frozenset({"moved", "exhibited", "loan", "rested", "wintered", "quarantine", *_LAST_WORD})


def state_of(
    tree: Tree, past: Sequence[Happened], periods: Sequence[CustodyPeriod], custodian: str, as_of: date
) -> TreeState:
    """The state that follows from what has happened by `as_of` (events in order of time, none of them planned)."""
    word = _word(past, periods, custodian)
    here = word in ("in collection", "on loan here")
    shown, place = _standing_place(tree, past, as_of)
    return TreeState(in_collection=here, word=word, on_display=here and shown, place=place if here else None)


def _word(past: Sequence[Happened], periods: Sequence[CustodyPeriod], custodian: str) -> str:
    last = ""
    for event, _, _ in past:
        if event.kind in _LAST_WORD:
            last = _LAST_WORD[event.kind]
            continue
        undone = event.kind == "found again" if last in _UNDONE_BY_FINDING else custodian in event.to
        if undone and last in _UNDONE_BY_FINDING | _UNDONE_BY_COMING_BACK:
            last = ""
    if last:
        return last
    open_loans = [period for period in periods if not period.owner and period.end is None]
    if any(custodian in loan.holders for loan in open_loans):
        return "on loan here"
    if any(custodian in loan.lent_by for loan in open_loans):
        return "on loan elsewhere"
    return _gone(periods, custodian) or "in collection"


def _gone(periods: Sequence[CustodyPeriod], custodian: str) -> str:
    """How it went where the house owned it once and no longer does, however that is written; else ""."""
    owned = [period for period in periods if period.owner]
    if not owned or owned[-1].end is not None or custodian in owned[-1].holders:
        return ""
    if not any(custodian in period.holders for period in owned):
        return ""
    return "sold" if owned[-1].how in ("purchase", "sold") else "given away"


def _standing_place(tree: Tree, past: Sequence[Happened], as_of: date) -> tuple[bool, str | None]:
    """Whether the tree is on display, and the place it was last said to stand in (else its usual place)."""
    shown, place = False, tree.place
    for event, _, until in past:
        is_over = until is not None and until.latest is not None and until.latest < as_of
        if event.kind == "on display":
            shown = not is_over
            place = event.at or place if shown else tree.place
        elif event.kind in _OFF_DISPLAY and not is_over:
            shown = False
            place = event.at or tree.place if event.kind == "moved" else place
    return shown, place
