"""The photographs of the demonstration, one file a species."""

from __future__ import annotations

import importlib

from ..shot import Shot

# portraits of the front page first
TREES = (
    "two_fronts",
    "azalea",
    "mast",
    "raft",
    "persimmon",
    "hands",
    "lanterns",
    "birch",
    "clipped",
    "ferryman",
    "privet",
    "clump",
    "quince",
    "interpreter",
    "lamplighter",
    "customs",
    "banks",
    "maple",
    "forest",
    "cascade",
    "thorn",
    "reach",
    "zelkova",
    "harbour",
    "rock",
    "daughter",
    "yew",
    "later",
)


def every_shot() -> list[Shot]:
    """All photographs."""
    return [s for name in TREES for s in importlib.import_module(f"{__name__}.{name}").shots()]
