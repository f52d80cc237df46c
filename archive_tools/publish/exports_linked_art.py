"""The lines of an edition after Linked Art, a profile of CIDOC CRM 7.1, in JSON-LD that carries its own context.

Patterns: a change of owners is an acquisition (E8), a loan a transfer of custody and its return another (E10), the
beginning of a plant a production (E12), other work a modification (E11), planting together and taking out additions and
removals of parts (E79, E80), belonging to a club a joining (E85). A date is a time-span between its earliest and its
latest possible day (P82a, P82b). The keys are Linked Art's; the context is written out here, so that nothing has to be
fetched. A tree is an E20 Biological Object and, as something made by hand, an E22 Human-Made Object.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from archive_tools.model.event import Citation
from archive_tools.model.findings import Bounds, Custody, CustodyPeriod, Hand
from archive_tools.model.kinds import KINDS, Group
from archive_tools.model.lineage import Lineage, MemberSpell
from archive_tools.model.people import Steward
from archive_tools.model.view import EditionView
from archive_tools.publish.linked_art_context import CONTEXT, PROVENANCE_ACTIVITY
from archive_tools.publish.open_models import Addresses, Node, iso, without_nothing

_GROUPS = frozenset({"club", "nursery", "institution", "couple", "family", "estate"})
_BEGINS = frozenset({"first hands", "collected"})


def linked_art_document(view: EditionView) -> Node:
    """Everything the edition says of holders, hands, plantings and membership, as one JSON-LD document."""
    exported = _Exported(view)
    return {"@context": CONTEXT, "@graph": list(exported.nodes())}


class _Exported:
    """One edition while it is written down."""

    def __init__(self, view: EditionView) -> None:
        self.view = view
        self.at = Addresses(view.records)

    def nodes(self) -> Iterator[Node]:
        """People and groups, joinings, then every tree with what happened to it."""
        for steward in self.at.named():
            yield self._actor(steward)
            yield from self._joinings(steward)
        for accession, custody in self.view.findings.custodies.items():
            lineage = self.view.findings.lineages.get(accession)
            yield self._object(accession, custody, lineage)
            for number, period in enumerate(custody.periods, start=1):
                yield from self._passing(accession, number, period, custody)
            for hand in custody.hands:
                if KINDS[hand.kind].group is Group.WORK:
                    yield self._modification(accession, hand)
            for number, spell in enumerate(lineage.members if lineage else (), start=1):
                yield from self._parts(accession, number, spell)

    def _actor(self, steward: Steward) -> Node:
        return without_nothing(
            {
                "id": self.at.steward(steward.id),
                "type": "Group" if steward.kind in _GROUPS else "Person",
                "_label": steward.name.say(self.at.language),
                "identified_by": [{"type": "Name", "content": name} for name in steward.name.all_texts],
            }
        )

    def _joinings(self, steward: Steward) -> Iterator[Node]:
        joined = [(steward.id, house) for house in steward.member_of]
        joined += [(member, steward.id) for member in steward.members]
        for member, house in joined:
            groups = self.view.records.stewards
            if house in groups and member in groups and groups[house].kind in _GROUPS:
                address = f"{self.at.steward(house)}/joined/{self.at.steward(member).rsplit('/', 1)[-1]}"
                yield {
                    "id": address,
                    "type": "Joining",
                    "joined": {"id": self.at.steward(member)},
                    "joined_with": {"id": self.at.steward(house)},
                }

    def _object(self, accession: str, custody: Custody, lineage: Lineage | None) -> Node:
        tree = self.view.records.trees[accession]
        names = [{"type": "Name", "content": text} for text in (tree.name.all_texts if tree.name else ())]
        began = [hand for hand in custody.hands if KINDS[hand.kind].begins]
        owner = next((p for p in reversed(custody.periods) if p.owner and p.holders and p.end is None), None)
        return without_nothing(
            {
                "id": self.at.tree(accession),
                "type": ["HumanMadeObject", "BiologicalObject"],
                "_label": tree.called(self.at.language),
                "identified_by": [{"type": "Identifier", "content": accession}, *names],
                "produced_by": [self._production(accession, hand, lineage) for hand in began],
                "current_owner": self._people(owner.holders) if owner else None,
            }
        )

    def _production(self, accession: str, hand: Hand, lineage: Lineage | None) -> Node:
        mothers = [tie for tie in (lineage.came_from if lineage else ()) if tie.event == hand.event and tie.tree]
        return without_nothing(
            {
                "id": f"{self.at.event(accession, hand.event)}/production",
                "type": "Production",
                "_label": hand.kind,
                "timespan": self._timespan(hand.bounds),
                "carried_out_by": self._people(hand.stewards),
                "influenced_by": [{"id": self.at.tree(tie.tree)} for tie in mothers if tie.tree],
                "referred_to_by": self._cited(hand.sources),
            }
        )

    def _passing(self, accession: str, number: int, period: CustodyPeriod, custody: Custody) -> Iterator[Node]:
        """The event by which a period began; for a loan its return too. Who began a plant received it of nobody."""
        if period.is_gap or (period.how == "first hands"):
            return
        owned = [one for one in custody.periods if one.owner]
        before = owned[owned.index(period) - 1] if period.owner and owned.index(period) else None
        giver = before.holders if before and period.how != "not known how" else period.lent_by
        address = f"{self.at.tree(accession)}/passing/{number}"
        if period.owner:
            part: Node = {
                "type": "Acquisition",
                "transferred_title_of": {"id": self.at.tree(accession)},
                "transferred_title_from": self._people(giver),
                "transferred_title_to": self._people(period.holders),
            }
        else:
            part = self._custody(accession, giver, period.holders)
        yield self._provenance(accession, address, period, period.start, part)
        if not period.owner and period.end is not None:
            back = self._custody(accession, period.holders, giver)
            yield self._provenance(accession, f"{address}/return", period, period.end, back)

    def _custody(self, accession: str, giver: Iterable[str], receiver: Iterable[str]) -> Node:
        return {
            "type": "TransferOfCustody",
            "transferred_custody_of": {"id": self.at.tree(accession)},
            "transferred_custody_from": self._people(giver),
            "transferred_custody_to": self._people(receiver),
        }

    def _provenance(self, accession: str, address: str, period: CustodyPeriod, when: Bounds, part: Node) -> Node:
        return without_nothing(
            {
                "id": address,
                "type": "Activity",
                "classified_as": [PROVENANCE_ACTIVITY],
                "_label": f"{accession}: {period.how} ({period.grade.word})",
                "timespan": self._timespan(when),
                "carried_out_by": self._people(period.through),
                "referred_to_by": self._cited(period.sources),
                "part": [without_nothing(part)],
            }
        )

    def _modification(self, accession: str, hand: Hand) -> Node:
        return without_nothing(
            {
                "id": self.at.event(accession, hand.event),
                "type": "Modification",
                "_label": hand.kind,
                "modified": {"id": self.at.tree(accession)},
                "timespan": self._timespan(hand.bounds),
                "carried_out_by": self._people(hand.stewards),
                "referred_to_by": self._cited(hand.sources),
            }
        )

    def _parts(self, accession: str, number: int, spell: MemberSpell) -> Iterator[Node]:
        member: Node = {"id": self.at.member(accession, spell.member, spell.tree)}
        if spell.tree is None:
            member |= {"type": ["HumanMadeObject", "BiologicalObject"], "_label": spell.member}
        address = f"{self.at.tree(accession)}/part/{number}"
        yield without_nothing(
            {
                "id": f"{address}/added",
                "type": "PartAddition",
                "added_to": {"id": self.at.tree(accession)},
                "added": member,
                "timespan": self._timespan(spell.start),
            }
        )
        if spell.end is not None:
            yield without_nothing(
                {
                    "id": f"{address}/removed",
                    "type": "PartRemoval",
                    "removed_from": {"id": self.at.tree(accession)},
                    "removed": {"id": member["id"]},
                    "timespan": self._timespan(spell.end),
                }
            )

    def _people(self, ids: Iterable[str]) -> list[Node]:
        people: list[Node] = []
        for one in ids:
            address = self.at.steward(one)
            people.append(
                {"id": address, "type": "Actor", "_label": self.at.name(one)}
                if self.at.is_unnamed(address)
                else {"id": address}
            )
        return people

    def _cited(self, sources: Iterable[Citation]) -> list[Node]:
        found: list[Node] = []
        for one in dict.fromkeys(citation.source for citation in sources):
            address = self.at.source(one)
            if address:
                title = self.view.records.sources[one].title.say(self.at.language)
                found.append({"id": address, "type": "LinguisticObject", "_label": title})
        return found

    def _timespan(self, bounds: Bounds) -> Node | None:
        first, last = iso(bounds)
        if first is None and last is None:
            return None
        return without_nothing({"type": "TimeSpan", "begin_of_the_begin": first, "end_of_the_end": last})
