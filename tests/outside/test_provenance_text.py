"""Lines of holders in words, held against the convention for provenance texts.

The convention (The AAM Guide to Provenance Research, Washington 2001, as museums that follow it explain it: the
Philadelphia Museum of Art, "How to Read Provenance Information"; the Art Institute of Chicago, "How to Read Provenance
Texts"): earliest owner first; a semicolon where the work passed directly; a period where it did not, or is not known
to have done so; dealers and agents in parentheses or brackets; doubt in words; sources in notes.

A small reader of that convention is written from it, tried on the structure of published texts (names left out), and
then reads every text that the histories and the invented collection give. It must find what the machine form says.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from archive_tools import pipeline
from archive_tools.model.grades import Edition
from archive_tools.reason.lineage_json import lineage_as_json
from tests.outside.histories import stories
from tests.reason.lineage_asking import KINDS, NAMES

DEMO = Path(__file__).parents[2] / "demo_collection"
AS_OF = date(2026, 11, 25)
TRADE = {"nursery", "institution"}
DOUBT = re.compile(r"\b(possibly|probably|perhaps|it is said|it is thought|no source is given)\b")
# In our texts a gap is also said in a sentence of its own, and so is what became of the tree.
OF_A_GAP = re.compile(r"Nobody is known to have held it")
OF_ITS_FATE = re.compile(r"It (died|was stolen|was found again|has been missing)\b")


@dataclass(frozen=True)
class Segment:
    """One owner: the words, whether all of it stands in parentheses (a dealer), whether it is doubted in words."""

    words: str
    dealer: bool
    doubted: bool


def read(text: str) -> list[list[Segment]]:
    """The runs of owners: within one each passed it directly to the next; between two, nobody knows."""
    text = re.sub(r"\[\d+\]", "", text.strip())
    return [[_segment(words) for words in _split(run, ";")] for run in _split(text, ".")]


def _split(text: str, mark: str) -> list[str]:
    """At the mark outside parentheses, where it ends a clause: followed by a space, or by nothing."""
    parts, depth, start = [], 0, 0
    for at, letter in enumerate(text):
        depth += (letter in "([") - (letter in ")]")
        if letter == mark and depth == 0 and text[at + 1 : at + 2] in ("", " "):
            parts.append(text[start:at].strip())
            start = at + 1
    return [part for part in [*parts, text[start:].strip()] if part]


def _segment(words: str) -> Segment:
    # "sold 1919 to (A, London)", "(A, London), by 1890", "possibly (A), in 1923": the party is in parentheses.
    bare = DOUBT.sub("", words).strip(" ,")
    party = re.match(r"(?:(?:sold|purchased|given|one third shares)\b[\w\s,]*\b(?:to|by|with) )?[(\[]", bare)
    return Segment(words, party is not None, DOUBT.search(words) is not None)


# Published texts, by their structure: what is not letter, mark or word of the convention is left out.
PUBLISHED = [
    # National Gallery of Art, Washington: Aelbert Cuyp, River Landscape with Cows, gift of 1986.
    (
        "A, P; (sale, B, P, 3 August 1917, no. 43); (C, P);[1] sold 9 August 1917 to (D, P); sold September 1919 to E, "
        "P.[2] (sale, F, P, 1920, no. 1024, bought in); (F, P), until at least 1922;[3] possibly (G, P), in 1923;[4] "
        "(H, P), by 1924.[5] I, P, by 1927; by inheritance to his son, J, P;[6] by inheritance to his daughters, K, P, "
        "and L, P; gift 1986 to M.",
        ["odddo", "dddd", "oooo"],
        [(1, 2)],
    ),
    # National Gallery of Art, Washington: Eugène Delacroix, Columbus and His Son, bequest of 1963.
    (
        "Commissioned by A; (his sale, P, 21 February 1870, no. 25);[1] purchased by B, P, for N francs;[2] purchased "
        "30 November 1887 by (C, P); sold 1 December 1887 to D, P;[3] (his sale, E, P, 13 July 1889, no. 13); "
        "purchased by (F, P);[4] (G, P), by 1890;[5] H, P, by 1892;[6] sold 1910 to (G, P, and I, P);[7] sold to (J, "
        "P);[8] K, P, by 1912;[9] L, P; sold 6 July 1929 to (M, P); one third shares with (N, P);[10] sold 9 February "
        "1932 to O, P; bequest 1963 to Q.",
        ["odododddoddooddoo"],
        [],
    ),
    # Carnegie Museum of Art, Pittsburgh: the example of its project on provenance texts.
    ("A; B, son of the artist, P, 1926; C, P, 1950; purchased by D, April 1962.", ["oooo"], []),
    # Minneapolis Institute of Art: Bartolomeo di Tommaso, Way to Emmaus (brackets for dealers).
    ("A, P, June 9, 1955; [B, P, since 1955]. C, P (by 1968). [B, P, 1977; sold to D]", ["od", "o", "d"], []),
]


@pytest.mark.parametrize(("text", "runs", "doubted"), PUBLISHED)
def test_the_reader_finds_the_structure_of_published_texts(
    text: str, runs: list[str], doubted: list[tuple[int, int]]
) -> None:
    found = read(text)
    assert ["".join("d" if one.dealer else "o" for one in run) for run in found] == runs
    assert [(i, k) for i, run in enumerate(found) for k, one in enumerate(run) if one.doubted] == doubted


@dataclass(frozen=True)
class Case:
    """A text and the machine form it has to agree with; kinds of stewards by their names."""

    told: dict[str, Any]
    custody: str
    kinds: dict[str, str]


def of_the_histories() -> list[Any]:
    kinds = {NAMES[one]: KINDS.get(one, "person") for one in NAMES}
    cases = []
    for name, (view_of, (accession, told)) in stories().items():
        text = view_of().findings.lineages[accession].text
        cases.append(pytest.param(Case(told, text[0], kinds), id=f"{name[5:7]}-{accession}-{len(cases)}"))
    return cases


@pytest.mark.parametrize("case", of_the_histories())
def test_the_text_of_each_history_says_what_its_machine_form_says(case: Case) -> None:
    agree(case)


@pytest.mark.slow
@pytest.mark.parametrize("edition", list(Edition))
def test_the_texts_of_the_invented_collection_say_what_their_machine_forms_say(edition: Edition) -> None:
    view = pipeline.view(DEMO, edition=edition, as_of=AS_OF, today=AS_OF)
    kinds = {one.name.say("en"): one.kind for one in view.records.stewards.values()}
    gaps = 0
    for accession, lineage in view.findings.lineages.items():
        told = lineage_as_json(view.findings.custodies[accession], lineage, view.records.stewards, AS_OF, "en")
        agree(Case(told, lineage.text[0], kinds))
        gaps += len(told["gaps"])  # type: ignore[arg-type]
    assert len(view.findings.lineages) > 20
    assert gaps > 2


def agree(case: Case) -> None:
    """Runs, owners, order, doubt and gaps of the text are those of the machine form."""
    sentences = read(case.custody)
    runs = [run for run in sentences if not OF_A_GAP.match(run[0].words) and not OF_ITS_FATE.match(run[0].words)]
    expected = in_runs(case.told)
    assert [len(run) for run in runs] == [len(run) for run in expected], case.custody
    assert sum(1 for run in sentences if OF_A_GAP.match(run[0].words)) == len(case.told["gaps"])
    for run, owners in zip(runs, expected, strict=True):
        for segment, owner in zip(run, owners, strict=True):
            for name in owner["names"]:
                assert name.casefold() in segment.words.casefold(), (segment, owner)
            assert segment.doubted == (owner["grade"] != "documented") or "perhaps" in segment.words, (segment, owner)
            if segment.dealer:
                assert {case.kinds[name] for name in owner["names"]} <= TRADE, segment
            for agent in owner["through"]:
                assert re.search(rf"\([^)]*{re.escape(agent)}[^)]*\)", segment.words), (segment, agent)
    assert case.custody.endswith(".")


def in_runs(told: dict[str, Any]) -> list[list[dict[str, Any]]]:
    """The owners of a machine form in runs, a new one after each gap; joint owners are one, their survivors next."""
    groups: list[list[dict[str, Any]]] = []
    for holder in told["holders"]:
        if holder["role"] != "owner":
            continue
        last = groups[-1] if groups else []
        if last and last[0]["joint"] and (last[0]["event"], last[0]["from"]) == (holder["event"], holder["from"]):
            last.append(holder)
        else:
            groups.append([holder])
    runs: list[list[dict[str, Any]]] = [[]]
    gaps = list(told["gaps"])
    if gaps and gaps[0]["after_name"] is None and gaps[0]["before_name"] == (groups[0][0]["name"] if groups else None):
        gaps.pop(0)
    for group in groups:
        held = runs[-1][-1]["names"][0] if runs[-1] else None
        if held is not None and gaps and (gaps[0]["after_name"], gaps[0]["before_name"]) == (held, group[0]["name"]):
            gaps.pop(0)
            runs.append([])
        through = [NAMES.get(one, one) for one in group[0]["through"]]
        ends = sorted({str(one["to"]) for one in group}, key=lambda end: (end == "None", end))
        for number, end in enumerate(ends):
            names = [one["name"] for one in group if (str(one["to"]) >= end or one["to"] is None)]
            grade = group[0]["grade"] if not number else "inferred"
            runs[-1].append({"names": names, "grade": grade, "through": through if not number else []})
    assert all(gap["before_name"] is None for gap in gaps), "a gap of the machine form was not met"
    return [run for run in runs if run]
