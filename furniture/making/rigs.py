"""Which machine is made ready for a pass, with which cutter: of what the shop has on hand.

Common practice, no source: the machine's manual and the shop's own habits decide.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from furniture.making.bench.run_out import run_out_mm
from furniture.making.passes import Pass
from furniture.making.settings import (
    Bored,
    Cutter,
    CutterKind,
    Easing,
    Guide,
    Machine,
    MitreGroove,
    Rig,
    Trench,
)
from furniture.parts.faces import EDGES, ENDS, WIDE_FACES
from furniture.rules import Rules
from furniture.rules.tools import STACK_ERROR
from furniture.shop.tools.on_hand import (
    BitCut,
    ByHand,
    HeadCut,
    NoTool,
    chamfer_for,
    channel_cutters,
    channel_cutters_to,
    drill_for,
    long_bit_wanting,
    round_over_for,
    straight_bit_wanting,
)
from furniture.shop.tools.stack import Stack, nearest_stack, rabbet_passes
from furniture.shop.tools.values import Head, RouterBits, ShopRead

JOINTED = Rig(machine=Machine.JOINTER, cutter=Cutter(kind=CutterKind.KNIVES), guide=Guide.FENCE)
PLANED = Rig(machine=Machine.PLANER, cutter=Cutter(kind=CutterKind.KNIVES), guide=Guide.BED)
FILED = Rig(machine=Machine.BENCH, cutter=Cutter(kind=CutterKind.SAW_AND_FILE), guide=Guide.LINE)
BY_HAND = Rig(machine=Machine.BENCH, cutter=Cutter(kind=CutterKind.CHISEL), guide=Guide.LINE)
HAND_PLANED = Rig(
    machine=Machine.BENCH, cutter=Cutter(kind=CutterKind.HAND_PLANE), guide=Guide.LINE
)
SAWN_AND_CHOPPED = Rig(
    machine=Machine.BENCH, cutter=Cutter(kind=CutterKind.SAW_AND_CHISEL), guide=Guide.LINE
)
SAWN_AND_FILED = Rig(
    machine=Machine.BENCH, cutter=Cutter(kind=CutterKind.SAW_AND_FILE), guide=Guide.LINE
)
HAND_SHOT = Rig(machine=Machine.BENCH, cutter=Cutter(kind=CutterKind.SHOT), guide=Guide.LINE)
HAND_SAWN = Rig(machine=Machine.BENCH, cutter=Cutter(kind=CutterKind.HAND_SAW), guide=Guide.LINE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """How a pass is made with what is on hand: the rig, its passes [mm], and what is wanting.

    Where a round cutter cannot end as the cut does, `begun` is what it leaves: a chisel cuts the
    rest.
    """

    rig: Rig
    near_mm: tuple[float, ...] = ()
    wanting: NoTool | None = None
    begun: Trench | MitreGroove | None = None


def sawn(guide: Guide, tilt_deg: float = 0.0, turned_deg: float = 0.0) -> Rig:
    """The table saw with its blade, upright or tilted, along the fence or on the sled [deg]."""
    return Rig(
        machine=Machine.TABLE_SAW,
        cutter=Cutter(kind=CutterKind.BLADE),
        guide=guide,
        tilt_deg=tilt_deg,
        turned_deg=turned_deg,
    )


SQUARING = sawn(Guide.SLED)
RIPPING = sawn(Guide.FENCE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sawn:
    """What one dado head saws of a piece [mm]: its rabbets, and its widest dado, if it has one."""

    rabbets_mm: tuple[float, ...]
    dado_mm: float | None


NOTHING_SAWN = Sawn(rabbets_mm=(), dado_mm=None)
"""What a head saws where there is none."""


def made_with(made_by: Pass, shop: ShopRead, rules: Rules, sawn_too: Sawn) -> Made:
    """What makes a pass in a shop.

    Args:
        made_by: the pass.
        shop: what is on hand.
        rules: how near a cutter must come.
        sawn_too: all that one head saws, so that it is built once.
    """
    setting = made_by.setting
    if isinstance(setting, Trench):
        return _trench(setting, shop, rules, sawn_too)
    if isinstance(setting, Bored):
        return _bore(setting, shop, rules)
    if isinstance(setting, Easing):
        return _eased(setting, shop, rules)
    return Made(rig=BY_HAND)


def is_stopped(setting: Trench) -> bool:
    """Whether wood stays whole at an end of its run, where a saw would run out."""
    return setting.whole_low_mm > 0.0 or setting.whole_high_mm > 0.0


def _trench(setting: Trench, shop: ShopRead, rules: Rules, sawn_too: Sawn) -> Made:
    if is_stopped(setting):
        return _stopped(setting, shop, rules)
    can_saw = _can_saw(setting)
    guide = Guide.FENCE if setting.along == 0 else Guide.SLED
    if setting.near_mm == 0.0 and can_saw and shop.head is not None and _reaches(shop, setting):
        return _rabbet(setting, shop.head, guide, rules, sawn_too)
    ways = channel_cutters_to(shop, setting.width_mm, setting.depth_mm, rules)
    for way in ways:
        if isinstance(way, HeadCut) and can_saw:
            return Made(rig=_headed(guide, way.stack), near_mm=_several(way.near_mm))
        if isinstance(way, BitCut) and shop.bits is not None:
            rig = _routed(way.bit_mm, shop.bits, setting)
            return Made(rig=rig, near_mm=_beside(setting, way.near_mm, way.bit_mm))
    return _by_hand(shop, setting)


def _by_hand(shop: ShopRead, setting: Trench) -> Made:
    """A channel that no head can saw: what is wanting is a bit as wide, or one as long.

    By hand a plane runs through along the grain; what stops short, or lies across it, is chopped.
    """
    if shop.bits is not None and setting.depth_mm > shop.bits.deepest_mm:
        wanting = long_bit_wanting(shop.bits, setting.depth_mm)
    else:
        wanting = straight_bit_wanting(shop, setting.width_mm)
    if setting.along != 0 or is_stopped(setting):
        return Made(rig=BY_HAND, wanting=wanting)
    planed = ByHand.PLOUGH_PLANE if setting.near_mm else ByHand.RABBET_PLANE
    return Made(rig=HAND_PLANED, wanting=replace(wanting, by_hand=planed))


def _stopped(setting: Trench, shop: ShopRead, rules: Rules) -> Made:
    """Routed, the bit lowered and lifted; else sawn short of its stop by the head's run-out.

    The head comes in from the open end of the cut: wood is never lowered onto it, so what is
    stopped at both ends is not sawn. What a round cutter leaves is chopped square.
    """
    ways = channel_cutters_to(shop, setting.width_mm, setting.depth_mm, rules)
    routed = next((each for each in ways if isinstance(each, BitCut)), None)
    if routed is not None and shop.bits is not None:
        radius = routed.bit_mm / 2.0
        is_round = radius > setting.corner_mm + rules[STACK_ERROR]
        return Made(
            rig=_routed(routed.bit_mm, shop.bits, setting),
            near_mm=_beside(setting, routed.near_mm, routed.bit_mm),
            begun=replace(setting, corner_mm=radius) if is_round else None,
        )
    sawn_by = next((each for each in ways if isinstance(each, HeadCut)), None)
    is_open = setting.whole_low_mm == 0.0 or setting.whole_high_mm == 0.0
    if sawn_by is None or shop.head is None or not is_open or setting.face in ENDS:
        return _by_hand(shop, setting)
    beyond = run_out_mm(shop.head.diameter_mm / 2.0, setting.depth_mm)
    low, high = (
        each + beyond if each > 0.0 else 0.0
        for each in (setting.whole_low_mm, setting.whole_high_mm)
    )
    return Made(
        rig=_headed(Guide.FENCE if setting.along == 0 else Guide.SLED, sawn_by.stack),
        near_mm=_beside(setting, sawn_by.near_mm, sawn_by.stack.cuts_mm),
        begun=replace(
            setting, whole_low_mm=low, whole_high_mm=high, corner_mm=0.0, run_out_mm=beyond
        ),
    )


def _beside(setting: Trench, near_mm: tuple[float, ...], cutter_mm: float) -> tuple[float, ...]:
    """The passes beside one another; those of a rabbet are told by how much of the cutter shows."""
    shift = cutter_mm if setting.near_mm == 0.0 else 0.0
    return _several(tuple(each + shift for each in near_mm))


def _reaches(shop: ShopRead, setting: Trench) -> bool:
    """Whether the head saws so deep."""
    return shop.head is not None and setting.depth_mm <= shop.head.deepest_mm + _HAIR_MM


_HAIR_MM = 1e-6


def _can_saw(setting: Trench) -> bool:
    """Whether a saw's head can run through it, the wood lying on its face or its edge."""
    return not is_stopped(setting) and setting.face not in ENDS


