from __future__ import annotations

import pytest

from archive_tools.read.front_matter import BrokenFrontMatter, FrontMatter, split_front_matter


def test_front_matter_and_text_are_parted_with_their_lines() -> None:
    assert split_front_matter("---\ndate: 1991\nby: renn\n---\n\nFirst line.\n---\nLast.\n") == FrontMatter(
        "date: 1991\nby: renn", "First line.\n---\nLast.\n", head_line=2, body_line=6
    )


def test_empty_front_matter_and_a_text_without_any() -> None:
    assert split_front_matter("---\n---\nText") == FrontMatter("", "Text", 2, 3)
    assert split_front_matter("# Text\n") == FrontMatter(None, "# Text\n", 1, 1)
    assert split_front_matter("") == FrontMatter(None, "", 1, 1)


def test_spaces_after_the_dashes_do_not_matter() -> None:
    assert split_front_matter("--- \na: b\n---\t\nText") == FrontMatter("a: b", "Text", 2, 4)


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("---\nvisibility: restricted\n\nA secret.\n", 1),
        ("---\nvisibility: restricted\n----\nA secret.\n", 3),
        ("---\nvisibility: restricted\n—\nA secret.\n", 3),
        ("\n---\nvisibility: restricted\n---\nA secret.\n", 2),
        (" ---\nvisibility: restricted\n---\nA secret.\n", 1),
        ("--\nvisibility: restricted\n--\nA secret.\n", 1),
        ("----\nvisibility: restricted\n----\nA secret.\n", 1),
        ("–––\nvisibility: restricted\n–––\nA secret.\n", 1),
        ("visibility: restricted\n---\nA secret.\n", 1),
        ("\nkind: repotted\n\nA secret.\n", 2),
    ],
)
def test_what_was_meant_as_front_matter_never_becomes_text(text: str, line: int) -> None:
    found = split_front_matter(text)
    assert isinstance(found, BrokenFrontMatter)
    assert found.line == line
    assert "---" in found.instead


@pytest.mark.parametrize("text", ["From: the town clerk\n", "Note: x\n", "* * *\nText\n", "-- said the boy\n"])
def test_plain_text_is_not_taken_for_front_matter(text: str) -> None:
    assert split_front_matter(text) == FrontMatter(None, text, 1, 1)
