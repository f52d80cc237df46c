"""The register of printed labels, labels/printed.yml: what was printed when, the newest last.

It is the curator's file as much as the program's: entries are only ever added at its end, so comments and order stay.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any

from archive_tools.model.label import LabelPrinted
from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem, Reach
from archive_tools.model.vocabulary import nearest
from archive_tools.read.text_files import decode
from archive_tools.read.yaml_text import parse_yaml

REGISTER = "labels/printed.yml"
KEYS = ("tree", "printed", "as_of", "edition", "size", "languages", "place", "says")
_NEEDED = ("tree", "printed", "says")


def read_register(folder: Path) -> tuple[tuple[LabelPrinted, ...], tuple[Problem, ...]]:
    """The labels printed so far, in the order written, and what is wrong with the register.

    An entry that cannot be understood is left out and told. No register: nothing was printed.
    """
    path = folder / REGISTER
    if not path.is_file():
        return (), ()
    found = decode(path.read_bytes(), REGISTER)
    if found.text is None:
        return (), found.problems
    parsed = parse_yaml(found.text)
    if not parsed.whole:
        return (), tuple(_problem(slip.spot, slip.what, slip.instead) for slip in parsed.slips)
    if parsed.value is None:
        return (), ()
    if not isinstance(parsed.value, list):
        return (), (_problem((1, 1), "the register is no list of labels", "- tree: S1979.2"),)
    entries: list[LabelPrinted] = []
    problems = [_problem(slip.spot, slip.what, slip.instead) for slip in parsed.slips]
    for number, item in enumerate(parsed.value):
        spot = parsed.marks.get((number,), (1, 1))
        entry = _entry(item, Mark(REGISTER, *spot))
        if isinstance(entry, LabelPrinted):
            entries.append(entry)
        else:
            problems.append(entry)
    return tuple(entries), tuple(problems)


def _entry(item: Any, mark: Mark) -> LabelPrinted | Problem:
    spot = (mark.line or 1, mark.column or 1)
    if not isinstance(item, Mapping):
        return _problem(spot, "this is no printed label", "tree: S1979.2 and the other keys, each on a line")
    for key in item:
        if key not in KEYS:
            return _problem(spot, f"a printed label has no key “{key}”", nearest(str(key), KEYS))
    for key in _NEEDED:
        if not item.get(key):
            return _problem(spot, f"a printed label needs “{key}”", f"{key}: …")
    says = item["says"]
    if not isinstance(says, Mapping) or not all(isinstance(text, str) for text in says.values()):
        return _problem(spot, "`says` is what stands on the label, each thing on a line", "name: Halvard's Maple")
    try:
        printed = date.fromisoformat(item["printed"])
        as_of = date.fromisoformat(item.get("as_of") or item["printed"])
    except (TypeError, ValueError):
        return _problem(spot, "`printed` and `as_of` are days", "printed: 2026-11-25")
    languages = item.get("languages") or []
    return LabelPrinted(
        accession=str(item["tree"]),
        printed=printed,
        as_of=as_of,
        size=str(item.get("size") or ""),
        languages=tuple([languages] if isinstance(languages, str) else map(str, languages)),
        says={str(key): " ".join(text.split()) for key, text in says.items()},
        mark=mark,
        place=str(item.get("place") or ""),
        edition=str(item.get("edition") or "public"),
    )


def _problem(spot: tuple[int, int], what: str, instead: str | None) -> Problem:
    return Problem(Mark(REGISTER, *spot), what, instead, "label-register", reach=Reach.TOLD)
