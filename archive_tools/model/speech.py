"""How long a text takes to say."""

from __future__ import annotations

import math
import re

CHARACTERS_A_WORD = 2.3
"""Characters of Chinese or Japanese that take as long as an English word: 300 characters a minute at 130 words.
Common practice of newsreaders, from memory."""

_WITHOUT_SPACES = re.compile(r"[\u3040-\u30ff\u3400-\u4dbf\u4e00-\u9fff\uf900-\ufaff]")
_WORD = re.compile(r"[^\W_]+(?:[’'.,-][^\W_]+)*")


def words_in(text: str) -> float:
    """How many words a text is worth in speaking; characters of scripts without spaces count as parts of one."""
    characters = len(_WITHOUT_SPACES.findall(text))
    spaced = _WORD.findall(_WITHOUT_SPACES.sub(" ", text))
    return len(spaced) + characters / CHARACTERS_A_WORD


def speech_seconds(text: str, words_a_minute: int) -> int:
    """Whole seconds, rounded up, that a text takes at so many words a minute.

    Speaking to a walking group: 130 words a minute (common practice, no source; reading aloud is quicker, 183 words
    a minute: Brysbaert 2019, Journal of Memory and Language 109:104047).
    """
    return math.ceil(words_in(text) * 60 / words_a_minute - 1e-9)
