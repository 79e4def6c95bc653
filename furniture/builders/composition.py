"""A maker's own piece, without a builder: parts, where they stand, what is cut and how they join.

The same values that the builders make, by the same names, with every length written as text.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import MISSING, dataclass, fields, replace
from inspect import isabstract
from typing import ClassVar

from furniture.builders.all_corners import Keys, Splines
from furniture.builders.anchors import Screwed, anchors_in_wall, without
from furniture.builders.common import Names, read_rough
from furniture.builders.corner_parts import Key, Spline, corner_parts
from furniture.builders.edges import EdgeProfile, read_profiles, with_profiles
from furniture.builders.fixings import Hardware, read_hardware
from furniture.builders.hung import Hung
from furniture.builders.loads import Load, read_loads, sizes_of
from furniture.builders.notes import read_notes
from furniture.builders.opening_cuts import opening_at
from furniture.builders.own_parts import PlacedPart, read_part
from furniture.builders.prefinish import Prefinish, read_prefinish
from furniture.builders.read_hung import read_hung
from furniture.builders.rules import DesignReader, read_name, reader_of
from furniture.joints import Fit, Joint, read_fit
from furniture.parts.blank import Blank
from furniture.parts.cuts import Hole
from furniture.parts.part import Part, Placed, kin_written
from furniture.parts.placement import Box, box_of
from furniture.parts.placing import Wanted, place, stated_distances
from furniture.parts.turning import Way
from furniture.pieces import (
    Bought,
    Intent,
    Note,
    OpeningFor,
    Piece,
    Reference,
    Stance,
    Surface,
    compose,
)
from furniture.pieces.naming import own_name_problem
from furniture.rules import ShopRules
from furniture.timber.stock import Timber, read_stock
from furniture.units import (
    NOT_WRITTEN,
    Given,
    Shown,
    as_given,
    counted,
    millimetres,
    nearest_word,
    parameters,
    said,
    word_remedy,
)
from furniture.units.written import read_value


@dataclass(frozen=True, slots=True, kw_only=True)
class JointWritten:
    """A joint as a maker writes it: its kind, the two parts and its figures by name."""

    kind: type[Joint]
    into: str
    incoming: str
    given: Mapping[str, object]
    unnamed: ClassVar[tuple[str, ...]] = ("given",)
    """Its figures are called by their own names."""

    @property
    def called(self) -> str:
        """What messages call it: its kind and what it joins."""
        return f"{self.kind.kind} of {self.incoming} in {self.into}"


def join(kind: type[Joint], incoming: str, into: str, **given: object) -> JointWritten:
    """A joint of one part into another, such as `join(GrooveJoint, "shelf", into="back")`.

    Args:
        kind: the joint's class.
        incoming: the part that goes in.
        into: the part that it goes into.
        given: the joint's own figures, named without their units.
    """
    return JointWritten(kind=kind, into=into, incoming=incoming, given=given)


def _lone_part(reader: DesignReader) -> str:
    """A part that stands by itself, as a script has it."""
    size = (
        'length="16 in", width="6 in"'
        if reader.shown.is_inch
        else 'length="400 mm", width="150 mm"'
    )
    return f'PlacedPart(name="back", stock={reader.example("Stock")}, {size})'


@parameters
class Composition:
    """A piece of a maker's own, from parts, placements and joints.

    Args:
        name: of the piece.
        parts: its parts.
        joints: what holds them, in the order they are cut.
        corner_parts: splines and keys across mitred corners; `Splines` or `Keys` for all.
        hung: what turns on hinges.
        profiles: edge profiles.
        loads: what stands on its level parts.
        stance: whether it stands on the floor or hangs on a wall.
        notes: what the sheets say in words; a `Note` is said on the sheets of some parts too.
        hardware: what is bought besides the screws and pegs that stand in holes.
        prefinish: a film finish put on the parts before they go together (default: none).
        rough_length: extra length left on each rough part (default: 15 mm, or 5/8 in for a piece in
            inches).
        rough_width: extra width left on each rough part (default: 4 mm or 3/16 in).
        shown: the unit that everything is shown in.
    """

    name: str = "own piece"
    parts: Sequence[PlacedPart] = ()
    joints: Sequence[JointWritten] = ()
    corner_parts: Splines | Keys | Sequence[Spline | Key | Splines | Keys] = ()
    hung: Sequence[Hung] = ()
    profiles: Sequence[EdgeProfile] = ()
    loads: Sequence[Load] = ()
    stance: Stance = Stance.FLOOR
    notes: Sequence[str | Note] = ()
    hardware: Sequence[Hardware] = ()
    prefinish: Prefinish | None = None
    rough_length: Given | None = None
    rough_width: Given | None = None
    shown: Shown = millimetres()

    def build(
        self, rules: ShopRules | None = None, thicknesses: Mapping[str, float] | None = None
    ) -> Piece:
        """The piece.

        Args:
            rules: the shop's own limits that differ from the usual ones.
            thicknesses: of instances as measured, by name, where not their stock's [mm].

        Raises:
            DesignError: with every problem of these parameters.
        """
        return _build(self, rules, thicknesses)


def _build(
    design: Composition, rules: ShopRules | None, thicknesses: Mapping[str, float] | None
) -> Piece:
    reader = reader_of(design.shown, rules)
    reader.names("", design)
    name = read_name(reader, design.name)
    rough = read_rough(reader, design.rough_length, design.rough_width)
    parts = _listed_parts(reader, design)
    timbers = _timbers(reader, parts)
    made: dict[str, Part] = {}
    fixings: list[Bought] = []
    screws: dict[str, tuple[Screwed, ...]] = {}
    openings: dict[str, tuple[tuple[Hole, OpeningFor], ...]] = {}
    for each in parts:
        read = read_part(reader, each, timbers[each.name], rough)
        fixings += read.fixings
        openings[each.name] = read.openings
        screws[each.name] = read.screws
        if read.part is not None:
            made[each.name] = read.part
    known = [each.name for each in parts]
    stance = reader.choice("stance", design.stance, Stance, Stance.FLOOR)
    asked = [_wanted(each, made.get(each.name), stance) for each in parts]
    placements = place(reader, asked)
    joints = [
        joint
        for index, each in enumerate(
            reader.several("joints", design.joints, JointWritten, 'join(ButtJoint, "a", into="b")')
        )
        if (joint := _joint(reader, counted("joint", index), each, known)) is not None
    ]
    names = Names(instances=tuple(known))
    notes = read_notes(reader, design.notes, names)
    profiles = read_profiles(
        reader,
        design.profiles,
        names,
        {},
        thickness=lambda each: made[each].blank.thickness_mm if each in made else math.nan,
    )
    level = [each.instance for each in asked if each.face_side in (Way.UP, Way.DOWN)]
    fixings += read_hardware(reader, design.hardware, names)
    standing = [
        Placed(instance=name, part=made[name], placement=placements[name], kin=kin_written(name))
        for name in known
        if name in made and name in placements
    ]
    tops = [_surface(each, standing) for each in standing if each.instance in level]
    loads = read_loads(reader, design.loads, level, sizes_of(tops)) if level or design.loads else ()
    loose, lets_in = corner_parts(reader, design.corner_parts, standing, joints)
    hung = read_hung(reader, design.hung, standing, names)
    finish = read_prefinish(reader, design.prefinish)
    reader.raise_if_any()
    placed = _at_the_origin([with_profiles(each, profiles) for each in (*standing, *loose)])
    for lid in hung:
        placed = lid.bored(placed)
    turns = [lid.opens(placed) for lid in hung]
    for lid, way in zip(hung, turns, strict=True):
        fixings += lid.fixings(way)
        notes += tuple(lid.notes(way, design.shown))
    moved = {each.instance: each.placement for each in placed}
    anchors = anchors_in_wall(placed, screws) if stance is Stance.WALL else ()
    return compose(
        thicknesses=thicknesses,
        name=name,
        rules=reader.rules,
        placed=placed,
        joints=[*joints, *lets_in, *(lid.joint for lid in hung)],
        shown=design.shown,
        parameters=as_given(design),
        loads=loads,
        surfaces=[_surface(each, placed) for each in placed if each.instance in level],
        references=[
            Reference(what=each.what, start=each.start, end=each.end)
            for each in stated_distances(asked, moved)
        ],
        stance=stance,
        notes=notes,
        fixings=without(fixings, anchors),
        anchors=anchors,
        finish=finish,
        intent=Intent(
            openings=tuple(
                opening_at(each, made_cut, purpose)
                for each in placed
                for made_cut, purpose in openings.get(each.instance, ())
            ),
            base=tuple(each.instance for each in placed if _reaches_floor(each)),
            takes_corner_parts=True,
            opens=tuple(turns),
        ),
    )


def _listed_parts(reader: DesignReader, design: Composition) -> list[PlacedPart]:
    """The parts that are parts and have names of their own."""
    found: list[PlacedPart] = []
    taken: list[str] = []
    for index, each in enumerate(
        reader.several("parts", design.parts, PlacedPart, reader.example("PlacedPart"))
    ):
        where = counted("part", index, getattr(each, "name", None))
        if not isinstance(each, PlacedPart):
            reader.refuse(where, said(each), "a PlacedPart", "a piece is made of parts",
                          f"write {reader.example('PlacedPart')}")  # fmt: skip
            continue
        reader.names(f"{where} ", each)
        problem = own_name_problem(f"{where} name", each.name, taken, "part")
        if problem is not None:
            reader.take([problem])
            continue
        if not reader.is_name(f"{where} name", each.name):
            continue
        taken.append(each.name)
        found.append(each)
    if not found and not reader.problems:
        reader.refuse("parts", "none", "at least one PlacedPart", "a piece is made of parts",
                      f"write parts=[{_lone_part(reader)}]")  # fmt: skip
    return found


def _timbers(reader: DesignReader, parts: Sequence[PlacedPart]) -> dict[str, Timber | None]:
    """Each part's timber; a stock that several share is read, and its problems said, once."""
    read: dict[int, Timber | None] = {}
    for each in parts:
        if id(each.stock) not in read:
            read[id(each.stock)] = read_stock(reader, f"{each.name}: stock", each.stock)
    return {each.name: read[id(each.stock)] for each in parts}


