"""From originals of every kind to upright sRGB pixels."""

import io

import numpy as np
import pytest
from illustrate_builders import difference, scene
from PIL import Image, ImageCms

from archive_tools.illustrate.pixels import CannotRead, open_original, upright_size, upright_srgb


def cut(data: bytes, size=None):
    image = open_original(io.BytesIO(data))
    return upright_srgb(image, size or upright_size(image))


def saved(image, kind="PNG", **how):
    sheet = io.BytesIO()
    image.save(sheet, kind, **how)
    return sheet.getvalue()


# How a stored row and column stand for the upright picture: Exif 2.32, tag 0x0112 Orientation (from memory).
# "The 0th row is at the visual top, and the 0th column is the visual left-hand side" is 1; and so on to 8.
FIRST_ROW_AND_COLUMN = {
    1: ("top", "left"), 2: ("top", "right"), 3: ("bottom", "right"), 4: ("bottom", "left"),
    5: ("left", "top"), 6: ("right", "top"), 7: ("right", "bottom"), 8: ("left", "bottom"),
}  # fmt: skip


def stored_for(upright: np.ndarray, orientation: int) -> np.ndarray:
    """The array that a camera would store, straight from the wording of the standard."""
    row, column = FIRST_ROW_AND_COLUMN[orientation]
    stored = upright.swapaxes(0, 1) if row in ("left", "right") else upright
    if row in ("bottom", "right"):
        stored = stored[::-1]
    if column in ("bottom", "right"):
        stored = stored[:, ::-1]
    return stored


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("kind", ["JPEG", "PNG", "TIFF", "WEBP"])
def test_every_orientation_comes_out_upright(orientation, kind):
    upright = scene(240, 160)
    exif = Image.Exif()
    exif[0x0112] = orientation
    stored = Image.fromarray(np.ascontiguousarray(stored_for(np.asarray(upright), orientation)))
    data = saved(stored, kind, exif=exif, **({"quality": 95} if kind in ("JPEG", "WEBP") else {}))
    image = open_original(io.BytesIO(data))
    assert upright_size(image) == (240, 160)
    assert difference(upright_srgb(image, (240, 160)), upright) < 3
    assert difference(cut(data, (120, 80)), upright.resize((120, 80), Image.Resampling.LANCZOS)) < 3


def test_an_embedded_profile_is_honoured():
    # A profile in which red and blue have changed places: built from the sRGB profile that LittleCMS makes, by
    # swapping the tags rXYZ and bXYZ (ICC.1:2010, 9.2), so any program that honours profiles must swap the colours.
    profile = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    red, blue = profile.index(b"rXYZ", 128), profile.index(b"bXYZ", 128)
    profile[red : red + 4], profile[blue : blue + 4] = b"bXYZ", b"rXYZ"
    data = saved(Image.new("RGB", (8, 8), (200, 40, 10)), icc_profile=bytes(profile))
    r, g, b = cut(data).getpixel((4, 4))
    assert (abs(r - 10), abs(g - 40), abs(b - 200)) <= (6, 6, 6)


def test_wider_colours_are_brought_to_srgb_by_the_published_numbers():
    # A colour of Adobe RGB (1998) brought to sRGB by the matrices and curves of that encoding and of IEC 61966-2-1
    # (numbers from memory), worked out here in full.
    gamma = 2.19921875
    adobe = np.array(
        [[0.5767309, 0.1855540, 0.1881852], [0.2973769, 0.6273491, 0.0752741], [0.0270343, 0.0706872, 0.9911085]]
    )
    srgb = np.array(
        [[3.2404542, -1.5371385, -0.4985314], [-0.9692660, 1.8760108, 0.0415560], [0.0556434, -0.2040259, 1.0572252]]
    )
    linear = np.clip(srgb @ adobe @ ((np.array([200, 100, 50]) / 255) ** gamma), 0, 1)
    expected = np.where(linear <= 0.0031308, 12.92 * linear, 1.055 * linear ** (1 / 2.4) - 0.055) * 255
    data = saved(Image.new("RGB", (8, 8), (200, 100, 50)), icc_profile=_adobe_profile(gamma))
    assert np.abs(np.array(cut(data).getpixel((4, 4))) - expected).max() <= 2


