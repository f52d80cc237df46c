"""All lineages that follow from one set of records."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date

from archive_tools.model.collection import Collection
from archive_tools.model.findings import TreeChronology
from archive_tools.model.lineage import Elsewhere, Lineage, Lines
from archive_tools.reason.lineage.ends import People
from archive_tools.reason.lineage.kinship import descent
from archive_tools.reason.lineage.members import Planting
from archive_tools.reason.lineage.stewards import steward_lines
from archive_tools.reason.lineage.teaching import ties_of
from archive_tools.reason.lineage.telling import Teller
from archive_tools.reason.lineage.things import object_lines, pots_by_tree
from archive_tools.reason.lineage.trees import lines_of_trees

_NO_PLANTING = Planting((), ())


def lineages(
    collection: Collection,
    chronologies: Mapping[str, TreeChronology],
    as_of: date,
    translate: Callable[[str], str] = str,
) -> Lines:
    """Custody, kinship, things, teaching and stewards of an edition in order of time, and the trees' lines in words.

    Takes graded records, cut down to what one edition may show, and the chronologies solved from exactly those.
    """
    people = People.of(collection.stewards)
    trees = lines_of_trees(collection, chronologies, as_of, people)
    came, gave = descent(trees.past, collection.trees)
    objects = object_lines(collection, trees.past, as_of, people)
    pots = pots_by_tree(objects)
    teaching = ties_of(collection.stewards)
    teller = Teller(collection, trees.past, chronologies, people, as_of, translate)
    found = {}
    for accession, tree in collection.trees.items():
        planting = trees.plantings.get(accession, _NO_PLANTING)
        lineage = Lineage(
            accession=accession,
            came_from=tuple(came.get(accession, ())),
            gave_rise_to=tuple(gave.get(accession, ())),
            members=planting.spells,
            part_of=tuple(trees.spells.get(accession, ())),
            versions=planting.versions,
            elsewhere=tuple(Elsewhere(kin.text, kin.holder, kin.url) for kin in tree.kin),
            objects=tuple(pots.get(accession, ())),
        )
        found[accession] = teller.told(lineage, trees.custodies[accession])
    stewards = steward_lines(collection.stewards, trees.custodies, objects, teaching, as_of)
    return Lines(trees.custodies, found, objects, teaching, stewards)
