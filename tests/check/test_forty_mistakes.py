"""A collection with forty mistakes in twenty files: each is told, at its line, in one run, and nothing else is.

A mistake is marked at the end of its line by the rule that must tell it; the marks are taken out before the files are
written.
"""

from __future__ import annotations

import io
import json
import re
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner
from PIL import Image

from archive_tools.cli import cli
from archive_tools.model.problems import Problem
from archive_tools.pipeline import check

TODAY = date(2026, 11, 25)
_MARK = re.compile(r" *«([a-z-]+)»")

FILES = {
    "collection.yml": """
name: The Slope
custodian: the-slope
hemisphere: north
accent: "#c05030" «pale-accent»
rights: CC BY 4.0 «bad-rights»
defaults:
  {trees: public, events: public, notes: public, photographs: public, stewards: public,
  sources: public, objects: public, tours: public, talks: public}
acession_pattern: '^T[0-9]$' «unknown-key»
""",
    "places.yml": """
places:
  low-court: {name: Low Court, open_to: public}
  high-court: {name: High Court, open_to: public}
paths:
  - {between: [low-court, hihg-court], metres: 20, step_free: true} «unknown-place»
""",
    "stewards/the-slope.yml": """
name: The Slope
kind: institution
""",
    "stewards/ada-brenn.yml": """
name: Ada Brenn
kind: person
taught_by: olof-tarn «circle-of-teaching»
""",
    "stewards/olof-tarn.yml": """
name: Olof Tarn
kind: persn «unknown-word»
born: 1920
died: 1919 «died-before-born»
taught_by: ada-brenn
""",
    "stewards/quiet-one.yml": """
name: Ingrith Maal
kind: person
visibility: internal «no-public-name»
""",
    "stewards/two-gardeners.yml": """
name: The two gardeners
kind: couple
members: [ada-brenn, two-gardeners] «circle-of-members»
""",
    "sources/ledger.yml": """
title: Ledger of the slope
kind: ledger
date: 1950/1970
made_by: ada-bren «unknown-steward»
""",
    "sources/letter.yml": """
title: Letter
kind: letter
date: 1962-13 «bad-date»
""",
    "sources/report.yml": """
kind: survey «missing-key»
""",
    "objects/grey-tray.yml": """
name: Grey tray
kind: tray
events:
  - {kind: observed, date: 2020, source: leger} «unknown-source»
""",
    "trees/T1-elder/tree.yml": """
accession: T1
taxon: Ulmus parvifolia
place: low-court
portrait: 2019.jpg
label: The elder of the two.
events:
  - {id: struck, kind: struck, date: 1950, by: ada-brenn, source: ledger}
  - {id: potted, kind: pottd, date: 1953, source: ledger} «unknown-kind»
  - {id: repotted-1, kind: repotted, date: 1960-03, share: 3/4, cycle: roots, source: ledger}
  - {id: repotted-2, kind: repotted, date: 1961-03, share: 2/4, cycle: roots, source: ledger} «cycle-beyond-whole»
  - {id: trimmed, kind: pruned, date: 1971, into: gray-tray, source: ledger} «unknown-object»
  - {id: given, kind: gift, date: 1980} «nobodys-hands»
  - {id: timed, kind: pruned, date: 1996, timing: [{after: strack}], source: ledger} «unknown-event»
  - {id: planned, kind: repotted, date: 2025-03, planned: true} «plan-not-ahead»
  - {id: ahead, kind: pruned, date: 2028} «not-yet»
  - {id: held, kind: pruned, date: 1997, by: quiet-one, source: ledger}
""",
    "trees/T1-elder/notes/2020-01-01-roots.md": """
---
kind: observed
sorce: ledger «unknown-key»
---
The roots are white.
""",
    "trees/T1-elder/notes/2020-02-01-branch.md": """
---
title: The branch
---
What was cut in the spring
lives on as [[T9]]. «unknown-tree»
""",
    "trees/T1-elder/notes/2020-03-01-visit.md": """
---
title: A visit
by: ada-brenn
---
A visitor came on a dark day,
and Ingrith  Maal showed her round. «withheld-name»
""",
    "trees/T1-elder/photos/photos.yml": """
- {file: 2019.jpg, caption: From the front, children: true} «children-without-consent»
- {file: 2020.jpg, marks: {rim: [2, 2], apex: [90, 3]}} «mark-outside»
- {file: 2021.jpg, photographer: ada-brenn}
- {file: 2022.jpg, view: side} «unknown-word»
- {file: 2023.jpg} «photo-missing»
- {file: 2024.jpg} «same-picture»
""",
    "trees/T1-elder/photos/2019.jpg": "red",
    "trees/T1-elder/photos/2020.jpg": "green",
    "trees/T1-elder/photos/2021.jpg": "blue",
    "trees/T1-elder/photos/2022.jpg": "yellow",
    "trees/T1-elder/photos/2024.jpg": "green",
    "trees/T2-younger/tree.yml": """
accession: T2
taxon: Ulmus parvifolia
form: moyogi «unknown-style»
portrait: 2018.jpg «unknown-photo»
label: The younger, which hangs over.
members:
  - {id: a, from: 1990, until: 1980} «until-before-date»
events:
  - {id: severed, kind: layer severed, date: 1970, from_tree: T3} «circle-of-descent»
  - {id: moved, kind: moved, date: 1971, at: low-court, at: high-court} «duplicate-key»
comparisons:
  - {id: then, before: 2010.jpg, after: 2011.jpg, align_on: [rim, apx]} «unknown-mark»
""",
    "trees/T2-younger/photos/photos.yml": """
- {file: 2010.jpg, marks: {rim: [2, 2], apex: [9, 3]}, consent: yes, people: [visitors]}
- {file: 2011.jpg, marks: {rim: [2, 2], apex: [9, 9]}}
""",
    "trees/T2-younger/photos/2010.jpg": "black",
    "trees/T2-younger/photos/2011.jpg": "white",
    "trees/T3-third/tree.yml": """
accession: T3 «no-portrait»
taxon: Ulmus parvifolia
label: A third.
events:
  - {id: severed, kind: layer severed, date: 1960, from_tree: T2}
  - {id: swapped, kind: tags exchanged, date: 1999} «tags-of-one-tree»
""",
    "trees/T3-third/notes/2020-04-01-bark.md": """
---
event: severd «unknown-event»
---
The bark has closed.
""",
    "pages/visiting.md": """
The old one, [[T7]], stands by the gate. «unknown-tree»
""",
    "tours/long-way.yml": """
title: The long way
start: low-court
must: [T1, T4] «unknown-tree»
""",
    "talks/evening.yml": """
title: An evening
sections:
  - {title: Then, seconds: 60, show: ["T2#than"]} «unknown-comparison»
""",
}


