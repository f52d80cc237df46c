"""The activities of a PROV-O graph while it is written, with those whom it may not name and what has no page."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from archive_tools.model.findings import Bounds
from archive_tools.model.view import EditionView
from archive_tools.publish.open_events import Holding, Told, events_of
from archive_tools.publish.open_models import Addresses, Node, iso, part, without_nothing


class Graph:
    """The activities and the nodes that are only mentioned, each once; the trees and agents are written elsewhere."""

    def __init__(self, view: EditionView) -> None:
        self.records = view.records
        self.at = Addresses(view.records)
        self.events = events_of(view, self.at)
        self.mentioned: dict[str, Node] = {}
        self._activities: dict[str, Node] = {}

    @property
    def activities(self) -> list[Node]:
        """Every event that something told of."""
        return [without_nothing(node) for node in self._activities.values()]

    def activity(self, told: Told) -> Node:
        """The node of an event, with its days and what is recorded of it; several lines may tell of one event."""
        if told.address not in self._activities:
            start, last = told.bounds, told.until or told.bounds
            certain = start.earliest is not None and start.earliest == start.latest
            over = certain and last.earliest is not None and last.earliest == last.latest
            self._activities[told.address] = {
                "@id": told.address,
                "@type": "prov:Activity",
                "rdfs:label": told.kind,
                "prov:startedAtTime": _time(f"{start.earliest}T00:00:00") if certain else None,
                "prov:endedAtTime": _time(f"{last.latest}T23:59:59") if over else None,
                "prov:used": [],
                "prov:wasAssociatedWith": [],
                "prov:qualifiedAssociation": [],
                "terms:present": [],
                "terms:grade": told.event.standing.word,
                "terms:record": self._record(told),
                **days(start, told.until),
            }
        return self._activities[told.address]

    def did(self, told: Told | None) -> Node | None:
        """A reference to the activity of an event, which is described too."""
        return ref(self.activity(told)["@id"]) if told else None

    def entity(self, address: str, label: str, **more: object) -> Node | None:
        """A reference to an entity that has no page of its own, which is described too."""
        self.mentioned[address] = {"@id": address, "@type": "prov:Entity", "rdfs:label": label, **more}
        return ref(address)

    def people(self, ids: Iterable[str], near: str, role: str) -> list[str]:
        """The addresses of several; whoever may not be named gets one of this mention alone."""
        return [self._person(one, part(near, role, str(number))) for number, one in enumerate(ids, start=1)]

    def holders(self, holding: Holding, some: Sequence[str] | None = None) -> list[str]:
        """The addresses of those who held, or of some of them: the same wherever that holding is spoken of."""
        found = dict(zip(holding.period.holders, self.people(holding.period.holders, holding.address, "holder"),
                         strict=True))  # fmt: skip
        return [found[one] for one in found if some is None or one in some]

    def _person(self, steward_id: str, mention: str) -> str:
        address = self.at.steward(steward_id)
        if address is None:
            address = mention
            self.mentioned[address] = {"@id": address, "@type": "prov:Agent", "rdfs:label": self.at.name(steward_id)}
        return address

    def _record(self, told: Told) -> Node | None:
        """What is recorded of an event, with its sources; one that may not be shown is only said to be there."""
        sources = []
        for number, cited in enumerate(dict.fromkeys(citation.source for citation in told.event.sources), start=1):
            source = self.records.sources.get(cited)
            address = self.at.source(cited)
            if address is not None:
                sources.append(ref(address))
            elif source is not None:
                withheld = part(told.address, "source", str(number))
                sources.append(self.entity(withheld, source.title.say(self.at.language)))
        if not sources:
            return None
        label = f"what is recorded of: {told.kind}"
        return self.entity(part(told.address, "record"), label, **{"prov:hadPrimarySource": sources})


def associate(activity: Node, people: Iterable[str], role: str) -> None:
    """Put people into an activity in a role, each once."""
    for person in people:
        add(activity, "prov:wasAssociatedWith", ref(person))
        association: Node = {"@type": "prov:Association", "prov:agent": ref(person), "prov:hadRole": ref(role)}
        add(activity, "prov:qualifiedAssociation", association)


def add(node: Node, key: str, value: Node | None) -> None:
    """Put a value into a list of the node, once."""
    listed = node[key]
    assert isinstance(listed, list)
    if value is not None and value not in listed:
        listed.append(value)


def ref(address: object) -> Node | None:
    """A reference; None for none."""
    return {"@id": address} if address else None


def days(start: Bounds | None, end: Bounds | None) -> Node:
    """The possible days of a begin and an end, in the terms of this export."""
    values = (*zip(("earliestStart", "latestStart"), iso(start), strict=True),
              *zip(("earliestEnd", "latestEnd"), iso(end), strict=True))  # fmt: skip
    return {f"terms:{name}": {"@value": day, "@type": "xsd:date"} for name, day in values if day}


def _time(moment: str) -> Node:
    return {"@value": moment, "@type": "xsd:dateTime"}
