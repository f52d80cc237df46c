"""The terms of the PROV-O export that the ontology has no word for, each defined in the export itself."""

from __future__ import annotations

from collections.abc import Mapping

from archive_tools.publish.open_models import Addresses, Node

_PROPERTIES: Mapping[str, str] = {
    "earliestStart": "The earliest day on which it can have begun (or happened).",
    "latestStart": "The latest day on which it can have begun (or happened).",
    "earliestEnd": "The earliest day on which it can have ended.",
    "latestEnd": "The latest day on which it can have ended.",
    "grade": "How far the statement can be relied on: documented, reported, inferred or unsourced.",
    "role": "Of a holding: owner, or holder of what belongs to somebody else.",
    "how": "Of a holding: how the thing came to its holder.",
    "shownBy": "An event that shows that a holding had begun, and not by what event.",
    "present": "Somebody was present, without a part in what was done.",
    "member": "Somebody belongs, or once belonged, to a couple, family, club or house.",
    "record": "What is written of an event; its sources are those of the record, not of the tree.",
    "tree": "Of a pot, tray, stand or stone for a time: the tree it was used for.",
    "use": "Of a pot, tray, stand or stone for a time: whether the tree stood in it, or was shown with it.",
}
_ROLES: Mapping[str, str] = {
    "giver": "Gave the thing away, lent it or sold it.",
    "receiver": "Received the thing.",
    "agent": "Arranged for others that it changed hands.",
    "worker": "Did the work.",
}


def definitions(at: Addresses) -> list[Node]:
    """Every term of the export's own, with its meaning."""
    properties: list[Node] = [
        {"@id": at.term(name), "@type": "rdf:Property", "rdfs:label": name, "rdfs:comment": means}
        for name, means in _PROPERTIES.items()
    ]
    roles: list[Node] = [
        {"@id": at.term(name), "@type": "prov:Role", "rdfs:label": name, "rdfs:comment": means}
        for name, means in _ROLES.items()
    ]
    return properties + roles


def context(at: Addresses) -> Node:
    """The prefixes of the export: nothing has to be fetched to read it."""
    return {
        "prov": "http://www.w3.org/ns/prov#",
        "xsd": "http://www.w3.org/2001/XMLSchema#",
        "rdf": "http://www.w3.org/1999/02/22-rdf-syntax-ns#",
        "rdfs": "http://www.w3.org/2000/01/rdf-schema#",
        "dcterms": "http://purl.org/dc/terms/",
        "terms": at.term(""),
    }
