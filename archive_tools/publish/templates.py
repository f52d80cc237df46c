"""The page bodies' templates: Jinja with escaping on, every unknown name an error."""

from __future__ import annotations

from functools import lru_cache
from gettext import NullTranslations

from jinja2 import Environment, PackageLoader, StrictUndefined


@lru_cache(maxsize=8)
def environment(translations: NullTranslations) -> Environment:
    """The environment for one language. Catalogues are compared by identity, so keep one for a whole build."""
    env = Environment(
        loader=PackageLoader("archive_tools", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        extensions=["jinja2.ext.i18n"],
    )
    env.install_gettext_translations(translations, newstyle=True)  # type: ignore[attr-defined]
    env.policies["ext.i18n.trimmed"] = True
    return env
