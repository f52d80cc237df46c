"""The ways in which English says that something of a tree began or is so old, as patterns by milestone."""

from __future__ import annotations

import re
from functools import cache

from archive_tools.model.grades import Milestone
from archive_tools.reason.prose.numbers import NUMBER, ORDINAL, SPAN
from archive_tools.reason.prose.years import WHEN

FLAGS = re.IGNORECASE | re.VERBOSE


def _spaced(pattern: str) -> str:
    """A plain pattern made ready to stand in a verbose one."""
    return pattern.replace(" ", r"\ ")


_BOUND = _spaced(
    r"(?:well over|over|more than|upwards of|in excess of|beyond|at least|no less than|not less than|no fewer than|almost|nearly|"
    r"close to|close on|not quite|just under|getting on for|going on|approaching|all but|about|around|some|roughly|approximately|"
    r"circa|c\.|perhaps|maybe|at most|no more than|not more than|up to|less than|under|fewer than)"
)
_LENGTH = rf"""(?:then\s+)?(?:(?P<bound>{_BOUND})\s+)?(?:(?:the\s+(?:last|past)|these|its|a\ full|full)\s+)?
    (?:(?P<number>{_spaced(NUMBER)})(?:\s?(?:to|or|-|–)\s?(?P<number2>{_spaced(NUMBER)}))?[-\s]+years?(?!['’]?\s*(?:of\ nursery|ago))|(?P<span>{SPAN}))
    (?P<orso>\s+or\s+so)?"""
_AGO = _LENGTH.replace(r"|ago))", "))").replace("(?!['’]?\\s*(?:of\\ nursery))", "") + r"\s+ago"

_TRAINING = _spaced(
    r"(?:in (?:\w+ )?training|trained|under training|training behind it|as an? (?:bonsai|penjing)|in cultivation|cultivated|"
    r"under care|in care|cared for|tended as a (?:bonsai|penjing)|training(?= (?:since|from|for)\b)|"
    r"an? (?:bonsai|penjing)(?= (?:since|from|for)\b))"
)
_POT = _spaced(
    r"(?:in an? (?:\w+ )?(?:pot|container|tray|box|training box)|in (?:pots|containers|trays|its first pot|the pot\b(?! that)|pot culture))"
)
_HERE = _spaced(
    r"(?:here|with us|among us|in our (?:collection|care|keeping|garden|house)|in (?:the|this) (?:collection|garden|house)|"
    r"at the (?:house|garden|terraces|collection))"
)
PLACES = {Milestone.CARE: _TRAINING, Milestone.CONTAINER: _POT, Milestone.ARRIVAL: _HERE}

_CAME = _spaced(
    r"(?:came to (?:us|the (?:house|garden|collection|terraces))|came here|arrived (?:here|with us)|joined (?:us|the (?:collection|house|garden))|"
    r"reached us|entered the (?:collection|house|garden)|came into (?:our|the) (?:collection|care|hands|house)|given to (?:us|the (?:house|garden|"
    r"collection))|gave it to (?:us|the (?:house|garden|collection))|bequeathed to us|left to us|acquired(?: by us| by the house)?|"
    r"(?:we|the house) (?:bought|acquired|received) (?:it|the tree)|been ours)"
)
_ORIGIN = _spaced(
    r"(?:(?:seed )?sown|germinated|sprouted|came up|struck(?! (?:by|down|off|with|out)\b)|rooted|(?:layer )?severed|raised from (?:seed|a cutting|a layer)|grown from "
    r"(?:seed|a cutting|a layer)|a (?:cutting|seedling|layer) (?:of|from|taken in|made in)|cutting taken|began life|started life|was born|"
    r"began (?:as|its life as) an? (?:seed|seedling|cutting|layer)|growing|the (?:seed|cutting) (?:dates|is))"
)
_CARE_ACT = _spaced(
    r"(?:collected|dug(?: up| out)?|taken from the (?:wild|hills?|mountains?|coast|ledge)|planted together|assembled|put together|"
    r"training (?:began|begun|started)|began (?:its )?training|first (?:trained|wired|styled|shaped)|(?:began|started) to (?:train|shape) it)"
)
_POT_ACT = _spaced(
    r"(?:(?<!re)potted|put (?:in|into) (?:a|its first) (?:pot|tray|box|container)|went into (?:a|its first) (?:pot|tray|box|container)|first pot(?:ted)?|"
    r"put in a pot|moved into its first pot|was it put in(?:to)? a (?:pot|tray))"
)
_HAD = _spaced(
    r"(?:we|the (?:house|garden|collection)) (?:have|has) (?:had|kept|held|owned|looked after|cared for) (?:it|the \w+|this \w+)"
)
_GAP = r"(?:(?!\b(?:but|second|third|again|present|new|current)\b)[\w’'()-]+[\s,]+){0,5}?"
_NEAR = r"(?:(?!\b(?:for|after|before|until|but|again)\b)[\w’'-]+\s+){0,4}?"


def _compile(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern, FLAGS)


