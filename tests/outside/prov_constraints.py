"""Whether a PROV graph is valid after PROV-CONSTRAINTS (W3C Recommendation of 30 April 2013).

The inferences are applied that matter for what the export says (13, 19), then the constraints are checked: uniqueness
by merging (24, 25, 39, 40), the order of events as a graph in which no circle may hold a strict step (30, 33-38, 42,
45-48), typing (50) and what is impossible (51, 52, 55, 56). Numbers and names are those of the Recommendation. The
Recommendation compares no times: it orders the events that the statements imply.
"""

from __future__ import annotations

from collections.abc import Iterator

import networkx as nx
from rdflib import RDF, Graph, Namespace
from rdflib.term import Node

PROV = Namespace("http://www.w3.org/ns/prov#")
_DERIVED = (PROV.wasDerivedFrom, PROV.wasRevisionOf, PROV.wasQuotedFrom, PROV.hadPrimarySource)
_ENTITY, _ACTIVITY, _AGENT = "entity", "activity", "agent"
_TYPES: tuple[tuple[Node, str, str], ...] = (
    (PROV.wasGeneratedBy, _ENTITY, _ACTIVITY),
    (PROV.wasInvalidatedBy, _ENTITY, _ACTIVITY),
    (PROV.used, _ACTIVITY, _ENTITY),
    *((link, _ENTITY, _ENTITY) for link in _DERIVED),
    (PROV.wasAttributedTo, _ENTITY, _AGENT),
    (PROV.wasAssociatedWith, _ACTIVITY, _AGENT),
    (PROV.specializationOf, _ENTITY, _ENTITY),
    (PROV.hadMember, _ENTITY, _ENTITY),
)
"""Constraint 50 (typing), as far as the export uses the relations."""


def violations(graph: Graph) -> list[str]:
    """Every constraint that the graph breaks, by number and name, with what breaks it."""
    return [*_unique(graph), *_impossible(graph), *_out_of_order(graph)]


def _unique(graph: Graph) -> Iterator[str]:
    for number, link, qualified in (
        (24, PROV.wasGeneratedBy, PROV.qualifiedGeneration),
        (25, PROV.wasInvalidatedBy, PROV.qualifiedInvalidation),
    ):
        for entity in set(graph.subjects(qualified)):
            events = [(graph.value(one, PROV.activity), one) for one in graph.objects(entity, qualified)]
            for activity in {activity for activity, _ in events}:
                named = {one for of, one in events if of == activity}
                if len(named) > 1:
                    name = "unique-generation" if link == PROV.wasGeneratedBy else "unique-invalidation"
                    yield f"{number} {name}: {entity} by {activity}"


def _impossible(graph: Graph) -> Iterator[str]:
    kinds = _kinds(graph)
    for node, found in kinds.items():
        if {_ENTITY, _ACTIVITY} <= found:
            yield f"55 entity-activity-disjoint: {node}"
    for derivation in set(graph.subjects(RDF.type, PROV.Derivation)):
        ends = {graph.value(derivation, PROV.hadGeneration), graph.value(derivation, PROV.hadUsage)} - {None}
        if ends and graph.value(derivation, PROV.hadActivity) is None:
            yield f"51 impossible-unspecified-derivation-generation-use: {derivation}"
    special = nx.DiGraph(list(graph.subject_objects(PROV.specializationOf)))
    for circle in _circles(special):
        yield f"52 impossible-specialization-reflexive (by 19, specialization-transitive): {circle}"
    for whole in set(graph.subjects(RDF.type, PROV.EmptyCollection)):
        if (whole, PROV.hadMember, None) in graph:
            yield f"56 membership-empty-collection: {whole}"


def _kinds(graph: Graph) -> dict[Node, set[str]]:
    kinds: dict[Node, set[str]] = {}
    declared = {PROV.Entity: _ENTITY, PROV.Collection: _ENTITY, PROV.Activity: _ACTIVITY, PROV.Agent: _AGENT}
    for node, sort in graph.subject_objects(RDF.type):
        if sort in declared:
            kinds.setdefault(node, set()).add(declared[sort])
    for link, subject, target in _TYPES:
        for one, other in graph.subject_objects(link):
            kinds.setdefault(one, set()).add(subject)
            kinds.setdefault(other, set()).add(target)
    return kinds


def _out_of_order(graph: Graph) -> Iterator[str]:
    """Circles of the events that the statements imply in which one step is strict."""
    order = nx.DiGraph()
    for first, second, strict, why in _order(graph):
        known = order.get_edge_data(first, second)
        if known is None or (strict and not known["strict"]):
            order.add_edge(first, second, strict=strict, why=why)
    for together in nx.strongly_connected_components(order):
        inside = order.subgraph(together)
        for first, second, step in inside.edges(data=True):
            if step["strict"]:
                yield f"{step['why']}: {' '.join(map(str, first))} before {' '.join(map(str, second))}, and after it"


def _order(graph: Graph) -> Iterator[tuple[tuple[object, ...], tuple[object, ...], bool, str]]:
    """(event, event, strictly before?, constraint). One event stands for all generations of an entity (39), for all
    its invalidations (40), for all starts (31) and all ends (32) of an activity: they are simultaneous.
    """
    for activity in set(graph.subjects(RDF.type, PROV.Activity)):
        yield ("start", activity), ("end", activity), False, "30 start-precedes-end"
    for activity, entity in graph.subject_objects(PROV.used):
        use = ("use", activity, entity)
        yield ("start", activity), use, False, "33 usage-within-activity"
        yield use, ("end", activity), False, "33 usage-within-activity"
        yield ("gen", entity), use, False, "37 generation-precedes-usage"
        yield use, ("inv", entity), False, "38 usage-precedes-invalidation"
    for entity, activity in graph.subject_objects(PROV.wasGeneratedBy):
        yield ("start", activity), ("gen", entity), False, "34 generation-within-activity"
        yield ("gen", entity), ("end", activity), False, "34 generation-within-activity"
    for entity in set(graph.subjects(RDF.type, PROV.Entity)):
        yield ("gen", entity), ("inv", entity), False, "36 generation-precedes-invalidation"
    for link in _DERIVED:
        for entity, earlier in graph.subject_objects(link):
            yield ("gen", earlier), ("gen", entity), True, "42 derivation-generation-generation-ordering"
    for entity, general in graph.subject_objects(PROV.specializationOf):
        yield ("gen", general), ("gen", entity), False, "45 specialization-generation-ordering"
        yield ("inv", entity), ("inv", general), False, "46 specialization-invalidation-ordering"
    for activity, agent in graph.subject_objects(PROV.wasAssociatedWith):
        yield ("start", activity), ("inv", agent), False, "47 wasAssociatedWith-ordering"
        yield ("gen", agent), ("end", activity), False, "47 wasAssociatedWith-ordering"
    for entity, agent in graph.subject_objects(PROV.wasAttributedTo):
        yield ("gen", agent), ("gen", entity), False, "48 wasAttributedTo-ordering"


def _circles(graph: nx.DiGraph) -> list[list[Node]]:
    loops = [[node] for node in graph if graph.has_edge(node, node)]
    return loops + [sorted(one, key=str) for one in nx.strongly_connected_components(graph) if len(one) > 1]
