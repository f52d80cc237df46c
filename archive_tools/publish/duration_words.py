"""Lengths of time in words."""

from __future__ import annotations

from archive_tools.model.dates import Duration
from archive_tools.publish.context import Context


def duration_words(context: Context, duration: Duration) -> str:
    """Such as "2 years", "1 month", "3 days", "1 year and 6 months"."""
    ngettext = context.translations.ngettext
    parts = []
    if duration.years:
        parts.append(ngettext("%(n)s year", "%(n)s years", duration.years) % {"n": duration.years})
    if duration.months:
        parts.append(ngettext("%(n)s month", "%(n)s months", duration.months) % {"n": duration.months})
    if duration.days or not parts:
        parts.append(ngettext("%(n)s day", "%(n)s days", duration.days) % {"n": duration.days})
    return context.listed(parts)
