"""The index of the trees: by species, style, steward, first care, beginning, tradition and place, each with its
counts.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from markupsafe import Markup, escape

from archive_tools.model.findings import TreeChronology
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.tree import Tree
from archive_tools.publish import botanical_names
from archive_tools.publish.addresses import addresses
from archive_tools.publish.age_words import firmest
from archive_tools.publish.context import Context
from archive_tools.publish.style_words import beginning_of, styles_of, tradition_of

MOST = 16
"""How many terms of one index stand over the wall; the index's own page has them all."""


@dataclass(frozen=True, slots=True)
class Filing:
    """One term under which a tree is filed: what sorts it, what is printed, and plain words for the announcement."""

    sorts_as: str
    label: Markup
    words: str


@dataclass(frozen=True, slots=True)
class Term:
    """One term of an index with the accessions filed under it, in the order of the wall."""

    value: str
    label: Markup
    words: str
    accessions: tuple[str, ...]


@dataclass(frozen=True)
class Index:
    """One index: its key ("species"), its heading, its terms in order."""

    key: str
    title: str
    terms: tuple[Term, ...]

    def values_of(self, accession: str) -> tuple[str, ...]:
        """The terms under which one tree is filed."""
        return self._values.get(accession, ())

    @cached_property
    def _values(self) -> Mapping[str, tuple[str, ...]]:
        values: dict[str, tuple[str, ...]] = {}
        for term in self.terms:
            for accession in term.accessions:
                values[accession] = (*values.get(accession, ()), term.value)
        return values

    @property
    def leading(self) -> tuple[Term, ...]:
        """The terms that stand over the wall: all of them, or the fullest where there are very many."""
        if len(self.terms) <= MOST:
            return self.terms
        fullest = set(sorted(self.terms, key=lambda term: -len(term.accessions))[:MOST])
        return tuple(term for term in self.terms if term in fullest)

    @property
    def path(self) -> str:
        """Where the index's own page stands, from the site's root."""
        return f"trees/by-{self.key}/"


File = Callable[[Context, Tree], Iterable[Filing]]


def indexes(context: Context, trees: Iterable[Tree]) -> tuple[Index, ...]:
    """All indexes that have at least one term."""
    _ = context.translations.gettext
    kinds: tuple[tuple[str, str, File], ...] = (
        ("species", _("Species"), _species),
        ("style", _("Style"), _styles),
        ("first-care", _("First care"), _decades),
        ("beginning", _("How it began"), _beginnings),
        ("tradition", _("Tradition"), _traditions),
        ("display", _("On display now"), _display),
        ("steward", _("Steward"), _stewards),
    )
    trees = tuple(trees)
    made = (_index(context, key, title, file, trees) for key, title, file in kinds)
    return tuple(index for index in made if index.terms)


def _index(context: Context, key: str, title: str, file: File, trees: tuple[Tree, ...]) -> Index:
    filed: dict[Filing, list[str]] = {}
    for tree in trees:
        for filing in dict.fromkeys(file(context, tree)):
            filed.setdefault(filing, []).append(tree.accession)
    in_order = sorted(filed, key=lambda filing: (filing.sorts_as.casefold(), filing.words))
    values = addresses(filing.words.replace(".", "-").casefold() for filing in in_order)
    terms = zip(in_order, values.values(), strict=True)
    return Index(key, title, tuple(Term(value, f.label, f.words, tuple(filed[f])) for f, value in terms))


def _plain(words: str, sorts_as: str | None = None) -> Filing:
    return Filing(words if sorts_as is None else sorts_as, escape(words), words)


def _species(context: Context, tree: Tree) -> Iterable[Filing]:
    taxa = [*tree.taxon, *(member.taxon for member in tree.members if member.taxon)]
    for name in dict.fromkeys(botanical_names.species(taxon) for taxon in taxa):
        sorts_as = re.sub(r"[^a-z ]", "", name.casefold()).strip()
        yield Filing(sorts_as, context.botanical(name), botanical_names.plain(name))


def _styles(context: Context, tree: Tree) -> Iterable[Filing]:
    return [_plain(term.word) for term in styles_of(context, tree)]


def _stewards(context: Context, tree: Tree) -> Iterable[Filing]:
    custody = context.view.findings.custodies.get(tree.accession)
    custodian = context.records.settings.custodian
    held = [i for period in custody.periods for i in period.holders] if custody else []
    for steward_id in dict.fromkeys(held):
        steward = context.records.stewards.get(steward_id)
        # The house holds nearly all of them, and masked stewards share one name: neither is a way to choose.
        if steward is not None and not steward.masked and steward_id != custodian:
            yield _plain(context.steward_name(steward), steward.sorts_as)


def _decades(context: Context, tree: Tree) -> Iterable[Filing]:
    _ = context.translations.gettext
    year = first_care_year(context.view.findings.chronologies.get(tree.accession))
    if year is None:
        yield _plain(_("not known"), "9999")
    else:
        yield _plain(decade_words(context, year), f"{year // 10 * 10:04d}")


def decade_words(context: Context, year: int) -> str:
    """Like "1950s"."""
    return context.translations.gettext("%(year)ss") % {"year": year // 10 * 10}


def first_care_year(chronology: TreeChronology | None) -> int | None:
    """The year under which a tree's first care is filed: the latest it can be by the firmest layer that says anything.

    The latest, because that is the claim the evidence carries ("1973 or earlier" is filed under the 1970s). What is
    only unsourced files nothing.
    """
    if chronology is None or chronology.under_review:
        return None
    care = chronology.milestones.get(Milestone.CARE)
    grade = firmest(care)
    if care is None or grade is None or grade is Grade.UNSOURCED:
        return None
    latest = care.layers[grade].latest or care.layers[grade].earliest
    return latest.year if latest else None


def _beginnings(context: Context, tree: Tree) -> Iterable[Filing]:
    words = beginning_of(context, tree)
    unknown = context.translations.gettext("not known")
    yield _plain(words, "\uffff" if words == unknown else None)


def _traditions(context: Context, tree: Tree) -> Iterable[Filing]:
    term = tradition_of(context, tree)
    return [] if term is None else [_plain(term.word)]


def _display(context: Context, tree: Tree) -> Iterable[Filing]:
    _ = context.translations.gettext
    custody = context.view.findings.custodies.get(tree.accession)
    if custody is None:
        return
    if custody.state.on_display:
        yield _plain(context.place(custody.state.place) or _("on display"))
    elif custody.state.in_collection:
        yield _plain(_("resting"), "\uffff")
    else:
        yield _plain(_("no longer here"), "\uffff\uffff")
