"""The text of a photos.yml: entries put at its end, and taken out again, all else byte for byte as it was.

ruamel.yaml writes the entries. It does not write what stands there already: reading a list and writing it again keeps
comments and order, but not the curator's indentation, quotes, line ends or three dashes.
"""

from __future__ import annotations

import hashlib
import io
import re
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.comments import CommentedMap, CommentedSeq
from ruamel.yaml.nodes import ScalarNode
from ruamel.yaml.resolver import VersionedResolver
from ruamel.yaml.scalarstring import DoubleQuotedScalarString

from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem
from archive_tools.read.text_files import decode
from archive_tools.read.yaml_text import Parsed, parse_yaml

Entry = tuple[tuple[str, str | list[str]], ...]
"""The keys of one photograph in the order in which they are written, each with text or a list of text."""

_PLAIN = re.compile(r"(?:[^\W\d_][\w .()/×’-]*[\w.)’]|[\w.-]*\w)")
_NOT_TEXT = re.compile(r"(?:null|true|false|yes|no|on|off|y|n|\.inf|\.nan)", re.IGNORECASE)
_DASH = re.compile(r"( *)-(?: |$)")


class SheetError(ValueError):
    """A photos.yml to which no entry can be added as it stands."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.what)
        self.problem = problem


@dataclass(frozen=True, slots=True)
class Written:
    """A photos.yml with entries added: its new bytes; the text put before the first; each entry's own text."""

    data: bytes
    joined: str
    blocks: tuple[str, ...]


def add_entries(data: bytes | None, entries: Sequence[Entry], file: str) -> Written:
    """Put `entries` at the end of a photos.yml (`data` None: there is none yet), in its own indentation and line ends.

    Raises SheetError, with the place in `file` and what to write instead, where the file is no list to which an entry
    can be added without touching what stands there. What comes out is read back: the former entries as they were, then
    the new ones.
    """
    old, parsed = _read(data, file)
    text = (data or b"").decode("utf-8")
    ends = "\r\n" if "\r\n" in text else "\r" if "\r" in text and "\n" not in text else "\n"
    indent = _indent(old, parsed, file)
    blocks = tuple(_block(entry, indent).replace("\n", ends) for entry in entries)
    joined = "" if not text or text.endswith(("\n", "\r")) or text == "\ufeff" else ends
    made = Written((text + joined + "".join(blocks)).encode("utf-8"), joined, blocks)
    after = parse_yaml(decode(made.data, file).text or "")
    wanted = [*(parsed.value or []), *(_as_read(entry) for entry in entries)]
    if not after.whole or after.value != wanted or len(after.slips) > len(parsed.slips):
        end = old.count("\n") + 1
        raise _refused(
            file, (end, 1), "no entry can be put after the end of this file", "entries only, to its last line"
        )
    return made


def put_back(data: bytes | None, blocks: Sequence[str], joined: str) -> bytes:
    """A photos.yml with those of the entries `blocks` at its end that are not in it as they were written."""
    missing = [block for block in blocks if not has_block(data, block)]
    before = data or b""
    if not missing:
        return before
    return before + (joined + "".join(missing)).encode("utf-8", "surrogateescape")


def take_out(data: bytes, blocks: Sequence[str], joined: str, former: str | None) -> bytes | None:
    """A photos.yml without those of the entries `blocks` that stand in it as they were written.

    former: SHA-256 of the file before they were added, so that it comes out exactly so where nothing else has changed;
    None where there was no file, and then none comes out once nothing is left in it.
    """
    text = data.decode("utf-8", "surrogateescape")
    for block in blocks:
        at = _only_at(text, block)
        if at is not None:
            text = text[:at] + text[at + len(block) :]
    if former is None and not text.strip("\ufeff \r\n"):
        return None
    unjoined = text[: len(text) - len(joined)] if joined and text.endswith(joined) else text
    as_it_was = unjoined.encode("utf-8", "surrogateescape")
    if hashlib.sha256(as_it_was).hexdigest() == former:
        return as_it_was
    return text.encode("utf-8", "surrogateescape")