def _several(near_mm: tuple[float, ...]) -> tuple[float, ...]:
    return near_mm if len(near_mm) > 1 else ()


def _headed(guide: Guide, stack: Stack) -> Rig:
    cutter = Cutter(kind=CutterKind.DADO_HEAD, size_mm=stack.cuts_mm, stack=stack)
    return Rig(machine=Machine.TABLE_SAW, cutter=cutter, guide=guide)


def _routed(bit_mm: float, bits: RouterBits, setting: Trench) -> Rig:
    """Along the grain at the router table's fence, or the router's edge guide rides along the edge.

    What lies further in, or runs across the grain, is routed along a straight edge.
    """
    is_near = setting.near_mm + bit_mm / 2.0 <= bits.reach_mm
    at_table = bits.has_table and setting.along == 0 and is_near
    furthest = setting.near_mm + setting.width_mm - bit_mm / 2.0
    is_guided = setting.along == 0 and furthest <= bits.edge_guide_mm
    return Rig(
        machine=Machine.ROUTER_TABLE if at_table else Machine.ROUTER,
        cutter=Cutter(kind=CutterKind.STRAIGHT_BIT, size_mm=bit_mm),
        guide=Guide.FENCE if at_table else Guide.EDGE_GUIDE if is_guided else Guide.LINE,
    )


