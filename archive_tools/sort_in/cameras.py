"""Two cameras of one make that give no number of their own: told apart by the folders in which their pictures lie.

Two telephones of one model are one camera by all that they write. Taken for one, the card that the one photographs
would claim the pictures of the other.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, timedelta

from archive_tools.sort_in.facts import Camera, Picture

ONE_WALK = timedelta(hours=12)
"""Pictures of a folder further apart than this do not show that another folder's were taken in between."""


def told_apart(pictures: Iterable[Picture]) -> list[Picture]:
    """The pictures, those of a camera without a number marked with their folder where several cameras must be meant.

    That is so where the pictures of two folders alternate in time, as those of one camera's folders never do. A copy of
    a picture in a second folder shows the same moment, and shows nothing.
    """
    pictures = list(pictures)
    by_camera: dict[Camera, list[Picture]] = {}
    for picture in pictures:
        if not picture.camera.serial and picture.clock is not None:
            by_camera.setdefault(picture.camera, []).append(picture)
    several = {camera for camera, ones in by_camera.items() if _alternate(ones)}
    return [
        replace(one, camera=replace(one.camera, folder=_folder(one) or "."))
        if one.camera in several and one.clock is not None
        else one
        for one in pictures
    ]


def _alternate(pictures: Iterable[Picture]) -> bool:
    folders: dict[datetime, set[str]] = {}
    for picture in pictures:
        if picture.clock is not None:
            folders.setdefault(picture.clock.replace(tzinfo=None), set()).add(_folder(picture))
    last: dict[str, datetime] = {}
    before: str | None = None
    for time, ones in sorted(folders.items()):
        if len(ones) > 1:
            continue
        (folder,) = ones
        if before not in (None, folder) and folder in last and time - last[folder] < ONE_WALK:
            return True
        last[folder], before = time, folder
    return False


def _folder(picture: Picture) -> str:
    return picture.file.rpartition("/")[0]
