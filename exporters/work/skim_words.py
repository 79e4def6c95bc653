"""What is planed, jointed or sawn off a face, an edge or an end, in words."""

from __future__ import annotations

from collections.abc import Callable

from exporters.work.lines import PlacementWords, Told
from furniture.making.operations import Kind, Operation
from furniture.making.settings import Skim
from furniture.parts.faces import EDGES, Face
from furniture.units import Shown, figure_among_words


def skimmed_in_words(
    operation: Operation,
    setting: Skim,
    name: Callable[[Face], str],
    of: str | None,
    shown: Shown,
    placement: PlacementWords,
) -> Told:
    """What comes off which face.

    Args:
        operation: that takes it off.
        setting: what is taken off where.
        name: of a face of the wood in hand.
        of: the one instance whose end it is; None where it is none's alone.
        shown: how lengths are shown.
        placement: how the wood lies.
    """
    face, takes = name(setting.face), figure_among_words(setting.takes_mm, shown)
    if operation.kind is Kind.JOINT_EDGE:
        most = f"at most {takes} off"
        return Told(what=f"saw the {face} straight", placement=placement, most=most)
    if setting.long_face is None:
        most = f"at most {takes} off" if setting.takes_mm else ""
        return Told(what="square {on}", placement=placement, on=f"the {face}", most=most)
    long = name(setting.long_face)
    if setting.face in EDGES:
        return Told(what=f"bevel the {face}; the {long} keeps its full width", placement=placement)
    called = face if of in (None, operation.takes[0]) else f"{face} of {of}"
    verb = "mitre" if setting.lean_deg else "square"
    return Told(what=f"{verb} the {called}, {takes} off the {long}", placement=placement)
