"""How wood comes off a face: by the saw where it can be held there, by hand where not."""

from __future__ import annotations

from dataclasses import dataclass

from furniture.checks.left import weak_under_mm
from furniture.job.values import By, Place, TakenOff
from furniture.job.voids import HAIR_MM
from furniture.parts.blank import Blank
from furniture.parts.faces import Face
from furniture.rules import USUAL_RULES, Rules
from furniture.shop.cutting.values import Saw


@dataclass(frozen=True, slots=True, kw_only=True)
class Holding:
    """What is asked of wood in hand, and of wood that is left: the saw's limits and the rules."""

    saw: Saw
    rules: Rules = USUAL_RULES

    def weak_under_mm(self, thickness_mm: float) -> float:
        """Under how much wood a place is weak [mm]."""
        return weak_under_mm(thickness_mm, self.rules)


def taken_off(
    old: Blank, new: Blank, place: Place, holding: Holding, cut_off: frozenset[Face]
) -> tuple[TakenOff, ...]:
    """What comes off each face: edges and wide faces while the wood is long, the ends last.

    Args:
        old: the wood as it is.
        new: as it is to be.
        place: where it lies in it.
        holding: the saw's limits.
        cut_off: faces that a cut takes off anyway.
    """
    size = list(old.size)
    found = []
    for face in sorted(Face, key=lambda each: (each.axis == 0, each.axis, each.is_far)):
        mm = (place.off_high if face.is_far else place.off_low)[face.axis]
        if mm <= HAIR_MM:
            continue
        by = By.CUT if face in cut_off else _by(face, mm, size, holding.saw)
        found.append(
            TakenOff(
                face=face,
                mm=mm,
                before_mm=old.size[face.axis],
                after_mm=new.size[face.axis],
                by=by,
            )
        )
        size[face.axis] -= mm
    return tuple(found)


def _by(face: Face, mm: float, in_hand: list[float], saw: Saw) -> By:
    length, width, _ = in_hand
    is_skim = mm < saw.kerf_mm
    match face.axis:
        case 0:
            if max(length, width) < saw.shortest_crosscut_mm:
                return By.HAND_PLANE if is_skim else By.HAND_SAW
            return By.SKIM if is_skim else By.CROSSCUT
        case 1:
            is_small = length < saw.shortest_rip_mm or width < saw.narrowest_rip_mm
            if is_small:
                return By.HAND_PLANE if is_skim else By.HAND_SAW
            return By.PLANE if is_skim else By.RIP
        case _:
            return By.HAND_PLANE if length < saw.shortest_rip_mm else By.PLANE
