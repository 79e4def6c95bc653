"""An independent checker of what comes off each placement: parts, common blanks and their saw cuts.

Reads the values of pieces, plans and wishes; places of parts, what the saw takes between them and
what they put up with are worked out anew from sizes, mitres and zones.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from itertools import pairwise

from shapely import Polygon, box

from furniture.parts.cuts import Mitre
from furniture.parts.faces import Face
from furniture.parts.part import Part
from furniture.shop.boards.copies import Laid
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import Rectangle
from furniture.shop.cutting.values import MatchRule, ZoneKind, ZoneShows

CLOSE = 1e-4
"""Lengths this close are equal [mm]."""

_WELCOME = (ZoneKind.FIGURE, ZoneKind.EVEN_GRAIN)
_WANDERS = (ZoneKind.KNOT, ZoneKind.CHECK, ZoneKind.HOLE)


def faults_of_members(outcome: CuttingOutcome) -> list[str]:
    """Everything wrong with what comes off the placements; empty when it is as the piece asks."""
    parts = {
        lot.called(each.instance): each.part
        for lot in outcome.job.lots
        for each in lot.piece.placed
    }
    faults = [*_once_each(outcome, parts), *_matches(outcome)]
    for laid in outcome.blanks:
        faults += _sizes(laid, parts)
        if len(laid.instances) > 1:
            faults += _common(outcome, laid, parts)
    return faults


def _once_each(outcome: CuttingOutcome, parts: dict[str, Part]) -> Iterator[str]:
    """Wood exactly once for every instance, but for those that are told to have none."""
    plan, job = outcome.plan, outcome.job
    if plan is None:
        return
    lying = Counter(
        name for laid in outcome.blanks for name in laid.instances if laid.placement.strip <= 1
    )
    for name, count in lying.items():
        if count > 1 or name not in parts:
            yield f"{name}: wood {count} times"
    told = Counter({each.part: each.copies for each in (*plan.unplaced, *plan.left_out)})
    missing = Counter(
        part for part in job.copies for name in job.instances(part) if not lying[name]
    )
    if missing != told:
        yield f"without wood {missing}, told {told}"
    asked = Counter(name for part in job.copies for name in job.instances(part))
    if asked != Counter(list(parts)):
        yield f"asked for {asked}"


def _sizes(laid: Laid, parts: dict[str, Part]) -> Iterator[str]:
    """Each part as long as its piece says, of one section with the others, inside its wood."""
    place, placement = laid.placement.place, laid.placement
    widths = {round(parts[name].blank.width_mm, 6) for name in laid.instances}
    if len(widths) > 1 or len({parts[name].timber for name in laid.instances}) > 1:
        yield f"{laid.instances}: parts of several widths or stocks off one blank"
    across = place.length_mm if placement.is_turned else place.width_mm
    if not placement.strip and max(widths) > across + CLOSE:
        yield f"{laid.instances}: {across} mm of width for {widths}"
    for stretch, own in laid.places if len(laid.instances) > 1 else ():
        if abs(own.length_mm - parts[stretch.instance].blank.length_mm) > CLOSE:
            yield f"{stretch.instance}: {own.length_mm} mm long"
        if stretch.part != parts[stretch.instance].id:
            yield f"{stretch.instance}: told to be {stretch.part}"
        if (
            own.x_mm < place.x_mm - CLOSE
            or own.x_mm + own.length_mm > place.x_mm + place.length_mm + CLOSE
        ):
            yield f"{stretch.instance}: not inside its blank"


def _common(outcome: CuttingOutcome, laid: Laid, parts: dict[str, Part]) -> Iterator[str]:
    """Grain, what the saw takes between the parts, and what each puts up with in its stretch."""
    if laid.placement.is_turned or laid.placement.strip:
        yield f"{laid.instances}: a common blank that is turned or glued up"
    kerf = outcome.job.request.saw.kerf_mm
    for (before, first), (after, second) in pairwise(laid.places):
        left, right = (
            _side(parts[before.instance], first.x_mm),
            _side(parts[after.instance], second.x_mm),
        )
        for part, end, x, other in (
            (parts[before.instance], Face.FAR_END, first.x_mm, right),
            (parts[after.instance], Face.NAMED_END, second.x_mm, left),
        ):
            taken = _kerf_at(part, end, x, kerf - CLOSE).intersection(other).area
            if taken > CLOSE * kerf:
                yield f"the saw that cuts {before.instance} from {after.instance} takes of a part"
    for stretch, own in laid.places:
        yield from _zones(outcome, laid, stretch.instance, own)


def _mitre(part: Part, end: Face) -> tuple[float, float]:
    """How far an end is set back on the back side and on the face side [mm]."""
    for cut in part.cuts:
        if isinstance(cut, Mitre) and cut.end is end:
            back = part.blank.thickness_mm * math.tan(math.radians(cut.blade_tilt_deg))
            return (back, 0.0) if cut.long_point_face is Face.FACE_SIDE else (0.0, back)
    return 0.0, 0.0


def _side(part: Part, x: float) -> Polygon:
    """A part seen along its width, its named end at x: length and thickness [mm]."""
    (low_a, high_a), (low_b, high_b) = (_mitre(part, e) for e in (Face.NAMED_END, Face.FAR_END))
    end, thick = x + part.blank.length_mm, part.blank.thickness_mm
    return Polygon(((x + low_a, 0), (end - low_b, 0), (end - high_b, thick), (x + high_a, thick)))


def _kerf_at(part: Part, end: Face, x: float, kerf: float) -> Polygon:
    """What the saw takes beyond an end, square to the cut [mm]."""
    low, high = _mitre(part, end)
    thick, way = part.blank.thickness_mm, 1.0 if end is Face.FAR_END else -1.0
    at = x + part.blank.length_mm if end is Face.FAR_END else x
    wide = way * kerf * math.hypot(thick, high - low) / thick
    foot, head = at - way * low, at - way * high
    return Polygon(((foot, 0), (head, thick), (head + wide, thick), (foot + wide, 0)))


def _zones(outcome: CuttingOutcome, laid: Laid, instance: str, own: Rectangle) -> Iterator[str]:
    commons, job = outcome.job.commons, outcome.job
    wish = None if commons is None else commons.demands.wish_of.get(instance)
    if wish is None:
        return  # as the whole blank, which the checker of plans has looked at
    board = next(each for each in job.boards if each.name == laid.placement.board)
    shape = box(own.x_mm, own.y_mm, own.x_mm + own.length_mm, own.y_mm + own.width_mm)
    for zone in board.zones:
        sides = {ZoneShows.BOTH: "us", ZoneShows.UPPER: "u", ZoneShows.LOWER: "s"}[zone.shows]
        show, hidden = ("s", "u") if laid.placement.is_flipped else ("u", "s")
        is_barred = (show in sides and zone.kind not in wish.show) or (
            hidden in sides and zone.kind not in wish.hidden
        )
        if not is_barred or zone.kind in _WELCOME:
            continue
        off = job.request.saw.off_faults_mm if zone.kind in _WANDERS else 0.0
        outline = Polygon(zone.outline)
        if shape.intersection(outline).area > CLOSE or shape.distance(outline) < off - CLOSE:
            yield f"{instance}: on {zone.kind.value} {zone.name} of board {board.name}"


def _matches(outcome: CuttingOutcome) -> Iterator[str]:
    """Every match is told of once; one that a blank keeps lies in it, a sequence in its order."""
    plan, commons = outcome.plan, outcome.job.commons
    if plan is None or commons is None:
        return
    told = Counter(each.group for each in plan.matches)
    if told != Counter(each.group.name for each in commons.matches):
        yield f"matches told: {told}"
    kept = {each.group for each in plan.matches if each.is_kept and not each.price_paid}
    for match in commons.matches:
        if match.group.name in {each.name for each in outcome.job.request.matches}:
            continue
        home = [laid for laid in outcome.blanks if set(match.instances) <= set(laid.instances)]
        if match.group.name not in kept or len(home) != 1:
            yield f"{match.group.name}: neither asked for nor kept by a blank"
        elif match.group.rule is MatchRule.IN_SEQUENCE:
            order = [name for name in home[0].instances if name in match.instances]
            if tuple(order) != match.instances:
                yield f"{match.group.name}: in another order"
