"""The messages of which a line of holders is put together. Each is one message for the catalogues.

Form: one clause a period, earliest first; a semicolon where one holder passed it to the next, a full stop where nothing
joins them; dealers in parentheses; doubt in words. After the convention for provenance texts in the American Alliance
of Museums' Guide to Provenance Research; the words are this house's own.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from archive_tools.model.grades import Grade

N_: Callable[[str], str] = str
"""Marks a message for the catalogue where it stands in a table; it is translated when it is said."""

BEGAN: Mapping[str, str] = {
    "sown": N_("%(who)s, who sowed it %(when)s"),
    "germinated": N_("%(who)s, with whom it germinated %(when)s"),
    "struck": N_("%(who)s, who struck the cutting %(when)s"),
    "layer severed": N_("%(who)s, who severed the layer %(when)s"),
    "raised from graft": N_("%(who)s, who raised it from a graft %(when)s"),
    "raised from division": N_("%(who)s, who raised it from a division %(when)s"),
    "collected": N_("%(who)s, who collected it %(when)s"),
    "training begun": N_("%(who)s, who began its training %(when)s"),
    "potted": N_("%(who)s, who first potted it %(when)s"),
    "assembled": N_("%(who)s, who planted it together %(when)s"),
}
COLLECTED_FOR = N_("%(who)s, for whom %(by)s collected it %(when)s")
FROM = N_("%(who)s, from %(years)s")
KNOWN_BY = N_("%(who)s, who had it by %(years)s")
SOME_TIME = N_("%(who)s, from a day that is not known")

CAME: Mapping[str, str] = {
    "gift": N_("given %(when)s to %(who)s"),
    "given away": N_("given away %(when)s to %(who)s"),
    "bequest": N_("left by will %(when)s to %(who)s"),
    "purchase": N_("bought %(when)s by %(who)s"),
    "sold": N_("sold %(when)s to %(who)s"),
    "exchange": N_("exchanged %(when)s to %(who)s"),
    "transfer": N_("handed over %(when)s to %(who)s"),
    "collected": N_("collected %(when)s by %(who)s"),
    "found in collection": N_("found %(when)s among the trees of %(who)s, it is not known since when"),
    "estate": N_("by death %(when)s to %(who)s"),
    "family": N_("within one household to %(who)s, %(when)s"),
    "survivor": N_("by death %(when)s to %(who)s alone"),
    "planting": N_("set %(when)s in a planting of %(who)s"),
    "not known how": N_("with %(who)s %(when)s, it is not known how it came there"),
}
WITH_BY = N_("with %(who)s by %(years)s, it is not known how it came there")
EXCHANGED_FOR = N_("exchanged %(when)s for %(trees)s to %(who)s")
JOINTLY = N_("%(names)s, jointly")
FROM_WHOM = N_("%(clause)s, it is not known from whom")
THROUGH = N_("%(clause)s (through %(agents)s)")
DOUBTED: Mapping[Grade, str] = {
    Grade.REPORTED: N_("%(clause)s, it is said"),
    Grade.INFERRED: N_("%(clause)s, it is thought"),
    Grade.UNSOURCED: N_("%(clause)s, for which no source is given"),
}
LEFT: Mapping[str, str] = {
    "sold": N_("%(clause)s, sold %(when)s, it is not known to whom"),
    "purchase": N_("%(clause)s, sold %(when)s, it is not known to whom"),
    "given away": N_("%(clause)s, given away %(when)s, it is not known to whom"),
    "gift": N_("%(clause)s, given away %(when)s, it is not known to whom"),
    "exchange": N_("%(clause)s, exchanged %(when)s, it is not known with whom"),
}
LEFT_THEM = N_("%(clause)s, whom it left %(when)s, it is not known for whom")
LAST_KNOWN = N_("%(clause)s, last known to have had it %(when)s")
UNTIL_DEATH = N_("%(clause)s, until death %(when)s")
UNTIL_END = N_("%(clause)s, which came to an end %(when)s")
LENT = N_("%(clause)s, lent to %(who)s %(span)s")
QUARANTINED_WITH = N_("%(clause)s, in quarantine with %(who)s %(span)s")
QUARANTINED = N_("%(clause)s, in quarantine %(span)s")
LENT_FIRST = N_("on loan to %(who)s %(span)s")

GAP = N_("Nobody is known to have held it from %(start)s to %(end)s, %(years)s")
GAP_WITHIN = N_("Nobody is known to have held it for some time in %(start)s")
GAP_OPEN = N_("Nobody is known to have held it since %(start)s")
GAP_BEFORE = N_("Nobody is known to have held it until %(end)s")
GAP_UNDATED = N_("Nobody is known to have held it for some time")
BRIDGED = N_("%(gap)s, though a statement of %(when)s tells of it")
CAME_BACK = N_("%(gap)s, and it is presumed to have come straight back")
PRESUMED = N_("%(gap)s, and it is presumed to have passed between them directly")
ONE_YEAR = N_("1 year")
YEARS = N_("%(n)s years")
UNDER_A_YEAR = N_("less than a year")
YEARS_BETWEEN = N_("%(least)s to %(most)s years")
AT_MOST_ONE = N_("at most 1 year")
YEARS_AT_MOST = N_("at most %(n)s years")
YEARS_AT_LEAST = N_("at least %(n)s years")
YEARS_UNKNOWN = N_("it is not known how long")

DIED = N_("It died %(when)s")
LOST: Mapping[str, str] = {
    "missing": N_("It has been missing since %(years)s"),
    "stolen": N_("It was stolen %(when)s"),
    "found again": N_("It was found again %(when)s"),
}

RAISED: Mapping[str, str] = {
    "cutting": N_("Raised from a cutting of %(mother)s, struck %(when)s"),
    "layer": N_("Raised from a layer of %(mother)s, severed %(when)s"),
    "seed": N_("Raised from seed of %(mother)s %(when)s"),
    "graft": N_("Raised from a graft of %(mother)s %(when)s"),
    "division": N_("Raised from a division of %(mother)s %(when)s"),
    "merged": N_("%(mother)s was merged into it %(when)s"),
    "split off": N_("Split off from %(mother)s %(when)s"),
    "plant": N_("A plant of %(mother)s, taken %(when)s"),
}
GAVE: Mapping[str, str] = {
    "cutting": N_("A cutting of it, struck %(when)s, became %(tree)s"),
    "layer": N_("A layer of it, severed %(when)s, became %(tree)s"),
    "seed": N_("Its seed %(when)s became %(tree)s"),
    "graft": N_("A graft of it %(when)s became %(tree)s"),
    "division": N_("A division of it %(when)s became %(tree)s"),
    "merged": N_("It was merged %(when)s into %(tree)s"),
    "split off": N_("Split off from it %(when)s: %(tree)s"),
    "plant": N_("A plant of it, taken %(when)s, became %(tree)s"),
}
WHICH_DIED = N_("%(sentence)s, which died %(when)s")
PLANTED = N_("Planted together %(when)s")
REMADE = N_("Remade %(when)s")
BY = N_("%(sentence)s by %(who)s")
OF_PLANTS = N_("%(sentence)s, of %(n)s plants")
OF_ONE_PLANT = N_("%(sentence)s, of 1 plant")
APART = N_("Taken apart %(when)s")
OWN_AGES = N_("The years of the planting are not those of its plants")
STOOD_IN = N_("It stood in %(planting)s %(span)s")
STANDS_IN = N_("It stands in %(planting)s %(span)s")
AT_PLACE = N_("%(sentence)s: %(place)s")

IN_YEAR = N_("in %(year)s")
ABOUT = N_("about %(year)s")
BETWEEN = N_("between %(first)s and %(last)s")
BY_YEAR = N_("in or before %(year)s")
AFTER_YEAR = N_("in or after %(year)s")
PERHAPS = N_("perhaps %(when)s")
SPAN = N_("from %(start)s to %(end)s")
SINCE = N_("since %(start)s")
UNTIL = N_("until %(end)s")
ONE_YEAR_ALONE = N_("%(year)s")
YEARS_FROM_TO = N_("%(first)s–%(last)s")
YEAR_OR_EARLIER = N_("%(year)s or earlier")
YEAR_OR_LATER = N_("%(year)s or later")
LIST = N_("%(some)s and %(last)s")
COMMA = N_(", ")
SEMICOLON = N_("; ")
STOP = N_("%(sentence)s.")
"""Marks of punctuation, which other scripts write in their own way."""
