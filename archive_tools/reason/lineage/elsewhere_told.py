"""What one record tells of the custody of another thing: the other side of an exchange, and a planting's members."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from archive_tools.model.findings import CustodyPeriod
from archive_tools.model.kinds import KINDS
from archive_tools.model.lineage import MemberSpell
from archive_tools.reason.lineage.happened import Dated, certainly_before, order_of


def exchanged(past: Mapping[str, Sequence[Dated]]) -> dict[str, list[Dated]]:
    """By accession: the exchanges in which a tree was given in return, as another tree's record tells them.

    An exchange of which the tree's own record tells too is not told twice, nor one that two others tell of: the first
    by accession does, whichever file was read first.
    """
    told: dict[str, list[Dated]] = {}
    for accession, events in sorted(past.items()):
        for d in events:
            if d.event.kind != "exchange" or not (d.event.from_ or d.event.to):
                continue
            for reference in d.event.trees:
                other = reference.accession
                if other is None or other == accession or other not in past:
                    continue
                passes = (d.event.to, d.event.from_, "exchange")
                mirrored = Dated(d.event, d.bounds, d.until, f"{accession}#{d.event.id}", passes)
                if not _told_already(mirrored, [*past[other], *told.get(other, ())]):
                    told.setdefault(other, []).append(mirrored)
    return told


def as_member(
    spell: MemberSpell, planting: Sequence[Dated], periods: Sequence[CustodyPeriod], own: Sequence[Dated]
) -> list[Dated]:
    """While a plant stands in a planting it goes where the planting goes: what that record tells, for the plant.

    planting: the custody events of the planting; periods: its owners; own: what the plant's own record tells.
    """
    told = []
    joined = next((d for d in planting if d.told_as == spell.joined), None)
    holders = _holders_at(periods, spell)
    if joined is not None and holders:
        giver = tuple(one for one in (*joined.event.from_, *joined.event.by) if one not in holders)
        known = {one for d in own for one in (*d.event.by, *d.event.to)}
        giver = tuple(one for one in giver if one in known)
        told.append(
            Dated(joined.event, joined.bounds, joined.until, f"{spell.planting}#{joined.event.id}",
                  (giver, holders, "planting"))
        )  # fmt: skip
    for d in planting:
        kind = KINDS[d.event.kind]
        if kind.custody not in ("acquired", "ends", "loan") or not _during(d, spell):
            continue
        name = d.told_as if "#" in d.told_as else f"{spell.planting}#{d.told_as}"
        passes = d.passes or ((d.event.from_, d.event.to, d.event.kind) if kind.custody != "loan" else None)
        mirrored = Dated(d.event, d.bounds, d.until, name, passes)
        if not _told_already(mirrored, own):
            told.append(mirrored)
    return told


def _holders_at(periods: Sequence[CustodyPeriod], spell: MemberSpell) -> tuple[str, ...]:
    """Who owned the planting when the plant was set in it."""
    there = [p for p in periods if p.owner and p.holders and order_of(p.start) <= order_of(spell.start)]
    return there[-1].holders if there else ()


def _during(d: Dated, spell: MemberSpell) -> bool:
    if spell.start.known and d.key < order_of(spell.start):
        return False
    return spell.end is None or not spell.end.known or d.key < order_of(spell.end)


def _told_already(told: Dated, own: Iterable[Dated]) -> bool:
    """Whether a record has the same change of hands itself: the same receiver or giver, on what may be the same day."""
    giver, receiver, _ = told.passes or (told.event.from_, told.event.to, "")
    for d in own:
        if not KINDS[d.event.kind].custody and not d.passes:
            continue
        gave, got, _ = d.passes or (d.event.from_, d.event.to, "")
        same = (set(giver) & set(gave)) or (set(receiver) & set(got))
        if same and not certainly_before(d.bounds, told.bounds) and not certainly_before(told.bounds, d.bounds):
            return True
    return False
