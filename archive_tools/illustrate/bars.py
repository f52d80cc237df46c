"""Bars on a line of years: full where a thing is certain, fading where its beginning or end is vague."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from archive_tools.illustrate.svg_text import percent, pixels
from archive_tools.illustrate.year_axis import YearAxis
from archive_tools.model.findings import Bounds

CRISP_DAYS = 366
"""A date known to within a year is drawn as a point, at its earliest day: so 1953 stands at the figure 1953."""
FADE_YEARS = 8
"""How long a bar fades whose beginning or end is not bounded at all."""
LEAST = 0.005
"""Share of the width below which a bar could not be seen."""


@dataclass(frozen=True, slots=True)
class Bar:
    """Shares of the width: vague from `low` to `from_`, certain to `to`, vague again to `high`."""

    low: float
    from_: float
    to: float
    high: float


def vague(bounds: Bounds, *, is_end: bool, otherwise: date) -> tuple[date, date]:
    """First and last day between which a bar begins or ends; one day when it is known to within a year.

    `otherwise` stands in where nothing bounds it; a bound on one side only gives a fade of some years.
    """
    earliest, latest = bounds.earliest, bounds.latest
    if earliest is None and latest is None:
        return (otherwise, _years(otherwise, FADE_YEARS)) if is_end else (_years(otherwise, -FADE_YEARS), otherwise)
    if earliest is None:
        assert latest is not None
        return _years(latest, -FADE_YEARS), latest
    if latest is None:
        return earliest, _years(earliest, FADE_YEARS)
    return (earliest, earliest) if (latest - earliest).days <= CRISP_DAYS else (earliest, latest)


def bar(start: tuple[date, date], end: tuple[date, date], axis: YearAxis) -> Bar:
    """The bar between two vague days. Where they overlap it fades in and out again about their middle."""
    low, high = axis.at(start[0]), axis.at(end[1])
    from_, to = axis.at(start[1]), axis.at(end[0])
    if from_ > to:
        from_ = to = min(max((from_ + to) / 2, low), max(high, low))
    if high - low < LEAST:
        low = min(low, 1.0 - LEAST)
        return Bar(low, low, low + LEAST, low + LEAST)
    return Bar(low, from_, to, high)


def fades(bar: Bar, prefix: str, y: float, height: float) -> tuple[str, str]:
    """The fading parts of a bar as SVG; `prefix` names the gradients (see `gradients`)."""
    before = _rect(f'fill="url(#{prefix}-start)"', bar.low, bar.from_, y, height)
    after = _rect(f'fill="url(#{prefix}-end)"', bar.to, bar.high, y, height)
    return before, after


def full(css: str, bar: Bar, y: float, height: float) -> str:
    """The certain part of a bar as SVG."""
    return _rect(f'class="{css}"', bar.from_, bar.to, y, height)


def gradients(prefix: str, css: str = "") -> str:
    """The two fades as SVG definitions, named `prefix`-start and `prefix`-end; `css` adds a class to their stops."""
    on, off = (f'<stop class="{f"{stop} {css}".strip()}" offset="{{}}"/>' for stop in ("soft-on", "soft-off"))
    return (
        f'<linearGradient id="{prefix}-start">{off.format(0)}{on.format(1)}</linearGradient>'
        f'<linearGradient id="{prefix}-end">{on.format(0)}{off.format(1)}</linearGradient>'
    )


def _rect(attributes: str, from_: float, to: float, y: float, height: float) -> str:
    if to - from_ < 1e-4:
        return ""
    place = f'x="{percent(from_)}" width="{percent(to - from_)}" y="{pixels(y)}" height="{pixels(height)}"'
    return f"<rect {attributes} {place}/>"


def _years(day: date, years: int) -> date:
    try:
        return day + timedelta(days=round(365.25 * years))
    except OverflowError:
        return date.min if years < 0 else date.max
