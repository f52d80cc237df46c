"""Proofs: which statements decide an end, and what each of them says in readable words.

The words are English, whatever language the pages are in: they are for programs, for the terminal and for a curator who
is told what disagrees. What a page prints of a statement is told in its own words, from the record it stands in.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from archive_tools.model.dates import Duration, WhenWritten
from archive_tools.model.event import Citation, Event, EventRef, StatedAge, Timing
from archive_tools.model.findings import Statement
from archive_tools.model.people import Source, Steward
from archive_tools.model.photo import Photo
from archive_tools.model.tree import Member
from archive_tools.reason.chronology.beginnings import earliest_case, latest_case
from archive_tools.reason.chronology.layers import Layer
from archive_tools.reason.chronology.reasons import chain
from archive_tools.reason.chronology.system import Claim, System


def deciding(system: System, layer: Layer, point: int, end: str) -> list[Claim]:
    """The claims that decide the "earliest" or "latest" end of a point, in the order of the argument."""
    if end == "earliest":
        owners = chain(earliest_case(layer.cases, point).why_earliest, point)
    else:
        owners = chain(latest_case(layer.cases, point).why_latest, point)
    claims = (system.claims[owner] for owner in dict.fromkeys(owners))
    return [claim for claim in claims if claim is not None]


class Speaker:
    """Says what claims say."""

    def __init__(self, sources: Mapping[str, Source]) -> None:
        self.sources = sources

    def statements(self, claims: Iterable[Claim]) -> tuple[Statement, ...]:
        """Each claim as a reader may be shown it."""
        return tuple(self.statement(claim) for claim in claims)

    def statement(self, claim: Claim) -> Statement:
        """A claim as a reader may be shown it, with the place where it is written."""
        item = claim.item
        stands_in = item.id if isinstance(item, Event | Photo) else None
        tree = None if isinstance(item, Steward) else claim.tree
        return Statement(claim.mark, self._says(claim), claim.grade, stands_in, tree)

    def _says(self, claim: Claim) -> str:
        item = claim.item
        if isinstance(item, Steward):
            was = "was born" if claim.about == "born" else "died"
            return f"{item.name.say()} {was} {self._when(claim.when)}"
        if isinstance(item, Member):
            return f"member {item.id} of the planting since {self._when(claim.when)}"
        return self._about(claim, item) + self._cited(item.sources)

    def _about(self, claim: Claim, item: Event | Photo) -> str:
        name = self._name(item)
        if claim.about == "date":
            return f"{name} {self._when(item.when)}"
        if claim.about == "until":
            return f"{name} until {self._when(claim.when)}"
        if isinstance(claim.part, Timing):
            return self._timing(name, claim.part)
        if isinstance(claim.part, StatedAge):
            return self._stated(name, claim.part)
        if isinstance(claim.part, EventRef):
            return f"{name} {self._when(item.when)} with {claim.part}"
        if claim.about == "shows":
            return f"{name} {self._when(item.when)}: {', '.join(item.shows)}"
        if claim.about == "mother" and isinstance(item, Event):
            return f"{name} {self._when(item.when)} from {item.from_tree}"
        assert isinstance(item, Event)
        return self._rings(name, item)

    def _name(self, item: Event | Photo) -> str:
        if isinstance(item, Event):
            return item.kind
        if "container" in item.shows:
            return f"photograph {item.id}, in a container,"
        if "trained" in item.shows:
            return f"photograph {item.id}, trained,"
        return f"photograph {item.id}"

    def _timing(self, name: str, timing: Timing) -> str:
        lapses = []
        if timing.at_least is not None:
            lapses.append(f"at least {self._lapse(timing.at_least)}")
        if timing.at_most is not None:
            lapses.append(f"at most {self._lapse(timing.at_most)}")
        order = "after" if timing.relation == "after" else "before"
        return " ".join(part for part in (name, ", ".join(lapses), order, str(timing.other)) if part)

    def _stated(self, name: str, stated: StatedAge) -> str:
        if stated.most is None:
            years = f"at least {stated.least}"
        elif stated.least in (None, stated.most):
            years = str(stated.most)
        else:
            years = f"{stated.least} to {stated.most}"
        if stated.approximate:
            years = f"about {years}"
        said = f"{name}: “{years} years” of {stated.of.value}"
        return said if stated.as_of is None else f"{said}, {self._when(stated.as_of)}"

    def _rings(self, name: str, event: Event) -> str:
        rings = event.rings
        assert rings is not None
        said = f"{rings.count} rings counted"
        fewest, most = rings.missed
        if most == 0:
            said += ", none missed"
        elif fewest or most is not None:
            missed = f"{fewest}" if most == fewest else f"{fewest}-{most}" if most is not None else f"{fewest}+"
            said += f", {missed} missed"
        if rings.false_rings:
            said += f", {rings.false_rings} false"
        at = str(rings.up_to) if rings.up_to is not None else f"{name} {self._when(event.when)}".strip()
        return f"{said} ({at})"

    def _cited(self, citations: tuple[Citation, ...]) -> str:
        told = [said for citation in citations if (said := self._source(citation))]
        return f" ({'; '.join(dict.fromkeys(told))})" if told else ""

    def _source(self, citation: Citation) -> str:
        source = self.sources.get(citation.source)
        if source is None:
            return ""
        if source.masked:
            return "source not public"
        return ", ".join(filter(None, (source.title.say(), citation.at)))

    def _when(self, when: WhenWritten | None) -> str:
        """A written date in words: the marks of the standard spelt out."""
        if when is None:
            return ""
        text = when.text.replace("%", "").replace("~", "").replace("?", "")
        first, slash, last = text.partition("/")
        if slash:
            if first in ("", ".."):
                text = f"not after {last}"
            elif last in ("", ".."):
                text = f"not before {first}"
            else:
                text = f"{first} to {last}"
        if when.approximate:
            text = f"about {text}"
        return f"perhaps {text}" if when.uncertain else text

    def _lapse(self, lapse: Duration) -> str:
        units = ((lapse.years, "year"), (lapse.months, "month"), (lapse.days, "day"))
        said = [f"{number} {unit}{'' if number == 1 else 's'}" for number, unit in units if number]
        return " ".join(said) or "0 days"
