"""The photographs of the demonstration, one file a species."""

from __future__ import annotations

from ..shot import Shot
from . import cascade, daughter, forest, harbour, maple, reach, rock, thorn, yew, zelkova


def every_shot() -> list[Shot]:
    """All photographs, portraits of the front page first."""
    return [
        *maple.shots(),
        *forest.shots(),
        *cascade.shots(),
        *thorn.shots(),
        *reach.shots(),
        *zelkova.shots(),
        *harbour.shots(),
        *rock.shots(),
        *daughter.shots(),
        *yew.shots(),
    ]
