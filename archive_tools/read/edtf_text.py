"""Dates as written (EDTF text) read into days. The only file that imports the `edtf` library.

Contract: the Library of Congress EDTF specification of 4 February 2019 (the profile of ISO
8601-2:2019), levels 0 and 1, and of level 2 the parts of a year, sets, marks on single components,
and unspecified digits anywhere. Years run from 0001 to 9999.

Plain forms are read by hand in `plain_dates`. For the rest the library takes single dates apart, and
`date_bounds` works out their days. What the library makes of whole ranges and sets is not used: it
invents an end for `1950/`, skips spaces, refuses seasons and unspecified digits in places where the
specification has them, and pads "about" by a measure of its own.
"""

from __future__ import annotations

import contextlib
import io
import re
from dataclasses import replace
from functools import cache
from typing import Any

from archive_tools.model.dates import DatePolicy, DateProblem, WhenWritten
from archive_tools.read.date_advice import explain, shown
from archive_tools.read.date_bounds import Components, read_components
from archive_tools.read.date_ranges import OPEN, read_range, read_set
from archive_tools.read.plain_dates import read_plain as _read_plain

__all__ = ["DateProblem", "file_name_date", "file_name_problem", "read_date"]

_MARK = "[~?%]?"
_MARKED = re.compile(
    f"(?P<y1>{_MARK})(?P<year>[0-9X]{{4}})(?P<y2>{_MARK})"
    f"(?:-(?P<m1>{_MARK})(?P<month>[0-9X]{{2}})(?P<m2>{_MARK})"
    f"(?:-(?P<d1>{_MARK})(?P<day>[0-9X]{{2}})(?P<d2>{_MARK}))?)?"
)
_SIGNS = re.compile(r"[0-9X~?%/.,\[\]TZ:+-]+")
_SINGLE = re.compile(r"[0-9XYEST~?%Z:+-]{1,40}")
"""What a single date may hold. The library would overlook an old mark for hemispheres (`2001-21^N`)."""
_NAME_DATE = "~?[1-9][0-9X]{3}~?(?:-~?[0-9X]{2}~?(?:-~?[0-9X]{2}~?)?)?"
_NAME = re.compile(rf"({_NAME_DATE})(?=[-_ ]|\Z)")
_NAME_RANGE = re.compile(rf"{_NAME_DATE}-[0-9X]{{4}}~?(?:[-_ ]|\Z)")


class _NotRead(DateProblem):
    """The text has no shape that can be read; what to write instead has not been looked for yet."""

    def __init__(self, text: str, what: str = "is no date in the notation used here (EDTF)") -> None:
        super().__init__(f"`{shown(text)}` {what}")


def read_date(text: str, policy: DatePolicy) -> WhenWritten:
    """The days that `text` stands for, by the specification and the collection's policy.

    Raises DateProblem, with what is wrong and where possible what to write instead, for anything that
    is not EDTF or cannot be used: nothing is guessed except in that advice.
    """
    outcome = _outcome(text, policy)
    if isinstance(outcome, DateProblem):
        raise DateProblem(outcome.what, outcome.instead)
    return outcome


@cache
def _outcome(text: str, policy: DatePolicy) -> WhenWritten | DateProblem:
    # Problems are kept too: a folder may say `c. 1951` two thousand times, and advice is not cheap.
    try:
        return _read(text, policy)
    except _NotRead as problem:
        return explain(text, problem.what, lambda other: _can_be_read(other, policy))
    except DateProblem as problem:
        return problem


def file_name_date(stem: str, policy: DatePolicy) -> tuple[WhenWritten, str] | None:
    """The date with which a file name (without its ending) begins, and the rest of the name.

    The date is written with digits, `-`, `X` and `~` only and ends with the name or before `_`, `-` or
    a space: `1953-04-potted` is April 1953 and "potted". None if the name begins with no date, or
    with what looks like one and is none (`file_name_problem` tells why). A year before 1000 is taken
    for a running number.
    """
    matched = _NAME.match(stem)
    if matched is None or _NAME_RANGE.match(stem):
        return None
    try:
        return read_date(matched[1], policy), stem[matched.end() + 1 :]
    except DateProblem:
        return None


def file_name_problem(stem: str, policy: DatePolicy) -> DateProblem | None:
    """What is wrong with the date a file name begins with; None if all is well or there is none."""
    if _NAME_RANGE.match(stem):
        return DateProblem(
            f"`{stem}` begins with two years, and the name of a file can hold no range",
            "the first year alone or with `~` in the name, and the range as `date` in the record",
        )
    matched = _NAME.match(stem)
    if matched is None:
        return None
    try:
        read_date(matched[1], policy)
    except DateProblem as problem:
        return problem
    return None


def _read(text: str, policy: DatePolicy) -> WhenWritten:
    return _read_plain(text, policy) or _read_by_library(text, policy)


def _can_be_read(text: str, policy: DatePolicy) -> bool:
    if not _SIGNS.fullmatch(text):
        return False
    try:
        _read(text, policy)
    except DateProblem:
        return False
    return True