def _adobe_profile(gamma: float) -> bytes:
    """A matrix profile with the primaries of Adobe RGB (1998), adapted to D50, made by the layout of ICC.1:2001-04."""
    fixed = lambda value: round(value * 65536).to_bytes(4, "big", signed=True)  # noqa: E731
    xyz = lambda *values: b"XYZ \0\0\0\0" + b"".join(fixed(value) for value in values)  # noqa: E731
    curve = b"curv\0\0\0\0" + (1).to_bytes(4, "big") + round(gamma * 256).to_bytes(2, "big") + b"\0\0"
    name = b"wide\0"
    described = b"desc\0\0\0\0" + len(name).to_bytes(4, "big") + name + b"\0" * (4 + 4 + 2 + 1 + 67)
    tags = {
        b"desc": described + b"\0" * (-len(described) % 4),
        b"wtpt": xyz(0.9642, 1.0, 0.8249),
        b"rXYZ": xyz(0.60974, 0.31111, 0.01947),
        b"gXYZ": xyz(0.20528, 0.62567, 0.06087),
        b"bXYZ": xyz(0.14919, 0.06322, 0.74457),
        b"rTRC": curve,
        b"gTRC": curve,
        b"bTRC": curve,
    }
    place = 128 + 4 + 12 * len(tags)
    table, body = len(tags).to_bytes(4, "big"), b""
    for tag, value in tags.items():
        table += tag + (place + len(body)).to_bytes(4, "big") + len(value).to_bytes(4, "big")
        body += value
    head = bytearray(128)
    head[0:4] = (128 + len(table) + len(body)).to_bytes(4, "big")
    head[8:12], head[12:16], head[16:20], head[20:24] = b"\x02\x40\0\0", b"mntr", b"RGB ", b"XYZ "
    head[36:40], head[68:80] = b"acsp", fixed(0.9642) + fixed(1.0) + fixed(0.8249)
    return bytes(head) + table + body


def test_a_broken_profile_does_not_cost_the_picture():
    data = saved(Image.new("RGB", (8, 8), (10, 20, 30)), icc_profile=b"no profile at all")
    assert cut(data).getpixel((0, 0)) == (10, 20, 30)


def test_grey_and_black_and_white():
    assert cut(saved(Image.new("L", (6, 4), 77))).getpixel((1, 1)) == (77, 77, 77)
    assert cut(saved(Image.new("1", (6, 4), 1))).getpixel((1, 1)) == (255, 255, 255)


@pytest.mark.parametrize("kind", ["PNG", "TIFF"])
def test_sixteen_bits_lose_only_their_lower_half(kind):
    values = np.linspace(0, 65535, 256).reshape(16, 16).astype(np.uint16)
    image = cut(saved(Image.fromarray(values), kind))
    assert image.mode == "RGB"
    assert np.abs(np.asarray(image)[..., 0].astype(int) - (values >> 8)).max() <= 1


def test_fractions_and_long_numbers():
    values = np.linspace(0, 1, 64).reshape(8, 8).astype(np.float32)
    assert np.abs(np.asarray(cut(saved(Image.fromarray(values), "TIFF")))[..., 1] - values * 255).max() <= 1
    long = (np.linspace(0, 65535, 64).reshape(8, 8)).astype(np.int32)
    assert np.abs(np.asarray(cut(saved(Image.fromarray(long), "TIFF")))[..., 1] - long / 257).max() <= 1


def test_printers_inks():
    inks = Image.new("CMYK", (16, 16), (0, 255, 255, 0))
    for data in (saved(inks, "JPEG", quality=95), saved(inks, "TIFF")):
        r, g, b = cut(data).getpixel((8, 8))
        assert r > 200
        assert max(g, b) < 60


def test_transparent_parts_show_white_paper():
    image = Image.new("RGBA", (10, 10), (0, 0, 0, 0))
    image.paste((20, 40, 60, 255), (0, 0, 5, 10))
    plain = cut(saved(image))
    assert plain.getpixel((1, 5)) == (20, 40, 60)
    assert plain.getpixel((8, 5)) == (255, 255, 255)
    assert cut(saved(Image.new("LA", (4, 4), (9, 0)))).getpixel((1, 1)) == (255, 255, 255)
    with_table = Image.new("P", (4, 4), 1)
    with_table.putpalette([255, 0, 0, 0, 0, 255])
    assert cut(saved(with_table)).getpixel((1, 1)) == (0, 0, 255)
    assert cut(saved(with_table, transparency=1)).getpixel((1, 1)) == (255, 255, 255)


def test_what_comes_out_carries_nothing_but_pixels():
    exif = Image.Exif()
    exif[0x010F] = "Invented Camera Works"
    plain = cut(saved(scene(64, 64), "JPEG", exif=exif, comment=b"Y-7", dpi=(300, 300)))
    assert plain.info == {}
    assert len(plain.getexif()) == 0


@pytest.mark.parametrize("data", [b"", b"not a picture", b"\xff\xd8\xff\xe0 nearly", b"GIF89a"])
def test_what_is_no_picture_is_told_in_plain_words(data):
    with pytest.raises(CannotRead, match="no JPEG, PNG, TIFF, WebP, AVIF"):
        open_original(io.BytesIO(data))


def test_a_picture_that_claims_too_many_pixels_is_told_in_plain_words():
    with pytest.raises(CannotRead, match="far more pixels"):
        open_original(io.BytesIO(saved(Image.new("1", (20_000, 20_000)))))


def test_a_large_scan_is_opened_without_a_warning(recwarn):
    assert upright_size(open_original(io.BytesIO(saved(Image.new("1", (12_000, 9_000)))))) == (12_000, 9_000)
    assert list(recwarn) == []


def test_a_picture_cut_off_is_told_in_plain_words():
    data = saved(scene(400, 400), "JPEG")
    with pytest.raises(CannotRead, match="damaged"):
        cut(data[: len(data) // 2])
