from __future__ import annotations

import pytest
import yaml

from archive_tools.read.yaml_slips import DEEPEST, Slip
from archive_tools.read.yaml_text import parse_yaml


def slip(text: str, first_line: int = 1) -> Slip:
    parsed = parse_yaml(text, first_line)
    (found,) = parsed.slips
    return found


def test_values_lists_and_mappings_keep_their_places() -> None:
    parsed = parse_yaml("name: A maple\nform:\n  - broom\n  - raft\nplace: {id: yard, visibility: public}\n")
    assert parsed.value == {
        "name": "A maple",
        "form": ["broom", "raft"],
        "place": {"id": "yard", "visibility": "public"},
    }
    assert parsed.marks == {
        (): (1, 1),
        ("name",): (1, 7),
        ("form",): (3, 3),
        ("form", 0): (3, 5),
        ("form", 1): (4, 5),
        ("place",): (5, 8),
        ("place", "id"): (5, 13),
        ("place", "visibility"): (5, 31),
    }
    assert parsed.keys[("place", "visibility")] == (5, 19)


def test_columns_count_letters_not_bytes() -> None:
    assert parse_yaml("{名: 青沼, b: x}").marks[("b",)] == (1, 12)


def test_lines_are_counted_from_where_the_text_stands_in_its_file() -> None:
    assert parse_yaml("a: b\nc: d", first_line=2).marks[("c",)] == (3, 4)


def test_rare_line_separators_do_not_shift_the_lines_an_editor_shows() -> None:
    # U+2028 ends a line in YAML 1.1 and in no common editor
    parsed = parse_yaml('a: "x\u2028 y"\nb: z\n')
    assert parsed.marks[("b",)] == (2, 4)


# Each value is an example or a form of the YAML 1.1 type repository (https://yaml.org/type/), named by its page.
REINTERPRETED = {
    "bool": ["no", "yes", "y", "on", "Off", "TRUE", "False"],
    "int": ["1962", "0123", "0o17", "0x1F", "12:30:45", "190:20:30", "685_230", "+685230", "0b1010"],
    "float": ["1985.10", "6.8523015e+5", "685.230_15e+03", "190:20:30.15", ".inf", "-.INF", ".NaN"],
    "null": ["null", "Null", "NULL", "~"],
    "timestamp": ["2001-12-14", "2001-12-15T02:59:43.1Z", "2001-12-14 21:59:43.10 -5"],
    "merge": ["<<"],
    "value": ["="],
}


@pytest.mark.parametrize("text", [text for texts in REINTERPRETED.values() for text in texts])
def test_what_yaml_would_take_for_something_else_stays_text(text: str) -> None:
    assert parse_yaml(f"a: {text}\nb: [{text}]\n{text}: c\n").value == {"a": text, "b": [text], text: "c"}


def test_an_ordinary_reader_does_reinterpret_them() -> None:
    # So that the test above is one that a change of reader would fail.
    changed = ("no", "1962", "0123", "12:30:45", "1985.10", "~", "2001-12-14")
    assert all(yaml.safe_load(text) != text for text in changed)


def test_nothing_after_a_key_is_no_text_but_a_warning() -> None:
    parsed = parse_yaml('by:\nto: ""\n')
    assert parsed.value == {"by": None, "to": ""}
    (warning,) = parsed.warnings
    assert (warning.rule, warning.spot, warning.path) == ("empty-value", (1, 4), ("by",))


def test_a_colour_without_quotes_is_a_comment_and_the_warning_says_so() -> None:
    (warning,) = parse_yaml("accent: #1f4a3d\n").warnings
    assert "comment" in warning.what and warning.instead == '"#1f4a3d" if that is the value'


def test_a_value_cut_short_by_a_number_sign_is_told() -> None:
    parsed = parse_yaml("number: Pot #3\nname: x # a remark\n")
    assert parsed.value == {"number": "Pot", "name": "x"}
    (warning,) = parsed.warnings
    assert (warning.rule, warning.spot) == ("comment-in-value", (1, 9))
    assert warning.instead is not None and warning.instead.startswith('"Pot #3"')


def test_a_key_written_twice_names_both_places_and_keeps_the_first() -> None:
    parsed = parse_yaml("a: 1\nb: 2\na: {c: 3, d: [4]}\na: 5\n")
    assert parsed.value == {"a": "1", "b": "2"}
    assert [(found.rule, found.spot, found.path) for found in parsed.slips] == [
        ("duplicate-key", (3, 1), ("a",)),
        ("duplicate-key", (4, 1), ("a",)),
    ]
    assert "line 1" in parsed.slips[0].what


@pytest.mark.parametrize("text", ["a: &x 1\n", "a: *x\n", "a: [*x]\n", "a: &x [1]\n", "&x a: 1\n"])
def test_names_for_values_are_refused_at_their_place(text: str) -> None:
    found = slip(text)
    assert found.rule == "alias"
    assert found.spot == (1, text.index("&" if "&" in text else "*") + 1)
    assert "written out" in (found.instead or "") or "without it" in (found.instead or "")


