"""Text that may be written in several languages."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Words:
    """A text by language. One written without a language stands under "" and serves for all of them."""

    by_language: tuple[tuple[str, str], ...]

    @classmethod
    def plain(cls, text: str) -> Words:
        """A text written without a language."""
        return cls((("", text),))

    def say(self, language: str = "") -> str:
        """The text in `language` (BCP 47), else in its base language, else the first that is written."""
        texts = dict(self.by_language)
        for wanted in (language, language.split("-", maxsplit=1)[0], ""):
            if wanted in texts:
                return texts[wanted]
        return self.by_language[0][1] if self.by_language else ""

    def language_said(self, language: str) -> str:
        """The language `say` answers in ("" when the text is written without one)."""
        texts = dict(self.by_language)
        for wanted in (language, language.split("-", maxsplit=1)[0], ""):
            if wanted in texts:
                return wanted
        return self.by_language[0][0] if self.by_language else ""

    @property
    def all_texts(self) -> tuple[str, ...]:
        """Every text, in the order written."""
        return tuple(text for _, text in self.by_language)

    def __str__(self) -> str:
        return self.say()
