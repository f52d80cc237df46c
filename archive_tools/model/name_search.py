"""How a name is looked for in a text: as whole words, however they are spelled, broken or marked up.

Both the check of the curator's texts and the last look at the finished pages search by these patterns.
"""

from __future__ import annotations

import re

from archive_tools.model.folding import fold, is_unspaced
from archive_tools.model.people import Steward

_BREAK = r"(?:-[ \t]*\r?\n[\s>]*)?"
"""A word may be broken by a hyphen at the end of a line, and go on in the next (or in the next line of a quotation)."""

TAG = re.compile(r"<[^<>]{0,99}>|%20")
_BETWEEN = rf"(?:[\s\-_*~\\>|]|{TAG.pattern})+"
"""What may stand between two parts of a name: spaces, dashes, line breaks, and the signs of Markdown and HTML."""

_IN_UNSPACED = r"[\s\u30fb\u00b7]*"
"""Names in Chinese and Japanese are written with a space, a middle dot or nothing between their parts."""


def names_of(steward: Steward) -> tuple[str, ...]:
    """Everything a steward is called."""
    filed = (steward.sort_name,) if steward.sort_name else ()
    return (*steward.name.all_texts, *(name for _, name in steward.names), *steward.aliases, *filed)


def fold_name(name: str) -> str:
    """A name as it is looked for."""
    return " ".join(fold(name).text.split())


def name_pattern(name: str) -> re.Pattern[str] | None:
    """What finds a folded name in folded text; None for a name of one letter, which cannot be looked for."""
    if sum(1 for letter in name if letter.isalnum()) < 2:
        return None
    parts: list[str] = []
    for index, letter in enumerate(name):
        previous = name[index - 1] if index else ""
        if letter in " -":
            # "C. V." is also written "C.V."
            parts.append(_BETWEEN if previous not in ".,-" else r"[\s\-_*~]*")
            continue
        if previous and previous not in " -":
            unspaced = is_unspaced(letter) and is_unspaced(previous)
            parts.append(_IN_UNSPACED if unspaced else _BREAK if letter.isalnum() and previous.isalnum() else "")
        parts.append(re.escape(letter))
    before = "" if is_unspaced(name[0]) or not name[0].isalnum() else r"(?<![^\W_])"
    after = "" if is_unspaced(name[-1]) or not name[-1].isalnum() else r"(?![^\W_])"
    if after and " " in name:
        # A genitive without an apostrophe, as several languages write it.
        after = r"s?" + after
    return re.compile(before + "".join(parts) + after)


def part_of_longer(text: str, start: int, end: int, allowed: list[str]) -> bool:
    """Whether the words found are only a part of the longer name of somebody who may be named."""
    found = " ".join(text[start:end].split())
    for name in allowed:
        if len(name) <= len(found) or found not in name:
            continue
        pattern = name_pattern(name)
        around = text[max(0, start - len(name) - 20) : end + len(name) + 20]
        offset = start - max(0, start - len(name) - 20)
        if pattern is not None and any(
            match.start() <= offset and match.end() >= offset + (end - start) for match in pattern.finditer(around)
        ):
            return True
    return False
