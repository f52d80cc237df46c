"""Botanical names as the codes have them set.

Genus, species and infraspecific epithets in italics; ranks, the hybrid sign, authors, and the names of cultivars,
Groups and grexes upright; cultivar epithets in single quotation marks. After the International Code of Nomenclature
for algae, fungi, and plants (Madrid Code 2025 and before it Shenzhen Code 2018, article H.2-H.3 on the hybrid sign)
and the International Code of Nomenclature for Cultivated Plants (9th edition 2016, articles 14 and 16). Italics are
custom recommended by the first code's preface.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from markupsafe import Markup, escape

RANKS = frozenset(
    ("subsp.", "ssp.", "var.", "subvar.", "f.", "subf.", "sect.", "subsect.", "subg.", "ser.",
     "nothosubsp.", "nothovar.", "nothof.", "nothosect.", "sp.", "spp.", "cf.", "aff.", "agg.")
)  # fmt: skip
_SIGNS = {"×": "×", "x": "×", "X": "×", "+": "+"}
_GROUP_WORDS = frozenset({"Group", "grex", "gx", "Gp"})
_AUTHOR_WORDS = frozenset({"ex", "in", "et", "&", "auct.", "non", "sensu", "bis", "fil.", "hort."})
# An apostrophe between letters is part of the epithet (‘Jules d’Asnières’), not its end.
_QUOTED = re.compile(r"(?<!\w)['‘’\"“”]([^'‘’\"“”]+(?:(?<=\w)['’](?=\w)[^'‘’\"“”]*)*)['‘’\"“”](?=\s|\)|,|$)")
_TOKEN = re.compile(r"\0(\d+)\0|\S+")


@dataclass(frozen=True, slots=True)
class NamePart:
    """A stretch of a name. `kind` is "latin" (italic), "rank", "sign", "cultivar" or "upright" (Groups, authors)."""

    text: str
    kind: str


def parts_of(name: str) -> tuple[NamePart, ...]:
    """The name's parts, in order; single spaces between them are understood.

    >>> [(p.text, p.kind) for p in parts_of("Acer palmatum var. amoenum 'Koreanum'")]
    [('Acer palmatum', 'latin'), ('var.', 'rank'), ('amoenum', 'latin'), ('‘Koreanum’', 'cultivar')]
    """
    cultivars: list[str] = []

    def put_aside(match: re.Match[str]) -> str:
        cultivars.append(match.group(1).strip())
        return f"\0{len(cultivars) - 1}\0"

    # "cv." before the quotes is what older lists wrote; the code gives up one or the other, and keeps the quotes.
    text = re.sub(r"\bcv\.\s*(?=\0)", "", _QUOTED.sub(put_aside, " ".join(name.split())))
    text = re.sub(r"(^|\s)([×+])(?=\w)", r"\1\2 ", text)
    tokens = [match.group(0) for match in _TOKEN.finditer(text)]
    parts: list[NamePart] = []
    for at, token in enumerate(tokens):
        kind, said = _sort_of(token, at, tokens, parts)
        if token.startswith("\0"):
            said, kind = f"‘{cultivars[int(token.strip(chr(0)))]}’", "cultivar"
        if parts and parts[-1].kind == kind and kind in {"latin", "upright"}:
            parts[-1] = NamePart(f"{parts[-1].text} {said}", kind)
        else:
            parts.append(NamePart(said, kind))
    return tuple(parts)


def _sort_of(token: str, at: int, tokens: list[str], before: list[NamePart]) -> tuple[str, str]:
    if token in _SIGNS and (token in "×+" or 0 < at < len(tokens) - 1):
        return "sign", _SIGNS[token]
    if token in RANKS:
        # After an author "f." is filius (L. f.), unless an epithet follows it.
        follows = tokens[at + 1] if at + 1 < len(tokens) else ""
        is_filius = token == "f." and before and before[-1].kind == "upright" and not follows[:1].islower()
        return ("upright" if is_filius else "rank"), token
    starts_name = not before or before[-1].kind == "sign"
    if token in _GROUP_WORDS or token in _AUTHOR_WORDS or token.startswith("("):
        return "upright", token
    if token[0].isupper() and not starts_name:
        return "upright", token  # an author, or the name of a Group
    if before and before[-1].kind == "upright" and token.endswith(")"):
        return "upright", token
    return "latin", token


@lru_cache(maxsize=4096)
def markup(name: str, language: str = "en") -> Markup:
    """The name as HTML. `language` is that of the page: cultivar epithets are not Latin and are read in it.

    The hybrid sign before an epithet keeps to it with a space that does not break; in a formula it has plain spaces.
    """
    parts = parts_of(name)
    pieces: list[Markup] = []
    for at, part in enumerate(parts):
        if part.kind == "latin":
            pieces.append(escape(part.text))
        elif part.kind == "cultivar":
            pieces.append(Markup('<b lang="{}">{}</b>').format(language, part.text))
        elif part.kind == "upright":
            pieces.append(Markup('<span class="rank" lang="{}">{}</span>').format(language, part.text))
        else:
            pieces.append(Markup('<span class="rank">{}</span>').format(part.text))
        if at < len(parts) - 1:
            follows = parts[at + 1].text
            binds = part.kind == "sign" and not (at > 0 and follows[0].isupper())
            pieces.append(Markup("&nbsp;") if binds else Markup(" "))
    return Markup('<span class="botanical" lang="la">{}</span>').format(Markup("").join(pieces))


def plain(name: str) -> str:
    """The name as text, with typographic quotation marks and the hybrid sign."""
    return " ".join(part.text for part in parts_of(name))


def genus(name: str) -> str:
    """The genus (or nothogenus) the name begins with, without any sign: "Acer"."""
    for part in parts_of(name):
        if part.kind == "latin":
            return part.text.split()[0]
    return name


def species(name: str) -> str:
    """Genus and species with the hybrid sign, without infraspecific or cultivar parts: the heading a list files it
    under.

    A formula and a name without a species (`Pinus sp.`) are returned whole.
    """
    parts = parts_of(name)
    latin = [part for part in parts if part.kind == "latin"]
    is_formula = any(
        part.kind == "sign" and at > 0 and parts[at + 1].text[0].isupper() for at, part in enumerate(parts)
    )
    if not latin or is_formula:
        return plain(name)
    words = latin[0].text.split()
    if len(words) >= 2:
        return " ".join(words[:2]) if parts[0].kind != "sign" else f"{parts[0].text} " + " ".join(words[:2])
    signs = [at for at, part in enumerate(parts) if part.kind == "sign"]
    if signs and signs[0] == 1 and len(parts) > 2 and parts[2].text[0].islower():
        return f"{words[0]} {parts[1].text} {parts[2].text.split()[0]}"
    return plain(name)
