"""Cleats under tiers: strips screwed to two uprights, on which the ends of a tier rest."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

from furniture.builders.bracket_places import Ledge
from furniture.builders.cleat_screw import Bitten, cleat_slot_mm, read_cleat_screw
from furniture.builders.common import Names, StockOf
from furniture.builders.fixings import Screw
from furniture.builders.rules import DesignReader, at_least_known, at_most_known
from furniture.builders.support import Support
from furniture.builders.tiers import TierFigures
from furniture.joints import ButtJoint, Driven, Joint, Role
from furniture.parts.blank import Blank
from furniture.parts.cuts import Along, Bore, Cut, Slot
from furniture.parts.faces import Face
from furniture.parts.part import Kin, Part, Placed, Rough
from furniture.parts.placement import Placement
from furniture.parts.vectors import BACK, FRONT, UP
from furniture.pieces import Note
from furniture.rules import Rules
from furniture.rules.building import (
    BRACKET_CLEAR,
    CLEAT_CLEAR,
    CLEAT_WOOD,
    LEAST_CLEAT,
    MOST_BRACKET_BETWEEN,
    SLOT_SHARE,
)
from furniture.timber.stock import Stock, Timber, read_stock
from furniture.units import Given, counted, parameters, said

_HEIGHT_MM, _HEIGHT_INCH_MM = 20.0, 25.4 * 3 / 4
_SET_BACK_MM, _SET_BACK_INCH_MM = 10.0, 25.4 * 3 / 8
"""A usual cleat in either unit. Common practice, no source."""
_HAIR_MM = 1e-6
_LOOSE_MM = 0.4
_DRILL_MM, _DRILL_INCH_MM = 0.5, 25.4 / 32
"""How loose a screw is in its plain hole at least, and the step of drills in either unit. Common
practice, no source."""
_SIDES = ("left", "right")


@parameters
class TierCleat:
    """A pair of strips under the ends of a tier, against the inner faces of both uprights.

    Their grain runs front to back and that of the uprights up, so glue over their whole length
    would split one or the other: each is held by three screws and no glue, in a plain hole in its
    middle and in slots towards its ends, in which the upright moves. Their heads are under the
    tier, which rests on them dry. Each is a part with a name, such as `tier 2 left cleat`. A post
    has no room for them: a tier on a post is borne by a `Bracket`.

    Args:
        on: a tier such as `tier 2`, or `tiers`.
        stock: of the cleats (default: their tier's own); they stand out as far as it is thick.
        height: of each (default: 20 mm or 3/4 in, as far as there is room).
        set_back: of its front end behind the front edge of tier or upright (default: 10 mm or
            3/8 in, as far as there is room).
        screw: through each hole into the upright (default: worked out from cleat and upright).
    """

    on: str = "tiers"
    stock: Stock | None = None
    height: Given | None = None
    set_back: Given | None = None
    screw: Screw | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TierCleatFigures:
    """The two cleats under a tier [mm].

    `timbers` are of the left and the right one, and `thick` how far they stand out; they lie
    `along` the uprights from the front, and `top` is the underside of the tier.
    """

    on: str
    timbers: tuple[Timber, Timber]
    thick: tuple[float, float]
    ledge: Ledge
    along: tuple[float, float]
    height: float
    top: float
    slot: float
    slot_length: float
    hole: float
    screws: tuple[Driven, Driven]

    @property
    def length(self) -> float:
        """From front to back."""
        return self.along[1] - self.along[0]


def cleat_name(tier: str, side: str) -> str:
    """The instance of a cleat.

    Args:
        tier: that rests on it.
        side: `left` or `right`.
    """
    return f"{tier} {side} cleat"


def tier_cleat_names(cleats: object, names: Names) -> tuple[str, ...]:
    """The instances that these cleats will be, as far as they can be told before they are read.

    Args:
        cleats: as the script has them.
        names: of the piece without them.
    """
    listed = cleats if isinstance(cleats, (list, tuple)) else (cleats,)
    return tuple(
        dict.fromkeys(
            cleat_name(tier, side)
            for each in listed
            if isinstance(each, TierCleat)
            for tier in names.meant_by(each.on)
            for side in _SIDES
        )
    )


def read_tier_cleats(
    reader: DesignReader,
    cleats: object,
    names: Names,
    support: Support,
    steps: Sequence[TierFigures],
    stock: StockOf,
    below: Mapping[str, float],
    bracketed: Collection[str],
    measured: Mapping[str, float],
) -> tuple[TierCleatFigures, ...]:
    """The cleats, a pair for each tier that has some; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        cleats: several `TierCleat`.
        names: of the piece.
        support: what carries the tiers.
        steps: the tiers from the lowest up.
        stock: of each tier, which is that of its cleats where they name none.
        below: how high what is under each tier reaches [mm].
        bracketed: the tiers that brackets bear.
        measured: thicknesses of instances, by name, where not their stock's [mm].
    """
    found: list[TierCleatFigures] = []
    tiers, taken = {step.name: step for step in steps}, dict.fromkeys(bracketed, "brackets")
    entries = reader.several("tier_cleats", cleats, TierCleat, reader.example("TierCleat"))
    for index, cleat in enumerate(entries):
        where = counted("tier cleat", index, getattr(cleat, "on", None))
        if not isinstance(cleat, TierCleat):
            like = f"write {reader.example('TierCleat')}"
            reader.refuse(where, said(cleat), "a TierCleat", "it says what it bears", like)
            continue
        reader.names(f"{where} ", cleat)
        meant = [name for name in names.meant_by(cleat.on) if name in tiers]
        if not meant:
            reader.refuse(
                f"{where} on", said(cleat.on), ", ".join(("tiers", *tiers)),
                "cleats are under a tier", "write 'tiers'",
            )  # fmt: skip
        if any(support.ledge(tiers[name]) is None for name in meant):
            reader.refuse(
                f"{where} on", said(cleat.on), "a tier between uprights",
                "cleats lie under both ends of a tier, against an upright at either",
                f"leave it out and write brackets=[Bracket(on={cleat.on!r})]",
            )  # fmt: skip
            continue
        for name in meant:
            if name in taken:
                reader.refuse(
                    f"{where} on", said(cleat.on), "each tier once",
                    f"{name} has {taken[name]} already", "leave it out",
                )  # fmt: skip
        taken |= dict.fromkeys(meant, "cleats")
        own = None
        if cleat.stock is not None:
            own = read_stock(reader, f"{where} stock", cleat.stock)
        rows = []
        for name in meant:
            step, ledge = tiers[name], support.ledge(tiers[name])
            assert ledge is not None, "a stand without uprights was refused"
            usual = stock.timber(name) if cleat.stock is None else own
            left, right = (stock.own_or(cleat_name(name, side), usual) for side in _SIDES)
            room = step.bottom - below[name] - reader.rules[BRACKET_CLEAR]
            first, second = (
                math.nan
                if timber is None
                else measured.get(cleat_name(name, side), timber.thickness_mm)
                for side, timber in zip(_SIDES, (left, right), strict=True)
            )
            upright = min(measured.get(each, ledge.thickness) for each in ledge.names)
            rows.append(
                _Under(
                    step=step, ledge=replace(ledge, thickness=upright), timbers=(left, right),
                    thick=(first, second), room=room,
                )
            )  # fmt: skip
        if rows:
            found += _Pairs(reader=reader, where=where, cleat=cleat, rows=tuple(rows)).read()
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Under:
    """A tier that cleats bear, what they are cut from, and the height that there is [mm].

    One that cannot be read is not-a-number thick.
    """

    step: TierFigures
    ledge: Ledge
    timbers: tuple[Timber | None, Timber | None]
    thick: tuple[float, float]
    room: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pairs:
    """One `TierCleat` as it is read; a figure that is given serves all of its tiers."""

    reader: DesignReader
    where: str
    cleat: TierCleat
    rows: tuple[_Under, ...]

    def read(self) -> list[TierCleatFigures]:
        """The pair under each of its tiers."""
        reader = self.reader
        slot, slot_length = cleat_slot_mm(reader)
        heights = self._heights(slot + 2 * reader.rules[CLEAT_WOOD])
        fronts = self._fronts(least_cleat_mm(reader))
        screws = self._screws()
        found = []
        for row, height, front in zip(self.rows, heights, fronts, strict=True):
            left, right = row.timbers
            if left is None or right is None or math.isnan(height + front):
                continue
            first, second = (screws.get(each) for each in row.thick)
            if first is None or second is None:
                continue
            back = row.ledge.along[1] - reader.rules[CLEAT_CLEAR]
            hole = _hole_mm(first.diameter_mm, reader.shown.is_inch)
            found.append(
                TierCleatFigures(
                    on=row.step.name, timbers=(left, right), thick=row.thick, ledge=row.ledge,
                    along=(front, back), height=height, top=row.step.bottom, slot=slot,
                    slot_length=slot_length, hole=hole, screws=(first, second),
                )
            )  # fmt: skip
        return found

    def _heights(self, least: float) -> list[float]:
        """How high they are under each tier [mm]."""
        reader = self.reader
        clear = reader.rules[BRACKET_CLEAR]
        why = f"{reader.least(clear)} stay free above what is under the tier"
        short = [row for row in self.rows if row.room < least - _HAIR_MM]
        for row in short:
            name = row.step.name
            reader.refuse(
                f"{self.where} on", said(self.cleat.on), "a tier with room below it",
                f"a cleat under {name} lower than {reader.least(least)} holds no slot with "
                f"wood on both sides, and {why}",
                f"let {name} rise {reader.least(least - row.room)} more, or leave its cleats out",
            )  # fmt: skip
        if short:
            return [math.nan for _ in self.rows]
        if self.cleat.height is None:
            usual = _HEIGHT_INCH_MM if reader.shown.is_inch else _HEIGHT_MM
            return [max(least, min(usual, at_most_known(row.room))) for row in self.rows]
        height = reader.length(
            f"{self.where} height", self.cleat.height, at_least=least,
            at_most=at_most_known(min(row.room for row in self.rows)),
            why=f"a cleat holds a slot with wood on both sides, and {why}",
        )  # fmt: skip
        return [height for _ in self.rows]

    def _fronts(self, least: float) -> list[float]:
        """Where they begin under each tier, from the front; they are `least` long or more [mm]."""
        reader, rules = self.reader, self.reader.rules
        rooms = [row.ledge.deep - rules[CLEAT_CLEAR] - least for row in self.rows]
        why = (
            f"a cleat is at least {reader.least(least)} long, so that a hole and two slots have "
            "wood between them"
        )
        for row, room in zip(self.rows, rooms, strict=True):
            if room < -_HAIR_MM:
                reader.refuse(
                    f"{self.where} on", said(self.cleat.on), "a tier deeper on deeper uprights",
                    why,
                    f"let {row.step.name} and the uprights be {reader.least(-room)} deeper, or "
                    f"leave its cleats out and write Bracket(on={row.step.name!r})",
                )  # fmt: skip
        if any(room < -_HAIR_MM for room in rooms):
            return [math.nan for _ in self.rows]
        usual = usual_set_back_mm(reader)
        backs = [min(usual, at_most_known(max(0.0, room))) for room in rooms]
        if self.cleat.set_back is not None:
            most = at_most_known(max(0.0, min(rooms)))
            given = reader.length(
                f"{self.where} set_back", self.cleat.set_back, at_least=0.0, at_most=most, why=why
            )  # fmt: skip
            backs = [given for _ in self.rows]
        return [row.ledge.along[0] + back for row, back in zip(self.rows, backs, strict=True)]

    def _screws(self) -> dict[float, Driven]:
        """The screw through cleats of each thickness [mm]."""
        reader, where, ledge = self.reader, self.where, self.rows[0].ledge
        least = reader.rules[LEAST_CLEAT]
        most = at_least_known(reader.rules[MOST_BRACKET_BETWEEN] * ledge.span, least)
        bitten = Bitten(
            thickness=ledge.thickness, called="upright", skin="its outer face",
            instead=(f"{where} on", said(self.cleat.on), "a tier between thicker uprights",
                     f"leave it out and write brackets=[Bracket(on={self.cleat.on!r})]"),
        )  # fmt: skip
        found = {}
        thick = {each for row in self.rows for each in row.thick if not math.isnan(each)}
        for thickness in sorted(thick):
            known = reader.limit(
                f"{where} stock thickness", thickness, at_least=least, at_most=most,
                why="a thinner one splits at its screws, and thicker ones leave little of the "
                "tier's span free",
            )  # fmt: skip
            if math.isnan(known):
                continue
            screw = read_cleat_screw(reader, f"{where} ", self.cleat.screw, thickness, bitten)
            if screw is not None:
                found[thickness] = screw
        return found


def least_cleat_mm(reader: DesignReader) -> float:
    """How long a cleat is at least [mm]: a hole and two slots with wood between them."""
    return 3 * cleat_slot_mm(reader)[1] + 4 * reader.rules[CLEAT_WOOD]


def usual_set_back_mm(reader: DesignReader) -> float:
    """How far its front end lies back where nothing is said and there is room [mm]."""
    return _SET_BACK_INCH_MM if reader.shown.is_inch else _SET_BACK_MM


def _hole_mm(screw: float, is_inch: bool) -> float:
    """The drill for the plain hole of a screw [mm]."""
    step = _DRILL_INCH_MM if is_inch else _DRILL_MM
    return math.ceil((screw + _LOOSE_MM) / step - _HAIR_MM) * step


def place_tier_cleats(cleats: TierCleatFigures, rough: Rough, rules: Rules) -> list[Placed]:
    """Both cleats, face sides inwards, face edges below.

    Args:
        cleats: their figures.
        rough: allowances.
        rules: the shop's own limits.
    """
    (left, right), (front, back) = cleats.ledge.inside, cleats.along
    low = cleats.top - cleats.height
    places = (
        Placement(origin=(left, front, low), x_axis=BACK, y_axis=UP),
        Placement(origin=(right, back, low), x_axis=FRONT, y_axis=UP),
    )
    blank_of = [
        Blank(length_mm=cleats.length, width_mm=cleats.height, thickness_mm=each)
        for each in cleats.thick
    ]
    middle, off = cleats.length / 2, _slot_off_mm(cleats, rules)
    slots = tuple(
        Slot(
            face=Face.FACE_SIDE, x_mm=x, y_mm=cleats.height / 2, length_mm=cleats.slot_length,
            width_mm=cleats.slot, along=Along.GRAIN,
        )
        for x in (middle - off, middle + off)
    )  # fmt: skip
    hole = Bore(
        face=Face.FACE_SIDE, x_mm=middle, y_mm=cleats.height / 2, diameter_mm=cleats.hole
    )  # fmt: skip
    cuts: tuple[Cut, ...] = (slots[0], hole, slots[1])
    return [
        Placed(
            instance=cleat_name(cleats.on, side),
            part=Part(
                name=f"{cleats.on} cleat", blank=blank, timber=timber, cuts=cuts, rough=rough
            ),
            placement=placement,
            kin=Kin("cleat"),
        )
        for side, blank, timber, placement in zip(
            _SIDES, blank_of, cleats.timbers, places, strict=True
        )
    ]  # fmt: skip


def _slot_off_mm(cleats: TierCleatFigures, rules: Rules) -> float:
    """How far the slots lie from a cleat's middle [mm]: a share in, or with wood at their ends."""
    end = cleats.slot_length / 2 + rules[CLEAT_WOOD]
    return cleats.length / 2 - max(rules[SLOT_SHARE] * cleats.length, end)


def tier_cleat_joints(cleats: TierCleatFigures, rules: Rules) -> list[Joint]:
    """Each cleat screwed to its upright, and its tier resting on it.

    Args:
        cleats: their figures.
        rules: the shop's own limits.
    """
    off = _slot_off_mm(cleats, rules)
    found: list[Joint] = []
    for side, upright, screw in zip(_SIDES, cleats.ledge.names, cleats.screws, strict=True):
        name = cleat_name(cleats.on, side)
        driven = (
            replace(screw, off_middle_mm=-off, slides=Along.GRAIN),
            screw,
            replace(screw, off_middle_mm=off, slides=Along.GRAIN),
        )
        found += [
            ButtJoint(
                into=upright, incoming=name, role=Role.SEAT, is_glued=False, driven=driven
            ),
            ButtJoint(into=cleats.on, incoming=name, role=Role.SEAT, is_glued=False),
        ]  # fmt: skip
    return found


def tier_cleat_notes(cleats: Sequence[TierCleatFigures]) -> tuple[Note, ...]:
    """What the sheets say of them."""
    about = tuple(cleat_name(each.on, side) for each in cleats for side in _SIDES)
    said = (
        "press a cleat up against its tier and screw it without glue, the middle first, those in "
        "slots not hard, so that the upright can move"
    )
    return (Note(said, about),) if about else ()
