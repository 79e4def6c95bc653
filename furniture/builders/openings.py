"""Openings for cables and drains, and rows of vents, at stated places of named parts."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from furniture.builders.common import Names
from furniture.builders.passing import Air, Cable, Plug, read_count, read_free_area, size_for
from furniture.builders.rules import DesignReader
from furniture.pieces import Bought, Note, OpeningFor
from furniture.rules.building import LEAST_OPENING_WOOD, MOST_VENTS
from furniture.rules.checking import LEAST_BIT
from furniture.units import Amounts, Given, counted, is_given, is_meant, parameters, said


@parameters
class Opening:
    """A round opening right through a part.

    Places are as one faces the part: a rail from outside, a post from the front, an upright from
    between the two (its left is then its front edge for both), a panel from above.

    Args:
        on: one part by its own name, such as `lid` or `tier 2`, or all of a kind, such as `tiers`.
        size: diameter of the hole (for a bushing: of its body); not where `passes` says what must
            pass.
        passes: `Plug(...)`, `Cable(...)` or `Air(...)`: the hole is the smallest bit's that lets it
            through.
        flange: the diameter of a bushing's rim, which must lie on wood too (default: no bushing).
        from_left: of the centre (default: in the middle).
        from_edge: of the centre, from a panel's front edge or an upright part's lower end (default:
            in the middle).
        between: two level parts by name, such as `("tier 1", "tier 2")`, instead of `from_edge`:
            the centre is as high as the middle between them.
        purpose: cable, drain or air; air where that must pass.
    """

    on: str = ""
    size: Given = "25 mm"
    passes: Plug | Cable | Air | None = None
    flange: Given | None = None
    from_left: Given | None = None
    from_edge: Given | None = None
    between: tuple[str, str] | None = None
    purpose: OpeningFor = OpeningFor.CABLE

    @property
    def called(self) -> str:
        """Nothing: messages call it by its number alone."""
        return ""


class VentKind(Enum):
    """The shape of the vents in a row."""

    BORES = "bores"
    SLOTS = "slots"


@parameters
class Vent:
    """A row of holes or of upright slots, side by side from left to right, through a part.

    Args:
        on: one part by its own name, or all of a kind, such as `rails`.
        kind: holes or slots.
        count: how many; not where `passes` says how much air must pass.
        passes: `Air(...)`, the free area of the row: there are as many vents as it takes.
        size: diameter of a hole, width of a slot.
        length: of a slot, over its round ends.
        spacing: from centre to centre.
        from_left: of the middle of the row (default: in the middle of the part).
        from_edge: of the row's line, as for an `Opening`.
    """

    on: str = ""
    kind: VentKind = VentKind.BORES
    count: int = 5
    passes: Air | None = None
    size: Given = "8 mm"
    length: Given = "40 mm"
    spacing: Given = "20 mm"
    from_left: Given | None = None
    from_edge: Given | None = None

    @property
    def called(self) -> str:
        """Nothing: messages call it by its number alone."""
        return ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """One hole as one faces the part [mm]; `reach` is its radius, or that of its flange.

    `least` is how small its bit may be, for what passes it or sits in it too; None for vents, whose
    count and length say together what passes.
    """

    parameter: str
    on: str
    size: float
    reach: float
    half_length: float
    aside: float
    from_left: float
    from_edge: float
    purpose: OpeningFor
    between: tuple[str, str] | None = None
    least: float | None = None


def read_openings(
    reader: DesignReader, openings: Sequence[object], vents: object, names: Names
) -> tuple[Hole, ...]:
    """All holes with their figures read; problems are noted with the reader.

    A place that is left out is not-a-number: the middle of the part.
    """
    holes: list[Hole] = []
    for index, opening in enumerate(openings):
        where = counted("opening", index)
        if not isinstance(opening, Opening):
            reader.refuse(
                where,
                said(opening),
                "an Opening",
                "it is one",
                "write Opening(...) as help(Opening) shows",
            )
            continue
        reader.names(f"{where} ", opening)
        size = _size_of(reader, where, opening)
        flange = size
        if opening.flange is not None:
            flange = reader.length(
                f"{where} flange", opening.flange, at_least=0.0 if math.isnan(size) else size,
                at_most=120.0, why="a bushing's rim is wider than its body",
            )  # fmt: skip
        purpose = reader.choice(f"{where} purpose", opening.purpose, OpeningFor, OpeningFor.CABLE)
        if isinstance(opening.passes, Air):
            purpose = OpeningFor.AIR
        meant = _meant(reader, where, opening.on, names)
        is_free = opening.passes is None and opening.flange is None
        if purpose is OpeningFor.DRAIN:
            _refuse_upright_drains(reader, where, opening.on, meant, names)
        left, edge = _place(reader, where, opening.from_left, opening.from_edge)
        between = _read_between(reader, where, opening, meant, names)
        holes += [
            Hole(
                parameter=where, on=name, size=size, reach=flange / 2, half_length=size / 2,
                aside=0.0, from_left=left, from_edge=edge, purpose=purpose, between=between,
                least=reader.rules[LEAST_BIT] if is_free else size,
            )
            for name in meant
        ]  # fmt: skip
    for index, vent in enumerate(reader.several("vents", vents, Vent, "Vent(...)")):
        where = counted("vent", index)
        if not isinstance(vent, Vent):
            reader.refuse(
                where,
                said(vent),
                "a Vent",
                "it is a row of them",
                "write Vent(...) as help(Vent) shows",
            )
            continue
        holes += _row(reader, where, vent, names)
    return tuple(holes)


def _size_of(reader: DesignReader, where: str, opening: Opening) -> float:
    """The bore's diameter [mm]: as given, or the smallest that lets pass what must."""
    if opening.passes is None:
        return _size(reader, f"{where} size", opening.size, 3.0, 80.0)
    if is_given(opening, "size"):
        reader.refuse(
            f"{where} size", said(opening.size), "nothing", "it follows from what must pass",
            "leave out size, or passes",
        )  # fmt: skip
    if opening.flange is not None:
        reader.refuse(
            f"{where} flange", said(opening.flange), "nothing",
            "how wide a bushing is inside is not known, so nobody can say what passes it",
            "leave out passes and write the size of the bushing's body",
        )  # fmt: skip
    return size_for(reader, f"{where} passes", opening.passes)


