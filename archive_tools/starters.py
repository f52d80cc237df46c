"""Starter files: what `archive-tools new` writes for a curator to fill in.

A starter is valid as it stands (where it can be) and says in comments what else may be written. Nothing that exists is
ever written over.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from importlib.resources import files
from pathlib import Path
from string import Template

SORTS = ("tree", "note", "steward", "source")


class AlreadyThereError(Exception):
    """The file to be written exists; it is left as it is."""

    def __init__(self, path: Path) -> None:
        self.path = path
        super().__init__(f"{path} is already there; nothing was written")


def write_starter(sort: str, path: Path, values: Mapping[str, str]) -> Path:
    """Write the starter file of one sort ("tree", "note", "steward" or "source") to `path`, with its values filled in.

    Raises AlreadyThereError when `path` exists and KeyError when a value the starter needs is missing.
    """
    text = Template(files("archive_tools").joinpath("templates", "starters", f"{sort}.txt").read_text(encoding="utf-8"))
    filled = text.substitute({key: as_yaml(value) if key != "title" else value for key, value in values.items()})
    if path.exists():
        raise AlreadyThereError(path)
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("x", encoding="utf-8", newline="\n") as file:
        file.write(filled)
    return path


def as_yaml(text: str) -> str:
    """Text as one YAML scalar that reads back as itself: quoted when it holds anything but plain characters."""
    if re.fullmatch(r"[^\W\d_][\w .()/×'’-]*[\w.)’]|[\w.-]*\w", text):
        return text
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def slug_of(text: str) -> str:
    """A short name for a folder or file: lower case letters, digits and hyphens; "untitled" when nothing is left."""
    return re.sub(r"[^a-z0-9]+", "-", text.casefold()).strip("-") or "untitled"