def write(folder: Path) -> list[tuple[str, int | None, str]]:
    """The files, without their marks; and what must be told of them."""
    expected: list[tuple[str, int | None, str]] = []
    for name, content in FILES.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        if path.suffix == ".jpg":
            buffer = io.BytesIO()
            Image.new("RGB", (40, 30), content).save(buffer, "JPEG")
            path.write_bytes(buffer.getvalue())
            continue
        lines = content.strip().split("\n")
        for number, line in enumerate(lines, start=1):
            expected += [(name, number, rule) for rule in _MARK.findall(line)]
        path.write_text("\n".join(_MARK.sub("", line) for line in lines) + "\n", encoding="utf-8")
    return expected


def listed(problems: list[tuple[str, int | None, str]]) -> str:
    return "\n".join(f"{file}:{line}: {rule}" for file, line, rule in sorted(problems, key=str))


def told(problem: Problem) -> tuple[str, int | None, str]:
    return problem.mark.file, problem.mark.line, problem.rule


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("slope")
    write(made)
    return made


def test_forty_mistakes_are_told_in_one_run(tmp_path: Path) -> None:
    expected = write(tmp_path)
    problems = check(tmp_path, as_of=TODAY, today=TODAY)
    assert listed([told(problem) for problem in problems]) == listed(expected)
    assert len(expected) == 40
    assert len({file for file, _, _ in expected}) >= 20


def test_each_is_told_in_plain_words(folder: Path) -> None:
    for problem in check(folder, as_of=TODAY, today=TODAY):
        assert problem.mark.line is not None
        assert 10 < len(problem.what) < 400
        assert "Traceback" not in problem.what
        assert "object at 0x" not in problem.what


def test_slips_are_answered_with_what_was_probably_meant(folder: Path) -> None:
    answers = {told(problem): problem.instead for problem in check(folder, as_of=TODAY, today=TODAY)}
    meant = {
        ("collection.yml", "unknown-key"): "accession_pattern",
        ("collection.yml", "bad-rights"): "CC-BY-4.0",
        ("places.yml", "unknown-place"): "high-court",
        ("sources/ledger.yml", "unknown-steward"): "ada-brenn",
        ("objects/grey-tray.yml", "unknown-source"): "ledger",
        ("trees/T2-younger/tree.yml", "unknown-style"): "informal upright",
        ("trees/T1-elder/tree.yml", "unknown-kind"): "potted",
        ("trees/T1-elder/tree.yml", "unknown-object"): "grey-tray",
        ("trees/T1-elder/tree.yml", "unknown-event"): "struck",
        ("trees/T1-elder/notes/2020-01-01-roots.md", "unknown-key"): "source",
        ("trees/T2-younger/tree.yml", "unknown-mark"): "apex",
        ("talks/evening.yml", "unknown-comparison"): "T2#then",
    }
    given = {(file, rule): instead for (file, _, rule), instead in answers.items()}
    for key, instead in meant.items():
        assert instead in (given[key] or ""), (key, given[key])


def test_the_command_says_the_same_and_ends_with_1(folder: Path) -> None:
    as_of = ["--as-of", TODAY.isoformat()]
    result = CliRunner().invoke(cli, ["check", str(folder), "--json", *as_of])
    assert result.exit_code == 1, result.output
    assert result.exception is None or isinstance(result.exception, SystemExit)
    answer = json.loads(result.stdout)
    assert answer["errors"] + answer["warnings"] == len(answer["problems"]) == 40
