"""What to change so that a piece stands, and by how much."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from furniture.checks.advice import Change, Remedy, together
from furniture.checks.ballast import Room
from furniture.checks.bodies import GRAVITY_M_S2, Body, Load
from furniture.checks.finding import Sense, Show
from furniture.checks.side_by_side import choices
from furniture.checks.support import Edge, Point

MOST_BALLAST = 1.5
"""Ballast as a share of the piece's mass that is still offered [-]. Own rule."""
MOST_GROWTH_SHARE = 0.25
"""How far a base may grow at one edge, as a share of its size there [-]. Own rule."""
MOST_SIDES = 2
"""Sides at which a base is drawn out before that is another piece [-]. Own rule."""
LEAST_SHARE = 0.25
"""The least share of the stated loads that is still worth stating [-]. Own rule."""
WALL_RESERVE = 4.0
"""What each fixing should bear over the pull that is reckoned [-]. Own rule: walls vary."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnOut:
    """A parameter of the builder that draws the base out at some sides.

    `now_mm` is its figure; it grows by `times` what each of the sides does.
    """

    parameter: str
    now_mm: float
    sides: tuple[str, ...]
    times: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """An empty piece on its edges: its top, the front of its base, the box that ballast lies in.

    `base_kg` is the mass of the base that is drawn out with an edge, `drawn_out` the parameters
    that do it; None where a maker places the parts and may draw out any side.
    """

    piece: Body
    edges: tuple[Edge, ...]
    top_mm: float
    front_mm: float
    room: Room | None = None
    base_kg: float = 0.0
    drawn_out: tuple[DrawnOut, ...] | None = None

    @property
    def is_squat(self) -> bool:
        """Whether it is no higher than its base is across, so that nobody fixes it to a wall."""
        return self.top_mm <= min(_size_across(self, edge) for edge in self.edges)


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """What is asked about one edge, as a tilt of the whole or a push on it.

    A body at height z needs its centre `tilt x z + reach` inside the edge; beside that the whole
    must resist `moment_nmm`. A tilt limit has only a slope; 13 % of the weight at a height y has
    only a reach, 0.13 y; a push of so many newtons has only a moment.
    """

    slope: float = 0.0
    reach_mm: float = 0.0
    moment_nmm: float = 0.0

    def surplus_mm(self, body: Body, edge: Edge) -> float:
        """How far the body's centre is further inside the edge than it needs [mm]."""
        needed = self.slope * body.centre_mm[2] + self.reach_mm
        return edge.inside_mm(body.centre_mm[:2]) - needed


def base_growth_mm(
    piece: Body, loads: Sequence[Load], edge: Edge, demand: Demand, base_kg: float = 0.0
) -> float:
    """How far the edge must move outward [mm], the rest staying where it is; 0 if it stands.

    A base that is drawn out with its edge takes its own middle along by half as much.

    Args:
        piece: the empty piece
        loads: the loads that may stand on it; none for the empty case
        edge: the edge over which it would tip
        demand: what is asked
        base_kg: the mass of the base that is drawn out [kg]; what it gains in mass is not counted

    **Source:** statics; the reserve grows with the edge in straight pieces, solved by Newton.
    """
    share = 1.0 - base_kg / (2.0 * piece.mass_kg)
    own = (piece.mass_kg, demand.surplus_mm(piece, edge))
    others = _others(loads, edge, demand)
    wanted = demand.moment_nmm / GRAVITY_M_S2
    growth = 0.0
    for _ in range(sum(len(group) for group in others) + 2):
        grown = (own[0], own[1] - (1.0 - share) * growth)
        missing = wanted - _reserve(grown, others, growth)
        if missing <= 1e-9:
            break
        working = own[0] * share + math.fsum(_worst(group, growth)[0] for group in others)
        growth += missing / working
    return growth


