"""Stewards who are named but not recorded, and what a steward's own record says of others."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from archive_tools.check.telling import (
    error,
    in_event,
    in_note,
    in_photo,
    in_value,
    left_out,
    likely_slip,
    looks_like_an_id,
    stops,
)
from archive_tools.check.walk import all_events, all_notes, all_photos
from archive_tools.model.collection import Collection
from archive_tools.model.people import Steward
from archive_tools.model.problems import Problem
from archive_tools.model.vocabulary import folded, nearest

RULE = "unknown-steward"
_EVENT_KEYS = (("by", "by"), ("from_", "from"), ("to", "to"), ("with_", "with"))


class _Known:
    """The ids of all stewards, and the names they go by."""

    def __init__(self, stewards: Iterable[Steward]) -> None:
        self.ids: list[str] = []
        self.by_name: dict[str, str] = {}
        for steward in stewards:
            self.ids.append(steward.id)
            names = (*steward.name.all_texts, *(name for _, name in steward.names), *steward.aliases)
            for name in names:
                self.by_name.setdefault(folded(name), steward.id)
        self._all = frozenset(self.ids)

    def fault(self, written: str) -> tuple[str, str | None] | None:
        """What is wrong with a steward as written, and what to write; None for a known id or plain text."""
        if written in self._all:
            return None
        if folded(written) in self.by_name:
            return f"a steward is written by id, and “{written}” is a name", self.by_name[folded(written)]
        if not looks_like_an_id(written):
            return None
        return f"there is no steward “{written}”", nearest(written, self.ids) or f"a new file stewards/{written}.yml"

    def fault_in_credit(self, written: str) -> tuple[str, str | None] | None:
        """The same where somebody is credited: a name says enough there."""
        return None if folded(written) in self.by_name else self.fault(written)

    def fault_in_loose_text(self, written: str) -> tuple[str, str | None] | None:
        """The same where plain text is just as usual: only what is likely a slip is a fault."""
        near = None if written in self._all else likely_slip(written, self.ids)
        return None if near is None else (f"there is no steward “{written}”", near)


def unknown_in_events(collection: Collection) -> Iterator[Problem]:
    """`by`, `from`, `to`, `with` of an event, and whoever gave its award."""
    known = _Known(collection.stewards.values())
    for owner, event in all_events(collection):
        for name, key in _EVENT_KEYS:
            for index, written in enumerate(getattr(event, name)):
                if fault := known.fault(written):
                    yield in_event(owner, event, (key, index), RULE, *fault)
        if event.awarded_by and (fault := known.fault_in_loose_text(event.awarded_by)):
            yield in_event(owner, event, ("awarded_by",), RULE, *fault)


def unknown_in_notes(collection: Collection) -> Iterator[Problem]:
    """`by` of a note that carries no event (a note's event has it too, and is told once)."""
    known = _Known(collection.stewards.values())
    for tree, note in all_notes(collection):
        for index, written in enumerate(note.by):
            if fault := known.fault(written):
                yield in_note(tree.accession, note, ("by", index), RULE, *fault)


def unknown_in_photographs(collection: Collection) -> Iterator[Problem]:
    """Who took a photograph, holds it or its rights, and is in it."""
    known = _Known(collection.stewards.values())
    for tree, photo in all_photos(collection):
        if photo.photographer and (fault := known.fault_in_credit(photo.photographer)):
            yield in_photo(tree.accession, photo, ("photographer",), RULE, *fault)
        for key in ("rights_holder", "held_by"):
            written: str | None = getattr(photo, key)
            if written and (fault := known.fault_in_loose_text(written)):
                yield in_photo(tree.accession, photo, (key,), RULE, *fault)
        for index, person in enumerate(photo.people):
            if fault := known.fault_in_loose_text(person):
                yield in_photo(tree.accession, photo, ("people", index), RULE, *fault)


def unknown_in_stewards(collection: Collection) -> Iterator[Problem]:
    """`taught_by`, `members` and `member_of` of a steward."""
    known = _Known(collection.stewards.values())
    for steward in collection.stewards.values():
        record = ("steward", steward.id)
        for index, taught in enumerate(steward.taught_by):
            if fault := known.fault(taught.who):
                mark = steward.where.at("taught_by", index, "who")
                yield in_value(mark, record, f"taught_by/{index}", RULE, *fault)
        for key in ("members", "member_of"):
            for index, written in enumerate(getattr(steward, key)):
                if fault := known.fault(written):
                    yield in_value(steward.where.at(key, index), record, f"{key}/{index}", RULE, *fault)


def unknown_in_things(collection: Collection) -> Iterator[Problem]:
    """Makers of sources, makers and owners of objects, givers of numbers, holders of kin, speakers of talks."""
    known = _Known(collection.stewards.values())
    for source in collection.sources.values():
        for index, written in enumerate(source.made_by):
            if fault := known.fault_in_credit(written):
                mark = source.where.at("made_by", index)
                yield in_value(mark, ("source", source.id), f"made_by/{index}", RULE, *fault)
    for thing in collection.objects.values():
        for key in ("maker", "owner"):
            named: str | None = getattr(thing, key)
            if named and (fault := known.fault_in_credit(named)):
                yield in_value(thing.where.at(key), ("object", thing.id), key, RULE, *fault)
    for tree in collection.trees.values():
        for index, number in enumerate(tree.other_numbers):
            if number.given_by and (fault := known.fault_in_loose_text(number.given_by)):
                yield error(tree.where.at("other_numbers", index, "given_by"), RULE, *fault)
        for index, kin in enumerate(tree.kin):
            if kin.holder and (fault := known.fault_in_loose_text(kin.holder)):
                yield error(tree.where.at("kin", index, "holder"), RULE, *fault)
    for talk in collection.talks.values():
        if talk.speaker and (fault := known.fault_in_credit(talk.speaker)):
            yield left_out(talk.where, ("speaker",), (talk.id, "talk", talk.id), RULE, *fault)


def unknown_custodian(collection: Collection) -> Iterator[Problem]:
    """The house itself: without its steward nothing can be said of arrivals."""
    custodian = collection.settings.custodian
    if custodian not in collection.stewards:
        what = f"the custodian is a steward of its own, and there is no steward “{custodian}”"
        near = _Known(collection.stewards.values())
        instead = (near.fault(custodian) or ("", None))[1] or f"a new file stewards/{custodian}.yml"
        yield stops(collection.settings.where.at("custodian"), RULE, what, instead)


def death_before_birth(collection: Collection) -> Iterator[Problem]:
    """A steward who certainly died before being born."""
    for steward in collection.stewards.values():
        born, died = steward.born, steward.died
        if born and died and born.earliest and died.latest and died.latest < born.earliest:
            what = f"{steward.id} died ({died.text}) before being born ({born.text})"
            yield error(steward.where.at("died"), "died-before-born", what, "the right one of the two dates")
