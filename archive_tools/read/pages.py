"""Pages of the site that are written by hand, in Markdown with a little front matter."""

from __future__ import annotations

import re

from archive_tools.model.collection import HandWrittenPage
from archive_tools.model.grades import Visibility
from archive_tools.model.problems import Reach
from archive_tools.read.fields import House
from archive_tools.read.folders import Entry, Ground
from archive_tools.read.record_files import open_fronted
from archive_tools.read.schema_note import PageSchema
from archive_tools.read.validation import Written, check_record, warnings_of

_HEADING = re.compile(r"^# +(.+?)(?: +#+)?[ \t]*$", re.MULTILINE)


def read_pages_of(ground: Ground, folder: Entry) -> list[HandWrittenPage]:
    """The pages in `folder` and the folders inside it, by path.

    A page whose front matter has a fault stops a build: what is misspelt there may be `edition: internal`.
    """
    pages = []
    waiting = [folder]
    while waiting:
        for entry in ground.entries(waiting[0].path, waiting[0].file):
            if entry.is_folder:
                waiting.append(entry)
            elif entry.ending == ".md":
                page = _read_page(ground, entry, entry.file[len(folder.file) + 1 :])
                pages += [page] if page else []
            else:
                ground.tell_stray(entry, (), "a folder of pages (.md)")
        waiting.pop(0)
    return sorted(pages, key=lambda page: page.path)


def _read_page(ground: Ground, entry: Entry, path: str) -> HandWrittenPage | None:
    telling = ground.telling
    own = ("pages", "page", path)
    opened = open_fronted(entry.path, entry.file, telling, Reach.RECORD, own)
    if opened is None:
        return None
    parts, parsed = opened
    parsed.marks.setdefault((), (1, 1))
    written = Written(entry.file, parsed, {} if parsed.value is None else parsed.value)
    checked = check_record(PageSchema, written, House(), own=own)
    telling.problems.extend(checked.problems)
    if parsed.value is not None:
        telling.problems.extend(warnings_of(parsed, entry.file, checked.problems))
    if checked.record is None or not checked.trusted:
        return None
    if parts.head is not None:
        parsed.marks[("body",)] = (parts.body_line, 1)  # so that what is said of the text finds its line
    heading = _HEADING.search(parts.body)
    title = str(checked.record.title or (heading[1] if heading else entry.stem.replace("-", " ").capitalize()))
    internal = checked.record.edition == "internal"
    visibility = Visibility.INTERNAL if internal else Visibility.PUBLIC
    return HandWrittenPage(path, title, parts.body, written.where, visibility)
