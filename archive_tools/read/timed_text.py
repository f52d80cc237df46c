"""A timed transcript, WebVTT or SubRip, read with the faults that programs and people make.

SubRip has no standard; its usual faults are commas or points before the milliseconds, too few digits, numbers that are
wrong or missing, blank lines that are missing or too many, a byte order mark, cues that overlap. They are read for what
is meant, and told. What cannot be read is told with its line and left out.
"""

from __future__ import annotations

import html
import re

from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem, Reach, Severity
from archive_tools.model.timed_text import Said

_TIME = r"(?:(\d{1,3})\s*[:.]\s*)?(\d{1,2})\s*[:.]\s*(\d{1,2})(?:\s*[,.]\s*(\d{1,3}))?"
_TIMING = re.compile(rf"^\s*{_TIME}\s*-+\s*>\s*{_TIME}(?:\s+\S.*)?$")
_LIKE_TIMING = re.compile(r"\d.*-+\s*>")
_NUMBER = re.compile(r"^\s*\d+\s*$")
_TAG = re.compile(r"</?[a-zA-Z][^<>]*>|<\d[^<>]*>|\{\\[^}]*\}")
_BLOCK = re.compile(r"^(?:NOTE|STYLE|REGION)\b")
RULE = "timed-text"


def read_timed_text(content: bytes, name: str) -> tuple[tuple[Said, ...], tuple[Problem, ...]]:
    """Everything said, in order of time, and the problems met. `name` is the file's, for messages."""
    problems: list[Problem] = []
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = (
            content.decode("utf-16", "replace")
            if content[:2] in (b"\xff\xfe", b"\xfe\xff")
            else content.decode("cp1252", "replace")
        )
        problems.append(_told(name, 1, "the file is not in UTF-8", "the same file saved in UTF-8", Severity.WARNING))
    lines = re.sub(r"\r\n?", "\n", text).split("\n")
    said: list[Said] = []
    at = 0
    while at < len(lines):
        if _BLOCK.match(lines[at]) and not _TIMING.match(lines[at]):
            at = _after_block(lines, at)
            continue
        timing = _TIMING.match(lines[at])
        if timing is None:
            if _LIKE_TIMING.search(lines[at]):
                problems.append(
                    _told(name, at + 1, f"the times “{lines[at].strip()}” cannot be read",
                          "hours:minutes:seconds.thousandths --> hours:minutes:seconds.thousandths")
                )  # fmt: skip
            at += 1
            continue
        begin, end = _milliseconds(timing.groups()[:4]), _milliseconds(timing.groups()[4:])
        words, after = _words(lines, at + 1)
        if end < begin:
            problems.append(
                _told(
                    name, at + 1, "this ends before it begins", "a later end; its beginning is used", Severity.WARNING
                )
            )
            end = begin
        if words:
            said.append(Said(begin, end, words, at + 1))
        at = after
    if not said:
        problems.append(_told(name, 1, "no timed words were found in it", "a WebVTT or SubRip file with times"))
    ordered = sorted(said, key=lambda one: (one.begin, one.line))
    if ordered != said:
        problems.append(
            _told(name, 1, "its times do not follow each other", "nothing; they are put in order", Severity.WARNING)
        )
    return tuple(ordered), tuple(problems)


def _words(lines: list[str], at: int) -> tuple[str, int]:
    """The words under a timing line, and the line after them.

    They end at a blank line, or where the next timing stands although the blank line is missing.
    """
    found: list[str] = []
    while at < len(lines):
        following = lines[at + 1] if at + 1 < len(lines) else ""
        if _TIMING.match(lines[at]) or (_NUMBER.match(lines[at]) and _TIMING.match(following)):
            break
        if not lines[at].strip():
            break
        found.append(html.unescape(_TAG.sub("", lines[at])).strip())
        at += 1
    return " ".join(part for part in found if part), at


def _after_block(lines: list[str], at: int) -> int:
    while at < len(lines) and lines[at].strip():
        at += 1
    return at


def _milliseconds(parts: tuple[str | None, ...]) -> int:
    hours, minutes, seconds, fraction = parts
    # "5" after the point is five tenths, as in any number: not five thousandths.
    thousandths = int(f"{fraction or '0':0<3}")
    return ((int(hours or 0) * 60 + int(minutes or 0)) * 60 + int(seconds or 0)) * 1000 + thousandths


def _told(name: str, line: int, what: str, instead: str, severity: Severity = Severity.ERROR) -> Problem:
    return Problem(Mark(name, line), what, instead, RULE, severity=severity, reach=Reach.TOLD)
