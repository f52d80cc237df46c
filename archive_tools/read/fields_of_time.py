"""Dates, lengths of time, numbers and measures, as values of a key."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Annotated, Any

from pydantic import BeforeValidator, PlainValidator, ValidationInfo

from archive_tools.model.dates import DateProblem, Duration, WhenWritten
from archive_tools.model.vocabulary import CLOCK_HOURS
from archive_tools.read.durations import read_duration, read_duration_range
from archive_tools.read.edtf_text import read_date
from archive_tools.read.fields import as_list, as_written, house_in, shape_of, shown, text_of, wrong

_NUMBER = re.compile(r"[+-]?[0-9]{1,9}(?:\.[0-9]{1,9})?")
_WHOLE = re.compile(r"[0-9]{1,9}")
_SHARE = re.compile(r"([0-9]{1,4})(?:/([0-9]{1,4}))?")
_SECTOR = re.compile(r"([0-9]{1,2})\s*(?:[-–—]|to)\s*([0-9]{1,2})")
_CLOCK = re.compile(r"([01]?[0-9]|2[0-3]):([0-5][0-9])")


def _date(value: Any, info: ValidationInfo) -> WhenWritten:
    if not isinstance(value, str):
        if isinstance(value, list | dict):
            what = f"this is read as {shape_of(value)}, because a date with brackets must stand in quotes"
            raise wrong("bad-date", what, as_written(value))
        text_of(value, "a date")
    try:
        return read_date(value, house_in(info).policy)
    except DateProblem as problem:
        raise wrong("bad-date", problem.what, problem.instead) from None


def _duration(value: Any) -> Duration:
    try:
        return read_duration(text_of(value, "a length of time such as P2Y"))
    except DateProblem as problem:
        raise wrong("bad-duration", problem.what, problem.instead) from None


def _duration_range(value: Any) -> tuple[Duration, Duration]:
    try:
        return read_duration_range(text_of(value, "a length of time such as P3Y or P3Y/P5Y"))
    except DateProblem as problem:
        raise wrong("bad-duration", problem.what, problem.instead) from None


def _decimal(value: Any) -> Decimal:
    text = text_of(value, "a number")
    if not _NUMBER.fullmatch(text):
        comma = text.replace(",", ".")
        instead = comma if _NUMBER.fullmatch(comma) else "digits, with a point before the decimals"
        raise wrong("bad-number", f"“{shown(text)}” is no number", instead)
    return Decimal(text)


def _measure(value: Any) -> Decimal:
    number = _decimal(value)
    if number < 0:
        raise wrong("bad-number", f"{number} is less than nothing", str(-number))
    return number


def _length(value: Any) -> Decimal:
    number = _measure(value)
    if number == 0:
        raise wrong("bad-number", "a length of 0 can measure nothing", "the length in centimetres")
    return number


def _float(value: Any) -> float:
    return float(_decimal(value))


def _positive(value: Any) -> float:
    number = _float(value)
    if number <= 0:
        raise wrong("bad-number", f"{number:g} is not more than nothing", "a number above 0")
    return number


def whole(value: Any, least: int, most: int) -> int:
    """A whole number from `least` to `most`."""
    text = text_of(value, "a whole number")
    if not _WHOLE.fullmatch(text) or not least <= int(text) <= most:
        raise wrong("bad-number", f"“{shown(text)}” is no whole number from {least} to {most}", None)
    return int(text)


def _whole_from(least: int, most: int = 999_999_999) -> PlainValidator:
    return PlainValidator(lambda value: whole(value, least, most))


def _coordinate(most: int) -> PlainValidator:
    def check(value: Any) -> float:
        number = _float(value)
        if not -most <= number <= most:
            raise wrong("bad-number", f"{number:g} lies beyond {most} degrees", f"degrees from -{most} to {most}")
        return number

    return PlainValidator(check)


def _turn(value: Any) -> Decimal:
    number = _decimal(value)
    if not -360 <= number <= 360:
        raise wrong("bad-number", f"{number} degrees is more than once round", "degrees from -360 to 360")
    return number


def _spot(value: Any) -> tuple[float, float]:
    if not isinstance(value, list) or len(value) != 2:
        raise wrong("bad-value", "two numbers in brackets are expected here", "[x, y]")
    return _float(value[0]), _float(value[1])


def _marks(value: Any) -> tuple[tuple[str, tuple[float, float]], ...]:
    if not isinstance(value, dict):
        raise wrong("bad-value", "names with their pixels are expected here", "{rim left: [120, 940]}")
    return tuple((name.strip(), _spot(spot)) for name, spot in value.items())


def _share(value: Any) -> tuple[int, int]:
    text = text_of(value, "a share such as 1/4")
    found = _SHARE.fullmatch(text)
    part, of = (int(found[1]), int(found[2] or 1)) if found else (0, 0)
    if not 0 < part <= of:
        what = f"“{shown(text)}” is no share of the work: more than 0, at most 1"
        raise wrong("bad-value", what, "a fraction such as 1/4")
    return part, of


def _sector(value: Any) -> tuple[str, str]:
    if isinstance(value, list) and len(value) == 2:
        value = f"{text_of(value[0])}-{text_of(value[1])}"
    text = text_of(value, "a sector such as 12-3")
    found = _SECTOR.fullmatch(text)
    hours = (found[1].lstrip("0"), found[2].lstrip("0")) if found else ("", "")
    if not all(hour in CLOCK_HOURS for hour in hours):
        raise wrong("bad-value", f"“{shown(text)}” is no sector of a clock face", "two hours from 1 to 12, like 12-3")
    return hours


def _time(value: Any) -> str:
    text = text_of(value, "a time of day")
    found = _CLOCK.fullmatch(text)
    if not found:
        raise wrong("bad-value", f"“{shown(text)}” is no time of day", "hours and minutes, like 14:30")
    return f"{int(found[1]):02}:{found[2]}"


When = Annotated[WhenWritten, PlainValidator(_date)]
Length = Annotated[Duration, PlainValidator(_duration)]
LengthRange = Annotated[tuple[Duration, Duration], PlainValidator(_duration_range)]
Number = Annotated[Decimal, PlainValidator(_decimal)]
Uncertainty = Annotated[Decimal, PlainValidator(_measure)]
Centimetres = Annotated[Decimal, PlainValidator(_length)]
Positive = Annotated[float, PlainValidator(_positive)]
Metres = Annotated[float, PlainValidator(_positive)]
Count = Annotated[int, _whole_from(1)]
CountOrNone = Annotated[int, _whole_from(0)]
Month = Annotated[int, _whole_from(1, 12)]
Months = Annotated[tuple[Month, ...], BeforeValidator(as_list)]
Latitude = Annotated[float, _coordinate(90)]
Longitude = Annotated[float, _coordinate(180)]
Turn = Annotated[Decimal, PlainValidator(_turn)]
Spot = Annotated[tuple[float, float], PlainValidator(_spot)]
PictureMarks = Annotated[tuple[tuple[str, tuple[float, float]], ...], PlainValidator(_marks)]
Share = Annotated[tuple[int, int], PlainValidator(_share)]
Sector = Annotated[tuple[str, str], PlainValidator(_sector)]
TimeOfDay = Annotated[str, PlainValidator(_time)]
