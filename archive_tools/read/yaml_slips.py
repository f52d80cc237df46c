"""The YAML parser's complaints in plain words, each with what was probably meant."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from archive_tools.model.places_in_files import Step

Spot = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Slip:
    """Something wrong with a text as YAML. `path` is the value it belongs to; () is the whole text."""

    path: tuple[Step, ...]
    spot: Spot
    rule: str
    what: str
    instead: str | None = None


_QUOTES = "the value in quotes"
_PLAIN: tuple[tuple[str, str, str], ...] = (
    (
        "block sequence entries are not allowed",
        "a list begins here in the middle of a line",
        "each “- …” on a line of its own, or [one, two] in brackets",
    ),
    (
        "could not find expected ':'",
        "this line has neither a key with a colon nor a dash",
        "a key, a colon and a space, like date: 1951; lines that go on from the one above are indented",
    ),
    (
        "found a tab character",
        "a tab stands here, and only spaces may indent a line",
        "spaces instead of the tab",
    ),
    (
        "did not find expected '-' indicator",
        "this line belongs to no item of the list above it",
        "a dash before each item, all in one column",
    ),
    (
        "found unknown escape character",
        "a backslash in double quotes means something special, and this one means nothing",
        "the value in single quotes, or two backslashes",
    ),
    (
        "did not find expected hexdecimal number",
        "a backslash in double quotes means something special, and this one is not complete",
        "the value in single quotes, or two backslashes",
    ),
    (
        "unexpected document indicator",
        "three dashes or dots stand inside a quoted text that is not closed",
        "the closing quote where the text ends",
    ),
    (
        "mapping keys are not allowed",
        "a value that begins with ? must stand in quotes",
        "the value in quotes",
    ),
    (
        "expected <document start>",
        "three dots end the record above, and something follows",
        "one record a file: take the line of dots out",
    ),
)
_KEY_AND_VALUE = re.compile(r"\s*(?:- +)?([\w ]+?): +([^\"'\[{].*: .*\S)\s*")


def empty_value(path: tuple[Step, ...], spot: Spot, rest_of_line: str) -> Slip:
    """A key or a dash with nothing after it; what follows # on its line is a comment."""
    rest = rest_of_line.strip()
    last = path[-1] if path else None
    name = "here" if last is None else f"after `{last}`" if isinstance(last, str) else "after this dash"
    if rest.startswith("#") and rest[1:2].strip("# "):
        what = f"nothing is written {name}: everything from # on is a comment"
        return Slip(path, spot, "empty-value", what, f'"{rest}" if that is the value')
    return Slip(path, spot, "empty-value", f"nothing is written {name}", "a value, or leave the line out")


DEEPEST = 20
"""Levels of lists and keys inside each other; a record needs six."""


def too_deep(spot: Spot) -> Slip:
    """More levels than any record has."""
    what = f"lists and keys are nested more than {DEEPEST} levels deep here"
    return Slip((), spot, "too-deep", what, "a flatter record")


