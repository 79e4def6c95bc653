"""What to change so that a piece stands, and by how much."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from furniture.checks.advice import Change, Remedy, together
from furniture.checks.ballast import Room
from furniture.checks.base_growth import Growth, grown_at_most, grown_parts, reaching, wider_base
from furniture.checks.bodies import Body, Load
from furniture.checks.finding import Sense, Show
from furniture.checks.ground import Demand, Ground, burdens_at, reserve_kgmm
from furniture.checks.support import Edge, Point
from furniture.rules.checking import MOST_SIDES
from furniture.rules.design import LEAST_LOAD, MOST_BALLAST
from furniture.units.gravity import GRAVITY_M_S2

_BALLAST = ("ballast", "ballast.from_front")


def ballast_kg(
    piece: Body,
    loads: Sequence[Load],
    edges: Sequence[Edge],
    demand: Demand,
    at_mm: tuple[float, float, float],
) -> tuple[float, float] | None:
    """From which to which mass [kg] at a place every edge holds; None where no mass there will do.

    Args:
        piece: the empty piece
        loads: the loads that may stand on it; none for the empty case
        edges: all edges of the support polygon
        demand: what is asked of each edge
        at_mm: where the ballast's centre would lie (x, y, z) [mm]

    **Source:** statics; each load counts only where it makes things worse.
    """
    needs, bears = [0.0], math.inf
    place = Body(mass_kg=1.0, centre_mm=at_mm)
    for edge in edges:
        missing = _missing(piece, loads, edge, demand)
        helps = demand.surplus_mm(place, edge)
        if missing > 1e-9:
            if helps <= 0.0:
                return None
            needs.append(missing / helps)
        elif helps < 0.0:  # an edge that holds now, and would not with too much of it
            bears = min(bears, missing / helps)
    return (max(needs), bears) if max(needs) <= bears else None


def bearable_share(
    piece: Body, loads: Sequence[Load], edges: Sequence[Edge], demand: Demand
) -> float | None:
    """The share of every stated load that the piece bears, 0 to 1; None if empty fails already.

    Args:
        piece: the empty piece
        loads: the stated loads
        edges: all edges of the support polygon
        demand: what is asked of each edge

    **Source:** statics, the reserve is linear in the loads.
    """
    share = 1.0
    for edge in edges:
        own = piece.mass_kg * demand.surplus_mm(piece, edge) - demand.moment_nmm / GRAVITY_M_S2
        if own < 0.0:
            return None
        burden = -reserve_kgmm((0.0, 0.0), burdens_at(loads, edge, demand))
        if burden > own:
            share = min(share, own / burden)
    return share


def ways_to_stand(
    ground: Ground, loads: Sequence[Load], demand: Demand, show: Show
) -> tuple[tuple[Remedy, ...], str]:
    """The changes that make the piece hold over every edge, and what else would do, in words.

    Each change is tested against what the design allows: the base grows by no more than a share of
    itself, ballast fits into the box and weighs no more than a multiple of the piece. Where none
    alone will do, the base's growth and ballast are tried together.

    Args:
        ground: the empty piece, its edges and its box
        loads: the loads of the case; none for the empty case
        demand: what is asked of every edge
        show: puts amounts into the piece's unit

    **Source:** statics, as `base_growth_mm`, `ballast_kg` and `bearable_share`.
    """
    wider = wider_base(ground, loads, demand, show)
    heavier = _heavier(ground, (ground.piece,), loads, demand, show)
    grown = grown_parts(wider)
    is_whole = len(grown) == len(wider) > 0
    found = [*([reaching(grown)] if is_whole and reaching(grown).is_allowed else []), *heavier]
    if not found and len(wider) <= ground.rules[MOST_SIDES]:
        found += _both(ground, loads, demand, wider, show)
    share = bearable_share(ground.piece, loads, ground.edges, demand) if loads else None
    least_load = ground.rules[LEAST_LOAD]
    if share is not None and least_load <= share < 1.0:
        percent = math.floor(share * 100.0)
        found.append(
            Remedy(
                change=Change.LOAD, words=f"stand at most {percent} % of the stated loads on it",
                amount=float(percent), unit="%", enough=share * 100.0, sense=Sense.AT_MOST,
                least=least_load * 100.0,
            )
        )  # fmt: skip
    if ground.fixing_n is None:
        return tuple(found), "" if found else "make it wider at its foot, or heavier low down"
    bears = show.force(math.ceil(ground.fixing_n))
    return tuple(found), f"fix it to the wall at its top, with a fixing that bears {bears}"


def strap_n(ground: Ground, loads: Sequence[Load], demand: Demand) -> float:
    """What a fixing to a wall behind it holds at the top [N] so that no edge but the back tips.

    Args:
        ground: the empty piece, its edges and its top
        loads: the loads of the case
        demand: what is asked of every edge

    **Source:** statics, the missing moment over the height of the top; over its back the wall
    itself holds it.
    """
    held = [edge for edge in ground.edges if edge.sides != ("back",)]
    missing = max(_missing(ground.piece, loads, edge, demand) for edge in held)
    return max(0.0, missing) * GRAVITY_M_S2 / ground.top_mm


def _missing(piece: Body, loads: Sequence[Load], edge: Edge, demand: Demand) -> float:
    """What an edge lacks [kg mm]; 0 or less where it holds."""
    own = (piece.mass_kg, demand.surplus_mm(piece, edge))
    reserve = reserve_kgmm(own, burdens_at(loads, edge, demand))
    return demand.moment_nmm / GRAVITY_M_S2 - reserve


def _heavier(
    ground: Ground, bodies: Sequence[Body], loads: Sequence[Load], demand: Demand, show: Show
) -> tuple[Remedy, ...]:
    """The least ballast that its box can hold, at the best of some places in it.

    It serves each of `bodies`, and is no more, once rounded, than every edge holds with.
    """
    if ground.room is None:
        return ()
    most_kg = ground.rules[MOST_BALLAST] * ground.piece.mass_kg
    found: list[tuple[float, Point, Remedy]] = []
    for x, y in ground.room.places():
        from_front = show.down(y - ground.front_mm)
        at = (x, ground.front_mm + from_front)
        centre = ground.room.centre(at)
        ranges = [ballast_kg(body, loads, ground.edges, demand, centre) for body in bodies]
        known = [each for each in ranges if each is not None]
        needed = max((least for least, _ in known), default=0.0)
        if len(known) < len(ranges) or needed <= 0.0:
            continue
        most = min(most_kg, ground.room.most_kg(at), *(bears for _, bears in known))
        amount = show.mass_up(needed)
        stuff = ground.room.stuff_for(amount, at)
        if stuff is None or amount > most:
            continue
        where = f"with its middle {show(from_front)} from the front of the base"
        words = f"put {show.mass(amount)} of {stuff} in the box, {where}"
        bottom = _bottom_to_do(ground.room)
        is_built = ground.drawn_out is not None
        found.append(
            (
                needed,
                at,
                Remedy(
                    change=Change.BALLAST, words=f"{words}{bottom.words}",
                    amount=amount, unit="kg", enough=needed, most=most,
                    parameters=(*_BALLAST, *bottom.parameters) if is_built else (),
                ),
            )
        )  # fmt: skip
    return (min(found, key=lambda each: each[0])[2],) if found else ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bottom:
    """What is to be done to a bottom, in words, and the builder's parameters that do it."""

    words: str = ""
    parameters: tuple[str, ...] = ()