@cache
def beginnings() -> list[tuple[Milestone, re.Pattern[str]]]:
    """(milestone, pattern): when something began. Compiled when first asked for: it takes half a second."""
    rows: list[tuple[Milestone, re.Pattern[str]]] = []
    for milestone, place in PLACES.items():
        rows += [
            (milestone, _compile(rf"\b{place}(?:\s+|,\s+){_GAP}(?:ever\s+)?(?:since|from)\s+{WHEN}")),
            (
                milestone,
                _compile(rf"\b(?:since|from)\s+{WHEN}(?:\s+on(?:wards)?)?,?\s+{_GAP}\b{place}\b(?!\s+(?:since|from))"),
            ),
            (milestone, _compile(rf"\b{place}\s+(?:already\s+)?(?=(?:by|before)\b){WHEN}")),
            (milestone, _compile(rf"\b(?P<already>already)\s+{place}\s+(?:in|on|by)\s+{WHEN}")),
            (
                milestone,
                _compile(rf"\b(?:in|by)\s+{WHEN},?\s+(?:it|the\s+\w+)\s+was\s+(?P<already>already)\s+{_NEAR}{place}\b"),
            ),
        ]
    rows.append((Milestone.ARRIVAL, _compile(rf"\barrived\s+(?:(?:in|on)\s+)?{WHEN}")))
    rows.append((Milestone.ARRIVAL, _compile(rf"\b{_HAD}\s+(?:since|from)\s+{WHEN}")))
    for milestone, act in (
        (Milestone.ORIGIN, _ORIGIN),
        (Milestone.CARE, _CARE_ACT),
        (Milestone.CONTAINER, _POT_ACT),
        (Milestone.ARRIVAL, _CAME),
    ):
        rows += [
            (milestone, _compile(rf"\b{act}(?:\s+|,\s+)(?:{_NEAR}(?:in|on|since|from|during|of)\s+)?{WHEN}")),
            (milestone, _compile(rf"\b(?:not\s+until|until|in|on|since)\s+{WHEN},?\s+{_NEAR}{act}\b")),
            (milestone, _compile(rf"\b{act}\s+{_NEAR}{_AGO}")),
            (milestone, _compile(rf"\b{_AGO},?\s+{_NEAR}{act}\b")),
        ]
    return rows


@cache
def ages() -> list[tuple[Milestone, re.Pattern[str]]]:
    """(milestone, pattern): how long something has lasted."""
    rows: list[tuple[Milestone, re.Pattern[str]]] = []
    for milestone, place in PLACES.items():
        rows += [
            (milestone, _compile(rf"\b{place}\s+{_GAP}(?:for\s+(?:now\s+)?|(?=these\s)){_LENGTH}")),
            (milestone, _compile(rf"\bfor\s+{_LENGTH},?\s+{_NEAR}{place}\b")),
            (milestone, _compile(rf"\b{_LENGTH}\s+(?:old\s+)?(?:now\s+)?{place}\b")),
            (
                milestone,
                _compile(
                    rf"\bin\s+its\s+(?P<ordinal>{_spaced(ORDINAL)})\s+year\s+(?:of\s+|in\s+)?(?:training|cultivation|{place})\b"
                ),
            )
            if milestone is Milestone.CARE
            else (milestone, _compile(rf"\bin\s+its\s+(?P<ordinal>{_spaced(ORDINAL)})\s+year\s+{place}\b")),
        ]
    rows += [
        (Milestone.CARE, _compile(rf"\b{_LENGTH}\s+of\s+(?:\w+\s+)?(?:training|care|cultivation|shaping)\b")),
        (Milestone.CARE, _compile(rf"\b(?:\w+\s+)?(?:training|shaping)\s+of\s+{_LENGTH}")),
        (Milestone.ORIGIN, _compile(rf"\b{_LENGTH}(?:\s+|-)old\b")),
        (Milestone.ORIGIN, _compile(rf"\b{_LENGTH}\s+of\s+age\b")),
        (Milestone.ORIGIN, _compile(rf"\bage\s+(?:of\s+(?:the|this)\s+\w+\s+)?(?:is|was|of|at)\s+{_LENGTH}")),
        (Milestone.ARRIVAL, _compile(rf"\b{_HAD}\s+for\s+{_LENGTH}")),
        (
            Milestone.ORIGIN,
            _compile(
                r"\b(?P<centuries>centuries|(?:several\s+)?hundreds?\s+of\s+years|several\s+hundred\s+years)[\s-]+old\b"
            ),
        ),
        (
            Milestone.ORIGIN,
            _compile(rf"\baged\s+(?:(?P<bound>{_BOUND})\s+)?(?P<number>{_spaced(NUMBER)})(?P<number2>(?!))?\b"),
        ),
        (Milestone.ORIGIN, _compile(rf"\b(?:tree|pine|elm|maple|juniper)\s+of\s+{_LENGTH}(?!\s+of)")),
        (
            Milestone.ORIGIN,
            _compile(rf"\bin\s+its\s+(?P<ordinal>{_spaced(ORDINAL)})\s+year\b(?!\s+(?:of|in|here|with))"),
        ),
    ]
    return rows


@cache
def went_back() -> re.Pattern[str]:
    """Something already spoken of goes back to a time."""
    return _compile(
        rf"\b(?:(?:goes|go|went|going)\s+back|dates?(?:\s+back)?|dating(?:\s+back)?)\s+(?:to|from)\s+{WHEN}"
    )
