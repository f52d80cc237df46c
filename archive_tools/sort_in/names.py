"""Which trees the name of a file, or of the folders it lies in, tells: an accession, or a number of former years."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from archive_tools.model.tree import OtherNumber, Tree
from archive_tools.model.vocabulary import PHOTO_VIEWS, nearest

_MARKED = r"(?:\bno\.?|\bnr\.?|\bnum\.?|#|№)\s*"
_SPLIT = re.compile(r"[\s_,;+&()\[\]]+")


@dataclass(frozen=True, slots=True)
class Named:
    """What one name tells: the trees; which part of the path it was; in words; and why it is doubtful, if it is."""

    trees: tuple[str, ...]
    says: str
    doubt: str | None = None


def named_by_path(
    file: str, trees: Mapping[str, Tree], pattern: str | None, days: tuple[date, date] | None
) -> Named | None:
    """What the path of a picture (`/` between its parts) tells of the trees it shows; None if nothing.

    days: between which the picture was taken, as far as known; a former number counts only in its years.
    """
    parts = file.split("/")
    found: list[Named] = []
    for depth, part in enumerate(parts):
        is_file = depth == len(parts) - 1
        stem = part.rpartition(".")[0] or part if is_file else part
        named = _in_part(stem, "file name" if is_file else "folder name", trees, pattern, days)
        if named is not None:
            found.append(named)
    if not found:
        return None
    doubted = next((one for one in reversed(found) if one.doubt), None)
    if doubted is not None:
        return doubted
    if len({frozenset(one.trees) for one in found}) > 1:
        told = " but ".join(one.says for one in found)
        return Named(found[-1].trees, told, f"its path names different trees: {told}")
    return found[-1]


def view_in_name(stem: str) -> str | None:
    """The side of the tree that a file name says it shows, if it says exactly one."""
    said = {word for word in re.split(r"[^a-z]+", stem.casefold()) if word in PHOTO_VIEWS}
    return said.pop() if len(said) == 1 else None


def _in_part(
    part: str, where: str, trees: Mapping[str, Tree], pattern: str | None, days: tuple[date, date] | None
) -> Named | None:
    part = _nfc(part)
    folded, figures = part.casefold(), _letters(part)
    exact = [one for one in trees if _nfc(one).casefold() in folded and _found(re.escape(_nfc(one)), part)]
    exact = [one for one in exact if not any(one != other and one in other for other in exact)]
    if exact:
        return Named(tuple(exact), f"the {where} “{part}” holds {' and '.join(exact)}")
    spelt = [one for one in trees if _letters(one) in figures and _found(_with_any_sign(one), part)]
    if spelt:
        says = f"the {where} “{part}” holds {' and '.join(spelt)}, written a little differently"
        plain = [one for one in spelt if not any(letter.isalpha() for letter in one)]
        doubt = f"the {where} “{part}” may hold {plain[0]}, or a date or running number" if plain else None
        return Named(tuple(spelt), says, doubt)
    unknown = _like_an_accession(part, pattern)
    if unknown:
        near = nearest(unknown, trees)
        hint = f"; is {near} meant?" if near else ""
        doubt = f"the {where} “{part}” holds {unknown}, and the collection has no such tree{hint}"
        return Named((), doubt, doubt)
    return _former(part, where, trees, days)


def _nfc(text: str) -> str:
    return unicodedata.normalize("NFC", text)


@lru_cache(maxsize=8192)
def _letters(text: str) -> str:
    """Letters and figures alone."""
    return "".join(letter for letter in _nfc(text).casefold() if letter.isalnum())


def _found(expression: str, part: str) -> bool:
    """Whether it stands there as a number of its own: not as the beginning or end of a longer one."""
    return re.search(rf"(?<![^\W_])(?<!\d\.){expression}(?![^\W_])(?!\.\d)", part, re.IGNORECASE) is not None


def _with_any_sign(accession: str) -> str:
    """The accession with its signs changed into others, as where a file name cannot hold them: 1979/2 as 1979-2."""
    pieces = [re.escape(piece) for piece in re.split(r"[\W_]+", _nfc(accession)) if piece]
    return r"[\W_]".join(pieces)


def _like_an_accession(part: str, pattern: str | None) -> str | None:
    if pattern is None:
        return None
    try:
        form = re.compile(pattern)
    except re.error:
        return None
    pieces = _SPLIT.split(part)
    tails = [part, *pieces, *(piece.partition("-")[0] for piece in pieces)]
    # A pattern of bare figures fits any running number, which says nothing.
    return next((one for one in tails if any(c.isalpha() for c in one) and form.fullmatch(one)), None)


def _former(part: str, where: str, trees: Mapping[str, Tree], days: tuple[date, date] | None) -> Named | None:
    fitting: list[str] = []
    other_years: list[str] = []
    number = ""
    for accession, tree in trees.items():
        for other in tree.other_numbers:
            if not _former_found(other.number, part):
                continue
            number = other.number
            (fitting if _in_its_years(other, days) else other_years).append(accession)
    bearers = list(dict.fromkeys(fitting))
    if len(bearers) == 1:
        return Named((bearers[0],), f"the {where} “{part}” holds {number}, a former number of {bearers[0]}")
    if len(bearers) > 1:
        doubt = f"the {where} “{part}” holds {number}, a former number of {' and of '.join(bearers)}"
        return Named(tuple(bearers), doubt, doubt)
    if other_years:
        said = " and of ".join(dict.fromkeys(other_years))
        doubt = f"the {where} “{part}” holds {number}, a number of {said}, but in other years than the picture's"
        return Named(tuple(dict.fromkeys(other_years)), doubt, doubt)
    return None


def _former_found(number: str, part: str) -> bool:
    number = _nfc(number.strip())
    if not number or number.casefold() not in part.casefold():
        return False
    escaped = re.escape(number)
    if any(letter.isalpha() for letter in number):
        return _found(escaped, part)
    # Bare figures are in every camera's file names: they count alone, or after a word or sign for "number".
    alone = part.strip() == number
    return alone or re.search(rf"{_MARKED}{escaped}(?![.\-/]?\d)", part, re.IGNORECASE) is not None


def _in_its_years(other: OtherNumber, days: tuple[date, date] | None) -> bool:
    if days is None:
        return True
    first, last = days
    since = other.from_.earliest if other.from_ else None
    until = other.until.latest if other.until else None
    return (since is None or last >= since) and (until is None or first <= until)
