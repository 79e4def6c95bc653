"""Parts that no board is wide enough for: strips edge-jointed, glued up, and worked as one after.

A strip is a unit of its own until it is glued up. Its edges that are glued are jointed, those that
become the part's own stay rough: the part is made true and cut to size as any other, after.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from furniture.making import rigs
from furniture.making.in_hand import within_limits
from furniture.making.operations import After, InHand, Kind, Operation, Stage
from furniture.making.settings import Hold, Machine, Parallel, Rig, Setting, Surface
from furniture.making.units import Left, Unit
from furniture.making.why import Why
from furniture.making.workpieces import MemberPlacement, Wood, Workpiece
from furniture.parts.blank import Blank
from furniture.parts.faces import Face
from furniture.rules import Rules
from furniture.rules.tools import FLATTENED
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.blanks import StripPlace, in_strips, strip_places
from furniture.shop.cutting.plan import Placement
from furniture.shop.tools.values import ShopRead

MEASURED_ALIKE_MM = 0.05
"""A difference in thickness that calipers do not show [mm]. Own rule."""
FLAT_ENOUGH_MM = 0.5
"""What is thicker by no more is planed on one face: it lies flat as it is [mm]. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """A strip of a part: as a unit without members, where it reaches across the part, its place.

    `laid` is its place on a board of the plan; None where an earlier plan has laid it.
    """

    unit: Unit
    across: StripPlace
    laid: Placement | None


@dataclass(frozen=True, slots=True, kw_only=True)
class GluedUp:
    """A part and its strips, from its face edge on.

    `unit` is the part as it is when the glue is hard: over-thick, over-wide and over-long.
    """

    unit: Unit
    strips: tuple[Strip, ...]

    @property
    def workpiece(self) -> Workpiece:
        """The part as it is when the glue is hard."""
        low, high, size = self.unit.left.low, self.unit.left.high, self.unit.blank.size
        return Workpiece(
            id=self.unit.id,
            what=Wood.PART,
            instances=self.unit.instances,
            low=(-low[0], -low[1], -low[2]),
            high=(size[0] + high[0], size[1] + high[1], size[2] + high[2]),
            glued_of=tuple(
                MemberPlacement(each.unit.id, (0.0, each.across.low, -low[2]))
                for each in self.strips
            ),
        )


def thickness_left_mm(over_mm: float, rules: Rules) -> float:
    """How much thicker than the part its strips are glued up [mm].

    Args:
        over_mm: by how much the thinnest of their boards is thicker than the part [mm].
        rules: how much is left where the boards have it.
    """
    if over_mm <= MEASURED_ALIKE_MM:
        return 0.0
    return over_mm if over_mm <= FLAT_ENOUGH_MM else min(rules[FLATTENED], over_mm / 2)


def is_planed_twice(over_mm: float, thinnest_over_mm: float) -> bool:
    """Whether a strip is planed before its glue too, and not only with the others after it.

    Args:
        over_mm: by how much its board is thicker than the part [mm].
        thinnest_over_mm: the same of the thinnest board that the part's strips come off [mm].
    """
    return max(over_mm - thinnest_over_mm, thinnest_over_mm - FLAT_ENOUGH_MM) > MEASURED_ALIKE_MM


def strips_of_plan(outcome: CuttingOutcome) -> dict[tuple[str, ...], list[Placement]]:
    """The strips that a plan lays, in their order, by the instances that come off all of them.

    Args:
        outcome: the cutting plan.
    """
    laid: dict[tuple[str, ...], list[Placement]] = {}
    for plan in outcome.used:
        for each in plan.placements:
            if each.strip:
                laid.setdefault(outcome.laid(each).instances, []).append(each)
    return {names: sorted(each, key=lambda one: one.strip) for names, each in laid.items()}


def glued_up_of(
    units: Sequence[Unit], outcome: CuttingOutcome, rules: Rules
) -> tuple[GluedUp, ...]:
    """The parts that the plan glues up, all strips of which have their place.

    Args:
        units: of the piece.
        outcome: the cutting plan.
        rules: how much is left on a thickness.
    """
    parts = {each.name: each for each in in_strips(outcome.job.request).parts}
    thick = {each.name: each.thickness_mm for each in outcome.job.boards}
    laid = strips_of_plan(outcome)
    found = []
    for unit in units:
        placements = laid.get(unit.instances, [])
        places = strip_places(parts[placements[0].part]) if placements else ()
        if not places or len(places) != len(placements):
            continue
        over = min(thick[each.board] for each in placements) - unit.blank.thickness_mm
        found.append(_glued_up(unit, placements, places, thickness_left_mm(over, rules)))
    return tuple(found)


def _glued_up(
    unit: Unit, placements: Sequence[Placement], places: Sequence[StripPlace], over_mm: float
) -> GluedUp:
    long, _, thick = unit.blank.size
    first, last = placements[0], placements[-1]
    spare = long_of(first) - long
    below = over_mm / 2 if over_mm > FLAT_ENOUGH_MM else 0.0
    beyond = wide_of(last) - places[-1].before - (places[-1].high - places[-1].low)
    strips = tuple(
        Strip(
            unit=Unit(
                id=f"{unit.id}, strip {laid.strip}",
                members=(),
                blank=Blank(
                    length_mm=long, width_mm=place.high - place.low, thickness_mm=thick + over_mm
                ),
                left=Left(
                    low=(spare / 2, place.before, 0.0),
                    high=(spare / 2, wide_of(laid) - place.before - (place.high - place.low), 0.0),
                ),
                timber=unit.timber,
            ),
            across=place,
            laid=laid,
        )
        for laid, place in zip(placements, places, strict=True)
    )
    left = Left(low=(spare / 2, places[0].before, below), high=(spare / 2, beyond, over_mm - below))
    return GluedUp(unit=replace(unit, left=left), strips=strips)


