"""The Harbour Pine."""

from __future__ import annotations

from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Branch, Crown, Point, Tree
from ..stage import GALLERY, LOW_SUN, OVERCAST, SUNNY, Stage
from ..working import Work
from . import common as c

FOLDER = "trees/S1998.4-harbour-pine/photos/"
LINE: tuple[Point, ...] = (
    (0, 0, 0),
    (-0.08, 0, 0.25),
    (-0.42, 0.04, 0.85),
    (-0.16, -0.10, 1.65),
    (0.46, 0.06, 2.40),
    (0.30, 0.0, 3.15),
    (-0.12, 0.04, 3.75),
)


def tree(year: int) -> Tree:
    """The pine in one year."""
    k = {1975: 0.66, 1998: 0.88, 2023: 1.0}.get(year, 1.02)
    rows = [
        (1, 1.15, c.LEFT - 0.1, 2.6, -0.06, 0.36, "first branch"),
        (2, 1.85, c.RIGHT + 0.3, 1.75, 0.0, 0.42, ""),
        (3, 2.0, c.BACK + 0.4, 1.6, 0.1, 0.5, ""),
        (4, 2.62, c.RIGHT - 0.1, 2.0, -0.02, 0.40, "second branch"),
        (5, 2.8, c.LEFT + 0.3, 1.55, 0.06, 0.42, ""),
        (6, 2.9, c.FRONT + 0.5, 0.9, 0.1, 0.5, ""),
        (7, 3.3, c.LEFT - 0.15, 1.5, 0.04, 0.42, ""),
        (8, 3.45, c.RIGHT - 0.35, 1.25, 0.1, 0.45, ""),
        (9, 3.35, c.BACK - 0.4, 1.1, 0.2, 0.5, ""),
        (10, 3.75, c.RIGHT + 0.3, 1.0, 0.14, 0.5, ""),
        (11, 3.85, c.LEFT + 0.25, 0.95, 0.16, 0.5, ""),
    ]
    count = {1975: 8}.get(year, 11)
    b = [
        Branch(key, s, az, length * k, rise, width, 6, 0.9, 0.0, name)
        for key, s, az, length, rise, width, name in rows[:count]
    ]
    top: tuple[Point, ...] = ((-0.2, 0, 4.4), (-0.15, 0, 5.0)) if year == 1975 else ((-0.25, 0, 4.25), (-0.1, 0, 4.62))
    return Tree(
        (*LINE, *top),
        {1975: 0.27, 1998: 0.46, 2023: 0.58}.get(year, 0.59),
        b,
        Crown(0.82 * k, 3.95, 5, 0.7),
        at=(0.25, 0.05),
        seed=98,
        wired={1975: 0.6}.get(year, 1.0),
        fill={1975: 0.55, 1998: 0.85}.get(year, 0.95),
        step=0.115,
        attract=330,
        roots=9,
        taper=1.0,
        flare=0.35,
    )


def shots() -> list[Shot]:
    """Five photographs, 1975 to 2026."""
    plain = Pot(1.9, 1.5, 1.0, 7, (0.10, 0.05, 0.03), (0.19, 0.10, 0.06), 0.75, 0.0, 0.88, moss=0.3)
    brown = Pot(2.35, 1.75, 1.05, 7, (0.075, 0.036, 0.022), (0.135, 0.07, 0.045), 0.65, 0.0, 0.9, moss=0.55)
    rust = Pot(2.6, 1.9, 1.08, 8, (0.085, 0.05, 0.036), (0.15, 0.092, 0.066), 0.7, 0.0, 0.91, moss=0.65)
    dug = Pot(2.6, 1.9, 1.08, 8, (0.085, 0.05, 0.036), (0.15, 0.092, 0.066), 0.7, 0.0, 0.91, moss=0.5, dug=True)

    def at(
        name: str,
        pot: Pot,
        stage: Stage,
        look: Look,
        taken: Taken,
        candles: float = 0.0,
        length: float = 0.30,
        work: Work | None = None,
    ) -> Shot:
        return Shot(
            FOLDER + name,
            (tree(int(name[:4])),),
            c.PINE_BARK,
            pot,
            stage,
            look,
            taken,
            Foliage("pine", length, c.PINE, 2, 1, 1.0, 0.05, candles=candles),
            work=work,
            seed=98,
            marks={"first bend": 0.95, "second bend": 2.65},
        )

    return [
        at(
            "1975_front_1.jpg",
            plain,
            c.stage(
                "planks",
                c.GREY,
                "boards",
                (0.30, 0.22, 0.15),
                SUNNY,
                c.see(3.05, 30, 0.1, -2, 4, 1.0),
                behind=8,
            ),
            c.faded(0.7, 91, (910, 910)),
            c.scan("2012-05-23"),
            0.0,
            0.36,
        ),
        at(
            "1998_front_1.jpg",
            brown,
            c.stage(
                "stone",
                c.PALE_STONE,
                "stones",
                (0.29, 0.275, 0.25),
                OVERCAST,
                c.see(3.1, 28, 0.0, 1.5, 4.5),
                behind=12,
            ),
            c.slide(-0.4, 92),
            c.scan("2014-02-05"),
        ),
        at(
            "2023-03_front_1.jpg",
            dug,
            c.stage(
                "turntable",
                c.GREY,
                "boards",
                (0.22, 0.21, 0.20),
                OVERCAST,
                c.see(2.8, 28, 0.1, 6, 15),
                behind=13,
            ),
            Look(seed=93),
            Taken("2023-03-18T10:36:25", "+00:00", "pocket", (61.1187, -9.6240)),
            0.0,
            0.28,
            Work(open_roots=True, cuttings=6),
        ),
        at(
            "2025-05_front_1.jpg",
            rust,
            c.stage("slab", c.WALNUT, "wall", (0.44, 0.435, 0.42), GALLERY, c.see(3.1, 28, 0.0, 0, 3.5)),
            Look(seed=94),
            Taken("2025-05-15T09:02:37", "+01:00"),
        ),
        at(
            "2026-06_front_1.jpg",
            rust,
            c.stage("planks", c.GREY, "sound", (0.5, 0.5, 0.5), LOW_SUN, c.see(3.1, 27, 0.0, -2, 4), behind=20),
            Look(seed=95),
            Taken(
                "2026-06-03T15:12:08",
                "+01:00",
                "body",
                words="Harbour Pine back on bench Y-7 to wait for the candle cut.",
            ),
            0.75,
        ),
    ]
