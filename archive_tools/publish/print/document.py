"""A document to be set in type, and the pieces of markup it is put together from.

The markup is Typst's. No text of a record ever stands in it as markup: it goes through `text`, which writes it as a
string, so that `#`, `*`, `$`, `_`, quotation marks and dashes come out as they were typed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date

from archive_tools.model.places_in_files import Mark
from archive_tools.publish.botanical_names import parts_of
from archive_tools.publish.print.style import HouseStyle, prelude

Markup = str
"""Typst markup that may be joined with `+` and put into brackets."""

_CJK = re.compile(
    "[\u1100-\u11ff\u2e80-\u9fff\ua960-\ua97f\uac00-\ud7ff\uf900-\ufaff\ufe30-\ufe4f\uff00-\uffef\U00020000-\U0003ffff]"
)


@dataclass(frozen=True, slots=True)
class Told:
    """A text that is printed, and where it is written: what a message about one of its characters points at."""

    text: str
    mark: Mark


@dataclass(frozen=True, slots=True)
class Printed:
    """A document ready to be set in type.

    source: the whole markup. files: what it shows, by the name it uses. told: the texts in it that come from files of
    the collection. day: the day the document bears as its own, so that the same records give the same bytes.
    """

    source: str
    files: Mapping[str, bytes] = field(default_factory=dict)
    told: tuple[Told, ...] = ()
    day: date = date(2000, 1, 1)


def printed(
    body: Markup,
    *,
    title: str,
    language: str,
    style: HouseStyle,
    day: date,
    author: str = "",
    files: Mapping[str, bytes] | None = None,
    told: Iterable[Told] = (),
) -> Printed:
    """A document of the house: `body` after the house's style. title, author: what the reader's program shows."""
    head = f"#set document(title: {string(title)}, author: {string(author)}, date: auto)\n"
    return Printed(prelude(style, language) + head + body + "\n", dict(files or {}), tuple(told), day)


def string(value: str) -> str:
    """`value` as a string of the markup's code: whatever it holds comes out as itself."""
    escaped = value.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(letter if letter.isprintable() else f"\\u{{{ord(letter):x}}}" for letter in escaped) + '"'


def text(value: str, language: str = "") -> Markup:
    """`value` as text. language (BCP 47): that of the text, where it is not the document's own.

    The language decides how lines break, how a screen reader speaks it, and which forms Chinese characters take.
    """
    return f"#{string(value)};" if not language else f"#said({string(language)})[#{string(value)};]"


def botanical(name: str) -> Markup:
    """A botanical name set by the codes: epithets in italics, ranks, signs, Groups and cultivars upright."""
    parts = parts_of(name)
    pieces: list[Markup] = []
    for at, part in enumerate(parts):
        pieces.append(f"#latin[{text(part.text)}]" if part.kind == "latin" else text(part.text))
        if at < len(parts) - 1:
            binds = part.kind == "sign" and not (at > 0 and parts[at + 1].text[0].isupper())
            pieces.append(text("\u00a0" if binds else " "))
    return "".join(pieces)


def has_cjk(value: str) -> bool:
    """Whether a text has letters of Chinese, Japanese or Korean, which need a font of their own."""
    return _CJK.search(value) is not None


def mm(length: float) -> str:
    """A length in millimetres."""
    return f"{length:.4f}".rstrip("0").rstrip(".") + "mm"


def pt(length: float) -> str:
    """A length in points of 1/72 inch."""
    return f"{length:.4f}".rstrip("0").rstrip(".") + "pt"
