"""The pictures of a packet."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from exporters.pictures.lines import write_lines
from exporters.pictures.render import Shot, rendered
from exporters.views.frames import StandardView, standard_frame
from exporters.views.project import project_placed
from furniture.pieces.piece import Piece

_NAMES = {
    "isometric.png": StandardView.ISOMETRIC_RIGHT,
    "front.png": StandardView.FRONT,
}


def write_pictures(
    piece: Piece, directory: Path, environment: Mapping[str, str] | None = None
) -> tuple[Path, ...]:
    """The paths of `isometric.png` and `front.png`, 1600 dots on the longer side.

    Both are rendered, or where that fails or shows nothing, drawn as lines with hidden ones left
    out.

    Args:
        piece: what is shown.
        directory: a folder that stands.
        environment: variables set for the renderer beside those of this process.

    Raises:
        SolidError: a part cannot be made.
        ValueError: the piece has no parts.
        OSError: a picture cannot be written.
    """
    shots = [
        Shot(path=directory / name, frame=standard_frame(which)) for name, which in _NAMES.items()
    ]
    if not piece.placed:
        raise ValueError(f"{piece.name!r} has no parts to show")
    if not rendered(piece.placed, shots, environment):
        for shot in shots:
            write_lines(project_placed(piece.placed, shot.frame), shot.path, shot.long_side)
    return tuple(shot.path for shot in shots)
