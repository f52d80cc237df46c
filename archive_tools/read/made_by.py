"""Whether a camera or a scanner made a picture's file, as far as its notes give it away.

Said only where something in the file says so: a wrong "scanner" would throw away a good date, and a wrong "camera"
would date a print by the day of its scan.
"""

from __future__ import annotations

import re

from archive_tools.read.camera_notes import CameraNotes

_BY_SCANNER = frozenset({1, 2})
"""FileSource (EXIF 2.32, 0xA300): film scanner, reflection print scanner."""
_BY_CAMERA = 3

_SCANNING = re.compile(
    r"""scan(?!d)            # scanner, scanning, ScanJet, ScanSnap, CanoScan, Coolscan … ; not "Scandinavian"
      | silver\s?fast
      | perfection\s?v?\d
      | expression\s?\d{4,5}xl
      | optic\s?(?:film|slim|book)
      | flextight
      | twain
      | digital\ ?ice""",
    re.IGNORECASE | re.VERBOSE,
)
"""What makers and programs of scanners call themselves in Make, Model and Software (from memory)."""


def made_by(*readings: CameraNotes) -> str:
    """What made the file: "scanner", "camera", or "" where nothing tells; from the notes as each library read them.

    The tag FileSource decides. Without it, a scanner's name does, unless the file has what only a camera measures
    (exposure, aperture, sensitivity): telephones with a program for scanning are cameras. Exposure alone tells a
    camera. Files with neither stay open: programs throw notes away.
    """
    sources = {notes.source for notes in readings if notes.source is not None}
    if sources & _BY_SCANNER:
        return "scanner"
    exposed = any(notes.exposed for notes in readings)
    names = " ".join(f"{notes.maker} {notes.model} {notes.software}" for notes in readings)
    if not exposed and _SCANNING.search(names):
        return "scanner"
    return "camera" if exposed or _BY_CAMERA in sources else ""
