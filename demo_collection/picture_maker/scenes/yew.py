"""A yew in training, which has not been shown yet."""

from __future__ import annotations

from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Crown, Point, Tree
from ..stage import NORTH
from . import common as c


def shots() -> list[Shot]:
    """One photograph of a tree in training."""
    line: tuple[Point, ...] = (
        (0, 0, 0),
        (0.06, 0, 0.25),
        (0.3, 0, 0.7),
        (0.12, 0.06, 1.25),
        (-0.15, 0, 1.8),
        (0.02, 0, 2.35),
        (0.06, 0, 2.75),
    )
    b = [
        c.branch(1, 0.8, c.RIGHT, 1.3, 0.12, 0.45),
        c.branch(2, 1.2, c.LEFT, 1.3, 0.15, 0.45),
        c.branch(3, 1.4, c.BACK, 0.9, 0.2, 0.5),
        c.branch(4, 1.7, c.LEFT + 0.3, 1.05, 0.2),
        c.branch(5, 1.9, c.RIGHT - 0.3, 0.95, 0.22),
        c.branch(6, 1.8, c.FRONT + 0.3, 0.6, 0.2),
    ]
    tree = Tree(
        line,
        0.40,
        b,
        Crown(0.55, 2.15, 4, 0.9),
        at=(0, 0),
        seed=19,
        fill=0.7,
        wired=0.8,
        flare=0.4,
        step=0.085,
        attract=420,
    )
    box = Pot(1.7, 1.35, 0.95, 60, (0.12, 0.09, 0.06), (0.26, 0.2, 0.14), moss=0.15, kind="crate", mound=0.12)
    return [
        Shot(
            "trees/S2019.1-unnamed-yew/photos/2024-06_front_1.jpg",
            (tree,),
            c.YEW_BARK,
            box,
            c.stage("planks", c.GREY, "boards", (0.22, 0.21, 0.20), NORTH, c.see(2.0, 17, 0, 3, 7), behind=8),
            Look(seed=96),
            Taken("2024-06-19T14:02:15", "+01:00", "pocket"),
            Foliage("yew", 0.17, c.YEW, 3, 2, 1.0, 0.05),
            seed=19,
            marks={"first bend": 0.75},
        ),
    ]
