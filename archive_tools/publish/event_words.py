"""What happened, in a visitor's words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import lru_cache

from archive_tools.model.event import Event
from archive_tools.model.grades import Grade
from archive_tools.publish.context import Context

Say = Callable[[str], str]

CUSTODY = frozenset({"gift", "bequest", "purchase", "exchange", "transfer", "loan", "given away", "sold"})


@lru_cache(maxsize=8)
def kind_words(_: Say) -> Mapping[str, str]:
    """Every kind of event as the beginning of a sentence."""
    return {
        "sown": _("Sown"), "germinated": _("Germinated"), "struck": _("Struck as a cutting"),
        "layer severed": _("Layer severed"), "raised from graft": _("Raised from a graft"),
        "raised from division": _("Raised from a division"), "collected": _("Collected"),
        "training begun": _("Training begun"), "potted": _("First pot"), "repotted": _("Repotted"),
        "root pruned": _("Roots pruned"), "soil refreshed": _("Soil refreshed"), "pruned": _("Pruned"),
        "pinched": _("Pinched"), "candles cut": _("Candles cut"), "needles plucked": _("Needles plucked"),
        "leaves thinned": _("Leaves thinned"), "cut back": _("Cut back"), "branch removed": _("Branch removed"),
        "defoliated": _("Defoliated"), "wired": _("Wired"), "unwired": _("Wire taken off"), "guyed": _("Guyed"),
        "bent": _("Bent"), "carved": _("Carved"), "deadwood made": _("Dead wood made"),
        "deadwood treated": _("Dead wood treated"), "styled": _("Styled"), "front changed": _("Front changed"),
        "planting angle changed": _("Planting angle changed"), "layer set": _("Layer set"),
        "grafted on": _("Grafted on"), "divided": _("Divided"), "fed": _("Fed"), "treated": _("Treated"),
        "wintered": _("Wintered"), "rested": _("Rested"), "condition checked": _("Condition checked"),
        "planted out": _("Planted out"), "lifted": _("Lifted"), "assembled": _("Planted together"),
        "taken apart": _("Taken apart"), "member added": _("A tree added"), "member removed": _("A tree taken out"),
        "merged": _("Merged"), "split off": _("Split off"), "gift": _("Given"), "bequest": _("Bequeathed"),
        "purchase": _("Bought"), "exchange": _("Exchanged"), "transfer": _("Handed over"),
        "found in collection": _("Found in the collection"), "loan": _("Lent"), "given away": _("Given away"),
        "sold": _("Sold"), "died": _("Died"), "missing": _("Missing"), "stolen": _("Stolen"),
        "found again": _("Found again"), "imported": _("Imported"), "exported": _("Exported"),
        "quarantine": _("In quarantine"), "moved": _("Moved"), "on display": _("On display"),
        "exhibited": _("Exhibited"), "demonstrated": _("Worked on before an audience"), "published": _("Published"),
        "damaged": _("Damaged"), "recovered": _("Recovered"), "observed": _("Observed"), "valued": _("Valued"),
        "renamed": _("Renamed by botanists"), "reidentified": _("Identified anew"),
        "reclassified": _("Placed in another tradition"), "tags exchanged": _("Tags exchanged"),
    }  # fmt: skip


def planned_words(_: Say) -> Mapping[str, str]:
    """Kinds of work and of showing as something that is to come."""
    return {
        "repotted": _("To be repotted"), "root pruned": _("Roots to be pruned"), "soil refreshed": _("Fresh soil"),
        "pruned": _("To be pruned"), "pinched": _("To be pinched"), "candles cut": _("Candles to be cut"),
        "needles plucked": _("Needles to be plucked"), "cut back": _("To be cut back"), "wired": _("To be wired"),
        "unwired": _("Wire to come off"), "styled": _("To be restyled"), "on display": _("To go on display"),
        "exhibited": _("To be exhibited"), "layer severed": _("Layer to be severed"), "carved": _("To be carved"),
        "condition checked": _("Condition to be checked"), "loan": _("To be lent"), "moved": _("To be moved"),
        "fed": _("To be fed"), "treated": _("To be treated"), "defoliated": _("To be defoliated"),
        "branch removed": _("A branch to be removed"), "demonstrated": _("To be worked on before an audience"),
    }  # fmt: skip


def cause_words(_: Say) -> Mapping[str, str]:
    """Causes of harm, as they stand after "Damaged"."""
    return {
        "heat": _("by heat"), "frost": _("by frost"), "wind": _("by wind"), "pest": _("by pests"),
        "drought": _("by drought"), "disease": _("by disease"), "fire": _("by fire"), "snow": _("by snow"),
    }  # fmt: skip


def grade_word(grade: Grade, _: Say) -> str:
    """The grade as a word that begins a sentence."""
    return {
        Grade.DOCUMENTED: _("Documented"),
        Grade.REPORTED: _("Reported"),
        Grade.INFERRED: _("Inferred"),
        Grade.UNSOURCED: _("Without a source"),
    }[grade]


def kind_said(context: Context, event: Event) -> str:
    """The kind of an event with what belongs to it: "Repotted into the blue oval", "Given by Marit Quist"."""
    _ = context.translations.gettext
    words = kind_words(_).get(event.kind, event.kind)
    if event.planned:
        words = planned_words(_).get(event.kind, words)
    if event.kind in CUSTODY:
        return _custody_said(context, event)
    if event.kind == "damaged" and event.cause:
        return f"{words} {cause_words(_).get(event.cause, event.cause)}"
    pot = context.records.objects.get(event.into or "")
    if pot is not None:
        return _("%(what)s: %(pot)s") % {"what": words, "pot": context.say(pot.name)}
    return words


def _custody_said(context: Context, event: Event) -> str:
    """Whoever gave and whoever received; the house itself is left out, because its pages say "here" of it."""
    _ = context.translations.gettext
    house = context.records.settings.custodian
    giver = context.names(tuple(steward for steward in event.from_ if steward != house))
    taker = context.names(tuple(steward for steward in event.to if steward != house))
    both, by, to = _custody_words(_)[event.kind]
    words = kind_words(_)[event.kind]
    if giver and taker:
        return both % {"giver": giver, "taker": taker}
    if giver:
        return by % {"giver": giver}
    return to % {"taker": taker} if taker else words


def _custody_words(_: Say) -> Mapping[str, tuple[str, str, str]]:
    """By kind: with giver and receiver, with the giver alone, with the receiver alone."""
    return {
        "gift": (_("Given by %(giver)s to %(taker)s"), _("Given by %(giver)s"), _("Given to %(taker)s")),
        "bequest": (_("Left by %(giver)s to %(taker)s"), _("Left by %(giver)s"), _("Left to %(taker)s")),
        "purchase": (_("Bought by %(taker)s from %(giver)s"), _("Bought from %(giver)s"), _("Bought by %(taker)s")),
        "exchange": (
            _("Exchanged by %(giver)s with %(taker)s"), _("Exchanged with %(giver)s"), _("Exchanged with %(taker)s"),
        ),
        "transfer": (
            _("Handed over by %(giver)s to %(taker)s"), _("Handed over by %(giver)s"), _("Handed over to %(taker)s"),
        ),
        "loan": (_("Lent by %(giver)s to %(taker)s"), _("Lent by %(giver)s"), _("Lent to %(taker)s")),
        "given away": (_("Given by %(giver)s to %(taker)s"), _("Given away by %(giver)s"), _("Given to %(taker)s")),
        "sold": (_("Sold by %(giver)s to %(taker)s"), _("Sold by %(giver)s"), _("Sold to %(taker)s")),
    }  # fmt: skip


def where_said(context: Context, event: Event) -> str:
    """Where it happened, if the edition may say so."""
    return context.place(event.at)


def kind_beside(context: Context, event: Event) -> str:
    """The kind as it stands after the event's own title: "" where the title says it already, or there is none."""
    title = context.say(event.title).casefold()
    kind = kind_words(context.translations.gettext).get(event.kind, event.kind)
    said = kind_said(context, event)
    if not title or title == said.casefold():
        return ""
    return said.removeprefix(f"{kind}: ") if kind.casefold() in title and ": " in said else said


def title_of(context: Context, event: Event) -> str:
    """The event's own title, else its kind in words."""
    return context.say(event.title) or kind_said(context, event)
