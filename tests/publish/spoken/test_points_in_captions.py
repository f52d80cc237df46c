"""Captions end where sentences do, and nowhere within a number."""

from __future__ import annotations

from itertools import pairwise

import pytest

from archive_tools.publish.spoken.webvtt import captions


@pytest.mark.parametrize(
    ("text", "sentences"),
    [
        ("Tree S1979.2 has 3.5 cm of moss. Count it.", ["Tree S1979.2 has 3.5 cm of moss.", "Count it."]),
        ("At 9.30 a.m. it rained. It still does!", ["At 9.30 a.m. it rained.", "It still does!"]),
        ("He said “stop.” Then he went.", ["He said “stop.”", "Then he went."]),
        ("「見てください。」と言う。次です。", ["「見てください。」", "と言う。", "次です。"]),
        ("S1986.1！次", ["S1986.1！", "次"]),
    ],
)
def test_where_sentences_end(text: str, sentences: list[str]) -> None:
    shown = ["".join(cue.text.split()) for cue in captions(text, 0, 9000)]
    wanted = ["".join(sentence.split()) for sentence in sentences]
    assert "".join(shown) == "".join(wanted)
    ends = {"".join(shown[: n + 1]) for n in range(len(shown))}
    assert {"".join(wanted[: n + 1]) for n in range(len(wanted))} <= ends
    assert not any(caption[0].isdigit() and before[-1] == "." for before, caption in pairwise(shown))
