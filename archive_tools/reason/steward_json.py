"""The machine form of one steward's line, as `archive-tools steward ID --json` prints it. Not known is null."""

from __future__ import annotations

from collections.abc import Mapping

from archive_tools.model.dates import WhenWritten
from archive_tools.model.findings import Bounds, Findings, Hand, Presence
from archive_tools.model.lineage import StewardLine, TeachingTie, TreeWorked
from archive_tools.model.people import Steward
from archive_tools.reason.lineage.teaching import line_down, line_up
from archive_tools.reason.lineage_json import bounds_json, sources_json

Json = dict[str, object]


def steward_as_json(steward: Steward, findings: Findings, stewards: Mapping[str, Steward], language: str = "") -> Json:
    """All trees a steward held, made, styled, worked on or saw worked on; pupils, teachers and their lines; years."""
    line = findings.stewards.get(steward.id) or StewardLine(steward.id)
    return {
        "steward": steward.id,
        "name": steward.name.say(language),
        "kind": steward.kind,
        "born": _when(steward.born),
        "died": _when(steward.died),
        "active": bounds_json(line.active),
        "active_written": steward.active.text if steward.active else None,
        "held": [
            {
                "tree": held.tree,
                "role": "owner" if held.period.owner else "holder",
                "from": bounds_json(held.period.start),
                "to": bounds_json(held.period.end),
                "how": held.period.how,
                "joint": held.period.joint,
                "grade": held.period.grade.word,
                "event": held.period.event,
            }
            for held in line.held
        ],
        "made": [_work(work) for work in line.made],
        "styled": [_work(work) for work in line.styled],
        "worked": [_work(work) for work in line.worked],
        "present": [{"tree": seen.tree, **_hand(seen.presence)} for seen in line.present],
        "objects": list(line.objects),
        "teachers": [_tie(tie, tie.teacher, stewards, language) for tie in line.teachers],
        "pupils": [_tie(tie, tie.pupil, stewards, language) for tie in line.pupils],
        "line_of_teachers": line_up(steward.id, findings.teaching),
        "line_of_pupils": line_down(steward.id, findings.teaching),
        "members": list(steward.members),
        "member_of": list(steward.member_of),
    }


def _work(work: TreeWorked) -> Json:
    return {"tree": work.tree, **_hand(work.hand)}


def _hand(hand: Hand | Presence) -> Json:
    return {
        "kind": hand.kind,
        "from": bounds_json(hand.bounds),
        "to": bounds_json(hand.until or hand.bounds),
        "grade": hand.grade.word,
        "event": hand.event,
    }


def _tie(tie: TeachingTie, other: str, stewards: Mapping[str, Steward], language: str) -> Json:
    steward = stewards.get(other)
    named = steward is not None and not steward.masked
    return {
        "steward": other if named else None,
        "name": steward.name.say(language) if steward else other,
        "from": bounds_json(tie.start),
        "to": bounds_json(tie.end),
        "grade": tie.grade.word,
        "sources": sources_json(tie.sources),
    }


def _when(when: WhenWritten | None) -> dict[str, str | None] | None:
    return bounds_json(Bounds(when.earliest, when.latest)) if when is not None else None
