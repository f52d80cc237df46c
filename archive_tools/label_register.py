"""Adds to the register of printed labels. The file is only ever added to at its end: comments and order stay."""

from __future__ import annotations

import json
import tempfile
from collections.abc import Iterable
from datetime import date
from pathlib import Path

from archive_tools.model.label import LabelWords
from archive_tools.read.label_register import REGISTER, read_register

_HEAD = """\
# Labels that were printed, the newest last. `archive-tools labels --stale` compares what they say with the records.
# An entry may be deleted once its label has been taken away; nothing here is ever changed by the program.
"""


class RegisterError(ValueError):
    """A register that cannot be added to as it stands; the message says where and why."""


def record_printed(
    folder: Path, words: Iterable[LabelWords], *, printed: date, as_of: date, size: str, edition: str
) -> int:
    """Put an entry for each printed label at the end of the register, and return how many. Raises RegisterError.

    What comes out is read back before it takes the old file's place: all former entries, then the new ones.
    """
    path = folder / REGISTER
    before, problems = read_register(folder)
    if problems:
        first = problems[0]
        raise RegisterError(f"{first.mark}: {first.what}. The labels were printed, but nothing was recorded")
    old = path.read_text(encoding="utf-8") if path.is_file() else _HEAD
    blocks = [_entry(one, printed, as_of, size, edition) for one in words]
    text = old + ("" if not old or old.endswith("\n") else "\n") + "".join(blocks)
    path.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=folder, prefix=".register-") as trial:
        (Path(trial) / REGISTER).parent.mkdir(parents=True)
        (Path(trial) / REGISTER).write_text(text, encoding="utf-8")
        after, slips = read_register(Path(trial))
        if slips or after[: len(before)] != before or len(after) != len(before) + len(blocks):
            where = slips[0].mark if slips else REGISTER
            raise RegisterError(f"{where}: no entry can be put after the end of this file; nothing was recorded")
        (Path(trial) / REGISTER).replace(path)
    return len(blocks)


def _entry(words: LabelWords, printed: date, as_of: date, size: str, edition: str) -> str:
    languages = [words.language, *([words.other.language] if words.other else [])]
    lines = [
        f"- tree: {json.dumps(words.accession, ensure_ascii=False)}",
        f"  printed: {printed.isoformat()}",
        f"  as_of: {as_of.isoformat()}",
        f"  edition: {edition}",
        f"  size: {size}",
        f"  languages: [{', '.join(languages)}]",
        *([f"  place: {json.dumps(words.place, ensure_ascii=False)}"] if words.place else []),
        "  says:",
        *(f"    {key}: {json.dumps(' '.join(text.split()), ensure_ascii=False)}" for key, text in words.said.items()),
    ]
    return "\n".join(lines) + "\n"
