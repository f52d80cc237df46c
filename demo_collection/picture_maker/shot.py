"""What one photograph is made of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from .bark import Bark
from .landscape import Shore, Stone
from .leaves import Foliage
from .looks import Look
from .metadata import Taken
from .mountains import Mountains
from .pot import Pot
from .props import Props
from .skeleton import Tree
from .stage import Stage
from .working import Work


@dataclass(frozen=True)
class Shot:
    """One photograph: `file` is its path in the collection."""

    file: str
    trees: Sequence[Tree]
    bark: Bark
    pot: Pot
    stage: Stage
    look: Look
    taken: Taken
    foliage: Foliage | None = None
    stone: Stone | None = None
    shore: Shore | None = None
    work: Work | None = None
    rocks: Mountains | None = None
    props: Props = field(default_factory=Props)
    focus: str = ""
    """Of a detail: the named place in its middle, moved by `nudge`."""

    nudge: tuple[float, float, float] = (0.0, 0.0, 0.0)
    twiglets: int = 0
    twiglet_length: float = 0.16
    width: int = 1280
    height: int = 960
    voxel: float = 0.022
    seed: int = 1
    marks: dict[str, float] = field(default_factory=dict)
    """Places on the trunk's middle line, by distance along it, that stay put through the years."""

    hangs: bool = False
    """A cascade: its far end is the lowest leaf, not the highest."""

    @property
    def name(self) -> str:
        """A short name for working files: tree and picture."""
        parts = self.file.split("/")
        return parts[1].split("-")[0] + "_" + parts[-1].removesuffix(".jpg")
