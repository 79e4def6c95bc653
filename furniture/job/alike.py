"""Cuts that a change moves alike in all that they join, and that are made: they stay there.

A dowel does not mind where along its joint it stands, nor a shelf at which height its dados are, as
long as both mates have them there. So a change that moves such cuts spoils no part that has them: a
mate that is made has them moved alike, and one that is still to be made follows.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from itertools import combinations, product

from furniture.job.old import Old
from furniture.job.values import InTheWay, Say, Stays, Verdict
from furniture.job.verdicts import verdicts_of
from furniture.job.voids import HAIR_MM, shared
from furniture.joints.joint import Fastener, Joining
from furniture.parts.blank import Blank
from furniture.parts.cuts import Cut
from furniture.parts.lines import bounds_of
from furniture.parts.part import Part, Placed
from furniture.parts.placement import Box, box_of
from furniture.parts.vectors import Vector, add, length, scaled, subtract
from furniture.parts.wood import wood_left
from furniture.pieces import Piece, placed_named
from furniture.rules.staying import LEAST_WOOD
from furniture.shop.cutting.values import Saw

_REACH_MM = 0.5
"""A cut is of a joint where it comes this near to the mate, or to a fastener."""


_LOST = (Say.MAKE_NEW, Say.RECUT)
"""What is said of a part whose own wood does not serve."""


@dataclass(frozen=True, slots=True)
class _Moved:
    """A cut that the change moves: how it would stay, and by how much that is off [mm].

    Of wood that is still to be cut it is drawn there, to follow what is made.
    """

    instance: str
    index: int
    cut: Cut
    off: Vector
    in_piece: Vector
    is_made: bool = True


@dataclass(frozen=True, slots=True)
class _Change:
    """The new design, the made cuts that it has elsewhere, and which are still to be made."""

    new: Piece
    moved: Mapping[tuple[str, int], _Moved]
    open: frozenset[tuple[str, int]]

    def twin(self, key: tuple[str, int], beside: _Moved) -> _Moved | None:
        """How a mate's cut keeps to one that stays; None where it cannot."""
        if key in self.moved:
            return self.moved[key]
        if key not in self.open:
            return None
        placed = placed_named(self.new, key[0])
        off = placed.placement.direction_to_part(beside.in_piece)
        cut = _shifted(placed.part.cuts[key[1]], placed.part.blank, off)
        return None if cut is None else _Moved(*key, cut, off, beside.in_piece, is_made=False)


@dataclass(slots=True)
class _Lot:
    """Cuts and parts that only stay together, all off by as much."""

    cuts: dict[tuple[str, int], _Moved]
    parts: set[str]
    joinings: set[int]
    is_sound: bool = True

    @property
    def made(self) -> Mapping[tuple[str, int], _Moved]:
        """The cuts that are there."""
        return {key: each for key, each in self.cuts.items() if each.is_made}


def verdicts_as_made(
    old: Old,
    new: Piece,
    saw: Saw | None = None,
    begun: Collection[tuple[str, int]] = (),
) -> tuple[Piece, tuple[Verdict, ...]]:
    """The verdicts, and the design with cuts where they are made and their mates have them so.

    A mate of which nothing is there yet is cut to what is made.

    That is proved by solids: nothing overlaps that did not, every stated contact is there, and the
    rules' wood is left.

    Args:
        old: what is there.
        new: the design as the script has it.
        saw: with the limits of what can be held at it.
        begun: cuts made in parts that are not there as a whole, by instance and index.

    Raises:
        SolidError: the solid kernel did not do what the model asked.
    """
    drawn = verdicts_of(old, new, saw)
    moved = {(each.instance, each.index): each for each in _moved(new, drawn)}
    still = _open(old, new, begun)
    piece, verdicts = new, drawn
    while moved:
        piece, lots = _as_made(_Change(new, moved, still))
        verdicts = verdicts_of(old, piece, saw) if lots else drawn
        lost = {each.instance for each in verdicts if each.say in _LOST}
        in_vain = [lot for lot in lots if {name for name, _ in lot.made} <= lost]
        if not in_vain:
            return piece, _with_stays(verdicts, lots, new)
        moved = {
            key: each for key, each in moved.items() if not any(key in lot.cuts for lot in in_vain)
        }
    return new, drawn


