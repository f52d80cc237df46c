"""Small decks for the tests, with pictures drawn on the spot."""

from __future__ import annotations

import io
from datetime import UTC, datetime

from PIL import Image

from archive_tools.publish.talk import Changes, Slide, write_deck
from archive_tools.publish.talk.slide import PICTURE, SECTION, Plate

DAY = datetime(2027, 2, 18, tzinfo=UTC)


def picture(url: str) -> bytes:
    """A picture whose colour follows from its address."""
    out = io.BytesIO()
    Image.new("RGB", (320, 200), (len(url) * 17 % 256, hash_of(url), 90)).save(out, "PNG")
    return out.getvalue()


def hash_of(url: str) -> int:
    return sum(url.encode()) % 256


def plate(url: str = "a.png", alt: str = "A maple in a blue pot.") -> Plate:
    return Plate(url, alt, 1.6, "1962")


def slide(key: str, title: str, *lines: str, url: str = "a.png", notes: str = "Say it slowly.") -> Slide:
    return Slide(key, PICTURE, title, lines, (plate(url),), notes=notes)


def section(key: str, title: str) -> Slide:
    return Slide(key, SECTION, title, ("The Besom. In training since 1973 or earlier",), (plate("b.png"),))


PLAN = (
    section("section-1", "A label is a claim"),
    slide("section-1/one", "The Besom, about 1971", "By a wall."),
    slide("section-1/two", "The Besom, 2026", url="c.png"),
)


def made(slides: tuple[Slide, ...], earlier: bytes | None = None, *, bring_back: bool = False) -> tuple[bytes, Changes]:
    return write_deck(
        slides, picture, accent="1f4a3d", title="What we do not know", speaker="Ilse Adeyi", house="The Terraces",
        language="en", day=DAY, earlier=earlier, bring_back=bring_back,
    )  # fmt: skip
