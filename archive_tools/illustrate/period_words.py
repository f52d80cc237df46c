"""Who held a tree and when, in a few words: for the drawing's lines, and in full for its description."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from archive_tools.illustrate.change import Translate
from archive_tools.model.findings import Bounds, CustodyPeriod, Hand
from archive_tools.model.people import Steward


def years(bounds: Bounds, _: Translate = str) -> str:
    """The years between which something lies: "1953", "1981–83", "1971 or earlier", "1960 or later", or ""."""
    first, last = bounds.earliest, bounds.latest
    if first is not None and last is not None:
        if first.year == last.year:
            return str(first.year)
        return (
            f"{first.year}–{last.year % 100:02d}"
            if first.year // 100 == last.year // 100
            else f"{first.year}–{last.year}"
        )
    if last is not None:
        return _("%(date)s or earlier") % {"date": last.year}
    return _("%(date)s or later") % {"date": first.year} if first is not None else ""


def names(ids: tuple[str, ...], stewards: Mapping[str, Steward], language: str, _: Translate = str) -> str:
    """The stewards' names as this edition has them; an id never stands in for a name."""
    said = [stewards[one].name.say(language) if one in stewards else _("name withheld") for one in ids]
    if len(said) < 2:
        return "".join(said)
    return _("%(some)s and %(last)s") % {"some": ", ".join(said[:-1]), "last": said[-1]}


def held(period: CustodyPeriod, custodian: str, _: Translate = str) -> str:
    """When a holder held the tree: "1951 to 1978", "until 1978", "given 1996", "on loan since 1994"."""
    start = years(period.start, _)
    if period.end is None:
        if not period.owner:
            return _("on loan since %(start)s") % {"start": start} if start else _("on loan")
        if custodian in period.holders and start and period.start.earliest is not None:
            return _came(period.how, _) % {"start": start}
        return _("since %(start)s") % {"start": start} if start else _("to this day")
    said = _from_to(period.start, period.end, _)
    return said if period.owner else _("on loan %(years)s") % {"years": said}


def lent_then_given(loan: CustodyPeriod, kept: CustodyPeriod, _: Translate = str) -> str:
    """When a holder had the tree first on loan and then as owner: "loan 1994, given 1996"."""
    came = _came(kept.how, _) % {"start": years(kept.start, _)}
    said = _("loan %(start)s, %(came)s") % {"start": years(loan.start, _), "came": came}
    return said if kept.end is None else _("%(came)s, until %(end)s") % {"came": said, "end": years(kept.end, _)}


def gap(period: CustodyPeriod, _: Translate = str) -> str:
    """What is said of years in which nobody is known, after the words "nobody known"."""
    if period.gap_grade == "bridged":
        return _("said to have changed no hands")
    return ""


def worked(hand: Hand, stewards: Mapping[str, Steward], language: str, _: Translate = str) -> str:
    """Who did what, and when: "styled 1991, Tobiah Renn"."""
    done = " ".join(part for part in (_(hand.kind), years(hand.bounds, _)) if part)
    return ", ".join(part for part in (done, names(hand.stewards, stewards, language, _)) if part)


def first_day(bounds: Bounds) -> date:
    """The earliest day, else the latest, else the end of time: for putting things in order."""
    return bounds.earliest or bounds.latest or date.max


def _from_to(start: Bounds, end: Bounds, _: Translate) -> str:
    first, last = years(start, _), years(end, _)
    if not last:
        return _("from %(start)s") % {"start": first} if first else _("at some time")
    if start.earliest is None:
        known_by = start.latest is not None and end.earliest is not None and start.latest.year < end.earliest.year
        if known_by and start.latest is not None:
            return _("by %(start)s, until %(end)s") % {"start": start.latest.year, "end": last}
        return _("until %(end)s") % {"end": last}
    return first if first == last else _("%(start)s to %(end)s") % {"start": first, "end": last}


def _came(how: str, _: Translate) -> str:
    return {
        "gift": _("given %(start)s"),
        "bequest": _("left by will %(start)s"),
        "purchase": _("bought %(start)s"),
        "exchange": _("by exchange %(start)s"),
        "transfer": _("transferred %(start)s"),
        "collected": _("collected %(start)s"),
    }.get(how, _("since %(start)s"))
