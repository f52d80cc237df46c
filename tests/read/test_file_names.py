from __future__ import annotations

import pytest

from archive_tools.read.file_names import fault_of_name, is_left_alone, same_on_some_machines, shown_name

# Reserved names and signs: Microsoft, "Naming Files, Paths, and Namespaces" (Win32 file system documentation).
RESERVED = ["CON", "prn", "Aux.md", "nul.tar.gz", "COM1", "com9.txt", "LPT0.yml", "lpt³"]
SIGNS = [*'<>:"|?*\\', "\x1f"]


@pytest.mark.parametrize("name", RESERVED)
def test_names_that_windows_keeps_are_told(name: str) -> None:
    fault = fault_of_name(name)
    assert fault is not None and "Windows" in fault[0]
    assert fault_of_name(fault[1]) is None


@pytest.mark.parametrize("sign", SIGNS)
def test_signs_that_windows_refuses_are_told_with_a_name_that_can_be_kept(sign: str) -> None:
    fault = fault_of_name(f"a{sign}b.jpg")
    assert fault is not None and fault[1] == "a-b.jpg"


@pytest.mark.parametrize("name", ["a.", "a ", " a", "a. "])
def test_spaces_and_points_at_the_ends_are_told(name: str) -> None:
    fault = fault_of_name(name)
    assert fault is not None and fault[1] == "a"


@pytest.mark.parametrize("name", ["console.md", "1971~_front.jpg", "S1979.2-x", "写真.jpg", "a" * 190 + ".jpg"])
def test_common_names_are_fine(name: str) -> None:
    assert fault_of_name(name) is None


def test_a_name_too_long_for_some_file_systems_is_told() -> None:
    # 70 letters of three bytes each
    assert fault_of_name("松" * 70) is not None


def test_bytes_that_are_not_utf8_are_told_and_can_be_printed() -> None:
    name = b"ros\xe9.jpg".decode("utf-8", "surrogateescape")
    assert shown_name(name) == "ros\\xe9.jpg"
    fault = fault_of_name(name)
    assert fault is not None and "UTF-8" in fault[0]
    fault[0].encode()


@pytest.mark.parametrize("name", [".git", ".DS_Store", "a.md~", "#a#", "Thumbs.db", "a.bak", ".a.swp", "~$a.docx"])
def test_hidden_files_and_backups_are_left_alone(name: str) -> None:
    assert is_left_alone(name)


@pytest.mark.parametrize("name", ["a.md", "photos", "backup.yml", "1971~.jpg"])
def test_other_files_are_not(name: str) -> None:
    assert not is_left_alone(name)


def test_names_that_differ_in_case_or_unicode_form_alone_collide() -> None:
    # the second pair: e with an accent as one letter (U+00E9), and as letter and accent (U+0065 U+0301)
    names = ["A.jpg", "a.JPG", "b.jpg", "ros\u00e9.jpg", "rose\u0301.jpg", "Straße", "STRASSE"]
    assert same_on_some_machines(names) == [
        ("a.JPG", "A.jpg"),
        ("rose\u0301.jpg", "ros\u00e9.jpg"),
        ("STRASSE", "Straße"),
    ]
