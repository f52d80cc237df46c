"""Small shapes of the Linked Art export that its records share: references, names, time-spans, statements."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from archive_tools.model.dates import WhenWritten
from archive_tools.model.event import Citation
from archive_tools.model.findings import Bounds
from archive_tools.model.grades import Grade
from archive_tools.model.people import Source, Steward
from archive_tools.publish.linked_art_context import PROVENANCE_STATEMENT
from archive_tools.publish.open_events import Told
from archive_tools.publish.open_models import Addresses, Node, iso, part, without_nothing

_GROUPS = frozenset({"club", "nursery", "institution", "couple", "family", "estate"})
_SEEN = frozenset({"photograph", "film"})


class Shapes:
    """The shapes of one edition."""

    def __init__(self, at: Addresses) -> None:
        self.at = at

    def kind(self, steward: Steward) -> str:
        """The class of a steward: "Actor" where nothing says whether it is a person or a group."""
        return "Group" if steward.kind in _GROUPS else "Person" if steward.kind == "person" else "Actor"

    def people(self, ids: Iterable[str], near: str, role: str) -> list[Node]:
        """References to stewards; whoever may not be named gets an address of this mention alone."""
        return [self._person(one, part(near, role, str(number))) for number, one in enumerate(ids, start=1)]

    def _person(self, steward_id: str, mention: str) -> Node:
        steward, address = self.at.records.stewards.get(steward_id), self.at.steward(steward_id)
        if steward is None or address is None:
            return {"id": mention, "type": "Actor", "_label": self.at.name(steward_id)}
        return {"id": address, "type": self.kind(steward), "_label": self.at.name(steward_id)}

    def actor(self, steward: Steward) -> Node:
        """The record of a person or group."""
        group = steward.kind in _GROUPS
        begun = "formed_by" if group else "born"
        ended = "dissolved_by" if group else "died"
        houses = [house for house in self.at.named() if self._belongs(steward, house)]
        person = steward.kind == "person"
        return without_nothing(
            {
                "id": self.at.steward(steward.id),
                "type": self.kind(steward),
                "_label": self.at.name(steward.id),
                "identified_by": [{"type": "Name", "content": text} for text in steward.name.all_texts],
                "member_of": [thing(self.at.steward(one.id), "Group", self.at.name(one.id)) for one in houses],
                begun: _of_life("Formation" if group else "Birth", steward.born) if group or person else None,
                ended: _of_life("Dissolution" if group else "Death", steward.died) if group or person else None,
            }
        )

    def joinings(self, steward: Steward) -> list[Node]:
        """How somebody came to belong to each of their groups: that they joined, and no more than that is known."""
        address, name = self.at.steward(steward.id), self.at.name(steward.id)
        found: list[Node] = []
        for house in self.at.named():
            group = self.at.steward(house.id)
            if group is not None and address is not None and self._belongs(steward, house):
                found.append(
                    {
                        "id": part(group, "joined", steward.id),
                        "type": "Joining",
                        "_label": f"{name} → {self.at.name(house.id)}",
                        "joined": thing(address, self.kind(steward), name),
                        "joined_with": thing(group, "Group", self.at.name(house.id)),
                    }
                )
        return found

    def _belongs(self, steward: Steward, house: Steward) -> bool:
        return house.kind in _GROUPS and (house.id in steward.member_of or steward.id in house.members)

    def source(self, source: Source) -> Node:
        """The record of a source."""
        title = source.title.say(self.at.language)
        return {
            **thing(self.at.source(source.id), source_class(source.kind), title),
            "identified_by": [{"type": "Name", "content": text} for text in source.title.all_texts],
        }

    def cited(self, citations: Iterable[Citation]) -> list[Node]:
        """References to the sources that may be shown; one that may not be is said to be there, in a statement."""
        found: list[Node] = []
        sources: Mapping[str, Source] = self.at.records.sources
        for cited in dict.fromkeys(citation.source for citation in citations):
            address = self.at.source(cited)
            if cited not in sources:
                continue
            title = sources[cited].title.say(self.at.language)
            if address is None:
                found.append({"type": "LinguisticObject", "content": title})
            else:
                found.append(thing(address, source_class(sources[cited].kind), title))
        return found

    def grade(self, grade: Grade) -> Node:
        """How far a statement can be relied on, as a type."""
        return thing(self.at.term(grade.word), "Type", grade.word)

    def told(self, told: Told) -> Node:
        """What every activity says of its event: its days, its sources, its grade."""
        return {
            "_label": told.kind,
            "classified_as": [self.grade(told.event.standing)],
            "timespan": timespan(told.bounds, told.until),
            "referred_to_by": self.cited(told.event.sources),
        }


def thing(address: str | None, sort: str, label: str) -> Node:
    """A reference: id, type and label, as the API asks for."""
    return {"id": address, "type": sort, "_label": label}


def statement(text: str) -> Node:
    """A provenance text."""
    return {"type": "LinguisticObject", "classified_as": [PROVENANCE_STATEMENT], "content": text}


def source_class(kind: str) -> str:
    """What a source is: something to look at, or something that says something."""
    return "VisualItem" if kind in _SEEN else "LinguisticObject"


def timespan(start: Bounds | None, end: Bounds | None = None) -> Node | None:
    """The possible days of an event: what is vague lies between the first and the last; what lasts has four ends."""
    first, last = iso(start)
    if end is None:
        ends: Node = {"begin_of_the_begin": _opens(first), "end_of_the_end": _closes(last)}
    else:
        earliest, latest = iso(end)
        ends = {
            "begin_of_the_begin": _opens(first), "end_of_the_begin": _closes(last),
            "begin_of_the_end": _opens(earliest), "end_of_the_end": _closes(latest),
        }  # fmt: skip
    ends = without_nothing(ends)
    return {"type": "TimeSpan", **ends} if ends else None


def _of_life(sort: str, when: WhenWritten | None) -> Node | None:
    if when is None:
        return None
    return without_nothing({"type": sort, "timespan": timespan(Bounds(when.earliest, when.latest))})


def _opens(day: str | None) -> str | None:
    return f"{day}T00:00:00Z" if day else None


def _closes(day: str | None) -> str | None:
    return f"{day}T23:59:59Z" if day else None
