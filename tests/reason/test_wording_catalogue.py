"""What is said about age passes through the message catalogue, and every such message is found for translators."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from archive_tools import pipeline
from archive_tools.model.grades import Milestone
from archive_tools.model.kinds import KINDS
from archive_tools.reason.chronology import solve
from archive_tools.reason.chronology.kind_words import KIND_WORDS, MILESTONE_WORDS
from tests.publish.test_translation import messages

DEMO = Path(__file__).resolve().parent.parent.parent / "demo_collection"
AS_OF = date(2026, 11, 25)


def solved() -> tuple[set[str], list[str]]:
    """The messages that were asked for, and the sentences that came out, over the invented collection."""
    collection = pipeline.gather(DEMO, today=AS_OF).collection
    assert collection is not None
    asked: set[str] = set()

    def translate(message: str) -> str:
        asked.add(message)
        return f"⟦{message}⟧"

    chronologies = solve(collection, AS_OF, today=AS_OF, translate=translate)
    found = [f.wording for c in chronologies.values() for f in c.milestones.values() if f.wording]
    return asked, found


def test_every_message_is_found_for_translators() -> None:
    asked, _ = solved()
    assert len(asked) > 15
    assert asked - messages() == set()


def test_every_sentence_is_translated() -> None:
    _, found = solved()
    assert len(found) > 25
    assert [wording for wording in found if not wording.startswith("⟦")] == []


def test_every_kind_of_event_is_among_the_words_of_a_proof() -> None:
    assert set(KIND_WORDS) == set(KINDS)
    assert set(MILESTONE_WORDS) == {milestone.value for milestone in Milestone}
