"""The mapping file: a table in which the curator says what each picture is; it decides where the other ways differ.

Its first row names the columns: `file` and `accession`, then any of the keys of photos.yml that hold a plain value.
`accession` may hold several, with semicolons between them; a dash leaves the picture out; empty leaves the tree to the
other ways.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from pathlib import Path

from archive_tools.model.collection import Collection
from archive_tools.model.places_in_files import Mark, Step
from archive_tools.model.problems import Problem, Reach, Severity
from archive_tools.model.vocabulary import nearest
from archive_tools.read.fields import House
from archive_tools.read.schema_photo import PhotoSchema
from archive_tools.read.settings import house_of
from archive_tools.read.text_files import read_text
from archive_tools.read.validation import Written, check_record
from archive_tools.read.yaml_text import Parsed
from archive_tools.sort_in.csv_text import BadTableError, Cell, rows_of
from archive_tools.sort_in.facts import NO_MAPPING, MappingFile, MappingRow

_LISTS = ("people", "shows")
KEYS = (
    "sure", "date", "dated_by", "why", "view", "shows", "caption", "alt", "photographer", "rights_holder", "held_by",
    "credit", "rights", "permission", "people", "children", "consent", "source", "visibility", "public_from",
)  # fmt: skip
"""The keys of photos.yml that a column may bear, in the order in which an entry is written."""
_COLUMNS = ("file", "accession", *KEYS)
_OUT = frozenset({"-", "–", "—"})


def read_mapping(path: Path | None, files: Iterable[str], collection: Collection) -> MappingFile:
    """The mapping file at `path` (None: there is none), about the pictures `files`. Every fault becomes a problem."""
    if path is None:
        return NO_MAPPING
    found = read_text(path, path.name)
    if found.text is None:
        return MappingFile({}, found.problems)
    return mapping_of(found.text, path.name, files, collection)


def mapping_of(text: str, name: str, files: Iterable[str], collection: Collection) -> MappingFile:
    """The same from the file's text; `name` is what messages call it. Never raises for any text."""
    reader = _Reader(name, tuple(files), collection)
    try:
        rows = rows_of(text)
    except BadTableError as fault:
        reader.tell((fault.line, fault.column), "bad-table", fault.what, fault.instead)
        return MappingFile({}, tuple(reader.problems))
    if not rows:
        reader.tell((1, 1), "bad-table", "this table is empty", "a first row: file,accession")
        return MappingFile({}, tuple(reader.problems))
    columns = reader.columns(rows[0])
    if {"file", "accession"} <= set(columns):
        for row in rows[1:]:
            reader.row(row, columns)
    return MappingFile({} if reader.problems else reader.made, tuple(reader.problems))


