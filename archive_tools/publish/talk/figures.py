"""The drawings of a talk as shares of their boxes: the line of stewards, the plan of the courts."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from archive_tools.model.findings import Bounds, Custody
from archive_tools.publish.context import Context
from archive_tools.publish.talk.slide import Bar, Figure, Spot

MOST_BARS = 9
"""More do not stand on one slide and stay legible."""
_STEPS = (1, 2, 5, 10, 20, 25, 50, 100)
_FEWEST_YEARS_APART = 7
"""At most so many years are written along the line."""


def line_figure(context: Context, custody: Custody) -> Figure | None:
    """The line of stewards; None where no end of it is known. The last `MOST_BARS` periods where there are more."""
    _ = context.translations.gettext
    periods = custody.periods[-MOST_BARS:]
    ends = [p.end or Bounds(context.as_of, context.as_of) for p in periods]
    days = [
        d for p, end in zip(periods, ends, strict=True) for b in (p.start, end) for d in (b.earliest, b.latest) if d
    ]
    if len(set(days)) < 2:
        return None
    first, last = date(min(days).year, 1, 1), max(days)
    whole = (last - first).days

    def share(day: date | None, otherwise: float) -> float:
        return otherwise if day is None else (day - first).days / whole

    bars, told, reached = [], [], 0.0
    for period, end in zip(periods, ends, strict=True):
        start = share(period.start.earliest, reached)
        firm = share(period.start.latest, start)
        closes = share(end.latest, 1.0)
        firm_end = max(firm, share(end.earliest, firm))
        reached = min(firm_end, closes)
        who = _("Nobody known") if period.is_gap else context.names(period.holders)
        years = context.dates.bounds(period.start)
        until = context.dates.bounds(period.end) if period.end else _("today")
        lasted = years if years == until else "–".join(part for part in (years, until) if part)
        if not years.isdigit() or (period.end and not until.isdigit()):
            lasted = " – ".join(part for part in dict.fromkeys((years, until)) if part)
        words = _(", ").join(part for part in (who, lasted) if part)
        sort = "gap" if period.is_gap else "owned" if period.owner else "lent"
        bars.append(Bar(words, start, max(firm, start), firm_end, max(closes, firm_end), sort))
        told.append(words)
    return Figure(_("%(sentence)s.") % {"sentence": _("; ").join(told)}, tuple(bars), tuple(_years(first, last)))


def _years(first: date, last: date) -> Iterable[tuple[str, float]]:
    span = last.year - first.year
    step = next((step for step in _STEPS if span / step <= _FEWEST_YEARS_APART), _STEPS[-1])
    for year in range(-(-first.year // step) * step, last.year + 1, step):
        share = (date(year, 1, 1) - first).days / (last - first).days
        if 0 <= share <= 1:
            yield str(year), share


def plan_figure(context: Context, marked: set[str]) -> Figure | None:
    """The open courts as points on a plan, with the ways between them; None where fewer than two have a point."""
    places = [
        place
        for place in context.records.places.values()
        if place.at is not None and (place.open_to == "public" or not context.is_public)
    ]
    places = [place for place in places if place.open_to == "public" or place.id in marked]
    if len(places) < 2:
        return None
    easts = [place.at[0] for place in places if place.at]
    norths = [place.at[1] for place in places if place.at]
    wide, high = max(max(easts) - min(easts), 1.0), max(max(norths) - min(norths), 1.0)
    spots = tuple(
        Spot(
            context.say(place.name),
            (place.at[0] - min(easts)) / wide,
            (max(norths) - place.at[1]) / high,
            place.id in marked,
        )
        for place in places
        if place.at
    )
    number = {place.id: at for at, place in enumerate(places)}
    ways = {
        tuple(sorted((number[path.between[0]], number[path.between[1]])))
        for path in context.records.paths
        if path.between[0] in number and path.between[1] in number
    }
    says = context.listed([spot.name for spot in spots if spot.marked]) or context.listed([spot.name for spot in spots])
    return Figure(says, spots=spots, ways=tuple(sorted((a, b) for a, b in ways)), ratio=round(wide / high, 3))
