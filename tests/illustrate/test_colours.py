"""Known colours in, the same colours out, whatever they were written in: against published numbers and libvips."""

import io

import numpy as np
import pytest
from PIL import Image, ImageOps

from archive_tools.illustrate.pixels import CannotRead, open_original, upright_size, upright_srgb
from archive_tools.read.photo_files import UnreadablePicture, photo_facts
from tests.conftest import missing

COLOURS = [(200, 100, 50), (40, 120, 60), (128, 128, 128), (255, 255, 255), (0, 0, 0), (90, 60, 140)]


@pytest.fixture(scope="module")
def vips():
    try:
        import pyvips
    except (ImportError, OSError):
        missing("pyvips (PyPI: pyvips[binary])")
    return pyvips


def cut(data: bytes, size=None):
    image = open_original(io.BytesIO(data))
    return upright_srgb(image, size or upright_size(image))


def saved(image, kind="PNG", **how):
    sheet = io.BytesIO()
    image.save(sheet, kind, **how)
    return sheet.getvalue()


def patches(colours, mode="RGB"):
    """A square of sixteen pixels for each colour, beside each other."""
    image = Image.new(mode, (16 * len(colours), 16))
    for place, colour in enumerate(colours):
        image.paste(colour, (16 * place, 0, 16 * place + 16, 16))
    return image


def seen(data: bytes) -> np.ndarray:
    """The middle of each square."""
    return np.asarray(cut(data), dtype=int)[8, 8::16]


# IEC 61966-2-1 and the primaries of Display P3 (SMPTE EG 432-1, D65), as matrices to and from XYZ (from memory).
P3 = np.array([[0.4865709, 0.2656677, 0.1982173], [0.2289746, 0.6917385, 0.0792869], [0.0, 0.0451134, 1.0439444]])
TO_SRGB = np.array(
    [[3.2404542, -1.5371385, -0.4985314], [-0.9692660, 1.8760108, 0.0415560], [0.0556434, -0.2040259, 1.0572252]]
)


def linear(values):
    part = np.asarray(values) / 255
    return np.where(part <= 0.04045, part / 12.92, ((part + 0.055) / 1.055) ** 2.4)


def curved(values):
    part = np.clip(values, 0, 1)
    return np.where(part <= 0.0031308, 12.92 * part, 1.055 * part ** (1 / 2.4) - 0.055) * 255


@pytest.mark.parametrize("kind", ["PNG", "TIFF", "WEBP", "AVIF", "HEIF"])
def test_display_p3(vips, kind):
    how = {"WEBP": {"lossless": True}, "AVIF": {"quality": 100, "subsampling": "4:4:4"},
           "HEIF": {"quality": -1, "chroma": 444, "matrix_coefficients": 0}}.get(kind, {})  # fmt: skip
    if kind == "HEIF":
        pytest.importorskip("pillow_heif").register_heif_opener()
    data = saved(patches(COLOURS), kind, icc_profile=vips.Image.profile_load("p3"), **how)
    expected = curved(linear(COLOURS) @ P3.T @ TO_SRGB.T)
    assert np.abs(seen(data) - expected).max() <= 3


def test_printers_inks_with_their_profile(vips):
    """Against libvips, on its own profile of inks."""
    inks = [(0, 200, 180, 20), (120, 40, 90, 0), (10, 10, 10, 200), (0, 0, 0, 0), (255, 0, 0, 0)]
    image = patches(inks, "CMYK")
    profile = vips.Image.profile_load("cmyk")
    for data in (saved(image, "TIFF", icc_profile=profile), saved(image, "JPEG", icc_profile=profile, quality=100)):
        theirs = vips.Image.new_from_buffer(data, "").icc_transform(
            "srgb", embedded=True, intent="perceptual", black_point_compensation=True
        )
        assert np.abs(seen(data) - theirs.numpy()[8, 8::16].astype(int)).max() <= 3


# The primaries and a grey of sRGB in CIELAB (D50), as Lindbloom's calculator gives them (from memory).
LAB = {
    (255, 0, 0): (54.29, 80.81, 69.89),
    (0, 255, 0): (87.82, -79.27, 80.99),
    (0, 0, 255): (29.57, 68.30, -112.03),
    (128, 128, 128): (53.59, 0.0, 0.0),
    (255, 255, 255): (100.0, 0.0, 0.0),
}


