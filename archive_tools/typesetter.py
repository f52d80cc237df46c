"""Sets a document in type: markup in, a tagged PDF out (PDF/UA-1, ISO 14289-1), the same bytes for the same document.

The Latin fonts come with the program; Chinese, Japanese and Korean are set in a font of the machine. A character that
no font has would come out as an empty box while the text under it looks right, so it is told before anything is set.
"""

from __future__ import annotations

import json
import shutil
import tempfile
import unicodedata
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from typing import Any

import typst
from fontTools.ttLib import TTCollection, TTFont  # type: ignore[import-untyped]

from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem, Reach
from archive_tools.publish.print.document import Printed, has_cjk

FONT_FOLDER = Path(__file__).resolve().parent / "print_fonts"

_FOR_ALL = (
    ("EBGaramond-Regular.ttf", "EBGaramond-Italic.ttf"),
    (
        "SourceSans3-Regular.otf",
        "SourceSans3-It.otf",
        "SourceSans3-Semibold.otf",
    ),
)
_MACHINE_FONTS = (
    "/usr/share/fonts/opentype/noto/NotoSerifCJK-Regular.ttc",
    "/usr/share/fonts/opentype/noto/NotoSansCJK-Regular.ttc",
    "/usr/share/fonts/opentype/noto/NotoSansCJK-Bold.ttc",
    "/usr/share/fonts/noto-cjk/NotoSerifCJK-Regular.ttc",
    "/usr/share/fonts/noto-cjk/NotoSansCJK-Regular.ttc",
    "/usr/share/fonts/noto-cjk/NotoSansCJK-Bold.ttc",
    "/System/Library/Fonts/ヒラギノ明朝 ProN.ttc",
    "/System/Library/Fonts/ヒラギノ角ゴシック W3.ttc",
    "/System/Library/Fonts/ヒラギノ角ゴシック W6.ttc",
    "/System/Library/Fonts/Supplemental/Songti.ttc",
    "C:/Windows/Fonts/yumin.ttf",
    "C:/Windows/Fonts/YuGothR.ttc",
    "C:/Windows/Fonts/simsun.ttc",
)
"""Where Debian, Fedora and Arch, macOS and Windows keep fonts for Chinese, Japanese and Korean."""


class TypesettingError(ValueError):
    """A document that cannot be set: its markup or a picture in it is at fault, and the message says where."""


def pdf(document: Printed) -> bytes:
    """The document as a tagged PDF with all fonts in it. Raises TypesettingError."""
    with _laid_out(document) as (main, fonts):
        try:
            made = typst.compile(
                main,
                root=main.parent,
                font_paths=fonts,
                ignore_system_fonts=True,
                format="pdf",
                pdf_standards=["ua-1"],
                timestamp=datetime(document.day.year, document.day.month, document.day.day, tzinfo=UTC),
            )
        except typst.TypstError as fault:
            raise _fault(fault) from None
    return made if isinstance(made, bytes) else b"".join(made or [])


def measured(document: Printed, name: str) -> list[Any]:
    """The values of the document's `metadata` elements labelled <name>, in order. Raises TypesettingError."""
    with _laid_out(document) as (main, fonts):
        try:
            said = typst.query(
                main,
                f"<{name}>",
                field="value",
                root=main.parent,
                font_paths=fonts,
                ignore_system_fonts=True,
            )
        except typst.TypstError as fault:
            raise _fault(fault) from None
    values = json.loads(said)
    return values if isinstance(values, list) else [values]


def missing_glyphs(document: Printed) -> tuple[Problem, ...]:
    """Problems for each character that no font at hand can draw, once a text, where it is written."""
    problems: list[Problem] = []
    lacking = {letter for letter in set(document.source) if not _drawn(letter)}
    left = set(lacking)
    for told in document.told:
        for letter in sorted(lacking & set(told.text)):
            problems.append(_missing(letter, told.mark))
            left.discard(letter)
    problems += [_missing(letter, Mark("collection.yml")) for letter in sorted(left)]
    return tuple(dict.fromkeys(problems))


def _missing(letter: str, mark: Mark) -> Problem:
    named = f"“{letter}” (U+{ord(letter):04X} {unicodedata.name(letter, 'a character without a name').lower()})"
    if has_cjk(letter) and not machine_fonts():
        return Problem(
            mark,
            f"the character {named} needs a font for Chinese, Japanese and Korean, and this machine has none",
            "install one (on Debian: fonts-noto-cjk), or print in another language",
            "no-font",
            reach=Reach.TOLD,
        )
    return Problem(
        mark,
        f"no font at hand has the character {named}, so it would be printed as an empty box",
        "the same in letters that the fonts have",
        "no-glyph",
        reach=Reach.TOLD,
    )


def machine_fonts() -> tuple[Path, ...]:
    """Files of the machine's fonts for Chinese, Japanese and Korean."""
    return tuple(path for path in map(Path, _MACHINE_FONTS) if path.is_file())


def _drawn(letter: str) -> bool:
    # Spaces and ends of lines are not drawn; soft hyphens and joiners need no shape of their own.
    if letter.isspace() or unicodedata.category(letter) in {"Cf", "Zs"} or letter.isascii():
        return True
    if any(all(ord(letter) in _letters(FONT_FOLDER / name) for name in faces) for faces in _FOR_ALL):
        return True
    return any(ord(letter) in _letters(path) for path in machine_fonts())


@cache
def _letters(path: Path) -> frozenset[int]:
    """The characters that a font file can draw; of a collection, those of its first font."""
    if path.suffix == ".ttc":
        with TTCollection(str(path), lazy=True) as collection:
            return frozenset(collection.fonts[0].getBestCmap())
    with TTFont(str(path), lazy=True) as font:
        return frozenset(font.getBestCmap())


@contextmanager
def _laid_out(document: Printed) -> Iterator[tuple[Path, typst.Fonts]]:
    """The document and its files in a folder of their own, with the fonts it needs."""
    with tempfile.TemporaryDirectory(prefix="archive-tools-") as folder:
        root = Path(folder)
        for name, data in document.files.items():
            target = root / name
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(data)
        main = root / "document.typ"
        main.write_text(document.source, encoding="utf-8")
        yield main, _fonts(has_cjk(document.source))


@cache
def _fonts(with_cjk: bool) -> typst.Fonts:
    folders = [FONT_FOLDER, *([Path(_linked().name)] if with_cjk else [])]
    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=folders)


@cache
def _linked() -> tempfile.TemporaryDirectory[str]:
    """A folder of links to the machine's fonts, for as long as the program runs: fonts are taken by folder."""
    folder = tempfile.TemporaryDirectory(prefix="archive-tools-fonts-")
    for number, path in enumerate(machine_fonts()):
        link = Path(folder.name) / f"{number}{path.suffix}"
        try:
            link.symlink_to(path)
        except OSError:  # where links need a right of their own
            shutil.copyfile(path, link)
    return folder


def _fault(fault: typst.TypstError) -> TypesettingError:
    hints = " ".join(fault.hints)
    return TypesettingError(f"the document could not be set: {fault.message} {hints}".strip())
