"""The pictures of a packet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from exporters.grain.in_wood import InWood
from exporters.pictures.exploded import APART_CAMERA, exploded_picture, shifts_of
from exporters.pictures.outline import write_outlines
from exporters.pictures.paint import painter_of
from exporters.render.camera import Camera, three_quarter
from exporters.render.render import as_image, render
from exporters.scene.scene import scene_of
from furniture.assembly.values import AssemblyPlan, NoOrder
from furniture.pieces.piece import Piece, Stance

_LONG_SIDE, _APART_SIDE = 1400, 1300
_ROOM_FOR_SHADOW = 0.085


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shown:
    """A piece and what is known of its look.

    Args:
        piece: what is shown.
        woods: the wood of each instance; one without shows its species' plain colour.
        order: of assembly; None opens each joint on its own.
    """

    piece: Piece
    woods: Mapping[str, InWood] = field(default_factory=dict)
    order: AssemblyPlan | NoOrder | None = None


def camera_for(piece: Piece) -> Camera:
    """The eye that shows a piece best: from above where it stands, nearly level where it hangs."""
    if piece.stance is Stance.WALL:
        return Camera(turn_deg=27.0, rise_deg=15.0, distance=4.2)
    return three_quarter()


def picture_of(shown: Shown, long_side: int = _LONG_SIDE, samples: int = 2) -> Any:
    """The piece in its own wood, from a little above and to the right, as an image.

    Args:
        shown: the piece and its wood.
        long_side: of the picture [dots].
        samples: each way that a dot is parted into: 1 is quick, 2 is smooth.

    Raises:
        SolidError: a part cannot be made.
        ValueError: the piece has no parts.
    """
    scene = scene_of(shown.piece)
    camera = camera_for(shown.piece)
    painter = painter_of(shown.woods)
    found = render(
        scene, camera, painter, long_side=long_side, samples=samples, margin=_ROOM_FOR_SHADOW
    )
    return as_image(found)


def write_pictures(shown: Shown, directory: Path) -> tuple[Path, ...]:
    """The paths of `piece.png`, `apart.png`, `outlines.png` and `outlines.svg`.

    Args:
        shown: the piece and its wood.
        directory: a folder that stands.

    Raises:
        SolidError: a part cannot be made.
        ValueError: the piece has no parts.
        OSError: a picture cannot be written.
    """
    whole = directory / "piece.png"
    picture_of(shown).save(whole)
    apart = directory / "apart.png"
    shifts = shifts_of(shown.piece, shown.order, APART_CAMERA)
    taken_apart = exploded_picture(shown.piece, shifts, painter_of(shown.woods), _APART_SIDE)
    taken_apart.save(apart)
    outlines = write_outlines(shown.piece, directory / "outlines.png", directory / "outlines.svg")
    return (whole, apart, *outlines)
