"""Cuts are as like their original as those of libvips: structural similarity (Wang et al. 2004) by scikit-image.

Both against the original brought down by scikit-image, which shares no code with either.
"""

import hashlib
from functools import partial

import numpy as np
import pytest
from PIL import Image

from archive_tools.illustrate.cuts import QUALITY, picture_of, sizes_of
from archive_tools.illustrate.derivatives import Job, cut_file, make
from archive_tools.illustrate.originals import Original, pixels_of
from tests.conftest import missing

WORSE = 0.01


def whole(original, size):
    return (pixels_of(original, size),)


def scene(width, height):
    """Detail at every size, as in a garden; made from a fixed seed."""
    rng = np.random.default_rng(7)
    total = np.zeros((height, width, 3))
    for step, weight in ((300, 70), (80, 40), (20, 25), (6, 14), (2, 7)):
        grain = Image.fromarray(rng.integers(0, 256, (height // step + 2, width // step + 2, 3), dtype=np.uint8))
        total += np.asarray(grain.resize((width, height), Image.Resampling.BICUBIC), dtype=float) * weight
    return Image.fromarray((total / 156).clip(0, 255).astype(np.uint8))


@pytest.mark.slow
@pytest.mark.parametrize("ending", ["jpg", "tif"])
@pytest.mark.parametrize("size", [(2400, 1600), (2401, 1603), (3000, 4000), (1365, 1074)])
def test_structural_similarity(tmp_path, size, ending):
    """A TIFF is not brought down by its decoder, so that all of it is our own work."""
    try:
        import pyvips
        from skimage.metrics import structural_similarity
        from skimage.transform import resize
    except (ImportError, OSError):
        missing("pyvips (PyPI: pyvips[binary]) or scikit-image")
    path = tmp_path / f"original.{ending}"
    scene(*size).save(path, **({"quality": 95} if ending == "jpg" else {}))
    sizes = sizes_of(*size)
    cuts = picture_of(sizes, "like libvips")
    original = Original(path, hashlib.sha256(path.read_bytes()).hexdigest(), *size)
    make([Job("one", partial(whole, original, sizes[-1].pair), (sizes,), (cuts,))], tmp_path)
    with Image.open(path) as opened:
        full = np.asarray(opened.convert("RGB"), dtype=np.float32)
    for wanted, cut in zip(sizes, cuts.cuts, strict=True):
        theirs = tmp_path / f"{wanted.width}.jpg"
        pyvips.Image.thumbnail(str(path), wanted.width, height=wanted.height, size="force").jpegsave(
            str(theirs), Q=QUALITY, optimize_coding=True, interlace=True, subsample_mode="on"
        )
        truth = resize(full, (wanted.height, wanted.width), order=3, anti_aliasing=True, preserve_range=True)

        def like(file, truth=truth):
            with Image.open(file) as made:
                pixels = np.asarray(made.convert("RGB"), dtype=np.float32)
            return structural_similarity(pixels, truth, channel_axis=2, data_range=255)

        ours, other = like(cut_file(tmp_path, cut)), like(theirs)
        assert ours > other - WORSE, f"{wanted.pair}: {ours:.4f}, libvips {other:.4f}"
