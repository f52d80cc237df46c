"""What a curator probably meant by a date that is not EDTF. For messages only: nothing is read by this.

Each rule turns words into EDTF candidates; a candidate is offered only if it can be read, so that no
advice leads to the next error.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable
from datetime import date

from archive_tools.model.dates import DateProblem

Reads = Callable[[str], bool]
Forms = list[str]

_GENERAL = (
    "a date such as 1951, 1951-03, 1951-03-12, 1951~ (about), 1951? (uncertain), 195X (some year of the "
    "1950s), 1951-21 (spring), 1951/1953 (some day between), ../1951 (not after)"
)
_LONGEST = 100
"""Characters: no longer text is a date in other words."""
_MONTHS = (
    "january", "february", "march", "april", "may", "june",
    "july", "august", "september", "october", "november", "december",
)  # fmt: skip
_SEASONS = {"spring": 21, "summer": 22, "autumn": 23, "fall": 23, "winter": 24}
_MONTH = "(" + "|".join(f"{name[:3]}(?:{name[3:]})?" for name in _MONTHS) + r"|sept)\.?"
_SEASON = "(" + "|".join(_SEASONS) + ")"
_DAY = r"(\d{1,2})(?:st|nd|rd|th)?\.?"
_ABOUT = r"(?:circa|about|around|approximately|approx\.?|roughly|abt\.?|ca?\.?|~|±)"
_UNSURE = r"(?:probably|possibly|perhaps|maybe|likely|presumably)"
_UNDATED = {"n.d.", "n. d.", "nd", "undated", "unknown", "no date", "not known", "none", "?", "-", "s.d."}


def explain(text: str, what: str, reads: Reads) -> DateProblem:
    """The problem to show for `text`: what is wrong (`what`, unless something closer is known), and the
    EDTF form that was probably meant, as far as `reads` accepts it.
    """
    if len(text) > _LONGEST:
        return DateProblem(what, _GENERAL)
    tidy = _tidied(text)
    if tidy in _UNDATED:
        return DateProblem(what, "no date at all: leave the key out")
    if re.fullmatch(r"p\d+[ymwd].*", tidy):
        return DateProblem(
            f"`{shown(text)}` is a length of time, not a date",
            "a date, or `timing` where a lapse of time is meant",
        )
    offered = list(dict.fromkeys(form for form in _forms(tidy, reads) if reads(form.partition(" ")[0])))
    return DateProblem(_reason(text, tidy) or what, " or ".join(offered[:3]) or _GENERAL)


def shown(text: str) -> str:
    """`text` on one line and no longer than a message can bear."""
    line = "".join(sign if sign.isprintable() else "\N{REPLACEMENT CHARACTER}" for sign in text)
    return line if len(line) <= 60 else f"{line[:60]}\N{HORIZONTAL ELLIPSIS}"


def _tidied(text: str) -> str:
    """Small letters, single spaces, plain digits and dashes; no quotation marks, "in" or "AD" round it."""
    plain = unicodedata.normalize("NFKC", text)
    plain = re.sub("[\u2010-\u2015\u2212]", "-", plain)
    plain = " ".join(plain.lower().strip(" \t\r\n\"'\u201c\u201d").split())
    return re.sub(r"^(?:in|on|during|dated|year) (?=.)|(?<=\d) ?(?:a\.?d\.?|c\.?e\.?)$", "", plain)


def _reason(text: str, tidy: str) -> str | None:
    if text.strip() != text and text.strip().lower() == tidy and " " not in tidy:
        return "there is a space or a line break before or after the date"
    if any(sign.isdigit() and not sign.isascii() for sign in text):
        return f"`{shown(text)}` has digits of another script or width than 0 to 9"
    if re.fullmatch(r"[\dxu~?%/.-]*\d[\dxu~?%/.-]*", tidy) and re.search("[xu]", tidy) and "X" not in text:
        return f"`{shown(text)}`: a digit that is not known is written as a capital X"
    if re.search("[()]", text):
        return f"`{shown(text)}`: a date has no parentheses"
    if re.search(r"(^|/)(open|unknown)(/|$)", tidy):
        return f"`{shown(text)}`: an open end is written `..`, an unknown one is left empty"
    if re.search(r"/p\d", tidy):
        return f"`{shown(text)}`: a range has dates at both ends, not a length of time"
    if re.search(r"\dt\d\d", tidy):
        return f"`{shown(text)}`: a time of day is written in full, such as 1985-04-12T23:20:30"
    if re.search(r"\bb\.?c\b", tidy):
        return f"`{shown(text)}` lies outside the years 0001 to 9999 that can be read here"
    if " " in tidy and not re.search("[a-z]", tidy):
        return f"`{shown(text)}`: a date has no spaces"
    return None


def _forms(words: str, reads: Reads) -> Forms:
    """Candidates for `words`, the likeliest first. Some hold a gloss in brackets after a space."""
    exact = words.replace("x", "X").replace("t", "T").replace("z", "Z")
    if reads(exact):
        return [exact]
    for rule in (_signs, _numbers, _listed, _qualified, _bounded, _named, _vague):
        forms = rule(words, reads)
        if forms:
            return forms
    return []


def _signs(words: str, reads: Reads) -> Forms:
    """Spaces, old signs for unknown digits, doubled marks, brackets, times of day."""
    candidates = [
        words.replace(" ", ""),
        re.sub(r"[()]", "", words).replace(" ", ""),
        words.translate(str.maketrans("{}", "[]", " ")),
        re.sub(r"^\.\.+(?=\d)", "../", words),
        re.sub(r"(?<=\d)\.\.+$", "/..", words),
        re.sub(r"(?<=\d)\.\.+(?=\d)", "/", words),
        re.sub(r"([~?%])\1+", r"\1", words),
        re.sub(r"[~?%]{2,}", "%", words),
        words.strip("[]"),
        re.sub(r"(?<=[\dux-])[ux]", "X", words),
        re.sub(r"\b(\d\d)(?:--|__|\?\?)(?!\S)", r"\1XX", words),
        re.sub(r"\b(\d\d\d)[-_?](?!\S)", r"\1X", words),
        re.sub(r"[t ]\d\d:?\d\d.*$", "", words),
        re.sub(r"\bopen\b", "..", words),
        re.sub(r"\b(?:unknown|\?)(?=/|$)", "", words),
    ]
    return next(([form] for form in candidates if form not in ("", words) and reads(form)), [])


def _qualified(words: str, reads: Reads) -> Forms:
    """As in "circa 1951", "1951 (?)", "probably 1951"."""
    if matched := re.fullmatch(rf"{_ABOUT}\s*(\S.*)|(\S.*?),?\s*(?:\(?{_ABOUT}\)?)", words):
        return _marked(matched[1] or matched[2], "~", reads)
    if matched := re.fullmatch(rf"{_UNSURE}\s+(.+)|(.+?)\s*(?:\(\?\)|\?)|(.+?),?\s*\(?{_UNSURE}\)?", words):
        return _marked(next(filter(None, matched.groups())), "?", reads)
    return []


def _marked(words: str, mark: str, reads: Reads) -> Forms:
    """The forms of `words` with `mark` at the end, or at both ends of a range."""
    forms = [form.replace("/", f"{mark}/", 1) for form in _forms(words, reads)]
    return [re.sub(r"(?<=[^~?%])([~?%]?)(?= |$)", mark, form, count=1) for form in forms]


def _bounded(words: str, reads: Reads) -> Forms:
    """As in "before 1951", "not after 1951", "since 1951"."""
    if matched := re.fullmatch(r"(before|earlier than|prior to|ante|pre-?)\s*(.+)", words):
        ends = _forms(matched[2], reads)
        years = [f"../{int(year) - 1:04} (before {year} began)" for year in ends if year.isdigit()]
        return years + [f"../{end} (then at the latest)" for end in ends]
    if matched := re.fullmatch(r"(?:by|until|till|up to|not later than|not after|to|<=?)\s*(.+)", words):
        return [f"../{end}" for end in _forms(matched[1], reads)]
    if matched := re.fullmatch(r"(after|later than|post-?)\s*(.+)", words):
        begins = _forms(matched[2], reads)
        years = [f"{int(year) + 1:04}/.. (after {year} ended)" for year in begins if year.isdigit()]
        return years + [f"{begin}/.. (then at the earliest)" for begin in begins]
    if matched := re.fullmatch(r"(?:since|from|not before|not earlier than|>=?)\s*(.+)|(.+) or later|(\d{4})-", words):
        return [f"{begin}/.." for begin in _forms(next(filter(None, matched.groups())), reads)]
    if matched := re.fullmatch(r"(.+) or earlier", words):
        return [f"../{end}" for end in _forms(matched[1], reads)]
    return []


def _listed(words: str, reads: Reads) -> Forms:
    """As in "1951 or 1953", "between 1951 and 1953", "1951-1953", "1951-53", words at both ends."""
    if matched := re.fullmatch(r"(\d\d)(\d\d)\s?[-/]\s?(\d\d)", words):
        return _readable([f"{matched[1]}{matched[2]}/{matched[1]}{matched[3]}"], reads)
    if matched := re.fullmatch(r"(\d{4}-\d\d)/(\d\d)|(\d{4}-\d\d-\d\d)/(\d\d)", words):
        start, end = filter(None, matched.groups())
        return [f"{start}/{start[: -len(end)]}{end}"]
    for pattern, form in (
        (r"(?:either )?(.+?),? or (.+)", "[{},{}]"),
        (r"\[?([^,;&]+) ?[,;&] ?([^,;&]+?)\]?", "[{},{}]"),
        (r"between (.+) (?:and|-) (.+)", "{}/{}"),
        (r"from (.+) (?:to|until|till|-) (.+)", "{}/{}"),
        (r"(.+) (?:to|until|till|-) (.+)", "{}/{}"),
        (r"(.*\d{4}[~?%]?)\s?-\s?(\D*\d{4}[~?%]?)", "{}/{}"),
        (r"([^/]+)/([^/]+)", "{}/{}"),
    ):
        matched = re.fullmatch(pattern, words)
        forms = _readable(_pairs(matched, form, reads), reads) if matched else []
        if forms:
            return forms
    return []


def _pairs(matched: re.Match[str], form: str, reads: Reads) -> Forms:
    return [
        form.format(one.partition(" ")[0], other.partition(" ")[0])
        for one in _forms(matched[1].strip(), reads)[:1]
        for other in _forms(matched[2].strip(), reads)[:1]
    ]


def _readable(forms: Forms, reads: Reads) -> Forms:
    return [form for form in forms if reads(form.partition(" ")[0])]


def _numbers(words: str, reads: Reads) -> Forms:
    """As in "12.4.1951", "4/12/1951", "1951.4.12", "19510412", "1985-102", "1985-W15"."""
    forms: Forms = []
    if matched := re.fullmatch(r"(\d{1,2})([./-])\s?(\d{1,2})[./-]\s?(\d{4})", words):
        day_first = f"{matched[4]}-{int(matched[3]):02}-{int(matched[1]):02}"
        month_first = f"{matched[4]}-{int(matched[1]):02}-{int(matched[3]):02}"
        forms = _readable([day_first, month_first], reads)
        if len(forms) == 2 and day_first != month_first:  # dots are always day first
            return forms[:1] if matched[2] == "." else [f"{forms[0]} (day first)", f"{forms[1]} (month first)"]
    elif matched := re.fullmatch(r"(\d{4})(?P<sign>[./:-])(\d{1,2})(?:(?P=sign)(\d{1,2}))?(?:[t ].*)?", words) or (
        re.fullmatch(r"(\d{4})年(?:(\d{1,2})月(?:(\d{1,2})日)?)?", words)
    ):
        forms = [
            "-".join([matched[1], *(f"{int(part):02}" for part in matched.groups()[1:] if part and part.isdigit())])
        ]
    elif matched := re.fullmatch(r"(\d{1,2})[./-](\d{4})", words):
        forms = [f"{matched[2]}-{int(matched[1]):02}"]
    elif matched := re.fullmatch(r"(\d{4})(\d\d)(\d\d)?(?:t?\d{4,6}z?)?", words):
        forms = ["-".join(filter(None, matched.groups()))]
    elif matched := re.fullmatch(r"(\d{4})-(\d{3})", words):
        new_year, number = date(max(int(matched[1]), 1), 1, 1), int(matched[2])
        forms = _safely(lambda: [date.fromordinal(new_year.toordinal() + number - 1)])
    elif matched := re.fullmatch(r"(\d{4})-?w(\d\d)(?:-?(\d))?", words):
        week = (int(matched[1]), int(matched[2]))
        wanted = [int(matched[3])] if matched[3] else [1, 7]
        forms = _safely(lambda: [date.fromisocalendar(*week, each) for each in wanted])
    return _readable(forms, reads)


def _safely(days: Callable[[], Iterable[date]]) -> Forms:
    try:
        return ["/".join(day.isoformat() for day in days())]
    except (ValueError, OverflowError):
        return []


def _named(words: str, reads: Reads) -> Forms:
    """As in "April 1951", "12 April 1951", "spring 1951"."""
    if matched := re.fullmatch(rf"(?:{_DAY}\s*(?:of )?)?{_MONTH},?\s*(?:of )?(\d{{4}})", words):
        day, month, year = matched.groups()
    elif matched := re.fullmatch(rf"{_MONTH}\s*{_DAY},?\s*(\d{{4}})", words):
        month, day, year = matched.groups()
    elif matched := re.fullmatch(rf"(\d{{4}}),?\s*{_MONTH}(?:\s*{_DAY})?", words):
        year, month, day = matched.groups()
    elif matched := re.fullmatch(rf"(?:the )?{_SEASON},?\s*(?:of )?(\d{{4}})", words):
        return _seasons(matched[2], _SEASONS[matched[1]], reads)
    elif matched := re.fullmatch(rf"(\d{{4}}),?\s*(?:in )?(?:the )?{_SEASON}", words):
        return _seasons(matched[1], _SEASONS[matched[2]], reads)
    else:
        return []
    number = next(at for at, name in enumerate(_MONTHS, start=1) if name.startswith(month[:3]))
    return [f"{year}-{number:02}" + (f"-{int(day):02}" if day else "")]


def _seasons(year: str, code: int, reads: Reads) -> Forms:
    if reads(f"{year}-{code}"):
        return [f"{year}-{code}"]
    return [f"{year}-{code + 4} (northern)", f"{year}-{code + 8} (southern)"]


def _vague(words: str, reads: Reads) -> Forms:
    """As in "1950s", "the early 1950s", "19th century"."""
    if matched := re.fullmatch(r"(?:the )?(early|mid|late)?[ -]?(?:the )?(\d{3})0'?s", words):
        part, decade = matched.groups()
        years = {"early": ("0", "3"), "mid": ("4", "6"), "late": ("7", "9")}.get(part or "")
        if years:
            return [f"{decade}{years[0]}/{decade}{years[1]}", f"{decade}X (the whole decade)"]
        if decade.endswith("0"):
            return [f"{decade[:2]}XX (the century)", f"{decade}X (the decade)"]
        return [f"{decade}X"]
    if matched := re.fullmatch(r"(?:the )?(\d{1,2})(?:st|nd|rd|th) (?:century|cent\.?|c\.?)", words):
        return [f"{int(matched[1]) - 1:02}XX"]
    return []
