"""Sources and credits of a tree's page, and how to cite it."""

from __future__ import annotations

from dataclasses import dataclass

from archive_tools.model.tree import Tree
from archive_tools.publish.citations import SourceLine, sources_of
from archive_tools.publish.context import Context
from archive_tools.publish.photographs import credit, photographer, rights, shown
from archive_tools.publish.rights_words import Right, right_words


@dataclass(frozen=True, slots=True)
class CreditLine:
    """Photographs that share a credit and rights, by their years."""

    years: str
    credit: str
    right: Right


@dataclass(frozen=True, slots=True)
class CreditsPart:
    """The end of a tree's page. `house` and `day` complete the citation."""

    sources: tuple[SourceLine, ...]
    photographs: tuple[CreditLine, ...]
    credit_line: str
    house: str
    day: str
    address: str


def credits_part(context: Context, tree: Tree) -> CreditsPart:
    """Sources, photographers, credit line and citation."""
    site = context.records.settings.site_url
    path = context.tree_path(tree.accession) or ""
    return CreditsPart(
        sources=sources_of(context, tree),
        photographs=_photographs(context, tree),
        credit_line=context.say(tree.credit_line),
        house=context.house,
        day=context.dates.day(context.as_of),
        address=f"{site.rstrip('/')}/{path}" if site and context.is_public else "",
    )


def _photographs(context: Context, tree: Tree) -> tuple[CreditLine, ...]:
    grouped: dict[tuple[str, str], list[str]] = {}
    for photo in shown(context, tree):
        given = credit(context, photo)
        by = photographer(context, photo)
        if by and by not in given:
            given = f"{by}. {given}" if given else by
        held = context.steward(photo.rights_holder).name if photo.rights_holder else ""
        if held and held not in given:
            given = f"{given}. {held}" if given else held
        year = context.dates.year(photo.when)
        years = grouped.setdefault((given, rights(context, photo)), [])
        if year and year not in years:
            years.append(year)
    return tuple(CreditLine(", ".join(years), given, right_words(code)) for (given, code), years in grouped.items())