def explain_parser(fault: Any, text: str, spot: Callable[[Any], Spot], opened: tuple[str, Spot] | None) -> Slip:
    """What `fault` means for a curator.

    `spot` turns a mark into line and column; `opened` is the innermost [ or { that is still open, and its place.
    """
    problem = str(getattr(fault, "problem", None) or "")
    mark = getattr(fault, "problem_mark", None)
    context = str(getattr(fault, "context", None) or "")
    begun = getattr(fault, "context_mark", None)
    if mark is None:
        return Slip((), (1, 1), "bad-yaml", "this text cannot be read as a record", None)
    here = spot(mark)
    if "nesting depth" in problem:
        return too_deep(here)
    if "quoted scalar" in context and "end of stream" in problem and begun is not None:
        sign = text[begun.index : begun.index + 1]
        what = f"the quotation mark {sign} that opens here is never closed"
        return Slip((), spot(begun), "bad-yaml", what, f"{sign} where the text ends")
    if "block scalar" in context and begun is not None:
        return _folded(text, begun, spot(begun))
    if opened is not None and (here[0] > opened[1][0] or not text[mark.index :].strip()):
        return _unclosed(*opened, here)
    sign = text[mark.index : mark.index + 1]
    if "cannot start any token" in problem:
        return _bad_start(sign, here)
    if "anchor" in context or "alias" in context:
        what = "a value that begins with & or * must stand in quotes"
        return Slip((), spot(begun) if begun is not None else here, "bad-yaml", what, _QUOTES)
    if "tag" in context:
        what = "a value that begins with ! must stand in quotes"
        return Slip((), spot(begun) if begun is not None else here, "bad-yaml", what, _QUOTES)
    if "directive" in context:
        return Slip(
            (),
            spot(begun) if begun is not None else here,
            "bad-yaml",
            "a line that begins with % belongs to no record",
            _QUOTES,
        )
    if "node content" in problem:
        return _no_value(sign, here)
    if opened is not None:
        if (opened[0], sign) in (("[", "}"), ("{", "]")):
            what = f"the {opened[0]} that opens in column {opened[1][1]} is closed by a {sign}"
            return Slip((), here, "bad-yaml", what, "]" if sign == "}" else "}")
        what = "something inside these brackets cannot be read"
        instead = "a comma between the items, and quotes round a value that holds [ ] { } , or ?"
        return Slip((), here, "bad-yaml", what, instead)
    line = text[text.rfind("\n", 0, mark.index) + 1 :].partition("\n")[0]
    if "mapping values are not allowed" in problem:
        return _second_colon(line, here)
    if "did not find expected key" in problem:
        return _fits_nowhere(line, here)
    at = spot(begun) if begun is not None and "simple key" in context else here
    for words, what, instead in _PLAIN:
        if words in problem:
            return Slip((), at, "bad-yaml", what, instead)
    return Slip((), here, "bad-yaml", f"this cannot be read as a record ({problem or 'broken'})", None)


def _folded(text: str, begun: Any, at: Spot) -> Slip:
    line = text[begun.index :].partition("\n")[0].strip()
    what = f"a value that begins with {line[:1]} must stand in quotes, or it is taken for the sign of a long text"
    return Slip((), at, "bad-yaml", what, f'"{line}"')


def _unclosed(sign: str, at: Spot, here: Spot) -> Slip:
    what = f"the {sign} that opens here is not closed"
    if here[0] > at[0]:
        what += f", or a comma is missing before line {here[0]}"
    closing = "]" if sign == "[" else "}"
    return Slip((), at, "bad-yaml", what, f"{closing} after its last item")


def _second_colon(line: str, here: Spot) -> Slip:
    found = _KEY_AND_VALUE.fullmatch(line)
    if found:
        what = "a second colon with a space after it stands here, so the value must stand in quotes"
        value = found[2].replace("\\", "\\\\").replace('"', '\\"')
        return Slip((), here, "bad-yaml", what, f'{found[1]}: "{value}"')
    what = "this line is indented as if it went on from the value above it"
    return Slip((), here, "bad-yaml", what, "the key in one column with the others of its record")


def _fits_nowhere(line: str, here: Spot) -> Slip:
    before = line[: here[1] - 1].strip()
    if before:
        what = f"text follows here after the closing {before[-1]} of the value"
        instead = "quotes round the whole value, of the other sort than those inside it"
        return Slip((), here, "bad-yaml", what, instead)
    if line.strip().startswith(":"):
        return Slip((), here, "bad-yaml", "a colon stands here without a key before it", "the key, then the colon")
    what = "this line belongs to nothing above it: its indentation agrees with no other line"
    return Slip((), here, "bad-yaml", what, "keys of one record in one column, items of one list in one column")


def _bad_start(sign: str, here: Spot) -> Slip:
    if sign == "\t":
        return Slip((), here, "bad-yaml", "a tab stands here, and only spaces may indent a line", "spaces")
    return Slip((), here, "bad-yaml", f"a value that begins with {sign} must stand in quotes", _QUOTES)


def _no_value(sign: str, here: Spot) -> Slip:
    if sign in ("]", "}", ","):
        what = f"a {sign} stands here with nothing before it that it could belong to"
        return Slip((), here, "bad-yaml", what, f"the value in quotes if it begins with {sign}, else take it out")
    if sign == "?":
        return Slip((), here, "bad-yaml", "a ? inside one-line braces must stand in quotes", '"?"')
    return Slip((), here, "bad-yaml", "a value is missing here", _QUOTES)