class _Reader:
    def __init__(self, name: str, files: tuple[str, ...], collection: Collection) -> None:
        self.name = name
        self.trees = collection.trees
        self.house: House = house_of(collection.settings, frozenset(collection.trees))
        self.problems: list[Problem] = []
        self.made: dict[str, MappingRow] = {}
        self.by_path: dict[str, list[str]] = {}
        for file in files:
            plain = _plain(file)
            for key in dict.fromkeys((plain, plain.rpartition("/")[2])):
                self.by_path.setdefault(key, []).append(file)

    def tell(self, spot: tuple[int, int], rule: str, what: str, instead: str | None = None) -> None:
        self.problems.append(Problem(Mark(self.name, *spot), what, instead, rule, Severity.ERROR, Reach.RECORD))

    def columns(self, header: list[Cell]) -> list[str]:
        names: list[str] = []
        for cell in header:
            name = cell.text.strip().casefold().replace(" ", "_")
            spot = (cell.line, cell.column)
            if name in names and name:
                self.tell(spot, "duplicate-key", f"the column `{name}` stands here twice", "each column once")
            elif name not in _COLUMNS:
                instead = nearest(name, _COLUMNS) or f"one of: {', '.join(_COLUMNS)}"
                self.tell(spot, "unknown-key", f"a mapping file knows no column “{cell.text.strip()}”", instead)
            names.append(name)
        for wanted in ("file", "accession"):
            if wanted not in names:
                spot = (header[0].line, header[0].column)
                self.tell(spot, "missing-key", f"the first row names no column `{wanted}`", "file,accession,…")
        return names

    def row(self, cells: list[Cell], columns: list[str]) -> None:
        if len(cells) > len(columns):
            extra = cells[len(columns)]
            what = f"this row has {len(cells)} cells, and the first row names {len(columns)} columns"
            self.tell((extra.line, extra.column), "bad-table", what, "quotation marks round a cell that holds the sign")
            return
        said = {name: cell for name, cell in zip(columns, cells, strict=False) if cell.text.strip()}
        if "file" not in said:
            self.tell((cells[0].line, cells[0].column), "missing-key", "this row names no file", "the picture's path")
            return
        file = self._file(said.pop("file"))
        if file is None:
            return
        if file in self.made:
            spot = (cells[0].line, cells[0].column)
            what = f"the picture “{file}” has a row already, in line {self.made[file].line}"
            self.tell(spot, "duplicate-entry", what, "one row a picture")
            return
        before = len(self.problems)
        trees = self._trees(said.pop("accession")) if "accession" in said else None
        entry = self._entry(said, file)
        if len(self.problems) == before:
            self.made[file] = MappingRow(file, cells[0].line, trees, entry)

    def _file(self, cell: Cell) -> str | None:
        wanted = _plain(cell.text)
        found = self.by_path.get(wanted, [])
        if len(found) == 1:
            return found[0]
        if found:
            whole = [file for file in found if _plain(file) == wanted]
            if len(whole) == 1:
                return whole[0]
            what = f"“{cell.text.strip()}” may be any of {', '.join(found)}"
            self.tell((cell.line, cell.column), "unclear-file", what, f"the path from the folder, such as {found[0]}")
            return None
        what = f"there is no picture “{cell.text.strip()}” in the folder"
        self.tell((cell.line, cell.column), "photo-missing", what, nearest(wanted, self.by_path))
        return None

    def _trees(self, cell: Cell) -> tuple[str, ...]:
        text = cell.text.strip()
        if text in _OUT:
            return ()
        named = [text] if text in self.trees else [one.strip() for one in text.split(";")]
        at = 0
        for one in named:
            if one not in self.trees:
                inside = cell.text.find(one, at) if one else 0
                column = cell.column + (inside if "\n" not in cell.text else 0)
                self.tell(
                    (cell.line, column), "unknown-tree",
                    f"no tree of the collection bears the accession `{one}`", nearest(one, self.trees),
                )  # fmt: skip
        return tuple(dict.fromkeys(named))

    def _entry(self, said: dict[str, Cell], file: str) -> tuple[tuple[str, str | list[str]], ...]:
        values: dict[str, str | list[str]] = {}
        marks: dict[tuple[Step, ...], tuple[int, int]] = {}
        for key in KEYS:
            if key not in said:
                continue
            cell = said[key]
            text = cell.text.strip()
            odd = next((c for c in text if not c.isprintable() and c not in "\n\t"), None)
            if odd is not None:
                what = f"an invisible control character (U+{ord(odd):04X}) stands in this cell"
                self.tell((cell.line, cell.column), "control-character", what, "the text without it")
                continue
            values[key] = [one.strip() for one in text.split(";") if one.strip()] if key in _LISTS else text
            marks[(key,)] = (cell.line, cell.column)
        parsed = Parsed({"file": file, **values}, marks, dict(marks))
        checked = check_record(PhotoSchema, Written(self.name, parsed, parsed.value), self.house)
        self.problems += checked.problems
        return tuple(values.items())


def _plain(path: str) -> str:
    return unicodedata.normalize("NFC", path.strip().replace("\\", "/").removeprefix("./"))
