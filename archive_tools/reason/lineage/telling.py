"""The line of holders in words, in the manner of a museum's provenance."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from archive_tools.model.collection import Collection
from archive_tools.model.dates import WhenWritten
from archive_tools.model.event import Event
from archive_tools.model.findings import Custody, CustodyPeriod, TreeChronology
from archive_tools.model.lineage import Lineage
from archive_tools.reason.lineage import sayings as say
from archive_tools.reason.lineage.ends import Holders, People
from archive_tools.reason.lineage.happened import Dated, order_of
from archive_tools.reason.lineage.kin_telling import kin_sentences, planting_sentences
from archive_tools.reason.lineage.names import Names
from archive_tools.reason.lineage.years import at, how_long, one_year, span, years

_SOLD = frozenset({"purchase", "sold", "exchange"})
_TRADED = frozenset({"purchase", "sold", "exchange", "transfer", "not known how"})
_FROM_SOMEBODY = frozenset({"gift", "bequest", "purchase", "exchange", "transfer", "sold", "given away"})
_LOST = frozenset(say.LOST)


class Teller:
    """Tells the lines of one edition, in one language."""

    def __init__(
        self,
        collection: Collection,
        past: Mapping[str, Sequence[Dated]],
        chronologies: Mapping[str, TreeChronology],
        people: People,
        as_of: date,
        translate: Callable[[str], str],
    ) -> None:
        self.names = Names(collection, translate)
        self.past = past
        self.chronologies = chronologies
        self.people = people
        self.custodian = collection.settings.custodian
        self.as_of = as_of
        self.translate = translate
        self.dated = {f"{a}#{d.told_as}": d for a, events in past.items() for d in events}

    def told(self, lineage: Lineage, custody: Custody) -> Lineage:
        """The lineage with its text: custody, then kinship, then planting, each a paragraph where there is any."""
        line = _Line(self, custody)
        kin = kin_sentences(lineage, self.names, self.translate)
        planting = planting_sentences(lineage, self.names, self.chronologies, self.translate)
        paragraphs = (" ".join(part) for part in (line.sentences(), kin, planting) if part)
        return replace(lineage, text=tuple(paragraphs))


@dataclass(frozen=True, slots=True)
class _Line:
    """One tree's line while it is told."""

    teller: Teller
    custody: Custody

    def sentences(self) -> list[str]:
        """A sentence for every unbroken run of holders and for every gap, and what became of the tree."""
        owned = [period for period in self.custody.periods if period.owner]
        lent = self._lent(owned)
        told: list[str] = []
        run: list[str] = []
        for loan in lent.get(-1, ()):
            run.append(self._say(say.LENT_FIRST, who=self._who(loan), span=self._span(loan)))
        for place, period in enumerate(owned):
            if period.is_gap:
                told += self._sentence(run)
                run = []
                told += self._sentence([self._gap(period, owned[:place], owned[place + 1 : place + 2])])
                continue
            clause = self._clause(owned, place)
            for loan in lent.get(place, ()):
                message = say.QUARANTINED_WITH if loan.how == "quarantine" else say.LENT
                clause = self._say(message, clause=clause, who=self._who(loan), span=self._span(loan))
            clause = self._ended(owned, place, clause)
            run.append(f"({clause})" if self._is_dealer(owned, place) else clause)
        return [*told, *self._sentence(run), *self._fate()]

    def _lent(self, owned: Sequence[CustodyPeriod]) -> dict[int, list[CustodyPeriod]]:
        """Loans by the place of the owner's period they belong to; -1 for those before any owner is known."""
        lent: dict[int, list[CustodyPeriod]] = {}
        for loan in self.custody.periods:
            if loan.owner:
                continue
            begun = [i for i, p in enumerate(owned) if not p.is_gap and order_of(p.start) <= order_of(loan.start)]
            lenders = [i for i, p in enumerate(owned) if set(p.holders) & set(loan.lent_by)]
            both = [i for i in begun if i in lenders]
            place = (both or lenders[:1] or begun or [-1])[-1]
            lent.setdefault(place, []).append(loan)
        return lent

    def _clause(self, owned: Sequence[CustodyPeriod], place: int) -> str:
        period = owned[place]
        dated = self._dated(period.event)
        event = dated.event if dated else None
        who = self._who(period)
        # Found on a day, and there since one that nobody knows.
        begun = dated.bounds if dated and period.how == "found in collection" else period.start
        when = at(begun, self._when(period, event), self.teller.translate)
        clause = self._first(period, event, who, when) if place == 0 else self._next(period, event, who, when)
        if period.through:
            clause = self._say(say.THROUGH, clause=clause, agents=self.teller.names.stewards(period.through))
        if period.grade in say.DOUBTED:
            clause = self._say(say.DOUBTED[period.grade], clause=clause)
        if period.how in _FROM_SOMEBODY and event is not None and not self._giver(period, event):
            clause = self._say(say.FROM_WHOM, clause=clause)
        return clause

    def _first(self, period: CustodyPeriod, event: Event | None, who: str, when: str) -> str:
        if period.how == "collected" and event is not None and not set(event.by) & set(period.holders) and event.by:
            return self._say(say.COLLECTED_FOR, who=who, by=self.teller.names.stewards(event.by), when=when)
        if period.how in ("first hands", "collected") and event is not None and event.kind in say.BEGAN:
            return self._say(say.BEGAN[event.kind], who=who, when=when)
        if period.how in say.CAME and period.how not in ("not known how", "family", "estate"):
            return self._next(period, event, who, when)
        if period.start.earliest is None and period.start.latest is not None:
            return self._say(say.KNOWN_BY, who=who, years=str(period.start.latest.year))
        said = years(period.start, self.teller.translate)
        return self._say(say.FROM if said else say.SOME_TIME, who=who, years=said)

    def _next(self, period: CustodyPeriod, event: Event | None, who: str, when: str) -> str:
        if period.how == "exchange" and period.given_in_return:
            trees = self.teller.names.trees(period.given_in_return)
            return self._say(say.EXCHANGED_FOR, when=when, trees=trees, who=who)
        if period.how == "first hands" and event is not None and event.kind in say.BEGAN:
            return self._say(say.BEGAN[event.kind], who=who, when=when)
        if period.how == "not known how" and period.start.latest is not None:
            return self._say(say.WITH_BY, who=who, years=str(period.start.latest.year))
        return self._say(say.CAME.get(period.how, say.CAME["transfer"]), when=when, who=who)

    def _ended(self, owned: Sequence[CustodyPeriod], place: int, clause: str) -> str:
        """What is known of the end of a time that no other holder took over."""
        period = owned[place]
        following = owned[place + 1] if place + 1 < len(owned) else None
        for quarantine in self._own_quarantine(period):
            clause = self._say(say.QUARANTINED, clause=clause, span=quarantine)
        if period.left_by is not None and period.end is not None:
            left = self._dated(period.left_by)
            when = at(period.end, left.event.when if left else None, self.teller.translate)
            return self._say(say.LEFT.get(left.event.kind if left else "", say.LEFT_THEM), clause=clause, when=when)
        if following is None or not following.is_gap:
            return clause
        when = at(following.start, None, self.teller.translate)
        if self.teller.people.ended(period.holders) is not None and following.start == period.end:
            people = all(self.teller.names.is_person(one) for one in period.holders)
            return self._say(say.UNTIL_DEATH if people else say.UNTIL_END, clause=clause, when=when)
        if order_of(following.start) > order_of(period.start):
            return self._say(say.LAST_KNOWN, clause=clause, when=when)
        return clause

    def _own_quarantine(self, period: CustodyPeriod) -> list[str]:
        """Quarantine within a period in which nobody else is named as keeping it."""
        kept = {p.event for p in self.custody.periods if p.how == "quarantine"}
        spans = []
        for d in self.teller.past.get(self.custody.accession, ()):
            if d.event.kind != "quarantine" or d.told_as in kept:
                continue
            if order_of(period.start) <= d.key and (period.end is None or d.key < order_of(period.end)):
                spans.append(span(d.bounds, d.until, self.teller.translate))
        return spans

    def _gap(self, gap: CustodyPeriod, before: Sequence[CustodyPeriod], following: Sequence[CustodyPeriod]) -> str:
        _ = self.teller.translate
        start, end = years(gap.start, _), years(gap.end, _)
        if gap.end is None or not end:
            said = self._say(say.GAP_OPEN, start=start) if start else _(say.GAP_UNDATED)
        elif not start:
            said = self._say(say.GAP_BEFORE, end=end)
        elif start == end and one_year(gap.start) is not None:
            said = self._say(say.GAP_WITHIN, start=start)
        else:
            said = self._say(say.GAP, start=start, end=end, years=how_long(gap.years(self.teller.as_of), _))
        if gap.gap_grade == "bridged":
            told = [d.bounds for d in self.teller.past.get(self.custody.accession, ()) if d.told_as in gap.bridged_by]
            return self._say(say.BRIDGED, gap=said, when=self.teller.names.listed([years(b, _) for b in told]))
        if gap.gap_grade != "presumed":
            return said
        had_it = {one for period in before for one in period.holders}
        back = any(one in had_it for period in following for one in period.holders)
        return self._say(say.CAME_BACK if back else say.PRESUMED, gap=said)

    def _fate(self) -> list[str]:
        told = []
        for d in sorted(self.teller.past.get(self.custody.accession, ()), key=lambda d: d.key):
            if d.event.kind == "died" or d.event.kind in _LOST:
                message = say.DIED if d.event.kind == "died" else say.LOST[d.event.kind]
                when = at(d.bounds, d.event.when, self.teller.translate)
                said = years(d.bounds, self.teller.translate)
                told += self._sentence([self._say(message, when=when, years=said)])
        return told

    def _is_dealer(self, owned: Sequence[CustodyPeriod], place: int) -> bool:
        """Whether somebody had it in the way of trade between two others."""
        period = owned[place]
        following = owned[place + 1] if place + 1 < len(owned) else None
        if following is None or following.how not in _SOLD or period.how not in _TRADED:
            return False
        if self.teller.custodian in period.holders or (place == 0 and period.how != "not known how"):
            return False
        # Who exchanges gives one of their own for it, and so was no dealer, unless dealing is what they do.
        exchanged = "exchange" in (period.how, following.how)
        return all(self.teller.people.is_trade(one, houses=not exchanged) for one in period.holders)

    def _giver(self, period: CustodyPeriod, event: Event) -> Holders:
        mirrored = "#" in (period.event or "") and bool(set(period.holders) & set(event.from_))
        return event.to if mirrored else event.from_

    def _when(self, period: CustodyPeriod, event: Event | None) -> WhenWritten | None:
        """The date as written, where the period begins on it."""
        if event is None or event.when is None or period.how in ("not known how", "family", "estate", "survivor"):
            return None
        return event.when

    def _dated(self, told_as: str | None) -> Dated | None:
        if told_as is None:
            return None
        return self.teller.dated.get(told_as if "#" in told_as else f"{self.custody.accession}#{told_as}")

    def _who(self, period: CustodyPeriod) -> str:
        names = self.teller.names.stewards(period.holders)
        return self._say(say.JOINTLY, names=names) if period.joint else names

    def _span(self, loan: CustodyPeriod) -> str:
        return span(loan.start, loan.end, self.teller.translate)

    def _sentence(self, clauses: Sequence[str]) -> list[str]:
        """The clauses of one unbroken run as a sentence; none for none."""
        if not clauses:
            return []
        said = self.teller.translate(say.SEMICOLON).join(clauses)
        at_letter = 1 if said.startswith("(") else 0
        said = f"{said[:at_letter]}{said[at_letter : at_letter + 1].upper()}{said[at_letter + 1 :]}"
        return [self.teller.translate(say.STOP) % {"sentence": said}]

    def _say(self, message: str, **values: str) -> str:
        return tidy(self.teller.translate(message) % values)


def tidy(said: str) -> str:
    """Without the blanks that a missing date leaves."""
    said = " ".join(said.split())
    return said.replace(" ,", ",").replace(" )", ")").rstrip(" ,")
