"""Evening at Heron Reach: three elms by the water, on white marble."""

from __future__ import annotations

from dataclasses import replace

from ..landscape import Shore
from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Crown, Tree
from ..stage import LOW_SUN, WARM, Light, Stage
from . import common as c

FOLDER = "trees/S2006.2-heron-reach/photos/"


def trees(year: int) -> list[Tree]:
    """The elms of the point, the hill and the inlet."""
    k = {1989: 0.74, 2006: 0.92}.get(year, 1.0)
    thick = {1989: 0.5, 2006: 0.82}.get(year, 1.0)
    fill = {1989: 0.62, 2006: 0.88}.get(year, 1.0)

    def elm(
        name: str,
        at: tuple[float, float],
        line: list[tuple[float, float, float]],
        radius: float,
        seed: int,
        rows: list[tuple[int, float, float, float, float]],
        crown: Crown,
    ) -> Tree:
        return Tree(
            line,
            radius * thick,
            [c.branch(key, s, az, length * k, rise, 0.5, 5) for key, s, az, length, rise in rows],
            crown,
            at=at,
            seed=seed,
            fill=fill,
            name=name,
            roots=7,
            flare=0.4,
        )

    hill = elm(
        "hill",
        (1.35, 0.2),
        [(0, 0, 0), (0.1, 0, 0.35), (0.28, 0, 0.85), (0.05, 0.05, 1.45), (0.18, 0, 2.0), (0.3, 0, 2.45)],
        0.24,
        61,
        [
            (1, 1.05, c.RIGHT, 1.45, 0.02),
            (2, 1.35, c.LEFT, 1.25, 0.08),
            (3, 1.5, c.BACK, 0.9, 0.2),
            (4, 1.75, c.RIGHT - 0.3, 1.1, 0.12),
            (5, 2.0, c.LEFT + 0.2, 0.9, 0.15),
            (6, 1.6, c.FRONT + 0.3, 0.7, 0.15),
        ],
        Crown(0.62 * k, 2.05, 4, 0.8),
    )
    point = elm(
        "point",
        (-0.15, -0.15),
        [(0, 0, 0), (-0.12, 0, 0.22), (-0.5, 0, 0.6), (-0.75, 0, 1.05), (-1.2, 0, 1.35), (-1.45, 0, 1.62)],
        0.19,
        62,
        [
            (1, 0.9, c.LEFT + 0.1, 1.15, -0.08),
            (2, 1.15, c.RIGHT - 0.2, 0.75, 0.3),
            (3, 1.35, c.FRONT - 0.4, 0.7, 0.1),
            (4, 1.5, c.LEFT - 0.3, 0.95, 0.05),
            (5, 1.3, c.BACK, 0.7, 0.3),
        ],
        Crown(0.48 * k, 1.6, 4, 0.7, 0.05, (-0.3, 0)),
    )
    inlet = elm(
        "inlet",
        (2.85, -0.35),
        [(0, 0, 0), (0.05, 0, 0.25), (0.2, 0, 0.6), (0.1, 0, 1.0), (0.2, 0, 1.35)],
        0.13,
        63,
        [(1, 0.6, c.RIGHT + 0.1, 0.8, 0.05), (2, 0.8, c.LEFT, 0.6, 0.15), (3, 0.95, c.BACK, 0.55, 0.2)],
        Crown(0.42 * k, 1.0, 3, 0.8),
    )
    return [hill, point, inlet]


OLD_STONES = (
    (-0.75, -0.35, 0.42, 0.50, 0.35),
    (0.1, -1.1, 0.55, 0.42, 0.4),
    (0.9, -1.25, 0.40, 0.30, 0.35),
    (1.75, -1.35, 0.5, 0.36, 0.35),
    (2.0, 0.75, 0.5, 1.0, 0.4),
    (0.55, 0.75, 0.45, 0.7, 0.4),
    (-2.6, 0.45, 0.34, 0.42, 0.28),
    (-0.3, 0.7, 0.4, 0.45, 0.35),
    (3.3, 0.35, 0.35, 0.5, 0.3),
)
NEW_STONES = (
    (-0.95, -0.45, 0.40, 0.42, 0.34),
    (-0.45, -0.85, 0.42, 0.30, 0.3),
    (0.25, -1.15, 0.50, 0.36, 0.36),
    (0.95, -1.35, 0.36, 0.22, 0.3),
    (1.65, -1.42, 0.46, 0.34, 0.32),
    (2.45, -1.40, 0.34, 0.24, 0.26),
    (2.1, 0.80, 0.62, 1.25, 0.42),
    (2.62, 0.72, 0.36, 0.8, 0.36),
    (0.55, 0.85, 0.5, 0.75, 0.4),
    (-0.55, 0.55, 0.42, 0.5, 0.34),
    (-2.75, 0.35, 0.36, 0.34, 0.26),
    (-3.25, 0.5, 0.18, 0.16, 0.16),
    (3.4, 0.3, 0.3, 0.42, 0.28),
)


def shots() -> list[Shot]:
    """Three photographs, 1989 to 2025."""
    marble = Pot(4.5, 2.25, 0.22, 14, (0.50, 0.50, 0.50), (0.74, 0.74, 0.72), 0.3, 0.0, 0.97, 0.03, True, kind="marble")
    evening = Light(
        sun=2.6,
        softness=5,
        sun_colour=(1, 0.86, 0.68),
        sun_height=34,
        sun_side=-58,
        key=800,
        fill=240,
        back=560,
    )

    def at(
        name: str,
        stage: Stage,
        look: Look,
        taken: Taken,
        stones: tuple[tuple[float, float, float, float, float], ...],
        each: int,
    ) -> Shot:
        year = int(name[:4])
        return Shot(
            FOLDER + name,
            trees(year),
            c.ELM_BARK,
            marble,
            stage,
            look,
            taken,
            Foliage("oval", 0.085, c.GREEN, each, 2),
            shore=Shore(-0.2 if year > 2010 else 0.0, 0.45, stones, 4),
            seed=61,
            voxel=0.018,
        )

    return [
        at(
            "1989_front_1.jpg",
            c.stage(
                "cloth",
                (c.EBONY[0], (0.05, 0.035, 0.03)),
                "cloth",
                (0.06, 0.05, 0.045),
                WARM,
                c.see(1.5, 26, 0, 2, 8),
                behind=7,
            ),
            replace(c.slide(0.5, 71), light=1.3),
            c.scan("2014-02-04"),
            OLD_STONES,
            3,
        ),
        at(
            "2006_front_1.jpg",
            c.stage(
                "stone", c.PALE_STONE, "courses", (0.28, 0.25, 0.21), LOW_SUN, c.see(1.6, 26.5, 0, -3, 7), behind=17
            ),
            Look(seed=72),
            Taken("2006-05-20T18:22:47", "+01:00", "pocket"),
            OLD_STONES,
            4,
        ),
        at(
            "2025-07_front_1.jpg",
            c.stage("slab", c.EBONY, "wall", (0.44, 0.435, 0.425), evening, c.see(1.7, 26.5, 0, 0, 7)),
            Look(seed=73),
            Taken("2025-07-08T18:40:11", "+01:00"),
            NEW_STONES,
            4,
        ),
    ]