def _read_between(
    reader: DesignReader, where: str, opening: Opening, meant: Sequence[str], names: Names
) -> tuple[str, str] | None:
    """The two level parts that an opening is between; none where that is not said."""
    given = opening.between
    if given is None:
        return None
    pair = tuple(given) if isinstance(given, (tuple, list)) else ()
    if len(pair) != 2 or not set(pair) <= set(names.level) or pair[0] == pair[1]:
        example = f"write between={names.level[:2]!r}" if len(names.level) > 1 else "leave it out"
        reader.refuse(
            f"{where} between", said(given), f"two of {', '.join(names.level)}",
            "it is as high as the middle between two level parts", example,
        )  # fmt: skip
        return None
    if opening.from_edge is not None:
        reader.refuse(
            f"{where} from_edge", said(opening.from_edge), "nothing",
            "its height follows from what it is between", "leave out from_edge, or between",
        )  # fmt: skip
    if set(meant) & set(names.level):
        reader.refuse(
            f"{where} between", said(given), "nothing",
            "what lies flat has no height between two others",
            "leave it out, or name an upright part in on",
        )  # fmt: skip
        return None
    return (str(pair[0]), str(pair[1]))


def _row(reader: DesignReader, where: str, vent: Vent, names: Names) -> list[Hole]:
    reader.names(f"{where} ", vent)
    kind = reader.choice(f"{where} kind", vent.kind, VentKind, VentKind.BORES)
    size = _size(reader, f"{where} size", vent.size, 3.0, 40.0)
    length = size
    if kind is VentKind.SLOTS:
        length = reader.length(
            f"{where} length", vent.length, at_least=0.0 if math.isnan(size) else size + 1.0,
            at_most=400.0, why="a slot is longer than wide",
        )  # fmt: skip
    count = _count(reader, where, vent, length * size - (1.0 - math.pi / 4.0) * size**2)
    wood = reader.rules[LEAST_OPENING_WOOD]
    spacing = reader.length(
        f"{where} spacing", vent.spacing,
        at_least=0.0 if math.isnan(size) or count == 1 else size + wood,
        why=f"{reader.least(wood)} of wood stay between two vents (own rule)",
    )  # fmt: skip
    left, edge = _place(reader, where, vent.from_left, vent.from_edge)
    return [
        Hole(
            parameter=where, on=name, size=size, reach=size / 2, half_length=length / 2,
            aside=(index - (count - 1) / 2) * spacing, from_left=left, from_edge=edge,
            purpose=OpeningFor.AIR,
        )
        for name in _meant(reader, where, vent.on, names)
        for index in range(count)
    ]  # fmt: skip


