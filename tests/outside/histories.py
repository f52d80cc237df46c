"""The small histories of the lineage tests as editions, so that what is made of them can be checked from outside."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from functools import cache
from typing import Any
from unittest import mock

from archive_tools.editions import select, view_of, with_effective_visibility
from archive_tools.model.grades import Edition, Visibility
from archive_tools.model.tree import Tree
from archive_tools.model.view import EditionView
from archive_tools.reason import find
from tests.making import AS_OF, collection
from tests.reason import lineage_asking, test_lineage_histories, test_lineage_plantings

Told = tuple[str, dict[str, Any]]
"""The accession asked for and its lineage in the machine form."""
_KINDS = ("trees", "events", "stewards", "sources", "objects", "notes", "photographs")


@cache
def stories() -> dict[str, tuple[Callable[[], EditionView], Told]]:
    """By the name of the test that tells it (numbered where it asks more than once): its edition and what was asked."""
    found: dict[str, tuple[Callable[[], EditionView], Told]] = {}

    def ask(*trees: Tree, of: str = "T1", as_of: date = AS_OF, **more: Any) -> dict[str, Any]:
        told = lineage_asking.lineage(*trees, of=of, as_of=as_of, **more)
        found[f"{name} {len(found) + 1}"] = (lambda: edition(*trees, as_of=as_of, **more), (of, told))
        return told

    for module in (test_lineage_histories, test_lineage_plantings):
        with mock.patch.object(module, "lineage", ask):
            for name, test in vars(module).items():
                if name.startswith("test_"):
                    test()
    return found


def edition(*trees: Tree, as_of: date = AS_OF, of: Edition = Edition.PUBLIC, **more: Any) -> EditionView:
    """The public edition of these trees, in which everything is public that does not say otherwise."""
    parts = {key: more.pop(key) for key in ("sources", "objects") if key in more}
    stewards = lineage_asking.people(**more)
    records = collection(*trees, defaults=dict.fromkeys(_KINDS, Visibility.PUBLIC), stewards=stewards, **parts)
    settings = replace(records.settings, site_url="https://house.example/")
    whole = with_effective_visibility(replace(records, settings=settings), as_of)
    selected, left_out = select(whole, of)
    return view_of(selected, find(selected, as_of, as_of), of, left_out)
