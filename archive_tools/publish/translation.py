"""Words of the pages in the reader's language: gettext catalogues under `archive_tools/locale`.

English is the language the messages are written in, so it needs no catalogue. Extract with
`pybabel extract -k translate -F archive_tools/locale/babel.cfg -o messages.pot archive_tools`.
"""

from __future__ import annotations

import gettext
from pathlib import Path

DOMAIN = "archive_tools"
LOCALE_FOLDER = Path(__file__).resolve().parent.parent / "locale"


def translations_for(language: str) -> gettext.NullTranslations:
    """The catalogue for `language` (BCP 47), or for its base language; where there is none, English as written."""
    wanted = [language.replace("-", "_"), language.split("-", maxsplit=1)[0]]
    return gettext.translation(DOMAIN, str(LOCALE_FOLDER), languages=wanted, fallback=True)
