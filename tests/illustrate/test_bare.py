"""What a JPEG of the site may hold: the picture, and nothing else."""

import io

import pytest
from illustrate_builders import scene
from PIL import Image

from archive_tools.illustrate.bare import NotBare, check_bare
from archive_tools.illustrate.derivatives import encode


def saved(**how):
    sheet = io.BytesIO()
    scene(80, 60).save(sheet, "JPEG", **how)
    return sheet.getvalue()


def test_a_plain_picture_passes():
    check_bare(encode(scene(80, 60)))
    check_bare(saved())
    check_bare(saved(progressive=True, restart_marker_blocks=3))


def gps():
    exif = Image.Exif()
    exif.get_ifd(0x8825)[1] = "N"
    return exif


@pytest.mark.parametrize(
    ("how", "said"),
    [
        ({"exif": gps()}, "FFE1"),
        ({"xmp": b"<x:xmpmeta xmlns:x='adobe:ns:meta/'/>"}, "FFE1"),
        ({"icc_profile": b"anything"}, "FFE2"),
        ({"comment": b"bench Y-7"}, "FFFE"),
    ],
)
def test_anything_else_is_refused(how, said):
    with pytest.raises(NotBare, match=said):
        check_bare(saved(**how))


def test_notes_of_image_editors_and_thumbnails_are_refused():
    plain = saved()
    iptc = b"Photoshop 3.0\0" + b"8BIM"
    with pytest.raises(NotBare, match="FFED"):
        check_bare(plain[:2] + b"\xff\xed" + (len(iptc) + 2).to_bytes(2, "big") + iptc + plain[2:])
    thumbnail = b"JFIF\0\1\1\0\0\1\0\1\1\1" + b"\0\0\0"
    with pytest.raises(NotBare, match="plain JFIF"):
        check_bare(plain[:2] + b"\xff\xe0" + (len(thumbnail) + 2).to_bytes(2, "big") + thumbnail + plain[20:])


def test_bytes_after_the_end_are_refused():
    with pytest.raises(NotBare, match="5 bytes after"):
        check_bare(saved() + b"Y-7..")


@pytest.mark.parametrize("length", [0, 2, 10, 300, -1, -2])
def test_a_half_written_picture_is_refused(length):
    with pytest.raises(NotBare):
        check_bare(saved()[:length])
