"""Stewards, sources, objects and places an edition may not name, and what stands in their stead.

A masked thing keeps nothing of its own: no id, no name, no dates, no place in a file. Opaque ids are numbered in the
order in which the shown records mention them, so that they say nothing about the hidden names (not even how they sort).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace

from archive_tools.model.collection import Collection
from archive_tools.model.event import Citation
from archive_tools.model.grades import Edition, Visibility
from archive_tools.model.people import CollectionObject, Source, Steward
from archive_tools.model.places_in_files import Where
from archive_tools.model.words import Words

N_: Callable[[str], str] = str
"""Marks a message for the catalogue; it is translated where it is shown."""

NAME_WITHHELD = N_("name withheld")
SOURCE_WITHHELD = N_("a source that is not public")
OBJECT_WITHHELD = N_("not named")


def may_show(visibility: Visibility, edition: Edition) -> bool:
    """Whether a thing of this visibility is in the edition at all."""
    return visibility is Visibility.PUBLIC or (edition is Edition.INTERNAL and visibility is Visibility.INTERNAL)


def is_named(steward: Steward, edition: Edition) -> bool:
    """Whether the edition may name the steward: a `public_name` stands for the name in the public edition."""
    if edition is Edition.PUBLIC and steward.public_name is not None:
        return False
    return may_show(steward.effective, edition)


@dataclass(slots=True)
class Masks:
    """Hands out the stand-ins while the shown records are walked through once."""

    collection: Collection
    edition: Edition
    stewards: dict[str, Steward] = field(default_factory=dict)
    sources: dict[str, Source] = field(default_factory=dict)
    objects: dict[str, CollectionObject] = field(default_factory=dict)

    def steward(self, steward_id: str) -> str:
        """The id by which the edition knows this steward. Text that is no id is returned as it is."""
        steward = self.collection.stewards.get(steward_id)
        if steward is None or is_named(steward, self.edition):
            return steward_id
        if steward_id not in self.stewards:
            opaque = f"withheld-{len(self.stewards) + 1}"
            name = steward.public_name or Words.plain(NAME_WITHHELD)
            self.stewards[steward_id] = Steward(id=opaque, name=name, where=Where(""), kind="unknown", masked=True)
        return self.stewards[steward_id].id

    def all_stewards(self, ids: Iterable[str]) -> tuple[str, ...]:
        """The same for several."""
        return tuple(self.steward(steward_id) for steward_id in ids)

    def named_only(self, ids: Iterable[str]) -> tuple[str, ...]:
        """Those of these stewards whom the edition may name; the others left out."""
        known = self.collection.stewards
        return tuple(i for i in ids if i not in known or is_named(known[i], self.edition))

    def source(self, citation: Citation) -> Citation:
        """The citation, or a bare one of a masked source: shelf mark and quotation go with the source."""
        source = self.collection.sources.get(citation.source)
        if source is None or may_show(source.effective, self.edition):
            return citation
        if citation.source not in self.sources:
            opaque = f"withheld-source-{len(self.sources) + 1}"
            title = Words.plain(SOURCE_WITHHELD)
            self.sources[citation.source] = Source(id=opaque, title=title, kind="", where=Where(""), masked=True)
        return Citation(self.sources[citation.source].id)

    def object(self, object_id: str | None) -> str | None:
        """The id by which the edition knows this pot, tray, stand …"""
        thing = self.collection.objects.get(object_id or "")
        if thing is None or (may_show(thing.effective, self.edition) and not self._object_renamed(thing)):
            return object_id
        if thing.id not in self.objects:
            opaque = f"withheld-object-{len(self.objects) + 1}"
            name = thing.public_name or Words.plain(OBJECT_WITHHELD)
            self.objects[thing.id] = CollectionObject(
                id=opaque, name=name, where=Where(""), kind=thing.kind, masked=True
            )
        return self.objects[thing.id].id

    def is_object_shown(self, thing: CollectionObject) -> bool:
        """Whether the object itself is in the edition, by its own name."""
        return may_show(thing.effective, self.edition) and not self._object_renamed(thing)

    def place(self, place_id: str | None) -> str | None:
        """The place if the edition may name it, else None; text that is no place id is returned as it is."""
        place = self.collection.places.get(place_id or "")
        return place_id if place is None or may_show(place.effective, self.edition) else None

    def _object_renamed(self, thing: CollectionObject) -> bool:
        return self.edition is Edition.PUBLIC and thing.public_name is not None


def shown_stewards(masks: Masks) -> dict[str, Steward]:
    """The stewards of the edition: those it may name, whole, and the masked ones under their opaque ids."""
    shown = {}
    for steward_id, steward in masks.collection.stewards.items():
        if is_named(steward, masks.edition):
            shown[steward_id] = _without_hidden_ties(steward, masks)
    masked: Mapping[str, Steward] = {steward.id: steward for steward in masks.stewards.values()}
    return {**shown, **masked}


def _without_hidden_ties(steward: Steward, masks: Masks) -> Steward:
    # Ties to somebody who asked for silence would tell who they are by the company they keep: they are dropped.
    known = masks.collection.stewards
    taught = tuple(
        replace(tie, sources=tuple(map(masks.source, tie.sources)))
        for tie in steward.taught_by
        if tie.who in known and is_named(known[tie.who], masks.edition)
    )
    return replace(
        steward,
        members=masks.named_only(steward.members),
        member_of=masks.named_only(steward.member_of),
        taught_by=taught,
        sources=tuple(map(masks.source, steward.sources)),
    )
