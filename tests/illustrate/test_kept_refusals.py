"""Why two pictures were not laid over each other is kept apart from its language, and read back as it was found."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from illustrate_builders import photo
from PIL import Image

from archive_tools.illustrate import found_alignments as module
from archive_tools.illustrate.found_alignments import Found, alignment_file, found_alignments
from archive_tools.illustrate.originals import Original, original_of
from archive_tools.publish.translation import translations_for


def blank(root: Path, name: str, grey: int) -> Original:
    """A picture in which nothing can be found again."""
    Image.new("RGB", (300, 200), (grey, grey, grey)).save(root / name)
    return original_of(photo(root, name), root)


def test_a_refusal_is_kept_as_its_message_and_told_in_any_language(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pair = blank(tmp_path, "a.png", 90), blank(tmp_path, "b.png", 200)
    key = (pair[0].fingerprint, pair[1].fingerprint)
    looked = found_alignments([pair], tmp_path / "cache")[key]
    assert looked.laid is None
    assert looked.why is not None
    assert "look alike" in looked.why.say()
    assert "似て見える" in looked.why.say(translations_for("ja").gettext)
    file = alignment_file(tmp_path / "cache", key)
    assert json.loads(file.read_text())["why"] == looked.why.as_json()

    monkeypatch.setattr(module, "find", lambda *_: pytest.fail("what is kept is not looked for again"))
    assert found_alignments([pair], tmp_path / "cache") == {key: looked}
    # What an older version kept as a sentence, or what is damaged, is looked for anew and never shown.
    for damaged in ('{"laid": null, "why": "too few places"}', '{"laid": null, "why": null}', "{"):
        file.write_text(damaged)
        monkeypatch.setattr(module, "find", lambda *_: (Found(None, looked.why), True))
        assert found_alignments([pair], tmp_path / "cache") == {key: looked}, damaged
