"""Whole runs: what lands in the cache, what does not, and what happens when a run is cut short."""

import contextlib
import hashlib
import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from illustrate_builders import difference, photo, scene, tree, view_of
from PIL import Image, ImageCms

import archive_tools
from archive_tools.illustrate import cut_file, draw
from archive_tools.illustrate.bare import check_bare


def house(root: Path, count: int = 3, size: tuple[int, int] = (1300, 900)):
    photos = []
    for number in range(count):
        path = f"trees/A/photos/{1990 + number}_front_1.jpg"
        (root / path).parent.mkdir(parents=True, exist_ok=True)
        scene(*size, seed=number).save(root / path, quality=90)
        photos.append(photo(root, path))
    return view_of([tree("A", photos)]), photos


def stand(folder: Path):
    """Every file with its bytes and time of change, to tell whether anything was touched."""
    return {
        file.relative_to(folder).as_posix(): (file.stat().st_mtime_ns, hashlib.sha256(file.read_bytes()).hexdigest())
        for file in sorted(folder.rglob("*"))
        if file.is_file()
    }


def test_every_photograph_gets_its_cuts_in_parallel_and_originals_stay_untouched(tmp_path):
    view, photos = house(tmp_path / "collection", 4)
    before = stand(tmp_path / "collection")
    told = []
    pictures = draw(view, tmp_path / "collection", tmp_path / "cache", progress=lambda *news: told.append(news))
    assert set(pictures.photos) == {one.path for one in photos}
    assert pictures.encoded == 12
    assert pictures.problems == ()
    assert sorted(done for _, done, _ in told) == [1, 2, 3, 4]
    assert {(what, of) for what, _, of in told} == {(one.path, 4) for one in photos}
    for one in photos:
        cuts = pictures.photos[one.path].cuts
        assert [(cut.width, cut.height) for cut in cuts] == [(480, 333), (960, 665), (1300, 900)]
        for cut in cuts:
            with (
                Image.open(cut_file(tmp_path / "cache", cut)) as image,
                Image.open(tmp_path / "collection" / one.path) as original,
            ):
                assert image.size == (cut.width, cut.height)
                assert difference(image, original.resize(image.size, Image.Resampling.LANCZOS)) < 2.5
    assert stand(tmp_path / "collection") == before


def test_a_second_run_encodes_nothing_and_opens_no_original(tmp_path):
    view, _photos = house(tmp_path / "collection")
    first = draw(view, tmp_path / "collection", tmp_path / "cache")
    kept = stand(tmp_path / "cache")
    shutil.rmtree(tmp_path / "collection")  # nothing is left to open
    second = draw(view, tmp_path / "collection", tmp_path / "cache")
    assert second.encoded == 0
    assert second.photos == first.photos
    assert stand(tmp_path / "cache") == kept


def test_only_what_is_missing_is_made_again(tmp_path):
    view, photos = house(tmp_path / "collection")
    pictures = draw(view, tmp_path / "collection", tmp_path / "cache")
    lost = cut_file(tmp_path / "cache", pictures.photos[photos[1].path].cuts[0])
    lost.unlink()
    kept = stand(tmp_path / "cache")
    assert draw(view, tmp_path / "collection", tmp_path / "cache").encoded == 1
    assert {name: kept[name] for name in kept} == {
        name: told for name, told in stand(tmp_path / "cache").items() if not lost.as_posix().endswith(name)
    }
    assert lost.stat().st_size > 0


