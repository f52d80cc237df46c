"""The lines of an edition after Linked Art 1.0, a profile of CIDOC CRM 7.1, in JSON-LD.

Patterns: a change of owners is an acquisition (E8), a loan a transfer of custody and its recorded return another (E10),
the beginning of a plant a production (E12), other work a modification (E11), planting together and taking out additions
and removals of parts (E79, E80), belonging to a group a joining (E85). An owner of whom nobody tells how they came by
it is a former or current owner (P51) and nothing more: no event is made up. A date is a time-span from its earliest to
its latest possible day (P82a, P82b). A tree that died was destroyed (E6), as what remains of it is not kept. A tree is
an E22 Human-Made Object, the class that Linked Art has for things that have come to be what they are by people's hands;
that it is alive is said by a type.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from archive_tools.model.findings import CustodyPeriod, Hand
from archive_tools.model.kinds import KINDS, Group
from archive_tools.model.lineage import Lineage, MemberSpell, TreeInObject
from archive_tools.model.tree import Tree
from archive_tools.model.view import EditionView
from archive_tools.publish.linked_art_context import ACCESSION_NUMBER, PROVENANCE_ACTIVITY, PUBLISHED_CONTEXT
from archive_tools.publish.linked_art_shapes import Shapes, statement, thing, timespan
from archive_tools.publish.open_events import Holding, Told, end_of, events_of, holdings
from archive_tools.publish.open_models import Addresses, Node, part, without_nothing


def linked_art_document(view: EditionView) -> Node:
    """Everything the edition says of holders, hands, plantings and membership, as one JSON-LD document."""
    exported = _Exported(view)
    return {"@context": PUBLISHED_CONTEXT, "@graph": list(exported.nodes())}


class _Exported:
    """One edition while it is written down."""

    def __init__(self, view: EditionView) -> None:
        self.view = view
        self.at = Addresses(view.records)
        self.shapes = Shapes(self.at)
        self.events = events_of(view, self.at)
        self.activities: dict[str, Node] = {}

    def nodes(self) -> Iterator[Node]:
        """People and groups, joinings, sources, trees and objects, then the activities by which they changed hands."""
        for steward in self.at.named():
            yield self.shapes.actor(steward)
            yield from self.shapes.joinings(steward)
        for source in self.view.records.sources.values():
            if self.at.source(source.id):
                yield self.shapes.source(source)
        for accession, tree in self.view.records.trees.items():
            yield self._tree(accession, tree)
            yield from self._members(self.view.findings.lineages.get(accession, Lineage(accession)))
        for object_id in self.view.records.objects:
            yield from self._object(object_id)
        yield from map(without_nothing, self.activities.values())

    def _tree(self, accession: str, tree: Tree) -> Node:
        address, label = self.at.tree(accession), tree.called(self.at.language)
        custody = self.view.findings.custodies[accession]
        lineage = self.view.findings.lineages.get(accession, Lineage(accession))
        told = [self.events[a] for a in (self.at.event(address, e.id) for e in tree.events) if a in self.events]
        died = end_of(told)
        names = [{"type": "Name", "content": text} for text in (tree.name.all_texts if tree.name else ())]
        number = {"type": "Identifier", "classified_as": [ACCESSION_NUMBER], "content": accession}
        living = thing(self.at.term("living plant"), "Type", "living plant")
        spells = [spell for spell in lineage.part_of if spell.tree == accession]
        return without_nothing(
            {
                **thing(address, "HumanMadeObject", label),
                "classified_as": [living],
                "identified_by": [number, *names],
                "referred_to_by": [statement(text) for text in lineage.text[: bool(custody.periods)]],
                "produced_by": self._production(address, told, lineage),
                "modified_by": self._modifications(address, custody.hands, lineage.objects),
                **self._parts(spells),
                **self._held(thing(address, "HumanMadeObject", label), custody.periods, died),
                "destroyed_by": self._ended(died),
            }
        )

    def _object(self, object_id: str) -> Iterator[Node]:
        address = self.at.thing(object_id)
        if address is None:
            return
        named = self.view.records.objects[object_id]
        line = self.view.findings.objects.get(object_id)
        this = thing(address, "HumanMadeObject", named.name.say(self.at.language))
        yield without_nothing(
            {
                **this,
                "classified_as": [thing(self.at.term(named.kind), "Type", named.kind)],
                "identified_by": [{"type": "Name", "content": text} for text in named.name.all_texts],
                "modified_by": self._modifications(address, line.hands if line else (), ()),
                **(self._held(this, line.periods, None) if line else {}),
            }
        )

    def _members(self, lineage: Lineage) -> Iterator[Node]:
        """The plants of a planting that have no record of their own."""
        planting = self.view.records.trees[lineage.accession].called(self.at.language)
        for member in dict.fromkeys(spell.member for spell in lineage.members if spell.tree is None):
            spells = [spell for spell in lineage.members if spell.member == member]
            address = self.at.member(lineage.accession, member, None)
            living = thing(self.at.term("living plant"), "Type", "living plant")
            yield without_nothing(
                {
                    **thing(address, "HumanMadeObject", f"{planting}: {member}"),
                    "classified_as": [living],
                    **self._parts(spells),
                }
            )

    def _production(self, address: str, told: Iterable[Told], lineage: Lineage) -> Node | None:
        """How a plant began; several beginnings (struck, then potted) are the parts of one production."""
        begun = [one for one in told if KINDS[one.kind].begins and KINDS[one.kind].group is not Group.CUSTODY]
        parts = []
        for one in sorted((one for one in begun if one.kind != "collected"), key=lambda one: str(one.bounds.earliest)):
            ties = [tie.tree for tie in lineage.came_from if self.at.event(address, tie.event) == one.address]
            mothers = [thing(self.at.tree(m), "HumanMadeObject", self._called(m)) for m in ties if m]
            people = self.shapes.people(one.event.by, one.address, "worker")
            more: Node = {"carried_out_by": people, "influenced_by": mothers}
            parts.append(without_nothing({"type": "Production", **self.shapes.told(one), **more}))
        if len(parts) < 2:
            return parts[0] if parts else None
        return {"type": "Production", "part": parts}

    def _modifications(self, address: str, hands: Iterable[Hand], objects: Sequence[TreeInObject]) -> list[Node]:
        found = []
        for hand in hands:
            told = self.events[self.at.event(address, hand.event)]
            if KINDS[hand.kind].group is not Group.WORK:
                continue
            pots = [(self.at.thing(one.object), one.object) for one in objects if one.event == hand.event]
            used = [thing(pot, "HumanMadeObject", self._object_called(name)) for pot, name in pots if pot]
            people = self.shapes.people(hand.stewards, told.address, "worker")
            more: Node = {"carried_out_by": people, "used_specific_object": used}
            found.append(
                without_nothing({"id": told.address, "type": "Modification", **self.shapes.told(told), **more})
            )
        return found

    def _parts(self, spells: Iterable[MemberSpell]) -> Node:
        """When a plant was set in a planting and taken out; where nothing dates it, only that it is part of it."""
        added, removed, now = [], [], None
        for spell in spells:
            home = self.at.tree(spell.planting)
            planting = thing(home, "HumanMadeObject", self._called(spell.planting))
            if spell.joined or spell.start.known:
                joined = self.events.get(self.at.event(home, spell.joined)) if spell.joined else None
                addition: Node = {"type": "PartAddition", "timespan": timespan(spell.start), "augmented": planting}
                added.append(without_nothing({**(self.shapes.told(joined) if joined else {}), **addition}))
            if spell.end is not None:
                left = self.events.get(self.at.event(home, spell.left)) if spell.left else None
                removal: Node = {"type": "PartRemoval", "timespan": timespan(spell.end), "diminished": planting}
                removed.append(without_nothing({**(self.shapes.told(left) if left else {}), **removal}))
            else:
                now = planting
        return {"added_by": added, "removed_by": removed, "part_of": now}

    def _ended(self, died: Told | None) -> Node | None:
        return without_nothing({"type": "Destruction", **self.shapes.told(died)}) if died else None

    def _held(self, this: Node, periods: Sequence[CustodyPeriod], died: Told | None) -> Node:
        """Who has it; and whoever had it, of whom nobody tells how they came by it. Writes down what events tell."""
        address = str(this["id"])
        owners: list[Node] = []
        keepers: list[Node] = []
        before: list[Node] = []
        for holding in holdings(address, periods, self.events, self.at, died):
            people = self.shapes.people(holding.period.holders, holding.address, "holder")
            if holding.period.end is None:
                (owners if holding.period.owner else keepers).extend(people)
            if holding.by is None and holding.period.owner:
                before.extend(people)
            elif holding.by is not None and holding.period.how != "first hands":
                self._passed(this, holding, holding.by, people)
        return {"current_owner": owners, "current_custodian": keepers, "former_or_current_owner": before}

    def _passed(self, this: Node, holding: Holding, told: Told, receivers: list[Node]) -> None:
        period = holding.period
        before = holding.before
        if period.owner:
            givers = self.shapes.people(before.period.holders, before.address, "holder") if before else []
            of, by, to = "transferred_title_of", "transferred_title_from", "transferred_title_to"
            self._provenance(told, holding, {"type": "Acquisition", of: [this], by: givers, to: receivers})
            return
        givers = self.shapes.people(period.lent_by, holding.address, "lender")
        self._provenance(told, holding, _custody(this, givers, receivers))
        if told.event.until is not None and period.end is not None:
            self._provenance(told, holding, _custody(this, receivers, givers), returned=True)

    def _provenance(self, told: Told, holding: Holding, change: Node, *, returned: bool = False) -> None:
        """Put a change of hands into the activity of its event: in an exchange there are two."""
        address = part(told.address, "return" if returned else "provenance")
        days = timespan(told.until if returned else told.bounds)
        more: Node = {} if returned else {"carried_out_by": self._agents(told, holding)}
        activity = self.activities.setdefault(
            address,
            {
                "id": address,
                "type": "Activity",
                "_label": "return" if returned else told.kind,
                "classified_as": [PROVENANCE_ACTIVITY, self.shapes.grade(holding.period.grade)],
                "timespan": days,
                "referred_to_by": self.shapes.cited(told.event.sources),
                **more,
                "part": [],
            },
        )
        changes = activity["part"]
        assert isinstance(changes, list)
        changes.append(without_nothing(change))

    def _agents(self, told: Told, holding: Holding) -> list[Node]:
        return self.shapes.people(holding.period.through, told.address, "agent")

    def _called(self, accession: str) -> str:
        tree = self.view.records.trees.get(accession)
        return tree.called(self.at.language) if tree else accession

    def _object_called(self, object_id: str) -> str:
        return self.view.records.objects[object_id].name.say(self.at.language)


def _custody(this: Node, giver: list[Node], receiver: list[Node]) -> Node:
    return {
        "type": "TransferOfCustody",
        "transferred_custody_of": [this],
        "transferred_custody_from": giver,
        "transferred_custody_to": receiver,
    }