def _with_stays(
    verdicts: Sequence[Verdict], lots: Sequence[_Lot], new: Piece
) -> tuple[Verdict, ...]:
    stays = [_stays(each, lot, new) for lot in lots for each in lot.made.values()]
    return tuple(
        replace(each, stays=tuple(one for one in stays if one.instance == each.instance))
        if each.say is not Say.NOT_NEEDED
        else each
        for each in verdicts
    )


def _open(old: Old, new: Piece, begun: Collection[tuple[str, int]]) -> frozenset[tuple[str, int]]:
    """The cuts of parts of which nothing is there, without those that are made all the same."""
    there = {each.name for each in old.parts}
    return frozenset(
        (each.instance, index)
        for each in new.placed
        if each.instance not in there
        for index in range(len(each.part.cuts))
    ) - frozenset(begun)


def _as_made(change: _Change) -> tuple[Piece, list[_Lot]]:
    waiting = dict(change.moved)
    piece, lots = change.new, list[_Lot]()
    while waiting:
        first = next(iter(waiting.values()))
        lot = _lot_of(first, change)
        for key in (*lot.cuts, (first.instance, first.index)):
            waiting.pop(key, None)
        tried = _with(piece, lot) if lot.is_sound else None
        if tried is not None and _is_proved(piece, tried):
            piece = tried
            lots.append(lot)
    return piece, lots


def _moved(new: Piece, verdicts: Sequence[Verdict]) -> Iterator[_Moved]:
    """The cuts that their own wood has elsewhere, each with its twin where it is made."""
    for verdict in verdicts:
        if verdict.say not in _LOST:
            continue
        placed = placed_named(new, verdict.instance)
        for why in verdict.why:
            if not isinstance(why, InTheWay) or why.moved_to is None:
                continue
            yield from _staying(placed, why.moved_to, scaled(why.moved, -1.0))


def _staying(placed: Placed, index: int, off: Vector) -> Iterator[_Moved]:
    """The cut where it is made, as far as that is a way: what is deeper now is deeper there too."""
    part = placed.part
    axes = [axis for axis in range(3) if abs(off[axis]) > HAIR_MM]
    for count in range(len(axes), 0, -1):
        for kept in combinations(axes, count):
            x, y, z = (off[axis] if axis in kept else 0.0 for axis in range(3))
            twin = _shifted(part.cuts[index], part.blank, (x, y, z))
            if twin is not None:
                in_piece = placed.placement.direction_to_piece((x, y, z))
                yield _Moved(placed.instance, index, twin, (x, y, z), in_piece)
                return


def _shifted(cut: Cut, blank: Blank, by: Vector) -> Cut | None:
    """The same cut elsewhere on the part: the figures found for which its tools lie there."""
    target = add(_middle(cut, blank), by)
    steps = sorted({round(each, 9) for each in (*by, *(-one for one in by)) if each})
    names = [
        each.name for each in fields(cut) if isinstance(getattr(cut, each.name), float)
    ]  # fmt: skip
    found: list[Cut] = [cut]
    for _ in range(sum(abs(each) > HAIR_MM for each in by)):
        found = [
            replace(each, **{name: getattr(each, name) + step})
            for each, name, step in product(found, names, steps)
        ]
    for each in found:
        is_there = length(subtract(_middle(each, blank), target)) < HAIR_MM
        if is_there and not each.misfits(blank) and _size(each, blank) == _size(cut, blank):
            return each
    return None


