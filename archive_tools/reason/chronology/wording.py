"""What may be said in a sentence: the wording table, tried row by row.

Sentences name years of beginnings, which never go stale. Each is one message for the catalogues, with its years put in.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from archive_tools.model.dates import WhenWritten
from archive_tools.model.event import Event
from archive_tools.model.findings import Bounds
from archive_tools.model.grades import Grade, Milestone
from archive_tools.reason.chronology.proof import Translate

UNDER_REVIEW = "Dates under review"

SAYINGS: Mapping[str, tuple[str, str, str, str]] = {
    # what: plainly, probably (a date marked "?"), said (reported), thought (inferred)
    "care": (
        "In training since %(years)s",
        "Probably in training since %(years)s",
        "Said to have been in training since %(years)s",
        "Thought to have been in training since %(years)s",
    ),
    "collected": (
        "In cultivation since %(years)s",
        "Probably in cultivation since %(years)s",
        "Said to have been in cultivation since %(years)s",
        "Thought to have been in cultivation since %(years)s",
    ),
    "container": (
        "In a container since %(years)s",
        "Probably in a container since %(years)s",
        "Said to have been in a container since %(years)s",
        "Thought to have been in a container since %(years)s",
    ),
    "arrival": (
        "Here since %(years)s",
        "Probably here since %(years)s",
        "Said to have been here since %(years)s",
        "Thought to have been here since %(years)s",
    ),
    "loan": (
        "Here since %(years)s on loan",
        "Probably here since %(years)s on loan",
        "Said to have been here since %(years)s on loan",
        "Thought to have been here since %(years)s on loan",
    ),
    "planting": (
        "Planted together in %(years)s",
        "Probably planted together in %(years)s",
        "Said to have been planted together in %(years)s",
        "Thought to have been planted together in %(years)s",
    ),
    "origin": (
        "Growing since %(years)s",
        "Probably growing since %(years)s",
        "Said to have been growing since %(years)s",
        "Thought to have been growing since %(years)s",
    ),
    "sown": (
        "From seed sown in %(years)s",
        "Probably from seed sown in %(years)s",
        "Said to be from seed sown in %(years)s",
        "Thought to be from seed sown in %(years)s",
    ),
    "germinated": (
        "From seed that germinated in %(years)s",
        "Probably from seed that germinated in %(years)s",
        "Said to be from seed that germinated in %(years)s",
        "Thought to be from seed that germinated in %(years)s",
    ),
    "struck": (
        "From a cutting struck in %(years)s",
        "Probably from a cutting struck in %(years)s",
        "Said to be from a cutting struck in %(years)s",
        "Thought to be from a cutting struck in %(years)s",
    ),
    "layer severed": (
        "From a layer severed in %(years)s",
        "Probably from a layer severed in %(years)s",
        "Said to be from a layer severed in %(years)s",
        "Thought to be from a layer severed in %(years)s",
    ),
    "raised from graft": (
        "Raised from a graft in %(years)s",
        "Probably raised from a graft in %(years)s",
        "Said to have been raised from a graft in %(years)s",
        "Thought to have been raised from a graft in %(years)s",
    ),
    "raised from division": (
        "Raised from a division in %(years)s",
        "Probably raised from a division in %(years)s",
        "Said to have been raised from a division in %(years)s",
        "Thought to have been raised from a division in %(years)s",
    ),
}
_IN = frozenset(SAYINGS) - {"care", "collected", "container", "arrival", "loan", "origin"}
"""Sayings that name a single act ("in 1951", "about 1951"), not the beginning of a time."""

ACQUIRED = {
    "gift": "given in %(years)s",
    "bequest": "bequeathed in %(years)s",
    "purchase": "bought in %(years)s",
    "exchange": "exchanged in %(years)s",
    "transfer": "transferred in %(years)s",
}


@dataclass(frozen=True, slots=True)
class Told:
    """What one layer tells of a milestone.

    event: the beginning that decides it, None where it is only attested. approximate: a date marked "about" decides an
    end; uncertain: one marked "?" does. said: the years of the deciding date as written, without margins.
    """

    bounds: Bounds
    event: Event | None
    approximate: bool = False
    uncertain: bool = False


def sentence(milestone: Milestone, layers: Mapping[Grade, Told], what: str, translate: Translate) -> str | None:
    """The sentence for a milestone, or None where nothing is said. `what` names the saying of its kind."""
    documented = layers[Grade.DOCUMENTED]
    reported = layers[Grade.REPORTED]
    if _says(documented):
        plain = _fill(what, 0, documented, translate)
        if _goes_back(documented, reported):
            years = years_of(reported, translate)
            plain += translate("; said to go back to %(years)s") % {"years": years}
        return plain
    if _says(reported):
        return _fill(what, 1 if reported.uncertain else 2, reported, translate)
    inferred = layers[Grade.INFERRED]
    if _says(inferred):
        return _fill(what, 3, inferred, translate, about=inferred.event is not None)
    return None


def _says(told: Told) -> bool:
    """A beginning must have an end that is known; what is only attested must be attested by some day."""
    return told.bounds.latest is not None or (told.event is not None and told.bounds.earliest is not None)


def _goes_back(documented: Told, reported: Told) -> bool:
    """Whether what is said lies wholly before what is documented."""
    later, earlier = documented.bounds, reported.bounds
    if later.latest is None or earlier.latest is None or earlier.latest.year >= later.latest.year:
        return False
    return documented.event is None or later.earliest is None or earlier.latest < later.earliest


def _fill(what: str, hedge: int, told: Told, translate: Translate, *, about: bool = False) -> str:
    years = years_of(told, translate, about=about)
    message = SAYINGS[what][hedge]
    if what in _IN and years != _plain(told):
        # "in about 1951" is no English: "about 1951" and "1951 or earlier" stand without "in".
        message = message.replace(" in %(years)s", " %(years)s")
    return translate(message) % {"years": years}


def years_of(told: Told, translate: Translate, *, about: bool = False) -> str:
    """The years of a beginning: "1953", "1953-1955", "about 1953", "1971 or earlier", "1953 or later"."""
    first, last = told.bounds.earliest, told.bounds.latest
    if told.event is None or first is None:
        assert last is not None
        return translate("%(year)s or earlier") % {"year": last.year}
    if last is None:
        return translate("%(year)s or later") % {"year": first.year}
    if told.approximate:
        return translate("about %(years)s") % {"years": _meant(told, first, last)}
    plain = _plain(told)
    return translate("about %(years)s") % {"years": plain} if about else plain


def _plain(told: Told) -> str:
    first, last = told.bounds.earliest, told.bounds.latest
    if first is None or last is None:
        return ""
    return str(first.year) if first.year == last.year else f"{first.year}-{last.year}"


def _meant(told: Told, first: date, last: date) -> str:
    """The years an approximate date means: as written where the beginning's own date decides, else the middle."""
    when: WhenWritten | None = told.event.when if told.event else None
    if when is not None and when.approximate and None not in when.years:
        start, end = when.years
        return str(start) if start == end else f"{start}-{end}"
    return str((first.year + last.year) // 2)


def planting(sentence_of_care: str, remade: Sequence[Event], translate: Translate) -> str:
    """The sentence of a planting: “Planted together in 1969, remade in 2011”."""
    years = [str(event.when.one_year) for event in remade if event.when is not None and event.when.one_year]
    if not years:
        return sentence_of_care
    return sentence_of_care + translate(", remade in %(years)s") % {"years": ", ".join(dict.fromkeys(years))}


def rings_sentence(event: Event, translate: Translate, collected: Event | None) -> str | None:
    """“Collected in 1961, then at least 37 years old by its 38 rings”; None where the year is not known."""
    rings, at = event.rings, collected or event
    if rings is None or at.when is None:
        return None
    first, last = at.when.years
    if first is None or last is None:
        return None
    year = str(first) if first == last else f"{first}-{last}"
    if at.when.approximate:
        year = translate("about %(years)s") % {"years": year}
    counted = rings.count - rings.false_rings
    least, most = counted + rings.missed[0] - 1, rings.missed[1]
    words = {"year": year, "least": least, "rings": rings.count, "most": counted + (most or 0)}
    if collected is not None:
        message = (
            "Collected in %(year)s, then at least %(least)s years old by its %(rings)s rings"
            if not most or most == rings.missed[0]
            else "Collected in %(year)s, then %(least)s to %(most)s years old by its %(rings)s rings"
        )
    else:
        message = "At least %(least)s years old in %(year)s by its %(rings)s rings"
    if at.when.approximate:
        message = message.replace("in %(year)s", "%(year)s")
    return translate(message) % words
