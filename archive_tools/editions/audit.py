"""The last look before anything is published: do hidden names or words stand in what was made?

The cut and the masks should have kept them out. This search does not trust that: it knows the hidden names, codes and
titles from the whole collection and looks for them in every page and file of the site, as the check looks for names
in the curator's own texts (`model.name_search`). It cannot find a name of one letter, a plain word that is the whole
name of a hidden place or object ("Store" may stand anywhere), or what a hidden text says in other words.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from urllib.parse import unquote

from archive_tools.editions.masking import is_named, may_show
from archive_tools.model.collection import Collection
from archive_tools.model.folding import fold, letters_of
from archive_tools.model.grades import Edition
from archive_tools.model.name_search import fold_name, name_pattern, names_of, part_of_longer
from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem, Reach

_TAG = re.compile(r"<!--.*?-->|<[^>]*>", re.S)
_COMMENT = re.compile(r"<!--.*?-->", re.S)
_ATTRIBUTE = re.compile(r"""([\w:-]+)\s*=\s*("[^"]*"|'[^']*'|[^\s>"']+)""")
_OURS = frozenset({"class", "style", "rel", "type", "role", "scope", "lang", "loading", "media", "sizes", "fill"})
"""Attributes whose values are the program's own words."""


@dataclass(frozen=True, slots=True)
class Secret:
    """Something that must not appear: how it is found, its letters for a fast first look, and what it is."""

    pattern: re.Pattern[str]
    letters: str
    what: str
    written_at: Mark

    @property
    def key(self) -> tuple[str, Mark]:
        """One for all the names of one thing: it is told once a file."""
        return self.what, self.written_at


def secrets_of(collection: Collection, edition: Edition) -> tuple[Secret, ...]:
    """Every string of the collection that the edition must not hold."""
    found: dict[str, Secret] = {}

    def add(text: str, what: str, mark: Mark) -> None:
        name = fold_name(text)
        pattern = name_pattern(name)
        if pattern is not None:
            found.setdefault(name, Secret(pattern, letters_of(name), what, mark))

    for steward in collection.stewards.values():
        if not is_named(steward, edition):
            for name in (*names_of(steward), steward.id):
                add(name, f"a name of a steward who is not named in the {edition} edition", steward.where.at("name"))
    for source in collection.sources.values():
        if not may_show(source.effective, edition):
            for title in source.title.all_texts:
                add(title, f"the title of a source that is not in the {edition} edition", source.where.at("title"))
    for place in collection.places.values():
        if not may_show(place.effective, edition):
            for name in (place.id, *place.name.all_texts):
                if _is_telling(name):
                    add(name, f"a place that is not in the {edition} edition", place.where.at("name"))
    for thing in collection.objects.values():
        if not may_show(thing.effective, edition) or (edition is Edition.PUBLIC and thing.public_name is not None):
            for name in thing.name.all_texts:
                if _is_telling(name):
                    add(name, f"an object that is not named in the {edition} edition", thing.where.at("name"))
    for tree in collection.trees.values():
        if not may_show(tree.effective, edition):
            add(
                tree.accession, f"the number of a tree that is not in the {edition} edition", tree.where.at("accession")
            )
        if edition is Edition.PUBLIC and tree.origin_locality and tree.origin_locality.text:
            for text in tree.origin_locality.text.all_texts:
                add(text, "the place where a tree was found", tree.where.at("origin_locality", "text"))
    return tuple(found.values())


def named_in(collection: Collection, edition: Edition) -> tuple[str, ...]:
    """The folded names of those whom the edition may name: a hidden name that is part of one gives nobody away."""
    stewards = (steward for steward in collection.stewards.values() if is_named(steward, edition))
    return tuple(dict.fromkeys(fold_name(name) for steward in stewards for name in names_of(steward)))


def find_secrets(
    secrets: Iterable[Secret], files: Iterable[tuple[str, str]], allowed: Iterable[str] = ()
) -> list[Problem]:
    """Problems that stop a publication: each secret found in a file's path or text.

    files: (path in the site, text). allowed: folded names that may stand (see `named_in`).
    """
    secrets, allowed = list(secrets), list(allowed)
    problems = []
    for path, text in files if secrets else ():
        told: set[tuple[str, Mark]] = set()
        for form in _forms(path, text):
            letters = letters_of(form)
            near = [one for one in secrets if one.letters in letters and one.key not in told]
            folded = fold(form).text if near else ""
            for secret in near:
                spans = (match.span() for match in secret.pattern.finditer(folded))
                if secret.key not in told and any(not part_of_longer(folded, *span, allowed) for span in spans):
                    told.add(secret.key)
                    problems.append(_problem(secret, path))
    return problems


def _forms(path: str, text: str) -> Iterator[str]:
    """The file as it is searched: its address; its words with the tags joined and parted, for a name that is marked up
    or broken over lines; what stands in attributes and comments. Names of tags and classes are ours and say nothing.
    """
    yield unquote(path)
    if "<" not in text:
        forms = [unquote(text)]
    else:
        tags = "".join(_TAG.findall(text))
        values = (value for name, value in _ATTRIBUTE.findall(tags) if name.casefold() not in _OURS)
        said_aside = unquote("\n".join([*values, *_COMMENT.findall(text)]))
        forms = [_TAG.sub("", text), _TAG.sub(" ", text), said_aside]
    yield from forms
    # A space without width may stand inside a word, as above, or between two.
    yield from (form.replace("\u200b", " ") for form in forms if "\u200b" in form)


def _is_telling(name: str) -> bool:
    """Whether a name is a code or has several words; a plain word ("store") may stand anywhere."""
    return any(letter.isdigit() for letter in name) or " " in name


def _problem(secret: Secret, path: str) -> Problem:
    return Problem(
        mark=secret.written_at,
        what=f"{secret.what} would appear in the published file {path}",
        instead="take it out of the text that the page shows, or make that text internal",
        rule="would-leak",
        reach=Reach.RECORD,
    )