def _inside(cut: Cut, blank: Blank) -> Box:
    """The box that a cut takes of its blank [mm]."""
    whole: Box = ((0.0, 0.0, 0.0), blank.size)
    boxes = [
        each for tool in cut.tools(blank) if (each := shared(bounds_of(tool), whole)) is not None
    ]
    lows, highs = zip(*boxes, strict=True) if boxes else (((0.0,) * 3,), ((0.0,) * 3,))
    low = tuple(min(each[axis] for each in lows) for axis in range(3))
    high = tuple(max(each[axis] for each in highs) for axis in range(3))
    return ((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _middle(cut: Cut, blank: Blank) -> Vector:
    low, high = _inside(cut, blank)
    return scaled(add(low, high), 0.5)


def _size(cut: Cut, blank: Blank) -> tuple[float, ...]:
    low, high = _inside(cut, blank)
    return tuple(round(b - a, 6) for a, b in zip(low, high, strict=True))


def _in_piece(placed: Placed, box: Box) -> Box:
    ends = [placed.placement.to_piece(each) for each in box]
    low = tuple(min(each[axis] for each in ends) for axis in range(3))
    high = tuple(max(each[axis] for each in ends) for axis in range(3))
    return ((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _grown(box: Box, by: float) -> Box:
    low, high = box
    return (add(low, (-by, -by, -by)), add(high, (by, by, by)))


def _holds(box: Box, at: Vector) -> bool:
    return all(low <= each <= high for low, each, high in zip(box[0], at, box[1], strict=True))


def _lot_of(first: _Moved, change: _Change) -> _Lot:
    """All that has to stay where this cut stays: its twins in mates, and what goes into it."""
    lot, waiting = _Lot({}, set(), set()), [first]
    while waiting and lot.is_sound:
        cut = waiting.pop()
        if (cut.instance, cut.index) in lot.cuts:
            continue
        lot.cuts[cut.instance, cut.index] = cut
        lot.is_sound = length(subtract(cut.in_piece, first.in_piece)) < HAIR_MM
        for number, joining in enumerate(change.new.joinings):
            if cut.instance not in (joining.into, joining.incoming):
                continue
            waiting += _beyond(cut, number, joining, lot, change)
    return lot


def _beyond(cut: _Moved, number: int, joining: Joining, lot: _Lot, change: _Change) -> list[_Moved]:
    """What else has to stay for a cut of a joint; the lot is unsound where something cannot."""
    new = change.new
    own = placed_named(new, cut.instance)
    mate = placed_named(
        new, joining.incoming if joining.into == cut.instance else joining.into
    )  # fmt: skip
    there = _grown(_in_piece(own, _inside(own.part.cuts[cut.index], own.part.blank)), _REACH_MM)
    if joining.fasteners:
        at = [each.at for each in joining.fasteners if _holds(there, each.at)]
        if not at:
            return []
        twins = [
            index
            for index, each in enumerate(mate.part.cuts)
            if any(_holds(_box(mate, each), place) for place in at)
        ]
        lot.joinings.add(number)
        return _kept(mate.instance, twins, cut, lot, change)
    if joining.into != cut.instance or not shared(there, box_of(mate.part.blank, mate.placement)):
        return []
    lot.joinings.add(number)
    if mate.instance in lot.parts:
        return []
    lot.parts.add(mate.instance)
    return list(_with_part(mate.instance, cut, lot, change))


def _kept(
    name: str, indices: Sequence[int], beside: _Moved, lot: _Lot, change: _Change
) -> list[_Moved]:
    """A mate's cuts that keep to one that stays; the lot is unsound where there is none."""
    found = [change.twin((name, each), beside) for each in indices]
    lot.is_sound &= bool(found) and all(each is not None for each in found)
    return [each for each in found if each is not None] if lot.is_sound else []


def _with_part(name: str, cut: _Moved, lot: _Lot, change: _Change) -> Iterator[_Moved]:
    """The other housings of a part that stays with one of them."""
    new = change.new
    goes = placed_named(new, name)
    box = box_of(goes.part.blank, goes.placement)
    for number, joining in enumerate(new.joinings):
        if joining.incoming != name:
            continue
        into = placed_named(new, joining.into)
        housings = [
            index
            for index, each in enumerate(into.part.cuts)
            if shared(_grown(_box(into, each), -2 * _REACH_MM), box)
        ]
        lot.joinings.add(number)
        yield from _kept(into.instance, housings, cut, lot, change)


def _box(placed: Placed, cut: Cut) -> Box:
    return _grown(_in_piece(placed, _inside(cut, placed.part.blank)), _REACH_MM)


def _with(piece: Piece, lot: _Lot) -> Piece | None:
    """The piece with a lot where it is made; None where parts that are one would then differ."""
    by = next(iter(lot.cuts.values())).in_piece
    by_part: dict[int, set[str]] = {}
    for each in piece.placed:
        by_part.setdefault(id(each.part), set()).add(each.instance)
    own = {name: [each for each in lot.cuts.values() if each.instance == name] for name, _ in
           lot.cuts}  # fmt: skip
    made: dict[tuple[object, ...], Part] = {}
    placed = []
    for each in piece.placed:
        part = each.part
        if each.instance in own:
            if not by_part[id(part)] <= own.keys():
                return None
            cuts = list(part.cuts)
            for one in own[each.instance]:
                cuts[one.index] = one.cut
            part = made.setdefault((id(part), *map(repr, cuts)), replace(part, cuts=tuple(cuts)))
        placement = each.placement
        if each.instance in lot.parts:
            placement = replace(placement, origin=add(placement.origin, by))
        placed.append(replace(each, part=part, placement=placement))
    if len({id(each.part) for each in placed}) != len(by_part):
        return None
    return _carried(replace(piece, placed=tuple(placed)), piece, lot, by)


def _carried(now: Piece, was: Piece, lot: _Lot, by: Vector) -> Piece:
    """What is stated of a lot, carried with it: joints, surfaces, heights, what lies on a part."""
    boxes = [
        _grown(box_of(each.part.blank, each.placement), HAIR_MM)
        for each in was.placed
        if each.instance in lot.parts
    ]

    def point(at: Vector) -> Vector:
        return add(at, by) if any(_holds(box, at) for box in boxes) else at

    joinings = list(was.joinings)
    places = [_box(placed_named(was, name), placed_named(was, name).part.cuts[at])
              for name, at in lot.cuts]  # fmt: skip
    for number in lot.joinings:
        each = joinings[number]
        joinings[number] = replace(
            each,
            fasteners=tuple(_fastener(one, places, by) for one in each.fasteners),
            faces=tuple(
                replace(face, centre=add(face.centre, by)) if each.incoming in lot.parts else face
                for face in each.faces
            ),
        )
    return replace(
        now,
        joinings=tuple(joinings),
        surfaces=tuple(
            replace(
                each,
                low=(each.low[0] + by[0], each.low[1] + by[1]),
                high=(each.high[0] + by[0], each.high[1] + by[1]),
                top_mm=each.top_mm + by[2],
            )
            if each.instance in lot.parts
            else each
            for each in was.surfaces
        ),
        references=tuple(
            replace(each, start=point(each.start), end=point(each.end)) for each in was.references
        ),
        fixed=tuple(
            replace(each, centre_mm=add(each.centre_mm, by)) if each.on in lot.parts else each
            for each in was.fixed
        ),
    )


def _fastener(each: Fastener, places: Sequence[Box], by: Vector) -> Fastener:
    return replace(each, at=add(each.at, by)) if any(_holds(b, each.at) for b in places) else each


def _is_proved(was: Piece, now: Piece) -> bool:
    """Whether it goes together no worse, by solids, and leaves the wood that the rules ask for."""
    from furniture.solids.proof import clashing_joints, interferences, untrue_contacts, wasted_cuts

    if any(
        each.wood_mm <= now.rules[LEAST_WOOD]
        for placed in now.placed
        for each in wood_left(placed.part.blank, placed.part.cuts)
    ):
        return False
    proofs = (interferences, untrue_contacts, clashing_joints, wasted_cuts)
    return all(len(proof(now)) <= len(proof(was)) for proof in proofs)


def _stays(moved: _Moved, lot: _Lot, new: Piece) -> Stays:
    follow = {name for (name, _), each in lot.cuts.items() if not each.is_made}
    mates = ({name for name, _ in lot.cuts} | lot.parts) - {moved.instance} - follow
    return Stays(
        instance=moved.instance,
        index=moved.index,
        off_mm=moved.off,
        mates=tuple(each.instance for each in new.placed if each.instance in mates),
        follow=tuple(each.instance for each in new.placed if each.instance in follow),
    )
