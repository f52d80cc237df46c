"""Rights statements and licences, as codes that machines know too."""

from __future__ import annotations

import re
from collections.abc import Iterator

from archive_tools.check.telling import in_photo, in_value
from archive_tools.check.walk import all_photos
from archive_tools.model.collection import Collection
from archive_tools.model.problems import Problem
from archive_tools.model.vocabulary import folded, nearest

RIGHTS_STATEMENTS = {
    "InC": "In Copyright",
    "InC-OW-EU": "In Copyright - EU Orphan Work",
    "InC-EDU": "In Copyright - Educational Use Permitted",
    "InC-NC": "In Copyright - Non-Commercial Use Permitted",
    "InC-RUU": "In Copyright - Rights-holder(s) Unlocatable or Unidentifiable",
    "NoC-CR": "No Copyright - Contractual Restrictions",
    "NoC-NC": "No Copyright - Non-Commercial Use Only",
    "NoC-OKLR": "No Copyright - Other Known Legal Restrictions",
    "NoC-US": "No Copyright - United States",
    "CNE": "Copyright Not Evaluated",
    "UND": "Copyright Undetermined",
    "NKC": "No Known Copyright",
}
"""The twelve statements of RightsStatements.org 1.0 (codes and titles from memory)."""

_USUAL = ("CC0-1.0", *(f"CC-BY{more}-4.0" for more in ("", "-SA", "-ND", "-NC", "-NC-SA", "-NC-ND")))
_LICENCE = re.compile(
    r"CC0-1\.0|CC-BY(?:-NC)?(?:-SA|-ND)?-(?:1\.0|2\.0|2\.5|3\.0|4\.0)(?:-[A-Z]{2,4})?|CC-PDDC"
    r"|LicenseRef-[A-Za-z0-9.-]+|(?!CC|InC|NoC)[A-Z][A-Za-z0-9+]*(?:-[A-Za-z0-9+]+)*-[0-9]+(?:\.[0-9]+)*(?:-[a-z-]+)?"
)
"""Identifiers of the SPDX licence list: its Creative Commons licences exactly, others by their shape."""


def is_rights_code(text: str) -> bool:
    """Whether `text` is a code of RightsStatements.org or has the shape of an SPDX licence identifier."""
    return text in RIGHTS_STATEMENTS or _LICENCE.fullmatch(text) is not None


def bad_rights(collection: Collection) -> Iterator[Problem]:
    """`rights` of the house and of photographs; a photograph whose rights are not understood is not published."""
    rule = "bad-rights"
    house = collection.settings.rights
    if house is not None and not is_rights_code(house):
        mark = collection.settings.where.at("rights")
        yield in_value(mark, ("collection", ""), "rights", rule, _what(house), _meant(house))
    for tree, photo in all_photos(collection):
        if photo.rights is not None and photo.rights != house and not is_rights_code(photo.rights):
            yield in_photo(tree.accession, photo, ("rights",), rule, _what(photo.rights), _meant(photo.rights))


def _what(text: str) -> str:
    return f"“{text}” is neither a code of RightsStatements.org nor a licence of the SPDX list"


def _meant(text: str) -> str:
    address = re.search(r"rightsstatements\.org/(?:vocab|page)/([A-Za-z-]+)", text)
    if address and address[1] in RIGHTS_STATEMENTS:
        return address[1]
    address = re.search(r"creativecommons\.org/licenses/([a-z-]+)/([0-9.]+)", text)
    if address:
        return f"CC-{address[1].upper()}-{address[2]}"
    titles = {folded(title): code for code, title in RIGHTS_STATEMENTS.items()}
    if folded(text) in titles:
        return titles[folded(text)]
    return nearest(text, [*_USUAL, *RIGHTS_STATEMENTS]) or "CC-BY-4.0, InC or another code"
