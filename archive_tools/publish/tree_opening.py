"""The opening of a tree's page: portrait, number, names, label, facts."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

from markupsafe import Markup

from archive_tools.model.event import Event, Measured
from archive_tools.model.findings import Custody
from archive_tools.model.grades import Milestone
from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context
from archive_tools.publish.photographs import Shot, portrait
from archive_tools.publish.prose import Setting, inline
from archive_tools.publish.steward_entries import from_to
from archive_tools.publish.style_words import Term, hazards_of, styles_of, tradition_of
from archive_tools.publish.typography import years_in_type


@dataclass(frozen=True, slots=True)
class Fact:
    """One line of data. `terms` are printed in order, each with the word of its own tradition. off_sheet: not on the
    printed sheet, which has no room for all.
    """

    name: str
    terms: tuple[Term, ...]
    off_sheet: bool = False


@dataclass(frozen=True, slots=True)
class OpeningPart:
    """What stands beside the portrait. `other_names` are (language, name)."""

    name: str
    heading: Markup
    number: str
    taxa: tuple[Markup, ...]
    other_names: tuple[tuple[str, str], ...]
    common_name: str
    portrait: Shot | None
    label: Markup
    facts: tuple[Fact, ...]
    hazards: tuple[str, ...]
    credit_line: str


def opening_part(context: Context, tree: Tree, root: str) -> OpeningPart:
    """The opening of a tree's page."""
    common = context.say(tree.common_name)
    return OpeningPart(
        name=context.tree_name(tree),
        number=tree.accession,
        heading=context.tree_heading(tree),
        taxa=context.taxa_beside(tree),
        other_names=other_names(context, tree),
        common_name=_capital(common) if tree.name else "",
        portrait=portrait(context, tree),
        label=inline(context, tree.label, Setting(root, tree.accession)),
        facts=facts_of(context, tree),
        hazards=hazards_of(context, tree),
        credit_line=context.say(tree.credit_line),
    )


def other_names(context: Context, tree: Tree) -> tuple[tuple[str, str], ...]:
    """The tree's name in its other languages."""
    if tree.name is None:
        return ()
    said = tree.name.language_said(context.language)
    return tuple((language, text) for language, text in tree.name.by_language if language not in {said, ""})


def facts_of(context: Context, tree: Tree) -> tuple[Fact, ...]:
    """The few data a visitor asks for, those that are known."""
    _ = context.translations.gettext
    custody = context.view.findings.custodies.get(tree.accession)
    chronology = context.view.findings.chronologies.get(tree.accession)
    facts: list[Fact] = []

    def add(name: str, *terms: Term, off_sheet: bool = False) -> None:
        said = [term for term in terms if term.word]
        if said:
            said[0] = replace(said[0], word=_capital(said[0].word))
            facts.append(Fact(name, tuple(said), off_sheet))

    add(_("Style"), *styles_of(context, tree))
    tradition = tradition_of(context, tree)
    if tradition is not None:
        add(_("Tradition"), tradition)
    add(_("Height"), Term(height_words(context, tree)))
    add(_("Pot"), Term(pot_words(context, tree), path=context.object_path(pot_of(tree))))
    add(_("Before that"), *earlier_things(context, tree), off_sheet=True)
    add(_("Native to"), Term(context.say(tree.native_to)))
    if chronology is not None and not chronology.under_review:
        arrival = chronology.milestones.get(Milestone.ARRIVAL)
        add(_("Here"), Term(_without_here(years_in_type(arrival.wording or ""), _("Here")) if arrival else ""))
    add(_("On display"), Term(display_words(context, tree, custody)))
    add(_("Also numbered"), *(Term(other.number) for other in tree.other_numbers))
    return tuple(facts)


def height_words(context: Context, tree: Tree) -> str:
    """The latest height measured, with its year."""
    measured = [(event, m) for event in _past(tree) for m in event.measured if m.what.casefold() == "height"]
    if not measured:
        return ""
    event, height = max(measured, key=lambda pair: _first(pair[0]))
    year = context.dates.year(event.when)
    return ", ".join(part for part in (length_words(context, height), year) if part)


def length_words(context: Context, measured: Measured) -> str:
    """A measure with its unit and its uncertainty: "42 cm", "5.8 ± 0.2 cm"."""
    value = number_words(measured.value)
    if measured.plus_minus:
        value = f"{value} ± {number_words(measured.plus_minus)}"
    return f"{value}\u00a0{measured.unit}"


def number_words(value: Decimal) -> str:
    """A decimal without an exponent."""
    return f"{value:f}"


def pot_of(tree: Tree) -> str:
    """The pot it stands in, by its id or in the words of the record: that of the latest potting; "" for none."""
    potted = [event for event in _past(tree) if event.into and event.kind != "loan"]
    return max(potted, key=_first).into or "" if potted else ""


def earlier_things(context: Context, tree: Tree) -> tuple[Term, ...]:
    """The pots and trays it stood in before, each with its years, the last first."""
    lineage = context.view.findings.lineages.get(tree.accession)
    stood = [one for one in lineage.objects if one.sort == "in" and one.end is not None] if lineage else []
    return tuple(
        Term(", ".join(part for part in (thing.name, from_to(context, one.start, one.end)) if part), path=thing.path)
        for one in reversed(stood)
        if (thing := context.thing(one.object))
    )


def pot_words(context: Context, tree: Tree) -> str:
    """The pot it stands in, with its size where the record tells it."""
    pot = context.records.objects.get(pot_of(tree))
    if pot is None:
        return pot_of(tree)
    told = [context.say(pot.name)]
    told += [context.say(words) for words in (pot.size,) if words and context.say(words) not in told[0]]
    return ", ".join(told)


def display_words(context: Context, tree: Tree, custody: Custody | None) -> str:
    """Where it may be seen on the as-of day."""
    _ = context.translations.gettext
    if custody is None:
        return ""
    state = custody.state
    words = {
        "on loan elsewhere": _("On loan elsewhere"), "given away": _("Given away"), "sold": _("Sold"),
        "died": _("Died"), "missing": _("Missing"), "stolen": _("Stolen"),
    }  # fmt: skip
    if state.word in words:
        return words[state.word]
    place = context.place(state.place)
    if state.on_display:
        return _("Now, in the %(place)s") % {"place": place} if place else _("Now")
    return _("Resting; not on display")


def _without_here(wording: str, here: str) -> str:
    """The sentence without the word that stands before it already: at its head in English, at its end in Japanese."""
    for lead in ("Here since", "Here from"):
        if wording.startswith(lead):
            return _capital(wording.removeprefix("Here "))
    return wording.removesuffix(here) or wording


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _past(tree: Tree) -> list[Event]:
    return [event for event in tree.events if not event.planned and event.when is not None]


def _first(event: Event) -> str:
    when = event.when
    day = when.said.first or when.said.last if when else None
    return day.isoformat() if day else ""