def test_a_lab_scan(tmp_path):
    """Bytes as TIFF 6.0, section 23, has them (L from 0 to 255, a and b with a sign), written by tifffile."""
    tifffile = pytest.importorskip("tifffile")
    rows = [(round(lightness * 2.55), round(a) % 256, round(b) % 256) for lightness, a, b in LAB.values()]
    path = tmp_path / "scan.tif"
    tifffile.imwrite(path, np.repeat(np.array([rows], np.uint8), 16, axis=0).repeat(16, axis=1), photometric="cielab")
    off = np.abs(seen(path.read_bytes()) - np.array(list(LAB)))
    assert off[3:].max() <= 2
    assert off[:3].max() <= 24  # whole numbers of a and b, at the corners of what sRGB can show
    assert photo_facts(path).width == 80, "it is read as well as shown"


def test_a_tiff_of_a_kind_that_is_not_read_is_not_only_called_damaged(tmp_path):
    tifffile = pytest.importorskip("tifffile")
    path = tmp_path / "fractions.tif"
    tifffile.imwrite(path, np.full((40, 60, 3), 0.5, np.float32), photometric="rgb")
    with pytest.raises(UnreadablePicture) as caught:
        photo_facts(path)
    assert "a TIFF of a kind that cannot be read" in caught.value.what


def test_inks_are_not_the_wrong_way_round():
    white, black = seen(saved(patches([(0, 0, 0, 0), (0, 0, 0, 255)], "CMYK"), "JPEG", quality=100))
    assert white.min() > 250
    assert black.max() < 5


def sixteen_bits(vips, ending, bands):
    values = np.linspace(0, 65535, 16 * 16 * bands).reshape(16, 16, bands).astype(np.uint16)
    if bands in (2, 4):
        values[..., -1] = 65535
    interpretation = "grey16" if bands < 3 else "rgb16"
    data = vips.Image.new_from_array(values).copy(interpretation=interpretation).write_to_buffer(ending)
    return data, values[..., :1] if bands < 3 else values[..., :3]


@pytest.mark.parametrize("kind", [".png 1", ".png 2", ".png 3", ".png 4", ".tif 1", ".tif 3", ".tif 4"])
def test_sixteen_bits(vips, kind):
    """Written by libvips: the upper eight bits count; grey and colour, with and without transparency."""
    ending, bands = kind.split()
    data, colour = sixteen_bits(vips, ending, int(bands))
    assert np.abs(np.asarray(cut(data), dtype=int) - (colour >> 8)).max() <= 1


def test_grey_with_transparency_at_sixteen_bits_in_a_tiff_is_told_to_be_unreadable(vips):
    with pytest.raises(CannotRead, match="no JPEG, PNG, TIFF"):
        cut(sixteen_bits(vips, ".tif", 2)[0])


def test_sixteen_bits_in_the_other_byte_order():
    values = np.linspace(0, 65535, 64).reshape(8, 8)
    data = saved(Image.fromarray(values.astype(">u2")), "TIFF")
    assert data[:2] == b"MM"
    assert np.abs(np.asarray(cut(data), dtype=int)[..., 0] - values / 256).max() <= 1


def grey_profile(gamma: float) -> bytes:
    """A grey profile by the layout of ICC.1:2001-04, its curve a plain power."""
    fixed = lambda value: round(value * 65536).to_bytes(4, "big", signed=True)  # noqa: E731
    name = b"grey\0"
    described = b"desc\0\0\0\0" + len(name).to_bytes(4, "big") + name + b"\0" * (4 + 4 + 2 + 1 + 67)
    tags = {
        b"desc": described + b"\0" * (-len(described) % 4),
        b"wtpt": b"XYZ \0\0\0\0" + fixed(0.9642) + fixed(1.0) + fixed(0.8249),
        b"kTRC": b"curv\0\0\0\0" + (1).to_bytes(4, "big") + round(gamma * 256).to_bytes(2, "big") + b"\0\0",
    }
    place = 128 + 4 + 12 * len(tags)
    table, body = len(tags).to_bytes(4, "big"), b""
    for tag, value in tags.items():
        table += tag + (place + len(body)).to_bytes(4, "big") + len(value).to_bytes(4, "big")
        body += value
    head = bytearray(128)
    head[0:4] = (128 + len(table) + len(body)).to_bytes(4, "big")
    head[8:12], head[12:16], head[16:20], head[20:24] = b"\x02\x40\0\0", b"mntr", b"GRAY", b"XYZ "
    head[36:40], head[68:80] = b"acsp", fixed(0.9642) + fixed(1.0) + fixed(0.8249)
    return bytes(head) + table + body


