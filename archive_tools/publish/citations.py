"""Sources in words: as a proof cites them, and as the end of a page lists them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from archive_tools.model.event import Citation
from archive_tools.model.people import Source
from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context
from archive_tools.publish.typography import set_in_type


@dataclass(frozen=True, slots=True)
class SourceLine:
    """One source at the end of a page: what it is, and the spots in it that the page leans on."""

    title: str
    details: str
    spots: tuple[str, ...]


def cited(context: Context, citations: Iterable[Citation]) -> str:
    """Where a statement comes from: "Bench book of H. Quist, leaf 61; letter of 1978"."""
    said, withheld = [], []
    for citation in citations:
        source = context.records.sources.get(citation.source)
        title = citation.source if source is None else source_title(context, source)
        if source is not None and source.masked:
            withheld.append(title)
        else:
            said.append(f"{title}, {citation.at}" if citation.at else title)
    if said:
        withheld = [title[:1].lower() + title[1:] for title in withheld]
    return "; ".join(dict.fromkeys([*said, *withheld]))


def quoted(context: Context, citations: Iterable[Citation]) -> str:
    """The first words quoted from a source, or ""."""
    quote = next((citation.quote for citation in citations if citation.quote), "")
    return set_in_type(quote, context.language)


def source_title(context: Context, source: Source) -> str:
    """The source's title; that of a withheld one passes through the catalogue."""
    title = context.say(source.title)
    title = context.translations.gettext(title) if source.masked else title
    return title[:1].upper() + title[1:]


def sources_of(context: Context, tree: Tree) -> tuple[SourceLine, ...]:
    """Every source the tree's events, notes and photographs cite, in the order in which they are first cited."""
    spots: dict[str, list[str]] = {}
    citations = [c for event in tree.events for c in event.sources]
    citations += [c for note in tree.notes for c in note.sources]
    citations += [c for photo in tree.photos for c in photo.sources]
    for citation in citations:
        known = spots.setdefault(citation.source, [])
        if citation.at and citation.at not in known:
            known.append(citation.at)
    lines = []
    for source_id, places in spots.items():
        source = context.records.sources.get(source_id)
        if source is None:
            lines.append(SourceLine(source_id, "", tuple(places)))
            continue
        lines.append(SourceLine(source_title(context, source), _details(context, source), tuple(places)))
    return tuple(lines)


def _details(context: Context, source: Source) -> str:
    citation = context.say(source.citation)
    if citation:
        return citation
    made_by = context.names(source.made_by)
    parts = [made_by, context.dates.when(source.when), context.say(source.kept_at)]
    return ". ".join(part for part in parts if part)
