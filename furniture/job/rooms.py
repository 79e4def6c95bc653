"""Openings and gaps as they were measured: the play that parts really have in them.

Parts that are made stay as they are drawn, and a frame that came out some tenths off is drawn as it
was designed. So the play of a face is what is true, and `drawn_off_mm` what the drawing is off.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from furniture.errors import Problem
from furniture.job.done import SAME_MM
from furniture.job.figures import AXES, Figure, designed_mm, plays_of, sizes_of, walls_of
from furniture.joints.joint import JointFace
from furniture.pieces import Piece
from furniture.units import Shown, figure_with_unit


def with_measured_rooms(piece: Piece, measured: Mapping[Figure, float]) -> Piece:
    """The piece with the plays that its parts have in what was measured.

    What a room is more or less than drawn is shared by both sides as the drawn play is.

    Args:
        piece: with every part as it is or will be.
        measured: figures as they are [mm]; what each part goes into is as large as it is.
    """
    sizes, plays = sizes_of(piece), plays_of(piece)
    true = {}
    for figure, value in measured.items():
        at = (figure.instance, figure.axis)
        if not figure.is_room or at not in plays:
            continue
        more = value - designed_mm(figure, sizes, plays)
        if abs(more) > SAME_MM:
            true[figure.instance, figure.axis, figure.of] = (plays[at], max(0.0, plays[at] + more))
    moved = {}
    for wall in walls_of(piece):
        pair = true.get((wall.instance, wall.axis, wall.of))
        if pair is not None:
            moved[id(wall.face)] = _with_play(wall.face, *pair)
    if not moved:
        return piece
    return replace(piece, joinings=tuple(
        replace(each, faces=tuple(moved.get(id(face), face) for face in each.faces))
        for each in piece.joinings
    ))  # fmt: skip


def _with_play(face: JointFace, drawn_mm: float, true_mm: float) -> JointFace:
    """The face with its share of the true play, both given for both sides together."""
    share = face.play_mm / drawn_mm if drawn_mm > SAME_MM else 0.5
    play = share * true_mm
    return replace(face, play_mm=play, drawn_off_mm=face.drawn_play_mm - play)


def too_large(
    rooms: Mapping[Figure, float], sizes: Mapping[tuple[str, int], float], shown: Shown
) -> list[Problem]:
    """A problem for each part that does not go into its room.

    Args:
        rooms: openings and gaps as they are measured [mm].
        sizes: of the parts as they are [mm].
        shown: the unit of the piece.
    """
    return [
        _too_large(figure, value, sizes[at], shown)
        for figure, value in rooms.items()
        for at in [(figure.instance, figure.axis)]
        if sizes[at] - value > SAME_MM
    ]


def _too_large(figure: Figure, room_mm: float, size_mm: float, shown: Shown) -> Problem:
    size = f"{figure.instance}.{AXES[figure.axis]}"
    over = figure_with_unit(size_mm - room_mm, shown)
    return Problem(
        parameter=f"measured '{figure.name}' and '{size}'",
        given=f"{figure_with_unit(room_mm, shown)} and {figure_with_unit(size_mm, shown)}",
        allowed="a part that goes into its room",
        why=f"{figure.instance} is {over} too large for it",
        remedy=f"take {over} and the play that it needs off the {AXES[figure.axis]} of "
        f"{figure.instance}, and write what it then measures",
    )
