"""How long people stand at a stop."""

from __future__ import annotations

from archive_tools.model.speech import speech_seconds

LOOKING = 20
"""Seconds in which nobody speaks and everybody looks. Common practice, no source."""
GATHERING = 10
"""Seconds until a group stands round a tree. Common practice, no source."""


def dwell_seconds(text: str, words_a_minute: int) -> int:
    """How long a group stays at a stop where nobody has said how long: gathering, speaking, looking."""
    return GATHERING + speech_seconds(text, words_a_minute) + LOOKING
