"""collection.yml as written."""

from __future__ import annotations

import re
from typing import Annotated, Any
from zoneinfo import ZoneInfo, available_timezones

from pydantic import BeforeValidator, PlainValidator

from archive_tools.model.vocabulary import HEMISPHERES, nearest
from archive_tools.read.fields import (
    LANGUAGE,
    Id,
    Link,
    Record,
    Text,
    TextOrLanguages,
    Texts,
    WhoMaySee,
    as_list,
    one_of,
    shown,
    text_of,
    wrong,
)
from archive_tools.read.fields_of_time import Count, Length, Positive
from archive_tools.read.schema_tree import HouseDueSchema


def _language(value: Any) -> str:
    text = text_of(value, "a language")
    if not LANGUAGE.fullmatch(text):
        raise wrong("bad-language", f"“{shown(text)}” is no language tag (BCP 47)", "a tag such as en, ja or zh-Hant")
    return text


def _timezone(value: Any) -> str:
    text = text_of(value, "a time zone")
    try:
        ZoneInfo(text)
    except (KeyError, OSError, ValueError):
        known = available_timezones()
        if known or not re.fullmatch(r"[A-Za-z0-9_+-]+(/[A-Za-z0-9_+-]+)*", text):
            instead = nearest(text, sorted(known)) or "a name such as Europe/London or UTC"
            raise wrong("bad-value", f"“{shown(text)}” is no time zone", instead) from None
    return text


def _pattern(value: Any) -> str:
    text = text_of(value, "a pattern")
    try:
        re.compile(text)
    except (re.error, OverflowError, RecursionError) as fault:
        what = f"“{shown(text)}” is no regular expression: {fault}"
        raise wrong("bad-value", what, r"a pattern such as '^[0-9]{4}\.[0-9]+$', in single quotes") from None
    return text


def _colour(value: Any) -> str:
    text = text_of(value, "a colour")
    if not re.fullmatch(r"#(?:[0-9A-Fa-f]{3}|[0-9A-Fa-f]{6})", text):
        raise wrong("bad-value", f"“{shown(text)}” is no colour", 'a colour such as "#1f4a3d", in quotes')
    return text.lower()


class DefaultsSchema(Record):
    """Visibility of things that say nothing of their own."""

    trees: WhoMaySee | None = None
    events: WhoMaySee | None = None
    notes: WhoMaySee | None = None
    photographs: WhoMaySee | None = None
    documents: WhoMaySee | None = None
    stewards: WhoMaySee | None = None
    sources: WhoMaySee | None = None
    objects: WhoMaySee | None = None
    places: WhoMaySee | None = None
    tours: WhoMaySee | None = None
    talks: WhoMaySee | None = None


class MarginsSchema(Record):
    """How far "about" reaches to either side."""

    day: Length | None = None
    month: Length | None = None
    season: Length | None = None
    year: Length | None = None
    decade: Length | None = None
    century: Length | None = None


class VocabularySchema(Record):
    """Further terms of the house."""

    style: Texts | None = None
    hazards: Texts | None = None


class CollectionSchema(Record):
    """The keys of the collection."""

    name: TextOrLanguages
    custodian: Id
    site_url: Link | None = None
    accent: Annotated[str, PlainValidator(_colour)] | None = None
    languages: Annotated[tuple[Annotated[str, PlainValidator(_language)], ...], BeforeValidator(as_list)] | None = None
    hemisphere: Annotated[str, one_of(HEMISPHERES, "a hemisphere")] | None = None
    timezone: Annotated[str, PlainValidator(_timezone)] | None = None
    accession_pattern: Annotated[str, PlainValidator(_pattern)] | None = None
    defaults: DefaultsSchema | None = None
    approximate: MarginsSchema | None = None
    at_the_time: Length | None = None
    unbroken_within: Length | None = None
    speaking_rate: Count | None = None
    walking_speed: Positive | None = None
    label_words: Count | None = None
    rights: Text | None = None
    vocabulary: VocabularySchema | None = None
    due: Annotated[tuple[HouseDueSchema | None, ...], BeforeValidator(as_list)] | None = None