def files_named(data: bytes | None, file: str) -> tuple[str, ...]:
    """The file names that the entries of a photos.yml give; none where it cannot be read."""
    try:
        _, parsed = _read(data, file)
    except SheetError:
        return ()
    items = parsed.value if isinstance(parsed.value, list) else [parsed.value]
    named = [item.get("file") for item in items if isinstance(item, dict)]
    return tuple(name.strip() for name in named if isinstance(name, str))


def has_block(data: bytes | None, block: str) -> bool:
    """Whether an entry stands in a photos.yml just as it was written."""
    return data is not None and _only_at(data.decode("utf-8", "surrogateescape"), block) is not None


def _only_at(text: str, block: str) -> int | None:
    """Where an entry stands as it was written: once, from the beginning of a line, with nothing added below it."""
    at = text.find(block)
    while at >= 0:
        end = at + len(block)
        indent = len(block) - len(block.lstrip(" "))
        below = text[end : end + indent + 1]
        if (at == 0 or text[at - 1] in "\r\n\ufeff") and not (below and not below.strip(" ")):
            return at if text.find(block, at + 1) < 0 else None
        at = text.find(block, at + 1)
    return None


def _read(data: bytes | None, file: str) -> tuple[str, Parsed]:
    if data is None:
        return "", parse_yaml("")
    found = decode(data, file)
    if found.text is None:
        raise SheetError(found.problems[0])
    parsed = parse_yaml(found.text)
    if not parsed.whole:
        slip = parsed.slips[0]
        raise _refused(file, slip.spot, slip.what, slip.instead)
    return found.text, parsed


def _indent(text: str, parsed: Parsed, file: str) -> str:
    """The spaces before the dash of each entry."""
    if parsed.value is None:
        return ""
    number, first = next(
        (number, line)
        for number, line in enumerate(text.split("\n"), 1)
        if line.strip() and not line.lstrip().startswith(("#", "---", "%"))
    )
    dash = _DASH.match(first)
    if isinstance(parsed.value, list) and dash is not None and "\t" not in dash[0]:
        return dash[1]
    column = len(first) - len(first.lstrip()) + 1
    if isinstance(parsed.value, dict):
        what = "one entry stands here alone, without a dash, and no second one can be put below it"
        raise _refused(
            file, (number, column), what, f"- {first.strip()} (and two more spaces before the lines below it)"
        )
    what = "this is no list with a line of its own for each key, so no entry can be put at its end"
    raise _refused(file, (number, column), what, "each entry on lines of its own, the first beginning with “- file:”")


def _block(entry: Entry, indent: str) -> str:
    """One entry as ruamel.yaml writes it, a line for each key, moved in as far as the entries above it."""
    written = io.StringIO()
    writer = YAML()
    writer.Resolver = _AllText
    writer.width = sys.maxsize
    writer.dump([CommentedMap((key, _value(value)) for key, value in entry)], written)
    return "".join(f"{indent}{line}\n" for line in written.getvalue().split("\n") if line)


class _AllText(VersionedResolver):
    """A date or a number is written as it stands, as a curator would, not in quotes."""

    def resolve(self, kind: Any, value: Any, implicit: Any) -> Any:
        return self.DEFAULT_SCALAR_TAG if kind is ScalarNode else super().resolve(kind, value, implicit)


def _value(value: str | list[str]) -> Any:
    if isinstance(value, str):
        return _scalar(value)
    listed = CommentedSeq(_scalar(one) for one in value)
    listed.fa.set_flow_style()
    return listed


def _scalar(text: str) -> str:
    """Text in quotes wherever one reader or another might take it for something else: they differ about signs.

    true and false stay plain, as a curator writes them.
    """
    plain = text in ("true", "false") or (_PLAIN.fullmatch(text) and not _NOT_TEXT.fullmatch(text))
    return text if plain else DoubleQuotedScalarString(text)


def _as_read(entry: Entry) -> dict[str, Any]:
    return {key: value if isinstance(value, str) else list(value) for key, value in entry}


def _refused(file: str, spot: tuple[int, int], what: str, instead: str | None) -> SheetError:
    return SheetError(Problem(Mark(file, *spot), what, instead, "cannot-add"))