def test_values_that_multiply_by_names_cost_nothing() -> None:
    # the "billion laughs" of YAML: each line ten times the one before
    lines = ["a0: &a0 [x,x,x,x,x,x,x,x,x,x]"]
    lines += [f"a{n}: &a{n} [{','.join([f'*a{n - 1}'] * 10)}]" for n in range(1, 12)]
    parsed = parse_yaml("\n".join(lines))
    assert {found.rule for found in parsed.slips} == {"alias"}
    assert parsed.value["a11"] == [None] * 10


@pytest.mark.parametrize("text", ["a: " + "[" * 100_000, "{a: " * 100_000, "- " * 100_000 + "x"])
def test_bottomless_nesting_is_a_problem_and_no_crash(text: str) -> None:
    found = slip(text)
    assert found.rule == "too-deep" and str(DEEPEST) in found.what


def test_nesting_as_records_have_it_is_read() -> None:
    assert parse_yaml("[" * DEEPEST + "x" + "]" * DEEPEST).whole


BROKEN = [
    # text, place of the message, words in it, words in the advice
    ("form: [broom\ntaxon: Acer\n", (1, 7), "[ that opens here is not closed", "]"),
    ("a: b\nplace: {id: yard\nby: x\n", (2, 8), "{ that opens here is not closed", "}"),
    ("a: b\nform: [broom,\n  raft\n", (2, 7), "[ that opens here is not closed", "]"),
    ("a: {b: [c, d}\n", (1, 13), "[ that opens in column 8 is closed by a }", "]"),
    ("years: >=60\n", (1, 8), "begins with > must stand in quotes", '">=60"'),
    ("years: >60\n", (1, 8), "begins with > must stand in quotes", '">60"'),
    ("years: >6\nof: care\n", (1, 8), "begins with > must stand in quotes", '">6"'),
    ("d: {date: ?, kind: x}\n", (1, 11), "? inside one-line braces", '"?"'),
    ("d: {date: [1951,1953], kind: ]}\n", (1, 30), "]", "quotes"),
    ("title: Spring: the pot\n", (1, 14), "second colon", 'title: "Spring: the pot"'),
    ("a: 1\n  b: 2\n", (2, 4), "indented", "one column"),
    ("a:\n  b: 1\n c: 2\n", (3, 2), "indentation", "one column"),
    ("a: 'it's'\n", (1, 8), "after the closing '", "quotes"),
    ("a: [[T1]] and more\n", (1, 11), "after the closing ]", "quotes"),
    ("a: 'x\nb: c\n", (1, 4), "never closed", "'"),
    ('a: b\nc: "x\n', (2, 4), "never closed", '"'),
    ("a: x\nfoo\nb: c\n", (2, 1), "neither a key", "colon"),
    ("a:\n\t- b\n", (2, 1), "tab", "spaces"),
    ("a: @x\n", (1, 4), "begins with @", "quotes"),
    ("a: %x\n", (1, 4), "begins with %", "quotes"),
    ("a: `x`\n", (1, 4), "begins with `", "quotes"),
    ("a: !x 1\n", (1, 4), "begins with !", "quotes"),
    ("a: - b\n", (1, 4), "list begins here in the middle", "line of its own"),
    ("a: ? b\n", (1, 4), "begins with ?", "quotes"),
    ("- a\nb: c\n", (2, 1), "no item of the list", "dash"),
    ("a: {{ since.care }}\n", (1, 5), "begins with {{", "quotes"),
    ("? [a]\n: b\n", (1, 3), "where a key is expected", "key"),
    (": x\n", (1, 1), "colon stands here without a key", "key"),
    ("---\na: 1\n---\nb: 2\n", (3, 1), "second record", "one record"),
    ('a: "x\\q"\n', (1, 6), "backslash", "single quotes"),
]


@pytest.mark.parametrize(("text", "spot", "what", "instead"), BROKEN)
def test_slips_are_told_in_plain_words_at_their_place(
    text: str, spot: tuple[int, int], what: str, instead: str
) -> None:
    found = slip(text)
    assert (found.spot, found.rule in ("bad-yaml", "second-document")) == (spot, True)
    assert what in found.what
    assert instead in (found.instead or "")


def test_no_message_speaks_of_the_parser() -> None:
    told = [slip(text) for text, *_ in BROKEN]
    for word in ("token", "scalar", "flow", "block", "node", "mapping values", "parsing", "scanning"):
        assert not [found.what for found in told if word in found.what]


def test_an_escape_that_makes_a_control_character_is_refused() -> None:
    found = slip('a: "x\\0"\n')
    assert (found.rule, found.path) == ("control-character", ("a",))
