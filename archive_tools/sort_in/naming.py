"""What a photograph is called in the collection: date_view_n.ext, in characters every file system takes."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable

from archive_tools.model.dates import DatePolicy, DateProblem
from archive_tools.read.edtf_text import file_name_date, read_date

UNDATED = "undated"
_IN_A_NAME = re.compile(r"[0-9X~-]+")


class Names:
    """File names given out for one folder, none of them like another but for its ending or its capitals."""

    def __init__(self, taken: Iterable[str]) -> None:
        self._taken = {_key(name.rpartition(".")[0] or name) for name in taken}
        self._given: dict[str, int] = {}

    def give(
        self, date: str | None, view: str | None, ending: str, policy: DatePolicy, also: Iterable[Names] = ()
    ) -> str:
        """The next free name for a picture of this date and view.

        also: the names of further trees that the picture shows, among which it must be the only one of its name.
        """
        others = [self, *also]
        start = "_".join(part for part in (date_in_name(date, policy), view) if part)
        number = self._given.get(start, 0) + 1
        while any(_key(f"{start}_{number}") in other._taken for other in others):
            number += 1
        self._given[start] = number
        for other in others:
            other._taken.add(_key(f"{start}_{number}"))
        return f"{start}_{number}{ending}"


def date_in_name(date: str | None, policy: DatePolicy) -> str:
    """The beginning of a file name for a date: the date itself where a name can hold it, else its first year."""
    if date is None:
        return UNDATED
    if _IN_A_NAME.fullmatch(date):
        found = file_name_date(f"{date}_1", policy)
        if found is not None and found[0].text == date:
            return date
    try:
        when = read_date(date, policy)
    except DateProblem:
        return UNDATED
    first, last = when.years
    if first is None or first < 1000:
        return UNDATED
    return f"{first:04}" if first == last else f"{first:04}~"


def _key(stem: str) -> str:
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", stem).casefold())