def _rabbet(setting: Trench, head: Head, guide: Guide, rules: Rules, sawn_too: Sawn) -> Made:
    """By one head for all rabbets, that of the dados where there are any, in a false fence."""
    wanted = sawn_too.dado_mm or max(sawn_too.rabbets_mm)
    stack = nearest_stack(head, min(wanted, head.widest_cut_mm), rules)
    passes = rabbet_passes(sawn_too.rabbets_mm, stack.cuts_mm, rules)
    shows = next(each.shows_mm for each in passes if abs(each.width_mm - setting.width_mm) < 1e-9)
    return Made(rig=_headed(guide, stack), near_mm=_several(shows))


def _bore(setting: Bored, shop: ShopRead, rules: Rules) -> Made:
    if setting.to_mm is not None:  # a long hole is routed, in passes along its run
        return _long_hole(setting, shop, rules)
    found = drill_for(shop, setting.diameter_mm, rules)
    if isinstance(found, NoTool):
        wanted = Cutter(kind=CutterKind.DRILL, size_mm=setting.diameter_mm)
        rig = Rig(machine=Machine.BENCH, cutter=wanted, guide=Guide.LINE)
        is_smaller = min(shop.drills.diameters_mm, default=math.inf) < setting.diameter_mm
        is_filed = setting.depth_mm is None and is_smaller
        by_hand = ByHand.FILED_OUT if is_filed else None
        return Made(rig=rig, wanting=replace(found, by_hand=by_hand))
    drill = Cutter(kind=CutterKind.DRILL, size_mm=found.size_mm)
    if setting.face in WIDE_FACES:
        machine, guide = (
            (Machine.DRILL_PRESS, Guide.TABLE)
            if shop.drills.has_press
            else (Machine.BENCH, Guide.LINE)
        )
    else:
        machine, guide = (
            (Machine.DOWEL_JIG, Guide.JIG) if shop.drills.has_jig else (Machine.BENCH, Guide.LINE)
        )
    return Made(rig=Rig(machine=machine, cutter=drill, guide=guide))


def _long_hole(setting: Bored, shop: ShopRead, rules: Rules) -> Made:
    for way in channel_cutters(shop, setting.diameter_mm, rules):
        if isinstance(way, BitCut) and len(way.near_mm) == 1:
            cutter = Cutter(kind=CutterKind.STRAIGHT_BIT, size_mm=way.bit_mm)
            rides, at = setting.off[setting.beside], setting.at_mm[setting.beside]
            is_guided = shop.bits is not None and rides in EDGES and at <= shop.bits.edge_guide_mm
            guide = Guide.EDGE_GUIDE if is_guided else Guide.LINE
            return Made(rig=Rig(machine=Machine.ROUTER, cutter=cutter, guide=guide))
    is_through = setting.depth_mm is None
    wanting = straight_bit_wanting(shop, setting.diameter_mm, is_through=is_through)
    return Made(rig=by_hand_for(setting), wanting=wanting)


def by_hand_for(setting: Bored) -> Rig:
    """What makes a long hole by hand: through the wood a coping saw and a file, else a chisel.

    Args:
        setting: of the hole.
    """
    return FILED if setting.depth_mm is None else BY_HAND


def _eased(setting: Easing, shop: ShopRead, rules: Rules) -> Made:
    found = (
        round_over_for(shop, setting.size_mm, rules)
        if setting.is_round
        else chamfer_for(shop, setting.size_mm)
    )
    if isinstance(found, NoTool):
        return Made(rig=HAND_PLANED, wanting=found)
    kind = CutterKind.ROUND_OVER_BIT if setting.is_round else CutterKind.CHAMFER_BIT
    has_table = shop.bits is not None and shop.bits.has_table
    return Made(
        rig=Rig(
            machine=Machine.ROUTER_TABLE if has_table else Machine.ROUTER,
            cutter=Cutter(kind=kind, size_mm=found.size_mm if setting.is_round else None),
            guide=Guide.FENCE if has_table else Guide.BEARING,
        )
    )


def sawn_by_one_head(passes: Iterable[Pass], shop: ShopRead, rules: Rules) -> Sawn:
    """What one head saws of all passes of a piece.

    Args:
        passes: of all its cuts.
        shop: what is on hand.
        rules: how near a stack must come.
    """
    trenches = [
        each.setting
        for each in passes
        if isinstance(each.setting, Trench)
        and _can_saw(each.setting)
        and (shop.head is None or _reaches(shop, each.setting))
    ]
    dados = [
        each.width_mm
        for each in trenches
        if each.near_mm > 0.0
        and any(
            isinstance(way, HeadCut) and len(way.near_mm) == 1
            for way in channel_cutters(shop, each.width_mm, rules)
        )
    ]
    rabbets = {each.width_mm for each in trenches if each.near_mm == 0.0}
    return Sawn(rabbets_mm=tuple(sorted(rabbets)), dado_mm=max(dados, default=None))
