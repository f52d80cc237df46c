"""Kinship and plantings in words: what a tree came of, what came of it, and what stood together when."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from archive_tools.model.findings import Bounds, TreeChronology
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.lineage import Kinship, Lineage, Version
from archive_tools.reason.chronology.wording import members_sentence
from archive_tools.reason.lineage import sayings as say
from archive_tools.reason.lineage.happened import order_of
from archive_tools.reason.lineage.names import Names
from archive_tools.reason.lineage.years import at, span

Translate = Callable[[str], str]


def kin_sentences(lineage: Lineage, names: Names, _: Translate) -> list[str]:
    """What it came of, then what came of it."""
    told = [_kin(say.RAISED, tie, names, _) for tie in lineage.came_from]
    return [*told, *(_kin(say.GAVE, tie, names, _) for tie in lineage.gave_rise_to)]


def _kin(table: Mapping[str, str], tie: Kinship, names: Names, _: Translate) -> str:
    other = names.tree(tie.tree) if tie.tree else (tie.text or "")
    when = at(tie.bounds, tie.when, _)
    said = _tidy(_(table.get(tie.relation, table["plant"])) % {"mother": other, "tree": other, "when": when})
    if tie.ended is not None:
        said = _tidy(_(say.WHICH_DIED) % {"sentence": said, "when": at(tie.ended, None, _)})
    return _stop(_doubted(said, tie.grade, _), _)


def planting_sentences(
    lineage: Lineage, names: Names, chronologies: Mapping[str, TreeChronology], _: Translate
) -> list[str]:
    """The versions of a planting, the ages of its plants apart from its own; the plantings a tree stands in."""
    told: list[str] = []
    counts = {spell.member: spell.count for spell in lineage.members}
    for version in lineage.versions:
        told.append(_version(version, counts, names, _))
        if version.taken_apart is not None:
            told.append(_stop(_tidy(_(say.APART) % {"when": at(version.taken_apart, None, _)}), _))
    own = _beginnings(lineage, chronologies)
    if own:
        told.append(_stop(_(say.OWN_AGES), _))
        told.append(_stop(members_sentence(own, _) or "", _))
    for spell in lineage.part_of:
        values = {"planting": names.tree(spell.planting), "span": span(spell.start, spell.end, _)}
        said = _tidy(_(say.STANDS_IN if spell.end is None else say.STOOD_IN) % values)
        if spell.place:
            said = _(say.AT_PLACE) % {"sentence": said, "place": spell.place.say(names.language)}
        told.append(_stop(said, _))
    return told


def _version(version: Version, counts: Mapping[str, int], names: Names, _: Translate) -> str:
    said = _tidy(_(say.PLANTED if version.number == 1 else say.REMADE) % {"when": at(version.start, version.when, _)})
    if version.by:
        said = _(say.BY) % {"sentence": said, "who": names.stewards(version.by)}
    plants = sum(counts.get(member, 1) for member in version.members)
    if plants:
        said = _(say.OF_ONE_PLANT if plants == 1 else say.OF_PLANTS) % {"sentence": said, "n": plants}
    return _stop(_doubted(said, version.grade, _), _)


def _beginnings(lineage: Lineage, chronologies: Mapping[str, TreeChronology]) -> list[str]:
    """What may be said of the origins of its plants that have records of their own, the oldest first."""
    found = []
    for tree in dict.fromkeys(spell.tree for spell in lineage.members if spell.tree):
        chronology = chronologies.get(tree)
        origin = chronology.milestones.get(Milestone.ORIGIN) if chronology else None
        if origin is not None and origin.wording:
            layers = [bounds for bounds in origin.layers.values() if bounds.known]
            found.append((order_of(layers[0] if layers else Bounds()), tree, origin.wording))
    return [wording for _order, _tree, wording in sorted(found)]


def _doubted(said: str, grade: Grade, _: Translate) -> str:
    return _(say.DOUBTED[grade]) % {"clause": said} if grade in say.DOUBTED else said


def _tidy(said: str) -> str:
    return " ".join(said.split()).replace(" ,", ",").replace(" :", ":").rstrip(" ,")


def _stop(said: str, _: Translate) -> str:
    """As a sentence: a full stop unless it ends with one."""
    said = f"{said[:1].upper()}{said[1:]}"
    return said if said.endswith((".", "!", "?", "。")) else _(say.STOP) % {"sentence": said}
