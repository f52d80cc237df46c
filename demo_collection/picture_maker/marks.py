"""Writes marks and scales of the pictures used by comparisons into photos.yml, and leaves the rest alone."""

from __future__ import annotations

import json
from pathlib import Path

MAPLE = ("trunk base", "first branch", "second branch", "apex")
FOREST = ("trunk base", "apex")
JUNIPER = ("trunk base", "arch", "second bend", "apex")
PINE = ("trunk base", "first bend", "first branch", "apex")
BENT = ("trunk base", "first bend", "second bend", "apex")
STAIR = ("trunk base", "first bend", "second bend", "third bend", "apex")
RAFT = ("stem 1 foot", "first bend", "second bend", "stem 6 foot", "apex")
CLUMP = ("trunk base", "first bend", "second bend", "apex")
STUMP = ("column 1 foot", "column 2 foot", "first bend", "second bend", "apex")
GROUP = ("tall foot", "m4 foot", "m7 foot", "first bend", "second bend", "apex")
# pictures that are compared: their marks, and whether a scale is given with them
COMPARED: dict[str, tuple[tuple[str, ...], bool]] = {
    "trees/S1979.2-halvards-maple/photos/1990_front_1.jpg": (MAPLE, True),
    "trees/S1979.2-halvards-maple/photos/2025-06_front_1.jpg": (MAPLE, True),
    "trees/S1986.1-the-nine/photos/2003_front_1.jpg": (FOREST, True),
    "trees/S1986.1-the-nine/photos/2005_front_1.jpg": (FOREST, True),
    "trees/S1994.3-cold-stair/photos/1983_front_1.jpg": (JUNIPER, True),
    "trees/S1994.3-cold-stair/photos/2025-05_front_1.jpg": (JUNIPER, True),
    "trees/S1998.4-harbour-pine/photos/1998_front_1.jpg": (PINE, True),
    "trees/S1998.4-harbour-pine/photos/2025-05_front_1.jpg": (PINE, True),
    "trees/S1979.3-clipped-pine/photos/1980_front_1.jpg": (BENT, True),
    "trees/S1979.3-clipped-pine/photos/2025-09_front_1.jpg": (BENT, True),
    "trees/S1982.5-the-ferryman/photos/1999_front_1.jpg": (STAIR, True),
    "trees/S1982.5-the-ferryman/photos/2018_front_1.jpg": (STAIR, True),
    "trees/S1987.4-rope-works-privet/photos/1989_front_1.jpg": (STUMP, True),
    "trees/S1987.4-rope-works-privet/photos/2025-06_front_1.jpg": (STUMP, True),
    "trees/S1989.3-two-fronts/photos/1988_front_1.jpg": (BENT, True),
    "trees/S1989.3-two-fronts/photos/1991_front_1.jpg": (BENT, True),
    "trees/S1989.3-two-fronts/photos/2013_back_1.jpg": (BENT, True),
    "trees/S1989.3-two-fronts/photos/2025-06_front_1.jpg": (BENT, True),
    "trees/S1990.5-after-the-gale/photos/1990_front_1.jpg": (RAFT, True),
    "trees/S1990.5-after-the-gale/photos/2025-05_front_1.jpg": (RAFT, True),
    "trees/S1995.2-one-from-thirty/photos/1996_front_1.jpg": (CLUMP, True),
    "trees/S1995.2-one-from-thirty/photos/2025-05_front_1.jpg": (CLUMP, True),
    "trees/S1997.3-salt-and-rose/photos/2010-06_front_1.jpg": (BENT, True),
    "trees/S1997.3-salt-and-rose/photos/2025-05_front_1.jpg": (BENT, True),
    "trees/S1999.2-the-quince/photos/2009-10_front_1.jpg": (BENT, True),
    "trees/S1999.2-the-quince/photos/2025-10_front_1.jpg": (BENT, True),
    "trees/S2000.2-the-mast/photos/1979_front_1.jpg": (BENT, True),
    "trees/S2000.2-the-mast/photos/2025-07_front_1.jpg": (BENT, True),
    "trees/S2002.1-the-exception/photos/1988_front_1.jpg": (BENT, True),
    "trees/S2002.1-the-exception/photos/2025-10_front_1.jpg": (BENT, True),
    "trees/S1988.2-the-lanterns/photos/2008-11_front_1.jpg": (GROUP, False),
    "trees/S1988.2-the-lanterns/photos/2010_front_1.jpg": (GROUP, False),
    "trees/S1997.3-salt-and-rose/photos/2011-04_front_1.jpg": (BENT, False),
    "trees/S1997.3-salt-and-rose/photos/2013_front_1.jpg": (BENT, False),
    "trees/S1996.4-the-interpreter/photos/1996_front_1.jpg": (BENT, False),
    "trees/S1996.4-the-interpreter/photos/2025-08_front_1.jpg": (BENT, False),
}
RIM = ("rim left", "rim right")
RIM_DOUBT_CM = 0.3  # a tape laid over a lip of clay, from memory


def entry_lines(record: dict[str, object], names: tuple[str, ...], scaled: bool = True) -> list[str]:
    """The lines of one picture: its marks, and its scale if it is to have one."""
    points = record["points"]
    assert isinstance(points, dict)
    marks = ", ".join(f"{n}: [{points[n][0]}, {points[n][1]}]" for n in (*RIM, *names))
    scale = f"from: {RIM[0]}, to: {RIM[1]}, cm: {record['rim_width_cm']}, plus_minus: {RIM_DOUBT_CM}"
    return [f"  marks: {{{marks}}}", *([f"  scale: {{{scale}}}"] if scaled else [])]


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
    for file, (names, scaled) in COMPARED.items():
        if file in known:
            listing = (collection / file).with_name("photos.yml")
            text = listing.read_text()
            listing.write_text(with_marks(text, Path(file).name, entry_lines(known[file], names, scaled)))
