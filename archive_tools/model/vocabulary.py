"""The words a record may use for its own values, and the nearest one to a word that is not among them.

Terms of styles, penjing classes and work are the trade's (common practice, no single source); the rest are plain words
of this format. Kinds of event have a table of their own in `archive_tools.model.kinds`.
"""

from __future__ import annotations

import difflib
import unicodedata
from collections.abc import Iterable, Mapping

from archive_tools.model.grades import Grade

STYLES: Mapping[str, str | None] = {
    "formal upright": "chokkan",
    "informal upright": "moyogi",
    "slanting": "shakan",
    "semi-cascade": "han-kengai",
    "cascade": "kengai",
    "literati": "bunjin",
    "windswept": "fukinagashi",
    "broom": "hokidachi",
    "weeping": None,
    "twisted trunk": None,
    "twin trunk": "sokan",
    "triple trunk": None,
    "multi-trunk": None,
    "clump": "kabudachi",
    "raft": "ikadabuki",
    "sinuous raft": None,
    "forest": "yose-ue",
    "root over rock": "sekijoju",
    "planted on rock": "ishizuki",
    "exposed root": None,
    "driftwood": "sharimiki",
    "split trunk": None,
}
"""Style terms (`form`), each with the Japanese word where visitors meet it."""

PENJING_CLASSES: Mapping[str, str] = {"tree": "shumu", "landscape": "shanshui", "water-and-land": "shuihan"}
"""Classes of penjing (`penjing_class`), apart from style, each with the Chinese word."""

HAZARDS = ("sharp", "irritant sap", "poisonous if eaten", "heavy")

PHOTO_VIEWS = ("front", "back", "left", "right", "top", "detail")
"""Sides of the tree, by the front of the day on which the photograph was taken."""

DATED_BY: Mapping[str, Grade] = {
    "print": Grade.DOCUMENTED,
    "lab stamp": Grade.DOCUMENTED,
    "negative sleeve": Grade.DOCUMENTED,
    "caption on back": Grade.DOCUMENTED,
    "camera": Grade.DOCUMENTED,
    "publication": Grade.DOCUMENTED,
    "postmark": Grade.DOCUMENTED,
    "what it shows": Grade.INFERRED,
    "estimate": Grade.INFERRED,
    "scan": Grade.UNSOURCED,
    "file name": Grade.UNSOURCED,
}
"""How a photograph came by its date, each with the grade it gives where no source is cited."""

SOURCE_KINDS = (
    "ledger",
    "diary",
    "bench card",
    "letter",
    "receipt",
    "permit",
    "tag",
    "photograph",
    "film",
    "publication",
    "catalogue",
    "label",
    "interview",
    "recollection",
    "recording",
    "survey",
)

KEPT_AT_THE_TIME = frozenset({"ledger", "diary", "bench card", "receipt", "permit", "tag", "photograph"})
"""Kinds of source that are taken as made at the time when they bear no date."""

TOLD_AFTERWARDS = frozenset({"interview", "recollection"})
"""Kinds of source that are never more than `reported`, whatever their date."""

TRADITIONS = ("bonsai", "penjing", "other")
TREE_KINDS = ("single", "planting")
STEWARD_KINDS = ("person", "couple", "family", "estate", "nursery", "club", "institution", "unknown")
OBJECT_KINDS = ("pot", "tray", "stand", "stone", "scroll", "accent")
SENSITIVITIES = ("none", "low", "medium", "high", "extreme")
OPEN_TO = ("public", "staff")
AUDIENCES = ("public", "staff")
HEMISPHERES = ("north", "south")
SURE = ("yes", "probably", "no")
CONSENT = ("yes", "no", "unknown")
SHOWS = ("trained", "container")
RINGS_OF = ("base", "trunk", "branch", "stump")
CLOCK_HOURS = tuple(str(hour) for hour in range(1, 13))
DEFAULTS = (
    "trees",
    "events",
    "notes",
    "photographs",
    "documents",
    "stewards",
    "sources",
    "objects",
    "places",
    "tours",
    "talks",
)
"""What `defaults` in collection.yml may set the visibility of."""


def folded(text: str) -> str:
    """`text` as it is compared: one Unicode form, no case, no accents, one kind of dash and of space."""
    plain = unicodedata.normalize("NFKD", text).casefold()
    plain = "".join(letter for letter in plain if not unicodedata.combining(letter))
    plain = "".join("-" if unicodedata.category(letter) == "Pd" else letter for letter in plain)
    return " ".join(plain.split())


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word that `word` is most likely a slip for, or None where nothing is near enough to suggest.

    A word that differs only in case, accents, dashes or spaces is always near enough; the first of equals wins.
    """
    by_folded: dict[str, str] = {}
    for candidate in known:
        by_folded.setdefault(_key(candidate), candidate)
    found = difflib.get_close_matches(_key(word), list(by_folded), n=1, cutoff=0.6)
    return by_folded[found[0]] if found else None


def _key(word: str) -> str:
    return folded(word).replace("-", " ").replace("_", " ")


def style_meant(word: str) -> str | None:
    """The style term that the Japanese word `word` stands for, if it is one."""
    return _meant(word, STYLES)


def penjing_class_meant(word: str) -> str | None:
    """The penjing class that the Chinese word `word` stands for, if it is one."""
    return _meant(word, PENJING_CLASSES)


def _meant(word: str, table: Mapping[str, str | None] | Mapping[str, str]) -> str | None:
    wanted = _key(word)
    return next((term for term, native in table.items() if native is not None and _key(native) == wanted), None)
