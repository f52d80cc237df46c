"""The bytes of a text file turned into text, or said plainly why not."""

from __future__ import annotations

import codecs
import re
from dataclasses import dataclass
from pathlib import Path

from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem, Reach, Severity

LARGEST_RECORD = 2_000_000
"""Bytes. A record written by hand is a few kilobytes; more than this is some other file by mistake."""

_BOMS = (
    (codecs.BOM_UTF32_LE, "UTF-32"),
    (codecs.BOM_UTF32_BE, "UTF-32"),
    (codecs.BOM_UTF16_LE, "UTF-16"),
    (codecs.BOM_UTF16_BE, "UTF-16"),
)
_UNWRITABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ufeff\ufffe\uffff]")
_SAVE_AS = "the same text, saved as UTF-8"


@dataclass(frozen=True, slots=True)
class TextFile:
    """A file's text with all line ends alike, or None where it cannot be read; and what was wrong with it."""

    text: str | None
    problems: tuple[Problem, ...] = ()


def read_text(path: Path, file: str) -> TextFile:
    """The text of `path`, which messages call `file`. Every fault becomes a problem; nothing is raised."""
    try:
        size = path.stat().st_size
        if size > LARGEST_RECORD:
            return _unread(
                Mark(file),
                "too-large",
                f"this file has {size:,} bytes, and no record is read beyond {LARGEST_RECORD:,}",
                "what belongs to the record alone; keep scans and long texts in documents/",
            )
        data = path.read_bytes()
    except (OSError, ValueError) as fault:
        return _unread(Mark(file), "unreadable-file", f"this file cannot be read: {_reason(fault)}")
    return decode(data, file)


def decode(data: bytes, file: str) -> TextFile:
    """`data` as UTF-8 text. A byte order mark is dropped with a warning."""
    warnings: list[Problem] = []
    for bom, name in _BOMS:
        if data.startswith(bom):
            return _unread(Mark(file, 1, 1), "not-utf8", f"this file is saved as {name}, not as UTF-8", _SAVE_AS)
    if data.startswith(codecs.BOM_UTF8):
        data = data[len(codecs.BOM_UTF8) :]
        what = "this file begins with an invisible byte order mark, which other programs may take for text"
        warnings.append(
            Problem(
                Mark(file, 1, 1),
                what,
                "UTF-8 without BOM, when you save it",
                "byte-order-mark",
                Severity.WARNING,
                Reach.TOLD,
            )
        )
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as fault:
        return _not_utf8(data, fault.start, file)
    if "\r" in text:
        text = text.replace("\r\n", "\n").replace("\r", "\n")
    wrong = _UNWRITABLE.search(text)
    if wrong:
        line, column = place_of(text, wrong.start())
        sign = ord(wrong[0])
        name = "a NUL byte (00)" if sign == 0 else f"an invisible control character (U+{sign:04X})"
        return _unread(
            Mark(file, line, column),
            "control-character",
            f"{name} stands here; is this a text file?",
            "the text without it",
        )
    return TextFile(text, tuple(warnings))


def place_of(text: str, index: int) -> tuple[int, int]:
    """Line and column, from 1, of the character at `index`."""
    return text.count("\n", 0, index) + 1, index - (text.rfind("\n", 0, index) + 1) + 1


def _not_utf8(data: bytes, at: int, file: str) -> TextFile:
    before = data[:at].replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    line = before.count(b"\n") + 1
    column = len(before.rpartition(b"\n")[2].decode("utf-8", "replace")) + 1
    byte = data[at]
    what = f"byte {at + 1} of this file, hexadecimal {byte:02X}, is not UTF-8"
    as_western = bytes([byte]).decode("cp1252", "ignore")
    if as_western.isprintable() and as_western:
        what += f"; in the older Western encoding it is “{as_western}”"
    return _unread(Mark(file, line, column), "not-utf8", what, _SAVE_AS)


def _unread(mark: Mark, rule: str, what: str, instead: str | None = None) -> TextFile:
    return TextFile(None, (Problem(mark, what, instead, rule, Severity.ERROR, Reach.RECORD),))


def _reason(fault: Exception) -> str:
    return (fault.strerror if isinstance(fault, OSError) else None) or str(fault)
