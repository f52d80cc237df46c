"""The sorts of value a key may take: text and names, lists of them, and words from a fixed list.

Every value arrives as text (or a list or mapping of text). A validator here says in plain words what is
wrong and, where it can, what to write instead; `archive_tools.read.validation` finds the place.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Annotated, Any, LiteralString, cast

from pydantic import BaseModel, BeforeValidator, ConfigDict, PlainValidator, ValidationInfo
from pydantic_core import PydanticCustomError

from archive_tools.model.dates import DatePolicy
from archive_tools.model.grades import Grade, Milestone, Visibility
from archive_tools.model.kinds import KINDS
from archive_tools.model.vocabulary import HAZARDS, STYLES, nearest, penjing_class_meant, style_meant
from archive_tools.model.words import Words


@dataclass(frozen=True, slots=True)
class House:
    """What of the collection's own settings the reading of any record needs."""

    policy: DatePolicy = field(default_factory=DatePolicy)
    styles: frozenset[str] = frozenset(STYLES)
    hazards: frozenset[str] = frozenset(HAZARDS)
    is_accession: Callable[[str], bool] = lambda _: False


class Record(BaseModel):
    """What is written under fixed keys. A key it does not know is an error."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    def written(self) -> dict[str, Any]:
        """The values that are written, by the names the model gives them."""
        values = self.__dict__
        return {name: values[name] for name in self.model_fields_set if values[name] is not None}


def house_in(info: ValidationInfo) -> House:
    """The house whose record is being validated."""
    return cast(House, info.context)


def wrong(rule: LiteralString, what: str, instead: str | None = None) -> PydanticCustomError:
    """A value that cannot be used: what is wrong, and what to write instead."""
    return PydanticCustomError(rule, "{what}", {"what": what, "instead": instead})


def text_of(value: Any, noun: str = "text") -> str:
    """`value` as text without white space round it. Raises for a list, a mapping, or nothing."""
    if type(value) is str:
        stripped = value.strip()
        if stripped:
            return stripped
    if value is None or value == "":
        raise wrong("missing-value", f"nothing is written here, and {noun} is expected")
    if isinstance(value, str):
        raise wrong("missing-value", f"only white space is written here, and {noun} is expected")
    raise wrong("bad-value", f"this is {shape_of(value)}, and {noun} is expected", as_written(value))


def shape_of(value: Any) -> str:
    """What a list or mapping is called in a message."""
    return "a list" if isinstance(value, list) else "a set of keys and values"


def as_written(value: Any) -> str | None:
    """A short list or mapping of plain values as it was probably written, in quotes, for advice."""
    inner = _rewritten(value)
    return f'"{inner}"' if inner and len(inner) <= 60 and '"' not in inner and isinstance(value, list | dict) else None


def _rewritten(value: Any) -> str | None:
    if isinstance(value, str):
        return value
    if isinstance(value, list):
        items = [_rewritten(item) for item in value]
        return f"[{','.join(item or '' for item in items)}]" if items and all(items) else None
    if isinstance(value, dict) and value and all(item is None for item in value.values()):
        return f"{{{','.join(value)}}}"
    return None


def as_list(value: Any) -> Any:
    """Where a key takes a list, one value may stand alone."""
    return value if isinstance(value, list) or value is None else [value]


def _words(value: Any) -> Words:
    if not isinstance(value, dict):
        return Words.plain(text_of(value))
    if not value:
        raise wrong("missing-value", "nothing is written between these braces, and text is expected")
    for language in value:
        if not LANGUAGE.fullmatch(language):
            what = f"`{language}` is no language, and this text is written as {{language: text}}"
            quoted = as_written(value)
            raise wrong("bad-language", what, quoted or "a language such as en, ja or zh-Hant, or the text alone")
    return Words(tuple((language, text_of(text)) for language, text in value.items()))


LANGUAGE = re.compile(
    r"[A-Za-z]{2,3}(?:-[A-Za-z]{4})?(?:-(?:[A-Za-z]{2}|[0-9]{3}))?(?:-[A-Za-z0-9]{5,8}|-[0-9][A-Za-z0-9]{3})*"
)
"""The parts of a language tag (BCP 47, RFC 5646 section 2.1) that a text may bear."""

_ID_REFUSED = re.compile(r"[#/\\\[\]{}|<>\"\x00-\x1f]")


def _id(value: Any) -> str:
    text = text_of(value, "an id")
    found = _ID_REFUSED.search(text)
    if found:
        raise wrong("bad-id", f"an id cannot hold {found[0]}", _ID_REFUSED.sub("-", text))
    return text


def _link(value: Any) -> str:
    text = text_of(value, "an address")
    if not re.fullmatch(r"https?://[^\s<>\"\\]+", text):
        raise wrong("bad-address", f"“{shown(text)}” is no address of the web", "an address that begins with https://")
    return text


def _yes_or_no(value: Any) -> bool:
    text = text_of(value, "true or false")
    if text in _TRUE:
        return True
    if text in _FALSE:
        return False
    meant = "true" if text.casefold() in _TRUE else "false" if text.casefold() in _FALSE else "true or false"
    raise wrong("bad-value", f"“{shown(text)}” is neither true nor false", meant)


_TRUE = frozenset({"true", "yes"})
_FALSE = frozenset({"false", "no"})


def shown(text: str) -> str:
    """`text` short enough for a message, on one line."""
    plain = " ".join(text.split())
    return plain if len(plain) <= 60 else plain[:57] + "…"


def listed(terms: Iterable[str]) -> str:
    """Terms for a message: "a, b or c"."""
    names = list(terms)
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} or {names[-1]}"


def word_of(value: Any, terms: Iterable[str], rule: LiteralString, noun: str, meant: str | None = None) -> str:
    """`value` if it is one of `terms`; else the nearest of them is offered, or all where there are few."""
    text = text_of(value, noun)
    known = list(terms)
    if text in known:
        return text
    near = meant or nearest(text, known)
    instead = near or (listed(known) if len(known) <= 12 else None)
    raise wrong(rule, f"“{shown(text)}” is not known as {noun}", instead)


def one_of(terms: Iterable[str], noun: str, rule: LiteralString = "unknown-word") -> PlainValidator:
    """A validator for words from a fixed list."""
    known = tuple(terms)
    whole = frozenset(known)

    def check(value: Any) -> str:
        if type(value) is str and value in whole:
            return value
        return word_of(value, known, rule, noun)

    return PlainValidator(check)


def _visibility(value: Any) -> Visibility:
    return Visibility(word_of(value, tuple(Visibility), "bad-visibility", "a visibility"))


def _grade(value: Any) -> Grade:
    return Grade.of(word_of(value, tuple(grade.word for grade in Grade), "unknown-word", "a grade"))


def _milestone(value: Any) -> Milestone:
    return Milestone(word_of(value, tuple(Milestone), "unknown-word", "a milestone"))


def _kind(value: Any) -> str:
    if type(value) is str and value in KINDS:
        return value
    return word_of(value, KINDS, "unknown-kind", "a kind of event")


def _style(value: Any, info: ValidationInfo) -> str:
    text = text_of(value, "a style")
    if text in house_in(info).styles:
        return text
    noun = "a style (more can be listed under `vocabulary` in collection.yml)"
    return word_of(text, sorted(house_in(info).styles), "unknown-style", noun, style_meant(text))


def _hazard(value: Any, info: ValidationInfo) -> str:
    noun = "a hazard (more can be listed under `vocabulary` in collection.yml)"
    return word_of(value, sorted(house_in(info).hazards), "unknown-word", noun)


def _penjing_class(value: Any) -> str:
    text = text_of(value, "a class of penjing")
    terms = ("tree", "landscape", "water-and-land")
    return word_of(text, terms, "unknown-word", "a class of penjing", penjing_class_meant(text))


Text = Annotated[str, PlainValidator(text_of)]
TextOrLanguages = Annotated[Words, PlainValidator(_words)]
Id = Annotated[str, PlainValidator(_id)]
Link = Annotated[str, PlainValidator(_link)]
YesOrNo = Annotated[bool, PlainValidator(_yes_or_no)]
WhoMaySee = Annotated[Visibility, PlainValidator(_visibility)]
HowSure = Annotated[Grade, PlainValidator(_grade)]
MilestoneName = Annotated[Milestone, PlainValidator(_milestone)]
EventKind = Annotated[str, PlainValidator(_kind)]
Style = Annotated[str, PlainValidator(_style)]
Hazard = Annotated[str, PlainValidator(_hazard)]
PenjingClass = Annotated[str, PlainValidator(_penjing_class)]
Texts = Annotated[tuple[Text, ...], BeforeValidator(as_list)]
Ids = Annotated[tuple[Id, ...], BeforeValidator(as_list)]
Links = Annotated[tuple[Link, ...], BeforeValidator(as_list)]
Styles = Annotated[tuple[Style, ...], BeforeValidator(as_list)]
Hazards = Annotated[tuple[Hazard, ...], BeforeValidator(as_list)]