def ballast_kg(
    piece: Body,
    loads: Sequence[Load],
    edges: Sequence[Edge],
    demand: Demand,
    at_mm: tuple[float, float, float],
) -> float | None:
    """The least mass [kg] at a place that makes every edge hold; None where no mass there can.

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
        own = (piece.mass_kg, demand.surplus_mm(piece, edge))
        reserve = _reserve(own, _others(loads, edge, demand), 0.0)
        missing = demand.moment_nmm / GRAVITY_M_S2 - reserve
        helps = demand.surplus_mm(place, edge)
        if missing > 1e-9:
            if helps <= 0.0:
                return None
            needs.append(missing / helps)
        elif helps < 0.0:  # an edge that holds now, and would not with too much of it
            bears = min(bears, missing / helps)
    return max(needs) if max(needs) <= bears else None


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
        burden = -_reserve((0.0, 0.0), _others(loads, edge, demand), 0.0)
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
    wider = _wider(ground, loads, demand, show)
    heavier = _heavier(ground, loads, demand, show)
    grown = _grown_parts(wider)
    is_whole = len(grown) == len(wider) > 0
    found = [*([_reaching(grown)] if is_whole and _reaching(grown).is_allowed else []), *heavier]
    if not found and len(wider) <= MOST_SIDES:
        found += _both(ground, loads, demand, wider, show)
    share = bearable_share(ground.piece, loads, ground.edges, demand) if loads else None
    if share is not None and LEAST_SHARE <= share < 1.0:
        percent = math.floor(share * 100.0)
        found.append(
            Remedy(
                change=Change.LOAD, words=f"stand at most {percent} % of the stated loads on it",
                amount=float(percent), unit="%", enough=share * 100.0, sense=Sense.AT_MOST,
                least=LEAST_SHARE * 100.0,
            )
        )  # fmt: skip
    if ground.is_squat:
        return tuple(found), "" if found else "make it wider at its foot, or heavier low down"
    strap = strap_n(ground, loads, demand)
    return tuple(found), (
        f"fix it to the wall at its top, with a fixing that bears {show.force(math.ceil(strap))}"
    )


def strap_n(ground: Ground, loads: Sequence[Load], demand: Demand) -> float:
    """What a fixing at the top must bear [N] so that the worst edge holds, with a reserve.

    Args:
        ground: the empty piece, its edges and its top
        loads: the loads of the case
        demand: what is asked of every edge

    **Source:** statics, the missing moment over the height of the top; reserve: own rule.
    """
    missing = max(_missing(ground.piece, loads, edge, demand) for edge in ground.edges)
    return max(0.0, missing) * GRAVITY_M_S2 / ground.top_mm * WALL_RESERVE


def _missing(piece: Body, loads: Sequence[Load], edge: Edge, demand: Demand) -> float:
    """What an edge lacks [kg mm]; 0 or less where it holds."""
    own = (piece.mass_kg, demand.surplus_mm(piece, edge))
    reserve = _reserve(own, _others(loads, edge, demand), 0.0)
    return demand.moment_nmm / GRAVITY_M_S2 - reserve


def _size_across(ground: Ground, edge: Edge) -> float:
    """The base's own size [mm] at right angles to an edge."""
    return max(edge.inside_mm(other.start_mm) for other in ground.edges)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Growth:
    """How far the base must move out at some sides [mm], and at most may, and by which parameter.

    Without `words` nothing that the maker can change moves it.
    """

    sides: tuple[str, ...]
    needed_mm: float
    most_mm: float
    amount_mm: float
    words: str

    @property
    def remedy(self) -> Remedy:
        """The change that moves it."""
        return Remedy(
            change=Change.BASE, words=self.words, amount=self.amount_mm, unit="mm",
            enough=self.needed_mm, most=self.most_mm,
        )  # fmt: skip


def _wider(
    ground: Ground, loads: Sequence[Load], demand: Demand, show: Show
) -> tuple[_Growth, ...]:
    """How much further the base must reach at each edge that lacks something; none where none."""
    by_side: dict[str, tuple[float, float]] = {}
    for edge in ground.edges:
        growth = base_growth_mm(ground.piece, loads, edge, demand, ground.base_kg)
        if growth > 0.0:
            most = MOST_GROWTH_SHARE * _size_across(ground, edge)
            known = by_side.get(edge.name, (0.0, most))
            by_side[edge.name] = (max(growth, known[0]), min(most, known[1]))
    if ground.drawn_out is None:
        return tuple(
            _growth_of_side(name, growth, most, show) for name, (growth, most) in by_side.items()
        )
    found = []
    for drawn in ground.drawn_out:
        own = [by_side.pop(side) for side in drawn.sides if side in by_side]
        if own:
            needed, most = max(growth for growth, _ in own), min(each for _, each in own)
            found.append(_growth_of_parameter(drawn, needed, most, show))
    return (
        *found,
        *(
            _Growth(sides=(name,), needed_mm=growth, most_mm=0.0, amount_mm=0.0, words="")
            for name, (growth, _) in by_side.items()
        ),
    )


def _growth_of_side(side: str, needed_mm: float, most_mm: float, show: Show) -> _Growth:
    amount = show.up(needed_mm)
    words = f"{show(amount)} {_FURTHER.get(side, side)}"
    return _Growth(
        sides=(side,), needed_mm=needed_mm, most_mm=most_mm, amount_mm=amount, words=words
    )


def _growth_of_parameter(
    drawn: DrawnOut, needed_mm: float, most_mm: float, show: Show, *, is_most: bool = False
) -> _Growth:
    """The parameter's new figure, rounded to a mark of a rule on the side that is enough."""
    step = show.up(1e-3)
    wanted = (drawn.now_mm + drawn.times * needed_mm) / step
    total = (math.floor(wanted + 1e-6) if is_most else math.ceil(wanted - 1e-6)) * step
    amount = (total - drawn.now_mm) / drawn.times
    return _Growth(
        sides=drawn.sides, needed_mm=needed_mm, most_mm=most_mm, amount_mm=amount,
        words=f"make {drawn.parameter} {show(total)}",
    )  # fmt: skip


def _grown_parts(wider: Sequence[_Growth]) -> tuple[Remedy, ...]:
    return tuple(each.remedy for each in wider if each.words)


