"""One part of a maker's own piece: how it is written, and how it and its cuts are read."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from inspect import isabstract
from typing import Any, ClassVar

from furniture.builders.anchors import Screwed
from furniture.builders.fixings import Held, Seating, read_held
from furniture.builders.rules import DesignReader, at_most_known
from furniture.parts.blank import Blank
from furniture.parts.cuts import ALL_CUTS, Along, Bore, Cut, Hole, shapes_of
from furniture.parts.faces import Arris, Face
from furniture.parts.part import Part, Rough
from furniture.parts.turning import Way
from furniture.pieces import Bought, OpeningFor
from furniture.rules.building import LONGEST_PART
from furniture.timber.stock import Stock, Timber
from furniture.units import REQUIRED, Given, counted, nearest_word, parameters, quantity, said
from furniture.units.written import read_value

MOST_IN_ROW = 100
_PLACES = ("x", "y", "z")


@dataclass(frozen=True, slots=True, kw_only=True)
class CutWritten:
    """A cut as a maker writes it: its kind, its figures by name, and what stands in it."""

    kind: type[Cut]
    given: Mapping[str, object]
    holds: Held | None = None
    purpose: OpeningFor | None = None
    unnamed: ClassVar[tuple[str, ...]] = ("given",)
    """Its figures are called by their own names."""

    @property
    def called(self) -> str:
        """What messages call it: its kind."""
        return self.kind.kind


@dataclass(frozen=True, slots=True, kw_only=True)
class RowWritten:
    """A row of equal bores or slots as a maker writes it."""

    one: CutWritten
    count: int
    spacing: Given
    first: Given | None
    along: Along
    unnamed: ClassVar[tuple[str, ...]] = ("one",)
    """Its cut is called by its kind."""


def cut(
    kind: type[Cut],
    *,
    holds: Held | None = None,
    purpose: OpeningFor | None = None,
    **given: object,
) -> CutWritten:
    """A cut to be made in a part, such as `cut(Bore, face=Face.FACE_SIDE, x="40 mm", ...)`.

    Args:
        kind: the cut's class.
        holds: the screw or peg that goes into a bore: it is listed among what is bought.
        purpose: what goes through a bore or a slot right through, such as a cable; checks read it.
        given: its figures, named without their units.
    """
    return CutWritten(kind=kind, given=given, holds=holds, purpose=purpose)


def row_of(
    one: CutWritten,
    *,
    count: int,
    spacing: Given,
    first: Given | None = None,
    along: Along = Along.GRAIN,
) -> RowWritten:
    """A row of equal bores or slots: `row_of(cut(Bore, ...), count=6, spacing="60 mm")`.

    Places that the cut leaves out are in the middle of the part.

    Args:
        one: the cut, without its place along the row.
        count: how many.
        spacing: from centre to centre.
        first: of the first centre, from the datum end or the face edge; when left out, the row is
            centred on the part.
        along: which way the row runs.
    """
    return RowWritten(one=one, count=count, spacing=spacing, first=first, along=along)


@parameters
class PlacedPart:
    """One part of a maker's own piece: its size, how it is turned, where it stands, what is cut.

    Args:
        name: its own name in the piece.
        stock: what it is cut from; its thickness is the measured one.
        length: along the grain.
        width: across the grain.
        face_side: which way its face side faces (default: up, or to the front on a wall). Sheets
            show the part from that side.
        face_edge: which way its face edge faces (default: the edge that is below where one looks at
            the face side with the datum end on the left).
        grain: the way from its datum end (`Face.NAMED_END`) to its other end. The default is as a
            stated face edge has it, else to the right. Two of the three say how a part is turned;
            whoever states all three is told where they do not agree, so no stop or cut is on the
            wrong end or edge unnoticed.
        places: where it stands: one relation for each way; the first part may have none.
        cuts: what is cut in it besides its joints.
    """

    name: str = ""
    stock: Stock = REQUIRED
    length: Given = REQUIRED
    width: Given = REQUIRED
    face_side: Way | None = None
    face_edge: Way | None = None
    grain: Way | None = None
    places: Sequence[object] = ()
    cuts: Sequence[CutWritten | RowWritten] = ()

    @property
    def known_as(self) -> str:
        """What messages call it: its own name, whatever its place in the list."""
        return f"{self.name}:"


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRead:
    """A part as read, what stands in its bores, and those of its cuts whose purpose is stated.

    Of what stands in its bores, `screws` go right through it.

    The part is nothing when its size or its stock could not be read.
    """

    part: Part | None
    fixings: tuple[Bought, ...]
    screws: tuple[Screwed, ...]
    openings: tuple[tuple[Hole, OpeningFor], ...]


def read_part(
    reader: DesignReader, given: PlacedPart, timber: Timber | None, rough: Rough
) -> PartRead:
    """The part with its own cuts, and what stands in its bores; problems are noted."""
    why = "a part of such a piece (common practice)"
    length = reader.length(
        f"{given.name}: length",
        given.length,
        at_least=5.0,
        at_most=reader.rules[LONGEST_PART],
        why=why,
    )
    width = reader.length(
        f"{given.name}: width",
        given.width,
        at_least=3.0,
        at_most=reader.rules[LONGEST_PART],
        why=why,
    )
    thickness = math.nan if timber is None else timber.thickness_mm
    blank = Blank(length_mm=length, width_mm=width, thickness_mm=thickness)
    cuts: list[Cut] = []
    fixings: list[Bought] = []
    screws: list[Screwed] = []
    openings: list[tuple[Hole, OpeningFor]] = []
    entries = reader.several(
        f"{given.name}: cuts", given.cuts, (CutWritten, RowWritten), "cut(Bore, ...)"
    )
    for index, entry in enumerate(entries):
        where = f"{given.name}: {counted('cut', index)}"
        for each in _written_out(reader, where, entry, blank):
            made, held = _read_cut(reader, where, each, given.name, blank)
            cuts += [] if made is None else [made]
            fixings += [] if held is None else [held]
            if made is None:
                continue
            holes = shapes_of((made,), blank, Hole)
            through = [hole for hole in holes if hole.depth_mm is None]
            if each.purpose is not None:
                openings += _read_purpose(reader, where, each.purpose, through)
            if held is not None and each.holds is not None and each.holds.bites_beyond:
                screws += [Screwed(bore=hole, screw=held) for hole in through]
    if timber is None or math.isnan(length) or math.isnan(width):
        return PartRead(part=None, fixings=tuple(fixings), screws=(), openings=())
    part = Part(name=given.name, blank=blank, timber=timber, cuts=tuple(cuts), rough=rough)
    return PartRead(
        part=part, fixings=tuple(fixings), screws=tuple(screws), openings=tuple(openings)
    )


def _read_purpose(
    reader: DesignReader, where: str, given: object, through: list[Hole]
) -> list[tuple[Hole, OpeningFor]]:
    """The opening with its purpose; a cut that is none right through is noted."""
    purpose = reader.choice(f"{where} purpose", given, OpeningFor, OpeningFor.CABLE)
    if not through:
        reader.refuse(
            f"{where} purpose", said(purpose), "a hole or a slot right through",
            "it says what goes through", "leave purpose out, or leave the depth out",
        )  # fmt: skip
    return [(hole, purpose) for hole in through]


def _written_out(reader: DesignReader, where: str, entry: object, blank: Blank) -> list[CutWritten]:
    """The cuts that an entry stands for: a row is as many as it counts."""
    one = entry.one if isinstance(entry, RowWritten) else entry
    if not isinstance(one, CutWritten) or not _is_a_cut(one.kind):
        kinds = [kind.__name__ for kind in ALL_CUTS]
        given = one.kind if isinstance(one, CutWritten) else one
        near = nearest_word(given, kinds) or Bore.__name__
        reader.refuse(where, said(given), f"cut(...) of {', '.join(kinds)}", "it says what is cut",
                      f"write cut({near}, ...)")  # fmt: skip
        return []
    if not isinstance(entry, RowWritten):
        return [one]
    return _row(reader, where, entry, blank)


def _is_a_cut(kind: object) -> bool:
    """Whether it is a kind of cut, the maker's own among them."""
    return isinstance(kind, type) and issubclass(kind, Cut) and not isabstract(kind)


