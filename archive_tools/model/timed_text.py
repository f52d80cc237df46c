"""What was said in a recording, and when."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Said:
    """Words between two milliseconds of a recording. `line`: where they stand in the file they were read from."""

    begin: int
    end: int
    text: str
    line: int


@dataclass(frozen=True, slots=True)
class StopFound:
    """A stop of a tour as found in a recording. `at`: the millisecond where it begins, None where it was not found.

    by: the words by which it was known. doubt: why this may be wrong, in plain words; "" where nothing speaks against.
    """

    stop: int
    at: int | None
    by: str = ""
    doubt: str = ""
