"""Setting in type: any text comes out as itself, the file is tagged and whole, and no glyph is missing unseen.

PDF facts are read by poppler (`pdffonts`, `pdfinfo`, `pdftotext`), which shares no code with the typesetter.
"""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archive_tools import typesetter
from archive_tools.model.places_in_files import Mark
from archive_tools.publish.print.document import Printed, Told, botanical, printed, string, text
from archive_tools.publish.print.style import HouseStyle
from tests.publish.print.house import need_cjk, poppler


def document(body: str, *told: Told, language: str = "en", style: HouseStyle | None = None) -> Printed:
    return printed(
        "#set page(width: 148mm, height: 105mm, margin: 10mm)\n" + body,
        title="A test",
        language=language,
        style=style or HouseStyle(),
        day=date(2026, 11, 25),
        told=told,
    )


def read(made: bytes, folder: Path, *command: str) -> str:
    path = folder / "made.pdf"
    path.write_bytes(made)
    return poppler(*command, path, *(["-"] if command[0] == "pdftotext" else []))


@settings(max_examples=40, deadline=None)
@given(st.lists(st.text(st.characters(exclude_categories=("Cs",)), max_size=40), min_size=1, max_size=12))
def test_any_text_is_itself_in_the_markup(texts: list[str]) -> None:
    # The typesetter's own parser is the judge here: what it holds for the string is what was given.
    body = "".join(f"#metadata({string(one)}) <one>\n" for one in texts)
    assert typesetter.measured(Printed(body), "one") == texts


MARKS_OF_MARKUP = (
    "#let x = 1; *not bold* _nor slanted_ = no heading - no list + none / none: `raw` $x^2$ <label> @reference "
    "https://example.org ~ -- --- ... 'single' \"double\" \\ \\n \\u{41} [brackets] {braces} // no comment /* nor this"
)


def test_every_sign_of_the_markup_is_printed_as_it_was_typed(tmp_path: Path) -> None:
    said = read(typesetter.pdf(document(text(MARKS_OF_MARKUP))), tmp_path, "pdftotext", "-raw")
    assert " ".join(said.split()) == " ".join(MARKS_OF_MARKUP.split())


@pytest.mark.parametrize("after", [".len()", "(1)", "[x]", "; y", " + 1", "\n= z"])
def test_what_follows_a_text_is_not_taken_for_code(after: str, tmp_path: Path) -> None:
    said = read(typesetter.pdf(document(text("one") + text(after))), tmp_path, "pdftotext", "-raw")
    assert " ".join(said.split()) == " ".join(f"one{after}".split())


def test_the_file_is_tagged_has_its_fonts_and_is_the_same_twice(tmp_path: Path) -> None:
    body = (
        "= " + text("Halvard’s Maple") + "\n\n" + botanical("Acer buergerianum") + "\n\n#data[" + text("S1979.2") + "]"
    )
    made = typesetter.pdf(document(body))
    assert made == typesetter.pdf(document(body))
    fonts = read(made, tmp_path, "pdffonts").splitlines()[2:]
    assert len(fonts) >= 3
    assert all(re.search(r"\byes +yes +yes +\d+ +\d+$", line) for line in fonts), fonts  # embedded, subset, Unicode
    info = read(made, tmp_path, "pdfinfo")
    assert re.search(r"^Tagged: +yes$", info, re.M)
    assert re.search(r"^Title: +A test$", info, re.M)
    metadata = read(made, tmp_path, "pdfinfo", "-meta")
    assert re.search(r"pdfuaid:part\W+1\b", metadata)
    assert "2026-11-25" in metadata


def test_a_botanical_name_slants_its_epithets_alone(tmp_path: Path) -> None:
    made = typesetter.pdf(document(botanical("Acer palmatum var. amoenum 'Koreanum'")))
    assert " ".join(read(made, tmp_path, "pdftotext").split()) == "Acer palmatum var. amoenum ‘Koreanum’"
    poppler("pdftohtml", "-xml", "-i", "-q", tmp_path / "made.pdf", tmp_path / "made")
    slanted = re.findall(r"<i>(.*?)</i>", (tmp_path / "made.xml").read_text(encoding="utf-8"))
    assert " ".join(" ".join(slanted).split()) == "Acer palmatum amoenum"


def test_a_missing_glyph_is_told_where_it_is_written() -> None:
    where = Mark("trees/S1979.2-halvards-maple/tree.yml", 14, 3)
    told = Told("A maple 𓆭 of stone", where)  # an Egyptian hieroglyph
    (problem,) = typesetter.missing_glyphs(document(text(told.text), told, Told("nothing odd", Mark("other.yml"))))
    assert problem.mark == where
    assert "U+131AD" in problem.what
    assert problem.instead


@pytest.mark.parametrize(
    "said", ["Kōkō Dvořák Łódź Šakić Đặng Ŵyn þorn ß ẞ", "1954–1957, “quoted” ‘so’ … × ° ½ − ≥ € † §", "Ωμέγα Жаба"]
)
def test_names_with_any_european_letters_can_be_set(said: str) -> None:
    assert typesetter.missing_glyphs(document(text(said))) == ()


def test_japanese_and_chinese_are_set_in_their_own_shapes(tmp_path: Path) -> None:
    need_cjk()
    body = text("直 骨 青沼すみれ", "ja") + "\n\n" + text("直 骨 夕照鷺灣", "zh-Hant")
    made = typesetter.pdf(document(body))
    assert typesetter.missing_glyphs(document(body)) == ()
    assert read(made, tmp_path, "pdftotext", "-raw").split("\n")[:2] == ["直 骨 青沼すみれ", "直 骨 夕照鷺灣"]
    # The same code point is drawn otherwise in Japan and in Taiwan: a font for each, not one for both.
    fonts = {line.split()[0].split("+")[1] for line in read(made, tmp_path, "pdffonts").splitlines()[2:]}
    assert len(fonts - {"EBGaramond-Regular"}) == 2


def test_without_a_font_for_them_their_absence_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(typesetter, "_MACHINE_FONTS", ())
    (problem,) = typesetter.missing_glyphs(document(text("楓", "ja"), Told("唐楓"[1], Mark("a/tree.yml", 3, 5))))
    assert problem.rule == "no-font"
    assert "fonts-noto-cjk" in (problem.instead or "")


def test_a_fault_of_the_markup_is_an_error_of_ours() -> None:
    with pytest.raises(typesetter.TypesettingError, match="could not be set"):
        typesetter.pdf(document("#nonesuch()"))
