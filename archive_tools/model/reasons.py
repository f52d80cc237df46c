"""Why something could not be done, or is worth doing: a sentence kept apart from its language.

The sentence is the English message of the catalogue with the names of its values; whoever shows it says it in the
language of the page, and what is kept on disk stays true in any language.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

N_: Callable[[str], str] = str
"""Marks a message for the catalogue; it is translated where it is shown."""


@dataclass(frozen=True, slots=True)
class Reason:
    """A message, and what stands for the names in it: words and numbers as they are, or reasons within the reason."""

    message: str
    values: tuple[tuple[str, str | int | Reason], ...] = ()

    def say(self, translate: Callable[[str], str] = str) -> str:
        """The sentence in the language of `translate`; in English if unsaid."""
        said = translate(self.message)
        told = {name: value.say(translate) if isinstance(value, Reason) else value for name, value in self.values}
        return said % told if told else said

    def __str__(self) -> str:
        return self.say()

    def as_json(self) -> dict[str, Any]:
        """What JSON can hold; `reason_from` reads it back."""
        told = {name: value.as_json() if isinstance(value, Reason) else value for name, value in self.values}
        return {"message": self.message, "values": told}


def because(message: str, /, **values: str | int | Reason) -> Reason:
    """A reason: a message of the catalogue (marked by `N_`) and its values by name."""
    return Reason(message, tuple(values.items()))


def reason_from(kept: Mapping[str, Any]) -> Reason:
    """A reason from what `as_json` gave. Raises KeyError, TypeError or ValueError for anything else."""
    message, values = kept["message"], kept["values"]
    if not isinstance(message, str) or not isinstance(values, dict):
        raise TypeError("no reason")
    reason = because(message, **{name: _value(value) for name, value in values.items()})
    reason.say()
    return reason


def _value(kept: Any) -> str | int | Reason:
    if isinstance(kept, dict):
        return reason_from(kept)
    if isinstance(kept, str | int):
        return kept
    raise TypeError("no value of a reason")


class Cannot(ValueError):  # noqa: N818  (said of what was asked)
    """Something that was asked cannot be done. `why` says it in any language, the exception's own text in English."""

    def __init__(self, why: Reason | str, /, **values: str | int | Reason) -> None:
        self.why = why if isinstance(why, Reason) else because(why, **values)
        super().__init__(self.why.say())
