"""photos.yml: entries are put at its end, and everything the curator wrote stays as it was, byte for byte."""

from __future__ import annotations

import hashlib
import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

from archive_tools.read.yaml_text import parse_yaml
from archive_tools.sort_in.sheet import Entry, SheetError, add_entries, files_named, has_block, put_back, take_out

NEW: Entry = (("file", "2026-05-03_1.jpg"), ("date", "2026-05-03"), ("dated_by", "camera"))

AS_CURATORS_WRITE = {
    "nothing": b"",
    "comments only": b"# prints still to be scanned\n",
    "a list": b"- file: 1962_front_1.jpg\n  date: 1962\n",
    "no last line end": b"- file: 1962_front_1.jpg\n  date: 1962",
    "windows line ends": b"- file: 1962_front_1.jpg\r\n  date: 1962   # from the mount\r\n",
    "indented": b"  - file: 1962_front_1.jpg\n    date: 1962\n  # and more\n",
    "comments everywhere": b"# top\n\n- file: a.jpg   # why\n  # in between\n  date: '1962'\n\n\n# end\n",
    "another order and quotes": b"- date: \"1962\"\n  file: 'a.jpg'\n- {file: b.jpg, date: 1963}\n",
    "a text over several lines": b"- file: a.jpg\n  why: |\n    Two lines\n    of it.\n",
    "a text kept with its line ends": b"- file: a.jpg\n  why: |+\n    Two lines\n\n\n",
    "a dash alone": b"-\n  file: a.jpg\n",
    "three dashes": b"---\n- file: a.jpg\n",
    "a byte order mark": b"\xef\xbb\xbf- file: a.jpg\n",
    "spaces after values": b"- file: a.jpg  \n  date: 1962 \n",
    "old Mac line ends": b"- file: a.jpg\r  date: 1962\r",
}


def _second_reader(data: bytes) -> list[dict[str, object]]:
    """The same text by ruamel.yaml, which knows nothing of ours; values as text."""
    reader = YAML(typ="base", pure=True)
    text = data.decode("utf-8-sig").replace("\r\n", "\n").replace("\r", "\n")
    return [dict(item) for item in reader.load(io.StringIO(text)) or []]


@pytest.mark.parametrize("how", AS_CURATORS_WRITE)
def test_what_stood_there_stays_and_the_entry_comes_after_it(how: str) -> None:
    old = AS_CURATORS_WRITE[how]
    made = add_entries(old, [NEW], "photos.yml")
    assert made.data.startswith(old)
    assert made.data == old + made.joined.encode() + made.blocks[0].encode()
    before, after = _second_reader(old), _second_reader(made.data)
    assert after[:-1] == before
    assert after[-1] == dict(NEW)
    ends = {"windows line ends": b"\r\n", "old Mac line ends": b"\r"}.get(how, b"\n")
    assert made.data.endswith(b"dated_by: camera" + ends)


@pytest.mark.parametrize("how", AS_CURATORS_WRITE)
def test_what_was_put_there_can_be_taken_out_to_the_byte(how: str) -> None:
    old = AS_CURATORS_WRITE[how]
    made = add_entries(old, [NEW, (("file", "b.jpg"),)], "photos.yml")
    former = hashlib.sha256(old).hexdigest()
    assert take_out(made.data, made.blocks, made.joined, former) == old
    assert put_back(old, made.blocks, made.joined) == made.data
    assert put_back(made.data, made.blocks, made.joined) == made.data


def test_a_file_that_was_not_there_is_gone_again() -> None:
    made = add_entries(None, [NEW], "photos.yml")
    assert made.data == b"- file: 2026-05-03_1.jpg\n  date: 2026-05-03\n  dated_by: camera\n"
    assert take_out(made.data, made.blocks, made.joined, None) is None


def test_a_comment_put_above_a_new_file_stays_when_its_entries_go() -> None:
    made = add_entries(None, [NEW], "photos.yml")
    assert take_out(b"# mine\n" + made.data, made.blocks, made.joined, None) == b"# mine\n"


@pytest.mark.parametrize(
    ("old", "spot"),
    [
        (b"file: a.jpg\ndate: 1962\n", (1, 1)),
        (b"# one\n[{file: a.jpg}]\n", (2, 1)),
        (b"[]\n", (1, 1)),
        (b"- file: a.jpg\n...\n", (3, 1)),
        (b"- file: [a\n", (1, 9)),
        (b"just words\n", (1, 1)),
        (b"- file: \xff.jpg\n", (1, 9)),
        ("- file: a.jpg\n".encode("utf-16"), (1, 1)),
    ],
)
def test_a_file_to_which_nothing_can_be_added_is_refused_with_the_place(old: bytes, spot: tuple[int, int]) -> None:
    with pytest.raises(SheetError) as raised:
        add_entries(old, [NEW], "photos.yml")
    mark = raised.value.problem.mark
    assert (mark.file, mark.line, mark.column) == ("photos.yml", *spot)
    assert raised.value.problem.what


def test_an_entry_edited_since_is_not_taken_for_ours() -> None:
    made = add_entries(b"# mine\n", [NEW], "photos.yml")
    assert has_block(made.data, made.blocks[0])
    assert not has_block(made.data + b"  caption: Added by hand.\n", made.blocks[0])
    assert not has_block(made.data.replace(b"camera", b"print"), made.blocks[0])
    assert not has_block(made.data + made.blocks[0].encode(), made.blocks[0])
    assert has_block(made.data + b"- file: another.jpg\n", made.blocks[0])
    assert has_block(made.data + b"# a remark below\n", made.blocks[0])


def test_file_names_are_read_from_any_list() -> None:
    assert files_named(b"- {file: a.jpg}\n- file: ' b.jpg'\n- date: 1962\n", "photos.yml") == ("a.jpg", "b.jpg")
    assert files_named(b"- [", "photos.yml") == ()
    assert files_named(None, "photos.yml") == ()


_TEXT = st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1).map(str.strip).filter(bool)
_ENTRIES = st.lists(
    st.dictionaries(
        st.sampled_from(["caption", "alt", "why", "credit"]), st.one_of(_TEXT, st.lists(_TEXT, min_size=1))
    ),
    min_size=1,
    max_size=3,
)


@settings(deadline=None)
@given(st.sampled_from(sorted(AS_CURATORS_WRITE)), _ENTRIES)
def test_any_words_at_all_read_back_as_they_were_by_two_readers(
    how: str, said: list[dict[str, str | list[str]]]
) -> None:
    entries: list[Entry] = [(("file", f"{n}.jpg"), *one.items()) for n, one in enumerate(said)]
    made = add_entries(AS_CURATORS_WRITE[how], entries, "photos.yml")
    value = parse_yaml(made.data.decode("utf-8-sig").replace("\r\n", "\n").replace("\r", "\n")).value
    assert value[-len(entries) :] == [dict(entry) for entry in entries]
    if how == "old Mac line ends" or any("\x85" in str(one) for one in said):
        return
    assert _second_reader(made.data)[-len(entries) :] == [dict(entry) for entry in entries]
