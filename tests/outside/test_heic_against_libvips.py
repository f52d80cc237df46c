"""A telephone's HEIC (Debian's source package of exiv2) stands as libvips says, and newer formats are read."""

from __future__ import annotations

from typing import Any

import pytest

from archive_tools.illustrate.pixels import open_original, upright_size, upright_srgb
from archive_tools.read.newer_formats import heif_version
from archive_tools.read.photo_files import photo_facts
from tests.conftest import missing
from tests.outside.public_pictures import HOW, images_of_libraries

NAME = "2021-02-13-1929.heic"


def test_a_turned_heic() -> None:
    try:
        import pyvips
    except (ImportError, OSError):
        missing("pyvips (PyPI: pyvips[binary])")
    if not heif_version():
        missing("pillow-heif")
    path = next((file for file in images_of_libraries().get("exiv2", []) if file.name == NAME), None)
    if path is None:
        missing(f"public pictures, {HOW},")
    # libvips need not be able to decode it to know how it stands.
    theirs: Any = pyvips.Image.new_from_file(str(path))
    facts = photo_facts(path)
    assert (facts.width, facts.height) == (theirs.width, theirs.height) == (3024, 4032)
    with path.open("rb") as file, open_original(file) as image:
        assert upright_size(image) == (facts.width, facts.height)
        assert upright_srgb(image, (240, 320)).size == (240, 320)


@pytest.mark.parametrize("name", ["heic", "avif"])
def test_newer_formats_have_their_notes_read(name: str) -> None:
    files = [file for file in images_of_libraries().get("exiv2", []) if file.suffix.lower() == f".{name}"]
    if not files or not heif_version():
        missing(f"public pictures, {HOW}," if heif_version() else "pillow-heif")
    assert any(photo_facts(file).stamps for file in files) or name == "avif"
    assert all(photo_facts(file).width > 0 for file in files if file.name == NAME or name == "avif")
