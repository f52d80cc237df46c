"""A reason is said in any language, and comes back from what is kept as it was."""

from __future__ import annotations

import json

import pytest

from archive_tools.model.reasons import Cannot, Reason, because, reason_from

ALONE = because("nothing fits")
NESTED = because("without “%(mark)s”: %(why)s; %(n)s left", mark="5% rim", why=because("%(n)s miss", n=3), n=2)
GERMAN = {"%(n)s miss": "%(n)s fehlen", "without “%(mark)s”: %(why)s; %(n)s left": "%(n)s übrig: %(why)s, “%(mark)s”"}


def test_a_reason_is_said_in_the_language_it_is_asked_in_with_the_reasons_within_it() -> None:
    assert str(NESTED) == "without “5% rim”: 3 miss; 2 left"
    assert NESTED.say(lambda message: GERMAN.get(message, message)) == "2 übrig: 3 fehlen, “5% rim”"
    assert because("a sentence with 5% in it").say() == "a sentence with 5% in it"


@pytest.mark.parametrize("reason", [ALONE, NESTED])
def test_what_is_kept_comes_back_whole(reason: Reason) -> None:
    assert reason_from(json.loads(json.dumps(reason.as_json()))) == reason


@pytest.mark.parametrize(
    "kept",
    [
        "nothing fits",
        {"message": "nothing fits"},
        {"message": 5, "values": {}},
        {"message": "%(n)s left", "values": {"m": 5}},
        {"message": "%(n)s left", "values": {"n": [5]}},
        {"message": "%(n)s left", "values": []},
    ],
)
def test_what_is_no_reason_is_not_taken_for_one(kept: object) -> None:
    with pytest.raises((KeyError, TypeError, ValueError)):
        reason_from(kept)  # type: ignore[arg-type]


def test_what_cannot_be_done_says_why_in_english_and_keeps_the_reason() -> None:
    refused = Cannot("%(n)s left", n=2)
    assert str(refused) == "2 left"
    assert refused.why == because("%(n)s left", n=2)
    assert Cannot(NESTED).why is NESTED