def _read_by_library(text: str, policy: DatePolicy) -> WhenWritten:
    if not text:
        raise DateProblem("the date is empty", "a date, or leave the key out")
    if not text.isascii() or not text.isprintable() or " " in text:
        # the library skips spaces, and some libraries take digits of any script
        raise _NotRead(text)
    if text[0] == "{" and text[-1] == "}":
        raise _all_of(text[1:-1], policy)
    if text[0] == "[" and text[-1] == "]":
        return _set(text, policy)
    if text.count("/") == 1:
        before, after = text.split("/")
        return read_range(text, _range_end(before, policy), _range_end(after, policy))
    return _single(text, policy)


def _all_of(inner: str, policy: DatePolicy) -> DateProblem:
    """The problem with `{..}`, which means every one of its dates. Raises DateProblem if it holds none."""
    if not inner:
        raise _NotRead("{}")
    several = "," in inner or OPEN in inner
    choice = (_set(f"[{inner}]", policy) if several else _single(inner, policy)).text
    return DateProblem(
        f"`{{{inner}}}` means all of these dates, and what is dated here happened once",
        f"{choice} if it was one of them, or an entry of its own for each" if several else choice,
    )


def _range_end(text: str, policy: DatePolicy) -> WhenWritten | str:
    if text in ("", OPEN):
        return text
    if re.match(r"[0-9-]+T[0-9]", text):
        raise DateProblem(f"`{text}` is a time of day, and a range has none at its ends", text.partition("T")[0])
    return _single(text, policy)


def _set(text: str, policy: DatePolicy) -> WhenWritten:
    items = text[1:-1].split(",")
    if not all(items):
        raise _NotRead(text, "is a set with nothing in it, or with a comma too many")
    members = []
    for place, item in enumerate(items):
        before, dots, after = item.partition(OPEN)
        if not dots:
            members.append(_single(item, policy))
            continue
        # `..1951` may only come first and `1951..` only last; inside a set an end is never empty
        if (not before and place > 0) or (not after and place < len(items) - 1):
            raise _NotRead(text, f"is open in its middle, at `{item}`")
        members.append(read_range(item, _range_end(before or OPEN, policy), _range_end(after or OPEN, policy)))
    if len(items) == 1 and OPEN not in text:
        raise DateProblem(f"`{text}` is a set with one date in it", items[0])
    return read_set(text, members)


def _single(text: str, policy: DatePolicy) -> WhenWritten:
    return read_components(text, _components(text), policy)


def _components(text: str) -> Components:
    """A single date taken apart. Raises _NotRead for what is none, whether or not its days exist."""
    found = _ask_library(text) if _SINGLE.fullmatch(text) else None
    if found is not None:
        return _from_library(text, found)
    # The specification has forms that the library refuses (`1984-1X`, `1951-21~`, `195X~-06`), and an
    # impossible day deserves its own message: the same components, by the pattern.
    marked = _MARKED.fullmatch(text)
    if marked is None:
        raise _NotRead(text)
    return _from_pattern(marked)


def _ask_library(text: str) -> Any:
    """The library's object for `text`, or None where it refuses or stumbles."""
    parse, refusal = _library()
    with contextlib.redirect_stdout(io.StringIO()):  # it prints what it stumbles over
        try:
            return parse(text)
        except (refusal, AttributeError, TypeError, ValueError):
            return None


@cache
def _library() -> tuple[Any, type[Exception]]:
    # Building its grammar takes a tenth of a second, which most commands never need.
    from edtf import EDTFParseException, parse_edtf

    return parse_edtf, EDTFParseException


def _from_library(text: str, found: Any) -> Components:
    kind = type(found).__name__
    if kind == "DateAndTime":
        if found.date.day is None:  # the library takes a time of day after a month or a year
            raise _NotRead(text)
        return _from_library(text, found.date)
    if kind in ("LongYear", "ExponentialYear") or text.startswith("-"):
        raise DateProblem(f"`{text}` lies outside the years 0001 to 9999 that can be read here")
    if kind == "UncertainOrApproximate":
        mark = str(found.ua)
        return replace(_from_library(text, found.date), year_mark=mark, month_mark=mark, day_mark=mark)
    if "S" in text:
        raise DateProblem(
            f"`{text}` counts significant digits, which are not used here",
            "X for each digit that is not known, such as 19XX, or ~ for about",
        )
    if kind in ("Season", "Level2Season"):
        return Components(found.year, found.season)
    if kind in ("Date", "Unspecified", "PartialUnspecified"):
        mark = str(getattr(found, "ua", None) or "")
        return Components(found.year, found.month or "", found.day or "", mark, mark, mark)
    if kind == "PartialUncertainOrApproximate":
        group = found.year_month_ua
        return Components(
            found.year,
            found.month or "",
            found.day or "",
            _merged(found.year_ua, found.year_ua_b, group),
            _merged(found.month_ua, group),
            _merged(found.day_ua),
        )
    raise _NotRead(text)


def _from_pattern(marked: re.Match[str]) -> Components:
    """By the rule of the specification: a mark before a component is for it alone, one after a component
    is for it and all before it.
    """
    after_day, after_month = marked["d2"], marked["m2"]
    return Components(
        marked["year"],
        marked["month"] or "",
        marked["day"] or "",
        _merged(marked["y1"], marked["y2"], after_month, after_day),
        _merged(marked["m1"], after_month, after_day),
        _merged(marked["d1"], after_day),
    )


def _merged(*marks: object) -> str:
    written = {str(mark) for mark in marks if mark}
    return "%" if len(written) > 1 else "".join(written)
