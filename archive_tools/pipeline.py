"""The order of work. It reads like the house is built:

read -> check -> reason -> edition -> illustrate -> publish

with the cut to one edition made before the reasoning, so that no conclusion gives away what the edition hides.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import date
from difflib import get_close_matches
from pathlib import Path
from typing import TypeVar

from archive_tools.check import check_collection, check_findings, names_in_public_texts, without
from archive_tools.editions import (
    find_secrets,
    named_in,
    references_to_hidden_trees,
    secrets_of,
    select,
    view_of,
    with_effective_visibility,
)
from archive_tools.illustrate import draw
from archive_tools.made_before import CACHE, PHOTOGRAPHS, key_of, recall, remember
from archive_tools.model.collection import Collection
from archive_tools.model.grades import Edition, Visibility
from archive_tools.model.page import Site
from archive_tools.model.problems import Problem, Reach, Severity
from archive_tools.model.view import EditionView, LeftOut
from archive_tools.publish import make_site
from archive_tools.publish.translation import translations_for
from archive_tools.read import FactsCache, read_ahead, read_collection
from archive_tools.reason import find, graded, read_prose
from archive_tools.walks import with_tours

T = TypeVar("T")
Progress = Callable[[str, int, int], None]
"""Told what is being done, how much is done, and how much there is."""


class RefusedError(Exception):
    """A build or a question that cannot go on: a record cannot be trusted, or something private would get out."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__(f"{len(self.problems)} problems stop this")


@dataclass(frozen=True, slots=True)
class Gathered:
    """A collection as read, checked and graded (None when it could not be read at all), and every problem met.

    written: the same with what has problems still in it, for whoever is to be told what is left out.
    """

    collection: Collection | None
    problems: tuple[Problem, ...]
    written: Collection | None = None


@dataclass(frozen=True, slots=True)
class Made:
    """One edition, ready for the site engine, with what the summary of a build tells.

    `encoded` counts the pictures encoded in this run: none when all came from the cache.
    """

    site: Site
    problems: tuple[Problem, ...]
    trees: int
    photographs: int
    left_out: tuple[LeftOut, ...]
    encoded: int = 0


def gather(folder: Path, *, today: date, pages: Path | None = None, facts: FactsCache | None = None) -> Gathered:
    """Read and check a collection folder; statements with problems are left out of what is returned.

    facts: what is known of the originals from former runs, so that an unchanged photograph is not read again; unsaid,
    what builds have kept beside the collection, to which nothing is then added.
    """
    facts = facts or FactsCache(folder / CACHE / PHOTOGRAPHS)
    read_ahead(folder, facts)
    collection, problems = read_collection(folder, pages, facts)
    if collection is None:
        return Gathered(None, _in_order(problems))
    problems = problems + check_collection(collection, today)
    return Gathered(graded(without(collection, problems)), _in_order(problems), collection)


def check(folder: Path, *, as_of: date, today: date, pages: Path | None = None) -> tuple[Problem, ...]:
    """Every problem of a collection: of its records, of its dates taken together, and of what it would give away."""
    gathered = gather(folder, today=today, pages=pages)
    if gathered.collection is None:
        return gathered.problems
    whole = with_effective_visibility(gathered.collection, as_of)
    findings = find(whole, as_of, today)
    findings = replace(findings, prose=read_prose(whole, findings.chronologies, as_of))
    return _in_order([*gathered.problems, *check_findings(whole, findings), *_leaks_in_records(whole, Edition.PUBLIC)])


def view(folder: Path, *, edition: Edition, as_of: date, today: date, pages: Path | None = None) -> EditionView:
    """What one edition may show of a collection, with its findings. Raises RefusedError when it cannot be read."""
    return view_in(gather(folder, today=today, pages=pages), edition=edition, as_of=as_of, today=today)


def view_in(gathered: Gathered, *, edition: Edition, as_of: date, today: date) -> EditionView:
    """The same of a collection that is gathered already."""
    if gathered.collection is None:
        raise RefusedError(gathered.problems)
    return _view(with_effective_visibility(gathered.collection, as_of), edition, as_of, today)


def export(
    folder: Path,
    *,
    edition: Edition,
    as_of: date,
    today: date,
    write: Callable[[EditionView], str],
    read: Callable[[str], str] = str,
) -> str:
    """What `write` makes of one edition, searched for hidden names before it leaves. Raises RefusedError.

    read: the words of what was written, for a format that writes some letters in its own way.
    """
    gathered = gather(folder, today=today)
    if gathered.collection is None:
        raise RefusedError(gathered.problems)
    whole = with_effective_visibility(gathered.collection, as_of)
    _refuse_on([*(p for p in gathered.problems if p.reach is Reach.RECORD), *_leaks_in_records(whole, edition)])
    text = write(_view(whole, edition, as_of, today))
    words = [("export", text), ("export", read(text))]
    _refuse_on(find_secrets(secrets_of(whole, edition), words, named_in(whole, edition)))
    return text


