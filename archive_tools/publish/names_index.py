"""An index of names by their first letters: anchors to jump to, which need no script."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Generic, TypeVar

from archive_tools.publish.addresses import anchor

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Letter(Generic[T]):
    """The names that begin with one letter, and the id of its place on the page."""

    letter: str
    anchor: str
    items: tuple[T, ...]


def by_letter(named: Iterable[tuple[str, T]]) -> tuple[Letter[T], ...]:
    """Things by the first letter of the name under which each is filed, in the order of the alphabet.

    Accents do not make another letter; a name that begins with no letter stands under "#", after the others.
    """
    groups: dict[str, list[T]] = {}
    for name, item in sorted(named, key=lambda pair: _sorts(pair[0])):
        groups.setdefault(_letter(name), []).append(item)
    order = sorted(groups, key=lambda letter: (letter == "#", letter))
    return tuple(
        Letter(letter, f"names-{'other' if letter == '#' else anchor(letter)}", tuple(groups[letter]))
        for letter in order
    )


def _sorts(name: str) -> str:
    plain = unicodedata.normalize("NFKD", name.casefold())
    return "".join(letter for letter in plain if not unicodedata.combining(letter))


def _letter(name: str) -> str:
    first = _sorts(name.lstrip("\"'‘“ "))[:1].upper()
    return first if first.isalpha() else "#"
