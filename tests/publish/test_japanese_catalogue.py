"""The Japanese catalogue is whole: every message said, every placeholder kept, nothing left in English."""

from __future__ import annotations

import ast
import re
import warnings
from collections.abc import Iterator
from pathlib import Path

import pytest
from babel.messages.catalog import Message
from babel.messages.pofile import read_po

import archive_tools
from archive_tools.publish.translation import catalogue_of, translations_for
from tests.publish.test_translation import messages

PACKAGE = Path(archive_tools.__file__).parent
PLACEHOLDER = re.compile(r"%\(\w+\)s")
LATIN = frozenset(
    "marks scale comparisons photos tree yml JavaScript Tab Shift Delete Ctrl Z A A4 A3 QR cm m mm".split()  # noqa: SIM905
)
"""What is written in Latin letters in Japanese too: units, keys, papers, words of the files that are typed as such."""
SAID_BY = frozenset({"_", "gettext", "ngettext", "translate", "N_"})


def entries() -> list[Message]:
    """The entries of the catalogue without its header."""
    with catalogue_of("ja").open("rb") as file:
        return [message for message in read_po(file) if message.id]


def said(message: Message) -> str:
    """The one form that Japanese has."""
    return message.string[0] if isinstance(message.string, tuple) else str(message.string)


def ids(message: Message) -> tuple[str, ...]:
    """The message as it is written in English: one form, or two."""
    return message.id if isinstance(message.id, tuple) else (str(message.id),)


def spoken_literals() -> Iterator[tuple[str, int, str]]:
    """Every text in the package's own code that is handed to a catalogue, wherever it stands."""
    for file in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call):
                continue
            name = node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")
            for text in node.args[: 2 if name == "ngettext" else 1] if name in SAID_BY else []:
                if isinstance(text, ast.Constant) and isinstance(text.value, str):
                    yield file.name, node.lineno, text.value


def test_extraction_finds_every_text_that_code_hands_to_a_catalogue() -> None:
    """Python's own parser against Babel's: a text inside an f-string, or in a module without mapping, is missed."""
    known = messages()
    handed = list(spoken_literals())
    assert len(handed) > 700
    assert [one for one in handed if one[2] not in known] == []


def test_the_catalogue_holds_the_messages() -> None:
    """One in a hundred may wait for its translation, and is English until then: whoever writes a new sentence need
    not know Japanese. They are listed as a warning; more of them, or many that no page says any longer, are a fault.
    """
    there = {form for message in entries() for form in ids(message)}
    wanted = {message for message in messages() if message}
    waiting, idle = sorted(wanted - there), sorted(there - wanted)
    if waiting or idle:
        warnings.warn(f"to be translated: {waiting}; no longer said: {idle}", stacklevel=1)
    assert len(waiting) <= len(wanted) // 100, waiting
    assert len(idle) <= len(wanted) // 100, idle


def test_every_message_is_said() -> None:
    assert len(entries()) > 1000
    assert [message.id for message in entries() if message.fuzzy or not said(message).strip()] == []


def test_every_placeholder_is_kept_and_none_is_new() -> None:
    for message in entries():
        forms = [set(PLACEHOLDER.findall(form)) for form in ids(message)]
        assert set(PLACEHOLDER.findall(said(message))) == set.union(*forms), message.id
        assert said(message).count("#") == ids(message)[0].count("#"), message.id


def test_babel_finds_no_fault_in_it() -> None:
    with catalogue_of("ja").open("rb") as file:
        catalogue = read_po(file)
    assert [(message.id, [str(fault) for fault in faults]) for message, faults in catalogue.check()] == []
    assert catalogue.num_plurals == 1


def test_nothing_is_left_in_english() -> None:
    for message in entries():
        words = re.findall(r"[A-Za-z][A-Za-z0-9]*", PLACEHOLDER.sub(" ", said(message)))
        assert [word for word in words if word not in LATIN] == [], message.id


def test_marks_of_punctuation_are_japanese() -> None:
    """、。 and full-width brackets and colons: W3C, Requirements for Japanese Text Layout, 3.1."""
    for message in entries():
        text = re.sub(r"photos\.yml|tree\.yml|comparisons:|46\.5", "", PLACEHOLDER.sub("", said(message)))
        assert re.search(r"[,.;:()!?]", text) is None, message.id


@pytest.mark.parametrize(("n", "english"), [(1, "1 year"), (2, "2 years"), (0, "0 years")])
def test_one_form_serves_every_number(n: int, english: str) -> None:
    japanese = translations_for("ja-JP").ngettext("%(n)s year", "%(n)s years", n) % {"n": n}
    assert japanese == f"{n}年"
    assert translations_for("en").ngettext("%(n)s year", "%(n)s years", n) % {"n": n} == english
