"""Backs, details and working pictures of the first ten trees: each repeats a picture of the same tree and year."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from ..looks import Look
from ..mountains import Mountains
from ..props import LAND, Props
from ..shot import Shot
from ..working import Work
from . import cascade, daughter, forest, harbour, maple, reach, rock, thorn, zelkova
from . import common as c
from . import kit as k

RUSSET = ((0.40, 0.27, 0.03), (0.44, 0.19, 0.025), (0.30, 0.10, 0.02), (0.34, 0.28, 0.05))


def like(shots: Sequence[Shot], model: str, name: str, **changes: Any) -> Shot:
    """The picture `model` of the list with another file name and other changes."""
    old = next(s for s in shots if s.file.endswith("/" + model))
    return replace(old, file=old.file.replace(model, name), **changes)


def shots() -> list[Shot]:
    """Twelve photographs."""
    d = Look(seed=400)
    near = k.scene("winter", 4, 0.0, 4)
    detail = replace(near, camera=replace(near.camera, near=2.7, stop=0.7))
    pine = next(s for s in harbour.shots() if "2025-05" in s.file)
    ball = replace(pine.pot, kind="ball", a=2.35, b=1.7, h=0.95, dug=True, moss=0.3, mound=0.12)
    quarter = Work(open_roots=True, string=True, cuttings=5)

    def yard_pine(name: str, day: str, x: float, seed: int) -> Shot:
        return like(
            harbour.shots(),
            "2025-05_front_1.jpg",
            name,
            pot=replace(ball, quarter=(x, -1.0)),
            stage=k.scene("yard_trestle", 5 * x, 0.74, 15),
            look=replace(d, seed=seed),
            taken=k.taken(day, "body"),
            work=quarter,
            props=Props(("bucket", "chopsticks"), side=-x),
        )

    old = forest.shots()
    bare = next(s for s in old if "2025-11" in s.file)
    standing = [
        t for i in range(len(forest.PLACES)) if (t := forest.member(i, 2003)) and t.name not in ("fallen", "young")
    ]
    lifted = [
        replace(t, at=(LAND[0] + x, LAND[1] + y), lift=0.30, root_limit=0.5)
        for t, (x, y) in zip(reach.trees(2025), ((0.35, 0.0), (-1.35, -0.1), (1.95, -0.15)), strict=True)
    ]
    row = Mountains(
        tuple(
            (-0.6 + 0.85 * i, 0.25 * (-1) ** i, 0.34 + 0.05 * (i % 3), 0.30, 0.42 + 0.22 * ((i * 5) % 3))
            for i in range(6)
        ),
        (),
        7,
    )
    return [
        like(
            maple.shots(),
            "2025-06_front_1.jpg",
            "2025-06_back_1.jpg",
            stage=k.scene("studio", 180, 0.78),
            look=replace(d, seed=401),
            taken=k.taken("2025-06-16T09:20:33"),
        ),
        like(
            maple.shots(),
            "2026-01_front_1.jpg",
            "2026-01_detail_1.jpg",
            stage=detail,
            look=replace(d, seed=402),
            taken=k.taken("2026-01-20T11:38:19"),
            focus="third branch",
            nudge=(0.45, 0.0, 0.25),
            voxel=0.016,
        ),
        yard_pine("2024-03_front_1.jpg", "2024-03-16T10:52:08", 1.0, 403),
        yard_pine("2025-03_front_1.jpg", "2025-03-15T11:07:41", -1.0, 404),
        like(
            zelkova.shots(),
            "2025-08_front_1.jpg",
            "2025-11_front_1.jpg",
            stage=k.scene("studio_warm", 1, 0.80),
            look=replace(d, seed=405),
            taken=k.taken("2025-11-11T10:18:05"),
            foliage=k.leaf("oval", 0.115, RUSSET, 2, 6, 0.42),
            props=Props((), ("oval", 0.11, RUSSET, 60)),
        ),
        like(
            rock.shots(),
            "2024-11_front_1.jpg",
            "2025-06_back_1.jpg",
            stage=k.scene("studio", 180, 0.80),
            look=replace(d, seed=406),
            taken=k.taken("2025-06-17T10:44:26"),
            foliage=k.leaf("palmate", 0.15, c.GREEN, 4, 2),
        ),
        like(
            thorn.shots(),
            "2025-04_front_1.jpg",
            "2026-01_front_1.jpg",
            stage=k.scene("winter", -1, 0.80),
            look=replace(d, seed=407),
            taken=k.taken("2026-01-21T11:52:30"),
            foliage=None,
            twiglets=2,
        ),
        like(
            cascade.shots(),
            "2025-05_front_1.jpg",
            "2022-01_front_1.jpg",
            stage=replace(k.scene("yard", 2, 0.82, 4), stand=2.75, stand_half=1.45),
            look=replace(d, seed=408),
            taken=k.taken("2022-01-15T13:20:47", "body"),
            foliage=k.leaf("scale", 0.17, c.JUNIPER, 2, 2, 0.55),
            work=Work(wire_all=True),
        ),
        like(
            reach.shots(),
            "2025-07_front_1.jpg",
            "2017-04_front_1.jpg",
            stage=k.scene("yard", -4, 0.88, 11),
            look=replace(d, seed=409),
            taken=k.taken("2017-04-22T14:36:10", "body"),
            shore=None,
            trees=lifted,
            rocks=row,
            props=Props(("land",)),
        ),
        replace(
            bare,
            file=bare.file.replace("2025-11_front_1", "2004-03_front_1"),
            trees=standing,
            stage=k.scene("yard", 3, 0.84, 9),
            look=replace(d, seed=410),
            taken=k.taken("2004-03-20T11:15:52", "pocket"),
            foliage=None,
            twiglets=1,
            pot=replace(bare.pot, moss=0.35, hole=(0.25, -0.15, 0.62)),
            props=Props(("chopsticks",)),
        ),
        like(
            old,
            "2025-06_front_1.jpg",
            "2025-06_back_1.jpg",
            stage=k.scene("studio", 180, 0.84, 4.5),
            look=replace(d, seed=411),
            taken=k.taken("2025-06-17T09:47:20"),
        ),
        like(
            daughter.shots(),
            "2025-06_front_1.jpg",
            "2025-10_front_1.jpg",
            stage=k.scene("studio_warm", 0, 0.80),
            look=replace(d, seed=412),
            taken=k.taken("2025-10-21T10:31:18"),
            foliage=k.leaf("trident", 0.10, c.TURNED, 5, 2),
        ),
    ]
