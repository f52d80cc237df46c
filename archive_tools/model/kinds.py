"""The kinds of event, each with what it means for dates and for custody.

To add a kind, add one row to `KINDS`: nothing else in the package lists kinds by name, except where a rule is
about one kind alone.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from archive_tools.model.grades import Milestone


class Group(StrEnum):
    """What a kind is about; pages and drawings choose by it."""

    BEGINNING = "beginning"
    WORK = "work"
    PLANTING = "planting"
    CUSTODY = "custody"
    END = "end"
    TRAVEL = "travel"
    SHOWN = "shown"
    HARM = "harm"
    SEEN = "seen"
    NAME = "name"


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of event.

    begins: milestones it begins. claims_beginning: it says "this was the beginning", so evidence certainly
    before it contradicts it. attests: milestones that had begun by then. attests_life: it shows the plant alive.
    custody: what it does to the holder: "acquired" from → to, "loan", "collected", "ends" the stay when `from` is
    the custodian, "presence" (found in collection), or "".
    """

    name: str
    group: Group
    begins: frozenset[Milestone] = frozenset()
    claims_beginning: bool = False
    attests: frozenset[Milestone] = frozenset()
    attests_life: bool = True
    custody: str = ""
    hand: bool = False
    restricted_unless_said: bool = False


_CARE = frozenset({Milestone.CARE})
_POT = frozenset({Milestone.CARE, Milestone.CONTAINER})
_ORIGIN = frozenset({Milestone.ORIGIN})
_ARRIVAL = frozenset({Milestone.ARRIVAL})


def _rows() -> list[Kind]:
    rows = [
        Kind(name, Group.BEGINNING, begins=_ORIGIN, claims_beginning=True, hand=True)
        for name in (
            "sown",
            "germinated",
            "struck",
            "layer severed",
            "raised from graft",
            "raised from division",
        )
    ]
    rows.append(Kind("collected", Group.BEGINNING, begins=_CARE, custody="collected", hand=True))
    rows.append(Kind("training begun", Group.BEGINNING, begins=_CARE, claims_beginning=True, hand=True))
    rows.append(Kind("potted", Group.BEGINNING, begins=_POT, hand=True))
    work = (
        "repotted", "root pruned", "soil refreshed", "pruned", "pinched", "candles cut", "needles plucked",
        "leaves thinned", "cut back", "branch removed", "defoliated", "wired", "unwired", "guyed", "bent", "carved",
        "deadwood made", "deadwood treated", "styled", "front changed", "planting angle changed", "layer set",
        "grafted on", "divided", "fed", "treated", "wintered", "rested", "condition checked", "planted out", "lifted",
    )  # fmt: skip
    rows += [Kind(name, Group.WORK, attests=_CARE, hand=True) for name in work]
    rows.append(Kind("assembled", Group.PLANTING, begins=_POT, claims_beginning=True, attests=_CARE, hand=True))
    planting = ("taken apart", "member added", "member removed", "merged", "split off")
    rows += [Kind(name, Group.PLANTING, attests=_CARE, hand=True) for name in planting]
    custody = ("gift", "bequest", "purchase", "exchange", "transfer")
    rows += [Kind(name, Group.CUSTODY, begins=_ARRIVAL, custody="acquired") for name in custody]
    rows.append(Kind("found in collection", Group.CUSTODY, custody="presence"))
    rows.append(Kind("loan", Group.CUSTODY, begins=_ARRIVAL, custody="loan"))
    rows += [Kind(name, Group.CUSTODY, custody="ends") for name in ("given away", "sold")]
    rows.append(Kind("died", Group.END, attests_life=False))
    rows += [Kind(name, Group.END, attests_life=False) for name in ("missing", "stolen")]
    rows.append(Kind("found again", Group.END))
    rows += [Kind(name, Group.TRAVEL) for name in ("imported", "exported", "quarantine")]
    rows += [
        Kind("moved", Group.SHOWN, attests=_CARE),
        Kind("on display", Group.SHOWN, attests=_CARE),
        Kind("exhibited", Group.SHOWN, attests=_CARE),
        Kind("demonstrated", Group.SHOWN, attests=_CARE, hand=True),
        Kind("published", Group.SHOWN, attests=_CARE, attests_life=False),
    ]
    rows += [Kind(name, Group.HARM) for name in ("damaged", "recovered")]
    rows.append(Kind("observed", Group.SEEN))
    rows.append(Kind("valued", Group.SEEN, restricted_unless_said=True))
    names = ("renamed", "reidentified", "reclassified", "tags exchanged")
    rows += [Kind(name, Group.NAME, attests_life=False) for name in names]
    return rows


KINDS: dict[str, Kind] = {kind.name: kind for kind in _rows()}
"""Every kind of event by its name, in the order in which the guide to the format lists them."""
