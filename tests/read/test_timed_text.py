"""Transcripts with the faults that programs and people make. SubRip has no standard: common practice, no source."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive_tools.read.timed_text import read_timed_text

VTT = """WEBVTT - a walk

NOTE made by hand
--> not a cue

STYLE
::cue { color: red }

intro
00:00:01.000 --> 00:00:04.500 align:start
Good <b>afternoon</b> &amp; welcome.

00:05.000 --> 00:09.000
<v Ilse>This is the Besom.
Nobody signed it.
"""


def times(content: str | bytes) -> list[tuple[int, int, str]]:
    data = content if isinstance(content, bytes) else content.encode()
    return [(one.begin, one.end, one.text) for one in read_timed_text(data, "walk.srt")[0]]


def rules(content: str) -> list[tuple[int | None, str]]:
    return [(p.mark.line, p.what) for p in read_timed_text(content.encode(), "walk.srt")[1]]


def test_webvtt_with_notes_styles_settings_tags_and_short_times():
    assert times(VTT) == [
        (1000, 4500, "Good afternoon & welcome."),
        (5000, 9000, "This is the Besom. Nobody signed it."),
    ]
    assert rules(VTT) == []


@pytest.mark.parametrize(
    ("fault", "content"),
    [
        ("as it should be", "1\n00:00:01,000 --> 00:00:02,500\nOne.\n\n2\n00:00:03,000 --> 00:00:04,000\nTwo.\n"),
        ("points", "1\n00:00:01.000 --> 00:00:02.500\nOne.\n\n2\n00:00:03.000 --> 00:00:04.000\nTwo.\n"),
        ("few digits", "1\n0:00:01,0 --> 0:00:02,5\nOne.\n\n2\n0:0:3,00 --> 0:0:4\nTwo.\n"),
        (
            "a byte order mark",
            "\ufeff1\n00:00:01,000 --> 00:00:02,500\nOne.\n\n2\n00:00:03,000 --> 00:00:04,000\nTwo.\n",
        ),
        ("no blank lines", "1\n00:00:01,000 --> 00:00:02,500\nOne.\n2\n00:00:03,000 --> 00:00:04,000\nTwo.\n"),
        ("wrong numbers", "7\n00:00:01,000 --> 00:00:02,500\nOne.\n\n7\n00:00:03,000 --> 00:00:04,000\nTwo.\n"),
        ("no numbers", "00:00:01,000 --> 00:00:02,500\nOne.\n\n00:00:03,000 --> 00:00:04,000\nTwo.\n"),
        (
            "other ends of lines",
            "1\r\n00:00:01,000 --> 00:00:02,500\r\nOne.\r\n\r\n2\r\n00:00:03,000 --> 00:00:04,000\rTwo.",
        ),
        (
            "too many blank lines",
            "\n\n1\n00:00:01,000 --> 00:00:02,500\nOne.\n\n\n\n2\n00:00:03,000 --> 00:00:04,000\nTwo.\n",
        ),
        ("other arrows", "1\n00:00:01,000 -> 00:00:02,500\nOne.\n\n2\n00:00:03,000-->00:00:04,000\nTwo.\n"),
        ("styled", "1\n00:00:01,000 --> 00:00:02,500\n<i>One.</i>\n\n2\n00:00:03,000 --> 00:00:04,000\n{\\an8}Two.\n"),
    ],
)
def test_subrip_with_a_fault(fault: str, content: str):
    assert times(content) == [(1000, 2500, "One."), (3000, 4000, "Two.")], fault


def test_cues_that_overlap_or_stand_in_another_order_are_put_in_order():
    content = "00:10,000 --> 00:12,000\nB\n\n00:05,000 --> 00:11,000\nA\n"
    assert times(content) == [(5000, 11000, "A"), (10000, 12000, "B")]
    assert rules(content) == [(1, "its times do not follow each other")]


def test_an_end_before_its_beginning_is_told_and_the_beginning_used():
    content = "00:10.000 --> 00:02.000\nB\n"
    assert times(content) == [(10000, 10000, "B")]
    assert rules(content) == [(1, "this ends before it begins")]


def test_times_that_cannot_be_read_are_told_with_their_line():
    assert rules("1\n00:00:0x --> 00:00:05\nOne.\n")[0] == (2, "the times “00:00:0x --> 00:00:05” cannot be read")


def test_a_file_without_times_is_told():
    assert [what for _, what in rules("Good afternoon.\n")] == ["no timed words were found in it"]


def test_other_encodings_are_read_and_told():
    text = "00:01.000 --> 00:02.000\nKofi Brandål\n"
    assert times(text.encode("utf-16")) == [(1000, 2000, "Kofi Brandål")]
    assert times(text.encode("cp1252")) == [(1000, 2000, "Kofi Brandål")]


@given(st.binary(max_size=300))
def test_whatever_bytes_never_a_fault_of_the_program(content: bytes):
    read_timed_text(content, "walk.srt")
