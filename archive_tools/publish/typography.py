"""Apostrophes and quotation marks as a printer sets them, in texts that were typed on a keyboard.

Only what is certain is changed: an apostrophe between letters, and pairs of double quotation marks, in English. Other
languages quote in ways of their own, which the house writes itself.
"""

from __future__ import annotations

import re

_APOSTROPHE = re.compile(r"(?<=\w)'(?=\w)")
_PAIR = re.compile(r'(?<!\w)"([^"\n]+)"(?!\w)')


def set_in_type(text: str, language: str) -> str:
    """`text` with typographic apostrophes and quotation marks, where `language` is English."""
    if language.split("-", maxsplit=1)[0] != "en":
        return text
    return _PAIR.sub(r"“\1”", _APOSTROPHE.sub("’", text))
