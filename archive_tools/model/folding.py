"""Text as it is compared when names are looked for, with the way back to where each letter stood.

Put aside are case, accents, Unicode form (compatibility forms too), the kind of dash, of space and of apostrophe,
letters that cannot be seen, and characters written as HTML entities. Line breaks stay line breaks.
"""

from __future__ import annotations

import html
import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

_ENTITY = re.compile(r"&(?:#[0-9]{1,7}|#[xX][0-9a-fA-F]{1,6}|[A-Za-z][A-Za-z0-9]{1,31});")
_VOICED = frozenset("\u3099\u309a")
"""Marks that make another syllable of a Japanese one: か is not が. They are no accents."""

_STROKES = {"ø": "o", "ł": "l", "đ": "d", "ð": "d", "ħ": "h", "ŧ": "t", "ı": "i", "æ": "ae", "œ": "oe", "þ": "th"}
"""Letters whose accent Unicode does not take apart."""

_APOSTROPHES = frozenset("'\u2018\u2019\u02bc\u02b9\u00b4`\uff07\u2032")
_TABLE = str.maketrans({**_STROKES, **dict.fromkeys(_APOSTROPHES, "")})
_DASHES = frozenset("\u2212\u30a0")
"""Signs used as dashes that Unicode does not call dashes."""


@dataclass(frozen=True, slots=True)
class Folded:
    """Folded text; `came_from[i]` is the offset in the original of what became `text[i]`."""

    text: str
    came_from: Sequence[int]


def fold(text: str) -> Folded:
    """Fold `text`."""
    if text.isascii() and "&" not in text:
        return Folded(text.lower(), range(len(text)))
    letters: list[str] = []
    origins: list[int] = []
    offset = 0
    while offset < len(text):
        entity = _ENTITY.match(text, offset) if text[offset] == "&" else None
        written = html.unescape(entity[0]) if entity else text[offset]
        for letter in written:
            for plain in _plain(letter):
                letters.append(plain)
                origins.append(offset)
        offset += len(entity[0]) if entity else 1
    return Folded("".join(letters), tuple(origins))


def letters_of(text: str) -> str:
    """The letters and digits of `text` alone, folded: a fast first look, in which any name of the text stands in a row.

    Whatever `fold` finds equal is equal here; the reverse need not hold.
    """
    if "&" in text:
        text = html.unescape(text)
    if text.isascii():
        text = text.lower()
    else:
        text = unicodedata.normalize("NFKD", unicodedata.normalize("NFKD", text).casefold()).translate(_TABLE)
    return "".join(filter(str.isalnum, text))


@lru_cache(maxsize=4096)
def _plain(letter: str) -> str:
    if letter.isascii():
        return letter.lower()
    if letter in _APOSTROPHES:
        return "'"
    if letter in _DASHES or unicodedata.category(letter) == "Pd":
        return "-"
    if letter in "\u2028\u2029\u0085":
        return "\n"
    if letter.isspace():
        return " "
    if unicodedata.category(letter) in ("Cf", "Cc"):
        # A soft hyphen is one of these: it joins the two halves of a word wherever it stands.
        return ""
    taken_apart = unicodedata.normalize("NFKD", letter).casefold()
    taken_apart = unicodedata.normalize("NFKD", taken_apart)
    return "".join(
        "'" if part in _APOSTROPHES else _STROKES.get(part, part)
        for part in taken_apart
        if part in _VOICED or not unicodedata.combining(part)
    )


def is_unspaced(letter: str) -> bool:
    """Whether a letter of folded text belongs to a script in which nothing marks the ends of a name.

    Chinese and Japanese are written without spaces, and Korean particles stand right behind a name.
    """
    return any(first <= letter <= last for first, last in _UNSPACED)


_UNSPACED = (
    ("\u1100", "\u11ff"),  # Hangul, taken apart
    ("\u2e80", "\u2fdf"),  # radicals
    ("\u3005", "\u3007"),  # 々〆〇
    ("\u3040", "\u30ff"),  # kana
    ("\u3400", "\u9fff"),  # Han
    ("\uac00", "\ud7ff"),  # Hangul
    ("\U00020000", "\U0003ffff"),  # Han, further planes
)
