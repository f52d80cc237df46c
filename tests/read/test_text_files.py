from __future__ import annotations

from pathlib import Path

import pytest

from archive_tools.model.problems import Problem, Reach, Severity
from archive_tools.read.text_files import LARGEST_RECORD, decode, read_text


def refused(data: bytes) -> Problem:
    found = decode(data, "f.yml")
    assert found.text is None
    (problem,) = found.problems
    assert (problem.severity, problem.reach) == (Severity.ERROR, Reach.RECORD)
    return problem


def test_plain_utf8_is_taken_as_it_is() -> None:
    assert decode("name: 青沼すみれ\n".encode(), "f.yml").text == "name: 青沼すみれ\n"


@pytest.mark.parametrize("ends", [b"a\r\nb\r\n", b"a\rb\r", b"a\nb\n"])
def test_all_line_ends_are_alike(ends: bytes) -> None:
    assert decode(ends, "f.yml") == decode(b"a\nb\n", "f.yml")


def test_byte_order_mark_is_dropped_with_a_warning() -> None:
    found = decode(b"\xef\xbb\xbfname: x\n", "f.yml")
    assert found.text == "name: x\n"
    (problem,) = found.problems
    assert (problem.rule, problem.severity, problem.mark.line) == ("byte-order-mark", Severity.WARNING, 1)


def test_another_encoding_names_byte_line_and_column() -> None:
    # "é" in Windows-1252 is the single byte E9; it is the 4th character of the 3rd line, the 14th byte of all.
    problem = refused("a: b\nc: d\ne: é\n".encode("cp1252"))
    assert (problem.rule, problem.mark.line, problem.mark.column) == ("not-utf8", 3, 4)
    assert "byte 14" in problem.what and "E9" in problem.what and "“é”" in problem.what


def test_lines_are_counted_in_files_of_windows_too() -> None:
    assert refused(b"a: b\r\nc: d\r\ne: \xe9\r\n").mark.line == 3


@pytest.mark.parametrize("encoding", ["utf-16", "utf-32"])
def test_wide_encodings_are_named(encoding: str) -> None:
    problem = refused("name: x\n".encode(encoding))
    assert problem.rule == "not-utf8" and encoding.upper() in problem.what


@pytest.mark.parametrize(("data", "place"), [(b"a: b\x00\n", (1, 5)), (b"a: b\nc: \x1bd\n", (2, 4))])
def test_control_characters_are_told_at_their_place(data: bytes, place: tuple[int, int]) -> None:
    problem = refused(data)
    assert problem.rule == "control-character"
    assert (problem.mark.line, problem.mark.column) == place


def test_nul_is_called_by_its_name() -> None:
    assert "NUL" in refused(b"\x00").what


def test_a_file_beyond_the_limit_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "f.yml"
    path.write_bytes(b"#" * LARGEST_RECORD)
    assert read_text(path, "f.yml").text is not None
    path.write_bytes(b"#" * (LARGEST_RECORD + 1))
    found = read_text(path, "f.yml")
    assert found.text is None and found.problems[0].rule == "too-large"


def test_a_file_that_is_not_there_is_a_problem(tmp_path: Path) -> None:
    found = read_text(tmp_path / "none.yml", "none.yml")
    assert found.text is None and found.problems[0].rule == "unreadable-file"
