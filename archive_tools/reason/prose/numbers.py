"""Numbers as people write them in English: 60, sixty, three score, a dozen, half a century, the sixty-first."""

from __future__ import annotations

import re

_UNITS = {
    word: value
    for value, word in enumerate(
        [
            "zero",
            "one",
            "two",
            "three",
            "four",
            "five",
            "six",
            "seven",
            "eight",
            "nine",
            "ten",
            "eleven",
            "twelve",
            "thirteen",
            "fourteen",
            "fifteen",
            "sixteen",
            "seventeen",
            "eighteen",
            "nineteen",
        ]
    )
}
_TENS = {
    word: 10 * value
    for value, word in enumerate(["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"], 2)
}
_ORDINALS = {
    "first": 1, "second": 2, "third": 3, "fifth": 5, "eighth": 8, "ninth": 9, "twelfth": 12,
    **{f"{word}th": value for word, value in _UNITS.items() if value not in (1, 2, 3, 5, 8, 9, 12)},
    **{f"{word[:-1]}ieth": value for word, value in _TENS.items()},
    "hundredth": 100,
}  # fmt: skip
_SPANS = {
    "half a century": 50, "a half century": 50, "half century": 50, "a quarter of a century": 25, "quarter of a century": 25,
    "a quarter century": 25, "quarter century": 25, "three quarters of a century": 75, "a century and a half": 150,
    "a century and a quarter": 125, "a century": 100, "one century": 100, "two centuries": 200, "three centuries": 300,
    "a decade": 10, "one decade": 10, "two decades": 20, "three decades": 30, "four decades": 40, "five decades": 50,
    "six decades": 60, "seven decades": 70, "eight decades": 80, "nine decades": 90, "ten decades": 100,
    "half a decade": 5, "a millennium": 1000,
}  # fmt: skip

TENS_WORD = "|".join(_TENS)
"""The tens from twenty to ninety, as a pattern without groups."""
_UNIT_WORD = "|".join(sorted(_UNITS, key=len, reverse=True))
_SMALL = rf"(?:(?:{TENS_WORD})(?:[- ](?:{_UNIT_WORD}))?|(?:{_UNIT_WORD}))"
_WORDS = rf"(?:(?:(?:{_SMALL}|a)[- ])?thousand|(?:{_SMALL}|a)[- ]hundred(?:[- ](?:and[- ])?{_SMALL})?|{_SMALL}[- ]score(?: and {_SMALL})?|{_SMALL} dozen|a dozen|a score|hundred(?=-year)|{_SMALL})"

NUMBER = rf"(?:\d{{1,4}}|{_WORDS})"
"""A cardinal number in figures or words, as a pattern without groups."""

SPAN = "|".join(sorted((words.replace(" ", "[- ]") for words in _SPANS), key=len, reverse=True))
"""A length of years that needs no word "years", as a pattern without groups."""

ORDINAL = rf"(?:\d{{1,3}}(?:st|nd|rd|th)|(?:(?:{TENS_WORD})-)?(?:{'|'.join(sorted(_ORDINALS, key=len, reverse=True))}))"
"""An ordinal number in figures or words, as a pattern without groups."""

DECADE_NAMES = {
    "twenties": 20, "thirties": 30, "forties": 40, "fifties": 50, "sixties": 60, "seventies": 70, "eighties": 80,
    "nineties": 90,
}  # fmt: skip


def number_value(words: str) -> int | None:
    """The value of what `NUMBER` or `SPAN` matched."""
    text = re.sub(r"\s+", " ", words.casefold().strip())
    if text.isdigit():
        return int(text)
    if (span := text.replace("-", " ")) in _SPANS:
        return _SPANS[span]
    if text.endswith("thousand"):
        thousands = text.removesuffix("thousand").strip(" -")
        return 1000 * (1 if thousands in ("", "a") else number_value(thousands) or 1)
    if text in ("a dozen", "a score"):
        return 12 if text.endswith("dozen") else 20
    scores = re.match(r"(.+?)[- ]score and (.+)$", text)
    if scores:
        many, rest = number_value(scores[1]), number_value(scores[2])
        return None if many is None or rest is None else 20 * many + rest
    if text == "hundred":
        return 100
    for unit, times in ((" dozen", 12), (" score", 20), ("-score", 20)):
        if text.endswith(unit):
            small = number_value(text[: -len(unit)])
            return None if small is None else small * times
    hundreds = re.match(r"(.*?)[- ]hundred(?:[- ](?:and[- ])?(.+))?$", text)
    if hundreds:
        many = 1 if hundreds[1] in ("a", "one") else number_value(hundreds[1])
        rest = number_value(hundreds[2]) if hundreds[2] else 0
        return None if many is None or rest is None else 100 * many + rest
    tens, _, unit_word = text.replace("-", " ").partition(" ")
    if tens in _TENS:
        return _TENS[tens] + (_UNITS.get(unit_word, 0) if unit_word else 0)
    return _UNITS.get(text)


def ordinal_value(words: str) -> int | None:
    """The value of what `ORDINAL` matched."""
    text = words.casefold()
    figures = re.match(r"\d+", text)
    if figures:
        return int(figures[0])
    tens, _, last = text.rpartition("-")
    value = _ORDINALS.get(last)
    return None if value is None else _TENS.get(tens, 0) + value
