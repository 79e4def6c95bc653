"""Small pictures of a part and of its mirror image, beside the one drawing that defines both."""

from __future__ import annotations

from exporters.sheets.blocks import Block, caption, picture_of
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.lettering import wrapped
from exporters.sheets.paper import Scale, scales_for
from exporters.sheets.part_task import PartTask
from exporters.sheets.picture_frames import picture_frame
from exporters.views.project import project_part
from exporters.views.values import ViewFrame
from furniture.parts.faces import Face
from furniture.parts.part import Part
from furniture.parts.vectors import Vector
from furniture.pieces.twins import Flips

_HAND_MM = 40.0
"""A picture is at most so wide and so high, and its title so wide. Own rule."""


def hands(task: PartTask, scale: Scale) -> list[Block]:
    """A small picture of each hand: the second is the first in a mirror.

    Raises:
        NoRoomError: they would be too small to tell anything.
    """
    assert task.opposite is not None
    frame, up = picture_frame(task.part)
    lies = f"{task.faces.called(up)} up" if up is Face.BACK_SIDE else "as drawn"
    return [
        _hand(task.part, frame, f"{task.item} {lies}", scale, task),
        _hand(
            task.opposite.part,
            _in_mirror(frame, task.opposite.flips),
            f"{task.opposite.item} opposite hand",
            scale,
            task,
        ),
    ]


def _hand(part: Part, frame: ViewFrame, words: str, scale: Scale, task: PartTask) -> Block:
    view = project_part(part, frame)
    wide, high = view.high[0] - view.low[0], view.high[1] - view.low[1]
    for smaller in scales_for(task.shown.is_inch):
        factor = smaller.factor
        if factor <= scale.factor and wide * factor <= _HAND_MM and high * factor <= _HAND_MM:
            block = picture_of(view, factor)
            middle, style = (block.core.left + block.core.right) / 2, task.style
            said = words if smaller == scale else f"{words} ({smaller.text})"
            low = block.core.bottom
            for line in wrapped(said, style.text_height_mm, _HAND_MM):
                title = caption(line, middle, low, style)
                block, low = block.with_items([title]), title.at[1]
            return block
    raise NoRoomError("too small a picture")


def _in_mirror(frame: ViewFrame, flips: Flips) -> ViewFrame:
    """How to look at the mirrored part so that its picture is the mirror image of the other's."""

    def turned(way: Vector) -> Vector:
        x, y, z = (
            -value if is_flipped else value for value, is_flipped in zip(way, flips, strict=True)
        )
        return (x, y, z)

    right = turned(frame.right)
    return ViewFrame(right=(-right[0], -right[1], -right[2]), up=turned(frame.up))
