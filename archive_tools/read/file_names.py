"""Names of files and folders: which are left alone, and which cannot be kept on every machine."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable

_WINDOWS = re.compile(r"(?:con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])(?:\..*)?", re.IGNORECASE)
_REFUSED = re.compile(r"[<>:\"|?*\\\x00-\x1f\x7f-\x9f]")
_LEFT_ALONE = re.compile(
    r"\..*|.*~|#.*#|~\$.*|.*\.(?:bak|orig|rej|tmp|temp|swp|swo|part|lock)|thumbs\.db|desktop\.ini|__macosx|icon\r",
    re.IGNORECASE,
)
LONGEST = 200
"""Bytes of one name in UTF-8; file systems take 255, and tools add endings of their own."""


def is_left_alone(name: str) -> bool:
    """Hidden files, editors' backups and what operating systems leave behind."""
    return _LEFT_ALONE.fullmatch(name) is not None


def fault_of_name(name: str) -> tuple[str, str] | None:
    """What is wrong with a name, and what to call it instead; None if every common file system takes it."""
    shown = shown_name(name)
    if shown != name and any("\udc80" <= letter <= "\udcff" for letter in name):
        return f"the name “{shown}” is not written in UTF-8", "a name of plain letters, digits, - and _"
    if _WINDOWS.fullmatch(name):
        return f"“{name}” is a name that Windows keeps for itself", f"_{name}"
    found = _REFUSED.search(name)
    if found:
        sign = repr(found[0])[1:-1]
        return f"the name holds {sign}, which not every file system takes", _REFUSED.sub("-", name)
    if name.endswith((".", " ")) or name.startswith(" "):
        return "the name begins or ends with a space, or ends with a point", name.strip(" ").rstrip(". ") or "a name"
    if len(name.encode("utf-8", "surrogateescape")) > LONGEST:
        return f"the name is longer than {LONGEST} bytes", "a shorter name"
    return None


def same_on_some_machines(names: Iterable[str]) -> list[tuple[str, str]]:
    """Pairs (later, earlier) of names that a file system blind to case or Unicode form takes for one."""
    seen: dict[str, str] = {}
    pairs = []
    for name in names:
        key = unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())
        if key in seen:
            pairs.append((name, seen[key]))
        else:
            seen[key] = name
    return pairs


def shown_name(name: str) -> str:
    """The name as it can be printed: bytes that are not UTF-8, and invisible signs, as escapes."""
    return name.encode("utf-8", "surrogateescape").decode("utf-8", "backslashreplace")
