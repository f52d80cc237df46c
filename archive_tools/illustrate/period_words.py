"""Who held a tree and when, in a few words: for the drawing's lines, and in full for its description."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from archive_tools.illustrate.change import Translate
from archive_tools.illustrate.work_words import work_words
from archive_tools.model.findings import Bounds, CustodyPeriod, Hand
from archive_tools.model.people import Steward


def years(bounds: Bounds, _: Translate = str) -> str:
    """The years between which something lies: "1953", "1981–83", "1971 or earlier", "1960 or later", or ""."""
    first, last = bounds.earliest, bounds.latest
    if first is not None and last is not None:
        return year_range(first.year, last.year, _)
    if last is not None:
        return _("%(date)s or earlier") % {"date": year_range(last.year, last.year, _)}
    return _("%(date)s or later") % {"date": year_range(first.year, first.year, _)} if first is not None else ""


def year_range(first: int, last: int, _: Translate = str) -> str:
    """Two years, or the one they both are: "1953", "1981–83", "1998–2003"."""
    if first == last:
        return _("%(year)s") % {"year": first}
    ends = {"first": first, "last": f"{last % 100:02d}" if first // 100 == last // 100 else last}
    return _("%(first)s–%(last)s") % ends


def names(ids: Sequence[str], stewards: Mapping[str, Steward], language: str, _: Translate = str) -> str:
    """The stewards' names as this edition has them; an id never stands in for a name."""
    return listed([name_of(one, stewards, language, _) for one in ids], _)


def name_of(steward_id: str, stewards: Mapping[str, Steward], language: str, _: Translate = str) -> str:
    """One steward's name as this edition has it; what stands for a name is in the reader's language."""
    steward = stewards.get(steward_id)
    if steward is None:
        return _("name withheld")
    name = steward.name.say(language)
    return _(name) if steward.masked else name


def listed(items: Sequence[str], _: Translate = str) -> str:
    """Like "A, B and C"."""
    if len(items) < 2:
        return "".join(items)
    return _("%(some)s and %(last)s") % {"some": _(", ").join(items[:-1]), "last": items[-1]}


def sort_of(ids: Sequence[str], stewards: Mapping[str, Steward], _: Translate = str) -> str:
    """What sort of steward it is, where the name does not say so already: "a nursery", "a family" …, or ""."""
    steward = stewards.get(ids[0]) if len(ids) == 1 else None
    if steward is None or steward.masked or steward.kind in steward.name.say().casefold():
        return ""
    return {"nursery": _("a nursery"), "estate": _("an estate"), "family": _("a family"), "couple": _("a couple")}.get(
        steward.kind, ""
    )


def held(period: CustodyPeriod, custodian: str, _: Translate = str) -> str:
    """When and how a holder held it: "1951 to 1978, by gift", "until 1978", "given 1996", "on loan since 1994"."""
    start = years(period.start, _)
    if period.end is None:
        if period.how == "quarantine":
            return _("in quarantine since %(start)s") % {"start": start} if start else _("in quarantine")
        if not period.owner:
            return _("on loan since %(start)s") % {"start": start} if start else _("on loan")
        if start and period.start.earliest is not None:
            return _came(period.how, _) % {"start": start}
        return _("since %(start)s") % {"start": start} if start else _("to this day")
    said = _from_to(period.start, period.end, _)
    if period.how == "quarantine":
        return _("in quarantine %(years)s") % {"years": said}
    if not period.owner:
        return _("on loan %(years)s") % {"years": said}
    how = _how(period.how, _)
    return _("%(years)s, %(how)s") % {"years": said, "how": how} if how else said


def lent_then_given(loan: CustodyPeriod, kept: CustodyPeriod, _: Translate = str) -> str:
    """When a holder had the tree first on loan and then as owner: "loan 1994, given 1996"."""
    came = _came(kept.how, _) % {"start": years(kept.start, _)}
    said = _("loan %(start)s, %(came)s") % {"start": years(loan.start, _), "came": came}
    return said if kept.end is None else _("%(came)s, until %(end)s") % {"came": said, "end": years(kept.end, _)}


def gap_head(period: CustodyPeriod, _: Translate = str) -> str:
    """The words for years of which no holder is told."""
    return _("nothing told") if period.gap_grade == "presumed" else _("nobody known")


def gap(period: CustodyPeriod, told_of: Sequence[Bounds], as_of: date, _: Translate = str) -> str:
    """What is said of such years, after `gap_head`: how many they are, and what they rest on.

    told_of: when the statements were made that bridge it.
    """
    said = [count_of_years(period, as_of, _)]
    if period.gap_grade == "bridged":
        when = listed([one for one in dict.fromkeys(years(bounds, _) for bounds in told_of) if one], _)
        said.append(_("but told of in %(years)s") % {"years": when} if when else _("but told of"))
    elif period.gap_grade == "presumed":
        said.append(_("thought to have stayed"))
    return _(", ").join(part for part in said if part)


def count_of_years(period: CustodyPeriod, as_of: date, _: Translate = str) -> str:
    """How many whole years a period lasted: "6 to 7 years", "less than 2 years", "25 years", or ""."""
    found = period.years(as_of)
    if found.max is None:
        return _("%(n)s years and more") % {"n": found.min} if found.min else ""
    if not found.min:
        return _("less than %(n)s years") % {"n": found.max + 1} if found.max else _("less than a year")
    if found.min == found.max:
        return _("%(n)s years") % {"n": found.min} if found.min > 1 else _("one year")
    return _("%(min)s to %(max)s years") % {"min": found.min, "max": found.max}


def worked(hand: Hand, stewards: Mapping[str, Steward], language: str, _: Translate = str) -> str:
    """Who did what, and when: "styled 1991, Tobiah Renn"."""
    done = " ".join(part for part in (work_words(_).get(hand.kind, _(hand.kind)), years(hand.bounds, _)) if part)
    return _(", ").join(part for part in (done, names(hand.stewards, stewards, language, _)) if part)


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
        "gift": _("given %(start)s"), "given away": _("given %(start)s"), "bequest": _("left by will %(start)s"),
        "purchase": _("bought %(start)s"), "sold": _("bought %(start)s"), "exchange": _("by exchange %(start)s"),
        "transfer": _("handed over %(start)s"), "collected": _("collected %(start)s"),
        "found in collection": _("found here %(start)s"), "survivor": _("alone since %(start)s"),
    }.get(how, _("since %(start)s"))  # fmt: skip


def _how(how: str, _: Translate) -> str:
    return {
        "gift": _("by gift"), "given away": _("by gift"), "bequest": _("by will"), "purchase": _("bought"),
        "sold": _("bought"), "exchange": _("by exchange"), "transfer": _("handed over"), "collected": _("collected"),
        "survivor": _("the survivor"), "estate": _("after a death"), "family": _("within the family"),
        "planting": _("in a planting"),
    }.get(how, "")  # fmt: skip
