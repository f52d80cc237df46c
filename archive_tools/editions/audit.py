"""The last look before anything is published: do hidden names or words stand in what was made?

The cut and the masks should have kept them out. This search does not trust that: it knows the hidden strings from the
whole collection and looks for them in every page and file of the site, letter case, accents and kinds of dash or space
put aside.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from html import unescape
from urllib.parse import unquote

from archive_tools.editions.masking import is_named, may_show
from archive_tools.model.collection import Collection
from archive_tools.model.grades import Edition
from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem, Reach

_DASHES = re.compile(r"[\u2010-\u2015\u2212\ufe58\ufe63\uff0d]")
_QUOTES = str.maketrans(
    dict.fromkeys("\u2018\u2019\u02bc\u2032\u00b4`\uff07", "'") | dict.fromkeys("\u201c\u201d\u2033", '"')
)
_BLANKS = re.compile(r"[\s\u00a0\u00ad\u200b-\u200d\u2060\ufeff]+")
_TAG = re.compile(r"<[^>]*>")
_SHORTEST = 4
"""A hidden string shorter than this is not searched for: it would be found in every other word."""


@dataclass(frozen=True, slots=True)
class Secret:
    """A string that must not appear, and what it is (said without saying the string)."""

    folded: str
    what: str
    written_at: Mark


def fold(text: str) -> str:
    """Text with case, accents, Unicode form, and the kinds of dash, quotation mark and space put aside."""
    plain = unicodedata.normalize("NFKD", text)
    plain = "".join(c for c in plain if not unicodedata.combining(c))
    return _BLANKS.sub(" ", _DASHES.sub("-", plain)).translate(_QUOTES).casefold().strip()


def secrets_of(collection: Collection, edition: Edition) -> tuple[Secret, ...]:
    """Every string of the collection that the edition must not hold."""
    found: dict[str, Secret] = {}

    def add(text: str | None, what: str, mark: Mark) -> None:
        folded = fold(text or "")
        is_wide = any(ord(c) > 0x2E7F for c in folded)
        if len(folded) >= (2 if is_wide else _SHORTEST):
            found.setdefault(folded, Secret(folded, what, mark))

    for steward in collection.stewards.values():
        if not is_named(steward, edition):
            for name in (*steward.name.all_texts, *(text for _, text in steward.names), *steward.aliases, steward.id):
                add(name, f"a name of a steward who is not named in the {edition} edition", steward.where.at("name"))
    for source in collection.sources.values():
        if not may_show(source.effective, edition):
            for title in source.title.all_texts:
                add(title, f"the title of a source that is not in the {edition} edition", source.where.at("title"))
    for place in collection.places.values():
        if not may_show(place.effective, edition):
            for name in (place.id, *place.name.all_texts):
                # A plain word ("store") may stand anywhere; a bench code or a name of several words may not.
                if any(c.isdigit() for c in name) or " " in name:
                    add(name, f"a place that is not in the {edition} edition", place.where.at("name"))
    for tree in collection.trees.values():
        if not may_show(tree.effective, edition):
            add(
                tree.accession, f"the number of a tree that is not in the {edition} edition", tree.where.at("accession")
            )
        if edition is Edition.PUBLIC and tree.origin_locality and tree.origin_locality.text:
            for text in tree.origin_locality.text.all_texts:
                add(text, "the place where a tree was found", tree.where.at("origin_locality", "text"))
    return tuple(found.values())


def find_secrets(secrets: Iterable[Secret], files: Iterable[tuple[str, str]]) -> list[Problem]:
    """Problems that stop a publication: each secret found in a file's path or text.

    files: (path in the site, text). The text is searched as written and with HTML entities and URL escapes undone.
    """
    patterns = [(secret, re.compile(rf"(?<!\w){re.escape(secret.folded)}(?!\w)")) for secret in secrets]
    wide = [(secret, secret.folded) for secret in secrets if any(ord(c) > 0x2E7F for c in secret.folded)]
    problems = []
    for path, text in files:
        # With the tags, for what stands in attributes; without them, for a name broken by markup.
        folded = "\n".join(fold(unquote(unescape(form))) for form in (path, text, _TAG.sub("", text)))
        hits = [secret for secret, pattern in patterns if secret.folded in folded and pattern.search(folded)]
        hits += [secret for secret, plain in wide if plain in folded and secret not in hits]
        problems += [_problem(secret, path) for secret in hits]
    return problems


def _problem(secret: Secret, path: str) -> Problem:
    return Problem(
        mark=secret.written_at,
        what=f"{secret.what} would appear in the published file {path}",
        instead="take it out of the text that the page shows, or make that text internal",
        rule="would-leak",
        reach=Reach.RECORD,
    )
