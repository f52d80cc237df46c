"""Which trees the name of a file, or of the folders it lies in, tells: an accession, or a number of former years."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from archive_tools.model.tree import OtherNumber, Tree
from archive_tools.model.vocabulary import PHOTO_VIEWS, nearest

Days = tuple[date, date]
"""Between which days a picture was taken, as far as is known."""

_MARKED = r"(?:\bno\.?|\bnr\.?|\bnum\.?|#|№)\s*"
_SPLIT = re.compile(r"[\s_,;+&()\[\]]+")


@dataclass(frozen=True, slots=True)
class Named:
    """What one name tells: the trees; which part of the path it was; in words; and why it is doubtful, if it is."""

    trees: tuple[str, ...]
    says: str
    doubt: str | None = None


@dataclass(frozen=True, slots=True)
class Numbers:
    """The numbers of a collection, made ready to be looked for in thousands of names.

    accessions: each with itself folded, and with its letters and figures alone. former: whose; the number; it folded.
    """

    accessions: tuple[tuple[str, str, str], ...]
    former: tuple[tuple[str, OtherNumber, str], ...]
    pattern: re.Pattern[str] | None

    def named_by(self, file: str, days: Days | None) -> Named | None:
        """What the path of a picture (`/` between its parts) tells of the trees it shows; None if nothing.

        A former number counts only in its years.
        """
        parts = file.split("/")
        found = [
            named
            for depth, part in enumerate(parts)
            if (named := self._in_part(part, depth == len(parts) - 1, days)) is not None
        ]
        if not found:
            return None
        doubted = next((one for one in reversed(found) if one.doubt), None)
        if doubted is not None:
            return doubted
        if len({frozenset(one.trees) for one in found}) > 1:
            told = " but ".join(one.says for one in found)
            return Named(found[-1].trees, told, f"its path names different trees: {told}")
        return found[-1]

    def written_in(self, stem: str) -> tuple[str, ...]:
        """The accessions and former numbers that stand in a name, as they are written there."""
        stem = _nfc(stem)
        folded, letters = stem.casefold(), _letters(stem)
        own = (_match(_with_any_sign(one), stem) for one, _, bare in self.accessions if bare in letters)
        former = (
            number
            for _, other, plain in self.former
            if plain in folded and _former_found(number := _nfc(other.number.strip()), stem)
        )
        return tuple(dict.fromkeys([*(found[0] for found in own if found), *former]))

    def _in_part(self, part: str, is_file: bool, days: Days | None) -> Named | None:
        stem = _nfc((part.rpartition(".")[0] or part) if is_file else part)
        where = "file name" if is_file else f"folder name “{stem}”"
        folded, letters = stem.casefold(), _letters(stem)
        exact = [own for own, plain, _ in self.accessions if plain in folded and _found(re.escape(_nfc(own)), stem)]
        exact = [one for one in exact if not any(one != other and one in other for other in exact)]
        if exact:
            return Named(tuple(exact), f"the {where} holds {' and '.join(exact)}")
        spelt = [own for own, _, bare in self.accessions if bare in letters and _found(_with_any_sign(own), stem)]
        if spelt:
            says = f"the {where} holds {' and '.join(spelt)}, written a little differently"
            plain = next((one for one in spelt if not any(letter.isalpha() for letter in one)), None)
            doubt = f"the {where} may hold {plain}, or a date or running number" if plain else None
            return Named(tuple(spelt), says, doubt)
        unknown = self._like_an_accession(stem)
        if unknown:
            near = nearest(unknown, [own for own, _, _ in self.accessions])
            hint = f"; is {near} meant?" if near else ""
            doubt = f"the {where} holds {unknown}, and the collection has no such tree{hint}"
            return Named((), doubt, doubt)
        return self._former(stem, folded, where, days)

    def _like_an_accession(self, stem: str) -> str | None:
        if self.pattern is None:
            return None
        pieces = _SPLIT.split(stem)
        tails = [stem, *pieces, *(piece.partition("-")[0] for piece in pieces)]
        # A pattern of bare figures fits any running number, which says nothing.
        return next((one for one in tails if any(c.isalpha() for c in one) and self.pattern.fullmatch(one)), None)

    def _former(self, stem: str, folded: str, where: str, days: Days | None) -> Named | None:
        borne = [
            (own, other)
            for own, other, plain in self.former
            if plain in folded and _former_found(_nfc(other.number.strip()), stem)
        ]
        bearers = list(dict.fromkeys(own for own, other in borne if _in_its_years(other, days)))
        number = borne[0][1].number if borne else ""
        if len(bearers) == 1:
            return Named((bearers[0],), f"the {where} holds {number}, a former number of {bearers[0]}")
        if len(bearers) > 1:
            doubt = f"the {where} holds {number}, a former number of {' and of '.join(bearers)}"
            return Named(tuple(bearers), doubt, doubt)
        if borne:
            others = tuple(dict.fromkeys(own for own, _ in borne))
            said = " and of ".join(others)
            doubt = f"the {where} holds {number}, a number of {said}, but in other years than the picture's"
            return Named(others, doubt, doubt)
        return None


def numbers_of(trees: Mapping[str, Tree], pattern: str | None) -> Numbers:
    """The numbers of these trees; `pattern` is the form that the collection gives its accessions."""
    try:
        form = re.compile(pattern) if pattern else None
    except re.error:
        form = None
    former = [(own, other) for own, tree in trees.items() for other in tree.other_numbers if other.number.strip()]
    return Numbers(
        tuple((own, _nfc(own).casefold(), _letters(own)) for own in trees),
        tuple((own, other, _nfc(other.number.strip()).casefold()) for own, other in former),
        form,
    )


def view_in_name(stem: str) -> str | None:
    """The side of the tree that a file name says it shows, if it says exactly one."""
    said = {word for word in re.split(r"[^a-z]+", stem.casefold()) if word in PHOTO_VIEWS}
    return said.pop() if len(said) == 1 else None


def _nfc(text: str) -> str:
    return unicodedata.normalize("NFC", text)


def _letters(text: str) -> str:
    """Letters and figures alone."""
    return "".join(letter for letter in _nfc(text).casefold() if letter.isalnum())


def _found(expression: str, part: str) -> bool:
    """Whether it stands there as a number of its own: not as the beginning or end of a longer one."""
    return _match(expression, part) is not None


def _match(expression: str, part: str) -> re.Match[str] | None:
    return re.search(rf"(?<![^\W_])(?<!\d\.){expression}(?![^\W_])(?!\.\d)", part, re.IGNORECASE)


def _with_any_sign(accession: str) -> str:
    """The accession with its signs changed into others, as where a file name cannot hold them: 1979/2 as 1979-2."""
    pieces = [re.escape(piece) for piece in re.split(r"[\W_]+", _nfc(accession)) if piece]
    return r"[\W_]".join(pieces)


def _former_found(number: str, part: str) -> bool:
    escaped = re.escape(number)
    if any(letter.isalpha() for letter in number):
        return _found(escaped, part)
    # Bare figures are in every camera's file names: they count alone, or after a word or sign for "number".
    alone = part.strip() == number
    return alone or re.search(rf"{_MARKED}{escaped}(?![.\-/]?\d)", part, re.IGNORECASE) is not None


def _in_its_years(other: OtherNumber, days: Days | None) -> bool:
    if days is None:
        return True
    first, last = days
    since = other.from_.earliest if other.from_ else None
    until = other.until.latest if other.until else None
    return (since is None or last >= since) and (until is None or first <= until)
