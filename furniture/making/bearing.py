"""Which faces of the wood a pass needs: what it bears on and what it is measured from."""

from __future__ import annotations

from furniture.making.settings import (
    Bored,
    Easing,
    Hold,
    Notched,
    Setting,
    Slice,
    Trench,
)
from furniture.parts.faces import EDGES, ENDS, Face


def faces_used(hold: Hold, setting: Setting | None) -> tuple[Face, ...]:
    """The edges and ends that a pass bears on, is measured from, or is sunk into, in their order.

    A set of faces comes in another order in each run, and so would what is told of them.
    """
    used = {hold.down, hold.against, hold.stop, *_measured_from(setting)}
    return tuple(face for face in Face if face in used and (face in EDGES or face in ENDS))


def _measured_from(setting: Setting | None) -> tuple[Face, ...]:
    match setting:
        case Trench():
            ends = [Face.NAMED_END, Face.FAR_END] if setting.along == 0 else list(EDGES)
            stopped = [setting.whole_low_mm > 0.0, setting.whole_high_mm > 0.0]
            return (
                setting.off,
                setting.face,
                *(end for end, is_stopped in zip(ends, stopped, strict=True) if is_stopped),
            )
        case Bored():
            return (*setting.off, setting.face)
        case Notched():
            return (setting.off, setting.edge)
        case Slice():
            return (setting.off,)
        case Easing():
            return (setting.arris.first, setting.arris.second)
        case _:
            return ()
