"""Proofs: which statements decide an end, and what each of them says in readable words."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

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

Translate = Callable[[str], str]


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

    def __init__(self, sources: Mapping[str, Source], translate: Translate) -> None:
        self.sources = sources
        self.translate = translate

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
            born = claim.about == "born"
            said = self.translate("%(who)s was born %(when)s") if born else self.translate("%(who)s died %(when)s")
            return said % {"who": item.name.say(), "when": self._when(claim.when)}
        if isinstance(item, Member):
            said = self.translate("member %(id)s of the planting since %(when)s")
            return said % {"id": item.id, "when": self._when(claim.when)}
        return self._about(claim, item) + self._cited(item.sources)

    def _about(self, claim: Claim, item: Event | Photo) -> str:
        _ = self.translate
        name = self._name(item)
        if claim.about == "date":
            return f"{name} {self._when(item.when)}"
        if claim.about == "until":
            return _("%(what)s until %(when)s") % {"what": name, "when": self._when(claim.when)}
        if isinstance(claim.part, Timing):
            return self._timing(name, claim.part)
        if isinstance(claim.part, StatedAge):
            return self._stated(name, claim.part)
        if isinstance(claim.part, EventRef):
            with_member = _("%(what)s %(when)s with %(member)s")
            return with_member % {"what": name, "when": self._when(item.when), "member": str(claim.part)}
        if claim.about == "shows":
            return f"{name} {self._when(item.when)}: {_(', ').join(map(_, item.shows))}"
        if claim.about == "mother" and isinstance(item, Event):
            mother = str(item.from_tree)
            return _("%(what)s %(when)s from %(mother)s") % {
                "what": name, "when": self._when(item.when), "mother": mother,
            }  # fmt: skip
        assert isinstance(item, Event)
        return self._rings(name, item)

    def _name(self, item: Event | Photo) -> str:
        _ = self.translate
        if isinstance(item, Event):
            return _(item.kind)
        if "container" in item.shows:
            return _("photograph %(id)s, in a container,") % {"id": item.id}
        if "trained" in item.shows:
            return _("photograph %(id)s, trained,") % {"id": item.id}
        return _("photograph %(id)s") % {"id": item.id}

    def _timing(self, name: str, timing: Timing) -> str:
        _ = self.translate
        lapses = []
        if timing.at_least is not None:
            lapses.append(_("at least %(lapse)s") % {"lapse": self._lapse(timing.at_least)})
        if timing.at_most is not None:
            lapses.append(_("at most %(lapse)s") % {"lapse": self._lapse(timing.at_most)})
        said = {"what": name, "lapse": _(", ").join(lapses), "other": str(timing.other)}
        if not lapses:
            after = timing.relation == "after"
            return (_("%(what)s after %(other)s") if after else _("%(what)s before %(other)s")) % said
        if timing.relation == "after":
            return _("%(what)s %(lapse)s after %(other)s") % said
        return _("%(what)s %(lapse)s before %(other)s") % said

    def _stated(self, name: str, stated: StatedAge) -> str:
        _ = self.translate
        if stated.most is None:
            years = _("at least %(n)s") % {"n": stated.least}
        elif stated.least in (None, stated.most):
            years = str(stated.most)
        else:
            years = _("%(first)s to %(last)s") % {"first": stated.least, "last": stated.most}
        if stated.approximate:
            years = _("about %(n)s") % {"n": years}
        said = _("%(what)s: “%(years)s years” of %(milestone)s") % {
            "what": name, "years": years, "milestone": _(stated.of.value),
        }  # fmt: skip
        return said if stated.as_of is None else f"{said}, {self._when(stated.as_of)}"

    def _rings(self, name: str, event: Event) -> str:
        _ = self.translate
        rings = event.rings
        assert rings is not None
        said = _("%(count)s rings counted") % {"count": rings.count}
        fewest, most = rings.missed
        if most == 0:
            said += _(", none missed")
        elif fewest or most is not None:
            missed = f"{fewest}" if most == fewest else f"{fewest}-{most}" if most is not None else f"{fewest}+"
            said += _(", %(missed)s missed") % {"missed": missed}
        if rings.false_rings:
            said += _(", %(false)s false") % {"false": rings.false_rings}
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
            return self.translate("source not public")
        return ", ".join(filter(None, (source.title.say(), citation.at)))

    def _when(self, when: WhenWritten | None) -> str:
        """A written date in words: the marks of the standard spelt out."""
        if when is None:
            return ""
        _ = self.translate
        text = when.text.replace("%", "").replace("~", "").replace("?", "")
        first, slash, last = text.partition("/")
        if slash:
            if first in ("", ".."):
                text = _("not after %(date)s") % {"date": last}
            elif last in ("", ".."):
                text = _("not before %(date)s") % {"date": first}
            else:
                text = _("%(first)s to %(last)s") % {"first": first, "last": last}
        if when.approximate:
            text = _("about %(date)s") % {"date": text}
        return _("perhaps %(date)s") % {"date": text} if when.uncertain else text

    def _lapse(self, lapse: Duration) -> str:
        _ = self.translate
        units = (
            (lapse.years, _("%(n)s year"), _("%(n)s years")),
            (lapse.months, _("%(n)s month"), _("%(n)s months")),
            (lapse.days, _("%(n)s day"), _("%(n)s days")),
        )
        said = [(one if number == 1 else many) % {"n": number} for number, one, many in units if number]
        return " ".join(said) or _("%(n)s days") % {"n": 0}
