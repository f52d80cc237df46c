"""Licences and rights statements by their usual names and addresses.

Identifiers: SPDX licence list (CC-BY-4.0 …) and RightsStatements.org (InC, NoC-US …). Anything else is printed as
written.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

_STATEMENTS = {
    "InC": "In Copyright",
    "InC-OW-EU": "In Copyright – EU Orphan Work",
    "InC-EDU": "In Copyright – Educational Use Permitted",
    "InC-NC": "In Copyright – Non-Commercial Use Permitted",
    "InC-RUU": "In Copyright – Rights-holder(s) Unlocatable or Unidentifiable",
    "NoC-CR": "No Copyright – Contractual Restrictions",
    "NoC-NC": "No Copyright – Non-Commercial Use Only",
    "NoC-OKLR": "No Copyright – Other Known Legal Restrictions",
    "NoC-US": "No Copyright – United States",
    "CNE": "Copyright Not Evaluated",
    "UND": "Copyright Undetermined",
    "NKC": "No Known Copyright",
}
_LICENCE = re.compile(r"CC[- ](BY(?:-NC)?(?:-(?:SA|ND))?)[- ]([1-4]\.0)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Right:
    """What may be done with a photograph: a name, and the address of its text if it has one."""

    name: str
    url: str = ""


def right_words(code: str) -> Right:
    """The licence or statement with this identifier."""
    licence = _LICENCE.fullmatch(code.strip())
    if licence:
        terms, version = licence.group(1).upper(), licence.group(2)
        return Right(f"CC {terms} {version}", f"https://creativecommons.org/licenses/{terms.lower()}/{version}/")
    if code.strip().upper().replace(" ", "-") in {"CC0-1.0", "CC0"}:
        return Right("CC0 1.0", "https://creativecommons.org/publicdomain/zero/1.0/")
    if code.strip() in _STATEMENTS:
        return Right(_STATEMENTS[code.strip()], f"https://rightsstatements.org/vocab/{code.strip()}/1.0/")
    return Right(code)
