"""What lies in a folder of the collection, in an order that does not depend on the disk."""

from __future__ import annotations

import os
from dataclasses import dataclass, field
from pathlib import Path

from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem, Reach, Severity
from archive_tools.model.vocabulary import nearest
from archive_tools.read.file_names import fault_of_name, is_left_alone, same_on_some_machines, shown_name


@dataclass(frozen=True, slots=True)
class Entry:
    """A file or folder. `file` is what messages call it: its path from the collection's folder, with `/`."""

    name: str
    path: Path
    file: str
    is_folder: bool

    @property
    def stem(self) -> str:
        """The name without its ending."""
        return self.name.rpartition(".")[0] or self.name

    @property
    def ending(self) -> str:
        """The ending in small letters, with its point."""
        return self.path.suffix.lower()


@dataclass(slots=True)
class Telling:
    """Where problems are gathered while files are read."""

    problems: list[Problem] = field(default_factory=list)

    def error(
        self,
        mark: Mark,
        rule: str,
        what: str,
        instead: str | None = None,
        reach: Reach = Reach.RECORD,
        subject: tuple[str, str, str] | None = None,
    ) -> None:
        """Something written is wrong."""
        self.problems.append(Problem(mark, what, instead, rule, Severity.ERROR, reach, subject))

    def warning(self, mark: Mark, rule: str, what: str, instead: str | None = None) -> None:
        """Something that somebody should look at."""
        self.problems.append(Problem(mark, what, instead, rule, Severity.WARNING, Reach.TOLD))


@dataclass(frozen=True, slots=True)
class Ground:
    """The folder of the collection, to which nothing outside belongs."""

    root: Path
    real: Path
    telling: Telling

    @classmethod
    def of(cls, root: Path, telling: Telling) -> Ground:
        """The ground at `root`. Raises OSError if there is no such folder."""
        return cls(root, root.resolve(strict=True), telling)

    def entries(self, folder: Path, file: str = "", left_out: Reach = Reach.RECORD) -> list[Entry]:
        """What lies in `folder`, which messages call `file`, sorted by name.

        Hidden files and backups are passed over; what leads out of the collection is refused, and
        `left_out` says how far that reaches.
        """
        try:
            with os.scandir(folder) as found:
                listed = sorted((one for one in found if not is_left_alone(one.name)), key=lambda one: one.name)
        except OSError as fault:
            self.telling.error(Mark(file), "unreadable-file", f"this folder cannot be read: {fault.strerror}")
            return []
        prefix = f"{file}/" if file else ""
        entries = []
        for one in listed:
            shown = prefix + shown_name(one.name)
            self._tell_name(one.name, shown)
            entry = self._entry(one, shown, left_out)
            if entry is not None:
                entries.append(entry)
        for later, earlier in same_on_some_machines(entry.name for entry in entries):
            self.telling.error(
                Mark(prefix + shown_name(later)),
                "same-name",
                f"on some machines this name is the same as “{earlier}” beside it, and one would overwrite the other",
                "a name that differs in more than capitals",
                Reach.TOLD,
            )
        return entries

    def _tell_name(self, name: str, shown: str) -> None:
        fault = fault_of_name(name)
        if fault:
            self.telling.error(Mark(shown), "bad-file-name", fault[0], fault[1], Reach.TOLD)

    def _entry(self, one: os.DirEntry[str], shown: str, left_out: Reach) -> Entry | None:
        path = Path(one.path)
        try:
            is_folder, is_file = one.is_dir(), one.is_file()
            if one.is_symlink():
                what = None
                if not path.resolve(strict=True).is_relative_to(self.real):
                    what = "this link leads out of the collection, and nothing outside it is read"
                elif is_folder:
                    what = "this is a link to another folder of the collection, whose files would be read twice"
                if what:
                    self.telling.error(Mark(shown), "leads-out", what, "a copy of what it leads to", left_out)
                    return None
        except (OSError, RuntimeError):
            self.telling.error(
                Mark(shown), "leads-out", "this link leads nowhere", "a copy of the file itself", left_out
            )
            return None
        if not is_folder and not is_file:
            self.telling.warning(Mark(shown), "stray-file", "this is neither a file nor a folder")
            return None
        return Entry(one.name, path, shown, is_folder)

    def tell_stray(self, entry: Entry, known: tuple[str, ...], where: str) -> None:
        """A file or folder that no rule of the format has a place for."""
        if entry.is_folder and any(entry.path.glob("*.py")):
            # A program kept beside its collection; its files are nobody's records.
            return
        near = nearest(entry.name, known)
        if near is None and entry.name.lower().endswith(".yaml"):
            near = entry.stem + ".yml"
        what = f"{where} knows no {'folder' if entry.is_folder else 'file'} of this name, and it is not read"
        self.telling.warning(Mark(entry.file), "stray-file", what, near)