def _reaching(parts: tuple[Remedy, ...]) -> Remedy:
    words = " and ".join(each.words for each in parts)
    if not words.startswith("make "):
        words = f"let the base reach {', '.join(each.words for each in parts)}"
    first = parts[0]
    return Remedy(
        change=Change.BASE, words=words, amount=first.amount, unit="mm", enough=first.enough,
        most=first.most, parts=parts,
    )  # fmt: skip


_FURTHER = {
    "front": "further forward",
    "back": "further back",
    "left": "further left",
    "right": "further right",
}


def _heavier(
    ground: Ground, loads: Sequence[Load], demand: Demand, show: Show
) -> tuple[Remedy, ...]:
    """The least ballast that its box can hold, at the best of some places in it."""
    if ground.room is None:
        return ()
    found: list[tuple[float, Point, Remedy]] = []
    for x, y in ground.room.places():
        from_front = show.down(y - ground.front_mm)
        at = (x, ground.front_mm + from_front)
        needed = ballast_kg(ground.piece, loads, ground.edges, demand, ground.room.centre(at))
        if needed is None or needed <= 0.0:
            continue
        amount = show.mass_up(needed)
        stuff = ground.room.stuff_for(amount, at)
        if stuff is None or amount > MOST_BALLAST * ground.piece.mass_kg:
            continue
        where = f"with its middle {show(from_front)} from the front of the base"
        words = f"put {show.mass(amount)} of {stuff} in the box (ballast), {where} (from_front)"
        if ground.drawn_out is None:
            words = f"put {show.mass(amount)} of {stuff} in the box, {where}"
        found.append(
            (
                needed,
                at,
                Remedy(
                    change=Change.BALLAST, words=f"{words}{_bottom_words(ground)}",
                    amount=amount, unit="kg", enough=needed,
                    most=min(MOST_BALLAST * ground.piece.mass_kg, ground.room.most_kg(at)),
                ),
            )
        )  # fmt: skip
    return (min(found, key=lambda each: each[0])[2],) if found else ()


def _bottom_words(ground: Ground) -> str:
    """What the box still wants before ballast can lie in it."""
    if ground.room is None or not ground.room.is_open_below:
        return ""
    named = "" if ground.drawn_out is None else " (bottom)"
    return f", on a bottom let into its rails{named}"


def _both(
    ground: Ground, loads: Sequence[Load], demand: Demand, wider: Sequence[_Growth], show: Show
) -> list[Remedy]:
    """The base grown as far as it may, and ballast for what is still missing."""
    parts, edges, centre = [], list(ground.edges), list(ground.piece.centre_mm)
    grown: dict[str, float] = {}
    for each in wider:
        if not each.words:
            continue
        most = _at_most(ground, each, show)
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
    found: list[Remedy] = []
    drawn_out = replace(ground.piece, centre_mm=(centre[0], centre[1], centre[2]))
    front = ground.front_mm - grown.get("front", 0.0)
    for body in (drawn_out, ground.piece):
        after = replace(ground, piece=body, edges=tuple(edges), front_mm=front)
        at_most = _heavier(after, loads, demand, show)
        if not at_most:
            return []
        found.append(at_most[0])
    heaviest = max(found, key=lambda each: each.amount)
    return [together(_reaching(tuple(parts)), heaviest)]


def _at_most(ground: Ground, growth: _Growth, show: Show) -> _Growth:
    """The same side moved out as far as it needs or may, whichever is less."""
    if growth.amount_mm <= growth.most_mm:
        return replace(growth, needed_mm=growth.amount_mm)
    if ground.drawn_out is None:
        amount = show.down(growth.most_mm)
        words = f"{show(amount)} {_FURTHER[growth.sides[0]]}"
        return replace(growth, amount_mm=amount, needed_mm=amount, words=words)
    drawn = next(each for each in ground.drawn_out if each.sides == growth.sides)
    most = _growth_of_parameter(drawn, growth.most_mm, growth.most_mm, show, is_most=True)
    return replace(most, needed_mm=most.amount_mm)


_Options = list[list[tuple[float, float]]]
"""For every choice of loads its mass [kg] and its mass times arm [kg mm]."""


def _others(loads: Sequence[Load], edge: Edge, demand: Demand) -> _Options:
    return [
        [
            (
                math.fsum(body.mass_kg for body in each.bodies),
                math.fsum(body.mass_kg * demand.surplus_mm(body, edge) for body in each.bodies),
            )
            for each in group
        ]
        for group in choices(loads, edge)
    ]


def _worst(group: list[tuple[float, float]], growth: float) -> tuple[float, float]:
    """Of a choice the one that counts for least once the edge has moved; nothing if none hurts."""
    mass, moment = min(group, key=lambda each: each[1] + each[0] * growth)
    return (mass, moment) if moment + mass * growth < 0.0 else (0.0, 0.0)


def _reserve(own: tuple[float, float], others: _Options, growth: float) -> float:
    worse = (_worst(group, growth) for group in others)
    return own[0] * (own[1] + growth) + math.fsum(moment + mass * growth for mass, moment in worse)