def _wanted(given: PlacedPart, part: Part | None, stance: Stance) -> Wanted:
    """What is to be placed; a part whose size is unknown still has its relations read."""
    blank = (
        part.blank if part else Blank(length_mm=math.nan, width_mm=math.nan, thickness_mm=math.nan)
    )
    usual = Way.FRONT if stance is Stance.WALL else Way.UP
    places = given.places if isinstance(given.places, (list, tuple)) else (given.places,)
    return Wanted(
        instance=given.name,
        blank=blank,
        face_side=usual if given.face_side is None else given.face_side,
        face_edge=given.face_edge,
        grain=given.grain,
        relations=tuple(places),
    )


def _joint(reader: DesignReader, where: str, each: object, names: list[str]) -> Joint | None:
    if not isinstance(each, JointWritten):
        reader.refuse(where, said(each), "join(...)", "it says how two parts are joined",
                      'write join(ButtJoint, "a", into="b")')  # fmt: skip
        return None
    if not _is_a_joint(each.kind):
        kinds = {kind.kind: kind.__name__ for kind in joint_kinds()}
        near = nearest_word(each.kind, [*kinds, *kinds.values()])
        reader.refuse(
            f"{where} kind", said(each.kind), ", ".join(kinds.values()),
            "a joint is named by its class, without quotes",
            f"write {kinds.get(near or '', near or 'ButtJoint')}",
        )  # fmt: skip
        return None
    where = f"{where} ({each.called}) "
    for name in (each.into, each.incoming):
        if not isinstance(name, str) or name not in names:
            reader.refuse(
                where.rstrip(), said(name), ", ".join(names), "a joint is between two parts",
                word_remedy(name, names),
            )  # fmt: skip
    if each.into == each.incoming:
        reader.refuse(
            where.rstrip(), f"{said(each.into)} twice", "two parts",
            "a part cannot be joined to itself", "name the other part, or leave the joint out",
        )  # fmt: skip
        return None
    given = {"into": each.into, "incoming": each.incoming, **each.given}
    return read_value(reader, where, each.kind, given, {Fit: read_fit})