@pytest.mark.parametrize("mode", ["L", "LA"])
def test_a_grey_scan_with_a_curve_of_its_own(mode):
    greys = [20, 77, 128, 200, 255]
    image = patches([grey if mode == "L" else (grey, 255) for grey in greys], mode)
    expected = curved((np.array(greys) / 255) ** 1.8)
    out = seen(saved(image, icc_profile=grey_profile(1.8)))
    assert np.abs(out - expected[:, None]).max() <= 2


def test_a_table_of_colours_with_a_profile(vips):
    table = patches(COLOURS).quantize(8, dither=Image.Dither.NONE)
    data = saved(table, icc_profile=vips.Image.profile_load("p3"))
    expected = curved(linear(COLOURS) @ P3.T @ TO_SRGB.T)
    assert np.abs(seen(data) - expected).max() <= 3


def test_what_is_half_transparent_lies_on_white_and_bleeds_no_hidden_colour():
    image = Image.new("RGBA", (400, 400), (255, 0, 0, 0))  # red that nobody sees
    image.paste((0, 0, 0, 128), (100, 0, 300, 400))
    for size in ((400, 400), (100, 100), (40, 40)):
        out = np.asarray(cut(saved(image), size), dtype=int)
        assert np.abs(out[size[1] // 2, size[0] // 2] - 127).max() <= 1
        assert (np.abs(out[..., 0] - out[..., 1]) <= 1).all(), "hidden red shows"


@pytest.mark.parametrize("orientation", range(1, 9))
def test_avif_stands_upright(orientation):
    exif = Image.Exif()
    exif[0x0112] = orientation
    stored = patches(COLOURS).resize((96, 48))
    stored.paste((255, 0, 0), (0, 0, 20, 20))
    upright = ImageOps.exif_transpose(Image.open(io.BytesIO(saved(stored, exif=exif))))
    image = open_original(io.BytesIO(saved(stored, "AVIF", exif=exif, quality=100, subsampling="4:4:4")))
    assert upright_size(image) == upright.size
    out = upright_srgb(image, upright.size)
    assert np.abs(np.asarray(out, dtype=int) - np.asarray(upright, dtype=int)).mean() < 3


@pytest.mark.parametrize("orientation", [1, 6])
def test_heic_is_turned_by_what_its_own_box_says_and_not_by_camera_notes(vips, orientation):
    """ISO/IEC 23008-12: the notes only tell. libvips shows it so too."""
    pytest.importorskip("pillow_heif").register_heif_opener()
    exif = Image.Exif()
    exif[0x0112] = orientation
    stored = patches(COLOURS).resize((96, 48))
    data = saved(stored, "HEIF", exif=exif, quality=95)
    theirs = vips.Image.new_from_buffer(data, "").autorot()  # it need not be able to decode it to know its size
    out = cut(data)
    assert out.size == (theirs.width, theirs.height) == (96, 48)
    assert np.abs(np.asarray(out, dtype=int) - np.asarray(stored, dtype=int)).mean() < 4


def test_a_heic_that_cannot_be_read_is_told_in_plain_words():
    head = b"\0\0\0\x18ftypheic\0\0\0\0heicmif1" + b"\0" * 40
    with pytest.raises(CannotRead, match="HEIC"):
        open_original(io.BytesIO(head))


@pytest.mark.parametrize("mode", ["RGB", "L", "RGBA", "LA", "CMYK", "P", "I;16", "F", "1"])
def test_a_large_picture_brought_down_in_strips_is_the_same_as_in_one(monkeypatch, mode):
    from archive_tools.illustrate import shrinking

    rows, columns = np.mgrid[0:431, 0:613]
    base = np.stack([rows / 431 * 255, columns / 613 * 255, (rows + columns) % 200], axis=-1).astype(np.uint8)
    if mode == "I;16":
        image = Image.fromarray((rows * 150).astype(np.uint16))
    elif mode == "F":
        image = Image.fromarray((rows / 431).astype(np.float32))
    else:
        image = Image.fromarray(base).convert(mode)
    whole = shrinking.shrunk(image, (60, 42))
    monkeypatch.setattr(shrinking, "_STRIP", 613 * 11)
    in_strips = shrinking.shrunk(image, (60, 42))
    assert np.array_equal(np.asarray(whole), np.asarray(in_strips))
    # And near what one careful resize gives: no drift at the far edges, which are no whole blocks of pixels.
    plain = shrinking._eight_bits(image, shrinking._white(image)).convert("RGB").resize((60, 42), Image.Resampling.BOX)
    assert np.abs(np.asarray(whole.convert("RGB"), dtype=int) - np.asarray(plain, dtype=int)).mean() < 12
