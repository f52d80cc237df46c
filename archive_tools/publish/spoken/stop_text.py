"""What is said at a stop: the curator's own words, else a draft put together from the records, and marked as one."""

from __future__ import annotations

import re
from collections.abc import Iterator

from archive_tools.model.collection import Selected
from archive_tools.model.event import Event
from archive_tools.model.grounds import Tour
from archive_tools.model.tour_plan import NotSeen, StopText, TourStop
from archive_tools.model.tree import Tree
from archive_tools.model.words import Words
from archive_tools.publish import botanical_names
from archive_tools.publish.context import Context
from archive_tools.publish.event_words import title_of
from archive_tools.publish.prose import as_text
from archive_tools.publish.tree_age import sentence_of

_POINT = re.compile(r"^\s*[-*]\s+", re.MULTILINE)
_MOST_EVENTS = 2


def languages_of(records: Selected, tour: Tour) -> tuple[str, ...]:
    """The languages a tour can be given in: its own, and those of the house in which its title is written too."""
    own = tour.language or records.settings.languages[0]
    titled = {language for language, _ in tour.title.by_language}
    return (own, *(language for language in records.settings.languages if language in titled - {own}))


def stop_texts(context: Context) -> dict[str, StopText]:
    """What can be said of each tree in the context's language: its talking points, else a draft from facts."""
    return {accession: _of_tree(context, tree) for accession, tree in context.records.trees.items()}


def said_at(context: Context, tour: Tour, stop: TourStop) -> StopText:
    """The words of a stop in the context's language, references and tokens filled in.

    A text that the plan itself has for the stop comes first, where it is written in that language; then what can be
    said of the tree; then what the plan has in another language.
    """
    own = _own_words(context, tour, stop)
    accession = stop.id if stop.sort == "tree" else None
    planned = StopText("", context.language)
    if own is not None:
        planned = StopText(as_text(context, own, accession), _written_in(context, own, tour.language))
        if planned.language in _same(context.language):
            return planned
    tree = context.records.trees.get(accession or "")
    return planned if tree is None else _of_tree(context, tree)


def _own_words(context: Context, tour: Tour, stop: TourStop) -> Words | None:
    """The plan's words for a stop; of a place that is passed twice, those that were planned for this time."""
    here = [s.text for s in tour.stops if stop.id in (s.tree, s.place, s.object) and s.text is not None]
    spoken = tour.language or context.records.settings.languages[0]
    return next((words for words in here if words.say(spoken) == stop.text.text), here[0] if here else None)


def stop_name(context: Context, stop: TourStop | NotSeen) -> str:
    """What a stop is called: the tree, the place, or the thing."""
    if stop.sort == "tree":
        return context.tree_named(stop.id).name
    if stop.sort == "place":
        return context.place(stop.id)
    thing = context.records.objects.get(stop.id)
    return context.say(thing.name) if thing else stop.id


def _of_tree(context: Context, tree: Tree) -> StopText:
    points = tree.talking_points
    if points is not None and (language := _written_in(context, points)) in _same(context.language):
        said = _POINT.sub("", context.say(points))
        return StopText(as_text(context, said, tree.accession), language)
    return StopText(" ".join(_draft(context, tree)), context.language, is_draft=True)


def _written_in(context: Context, words: Words, of_plan: str | None = None) -> str:
    """The language a text is read in; one written without is in that of its plan, else in the first of the house."""
    return words.language_said(context.language) or of_plan or context.records.settings.languages[0]


def _same(language: str) -> tuple[str, str]:
    return language, language.split("-", maxsplit=1)[0]


def _draft(context: Context, tree: Tree) -> Iterator[str]:
    """Facts alone: name, since when, by whom, what changed. No adjective, and nothing that is not recorded."""
    _ = context.translations.gettext
    name = context.tree_name(tree)
    taxa = _(", ").join(botanical_names.plain(taxon) for taxon in tree.taxon)
    if taxa != name:
        yield _("%(name)s, %(taxon)s.") % {"name": name, "taxon": taxa}
    else:
        yield _("%(sentence)s.") % {"sentence": name}
    years = sentence_of(context, tree.accession)
    if years:
        yield _("%(sentence)s.") % {"sentence": years}
    custody = context.view.findings.custodies.get(tree.accession)
    first = next((p for p in custody.periods if p.holders and p.how == "first hands"), None) if custody else None
    if first is not None:
        yield _("Begun by %(who)s.") % {"who": context.names(first.holders)}
    for event in _telling(tree):
        parts = {"what": title_of(context, event).rstrip("."), "when": context.dates.when(event.when)}
        if event.by:
            yield _("%(what)s, %(when)s, by %(who)s.") % {**parts, "who": context.names(event.by)}
        else:
            yield _("%(what)s, %(when)s.") % parts
    for made in context.pictures.comparisons.get(tree.accession, ()):
        measured = next((change for change in made.changes if change.words and not change.refused), None)
        if measured is not None:
            yield _("%(name)s: %(change)s.") % {"name": context.say(measured.name), "change": measured.say(_)}
            break


def _telling(tree: Tree) -> list[Event]:
    """The last works that changed its form."""
    shaping = ("styled", "bent", "front changed", "cut back", "deadwood made", "assembled", "taken apart", "merged")
    found = [e for e in tree.events if e.kind in shaping and not e.planned and e.when is not None]
    return found[-_MOST_EVENTS:]
