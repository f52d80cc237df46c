"""Dates in words: "14 April 1953", "about 1953", "spring 1991", "between 1951 and 1953".

What a date says is never made narrower by its wording. The words stand alone or after a comma; none of them needs a
preposition. Names of months come from the Unicode Common Locale Data Repository, through Babel.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from gettext import NullTranslations

from babel import Locale, UnknownLocaleError
from babel.dates import format_date, format_skeleton

from archive_tools.model.dates import Span, WhenWritten
from archive_tools.model.findings import Bounds

_SEASON = re.compile(r"^[~?%]?([0-9]{4})[~?%]?-[~?%]?(2[1-9]|3[0-9]|4[01])[~?%]?$")


def locale_for(language: str) -> Locale:
    """The locale of a BCP 47 language. Plain "en" is written as in Britain: day, month, year, and no comma."""
    if language == "en":
        return Locale("en", "GB")
    for tag in (language, language.split("-", maxsplit=1)[0]):
        try:
            return Locale.parse(tag, sep="-")
        except (UnknownLocaleError, ValueError):
            continue
    return Locale("en", "GB")


@dataclass(frozen=True, slots=True)
class DateWords:
    """Says dates in one language."""

    language: str
    translations: NullTranslations

    def day(self, day: date) -> str:
        """Like "14 April 1953"."""
        return format_date(day, format="long", locale=locale_for(self.language))

    def month(self, day: date) -> str:
        """Like "April 1953"."""
        return format_skeleton("yMMMM", day, locale=locale_for(self.language))

    def when(self, when: WhenWritten | None) -> str:
        """A written date in words; "" for none, "not dated" for one that says nothing."""
        if when is None:
            return ""
        said = self._unqualified(when)
        _ = self.translations.gettext
        if when.precision == "interval":
            return said if not when.uncertain else _("perhaps %(date)s") % {"date": said}
        if when.approximate and when.uncertain:
            return _("perhaps about %(date)s") % {"date": said}
        if when.approximate:
            return _("about %(date)s") % {"date": said}
        return _("perhaps %(date)s") % {"date": said} if when.uncertain else said

    def until(self, start: WhenWritten | None, end: WhenWritten | None) -> str:
        """From one date to another: "1951 to 1953"; either may be missing."""
        _ = self.translations.gettext
        if end is None:
            return self.when(start)
        if start is None:
            return _("until %(date)s") % {"date": self.when(end)}
        return _("%(start)s to %(end)s") % {"start": self.when(start), "end": self.when(end)}

    def year(self, when: WhenWritten | None) -> str:
        """The year or years alone, as they head a column: "1953", "about 1953", "1951–53", "1960s", or ""."""
        if when is None:
            return ""
        _ = self.translations.gettext
        if when.precision == "decade":
            said = self._unqualified(when)
        elif when.precision == "set" and when.said.first is not None and when.said.last is not None:
            said = self._years(when.said)
        else:
            said = self._years(when.said)
        if when.approximate:
            said = _("about %(date)s") % {"date": said}
        return _("%(date)s?") % {"date": said} if when.uncertain else said

    def years(self, first: date, last: date) -> str:
        """The years from one day to another: "1953", "1951–53", "1998–2003"."""
        return self._years(Span(first, last))

    def bounds(self, bounds: Bounds) -> str:
        """Years between which something lies: "1953", "1953–1955", "1973 or earlier", "1960 or later", or ""."""
        return self._years(Span(bounds.earliest, bounds.latest), short=False)

    def span(self, span: Span) -> str:
        """Possible days in words: one day, month or year where they fill it, else "between … and …"."""
        _ = self.translations.gettext
        first, last = span.first, span.last
        if first is None and last is None:
            return _("not dated")
        if first is None and last is not None:
            return _("%(date)s or earlier") % {"date": self._end(last, is_last=True)}
        if last is None and first is not None:
            return _("%(date)s or later") % {"date": self._end(first, is_last=False)}
        assert first is not None and last is not None
        if first == last:
            return self.day(first)
        if _begins_year(first) and _ends_year(last):
            if first.year == last.year:
                return self._one_year(first)
            return _("between %(start)s and %(end)s") % {"start": self._one_year(first), "end": self._one_year(last)}
        if first.day == 1 and _ends_month(last):
            if (first.year, first.month) == (last.year, last.month):
                return self.month(first)
            return _("between %(start)s and %(end)s") % {"start": self.month(first), "end": self.month(last)}
        return _("between %(start)s and %(end)s") % {
            "start": self._end(first, is_last=False),
            "end": self._end(last, is_last=True),
        }

    def _unqualified(self, when: WhenWritten) -> str:
        _ = self.translations.gettext
        season = _SEASON.match(when.text)
        if when.precision == "season" and season:
            return self._season(int(season.group(2)), int(season.group(1)), when.said)
        first = when.said.first
        if when.precision == "decade" and first is not None:
            return _("the %(year)ss") % {"year": first.year}
        if when.precision == "set" and len(when.parts) > 1:
            spans = [self.span(part) for part in when.parts]
            return _("%(some)s or %(last)s") % {"some": _(", ").join(spans[:-1]), "last": spans[-1]}
        if when.precision == "interval":
            return self._interval(when)
        return self.span(when.said)

    def _interval(self, when: WhenWritten) -> str:
        said = self.span(when.said)
        if not when.approximate:
            return said
        _ = self.translations.gettext
        ends = when.text.split("/")
        first, last = when.said.first, when.said.last
        if len(ends) != 2 or first is None or last is None:
            return _("about %(date)s") % {"date": said}
        words = [self._end(first, is_last=False), self._end(last, is_last=True)]
        for at, end in enumerate(ends):
            if "~" in end or "%" in end:
                words[at] = _("about %(date)s") % {"date": words[at]}
        return _("between %(start)s and %(end)s") % {"start": words[0], "end": words[1]}

    def _season(self, code: int, year: int, said: Span) -> str:
        _ = self.translations.gettext
        years = str(year)
        if said.first is not None and said.last is not None and said.first.year != said.last.year:
            years = f"{said.first.year}–{said.last.year % 100:02d}"
        return _season_words(_)[code] % {"year": years}

    def _end(self, day: date, *, is_last: bool) -> str:
        """One end of a span, as coarsely as it is: a whole year by its number, a whole month by its name."""
        if _ends_year(day) if is_last else _begins_year(day):
            return self._one_year(day)
        if _ends_month(day) if is_last else day.day == 1:
            return self.month(day)
        return self.day(day)

    def _years(self, span: Span, *, short: bool = True) -> str:
        _ = self.translations.gettext
        first, last = span.first, span.last
        if first is None and last is None:
            return ""
        if first is None and last is not None:
            return _("%(date)s or earlier") % {"date": self._one_year(last)}
        if last is None and first is not None:
            return _("%(date)s or later") % {"date": self._one_year(first)}
        assert first is not None and last is not None
        if first.year == last.year:
            return self._one_year(first)
        of_one_century = short and first.year // 100 == last.year // 100
        ends = {"first": first.year, "last": f"{last.year % 100:02d}" if of_one_century else last.year}
        return _("%(first)s–%(last)s") % ends

    def _one_year(self, day: date) -> str:
        return self.translations.gettext("%(year)s") % {"year": day.year}


def _season_words(_: Callable[[str], str]) -> dict[int, str]:
    words = {
        21: _("spring %(year)s"), 22: _("summer %(year)s"), 23: _("autumn %(year)s"), 24: _("winter %(year)s"),
        29: _("spring %(year)s, south"), 30: _("summer %(year)s, south"),
        31: _("autumn %(year)s, south"), 32: _("winter %(year)s, south"),
        33: _("first quarter of %(year)s"), 34: _("second quarter of %(year)s"),
        35: _("third quarter of %(year)s"), 36: _("last quarter of %(year)s"),
        37: _("January to April %(year)s"), 38: _("May to August %(year)s"), 39: _("September to December %(year)s"),
        40: _("first half of %(year)s"), 41: _("second half of %(year)s"),
    }  # fmt: skip
    return words | {code + 4: words[code] for code in (21, 22, 23, 24)}


def _begins_year(day: date) -> bool:
    return (day.month, day.day) == (1, 1)


def _ends_year(day: date) -> bool:
    return (day.month, day.day) == (12, 31)


def _ends_month(day: date) -> bool:
    return day == date.max or (day + timedelta(days=1)).day == 1
