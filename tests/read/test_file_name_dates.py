"""Dates at the beginning of the names of files."""

from __future__ import annotations

import pytest

from archive_tools.model.dates import DatePolicy
from archive_tools.read.edtf_text import file_name_date, file_name_problem, read_date

NORTH = DatePolicy("north")


@pytest.mark.parametrize(
    ("stem", "written", "rest"),
    [
        ("1953-potted", "1953", "potted"),
        ("1953-04-potted", "1953-04", "potted"),
        ("1953-04-12-potted", "1953-04-12", "potted"),
        ("1953-04-12", "1953-04-12", ""),
        ("1953", "1953", ""),
        ("1962_front_1", "1962", "front_1"),
        ("2025-06_front_1", "2025-06", "front_1"),
        ("1951~_front_2", "1951~", "front_2"),
        ("1951-04~-potted", "1951-04~", "potted"),
        ("195X-letter", "195X", "letter"),
        ("195X", "195X", ""),
        ("1985-XX-XX_print", "1985-XX-XX", "print"),
        ("1953-21-potted", "1953-21", "potted"),
        ("1953 potted again", "1953", "potted again"),
        ("1953-2-pots", "1953", "2-pots"),
        ("1953-12trees", "1953", "12trees"),
        ("1953-04-12trees", "1953-04", "12trees"),
        ("1953-100-cuttings", "1953", "100-cuttings"),
        ("1953--potted", "1953", "-potted"),
    ],
)
def test_file_names(stem: str, written: str, rest: str) -> None:
    assert file_name_date(stem, NORTH) == (read_date(written, NORTH), rest)
    assert file_name_problem(stem, NORTH) is None


@pytest.mark.parametrize(
    "stem",
    [
        "potted",
        "front_1962",
        "IMG_2034",
        "20230614_120000",
        "1953potted",
        "195x-letter",
        "0042",
        "0042_front",
        "",
        "-1953",
    ],
)
def test_file_names_without_a_date(stem: str) -> None:
    assert file_name_date(stem, NORTH) is None
    assert file_name_problem(stem, NORTH) is None


@pytest.mark.parametrize("stem", ["1983-02-29_front", "1953-13-potted", "1953-04-31", "1951-1953_front", "1951~-1953~"])
def test_file_names_with_what_is_no_date(stem: str) -> None:
    """Never read as the coarser date that would be left."""
    assert file_name_date(stem, NORTH) is None
    problem = file_name_problem(stem, NORTH)
    assert problem is not None
    assert problem.instead
