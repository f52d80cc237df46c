"""Words of the pages in the reader's language: gettext catalogues under `archive_tools/locale`.

English is the language the messages are written in, so it needs no catalogue. Every other language is one text file,
`<language>/LC_MESSAGES/archive_tools.po`, and nothing is compiled beside it: the file is read when a language is first
asked for, so that what a translator has written is what the pages say, however the package was installed.

To bring a catalogue up to date:
`pybabel extract -k translate -k N_ -F archive_tools/locale/babel.cfg --no-location -o words.pot archive_tools`,
then `pybabel update -D archive_tools -d archive_tools/locale -i words.pot --no-fuzzy-matching`.
"""

from __future__ import annotations

import gettext
import io
from functools import cache
from pathlib import Path

from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

DOMAIN = "archive_tools"
LOCALE_FOLDER = Path(__file__).resolve().parent.parent / "locale"


def translations_for(language: str) -> gettext.NullTranslations:
    """The catalogue for `language` (BCP 47), or for its base language; where there is none, English as written."""
    for name in (language.replace("-", "_"), language.split("-", maxsplit=1)[0]):
        if catalogue_of(name).is_file():
            return _read(catalogue_of(name))
    return gettext.NullTranslations()


def catalogue_of(locale: str) -> Path:
    """Where the catalogue of a locale ("ja", "pt_BR") stands, whether there is one or not."""
    return LOCALE_FOLDER / locale / "LC_MESSAGES" / f"{DOMAIN}.po"


@cache
def _read(file: Path) -> gettext.NullTranslations:
    """A catalogue as the standard library wants it, which reads the compiled form only."""
    compiled = io.BytesIO()
    with file.open("rb") as written:
        write_mo(compiled, read_po(written))
    compiled.seek(0)
    return gettext.GNUTranslations(compiled)
