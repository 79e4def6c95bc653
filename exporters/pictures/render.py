"""Rendered pictures by a program of their own, and whether what it made shows anything."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from exporters.colours import colour_of
from exporters.views.values import ViewFrame
from furniture.parts.part import Part, Placed
from furniture.solids.make import solid_of

_SCENE = Path(__file__).with_name("scene.py")
_TIMEOUT_S = 120.0
_CHORD_MM, _TURN_RAD = 0.05, 0.2
_RED_OVER_BLUE = 10
"""By how many of 255 steps a shaded wood is redder than blue: the darkest here by over 30."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """A picture to take: where it goes, how the piece is looked at, its longer side [dots]."""

    path: Path
    frame: ViewFrame
    long_side: int = 1600


def rendered(
    placed: Sequence[Placed], shots: Sequence[Shot], environment: Mapping[str, str] | None = None
) -> bool:
    """Whether all shots were taken and show something; False leaves no doubtful picture behind.

    The renderer runs as another process: on a machine without graphics it may crash, hang, or
    give a black picture, and none of these reaches the caller.

    Args:
        placed: the parts in their places.
        shots: the pictures to take.
        environment: variables set for the renderer beside those of this process.
    """
    with tempfile.TemporaryDirectory() as folder:
        job = Path(folder) / "job.npz"
        np.savez(job, **_job(placed, shots))
        try:
            done = subprocess.run(
                [sys.executable, str(_SCENE), str(job)],
                env={**os.environ, **(environment or {})},
                capture_output=True,
                timeout=_TIMEOUT_S,
                check=False,
            )
            is_done = done.returncode == 0
        except (OSError, subprocess.TimeoutExpired):
            is_done = False
    if is_done and all(shot.path.is_file() and shows_something(shot.path) for shot in shots):
        return True
    for shot in shots:
        shot.path.unlink(missing_ok=True)
    return False


def shows_something(path: Path) -> bool:
    """Whether a rendered picture has a white ground and, on it, something of the colour of wood.

    Own rule: all four corners white, and of the other dots, which are more than half a per cent
    and less than nineteen in twenty of all, a third or more with red well over blue.

    Args:
        path: of a picture file.
    """
    from PIL import Image

    with Image.open(path) as image:
        dots: NDArray[np.int16] = np.asarray(image.convert("RGB")).astype(np.int16)
    corners = dots[[0, 0, -1, -1], [0, -1, 0, -1]]
    is_drawn = dots.min(axis=2) < 250
    share = float(is_drawn.mean())
    if corners.min() < 250 or not 0.005 < share < 0.95:
        return False
    is_wood = dots[..., 0] > dots[..., 2] + _RED_OVER_BLUE
    return bool(is_wood[is_drawn].mean() > 1.0 / 3.0)


def _job(placed: Sequence[Placed], shots: Sequence[Shot]) -> dict[str, Any]:
    job: dict[str, Any] = {"parts": len(placed), "pictures": len(shots)}
    known: dict[Part, tuple[NDArray[np.float64], ...]] = {}
    for index, each in enumerate(placed):
        if each.part not in known:
            known[each.part] = _mesh(solid_of(each.part))
        points, triangles, strokes, lengths = known[each.part]
        axes, origin = np.array(each.placement.axes), np.array(each.placement.origin)
        job[f"points_{index}"] = points @ axes + origin
        job[f"triangles_{index}"] = triangles
        job[f"strokes_{index}"] = strokes @ axes + origin
        job[f"lengths_{index}"] = lengths
        job[f"colour_{index}"] = np.array(colour_of(each.part.timber))
    for index, shot in enumerate(shots):
        job[f"path_{index}"] = str(shot.path.resolve())
        job[f"right_{index}"] = np.array(shot.frame.right)
        job[f"up_{index}"] = np.array(shot.frame.up)
        job[f"long_side_{index}"] = shot.long_side
    return job


def _mesh(solid: Any) -> tuple[NDArray[np.float64], ...]:
    """Points and triangles of the faces; points of the edges and how many belong to each."""
    from OCP.BRepAdaptor import BRepAdaptor_Curve
    from OCP.GCPnts import GCPnts_TangentialDeflection

    from exporters.views.kernel import edges_of

    points, triangles = solid.tessellate(_CHORD_MM, _TURN_RAD)
    strokes: list[tuple[float, float, float]] = []
    lengths: list[int] = []
    for edge in edges_of(solid.wrapped):
        strung = GCPnts_TangentialDeflection(BRepAdaptor_Curve(edge), _TURN_RAD, _CHORD_MM)
        found = [strung.Value(number + 1) for number in range(strung.NbPoints())]
        strokes += ((point.X(), point.Y(), point.Z()) for point in found)
        lengths.append(len(found))
    return (
        np.array([point.toTuple() for point in points]),
        np.array(triangles),
        np.array(strokes),
        np.array(lengths),
    )
