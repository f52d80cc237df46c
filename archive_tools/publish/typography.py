"""Apostrophes and quotation marks as a printer sets them, in texts that were typed on a keyboard.

Only what is certain is changed: an apostrophe between letters, and pairs of double quotation marks, in English. Other
languages quote in ways of their own, which the house writes itself.
"""

from __future__ import annotations

import re

_APOSTROPHE = re.compile(r"(?<=\w)'(?=\w)")
_SPAN_OF_YEARS = re.compile(r"(?<![0-9-])([0-9]{1,4})-([0-9]{1,4})(?![0-9-])")
_PAIR = re.compile(r'(?<!\w)"([^"\n]+)"(?!\w)')


def set_in_type(text: str, language: str) -> str:
    """`text` with typographic apostrophes and quotation marks, where `language` is English."""
    if language.split("-", maxsplit=1)[0] != "en":
        return text
    return _PAIR.sub(r"“\1”", _APOSTROPHE.sub("’", text))


def years_in_type(text: str) -> str:
    """`text` with the dash that a printer sets between years: "1953–1955". A day, "1953-04-14", stays as it is."""
    return _SPAN_OF_YEARS.sub("\\1–\\2", text)
