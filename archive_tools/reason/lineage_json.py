"""The machine form of a tree's lineage, as `archive-tools lineage ACCESSION --json` prints it. Not known is null."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date

from archive_tools.model.event import Citation
from archive_tools.model.findings import Bounds, Custody, CustodyPeriod, Hand, Presence
from archive_tools.model.lineage import Elsewhere, Kinship, Lineage, MemberSpell, TreeInObject, Version
from archive_tools.model.people import Steward
from archive_tools.model.words import Words

Stewards = Mapping[str, Steward]
Json = dict[str, object]


def lineage_as_json(custody: Custody, lineage: Lineage, stewards: Stewards, as_of: date, language: str = "") -> Json:
    """Holders, gaps, hands, kin and text of one tree.

    A steward whom the edition may not name has a null id; `name` is then the public name. An id is never given for
    plain text.
    """
    called = _Called(stewards, language)
    return {
        "accession": custody.accession,
        "holders": list(_holders(custody.periods, called)),
        "gaps": list(_gaps(custody.periods, called, as_of)),
        "hands": list(_hands(custody, called)),
        "kin": {
            "came_from": [_kinship(tie) for tie in lineage.came_from],
            "gave_rise_to": [_kinship(tie) for tie in lineage.gave_rise_to],
            "members": [_member(spell, spell.called, language) for spell in lineage.members],
            "part_of": [_member(spell, spell.planting, language) for spell in lineage.part_of],
            "elsewhere": [_elsewhere(kin, called) for kin in lineage.elsewhere],
            "versions": [_version(version, called) for version in lineage.versions],
        },
        "objects": [_object(spell) for spell in lineage.objects],
        "text": " ".join(lineage.text),
    }


class _Called:
    """Ids and names of stewards as the edition has them."""

    def __init__(self, stewards: Stewards, language: str) -> None:
        self.stewards = stewards
        self.language = language

    def id(self, steward_id: str) -> str | None:
        steward = self.stewards.get(steward_id)
        return None if steward is None or steward.masked else steward_id

    def name(self, steward_id: str) -> str:
        steward = self.stewards.get(steward_id)
        return steward_id if steward is None else steward.name.say(self.language)

    def both(self, steward_id: str) -> Json:
        return {"steward": self.id(steward_id), "name": self.name(steward_id)}


def _holders(periods: Iterable[CustodyPeriod], called: _Called) -> Iterator[Json]:
    """One entry a holder and time; whoever held it jointly and then alone has one entry for both times."""
    listed = list(periods)
    told: set[tuple[int, str]] = set()
    for at, period in enumerate(listed):
        for one in period.holders:
            if (at, one) in told:
                continue
            end = period.end
            for later in range(at + 1, len(listed)):
                survived = listed[later]
                if survived.how != "survivor" or one not in survived.holders or survived.start != end:
                    continue
                told.add((later, one))
                end = survived.end
            yield {
                **called.both(one),
                "role": "owner" if period.owner else "holder",
                "from": bounds_json(period.start),
                "to": bounds_json(end),
                "how": period.how,
                "grade": period.grade.word,
                "sources": sources_json(period.sources),
                "event": period.event,
                "joint": period.joint,
                "lent_by": [called.id(lender) for lender in period.lent_by],
                "through": [called.id(agent) for agent in period.through],
                "in_return": list(period.given_in_return),
            }


def _gaps(periods: Iterable[CustodyPeriod], called: _Called, as_of: date) -> Iterator[Json]:
    owned = [period for period in periods if period.owner]
    for at, gap in enumerate(owned):
        if not gap.is_gap:
            continue
        before = owned[at - 1].holders if at else ()
        after = owned[at + 1].holders if at + 1 < len(owned) else ()
        lasted = gap.years(as_of)
        yield {
            "after": called.id(before[0]) if before else None,
            "before": called.id(after[0]) if after else None,
            "from": bounds_json(gap.start),
            "to": bounds_json(gap.end),
            "years_min": lasted.min,
            "years_max": lasted.max,
            "state": gap.gap_grade,
            "after_name": called.name(before[0]) if before else None,
            "before_name": called.name(after[0]) if after else None,
            "bridged_by": list(gap.bridged_by),
        }


def _hands(custody: Custody, called: _Called) -> Iterator[Json]:
    """Who worked on the tree and who was present, one entry each, in order of time."""
    both: list[tuple[str, Hand | Presence]] = [("worked", hand) for hand in custody.hands]
    both += [("present", presence) for presence in custody.present]
    both.sort(key=lambda one: one[1].bounds.earliest or one[1].bounds.latest or date.max)
    for role, hand in both:
        for one in hand.stewards:
            yield {
                **called.both(one),
                "role": role,
                "kind": hand.kind,
                "from": bounds_json(hand.bounds),
                "to": bounds_json(hand.until or hand.bounds),
                "event": hand.event,
                "grade": hand.grade.word,
                "sources": sources_json(hand.sources),
            }


def _kinship(tie: Kinship) -> Json:
    return {
        "tree": tie.tree,
        "text": tie.text,
        "relation": tie.relation,
        "how": tie.how,
        "date": bounds_json(tie.bounds),
        "event": tie.event,
        "grade": tie.grade.word,
        "sources": sources_json(tie.sources),
        "died": bounds_json(tie.ended),
    }


def _member(spell: MemberSpell, called: str, language: str) -> Json:
    return {
        "tree": called,
        "from": bounds_json(spell.start),
        "to": bounds_json(spell.end),
        "place": _said(spell.place, language),
        "member": spell.member,
        "count": spell.count,
        "grade": spell.grade.word,
    }


def _elsewhere(kin: Elsewhere, called: _Called) -> Json:
    return {
        "text": kin.text.say(called.language),
        "holder": called.id(kin.holder) if kin.holder else None,
        "name": called.name(kin.holder) if kin.holder else None,
        "url": kin.url,
    }


def _version(version: Version, called: _Called) -> Json:
    return {
        "number": version.number,
        "from": bounds_json(version.start),
        "to": bounds_json(version.end),
        "by": [called.both(one) for one in version.by],
        "members": list(version.members),
        "new": list(version.new),
        "gone": list(version.gone),
        "taken_apart": bounds_json(version.taken_apart),
        "event": version.event,
        "grade": version.grade.word,
    }


def _object(spell: TreeInObject) -> Json:
    return {
        "object": spell.object,
        "sort": spell.sort,
        "from": bounds_json(spell.start),
        "to": bounds_json(spell.end),
        "presumed_end": spell.presumed_end,
        "event": spell.event,
        "grade": spell.grade.word,
    }


def _said(words: Words | None, language: str) -> str | None:
    return words.say(language) if words else None


def sources_json(sources: Iterable[Citation]) -> list[str]:
    """The ids of the sources cited; those of masked ones say nothing."""
    return list(dict.fromkeys(citation.source for citation in sources))


def bounds_json(bounds: Bounds | None) -> dict[str, str | None] | None:
    """The earliest and latest possible day; null for none."""
    if bounds is None:
        return None
    return {
        "earliest": bounds.earliest.isoformat() if bounds.earliest else None,
        "latest": bounds.latest.isoformat() if bounds.latest else None,
    }
