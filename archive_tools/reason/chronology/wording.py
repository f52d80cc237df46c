"""What may be said in a sentence: the wording table, tried row by row.

Sentences name years of beginnings, which never go stale. Each is one message for the catalogues, with its years put in.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from archive_tools.model.event import Event, Rings
from archive_tools.model.findings import Bounds
from archive_tools.model.grades import Grade

Translate = Callable[[str], str]
N_: Callable[[str], str] = str
"""Marks a message for the catalogue where it stands in a table; it is translated when it is said."""

UNDER_REVIEW = N_("Dates under review")

SAYINGS: Mapping[str, tuple[str, str, str, str]] = {
    # what: plainly, probably (a date marked "?"), said (reported), thought (inferred)
    "care": (
        N_("In training since %(years)s"),
        N_("Probably in training since %(years)s"),
        N_("Said to have been in training since %(years)s"),
        N_("Thought to have been in training since %(years)s"),
    ),
    "collected": (
        N_("In cultivation since %(years)s"),
        N_("Probably in cultivation since %(years)s"),
        N_("Said to have been in cultivation since %(years)s"),
        N_("Thought to have been in cultivation since %(years)s"),
    ),
    "container": (
        N_("In a container since %(years)s"),
        N_("Probably in a container since %(years)s"),
        N_("Said to have been in a container since %(years)s"),
        N_("Thought to have been in a container since %(years)s"),
    ),
    "arrival": (
        N_("Here since %(years)s"),
        N_("Probably here since %(years)s"),
        N_("Said to have been here since %(years)s"),
        N_("Thought to have been here since %(years)s"),
    ),
    "loan": (
        N_("Here since %(years)s on loan"),
        N_("Probably here since %(years)s on loan"),
        N_("Said to have been here since %(years)s on loan"),
        N_("Thought to have been here since %(years)s on loan"),
    ),
    "planting": (
        N_("Planted together %(years)s"),
        N_("Probably planted together %(years)s"),
        N_("Said to have been planted together %(years)s"),
        N_("Thought to have been planted together %(years)s"),
    ),
    "origin": (
        N_("Growing since %(years)s"),
        N_("Probably growing since %(years)s"),
        N_("Said to have been growing since %(years)s"),
        N_("Thought to have been growing since %(years)s"),
    ),
    "sown": (
        N_("From seed sown %(years)s"),
        N_("Probably from seed sown %(years)s"),
        N_("Said to be from seed sown %(years)s"),
        N_("Thought to be from seed sown %(years)s"),
    ),
    "germinated": (
        N_("From seed that germinated %(years)s"),
        N_("Probably from seed that germinated %(years)s"),
        N_("Said to be from seed that germinated %(years)s"),
        N_("Thought to be from seed that germinated %(years)s"),
    ),
    "struck": (
        N_("From a cutting struck %(years)s"),
        N_("Probably from a cutting struck %(years)s"),
        N_("Said to be from a cutting struck %(years)s"),
        N_("Thought to be from a cutting struck %(years)s"),
    ),
    "layer severed": (
        N_("From a layer severed %(years)s"),
        N_("Probably from a layer severed %(years)s"),
        N_("Said to be from a layer severed %(years)s"),
        N_("Thought to be from a layer severed %(years)s"),
    ),
    "raised from graft": (
        N_("Raised from a graft %(years)s"),
        N_("Probably raised from a graft %(years)s"),
        N_("Said to have been raised from a graft %(years)s"),
        N_("Thought to have been raised from a graft %(years)s"),
    ),
    "raised from division": (
        N_("Raised from a division %(years)s"),
        N_("Probably raised from a division %(years)s"),
        N_("Said to have been raised from a division %(years)s"),
        N_("Thought to have been raised from a division %(years)s"),
    ),
}
_ACTS = frozenset(SAYINGS) - {"care", "collected", "container", "arrival", "loan", "origin"}
"""Sayings that name a single act ("in 1951", "about 1951", "1951 or earlier"), not the beginning of a time."""

ACQUIRED: Mapping[str, str] = {
    "gift": N_(", given in %(years)s"),
    "bequest": N_(", bequeathed in %(years)s"),
    "purchase": N_(", bought in %(years)s"),
    "exchange": N_(", exchanged in %(years)s"),
    "transfer": N_(", transferred in %(years)s"),
}
BY_RINGS: Mapping[tuple[Grade, bool, bool], str] = {
    # (grade, collected, with an upper end)
    (Grade.DOCUMENTED, True, False): N_("Collected %(when)s, then at least %(least)s years old by its %(rings)s rings"),
    (Grade.DOCUMENTED, True, True): N_("Collected %(when)s, then %(least)s-%(most)s years old by its %(rings)s rings"),
    (Grade.DOCUMENTED, False, False): N_("At least %(least)s years old %(when)s by its %(rings)s rings"),
    (Grade.DOCUMENTED, False, True): N_("%(least)s-%(most)s years old %(when)s by its %(rings)s rings"),
    (Grade.REPORTED, True, False): N_(
        "Said to have been collected %(when)s, then at least %(least)s years old by its %(rings)s rings"
    ),
    (Grade.REPORTED, True, True): N_(
        "Said to have been collected %(when)s, then %(least)s-%(most)s years old by its %(rings)s rings"
    ),
    (Grade.REPORTED, False, False): N_(
        "Said to have been at least %(least)s years old %(when)s by its %(rings)s rings"
    ),
    (Grade.REPORTED, False, True): N_("Said to have been %(least)s-%(most)s years old %(when)s by its %(rings)s rings"),
    (Grade.INFERRED, True, False): N_(
        "Thought to have been collected %(when)s, then at least %(least)s years old by its %(rings)s rings"
    ),
    (Grade.INFERRED, True, True): N_(
        "Thought to have been collected %(when)s, then %(least)s-%(most)s years old by its %(rings)s rings"
    ),
    (Grade.INFERRED, False, False): N_(
        "Thought to have been at least %(least)s years old %(when)s by its %(rings)s rings"
    ),
    (Grade.INFERRED, False, True): N_(
        "Thought to have been %(least)s-%(most)s years old %(when)s by its %(rings)s rings"
    ),
}


@dataclass(frozen=True, slots=True)
class Told:
    """What one layer tells of a milestone.

    event: the beginning that decides it, or None. stated: without one, somebody's statement of an age bounds both ends.
    Where neither is so it is only attested. approximate: dates marked "about" decide; uncertain: one marked "?" does.
    """

    bounds: Bounds
    event: Event | None = None
    stated: bool = False
    approximate: bool = False
    uncertain: bool = False

    @property
    def says(self) -> bool:
        """Whether there is anything to say: a beginning with an end that is known, or a day by which it had begun."""
        return self.bounds.latest is not None or (self.event is not None and self.bounds.earliest is not None)


def sentence(told: Mapping[Grade, Told], saying: str, translate: Translate) -> str:
    """The sentence for a milestone of which the documented, reported or inferred layer says something."""
    documented, reported = told[Grade.DOCUMENTED], told[Grade.REPORTED]
    if documented.says:
        plain = _fill(saying, 0, documented, translate)
        if _goes_back(documented, reported):
            plain += translate("; said to go back to %(years)s") % {"years": years_of(reported, translate)}
        return plain
    if reported.says:
        return _fill(saying, 1 if reported.uncertain else 2, reported, translate)
    return _fill(saying, 3, told[Grade.INFERRED], translate, about=True)


def _goes_back(documented: Told, reported: Told) -> bool:
    """Whether what is said lies wholly before what is documented."""
    later, earlier = documented.bounds, reported.bounds
    if later.latest is None or earlier.latest is None or earlier.latest.year >= later.latest.year:
        return False
    return documented.event is None or later.earliest is None or earlier.latest < later.earliest


def _fill(saying: str, hedge: int, told: Told, translate: Translate, *, about: bool = False) -> str:
    message = SAYINGS[saying][hedge]
    years = years_of(told, translate, about=about)
    if saying in _ACTS and years == plain_years(told.bounds, translate):
        years = translate("in %(years)s") % {"years": years}
    return translate(message) % {"years": years}


def years_of(told: Told, translate: Translate, *, about: bool = False) -> str:
    """The years of a beginning: "1953", "1953-1955", "about 1953", "1971 or earlier", "1953 or later".

    `about` marks the years of a beginning as approximate even where its date is not.
    """
    first, last = told.bounds.earliest, told.bounds.latest
    if last is not None and (first is None or not (told.event or told.stated)):
        return translate("%(year)s or earlier") % {"year": last.year}
    if first is not None and last is None:
        return translate("%(year)s or later") % {"year": first.year}
    years = _meant(told, translate) if told.approximate else plain_years(told.bounds, translate)
    return translate("about %(years)s") % {"years": years} if told.approximate or about else years


def plain_years(bounds: Bounds, translate: Translate) -> str:
    """The year, or the first and the last: 1953-1955; "" where an end is not known."""
    first, last = bounds.earliest, bounds.latest
    if first is None or last is None:
        return ""
    if first.year == last.year:
        return _one_year(first.year, translate)
    return translate("%(first)s-%(last)s") % {"first": first.year, "last": last.year}


def _one_year(year: int, translate: Translate) -> str:
    return translate("%(year)s") % {"year": year}


def _meant(told: Told, translate: Translate) -> str:
    """The years that "about" means: as written where the beginning has such a date itself, else the middle."""
    when = told.event.when if told.event else None
    if when is not None and when.approximate and when.said.first and when.said.last:
        return plain_years(Bounds(when.said.first, when.said.last), translate)
    first, last = told.bounds.earliest, told.bounds.latest
    assert first is not None
    assert last is not None
    return _one_year((first.year + last.year) // 2, translate)


def remade(again: Iterable[Event], translate: Translate) -> str:
    """What follows "Planted together in 1969": ", remade in 2011"."""
    years = _years_said(again, translate)
    return translate(", remade in %(years)s") % {"years": translate(", ").join(years)} if years else ""


def members_sentence(origins: Sequence[str], translate: Translate) -> str | None:
    """The beginnings of the members of a planting, oldest first: only the oldest and the newest are said."""
    if not origins:
        return None
    if len(origins) == 1:
        return translate("Of its members: %(origin)s") % {"origin": origins[0]}
    message = translate("Oldest member: %(oldest)s; newest member: %(newest)s")
    return message % {"oldest": origins[0], "newest": origins[-1]}


def acquired(events: Iterable[Event], translate: Translate) -> str:
    """What follows "Here since 1994 on loan": ", given in 1996"."""
    for event in events:
        years = _years_said([event], translate) if event.kind in ACQUIRED else []
        if years:
            return translate(ACQUIRED[event.kind]) % {"years": years[0]}
    return ""


def _years_said(events: Iterable[Event], translate: Translate) -> list[str]:
    dated = (event.when.one_year for event in events if event.when is not None)
    years = [_one_year(year, translate) for year in dated if year]
    return list(dict.fromkeys(years))


def rings_sentence(rings: Rings, at: Event, grade: Grade, translate: Translate) -> str | None:
    """“Collected in 1961, then at least 37 years old by its 38 rings”; None where the year is not known."""
    if at.when is None or at.when.said.first is None or at.when.said.last is None:
        return None
    years = plain_years(Bounds(at.when.said.first, at.when.said.last), translate)
    pattern = translate("about %(years)s") if at.when.approximate else translate("in %(years)s")
    when = pattern % {"years": years}
    counted = rings.count - rings.false_rings
    fewest, most = rings.missed
    has_end = most is not None and most > fewest
    message = BY_RINGS[(grade, at.kind == "collected", has_end)]
    ages = {"least": max(counted + fewest - 1, 0), "most": counted + (most or 0)}
    return translate(message) % {"when": when, "rings": rings.count, **ages}
