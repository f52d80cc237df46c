"""The lines of all trees of an edition: each with what the other records tell of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from archive_tools.model.collection import Collection
from archive_tools.model.findings import Custody, TreeChronology
from archive_tools.model.lineage import MemberSpell
from archive_tools.reason.custody import custody_from
from archive_tools.reason.lineage.elsewhere_told import as_member, exchanged
from archive_tools.reason.lineage.ends import People
from archive_tools.reason.lineage.happened import Dated, happened, is_turn
from archive_tools.reason.lineage.members import COME, GO, Planting, planting_of

Past = Mapping[str, Sequence[Dated]]


@dataclass(frozen=True, slots=True)
class Trees:
    """What was worked out for every tree: events with their bounds, plantings, spells by member, custody."""

    past: Past
    plantings: Mapping[str, Planting]
    spells: Mapping[str, Sequence[MemberSpell]]
    custodies: Mapping[str, Custody]


def lines_of_trees(
    collection: Collection, chronologies: Mapping[str, TreeChronology], as_of: date, people: People
) -> Trees:
    """Custody and membership of every tree of an edition, from graded records and the chronologies solved from them."""
    past = {a: happened(tree.events, chronologies.get(a), as_of) for a, tree in collection.trees.items()}
    plantings = {
        a: planting_of(tree, past[a], past)
        for a, tree in collection.trees.items()
        if tree.members or any(d.event.trees and d.event.kind in COME | GO for d in past[a])
    }
    spells: dict[str, list[MemberSpell]] = {}
    for planting in plantings.values():
        for spell in planting.spells:
            if spell.tree is not None and spell.tree != spell.planting:
                spells.setdefault(spell.tree, []).append(spell)
    told = exchanged(past)
    custodies: dict[str, Custody] = {}
    turns: dict[str, list[Dated]] = {}
    for accession in _plantings_first(past, spells):
        more = list(told.get(accession, ()))
        for spell in spells.get(accession, ()):
            if spell.planting in custodies:
                periods = custodies[spell.planting].periods
                more += as_member(spell, turns[spell.planting], periods, [*past[accession], *more])
        tree = collection.trees[accession]
        custodies[accession] = custody_from(tree, past[accession], more, collection.settings.custodian, as_of, people)
        if accession in plantings:
            turns[accession] = [*(d for d in past[accession] if is_turn(d) or d.event.kind in COME), *more]
    return Trees(past, plantings, spells, {accession: custodies[accession] for accession in past})


def _plantings_first(past: Past, spells: Mapping[str, Sequence[MemberSpell]]) -> list[str]:
    """Every accession, each after the plantings it stands in; a circle of plantings is broken where it is met."""
    ordered: dict[str, None] = {}
    for start in past:
        way, on_way = [(start, iter(spells.get(start, ())))], {start}
        while way:
            accession, ahead = way[-1]
            planting = next((s.planting for s in ahead if s.planting not in ordered and s.planting not in on_way), None)
            if planting is None:
                ordered[accession] = None
                on_way.discard(accession)
                way.pop()
            else:
                on_way.add(planting)
                way.append((planting, iter(spells.get(planting, ()))))
    return list(ordered)