def _row(reader: DesignReader, where: str, row: RowWritten, blank: Blank) -> list[CutWritten]:
    along = reader.choice(f"{where} along", row.along, Along, Along.GRAIN)
    axis = 0 if along is Along.GRAIN else 1
    face = row.one.given.get("face")
    across = face.axis if isinstance(face, Face) else 2
    if not row.one.kind.is_placed_by_centre or axis == across:
        reader.refuse(
            where, f"a row of {row.one.kind.__name__} in {face}",
            "holes and slots, along a face that they are cut in",
            "a row steps along the face", "write the cuts one by one",
        )  # fmt: skip
        return []
    count = reader.whole(f"{where} count", row.count, 1, MOST_IN_ROW, 2, "a row has so many") or 1
    size = blank.size[axis]
    why = "the whole row lies on the part"
    most = size / max(count - 1, 1)
    spacing = reader.length(
        f"{where} spacing", row.spacing, at_least=0.0, at_most=at_most_known(most), why=why
    )
    run = (count - 1) * spacing
    start = (size - run) / 2
    if row.first is not None:
        start = reader.length(
            f"{where} first", row.first, at_least=0.0, at_most=at_most_known(size - run), why=why
        )
    if math.isnan(start) or any(math.isnan(each) for each in blank.size):
        return []
    middles = {
        name: quantity(blank.size[other] / 2, "mm")
        for other, name in enumerate(_PLACES)
        if other not in (axis, across)
    }
    return [
        replace(
            row.one,
            given={
                **middles,
                **row.one.given,
                _PLACES[axis]: quantity(start + index * spacing, "mm"),
            },
        )
        for index in range(count)
    ]


def _read_cut(
    reader: DesignReader, where: str, each: CutWritten, instance: str, blank: Blank
) -> tuple[Cut | None, Bought | None]:
    special: dict[type, Any] = {Arris: _read_arris}
    where = f"{where} ({each.called})"
    made = read_value(reader, f"{where} ", each.kind, each.given, special)
    if each.holds is None:
        return made, None
    if not each.kind.is_bored or not isinstance(each.holds, Held):
        reader.refuse(
            f"{where} holds", said(each.holds), "a Screw or a Peg, in cut(Bore, ...)",
            "it says what stands in the hole", "leave holds out",
        )  # fmt: skip
        return made, None
    seating = None
    if made is not None and not any(math.isnan(size) for size in blank.size):
        (bore,) = shapes_of((made,), blank, Hole)
        seating = Seating(instance=instance, blank=blank, bore=bore)
    return made, read_held(reader, where, each.holds, seating)


def _read_arris(reader: DesignReader, parameter: str, given: object) -> object:
    if not isinstance(given, Arris):
        reader.refuse(parameter, said(given), "an edge such as TOP_FRONT", "it lies on an edge",
                      "write TOP_FRONT")  # fmt: skip
    return given
