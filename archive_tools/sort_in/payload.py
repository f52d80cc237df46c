"""What a code says: the text on a session card, the address on a tree's label, and what is meant by either.

A card's text is plain, so that any telephone shows what it is for: `archive card S1979.2 k7x2`, and `archive card end`.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from urllib.parse import unquote, urlsplit

from archive_tools.model.tree import Tree
from archive_tools.publish.addresses import addresses, plain_address

_OPENING = "archive card "
_END = "archive card end"
_LETTERS = "23456789abcdefghjkmnpqrstuvwxyz"
"""Without the signs that are taken for one another when a card is read aloud."""


@dataclass(frozen=True, slots=True)
class Meant:
    """What a code means: these trees; nothing further (`is_end`); or, with `doubt`, why it cannot be said.

    is_card: a session card, which is never a photograph of a tree. text: the code's own, to know it again.
    """

    text: str
    trees: tuple[str, ...] = ()
    is_end: bool = False
    is_card: bool = False
    doubt: str | None = None


def card_text(accessions: str | Iterable[str], day: date) -> str:
    """The text in the code of a session card for one tree, or several; its mark is always the same on one day."""
    trees = " + ".join([accessions] if isinstance(accessions, str) else accessions)
    digest = hashlib.sha256(f"{trees}\0{day.isoformat()}".encode()).digest()
    return f"{_OPENING}{trees} {''.join(_LETTERS[byte % len(_LETTERS)] for byte in digest[:4])}"


def end_card_text() -> str:
    """The text in the code of the card that closes a session."""
    return _END


def label_address(site_url: str, accession: str, accessions: Iterable[str]) -> str:
    """The permanent address of a tree's page, as a label bears it. Raises KeyError for an unknown tree."""
    return f"{site_url.rstrip('/')}/trees/{addresses(accessions)[accession]}/"


def meant_by(text: str, trees: Mapping[str, Tree], site_url: str | None) -> Meant | None:
    """What the text of a code means to this collection; None for a code that has nothing to do with it."""
    plain = " ".join(text.split())
    if plain.casefold() == _END:
        return Meant(plain, is_end=True, is_card=True)
    if plain.casefold().startswith(_OPENING):
        return _card(plain, trees)
    return _label(text.strip(), trees, site_url)


def _card(text: str, trees: Mapping[str, Tree]) -> Meant:
    named = text[len(_OPENING) :].rpartition(" ")[0]
    if named in trees:
        return Meant(text, (named,), is_card=True)
    several = tuple(dict.fromkeys(named.split(" + ")))
    unknown = [one for one in several if one not in trees]
    if unknown:
        doubt = f"the card “{text}” names {unknown[0] or 'no tree'}, which the collection does not have"
        return Meant(text, is_card=True, doubt=doubt)
    return Meant(text, several, is_card=True)


def _label(text: str, trees: Mapping[str, Tree], site_url: str | None) -> Meant | None:
    if not site_url:
        return None
    try:
        given, own = urlsplit(text), urlsplit(site_url)
    except ValueError:
        return None
    below = re.escape(own.path.rstrip("/"))
    found = re.fullmatch(rf"{below}/trees/([^/]+)(?:/(?:index\.html)?)?", given.path)
    if given.scheme not in ("http", "https") or given.netloc.casefold() != own.netloc.casefold() or found is None:
        return None
    address = unquote(found[1])
    bearers = [one for one in trees if plain_address(one).casefold() == address.casefold()]
    if not bearers:
        numbered = re.fullmatch(r"(.+)-([0-9]+)", address)
        bearers = _numbered(numbered[1], int(numbered[2]), trees) if numbered else []
    if not bearers:
        bearers = [
            one
            for one, tree in trees.items()
            if any(plain_address(other.number).casefold() == address.casefold() for other in tree.other_numbers)
        ]
    if len(bearers) == 1:
        return Meant(text, (bearers[0],))
    why = f"may be meant for {' or '.join(bearers)}" if bearers else "leads to no tree that the collection has"
    return Meant(text, doubt=f"the label's address {text} {why}")


def _numbered(address: str, number: int, trees: Mapping[str, Tree]) -> list[str]:
    """Trees whose accessions are alike as addresses: which of them bears a number depends on the edition."""
    alike = [one for one in trees if plain_address(one).casefold() == address.casefold()]
    return alike if len(alike) >= number else []
