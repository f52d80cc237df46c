"""What stewards are to each other, and when they ended: it decides what may be presumed between two holders."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from archive_tools.model.findings import Bounds
from archive_tools.model.people import Steward

Holders = tuple[str, ...]
_ONE_HOUSEHOLD = ("couple", "family")


@dataclass(frozen=True, slots=True)
class People:
    """The stewards of an edition, as far as it knows them."""

    stewards: Mapping[str, Steward]
    houses: Mapping[str, frozenset[str]]
    """By a member: the couples, families, estates, clubs and institutions that they are written as belonging to."""

    @classmethod
    def of(cls, stewards: Mapping[str, Steward]) -> People:
        """The people of an edition."""
        houses: dict[str, set[str]] = {}
        for steward in stewards.values():
            for member in steward.members:
                houses.setdefault(member, set()).add(steward.id)
            if steward.member_of:
                houses.setdefault(steward.id, set()).update(steward.member_of)
        return cls(stewards, {member: frozenset(found) for member, found in houses.items()})

    def ended(self, holders: Holders) -> Bounds | None:
        """When the last of these died or was dissolved; None where that is not known of all of them."""
        ends = [self.end_of(one) for one in holders]
        known = [end for end in ends if end is not None]
        if len(known) < len(ends) or not known:
            return None
        first = [end.earliest for end in known if end.earliest is not None]
        last = [end.latest for end in known if end.latest is not None]
        return Bounds(max(first) if first else None, max(last) if len(last) == len(known) else None)

    def end_of(self, holder: str) -> Bounds | None:
        """When one died or was dissolved."""
        steward = self.stewards.get(holder)
        if steward is None or steward.died is None:
            return None
        return Bounds(steward.died.earliest, steward.died.latest)

    def one_household(self, one: Holders, other: Holders) -> bool:
        """Whether one side is a couple or family and the other side somebody of it."""
        return any(self._kind(house) in _ONE_HOUSEHOLD for house in self._houses_between(one, other))

    def estate_of(self, estate: Holders, holders: Holders) -> bool:
        """Whether the one is the estate of the other."""
        return any(
            self._kind(one) == "estate" and one in self.houses.get(holder, ()) for one in estate for holder in holders
        )

    def belong_together(self, one: Holders, other: Holders) -> bool:
        """Whether they are of one house: a club and its member, an estate and its dead, two of one couple or family."""
        if self._houses_between(one, other):
            return True
        shared = {h for a in one for h in self.houses.get(a, ())} & {h for b in other for h in self.houses.get(b, ())}
        return any(self._kind(house) in _ONE_HOUSEHOLD for house in shared)

    def is_trade(self, holder: str, *, houses: bool = True) -> bool:
        """Whether a holder may be a dealer: a nursery, or (with `houses`) an institution; not a person or a club."""
        return self._kind(holder) == "nursery" or (houses and self._kind(holder) == "institution")

    def _houses_between(self, one: Holders, other: Holders) -> list[str]:
        """Those on either side of which somebody on the other side is a member."""
        return [h for a, b in ((one, other), (other, one)) for h in a if any(h in self.houses.get(m, ()) for m in b)]

    def _kind(self, steward_id: str) -> str:
        steward = self.stewards.get(steward_id)
        return steward.kind if steward else "unknown"


NOBODY = People({}, {})
