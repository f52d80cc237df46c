"""WebVTT as the specification has it (W3C Candidate Recommendation, 4 April 2019), read again by our reader.

The strict parser of npm (webvtt-parser) and Chromium's <track> read them in the browser tests.
"""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive_tools.model.timed_text import Said, StopFound
from archive_tools.publish.spoken.timing import retimed_chapters, spoken_captions, tour_captions, tour_chapters
from archive_tools.publish.spoken.webvtt import LINE, WIDE_LINE, Cue, captions, timestamp, webvtt
from archive_tools.read.timed_text import read_timed_text
from tests.publish.spoken.walks import TEXT, context, plan

AWKWARD = ["Salt & Rose <not a tag>", "one --> two", "夕照鷺灣", "A\n\nB", "&amp; stays", "  "]


@pytest.mark.parametrize(
    ("milliseconds", "said"),
    [(0, "00:00:00.000"), (845_250, "00:14:05.250"), (3_600_000 * 101 + 59_999, "101:00:59.999")],
)
def test_times_have_hours_of_two_digits_or_more_and_three_after_the_point(milliseconds: int, said: str):
    assert timestamp(milliseconds) == said


@pytest.mark.parametrize("text", AWKWARD)
def test_signs_that_mean_something_come_out_as_themselves(text: str):
    said, problems = read_timed_text(webvtt((Cue(0, 2000, text, text), Cue(2000, 3000, "end")), text).encode(), "x.vtt")
    assert problems == ()
    wanted = [part for part in (" ".join(text.split()), "end") if part]
    assert [one.text for one in said] == wanted


@given(st.lists(st.tuples(st.integers(0, 10**7), st.integers(0, 10**5), st.text(max_size=40)), max_size=8))
def test_whatever_the_texts_a_file_has_as_many_cues_as_it_was_given(cues: list[tuple[int, int, str]]):
    made = webvtt(tuple(Cue(begin, begin + lasting, text, text) for begin, lasting, text in sorted(cues)))
    assert made.startswith("WEBVTT\n") and "\r" not in made
    assert len(re.findall(r"(?m)^\d{2,}:\d\d:\d\d\.\d{3} --> \d{2,}:\d\d:\d\d\.\d{3}$", made)) == len(cues)
    assert made.count("-->") == len(cues)


def test_chapters_of_a_walk_follow_each_other_from_its_beginning_to_its_end():
    chapters = tour_chapters([f"Tree {n}" for n in range(24)], plan())
    assert chapters[0].begin == 0 and chapters[-1].end == 1_920_000
    assert all(a.end == b.begin for a, b in pairwise(chapters))
    assert chapters[6].begin == 465_000  # the walk to the seventh tree begins when the sixth is left: 45 + 6 x 70


def test_captions_of_a_walk_keep_within_their_stop():
    cues = tour_captions(plan(), [TEXT] * 24, context())
    stops = plan().stops
    for stop in stops:
        own = [cue for cue in cues if stop.arrive * 1000 <= cue.begin < stop.leave * 1000]
        assert " ".join(cue.text.replace("\n", " ") for cue in own) == TEXT
        assert own[0].begin == (stop.arrive + 10) * 1000 and own[-1].end <= stop.leave * 1000


@given(st.text(max_size=300), st.integers(0, 10**6), st.integers(1000, 10**5))
def test_captions_are_two_short_lines_and_lose_nothing(text: str, begin: int, lasting: int):
    cues = captions(text, begin, begin + lasting)
    assert "".join("".join(cue.text.split()) for cue in cues) == "".join(text.split())
    for cue in cues:
        lines = cue.text.split("\n")
        assert len(lines) <= 2 and all(len(line) <= LINE for line in lines)
    assert all(a.end == b.begin for a, b in pairwise(cues))
    if cues:
        assert (cues[0].begin, cues[-1].end) == (begin, begin + lasting)


def test_japanese_is_broken_after_its_punctuation():
    cues = captions("海側の石垣を背にしてお立ちください。皆さんが風です。", 0, 9000)
    lines = [line for cue in cues for line in cue.text.split("\n")]
    assert all(len(line) <= WIDE_LINE for line in lines)
    assert "皆さんが風です。" in lines


def test_a_stop_that_was_not_heard_has_no_chapter():
    found = [StopFound(0, 2000), StopFound(1, None), StopFound(2, 9000)]
    said = [Said(2000, 8000, "one", 1), Said(9000, 12_000, "three", 2)]
    assert [(cue.begin, cue.end, cue.text) for cue in retimed_chapters(["A", "B", "C"], found, said)] == [
        (2000, 9000, "A"),
        (9000, 12_000, "C"),
    ]


def test_what_was_heard_becomes_captions_that_do_not_overlap():
    cues = spoken_captions([Said(0, 9000, "One and two.", 1), Said(4000, 6000, "Three.", 2)])
    assert all(a.end <= b.begin for a, b in pairwise(cues))