def _count(reader: DesignReader, where: str, vent: Vent, free_mm2: float) -> int:
    """How many vents there are: as given, or as many as let the air pass."""
    most = int(reader.rules[MOST_VENTS])
    if vent.passes is None:
        return read_count(reader, f"{where} count", vent.count, most)
    if is_given(vent, "count"):
        reader.refuse(
            f"{where} count", said(vent.count), "nothing", "it follows from the air that must pass",
            "leave out count, or passes",
        )  # fmt: skip
    if not isinstance(vent.passes, Air):
        reader.refuse(
            f"{where} passes", said(vent.passes), "Air(...)", "air passes a vent",
            "write Air(area='30 cm2')",
        )  # fmt: skip
        return 1
    area = read_free_area(reader, f"{where} passes", vent.passes)
    if math.isnan(area) or math.isnan(free_mm2):
        return 1
    count = math.ceil(area / free_mm2 - 1e-9)
    if count <= most:
        return count
    amounts = Amounts(shown=reader.shown)
    reader.refuse(
        f"{where} passes", amounts.area(area), f"up to {amounts.area(most * free_mm2)}",
        f"a row has up to {most} vents, and this one would have {count}",
        "make the vents larger, or state a second row",
    )  # fmt: skip
    return 1


def _size(reader: DesignReader, parameter: str, given: object, least: float, most: float) -> float:
    why = "bits of this size exist, and a larger hole is a cut-out"
    return reader.length(parameter, given, at_least=least, at_most=most, why=why)


def _place(reader: DesignReader, where: str, left: object, edge: object) -> tuple[float, float]:
    why = "it is a distance into the part"
    given = {"from_left": left, "from_edge": edge}
    found = [
        math.nan
        if value is None
        else reader.length(f"{where} {name}", value, at_least=0.0, why=why)
        for name, value in given.items()
    ]
    return (found[0], found[1])


def _meant(reader: DesignReader, where: str, on: object, names: Names) -> tuple[str, ...]:
    meant = names.meant_by(on)
    if not meant:
        reader.refuse(
            f"{where} on", said(on), names.listed, "an opening is through a part",
            names.remedy(on),
        )  # fmt: skip
    return meant


def _refuse_upright_drains(
    reader: DesignReader, where: str, on: str, meant: Sequence[str], names: Names
) -> None:
    if not set(meant) <= set(names.level):
        reader.refuse(
            f"{where} on", said(on), "a tier, the lid or the bottom", "water drains downwards",
            "write 'tiers', or purpose=OpeningFor.CABLE",
        )  # fmt: skip


def bushings_of(openings: Sequence[Opening], holes: Sequence[Hole]) -> list[Bought]:
    """The bushings that openings with a flange are made for.

    Args:
        openings: as the maker stated them, every one an opening.
        holes: as `read_openings` gives them, all figures known.
    """
    made_for = {
        counted("opening", index)
        for index, opening in enumerate(openings)
        if opening.flange is not None
    }
    return [
        Bought(
            name="bushing",
            quantity=1,
            diameter_mm=hole.size,
            where=(hole.on,),
            note="the diameter is its body's; its rim covers the edge of the opening",
        )
        for hole in holes
        if hole.parameter in made_for
    ]


def _passing(passes: Plug | Cable) -> str:
    if isinstance(passes, Plug):
        return f"a plug of {passes.width} by {passes.thickness}"
    return "a cable" if passes.count == 1 else f"{passes.count} cables together"


def opening_notes(openings: Sequence[Opening], names: Names) -> tuple[Note, ...]:
    """What the sheets say of plugs, bushings and drains."""
    found = []
    for opening in openings:
        said = []
        if opening.passes is not None and not isinstance(opening.passes, Air):
            said.append(f"{_passing(opening.passes)} passes its opening")
        if opening.flange is not None:
            said.append(f"press a bushing of {opening.size} body into its opening")
        if is_meant(opening.purpose, OpeningFor.DRAIN):
            said.append("seal the end grain inside the drain before use")
        found += [Note(f"{opening.on}: {each}", names.meant_by(opening.on)) for each in said]
    return tuple(dict.fromkeys(found))