def _bottom_to_do(room: Room) -> _Bottom:
    """What the box still wants before ballast can lie in it."""
    if room.bears:
        return _Bottom()
    if not room.is_open_below:
        return _Bottom(
            words=", with the bottom pinned or glued first, as nothing holds it up",
            parameters=("bottom_fixing",),
        )
    return _Bottom(
        words=", on a bottom let into its rails and pinned or glued there",
        parameters=("bottom", "bottom_fixing"),
    )


def _both(
    ground: Ground, loads: Sequence[Load], demand: Demand, wider: Sequence[Growth], show: Show
) -> list[Remedy]:
    """The base grown as far as it may, and ballast for what is still missing."""
    parts, edges, centre = [], list(ground.edges), list(ground.piece.centre_mm)
    grown: dict[str, float] = {}
    for each in wider:
        if not each.words:
            continue
        most = grown_at_most(ground, each, show)
        if most.amount_mm <= 0.0:
            return []
        grown.update(dict.fromkeys(each.sides, most.amount_mm))
        parts.append(most.remedy)
    if not parts:
        return []
    share = ground.base_kg / (2.0 * ground.piece.mass_kg)
    for index, edge in enumerate(ground.edges):
        by = grown.get(edge.name, 0.0)
        edges[index] = edge.moved(by)
        for axis in (0, 1):
            centre[axis] += edge.outward[axis] * by * share
    drawn_out = replace(ground.piece, centre_mm=(centre[0], centre[1], centre[2]))
    front = ground.front_mm - grown.get("front", 0.0)
    after = replace(ground, edges=tuple(edges), front_mm=front)
    ballast = _heavier(after, (drawn_out, ground.piece), loads, demand, show)
    return [together(reaching(tuple(parts)), each) for each in ballast]
