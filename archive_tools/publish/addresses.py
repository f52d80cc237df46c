"""Where pages stand: addresses made from accessions and ids, the same on every build and on every file system."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping


def addresses(names: Iterable[str]) -> Mapping[str, str]:
    """A folder name for each of `names`, in their order: ASCII letters, digits, dots, dashes and underscores.

    Names that differ only in what an address cannot hold (case included, since some file systems do not keep it apart)
    get "-2", "-3" … in order.
    """
    given: dict[str, str] = {}
    taken: set[str] = set()
    for name in names:
        address = plain_address(name)
        number = 2
        while address.casefold() in taken:
            address = f"{plain_address(name)}-{number}"
            number += 1
        taken.add(address.casefold())
        given[name] = address
    return given


def plain_address(name: str) -> str:
    """`name` as a folder name; "x" where nothing is left of it (a name in another script: its code points)."""
    decomposed = unicodedata.normalize("NFKD", name)
    ascii_only = "".join(letter for letter in decomposed if not unicodedata.combining(letter))
    if not ascii_only.isascii():
        ascii_only = "".join(c if c.isascii() else f"u{ord(c):x}" for c in ascii_only)
    address = re.sub(r"[^A-Za-z0-9._-]+", "-", ascii_only).strip("-.")
    return "x" if not address or address.casefold() == "index" else address


def anchor(name: str) -> str:
    """`name` as the last part of an id or a value in an address: lower case, dashes for whatever is not a letter."""
    return plain_address(name.replace(".", "-")).casefold()
