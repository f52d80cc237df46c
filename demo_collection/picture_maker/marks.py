"""Writes marks and scales of the pictures used by comparisons into photos.yml, and leaves the rest alone."""

from __future__ import annotations

import json
from pathlib import Path

MAPLE = ("trunk base", "first branch", "second branch", "apex")
FOREST = ("trunk base", "apex")
JUNIPER = ("trunk base", "arch", "second bend", "apex")
PINE = ("trunk base", "first bend", "first branch", "apex")
COMPARED = {
    "trees/S1979.2-halvards-maple/photos/1990_front_1.jpg": MAPLE,
    "trees/S1979.2-halvards-maple/photos/2025-06_front_1.jpg": MAPLE,
    "trees/S1986.1-the-nine/photos/2003_front_1.jpg": FOREST,
    "trees/S1986.1-the-nine/photos/2005_front_1.jpg": FOREST,
    "trees/S1994.3-cold-stair/photos/1983_front_1.jpg": JUNIPER,
    "trees/S1994.3-cold-stair/photos/2025-05_front_1.jpg": JUNIPER,
    "trees/S1998.4-harbour-pine/photos/1998_front_1.jpg": PINE,
    "trees/S1998.4-harbour-pine/photos/2025-05_front_1.jpg": PINE,
}
RIM = ("rim left", "rim right")
RIM_DOUBT_CM = 0.3  # a tape laid over a lip of clay, from memory


def entry_lines(record: dict[str, object], names: tuple[str, ...]) -> list[str]:
    """The two lines of one picture."""
    points = record["points"]
    assert isinstance(points, dict)
    marks = ", ".join(f"{n}: [{points[n][0]}, {points[n][1]}]" for n in (*RIM, *names))
    scale = f"from: {RIM[0]}, to: {RIM[1]}, cm: {record['rim_width_cm']}, plus_minus: {RIM_DOUBT_CM}"
    return [f"  marks: {{{marks}}}", f"  scale: {{{scale}}}"]


def with_marks(text: str, file: str, lines: list[str]) -> str:
    """The text of a photos.yml with these lines at the end of one entry, in place of any it had."""
    out: list[str] = []
    inside = found = False
    for line in [*text.rstrip("\n").split("\n"), "- end"]:
        if line.startswith("- "):
            if inside:
                out += lines
            inside = line.strip() == f"- file: {file}"
            found = found or inside
        if inside and line.startswith(("  marks:", "  scale:")):
            continue
        out.append(line)
    if not found:
        raise ValueError(f"photos.yml has no entry for {file}")
    return "\n".join(out[:-1]) + "\n"


def write_marks(collection: Path, register: Path) -> None:
    """Put marks and scale of every compared picture into its photos.yml."""
    known = json.loads(register.read_text())
    for file, names in COMPARED.items():
        if file in known:
            listing = (collection / file).with_name("photos.yml")
            text = listing.read_text()
            listing.write_text(with_marks(text, Path(file).name, entry_lines(known[file], names)))