def _is_a_joint(kind: object) -> bool:
    return isinstance(kind, type) and issubclass(kind, Joint) and not isabstract(kind)


def joint_kinds(of: type[Joint] = Joint) -> tuple[type[Joint], ...]:
    """Every kind of joint that a maker can write, their own among them."""
    below = [kind for each in of.__subclasses__() for kind in joint_kinds(each)]
    return tuple(dict.fromkeys([*([of] if _is_written(of) else []), *below]))


def _is_written(kind: type[Joint]) -> bool:
    """Whether nothing of it must be given that only a builder can."""
    needed = (each for each in fields(kind) if each.metadata == NOT_WRITTEN)
    return not isabstract(kind) and all(
        each.default is not MISSING or each.default_factory is not MISSING for each in needed
    )


def _at_the_origin(placed: Sequence[Placed]) -> list[Placed]:
    """The same parts, moved so that the left front lower corner of the whole is the origin."""
    boxes = [box_of(each.part.blank, each.placement) for each in placed]
    low = [min(box[0][axis] for box in boxes) for axis in range(3)]
    moved = []
    for each in placed:
        at = each.placement.origin
        placement = replace(each.placement, origin=(at[0] - low[0], at[1] - low[1], at[2] - low[2]))
        moved.append(replace(each, placement=placement))
    return moved


def _reaches_floor(placed: Placed) -> bool:
    """Whether a part stands on the floor, so that it grows when the base is drawn out."""
    return box_of(placed.part.blank, placed.placement)[0][2] < 1e-6


def _surface(level: Placed, placed: Sequence[Placed]) -> Surface:
    """The top of a level part, less what lies inside other parts at its edges."""
    low, high = box_of(level.part.blank, level.placement)
    span = [[low[0], high[0]], [low[1], high[1]]]
    for other in placed:
        if other.instance != level.instance:
            _draw_in(span, high[2], box_of(other.part.blank, other.placement))
    return Surface(
        instance=level.instance,
        low=(span[0][0], span[1][0]),
        high=(span[0][1], span[1][1]),
        top_mm=high[2],
    )


def _draw_in(span: list[list[float]], top: float, box: Box) -> None:
    """Draw a level rectangle back to the face of a part that stands over its edge."""
    (low, high) = box
    stands_over = low[2] < top - 1e-6 and high[2] > top + 1e-6
    meets = all(
        low[axis] < span[axis][1] - 1e-6 and high[axis] > span[axis][0] + 1e-6 for axis in (0, 1)
    )
    if not stands_over or not meets:
        return
    ways = [
        (high[axis] - span[axis][0] if is_low else span[axis][1] - low[axis], axis, is_low)
        for axis in (0, 1)
        for is_low in (True, False)
    ]
    depth, axis, is_low = min(ways)
    if is_low:
        span[axis][0] += depth
    else:
        span[axis][1] -= depth
