"""What a tree came of, and what came of it: by cutting, layer, seed, graft and division, by merging and splitting."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from archive_tools.model.lineage import Kinship
from archive_tools.model.tree import Tree
from archive_tools.reason.lineage.happened import Dated, order_of

RELATIONS: Mapping[str, str] = {
    "sown": "seed",
    "germinated": "seed",
    "struck": "cutting",
    "layer severed": "layer",
    "raised from graft": "graft",
    "raised from division": "division",
    "merged": "merged",
    "split off": "split off",
}
"""What the younger plant was of the older, by the kind of event that made it so."""


def descent(
    past: Mapping[str, Sequence[Dated]], trees: Mapping[str, Tree]
) -> tuple[dict[str, list[Kinship]], dict[str, list[Kinship]]]:
    """Two tables by accession: what each tree came from, and what came of each, both in order of time."""
    came: dict[str, list[Kinship]] = {}
    gave: dict[str, list[Kinship]] = {}
    deaths = {a: d.bounds for a, events in past.items() for d in events if d.event.kind == "died"}
    for child, tie in _ties(past, trees):
        mother = tie.tree
        known = came.setdefault(child, [])
        if any(_same(tie, other) for other in known):
            continue
        known.append(replace(tie, ended=deaths.get(mother or "")))
        if mother is not None:
            gave.setdefault(mother, []).append(replace(tie, tree=child, text=None, ended=deaths.get(child)))
    for table in (came, gave):
        for ties in table.values():
            ties.sort(key=lambda tie: order_of(tie.bounds))
    return came, gave


def _same(tie: Kinship, other: Kinship) -> bool:
    """Whether one descent is told twice: sown and germinated, both of one mother."""
    return (tie.tree, tie.text) == (other.tree, other.text) and tie.relation == other.relation


def _ties(past: Mapping[str, Sequence[Dated]], trees: Mapping[str, Tree]) -> Iterator[tuple[str, Kinship]]:
    """(younger, tie to the older) of every event that makes one plant of another."""
    for accession, events in past.items():
        for d in events:
            event = d.event
            mother = event.from_tree.accession if event.from_tree else None
            if mother == accession or (mother is not None and mother not in past):
                mother = None
            if mother is not None or event.from_tree_text:
                relation = RELATIONS.get(event.kind, "plant")
                yield accession, _tie(d, mother, relation, d.told_as, event.from_tree_text)
            elif event.kind == "merged":
                for other in _named(d, past, trees[accession]):
                    yield accession, _tie(d, other, "merged", d.told_as)
            elif event.kind == "split off":
                for other in _named(d, past, trees[accession]):
                    yield other, _tie(d, accession, "split off", f"{accession}#{d.told_as}")


def _named(d: Dated, past: Mapping[str, Sequence[Dated]], planting: Tree) -> Iterable[str]:
    """The trees that an event of a planting names, by accession or as its members."""
    own = {member.id: member.accession for member in planting.members if member.accession}
    named = [own.get(one.accession, one.accession) for one in d.event.trees if one.accession]
    return [accession for accession in named if accession in past and accession != planting.accession]


def _tie(d: Dated, tree: str | None, relation: str, told_as: str, text: str | None = None) -> Kinship:
    event = d.event
    return Kinship(
        tree, relation, event.kind, d.bounds, told_as, event.standing, None if tree else text, event.sources, event.when
    )
