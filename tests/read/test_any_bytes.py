"""No bytes whatever may end in a traceback, and none may make a faulty record public."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from archive_tools.model.grades import Visibility
from archive_tools.model.problems import Problem, Severity
from archive_tools.read import read_collection
from archive_tools.read.front_matter import FrontMatter, split_front_matter
from archive_tools.read.text_files import decode
from archive_tools.read.yaml_text import parse_yaml

from .folder_of import HOUSE, MAPLE, picture

FILES = [
    "collection.yml",
    "places.yml",
    "stewards/a.yml",
    "sources/a.yml",
    "objects/a.yml",
    "tours/a.yml",
    "talks/a.yml",
    "pages/a.md",
    "notes/1951-a.md",
    "photos/photos.yml",
    "trees/T1-a/tree.yml",
    "trees/T1-a/notes/1951-a.md",
    "trees/T1-a/photos/photos.yml",
    "trees/T1-a/photos/1951.jpg",
]
KEYS = [
    "accession",
    "taxon",
    "name",
    "title",
    "kind",
    "date",
    "until",
    "by",
    "from",
    "to",
    "events",
    "members",
    "timing",
    "after",
    "before",
    "at_least",
    "rings",
    "count",
    "states_age",
    "of",
    "years",
    "measured",
    "source",
    "id",
    "at",
    "quote",
    "visibility",
    "public_from",
    "place",
    "places",
    "paths",
    "between",
    "metres",
    "file",
    "marks",
    "scale",
    "comparisons",
    "measure",
    "kin",
    "due",
    "every",
    "months",
    "taught_by",
    "names",
    "trees",
    "stops",
    "sections",
    "show",
    "prefer",
    "defaults",
    "approximate",
    "vocabulary",
    "style",
    "languages",
    "custodian",
    "edition",
    "event",
    "share",
    "sector",
    "turned",
    "origin_locality",
    "latitude",
]
VALUES = [
    "T1",
    "fed",
    "1951",
    "1951-02-30",
    '"[1951,1953]"',
    "P1Y",
    "P9999999999Y",
    "1/0",
    "12-3",
    "[1, 2]",
    "{a: 1}",
    "[]",
    "{}",
    '""',
    "",
    ">=60",
    "?",
    "*a",
    "&a b",
    "!x y",
    "1" * 5000,
    "１２",
    "no",
    "a: b",
    "[[T1]]",
    "{{ since.care }}",
    '"\\0"',
    '"\\ud800"',
    "\u2028",
    "Europe",
    "public",
    "taxon = *",
    "taxon = [",
    "'(a'",
    "./../..",
]

lines = st.lists(
    st.builds(
        lambda depth, dash, key, value: f"{'  ' * depth}{'- ' * dash}{key}: {value}",
        st.integers(0, 4),
        st.integers(0, 2),
        st.sampled_from(KEYS),
        st.sampled_from(VALUES) | st.text(max_size=20),
    ),
    max_size=8,
).map("\n".join)
yamlish = lines | st.text(alphabet="ab:-[]{}>|?*&!%@`'\"#, \t\n\\0", max_size=60)
content = (
    st.binary(max_size=200)
    | yamlish.map(lambda text: text.encode("utf-8", "surrogatepass"))
    | yamlish.map(lambda text: f"---\n{text}\n---\nText\n".encode("utf-8", "surrogatepass"))
)


def told(data: dict[str, bytes]) -> tuple[object, list[Problem]]:
    base: dict[str, bytes] = {
        "collection.yml": HOUSE.encode(),
        "trees/T1-a/tree.yml": MAPLE.encode(),
        "trees/T1-a/photos/1951.jpg": picture(),
        "photos/1951.jpg": picture(9),
    }
    with tempfile.TemporaryDirectory() as folder:
        for name, body in {**base, **data}.items():
            path = Path(folder) / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(body)
        return read_collection(Path(folder))


@settings(deadline=None, max_examples=300, suppress_health_check=[HealthCheck.too_slow])
@given(st.sampled_from(FILES), content)
@example("trees/T1-a/tree.yml", b"accession: T1\ntaxon: x\nevents: [{kind: fed, rings: {count: 3, false: 9}}]\n")
@example("trees/T1-a/tree.yml", b"? {a: b}\n: c")
@example("collection.yml", b"name: x\ncustodian: y\ntimezone: Europe\n")
@example("collection.yml", b"name: x\ncustodian: y\naccession_pattern: '(a'\n")
@example("places.yml", b"places: {a: {name: b}, a: {name: c}}\n")
@example("trees/T1-a/photos/photos.yml", b"- 1951.jpg\n- {file: [1951.jpg]}\n-\n- - a\n")
def test_any_bytes_in_any_file_are_read_or_told(name: str, body: bytes) -> None:
    _, problems = told({name: body})
    for problem in problems:
        str(problem.mark).encode()
        problem.what.encode()
        (problem.instead or "").encode()
        assert problem.mark.line is None or 1 <= problem.mark.line <= body.count(b"\n") + body.count(b"\r") + 2


@settings(deadline=None, max_examples=500)
@given(st.binary(max_size=300))
def test_bytes_become_text_or_a_problem(data: bytes) -> None:
    found = decode(data, "f")
    assert (found.text is None) == any(problem.severity is Severity.ERROR for problem in found.problems)


@settings(deadline=None, max_examples=1000)
@given(yamlish | st.text(max_size=100))
def test_any_text_is_taken_apart_or_told_inside_its_own_lines(text: str) -> None:
    parsed = parse_yaml(text)
    assert parsed.whole or parsed.slips
    line_count = text.count("\n") + text.count("\r") + 2
    for line, column in [slip.spot for slip in parsed.slips] + list(parsed.marks.values()):
        assert 1 <= line <= line_count and 1 <= column <= len(text) + 2


@settings(deadline=None, max_examples=300)
@given(
    st.dictionaries(
        st.text(alphabet="abcdé青", min_size=1, max_size=5), st.text(alphabet=" ab0123:-~no?*[]{}'\"", max_size=12)
    )
)
def test_quoted_values_stay_as_they_are_written(values: dict[str, str]) -> None:
    text = "\n".join(f"{key}: '{value.replace(chr(39), chr(39) * 2)}'" for key, value in values.items())
    assert parse_yaml(text).value == (values or None)


@settings(deadline=None, max_examples=500)
@given(st.text(alphabet="-–—= \tab:\n", max_size=60), st.text(max_size=30))
def test_front_matter_and_text_together_are_the_file(head: str, body: str) -> None:
    text = f"{head}\n{body}"
    found = split_front_matter(text)
    if isinstance(found, FrontMatter):
        assert text.endswith(found.body)
        lines = text.split("\n")
        assert "\n".join(lines[found.body_line - 1 :]) == found.body
        assert found.head is not None or found.body == text


@settings(deadline=None, max_examples=200, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.text(alphabet="visblty", min_size=6, max_size=12),
    st.sampled_from(["trees/T1-a/tree.yml", "trees/T1-a/notes/1951-a.md", "trees/T1-a/photos/photos.yml"]),
)
@example("visibilty", "trees/T1-a/tree.yml")
def test_a_misspelt_visibility_never_leaves_a_thing_open(key: str, name: str) -> None:
    if key == "visibility":
        return
    heads = {"tree.yml": MAPLE, "1951-a.md": "---\n", "photos.yml": "file: 1951.jpg\n"}
    ends = {"1951-a.md": "---\nSecret\n"}
    last = name.rpartition("/")[2]
    found, problems = told({name: f"{heads[last]}{key}: restricted\n{ends.get(last, '')}".encode()})
    tree = found.trees["T1"]  # type: ignore[attr-defined]
    assert [problem for problem in problems if problem.rule == "unknown-key" and key in problem.what]
    if last == "tree.yml":
        assert tree.visibility is Visibility.RESTRICTED
    else:
        assert tree.notes == () and (tree.photos == () or last != "photos.yml")


@pytest.mark.parametrize("name", FILES)
def test_an_empty_file_is_read_or_told(name: str) -> None:
    told({name: b""})