def test_a_cut_that_was_not_kept_to_its_end_is_made_again(tmp_path):
    """As a disk leaves it that loses its power or is full: nothing, the beginning, or all but the last byte."""
    view, photos = house(tmp_path / "collection", 1)
    pictures = draw(view, tmp_path / "collection", tmp_path / "cache")
    spoilt = cut_file(tmp_path / "cache", pictures.photos[photos[0].path].cuts[0])
    whole = spoilt.read_bytes()
    for kept in (0, 1, len(whole) // 2, len(whole) - 1):
        spoilt.write_bytes(whole[:kept])
        assert draw(view, tmp_path / "collection", tmp_path / "cache").encoded == 1
        assert spoilt.read_bytes() == whole


@pytest.mark.slow
def test_one_process_and_several_make_the_same_files(tmp_path):
    view, _ = house(tmp_path / "collection", 4)
    draw(view, tmp_path / "collection", tmp_path / "one", processes=1)
    draw(view, tmp_path / "collection", tmp_path / "two", processes=2)
    digests = [{name: digest for name, (_, digest) in stand(tmp_path / cache).items()} for cache in ("one", "two")]
    assert digests[0] == digests[1]


def test_a_changed_original_gets_other_names(tmp_path):
    view, photos = house(tmp_path / "collection", 1)
    first = draw(view, tmp_path / "collection", tmp_path / "cache")
    scene(1300, 900, seed=77).save(tmp_path / "collection" / photos[0].path)
    changed = view_of([tree("A", [photo(tmp_path / "collection", photos[0].path)])])
    second = draw(changed, tmp_path / "collection", tmp_path / "cache")
    assert second.encoded == 3
    assert not {cut.url for cut in first.cuts} & {cut.url for cut in second.cuts}


def test_cuts_are_put_into_the_site_and_nothing_else_is(tmp_path):
    view, photos = house(tmp_path / "collection", 2)
    draw(view, tmp_path / "collection", tmp_path / "cache")
    one = view_of([tree("A", photos[:1])])
    pictures = draw(one, tmp_path / "collection", tmp_path / "cache", tmp_path / "site")
    assert {f"pictures/{file.name}" for file in (tmp_path / "site" / "pictures").iterdir()} == {
        cut.url for cut in pictures.photos[photos[0].path].cuts
    }


def test_a_picture_that_cannot_be_read_is_left_out_and_told(tmp_path):
    root = tmp_path / "collection"
    _view, photos = house(root, 4)
    whole = (root / photos[0].path).read_bytes()
    (root / photos[0].path).write_bytes(whole[: len(whole) // 3])
    cut_off = photo(root, photos[0].path, size=(1300, 900))
    (root / photos[1].path).unlink()
    (root / photos[2].path).write_bytes(whole)  # another picture than the one that was read
    pictures = draw(view_of([tree("A", [cut_off, *photos[1:]])]), root, tmp_path / "cache")
    assert set(pictures.photos) == {photos[3].path}
    told = [problem.what for problem in pictures.problems]
    assert len(told) == 3
    assert "damaged" in told[0]
    assert "cannot be opened" in told[1]
    assert "changed while" in told[2]
    assert {problem.subject for problem in pictures.problems} == {("A", "photo", one.file) for one in photos[:3]}
    assert {problem.mark.file for problem in pictures.problems} == {"trees/A/photos/photos.yml"}


HIDDEN = (
    b"Skerrow-Sound-position",
    b"Y-7",
    b"Invented Camera Works",
    b"adobe:ns:meta",
    b"8BIM",
    b"ICC_PROFILE",
    b"Exif",
)

XMP = b"""<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" dc:source="Y-7"/></rdf:RDF></x:xmpmeta>"""


def original_full_of_notes(path: Path):
    exif = Image.Exif()
    exif[0x010F] = "Invented Camera Works"
    exif[0x0112] = 6
    gps = exif.get_ifd(0x8825)
    gps[1], gps[2], gps[3], gps[4] = "N", (58.0, 12.0, 30.0), "W", (6.0, 1.0, 2.0)
    gps[28] = b"ASCII\0\0\0Skerrow-Sound-position"
    image = scene(900, 1300)
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    image.save(
        path,
        quality=90,
        exif=exif,
        comment=b"bench Y-7",
        icc_profile=profile,
        xmp=XMP,
    )
    plain = path.read_bytes()
    iptc = b"Photoshop 3.0\x008BIM\x04\x04\0\0\0\0\0\x08\x1c\x02\x78\0\x03Y-7"
    path.write_bytes(
        plain[:2] + b"\xff\xed" + (len(iptc) + 2).to_bytes(2, "big") + iptc + plain[2:] + b"Y-7 after the end"
    )


def test_nothing_of_the_cameras_or_editors_notes_reaches_a_cut(tmp_path):
    path = tmp_path / "collection" / "photo.jpg"
    path.parent.mkdir()
    original_full_of_notes(path)
    assert all(word in path.read_bytes() for word in HIDDEN)  # or the test would prove nothing
    view = view_of([tree("A", [photo(tmp_path / "collection", "photo.jpg", size=(1300, 900))])])
    pictures = draw(view, tmp_path / "collection", tmp_path / "cache")
    assert len(pictures.cuts) == 3
    for cut in pictures.cuts:
        data = cut_file(tmp_path / "cache", cut).read_bytes()
        check_bare(data)
        assert [word for word in HIDDEN if word in data] == []


def test_exiftool_finds_nothing_but_the_picture_in_a_cut(tmp_path):
    """Against a reader that is not ours: ExifTool, groups File and JFIF only."""
    if shutil.which("exiftool") is None:
        assert "CI" not in os.environ, "the continuous checks install exiftool (Debian libimage-exiftool-perl)"
        pytest.skip("exiftool is not installed here (Debian libimage-exiftool-perl)")
    path = tmp_path / "collection" / "photo.jpg"
    path.parent.mkdir()
    original_full_of_notes(path)
    view = view_of([tree("A", [photo(tmp_path / "collection", "photo.jpg", size=(1300, 900))])])
    pictures = draw(view, tmp_path / "collection", tmp_path / "cache")

    def groups(file: Path):
        told = subprocess.run(
            ["exiftool", "-G0", "-a", "-ee", "-s", str(file)], capture_output=True, text=True, check=True
        )
        return {line[1 : line.index("]")] for line in told.stdout.splitlines()}

    assert {"EXIF", "XMP", "ICC_Profile", "IPTC"} <= groups(path)
    for cut in pictures.cuts:
        assert groups(cut_file(tmp_path / "cache", cut)) <= {"ExifTool", "File", "JFIF", "Composite"}


SLOW_RUN = """
import sys
from pathlib import Path
sys.path.insert(0, sys.argv[3])
from illustrate_builders import photo, tree, view_of
from archive_tools.illustrate import draw
if __name__ == "__main__":
    root, cache = Path(sys.argv[1]), Path(sys.argv[2])
    paths = sorted(file.relative_to(root).as_posix() for file in root.rglob("*.jpg"))
    draw(view_of([tree("A", [photo(root, path) for path in paths])]), root, cache)
"""


@pytest.mark.slow
def test_a_run_that_is_killed_leaves_no_half_picture(tmp_path):
    root, cache = tmp_path / "collection", tmp_path / "cache"
    view, _photos = house(root, 24)
    script = tmp_path / "run.py"
    script.write_text(SLOW_RUN)
    arguments = [sys.executable, str(script), str(root), str(cache), str(Path(__file__).parent)]
    surroundings = os.environ | {"PYTHONPATH": str(Path(archive_tools.__file__).parents[1])}
    run = subprocess.Popen(arguments, start_new_session=True, env=surroundings)
    try:
        given_up = time.monotonic() + 60
        while len(list(cache.glob("pictures/*.jpg"))) < 5 and run.poll() is None and time.monotonic() < given_up:
            time.sleep(0.01)
        assert run.poll() is None, "the run was over before it could be killed"
    finally:
        with contextlib.suppress(ProcessLookupError):
            os.killpg(run.pid, signal.SIGKILL)
        run.wait()
    written = list(cache.glob("pictures/*"))
    assert 5 <= len(written) < 24 * 3
    for file in written:
        check_bare(file.read_bytes())
        with Image.open(file) as image:
            image.load()
    pictures = draw(view, root, cache)
    assert pictures.encoded == 24 * 3 - len(written)
    assert all(cut_file(cache, cut).stat().st_size > 0 for cut in pictures.cuts)


def test_leavings_of_a_killed_run_are_cleared_once_they_are_old(tmp_path):
    view, _ = house(tmp_path / "collection", 1)
    aside = tmp_path / "cache" / "aside"
    aside.mkdir(parents=True)
    for name, age in (("old.part", 7200), ("new.part", 10)):
        (aside / name).write_bytes(b"half")
        os.utime(aside / name, (time.time() - age,) * 2)
    draw(view, tmp_path / "collection", tmp_path / "cache")
    assert [file.name for file in aside.iterdir()] == ["new.part"]
