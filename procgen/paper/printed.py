"""What comes off a press."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from procgen.files.problems import Problem
from procgen.paper.sizes import Sizes


@dataclass(frozen=True)
class Printed:
    """A printed card or deck. `document` is WeasyPrint's, for joining and imposing."""

    pdf: bytes
    faces: int
    sizes: Sizes
    problems: tuple[Problem, ...]
    document: Any
