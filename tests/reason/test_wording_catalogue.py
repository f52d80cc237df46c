"""What is said about age passes through the message catalogue, and every such message is found for translators."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from archive_tools import pipeline
from archive_tools.model.kinds import KINDS
from archive_tools.reason.chronology import solve
from archive_tools.reason.chronology.kind_words import KIND_WORDS
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
    said = [s.says for c in chronologies.values() for f in c.milestones.values() for s in f.because_latest]
    assert len(said) > 25
    assert not any("⟦" in one for one in said), "what a statement says in the files is told in English everywhere"
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


def test_every_kind_of_event_is_found_for_translators() -> None:
    assert set(KIND_WORDS) == set(KINDS)