def long_of(laid: Placement) -> float:
    """How long it lies on its board, with the grain [mm]."""
    return laid.place.width_mm if laid.is_turned else laid.place.length_mm


def wide_of(laid: Placement) -> float:
    """How wide it lies there, across the grain [mm]."""
    return laid.place.length_mm if laid.is_turned else laid.place.width_mm


def glued_from_strips(
    glued: GluedUp,
    as_laid: Mapping[str, Unit],
    cut_by: Mapping[str, str],
    shop: ShopRead,
    rules: Rules,
) -> tuple[Operation, ...]:
    """All from the strips as they come off their boards to the part that is glued up and scraped.

    Args:
        glued: the part and its strips.
        as_laid: each strip with the wood that its board leaves on it, by its id.
        cut_by: the key of the cut that gives it.
        shop: what edges are jointed with.
        rules: the shop's limits.
    """
    name = glued.unit.id
    ids = tuple(each.unit.id for each in glued.strips)
    jointed: list[Operation] = []
    for at, each in enumerate(glued.strips):
        edges = [
            edge
            for edge, has_mate in (
                (Face.FACE_EDGE, at > 0),
                (Face.BACK_EDGE, at < len(glued.strips) - 1),
            )
            if has_mate
        ]
        jointed += _strip(as_laid[each.unit.id], edges, cut_by, shop, rules)
    jointed = _planed_in_pairs(jointed)
    edges_true = tuple(
        After(each.key, Why.EDGES_FIRST) for each in jointed if each.kind is Kind.JOINT_EDGE
    )
    dry = _at_bench(f"{name}: strips laid out", Kind.LAY_OUT_STRIPS, ids, ids, edges_true)
    glue = _at_bench(
        f"{name}: glue up its strips", Kind.EDGE_GLUE, ids, (name,),
        (*edges_true, After(dry.key, Why.LAID_OUT_FIRST)),
    )  # fmt: skip
    scrape = _at_bench(
        f"{name}: scrape off the glue", Kind.SCRAPE, (name,), (name,),
        (After(glue.key, Why.GLUE_FIRST),),
    )  # fmt: skip
    return (*jointed, dry, glue, scrape)


def _planed_in_pairs(jointed: Sequence[Operation]) -> list[Operation]:
    """Two edges that meet are planed by hand in one vice: when all strips are flat."""
    flat = tuple(After(each.key, Why.FLAT_FIRST) for each in jointed
                 if each.kind in (Kind.JOINT_FACE, Kind.PLANE))  # fmt: skip
    return [
        replace(each, after=tuple(dict.fromkeys((*each.after, *flat))))
        if each.kind is Kind.JOINT_EDGE and each.rig is not None
        and each.rig.machine is Machine.BENCH
        else each
        for each in jointed
    ]  # fmt: skip


def _at_bench(
    key: str,
    kind: Kind,
    takes: tuple[str, ...],
    gives: tuple[str, ...],
    after: tuple[After, ...],
) -> Operation:
    return Operation(key=key, kind=kind, stage=Stage.STRIPS, takes=takes, gives=gives, after=after)


def _strip(
    unit: Unit, edges: Iterable[Face], cut_by: Mapping[str, str], shop: ShopRead, rules: Rules
) -> Iterator[Operation]:
    """One strip made flat, and its edges that are glued made straight and square.

    Of two edges that meet one is jointed with the face side to the fence, one with the back side:
    what the fence is out of square is then out in both, and the joint lies flat all the same.
    """
    left, size = unit.left, unit.blank.size
    wood = InHand(
        length_mm=size[0] + left.low[0] + left.high[0],
        width_mm=size[1] + left.low[1] + left.high[1],
        thickness_mm=size[2] + left.low[2] + left.high[2],
    )
    first = cut_by.get(unit.id)
    faces: tuple[After, ...] = () if first is None else (After(first, Why.SAME_WOOD),)

    def done(key: str, kind: Kind, rig: Rig, hold: Hold, setting: Setting) -> Operation:
        asked = Operation(
            key=f"{unit.id}: {key}", kind=kind, stage=Stage.STRIPS, takes=(unit.id,),
            gives=(unit.id,), rig=rig, hold=hold, setting=setting, after=faces,
        )  # fmt: skip
        return within_limits(asked, wood, shop, rules)

    if left.low[2] > 0.0:
        yield done(
            "joint a face", Kind.JOINT_FACE, rigs.JOINTED, Hold(down=Face.BACK_SIDE),
            Surface(face=Face.BACK_SIDE, takes_mm=left.low[2]),
        )  # fmt: skip
        faces = (*faces, After(f"{unit.id}: joint a face", Why.FLAT_FIRST))
        wood = replace(wood, thickness_mm=wood.thickness_mm - left.low[2])
    if left.high[2] > 0.0:
        yield done(
            "plane", Kind.PLANE, rigs.PLANED, Hold(down=Face.BACK_SIDE),
            Parallel(off=Face.BACK_SIDE, at_mm=size[2]),
        )  # fmt: skip
        faces = (*faces, After(f"{unit.id}: plane", Why.BEARS_ON))
        wood = replace(wood, thickness_mm=size[2])
    for edge in edges:
        takes = left.high[1] if edge.is_far else left.low[1]
        if takes <= 0.0:
            continue
        side = Face.BACK_SIDE if edge.is_far else Face.FACE_SIDE
        yield done(
            f"joint the {edge.value}", Kind.JOINT_EDGE, rigs.JOINTED,
            Hold(down=edge, against=side), Surface(face=edge, takes_mm=takes),
        )  # fmt: skip
        wood = replace(wood, width_mm=wood.width_mm - takes)
