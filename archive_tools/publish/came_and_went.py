"""How a thing came to a holder and how it left them, in a sentence each."""

from __future__ import annotations

from collections.abc import Sequence

from archive_tools.model.findings import CustodyPeriod
from archive_tools.publish.context import Context
from archive_tools.publish.event_words import Say, kind_words


def came_words(context: Context, periods: Sequence[CustodyPeriod], at: int) -> str:
    """How it came to the holders of period `at`: "By gift from Marit Quist", "On loan from …", "First hands"."""
    _ = context.translations.gettext
    period = periods[at]
    if not period.owner and period.lent_by:
        return _("On loan from %(who)s") % {"who": context.names(period.lent_by)}
    how = how_it_came(context, period)
    before = _owner_before(periods, at)
    if before is not None and period.how in _given(_):
        how = _("%(how)s from %(who)s") % {"how": how, "who": context.names(before.holders)}
    if period.through:
        how = _("%(how)s, through %(who)s") % {"how": how, "who": context.names(period.through)}
    if period.given_in_return:
        trees = context.listed([context.tree_named(one).name for one in period.given_in_return])
        how = _("%(how)s, for %(trees)s") % {"how": how, "trees": trees}
    return _("%(how)s, held together") % {"how": how} if period.joint else how


def went_words(context: Context, periods: Sequence[CustodyPeriod], at: int) -> str:
    """How it left them: "Then by gift to The Skerrow Terraces"; "" while they hold it."""
    _ = context.translations.gettext
    period = periods[at]
    if period.end is None:
        return ""
    after = next((one for one in periods[at + 1 :] if one.owner or one.is_gap), None)
    if not period.owner:
        if after is not None and after.holders == period.holders:
            return _("Then theirs")
        return _("Then back to %(who)s") % {"who": context.names(period.lent_by)} if period.lent_by else ""
    if after is None:
        return ""
    if after.is_gap:
        return _("After that nobody is known")
    given = _given(_).get(after.how)
    if given is None:
        return _("Then %(who)s") % {"who": context.names(after.holders)}
    return _("Then %(how)s to %(who)s") % {"how": given, "who": context.names(after.holders)}


def _owner_before(periods: Sequence[CustodyPeriod], at: int) -> CustodyPeriod | None:
    """Who owned it directly before; nobody where years lie between of which nobody is known."""
    before = next((one for one in reversed(periods[:at]) if one.owner or one.is_gap), None)
    return None if before is None or before.is_gap or before.holders == periods[at].holders else before


def _given(_: Say) -> dict[str, str]:
    """Ways in which one holder hands a thing to the next, as they stand before "to"."""
    return {
        "gift": _("by gift"), "given away": _("by gift"), "bequest": _("by bequest"), "purchase": _("by sale"),
        "sold": _("by sale"), "exchange": _("in exchange"), "transfer": _("handed over"),
    }  # fmt: skip


def how_it_came(context: Context, period: CustodyPeriod) -> str:
    """By which way it came to the holders of a period, as a sentence begins: "By gift", "After a death"."""
    _ = context.translations.gettext
    words = {
        "first hands": _("First hands"), "gift": _("By gift"), "bequest": _("By bequest"),
        "purchase": _("By purchase"), "exchange": _("By exchange"), "transfer": _("Handed over"),
        "given away": _("By gift"), "sold": _("By purchase"), "loan": _("On loan"), "collected": _("Collected it"),
        "found in collection": _("Found in the collection"), "not known how": _("It is not known how it came"),
        "survivor": _("The survivor of those who held it together"), "estate": _("After a death"),
        "family": _("Within the family"), "planting": _("Set in a planting of theirs"),
        "quarantine": _("In quarantine with them"),
    }  # fmt: skip
    return words.get(period.how) or kind_words(_).get(period.how, period.how)