def prepared(
    folder: Path,
    *,
    edition: Edition,
    as_of: date,
    today: date,
    make: Callable[[EditionView], T],
    texts: Callable[[T], Iterable[tuple[str, str]]],
    language: str | None = None,
    pages: Path | None = None,
    talk: str | None = None,
    tour: str | None = None,
    claims: bool = True,
) -> T:
    """What `make` makes of one edition for paper or for a talk, searched for hidden names before it leaves.

    texts: what of it a reader may see, as (name, text). language: of the sentences about age; the site's first if None.
    talk, tour: one that is given before the edition's public, and so is in the view even where its plan stays in the
    house.
    The view that `make` is given holds the claims of years that the edition's own evidence does not bear out, unless
    `claims` is False: reading every text for them takes seconds. Raises RefusedError.
    """
    gathered = gather(folder, today=today, pages=pages)
    if gathered.collection is None:
        raise RefusedError(gathered.problems)
    whole = with_effective_visibility(gathered.collection, as_of)
    if talk and talk in whole.talks and edition is Edition.PUBLIC:
        given = replace(whole.talks[talk], effective=Visibility.PUBLIC)
        whole = replace(whole, talks={**whole.talks, talk: given})
    if tour and tour in whole.tours and edition is Edition.PUBLIC:
        led = replace(whole.tours[tour], effective=Visibility.PUBLIC)
        whole = replace(whole, tours={**whole.tours, tour: led})
    _refuse_on([*(p for p in gathered.problems if p.reach is Reach.RECORD), *_leaks_in_records(whole, edition)])
    selected, left_out = select(whole, edition)
    findings = find(selected, as_of, today, translations_for(language or whole.settings.languages[0]).gettext)
    if claims:
        findings = replace(findings, prose=read_prose(selected, findings.chronologies, as_of))
    made = make(view_of(selected, findings, edition, left_out))
    _refuse_on(find_secrets(secrets_of(whole, edition), texts(made), named_in(whole, edition)))
    return made


def make(
    folder: Path,
    *,
    edition: Edition,
    as_of: date,
    today: date,
    cache: Path,
    pages: Path | None = None,
    progress: Progress | None = None,
) -> Made:
    """Everything of one edition, recalled from `cache` when nothing has changed since it was made.

    Raises RefusedError where a record cannot be trusted or something would leak.
    """
    folders = [folder.resolve(), *([pages.resolve()] if pages else [])]
    key = key_of(folders, edition.value, as_of.isoformat(), today.isoformat())
    made = recall(cache, key)
    if isinstance(made, Made) and _all_there(made, cache):
        return replace(made, encoded=0)
    made = _make_anew(folder, edition, as_of, today, cache, pages, progress)
    remember(cache, key, made)
    return made


def _all_there(made: Made, cache: Path) -> bool:
    """Whether every picture that was made is still in the cache."""
    return all((cache / file.copied_from).exists() for file in made.site.files if file.copied_from)


def _make_anew(
    folder: Path, edition: Edition, as_of: date, today: date, cache: Path, pages: Path | None, progress: Progress | None
) -> Made:
    facts = FactsCache(cache / PHOTOGRAPHS)
    gathered = gather(folder, today=today, pages=pages, facts=facts)
    facts.save()
    if gathered.collection is None:
        raise RefusedError(gathered.problems)
    whole = with_effective_visibility(gathered.collection, as_of)
    _refuse_on([*gathered.problems, *_leaks_in_records(whole, edition)])
    view = _view(whole, edition, as_of, today)
    pictures = draw(view, folder, cache, progress=progress, translate=_translate(whole))
    view, cannot = with_tours(view, today)
    site = make_site(view, pictures)
    _refuse_on(_leaks_in_site(whole, edition, site))
    found = check_findings(view.records, view.findings)
    problems = _in_order([*gathered.problems, *pictures.problems, *cannot, *found])
    photographs = sum(len(tree.photos) for tree in view.records.trees.values())
    return Made(site, problems, len(view.records.trees), photographs, view.left_out, pictures.encoded)


def nearest(wanted: str, known: Iterable[str]) -> str | None:
    """The known accession or id most like the one that was asked for, if any is like it at all."""
    return next(iter(get_close_matches(wanted, sorted(known), n=1)), None)


def _view(whole: Collection, edition: Edition, as_of: date, today: date) -> EditionView:
    selected, left_out = select(whole, edition)
    findings = find(selected, as_of, today, _translate(selected))
    return view_of(selected, findings, edition, left_out)


def _translate(collection: Collection) -> Callable[[str], str]:
    """The messages of the site's first language."""
    return translations_for(collection.settings.languages[0]).gettext


def _leaks_in_records(whole: Collection, edition: Edition) -> list[Problem]:
    if edition is not Edition.PUBLIC:
        return []
    return [*names_in_public_texts(whole), *references_to_hidden_trees(whole, edition)]


def _leaks_in_site(whole: Collection, edition: Edition, site: Site) -> list[Problem]:
    pages = ((page.path, f"{page.title}\n{page.description}\n{page.body}") for page in site.pages)
    files = ((file.path, (file.content or b"").decode("utf-8", "replace")) for file in site.files)
    return find_secrets(secrets_of(whole, edition), [*pages, *files], named_in(whole, edition))


def _refuse_on(problems: Iterable[Problem]) -> None:
    stopping = [p for p in problems if p.reach is Reach.RECORD and p.severity is Severity.ERROR]
    if stopping:
        raise RefusedError(_in_order(stopping))


def _in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    return tuple(sorted(dict.fromkeys(problems), key=lambda problem: problem.sort_key))
