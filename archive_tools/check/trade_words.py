"""Words of the trade that a visitor cannot be expected to know, each with plain words for it.

Common practice, no source. Words that a dictionary for everybody explains (bonsai, prune, graft) are not among them.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from archive_tools.model.collection import Collection
from archive_tools.model.folding import fold

TRADE_WORDS: Mapping[str, str] = {
    "accent planting": "small plant beside it",
    "air layer": "a branch made to root while on the tree",
    "air-layered": "made to root while on the tree",
    "akadama": "baked clay soil",
    "back budding": "new buds on old wood",
    "backbudding": "new buds on old wood",
    "bunjin": "literati",
    "callus": "healing bark",
    "cambium": "living layer under the bark",
    "candle cutting": "cutting back the new shoots",
    "chokkan": "formal upright",
    "clip-and-grow": "shaped by cutting alone",
    "daiki": "first pot",
    "decandled": "with its new shoots cut",
    "defoliated": "stripped of its leaves",
    "fukinagashi": "windswept",
    "guy wire": "wire that pulls a branch down",
    "han-kengai": "semi-cascade",
    "hokidachi": "broom",
    "ibuki": "Chinese juniper",
    "ikadabuki": "raft",
    "internode": "space between two leaves",
    "ishizuki": "planted on rock",
    "jin": "bare dead branch",
    "kabudachi": "clump",
    "kanuma": "light acid soil",
    "kengai": "cascade",
    "kuromatsu": "black pine",
    "mame": "very small tree",
    "mochikomi": "long years in a pot",
    "moyogi": "informal upright",
    "nebari": "roots at the surface",
    "pot-bound": "with roots filling the pot",
    "ramification": "fine branching",
    "root over rock": "with its roots grown over a stone",
    "sabamiki": "hollow trunk",
    "sacrifice branch": "branch left long to thicken the trunk",
    "sekijoju": "root over rock",
    "shakan": "slanting",
    "shanshui": "landscape penjing",
    "shari": "bare dead wood on the trunk",
    "sharimiki": "driftwood",
    "shitakusa": "small plant beside it",
    "shohin": "small tree",
    "shuihan": "water-and-land penjing",
    "shumu": "tree penjing",
    "sokan": "twin trunk",
    "suiban": "shallow tray",
    "tachiagari": "lowest part of the trunk",
    "tokonoma": "alcove for display",
    "uro": "hollow in the trunk",
    "yamadori": "tree collected from the wild",
    "yose-ue": "forest",
}


def unexplained(text: str, explained: Iterable[str]) -> tuple[tuple[str, str], ...]:
    """(the word as it stands, plain words for it) of every word of the trade in `text` that is not `explained`.

    A word that the text itself explains, in brackets right after it, is no stranger to its readers.
    """
    known = {fold(term).text for term in explained}
    found: list[tuple[int, str, str]] = []
    for term, plain in TRADE_WORDS.items():
        if fold(term).text in known:
            continue
        match = re.search(rf"(?<!\w){re.escape(term)}s?(?!\w)(?!\s*\()", text, re.IGNORECASE)
        if match is not None:
            found.append((match.start(), match[0], plain))
    return tuple((word, plain) for _, word, plain in sorted(found))


def glossary_terms(collection: Collection) -> tuple[str, ...]:
    """The words that the house's own glossary explains: the terms of its definition lists, and words set in italics
    beside them.
    """
    terms: list[str] = []
    for page in collection.pages:
        if page.path.rsplit("/", maxsplit=1)[-1] != "glossary.md":
            continue
        lines = page.body.split("\n")
        for line, following in zip(lines, [*lines[1:], ""], strict=True):
            if following.startswith(":") and line.strip():
                terms.append(line.strip())
                terms += re.findall(r"(?<!\*)\*([^*]+)\*", following.split(".", maxsplit=1)[0])
    return tuple(terms)
