"""What comes next: work and showing that are planned, and when a tree may not be seen."""

from __future__ import annotations

from dataclasses import dataclass

from archive_tools.model.event import Event
from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context
from archive_tools.publish.event_words import kind_said, where_said
from archive_tools.publish.prose import as_text


@dataclass(frozen=True, slots=True)
class Coming:
    """One line: when, and what."""

    when: str
    what: str


def coming_of(context: Context, tree: Tree) -> tuple[Coming, ...]:
    """What is planned after the as-of day and not yet done, and the times in which the tree is not shown."""
    _ = context.translations.gettext
    lines: list[tuple[str, Coming]] = []
    for away in tree.not_shown:
        ends = away.until.latest if away.until else None
        if ends is not None and ends < context.as_of:
            continue
        why = as_text(context, away.why, tree.accession).rstrip(".")
        what = _("Not on display: %(why)s") % {"why": why[:1].lower() + why[1:]} if why else _("Not on display")
        first = away.when.said.first.isoformat() if away.when and away.when.said.first else ""
        begun = away.when is not None and away.when.latest is not None and away.when.latest <= context.as_of
        lines.append((first, Coming(context.dates.until(None if begun else away.when, away.until), what)))
    for event in open_plans(context, tree):
        first = event.when.said.first.isoformat() if event.when and event.when.said.first else "9999"
        lines.append((first, Coming(context.dates.when(event.when), _what(context, event))))
    return tuple(coming for _first, coming in sorted(lines, key=lambda line: line[0]))


def open_plans(context: Context, tree: Tree) -> list[Event]:
    """Planned events that no later event has done."""
    done = {event.does for event in tree.events if event.does}
    return [event for event in tree.events if event.planned and event.id not in done]


def _what(context: Context, event: Event) -> str:
    """The house's own words where it has any: they say the work as well. Else the kind, with the place."""
    own = [as_text(context, words, event.tree).rstrip(".") for words in (event.title, event.text) if words]
    if own:
        return ". ".join(own)
    place = where_said(context, event)
    return ", ".join(part for part in (kind_said(context, event), place) if part)
